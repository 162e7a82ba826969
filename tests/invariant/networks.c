/* tests/invariant/networks.c  Networks drawn at random: none may hang, lose matter or energy, or take too many steps.
 *
 * ULLAGE_NETWORKS in the environment says how many (300 when unset; 30 under sanitizers; long.sh asks for 1,000).
 * The bounds are promises of the program, not measured values: round-off alone may be left in the ledger. */
#include "support/random_network.h"
#include "ullage.h"

#include <gsl/gsl_errno.h>

#define SPECIES_LEFT 1e-12 /* of the row's scale */
#define ENERGY_LEFT 1e-10
#define STEPS_AN_HOUR 4000 /* between events; an hour is what is drawn */
#define TOLERANCE 1e-6
#define BELOW_ZERO 10.0 /* tolerance units that an amount may lie under zero */

static int networks_asked(void)
{
    const char *asked = getenv("ULLAGE_NETWORKS");
    return asked ? atoi(asked) : 300;
}

static struct ullage_model *model_of(const char *text, uint64_t seed)
{
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_text(text, problems, &outcome);
    struct ullage_model *model = description ? ullage_model_create(description, problems) : NULL;
    for (int k = 0; k < ullage_problems_count(problems); k++) {
        const struct ullage_problem problem = ullage_problems_at(problems, k);
        print_message("network %d, line %d: %s; %s\n", (int)seed, problem.place.line, problem.wrong, problem.right);
    }
    ullage_description_free(description);
    ullage_problems_free(problems);
    if (!model)
        fail_msg("network %d could not be made:\n%s", (int)seed, text);
    return model;
}

static void check_ledger(const struct ullage_model *model, const struct ullage_run *run, uint64_t seed, double *worst)
{
    for (int k = 0; k < ullage_model_ledger_rows(model); k++) {
        const struct ullage_ledger_row row = ullage_run_ledger(model, run, k);
        const bool energy = !strcmp(row.name, "energy");
        const double share = row.scale > 0.0 ? fabs(row.residual) / row.scale : fabs(row.residual);
        worst[energy] = fmax(worst[energy], share);
        if (!(share <= (energy ? ENERGY_LEFT : SPECIES_LEFT)))
            fail_msg("network %d loses %s: %.3g of its scale", (int)seed, row.name, share);
    }
}

/* Amounts of each species of each vessel, by its share and its amount. */
static void check_amounts(const struct ullage_model *model, const struct ullage_run *run, uint64_t seed)
{
    static const char *const species[] = {"air", "nitrogen", "carbon_dioxide", "smoke"};
    double value[4096];
    ullage_run_values(model, run, value, NULL);
    for (int part = 0; part < ullage_model_parts(model); part++) {
        const struct ullage_part here = ullage_model_part(model, part);
        char name[128];
        snprintf(name, sizeof name, "%s.amount", here.id);
        const int amount = ullage_model_find_channel(model, name);
        for (size_t s = 0; amount >= 0 && s < sizeof species / sizeof *species; s++) {
            snprintf(name, sizeof name, "%s.%s", here.id, species[s]);
            const int share = ullage_model_find_channel(model, name);
            const double unit = TOLERANCE * 0.1 * value[amount]; /* the scale of an amount, near enough */
            if (share >= 0 && !(value[share] * value[amount] > -2.0 * BELOW_ZERO * unit))
                fail_msg("network %d: %s holds %g mol of %s", (int)seed, here.id, value[share] * value[amount],
                         species[s]);
        }
    }
}

static void drawn_networks_keep_their_promises(void **unused)
{
    (void)unused;
    char *text = malloc(RANDOM_TEXT);
    double worst[2] = {0.0, 0.0};
    int64_t most_steps = 0, longest = 0, all_steps = 0, all_rates = 0;
    double drift = 0.0;
    const int networks = networks_asked();
    for (int k = 0; k < networks; k++) {
        random_network((uint64_t)k, text);
        struct ullage_model *model = model_of(text, (uint64_t)k);
        struct ullage_run *run = ullage_run_create(model, NULL);
        enum ullage_status status = ULLAGE_PAUSED;
        for (double time = 60.0; status == ULLAGE_PAUSED; time += 60.0) {
            status = ullage_run_advance(model, run, time);
            if (status == ULLAGE_STUCK)
                fail_msg("network %d is stuck: %s\n%s", k, ullage_run_trouble(run), text);
            check_amounts(model, run, (uint64_t)k);
        }
        assert_int_equal(status, ULLAGE_FINISHED);
        check_ledger(model, run, (uint64_t)k, worst);
        const struct ullage_effort effort = ullage_run_effort(run);
        if (effort.longest > STEPS_AN_HOUR)
            fail_msg("network %d takes %lld steps between two events:\n%s", k, (long long)effort.longest, text);
        longest = effort.longest > longest ? effort.longest : longest;
        most_steps = effort.steps > most_steps ? effort.steps : most_steps;
        all_steps += effort.steps;
        all_rates += effort.derivatives;
        drift = fmax(drift, effort.largest_drift);
        ullage_run_free(run);
        ullage_model_free(model);
    }
    free(text);
    print_message("%d networks of one hour: %lld steps, %lld derivatives, at most %lld steps, %lld between events; "
                  "ledger %.1e, energy %.1e; "
                  "drift %.2g Pa\n",
                  networks, (long long)all_steps, (long long)all_rates, (long long)most_steps, (long long)longest,
                  worst[0], worst[1], drift);
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {cmocka_unit_test(drawn_networks_keep_their_promises)};
    return cmocka_run_group_tests_name("invariant/networks", tests, NULL, NULL) != 0;
}
