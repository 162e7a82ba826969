/* chart.h  Strip charts over one clock, the time bar below them, the ruler of holes. */
#ifndef VIEW_CHART_CHART_H
#define VIEW_CHART_CHART_H

#include "view/branches.h"
#include "view/figure.h"
#include "view/frame.h"
#include "view/plan.h"
#include "view/traces.h"

/* ---- strips: strip.c ----------------------------------------------------------------------------------------------- */
enum { STRIP_TICKS = 5 };

/* One channel's paper. Values are in shown units; a log strip never shows less than `low`. */
struct strip {
    double x0, x1, y0, y1; /* u */
    double whole;          /* s at x1; 0 at x0 */
    struct unit_view unit;
    bool log;
    bool pressure; /* over the atmosphere: the area under it has the scale's colours */
    bool bright;
    double low, high;
    int ticks;
    double tick[STRIP_TICKS];
    double digit; /* of tick labels */
};

/* What is to be shown of a channel: its column in the traces (0: time). */
struct strip_data {
    const struct traces *traces;
    int column;
};

/* Chooses scale and ticks so that all data, `also` (SI, NAN: nothing) and, for pressures, zero are on the paper. */
void strip_scale(struct strip *strip, const struct ullage_channel *channel, enum units units,
                 const struct strip_data *data, int count, double also);
double strip_x(const struct strip *strip, double time);
double strip_y(const struct strip *strip, double si);
double strip_grid(struct frame *frame, const struct strip *strip); /* returns the left end of its tick labels */

enum trace_style { TRACE_INK, TRACE_BRANCH, TRACE_BEHIND }; /* now; another branch; another run, dotted */

/* Up to `until` s, ending in the present value (NAN: in the last sample). */
void strip_trace(struct frame *frame, const struct strip *strip, const struct strip_data *data, double until,
                 double present, enum trace_style style);
void strip_area(struct frame *frame, const struct strip *strip, const struct strip_data *data, double until,
                double present);
/* A dashed line at a limit, named at its right end, or before `now` (s) where that would cut the name. */
void strip_limit(struct frame *frame, const struct strip *strip, double si, const char *name, double now);
/* What a channel is called beside its strip: "Tank pressure". */
const char *channel_words(const struct ullage_model *model, int channel, bool brief, char *room, int size);

/* ---- the clock: clock.c -------------------------------------------------------------------------------------------- */
struct clock_bar {
    double x0, x1, y0, y1; /* u */
    double whole, tick;    /* s */
    double from, until;    /* s: only spans between them; until 0: all */
    double foot;           /* u: over the ticks, where other bars lie under this one; 0: y1 */
};

/* Steps as lengths, done and to come, with ticks below. plan may be null: nothing is told of what is to come. */
void clock_bar_draw(struct frame *frame, const struct clock_bar *bar, const struct ullage_model *model,
                    const struct snapshot *now, const struct plan *plan);
/* The same of the past that this way shares with another: no more than its spans up to `until`. */
void clock_bar_past(struct frame *frame, const struct clock_bar *bar, const struct ullage_model *model,
                    const struct snapshot *now);
/* The upright through all strips at the present moment, with its knob on the bar. */
void clock_now(struct frame *frame, const struct clock_bar *bar, double time, double top);
/* Dotted uprights where a hand or a fault changed something, each run of changes of one thing named once. */
void clock_events(struct frame *frame, const struct clock_bar *bar, const struct ullage_model *model,
                  const struct snapshot *now, enum units units, double top, double bottom);

/* ---- branches: ways.c ---------------------------------------------------------------------------------------------- */
enum { WAYS_MOST = 3 };

/* Which branches are shown on which bars; count 0: there is but one way. bar: that of the present one. */
struct ways {
    int count, shown[WAYS_MOST];
    double y0[WAYS_MOST], y1[WAYS_MOST]; /* u */
    struct clock_bar bar;
};
struct ways ways_make(const struct branches *branches, const struct clock_bar *bar);
/* All but the present one, and the past that it shares; then, over all bars, where they part. */
void ways_draw(struct frame *frame, const struct ways *ways, const struct branches *branches,
               const struct ullage_model *model, const struct snapshot *now);
void ways_nodes(struct frame *frame, const struct ways *ways, const struct branches *branches);

/* ---- holes: ruler.c ------------------------------------------------------------------------------------------------ */
struct ruler {
    double x0, x1, y; /* u; the line */
    enum units units;
    double limit;   /* m; NAN: none */
    double reading; /* m; NAN: none. A triangle under the line */
    double knob;    /* m; NAN: none. The hole itself in a ring, with holes lifted above it */
    bool shut;      /* the knob's hole is not open: drawn as a ring */
    double other;   /* m; where another way has it: a small ring; 0: it is not there, at the left end; NAN: none */
    int part;       /* that the knob sets */
};

#define RULER_LEAST 0.1e-3 /* m */
#define RULER_MOST 3e-3
double ruler_x(const struct ruler *ruler, double diameter);
void ruler_draw(struct frame *frame, const struct ruler *ruler);

/* ---- other sizes: sizes.c ------------------------------------------------------------------------------------------ */
struct size_ruler {
    double x0, x1, y;   /* u; the line */
    double least, most; /* in the unit shown, at its ends */
    const char *unit;
    bool log, in; /* in: it is there now, so that its knob is filled */
    double knob;  /* share of the ruler */
    double other; /* share of it where another way has it: a small ring; NAN: none */
    enum spot_kind spot; /* of its knob; SPOT_NONE: SPOT_SLIDER */
    int part;     /* that the knob sets */
};

/* The ring of another way, at (x, y). */
void ruler_ring(struct frame *frame, double x, double y);

void size_ruler_draw(struct frame *frame, const struct size_ruler *ruler);

#endif
