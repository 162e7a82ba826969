/* sim/element/tank.c  The fuel tank: a shell with openings at heights, and the fuel of the scenario's `fill` in it.
 *
 * Its shape is a level table's, or a box's of its volume and height: that says how high the liquid stands and how much surface
 * it has. To heat it is a roof and the upper part of the sides to the gas, a floor and the rest of the sides to the liquid,
 * parted where the level is at the moment (network/pool.c); roof and floor are volume over height. Each passes heat as it
 * stands: a warm floor stirs the liquid, a warm roof lies still over its gas.
 * Over the liquid the gas is parted in two, at the film and in bulk, because vapor of fuel is heavier than air and lies
 * still: `layer` is the film's share of all gas. The way from the surface to the middle of the film's gas, and from there
 * to the middle of the bulk, is that of diffusion through gas at rest; `stirred` is for a tank that is shaken. With
 * `layer: 0` there is one gas, and a film over the liquid that is thinned as natural convection of air would do it.
 * The roof and the liquid see each other and radiate. Equations of the liquid: network/pool.c. */
#include "element/elements.h"
#include "law/dip.h"
#include "property/volatility.h"

enum {
    VOLUME,
    HEIGHT,
    GIVE,
    CREEP,
    CREEP_TIME,
    AREA,
    WALL_THICKNESS,
    FILM,
    OUTER_FILM,
    LIQUID_FILM,
    LAYER,
    STIRRED,
    SUNLIT,
    EXHAUST,
    RETURNED
};

static const struct row tank_parameter[] = {
    {"volume", ULLAGE_VOLUME, REQUIRED, 1e-4, 10.0, "all the inside of the shell", false},
    {"height", ULLAGE_LENGTH, 0.25, 0.01, 3.0, "inside, bottom to roof", false},
    {"give", ULLAGE_GIVE, 0.0, 0.0, 1e-4, "volume gained per pressure over the surroundings, at once", false},
    {"creep", ULLAGE_GIVE, 0.0, 0.0, 1e-4, "volume gained per pressure beyond that, slowly", false},
    {"creep_time", ULLAGE_TIME, 180.0, 1.0, 1e6, "time constant of the slow part", false},
    {"area", ULLAGE_AREA, 0.0, 0.0, 100.0, "surface of the shell; 0: that of a cube of its volume", false},
    {"wall_thickness", ULLAGE_LENGTH, 5e-3, 0.0, 0.1, "of plastic; 0: no wall, the gas sees the surroundings", false},
    {"film", ULLAGE_HEAT_TRANSFER, COMPUTED, 0.0, 1e4, "heat transfer between gas and wall", false},
    {"outer_film", ULLAGE_HEAT_TRANSFER, COMPUTED, 0.0, 1e4, "heat transfer between wall and surroundings", false},
    {"liquid_film", ULLAGE_HEAT_TRANSFER, COMPUTED, 0.0, 1e5, "heat transfer between liquid and wall", false},
    {"layer", ULLAGE_NUMBER, 0.1, 0.0, 0.5, "share of the gas that lies at the liquid; 0: all gas is one", false},
    {"stirred", ULLAGE_SPEED, 0.0, 0.0, 1.0, "speed at which gas at the liquid and gas above change places: shaking",
     true},
    {"sunlit", ULLAGE_AREA, 0.0, 0.0, 100.0, "area that the sun shines on, told as black", false},
    {"exhaust", ULLAGE_POWER, 0.0, 0.0, 1e4, "heat from a hot exhaust into the lower wall", true},
    {"returned", ULLAGE_POWER, 0.0, 0.0, 1e4, "heat that fuel brings back from the engine", true},
    {0}};

#define SAME 1e-9           /* share by which a number may differ from its like */
#define SURFACE_FILM 3.0    /* W/m2/K between liquid and gas where there is one gas (from memory) */
#define AIR_HEAT 1186.0     /* J/m3/K of air at 20 degC */
#define AIR_SPREADS 2.1e-5  /* m2/s: thermal diffusivity of air at 20 degC */
#define AIR_CONDUCTS 0.0257 /* W/m/K at 20 degC */

/* Gasoline at 20 degC (from memory, handbooks): kg/m3, 1/K, J/kg/K, Pa s, W/m/K */
static struct convective gasoline(void)
{
    return convective_liquid(FUEL_DENSITY, 1.2e-3, 2100.0, 5e-4, 0.12);
}

double liquid_transfer(const struct component *component, double path, double pressure)
{
    const double spreads = component_diffusivity(component, CARRIER_AIR, STANDARD_TEMPERATURE, pressure).value;
    return path > 0.0 ? spreads / path : SURFACE_FILM / AIR_HEAT * pow(spreads / AIR_SPREADS, 2.0 / 3.0);
}

