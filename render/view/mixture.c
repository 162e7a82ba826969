/* mixture.c  The mixture that an engine gets. The air ratio stands on a scale from lean to rich around the ring at 1; under it
 * what the purge line brings and how far the injection is shortened, with the limit that it cannot pass. */
#include "view/mixture.h"

#include "view/column.h"
#include "view/steps.h"

#include <math.h>
#include <stdio.h>

#define LEANEST 1.15 /* ends of the scale */
#define RICHEST 0.85
#define RIGHT_WITHIN 0.02 /* of 1: what is called right */
#define LIMIT_NEAR 1e-3   /* of the correction to its limit */
#define FOLLOWS 5e-3      /* of the correction, from where the loop has something to do */
#define ROW 40.0
#define RUNS_FROM 1e-6 /* kg/s of air */

enum { TICKS = 7, ROWS = 6 };

int mixture_engine(const struct scene *scene)
{
    for (int p = 0; p < scene->cast->parts; p++)
        if (scene->cast->channel[p][AIR_RATIO] >= 0)
            return p;
    return -1;
}

bool mixture_runs(const struct scene *scene)
{
    const int engine = mixture_engine(scene);
    return engine >= 0 && scene_value(scene, engine, AIR_FLOW) > RUNS_FROM;
}

/* ---- the scale ----------------------------------------------------------------------------------------------------- */
static double scale_x(double x0, double x1, double ratio)
{
    const double share = (LEANEST - fmin(fmax(ratio, RICHEST), LEANEST)) / (LEANEST - RICHEST);
    return x0 + share * (x1 - x0);
}

static void scale_ticks(struct frame *frame, double x0, double x1, double y)
{
    const struct text_style style = {20.0, 500, COLOUR_SOFT, 0.5};
    char text[16];
    for (int k = 0; k < TICKS; k++) {
        const double ratio = LEANEST + k * (RICHEST - LEANEST) / (TICKS - 1), x = scale_x(x0, x1, ratio);
        frame_rule(frame, x, y, x, y + 11.0, COLOUR_INK, 2.4);
        snprintf(text, sizeof text, "%.2f", ratio);
        frame_text(frame, x, y + 20.0 + 0.76 * frame_text_size(frame, style.size), style, text);
    }
}

static void scale_draw(struct frame *frame, double x0, double x1, double y, double ratio)
{
    const struct text_style lean = {22.0, 500, COLOUR_SOFT, 0.0}, rich = {22.0, 500, COLOUR_SOFT, 1.0};
    const double left = scale_x(x0, x1, 1.0 + RIGHT_WITHIN), right = scale_x(x0, x1, 1.0 - RIGHT_WITHIN);
    frame_text(frame, x0, y - 16.0, lean, "lean");
    frame_text(frame, x1, y - 16.0, rich, "rich");
    frame_bar(frame, left, y - 9.0, right - left, 18.0, COLOUR_SHELL);
    frame_rule(frame, x0, y, x1, y, COLOUR_INK, 3.0);
    scale_ticks(frame, x0, x1, y);
    frame_path(frame);
    frame_circle(frame, scale_x(x0, x1, 1.0), y, 7.0);
    frame_fill(frame, COLOUR_PAPER);
    frame_stroke(frame, COLOUR_GHOST, 3.0);
    const double x = scale_x(x0, x1, ratio);
    frame_path(frame);
    frame_move(frame, x, y - 5.0);
    frame_line(frame, x - 12.0, y - 25.0);
    frame_line(frame, x + 12.0, y - 25.0);
    frame_close(frame);
    frame_fill(frame, COLOUR_INK);
    frame_stroke(frame, COLOUR_PAPER, 1.6);
}

/* ---- words --------------------------------------------------------------------------------------------------------- */
static const char *verdict(const struct scene *scene, int engine, char *room, int size)
{
    const double ratio = scene_told(scene, engine, AIR_RATIO), correction = scene_told(scene, engine, CORRECTION);
    const double limit = ullage_model_parameter(scene->model, engine, "correction_limit");
    const bool right = fabs(ratio - 1.0) < RIGHT_WITHIN;
    if (fabs(correction) > limit - LIMIT_NEAR)
        snprintf(room, (size_t)size, "%s, trim at its limit", right ? "right" : ratio < 1.0 ? "rich" : "lean");
    else if (right)
        snprintf(room, (size_t)size, fabs(correction) < FOLLOWS ? "right" : "right, trim holds it");
    else
        snprintf(room, (size_t)size, "%s, trim follows", ratio < 1.0 ? "rich" : "lean");
    return room;
}

