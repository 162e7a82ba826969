/* sim/element/line.c  A line: a row of gas cells with the friction of its length between them.
 *
 * Where an end meets a gas space the line makes the passage to it; where it meets a valve, hole or cap, that part makes
 * the passage and the line's last cell stands right at it. So `cells` cells have cells + 1, cells or cells - 1 passages,
 * and the length is shared out over them: the whole resistance is there in every case.
 *
 * A line can have a low spot, a dip with legs of `low_spot_height`, in its middle cell. Liquid lies there that was in it at
 * the start, or ran in from a tank, by an opening that stands under liquid or a valve there; it bars the way on from there,
 * evaporates, and is taken along to what holds liquid behind (law/low_spot.h). What is more than the dip holds runs on with
 * the difference of pressure. It does not run back, and into a part that holds none it does not run at all. To liquid the
 * line is a hole that loses as much. */
#include "element/elements.h"
#include "law/dip.h"
#include "law/low_spot.h"
#include "law/passages.h"

#include <string.h>

enum {
    BORE,
    LENGTH,
    ROUGHNESS,
    LOSS,
    CELLS,
    GIVE,
    WALL_THICKNESS,
    OUTER_FILM,
    PINCHED,
    FILTER,
    LOW_SPOT,
    LOW_SPOT_HEIGHT,
    LIQUID
};

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
    {"low_spot", ULLAGE_VOLUME, 0.0, 0.0, 1e-2, "liquid that its lowest stretch holds; 0: as much as lies there",
     false},
    {"low_spot_height", ULLAGE_LENGTH, 0.05, 1e-3, 2.0, "that liquid has to be lifted by to get out of there", false},
    {"liquid", ULLAGE_VOLUME, 0.0, 0.0, 1e-2, "fuel that lies there at the start", false},
    {0}};

static const struct end_row line_end[] = {{"from", true, "part, or opening of one, at its beginning"},
                                          {"to", true, "part, or opening of one, at its end"},
                                          {0}};

/* Whether the line itself makes the passage at this end. */
static bool opens_itself(const struct blueprint *at, int part, int end)
{
    return blueprint_attachment_kind(at, part, end) == ATTACHED_PLACE;
}

/* Under the liquid of a tank. */
static bool ends_low(const struct blueprint *at, int part)
{
    const struct part_end *to = &at->part[part].end[TO];
    const int other = to->part ? blueprint_find(at, to->part) : -1;
    for (int k = 0; other >= 0 && to->opening && k < at->part[other].openings; k++)
        if (!strcmp(at->part[other].opening[k].name, to->opening))
            return at->part[other].opening[k].height > 0.0;
    return false;
}

#define DIP_MOST 0.6      /* of a cell's room: the rest is gas, and liquid on its way through */
#define AWAITED 20e-6     /* m3 of a low spot that is there for what may come; at most */
#define AWAITED_SHARE 0.5 /* of a cell's room */

/* m3 that its low spot holds; 0: it has none. */
static double low_spot(const struct blueprint *at, int part)
{
    const double *v = at->part[part].value, holds = at->fuelled ? fmax(v[LOW_SPOT], v[LIQUID]) : 0.0;
    if (holds > 0.0 || !at->fuelled || !at->part[part].awaits || ends_low(at, part))
        return holds;
    return fmin(AWAITED, AWAITED_SHARE * 0.25 * M_PI * v[BORE] * v[BORE] * v[LENGTH] / fmax(floor(v[CELLS]), 2.0));
}

static int line_cells(const struct blueprint *at, int part)
{
    const int asked = (int)at->part[part].value[CELLS];
    /* without a passage of its own a single cell would have no friction, and no way on from its low spot */
    const bool closed = !opens_itself(at, part, FROM) && !opens_itself(at, part, TO);
    const bool alone = closed || (low_spot(at, part) > 0.0 && !opens_itself(at, part, TO));
    return alone && asked < 2 ? 2 : asked;
}

