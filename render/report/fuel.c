/* report/fuel.c  Where the fuel is and went, in grams: what a person weighs. Its components stand one by one in the JSON. */
#include "report/fuel.h"

#include "report/page.h"

#include <math.h>
#include <string.h>

enum { INDENT = 2, PLACE_COLUMN = 16 };

static const double gram = 1e-3;     /* kg */
static const double finest = 0.5e-6; /* kg: half a milligram, under which nothing is told */

bool fuel_is_there(const struct ullage_fuel *fuel)
{
    return fuel->liquid.start > 0.0 || fuel->gas.start > 0.0 || fuel->carbon.start > 0.0 || fuel->in > 0.0;
}

double fuel_vapor_made(const struct ullage_fuel *fuel)
{
    return fuel->liquid.start - fuel->liquid.now - fuel->drained;
}

struct fuel_passed fuel_passed(const struct experiment *of, const char *part)
{
    struct fuel_passed passed = {0};
    for (int i = 0; i < ullage_model_opening_rows(of->model); i++) {
        const struct ullage_opening_row row = ullage_run_opening(of->model, of->run, i);
        if (!row.fuel || strcmp(row.part, part) != 0)
            continue;
        passed.in_amount += row.in;
        passed.out_amount += row.out;
        passed.in += row.molar_mass * row.in;
        passed.out += row.molar_mass * row.out;
    }
    return passed;
}

const char *fuel_figure(double mass, char *room)
{
    const double grams = mass / gram;
    const double size = fabs(grams);
    if (size < finest / gram)
        snprintf(room, FIGURE_ROOM, "0 g");
    else if (size >= 1000.0)
        snprintf(room, FIGURE_ROOM, "%.4g kg", mass);
    else
        snprintf(room, FIGURE_ROOM, "%.*f g", size >= 100.0 ? 0 : size >= 10.0 ? 1 : size >= 1.0 ? 2 : 3, grams);
    return room;
}

/* ---- sentences --------------------------------------------------------------------------------------------------- */

static void liquid_tell(struct page *page, const struct ullage_fuel *fuel)
{
    const double made = fuel_vapor_made(fuel);
    char figure[FIGURE_ROOM];
    if (!(fuel->liquid.start > 0.0)) {
        page_put(page, "no liquid, vapor alone.");
        return;
    }
    page_put(page, "%s", fuel_figure(fabs(made), figure));
    page_put(page,
             made < 0.0 ? "of vapor condensed, more than was made." : "of vapor made, over what condensed again.");
    if (fuel->drained >= finest)
        page_put(page, "%s ran out as liquid.", fuel_figure(fuel->drained, figure));
    if (fuel->drained <= -finest)
        page_put(page, "%s was filled in.", fuel_figure(-fuel->drained, figure));
    page_put(page, "The liquid was %s at first,", fuel_figure(fuel->liquid.start, figure));
    page_put(page, "is %s now.", fuel_figure(fuel->liquid.now, figure));
}

static void line_begin(struct page *page, const char *place)
{
    char head[FIGURE_ROOM];
    snprintf(head, sizeof head, "%*s%.80s:", INDENT, "", place);
    page_begin(page, PLACE_COLUMN, head);
}

static void store_tell(struct page *page, const char *place, const struct ullage_store *store)
{
    const double more = store->now - store->start;
    char figure[FIGURE_ROOM];
    if (store->start < finest && store->now < finest)
        return;
    line_begin(page, place);
    page_put(page, "%s held,", fuel_figure(store->now, figure));
    if (fabs(more) < finest)
        page_put(page, "as at first");
    else if (store->start < finest)
        page_put(page, "none at first");
    else
        page_put(page, "%s %s than at first", fuel_figure(fabs(more), figure), more > 0.0 ? "more" : "less");
}

/* False where less than can be told passed it. */
static bool opening_tell(struct page *page, const struct experiment *of, const char *part)
{
    const struct fuel_passed passed = fuel_passed(of, part);
    char figure[FIGURE_ROOM];
    if (passed.in < finest && passed.out < finest)
        return false;
    line_begin(page, part);
    if (passed.in >= finest)
        page_put(page, "%s (%.3g mol) in", fuel_figure(passed.in, figure), passed.in_amount);
    if (passed.in >= finest && passed.out >= finest)
        page_put(page, ";");
    if (passed.out >= finest)
        page_put(page, "%s (%.3g mol) out", fuel_figure(passed.out, figure), passed.out_amount);
    return true;
}

static void openings_tell(struct page *page, const struct experiment *of)
{
    bool any = false;
    for (int i = 0; i < ullage_model_opening_rows(of->model); i++)
        if (opening_is_new(of, i))
            any |= opening_tell(page, of, ullage_run_opening(of->model, of->run, i).part);
    if (any)
        return;
    line_begin(page, "openings");
    page_put(page, "no fuel passed them");
}

void fuel_write(FILE *to, const struct experiment *of)
{
    const struct ullage_fuel fuel = ullage_run_fuel(of->model, of->run);
    struct page page = {.to = to};
    if (!fuel_is_there(&fuel))
        return;
    page_begin(&page, INDENT, "Fuel kept in sight:");
    liquid_tell(&page, &fuel);
    store_tell(&page, "carbon", &fuel.carbon);
    store_tell(&page, "gas spaces", &fuel.gas);
    openings_tell(&page, of);
    page_begin(&page, INDENT, "");
    page_put(&page, "All of it is accounted for: no component is off by more than %.0e g.", fabs(fuel.residual) / gram);
    page_end(&page);
}
