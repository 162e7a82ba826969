/* report/json.c  A run as one JSON object: readings, verdicts, ledger, fuel, cautions, effort. Keys stand in a fixed order. */
#include "report/json.h"

#include "report/fuel.h"

#include <inttypes.h>
#include <jansson.h>
#include <math.h>

/* JSON has no word for what is not a number. */
static json_t *number_json(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

/* jansson's integers are signed: a seed beyond them is written as its digits. */
static json_t *seed_json(uint64_t seed)
{
    return seed <= INT64_MAX ? json_integer((json_int_t)seed) : json_sprintf("%" PRIu64, seed);
}

/* Puts `value` under `key`, or gives all up: null in, null out, so that memory running out anywhere is seen at the end. */
static json_t *with(json_t *object, const char *key, json_t *value)
{
    if (json_object_set_new(object, key, value) == 0)
        return object;
    json_decref(object);
    return NULL;
}

static json_t *reading_json(const struct ullage_reading *reading)
{
    char unit[64];
    json_t *entry = json_pack("{s:o, s:s}", "value", number_json(reading->value), "unit",
                              ullage_dimension_name(reading->dimension, unit));
    return reading->over == 0 ? entry : with(entry, reading->over > 0 ? "over" : "under", json_true());
}

static json_t *readings_json(const struct experiment *of)
{
    json_t *readings = json_object();
    for (int i = 0; i < ullage_run_readings(of->run); i++) {
        const struct ullage_reading reading = ullage_run_reading(of->run, i);
        readings = with(readings, reading.name, reading_json(&reading));
    }
    return readings;
}

static json_t *verdicts_json(const struct experiment *of)
{
    json_t *verdicts = json_object();
    for (int i = 0; i < ullage_run_verdicts(of->run); i++) {
        const struct ullage_verdict verdict = ullage_run_verdict(of->run, i);
        verdicts = with(verdicts, verdict.name,
                        json_pack("{s:s, s:s}", "result", result_word(verdict.result), "reason", verdict.reason));
    }
    return verdicts;
}

static json_t *ledger_row_json(const struct ullage_ledger_row *row)
{
    return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o}", "in", number_json(row->in), "out", number_json(row->out),
                     "stored_start", number_json(row->stored_start), "stored_change", number_json(row->stored_change),
                     "residual", number_json(row->residual), "scale", number_json(row->scale));
}

static json_t *ledger_json(const struct experiment *of)
{
    json_t *ledger = json_object();
    for (int i = 0; i < ullage_model_ledger_rows(of->model); i++) {
        const struct ullage_ledger_row row = ullage_run_ledger(of->model, of->run, i);
        ledger = with(ledger, row.name, ledger_row_json(&row));
    }
    return ledger;
}

/* Grams by where the fuel is, and by the part it went out through, or the fault by which it did. */
static json_t *fuel_json(const struct experiment *of)
{
    static const double gram = 1e-3; /* kg */
    const struct ullage_fuel fuel = ullage_run_fuel(of->model, of->run);
    json_t *out = json_object();
    for (int i = 0; i < ullage_model_opening_rows(of->model); i++) {
        const struct ullage_opening_row row = ullage_run_opening(of->model, of->run, i);
        const char *part = row.part;
        if (opening_is_new(of, i) && !(row.poured && fuel_passed(of, part).out == 0.0))
            out = with(out, part, number_json(fuel_passed(of, part).out / gram));
    }
    return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o}", "liquid", number_json(fuel.liquid.now / gram), "gas",
                     number_json(fuel.gas.now / gram), "carbon", number_json(fuel.carbon.now / gram), "out", out,
                     "vapor_made", number_json(fuel_vapor_made(&fuel) / gram), "drained",
                     number_json(fuel.drained / gram));
}

static json_t *cautions_json(const struct experiment *of)
{
    json_t *cautions = json_array();
    char room[CAUTION_ROOM];
    for (int i = 0; experiment_caution(of, i, room); i++)
        if (json_array_append_new(cautions, json_string(room)) != 0) {
            json_decref(cautions);
            return NULL;
        }
    return cautions;
}

static json_t *solver_json(const struct experiment *of, double seconds)
{
    const struct ullage_effort effort = ullage_run_effort(of->run);
    return json_pack("{s:s, s:I, s:I, s:I, s:I, s:o}", "method", effort.method, "steps", (json_int_t)effort.steps,
                     "derivatives", (json_int_t)effort.derivatives, "jacobians", (json_int_t)effort.jacobians,
                     "factorizations", (json_int_t)effort.factorizations, "seconds", number_json(seconds));
}

bool json_write(FILE *to, const struct experiment *of, const struct json_circumstances *circumstances)
{
    json_t *object = json_pack("{s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:[], s:o, s:o}", "scenario",
                               ullage_model_name(of->model), "seed", seed_json(circumstances->seed), "end_time_s",
                               number_json(ullage_run_time(of->run)), "readings", readings_json(of), "verdicts",
                               verdicts_json(of), "ledger", ledger_json(of), "fuel_grams", fuel_json(of), "codes",
                               "cautions", cautions_json(of), "solver", solver_json(of, circumstances->seconds));
    if (!object)
        return false;
    (void)json_dumpf(object, to, JSON_INDENT(2)); /* what fails here is the stream, which keeps it */
    json_decref(object);
    fputc('\n', to);
    return true;
}
