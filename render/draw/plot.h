/* plot.h  Strip charts of recorded channels on a sheet: `run --plot`. */
#ifndef DRAW_PLOT_H
#define DRAW_PLOT_H

#include "ullage.h"

#include <stdbool.h>

/* A run that has been followed to where the plot shall end. */
struct plot_source {
    const struct ullage_model *model;
    const struct ullage_run *run;
    const char *name; /* in the key when two runs are overlaid; may be null: the scenario's name */
};

/* Draws every recorded channel of `main` as a strip over one clock, with the steps as a bar below; `other` (may be null)
 * is laid behind, dotted, where it has a channel of the same name.
 * path: ends in .png, .svg or .pdf; "-" is standard output, as PNG. Regular files are written beside and renamed, so a
 * full disk leaves the old one whole. si: SI units rather than the shop's.
 * Returns true, or false with a sentence in trouble[DRAW_TROUBLE] (frames.h); errors are those of files, unless the name's
 * ending is unknown: plot_takes says that before anything is run. */
bool plot_write(const struct plot_source *main, const struct plot_source *other, const char *path, bool si,
                char *trouble);

/* True where plot_write and frame_write can draw into a file of this name. */
bool plot_takes(const char *path);

#endif
