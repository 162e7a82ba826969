/* key.c  Only what is in use stands in the key. */
#include "view/key.h"

#include "view/marks.h"
#include "view/naming.h"
#include "view/part/bed.h"
#include "view/part/gas.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define SCALE_LONG 400.0
#define SCALE_HIGH 15.0
#define IN_USE 0.005 /* mole share */

static const struct text_style key_style = {20.0, 500, COLOUR_SOFT, 0.0};

static double scale_x(const struct layout *layout, double pascal)
{
    return layout->key_x + SCALE_LONG * (0.5 + copysign(0.5 * sqrt(fabs(pascal) / COLOUR_PRESSURE_END), pascal));
}

/* Even in the root of the pressure, as the colours are: small pressures have room. */
static void scale_colours(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    const double step = SCALE_LONG / 80.0;
    for (int k = 0; k < 80; k++) {
        const double root = 2.0 * (k + 0.5) / 80.0 - 1.0;
        const unsigned colour = colour_pressure(root * fabs(root) * COLOUR_PRESSURE_END, scene->view->bright);
        frame_bar(frame, layout->key_x + k * step, layout->key_y, step + (k < 79 ? 0.6 : 0.0), SCALE_HIGH, colour);
    }
    frame_path(frame);
    frame_rectangle(frame, layout->key_x, layout->key_y, SCALE_LONG, SCALE_HIGH);
    frame_stroke(frame, COLOUR_INK, 1.6);
}

static void scale_ticks(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    static const double metric[] = {-5.0, -2.0, -0.5, 0.0, 0.5, 2.0, 5.0};  /* kPa */
    static const double water[] = {-20.0, -8.0, -2.0, 0.0, 2.0, 8.0, 20.0}; /* inches */
    static const double pascals[] = {-5e3, -2e3, -500.0, 0.0, 500.0, 2e3, 5e3};
    static const double *const ticks[] = {[UNITS_METRIC] = metric, [UNITS_INCH] = water, [UNITS_SI] = pascals};
    const struct unit_view unit = unit_view(ULLAGE_PRESSURE, scene->view->units);
    const double baseline = layout->key_y + SCALE_HIGH + 7.0 + 0.76 * frame_text_size(frame, key_style.size);
    double right = 0.0;
    char text[32];
    for (int k = 0; k < 7; k++) {
        const double shown = ticks[scene->view->units][k], x = scale_x(layout, shown / unit.scale);
        struct text_style style = key_style;
        style.anchor = 0.5;
        number_text(shown, fmod(shown, 1.0) < 0.0 || fmod(shown, 1.0) > 0.0 ? 0.1 : 1.0, text, sizeof text);
        frame_rule(frame, x, layout->key_y + SCALE_HIGH, x, layout->key_y + SCALE_HIGH + 5.0, COLOUR_INK, 1.6);
        const struct frame_box box = frame_text_box(frame, x, baseline, style, text);
        if (k && box.x0 < right + 5.0)
            continue;
        right = x + 0.5 * frame_text(frame, x, baseline, style, text);
    }
    frame_text(frame, right + 10.0, baseline, key_style, unit.unit);
}

void key_still(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    scale_colours(frame, scene, layout);
    scale_ticks(frame, scene, layout);
}

/* ---- marks in use -------------------------------------------------------------------------------------------------- */
static bool in_use(const struct scene *scene, enum mark mark)
{
    for (int p = 0; p < scene->cast->parts; p++) {
        const bool supply = scene_type(scene, p, "supply") && scene_joined(scene, p);
        const struct mix mix = scene_mix(scene, p);
        const double share = mark == MARK_SMOKE   ? mix.smoke
                             : mark == MARK_CLEAN ? mix.clean
                             : mark == MARK_VAPOR ? mix.vapor
                                                  : mix.air;
        if (share > IN_USE && (supply || isfinite(scene_value(scene, p, SHARE_AIR))) &&
            !(scene_type(scene, p, "supply") && !supply))
            return true;
    }
    return false;
}

/* One row of entries from left to right; what finds no room is left out. */
struct row {
    struct frame *frame;
    double x, end, baseline;
};

/* Writes an entry's words behind `sign` u for its sign, and says where that begins; NAN: no room. */
static double entry_begin(struct row *row, double sign, const char *words)
{
    const double begun = row->x, wide = sign + frame_text_width(row->frame, key_style, words);
    if (begun + wide > row->end)
        return (double)NAN;
    frame_text(row->frame, begun + sign, row->baseline, key_style, words);
    row->x += wide + 30.0;
    return begun;
}

static void mark_entry(struct row *row, enum mark mark, const char *words)
{
    const double x = entry_begin(row, 28.0, words);
    const double middle = row->baseline - 0.36 * frame_text_size(row->frame, key_style.size);
    if (isfinite(x))
        mark_draw(row->frame, mark, x + 10.0, middle, 0.0, 1.25, mark == MARK_SMOKE ? 0.0 : 9.0);
}

/* A pressure beyond the ends of the scale; 0: there is none. */
static double beyond(const struct scene *scene)
{
    for (int p = 0; p < scene->cast->parts; p++)
        if (fabs(scene_gauge(scene, p)) > COLOUR_PRESSURE_END && !scene_type(scene, p, "supply"))
            return scene_gauge(scene, p);
    return 0.0;
}

