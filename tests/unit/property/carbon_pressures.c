/* tests/unit/property/carbon_pressures.c  The loading turned round gives back the pressures that made it, wherever there are any.
 *
 * What is allowed: loadings are right to some round-offs of all that is held, the free share of a kind of site, 1/D, is what
 * is left over of them, and pressures are as right as that: round-off times D. Within a hundred of it. */
#include "property/carbon.h"
#include "support/near.h"

#include <float.h>

enum { COMPANY = 6, DRAWS = 2000 };

static const char *const company[COMPANY] = {"air", "propane", "n-butane", "n-pentane", "toluene", "ethanol"};

static const double air[ADSORBATES_MOST] = {1.0}; /* is the rest */

static struct sorbent sorbent_of(int count, const char *const *name, struct carbon_grade grade)
{
    const struct adsorbate *list[ADSORBATES_MOST];
    for (int i = 0; i < count; i++)
        list[i] = &adsorbate_table(NULL)[adsorbate_find(name[i])];
    return sorbent_create(&carbon_table(NULL)[0], grade, count, list);
}

static double sites(const struct sorbent *sorbent)
{
    double sum = 0.0;
    for (int s = 0; s < CARBON_SITES; s++)
        sum += sorbent->capacity[s];
    return sum;
}

/* The largest D: one over the smallest free share of any kind of site. */
static double crowding(const struct sorbent *sorbent, const double *pressure, double temperature)
{
    double most = 1.0;
    for (int s = 0; s < CARBON_SITES; s++) {
        double below = 1.0;
        for (int i = 0; i < sorbent->count; i++)
            below += carbon_strengthening(sorbent->heat[i], temperature) * sorbent->affinity[i][s] * pressure[i];
        most = fmax(most, sorbent->capacity[s] > 0.0 ? below : 1.0);
    }
    return most;
}

static double sum_of(const double *value, int count)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++)
        sum += value[i];
    return sum;
}

static void pressures_come_back(void **unused)
{
    (void)unused;
    uint64_t stream = 1;
    int judged = 0;
    for (int draw = 0; draw < DRAWS; draw++) {
        const struct carbon_grade grade = {near_draw_between(&stream, 0.5, 2.0), near_draw_between(&stream, 0.5, 1.5),
                                           draw % 10 ? near_draw(&stream) : 1.0};
        const struct sorbent sorbent = sorbent_of(COMPANY, company, grade);
        const double temperature = near_draw_between(&stream, 260.0, 340.0), total = 1e5;
        double made[COMPANY], held[COMPANY], found[COMPANY];
        for (int i = 1; i < COMPANY; i++)
            made[i] = draw % 7 == i ? 0.0 : near_draw_decades(&stream, 1e-4, 1e4);
        made[0] = total - sum_of(made + 1, COMPANY - 1);
        carbon_loading_value(&sorbent, made, temperature, held);
        const double crowded = crowding(&sorbent, made, temperature);
        if (sum_of(held, COMPANY) > 0.999 * sites(&sorbent))
            continue;
        judged++;
        assert_true(carbon_pressures(&sorbent, held, air, total, temperature, found));
        for (int i = 0; i < COMPANY; i++)
            assert_near_share(company[i], found[i], made[i], 100.0 * DBL_EPSILON * crowded);
    }
    assert_true(judged > DRAWS / 2);
}

static void clean_carbon_has_the_rest_alone(void **unused)
{
    (void)unused;
    const struct sorbent sorbent = sorbent_of(COMPANY, company, (struct carbon_grade){1.0, 1.0, 0.0});
    const double held[COMPANY] = {9.0}; /* of the rest nothing is taken from here */
    double found[COMPANY];
    assert_true(carbon_pressures(&sorbent, held, air, 1e5, 300.0, found));
    assert_true(found[0] == 1e5);
    assert_true(sum_of(found + 1, COMPANY - 1) == 0.0);
}

/* Half full of butane: under the pressure in the cold, far over it in the heat, where nothing is left for the rest. */
static void a_hot_bed_presses_more(void **unused)
{
    (void)unused;
    const struct sorbent sorbent = sorbent_of(COMPANY, company, (struct carbon_grade){1.0, 1.0, 0.0});
    const double held[COMPANY] = {[2] = 0.5 * 12.235};
    double cold[COMPANY], hot[COMPANY], back[COMPANY];
    assert_true(carbon_pressures(&sorbent, held, air, 1e5, 290.0, cold));
    assert_true(carbon_pressures(&sorbent, held, air, 1e5, 370.0, hot));
    assert_near_share("all of it", sum_of(cold, COMPANY), 1e5, 1e-14);
    assert_true(cold[0] > 0.0 && hot[0] == 0.0 && hot[2] > 2e5);
    carbon_loading_value(&sorbent, hot, 370.0, back);
    assert_near_share("held", back[2], held[2], 1e-12);
}

static void what_cannot_be_is_refused(void **unused)
{
    (void)unused;
    static const struct adsorbate stranger = {.name = "none"};
    const struct sorbent sorbent = sorbent_of(COMPANY, company, (struct carbon_grade){1.0, 1.0, 0.0});
    const struct adsorbate *pair[2] = {&adsorbate_table(NULL)[0], &stranger};
    const struct sorbent strange =
        sorbent_create(&carbon_table(NULL)[0], (struct carbon_grade){1.0, 1.0, 0.0}, 2, pair);
    double held[COMPANY] = {[2] = 7.0, [4] = 5.3}, found[COMPANY]; /* of 12.235 mol/kg in all */
    assert_false(carbon_pressures(&sorbent, held, air, 1e5, 300.0, found));
    held[4] = 5.2;
    assert_true(carbon_pressures(&sorbent, held, air, 1e5, 300.0, found));
    assert_false(carbon_pressures(&strange, (const double[]){0.0, 1e-9}, air, 1e5, 300.0, found));
    assert_true(carbon_pressures(&strange, (const double[]){0.0, 0.0}, air, 1e5, 300.0, found));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pressures_come_back),
        cmocka_unit_test(clean_carbon_has_the_rest_alone),
        cmocka_unit_test(a_hot_bed_presses_more),
        cmocka_unit_test(what_cannot_be_is_refused),
    };
    return cmocka_run_group_tests_name("pressures of a loading", tests, NULL, NULL) != 0;
}
