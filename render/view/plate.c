/* plate.c  From a model's parts to bodies and pipes: who is drawn as what, and what each end meets. */
#include "view/plate.h"

#include "view/part/nozzle.h"
#include "view/part/part.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define LINE_WIDTH 25.0 /* u across the gas of an ordinary line; bores are not to scale */
#define NECK_WIDTH 40.0
#define NECK_BORE 0.02 /* m: from here on a line is drawn wide */

double side_x(enum side side)
{
    return side == SIDE_RIGHT ? 1.0 : side == SIDE_LEFT ? -1.0 : 0.0;
}

double side_y(enum side side)
{
    return side == SIDE_DOWN ? 1.0 : side == SIDE_UP ? -1.0 : 0.0;
}

const struct ullage_link *part_link(const struct ullage_part *part, const char *key)
{
    for (int k = 0; k < part->links; k++)
        if (!strcmp(part->link[k].key, key))
            return &part->link[k];
    return NULL;
}

bool hole_sized(const struct ullage_model *model, int part)
{
    const char *shape = ullage_model_word(model, part, "shape");
    return !strcmp(ullage_model_part(model, part).type, "hole") && (!shape || !strcmp(shape, "round")) &&
           isfinite(ullage_model_parameter(model, part, "diameter"));
}

char hole_letter(const struct plate *plate, int part)
{
    const int body = part >= 0 && part < plate->parts ? plate->body_of[part] : -1;
    char letter = 'A';
    if (body < 0 || plate->body[body].drawn != &hole_drawn)
        return 0;
    for (int k = 0; k < body; k++)
        letter = (char)(letter + (plate->body[k].drawn == &hole_drawn));
    return letter <= 'Z' ? letter : 0;
}

static bool type_is(const struct plate *plate, int part, const char *type)
{
    return part >= 0 && !strcmp(ullage_model_part(plate->model, part).type, type);
}

/* ---- bodies ------------------------------------------------------------------------------------------------------ */
static struct plate_body *body_add(struct plate *plate, int part, const struct drawn *drawn)
{
    struct plate_body *body = &plate->body[plate->bodies];
    *body =
        (struct plate_body){.drawn = drawn, .part = part, .meter = -1, .host_body = -1, .host_pipe = -1, .opening = ""};
    body->extent = drawn->extent;
    body->label.wanted = !drawn->nameless;
    body->label.figure = drawn->figure;
    if (part >= 0) {
        const struct ullage_part about = ullage_model_part(plate->model, part);
        plate->body_of[part] = plate->bodies;
        body->placed = about.placed;
        body->x = about.x;
        body->y = about.y;
        body->turn = about.turn;
    }
    plate->bodies++;
    return body;
}

/* The end of a hole that holds gas when the other is the atmosphere; null for a hole between two gas spaces. */
static const struct ullage_link *hole_host(const struct ullage_part *hole)
{
    const struct ullage_link *from = part_link(hole, "from"), *to = part_link(hole, "to");
    if (!from || !to || to->part < 0)
        return from;
    return from->part < 0 ? to : NULL;
}

static const struct ullage_link *wall_host(const struct ullage_part *part)
{
    if (!strcmp(part->type, "hole"))
        return hole_host(part);
    return part_link(part, !strcmp(part->type, "nozzle") ? "draws" : "of");
}

static const struct drawn *drawn_for(const struct ullage_part *part)
{
    if (!strcmp(part->type, "hole") && !hole_host(part))
        return &orifice_drawn;
    return drawn_find(part->type);
}

/* A line that ends at this part names it by `from` or `to`. */
static bool line_ends_at(const struct plate *plate, int line, int part)
{
    const struct ullage_part about = ullage_model_part(plate->model, line);
    for (int k = 0; k < about.links; k++)
        if (about.link[k].part == part)
            return true;
    return false;
}

static bool meter_of_supply(const struct plate *plate, const struct ullage_part *part)
{
    const struct ullage_link *of = part_link(part, "of");
    return !strcmp(part->type, "meter") && of && type_is(plate, of->part, "supply");
}

/* Out of sight: a sensor within a tank, unless its file says where it is to be drawn; a hole that may come but is not there. */
static bool is_hidden(const struct ullage_part *part, bool shown)
{
    const bool within = !strcmp(part->type, "level-sensor") || !strcmp(part->type, "temperature-sensor");
    return (part->latent && !shown) || (within && !part->placed);
}

static void bodies_make(struct plate *plate, const bool *shown)
{
    for (int p = 0; p < plate->parts; p++) {
        const struct ullage_part part = ullage_model_part(plate->model, p);
        if (strcmp(part.type, "line") && !meter_of_supply(plate, &part) && !is_hidden(&part, shown && shown[p]))
            body_add(plate, p, drawn_for(&part));
    }
    for (int p = 0; p < plate->parts; p++) {
        const struct ullage_part part = ullage_model_part(plate->model, p);
        if (meter_of_supply(plate, &part))
            plate->body[plate->body_of[part_link(&part, "of")->part]].meter = p;
    }
}

