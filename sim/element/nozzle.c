/* sim/element/nozzle.c  A filling nozzle in the neck of a tank: fuel of the scenario runs in at its rate and drags gas along,
 * until liquid in the neck reaches the end of the spout and it shuts itself off.
 *
 * In the neck the liquid stands as high as in the tank and, where the gas above that is pushed together because it cannot
 * leave, higher by p/(rho g), 1 kPa being 138 mm; what the stream takes to run down the neck raises it, too. So a vent that
 * is blocked, or a fill-limit valve that has shut, shuts the nozzle off as a full tank does. Shut off it stays shut until
 * it is commanded `off` and `filling` again. A tank that is full to the roof shuts it off at once: what runs in then stands
 * in the neck.
 *
 * Where the pressure lifts the liquid past the mouth of the neck it is spat back, out beside the spout: as by a sharp round hole of
 * `gap` that stands as much deeper than the tank's surface as the pressure is worth, for as long as the nozzle is in. */
#include "element/elements.h"
#include "law/dip.h"

enum { RATE, TEMPERATURE, SPOUT, RESISTS, ENTRAINS, MOUTH, GAP };

enum { INTO, DRAWS };

#define BRIM 0.99 /* share of the tank's height: full to the roof */

static const struct row nozzle_parameter[] = {
    {"rate", ULLAGE_VOLUME_FLOW, 38.0 / 6e4, 0.0, 5e-3, "liquid that it lets run", true},
    {"temperature", ULLAGE_TEMPERATURE, 293.15, 230.0, 330.0, "of the fuel it lets run", true},
    {"spout", ULLAGE_LENGTH, REQUIRED, 0.0, 3.0, "height of the spout's end above the bottom of the tank", true},
    {"resists", ULLAGE_PRESSURE, 200.0, 0.0, 1e4, "what running down the neck takes at 38 L/min", true},
    {"entrains", ULLAGE_NUMBER, 0.2, 0.0, 3.0, "volume of gas dragged in for one of liquid", true},
    {"mouth", ULLAGE_LENGTH, 0.0, 0.0, 3.0, "height of the neck's mouth, where fuel is spat back; 0: nowhere", false},
    {"gap", ULLAGE_LENGTH, 12e-3, 1e-3, 0.1, "free beside the spout, as a round hole", true},
    {0}};

static const struct end_row nozzle_end[] = {{"into", true, "the tank that is filled"},
                                            {"draws", false, "where the gas comes from that it drags in; else air"},
                                            {0}};

static const struct command_row nozzle_command[] = {{"filling", 1.0}, {"off", 0.0}, {0}};

static const struct show_row nozzle_shows[] = {
    {"rate", ULLAGE_VOLUME_FLOW, "liquid that runs in"}, {"shut_off", ULLAGE_NUMBER, "1: it has shut itself off"}, {0}};

static double nozzle_at_rest(const struct part *part)
{
    (void)part;
    return 0.0;
}

static double nozzle_pours(const struct passage_view *at)
{
    return at->on[0] ? 0.0 : at->opening * at->parameter[RATE];
}

/* No gas goes with the liquid itself. */
static struct flow nozzle_liquid(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    (void)at;
    (void)a;
    (void)b;
    return (struct flow){0};
}

/* Dragged in whatever the pressures: amount p/(R T) of where it comes from. */
static struct flow nozzle_drags(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    (void)b;
    struct flow flow = {0};
    flow.value = at->parameter[ENTRAINS] * nozzle_pours(at) * a->pressure / (GAS_CONSTANT * a->temperature);
    flow.slope_a[GAS_PRESSURE] = flow.value / a->pressure;
    flow.slope_a[GAS_TEMPERATURE] = -flow.value / a->temperature;
    return flow;
}

static double nozzle_spits(const struct passage_view *at)
{
    return at->opening > 0.0 ? at->parameter[GAP] : 0.0;
}

#define FOOT 1e-3 /* m: of a neck that joins the tank at no height in particular */

/* From the foot of the neck to its mouth. */
static void spit_passage(struct blueprint *into, int part, const struct attachment *tank)
{
    const struct part *here = &into->part[part];
    const double mouth = here->value[MOUTH], foot = fmax(tank->height, FOOT);
    if (!(mouth > 0.0))
        return;
    if (mouth <= foot)
        problem_add(into->problems, here->value_at[MOUTH], "write a height above the opening that it fills into",
                    "the mouth of the neck lies under its foot");
    blueprint_passage(into, (struct passage_plan){.part = part,
                                                  .a = tank->place,
                                                  .b = PLACE_AIR,
                                                  .law = nozzle_liquid,
                                                  .joint_of = -1,
                                                  .beside = 1,
                                                  .bore = here->value[GAP],
                                                  .height_a = foot,
                                                  .seep = nozzle_spits,
                                                  .lift = mouth - foot});
}

/* How far liquid in the neck stands above the spout's end [m]; in a share of a metre, it shuts off above 0. */
static double nozzle_margin(const struct switch_view *at, bool on)
{
    if (on)
        return at->opening > 0.0 ? -1.0 : 1.0;
    if (!(at->opening > 0.0))
        return -1.0;
    const double share = at->opening * at->parameter[RATE] * 6e4 / 38.0;
    const double push = at->excess_a - at->excess_b + at->parameter[RESISTS] * share * share;
    const double stands = at->head_a + push / (FUEL_DENSITY * GRAVITY);
    return fmax(stands - at->parameter[SPOUT], at->full_a - BRIM);
}

static void nozzle_passages(struct blueprint *into, int part)
{
    const struct attachment tank = blueprint_attachment(into, part, INTO);
    const struct attachment draws = into->part[part].end[DRAWS].part
                                        ? blueprint_attachment(into, part, DRAWS)
                                        : (struct attachment){ATTACHED_PLACE, PLACE_AIR, -1, 0.0, 0.0};
    if (tank.kind != ATTACHED_PLACE || draws.kind != ATTACHED_PLACE)
        return;
    blueprint_passage(into, (struct passage_plan){.part = part,
                                                  .a = PLACE_AIR,
                                                  .b = tank.place,
                                                  .law = nozzle_liquid,
                                                  .joint_of = -1,
                                                  .inner = true,
                                                  .pour = nozzle_pours,
                                                  .warmth = TEMPERATURE});
    blueprint_passage(into, (struct passage_plan){
                                .part = part, .a = draws.place, .b = tank.place, .law = nozzle_drags, .joint_of = -1});
    spit_passage(into, part, &tank);
    blueprint_switch(into, (struct switch_plan){.part = part,
                                                .a = tank.place,
                                                .b = PLACE_AIR,
                                                .heads = true,
                                                .margin = nozzle_margin,
                                                .turns_on = "shuts itself off",
                                                .turns_off = "is ready"});
}

static void nozzle_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[0] = at->on[0] ? 0.0 : at->opening * at->parameter[RATE];
    shown[1] = at->on[0] ? 1.0 : 0.0;
}

const struct element_kind nozzle_kind = {
    .name = "nozzle",
    .meaning = "lets fuel run into a tank, and shuts itself off",
    .parameter = nozzle_parameter,
    .end = nozzle_end,
    .command = nozzle_command,
    .at_rest = nozzle_at_rest,
    .shows = nozzle_shows,
    .is_passage = true,
    .passages = nozzle_passages,
    .show = nozzle_show,
};
