/* sim/element/shell.c  Walls of plastic around a gas, and how surfaces pass heat to gas inside and air outside.
 *
 * Both gases are told as air of 20 degC at 101325 Pa: under vapor of gasoline a coefficient is some 10 % higher, on a
 * mountain some 15 % lower (both by the powers of the law). */
#include "element/elements.h"

#define PLASTIC_HEAT (950.0 * 2000.0) /* J/m3/K: polyethylene, 950 kg/m3 and 2.0 kJ/kg/K (from memory, handbooks) */
#define STEFAN 5.670374419e-8         /* W/m2/K4, exact since 2019 [SI2019] */
#define EMISSIVITY 0.92               /* of plastic, rubber, painted metal (from memory, handbooks) */

#define AIR_MASS 0.0289647 /* kg/mol */
#define AIR_HEAT 29.13     /* J/mol/K */
#define AIR_VISCOSITY 1.82e-5
#define AIR_CONDUCTS 0.0257 /* W/m/K at 20 degC */

static struct convective still_air(void)
{
    return convective_gas(STANDARD_PRESSURE, STANDARD_TEMPERATURE, AIR_MASS, AIR_HEAT, AIR_VISCOSITY, AIR_CONDUCTS);
}

double wall_capacity(double area, double thickness)
{
    return area * thickness * PLASTIC_HEAT;
}

double cube_area(double volume)
{
    const double side = cbrt(volume);
    return 6.0 * side * side;
}

double radiation_film(void)
{
    return 4.0 * EMISSIVITY * STEFAN * pow(STANDARD_TEMPERATURE, 3.0);
}

double conduction_path(double apart)
{
    return 2.0 * apart / (M_PI * M_PI);
}

struct surface inner_surface(enum stance stance, double area, double size, double path, double film)
{
    if (film >= 0.0)
        return (struct surface){.stance = SURFACE_FIXED, .area = film > 0.0 ? area : 0.0, .coefficient = film};
    return (struct surface){.stance = stance, .area = area, .length = size, .path = path, .fluid = still_air()};
}

struct surface outer_surface(enum stance stance, double area, double size, double film)
{
    struct surface surface = inner_surface(stance, area, size, 0.0, film);
    if (film < 0.0)
        surface.coefficient = radiation_film();
    return surface;
}

struct volume_plan shell_plan(int part, double volume, double give, struct shell shell)
{
    const double area = shell.area > 0.0 ? shell.area : cube_area(volume);
    const double size = shell.size > 0.0 ? shell.size : cbrt(volume);
    struct volume_plan plan = {.part = part,
                               .volume = volume,
                               .give = give,
                               .wall = wall_capacity(area, shell.thickness),
                               .liquid_in = -1,
                               .over = -1};
    heat_way_add(&plan.film, inner_surface(SURFACE_STANDS, area, size, conduction_path(size), shell.film));
    heat_way_add(&plan.outer, outer_surface(shell.stance, area, size, shell.outer_film));
    return plan;
}
