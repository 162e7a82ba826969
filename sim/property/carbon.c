/* sim/property/carbon.c  Three kinds of site, on each of them Langmuir's equation for a mixture.
 *
 *   x_si = b_si p_i,   b_si(T) = b_si(T0) exp[(E_i/R) (1/T - 1/T0)],   D_s = 1 + sum_j x_sj
 *   q_i  = sum_s m_s x_si / D_s                                                                        [mol/kg]
 *   dq_i/dp_j = sum_s m_s b_sj (delta_ij / D_s - x_si / D_s^2)
 *   dq_i/dT   = -1/(R T^2) sum_s m_s theta_si (E_i - sum_j theta_sj E_j),   theta_si = x_si / D_s
 *
 * Explicit in the pressures, and consistent because m_s is the same for every gas: with Phi = sum m_s ln D_s,
 *   q_i = dPhi/d ln p_i,  so  p_j dq_i/dp_j = p_i dq_j/dp_i,
 *   enthalpy = -R dPhi/d(1/T) = -sum_i E_i q_i,
 * whatever the split over sites. So the energy of the carbon is a function of q and T alone, c T + sum q_i (h_i - E_i),
 * also away from equilibrium, and a mole taken up gives E_i: the ledger needs no term of its own for it.
 *
 * Below zero pressure x is bent to x/(1 - c x) with c = 2 count: same slope at zero, and D_s stays above 1/2 however
 * large b is. Above zero nothing is changed.
 *
 * Data: table of gases. Fits of n-butane and propane to [PAN1998], of toluene and benzene to [LILLO2006], of carbon
 * dioxide and nitrogen to [ADSORPTION2014] and [BAZAN2008], worked out for this project; misfits and the measured
 * points are in tests/outside/isotherms.c. Below 1 kPa of butane the curve is extrapolated: bleed of some hundred ppm
 * is known to a factor of 2 to 5 only. */
#include "property/carbon.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define GAS_CONSTANT 8.31446261815324 /* J/mol/K [SI2019] */
#define PER_KPA 1e-3                  /* 1/Pa */

#define ALIKE "likeness to n-butane [DUBININ1975], estimate"

/* ---- gases ---------------------------------------------------------------------------------------------------------
 * Rows by likeness carry their affinity coefficient; they follow from it and from the vapor pressure by [POLING5]. */

/* clang-format off */
#define HELD(strong, middle, weak) {(strong) * PER_KPA, (middle) * PER_KPA, (weak) * PER_KPA}

static const struct adsorbate adsorbates[] = {
    {"air",             HELD(6.444e-4, 1.921e-4, 4.097e-5),   9743.0, "as nitrogen"},
    {"nitrogen",        HELD(6.444e-4, 1.921e-4, 4.097e-5),   9743.0, "fit to [ADSORPTION2014], [BAZAN2008], 20 %"},
    {"carbon dioxide",  HELD(0.01160, 0.003204, 6.199e-4),   24060.0, "fit to [ADSORPTION2014], [BAZAN2008], 4 %"},
    {"propane",         HELD(0.2767, 0.02927, 0.001556),     25310.0, "fit to [PAN1998], 1.0 %"},
    {"n-butane",        HELD(1.540, 0.1128, 0.004017),       28790.0, "fit to [PAN1998], 1.2 %"},
    {"isobutane",       HELD(0.9515, 0.07343, 0.002795),     27290.0, ALIKE ": 0.98"},
    {"isopentane",      HELD(13.32, 0.5786, 0.01058),        33140.0, ALIKE ": 1.20"},
    {"n-pentane",       HELD(22.67, 0.8868, 0.01418),        34750.0, ALIKE ": 1.24"},
    {"2-methylpentane", HELD(190.3, 4.298, 0.03413),         39070.0, ALIKE ": 1.45"},
    {"n-hexane",        HELD(358.2, 7.100, 0.04771),         40910.0, ALIKE ": 1.50"},
    {"cyclohexane",     HELD(150.9, 5.315, 0.0744),          40920.0, ALIKE ": 1.28"},
    {"n-heptane",       HELD(5869.0, 57.45, 0.1569),         47350.0, ALIKE ": 1.77"},
    {"isooctane",       HELD(8733.0, 69.35, 0.1450),         46360.0, ALIKE ": 1.85"},
    {"n-decane",        HELD(1.872e7, 2.513e4, 5.441),       68060.0, ALIKE ": 2.53"},
    {"benzene",         HELD(152.4, 3.204, 0.1319),          41230.0, "fit to [LILLO2006], 3.4 %; heat by likeness"},
    {"toluene",         HELD(683.7, 17.85, 0.2498),          45760.0, "fit to [LILLO2006], 3.3 %; heat by likeness"},
    {"o-xylene",        HELD(7750.0, 157.7, 1.096),          52980.0, ALIKE ": 1.49"},
    {"ethanol",         HELD(3.301, 0.7840, 0.1252),         46080.0, ALIKE ": 0.55; up to 60 % off at low pressure"},
};

