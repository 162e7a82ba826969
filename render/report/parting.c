/* report/parting.c  Where two runs part.
 *
 * Orders of both lists stand in order of time; what stands in one list alone was done in that run alone. */
#include "report/parting.h"

#include "report/page.h"

#include <math.h>
#include <string.h>

enum { TOLD_MOST = 6 }; /* of either run; more are counted */

/* ---- what was done ------------------------------------------------------------------------------------------------ */

static bool order_same(const struct ullage_order *a, const struct ullage_order *b)
{
    return a->time == b->time && strcmp(a->what, b->what) == 0 && strcmp(a->value, b->value) == 0;
}

static bool order_found(const struct ullage_run *run, const struct ullage_order *order)
{
    for (int k = 0; k < ullage_run_orders(run); k++) {
        const struct ullage_order its = ullage_run_order(run, k);
        if (order_same(&its, order))
            return true;
    }
    return false;
}

/* A line that is begun with its first item, and ended with those that found no room. */
struct told {
    struct page page;
    const char *head;
    int count;
};

static bool told_next(struct told *told)
{
    if (++told->count > TOLD_MOST)
        return false;
    page_put(&told->page, told->count == 1 ? "%s:" : ";", told->head);
    return true;
}

static bool told_end(struct told *told)
{
    if (told->count > TOLD_MOST)
        page_put(&told->page, "; and %d more", told->count - TOLD_MOST);
    if (told->count > 0) {
        page_put(&told->page, ".");
        page_end(&told->page);
    }
    return told->count > 0;
}

static bool orders_tell(FILE *to, const struct ullage_run *run, const struct ullage_run *other, const char *head)
{
    struct told told = {{.to = to}, head, 0};
    for (int k = 0; k < ullage_run_orders(run); k++) {
        const struct ullage_order order = ullage_run_order(run, k);
        char clock[FIGURE_ROOM];
        if (!order_found(other, &order) && told_next(&told))
            page_put(&told.page, "%s %s at %s", order.what, order.value, figure_clock(order.time, clock));
    }
    return told_end(&told);
}

/* ---- what is wrong by the file ------------------------------------------------------------------------------------ */

/* The same fault of the other model's file; -1: it has none. */
static int fault_find(const struct ullage_model *model, const char *what)
{
    for (int k = 0; k < ullage_model_faults(model); k++) {
        const struct ullage_model_fault fault = ullage_model_fault(model, k);
        if (*fault.id && strcmp(fault.what, what) == 0)
            return k;
    }
    return -1;
}

static bool faults_tell(FILE *to, const struct experiment *of, const struct ullage_model *other, const char *head,
                        enum figure_units units)
{
    struct told told = {{.to = to}, head, 0};
    for (int k = 0; k < ullage_model_faults(of->model); k++) {
        const struct ullage_model_fault fault = ullage_model_fault(of->model, k);
        char size[FIGURE_ROOM];
        if (*fault.id && fault_find(other, fault.what) < 0 && told_next(&told))
            page_put(&told.page, "%s, %s", fault.what,
                     figure_value(ullage_run_fault(of->model, of->run, k).size, fault.fault.dimension, units, size));
    }
    return told_end(&told);
}

bool parting_told(FILE *to, const struct experiment *this, const struct experiment *other, enum figure_units units)
{
    const bool wrong_here = faults_tell(to, this, other->model, "Wrong in this alone", units);
    const bool wrong_there = faults_tell(to, other, this->model, "Wrong in the other alone", units);
    const bool done_here = orders_tell(to, this->run, other->run, "By hand in this alone");
    const bool done_there = orders_tell(to, other->run, this->run, "By hand in the other alone");
    return wrong_here || wrong_there || done_here || done_there;
}

/* ---- channel by channel ------------------------------------------------------------------------------------------- */

struct line {
    const char *name;
    char from[FIGURE_ROOM], most[FIGURE_ROOM], at[FIGURE_ROOM];
};

static int recorded_find(const struct ullage_model *model, const char *name)
{
    int k = ullage_model_recorded(model) - 1;
    while (k >= 0 && strcmp(ullage_model_channel(model, ullage_model_recorded_channel(model, k)).name, name) != 0)
        k--;
    return k;
}

/* False: it never parts, or the other does not record it. */
static bool line_make(const struct experiment *this, const struct experiment *other, int recorded, struct line *line)
{
    const struct ullage_channel channel =
        ullage_model_channel(this->model, ullage_model_recorded_channel(this->model, recorded));
    const int its = recorded_find(other->model, channel.name);
    struct ullage_difference found;
    if (its < 0 || ullage_run_compare(other->run, its, this->run, recorded, &found) == 0 || isnan(found.parts_at))
        return false;
    line->name = channel.name;
    figure_clock(found.parts_at, line->from);
    figure_difference(found.largest, channel.dimension, line->most);
    figure_clock(found.at, line->at);
    return true;
}

static void line_put(FILE *to, const struct line *line, const int width[3])
{
    cell_put(to, "", 2);
    cell_put(to, line->name, width[0] + 2);
    cell_put(to, line->from, width[1] + 2);
    cell_put(to, line->most, width[2] + 2);
    fprintf(to, "%s\n", line->at);
}

void parting_write(FILE *to, const struct experiment *this, const struct experiment *other)
{
    const struct line heading = {"Recorded", "parts at", "this - other, at most", "at"};
    struct line line;
    int width[] = {cell_width(heading.name), cell_width(heading.from), cell_width(heading.most)};
    bool any = false;
    for (int k = 0; k < ullage_model_recorded(this->model); k++)
        if (line_make(this, other, k, &line)) {
            width[0] = cell_wider(width[0], line.name);
            width[1] = cell_wider(width[1], line.from);
            width[2] = cell_wider(width[2], line.most);
            any = true;
        }
    if (any)
        line_put(to, &heading, width);
    for (int k = 0; any && k < ullage_model_recorded(this->model); k++)
        if (line_make(this, other, k, &line))
            line_put(to, &line, width);
}
