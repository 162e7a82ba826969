/* drawn.c  The list of drawn parts. A new one: one file here, one row below. */
#include "view/part/part.h"

#include <string.h>

static const struct {
    const char *type;
    const struct drawn *drawn;
} list[] = {
    {"tank", &tank_drawn},         {"vessel", &vessel_drawn},       {"canister", &canister_drawn},
    {"valve", &valve_drawn},       {"hole", &hole_drawn},           {"cap", &cap_drawn},
    {"port", &port_drawn},         {"supply", &supply_drawn},       {"check-valve", &check_drawn},
    {"relief", &relief_drawn},     {"roll-over", &roll_over_drawn}, {"fill-limit", &fill_limit_drawn},
    {"gauge", &gauge_drawn},       {"sensor", &gauge_drawn},        {"meter", &gauge_drawn},
    {"manifold", &manifold_drawn}, {"engine", &engine_drawn},
    {"nozzle", &nozzle_drawn},     {"level-sensor", &gauge_drawn},  {"temperature-sensor", &gauge_drawn},
};

const struct drawn *drawn_find(const char *type)
{
    for (size_t k = 0; k < sizeof list / sizeof list[0]; k++)
        if (!strcmp(list[k].type, type))
            return list[k].drawn;
    return &box_drawn;
}
