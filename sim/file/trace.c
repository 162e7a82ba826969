/* sim/file/trace.c  Where an engine stands at each moment: [[0 s, 39 kPa, 4 g/s], [8 s, 45 kPa, 10 g/s], ...], with pressure
 * absolute. What the rows must be together is the engine's own business (element/engine.c). */
#include "file/readers.h"

static void moment_read(struct reader *reader, const struct node *node, struct part_moment *moment)
{
    const struct range time = {ULLAGE_TIME, 0.0, HUGE_VAL}, pressure = {ULLAGE_PRESSURE, 1e3, 1e6};
    const struct range air_flow = {ULLAGE_MASS_FLOW, 1e-6, 10.0};
    moment->at = node->at;
    if (node->kind != NODE_LIST || node->count != 3) {
        problem_add(reader->found, node->at, "write [TIME, PRESSURE, AIR FLOW], like [8 s, 45 kPa, 10 g/s]",
                    "a row of a trace has three values");
        return;
    }
    number_wanted(reader, node->child[0], time, &moment->time);
    number_wanted(reader, node->child[1], pressure, &moment->pressure);
    number_wanted(reader, node->child[2], air_flow, &moment->air_flow);
}

void trace_read(struct reader *reader, const struct node *list, struct part *part)
{
    static const char example[] = "write [[0 s, 39 kPa, 4 g/s], [8 s, 45 kPa, 10 g/s], ...]";
    if (!list_wanted(reader, list, "trace", example))
        return;
    if (list->count == 0)
        problem_add(reader->found, list->at, example, "trace of %s is empty", part->id);
    if (list->count > TRACE_MOST) {
        problem_add(reader->found, list->child[TRACE_MOST]->at, "give at most 5000 rows", "%s has too long a trace",
                    part->id);
        return;
    }
    struct part_moment *moment = reader_take(reader, (size_t)list->count * sizeof *moment);
    for (int i = 0; moment && i < list->count; i++)
        moment_read(reader, list->child[i], &moment[i]);
    part->trace = moment;
    part->moments = moment ? list->count : 0;
}
