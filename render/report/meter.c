/* report/meter.c  What a flow meter's scale of holes showed, what there is, and why the two differ.
 *
 * Three sizes are told apart: what the scale shows (made for its own gas at its set pressure), the thin sharp hole that
 * would pass the same flow with the gas and pressures of the moment, and the hole that is really there. Between the first
 * two lie pressure lost on the way, gas and altitude; between the last two the wall of the hole, and gas that is still
 * filling the system. */
#include "report/meter.h"

#include <math.h>
#include <string.h>

static const double noticed = 0.01; /* share of a hole's size from which a difference is worth a sentence */
static const double filling = 0.03; /* share of the flow that goes into filling from which it is told */
static const double alone = 0.9;    /* share of all that leaves from which one hole is spoken of as the hole */

static const double scale_made_in = 101325.0; /* Pa: every meter's scale of holes is, see its kind */

struct meter_reading {
    struct ullage_reading reading;
    const double *value;     /* all channels of that moment */
    int meter, supply;       /* parts; supply -1: it reads something else */
    double flow, fits, lost; /* m3/s; m: thin sharp hole of equal flow; Pa */
};

static int part_of_type(const struct ullage_model *model, int part, const char *type)
{
    return part >= 0 && strcmp(ullage_model_part(model, part).type, type) == 0 ? part : -1;
}

static int channel_part(const struct experiment *of, const char *name)
{
    const int channel = ullage_model_find_channel(of->model, name);
    return channel < 0 ? -1 : ullage_model_channel(of->model, channel).part;
}

bool reading_is_hole(const struct experiment *of, int reading)
{
    const char *name = ullage_run_reading(of->run, reading).channel;
    const char *dot = strrchr(name, '.');
    return dot && strcmp(dot, ".hole") == 0 && part_of_type(of->model, channel_part(of, name), "meter") >= 0;
}

/* +1: its flow counts outward, -1: inward, 0: it does not reach the open air. A cap that names nothing outside it has the
 * air there. */
static int way_out(const struct ullage_part *part)
{
    const bool cap = strcmp(part->type, "cap") == 0;
    for (int i = 0; i < part->links; i++) {
        const struct ullage_link *link = &part->link[i];
        if (link->part == -1)
            return strcmp(link->key, "from") == 0 ? -1 : 1;
        if (cap && link->part == -2 && strcmp(link->key, "to") == 0)
            return 1;
    }
    return 0;
}

struct leak leak_largest(const struct ullage_model *model, const double *value)
{
    struct leak leak = {.part = -1, .size = (double)NAN};
    for (int i = 0; i < ullage_model_parts(model); i++) {
        const struct ullage_part part = ullage_model_part(model, i);
        const int sign = way_out(&part);
        const double flow = sign ? sign * channel_value(model, value, i, "standard_flow") : 0.0;
        if (!(flow > 0.0)) /* not a number: the part has no such channel */
            continue;
        leak.leaving += flow;
        if (flow > leak.passing) {
            leak.passing = flow;
            leak.part = i;
        }
    }
    if (leak.part >= 0)
        leak.size = channel_value(model, value, leak.part, "diameter");
    return leak;
}

static struct meter_reading meter_reading_at(const struct experiment *of, int reading)
{
    struct meter_reading got = {.reading = ullage_run_reading(of->run, reading),
                                .value = ullage_run_reading_values(of->run, reading),
                                .supply = -1};
    got.meter = channel_part(of, got.reading.channel);
    const struct ullage_part meter = ullage_model_part(of->model, got.meter);
    for (int i = 0; i < meter.links; i++)
        if (strcmp(meter.link[i].key, "of") == 0)
            got.supply = part_of_type(of->model, meter.link[i].part, "supply");
    got.flow = channel_value(of->model, got.value, got.meter, "standard_flow");
    got.fits = channel_value(of->model, got.value, got.meter, "true_hole");
    got.lost = channel_value(of->model, got.value, got.meter, "pressure_lost");
    return got;
}

static void off_scale_tell(struct page *page, const struct experiment *of, const struct meter_reading *at,
                           enum figure_units units)
{
    const struct leak leak = leak_largest(of->model, at->value);
    char end[FIGURE_ROOM];
    char flow[FIGURE_ROOM];
    figure_value(at->reading.value, ULLAGE_LENGTH, units, end);
    if (at->reading.over < 0)
        page_put(page, "The meter reads %s: no hole it can show, under %s.",
                 figure_value(at->flow, ULLAGE_VOLUME_FLOW, units, flow), end);
    else if (leak.part < 0 || leak.leaving < 0.5 * at->flow)
        page_put(page, "The meter is off its scale, over %s: the gas still goes into filling the system.", end);
    else
        page_put(page, "The meter is off its scale, over %s: %s leaves through the %s.", end,
                 figure_value(leak.passing, ULLAGE_VOLUME_FLOW, units, flow),
                 ullage_model_part(of->model, leak.part).label);
}

