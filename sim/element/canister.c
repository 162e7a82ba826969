/* sim/element/canister.c  The canister: a space on the side of tank and purge, a space on the side of the air, and the
 * flow resistance of its beds between them (Ergun). It takes nothing up so far. */
#include "element/elements.h"
#include "law/passages.h"

#include <string.h>

enum { WALL_THICKNESS, FILM, OUTER_FILM };

enum { BED_VOLUME, BED_LENGTH, BED_GRAIN, BED_VOID, BED_GAS };

enum { SHOWN_DROP };

static const struct row canister_parameter[] = {
    {"wall_thickness", ULLAGE_LENGTH, 2e-3, 0.0, 0.1, "of plastic; 0: no wall, the gas sees the surroundings", false},
    {"film", ULLAGE_HEAT_TRANSFER, 5.0, 0.0, 1e4, "heat transfer between gas and wall", false},
    {"outer_film", ULLAGE_HEAT_TRANSFER, 6.0, 0.0, 1e4, "heat transfer between wall and surroundings", false},
    {0}};

static const struct row canister_bed[] = {
    {"volume", ULLAGE_VOLUME, REQUIRED, 1e-5, 1.0, "of the bed, grains and all", false},
    {"length", ULLAGE_LENGTH, REQUIRED, 1e-2, 5.0, "of the way through it", false},
    {"grain", ULLAGE_LENGTH, 2e-3, 1e-4, 2e-2, "diameter of a grain", false},
    {"void_share", ULLAGE_NUMBER, 0.35, 0.2, 0.9, "share of the bed between the grains", false},
    {"gas_share", ULLAGE_NUMBER, 0.6, 0.2, 1.0, "share of the bed that is gas, pores of the grains included", false},
    {0}};

static const char *const carbons[] = {"stock", NULL};
static const struct word_row canister_bed_word[] = {{"carbon", carbons, 0, "what fills the bed"}, {0}};

static const struct show_row canister_shows[] = {
    {"drop", ULLAGE_PRESSURE, "pressure lost through the beds, from the tank's side to the air's"}, {0}};

static const char *const canister_openings[] = {"tank", "purge", "air", NULL};

static double gas_volume(const struct part *part)
{
    double sum = 0.0;
    for (int k = 0; k < part->beds; k++)
        sum += part->bed[k].value[BED_VOLUME] * part->bed[k].value[BED_GAS];
    return sum;
}

static bool is_air_side(const char *port)
{
    return !strcmp(port, "air");
}

static void canister_stores(struct blueprint *into, int part)
{
    const struct part *here = &into->part[part];
    const double *v = here->value;
    const struct shell shell = {0.0, v[WALL_THICKNESS], v[FILM], v[OUTER_FILM]};
    const double half = 0.5 * gas_volume(here);
    const int inner = blueprint_volume(into, shell_plan(part, half, 0.0, shell));
    const int outer = blueprint_volume(into, shell_plan(part, half, 0.0, shell));
    blueprint_opening(into, part, "", inner);
    for (int k = 0; k < here->openings; k++)
        blueprint_opening(into, part, here->opening[k].name, is_air_side(here->opening[k].name) ? outer : inner);
    for (int k = 0; !here->openings && canister_openings[k]; k++)
        blueprint_opening(into, part, canister_openings[k], is_air_side(canister_openings[k]) ? outer : inner);
}

/* Beds one after another: one Ergun law with the first bed's grain over the summed length is exact where the beds are
 * alike; where not, lengths are stretched so that the viscous part of each is kept. */
static struct flow canister_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    return bed_flow(at->constant[0], at->constant[1], at->constant[2], at->constant[3], a, b);
}

/* Viscous loss of a bed per flow, up to a constant: length (1 - e)^2 / (area grain^2 e^3). */
static double viscous_measure(const struct part_bed *bed, double length)
{
    const double e = bed->value[BED_VOID];
    const double area = bed->value[BED_VOLUME] / bed->value[BED_LENGTH];
    return length * (1.0 - e) * (1.0 - e) / (area * bed->value[BED_GRAIN] * bed->value[BED_GRAIN] * e * e * e);
}

static void canister_passages(struct blueprint *into, int part)
{
    const struct part *here = &into->part[part];
    const struct part_bed *first = &here->bed[0];
    double viscous = 0.0;
    for (int k = 0; k < here->beds; k++)
        viscous += viscous_measure(&here->bed[k], here->bed[k].value[BED_LENGTH]);
    const int inner = blueprint_place(into, part, "");
    blueprint_passage(
        into, (struct passage_plan){
                  .part = part,
                  .a = inner,
                  .b = inner + 1,
                  .law = canister_flow,
                  .constant = {first->value[BED_VOLUME] / first->value[BED_LENGTH],
                               viscous / viscous_measure(first, 1.0), first->value[BED_GRAIN], first->value[BED_VOID]},
                  .joint_of = -1,
              });
}

static void canister_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[SHOWN_DROP] = at->volume[0].gas.excess - at->volume[1].gas.excess;
}

const struct element_kind canister_kind = {
    .name = "canister",
    .meaning = "the carbon canister: a bed between the tank's side and the air's; gas space and resistance so far",
    .parameter = canister_parameter,
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
