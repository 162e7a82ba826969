/* ways.c  The time bar where a run has gone more than one way: a bar for each, the shared past on the older one, a node where
 * they part. Up to three are shown: the present one, the one left last, the newest of the others. */
#include "view/chart/chart.h"

#include <math.h>
#include <stdio.h>

#define GAP 3.0
#define NODE 7.0
#define NAME_ROOM 14.0 /* u of a bar that its name leaves free */

enum { SHOWN_MOST = WAYS_MOST };

/* Branches shown, oldest first. */
static int shown_choose(const struct branches *branches, int *shown)
{
    int count = 0;
    for (int k = branches->count - 1; k >= 0; k--) {
        const bool needed = k == branches->present || k == branches->behind;
        int left = 0; /* that must still find room */
        for (int j = 0; j < k; j++)
            left += j == branches->present || j == branches->behind;
        if (count < SHOWN_MOST && (needed || count + left < SHOWN_MOST))
            shown[count++] = k;
    }
    for (int k = 0; k < count / 2; k++) {
        const int other = shown[k];
        shown[k] = shown[count - 1 - k];
        shown[count - 1 - k] = other;
    }
    return count;
}

struct ways ways_make(const struct branches *branches, const struct clock_bar *bar)
{
    struct ways ways = {.bar = *bar};
    ways.count = branches ? shown_choose(branches, ways.shown) : 0;
    if (ways.count < 2) {
        ways.count = 0;
        return ways;
    }
    const double high = ways.count > 2 ? 20.0 : 24.0, top = bar->y0 - (ways.count > 2 ? 8.0 : 6.0);
    for (int k = 0; k < ways.count; k++) {
        ways.y0[k] = top + k * (high + GAP);
        ways.y1[k] = ways.y0[k] + high;
        if (ways.shown[k] == branches->present) {
            ways.bar.y0 = ways.y0[k];
            ways.bar.y1 = ways.y1[k];
            ways.bar.from = branches->line[branches->present].parted_at;
        }
    }
    ways.bar.foot = ways.y1[ways.count - 1];
    return ways;
}

/* The row on which a branch's parent stands, or the first. */
static int parent_row(const struct ways *ways, const struct branches *branches, int branch)
{
    for (int k = 0; k < ways->count; k++)
        if (ways->shown[k] == branches->line[branch].parent)
            return k;
    return 0;
}

static double at_time(const struct clock_bar *bar, double time)
{
    return bar->x0 + (bar->x1 - bar->x0) * fmin(fmax(time / bar->whole, 0.0), 1.0);
}

static void name_draw(struct frame *frame, double x0, double x1, double middle, int number, const char *name)
{
    const struct text_style style = {20.0, 600, COLOUR_INK, 0.5};
    char text[96];
    snprintf(text, sizeof text, "%d  %s", number, name);
    if (frame_text_width(frame, style, text) > x1 - x0 - NAME_ROOM)
        snprintf(text, sizeof text, "%d", number);
    if (frame_text_width(frame, style, text) <= x1 - x0 - NAME_ROOM)
        frame_text(frame, 0.5 * (x0 + x1), middle + 0.36 * frame_text_size(frame, style.size), style, text);
}

/* Where on a row the last of those that left it parts: its name stands behind that. */
static double last_node(const struct ways *ways, const struct branches *branches, int row)
{
    double last = 0.0;
    for (int k = 0; k < ways->count; k++)
        if (k != row && branches->line[ways->shown[k]].parent >= 0 && parent_row(ways, branches, ways->shown[k]) == row)
            last = fmax(last, branches->line[ways->shown[k]].parted_at);
    return last;
}

static void other_draw(struct frame *frame, const struct ways *ways, const struct branches *branches, int row,
                       double from)
{
    const struct branch_line *line = &branches->line[ways->shown[row]];
    const double x0 = at_time(&ways->bar, fmax(line->parted_at, from)), x1 = at_time(&ways->bar, line->latest);
    const double y0 = ways->y0[row], y1 = ways->y1[row];
    if (x1 > x0) {
        frame_bar(frame, x0, y0, x1 - x0, y1 - y0, COLOUR_SHELL);
        const double node = last_node(ways, branches, row);
        const double free_from = node > 0.0 ? fmax(x0, at_time(&ways->bar, node) + NODE) : x0;
        name_draw(frame, free_from, x1, 0.5 * (y0 + y1), ways->shown[row] + 1, line->name);
    }
    const struct frame_box box = {fmin(x0, x1 - 24.0), y0, fmax(x1, x0 + 24.0), y1};
    frame_spot(frame, SPOT_BRANCH, ways->shown[row], box, 0.0, 0.0);
}

/* From the older way down to where this one begins. */
static void node_draw(struct frame *frame, const struct ways *ways, const struct branches *branches, int row)
{
    const struct branch_line *line = &branches->line[ways->shown[row]];
    const int above = parent_row(ways, branches, ways->shown[row]);
    if (line->parent < 0 || above == row)
        return;
    const double x = at_time(&ways->bar, line->parted_at), y = 0.5 * (ways->y0[above] + ways->y1[above]);
    frame_rule(frame, x, y, x, 0.5 * (ways->y0[row] + ways->y1[row]), COLOUR_INK, 4.0);
    frame_path(frame);
    frame_circle(frame, x, y, NODE);
    frame_fill(frame, COLOUR_INK);
    frame_stroke(frame, COLOUR_PAPER, 2.0);
}

void ways_draw(struct frame *frame, const struct ways *ways, const struct branches *branches,
               const struct ullage_model *model, const struct snapshot *now)
{
    struct clock_bar past = ways->bar;
    const int older = parent_row(ways, branches, branches->present);
    const double parted = branches->line[branches->present].parted_at;
    for (int k = 0; k < ways->count; k++)
        if (ways->shown[k] != branches->present)
            other_draw(frame, ways, branches, k, k == older ? parted : 0.0);
    past.y0 = ways->y0[older];
    past.y1 = ways->y1[older];
    past.from = branches->line[ways->shown[older]].parted_at;
    past.until = parted;
    if (parted > 0.0 && ways->shown[older] != branches->present)
        clock_bar_past(frame, &past, model, now);
}

void ways_nodes(struct frame *frame, const struct ways *ways, const struct branches *branches)
{
    for (int k = 0; k < ways->count; k++)
        node_draw(frame, ways, branches, k);
}
