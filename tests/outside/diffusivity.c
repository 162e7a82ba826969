/* tests/outside/diffusivity.c  Diffusivity of vapors in gases, and two columns of gas at rest.
 *
 * Measured: Welty, Wicks, Wilson as quoted in Benitez, Principles and Modern Applications of Mass Transfer Operations,
 * appendix A; Perry's Handbook, table 2-324 (7th edition). Fuller's relation worked out apart from this program. */
#include "law/diffusion.h"
#include "law/flow.h"
#include "support/near.h"

struct gas_size {
    const char *name;
    double molar_mass, volume; /* g/mol; sum of increments */
};

/* Sums: C 15.9, H 2.31, O 6.11, aromatic ring -18.3. */
static const struct gas_size sizes[] = {
    {"air", 28.9647, 19.7},        {"nitrogen", 28.0134, 18.5},    {"carbon dioxide", 44.0095, 26.9},
    {"propane", 44.0956, 66.18},   {"n-butane", 58.1222, 86.70},   {"n-pentane", 72.1488, 107.22},
    {"n-hexane", 86.1754, 127.74}, {"toluene", 92.1384, 111.48},   {"cyclohexane", 84.1595, 123.12},
    {"ethanol", 46.0684, 51.77},   {"n-decane", 142.2817, 209.82}, {"n-octane", 114.2285, 168.78},
};

static const struct gas_size *size_of(const char *name)
{
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
        if (strcmp(sizes[i].name, name) == 0)
            return &sizes[i];
    fail_msg("no gas %s", name);
    return NULL;
}

static double diffusivity(const char *a, const char *b, double temperature)
{
    const struct gas_size *const one = size_of(a), *const other = size_of(b);
    return pair_diffusivity(1e-3 * one->molar_mass, one->volume, 1e-3 * other->molar_mass, other->volume, temperature,
                            STANDARD_PRESSURE);
}

/* m2/s at 1 atm. The five digits printed. */
static const struct {
    const char *a, *b;
    double temperature, value;
} apart[] = {
    {"n-butane", "air", 250.0, 7.0241e-06},        {"n-butane", "air", 298.15, 9.5600e-06},
    {"n-butane", "air", 350.0, 1.2657e-05},        {"n-pentane", "air", 298.15, 8.4574e-06},
    {"n-hexane", "air", 298.15, 7.6595e-06},       {"toluene", "air", 298.15, 8.0555e-06},
    {"ethanol", "air", 298.15, 1.2253e-05},        {"n-butane", "nitrogen", 298.15, 9.8214e-06},
    {"ethanol", "nitrogen", 325.0, 1.4650e-05},    {"n-butane", "carbon dioxide", 298.15, 7.7434e-06},
    {"carbon dioxide", "air", 273.15, 1.3501e-05}, {"carbon dioxide", "nitrogen", 298.15, 1.6215e-05},
};

static void relation_is_as_worked_out(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof apart / sizeof apart[0]; i++)
        assert_near_share(apart[i].a, diffusivity(apart[i].a, apart[i].b, apart[i].temperature), apart[i].value, 7e-5);
}

/* Measured. Fuller's relation is said to hold within 5 to 10 %; ethanol in carbon dioxide (+24 %) is known to be
 * off. */
static const struct {
    const char *a, *b;
    double temperature, value, share;
} measured[] = {
    {"ethanol", "air", 298.0, 1.3195e-05, 0.10},
    {"ethanol", "air", 273.15, 1.0200e-05, 0.10},
    {"toluene", "air", 298.0, 8.4382e-06, 0.10},
    {"propane", "carbon dioxide", 298.0, 8.6257e-06, 0.10},
    {"cyclohexane", "nitrogen", 288.15, 7.6e-06, 0.10},
    {"cyclohexane", "air", 318.15, 8.6e-06, 0.10},
    {"n-decane", "nitrogen", 363.15, 8.41e-06, 0.10},
    {"n-octane", "air", 298.0, 6.0202e-06, 0.10},
    {"carbon dioxide", "air", 273.0, 1.36e-05, 0.10},
    {"carbon dioxide", "nitrogen", 298.0, 1.6501e-05, 0.10},
    {"ethanol", "carbon dioxide", 273.0, 6.9282e-06, 0.25},
};

static void relation_is_near_measurement(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof measured / sizeof measured[0]; i++)
        assert_near_share(measured[i].a, diffusivity(measured[i].a, measured[i].b, measured[i].temperature),
                          measured[i].value, measured[i].share);
}

/* ---- columns at rest --------------------------------------------------------------------------------------------- */

enum { CELLS = 40 };