void liquid_check(struct blueprint *into, int part, int row)
{
    const struct part *here = &into->part[part];
    if (here->value[row] > 0.0 && !into->fuelled)
        problem_add(into->problems, here->value_at[row], "give fill: what it is, or leave liquid out",
                    "liquid lies in %s and there is no fuel", here->id);
}

/* The shell. m, m2 */
struct tank_sides {
    double roof, edge; /* area of roof or floor; roof over its perimeter */
    double sides, height;
    double between; /* path of conduction between the sides */
};

static struct tank_sides tank_sides(const double *v)
{
    const double roof = v[VOLUME] / v[HEIGHT];
    const double all = v[AREA] > 0.0 ? v[AREA] : cube_area(v[VOLUME]);
    const double sides = fmax(all - 2.0 * roof, 0.1 * all);
    return (struct tank_sides){.roof = roof,
                               .edge = 0.25 * sqrt(roof),
                               .sides = sides,
                               .height = v[HEIGHT],
                               .between = conduction_path(sqrt(roof))};
}

static struct surface side_surface(struct surface surface)
{
    surface.side = true;
    return surface;
}

/* Everything round a gas that has all the height; without liquid the floor, too. */
static void gas_shell(const double *v, const struct tank_sides *at, bool floor, struct volume_plan *plan)
{
    const double middle = floor ? conduction_path(at->height) : 0.5 * at->height;
    heat_way_add(&plan->film, inner_surface(SURFACE_OVER, at->roof, at->edge, middle, v[FILM]));
    heat_way_add(&plan->film, side_surface(inner_surface(SURFACE_STANDS, at->sides, at->height, at->between, v[FILM])));
    heat_way_add(&plan->outer, outer_surface(SURFACE_UNDER, at->roof, at->edge, v[OUTER_FILM]));
    heat_way_add(&plan->outer, side_surface(outer_surface(SURFACE_STANDS, at->sides, at->height, v[OUTER_FILM])));
    if (floor) {
        heat_way_add(&plan->film, inner_surface(SURFACE_UNDER, at->roof, at->edge, middle, v[FILM]));
        heat_way_add(&plan->outer, outer_surface(SURFACE_OVER, at->roof, at->edge, v[OUTER_FILM]));
    }
    plan->wall = wall_capacity(floor ? 2.0 * at->roof + at->sides : at->roof, v[WALL_THICKNESS]);
    plan->sides = floor ? 0.0 : wall_capacity(at->sides, v[WALL_THICKNESS]);
    plan->sunlit = v[SUNLIT];
}

static struct surface liquid_surface(const double *v, enum stance stance, double area, double size, double path)
{
    if (v[LIQUID_FILM] >= 0.0)
        return (struct surface){.stance = SURFACE_FIXED, .area = area, .coefficient = v[LIQUID_FILM]};
    return (struct surface){.stance = stance, .area = area, .length = size, .path = path, .fluid = gasoline()};
}

static struct pool_plan tank_liquid(const double *v, const struct tank_sides *at)
{
    const double path = 0.5 * v[LAYER] * at->height;
    struct pool_plan plan = {.begun = -1.0,
                             .still = path > 0.0,
                             .surface = path > 0.0 ? AIR_CONDUCTS / path : SURFACE_FILM,
                             .radiant = v[FILM] < 0.0 ? radiation_film() : 0.0,
                             .transfer = liquid_transfer,
                             .path = path,
                             .dewed = at->roof,
                             .dewed_sides = at->sides,
                             .wall = wall_capacity(at->roof, v[WALL_THICKNESS]),
                             .exhaust = EXHAUST,
                             .returned = RETURNED};
    heat_way_add(&plan.film, liquid_surface(v, SURFACE_UNDER, at->roof, at->edge, 0.5 * at->height));
    heat_way_add(&plan.film, side_surface(liquid_surface(v, SURFACE_STANDS, at->sides, at->height, at->between)));
    heat_way_add(&plan.outer, outer_surface(SURFACE_OVER, at->roof, at->edge, v[OUTER_FILM]));
    heat_way_add(&plan.outer, side_surface(outer_surface(SURFACE_STANDS, at->sides, at->height, v[OUTER_FILM])));
    return plan;
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
    const bool fuel = into->fuelled, parted = fuel && v[LAYER] > 0.0;
    const double layer = parted ? v[LAYER] : 0.0;
    const struct tank_sides sides = tank_sides(v);
    struct volume_plan plan = {.part = part,
                               .volume = (1.0 - layer) * v[VOLUME],
                               .give = (1.0 - layer) * v[GIVE],
                               .creep = v[CREEP],
                               .creep_time = v[CREEP_TIME],
                               .liquid_in = -1,
                               .over = -1};
    gas_shell(v, &sides, !fuel, &plan);
    const int bulk = into->volumes;
    if (fuel) {
        plan.shape = tank_shape(&into->part[part]);
        plan.liquid = tank_liquid(v, &sides);
        plan.liquid_in = bulk;
        plan.liquid_share = 1.0 - layer;
        plan.over = parted ? bulk + 1 : bulk;
    }
    blueprint_volume(into, plan);
    blueprint_opening_at(into, part, "", bulk, v[HEIGHT]); /* where none is named: the roof */
    for (int k = 0; k < into->part[part].openings; k++)
        blueprint_opening_at(into, part, into->part[part].opening[k].name, bulk, into->part[part].opening[k].height);
    if (parted)
        blueprint_volume(into, (struct volume_plan){.part = part,
                                                    .volume = layer * v[VOLUME],
                                                    .give = layer * v[GIVE],
                                                    .liquid_in = bulk,
                                                    .liquid_share = layer,
                                                    .over = -1});
}

