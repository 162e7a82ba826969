/* sim/element/valve.c  A valve: a sharp round opening of its bore times how far it is open, and what its seat lets by. */
#include "element/elements.h"

enum { BORE, CLOSES_IN, SEAT };

enum { NORMALLY };

enum { FROM, TO };

static const struct row valve_parameter[] = {
    {"bore", ULLAGE_LENGTH, REQUIRED, 1e-4, 0.5, "of the wide-open valve, as a sharp round hole", true},
    {"closes_in", ULLAGE_TIME, 0.0, 0.0, 3600.0, "time to shut or to open", true},
    {"seat_leak", ULLAGE_LENGTH, 0.0, 0.0, 0.1, "thin round hole that the shut seat is like", true},
    {0}};

static const char *const rests[] = {"open", "shut", NULL};
static const struct word_row valve_word[] = {{"normally", rests, 0, "without any command"}, {0}};

static const struct end_row valve_end[] = {
    {"from", true, "gas space on one side"}, {"to", true, "gas space on the other side, or air"}, {0}};

static const struct command_row valve_command[] = {{"open", 1.0}, {"shut", 0.0}, {0}};

static const struct show_row valve_shows[] = {{"open", ULLAGE_NUMBER, "how far it is open"}, {0}};

static struct flow valve_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    return closure_flow(at, at->parameter[BORE], at->parameter[SEAT], a, b);
}

static double valve_seeps(const struct passage_view *at)
{
    const double bore = at->parameter[BORE], seat = at->parameter[SEAT];
    return sqrt(at->opening * bore * bore + (1.0 - at->opening) * seat * seat);
}

static void valve_passages(struct blueprint *into, int part)
{
    const struct attachment from = blueprint_attachment(into, part, FROM);
    const struct attachment to = blueprint_attachment(into, part, TO);
    if (from.kind == ATTACHED_PLACE && to.kind == ATTACHED_PLACE)
        blueprint_passage(into, (struct passage_plan){.part = part,
                                                      .a = from.place,
                                                      .b = to.place,
                                                      .law = valve_flow,
                                                      .joint_of = -1,
                                                      .height_a = from.height,
                                                      .height_b = to.height,
                                                      .seep = valve_seeps,
                                                      .bore = into->part[part].value[BORE],
                                                      .reach = 0.25 * M_PI * into->part[part].value[BORE]});
}

static double valve_at_rest(const struct part *part)
{
    return part->word[NORMALLY] == 0 ? 1.0 : 0.0;
}

static double valve_moves_in(const double *parameter, double from, double to)
{
    return parameter[CLOSES_IN] * fabs(to - from);
}

static void valve_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[0] = at->opening;
}

const struct element_kind valve_kind = {
    .name = "valve",
    .meaning = "opens and shuts a way for gas",
    .parameter = valve_parameter,
    .word = valve_word,
    .end = valve_end,
    .command = valve_command,
    .at_rest = valve_at_rest,
    .moves_in = valve_moves_in,
    .shows = valve_shows,
    .is_passage = true,
    .passages = valve_passages,
    .show = valve_show,
};
