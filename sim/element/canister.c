/* sim/element/canister.c  The carbon canister: a space on the side of tank and purge, beds of carbon as rows of cells, a
 * space on the side of the air.
 *
 * Every cell holds gas and carbon; between cells stands the flow resistance of the bed (Ergun). A stretch from an end space
 * to the middle of the first cell is half as long as one between cells, so that the whole length is there.
 *
 * Liquid fuel that comes by the line from the tank, or was there at the start, lies in a `sump` below the space at that end,
 * as wide as the first bed, and evaporates into its gas. From the brim of the sump on no more runs in: it does not get into
 * the bed from there.
 *
 * What a bed can suffer, each a share that is nothing at 0:
 *   wet        so much liquid fuel got in as fills this share of its pores and voids. The grains have taken up what they hold
 *              over the scenario's fuel (some 30 % of that room for fresh carbon), or as many of them as it goes round for.
 *              The rest lies between them: less room for gas, narrower ways (Ergun with the voids that are left). It
 *              evaporates into the gas of its cell, through a grain's radius of gas at rest and from a surface of
 *              WET_AREA, so that it is at rest with that; as it goes the ways widen again, and the grains give up what they
 *              hold after it. It lies where it is: it neither seeps nor creeps from cell to cell.
 *   channelled this share of the flow finds a way beside the carbon (a bed that has settled): a second passage from the
 *              place before the bed to the place behind, under the same law with c/(1 - c) of the section. All the carbon
 *              is still there, the pressure lost is less, and what goes by meets none of it.
 *   dusted     fines fill this share of the voids: narrower ways, less room, and grains of a finer mean (that of equal
 *              surface over volume). Fines hold nothing.
 *   aged       heavy ends hold this share of all sites for ever; `lost` takes the strongest ones alone.
 *
 * What comes while a run goes on stands among the canister's own parameters, for all its beds at once, on top of what each
 * began with; `wet` is poured into the voids of all cells (network/pouring.h), and the grains take it up from there. Aged carbon then lets go of what it can hold no longer, as fast as it takes up. Of the room for gas that fines
 * take, nothing is booked then. */
#include "element/elements.h"
#include "law/passages.h"
#include "law/sum.h"

#include <string.h>

enum { END_SPACE, WALL_THICKNESS, FILM, OUTER_FILM, AGED, DUSTED, CHANNELLED, SUMP, LIQUID };

enum {
    BED_VOLUME,
    BED_LENGTH,
    BED_CELLS,
    BED_CAPACITY,
    BED_HEAT,
    BED_LOST,
    BED_AGED,
    BED_WET,
    BED_CHANNELLED,
    BED_DUSTED
};

enum { BED_CARBON };

enum { SHOWN_DROP, SHOWN_HOTTEST, SHOWN_COLDEST, SHOWN_LOAD, SHOWN_LIQUID };

static const struct row canister_parameter[] = {
    {"end_space", ULLAGE_VOLUME, 5e-5, 1e-7, 1e-2, "gas at either end of the beds", false},
    {"wall_thickness", ULLAGE_LENGTH, 2e-3, 0.0, 0.1, "of plastic; 0: no wall, the beds see the surroundings", false},
    {"film", ULLAGE_HEAT_TRANSFER, 8.0, 0.0, 1e4, "heat transfer between bed and wall", false},
    {"outer_film", ULLAGE_HEAT_TRANSFER, COMPUTED, 0.0, 1e4, "heat transfer between wall and surroundings", false},
    {"aged", ULLAGE_NUMBER, 0.0, 0.0, 0.9, "share of all sites of all its beds that heavy ends have come to hold", true},
    {"dusted", ULLAGE_NUMBER, 0.0, 0.0, 0.6, "share of the voids of all its beds that fines have come to fill", true},
    {"channelled", ULLAGE_NUMBER, 0.0, 0.0, 0.9, "share of the flow that has come to go beside the carbon", true},
    {"sump", ULLAGE_VOLUME, 0.0, 0.0, 1e-2, "liquid that its end at the tank holds; 0: as much as lies there", false},
    {"liquid", ULLAGE_VOLUME, 0.0, 0.0, 1e-2, "fuel that lies there at the start", false},
    {0}};

