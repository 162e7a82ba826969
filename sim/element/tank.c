/* sim/element/tank.c  The fuel tank: a shell with openings at heights. It holds gas alone so far, so every opening
 * reaches the one gas space and heights are kept for the drawing. */
#include "element/elements.h"

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

static void tank_stores(struct blueprint *into, int part)
{
    const double *v = into->part[part].value;
    const struct shell shell = {v[AREA], v[WALL_THICKNESS], v[FILM], v[OUTER_FILM]};
    blueprint_opening(into, part, "", blueprint_volume(into, shell_plan(part, v[VOLUME], v[GIVE], shell)));
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
};
