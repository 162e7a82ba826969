/* piece.c  A piece of pipe with something in it, and what its open ends show. */
#include "view/part/piece.h"

#include "view/marks.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define STUB 52.0       /* u from a piece's end to the filter */
#define WORDS_UP 36.0   /* u from the middle of an open end to the line of what is written over it */
#define WORDS_HIGH 56.0 /* its two lines, at the largest that the least size makes them */
#define QUARTER 1.5707963267948966

void piece_measure_at(struct plate_body *body, double y)
{
    if (body->air[0])
        body->extent.x0 -= STUB + 26.0;
    if (body->air[1])
        body->extent.x1 += STUB + 26.0;
    if ((body->air[0] || body->air[1]) && body->turn == 0)
        body->extent.y0 = fmin(body->extent.y0, y - WORDS_UP - WORDS_HIGH);
}

void piece_measure(const struct plate *plate, struct plate_body *body)
{
    (void)plate;
    piece_measure_at(body, 0.0);
}

bool piece_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port)
{
    (void)body;
    (void)opening;
    *port = !strcmp(key, "from") ? (struct plate_port){-PIECE_HALF, 0.0, SIDE_LEFT}
                                 : (struct plate_port){PIECE_HALF, 0.0, SIDE_RIGHT};
    return true;
}

double piece_far(const struct plate_body *body, int side)
{
    return PIECE_HALF + (body->air[side] ? STUB : 0.0);
}

int piece_side_gas(const struct scene *scene, int part, int side)
{
    const struct ullage_part about = ullage_model_part(scene->model, part);
    const struct ullage_link *link = part_link(&about, side ? "to" : "from");
    return link ? link->part : -1;
}

void piece_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    (void)scene;
    const double left = piece_far(body, 0), right = piece_far(body, 1), half = PIECE_PIPE_HALF + 3.0;
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    frame_bar(frame, -left, -half, left + right, 2.0 * half, COLOUR_INK);
    frame_home(frame);
}

void piece_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const double left = piece_far(body, 0), right = piece_far(body, 1), half = PIECE_PIPE_HALF;
    const unsigned before = scene_colour(scene, piece_side_gas(scene, body->part, 0));
    const unsigned behind = scene_colour(scene, piece_side_gas(scene, body->part, 1));
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    frame_bar(frame, -left - 1.0, -half, left + 1.0, 2.0 * half, before);
    frame_bar(frame, 0.0, -half, right + 1.0, 2.0 * half, behind);
    frame_home(frame);
}

/* ---- open ends --------------------------------------------------------------------------------------------------- */

void piece_filter(struct frame *frame, double x, double y)
{
    frame_path(frame);
    frame_rounded(frame, x - 12.0, y - 25.0, 24.0, 50.0, 5.0);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 3.0);
    frame_path(frame);
    for (int row = 0; row < 6; row++)
        for (int column = 0; column < 3; column++)
            frame_rectangle(frame, x - 6.8 + 5.2 * column, y - 18.6 + 6.6 * row, 2.6, 4.2);
    frame_fill(frame, COLOUR_INK);
}

static enum mark mark_of(struct mix mix)
{
    return mix.smoke > 0.5 ? MARK_SMOKE : mix.clean > 0.5 ? MARK_CLEAN : mix.vapor > 0.5 ? MARK_VAPOR : MARK_AIR;
}

void piece_stream(struct frame *frame, const struct scene *scene, const struct plate_body *body, int side, double y)
{
    const double speed = motion_of_part(scene->plate, scene->cast, scene->now->value, body->part);
    if (!body->air[side] || fabs(speed) < 0.2)
        return;
    const bool outward = side ? speed > 0.0 : speed < 0.0;
    const double phase = scene->motion->part[body->part];
    const double step = 38.0, moved = fmod(fmod(phase, step) + step, step);
    const struct mix mix =
        outward ? scene_mix(scene, piece_side_gas(scene, body->part, !side)) : (struct mix){.air = 1.0};
    const double run = STUB - 14.0, at = moved * run / step;
    const double along = side ? 24.0 + at : -24.0 - run + at, x = body->mirror ? -along : along;
    const double turned = QUARTER * (body->turn / 90);
    const double heading = (body->mirror ? 2.0 : 0.0) * QUARTER + turned + (speed > 0.0 ? 0.0 : 2.0 * QUARTER);
    mark_draw(frame, mark_of(mix), body->x + cos(turned) * x - sin(turned) * y,
              body->y + sin(turned) * x + cos(turned) * y, heading, 1.25, fmin(13.0, 0.1 * fabs(speed)));
}

static void outside_words(struct frame *frame, const struct scene *scene, const struct plate_body *body, int side,
                          double y)
{
    const int channel = ullage_model_find_channel(scene->model, "air.temperature");
    if (channel < 0 || body->turn != 0)
        return;
    char text[40];
    const struct text_style style = {20.0, 500, COLOUR_SOFT, 0.5};
    const double x = body->x + (side != (int)body->mirror ? 1.0 : -1.0) * (PIECE_HALF + STUB - 14.0);
    scene_text(scene, scene->now->value[channel], ULLAGE_TEMPERATURE, text, sizeof text);
    frame_text(frame, x, body->y + y - WORDS_UP, style, text);
    const double upper = body->y + y - WORDS_UP - 1.25 * frame_text_size(frame, style.size);
    const struct frame_box box = frame_text_box(frame, x, upper, style, "outside");
    frame_text(frame, x, upper, style, "outside");
    frame_spot(frame, SPOT_WEATHER, -1, (struct frame_box){box.x0, box.y0, box.x1, body->y + y - WORDS_UP + 6.0}, 0.0,
               0.0);
}

void piece_outside(struct frame *frame, const struct scene *scene, const struct plate_body *body, int side, double y)
{
    if (!body->air[side])
        return;
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    piece_filter(frame, (side ? 1.0 : -1.0) * piece_far(body, side), y);
    frame_home(frame);
    outside_words(frame, scene, body, side, y);
}

/* ---- words ------------------------------------------------------------------------------------------------------- */

double piece_opening(const struct scene *scene, int part)
{
    const double opening = scene_value(scene, part, OPENING);
    return isfinite(opening) ? opening : 1.0;
}

void piece_words(struct frame *frame, const struct plate_body *body, double opening)
{
    char words[32];
    if (opening > PIECE_OPEN_FROM)
        snprintf(words, sizeof words, "open");
    else if (opening < PIECE_SHUT_BELOW)
        snprintf(words, sizeof words, "shut");
    else
        snprintf(words, sizeof words, "open %.2g %%", 100.0 * opening);
    scene_words(frame, body, words);
}
