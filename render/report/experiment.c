/* report/experiment.c  Questions that several reports ask of one run: what stands, what was expected, what is dangerous. */
#include "report/experiment.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

int experiment_reading(const struct experiment *of, const char *name)
{
    int last = ullage_run_readings(of->run) - 1;
    while (last >= 0 && strcmp(ullage_run_reading(of->run, last).name, name) != 0)
        last--;
    return last;
}

int experiment_verdict(const struct experiment *of, const char *name)
{
    int last = ullage_run_verdicts(of->run) - 1;
    while (last >= 0 && strcmp(ullage_run_verdict(of->run, last).name, name) != 0)
        last--;
    return last;
}

bool reading_stands(const struct experiment *of, int index)
{
    return experiment_reading(of, ullage_run_reading(of->run, index).name) == index;
}

bool verdict_stands(const struct experiment *of, int index)
{
    return experiment_verdict(of, ullage_run_verdict(of->run, index).name) == index;
}

const char *reading_figure(const struct experiment *of, int index, enum figure_units units, char *room)
{
    const struct ullage_reading reading = ullage_run_reading(of->run, index);
    char figure[FIGURE_ROOM];
    snprintf(room, FIGURE_ROOM, "%s%.80s",
             reading.over > 0   ? "over "
             : reading.over < 0 ? "under "
                                : "",
             figure_value(reading.value, reading.dimension, units, figure));
    return room;
}

bool experiment_is_gas(const struct experiment *of, const char *name)
{
    for (int part = 0; part < ullage_model_parts(of->model); part++) {
        const char *tracer = ullage_model_word(of->model, part, "tracer");
        if (tracer && strcmp(tracer, name) == 0)
            return false;
    }
    return strcmp(name, "energy") != 0;
}

bool opening_is_new(const struct experiment *of, int row)
{
    const char *part = ullage_run_opening(of->model, of->run, row).part;
    for (int i = 0; i < row; i++)
        if (strcmp(ullage_run_opening(of->model, of->run, i).part, part) == 0)
            return false;
    return true;
}

const char *result_word(enum ullage_result result)
{
    static const char *const word[] = {[ULLAGE_PASS] = "pass", [ULLAGE_FAIL] = "fail", [ULLAGE_OPEN] = "open"};
    return word[result];
}

bool experiment_expected(const struct experiment *of, enum ullage_result wanted)
{
    int standing = 0;
    int as_wanted = 0;
    for (int i = 0; i < ullage_run_verdicts(of->run); i++) {
        if (!verdict_stands(of, i))
            continue;
        standing++;
        as_wanted += ullage_run_verdict(of->run, i).result == wanted;
    }
    return wanted == ULLAGE_FAIL ? as_wanted > 0 : standing > 0 && as_wanted == standing;
}

double channel_value(const struct ullage_model *model, const double *value, int part, const char *quantity)
{
    char name[256];
    snprintf(name, sizeof name, "%s.%s", part < 0 ? "air" : ullage_model_part(model, part).id, quantity);
    const int channel = ullage_model_find_channel(model, name);
    return channel < 0 ? (double)NAN : value[channel];
}

/* ---- cautions ---------------------------------------------------------------------------------------------------- */

static const double gentle = 3.5e3; /* Pa: about 14 inH2O, the most that is put on a real system */

static const char burns[] =
    "Fuel vapor burns and explodes: on a real vehicle inert gas, 3.5 kPa (14 inH2O) at most unless the maker says "
    "otherwise, away from ignition sources, with good ventilation.";
static const char decides[] = "This is a model for teaching and analysis: local rules, the vehicle maker's procedure "
                              "and licensed practice decide.";

/* By a step, or by a supply that is joined from the start. */
static bool gas_is_put_on(const struct ullage_model *model)
{
    for (int step = 0; step < ullage_model_steps(model); step++)
        if (ullage_model_step(model, step).gas)
            return true;
    for (int i = 0; i < ullage_model_parts(model); i++) {
        const struct ullage_part part = ullage_model_part(model, i);
        for (int k = 0; k < part.links; k++)
            if (strcmp(part.link[k].key, "join") == 0 && part.link[k].part >= 0)
                return true;
    }
    return false;
}

/* What a supply of this scenario adds to the cautions: air in it, or too much pressure. False: nothing. */
static bool supply_caution(const struct ullage_model *model, int part, bool about_pressure, char *room)
{
    const struct ullage_part supply = ullage_model_part(model, part);
    if (strcmp(supply.type, "supply") != 0)
        return false;
    const double pressure = ullage_model_parameter(model, part, "gauge_pressure");
    const char *gas = ullage_model_word(model, part, "gas");
    char figure[FIGURE_ROOM];
    if (about_pressure && pressure > gentle * (1.0 + 1e-9)) {
        snprintf(room, CAUTION_ROOM, "The %.60s stands at %s: more than may be put on a real system.", supply.label,
                 figure_value(pressure, ULLAGE_PRESSURE, FIGURE_SHOP, figure));
        return true;
    }
    if (!about_pressure && gas && strcmp(gas, "air") == 0) {
        snprintf(room, CAUTION_ROOM,
                 "The %.60s gives air: with fuel vapor it makes a mixture that burns. Inert gas does not.",
                 supply.label);
        return true;
    }
    return false;
}

bool experiment_caution(const struct experiment *of, int index, char *room)
{
    if (!gas_is_put_on(of->model))
        return false;
    if (index < 2) {
        snprintf(room, CAUTION_ROOM, "%s", index == 0 ? burns : decides);
        return true;
    }
    int left = index - 2;
    for (int part = 0; part < ullage_model_parts(of->model); part++)
        for (int about_pressure = 0; about_pressure < 2; about_pressure++)
            if (supply_caution(of->model, part, about_pressure, room) && left-- == 0)
                return true;
    return false;
}
