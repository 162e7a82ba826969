/* sim/element/canister.c  The carbon canister: a space on the side of tank and purge, beds of carbon as rows of cells, a
 * space on the side of the air.
 *
 * Every cell holds gas and carbon; between cells stands the flow resistance of the bed (Ergun). A stretch from an end space
 * to the middle of the first cell is half as long as one between cells, so that the whole length is there.
 *
 * What a bed can suffer, each a share that is nothing at 0:
 *   wet        liquid fuel that got in fills this share of its pores and voids: less room for gas, narrower ways (Ergun with
 *              the voids that are left), and this share of its grains begins saturated, full as over the scenario's fuel.
 *              The liquid beyond what the grains hold is no matter that evaporates: it lies where it is and takes up room,
 *              so the bed gives vapor as full carbon does, for less long than a flooded one, and stays narrow.
 *   channelled this share of the flow finds a way beside the carbon (a bed that has settled): a second passage from the
 *              place before the bed to the place behind, under the same law with c/(1 - c) of the section. All the carbon
 *              is still there, the pressure lost is less, and what goes by meets none of it.
 *   dusted     fines fill this share of the voids: narrower ways, less room, and grains of a finer mean (that of equal
 *              surface over volume). Fines hold nothing.
 *   aged       heavy ends hold this share of all sites for ever; `lost` takes the strongest ones alone.
 *
 * What comes while a run goes on stands among the canister's own parameters, for all its beds at once, on top of what each
 * began with. Aged carbon then lets go of what it can hold no longer, as fast as it takes up. Of the room for gas that fines
 * take, nothing is booked then; and a bed that was saturated keeps its share of wet. */
#include "element/elements.h"
#include "law/passages.h"
#include "law/sum.h"

#include <string.h>

enum { END_SPACE, WALL_THICKNESS, FILM, OUTER_FILM, AGED, DUSTED, CHANNELLED };

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

enum { SHOWN_DROP, SHOWN_HOTTEST, SHOWN_COLDEST, SHOWN_LOAD };

static const struct row canister_parameter[] = {
    {"end_space", ULLAGE_VOLUME, 5e-5, 1e-7, 1e-2, "gas at either end of the beds", false},
    {"wall_thickness", ULLAGE_LENGTH, 2e-3, 0.0, 0.1, "of plastic; 0: no wall, the beds see the surroundings", false},
    {"film", ULLAGE_HEAT_TRANSFER, 8.0, 0.0, 1e4, "heat transfer between bed and wall", false},
    {"outer_film", ULLAGE_HEAT_TRANSFER, COMPUTED, 0.0, 1e4, "heat transfer between wall and surroundings", false},
    {"aged", ULLAGE_NUMBER, 0.0, 0.0, 0.9, "share of all sites of all its beds that heavy ends have come to hold", true},
    {"dusted", ULLAGE_NUMBER, 0.0, 0.0, 0.6, "share of the voids of all its beds that fines have come to fill", true},
    {"channelled", ULLAGE_NUMBER, 0.0, 0.0, 0.9, "share of the flow that has come to go beside the carbon", true},
    {0}};

