/* sim/element/hole.c  A hole from a gas space to another or to the air: round, slit, porous or a crack; every leak, plug
 * and drilled wall is one. Laws: law/passages.h. */
#include "element/elements.h"
#include "law/passages.h"
#include "law/sum.h"

enum { DIAMETER, WALL, WIDTH, GAP, PERMEABILITY, AREA, PASSES, EXPONENT };

enum { SHAPE, NORMALLY };

enum { ROUND, SLIT, POROUS, CRACK };

enum { FROM, TO };

#define CRACK_MEASURED_AT 1000.0 /* Pa: `passes` is told at 1 kPa */

static const struct row hole_parameter[] = {
    {"diameter", ULLAGE_LENGTH, 0.0, 0.0, 0.5, "of a round hole", true},
    {"wall", ULLAGE_LENGTH, 0.0, 0.0, 0.1, "thickness of the wall it goes through; 0: thin and sharp", true},
    {"width", ULLAGE_LENGTH, 0.0, 0.0, 1.0, "of a slit, its long side", true},
    {"gap", ULLAGE_LENGTH, 0.0, 0.0, 0.01, "of a slit, its short side", true},
    {"permeability", ULLAGE_AREA, 0.0, 0.0, 1e-8, "of a porous spot", true},
    {"area", ULLAGE_AREA, 0.0, 0.0, 1.0, "of a porous spot", true},
    {"passes", ULLAGE_VOLUME_FLOW, 0.0, 0.0, 1.0, "volume flow of a crack at 1 kPa", true},
    {"exponent", ULLAGE_NUMBER, 0.65, 0.5, 1.0, "of a crack: flow goes with this power of the pressure", true},
    {0}};

static const char *const shapes[] = {"round", "slit", "porous", "crack", NULL};
static const char *const rests[] = {"open", "plugged", NULL};
static const struct word_row hole_word[] = {
    {"shape", shapes, ROUND, "what kind of hole it is"}, {"normally", rests, 0, "before any command"}, {0}};

static const struct end_row hole_end[] = {
    {"from", true, "gas space on one side"}, {"to", true, "gas space on the other side, or air"}, {0}};

static const struct command_row hole_command[] = {{"open", 1.0}, {"plugged", 0.0}, {0}};

static const struct show_row hole_shows[] = {{"diameter", ULLAGE_LENGTH, "of a round hole, as it is now"},
                                             {"open", ULLAGE_NUMBER, "share of it that is open now"},
                                             {0}};

static struct flow round_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    return flow_times(opening_flow(at->parameter[DIAMETER], at->parameter[WALL], at->discharge, a, b), at->opening);
}

static struct flow slit_law(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const double *p = at->parameter;
    if (!(p[WIDTH] > 0.0 && p[GAP] > 0.0))
        return (struct flow){0};
    const struct flow whole = at->discharge > 0.0 ? nozzle_flow(p[WIDTH] * p[GAP], at->discharge, a, b)
                                                  : slit_flow(p[WIDTH], p[GAP], p[WALL], a, b);
    return flow_times(whole, at->opening);
}

static struct flow porous_law(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const double *p = at->parameter;
    if (!(p[PERMEABILITY] > 0.0 && p[AREA] > 0.0 && p[WALL] > 0.0))
        return (struct flow){0};
    return flow_times(porous_flow(p[PERMEABILITY], p[AREA], p[WALL], a, b), at->opening);
}

static struct flow crack_law(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const double *p = at->parameter;
    const double coefficient = p[PASSES] / pow(CRACK_MEASURED_AT, p[EXPONENT]);
    return flow_times(crack_flow(coefficient, p[EXPONENT], a, b), at->opening);
}

static passage_law *const laws[] = {round_flow, slit_law, porous_law, crack_law};

/* To a liquid: its area; a porous spot or crack holds liquid by its fineness, and lets none by. */
static double hole_seeps(const struct passage_view *at)
{
    const double *p = at->parameter;
    return sqrt(at->opening) * (p[DIAMETER] > 0.0 ? p[DIAMETER] : sqrt(4.0 / M_PI * p[WIDTH] * p[GAP]));
}

/* m of what diffuses: area over the wall and, on both sides together, pi/4 diameters, which is d for a thin round hole
 * [SAITO1968]. A slit as the round hole of its area; through pores and cracks next to nothing. */
static double hole_reaches(const struct passage_view *at)
{
    const double *v = at->parameter;
    const double area = v[DIAMETER] > 0.0 ? 0.25 * M_PI * v[DIAMETER] * v[DIAMETER] : v[WIDTH] * v[GAP];
    const double diameter = sqrt(4.0 / M_PI * area);
    return area > 0.0 ? area / (v[WALL] + 0.25 * M_PI * diameter) : 0.0;
}

static void hole_passages(struct blueprint *into, int part)
{
    const struct attachment from = blueprint_attachment(into, part, FROM);
    const struct attachment to = blueprint_attachment(into, part, TO);
    if (from.kind != ATTACHED_PLACE || to.kind != ATTACHED_PLACE)
        return;
    const struct part *here = &into->part[part];
    blueprint_passage(into, (struct passage_plan){.part = part,
                                                  .a = from.place,
                                                  .b = to.place,
                                                  .law = laws[here->word[SHAPE]],
                                                  .joint_of = -1,
                                                  .bore = here->value[DIAMETER],
                                                  .reaches = hole_reaches,
                                                  .height_a = from.height,
                                                  .height_b = to.height,
                                                  .seep = hole_seeps});
}

/* What each shape cannot do without. */
static const struct {
    int row[3], count;
} needs[] = {[ROUND] = {{DIAMETER}, 1},
             [SLIT] = {{WIDTH, GAP}, 2},
             [POROUS] = {{PERMEABILITY, AREA, WALL}, 3},
             [CRACK] = {{PASSES}, 1}};

static void hole_check(const struct part *part, struct ullage_problems *problems)
{
    const int shape = part->word[SHAPE];
    for (int k = 0; k < needs[shape].count; k++) {
        const int row = needs[shape].row[k];
        if (!part->value_at[row].line && !(part->value[row] > 0.0))
            problem_add(problems, part->at, "give it with its unit", "%s is a %s hole and has no %s", part->id,
                        shapes[shape], hole_parameter[row].name);
    }
}

static double hole_at_rest(const struct part *part)
{
    return part->word[NORMALLY] == 0 ? 1.0 : 0.0;
}

static void hole_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[0] = at->parameter[DIAMETER];
    shown[1] = at->opening;
}

const struct element_kind hole_kind = {
    .name = "hole",
    .meaning = "a hole, leak or drilled plug from one gas space to another or to the air",
    .parameter = hole_parameter,
    .word = hole_word,
    .end = hole_end,
    .command = hole_command,
    .at_rest = hole_at_rest,
    .shows = hole_shows,
    .is_passage = true,
    .check = hole_check,
    .passages = hole_passages,
    .show = hole_show,
};
