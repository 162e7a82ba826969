/* sim/element/faults_of_valves.c  What can be wrong with parts that open and shut. Sizes are what is met with, not
 * statistics: common practice, no source. */
#include "element/elements.h"

#define MM *1e-3
#define KPA *1e3

/* A cap whose reliefs ever open. */
static bool relieves(const struct part *part, const struct part *all, int parts)
{
    (void)all;
    (void)parts;
    const struct row *rows = part->kind->parameter;
    const int pressure = rows_find(rows, "opening_pressure"), vacuum = rows_find(rows, "opening_vacuum");
    return part->value[pressure] < rows[pressure].most || part->value[vacuum] < rows[vacuum].most;
}

#define SEAT_LEAK                                                                                                      \
    .name = "seat-leak", .way = FAULT_WIDENS, .size = "diameter", .dimension = ULLAGE_LENGTH, .least = 0.2 MM,         \
    .usual = 0.6 MM, .most = 2 MM, .row = {"seat_leak"}, .comes = "dust on the seat, or its seal worn",                \
    .changes = "as a hole, only where shutting it should seal"

/* Seats over a float. */
#define HELD_SHUT                                                                                                      \
    .name = "stuck-shut", .way = FAULT_ADDS, .size = "share", .dimension = ULLAGE_NUMBER, .least = 0.8, .usual = 1.0,  \
    .most = 1.0, .row = {"held_shut"}, .comes = "its float jammed or gummed up: this share of the way is shut"
#define HELD_OPEN                                                                                                      \
    .name = "stuck-open", .way = FAULT_ADDS, .size = "share", .dimension = ULLAGE_NUMBER, .least = 0.1, .usual = 1.0,  \
    .most = 1.0, .row = {"held_open"}, .comes = "its float holed, or caught: this share of the way stays open"
#define FLOAT_SEAT_LEAK                                                                                                \
    .name = "seat-leak", .way = FAULT_WIDENS, .size = "diameter", .dimension = ULLAGE_LENGTH, .least = 0.2 MM,         \
    .usual = 0.6 MM, .most = 2 MM, .row = {"seat_leak"}, .comes = "gum on the seat, or a worn float",                  \
    .changes = "a little gas, and liquid, goes by where a full tank should be shut"

/* Seats under a spring. */
#define RELIEF_STUCK                                                                                                   \
    .way = FAULT_ADDS, .size = "pressure", .dimension = ULLAGE_PRESSURE, .least = 0.5 KPA, .usual = 5 KPA,             \
    .most = 50 KPA, .row = {"opening_pressure", "opening_vacuum"},                                                     \
    .comes = "corroded or gummed up: it takes so much more to lift it",                                                \
    .changes = "pressure and vacuum go further before it opens"
#define RELIEF_WEAK                                                                                                    \
    .way = FAULT_TAKES, .size = "share", .dimension = ULLAGE_NUMBER, .least = 0.3, .usual = 0.9, .most = 0.99,         \
    .row = {"opening_pressure", "opening_vacuum"}, .comes = "its spring tired: it lifts at so much less",              \
    .changes = "a flow that begins at a pressure and bends upward above it"

const struct fault_row valve_fault[] = {
    {.name = "stuck-open",
     .way = FAULT_OPENS,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.05,
     .usual = 1.0,
     .most = 1.0,
     .comes = "dirt, a spring, a cobweb: it stays open this far at least",
     .changes = "flow without a command; what it should seal is never sealed"},
    {.name = "stuck-shut",
     .way = FAULT_SHUTS,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.9,
     .usual = 1.0,
     .most = 1.0,
     .comes = "seized: this share of its opening never comes",
     .changes = "no flow when commanded; pressure where it should leave, vacuum where air should come"},
    {.name = "restricted",
     .way = FAULT_NARROWS,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.3,
     .usual = 0.6,
     .most = 0.9,
     .comes = "dirt or gum takes this share of its opening",
     .changes = "less flow at every command"},
    {.name = "slow",
     .way = FAULT_ADDS,
     .size = "delay",
     .dimension = ULLAGE_TIME,
     .least = 0.1,
     .usual = 3.0,
     .most = 10.0,
     .row = {"closes_in"},
     .comes = "gum or cold: it takes so much longer to open or shut",
     .changes = "pressure overshoots after a command"},
    {SEAT_LEAK},
    {.name = "coil-open",
     .way = FAULT_RELEASES,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.5,
     .usual = 1.0,
     .most = 1.0,
     .comes = "a broken wire: it stays where it rests without a command",
     .changes = "commands change nothing"},
    {.name = "coil-shorted",
     .way = FAULT_DRIVES,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.5,
     .usual = 1.0,
     .most = 1.0,
     .comes = "its wire touches ground: the coil is always driven",
     .changes = "it stands where a full command takes it, whatever is commanded"},
    {.name = "low-voltage",
     .way = FAULT_WEAKENS,
     .size = "share",
     .dimension = ULLAGE_NUMBER,
     .least = 0.1,
     .usual = 0.25,
     .most = 0.4,
     .comes = "an old battery, rust on a ground: the first so much of its duty moves nothing",
     .changes = "no flow at a low duty, all of it at a full one"},
    {0}};

