/* frames.h  The live picture without a display: single frames and rows of them, as PNG, SVG or PDF.
 *
 * A frame is a function of the run and its moment alone: the same scenario, moment and size give the same bytes on one
 * machine, whether drawn alone or within a row. */
#ifndef DRAW_FRAMES_H
#define DRAW_FRAMES_H

#include "ullage.h"

#include <signal.h>
#include <stdbool.h>

enum { DRAW_TROUBLE = 512 }; /* bytes of room for a sentence that says what went wrong */

/* Values are the program's exit codes. */
enum draw_outcome {
    DRAW_GOOD = 0,
    DRAW_BAD_INPUT = 2,  /* a name that ends in none of .png .svg .pdf; a size out of range */
    DRAW_STUCK = 3,      /* the numbers failed before the moment asked for; frames up to there are written */
    DRAW_UNWRITABLE = 4, /* a file could not be written, no font, no memory */
    DRAW_STOPPED = 130   /* *stop became non-zero; what was finished is whole */
};

enum { FRAME_LEAST_WIDTH = 800, FRAME_LEAST_HEIGHT = 600, FRAME_MOST = 16384 }; /* px */

struct frames_options {
    int width, height;                                       /* px; 0: 1920x1080 */
    bool si;                                                 /* SI units rather than the shop's */
    const volatile sig_atomic_t *stop;                       /* may be null */
    void (*progress)(void *with, double share, double time); /* share done 0..1, simulated s; may be null */
    void *with;
};

/* One frame of the run at `time` (s; clipped to the run's end). The run must stand before `time`, normally at 0.
 * path: .png, .svg or .pdf; written beside and renamed. options may be null. trouble[DRAW_TROUBLE]: "" when good. */
enum draw_outcome frame_write(const struct ullage_model *model, struct ullage_run *run,
                              const struct frames_options *options, double time, const char *path, char *trouble);

/* Frames at 0, every, 2 every ... until (INFINITY: to the run's end) as folder/frame-00000.png and on. Makes the folder
 * when it is missing. *written receives how many; may be null. */
enum draw_outcome frames_write(const struct ullage_model *model, struct ullage_run *run,
                               const struct frames_options *options, double every, double until, const char *folder,
                               int *written, char *trouble);

#endif
