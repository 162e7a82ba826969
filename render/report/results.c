/* report/results.c  Tables of readings and verdicts, the ledger in sentences, the cautions. */
#include "report/results.h"

#include "report/page.h"

#include <math.h>
#include <string.h>

static const double litres_of_mole = 24.0552; /* R * 293.15 K / 101325 Pa, as standard flow is told */
static const double worth_telling = 1e-6;     /* share of a species' scale below which an opening is left out */

enum { INDENT = 2, GAP = 2 };

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

static const char *amount(double value, char *room)
{
    snprintf(room, FIGURE_ROOM, fabs(value) >= 1e-4 || value == 0.0 ? "%.4f" : "%.1e", value);
    return room;
}

static bool species_is_there(const struct ullage_ledger_row *row)
{
    return row->scale > 0.0 || row->in != 0.0 || row->out != 0.0;
}

static void species_tell(struct page *page, const struct ullage_ledger_row *row)
{
    char at_first[FIGURE_ROOM];
    char in[FIGURE_ROOM];
    char out[FIGURE_ROOM];
    char held[FIGURE_ROOM];
    page_put(page, "%s %s mol at first, %s in, %s out, %s held, %.0e unaccounted.", row->name,
             amount(row->stored_start, at_first), amount(row->in, in), amount(row->out, out),
             amount(row->stored_start + row->stored_change, held), fabs(row->residual));
}

static void openings_write(FILE *to, const struct experiment *of, const struct ullage_ledger_row *species)
{
    for (int i = 0; i < ullage_model_opening_rows(of->model); i++) {
        const struct ullage_opening_row row = ullage_run_opening(of->model, of->run, i);
        if (strcmp(row.species, species->name) != 0)
            continue;
        for (int outward = 0; outward < 2; outward++) {
            const double moved = outward ? row.out : row.in;
            char figure[FIGURE_ROOM];
            if (moved > worth_telling * species->scale)
                fprintf(to, "%*s%s: %s %s mol (%.3g L) %s\n", INDENT, "", row.part, row.species, amount(moved, figure),
                        moved * litres_of_mole, outward ? "out" : "in");
        }
    }
}

void ledger_write(FILE *to, const struct experiment *of)
{
    struct page page = {.to = to};
    const int rows = ullage_model_ledger_rows(of->model);
    page_begin(&page, INDENT, "Gas kept in sight:");
    for (int i = 0; i < rows; i++) {
        const struct ullage_ledger_row row = ullage_run_ledger(of->model, of->run, i);
        if (strcmp(row.name, "energy") == 0)
            page_put(&page, "Energy: %.0e of all that moved unaccounted.",
                     row.scale > 0.0 ? fabs(row.residual) / row.scale : 0.0);
        else if (species_is_there(&row))
            species_tell(&page, &row);
    }
    page_end(&page);
    for (int i = 0; i < rows; i++) {
        const struct ullage_ledger_row row = ullage_run_ledger(of->model, of->run, i);
        openings_write(to, of, &row);
    }
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