/* The cell with the low spot; there is a way on from it. */
static int low_cell(const struct blueprint *at, int part)
{
    const int cells = line_cells(at, part);
    return opens_itself(at, part, TO) || cells % 2 ? cells / 2 : (cells - 1) / 2;
}

#define SHERWOOD 3.66     /* as Nusselt's number: laminar, developed (textbook) */
#define PUDDLE_WARMTH 5.0 /* W/m2/K from the air through the wall to liquid that lies on it (from memory) */
#define CELL_BRIM 0.9

/* A cell that liquid lies in, as a box as high as the dip. */
static struct volume_plan wet_cell(const struct blueprint *into, int part, struct volume_plan dry)
{
    const double *v = into->part[part].value, holds = low_spot(into, part);
    struct volume_plan plan = dry;
    plan.shape = shape_box(holds, v[LOW_SPOT_HEIGHT]);
    plan.liquid_in = plan.over = into->volumes;
    plan.liquid_share = 1.0;
    plan.liquid = (struct pool_plan){.begun = v[LIQUID],
                                     .asleep = into->part[part].awaits,
                                     .brim = CELL_BRIM * dry.volume,
                                     .surface = LAMINAR_NUSSELT * AIR_CONDUCTIVITY / v[BORE],
                                     .transfer = liquid_transfer,
                                     .path = v[BORE] / SHERWOOD,
                                     .film = heat_fixed(PUDDLE_WARMTH * holds / (0.25 * v[BORE]))};
    if (holds > DIP_MOST * dry.volume)
        problem_add(into->problems, into->part[part].value_at[v[LIQUID] > v[LOW_SPOT] ? LIQUID : LOW_SPOT],
                    "let less lie there, or give the line fewer cells",
                    "a low spot of %.3g mL is too much for %s, whose cells hold %.3g mL", 1e6 * holds,
                    into->part[part].id, 1e6 * dry.volume);
    return plan;
}

