/* report/results.c  Tables of readings and verdicts, the ledger in sentences, the cautions. */
#include "report/results.h"

#include "report/fuel.h"
#include "report/page.h"

#include <math.h>
#include <string.h>

static const double litres_of_mole = 24.0552; /* R * 293.15 K / 101325 Pa, as standard flow is told */
static const double worth_telling = 1e-6;     /* share of a species' scale below which an opening is left out */

enum { INDENT = 2, GAP = 2, OPENING_COLUMN = 16 };

void readings_write(FILE *to, const struct experiment *of, enum figure_units units)
{
    int name_width = 0;
    int figures_width = 0;
    char room[FIGURE_ROOM];
    for (int i = 0; i < ullage_run_readings(of->run); i++) {
        name_width = cell_wider(name_width, ullage_run_reading(of->run, i).name);
        figures_width = cell_wider(figures_width, reading_figure(of, i, units, room));
    }
    if (name_width > 0)
        fputs("Readings\n", to);
    for (int i = 0; i < ullage_run_readings(of->run); i++) {
        const struct ullage_reading reading = ullage_run_reading(of->run, i);
        if (!reading_stands(of, i))
            continue;
        cell_put(to, "", INDENT);
        cell_put(to, reading.name, name_width + GAP);
        cell_put(to, reading_figure(of, i, units, room), figures_width + GAP);
        fprintf(to, "at %s\n", figure_clock(reading.time, room));
    }
}

void verdicts_write(FILE *to, const struct experiment *of)
{
    int width = 0;
    for (int i = 0; i < ullage_run_verdicts(of->run); i++)
        width = cell_wider(width, ullage_run_verdict(of->run, i).name);
    if (width > 0)
        fputs("Verdicts\n", to);
    for (int i = 0; i < ullage_run_verdicts(of->run); i++) {
        const struct ullage_verdict verdict = ullage_run_verdict(of->run, i);
        if (!verdict_stands(of, i))
            continue;
        cell_put(to, "", INDENT);
        cell_put(to, verdict.name, width + GAP);
        fprintf(to, "%s%s%s\n", result_word(verdict.result), *verdict.reason ? ": " : "", verdict.reason);
    }
}

/* ---- ledger ------------------------------------------------------------------------------------------------------ */

/* Four figures, and nothing that is lost beside what there is. */
static const char *amount(double value, double scale, char *room)
{
    snprintf(room, FIGURE_ROOM, "%.4g", fabs(value) > worth_telling * scale ? value : 0.0);
    return room;
}

static void species_tell(struct page *page, const struct ullage_ledger_row *row)
{
    char figure[FIGURE_ROOM];
    page_put(page, "%s %s mol at first,", row->name, amount(row->stored_start, row->scale, figure));
    page_put(page, "%s in,", amount(row->in, row->scale, figure));
    page_put(page, "%s out,", amount(row->out, row->scale, figure));
    page_put(page, "%s held,", amount(row->stored_start + row->stored_change, row->scale, figure));
    page_put(page, "%.0e unaccounted;", fabs(row->residual));
}

/* What one row of an opening has passed, in and out, on the line begun for its part or on a new one. */
static void opening_tell(struct page *page, const struct ullage_opening_row *row, double scale)
{
    for (int outward = 0; outward < 2; outward++) {
        const double moved = outward ? row->out : row->in;
        char head[FIGURE_ROOM];
        char figure[FIGURE_ROOM];
        if (!(moved > worth_telling * scale))
            continue;
        if (page->column == 0) {
            snprintf(head, sizeof head, "%*s%.80s:", INDENT, "", row->part);
            page_begin(page, OPENING_COLUMN, head);
        }
        page_put(page, "%s %s %s mol (%.3g L) %s", page->column > OPENING_COLUMN ? ";" : "", row->species,
                 amount(moved, scale, figure), moved * litres_of_mole, outward ? "out" : "in");
    }
}

static double species_scale(const struct experiment *of, const char *species)
{
    for (int i = 0; i < ullage_model_ledger_rows(of->model); i++) {
        const struct ullage_ledger_row row = ullage_run_ledger(of->model, of->run, i);
        if (strcmp(row.name, species) == 0)
            return row.scale;
    }
    return 0.0;
}

static void openings_write(FILE *to, const struct experiment *of)
{
    struct page page = {.to = to};
    const int rows = ullage_model_opening_rows(of->model);
    for (int first = 0; first < rows; first++) {
        const char *part = ullage_run_opening(of->model, of->run, first).part;
        if (!opening_is_new(of, first))
            continue;
        for (int i = first; i < rows; i++) {
            const struct ullage_opening_row row = ullage_run_opening(of->model, of->run, i);
            if (strcmp(row.part, part) == 0 && !row.fuel && experiment_is_gas(of, row.species))
                opening_tell(&page, &row, species_scale(of, row.species));
        }
        page_end(&page);
    }
}

void ledger_write(FILE *to, const struct experiment *of)
{
    struct page page = {.to = to};
    const int rows = ullage_model_ledger_rows(of->model);
    page_begin(&page, INDENT, "Gas kept in sight:");
    for (int i = 0; i < rows; i++) {
        const struct ullage_ledger_row row = ullage_run_ledger(of->model, of->run, i);
        if (!row.fuel && experiment_is_gas(of, row.name) && row.scale > 0.0)
            species_tell(&page, &row);
        else if (strcmp(row.name, "energy") == 0 && row.scale > 0.0)
            page_put(&page, "energy %.0e of what moved unaccounted.", fabs(row.residual) / row.scale);
    }
    page_end(&page);
    openings_write(to, of);
    fuel_write(to, of);
}

void cautions_write(FILE *to, const struct experiment *of)
{
    struct page page = {.to = to};
    char room[CAUTION_ROOM];
    for (int i = 0; experiment_caution(of, i, room); i++) {
        page_put(&page, "%s", room);
        page_end(&page);
    }
}
