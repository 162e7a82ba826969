/* sim/property/components.c  The table of fuel components. One row, one substance, a source beside each number; adding
 * one is adding a row. Units stand in component.h.
 *
 * The oil trade's gases, a handful of paraffins, a ring and the aromatics that gasoline is built of here, and ethanol.
 * Numbers of [PERRY8], [POLING5], [CRC], [IEC60079], [NISTWEB] as collected in the open library CalebBell/chemicals.
 * Propane's set of [POLING5] ends far below any tank and n-decane's begins far above, where its slope is 1.3 % steeper
 * than the measured heat allows; both have another. Rings take 18.3 off the diffusion volume (from memory).
 * Slopes and bends of heat capacities are drawn by least squares through the sources' curves over temperature, turned so
 * that they pass through the value at 298.15 K.
 * Propane is a real gas over its own liquid: no one heat at 25 degC and the heat capacities meet the measured curve, which
 * falls faster. 14.91 kJ/mol is 0.7 % above it at 25 degC, so as to be 4.8 % below it at -20 and 4.6 % above at 40.
 * Isopentane's viscosity is uncertain by 4 %. Benzene freezes at 5.5 degC, cyclohexane at 6.5: below, a fuel they are
 * dissolved in. Isooctane: a set that goes about with A = 3.94679, B = 1257.84, C = -52.415 boils 0.8 K too low, a slip
 * for 3.93679. */
#include "property/component.h"

#include <stddef.h>
#include <string.h>

