/* ruler.c  The one ruler of holes: log, 0.1 to 3 mm; the size put in and the size read stand on the same line, below the
 * holes of the trade's own steps, drawn at one magnification. */
#include "view/chart/chart.h"

#include <math.h>
#include <stdio.h>

#define MAGNIFIED 22e3 /* u per metre: 22 u for a millimetre */
#define INCH 0.0254
#define KNOB 22.0
#define RING 9.0

static double hole_radius(double diameter)
{
    return fmax(0.5 * MAGNIFIED * diameter, 1.6);
}

double ruler_x(const struct ruler *ruler, double diameter)
{
    const double share =
        log(fmin(fmax(diameter, RULER_LEAST), RULER_MOST) / RULER_LEAST) / log(RULER_MOST / RULER_LEAST);
    return ruler->x0 + (ruler->x1 - ruler->x0) * share;
}

static void minor_ticks(struct frame *frame, const struct ruler *ruler)
{
    static const double at[] = {0.3e-3, 0.4e-3, 0.6e-3, 0.7e-3, 0.8e-3, 0.9e-3};
    for (size_t k = 0; k < sizeof at / sizeof at[0]; k++)
        frame_rule(frame, ruler_x(ruler, at[k]), ruler->y, ruler_x(ruler, at[k]), ruler->y + 7.0, COLOUR_INK, 2.0);
}

static void major_ticks(struct frame *frame, const struct ruler *ruler)
{
    static const double at[] = {0.1e-3, 0.2e-3, 0.5e-3, 1e-3, 2e-3, 3e-3};
    const struct text_style style = {20.0, 500, COLOUR_SOFT, 0.5};
    const double baseline = ruler->y + 22.0 + 0.76 * frame_text_size(frame, style.size);
    double right = 0.0;
    char text[24];
    for (size_t k = 0; k < sizeof at / sizeof at[0]; k++) {
        const double x = ruler_x(ruler, at[k]);
        frame_rule(frame, x, ruler->y, x, ruler->y + 11.0, COLOUR_INK, 2.4);
        snprintf(text, sizeof text, "%g", 1e3 * at[k]);
        const double width = frame_text_width(frame, style, text);
        frame_text(frame, x, baseline, style, text);
        right = x + 0.5 * width;
    }
    const struct text_style unit = {20.0, 500, COLOUR_SOFT, 0.0};
    frame_text(frame, right + 8.0, baseline, unit, "mm");
}

/* Holes of 0.010, 0.020 and 0.040 in over the line, their names above them. */
static void holes_draw(struct frame *frame, const struct ruler *ruler)
{
    static const double inches[] = {0.010, 0.020, 0.040};
    const struct text_style style = {22.0, 600, COLOUR_INK, 0.5}, unit = {20.0, 500, COLOUR_SOFT, 0.0};
    const double lift = isfinite(ruler->knob) ? 44.0 : 19.0;
    const double baseline = ruler->y - lift - 24.0;
    double right = 0.0;
    char text[24];
    for (int k = 0; k < 3; k++) {
        const double x = ruler_x(ruler, inches[k] * INCH);
        frame_path(frame);
        frame_circle(frame, x, ruler->y - lift, hole_radius(inches[k] * INCH));
        frame_fill(frame, COLOUR_INK);
        snprintf(text, sizeof text, "%.3f", inches[k]);
        right = x + 0.5 * frame_text_width(frame, style, text);
        frame_text(frame, x, baseline, style, text);
    }
    frame_text(frame, right + 7.0, baseline, unit, "in");
}

static void reading_mark(struct frame *frame, const struct ruler *ruler)
{
    const double x = ruler_x(ruler, ruler->reading);
    frame_path(frame);
    frame_move(frame, x, ruler->y + 2.0);
    frame_line(frame, x + 10.0, ruler->y + 20.0);
    frame_line(frame, x - 10.0, ruler->y + 20.0);
    frame_close(frame);
    frame_fill(frame, COLOUR_INK);
    frame_stroke(frame, COLOUR_PAPER, 1.6);
}

void ruler_ring(struct frame *frame, double x, double y)
{
    frame_path(frame);
    frame_circle(frame, x, y, RING);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 3.0);
}

static void knob_draw(struct frame *frame, const struct ruler *ruler)
{
    const double x = ruler_x(ruler, ruler->knob);
    frame_rule(frame, ruler->x0, ruler->y, x, ruler->y, COLOUR_INK, 7.0);
    if (isfinite(ruler->other))
        ruler_ring(frame, ruler_x(ruler, fmax(ruler->other, RULER_LEAST)), ruler->y);
    frame_path(frame);
    frame_circle(frame, x, ruler->y, KNOB);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 4.0);
    frame_path(frame);
    frame_circle(frame, x, ruler->y, fmin(hole_radius(ruler->knob), KNOB - 5.0));
    if (ruler->shut)
        frame_stroke(frame, COLOUR_INK, 2.4);
    else
        frame_fill(frame, COLOUR_INK);
}

void ruler_draw(struct frame *frame, const struct ruler *ruler)
{
    frame_rule(frame, ruler->x0, ruler->y, ruler->x1, ruler->y, COLOUR_INK, 3.0);
    minor_ticks(frame, ruler);
    if (isfinite(ruler->limit)) {
        const double x = ruler_x(ruler, ruler->limit);
        frame_path(frame);
        frame_move(frame, x, ruler->y - (isfinite(ruler->knob) ? 34.0 : 36.0));
        frame_line(frame, x, ruler->y + 18.0);
        frame_stroke_dashed(frame, COLOUR_INK, 2.2, 5.0, 4.0);
    }
    holes_draw(frame, ruler);
    major_ticks(frame, ruler);
    if (isfinite(ruler->reading))
        reading_mark(frame, ruler);
    if (isfinite(ruler->knob)) {
        knob_draw(frame, ruler);
        const struct frame_box box = {ruler->x0, ruler->y - KNOB, ruler->x1, ruler->y + KNOB};
        frame_spot(frame, SPOT_SLIDER, ruler->part, box, 0.0, 1.0);
    }
}