static const struct row canister_bed[] = {
    {"volume", ULLAGE_VOLUME, REQUIRED, 1e-6, 1.0, "of the bed, grains and all", false},
    {"length", ULLAGE_LENGTH, REQUIRED, 1e-2, 5.0, "of the way through it", false},
    {"cells", ULLAGE_NUMBER, 20.0, 1.0, 80.0, "cells along it", false},
    {"capacity", ULLAGE_NUMBER, 1.0, 0.05, 5.0, "factor on what its carbon holds", false},
    {"heat", ULLAGE_NUMBER, 1.0, 0.0, 3.0, "factor on the heat of adsorption", false},
    {"lost", ULLAGE_NUMBER, 0.0, 0.0, 1.0, "share of the strongest sites that old heavy ends hold", false},
    {"aged", ULLAGE_NUMBER, 0.0, 0.0, 0.9, "share of all sites that old heavy ends hold", false},
    {"wet", ULLAGE_NUMBER, 0.0, 0.0, 0.9, "share of its pores and voids that liquid fuel got into", false},
    {"channelled", ULLAGE_NUMBER, 0.0, 0.0, 0.9, "share of the flow that goes beside its carbon", false},
    {"dusted", ULLAGE_NUMBER, 0.0, 0.0, 0.6, "share of the voids that fines have filled", false},
    {0}};

/* In the order of the carbon table, and none: gas alone, as much as the table's first carbon leaves. */
static const char *const carbons[] = {"stock", "dense", "none", NULL};
static const struct word_row canister_bed_word[] = {{"carbon", carbons, 0, "what fills the bed"}, {0}};

enum { NO_CARBON = 2 };

static const struct show_row canister_shows[] = {
    {"drop", ULLAGE_PRESSURE, "pressure lost through the beds, from the tank's side to the air's"},
    {"hottest", ULLAGE_TEMPERATURE, "of its cells"},
    {"coldest", ULLAGE_TEMPERATURE, "of its cells"},
    {"load", ULLAGE_MASS, "fuel vapor that its carbon holds"},
    {"liquid", ULLAGE_VOLUME, "liquid fuel in its sump and its beds"},
    {0}};

static const char *const canister_openings[] = {"tank", "purge", "air", NULL};

static bool is_air_side(const char *port)
{
    return !strcmp(port, "air");
}

static const struct carbon *bed_carbon(const struct part_bed *bed)
{
    const int kind = bed->word[BED_CARBON];
    return &carbon_table(NULL)[kind == NO_CARBON ? 0 : kind];
}

#define FINES 2e-4 /* m: dust of worn pellets, from memory */

/* What gas and liquid fill, what gas flows through, and what drags it. */
struct bed_inside {
    double gas_share, void_share, grain; /* of the bed; of the bed; m */
};

static struct bed_inside bed_inside(const struct part_bed *bed)
{
    const struct carbon *carbon = bed_carbon(bed);
    const double fines = carbon->void_share * bed->value[BED_DUSTED];
    const double solid = 1.0 - carbon->void_share;
    return (struct bed_inside){
        .gas_share = carbon->gas_share - fines,
        .void_share = carbon->void_share - fines,
        .grain = (solid + fines) / (solid / carbon->grain + fines / FINES),
    };
}

/* From the start on, or as soon as a fault has come. */
static bool is_wet(const struct blueprint *into, int part, const struct part_bed *bed)
{
    return into->fuelled && (bed->value[BED_WET] > 0.0 || into->part[part].awaits);
}

#define WET_AREA 2.0   /* m2 of wet grains in a L of bed: what pellets of 2 mm have outside */
#define WET_WARMTH 1e3 /* W/K of a L of bed between liquid and grains: they touch */
#define LITRE 1e-3
#define SUMP_WARMTH 5.0  /* W/m2/K between the air and liquid that lies on a wall, and */
#define SUMP_SURFACE 3.0 /* between it and the gas over it (from memory) */

