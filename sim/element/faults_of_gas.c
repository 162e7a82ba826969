/* sim/element/faults_of_gas.c  What can be wrong with parts that keep gas, and with what stands at it. Sizes are what is met with, not statistics: common
 * practice, no source. Names are the trade's plain words; 0 of any size is no fault. */
#include "element/elements.h"

#include <string.h>

#define MM *1e-3
#define KPA *1e3
#define LITRES *1e-3
#define L_PER_MIN *(1e-3 / 60.0)

/* ---- which parts ---- */

static bool end_names(const struct part *part, const char *id)
{
    for (int e = 0; e < ends_count(part->kind->end); e++)
        if (part->end[e].part && !strcmp(part->end[e].part, id))
            return true;
    return false;
}

/* A line with a cap on it: a filler neck. */
static bool is_neck(const struct part *part, const struct part *all, int parts)
{
    for (int k = 0; k < parts; k++)
        if (all[k].kind == &cap_kind && end_names(&all[k], part->id))
            return true;
    return false;
}

/* A line that ends in the open, or at a valve that does. */
static bool breathes(const struct part *part, const struct part *all, int parts)
{
    bool open = end_names(part, "air");
    for (int k = 0; k < parts && !open; k++)
        open = all[k].kind == &valve_kind && end_names(&all[k], part->id) && end_names(&all[k], "air");
    return open;
}

/* A line out of the roof of a tank that no valve of its own shuts. */
static bool leaves_tank(const struct part *part, const struct part *all, int parts)
{
    bool leaves = false;
    for (int k = 0; k < parts; k++) {
        if (all[k].kind == &tank_kind && end_names(part, all[k].id))
            leaves = true;
        if (all[k].kind == &fill_limit_kind && end_names(&all[k], part->id))
            return false;
    }
    return leaves && !is_neck(part, all, parts);
}

/* ---- what keeps gas ---- */

const struct fault_row any_fault[] = {{.name = "leak",
                                       .way = FAULT_HOLE,
                                       .size = "diameter",
                                       .dimension = ULLAGE_LENGTH,
                                       .least = 0.1 MM,
                                       .usual = 0.5 MM,
                                       .most = 5 MM,
                                       .comes = "a hole from stone, rust or wear",
                                       .changes = "gas leaves there: a meter shows it, pressure does not hold"},
                                      {.name = "seal-leak",
                                       .way = FAULT_HOLE,
                                       .size = "diameter",
                                       .dimension = ULLAGE_LENGTH,
                                       .least = 0.2 MM,
                                       .usual = REQUIRED,
                                       .most = 3 MM,
                                       .comes = "a seal twisted, cut or dry",
                                       .changes = "as a leak"},
                                      {.name = "slit",
                                       .way = FAULT_HOLE,
                                       .size = "gap",
                                       .dimension = ULLAGE_LENGTH,
                                       .least = 0.005 MM,
                                       .usual = REQUIRED,
                                       .most = 0.5 MM,
                                       .comes = "a wall that has split",
                                       .changes = "as a leak, more with the pressure's first power where it is fine",
                                       .shape = "slit"},
                                      {.name = "porous-spot",
                                       .way = FAULT_HOLE,
                                       .size = "permeability",
                                       .dimension = ULLAGE_AREA,
                                       .least = 1e-15,
                                       .usual = REQUIRED,
                                       .most = 1e-11,
                                       .comes = "rust or a poor weld that lets gas through its pores",
                                       .changes = "flow goes with the pressure, not with its root",
                                       .shape = "porous"},
                                      {.name = "crack",
                                       .way = FAULT_HOLE,
                                       .size = "passes",
                                       .dimension = ULLAGE_VOLUME_FLOW,
                                       .least = 0.01 L_PER_MIN,
                                       .usual = REQUIRED,
                                       .most = 10 L_PER_MIN,
                                       .comes = "age, heat or a blow",
                                       .changes = "as a leak of no plain shape",
                                       .shape = "crack"},
                                      {0}};