/* clang-format off */
static const struct component components[] = {
    {.gas = {.name = "propane",
             .molar_mass = 44.0956e-3,                                       /* atomic weights */
             .heat_capacity = 73.76,                                         /* [POLING5] app. A */
             .heat_slope = 0.191,                                            /* the same, -20 to 45 degC */
             .viscosity = {4.9054e-8, 0.90125, 0.0, 0.0},                    /* [PERRY8] 2-312 */
             .conductivity = {-1.12, 0.10972, -9834.6, -7535800.0},          /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C3H8",
     .antoine = {4.53678, 1149.360, 24.906},                                 /* [NISTWEB]: [POLING5] ends at -25 degC */
     .antoine_low = 277.6, .antoine_high = 360.8,                            /* the same */
     .vaporization_heat = 14.91e3,                                           /* [PERRY8] 2-150: see above */
     .density = {1375.7, 0.27453, 369.83, 0.29359},                          /* [PERRY8] 2-32 */
     .heat_capacity = 120.1,                                                 /* [PERRY8] 2-153 */
     .heat_slope = 0.477, .heat_bend = 3.18e-3,                              /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 66.18,                                              /* [FULLER1969] */
     .flammable_low = 0.017, .flammable_high = 0.109,                        /* [IEC60079] */
     .group = {[UNIFAC_CH3] = 2, [UNIFAC_CH2] = 1}},                         /* [DORTMUND] */
    {.gas = {.name = "n-butane",
             .molar_mass = 58.1222e-3,                                       /* atomic weights */
             .heat_capacity = 98.81,                                         /* [POLING5] app. A */
             .heat_slope = 0.245,                                            /* the same, -20 to 45 degC */
             .viscosity = {3.4387e-8, 0.94604, 0.0, 0.0},                    /* [PERRY8] 2-312 */
             .conductivity = {0.051094, 0.45253, 5455.5, 1979800.0},         /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C4H10",
     .antoine = {3.93266, 935.773, -34.361},                                 /* [POLING5] app. A */
     .antoine_low = 200.5, .antoine_high = 292.03,                           /* the same */
     .vaporization_heat = 21.02e3,                                           /* [CRC] */
     .density = {1067.7, 0.27188, 425.12, 0.28688},                          /* [PERRY8] 2-32 */
     .heat_capacity = 140.9,                                                 /* [CRC] */
     .heat_slope = 0.339, .heat_bend = 1.99e-3,                              /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 86.70,                                              /* [FULLER1969] */
     .flammable_low = 0.014, .flammable_high = 0.093,                        /* [IEC60079] */
     .group = {[UNIFAC_CH3] = 2, [UNIFAC_CH2] = 2}},                         /* [DORTMUND] */
    {.gas = {.name = "isobutane",
             .molar_mass = 58.1222e-3,                                       /* atomic weights */
             .heat_capacity = 96.95,                                         /* [POLING5] app. A */
             .heat_slope = 0.269,                                            /* the same, -20 to 45 degC */
             .viscosity = {1.0871e-7, 0.78135, 70.639, 0.0},                 /* [PERRY8] 2-312 */
             .conductivity = {0.089772, 0.18501, 639.23, 1114700.0},         /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C4H10",
     .antoine = {4.00272, 947.54, -24.28},                                   /* [POLING5] app. A */
     .antoine_low = 190.4, .antoine_high = 280.25,                           /* the same */
     .vaporization_heat = 19.23e3,                                           /* [CRC] */
     .density = {1063.1, 0.27506, 407.8, 0.2758},                            /* [PERRY8] 2-32 */
     .heat_capacity = 141.4,                                                 /* [PERRY8] 2-153 */
     .heat_slope = 0.402, .heat_bend = 2.28e-3,                              /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 86.70,                                              /* [FULLER1969] */
     .flammable_low = 0.013, .flammable_high = 0.098,                        /* [IEC60079] */
     .group = {[UNIFAC_CH3] = 3, [UNIFAC_CH] = 1}},                          /* [DORTMUND] */
    {.gas = {.name = "isopentane",
             .molar_mass = 72.1488e-3,                                       /* atomic weights */
             .heat_capacity = 118.97,                                        /* [POLING5] app. A */
             .heat_slope = 0.345,                                            /* the same, -20 to 45 degC */
             .viscosity = {2.4344e-8, 0.97376, -91.597, 18720.0},            /* [PERRY8] 2-312 */
             .conductivity = {8.968e-4, 0.7742, 456.0, 230640.0},            /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C5H12",
     .antoine = {3.92023, 1022.88, -39.69},                                  /* [POLING5] app. A */
     .antoine_low = 221.72, .antoine_high = 322.32,                          /* the same */
     .vaporization_heat = 24.85e3,                                           /* [CRC] */
     .density = {919.91, 0.27815, 460.4, 0.28667},                           /* [PERRY8] 2-32 */
     .heat_capacity = 164.8,                                                 /* [CRC] */
     .heat_slope = 0.372, .heat_bend = 1.00e-3,                              /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 107.22,                                             /* [FULLER1969] */
     .flammable_low = 0.013, .flammable_high = 0.083,                        /* [IEC60079] */
     .group = {[UNIFAC_CH3] = 3, [UNIFAC_CH2] = 1, [UNIFAC_CH] = 1}},        /* [DORTMUND] */
    {.gas = {.name = "n-pentane",
             .molar_mass = 72.1488e-3,                                       /* atomic weights */
             .heat_capacity = 120.31,                                        /* [POLING5] app. A */
             .heat_slope = 0.299,                                            /* the same, -20 to 45 degC */
             .viscosity = {6.3412e-8, 0.84758, 41.718, 0.0},                 /* [PERRY8] 2-312 */
             .conductivity = {-684.4, 0.764, -1.055e9, 0.0},                 /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C5H12",
     .antoine = {3.97786, 1064.84, -41.136},                                 /* [POLING5] app. A */
     .antoine_low = 228.71, .antoine_high = 330.75,                          /* the same */
     .vaporization_heat = 26.43e3,                                           /* [CRC] */
     .density = {849.47, 0.26726, 469.7, 0.27789},                           /* [PERRY8] 2-32 */
     .heat_capacity = 167.2,                                                 /* [CRC] */
     .heat_slope = 0.293,                                                    /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 107.22,                                             /* [FULLER1969] */
     .flammable_low = 0.011, .flammable_high = 0.087,                        /* [IEC60079] */
     .group = {[UNIFAC_CH3] = 2, [UNIFAC_CH2] = 3}},                         /* [DORTMUND] */
    {.gas = {.name = "2-methylpentane",
             .molar_mass = 86.1754e-3,                                       /* atomic weights */
             .heat_capacity = 142.45,                                        /* [POLING5] app. A */
             .heat_slope = 0.418,                                            /* the same, -20 to 45 degC */
             .viscosity = {1.1164e-6, 0.4537, 374.74, 0.0},                  /* [PERRY8] 2-312 */
             .conductivity = {6.1119e-5, 1.0861, -59.592, 141260.0},         /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C6H14",
     .antoine = {3.98332, 1145.8, -45.335},                                  /* [POLING5] app. A */
     .antoine_low = 246.9, .antoine_high = 356.5,                            /* the same */
     .vaporization_heat = 29.89e3,                                           /* [CRC] */
     .density = {727.01, 0.26754, 497.7, 0.28268},                           /* [PERRY8] 2-32 */
     .heat_capacity = 193.7,                                                 /* [CRC] */
     .heat_slope = 0.370,                                                    /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 127.74,                                             /* [FULLER1969] */
     .flammable_low = 0.012, .flammable_high = 0.07,                         /* from memory */
     .group = {[UNIFAC_CH3] = 3, [UNIFAC_CH2] = 2, [UNIFAC_CH] = 1}},        /* [DORTMUND] */
    {.gas = {.name = "n-hexane",
             .molar_mass = 86.1754e-3,                                       /* atomic weights */
             .heat_capacity = 143.04,                                        /* [POLING5] app. A */
             .heat_slope = 0.359,                                            /* the same, -20 to 45 degC */
             .viscosity = {1.7514e-7, 0.70737, 157.14, 0.0},                 /* [PERRY8] 2-312 */
             .conductivity = {-650.5, 0.8053, -1.4121e9, 0.0},               /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C6H14",
     .antoine = {4.00139, 1170.875, -48.833},                                /* [POLING5] app. A */
     .antoine_low = 254.24, .antoine_high = 365.25,                          /* the same */
     .vaporization_heat = 31.56e3,                                           /* [CRC] */
     .density = {708.24, 0.26411, 507.6, 0.27537},                           /* [PERRY8] 2-32 */
     .heat_capacity = 195.6,                                                 /* [CRC] */
     .heat_slope = 0.317,                                                    /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 127.74,                                             /* [FULLER1969] */
     .flammable_low = 0.01, .flammable_high = 0.089,                         /* [IEC60079] */
     .group = {[UNIFAC_CH3] = 2, [UNIFAC_CH2] = 4}},                         /* [DORTMUND] */
    {.gas = {.name = "cyclohexane",
             .molar_mass = 84.1595e-3,                                       /* atomic weights */
             .heat_capacity = 106.29,                                        /* [POLING5] app. A */
             .heat_slope = 0.398,                                            /* the same, -20 to 45 degC */
             .viscosity = {6.77e-8, 0.8367, 36.7, 0.0},                      /* [PERRY8] 2-312 */
             .conductivity = {8.59e-7, 1.7709, 243.0, 0.0},                  /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C6H12",
     .antoine = {3.93002, 1182.774, -52.532},                                /* [POLING5] app. A */
     .antoine_low = 282.11, .antoine_high = 378.46,                          /* the same */
     .vaporization_heat = 33.01e3,                                           /* [CRC] */
     .density = {889.98, 0.27376, 553.8, 0.28571},                           /* [PERRY8] 2-32 */
     .heat_capacity = 154.9,                                                 /* [CRC] */
     .heat_slope = 0.353,                                                    /* [PERRY8] 2-153, 7 to 45 degC */
     .diffusion_volume = 123.12,                                             /* [FULLER1969] */
     .flammable_low = 0.01, .flammable_high = 0.08,                          /* [IEC60079] */
     .group = {[UNIFAC_CYCLIC_CH2] = 6}},                                    /* [DORTMUND] */
    {.gas = {.name = "n-heptane",
             .molar_mass = 100.2019e-3,                                      /* atomic weights */
             .heat_capacity = 165.81,                                        /* [POLING5] app. A */
             .heat_slope = 0.421,                                            /* the same, -20 to 45 degC */
             .viscosity = {6.672e-8, 0.82837, 85.752, 0.0},                  /* [PERRY8] 2-312 */
             .conductivity = {-0.070028, 0.38068, -7049.9, -2400500.0},      /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C7H16",
     .antoine = {4.02023, 1263.909, -56.718},                                /* [POLING5] app. A */
     .antoine_low = 277.71, .antoine_high = 396.53,                          /* the same */
     .vaporization_heat = 36.57e3,                                           /* [CRC] */
     .density = {612.59, 0.26211, 540.2, 0.28141},                           /* [PERRY8] 2-32 */
     .heat_capacity = 224.7,                                                 /* [CRC] */
     .heat_slope = 0.326,                                                    /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 148.26,                                             /* [FULLER1969] */
     .flammable_low = 0.0085, .flammable_high = 0.067,                       /* [IEC60079] */
     .group = {[UNIFAC_CH3] = 2, [UNIFAC_CH2] = 5}},                         /* [DORTMUND] */
    {.gas = {.name = "isooctane",
             .molar_mass = 114.2285e-3,                                      /* atomic weights */
             .heat_capacity = 188.59,                                        /* [POLING5] app. A */
             .heat_slope = 0.581,                                            /* the same, -20 to 45 degC */
             .viscosity = {1.107e-7, 0.746, 72.4, 0.0},                      /* [PERRY8] 2-312 */
             .conductivity = {1.758e-5, 1.3114, 392.9, 0.0},                 /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C8H18",
     .antoine = {3.93646, 1257.85, -52.383},                                 /* [POLING5] app. A */
     .antoine_low = 275.5, .antoine_high = 398.38,                           /* the same */
     .vaporization_heat = 35.14e3,                                           /* [CRC] */
     .density = {590.59, 0.27424, 543.8, 0.2847},                            /* [PERRY8] 2-32 */
     .heat_capacity = 239.1,                                                 /* [CRC] */
     .heat_slope = 0.442,                                                    /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 168.78,                                             /* [FULLER1969] */
     .flammable_low = 0.007, .flammable_high = 0.06,                         /* [IEC60079] */
     .group = {[UNIFAC_CH3] = 5, [UNIFAC_CH2] = 1, [UNIFAC_CH] = 1, [UNIFAC_C] = 1}}, /* [DORTMUND] */
    {.gas = {.name = "benzene",
             .molar_mass = 78.1118e-3,                                       /* atomic weights */
             .heat_capacity = 82.13,                                         /* [POLING5] app. A */
             .heat_slope = 0.290,                                            /* the same, -20 to 45 degC */
             .viscosity = {3.134e-8, 0.9676, 7.9, 0.0},                      /* [PERRY8] 2-312 */
             .conductivity = {1.652e-5, 1.3117, 491.0, 0.0},                 /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C6H6",
     .antoine = {3.98523, 1184.24, -55.578},                                 /* [POLING5] app. A */
     .antoine_low = 279.64, .antoine_high = 377.06,                          /* the same */
     .vaporization_heat = 33.83e3,                                           /* [CRC] */
     .density = {1025.9, 0.26666, 562.05, 0.28394},                          /* [PERRY8] 2-32 */
     .heat_capacity = 135.95,                                                /* [POLING5] app. A */
     .heat_slope = 0.217,                                                    /* [PERRY8] 2-153, 7 to 45 degC */
     .diffusion_volume = 90.96,                                              /* [FULLER1969] */
     .flammable_low = 0.012, .flammable_high = 0.086,                        /* [IEC60079] */
     .group = {[UNIFAC_ACH] = 6}},                                           /* [DORTMUND] */
    {.gas = {.name = "toluene",
             .molar_mass = 92.1384e-3,                                       /* atomic weights */
             .heat_capacity = 103.61,                                        /* [POLING5] app. A */
             .heat_slope = 0.343,                                            /* the same, -20 to 45 degC */
             .viscosity = {8.7268e-7, 0.49397, 323.79, 0.0},                 /* [PERRY8] 2-312 */
             .conductivity = {2.392e-5, 1.2694, 537.0, 0.0},                 /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C7H8",
     .antoine = {4.05043, 1327.62, -55.525},                                 /* [POLING5] app. A */
     .antoine_low = 286.44, .antoine_high = 409.61,                          /* the same */
     .vaporization_heat = 38.01e3,                                           /* [CRC] */
     .density = {879.2, 0.27136, 591.75, 0.29241},                           /* [PERRY8] 2-32 */
     .heat_capacity = 157.3,                                                 /* [CRC] */
     .heat_slope = 0.242,                                                    /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 111.48,                                             /* [FULLER1969] */
     .flammable_low = 0.01, .flammable_high = 0.078,                         /* [IEC60079] */
     .group = {[UNIFAC_ACH] = 5, [UNIFAC_ACCH3] = 1}},                       /* [DORTMUND] */
    {.gas = {.name = "o-xylene",
             .molar_mass = 106.1650e-3,                                      /* atomic weights */
             .heat_capacity = 132.69,                                        /* [POLING5] app. A */
             .heat_slope = 0.377,                                            /* the same, -20 to 45 degC */
             .viscosity = {8.3436e-7, 0.49713, 365.86, 0.0},                 /* [PERRY8] 2-312 */
             .conductivity = {4.9707e-6, 1.3787, -225.64, 66786.0},          /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C8H10",
     .antoine = {4.09789, 1458.706, -61.109},                                /* [POLING5] app. A */
     .antoine_low = 312.75, .antoine_high = 445.3,                           /* the same */
     .vaporization_heat = 43.43e3,                                           /* [CRC] */
     .density = {699.62, 0.26143, 630.3, 0.27365},                           /* [PERRY8] 2-32 */
     .heat_capacity = 186.1,                                                 /* [CRC] */
     .heat_slope = 0.256,                                                    /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 132.00,                                             /* [FULLER1969] */
     .flammable_low = 0.01, .flammable_high = 0.076,                         /* [IEC60079] */
     .group = {[UNIFAC_ACH] = 4, [UNIFAC_ACCH3] = 2}},                       /* [DORTMUND] */
    {.gas = {.name = "n-decane",
             .molar_mass = 142.2817e-3,                                      /* atomic weights */
             .heat_capacity = 233.87,                                        /* [POLING5] app. A */
             .heat_slope = 0.603,                                            /* the same, -20 to 45 degC */
             .viscosity = {2.64e-8, 0.9487, 71.0, 0.0},                      /* [PERRY8] 2-312 */
             .conductivity = {-668.4, 0.9323, -4.071e9, 0.0},                /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C10H22",
     .antoine = {4.40735, 1692.98, -61.325},                                 /* [PERRY8] 2-8 at 10, 50, 90 degC */
     .antoine_low = 283.15, .antoine_high = 363.15,                          /* the same */
     .vaporization_heat = 51.42e3,                                           /* [CRC] */
     .density = {410.84, 0.25175, 617.7, 0.28571},                           /* [PERRY8] 2-32 */
     .heat_capacity = 314.4,                                                 /* [CRC] */
     .heat_slope = 0.409,                                                    /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 209.82,                                             /* [FULLER1969] */
     .flammable_low = 0.007, .flammable_high = 0.056,                        /* [IEC60079] */
     .group = {[UNIFAC_CH3] = 2, [UNIFAC_CH2] = 8}},                         /* [DORTMUND] */
    {.gas = {.name = "ethanol",
             .molar_mass = 46.0684e-3,                                       /* atomic weights */
             .heat_capacity = 65.38,                                         /* [POLING5] app. A */
             .heat_slope = 0.146,                                            /* the same, -20 to 45 degC */
             .viscosity = {1.0613e-7, 0.8066, 52.7, 0.0},                    /* [PERRY8] 2-312 */
             .conductivity = {-0.010109, 0.6475, -7332.0, -268000.0},        /* [PERRY8] 2-314 */
             .source = "[POLING5], [PERRY8]"},
     .formula = "C2H6O",
     .antoine = {5.33675, 1648.22, -42.232},                                 /* [POLING5] app. A */
     .antoine_low = 276.5, .antoine_high = 369.54,                           /* the same */
     .vaporization_heat = 42.32e3,                                           /* [CRC] */
     .density = {1628.8, 0.27469, 514.0, 0.23178},                           /* [PERRY8] 2-32 */
     .heat_capacity = 112.3,                                                 /* [CRC] */
     .heat_slope = 0.386, .heat_bend = 1.72e-3,                              /* [PERRY8] 2-153, -20 to 45 degC */
     .diffusion_volume = 51.77,                                              /* [FULLER1969] */
     .flammable_low = 0.031, .flammable_high = 0.19,                         /* [IEC60079] */
     .group = {[UNIFAC_CH3] = 1, [UNIFAC_CH2] = 1, [UNIFAC_OH] = 1}},        /* [DORTMUND] */
};

/* clang-format on */

enum { COMPONENT_COUNT = sizeof components / sizeof components[0] };

const struct component *component_table(int *count)
{
    if (count)
        *count = COMPONENT_COUNT;
    return components;
}

const struct component *component_find(const char *name)
{
    for (int i = 0; i < COMPONENT_COUNT; i++)
        if (strcmp(components[i].gas.name, name) == 0)
            return &components[i];
    return NULL;
}
