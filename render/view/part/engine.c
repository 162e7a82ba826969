/* engine.c  An engine: its plenum at the pressure of the load, throttle and filter beside it, an injector on it, and one
 * cylinder under it. Beside the cylinder how the mixture is, λ as its sensor tells it, and the pressure in the manifold; how
 * the injection answers stands in the column (view/mixture.c). The crank turns once in a second of simulated time while it runs, the throttle stands as its
 * load has it, and the drops are as large as the injection is long. */
#include "view/naming.h"
#include "view/part/gas.h"
#include "view/part/part.h"

#include <math.h>
#include <stdio.h>

#define PLENUM_FROM (-83.0) /* u */
#define PLENUM_TO 32.0
#define PLENUM_DOWN 26.0
#define THROTTLE_END 66.0
#define THROTTLE_AT 49.0
#define PIPE_HALF 12.5
#define INJECTOR_X (-50.0)
#define BORE_X (-50.0)
#define BORE_HALF 30.0
#define WORDS_FROM (BORE_X + BORE_HALF + 12.0)
#define WORDS_WIDE 94.0
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
    const double from = body->mirror ? -PLENUM_TO : PLENUM_FROM;
    const struct frame_box inside = {body->x + from + 6.0, body->y - PLENUM_DOWN + 4.0,
                                     body->x + from + PLENUM_TO - PLENUM_FROM - 6.0, body->y + PLENUM_DOWN - 4.0};
    gas_hatch(frame, scene, body->part, inside);
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
    const double size = 4.4 * cbrt(1.0 + correction);
    for (int pass = 0; pass < 2; pass++) { /* with a rim of paper: they stand on hatch */
        frame_path(frame);
        for (int k = 0; k < 3; k++)
            frame_circle(frame, INJECTOR_X + 11.0 * (k - 1), -PLENUM_DOWN + (k == 1 ? 17.0 : 10.0),
                         size + (pass ? 0.0 : 2.0));
        frame_fill(frame, pass ? COLOUR_LIQUID : COLOUR_PAPER);
    }
}

/* "−45 kPa": whole units where there are tens of them. */
static const char *pressure_words(const struct scene *scene, int part, char *room, int size)
{
    const struct unit_view unit = unit_view(ULLAGE_PRESSURE, scene->view->units);
    const double shown = unit.scale * scene_told(scene, part, GAUGE);
    char number[32];
    number_text(shown, fabs(shown) < 9.95 ? 0.1 : 1.0, number, sizeof number);
    snprintf(room, (size_t)size, "%s %s", number, unit.unit);
    return room;
}

/* Name, mixture and what its manifold draws with, beside the cylinder. */
static void engine_words(struct frame *frame, const struct scene *scene, const struct plate_body *body, bool running)
{
    const double x = body->x + (body->mirror ? -1.0 : 1.0) * WORDS_FROM, down = body->y + PLENUM_DOWN;
    struct text_style name = scene_name_style, figure = scene_figure_style, small = scene_small_style;
    char text[72];
    name.anchor = figure.anchor = small.anchor = body->mirror ? 1.0 : 0.0;
    naming_part(scene->model, body->part, false, text, sizeof text);
    naming_capital(text);
    double baseline = down + 4.0 + 0.76 * frame_text_size(frame, name.size);
    frame_text_fit(frame, x, baseline, WORDS_WIDE, name, text);
    snprintf(text, sizeof text, "λ %.2f", scene_told(scene, body->part, AIR_RATIO));
    baseline += 1.04 * frame_text_size(frame, figure.size);
    frame_text_fit(frame, x, baseline, WORDS_WIDE, figure, running ? text : "off");
    baseline += 1.08 * frame_text_size(frame, small.size);
    if (running)
        frame_text_fit(frame, x, baseline, WORDS_WIDE, small, pressure_words(scene, body->part, text, sizeof text));
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
