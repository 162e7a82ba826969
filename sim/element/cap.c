/* sim/element/cap.c  A cap on an opening: off, on, or covering a part of it; on, its seal may leak. */
#include "element/elements.h"

enum { BORE, SEAL };

enum { OF, TO };

static const struct row cap_parameter[] = {
    {"bore", ULLAGE_LENGTH, 38e-3, 1e-3, 0.5, "of the opening it covers", true},
    {"seal_leak", ULLAGE_LENGTH, 0.0, 0.0, 0.1, "thin round hole that its seal is like", true},
    {0}};

static const char *const rests[] = {"on", "off", NULL};
static const struct word_row cap_word[] = {{"normally", rests, 0, "before any command"}, {0}};

static const struct end_row cap_end[] = {
    {"of", true, "gas space whose opening it covers"}, {"to", false, "what lies outside it; left out: air"}, {0}};

static const struct command_row cap_command[] = {{"on", 0.0}, {"off", 1.0}, {0}};

static const struct show_row cap_shows[] = {{"open", ULLAGE_NUMBER, "share of the opening that it leaves free"}, {0}};

static struct flow cap_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    return closure_flow(at, at->parameter[BORE], at->parameter[SEAL], a, b);
}

static void cap_passages(struct blueprint *into, int part)
{
    const struct part *here = &into->part[part];
    const struct attachment of = blueprint_attachment(into, part, OF);
    const struct attachment to =
        here->end[TO].part ? blueprint_attachment(into, part, TO) : (struct attachment){ATTACHED_PLACE, PLACE_AIR, -1};
    if (of.kind == ATTACHED_PLACE && to.kind == ATTACHED_PLACE)
        blueprint_passage(into, (struct passage_plan){.part = part,
                                                      .a = of.place,
                                                      .b = to.place,
                                                      .law = cap_flow,
                                                      .joint_of = -1,
                                                      .bore = here->value[BORE]});
}

static double cap_at_rest(const struct part *part)
{
    return part->word[0] == 0 ? 0.0 : 1.0;
}

static void cap_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[0] = at->opening;
}

const struct element_kind cap_kind = {
    .name = "cap",
    .meaning = "covers an opening: on, off, or leaving a share of it free",
    .parameter = cap_parameter,
    .word = cap_word,
    .end = cap_end,
    .command = cap_command,
    .at_rest = cap_at_rest,
    .shows = cap_shows,
    .is_passage = true,
    .passages = cap_passages,
    .show = cap_show,
};