static void hatch_entry(struct row *row, const struct scene *scene)
{
    const double x = entry_begin(row, 44.0, "beyond the scale"), top = row->baseline - 16.0;
    if (!isfinite(x))
        return;
    frame_path(row->frame);
    frame_rectangle(row->frame, x, top, 36.0, 18.0);
    frame_fill(row->frame, colour_pressure(beyond(scene), scene->view->bright));
    frame_stroke(row->frame, COLOUR_INK, 1.6);
    frame_path(row->frame);
    for (int k = 0; k < 3; k++) {
        frame_move(row->frame, x + 2.0 + 11.0 * k, top + 17.0);
        frame_line(row->frame, x + 13.0 + 10.0 * k, top + 1.0);
    }
    frame_stroke(row->frame, COLOUR_INK, 1.0);
}

/* ---- beds ---------------------------------------------------------------------------------------------------------- */
static void carbon_entry(struct row *row)
{
    const double x = entry_begin(row, 30.0, "fuel on carbon"), top = row->baseline - 17.0;
    if (!isfinite(x))
        return;
    frame_bar(row->frame, x, top, 21.0, 19.0, COLOUR_GROUND);
    frame_bar(row->frame, x, top + 3.0, 10.0, 16.0, COLOUR_FUEL);
    frame_bar(row->frame, x + 11.0, top + 12.0, 10.0, 7.0, COLOUR_FUEL);
}

static void warmth_entry(struct row *row)
{
    const double x = entry_begin(row, 42.0, "its warmth, dotted: outside"), level = row->baseline - 3.0;
    if (!isfinite(x))
        return;
    frame_path(row->frame);
    frame_move(row->frame, x, level);
    frame_line(row->frame, x + 34.0, level);
    frame_stroke_dashed(row->frame, COLOUR_GHOST, 2.0, 2.0, 5.0);
    frame_path(row->frame);
    frame_move(row->frame, x, level - 4.0);
    frame_curve(row->frame, x + 10.0, level - 15.0, x + 20.0, level - 3.0, x + 34.0, level - 2.0);
    frame_stroke_round(row->frame, COLOUR_INK, 3.0);
}

static bool any_bed(const struct scene *scene)
{
    for (int p = 0; p < scene->cast->parts; p++)
        if (bed_there(scene, p))
            return true;
    return false;
}

static bool any_flammable(const struct scene *scene)
{
    for (int p = 0; p < scene->cast->parts; p++)
        if ((scene_type(scene, p, "tank") || scene_type(scene, p, "vessel")) && gas_flammable(scene_mix(scene, p)))
            return true;
    return false;
}

static void marks_row(struct row *row, const struct scene *scene)
{
    static const char *const words[] = {
        [MARK_AIR] = "air", [MARK_VAPOR] = "fuel vapor", [MARK_CLEAN] = "test gas", [MARK_SMOKE] = "gas with smoke"};

    static const enum mark order[] = {MARK_AIR, MARK_VAPOR, MARK_CLEAN, MARK_SMOKE};

    for (size_t k = 0; k < sizeof order / sizeof order[0]; k++)
        if (in_use(scene, order[k]))
            mark_entry(row, order[k], words[order[k]]);
    if (fabs(beyond(scene)) > 0.0)
        hatch_entry(row, scene);
    if (any_flammable(scene))
        entry_begin(row, 0.0, "flammable: 1.4 to 7.6 % vapor");
    if (any_bed(scene)) {
        carbon_entry(row);
        warmth_entry(row);
    }
}

/* ---- what is pointed at -------------------------------------------------------------------------------------------- */
static void fact_add(char *room, int size, const char *fact)
{
    const size_t used = strlen(room);
    snprintf(room + used, (size_t)size - used, "   %s", fact);
}

static void part_told(const struct scene *scene, int part, char *room, int size)
{
    char fact[64];
    naming_part(scene->model, part, true, room, size);
    const double gauge = scene_told(scene, part, GAUGE), flow = scene_told(scene, part, STANDARD_FLOW);
    const double speed = scene_told(scene, part, SPEED), temperature = scene_told(scene, part, TEMPERATURE);
    if (isfinite(gauge))
        fact_add(room, size, scene_text(scene, gauge, ULLAGE_PRESSURE, fact, sizeof fact));
    if (isfinite(flow))
        fact_add(room, size, scene_text(scene, flow, ULLAGE_VOLUME_FLOW, fact, sizeof fact));
    if (isfinite(speed))
        fact_add(room, size, scene_text(scene, speed, ULLAGE_SPEED, fact, sizeof fact));
    if (isfinite(temperature))
        fact_add(room, size, scene_text(scene, temperature, ULLAGE_TEMPERATURE, fact, sizeof fact));
}

static int pointed_at(const struct scene *scene)
{
    if (scene->view->hover >= 0)
        return scene->view->hover;
    return scene->view->focus >= 0 ? scene->plate->body[scene->view->focus].part : -1;
}

void key_live(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    char text[200];
    const int part = pointed_at(scene);
    const double x = layout->key_x + SCALE_LONG + 76.0;
    const double baseline = layout->key_y + SCALE_HIGH + 7.0 + 0.76 * frame_text_size(frame, key_style.size);
    if (part < 0) {
        struct row row = {frame, x + 24.0, layout->plate_x + PLATE_WIDTH, baseline};
        marks_row(&row, scene);
        return;
    }
    const struct text_style style = {22.0, 600, COLOUR_INK, 1.0};
    part_told(scene, part, text, sizeof text);
    for (char *cut = text + strlen(text);
         cut > text && frame_text_width(frame, style, text) > layout->plate_x + PLATE_WIDTH - x;) {
        while (cut > text && strncmp(cut, "   ", 3)) /* fewer facts where there is less room */
            cut--;
        *cut = '\0';
    }
    frame_text(frame, layout->plate_x + PLATE_WIDTH, baseline, style, text);
}