static const struct row canister_bed[] = {
    {"volume", ULLAGE_VOLUME, REQUIRED, 1e-6, 1.0, "of the bed, grains and all", false},
    {"length", ULLAGE_LENGTH, REQUIRED, 1e-2, 5.0, "of the way through it", false},
    {"cells", ULLAGE_NUMBER, 20.0, 1.0, 80.0, "cells along it", false},
    {"capacity", ULLAGE_NUMBER, 1.0, 0.05, 5.0, "factor on what its carbon holds", false},
    {"heat", ULLAGE_NUMBER, 1.0, 0.0, 3.0, "factor on the heat of adsorption", false},
    {"lost", ULLAGE_NUMBER, 0.0, 0.0, 1.0, "share of the strongest sites that old heavy ends hold", false},
    {"aged", ULLAGE_NUMBER, 0.0, 0.0, 0.9, "share of all sites that old heavy ends hold", false},
    {"wet", ULLAGE_NUMBER, 0.0, 0.0, 0.9, "share of its pores and voids that liquid fuel has filled", false},
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

/* What gas fills and flows through, and what drags it. */
struct bed_inside {
    double gas_share, void_share, grain; /* of the bed; of the bed; m */
};

static struct bed_inside bed_inside(const struct part_bed *bed)
{
    const struct carbon *carbon = bed_carbon(bed);
    const double fines = carbon->void_share * bed->value[BED_DUSTED];
    const double solid = 1.0 - carbon->void_share, dry = 1.0 - bed->value[BED_WET];
    return (struct bed_inside){
        .gas_share = (carbon->gas_share - fines) * dry,
        .void_share = (carbon->void_share - fines) * dry,
        .grain = (solid + fines) / (solid / carbon->grain + fines / FINES),
    };
}

/* Wall of a cell: its share of the mantle of a round bed. */
static struct volume_plan cell_plan(const struct part *here, int part, const struct part_bed *bed)
{
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
    if (bed->word[BED_CARBON] == NO_CARBON)
        return plan;
    plan.carbon = volume * carbon->density;
    plan.carbon_kind = bed->word[BED_CARBON];
    plan.uptake = carbon->uptake_rate;
    plan.wet = bed->value[BED_WET];
    plan.aged = AGED;
    plan.grade = (struct carbon_grade){bed->value[BED_CAPACITY] * (1.0 - bed->value[BED_AGED]), bed->value[BED_HEAT],
                                       bed->value[BED_LOST]};
    return plan;
}

static void canister_stores(struct blueprint *into, int part)
{
    const struct part *here = &into->part[part];
    const double *v = here->value;
    const struct shell shell = {0.0, v[WALL_THICKNESS], v[FILM], v[OUTER_FILM], SURFACE_STANDS, 0.0};
    const int inner = blueprint_volume(into, shell_plan(part, v[END_SPACE], 0.0, shell));
    for (int b = 0; b < here->beds; b++)
        for (int c = 0; c < (int)here->bed[b].value[BED_CELLS]; c++)
            blueprint_volume(into, cell_plan(here, part, &here->bed[b]));
    const int outer = blueprint_volume(into, shell_plan(part, v[END_SPACE], 0.0, shell));
    blueprint_opening(into, part, "", inner);
    for (int k = 0; k < here->openings; k++)
        blueprint_opening(into, part, here->opening[k].name, is_air_side(here->opening[k].name) ? outer : inner);
    for (int k = 0; !here->openings && canister_openings[k]; k++)
        blueprint_opening(into, part, canister_openings[k], is_air_side(canister_openings[k]) ? outer : inner);
}

/* Fines in the voids that are there: grains of a finer mean and fewer voids, as in bed_inside. */
static struct flow canister_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const double *c = at->constant, dusted = at->parameter[DUSTED];
    if (!(dusted > 0.0))
        return bed_flow(c[0], c[1], c[2], c[3], a, b);
    const double fines = c[3] * dusted, solid = 1.0 - c[3];
    return bed_flow(c[0], c[1], (solid + fines) / (solid / c[2] + fines / FINES), c[3] - fines, a, b);
}

/* The way that has come to be beside a bed: of c/(1 - c) of its section, for c of the flow. */
static struct flow channel_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const double share = at->parameter[CHANNELLED];
    return share > 0.0 ? flow_times(canister_flow(at, a, b), share / (1.0 - share)) : (struct flow){0};
}

#define TORTUOSITY 1.6 /* of the way around grains; 1/sqrt(void share), from memory */

/* A stretch of `length` between two neighbouring places; its share of the bed is what it crosses. */
static void bed_passage(struct blueprint *into, int part, int a, const struct part_bed *bed, double length)
{
    const struct bed_inside inside = bed_inside(bed);
    const double face = bed->value[BED_VOLUME] / bed->value[BED_LENGTH];
    blueprint_passage(into, (struct passage_plan){.part = part,
                                                  .a = a,
                                                  .b = a + 1,
                                                  .law = canister_flow,
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
        bed_channel(into, part, place, bed);
        bed_passage(into, part, place++, bed, first_stretch(bed, b > 0 ? bed - 1 : NULL));
        for (int c = 1; c < cells; c++)
            bed_passage(into, part, place++, bed, bed->value[BED_LENGTH] / cells);
        if (b == here->beds - 1)
            bed_passage(into, part, place, bed, 0.5 * bed->value[BED_LENGTH] / cells);
    }
}

static void canister_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[SHOWN_DROP] = at->volume[0].gas.excess - at->volume[at->volumes - 1].gas.excess;
    shown[SHOWN_HOTTEST] = shown[SHOWN_COLDEST] = at->volume[0].gas.temperature;
    shown[SHOWN_LOAD] = 0.0;
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