/* ---- pipes ------------------------------------------------------------------------------------------------------- */
static struct plate_pipe *pipe_add(struct plate *plate, int part, int gas)
{
    struct plate_pipe *pipe = &plate->pipe[plate->pipes++];
    const struct pipe_end open = {.body = -1, .pipe = -1, .key = "", .opening = ""};
    *pipe = (struct plate_pipe){.part = part, .gas = gas, .equipment = -1, .width = LINE_WIDTH, .end = {open, open}};
    return pipe;
}

/* What `link` of a pipe meets; the body's own end that names `line` back, where it has one. */
static struct pipe_end end_meet(struct plate *plate, int line, const struct ullage_link *link)
{
    struct pipe_end end = {.body = -1, .pipe = -1, .key = "", .opening = link->opening ? link->opening : ""};
    if (link->part < 0) {
        end.body = plate->bodies;
        body_add(plate, -1, &outside_drawn);
        return end;
    }
    if (type_is(plate, link->part, "line")) {
        end.pipe = plate->pipe_of[link->part];
        return end;
    }
    end.body = plate->body_of[link->part];
    end.dead = type_is(plate, link->part, "hole") && plate->body[end.body].drawn == &hole_drawn;
    const struct ullage_part other = ullage_model_part(plate->model, link->part);
    for (int k = 0; k < other.links; k++)
        if (other.link[k].part == line)
            end.key = other.link[k].key;
    return end;
}

static void lines_make(struct plate *plate)
{
    for (int p = 0; p < plate->parts; p++) {
        if (!type_is(plate, p, "line"))
            continue;
        plate->pipe_of[p] = plate->pipes;
        struct plate_pipe *pipe = pipe_add(plate, p, p);
        const struct ullage_part about = ullage_model_part(plate->model, p);
        pipe->line = true;
        pipe->placed = about.placed;
        pipe->x = about.x;
        pipe->y = about.y;
        pipe->width = ullage_model_parameter(plate->model, p, "bore") >= NECK_BORE ? NECK_WIDTH : LINE_WIDTH;
    }
    for (int k = 0; k < plate->pipes; k++) {
        const struct ullage_part part = ullage_model_part(plate->model, plate->pipe[k].part);
        const struct ullage_link *from = part_link(&part, "from"), *to = part_link(&part, "to");
        if (from)
            plate->pipe[k].end[0] = end_meet(plate, plate->pipe[k].part, from);
        if (to)
            plate->pipe[k].end[1] = end_meet(plate, plate->pipe[k].part, to);
    }
}

/* The short pipe between an end of a valve, port or hole and the gas space that the end names. */
static void joint_make(struct plate *plate, int part, const char *key)
{
    const struct ullage_part about = ullage_model_part(plate->model, part);
    const struct ullage_link *link = part_link(&about, key);
    struct plate_body *body = &plate->body[plate->body_of[part]];
    if (!link)
        return;
    if (link->part < 0) {
        body->air[!strcmp(key, "to")] = true;
        return;
    }
    if (type_is(plate, link->part, "line") && line_ends_at(plate, link->part, part))
        return; /* the line itself comes here */
    /* flow counts from `from` to `to`, of a cap from its gas space out, of a port into its gas space */
    const bool inward = !strcmp(key, "to") || type_is(plate, part, "port");
    struct plate_pipe *pipe = pipe_add(plate, part, link->part);
    const struct pipe_end own = {.body = plate->body_of[part], .pipe = -1, .key = key, .opening = ""};
    pipe->end[inward ? 0 : 1] = own;
    pipe->end[inward ? 1 : 0] = end_meet(plate, part, link);
}

static void joints_make(struct plate *plate)
{
    for (int p = 0; p < plate->parts; p++) {
        const int at = plate->body_of[p];
        if (at < 0 || plate->body[at].drawn->wall || type_is(plate, p, "supply"))
            continue;
        const char *const keys[] = {"from", "to", "of"};
        for (int k = 0; k < 3; k++)
            joint_make(plate, p, keys[k]);
    }
}

/* Whatever equipment is joined to, or may be while the procedure runs: the port it names, else the only kind of port. */
static int hose_port(const struct plate *plate, const struct ullage_part *part)
{
    const struct ullage_link *join = part_link(part, "join");
    if (join && join->part >= 0)
        return join->part;
    for (int p = 0; p < plate->parts; p++)
        if (type_is(plate, p, "port"))
            return p;
    return -1;
}

static void hoses_make(struct plate *plate)
{
    for (int p = 0; p < plate->parts; p++) {
        const struct ullage_part part = ullage_model_part(plate->model, p);
        if (!type_is(plate, p, "supply"))
            continue;
        const int port = hose_port(plate, &part);
        if (port < 0)
            continue;
        struct plate_pipe *pipe = pipe_add(plate, p, port);
        pipe->hose = true;
        pipe->equipment = p;
        pipe->end[0] = (struct pipe_end){.body = plate->body_of[p], .pipe = -1, .key = "hose", .opening = ""};
        pipe->end[1] = (struct pipe_end){.body = plate->body_of[port], .pipe = -1, .key = "hose", .opening = ""};
    }
}