const struct fault_row cap_fault[] = {{.name = "cap-off",
                                       .way = FAULT_OPENS,
                                       .size = "share",
                                       .dimension = ULLAGE_NUMBER,
                                       .least = 0.1,
                                       .usual = 1.0,
                                       .most = 1.0,
                                       .comes = "not put back after a fill: this share of the opening is free",
                                       .changes = "no pressure in any test, full scale of a meter"},
                                      {.name = "cap-loose",
                                       .way = FAULT_WIDENS,
                                       .size = "diameter",
                                       .dimension = ULLAGE_LENGTH,
                                       .least = 0.3 MM,
                                       .usual = 1.5 MM,
                                       .most = 5 MM,
                                       .row = {"seal_leak"},
                                       .comes = "not turned home",
                                       .changes = "as a hole at the neck; gone when it is tightened"},
                                      {.name = "cap-seal-cut",
                                       .way = FAULT_WIDENS,
                                       .size = "diameter",
                                       .dimension = ULLAGE_LENGTH,
                                       .least = 0.1 MM,
                                       .usual = 0.5 MM,
                                       .most = 1.5 MM,
                                       .row = {"seal_leak"},
                                       .comes = "its seal cut, flat, cracked or dirty",
                                       .changes = "as a small hole at the neck; tightening it does not help"},
                                      {.name = "cap-relief-stuck", RELIEF_STUCK, .fits = relieves},
                                      {.name = "cap-relief-weak", RELIEF_WEAK, .fits = relieves},
                                      {0}};

const struct fault_row relief_fault[] = {
    {.name = "relief-stuck", RELIEF_STUCK}, {.name = "relief-weak", RELIEF_WEAK}, {SEAT_LEAK}, {0}};

const struct fault_row fill_limit_fault[] = {
    {HELD_SHUT, .changes = "pressure at the tank's side alone, early shut-off at a fill; what is left breathes slowly"},
    {HELD_OPEN, .changes = "a fill does not end in time; liquid goes on into the line, and into the canister"},
    {FLOAT_SEAT_LEAK},
    {0}};

const struct fault_row roll_over_fault[] = {
    {HELD_SHUT, .changes = "a full tank cannot breathe: pressure at its side alone when it warms"},
    {HELD_OPEN, .changes = "liquid goes into the line from a tank that is overfilled"},
    {FLOAT_SEAT_LEAK},
    {0}};

const struct fault_row check_fault[] = {{.name = "stuck-shut",
                                         .way = FAULT_ADDS,
                                         .size = "pressure",
                                         .dimension = ULLAGE_PRESSURE,
                                         .least = 0.5 KPA,
                                         .usual = 20 KPA,
                                         .most = 100 KPA,
                                         .row = {"opening_pressure"},
                                         .comes = "gummed up: it takes so much more to lift it",
                                         .changes = "nothing goes through it where it should"},
                                        {.name = "flap-broken",
                                         .way = FAULT_WIDENS,
                                         .size = "diameter",
                                         .dimension = ULLAGE_LENGTH,
                                         .least = 0.5 MM,
                                         .usual = 4 MM,
                                         .most = 16 MM,
                                         .row = {"seat_leak"},
                                         .comes = "its flap cracked or broken off",
                                         .changes = "gas goes both ways: boost gets into the canister"},
                                        {0}};