static void line_stores(struct blueprint *into, int part)
{
    liquid_check(into, part, LIQUID);
    const double *v = into->part[part].value;
    const int cells = line_cells(into, part);
    const double length = v[LENGTH] / cells;
    const struct shell shell = {
        M_PI * v[BORE] * length, v[WALL_THICKNESS], LAMINAR_NUSSELT * AIR_CONDUCTIVITY / v[BORE],
        v[OUTER_FILM],           SURFACE_LIES,      v[BORE] + 2.0 * v[WALL_THICKNESS]};
    const double volume = 0.25 * M_PI * v[BORE] * v[BORE] * length;
    const int low = low_spot(into, part) > 0.0 ? low_cell(into, part) : -1;
    int first = -1, middle = -1, last = -1;
    for (int k = 0; k < cells; k++) {
        const struct volume_plan plan = shell_plan(part, volume, v[GIVE] / cells, shell);
        last = blueprint_volume(into, k == low ? wet_cell(into, part, plan) : plan);
        first = k == 0 ? last : first;
        middle = k == cells / 2 ? last : middle;
    }
    blueprint_opening(into, part, "", middle);
    const double within = 0.5 * length / (0.25 * M_PI * v[BORE] * v[BORE]);
    blueprint_opening_within(into, part, "from", first, within);
    blueprint_opening_within(into, part, "to", last, within);
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

#define FRICTION 0.03 /* of gasoline at some m/s in a smooth tube (from memory) */

/* m: the sharp hole, Cd 0.61, that loses as much as a tube: 1/Cd^2 (d_hole/d)^-4 = 1 + loss + f L/d. */
static double line_seeps(const struct passage_view *at)
{
    const double bore = at->parameter[BORE];
    const double loses = 1.0 + at->parameter[LOSS] + FRICTION * at->parameter[LENGTH] / bore;
    return bore / pow(0.61 * 0.61 * loses, 0.25);
}

#define OVERFULL 0.3 /* beyond full: runs on as through a bore all wet */

/* Liquid of the low spot on its way to b: dragged, and what is too much. */
static void line_carries(const struct passage_view *at, const struct sloped *cover, double flow, double drop,
                         struct wet *wet)
{
    const double bore = at->parameter[BORE], section = 0.25 * M_PI * bore * bore;
    const double molar = GAS_CONSTANT * STANDARD_TEMPERATURE / STANDARD_PRESSURE;
    const struct sloped dragged = low_spot_dragged(flow * molar / section, bore);
    const struct sloped over = low_spot_cover((wet->full_a - 1.0) / OVERFULL);
    const struct sloped pushed = dip_drain(line_seeps(at), FUEL_DENSITY, FUEL_VISCOSITY, drop);
    wet->runs = section * cover->value * dragged.value + over.value * pushed.value;
    wet->runs_by_flow = cover->value * dragged.slope * molar;
    wet->runs_by_a = section * cover->slope * dragged.value + over.slope / OVERFULL * pushed.value;
    wet->runs_by_drop = over.value * pushed.slope;
}

/* Past the low spot, a to b or b to a: behind what its liquid bears; gas of b is told at the pressure that is left. */
static struct flow line_past(const struct passage_view *at, const struct gas *a, const struct gas *b, struct wet *wet)
{
    const double bears = FUEL_DENSITY * GRAVITY * at->parameter[LOW_SPOT_HEIGHT];
    const struct sloped cover = low_spot_cover(wet->full_a);
    const double drop = a->excess - b->excess;
    const struct left_over left = low_spot_left(drop, bears * cover.value);
    struct gas behind = *b;
    behind.pressure = a->pressure - left.value;
    behind.excess = a->excess - left.value;
    struct flow flow = line_flow(at, a, &behind);
    const double by_behind = flow.slope_b[GAS_PRESSURE];
    flow.slope_a[GAS_PRESSURE] += by_behind * (1.0 - left.by_drop);
    flow.slope_b[GAS_PRESSURE] = by_behind * left.by_drop;
    wet->flow_by_a = -by_behind * left.by_bears * bears * cover.slope;
    wet->open = 1.0 - cover.value;
    wet->open_by_a = -cover.slope;
    line_carries(at, &cover, flow.value, drop, wet);
    return flow;
}

static void line_passage(struct blueprint *into, int part, int a, int b, double share, const double *height, bool past)
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
                                                  .seep = line_seeps,
                                                  .wet = past ? line_past : NULL,
                                                  .wet_a = past,
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
    const int low = low_spot(into, part) > 0.0 ? low_cell(into, part) : -1;
    if (low >= 0 && to.height > 0.0)
        problem_add(into->problems, into->part[part].at, "let it begin at the tank, and end at the other part",
                    "%s has a low spot and ends under the liquid of a tank", into->part[part].id);
    if (opens[0])
        line_passage(into, part, from.place, first, end_stretch / stretches, at_from, false);
    for (int k = 0; k + 1 < cells; k++)
        line_passage(into, part, first + k, first + k + 1, 1.0 / stretches, inside, k == low);
    if (opens[1])
        line_passage(into, part, first + cells - 1, to.place, end_stretch / stretches, at_to, cells - 1 == low);
}

enum { SHOWN_LIQUID };

static const struct show_row line_shows[] = {{"liquid", ULLAGE_VOLUME, "that lies in its low spot"}, {0}};

static void line_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[SHOWN_LIQUID] = 0.0;
    for (int v = 0; v < at->volumes; v++)
        if (at->volume[v].liquid)
            shown[SHOWN_LIQUID] = fmax(at->volume[v].liquid->volume, 0.0);
}

const struct element_kind line_kind = {
    .name = "line",
    .meaning = "a tube with its own gas, friction and minor losses",
    .parameter = line_parameter,
    .fault = line_fault,
    .end = line_end,
    .has_volumes = true,
    .shows = line_shows,
    .show = line_show,
    .stores = line_stores,
    .passages = line_passages,
};
