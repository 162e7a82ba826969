/* engine.c  An engine: its plenum at the pressure of the load, throttle and filter beside it, an injector on it, and one
 * cylinder under it. Beside the cylinder how the mixture is, λ as its sensor tells it, and by how much the injection is
 * lengthened or shortened. The crank turns once in a second of simulated time while it runs, the throttle stands as its
 * load has it, and the drops are as large as the injection is long. */
#include "view/naming.h"
#include "view/part/gas.h"
#include "view/part/part.h"

#include <math.h>
#include <stdio.h>

#define PLENUM_FROM (-83.0) /* u */
#define PLENUM_TO 32.0
#define PLENUM_DOWN 30.0
#define THROTTLE_END 66.0
#define THROTTLE_AT 49.0
#define PIPE_HALF 12.5
#define INJECTOR_X (-50.0)
#define BORE_X (-50.0)
#define BORE_HALF 28.0
#define WORDS_FROM (BORE_X + BORE_HALF + 12.0)
#define WORDS_WIDE 95.0
#define CYLINDER_DOWN 73.0
#define PISTON 14.0
#define STROKE 11.0
#define CRANK_Y 88.0
#define CRANK 10.0
#define THROTTLE_SHUT 1.35 /* rad from along the pipe */
#define RUNS_FROM 1e-6     /* kg/s of air */
#define TURN 6.283185307179586

static bool runs(const struct scene *scene, int part)
{
    const double air = scene_value(scene, part, AIR_FLOW);
    return isfinite(air) && air > RUNS_FROM;
}

static bool engine_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port)
{
    (void)body;
    (void)key;
    (void)opening;
    *port = (struct plate_port){PLENUM_FROM - 2.0, 0.0, SIDE_LEFT};
    return true;
}

static void engine_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    (void)scene;
    frame_at(frame, body->x, body->y, 0, body->mirror);
    frame_bar(frame, PLENUM_TO, -PIPE_HALF - 3.0, THROTTLE_END - PLENUM_TO, 2.0 * PIPE_HALF + 6.0, COLOUR_INK);
    frame_path(frame);
    frame_rounded(frame, PLENUM_FROM, -PLENUM_DOWN, PLENUM_TO - PLENUM_FROM, 2.0 * PLENUM_DOWN, 14.0);
    frame_stroke(frame, COLOUR_INK, 4.0);
    frame_path(frame); /* the injector */
    frame_move(frame, INJECTOR_X - 6.0, -PLENUM_DOWN - 20.0);
    frame_line(frame, INJECTOR_X + 6.0, -PLENUM_DOWN - 20.0);
    frame_line(frame, INJECTOR_X + 10.0, -PLENUM_DOWN);
    frame_line(frame, INJECTOR_X - 10.0, -PLENUM_DOWN);
    frame_close(frame);
    frame_fill(frame, COLOUR_INK);
    frame_home(frame);
}

static void engine_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const unsigned colour = scene_colour(scene, body->part);
    frame_at(frame, body->x, body->y, 0, body->mirror);
    frame_bar(frame, PLENUM_TO - 2.0, -PIPE_HALF, THROTTLE_AT - PLENUM_TO + 2.0, 2.0 * PIPE_HALF, colour);
    frame_bar(frame, THROTTLE_AT, -PIPE_HALF, THROTTLE_END - THROTTLE_AT, 2.0 * PIPE_HALF, scene_colour(scene, -1));
    frame_path(frame);
    frame_rounded(frame, PLENUM_FROM + 2.0, -PLENUM_DOWN + 2.0, PLENUM_TO - PLENUM_FROM - 4.0, 2.0 * PLENUM_DOWN - 4.0,
                  12.0);
    frame_fill(frame, colour);
    frame_home(frame);
    /* a strip along the floor, clear of the figure */
    const double from = body->mirror ? -PLENUM_TO : PLENUM_FROM;
    const struct frame_box floor = {body->x + from + 10.0, body->y + 16.0,
                                    body->x + from + PLENUM_TO - PLENUM_FROM - 10.0, body->y + PLENUM_DOWN - 2.0};
    gas_hatch(frame, scene, body->part, floor);
}

/* From along the pipe, wide open, to nearly across it, as the pressure behind falls from the air's. */
static void throttle(struct frame *frame, const struct scene *scene, int part)
{
    const int air = ullage_model_find_channel(scene->model, "air.pressure");
    const double share = fmin(1.0, 1.0 + scene_gauge(scene, part) / scene->now->value[air]);
    const double angle = THROTTLE_SHUT * sqrt(fmax(0.0, 1.0 - share * share));
    const double x = (PIPE_HALF + 3.0) * cos(angle), y = (PIPE_HALF + 3.0) * sin(angle);
    frame_rule(frame, THROTTLE_AT - x, -y, THROTTLE_AT + x, y, COLOUR_INK, 5.0);
}

