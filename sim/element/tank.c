/* sim/element/tank.c  The fuel tank: a shell with openings at heights, and the fuel of the scenario's `fill` in it. Its
 * shape is a level table's, or a box's of its volume and height; the liquid's surface is that of the box. Every opening
 * reaches the one gas space; what shuts when liquid comes to it goes by its height. Equations of the liquid:
 * network/pool.c. */
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

#define SAME 1e-9          /* share by which a number may differ from its like */
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

/* The first level that is not above the one before; 0: none. */
static int level_fallen(const struct part *part)
{
    for (int k = 1; k < part->levels; k++)
        if (!(part->level[k].volume > part->level[k - 1].volume && part->level[k].height > part->level[k - 1].height))
            return k;
    return 0;
}

static struct vessel_shape tank_shape(const struct part *part)
{
    double volume[LEVELS_MOST], height[LEVELS_MOST];
    for (int k = 0; k < part->levels; k++) {
        volume[k] = part->level[k].volume;
        height[k] = part->level[k].height;
    }
    return part->levels > 1 && !level_fallen(part) ? shape_create(part->levels, volume, height)
                                                   : shape_box(part->value[VOLUME], part->value[HEIGHT]);
}

static void tank_stores(struct blueprint *into, int part)
{
    const double *v = into->part[part].value;
    const struct shell shell = {v[AREA], v[WALL_THICKNESS], v[FILM], v[OUTER_FILM]};
    struct volume_plan plan = shell_plan(part, v[VOLUME], v[GIVE], shell);
    plan.liquid = true;
    plan.shape = tank_shape(&into->part[part]);
    plan.surface_area = v[VOLUME] / v[HEIGHT];
    plan.surface_film = SURFACE_FILM * plan.surface_area;
    plan.surface_transfer = tank_transfer;
    plan.liquid_film = v[FILM] > 0.0 ? plan.film / v[FILM] * LIQUID_FILM : 0.0;
    blueprint_opening(into, part, "", blueprint_volume(into, plan));
}

enum { LEVEL, LIQUID_HEIGHT, LIQUID_TEMPERATURE, FUEL_VAPOR_PRESSURE, FUEL_MASS, RVP };

static const struct show_row tank_shows[] = {
    {"level", ULLAGE_NUMBER, "the liquid's share of the inside of the shell"},
    {"liquid_height", ULLAGE_LENGTH, "of the liquid's surface above the bottom"},
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
    shown[LIQUID_HEIGHT] = fuel->height;
    shown[LIQUID_TEMPERATURE] = fuel->temperature;
    shown[FUEL_VAPOR_PRESSURE] = fuel->pressure;
    shown[FUEL_MASS] = liquid_mass(fuel->liquid, fuel->amount);
    shown[RVP] = liquid_volatility(fuel->liquid, fuel->amount).dvpe;
}

/* A level table begins at the bottom, rises, and ends at the roof. */
static void levels_check(const struct part *part, struct ullage_problems *problems)
{
    const struct part_level *level = part->level, *last = &level[part->levels - 1];
    if (part->levels == 0)
        return;
    if (part->levels < 2 || level[0].volume > 0.0 || level[0].height > 0.0)
        problem_add(problems, level[0].at, "write [0 L, 0 mm] first, and one at the roof last",
                    "the levels of %s do not begin at the bottom", part->id);
    if (level_fallen(part))
        problem_add(problems, level[level_fallen(part)].at, "let volume and height rise from level to level",
                    "this level of %s is not above the one before", part->id);
    if (fabs(last->volume - part->value[VOLUME]) > SAME * part->value[VOLUME] ||
        fabs(last->height - part->value[HEIGHT]) > SAME * part->value[HEIGHT])
        problem_add(problems, last->at, "let the last one be its volume and height",
                    "the levels of %s end at %g L and %g mm, but it holds %g L and is %g mm high", part->id,
                    1e3 * last->volume, 1e3 * last->height, 1e3 * part->value[VOLUME], 1e3 * part->value[HEIGHT]);
}

static void tank_check(const struct part *part, struct ullage_problems *problems)
{
    levels_check(part, problems);
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
    .level_list = true,
    .check = tank_check,
    .stores = tank_stores,
    .shows = tank_shows,
    .show = tank_show,
};