/* ---- hosts of wall things ---------------------------------------------------------------------------------------- */
static void host_find(struct plate *plate, struct plate_body *body)
{
    const struct ullage_part part = ullage_model_part(plate->model, body->part);
    const struct ullage_link *link = wall_host(&part);
    if (!link || link->part < 0)
        return;
    body->host_body = plate->body_of[link->part];
    body->host_pipe = plate->pipe_of[link->part];
    body->opening = link->opening ? link->opening : "";
}

/* A hole at a line's closed end stands where the line goes. */
static bool ends_line(const struct plate *plate, const struct plate_body *body)
{
    for (int k = 0; k < plate->pipes; k++)
        for (int e = 0; e < 2; e++)
            if (plate->pipe[k].end[e].dead && &plate->body[plate->pipe[k].end[e].body] == body)
                return true;
    return false;
}

static void hosts_find(struct plate *plate)
{
    for (int k = 0; k < plate->bodies; k++)
        if (plate->body[k].part >= 0 && plate->body[k].drawn->wall) {
            struct plate_body *body = &plate->body[k];
            host_find(plate, body);
            body->loose = body->drawn == &hole_drawn && !body->placed && !ends_line(plate, body);
            body->late = (body->host_pipe >= 0 && body->drawn != &nozzle_drawn) || body->loose;
        }
}

/* ---- reading order ----------------------------------------------------------------------------------------------- */
#define READING_BAND 150.0 /* u: what lies this close is read as one row */

static int body_before(const struct plate_body *a, const struct plate_body *b)
{
    const double row_a = floor(a->y / READING_BAND), row_b = floor(b->y / READING_BAND);
    return row_a < row_b || (!(row_b < row_a) && a->x < b->x);
}

static void order_make(struct plate *plate)
{
    for (int k = 0; k < plate->bodies; k++) {
        int at = k;
        for (; at > 0 && body_before(&plate->body[k], &plate->body[plate->order[at - 1]]); at--)
            plate->order[at] = plate->order[at - 1];
        plate->order[at] = k;
    }
}

/* ---- the whole --------------------------------------------------------------------------------------------------- */
static bool plate_room(struct plate *plate)
{
    const size_t parts = (size_t)plate->parts + 1;
    plate->body = calloc(3 * parts, sizeof *plate->body); /* parts, and an outside at each end of lines */
    plate->pipe = calloc(3 * parts, sizeof *plate->pipe); /* lines, joints, hoses */
    plate->body_of = malloc(parts * sizeof *plate->body_of);
    plate->pipe_of = malloc(parts * sizeof *plate->pipe_of);
    plate->order = malloc(3 * parts * sizeof *plate->order);
    if (!plate->body || !plate->pipe || !plate->body_of || !plate->pipe_of || !plate->order)
        return false;
    for (int p = 0; p < plate->parts; p++)
        plate->body_of[p] = plate->pipe_of[p] = -1;
    return true;
}

static void bodies_measure(struct plate *plate)
{
    for (int k = 0; k < plate->bodies; k++)
        if (plate->body[k].drawn->measure)
            plate->body[k].drawn->measure(plate, &plate->body[k]);
}

bool plate_make(struct plate *plate, const struct ullage_model *model, struct text_measure measure, double least_text,
                const bool *shown)
{
    *plate = (struct plate){.model = model, .parts = ullage_model_parts(model)};
    const struct frame ruler = {.measure = measure, .least_text = least_text};
    if (!plate_room(plate)) {
        plate_free(plate);
        return false;
    }
    bodies_make(plate, shown);
    lines_make(plate);
    joints_make(plate);
    hoses_make(plate);
    hosts_find(plate);
    bodies_measure(plate);
    if (!plate_place(plate) || !plate_walls(plate)) {
        plate_free(plate);
        return false;
    }
    nozzles_place(plate);
    plate_crowds(plate);
    plate_line_labels(plate, &ruler);
    plate_labels(plate, &ruler, false);
    if (!plate_routes(plate)) {
        plate_free(plate);
        return false;
    }
    plate_line_walls(plate);
    plate_crowds(plate);
    plate_labels(plate, &ruler, true);
    if (!plate_loose_holes(plate, &ruler)) {
        plate_free(plate);
        return false;
    }
    plate_jets(plate);
    order_make(plate);
    if (plate_sections(plate))
        return true;
    plate_free(plate);
    return false;
}

void plate_free(struct plate *plate)
{
    free(plate->body);
    free(plate->pipe);
    free(plate->section);
    free(plate->body_of);
    free(plate->pipe_of);
    free(plate->order);
    *plate = (struct plate){0};
}