static void filter(struct frame *frame)
{
    frame_path(frame);
    frame_rounded(frame, THROTTLE_END - 4.0, -24.0, 20.0, 48.0, 5.0);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 3.0);
    frame_path(frame);
    for (int row = 0; row < 6; row++)
        for (int column = 0; column < 2; column++)
            frame_rectangle(frame, THROTTLE_END + 0.4 + 6.0 * column, -18.0 + 6.4 * row, 3.0, 4.0);
    frame_fill(frame, COLOUR_INK);
}

static void cylinder(struct frame *frame, double turn)
{
    const double pin_x = BORE_X + CRANK * sin(turn), pin_y = CRANK_Y - CRANK * cos(turn);
    const double piston = PLENUM_DOWN + 6.0 + STROKE - STROKE * cos(turn);
    frame_path(frame);
    frame_rectangle(frame, BORE_X - BORE_HALF, PLENUM_DOWN, 2.0 * BORE_HALF, CYLINDER_DOWN - PLENUM_DOWN);
    frame_fill(frame, COLOUR_PAPER);
    frame_stroke(frame, COLOUR_INK, 4.0);
    frame_path(frame);
    frame_circle(frame, BORE_X, CRANK_Y, CRANK + 3.0);
    frame_fill(frame, COLOUR_PAPER);
    frame_stroke(frame, COLOUR_INK, 3.0);
    frame_rule(frame, BORE_X, piston + 0.5 * PISTON, pin_x, pin_y, COLOUR_INK, 5.0);
    frame_path(frame);
    frame_circle(frame, pin_x, pin_y, 5.0);
    frame_fill(frame, COLOUR_INK);
    frame_bar(frame, BORE_X - BORE_HALF + 3.0, piston, 2.0 * BORE_HALF - 6.0, PISTON, COLOUR_INK);
}

/* Three drops under the injector, as large as its pulses are long. */
static void drops(struct frame *frame, double correction)
{
    const double size = 3.4 * cbrt(1.0 + correction);
    frame_path(frame);
    for (int k = 0; k < 3; k++)
        frame_circle(frame, INJECTOR_X + 8.0 * (k - 1), -PLENUM_DOWN + (k == 1 ? 12.0 : 8.0), size);
    frame_fill(frame, COLOUR_LIQUID);
}

static void pressure_figure(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const double gauge = scene_told(scene, body->part, GAUGE);
    const double middle = (body->mirror ? -0.5 : 0.5) * (PLENUM_FROM + PLENUM_TO);
    const struct text_style style = {28.0, 600, COLOUR_INK, 0.5};
    char text[48];
    if (isfinite(gauge))
        frame_text_fit(frame, body->x + middle, body->y + 11.0, 100.0, style,
                       scene_text(scene, gauge, ULLAGE_PRESSURE, text, sizeof text));
}

/* Name and mixture, beside the cylinder; where letters are large there is no room for the correction. */
static void engine_words(struct frame *frame, const struct scene *scene, const struct plate_body *body, bool running)
{
    const double x = body->x + (body->mirror ? -1.0 : 1.0) * WORDS_FROM, down = body->y + PLENUM_DOWN;
    struct text_style name = scene_name_style, figure = scene_figure_style, small = scene_small_style;
    char text[48];
    name.anchor = figure.anchor = small.anchor = body->mirror ? 1.0 : 0.0;
    naming_part(scene->model, body->part, false, text, sizeof text);
    naming_capital(text);
    double baseline = down + 2.0 + 0.85 * frame_text_size(frame, name.size);
    frame_text_fit(frame, x, baseline, WORDS_WIDE, name, text);
    snprintf(text, sizeof text, "λ %.2f", scene_told(scene, body->part, AIR_RATIO));
    baseline += 0.96 * frame_text_size(frame, figure.size);
    frame_text_fit(frame, x, baseline, WORDS_WIDE, figure, running ? text : "off");
    const double percent = 100.0 * scene_told(scene, body->part, CORRECTION);
    snprintf(text, sizeof text, "%s%.0f %%", percent <= -0.5 ? "−" : percent >= 0.5 ? "+" : "±", fabs(percent));
    baseline += frame_text_size(frame, small.size);
    if (running && baseline < body->box.y1)
        frame_text_fit(frame, x, baseline, WORDS_WIDE, small, text);
}

static void engine_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const bool running = runs(scene, body->part);
    const double time = scene->now->time;
    frame_at(frame, body->x, body->y, 0, body->mirror);
    throttle(frame, scene, body->part);
    filter(frame);
    cylinder(frame, running ? TURN * (time - floor(time)) : 0.4);
    if (running)
        drops(frame, scene_value(scene, body->part, CORRECTION));
    frame_home(frame);
    pressure_figure(frame, scene, body);
    engine_words(frame, scene, body, running);
}

const struct drawn engine_drawn = {
    .type = "engine",
    .extent = {PLENUM_FROM - 2.0, -PLENUM_DOWN - 22.0, THROTTLE_END + 19.0, CRANK_Y + CRANK + 5.0},
    .port = engine_port,
    .nameless = true,
    .slot = {SLOTS},
    .still = engine_still,
    .gas = engine_gas,
    .front = engine_front,
};