const struct fault_row tank_fault[] = {
    {.name = "seal-leak",
     .way = FAULT_HOLE,
     .size = "diameter",
     .dimension = ULLAGE_LENGTH,
     .least = 0.2 MM,
     .usual = 0.5 MM,
     .most = 3 MM,
     .comes = "its seal twisted, cut or left out at a repair",
     .changes = "a meter shows a hole; mist on top of the tank; liquid where the level covers it",
     .site = FAULT_ON_OPENINGS},
    {.name = "roll-over-cracked",
     .way = FAULT_HOLE,
     .size = "gap",
     .dimension = ULLAGE_LENGTH,
     .least = 0.005 MM,
     .usual = 0.03 MM,
     .most = 0.3 MM,
     .comes = "the plastic of a valve in the roof cracked beside its weld, 8 mm long",
     .changes = "a meter shows a hole; wet when the tank is full or tilted",
     .shape = "slit",
     .given = "width",
     .gives = 8 MM},
    {.name = "seam-leak",
     .way = FAULT_HOLE,
     .size = "diameter",
     .dimension = ULLAGE_LENGTH,
     .least = 0.1 MM,
     .usual = 0.4 MM,
     .most = 2 MM,
     .comes = "a weld, a stone or a strap that has rubbed, above the liquid",
     .changes = "a meter shows a hole; pressure does not hold"},
    {.name = "overfilled",
     .way = FAULT_FILLS,
     .size = "volume",
     .dimension = ULLAGE_VOLUME,
     .least = 1 LITRES,
     .usual = 5 LITRES,
     .most = 10 LITRES,
     .comes = "topped off after the nozzle had shut itself off",
     .changes = "little gas over the liquid: pressure moves fast, liquid at the openings"},
    {.name = "wrong-blend",
     .way = FAULT_ENLIVENS,
     .size = "pressure",
     .dimension = ULLAGE_PRESSURE,
     .least = 5 KPA,
     .usual = 20 KPA,
     .most = 40 KPA,
     .comes = "winter fuel on a warm day, or one with a little alcohol in it; by so much more vapor pressure",
     .changes = "pressure builds up by itself and hides or feigns a small hole"},
    {.name = "old-fuel",
     .way = FAULT_STALES,
     .size = "pressure",
     .dimension = ULLAGE_PRESSURE,
     .least = 5 KPA,
     .usual = 20 KPA,
     .most = 35 KPA,
     .comes = "months in the tank: its light ends are gone; by so much less vapor pressure",
     .changes = "pressure builds up too little for a test that waits for it"},
    {0}};

const struct fault_row canister_fault[] = {
    {.name = "port-cracked",
     .way = FAULT_HOLE,
     .size = "diameter",
     .dimension = ULLAGE_LENGTH,
     .least = 0.2 MM,
     .usual = 1 MM,
     .most = 5 MM,
     .comes = "a blow from the road, or a hose pulled off by force",
     .changes = "a meter shows a hole; purge draws air past the bed",
     .site = FAULT_ON_OPENINGS},
    {.name = "body-cracked",
     .way = FAULT_HOLE,
     .size = "diameter",
     .dimension = ULLAGE_LENGTH,
     .least = 1 MM,
     .usual = 3 MM,
     .most = 10 MM,
     .comes = "pressure at a fill, ice, a blow",
     .changes = "a meter is off its scale; dust; vapor to the air"},
    {.name = "aged",
     .way = FAULT_ADDS,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.2,
     .usual = 0.5,
     .most = 0.8,
     .row = {"aged"},
     .comes = "heavy ends hold this share of its sites for ever",
     .changes = "breaks through early; tests for leaks pass"},
    {.name = "dusted",
     .way = FAULT_ADDS,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.1,
     .usual = 0.3,
     .most = 0.5,
     .row = {"dusted"},
     .comes = "fines of worn pellets fill this share of its voids",
     .changes = "more pressure is lost through it: slow to vent, early shut-off at a fill"},
    {.name = "channelled",
     .way = FAULT_ADDS,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.05,
     .usual = 0.2,
     .most = 0.5,
     .row = {"channelled"},
     .comes = "the bed has settled: this share of the flow finds a way beside it",
     .changes = "vapor to the air at a low load; little pressure lost",
     .keeps = true},
    {.name = "wet",
     .way = FAULT_WETS,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.05,
     .usual = 0.2,
     .most = 0.5,
     .comes = "liquid fuel has got in, from a tank filled too far or parked on a slope",
     .changes = "more pressure lost, heavy with fuel: rich for long when purged"},
    {0}};

