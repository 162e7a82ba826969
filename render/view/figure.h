/* figure.h  From SI to what a person reads: number and unit, as many digits as are worth reading. */
#ifndef VIEW_FIGURE_H
#define VIEW_FIGURE_H

enum units { UNITS_METRIC, UNITS_INCH, UNITS_SI }; /* kPa, L/min, °C; inH2O, in, °F; Pa, cm3/s, K */

struct figure {
    char number[32]; /* minus is U+2212 */
    char unit[32];   /* "kPa"; may be empty */
};

/* shown = si * scale + offset in the unit's own numbers. */
struct unit_view {
    double scale, offset;
    char unit[32];
};
struct unit_view unit_view(int dimension, enum units units);
/* For values none of which is larger than `largest` (SI): thousandths where all are small. */
struct unit_view unit_view_of(int dimension, enum units units, double largest);

struct figure figure_make(double si, int dimension, enum units units);
/* "3.00 kPa" into room[size]; returns room. */
const char *figure_text(double si, int dimension, enum units units, char *room, int size);
/* As figure_text, with steps of `digit` (shown units): ticks and limits. */
const char *number_text(double shown, double digit, char *room, int size);

/* 2:14, or 14:20 (hours and minutes) where the whole is long, or 3.25 s where it is short. `whole`: s of the axis. */
const char *clock_text(double time, double whole, char *room, int size);
/* "10x real time" in words. */
const char *rate_text(double rate, char *room, int size);

#endif