static struct diffusers butane_in_air(void)
{
    const double molar_mass[] = {1e-3 * size_of("n-butane")->molar_mass, 1e-3 * size_of("air")->molar_mass};
    const double volume[] = {size_of("n-butane")->volume, size_of("air")->volume};
    return diffusers_create(2, molar_mass, volume);
}

/* Vapor through still air (Stefan's tube): N = C D/L ln((1 - y_L)/(1 - y_0)). 40 cells in a row, each passing N, air
 * standing: the butane crossing between two cells is the stream N times the share upstream, and diffusion beside it,
 * which has to leave nothing of the air's. The law is exact between two points, so N comes out to round-off. */
static double stefan_shooting(double flow, double reach, double start)
{
    const struct diffusers gases = butane_in_air();
    double y = start;
    for (int c = 0; c < CELLS; c++) {
        double low = -0.5, high = y; /* the share of the next cell: the one that passes just `flow` of butane */
        for (int n = 0; n < 60; n++) {
            const double next = 0.5 * (low + high);
            const double a[] = {y, 1.0 - y}, b[] = {next, 1.0 - next};
            double value[2];
            diffusion_values(&gases, reach, flow, &(struct diffusion_side){a, 298.15},
                             &(struct diffusion_side){b, 298.15}, value);
            *(flow * y + value[0] > flow ? &low : &high) = next;
        }
        y = 0.5 * (low + high);
    }
    return y;
}

static void stefan_tube(void **unused)
{
    (void)unused;
    const double length = 0.5, area = 0.25 * 3.14159265358979 * 0.01 * 0.01;
    const double d = diffusivity("n-butane", "air", 298.15);
    const double per_length = STANDARD_PRESSURE / (GAS_CONSTANT * 298.15) * d * area / length;
    const double start[] = {0.01, 0.1, 0.3, 0.5};
    for (int i = 0; i < 4; i++) {
        const double flow = per_length * log(1.0 / (1.0 - start[i]));
        assert_near("share at the open end", stefan_shooting(flow, area / (length / CELLS), start[i]), 0.0, 1e-12);
    }
}

/* Equal numbers crossing: a dilute vapor fills a column from one end, y/y0 = 1 - x - sum 2/(n pi) sin(n pi x)
 * exp(-n^2 pi^2 Fo) (Carslaw and Jaeger). Explicit steps of a twentieth of what is stable; 40 cells leave 0.3 %. */
static void column_fills_as_a_slab_warms(void **unused)
{
    (void)unused;
    const struct diffusers gases = butane_in_air();
    const double y0 = 1e-4, cell = 1.0 / CELLS;
    const double concentration = STANDARD_PRESSURE / (GAS_CONSTANT * 298.15);
    const double d = diffusivity("n-butane", "air", 298.15);
    const double step = 0.025 * cell * cell / d;

    static const struct {
        double fourier, share[3]; /* at x = 0.25, 0.5, 0.75 */
    } want[] = {{0.05, {0.429195269, 0.113844197, 0.017628839}}, {0.5, {0.746762514, 0.495421505, 0.246762516}}};

    for (int w = 0; w < 2; w++) {
        double y[CELLS + 2] = {0};
        y[0] = y0;
        const int steps = (int)(want[w].fourier / d / step + 0.5);
        for (int n = 0; n < steps; n++) {
            double flux[CELLS + 1];
            for (int c = 0; c <= CELLS; c++) {
                const double a[] = {y[c], 1.0 - y[c]}, b[] = {y[c + 1], 1.0 - y[c + 1]};
                const double distance = c == 0 || c == CELLS ? 0.5 * cell : cell;
                double value[2];
                diffusion_values(&gases, 1.0 / distance, 0.0, &(struct diffusion_side){a, 298.15},
                                 &(struct diffusion_side){b, 298.15}, value);
                flux[c] = value[0];
            }
            for (int c = 1; c <= CELLS; c++)
                y[c] += step * (flux[c - 1] - flux[c]) / (concentration * cell);
        }
        for (int k = 0; k < 3; k++) {
            const int c = CELLS * (k + 1) / 4; /* the boundary between cells c and c + 1 */
            assert_near("share", 0.5 * (y[c] + y[c + 1]) / y0, want[w].share[k], 2e-3);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(relation_is_as_worked_out),
        cmocka_unit_test(relation_is_near_measurement),
        cmocka_unit_test(stefan_tube),
        cmocka_unit_test(column_fills_as_a_slab_warms),
    };
    return cmocka_run_group_tests_name("diffusivity", tests, NULL, NULL) != 0;
}