const struct fault_row line_fault[] = {
    {.name = "chafed",
     .way = FAULT_HOLE,
     .size = "diameter",
     .dimension = ULLAGE_LENGTH,
     .least = 0.2 MM,
     .usual = 0.8 MM,
     .most = 6 MM,
     .comes = "rubbed through on a bracket, or cracked by heat",
     .changes = "a meter shows a hole; grams to the air on warm days"},
    {.name = "connector-not-home",
     .way = FAULT_HOLE,
     .size = "diameter",
     .dimension = ULLAGE_LENGTH,
     .least = 0.5 MM,
     .usual = 5 MM,
     .most = 16 MM,
     .comes = "a coupling that did not click at a repair",
     .changes = "a meter is off its scale; no pressure builds up",
     .site = FAULT_ON_ENDS},
    {.name = "neck-rusted",
     .way = FAULT_HOLE,
     .size = "passes",
     .dimension = ULLAGE_VOLUME_FLOW,
     .least = 0.02 L_PER_MIN,
     .usual = 0.3 L_PER_MIN,
     .most = 5 L_PER_MIN,
     .comes = "rust under the bracket, porous at first; volume flow at 1 kPa",
     .changes = "flow about in step with pressure; mist behind the trim",
     .shape = "crack",
     .given = "exponent",
     .gives = 0.9,
     .fits = is_neck},
    {.name = "pinched",
     .way = FAULT_ADDS,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.7,
     .usual = 0.95,
     .most = 0.99,
     .row = {"pinched"},
     .comes = "kinked or squeezed at a repair: this share of its section is gone",
     .changes = "pressure is lost on the way: slow to fill, to vent, to purge"},
    {.name = "liquid-in-low-spot",
     .way = FAULT_LIES,
     .size = "volume",
     .dimension = ULLAGE_VOLUME,
     .least = 1e-6,
     .usual = 8e-6,
     .most = 15e-6,
     .row = {"liquid"},
     .given = "low_spot",
     .gives = 20e-6,
     .comes = "overfilled, or vapor that condensed as it cooled",
     .changes = "steps and gurgling: nothing goes by until its head is passed"},
    {.name = "fill-limit-stuck",
     .way = FAULT_ADDS,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.9,
     .usual = 1.0,
     .most = 1.0,
     .row = {"pinched"},
     .comes = "the float at the tank's end of the line jammed on its seat: this share of the way is shut",
     .changes = "the tank cannot breathe: pressure at its side alone, early shut-off at a fill",
     .fits = leaves_tank},
    {.name = "nested-shut",
     .way = FAULT_ADDS,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.9,
     .usual = 1.0,
     .most = 1.0,
     .row = {"pinched"},
     .comes = "insects or mud: this share of its section is gone",
     .changes = "vacuum in purge, pressure when warm, early shut-off at a fill",
     .fits = breathes},
    {.name = "filter-dusty",
     .way = FAULT_ADDS,
     .size = "pressure",
     .dimension = ULLAGE_PRESSURE,
     .least = 0.5 KPA,
     .usual = 2 KPA,
     .most = 10 KPA,
     .row = {"filter"},
     .comes = "dust in the filter of the fresh air; pressure it takes at 40 L/min",
     .changes = "vacuum in purge, slow return to no pressure, early shut-off at a fill",
     .fits = breathes},
    {0}};