/* "0.50 mm (0.020 in), plug 3"; a slit, a porous spot or a crack has no diameter. */
static void leak_tell(struct page *page, const struct experiment *of, const struct leak *leak, enum figure_units units)
{
    const struct ullage_part part = ullage_model_part(of->model, leak->part);
    const struct ullage_link sits = part.link[0]; /* "from" or "of": every way has one */
    const char *shape = ullage_model_word(of->model, leak->part, "shape");
    char size[FIGURE_ROOM];
    if (leak->passing < alone * leak->leaving)
        page_put(page, "more than one hole is open; most leaves through %s", part.label);
    else if (strcmp(part.type, "hole") != 0)
        page_put(page, "the gas leaves through the %s", part.label);
    else if (shape && strcmp(shape, "round") != 0)
        page_put(page, "there is a hole of another kind, %s: %s", shape, part.label);
    else
        page_put(page, "there is %s: %s", figure_value(leak->size, ULLAGE_LENGTH, units, size), part.label);
    if (sits.part >= 0)
        page_put(page, ", on the %s %s", ullage_model_part(of->model, sits.part).label, sits.opening);
    page_put(page, ".");
}

/* What lies between the scale and the thin hole of equal flow. */
static bool loss_tell(struct page *page, const struct experiment *of, const struct meter_reading *at, int indent,
                      enum figure_units units)
{
    const double set = at->supply < 0 ? (double)NAN : channel_value(of->model, at->value, at->supply, "set_pressure");
    const double off = at->fits / at->reading.value - 1.0;
    const double air = channel_value(of->model, at->value, -1, "pressure");
    char lost[FIGURE_ROOM];
    char here[FIGURE_ROOM];
    char fits[FIGURE_ROOM];
    if (!(fabs(off) > noticed))
        return false;
    page_begin(page, indent, "");
    figure_value(at->fits, ULLAGE_LENGTH, units, fits);
    /* flow goes with the root of pressure and hole with the root of flow: hence the fourth root */
    const double by_loss = pow(set / (set - at->lost), 0.25) - 1.0;
    if (by_loss > 0.5 * off && off > 0.0)
        page_put(page, "It reads low: %s of the set pressure is lost on the way. Corrected for what arrives: %s.",
                 figure_value(at->lost, ULLAGE_PRESSURE, units, lost), fits);
    else if (fabs(air / scale_made_in - 1.0) > 2.0 * noticed)
        page_put(page, "It reads %s: its scale was made in air of %s, and here it is %s. Corrected for that: %s.",
                 off > 0.0 ? "low" : "high", figure_value(scale_made_in, ULLAGE_PRESSURE, units, lost),
                 figure_value(air, ULLAGE_PRESSURE, units, here), fits);
    else
        page_put(page, "It reads %s: another gas leaves than its scale was made for. Corrected for that: %s.",
                 off > 0.0 ? "low" : "high", fits);
    return true;
}

/* What lies between the thin hole of equal flow and the hole that is there. */
static bool wall_tell(struct page *page, const struct experiment *of, const struct meter_reading *at,
                      const struct leak *leak, int indent, enum figure_units units)
{
    const double wall = ullage_model_parameter(of->model, leak->part, "wall");
    const double still = at->flow - leak->leaving;
    char figure[FIGURE_ROOM];
    const bool alike = leak->passing < alone * leak->leaving || !(fabs(at->fits / leak->size - 1.0) > noticed);
    if (still <= filling * at->flow && (alike || !(wall > 0.0)))
        return false;
    page_begin(page, indent, "");
    if (still > filling * at->flow)
        page_put(page, "%s of the flow still goes into filling the system.",
                 figure_value(still, ULLAGE_VOLUME_FLOW, units, figure));
    else
        page_put(page, "The drilled wall, %s thick, passes %s than a thin hole of its size.",
                 figure_value(wall, ULLAGE_LENGTH, units, figure), at->fits > leak->size ? "more" : "less");
    return true;
}

double meter_flow(const struct experiment *of, int reading)
{
    return meter_reading_at(of, reading).flow;
}

bool reading_is_told(const struct experiment *of, int reading)
{
    static const char *const told[] = {".standard_flow", ".true_hole", ".pressure_lost"};
    const struct ullage_reading here = ullage_run_reading(of->run, reading);
    const char *dot = strrchr(here.channel, '.');
    bool one_of_them = false;
    for (size_t i = 0; dot && i < sizeof told / sizeof told[0]; i++)
        one_of_them = one_of_them || strcmp(dot, told[i]) == 0;
    if (!one_of_them)
        return false;
    int first = reading; /* readings stand in the order of their moments */
    while (first > 0 && ullage_run_reading(of->run, first - 1).time == here.time)
        first--;
    for (int i = first; i < ullage_run_readings(of->run); i++) {
        const struct ullage_reading beside = ullage_run_reading(of->run, i);
        if (beside.time != here.time)
            break;
        if (reading_is_hole(of, i) && channel_part(of, beside.channel) == channel_part(of, here.channel))
            return true;
    }
    return false;
}

bool meter_tell(struct page *page, const struct experiment *of, int reading, enum figure_units units)
{
    const struct meter_reading at = meter_reading_at(of, reading);
    const int indent = page->indent;
    char hole[FIGURE_ROOM];
    char flow[FIGURE_ROOM];
    if (at.reading.over != 0) {
        off_scale_tell(page, of, &at, units);
        return false;
    }
    page_put(page, "The meter shows %s at %s;", figure_value(at.reading.value, ULLAGE_LENGTH, units, hole),
             figure_value(at.flow, ULLAGE_VOLUME_FLOW, units, flow));
    const struct leak leak = leak_largest(of->model, at.value);
    if (leak.part < 0) {
        page_put(page, "nothing leaves the system: all of it goes into filling.");
        return false;
    }
    leak_tell(page, of, &leak, units);
    const bool loss = loss_tell(page, of, &at, indent, units);
    const bool wall = wall_tell(page, of, &at, &leak, indent, units);
    return loss || wall;
}
