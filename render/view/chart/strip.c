/* strip.c  One strip of paper: scale, grid, traces. Dense traces are drawn as the band between the least and the largest
 * value of each column, so that noise costs no more than a smooth line. */
#include "view/chart/chart.h"
#include "view/naming.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define TICKS_APART 1.1   /* of their size: the least from one number to the next */
#define COLUMN 1.5        /* u wide: finer detail is not seen */
#define LOG_FLOOR 0.01    /* of a strip with a log scale, in its shown unit, where the data go to nothing */
#define NOTHING 1e-5      /* shown units */
#define FLAT 0.01         /* share of itself that a value spans at least */
#define PRESSURE_SPAN 4.0 /* Pa: the least that a strip of pressure spans */
#define AREA_CURVE 0.85   /* how strong the colour under a pressure trace is against the scale's own */

enum { COLUMNS_MOST = 1400 };

static const struct text_style tick_style = {20.0, 500, COLOUR_SOFT, 1.0};

/* ---- scale --------------------------------------------------------------------------------------------------------- */
static double shown(const struct strip *strip, double si)
{
    return si * strip->unit.scale + strip->unit.offset;
}

static double cell(const struct strip_data *data, int row)
{
    return data->traces->row[(size_t)row * (size_t)data->traces->columns + (size_t)data->column];
}

static double row_time(const struct traces *traces, int row)
{
    return traces->row[(size_t)row * (size_t)traces->columns];
}

static void range_take(double si, double *low, double *high)
{
    if (!isfinite(si))
        return;
    *low = fmin(*low, si);
    *high = fmax(*high, si);
}

static double round_step(double rough)
{
    const double decade = pow(10.0, floor(log10(rough)));
    const double lead = rough / decade;
    return decade * (lead <= 1.0 + 1e-9 ? 1.0 : lead <= 2.0 + 1e-9 ? 2.0 : lead <= 5.0 + 1e-9 ? 5.0 : 10.0);
}

static void linear_ticks(struct strip *strip, double low, double high)
{
    const double size = fmax(fabs(low), fabs(high));
    if (size < NOTHING) /* a line at zero still gets a scale, and a flat one elsewhere */
        high = low + 1.0;
    else if (high - low < FLAT * size) {
        low -= 0.5 * FLAT * size;
        high += 0.5 * FLAT * size;
    }
    const double step = round_step((high - low) / 2.2);
    strip->low = step * floor(low / step + 1e-6);
    strip->high = step * ceil(high / step - 1e-6);
    strip->digit = step;
    strip->ticks = 0;
    const int wanted = (int)lround((strip->high - strip->low) / step) + 1;
    while (strip->ticks < wanted && strip->ticks < STRIP_TICKS) {
        const double tick = strip->low + strip->ticks * step;
        strip->tick[strip->ticks++] = fabs(tick) < 1e-6 * step ? 0.0 : tick;
    }
}

/* Decades, from a whole one to a 1, 2 or 5. */
static void log_ticks(struct strip *strip, double low, double high)
{
    const double first = floor(log10(fmax(low, LOG_FLOOR)) + 1e-6);
    strip->low = pow(10.0, first);
    strip->high = fmax(round_step(fmax(high, LOG_FLOOR)), 10.0 * strip->low);
    strip->ticks = 0;
    const double decades = log10(strip->high / strip->low), stride = decades >= STRIP_TICKS ? 2.0 : 1.0;
    while (strip->ticks < STRIP_TICKS && strip->ticks * stride <= decades + 1e-6) {
        strip->tick[strip->ticks] = strip->low * pow(10.0, strip->ticks * stride);
        strip->ticks++;
    }
}

/* Holes: from 0.1 to 3 mm, as the ruler has them. */
static void hole_ticks(struct strip *strip)
{
    static const double metric[] = {0.1, 0.3, 1.0, 3.0}, inch[] = {0.004, 0.01, 0.04, 0.12};
    const bool inches = strip->unit.scale < 100.0 && strip->unit.scale > 10.0;
    const double *tick = inches ? inch : metric;
    strip->ticks = 4;
    for (int k = 0; k < 4; k++)
        strip->tick[k] = tick[k];
    strip->low = strip->tick[0];
    strip->high = strip->tick[3];
    strip->digit = inches ? 0.001 : 0.1;
}

static bool wants_log(const struct ullage_channel *channel)
{
    return !strcmp(channel->quantity, "hole") || !strcmp(channel->quantity, "true_hole") ||
           (channel->dimension == ULLAGE_VOLUME_FLOW && strstr(channel->name, "meter"));
}

