/* colour.h  The few colours of the picture. Hue has one owner here: blue to orange is pressure; all else is ink on paper. */
#ifndef VIEW_COLOUR_H
#define VIEW_COLOUR_H

#include <stdbool.h>

/* 0xRRGGBB */
enum colour {
    COLOUR_PAPER = 0xFBFAF6,
    COLOUR_INK = 0x1A1D21,
    COLOUR_SOFT = 0x454A51,  /* units, done steps, ticks */
    COLOUR_GHOST = 0x62676F, /* another run behind */
    COLOUR_WALL = 0x8A8578,
    COLOUR_RULE = 0xC9C5BA, /* chart grid only */
    COLOUR_SHELL = 0xD8D3C6,
    COLOUR_GROUND = 0xE4DFD2,
    COLOUR_FUEL = 0x14482B, /* its vapor, and what carbon holds */
    COLOUR_LIQUID = 0x2E6B4A,
    COLOUR_LIQUID_STROKE = 0x4F8A69,
    COLOUR_WHITE = 0xFFFFFF
};

#define COLOUR_PRESSURE_END                                                                                            \
    5e3 /* Pa over the atmosphere: beyond it the colour stays, a hatch and the figure say more */

/* Colour of a pressure over the atmosphere [Pa]. The root of the share spreads the small pressures. bright: for a projector
 * in a bright room, lighter ends. */
unsigned colour_pressure(double gauge, bool bright);

#endif
