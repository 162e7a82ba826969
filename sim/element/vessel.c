/* sim/element/vessel.c  A plain gas volume with a wall that takes heat and may give. */
#include "element/elements.h"

enum { VOLUME, GIVE, AREA, WALL_THICKNESS, FILM, OUTER_FILM };

static const struct row vessel_parameter[] = {
    {"volume", ULLAGE_VOLUME, REQUIRED, 1e-8, 1e3, "all the inside of the shell", false},
    {"give", ULLAGE_GIVE, 0.0, 0.0, 1e-4, "volume gained per pressure over the surroundings", false},
    {"area", ULLAGE_AREA, 0.0, 0.0, 1e4, "surface of the shell; 0: that of a cube of its volume", false},
    {"wall_thickness", ULLAGE_LENGTH, 5e-3, 0.0, 0.1, "of plastic; 0: no wall, the gas sees the surroundings", false},
    {"film", ULLAGE_HEAT_TRANSFER, COMPUTED, 0.0, 1e4, "heat transfer between gas and wall", false},
    {"outer_film", ULLAGE_HEAT_TRANSFER, COMPUTED, 0.0, 1e4, "heat transfer between wall and surroundings", false},
    {0}};

static void vessel_stores(struct blueprint *into, int part)
{
    const double *v = into->part[part].value;
    const struct shell shell = {v[AREA], v[WALL_THICKNESS], v[FILM], v[OUTER_FILM], SURFACE_STANDS, 0.0};
    blueprint_opening(into, part, "", blueprint_volume(into, shell_plan(part, v[VOLUME], v[GIVE], shell)));
}

const struct element_kind vessel_kind = {
    .name = "vessel",
    .meaning = "a plain gas volume",
    .parameter = vessel_parameter,
    .has_volumes = true,
    .opening_list = true,
    .stores = vessel_stores,
};
