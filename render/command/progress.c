/* command/progress.c  How far long work has come: share done, rate, time left. */
#include "command/progress.h"

#include "command/interrupt.h"
#include "report/figure.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static const double patience = 1.0;     /* s before anything is shown */
static const double between = 0.2;      /* s from one showing to the next */
static const double piece_least = 0.02; /* s on the wall that a piece of a run shall take */
static const double piece_most = 0.10;
static const double first_piece = 1.0;
static const double shortest_piece = 1e-3; /* s simulated */

double wall_clock(void)
{
    struct timespec now = {0};
    (void)clock_gettime(CLOCK_MONOTONIC, &now); /* cannot fail for this clock */
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

struct progress progress_begin(void)
{
    const double now = wall_clock();
    return (struct progress){.terminal = isatty(STDERR_FILENO) == 1, .began = now, .shown = now + patience - between};
}

void progress_show(struct progress *progress, double share, double simulated)
{
    const double now = wall_clock();
    const double spent = now - progress->began;
    if (!progress->terminal || now - progress->shown < between)
        return;
    progress->shown = now;
    char line[4 * FIGURE_ROOM];
    char reached[FIGURE_ROOM];
    char rate[FIGURE_ROOM];
    char left[FIGURE_ROOM];
    figure_span(share > 0.0 ? spent * (1.0 - share) / share : (double)INFINITY, left);
    int width = snprintf(line, sizeof line, "%3.0f %% done, time left %s", 100.0 * share, share > 0.0 ? left : "?");
    if (!isnan(simulated))
        width += snprintf(line + width, sizeof line - (size_t)width, ", at %s, %s in a second",
                          figure_clock(simulated, reached), figure_span(simulated / spent, rate));
    fprintf(stderr, "\r%s%*s", line, progress->width > width ? progress->width - width : 0, "");
    progress->width = width;
}

void progress_end(struct progress *progress)
{
    if (progress->width > 0)
        fprintf(stderr, "\r%*s\r", progress->width, "");
    progress->width = 0;
}

/* Share of a run: by the steps of its procedure, or by its end where it has none. */
static double run_share(const struct ullage_model *model, const struct ullage_run *run)
{
    const int steps = ullage_model_steps(model);
    double since = 0.0;
    double share = 0.0;
    const int step = ullage_run_step(run, &since, &share);
    if (steps == 0)
        return fmin(ullage_run_time(run) / ullage_model_end(model), 1.0);
    return step == -2 ? 1.0 : step < 0 ? 0.0 : (step + share) / steps;
}

/* In pieces, so that the person is kept told. Stopping at a moment does not shorten a step. */
static enum ullage_status run_follow_shown(const struct ullage_model *model, struct ullage_run *run, double until)
{
    struct progress progress = progress_begin();
    double piece = first_piece;
    enum ullage_status status = ULLAGE_PAUSED;
    while (status == ULLAGE_PAUSED && ullage_run_time(run) < until) {
        const double began = wall_clock();
        status = ullage_run_advance(model, run, fmin(ullage_run_time(run) + piece, until));
        const double spent = wall_clock() - began;
        if (spent < piece_least)
            piece *= 2.0;
        else if (spent > piece_most)
            piece = fmax(0.5 * piece, shortest_piece);
        progress_show(&progress, run_share(model, run), ullage_run_time(run));
    }
    progress_end(&progress);
    return status;
}

enum ullage_status run_follow_to(const struct ullage_model *model, struct ullage_run *run, double until,
                                 double *seconds)
{
    const double began = wall_clock();
    ullage_run_heed(run, interrupt_flag());
    const enum ullage_status status =
        isatty(STDERR_FILENO) == 1 ? run_follow_shown(model, run, until) : ullage_run_advance(model, run, until);
    if (seconds)
        *seconds = wall_clock() - began;
    return status;
}

enum ullage_status run_follow(const struct ullage_model *model, struct ullage_run *run, double *seconds)
{
    return run_follow_to(model, run, (double)INFINITY, seconds);
}
