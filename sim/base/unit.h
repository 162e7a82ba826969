/* sim/base/unit.h  Units at the edge of the program. Inside everything is SI. The table is ullage_units(). */
#ifndef BASE_UNIT_H
#define BASE_UNIT_H

#include "ullage.h"

#define ZERO_CELSIUS 273.15 /* K */

/* Like ullage_quantity_read, and checks the dimension. A bare number is accepted only where dimension is ULLAGE_NUMBER;
 * "40 %" is 0.4. Returns null with *si set, or a sentence that says what is wrong and would be right. room must hold
 * 160 bytes: the sentence may be written there. */
const char *unit_read(const char *text, int dimension, double *si, char *room);

/* "write a length like 0.5 mm", or "write it in kg^2 m^-3" for a dimension without a name. room must hold 160 bytes;
 * returns room. */
const char *unit_wanted(int dimension, char *room);

/* A length of text at the start of `text` that reads as a number (no sign unless signed_too): its end, or null. Digits,
 * point, exponent only. */
const char *number_end(const char *text, bool signed_too);

#endif