void mixture_draw(struct frame *frame, const struct scene *scene, const struct leading_place *place)
{
    const int engine = mixture_engine(scene);
    char text[64], words[64];
    column_heading(frame, place->x0, place->x1, place->heading, "Mixture the engine gets", "");
    snprintf(text, sizeof text, "%.2f λ", scene_told(scene, engine, AIR_RATIO));
    leading_hero(frame, place, text, verdict(scene, engine, words, sizeof words));
    scale_draw(frame, place->x0 + 24.0, place->x1 - 24.0, place->ruler, scene_told(scene, engine, AIR_RATIO));
}

/* ---- the page ------------------------------------------------------------------------------------------------------ */
/* The valve through which the purge line ends in the engine; -1: none. */
static int purge_valve(const struct scene *scene, int engine)
{
    for (int p = 0; p < scene->cast->parts; p++) {
        const struct ullage_part part = ullage_model_part(scene->model, p);
        const struct ullage_link *to = part_link(&part, "to");
        if (to && to->part == engine && scene->cast->channel[p][OPENING] >= 0)
            return p;
    }
    return -1;
}

/* A share as a signed percentage. */
static struct figure percent(double share, bool sign)
{
    struct figure figure = {.unit = "%"};
    const double shown = 100.0 * share;
    snprintf(figure.number, sizeof figure.number, "%s%.1f",
             shown < -0.05          ? "−"
             : sign && shown > 0.05 ? "+"
                                    : "",
             fabs(shown));
    return figure;
}

struct fact {
    const char *name;
    struct figure figure;
};

/* Two groups: what comes by the purge line, what the control unit does. The first `few` matter most. */
static int purge_facts(const struct scene *scene, int engine, struct fact *fact)
{
    const double flow = scene_told(scene, engine, PURGE_FLOW), fuel = scene_told(scene, engine, PURGED_FUEL);
    const enum units units = scene->view->units;
    fact[0] = (struct fact){"fuel it brings", figure_make(fuel, ULLAGE_MASS_FLOW, units)};
    fact[1] = (struct fact){"flow", figure_make(flow, ULLAGE_MASS_FLOW, units)};
    fact[2] = (struct fact){"fuel in it, by mass", percent(flow > 0.0 ? fuel / flow : 0.0, false)};
    return 3;
}

static int control_facts(const struct scene *scene, int engine, struct fact *fact)
{
    const int valve = purge_valve(scene, engine);
    const double limit = ullage_model_parameter(scene->model, engine, "correction_limit");
    int count = 0;
    fact[count++] = (struct fact){"injection trim", percent(scene_told(scene, engine, CORRECTION), true)};
    struct figure most = percent(limit, false);
    snprintf(most.number, sizeof most.number, "±%.0f", 100.0 * limit);
    fact[count++] = (struct fact){"trim limit", most};
    if (valve >= 0)
        fact[count++] = (struct fact){"purge valve open", percent(scene_told(scene, valve, OPENING), false)};
    return count;
}

static double facts_draw(struct frame *frame, const struct layout *layout, double baseline, const struct fact *fact,
                         int count)
{
    for (int k = 0; k < count; k++, baseline += ROW)
        column_row(frame, layout->column_x0, layout->column_x1, baseline, fact[k].name, fact[k].figure);
    return baseline;
}

void mixture_wide(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    const struct leading_place place = {layout->column_x0, layout->column_x1, 116.0, 198.0, 270.0};
    const int engine = mixture_engine(scene);
    struct fact fact[ROWS];
    if (engine < 0)
        return;
    mixture_draw(frame, scene, &place);
    int count = purge_facts(scene, engine, fact);
    column_heading(frame, place.x0, place.x1, 366.0, "Purge", "");
    const double below = facts_draw(frame, layout, 416.0, fact, count);
    count = control_facts(scene, engine, fact);
    column_heading(frame, place.x0, place.x1, below + 24.0, "Control unit", "");
    facts_draw(frame, layout, below + 74.0, fact, count);
}

void mixture_narrow(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    const struct leading_place place = {layout->column_x0, layout->column_x1, 760.0, 838.0, 900.0};
    const int engine = mixture_engine(scene);
    struct fact fact[ROWS], control[ROWS];
    if (engine < 0)
        return;
    mixture_draw(frame, scene, &place);
    purge_facts(scene, engine, fact);
    control_facts(scene, engine, control);
    fact[1] = control[0];
    facts_draw(frame, layout, 996.0, fact, 2);
}
