/* command/faults.c  What can be wrong with kinds of part, and with the parts of a system. */
#include "command/faults.h"

#include "command/scenario.h"
#include "report/page.h"

#include <math.h>
#include <string.h>

static const char usage[] =
    "\nIn a scenario:        faults: [{id: a, fault: leak, where: tank.roof, diameter: 0.5 mm}]\n"
    "On the command line:  --fault \"leak tank.roof diameter=0.5mm from=10s\"\n"
    "A size that is left out is the usual one, but for plain holes, whose other sizes are those of a hole (ullage "
    "list\n"
    "parts hole). When it is there: from, ramp, until; every and for make it come and go, but for liquid that is poured.\n";

/* "diameter 0.2 mm to 3 mm, usual 0.5 mm" */
static void size_put(struct page *page, const struct ullage_fault *fault)
{
    char least[FIGURE_ROOM];
    char usual[FIGURE_ROOM];
    char most[FIGURE_ROOM];
    page_put(page, "%s %s to %s", fault->size, figure_difference(fault->least, fault->dimension, least),
             figure_difference(fault->most, fault->dimension, most));
    if (isnan(fault->usual))
        page_put(page, ", must be given;");
    else
        page_put(page, ", usual %s;", figure_difference(fault->usual, fault->dimension, usual));
}

static void fault_write(FILE *to, const char *name, const struct ullage_fault *fault)
{
    struct page page = {.to = to};
    char head[CELL_MOST];
    snprintf(head, sizeof head, "  %.40s", name);
    page_begin(&page, 22, head);
    size_put(&page, fault);
    page_put(&page, "%s.", fault->comes);
    page_put(&page, "Shows: %s.", fault->changes);
    if (fault->poured)
        page_put(&page, "Comes and goes once, over a while.");
    page_end(&page);
}

enum exit_code fault_kinds_write(FILE *to)
{
    for (int kind = 0; kind < ullage_kinds(); kind++) {
        if (ullage_kind_faults(kind) > 0)
            fprintf(to, "%s:\n", ullage_kind_at(kind).name);
        for (int i = 0; i < ullage_kind_faults(kind); i++) {
            const struct ullage_fault fault = ullage_kind_fault(kind, i);
            fault_write(to, fault.name, &fault);
        }
    }
    fputs("anything that keeps gas:\n", to);
    for (int i = 0; i < ullage_plain_holes(); i++) {
        const struct ullage_fault fault = ullage_plain_hole(i);
        fault_write(to, fault.name, &fault);
    }
    fputs(usage, to);
    return EXIT_DONE;
}

/* ---- of a system ---- */

/* The same fault on more openings of a part is told once. */
static bool told_before(const struct ullage_model *model, int index)
{
    const struct ullage_model_fault fault = ullage_model_fault(model, index);
    for (int k = 0; k < index; k++) {
        const struct ullage_model_fault other = ullage_model_fault(model, k);
        if (other.part == fault.part && strcmp(other.fault.name, fault.fault.name) == 0)
            return true;
    }
    return false;
}

static void places_write(FILE *to, const struct ullage_model *model, int index)
{
    const struct ullage_model_fault fault = ullage_model_fault(model, index);
    const char *before = "  ";
    for (int k = index; k < ullage_model_faults(model); k++) {
        const struct ullage_model_fault other = ullage_model_fault(model, k);
        if (other.part != fault.part || strcmp(other.fault.name, fault.fault.name) != 0)
            continue;
        fprintf(to, "%s%s", before, other.what);
        before = ", ";
    }
    fputc('\n', to);
}

static void part_write(FILE *to, const struct ullage_model *model, int part)
{
    for (int k = 0; k < ullage_model_faults(model); k++) {
        const struct ullage_model_fault fault = ullage_model_fault(model, k);
        if (fault.part != part || told_before(model, k))
            continue;
        places_write(to, model, k);
        fault_write(to, "", &fault.fault);
    }
}

enum exit_code system_faults_write(FILE *to, const char *system)
{
    struct ullage_edits edits = search_edits();
    edits.every_fault = true;
    struct ullage_model *model = NULL;
    const enum exit_code code = system_open(system, &edits, &model);
    for (int part = 0; model && part < ullage_model_parts(model); part++)
        part_write(to, model, part);
    if (model)
        fputs(usage, to);
    ullage_model_free(model);
    return code;
}
