/* sim/element/tank.c  The fuel tank: a shell with openings at heights, and the fuel of the scenario's `fill` in it. The
 * liquid's surface is that of a box of the tank's volume and height; every opening reaches the one gas space, and heights
 * are kept for the drawing. Equations of the liquid: network/pool.c. */
#include "element/elements.h"
#include "property/volatility.h"

enum { VOLUME, HEIGHT, GIVE, AREA, WALL_THICKNESS, FILM, OUTER_FILM };

static const struct row tank_parameter[] = {
    {"volume", ULLAGE_VOLUME, REQUIRED, 1e-4, 10.0, "all the inside of the shell", false},
    {"height", ULLAGE_LENGTH, 0.25, 0.01, 3.0, "inside, bottom to roof", false},
    {"give", ULLAGE_GIVE, 0.0, 0.0, 1e-4, "volume gained per pressure over the surroundings", false},
    {"area", ULLAGE_AREA, 0.0, 0.0, 100.0, "surface of the shell; 0: that of a cube of its volume", false},
    {"wall_thickness", ULLAGE_LENGTH, 5e-3, 0.0, 0.1, "of plastic; 0: no wall, the gas sees the surroundings", false},
    {"film", ULLAGE_HEAT_TRANSFER, 5.0, 0.0, 1e4, "heat transfer between gas and wall, still gas", false},
    {"outer_film", ULLAGE_HEAT_TRANSFER, 6.0, 0.0, 1e4, "heat transfer between wall and surroundings, still air",
     false},
    {0}};

#define SURFACE_FILM 3.0   /* W/m2/K between liquid and still gas (from memory) */
#define LIQUID_FILM 100.0  /* W/m2/K between liquid and wall (from memory) */
#define AIR_HEAT 1186.0    /* J/m3/K of air at 20 degC */
#define AIR_SPREADS 2.1e-5 /* m2/s: thermal diffusivity of air at 20 degC */

/* Chilton and Colburn: as heat, by the power 2/3 of what it spreads like. */
static double tank_transfer(const struct component *component)
{
    const double spreads = component_diffusivity(component, CARRIER_AIR, 293.15, 101325.0).value;
    return SURFACE_FILM / AIR_HEAT * pow(spreads / AIR_SPREADS, 2.0 / 3.0);
}

static void tank_stores(struct blueprint *into, int part)
{
    const double *v = into->part[part].value;
    const struct shell shell = {v[AREA], v[WALL_THICKNESS], v[FILM], v[OUTER_FILM]};
    struct volume_plan plan = shell_plan(part, v[VOLUME], v[GIVE], shell);
    plan.liquid = true;
    plan.surface_area = v[VOLUME] / v[HEIGHT];
    plan.surface_film = SURFACE_FILM * plan.surface_area;
    plan.surface_transfer = tank_transfer;
    plan.liquid_film = v[FILM] > 0.0 ? plan.film / v[FILM] * LIQUID_FILM : 0.0;
    blueprint_opening(into, part, "", blueprint_volume(into, plan));
}

enum { LEVEL, LIQUID_TEMPERATURE, FUEL_VAPOR_PRESSURE, FUEL_MASS, RVP };

static const struct show_row tank_shows[] = {
    {"level", ULLAGE_NUMBER, "the liquid's share of the inside of the shell"},
    {"liquid_temperature", ULLAGE_TEMPERATURE, "of its fuel"},
    {"fuel_vapor_pressure", ULLAGE_PRESSURE, "what its fuel would hold at rest, air apart"},
    {"fuel", ULLAGE_MASS, "liquid in it"},
    {"rvp", ULLAGE_PRESSURE, "volatility of the liquid as it is now, as dry vapor pressure equivalent (DVPE)"},
    {0}};

static void tank_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    const struct liquid_look *fuel = at->volume[0].liquid;
    (void)off_scale;
    for (int s = LEVEL; s <= RVP; s++)
        shown[s] = 0.0;
    shown[LIQUID_TEMPERATURE] = at->volume[0].gas.temperature;
    if (!fuel)
        return;
    shown[LEVEL] = fuel->volume / at->parameter[VOLUME];
    shown[LIQUID_TEMPERATURE] = fuel->temperature;
    shown[FUEL_VAPOR_PRESSURE] = fuel->pressure;
    shown[FUEL_MASS] = liquid_mass(fuel->liquid, fuel->amount);
    shown[RVP] = liquid_volatility(fuel->liquid, fuel->amount).dvpe;
}

static void tank_check(const struct part *part, struct ullage_problems *problems)
{
    for (int k = 0; k < part->openings; k++)
        if (part->opening[k].height > part->value[HEIGHT])
            problem_add(problems, part->opening[k].at, "put openings between bottom and roof",
                        "opening %s of %s lies above its height of %g mm", part->opening[k].name, part->id,
                        1e3 * part->value[HEIGHT]);
}

const struct element_kind tank_kind = {
    .name = "tank",
    .meaning = "the fuel tank: a shell that gives, with openings at heights",
    .parameter = tank_parameter,
    .has_volumes = true,
    .opening_list = true,
    .check = tank_check,
    .stores = tank_stores,
    .shows = tank_shows,
    .show = tank_show,
};
