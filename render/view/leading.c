/* leading.c  The hero block of the column. */
#include "view/leading.h"

#include "view/chart/chart.h"
#include "view/mixture.h"
#include "view/naming.h"
#include "view/steps.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define HERO 64.0
#define HERO_LEAST 40.0

double leading_limit(const struct ullage_model *model, double *doubt)
{
    double limit = (double)NAN;
    *doubt = 0.0;
    for (int k = 0; k < ullage_model_lets(model); k++) {
        double value;
        int dimension;
        const char *name = ullage_model_let(model, k, &value, &dimension);
        if (dimension != ULLAGE_LENGTH)
            continue;
        if (!strcmp(name, "limit"))
            limit = value;
        else if (!strcmp(name, "doubt"))
            *doubt = value;
    }
    return limit;
}

int leading_meter(const struct scene *scene)
{
    for (int p = 0; p < scene->cast->parts; p++)
        if (scene->cast->channel[p][HOLE] >= 0)
            return p;
    return -1;
}

bool leading_holds(const struct scene *scene)
{
    return leading_meter(scene) >= 0 || mixture_runs(scene) || scene->now->readings > 0;
}

void lozenge_draw(struct frame *frame, double x1, double baseline, const char *words)
{
    const struct text_style style = {26.0, 600, COLOUR_PAPER, 1.0};
    const struct frame_box box = frame_text_box(frame, x1 - 12.0, baseline, style, words);
    frame_path(frame);
    frame_rounded(frame, box.x0 - 12.0, box.y0 - 8.0, box.x1 - box.x0 + 24.0, box.y1 - box.y0 + 12.0, 6.0);
    frame_fill(frame, COLOUR_INK);
    frame_text(frame, x1 - 12.0, baseline, style, words);
}

static const char *against_limit(double hole, double limit, double doubt, int off_scale)
{
    if (off_scale > 0)
        return "off its scale";
    if (!isfinite(limit))
        return "";
    if (hole > limit + doubt)
        return "over the limit";
    return hole < limit - doubt ? "under the limit" : "on the limit";
}

void leading_hero(struct frame *frame, const struct leading_place *place, const char *text, const char *verdict)
{
    const struct text_style lozenge = {26.0, 600, COLOUR_PAPER, 0.0};
    struct text_style style = {HERO, 700, COLOUR_INK, 0.0};
    const double room =
        place->x1 - place->x0 - (*verdict ? frame_text_width(frame, lozenge, verdict) + 24.0 + 18.0 : 0.0);
    while (style.size > HERO_LEAST && frame_text_width(frame, style, text) > room)
        style.size -= 2.0;
    frame_text(frame, place->x0, place->figure, style, text);
    if (*verdict)
        lozenge_draw(frame, place->x1, place->figure - 8.0, verdict);
}

static void hero(struct frame *frame, const struct scene *scene, const struct leading_place *place, double si,
                 int dimension, int over, const char *verdict)
{
    char text[80];
    const struct figure figure = figure_make(si, dimension, scene->view->units);
    snprintf(text, sizeof text, "%s%s %s", over > 0 ? "> " : over < 0 ? "< " : "", figure.number, figure.unit);
    leading_hero(frame, place, text, verdict);
}

static void meter_draw(struct frame *frame, const struct scene *scene, const struct leading_place *place, int meter)
{
    double doubt;
    const double limit = leading_limit(scene->model, &doubt), hole = scene_told(scene, meter, HOLE);
    const int off = scene->now->off_scale[scene->cast->channel[meter][HOLE]];
    const char *words = against_limit(hole, limit, doubt, off);
    column_heading(frame, place->x0, place->x1, place->heading, "The meter shows a hole of", "");
    hero(frame, scene, place, hole, ULLAGE_LENGTH, off, words);
    const struct ruler ruler = {.x0 = place->x0 + 8.0,
                                .x1 = place->x1 - 58.0,
                                .y = place->ruler,
                                .units = scene->view->units,
                                .limit = limit,
                                .reading = hole,
                                .knob = (double)NAN,
                                .part = -1};
    ruler_draw(frame, &ruler);
}

static const char *verdict_words(const struct scene *scene, const char *name)
{
    static const char *const words[] = {[ULLAGE_PASS] = "passes", [ULLAGE_FAIL] = "fails", [ULLAGE_OPEN] = "open"};
    for (int k = scene->now->verdicts - 1; k >= 0; k--)
        if (!strcmp(scene->now->verdict[k].name, name))
            return words[scene->now->verdict[k].result];
    return "";
}

static void reading_draw(struct frame *frame, const struct scene *scene, const struct leading_place *place)
{
    const struct ullage_reading *last = &scene->now->reading[scene->now->readings - 1];
    char name[96];
    naming_words(last->name, true, name, sizeof name);
    column_heading(frame, place->x0, place->x1, place->heading, name, "read last");
    hero(frame, scene, place, last->value, last->dimension, last->over, verdict_words(scene, last->name));
}

void leading_draw(struct frame *frame, const struct scene *scene, const struct leading_place *place)
{
    const int meter = leading_meter(scene);
    if (meter >= 0)
        meter_draw(frame, scene, place, meter);
    else if (mixture_runs(scene))
        mixture_draw(frame, scene, place);
    else if (scene->now->readings > 0)
        reading_draw(frame, scene, place);
}