/* Liquid between the grains of a cell. Of its shape only how full it is matters. */
static void wet_cell(const struct blueprint *into, const struct part_bed *bed, struct volume_plan *plan)
{
    const double volume = bed->value[BED_VOLUME] / floor(bed->value[BED_CELLS]);
    const double area = WET_AREA * volume / LITRE;
    plan->shape = shape_box(plan->volume, plan->volume / area);
    plan->liquid_in = plan->over = into->volumes;
    plan->liquid_share = 1.0;
    plan->liquid = (struct pool_plan){.brim = plan->volume, /* how much is left between them: network/wetting.c */
                                      .asleep = !(bed->value[BED_WET] > 0.0),
                                      .surface = WET_WARMTH / WET_AREA,
                                      .transfer = liquid_transfer,
                                      .path = 0.5 * bed_inside(bed).grain};
}

static double sump(const double *v)
{
    return fmax(v[SUMP], v[LIQUID]);
}

/* The space at the tank's end, with what lies under it. */
static struct volume_plan inner_space(const struct blueprint *into, int part, const struct shell *shell)
{
    const struct part *here = &into->part[part];
    const double *v = here->value, face = here->bed[0].value[BED_VOLUME] / here->bed[0].value[BED_LENGTH];
    struct volume_plan plan = shell_plan(part, v[END_SPACE], 0.0, *shell);
    if (!into->fuelled || !(sump(v) > 0.0))
        return plan;
    plan.volume += sump(v);
    plan.shape = shape_box(sump(v), sump(v) / face);
    plan.liquid_in = plan.over = into->volumes;
    plan.liquid_share = 1.0;
    plan.liquid = (struct pool_plan){.begun = v[LIQUID],
                                     .brim = sump(v),
                                     .surface = SUMP_SURFACE,
                                     .transfer = liquid_transfer,
                                     .film = heat_fixed(SUMP_WARMTH * face)};
    return plan;
}

/* Wall of a cell: its share of the mantle of a round bed. */
static struct volume_plan cell_plan(const struct blueprint *into, int part, const struct part_bed *bed)
{
    const struct part *here = &into->part[part];
    const double *v = here->value, cells = floor(bed->value[BED_CELLS]);
    const struct carbon *carbon = bed_carbon(bed);
    const double face = bed->value[BED_VOLUME] / bed->value[BED_LENGTH], length = bed->value[BED_LENGTH] / cells;
    const struct shell shell = {2.0 * sqrt(M_PI * face) * length,
                                v[WALL_THICKNESS],
                                v[FILM],
                                v[OUTER_FILM],
                                SURFACE_STANDS,
                                bed->value[BED_LENGTH]};
    const double volume = bed->value[BED_VOLUME] / cells;
    struct volume_plan plan = shell_plan(part, volume * bed_inside(bed).gas_share, 0.0, shell);
    if (is_wet(into, part, bed))
        wet_cell(into, bed, &plan);
    plan.wet = into->fuelled || bed->word[BED_CARBON] != NO_CARBON ? bed->value[BED_WET] : 0.0;
    if (bed->word[BED_CARBON] == NO_CARBON)
        return plan;
    plan.carbon = volume * carbon->density;
    plan.carbon_kind = bed->word[BED_CARBON];
    plan.uptake = carbon->uptake_rate;
    plan.aged = AGED;
    plan.grade = (struct carbon_grade){bed->value[BED_CAPACITY] * (1.0 - bed->value[BED_AGED]), bed->value[BED_HEAT],
                                       bed->value[BED_LOST]};
    return plan;
}

static void canister_stores(struct blueprint *into, int part)
{
    liquid_check(into, part, LIQUID);
    const struct part *here = &into->part[part];
    const double *v = here->value;
    const struct shell shell = {0.0, v[WALL_THICKNESS], v[FILM], v[OUTER_FILM], SURFACE_STANDS, 0.0};
    const int inner = blueprint_volume(into, inner_space(into, part, &shell));
    for (int b = 0; b < here->beds; b++)
        for (int c = 0; c < (int)here->bed[b].value[BED_CELLS]; c++)
            blueprint_volume(into, cell_plan(into, part, &here->bed[b]));
    const int outer = blueprint_volume(into, shell_plan(part, v[END_SPACE], 0.0, shell));
    blueprint_opening(into, part, "", inner);
    for (int k = 0; k < here->openings; k++)
        blueprint_opening(into, part, here->opening[k].name, is_air_side(here->opening[k].name) ? outer : inner);
    for (int k = 0; !here->openings && canister_openings[k]; k++)
        blueprint_opening(into, part, canister_openings[k], is_air_side(canister_openings[k]) ? outer : inner);
}

