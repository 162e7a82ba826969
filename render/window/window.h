/* window.h  The live picture in a window. The only room that knows SDL2. */
#ifndef WINDOW_WINDOW_H
#define WINDOW_WINDOW_H

#include "ullage.h"

#include <signal.h>
#include <stdbool.h>

enum { WINDOW_TROUBLE = 256 }; /* bytes of room for a sentence that says what went wrong */

struct window_options {
    const char *scenario;              /* path of the scenario's file: names the pictures written with W; may be null */
    const struct ullage_edits *edits;  /* those that the model was made with: for scenarios written with K; may be null */
    int width, height;                 /* px; 0: as large as the display allows, at least 800x600 */
    bool si;                           /* start in SI units (Pa, m3/s) rather than in the shop's */
    const struct ullage_model *sound;  /* the same scenario without its faults, to go along as a healthy run; may be null */
    const volatile sig_atomic_t *stop; /* non-zero: leave; may be null */
};

/* Shows the run and lets a person drive it until the window is closed. model and run stay the caller's; the run stands
 * wherever the person left it. Returns an exit code: 0 closed by the person, 3 the numbers failed (shown, then closed),
 * 4 no display or no memory. trouble[WINDOW_TROUBLE] then holds a sentence, else "". */
int window_show(const struct ullage_model *model, struct ullage_run *run, const struct window_options *options,
                char *trouble);

#endif
