/* sim/element/manifold.c  The intake manifold as a boundary: air at a given absolute pressure. */
#include "element/elements.h"

enum { PRESSURE };

static const struct row manifold_parameter[] = {{"pressure", ULLAGE_PRESSURE, REQUIRED, 1.0, 1e6, "absolute", true},
                                                {0}};

static const struct show_row manifold_shows[] = {
    {"pressure", ULLAGE_PRESSURE, "absolute"}, {"gauge_pressure", ULLAGE_PRESSURE, "against the surroundings"}, {0}};

static double manifold_pressure(const struct boundary_view *at)
{
    return at->parameter[PRESSURE];
}

static void manifold_stores(struct blueprint *into, int part)
{
    const struct boundary_plan plan = {.part = part, .pressure = manifold_pressure, .share = {1.0}};
    blueprint_opening(into, part, "", blueprint_boundary(into, plan));
}

static void manifold_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[0] = at->parameter[PRESSURE];
    shown[1] = at->parameter[PRESSURE] - at->ambient_pressure;
}

const struct element_kind manifold_kind = {
    .name = "manifold",
    .meaning = "the engine's intake at a given absolute pressure",
    .parameter = manifold_parameter,
    .shows = manifold_shows,
    .stores = manifold_stores,
    .show = manifold_show,
};
