/* gas.c  Figures on gas, and smoke around them. */
#include "view/part/gas.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define TOLD_FROM 0.005 /* mole share from which a gas is named */
#define WHOLE_PERCENT_FROM 0.0995
#define FLAMMABLE_LEAST 0.014 /* mole share of gasoline vapor in air that burns: handbooks, from memory */
#define FLAMMABLE_MOST 0.076
#define AIR_LEAST 0.55 /* mole share of air below which nothing burns: 11.6 % oxygen, from memory */
#define SECOND_SIZE 26.0
#define HATCH_STEP 12.0
#define PUFF_MARGIN 14.0

static void words_add(char *room, int size, const char *name, double share)
{
    const size_t used = strlen(room);
    if (share >= TOLD_FROM)
        snprintf(room + used, (size_t)size - used, "%s%s %.*f %%", used ? "   " : "", name,
                 share < WHOLE_PERCENT_FROM ? 1 : 0, 100.0 * share);
}

/* "smoke 41 %   20.0 °C" */
static const char *gas_words(const struct scene *scene, int part, bool brief, char *room, int size)
{
    char number[40];
    const struct mix mix = scene_mix(scene, part);
    const double carbon = scene_value(scene, part, SHARE_CARBON_DIOXIDE);
    const bool mostly_carbon = isfinite(carbon) && carbon > 0.5 * (mix.clean + mix.smoke);
    room[0] = '\0';
    words_add(room, size, "vapor", mix.vapor);
    words_add(room, size, "smoke", mix.smoke);
    words_add(room, size, mostly_carbon ? "carbon dioxide" : "nitrogen", mix.clean);
    const double temperature = scene_told(scene, part, TEMPERATURE);
    const size_t used = strlen(room);
    if (isfinite(temperature) && !(brief && used))
        snprintf(room + used, (size_t)size - used, "%s%s", used ? "   " : "",
                 scene_text(scene, temperature, ULLAGE_TEMPERATURE, number, sizeof number));
    return room;
}

void gas_keep_clear(struct gas_space *space, struct frame_box box)
{
    const int most = (int)(sizeof space->keep / sizeof space->keep[0]);
    if (space->clear < most)
        space->keep[space->clear++] = box_grown(box, 8.0);
}

bool gas_flammable(struct mix mix)
{
    return mix.vapor >= FLAMMABLE_LEAST && mix.vapor <= FLAMMABLE_MOST && mix.air >= AIR_LEAST;
}

/* In words on ink, behind the figures at x. */
static void flammable_mark(struct frame *frame, const struct scene *scene, int part, double x, double baseline,
                           struct gas_space *space)
{
    const struct text_style style = {22.0, 600, COLOUR_PAPER, 0.0};
    const struct frame_box box = frame_text_box(frame, x + 26.0, baseline, style, "flammable");
    const struct frame_box lozenge = {box.x0 - 10.0, box.y0 - 5.0, box.x1 + 10.0, box.y1 + 4.0};
    if (!gas_flammable(scene_mix(scene, part)) || lozenge.x1 > space->box.x1 - 8.0)
        return;
    frame_path(frame);
    frame_rounded(frame, lozenge.x0, lozenge.y0, lozenge.x1 - lozenge.x0, lozenge.y1 - lozenge.y0, 6.0);
    frame_fill(frame, COLOUR_INK);
    frame_text(frame, box.x0, baseline, style, "flammable");
    gas_keep_clear(space, lozenge);
}

double gas_figures_high(const struct frame *frame, double size)
{
    return 1.12 * frame_text_size(frame, size) + 0.97 * frame_text_size(frame, SECOND_SIZE);
}

void gas_figures(struct frame *frame, const struct scene *scene, int part, double x, double y, double size,
                 struct gas_space *space)
{
    char text[96];
    struct text_style hero = {size, 600, space->ink, 0.0};
    struct text_style second = {SECOND_SIZE, 500, space->ink, 0.0};
    const double baseline = y + 0.76 * frame_text_size(frame, size);
    const double room = space->box.x1 - x - 12.0;
    scene_text(scene, scene_told(scene, part, GAUGE), ULLAGE_PRESSURE, text, sizeof text);
    while (hero.size > frame->least_text && frame_text_width(frame, hero, text) > room)
        hero.size -= 1.0;
    gas_keep_clear(space, frame_text_box(frame, x, baseline, hero, text));
    frame_text(frame, x, baseline, hero, text);
    gas_words(scene, part, false, text, sizeof text);
    if (frame_text_width(frame, second, text) > room)
        second.size = 22.0;
    if (frame_text_width(frame, second, text) > room)
        gas_words(scene, part, true, text, sizeof text);
    const double below = baseline + 0.36 * frame_text_size(frame, size) + 0.76 * frame_text_size(frame, second.size);
    const struct frame_box box = frame_text_box(frame, x, below, second, text);
    if (box.y1 > space->box.y1 || box.x1 > space->box.x1)
        return; /* a small space tells its pressure alone */
    gas_keep_clear(space, box);
    flammable_mark(frame, scene, part, x + frame_text(frame, x, below, second, text), below, space);
}

static bool inside_box(const struct gas_space *space, double x, double y)
{
    const struct frame_box *b = &space->box;
    return x > b->x0 + PUFF_MARGIN && x < b->x1 - PUFF_MARGIN && y > b->y0 + PUFF_MARGIN && y < b->y1 - PUFF_MARGIN;
}

struct gas_space gas_box(const struct plate_body *body, double wall)
{
    return (struct gas_space){
        .box = box_grown(body->box, -wall), .inside = inside_box, .body = body, .ink = COLOUR_INK};
}

void gas_hatch(struct frame *frame, const struct scene *scene, int part, struct frame_box box)
{
    if (fabs(scene_gauge(scene, part)) <= COLOUR_PRESSURE_END)
        return;
    const double tall = box.y1 - box.y0;
    frame_path(frame);
    frame_rectangle(frame, box.x0, box.y0, box.x1 - box.x0, tall);
    frame_clip(frame);
    frame_path(frame);
    const int lines = (int)ceil((box.x1 - box.x0 + tall) / HATCH_STEP);
    for (int k = 0; k < lines; k++) {
        const double x = box.x0 - tall + k * HATCH_STEP;
        frame_move(frame, x, box.y1);
        frame_line(frame, x + tall, box.y0);
    }
    frame_stroke(frame, COLOUR_INK, 1.0);
    frame_unclip(frame);
}

void gas_space_fill(struct frame *frame, const struct scene *scene, const struct plate_body *body,
                    struct gas_space *space, double size)
{
    const double x = space->box.x0 + 20.0, y = space->box.y0 + 22.0;
    gas_figures(frame, scene, body->part, x, y, size, space);
    marks_space(frame, space, scene_mix(scene, body->part));
}
