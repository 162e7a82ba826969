/* sim/element/shell.c  Walls of plastic around a gas. */
#include "element/elements.h"

#define PLASTIC_HEAT (950.0 * 2000.0) /* J/m3/K: polyethylene, 950 kg/m3 and 2.0 kJ/kg/K (from memory, handbooks) */

struct volume_plan shell_plan(int part, double volume, double give, struct shell shell)
{
    const double side = cbrt(volume);
    const double area = shell.area > 0.0 ? shell.area : 6.0 * side * side;
    return (struct volume_plan){
        .part = part,
        .volume = volume,
        .give = give,
        .film = area * shell.film,
        .wall = area * shell.thickness * PLASTIC_HEAT,
        .outer = area * shell.outer_film,
    };
}
