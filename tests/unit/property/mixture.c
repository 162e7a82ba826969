/* tests/unit/property/mixture.c  Slopes of the properties, and what the table must hold. */
#include "property/gas.h"
#include "support/near.h"

enum { KINDS = 3 };

struct mix {
    const struct species *species[KINDS];
    double share[KINDS];
    double temperature;
    int moved; /* index of a share, or -1: temperature */
};

static struct mix mix_draw(uint64_t *stream)
{
    int count;
    const struct species *table = species_table(&count);
    struct mix mix = {.temperature = near_draw_between(stream, 230.0, 380.0), .moved = -1};
    double sum = 0.0;
    for (int i = 0; i < KINDS; i++) {
        mix.species[i] = &table[i];
        mix.share[i] = near_draw(stream);
        sum += mix.share[i];
    }
    for (int i = 0; i < KINDS; i++)
        mix.share[i] /= sum;
    return mix;
}

static double moved_viscosity(double x, const void *with)
{
    struct mix mix = *(const struct mix *)with;
    *(mix.moved < 0 ? &mix.temperature : &mix.share[mix.moved]) = x;
    return mixture_viscosity(KINDS, mix.species, mix.share, mix.temperature).value;
}

/* Steps of 0.1 K and 1e-3 of a whole: the fourth-order error is under 1e-9. */
static void mixture_slopes_agree_with_differences(void **unused)
{
    (void)unused;
    uint64_t stream = 7;
    for (int i = 0; i < 300; i++) {
        struct mix mix = mix_draw(&stream);
        const struct mixture_viscosity got = mixture_viscosity(KINDS, mix.species, mix.share, mix.temperature);
        const double value = mixture_viscosity_value(KINDS, mix.species, mix.share, mix.temperature);
        assert_memory_equal(&value, &got.value, sizeof value);
        assert_near_share("by temperature", got.by_temperature, near_slope(moved_viscosity, &mix, mix.temperature, 0.1),
                          1e-7);
        for (mix.moved = 0; mix.moved < KINDS; mix.moved++)
            assert_near("by share", got.by_share[mix.moved],
                        near_slope(moved_viscosity, &mix, mix.share[mix.moved], 1e-3), 1e-7 * got.value);
    }
}

static double pure_viscosity(double temperature, const void *with)
{
    double value;
    double slope;
    species_viscosity(with, temperature, &value, &slope);
    return value;
}

static void pure_slopes_agree_with_differences(void **unused)
{
    (void)unused;
    int count;
    const struct species *table = species_table(&count);
    /* carries the fourth coefficient too, which no gas of the table has */
    const struct species made = {.molar_mass = 0.07, .viscosity = {2.4344e-8, 0.97376, -91.597, 18720.0}};
    for (int i = 0; i <= count; i++) {
        const struct species *const of = i < count ? &table[i] : &made;
        if (of->passive)
            continue;
        double value;
        double slope;
        species_viscosity(of, 300.0, &value, &slope);
        assert_near_share("slope", slope, near_slope(pure_viscosity, of, 300.0, 0.3), 1e-8);
    }
}

/* A mixture of one gas is that gas; so is one of three equal ones; round-off below zero does no harm. */
static void mixture_knows_its_limits(void **unused)
{
    (void)unused;
    int count;
    const struct species *air = &species_table(&count)[species_find("air")];
    const struct species *const alike[] = {air, air, air};
    const double pure = pure_viscosity(300.0, air);
    assert_near_share("alone", mixture_viscosity(1, alike, (const double[]){1.0}, 300.0).value, pure, 1e-15);
    assert_near_share("three alike", mixture_viscosity(3, alike, (const double[]){0.2, 0.3, 0.5}, 300.0).value, pure,
                      1e-14);
    assert_near_share("under zero", mixture_viscosity(2, alike, (const double[]){1.0 + 1e-9, -1e-9}, 300.0).value, pure,
                      1e-14);
}

static void table_holds_what_the_rest_relies_on(void **unused)
{
    (void)unused;
    int count;
    const struct species *table = species_table(&count);
    assert_true(0 < count && count <= SPECIES_MOST);
    for (int i = 0; i < count; i++) {
        assert_int_equal(species_find(table[i].name), i); /* so no name stands twice */
        assert_non_null(table[i].source);
        const double r = 8.31446261815324;
        assert_true(table[i].passive || (table[i].molar_mass > 0.0 && table[i].heat_capacity > r));
    }
    assert_int_equal(species_find("phlogiston"), -1);
    const double cp = table[species_find("air")].heat_capacity;
    assert_near("gamma of air", cp / (cp - 8.31446261815324), 1.4, 1e-12);
    assert_true(table[species_find("smoke")].passive);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(mixture_slopes_agree_with_differences),
        cmocka_unit_test(pure_slopes_agree_with_differences),
        cmocka_unit_test(mixture_knows_its_limits),
        cmocka_unit_test(table_holds_what_the_rest_relies_on),
    };
    return cmocka_run_group_tests_name("gases and mixtures", tests, NULL, NULL) != 0;
}
