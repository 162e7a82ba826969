/* bed.c  A bed in section. Height of a column: its load over what the same carbon would hold of butane. Warmth: a line along
 * the bed about a dotted one, which is the outside's temperature of that moment; the cell farthest from it has the figure. */
#include "view/part/bed.h"

#include "view/scatter.h"

#include <math.h>
#include <stdio.h>

#define COLUMN_GAP 1.2      /* u between two columns */
#define GAP_FROM 5.0        /* u: narrower columns stand without gaps */
#define GRAIN 1.1           /* u radius */
#define WARM_PER_KELVIN 3.0 /* u, as long as all fits */
#define WARM_MOST 15.0      /* u from the dotted line */
#define WARM_ROOM 21.0      /* u from the dotted line to the near edge of the strip, on the side of the line */
#define TOLD_FROM 0.5       /* K from the outside's temperature that are worth a figure */
#define FOOT_GAP 7.0        /* u between the dotted line and the figure */

static const struct text_style warmth_style = {26.0, 600, COLOUR_INK, 0.5};

bool bed_there(const struct scene *scene, int part)
{
    const struct ullage_cell *cell;
    const int cells = scene_cells(scene, part, &cell);
    for (int k = 0; k < cells; k++)
        if (cell[k].full > 0.0)
            return true;
    return false;
}

const char *bed_words(const struct scene *scene, int part, char *room, int size)
{
    char grams[40], share[40];
    const struct ullage_cell *cell;
    const int cells = scene_cells(scene, part, &cell);
    const double load = scene_told(scene, part, LOAD);
    double full = 0.0;
    for (int k = 0; k < cells; k++)
        full += cell[k].full;
    snprintf(room, (size_t)size, "%s   %s", scene_text(scene, load, ULLAGE_MASS, grams, sizeof grams),
             scene_text(scene, load / full, ULLAGE_NUMBER, share, sizeof share));
    return room;
}

/* ---- columns ------------------------------------------------------------------------------------------------------- */
static int cells_together(int cells)
{
    return (cells + BED_COLUMNS_MOST - 1) / BED_COLUMNS_MOST;
}

int bed_columns(int cells)
{
    const int together = cells_together(cells);
    return together ? (cells + together - 1) / together : 0;
}

struct ullage_cell bed_column(const struct ullage_cell *cell, int cells, int column)
{
    const int first = column * cells_together(cells);
    const int last = first + cells_together(cells) < cells ? first + cells_together(cells) : cells;
    struct ullage_cell sum = {.from = cell[first].from, .to = cell[last - 1].to};
    for (int k = first; k < last; k++) {
        sum.load += cell[k].load;
        sum.full += cell[k].full;
        sum.temperature += cell[k].temperature / (last - first);
        sum.vapor += cell[k].vapor / (last - first);
    }
    return sum;
}

static double along(const struct bed_place *place, double share)
{
    return place->x0 + share * (place->x1 - place->x0);
}

/* Grains lie where dots of vapor would, closer together: the same even places. */
static void grains(struct frame *frame, const struct bed_place *place, double x0, double x1)
{
    const double step = 0.5; /* of the places' own distance */
    frame_path(frame);
    for (int k = 0; k < SCATTER_PLACES; k++)
        for (double left = place->x0; left < x1; left += step * SCATTER_TILE)
            for (double top = place->over; top < place->foot; top += step * SCATTER_TILE) {
                const struct scatter_place at = scatter_place(k);
                const double x = left + step * at.x, y = top + step * at.y;
                if (k % 3 == 0 && x > x0 + GRAIN && x < x1 - GRAIN && y > place->over + GRAIN &&
                    y < place->foot - GRAIN)
                    frame_rectangle(frame, x - GRAIN, y - GRAIN, 2.0 * GRAIN, 2.0 * GRAIN);
            }
    frame_fill(frame, COLOUR_WALL);
}

void bed_ground(struct frame *frame, const struct scene *scene, const struct plate_body *body,
                const struct bed_place *place)
{
    const struct ullage_cell *cell;
    const int cells = scene_cells(scene, body->part, &cell);
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    frame_bar(frame, place->x0, place->roof, place->x1 - place->x0, place->over - place->roof, COLOUR_PAPER);
    for (int k = 0; k < cells; k++) {
        int last = k;
        while (last + 1 < cells && (cell[last + 1].full > 0.0) == (cell[k].full > 0.0))
            last++;
        if (cell[k].full > 0.0) {
            const double x0 = along(place, cell[k].from), x1 = along(place, cell[last].to);
            frame_bar(frame, x0, place->over, x1 - x0, place->foot - place->over, COLOUR_GROUND);
            grains(frame, place, x0, x1);
        }
        k = last;
    }
    frame_rule(frame, place->x0, place->over, place->x1, place->over, COLOUR_RULE, 1.6);
    frame_home(frame);
}

static double share_of(const struct ullage_cell *cell)
{
    return cell->full > 0.0 && isfinite(cell->load) ? fmin(fmax(cell->load / cell->full, 0.0), 1.0) : 0.0;
}

