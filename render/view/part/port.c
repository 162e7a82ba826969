/* port.c  A service port: a stub with a flange, closed by a small cap while nothing is joined to it. */
#include "view/part/part.h"

#include <string.h>

static bool port_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port)
{
    (void)body;
    (void)opening;
    *port = !strcmp(key, "hose") ? (struct plate_port){0.0, 6.0, SIDE_DOWN} : (struct plate_port){0.0, -6.0, SIDE_UP};
    return true;
}

static bool is_joined(const struct scene *scene, int port)
{
    for (int p = 0; p < scene->cast->parts; p++)
        if (scene->now->joined[p] == port)
            return true;
    return false;
}

static void port_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    if (is_joined(scene, body->part)) { /* two flanges, the gas goes through */
        frame_bar(frame, -24.0, -6.0, 11.5, 12.0, COLOUR_INK);
        frame_bar(frame, 12.5, -6.0, 11.5, 12.0, COLOUR_INK);
    } else {
        frame_path(frame);
        frame_rounded(frame, -24.0, -6.0, 48.0, 10.0, 2.0);
        frame_rounded(frame, -14.0, 2.0, 28.0, 9.0, 2.0);
        frame_fill(frame, COLOUR_INK);
    }
    frame_home(frame);
    scene_words(frame, body, NULL);
}

const struct drawn port_drawn = {
    .type = "port",
    .extent = {-24.0, -6.0, 24.0, 6.0},
    .port = port_port,
    .slot = {SLOT_RIGHT, SLOT_LEFT, SLOTS},
    .front = port_front,
};
