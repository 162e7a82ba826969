/* sim/element/faults_of_instruments.c  What can be wrong with gauges, sensors, meters and the supplies of the shop. They act on
 * what is shown: the gas goes on as it is. Sizes are what is met with, not statistics: common practice, no source. */
#include "element/elements.h"

#define MM *1e-3
#define KPA *1e3
#define L_PER_MIN *(1e-3 / 60.0)
#define PER_MINUTE / 60.0

#define OFFSET                                                                                                         \
    .way = FAULT_ADDS, .size = "offset", .row = {"zero_error"}, .comes = "ageing, a wet vent hole, rust on a ground",  \
    .changes = "all it shows is shifted"
#define GAIN                                                                                                           \
    .name = "gain-off", .way = FAULT_ADDS, .size = "gain", .dimension = ULLAGE_NUMBER, .least = -0.6, .usual = -0.3,   \
    .most = 0.6, .row = {"gain_error"}, .comes = "a strained diaphragm, a wrong gas, dirt",                            \
    .changes = "all it shows is too little, or too much, by this share"
#define DRIFT                                                                                                          \
    .name = "drift", .way = FAULT_GROWS, .size = "rate", .row = {"zero_error"},                                        \
    .comes = "warming up, a plugged breather", .changes = "what it shows walks off, whatever it measures"
#define STUCK                                                                                                          \
    .name = "stuck", .way = FAULT_ADDS, .size = "share", .dimension = ULLAGE_NUMBER, .least = 0.5, .usual = 1.0,       \
    .most = 1.0, .row = {"stuck"}, .keeps = true,                                                                      \
    .comes = "frozen, jammed: it stays at what it showed; less than 1: it creeps after by the rest",                   \
    .changes = "no change in any test"
#define SLOW                                                                                                           \
    .name = "slow", .way = FAULT_ADDS, .size = "delay", .dimension = ULLAGE_TIME, .least = 1.0, .usual = 10.0,         \
    .most = 60.0, .row = {"time_constant"}, .keeps = true, .comes = "a blocked tube, thick oil",                       \
    .changes = "late, and peaks are cut"
#define NOISY                                                                                                          \
    .name = "noisy", .way = FAULT_ADDS, .size = "noise", .row = {"noise"},                                             \
    .comes = "fretted contacts; root of its mean square", .changes = "jumps about; nothing settles"
#define OPEN_CIRCUIT                                                                                                   \
    .name = "open-circuit", .way = FAULT_ADDS, .size = "share", .dimension = ULLAGE_NUMBER, .least = 0.1,              \
    .usual = 1.0, .most = 1.0, .row = {"open_circuit"}, .comes = "a broken wire, or this much of one",                 \
    .changes = "what it shows goes to the upper end of its range"
#define SHORT_CIRCUIT                                                                                                  \
    .name = "short-circuit", .way = FAULT_ADDS, .size = "share", .dimension = ULLAGE_NUMBER, .least = 0.1,             \
    .usual = 1.0, .most = 1.0, .row = {"short_circuit"}, .comes = "a wire that touches ground, or nearly",             \
    .changes = "what it shows goes to the lower end of its range"

const struct fault_row gauge_fault[] = {
    {.name = "offset", OFFSET, .dimension = ULLAGE_PRESSURE, .least = -1 KPA, .usual = 0.25 KPA, .most = 1 KPA},
    {GAIN},
    {DRIFT, .dimension = ULLAGE_PRESSURE_RATE, .least = -500 PER_MINUTE, .usual = 50 PER_MINUTE,
     .most = 500 PER_MINUTE},
    {STUCK},
    {SLOW},
    {NOISY, .dimension = ULLAGE_PRESSURE, .least = 0.02 KPA, .usual = 0.1 KPA, .most = 1 KPA},
    {OPEN_CIRCUIT},
    {SHORT_CIRCUIT},
    {.name = "seal-leak",
     .way = FAULT_HOLE,
     .size = "diameter",
     .dimension = ULLAGE_LENGTH,
     .least = 0.1 MM,
     .usual = 0.3 MM,
     .most = 1 MM,
     .comes = "its seal cut, or its body cracked",
     .changes = "a meter shows a hole where it sits"},
    {0}};

#define SHARE_RATE ULLAGE_RATE
#define KELVIN_RATE ULLAGE_POWERS(0, 0, -1, 1, 0)

const struct fault_row level_fault[] = {
    {.name = "offset", OFFSET, .dimension = ULLAGE_NUMBER, .least = -0.5, .usual = 0.2, .most = 0.5},
    {GAIN},
    {DRIFT, .dimension = SHARE_RATE, .least = -0.1 PER_MINUTE, .usual = 0.02 PER_MINUTE, .most = 0.1 PER_MINUTE},
    {STUCK},
    {SLOW},
    {NOISY, .dimension = ULLAGE_NUMBER, .least = 0.01, .usual = 0.05, .most = 0.2},
    {OPEN_CIRCUIT},
    {SHORT_CIRCUIT},
    {0}};

/* Sizes of a temperature are differences, in K. */
const struct fault_row temperature_fault[] = {
    {.name = "offset", OFFSET, .dimension = ULLAGE_TEMPERATURE, .least = -20.0, .usual = 10.0, .most = 20.0},
    {GAIN},
    {DRIFT, .dimension = KELVIN_RATE, .least = -2 PER_MINUTE, .usual = 0.2 PER_MINUTE, .most = 2 PER_MINUTE},
    {STUCK},
    {SLOW},
    {NOISY, .dimension = ULLAGE_TEMPERATURE, .least = 0.2, .usual = 1.0, .most = 5.0},
    {OPEN_CIRCUIT},
    {SHORT_CIRCUIT},
    {0}};

const struct fault_row meter_fault[] = {
    {.name = "off-zero",
     OFFSET,
     .dimension = ULLAGE_VOLUME_FLOW,
     .least = -0.3 L_PER_MIN,
     .usual = 0.1 L_PER_MIN,
     .most = 0.3 L_PER_MIN},
    {GAIN},
    {STUCK},
    {SLOW},
    {NOISY, .dimension = ULLAGE_VOLUME_FLOW, .least = 0.01 L_PER_MIN, .usual = 0.05 L_PER_MIN, .most = 0.5 L_PER_MIN},
    {0}};

const struct fault_row supply_fault[] = {{.name = "hose-leak",
                                          .way = FAULT_HOLE,
                                          .size = "diameter",
                                          .dimension = ULLAGE_LENGTH,
                                          .least = 0.05 MM,
                                          .usual = 0.4 MM,
                                          .most = 1 MM,
                                          .comes = "a crack, or a coupling not turned home",
                                          .changes = "every vehicle leaks a little"},
                                         {.name = "pressure-low",
                                          .way = FAULT_TAKES,
                                          .size = "share",
                                          .dimension = ULLAGE_NUMBER,
                                          .least = 0.1,
                                          .usual = 0.3,
                                          .most = 0.5,
                                          .row = {"gauge_pressure"},
                                          .comes = "a worn regulator, a bottle nearly empty",
                                          .changes = "flow goes with the root of the pressure: holes read too small"},
                                         {0}};

const struct fault_row port_fault[] = {{.name = "core-leak",
                                        .way = FAULT_HOLE,
                                        .size = "diameter",
                                        .dimension = ULLAGE_LENGTH,
                                        .least = 0.1 MM,
                                        .usual = 0.5 MM,
                                        .most = 2 MM,
                                        .comes = "its core loose or dirty after a test",
                                        .changes = "a meter shows a hole; mist at the port"},
                                       {0}};