/* clang-format on */

enum { ADSORBATES = sizeof adsorbates / sizeof adsorbates[0] };

const struct adsorbate *adsorbate_table(int *count)
{
    if (count)
        *count = ADSORBATES;
    return adsorbates;
}

int adsorbate_find(const char *name)
{
    for (int i = 0; i < ADSORBATES; i++)
        if (strcmp(adsorbates[i].name, name) == 0)
            return i;
    return -1;
}

/* Potential theory: the same filling of a site at the same likeness times the potential,
 *   ln(b psat) = likeness ln(b psat of butane),   E = h + likeness (E - h of butane). */
struct adsorbate adsorbate_alike(const char *name, double likeness, double vapor_pressure, double vaporisation_heat)
{
    const double butane_pressure = 242789.58; /* Pa at 298.15 K [POLING5] */
    const double butane_heat = 22886.36;      /* J/mol, R T^2 d ln p/dT of the same */
    const struct adsorbate *const butane = &adsorbates[adsorbate_find("n-butane")];
    assert(likeness > 0.0 && vapor_pressure > 0.0);
    struct adsorbate made = {.name = name, .source = ALIKE};
    for (int s = 0; s < CARBON_SITES; s++)
        made.affinity[s] = pow(butane->affinity[s] * butane_pressure, likeness) / vapor_pressure;
    made.heat = vaporisation_heat + likeness * (butane->heat - butane_heat);
    return made;
}

/* Size for size: the affinity coefficient goes with what a molecule takes up of room, here by Fuller's volumes. That meets
 * the coefficients of the table above within 9 %, benzene's within 14 %. */
static double likeness_of(const struct component *component)
{
    const double butane_volume = 86.70; /* [FULLER1969] */
    return component->diffusion_volume / butane_volume;
}

struct adsorbate adsorbate_of(const struct component *component)
{
    const int row = adsorbate_find(component->gas.name);
    if (row >= 0)
        return adsorbates[row];
    const double t = ADSORBATE_TEMPERATURE;
    const struct thermal saturation = component_saturation(component, t);
    const double heat = GAS_CONSTANT * t * t * saturation.slope / saturation.value;
    if (component->likeness > 0.0)
        return adsorbate_alike(component->gas.name, component->likeness, component->vapor_condenses, heat);
    return adsorbate_alike(component->gas.name, likeness_of(component), saturation.value, heat);
}

/* ---- carbons ----------------------------------------------------------------------------------------------------- */

/* Wood-based pellets of 2 mm as canisters hold them. Sites: fits worked out for this project to the papers named. Bed:
 * common figures from memory (300 kg/m3 of 280..350, void 0.33..0.45, gas with the pores 0.75..0.85, dry heat capacity
 * 700..1000 J/kg/K, conductivity 0.1..0.2 W/m/K, uptake 0.01..0.1 1/s). */
static const struct carbon carbons[] = {
    {.name = "stock",
     .capacity = {1.346, 2.982, 7.907},
     .density = 300.0,
     .void_share = 0.40,
     .gas_share = 0.80,
     .grain = 2e-3,
     .heat_capacity = 900.0,
     .conductivity = 0.15,
     .uptake_rate = 0.03,
     .source = "sites fitted to [PAN1998], [LILLO2006]; bed from memory"},
    {.name = "dense",
     .capacity = {1.619, 2.736, 14.28},
     .density = 300.0,
     .void_share = 0.40,
     .gas_share = 0.80,
     .grain = 2e-3,
     .heat_capacity = 900.0,
     .conductivity = 0.15,
     .uptake_rate = 0.03,
     .source = "sites fitted to [QUARANTA2021], [LILLO2006], 13 % of butane; bed from memory"},
};

enum { CARBONS = sizeof carbons / sizeof carbons[0] };

const struct carbon *carbon_table(int *count)
{
    if (count)
        *count = CARBONS;
    return carbons;
}

int carbon_find(const char *name)
{
    for (int i = 0; i < CARBONS; i++)
        if (strcmp(carbons[i].name, name) == 0)
            return i;
    return -1;
}