/* m, and share of the bed. */
struct grains {
    double size, voids;
};

/* Fines in the voids that are there: grains of a finer mean and fewer voids, as in bed_inside. */
static struct grains grains_now(const struct passage_view *at)
{
    const double *c = at->constant, dusted = at->parameter[DUSTED];
    if (!(dusted > 0.0))
        return (struct grains){c[2], c[3]};
    const double fines = c[3] * dusted, solid = 1.0 - c[3];
    return (struct grains){(solid + fines) / (solid / c[2] + fines / FINES), c[3] - fines};
}

static struct flow canister_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const struct grains grains = grains_now(at);
    return bed_flow(at->constant[0], at->constant[1], grains.size, grains.voids, a, b);
}

/* The way that has come to be beside a bed: of c/(1 - c) of its section, for c of the flow. */
static struct flow channel_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const double share = at->parameter[CHANNELLED];
    return share > 0.0 ? flow_times(canister_flow(at, a, b), share / (1.0 - share)) : (struct flow){0};
}

#define DRENCHED 0.02  /* share of the voids that a gas always finds open */
#define TORTUOSITY 1.6 /* of the way around grains; 1/sqrt(void share), from memory */

/* With liquid in the voids: share of the stretch's own mean, half of it in either cell. At an end of the bed the one cell
 * is all there is. */
static struct flow canister_wet_flow(const struct passage_view *at, const struct gas *a, const struct gas *b,
                                     struct wet *wet)
{
    const double half = wet->full_a >= 0.0 && wet->full_b >= 0.0 ? 0.5 : 1.0;
    const double by_a = wet->full_a >= 0.0 ? half : 0.0, by_b = wet->full_b >= 0.0 ? half : 0.0;
    const double filled = by_a * wet->full_a + by_b * wet->full_b, *c = at->constant;
    const struct grains grains = grains_now(at);
    const double open = fmax(1.0 - filled, DRENCHED), moves = 1.0 - filled > DRENCHED ? grains.voids : 0.0;
    const double slope = -moves * bed_void_slope(c[0], c[1], grains.size, grains.voids * open, a, b);
    wet->flow_by_a = by_a * slope;
    wet->flow_by_b = by_b * slope;
    wet->open = open;
    wet->open_by_a = moves > 0.0 ? -by_a : 0.0;
    wet->open_by_b = moves > 0.0 ? -by_b : 0.0;
    return bed_flow(c[0], c[1], grains.size, grains.voids * open, a, b);
}

/* A stretch of `length` between two neighbouring places; its share of the bed is what it crosses. The cell on a side may be
 * wet. */
static void bed_passage(struct blueprint *into, int part, int a, const struct part_bed *bed, double length, bool wet_a,
                        bool wet_b)
{
    const struct bed_inside inside = bed_inside(bed);
    const double face = bed->value[BED_VOLUME] / bed->value[BED_LENGTH];
    blueprint_passage(into, (struct passage_plan){.part = part,
                                                  .a = a,
                                                  .b = a + 1,
                                                  .law = canister_flow,
                                                  .wet = wet_a || wet_b ? canister_wet_flow : NULL,
                                                  .wet_a = wet_a,
                                                  .wet_b = wet_b,
                                                  .constant = {face, length, inside.grain, inside.void_share},
                                                  .joint_of = -1,
                                                  .reach = face * inside.void_share / (TORTUOSITY * length),
                                                  .conduct = face * bed_carbon(bed)->conductivity / length});
}

