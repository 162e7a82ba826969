/* sim/element/line.c  A line: a row of gas cells with the friction of its length between them.
 *
 * Where an end meets a gas space the line makes the passage to it; where it meets a valve, hole or cap, that part makes
 * the passage and the line's last cell stands right at it. So `cells` cells have cells + 1, cells or cells - 1 passages,
 * and the length is shared out over them: the whole resistance is there in every case. */
#include "element/elements.h"
#include "law/passages.h"

enum { BORE, LENGTH, ROUGHNESS, LOSS, CELLS, GIVE, WALL_THICKNESS, OUTER_FILM, PINCHED, FILTER };

enum { FROM, TO };

#define LAMINAR_NUSSELT 3.66   /* developed laminar flow, wall of one temperature (textbook) */
#define AIR_CONDUCTIVITY 0.026 /* W/m/K near 300 K */

static const struct row line_parameter[] = {
    {"bore", ULLAGE_LENGTH, REQUIRED, 1e-4, 1.0, "inside diameter", false},
    {"length", ULLAGE_LENGTH, REQUIRED, 1e-3, 1e3, "along its centre", false},
    {"roughness", ULLAGE_LENGTH, 0.0, 0.0, 1e-3, "of the inner wall", false},
    {"loss", ULLAGE_NUMBER, 0.0, 0.0, 1e3, "sum of loss factors of bends, couplings, entrance, exit", false},
    {"cells", ULLAGE_NUMBER, 1.0, 1.0, 40.0, "gas cells along it: more where fronts or pulses matter", false},
    {"give", ULLAGE_GIVE, 0.0, 0.0, 1e-6, "volume gained per pressure, whole line", false},
    {"wall_thickness", ULLAGE_LENGTH, 1.5e-3, 0.0, 0.05, "of plastic; 0: no wall", false},
    {"outer_film", ULLAGE_HEAT_TRANSFER, COMPUTED, 0.0, 1e4, "heat transfer between wall and surroundings", false},
    {"pinched", ULLAGE_NUMBER, 0.0, 0.0, 1.0, "share of its section that is squeezed or stuffed shut at one place", true},
    {"filter", ULLAGE_PRESSURE, 0.0, 0.0, 1e5, "what a filter in it takes of air at 40 L/min", true},
    {0}};

static const struct end_row line_end[] = {{"from", true, "part, or opening of one, at its beginning"},
                                          {"to", true, "part, or opening of one, at its end"},
                                          {0}};

/* Whether the line itself makes the passage at this end. */
static bool opens_itself(const struct blueprint *at, int part, int end)
{
    return blueprint_attachment_kind(at, part, end) == ATTACHED_PLACE;
}

static int line_cells(const struct blueprint *at, int part)
{
    const int asked = (int)at->part[part].value[CELLS];
    const bool closed = !opens_itself(at, part, FROM) && !opens_itself(at, part, TO);
    return closed && asked < 2 ? 2 : asked; /* without a passage of its own a single cell would have no friction */
}

static void line_stores(struct blueprint *into, int part)
{
    const double *v = into->part[part].value;
    const int cells = line_cells(into, part);
    const double length = v[LENGTH] / cells;
    const struct shell shell = {
        M_PI * v[BORE] * length, v[WALL_THICKNESS], LAMINAR_NUSSELT * AIR_CONDUCTIVITY / v[BORE],
        v[OUTER_FILM],           SURFACE_LIES,      v[BORE] + 2.0 * v[WALL_THICKNESS]};
    const double volume = 0.25 * M_PI * v[BORE] * v[BORE] * length;
    int first = -1, middle = -1, last = -1;
    for (int k = 0; k < cells; k++) {
        last = blueprint_volume(into, shell_plan(part, volume, v[GIVE] / cells, shell));
        first = k == 0 ? last : first;
        middle = k == cells / 2 ? last : middle;
    }
    blueprint_opening(into, part, "", middle);
    blueprint_opening(into, part, "from", first);
    blueprint_opening(into, part, "to", last);
}

/* Of a place where `pinched` of the section is gone, in heads of the free bore: a sharp orifice in a tube [IDELCHIK1986]. */
static double pinch_loss(double pinched)
{
    const double left = 1.0 - pinched, root = 1.0 + sqrt(0.5 * pinched) - left;
    return root * root / (left * left);
}

#define FILTER_FLOW (40e-3 / 60.0) /* m3/s: what a filter is told at */
#define AIR_VISCOSITY 1.81e-5      /* Pa s, 20 degC (textbook) */

/* Whatever sits at one place of the line is shared out over its stretches as its length is. */
static struct flow line_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const double *p = at->parameter;
    const double share = at->constant[0] / p[LENGTH];
    if (p[PINCHED] >= 1.0)
        return (struct flow){0};
    const double loss = at->constant[1] + share * pinch_loss(p[PINCHED]);
    const double resists = share * p[FILTER] / (AIR_VISCOSITY * FILTER_FLOW);
    return screened_flow(p[BORE], at->constant[0], p[ROUGHNESS], loss, resists, a, b);
}

static void line_passage(struct blueprint *into, int part, int a, int b, double share, const double *height)
{
    const double *v = into->part[part].value;
    if (a == -1 || b == -1)
        return;
    const double section = 0.25 * M_PI * v[BORE] * v[BORE], stretch = v[LENGTH] * share;
    blueprint_passage(into, (struct passage_plan){.part = part,
                                                  .a = a,
                                                  .b = b,
                                                  .law = line_flow,
                                                  .constant = {v[LENGTH] * share, v[LOSS] * share},
                                                  .joint_of = -1,
                                                  .bore = v[BORE],
                                                  .height_a = height[0],
                                                  .height_b = height[1],
                                                  .reach = section / stretch,
                                                  .conduct = AIR_CONDUCTIVITY * section / stretch});
}

static void line_passages(struct blueprint *into, int part)
{
    const struct attachment from = blueprint_attachment(into, part, FROM);
    const struct attachment to = blueprint_attachment(into, part, TO);
    const int cells = line_cells(into, part);
    const int first = blueprint_place(into, part, "from");
    const bool opens[2] = {opens_itself(into, part, FROM), opens_itself(into, part, TO)};
    /* In units of one inner stretch: a stretch to a gas space beside inner ones is half as long. */
    const double end_stretch = cells > 1 || (opens[0] && opens[1]) ? 0.5 : 1.0;
    const double stretches = cells - 1 + end_stretch * (opens[0] + opens[1]);
    const double inside[2] = {0.0, 0.0}, at_from[2] = {from.height, 0.0}, at_to[2] = {0.0, to.height};
    if (opens[0])
        line_passage(into, part, from.place, first, end_stretch / stretches, at_from);
    for (int k = 0; k + 1 < cells; k++)
        line_passage(into, part, first + k, first + k + 1, 1.0 / stretches, inside);
    if (opens[1])
        line_passage(into, part, first + cells - 1, to.place, end_stretch / stretches, at_to);
}

const struct element_kind line_kind = {
    .name = "line",
    .meaning = "a tube with its own gas, friction and minor losses",
    .parameter = line_parameter,
    .fault = line_fault,
    .end = line_end,
    .has_volumes = true,
    .stores = line_stores,
    .passages = line_passages,
};