struct sorbent sorbent_create(const struct carbon *carbon, struct carbon_grade grade, int count,
                              const struct adsorbate *const *adsorbate)
{
    assert(0 <= count && count <= ADSORBATES_MOST);
    assert(grade.capacity > 0.0 && grade.heat >= 0.0 && 0.0 <= grade.lost && grade.lost <= 1.0);
    struct sorbent sorbent = {.count = count};
    for (int s = 0; s < CARBON_SITES; s++)
        sorbent.capacity[s] = grade.capacity * carbon->capacity[s];
    sorbent.capacity[0] *= 1.0 - grade.lost;
    for (int i = 0; i < count; i++) {
        memcpy(sorbent.affinity[i], adsorbate[i]->affinity, sizeof sorbent.affinity[i]);
        sorbent.heat[i] = grade.heat * adsorbate[i]->heat;
    }
    return sorbent;
}

/* ---- equilibrium ------------------------------------------------------------------------------------------------- */

/* x and how it answers to ln b and to p, for every gas on every site; and D. */
struct filling {
    double x[ADSORBATES_MOST][CARBON_SITES];
    double by_pressure[ADSORBATES_MOST][CARBON_SITES]; /* dx/dp; dx/d ln b is p times this */
    double below[CARBON_SITES];                        /* D_s */
};

/* Held where D^2 is still far from the end of doubles: below some 20 K, where no bed has ever been. */
double carbon_strengthening(double heat, double temperature)
{
    const double strongest = 250.0; /* of the exponent */
    return exp(fmin(heat / GAS_CONSTANT * (1.0 / temperature - 1.0 / ADSORBATE_TEMPERATURE), strongest));
}

static struct filling fill(const struct sorbent *sorbent, const double *pressure, double temperature)
{
    assert(temperature > 0.0);
    const double bend = 2.0 * sorbent->count;
    struct filling filling;
    for (int s = 0; s < CARBON_SITES; s++)
        filling.below[s] = 1.0;
    for (int i = 0; i < sorbent->count; i++) {
        const double stronger = carbon_strengthening(sorbent->heat[i], temperature);
        for (int s = 0; s < CARBON_SITES; s++) {
            const double affinity = stronger * sorbent->affinity[i][s];
            const double straight = affinity * pressure[i];
            const double bent = straight < 0.0 ? 1.0 / (1.0 - bend * straight) : 1.0;
            filling.x[i][s] = straight * bent;
            filling.by_pressure[i][s] = affinity * bent * bent;
            filling.below[s] += filling.x[i][s];
        }
    }
    return filling;
}

static double filling_loading(const struct sorbent *sorbent, const struct filling *filling, int i)
{
    double sum = 0.0;
    for (int s = 0; s < CARBON_SITES; s++)
        sum += sorbent->capacity[s] * filling->x[i][s] / filling->below[s];
    return sum;
}

void carbon_loading_value(const struct sorbent *sorbent, const double *pressure, double temperature, double *value)
{
    const struct filling filling = fill(sorbent, pressure, temperature);
    for (int i = 0; i < sorbent->count; i++)
        value[i] = filling_loading(sorbent, &filling, i);
}

static double pressure_slope(const struct sorbent *sorbent, const struct filling *filling, int i, int j)
{
    double sum = 0.0;
    for (int s = 0; s < CARBON_SITES; s++) {
        const double below = filling->below[s];
        const double others = i == j ? below - filling->x[i][s] : -filling->x[i][s]; /* D delta_ij - x_i */
        sum += sorbent->capacity[s] * (others / below) * (filling->by_pressure[j][s] / below);
    }
    return sum;
}

struct loading carbon_loading(const struct sorbent *sorbent, const double *pressure, double temperature)
{
    const struct filling filling = fill(sorbent, pressure, temperature);
    const double cooling = -1.0 / (GAS_CONSTANT * temperature * temperature); /* d(ln b)/dT = cooling E */
    struct loading loading;
    for (int i = 0; i < sorbent->count; i++) {
        loading.value[i] = filling_loading(sorbent, &filling, i);
        loading.by_temperature[i] = 0.0;
        for (int j = 0; j < sorbent->count; j++) {
            loading.by_pressure[i][j] = pressure_slope(sorbent, &filling, i, j);
            loading.by_temperature[i] += cooling * sorbent->heat[j] * pressure[j] * loading.by_pressure[i][j];
        }
    }
    return loading;
}

double carbon_enthalpy(const struct sorbent *sorbent, const double *loading)
{
    double sum = 0.0;
    for (int i = 0; i < sorbent->count; i++)
        sum -= sorbent->heat[i] * loading[i];
    return sum;
}

double carbon_potential(const struct sorbent *sorbent, const double *pressure, double temperature)
{
    const struct filling filling = fill(sorbent, pressure, temperature);
    double sum = 0.0;
    for (int s = 0; s < CARBON_SITES; s++)
        sum += sorbent->capacity[s] * log(filling.below[s]);
    return sum;
}
