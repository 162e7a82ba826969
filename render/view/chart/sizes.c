/* sizes.c  Rulers of sizes that are no holes: in the unit shown, log where the sizes go over more than a decade. */
#include "view/chart/chart.h"

#include <math.h>

#define TICKS_WANTED 5.0
#define KNOB 22.0
#define WITHIN 1e-9 /* share of a step by which a tick may miss the end */

enum { TICKS_MOST = 24 };

static double at_share(const struct size_ruler *ruler, double share)
{
    return ruler->x0 + (ruler->x1 - ruler->x0) * share;
}

static double share_of(const struct size_ruler *ruler, double shown)
{
    const double share = ruler->log ? log(shown / ruler->least) / log(ruler->most / ruler->least)
                                    : (shown - ruler->least) / (ruler->most - ruler->least);
    return fmin(fmax(share, 0.0), 1.0);
}

/* 1, 2 or 5 times a power of ten. */
static double round_up(double rough)
{
    const double decade = pow(10.0, floor(log10(rough))), lead = rough / decade;
    return decade * (lead <= 1.0 + WITHIN ? 1.0 : lead <= 2.0 + WITHIN ? 2.0 : lead <= 5.0 + WITHIN ? 5.0 : 10.0);
}

static int even_ticks(const struct size_ruler *ruler, double *tick, double *digit)
{
    const double step = round_up((ruler->most - ruler->least) / TICKS_WANTED);
    int count = 0;
    *digit = step;
    for (double at = step * ceil(ruler->least / step - WITHIN); at <= ruler->most + WITHIN * step && count < TICKS_MOST;
         at += step)
        tick[count++] = fabs(at) < WITHIN * step ? 0.0 : at;
    return count;
}

static int log_ticks(const struct size_ruler *ruler, double *tick)
{
    static const double lead[] = {1.0, 2.0, 5.0};
    int count = 0;
    for (double decade = pow(10.0, floor(log10(ruler->least))); decade <= ruler->most; decade *= 10.0)
        for (int k = 0; k < 3 && count < TICKS_MOST; k++)
            if (lead[k] * decade >= ruler->least * (1.0 - WITHIN) && lead[k] * decade <= ruler->most * (1.0 + WITHIN))
                tick[count++] = lead[k] * decade;
    return count;
}

static double digit_of(double value)
{
    return value > 0.0 ? pow(10.0, floor(log10(value) + WITHIN)) : 1.0;
}

static void ticks_draw(struct frame *frame, const struct size_ruler *ruler)
{
    const struct text_style style = {20.0, 500, COLOUR_SOFT, 0.5}, unit = {20.0, 500, COLOUR_SOFT, 0.0};
    double tick[TICKS_MOST], digit = 1.0, free_from = -1e9;
    const int count = ruler->log ? log_ticks(ruler, tick) : even_ticks(ruler, tick, &digit);
    const double baseline = ruler->y + 22.0 + 0.76 * frame_text_size(frame, style.size);
    char text[32];
    for (int k = 0; k < count; k++) {
        const double x = at_share(ruler, share_of(ruler, tick[k]));
        frame_rule(frame, x, ruler->y, x, ruler->y + 11.0, COLOUR_INK, 2.4);
        number_text(tick[k], ruler->log ? digit_of(tick[k]) : digit, text, sizeof text);
        const struct frame_box box = frame_text_box(frame, x, baseline, style, text);
        if (box.x0 < free_from)
            continue;
        frame_text(frame, x, baseline, style, text);
        free_from = box.x1 + 8.0;
    }
    frame_text(frame, free_from, baseline, unit, ruler->unit);
}

static void knob_draw(struct frame *frame, const struct size_ruler *ruler)
{
    const double x = at_share(ruler, ruler->knob);
    const double from = ruler->log || ruler->least >= 0.0 ? ruler->x0 : at_share(ruler, share_of(ruler, 0.0));
    frame_rule(frame, from, ruler->y, x, ruler->y, COLOUR_INK, 7.0);
    if (isfinite(ruler->other))
        ruler_ring(frame, at_share(ruler, ruler->other), ruler->y);
    frame_path(frame);
    frame_circle(frame, x, ruler->y, KNOB);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 4.0);
    frame_path(frame);
    frame_circle(frame, x, ruler->y, 0.3 * KNOB);
    if (ruler->in)
        frame_fill(frame, COLOUR_INK);
    else
        frame_stroke(frame, COLOUR_INK, 2.4);
}

void size_ruler_draw(struct frame *frame, const struct size_ruler *ruler)
{
    frame_rule(frame, ruler->x0, ruler->y, ruler->x1, ruler->y, COLOUR_INK, 3.0);
    ticks_draw(frame, ruler);
    knob_draw(frame, ruler);
    const struct frame_box box = {ruler->x0, ruler->y - KNOB, ruler->x1, ruler->y + KNOB};
    frame_spot(frame, ruler->spot ? ruler->spot : SPOT_SLIDER, ruler->part, box, 0.0, 1.0);
}