/* The way beside the carbon of a channelled bed, from the place before its first cell to that behind its last. */
static void bed_channel(struct blueprint *into, int part, int before, const struct part_bed *bed)
{
    const struct bed_inside inside = bed_inside(bed);
    const double share = bed->value[BED_CHANNELLED], length = bed->value[BED_LENGTH];
    const double face = bed->value[BED_VOLUME] / length * share / (1.0 - share);
    const int cells = (int)bed->value[BED_CELLS];
    if (share > 0.0)
        blueprint_passage(into, (struct passage_plan){.part = part,
                                                      .a = before,
                                                      .b = before + cells + 1,
                                                      .law = canister_flow,
                                                      .constant = {face, length, inside.grain, inside.void_share},
                                                      .joint_of = -1,
                                                      .beside = cells + 1,
                                                      .reach = face * inside.void_share / (TORTUOSITY * length)});
    if (into->part[part].keeps)
        blueprint_passage(into, (struct passage_plan){.part = part,
                                                      .a = before,
                                                      .b = before + cells + 1,
                                                      .law = channel_flow,
                                                      .constant = {bed->value[BED_VOLUME] / length, length,
                                                                   inside.grain, inside.void_share},
                                                      .joint_of = -1,
                                                      .beside = cells + 1});
}

/* Viscous loss of a bed per length and flow, up to a constant: (1 - e)^2 / (area grain^2 e^3). */
static double viscous_measure(const struct part_bed *bed)
{
    const struct bed_inside inside = bed_inside(bed);
    const double e = inside.void_share, face = bed->value[BED_VOLUME] / bed->value[BED_LENGTH];
    return (1.0 - e) * (1.0 - e) / (face * inside.grain * inside.grain * e * e * e);
}

/* Half a cell of this bed and, before its first cell, half of the last one of the bed before, told as a length of this. */
static double first_stretch(const struct part_bed *bed, const struct part_bed *before)
{
    const double own = 0.5 * bed->value[BED_LENGTH] / floor(bed->value[BED_CELLS]);
    if (!before)
        return own;
    const double other = 0.5 * before->value[BED_LENGTH] / floor(before->value[BED_CELLS]);
    return own + other * viscous_measure(before) / viscous_measure(bed);
}

static void canister_passages(struct blueprint *into, int part)
{
    const struct part *here = &into->part[part];
    int place = blueprint_place(into, part, "");
    for (int b = 0; b < here->beds; b++) {
        const struct part_bed *bed = &here->bed[b];
        const int cells = (int)bed->value[BED_CELLS];
        const bool wet = is_wet(into, part, bed);
        bed_channel(into, part, place, bed);
        bed_passage(into, part, place++, bed, first_stretch(bed, b > 0 ? bed - 1 : NULL),
                    b > 0 && is_wet(into, part, bed - 1), wet);
        for (int c = 1; c < cells; c++)
            bed_passage(into, part, place++, bed, bed->value[BED_LENGTH] / cells, wet, wet);
        if (b == here->beds - 1)
            bed_passage(into, part, place, bed, 0.5 * bed->value[BED_LENGTH] / cells, wet, false);
    }
}

static void canister_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[SHOWN_DROP] = at->volume[0].gas.excess - at->volume[at->volumes - 1].gas.excess;
    shown[SHOWN_HOTTEST] = shown[SHOWN_COLDEST] = at->volume[0].gas.temperature;
    shown[SHOWN_LOAD] = shown[SHOWN_LIQUID] = 0.0;
    for (int v = 0; v < at->volumes; v++)
        shown[SHOWN_LIQUID] += at->volume[v].liquid ? fmax(at->volume[v].liquid->volume, 0.0) : 0.0;
    for (int v = 1; v + 1 < at->volumes; v++) { /* between the spaces at either end */
        const double temperature = at->volume[v].gas.temperature;
        shown[SHOWN_LOAD] += at->volume[v].loaded;
        shown[SHOWN_HOTTEST] = v > 1 ? fmax(shown[SHOWN_HOTTEST], temperature) : temperature;
        shown[SHOWN_COLDEST] = v > 1 ? fmin(shown[SHOWN_COLDEST], temperature) : temperature;
    }
}

const struct element_kind canister_kind = {
    .name = "canister",
    .meaning = "the carbon canister: beds of carbon between the tank's side and the air's",
    .parameter = canister_parameter,
    .fault = canister_fault,
    .shows = canister_shows,
    .has_volumes = true,
    .opening = canister_openings,
    .port_list = true,
    .bed = canister_bed,
    .bed_word = canister_bed_word,
    .stores = canister_stores,
    .passages = canister_passages,
    .show = canister_show,
};