void strip_scale(struct strip *strip, const struct ullage_channel *channel, enum units units,
                 const struct strip_data *data, int count, double also)
{
    double low = (double)INFINITY, high = -(double)INFINITY; /* SI */
    strip->pressure = channel->dimension == ULLAGE_PRESSURE && strstr(channel->quantity, "gauge");
    strip->log = wants_log(channel);
    for (int d = 0; d < count; d++)
        for (int row = 0; row < data[d].traces->rows; row++)
            range_take(cell(&data[d], row), &low, &high);
    range_take(also, &low, &high);
    if (!(low <= high))
        low = 0.0, high = 1.0;
    if (strip->pressure || channel->dimension == ULLAGE_VOLUME_FLOW || channel->dimension == ULLAGE_MASS_FLOW) {
        low = fmin(low, 0.0);
        high = fmax(high, 0.0);
    }
    if (strip->pressure)
        high = fmax(high, low + PRESSURE_SPAN);
    const double largest = fmax(fabs(low), fabs(high));
    strip->unit = unit_view_of(channel->dimension, units, strip->log ? (double)INFINITY : largest);
    if (strip->log && channel->dimension == ULLAGE_LENGTH)
        hole_ticks(strip);
    else if (strip->log)
        log_ticks(strip, shown(strip, low), shown(strip, high));
    else
        linear_ticks(strip, shown(strip, low), shown(strip, high));
}

double strip_x(const struct strip *strip, double time)
{
    return strip->x0 + (strip->x1 - strip->x0) * fmin(fmax(time / strip->whole, 0.0), 1.0);
}

double strip_y(const struct strip *strip, double si)
{
    const double value = fmin(fmax(shown(strip, si), strip->low), strip->high);
    const double share = strip->log ? log(value / strip->low) / log(strip->high / strip->low)
                                    : (value - strip->low) / (strip->high - strip->low);
    return strip->y1 - (strip->y1 - strip->y0) * share;
}

static double si_of(const struct strip *strip, double value)
{
    return (value - strip->unit.offset) / strip->unit.scale;
}

/* Where every number has no room, every other one is written, zero among them. */
static bool tick_written(const struct strip *strip, int index, double size)
{
    if (strip->ticks < 2)
        return true;
    const double step =
        fabs(strip_y(strip, si_of(strip, strip->tick[1])) - strip_y(strip, si_of(strip, strip->tick[0])));
    int zero = 0;
    for (int k = 0; k < strip->ticks; k++)
        if (!(fabs(strip->tick[k]) > 0.0))
            zero = k;
    return step > TICKS_APART * size || (index - zero) % 2 == 0;
}

double strip_grid(struct frame *frame, const struct strip *strip)
{
    char text[32];
    const double size = frame_text_size(frame, tick_style.size);
    double widest = 0.0;
    for (int k = 0; k < strip->ticks; k++) {
        const double y = strip_y(strip, si_of(strip, strip->tick[k]));
        frame_rule(frame, strip->x0, y, strip->x1, y, COLOUR_RULE, 1.4);
        if (!tick_written(strip, k, size))
            continue;
        if (strip->log)
            snprintf(text, sizeof text, "%g", strip->tick[k]);
        else
            number_text(strip->tick[k], strip->digit, text, sizeof text);
        widest = fmax(widest, frame_text(frame, strip->x0 - 10.0, y + 0.36 * size, tick_style, text));
    }
    return strip->x0 - 10.0 - widest;
}

/* ---- traces -------------------------------------------------------------------------------------------------------- */
/* What the samples of one column of paper come to. */
struct column {
    double x, least, most, last;
};

struct columns {
    int count, samples;
    struct column at[COLUMNS_MOST];
};

static void column_take(struct columns *columns, double x, double y)
{
    const int index = (int)floor(x / COLUMN);
    struct column *last = columns->count ? &columns->at[columns->count - 1] : NULL;
    columns->samples++;
    if (last && (int)floor(last->x / COLUMN) == index) {
        last->least = fmin(last->least, y);
        last->most = fmax(last->most, y);
        last->last = y;
        last->x = x;
    } else if (columns->count < COLUMNS_MOST)
        columns->at[columns->count++] = (struct column){x, y, y, y};
}

static struct columns *columns_make(const struct strip *strip, const struct strip_data *data, double until,
                                    double present)
{
    struct columns *columns = calloc(1, sizeof *columns);
    if (!columns)
        return NULL;
    const struct traces *traces = data->traces;
    for (int row = 0; row < traces->rows && row_time(traces, row) <= until; row++)
        if (isfinite(cell(data, row)))
            column_take(columns, strip_x(strip, row_time(traces, row)), strip_y(strip, cell(data, row)));
    if (isfinite(present) && isfinite(until))
        column_take(columns, strip_x(strip, until), strip_y(strip, present));
    return columns;
}

static void line_path(struct frame *frame, const struct columns *columns)
{
    frame_path(frame);
    for (int k = 0; k < columns->count; k++) {
        if (k == 0)
            frame_move(frame, columns->at[k].x, columns->at[k].last);
        else
            frame_line(frame, columns->at[k].x, columns->at[k].last);
    }
}

