/* sim/procedure/faults.c  What can be wrong, and what is: as the door tells it. */
#include "procedure/conduct.h"

#include <assert.h>
#include <math.h>

static struct ullage_fault fault_told(const struct fault_row *row)
{
    return (struct ullage_fault){.name = row->name,
                                 .size = row->size,
                                 .dimension = row->dimension,
                                 .least = row->least,
                                 .usual = row->usual,
                                 .most = row->most,
                                 .comes = row->comes,
                                 .changes = row->changes,
                                 .hole = fault_is_hole(row),
                                 .poured = fault_is_pour(row)};
}

int ullage_kind_faults(int kind)
{
    int count = 0;
    const struct fault_row *row = NULL;
    while ((row = fault_at(element_kinds()[kind], count)) && !fault_is_any(row))
        count++;
    return count;
}

struct ullage_fault ullage_kind_fault(int kind, int index)
{
    assert(0 <= index && index < ullage_kind_faults(kind));
    return fault_told(fault_at(element_kinds()[kind], index));
}

int ullage_plain_holes(void)
{
    int count = 0;
    while (any_fault[count].name)
        count++;
    return count;
}

struct ullage_fault ullage_plain_hole(int index)
{
    return fault_told(&any_fault[index]);
}

int ullage_model_faults(const struct ullage_model *model)
{
    return network_faults(model->network);
}

struct ullage_model_fault ullage_model_fault(const struct ullage_model *model, int index)
{
    const struct fault *fault = network_fault(model->network, index);
    return (struct ullage_model_fault){.what = network_fault_name(model->network, index),
                                       .id = fault->id ? fault->id : "",
                                       .part = fault->part,
                                       .opening = fault->site,
                                       .hole = fault->hole,
                                       .ready = network_fault_ready(model->network, index),
                                       .fault = fault_told(fault->row)};
}

static struct ullage_course course_shown(const struct course *course)
{
    if (!course->given)
        return (struct ullage_course){.until = (double)INFINITY};
    return (struct ullage_course){course->from, course->ramp, course->until, course->every, course->lasts};
}

struct ullage_fault_now ullage_run_fault(const struct ullage_model *model, const struct ullage_run *run, int index)
{
    const struct fault_now now = run_fault(model->network, run->physics, index);
    const double time = conduct_now(run), share = run_fault_share(model->network, run->physics, index);
    const double since = share > 0.0 && now.course.given ? time - course_since(&now.course, time) : 0.0;
    return (struct ullage_fault_now){.size = now.size,
                                     .share = share,
                                     .since = since,
                                     .begins = now.size != 0.0 ? course_comes(&now.course, time) : (double)INFINITY,
                                     .course = course_shown(&now.course)};
}