/* mol/s/Pa and m2 of free surface: wide enough that both gases are at one pressure. */
#define FREE_WAY 0.05

static struct flow layer_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const double way = FREE_WAY * at->constant[0];
    return (struct flow){way * (a->excess - b->excess), {[GAS_PRESSURE] = way}, {[GAS_PRESSURE] = -way}};
}

/* From the gas at the liquid to the gas above it. */
static void tank_passages(struct blueprint *into, int part)
{
    const double *v = into->part[part].value;
    if (!into->fuelled || !(v[LAYER] > 0.0))
        return;
    const double middle = 0.5 * v[HEIGHT];
    const int bulk = blueprint_place(into, part, "");
    blueprint_passage(into, (struct passage_plan){.part = part,
                                                  .a = into->volume[bulk].over,
                                                  .b = bulk,
                                                  .law = layer_flow,
                                                  .constant = {v[VOLUME] / v[HEIGHT]},
                                                  .joint_of = -1,
                                                  .inner = true,
                                                  .stirred = STIRRED,
                                                  .surface = true,
                                                  .section = 1.0,
                                                  .reach = 1.0 / middle,
                                                  .conduct = AIR_CONDUCTS / middle});
}

enum { LEVEL, LIQUID_HEIGHT, LIQUID_TEMPERATURE, FUEL_VAPOR_PRESSURE, FUEL_MASS, RVP, FILM_VAPOR };

static const struct show_row tank_shows[] = {
    {"level", ULLAGE_NUMBER, "the liquid's share of the inside of the shell"},
    {"liquid_height", ULLAGE_LENGTH, "of the liquid's surface above the bottom"},
    {"liquid_temperature", ULLAGE_TEMPERATURE, "of its fuel"},
    {"fuel_vapor_pressure", ULLAGE_PRESSURE, "what its fuel would hold at rest, air apart"},
    {"fuel", ULLAGE_MASS, "liquid in it"},
    {"rvp", ULLAGE_PRESSURE, "volatility of the liquid as it is now, as dry vapor pressure equivalent (DVPE)"},
    {"film_vapor", ULLAGE_NUMBER, "mole share of fuel in the gas at the liquid"},
    {0}};

#define TRACE 1e-5 /* mol: of less there is no telling how volatile it is */

/* Of what is left; amounts that round-off has put under zero count as none. */
static double volatility_left(const struct liquid_look *fuel)
{
    double amount[LIQUID_MOST], sum = 0.0;
    for (int k = 0; k < fuel->liquid->count; k++)
        sum += amount[k] = fmax(fuel->amount[k], 0.0);
    return sum > TRACE ? liquid_volatility(fuel->liquid, amount).dvpe : 0.0;
}

static void tank_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    const struct liquid_look *fuel = at->volume[0].liquid;
    (void)off_scale;
    for (int s = LEVEL; s <= FILM_VAPOR; s++)
        shown[s] = 0.0;
    shown[LIQUID_TEMPERATURE] = at->volume[0].gas.temperature;
    if (!fuel)
        return;
    shown[LEVEL] = fuel->volume / at->parameter[VOLUME];
    shown[LIQUID_HEIGHT] = fuel->height;
    shown[LIQUID_TEMPERATURE] = fuel->temperature;
    shown[FUEL_VAPOR_PRESSURE] = fmax(fuel->pressure, 0.0);
    shown[FUEL_MASS] = fmax(liquid_mass(fuel->liquid, fuel->amount), 0.0);
    shown[RVP] = volatility_left(fuel);
    shown[FILM_VAPOR] = at->volume[at->volumes - 1].vapor;
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
    .fault = tank_fault,
    .has_volumes = true,
    .opening_list = true,
    .level_list = true,
    .check = tank_check,
    .stores = tank_stores,
    .passages = tank_passages,
    .shows = tank_shows,
    .show = tank_show,
};