/* Least to most of each column, reaching to the last value of the one before so that the band never tears. */
static void band_path(struct frame *frame, const struct columns *columns, double half)
{
    frame_path(frame);
    for (int k = 0; k < columns->count; k++) {
        const struct column *c = &columns->at[k];
        const double before = k ? columns->at[k - 1].last : c->least;
        const double y = fmin(c->least, before) - half;
        if (k == 0)
            frame_move(frame, c->x, y);
        else
            frame_line(frame, c->x, y);
    }
    for (int k = columns->count - 1; k >= 0; k--) {
        const struct column *c = &columns->at[k];
        frame_line(frame, c->x, fmax(c->most, k ? columns->at[k - 1].last : c->most) + half);
    }
    frame_close(frame);
}

void strip_trace(struct frame *frame, const struct strip *strip, const struct strip_data *data, double until,
                 double present, enum trace_style style)
{
    struct columns *columns = columns_make(strip, data, until, present);
    const double width = style == TRACE_INK ? (strip->bright ? 6.0 : 4.0) : style == TRACE_BRANCH ? 2.5 : 3.5;
    const unsigned colour = style == TRACE_INK ? COLOUR_INK : COLOUR_GHOST;
    if (columns && columns->count > 1) {
        if (style == TRACE_BEHIND) {
            line_path(frame, columns);
            frame_stroke_dashed(frame, colour, width, 2.0, 8.0);
        } else if (columns->samples > 2 * columns->count) {
            band_path(frame, columns, 0.5 * width);
            frame_fill(frame, colour);
        } else {
            line_path(frame, columns);
            frame_stroke_round(frame, colour, width);
        }
    }
    free(columns);
}

/* The scale's own colours at each height, paling towards the paper at zero. */
static struct frame_shade area_shade(const struct strip *strip)
{
    struct frame_shade shade = {.y0 = (float)strip->y0, .y1 = (float)strip->y1, .stops = SHADE_STOPS};
    for (int k = 0; k < SHADE_STOPS; k++) {
        const double share = (double)k / (SHADE_STOPS - 1);
        const double value = strip->high + share * (strip->low - strip->high);
        shade.at[k] = (float)share;
        shade.colour[k] = colour_pressure(AREA_CURVE * si_of(strip, value), strip->bright);
    }
    return shade;
}

void strip_area(struct frame *frame, const struct strip *strip, const struct strip_data *data, double until,
                double present)
{
    struct columns *columns = columns_make(strip, data, until, present);
    if (columns && columns->count > 1) {
        const double zero = strip_y(strip, si_of(strip, 0.0));
        const struct frame_shade shade = area_shade(strip);
        frame_path(frame);
        frame_move(frame, columns->at[0].x, zero);
        for (int k = 0; k < columns->count; k++)
            frame_line(frame, columns->at[k].x, columns->at[k].last);
        frame_line(frame, columns->at[columns->count - 1].x, zero);
        frame_close(frame);
        frame_fill_shaded(frame, &shade);
    }
    free(columns);
}

void strip_limit(struct frame *frame, const struct strip *strip, double si, const char *name, double now)
{
    const struct text_style style = {22.0, 500, COLOUR_INK, 1.0};
    const double y = strip_y(strip, si);
    frame_path(frame);
    frame_move(frame, strip->x0, y);
    frame_line(frame, strip->x1, y);
    frame_stroke_dashed(frame, COLOUR_INK, 2.0, 10.0, 6.0);
    const bool above = y - strip->y0 > 1.1 * frame_text_size(frame, style.size);
    const double right = strip->x1 - 4.0, cut = strip_x(strip, now);
    const bool meets = cut < right + 4.0 && cut > right - frame_text_width(frame, style, name) - 8.0;
    const double x = meets ? cut - 8.0 : right;
    const double baseline = above ? y - 8.0 : y + 6.0 + 0.76 * frame_text_size(frame, style.size);
    const struct frame_box box = frame_text_box(frame, x, baseline, style, name);
    frame_bar(frame, box.x0 - 3.0, box.y0 + 2.0, box.x1 - box.x0 + 6.0, baseline - box.y0,
              COLOUR_PAPER); /* over what lies behind */
    frame_text(frame, x, baseline, style, name);
}

/* ---- words --------------------------------------------------------------------------------------------------------- */
static const struct {
    const char *quantity, *words;
} plain[] = {{"gauge_pressure", "pressure"},
             {"pressure", "pressure, absolute"},
             {"liquid_temperature", "liquid"},
             {"standard_flow", "flow"},
             {"flow", "mass flow"},
             {"true_hole", "hole, corrected"},
             {"air", "share of air"},
             {"nitrogen", "nitrogen"},
             {"smoke", "smoke"}};

const char *channel_words(const struct ullage_model *model, int channel, bool brief, char *room, int size)
{
    const struct ullage_channel about = ullage_model_channel(model, channel);
    char part[64] = "Air", quantity[64];
    if (about.part >= 0)
        naming_part(model, about.part, true, part, sizeof part);
    naming_words(about.quantity, false, quantity, sizeof quantity);
    for (size_t k = 0; k < sizeof plain / sizeof plain[0]; k++)
        if (!strcmp(about.quantity, plain[k].quantity))
            snprintf(quantity, sizeof quantity, "%s", plain[k].words);
    snprintf(room, (size_t)size, brief ? "%s" : "%s %s", part, quantity);
    return room;
}