/* A line over what holds more than butane alone would give it. */
static void lids(struct frame *frame, const struct bed_place *place, const struct ullage_cell *cell, int cells)
{
    frame_path(frame);
    for (int k = 0; k < bed_columns(cells); k++) {
        const struct ullage_cell column = bed_column(cell, cells, k);
        if (column.full > 0.0 && column.load > column.full) {
            frame_move(frame, along(place, column.from), place->over);
            frame_line(frame, along(place, column.to), place->over);
        }
    }
    frame_stroke(frame, COLOUR_INK, 4.0);
}

void bed_load(struct frame *frame, const struct scene *scene, const struct plate_body *body,
              const struct bed_place *place)
{
    const struct ullage_cell *cell;
    const int cells = scene_cells(scene, body->part, &cell);
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    frame_path(frame);
    for (int k = 0; k < bed_columns(cells); k++) {
        const struct ullage_cell column = bed_column(cell, cells, k);
        const double x0 = along(place, column.from), x1 = along(place, column.to);
        const double gap = x1 - x0 > GAP_FROM ? COLUMN_GAP : 0.0,
                     high = share_of(&column) * (place->foot - place->over);
        if (high > 0.0)
            frame_rectangle(frame, x0 + 0.5 * gap, place->foot - high, x1 - x0 - gap, high);
    }
    frame_fill(frame, COLOUR_FUEL);
    lids(frame, place, cell, cells);
    frame_home(frame);
}

/* ---- warmth -------------------------------------------------------------------------------------------------------- */
static double outside_temperature(const struct scene *scene)
{
    const int channel = ullage_model_find_channel(scene->model, "air.temperature");
    return channel < 0 ? (double)NAN : scene->now->value[channel];
}

static int farthest(const struct ullage_cell *cell, int cells, double from)
{
    int found = 0;
    for (int k = 1; k < cells; k++)
        if (fabs(cell[k].temperature - from) > fabs(cell[found].temperature - from))
            found = k;
    return found;
}

struct warmth {
    double level, per_kelvin, outside; /* u: the dotted line; u/K; K */
};

static double warmth_y(const struct warmth *warmth, double temperature)
{
    return warmth->level - warmth->per_kelvin * (temperature - warmth->outside);
}

static void warmth_line(struct frame *frame, const struct bed_place *place, const struct warmth *warmth,
                        const struct ullage_cell *cell, int cells)
{
    frame_path(frame);
    frame_move(frame, place->x0, warmth->level);
    frame_line(frame, place->x1, warmth->level);
    frame_stroke_dashed(frame, COLOUR_GHOST, 2.0, 2.0, 5.0);
    frame_path(frame);
    frame_move(frame, place->x0, warmth_y(warmth, cell[0].temperature));
    for (int k = 0; k < bed_columns(cells); k++) {
        const struct ullage_cell column = bed_column(cell, cells, k);
        frame_line(frame, along(place, 0.5 * (column.from + column.to)), warmth_y(warmth, column.temperature));
    }
    frame_line(frame, place->x1, warmth_y(warmth, cell[cells - 1].temperature));
    frame_stroke_round(frame, COLOUR_INK, 3.4);
}

/* The figure stands under a warm place and over a cold one, where the line is not. */
static void warmth_figure(struct frame *frame, const struct scene *scene, const struct plate_body *body,
                          const struct bed_place *place, const struct warmth *warmth, const struct ullage_cell *told,
                          const struct ullage_cell *cell)
{
    char text[40];
    scene_text(scene, told->temperature, ULLAGE_TEMPERATURE, text, sizeof text);
    const double half = 0.5 * frame_text_width(frame, warmth_style, text) + 4.0;
    const double size = frame_text_size(frame, warmth_style.size);
    const double x = along(place, 0.5 * (cell->from + cell->to));
    const bool warm = cell->temperature > warmth->outside;
    frame_path(frame);
    frame_circle(frame, x, warmth_y(warmth, cell->temperature), 5.5);
    frame_fill(frame, COLOUR_INK);
    if (body->turn == 0 && half < 0.5 * (place->x1 - place->x0))
        frame_text(frame, fmin(fmax(x, place->x0 + half), place->x1 - half),
                   warmth->level + (warm ? FOOT_GAP + 0.73 * size : -FOOT_GAP), warmth_style, text);
}

void bed_warmth(struct frame *frame, const struct scene *scene, const struct plate_body *body,
                const struct bed_place *place)
{
    const struct ullage_cell *cell;
    const int cells = scene_cells(scene, body->part, &cell);
    const double outside = outside_temperature(scene);
    const int most = farthest(cell, cells, outside);
    const double off = fabs(cell[most].temperature - outside);
    if (!isfinite(off))
        return;
    const bool warm = cell[most].temperature > outside;
    const struct warmth warmth = {warm ? place->roof + WARM_ROOM : place->over - WARM_ROOM,
                                  fmin(WARM_PER_KELVIN, WARM_MOST / fmax(off, 1.0)), outside};
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    warmth_line(frame, place, &warmth, cell, cells);
    if (off > TOLD_FROM)
        warmth_figure(frame, scene, body, place, &warmth, scene_told_cell(scene, &cell[most]), &cell[most]);
    frame_home(frame);
}
