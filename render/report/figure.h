/* report/figure.h  Numbers as a person says them: "3.00 kPa (12.0 inH2O)", "0.51 mm (0.020 in)", "0.57 L/min".
 *
 * Every function writes into the caller's room [FIGURE_ROOM] and returns it. */
#ifndef REPORT_FIGURE_H
#define REPORT_FIGURE_H

#include <stdbool.h>

enum { FIGURE_ROOM = 96 }; /* bytes */

enum figure_units {
    FIGURE_SHOP, /* kPa with inH2O, mm with in, L/min, degrees Celsius */
    FIGURE_SI    /* the very unit that CSV and JSON carry */
};

/* A value of any dimension with its unit. NAN is "not known". */
const char *figure_value(double value, int dimension, enum figure_units units, char *room);

/* The same in one unit only, as short as reads back within `%.4g`: for limits, defaults and parameters. */
const char *figure_plain(double value, int dimension, char *room);

/* The same of a difference, which `--set` and files read back: temperatures in K, per second where it is a rate. */
const char *figure_difference(double value, int dimension, char *room);
/* The moment on the clock, to the second: "2:31", "1:02:31". */
const char *figure_clock(double seconds, char *room);

/* How long: "0.4 s", "52 s", "2 min 31 s", "3 h 20 min". */
const char *figure_span(double seconds, char *room);

/* How often one goes into the other: "twice as", "half as", "1.4 times as". */
const char *figure_times(double ratio, char *room);

/* An id or name as words: "vent-valve" is "vent valve", "meter.hole" "meter hole"; capital makes the first letter one. Cut to fit the room. */
const char *figure_words(const char *name, bool capital, char *room);

#endif
