/* tests/fuzz/description.c  Any bytes as a file of any kind: tree, description, model, or problems. Lines at the beginning
 * "#set PATH=VALUE" and "#fault KIND PART ..." are what would stand on the command line. */
#include "file/scenario.h"
#include "file/source.h"

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

enum { EDITS_MOST = 4, LINE_MOST = 200 };

struct command_line {
    char text[2][EDITS_MOST][LINE_MOST + 1];
    const char *set[EDITS_MOST], *fault[EDITS_MOST];
    int sets, faults;
};

/* Takes a line that begins with `word` off the text; its rest goes into room. Returns its bytes, or 0. */
static size_t line_taken(const char *text, size_t size, const char *word, char *room)
{
    const size_t length = strlen(word);
    const char *end = memchr(text, '\n', size);
    if (!end || size < length || memcmp(text, word, length) != 0)
        return 0;
    const size_t rest = (size_t)(end - text) - length;
    if (rest > LINE_MOST || memchr(text, '\0', length + rest))
        return 0;
    memcpy(room, text + length, rest);
    room[rest] = '\0';
    return (size_t)(end - text) + 1;
}

static size_t command_line_read(struct command_line *line, const char *text, size_t size)
{
    size_t taken = 0, more = 1;
    while (more > 0 && line->sets < EDITS_MOST && line->faults < EDITS_MOST) {
        more = line_taken(text + taken, size - taken, "#set ", line->text[0][line->sets]);
        if (more > 0) {
            line->set[line->sets] = line->text[0][line->sets];
            line->sets++;
        } else {
            more = line_taken(text + taken, size - taken, "#fault ", line->text[1][line->faults]);
            line->fault[line->faults] = line->text[1][line->faults];
            line->faults += more > 0;
        }
        taken += more;
    }
    return taken;
}

static void insist(bool holds)
{
    if (!holds)
        abort();
}

/* Good and without a problem, or bad and told with a place. */
static void answer_judged(const struct reader *reader)
{
    const int count = ullage_problems_count(reader->found);
    insist((reader->outcome == ULLAGE_GOOD) == (count == 0));
    for (int i = 0; i < count; i++) {
        const struct ullage_problem problem = ullage_problems_at(reader->found, i);
        insist(problem.wrong[0] != '\0' && problem.place.line >= 0 && problem.place.column >= 0);
        insist(strpbrk(problem.wrong, "\n\x1b") == NULL && strpbrk(problem.right, "\n\x1b") == NULL);
    }
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    struct command_line line = {0};
    const char *text = (const char *)data;
    const size_t taken = size > 0 ? command_line_read(&line, text, size) : 0;
    const struct ullage_edits edits = {.set = line.set, .sets = line.sets, .fault = line.fault, .faults = line.faults};
    struct ullage_problems *problems = ullage_problems_create();
    struct reader reader;
    if (problems && reader_begin(&reader, &edits, problems)) {
        struct node *tree = text_tree(&reader, text + taken, size - taken, (struct ullage_place){"fuzz", 1, 1});
        if (tree)
            form_checked(&reader, tree, NULL);
        reader_judge(&reader, 0);
        answer_judged(&reader);
        arena_free(reader.arena);
    }
    ullage_problems_free(problems);
    return 0;
}
