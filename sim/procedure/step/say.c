/* sim/procedure/step/say.c  say: TEXT. A sentence for the story, with values in braces. */
#include "procedure/conduct.h"
#include "procedure/message.h"
#include "procedure/step/steps.h"

/* The text with its values left out. */
static char *say_title(struct arena *arena, const char *text)
{
    char *title = arena_text(arena, text);
    char *to = title;
    for (const char *from = title; from && *from; from++) {
        const char *end = *from == '{' && from[1] != '{' ? from : NULL;
        while (end && *end && *end != '}')
            end++;
        if (end && *end) {
            *to++ = '.';
            *to++ = '.';
            from = end;
        } else {
            from += from[0] == '{' && from[1] == '{';
            *to++ = *from;
        }
    }
    if (title)
        *to = '\0';
    return title;
}

static void say_compile(struct compiler *at, int index, const struct node *content)
{
    struct step *step = &at->into->step[index];
    struct message *message = compile_take(at, sizeof *message);
    if (message)
        *message = message_read(at, content);
    step->plan = message;
    step->title = say_title(at->scope.arena, content->text);
}

static int say_act(struct ullage_run *run, int index)
{
    const struct step *step = conduct_step(run, index);
    const struct message *message = step->plan;
    conduct_tell(run, (struct ullage_event){.kind = ULLAGE_SAID, .step = index, .text = message_write(run, *message)});
    return step->after;
}

const struct step_kind say_step = {
    .verb = "say",
    .meaning = "puts a sentence into the story",
    .example = "say: \"The hole is {hole in mm} wide.\"",
    .holds = HOLDS_TEXT,
    .compile = say_compile,
    .act = say_act,
};
