/* sim/element/valve.c  A valve: a sharp round opening of its bore times how far it is open, and what its seat lets by.
 *
 * A share that it is set to is its duty. Averaged, which is what happens unless the file says otherwise, the valve passes
 * that share of its flow without a break. With `pulses: 10 Hz` each pulse is resolved: from the beginning of every period,
 * counted from the scenario's start, it stands open for its duty of it; blade and clock take the duty of the moment at which
 * the period begins. It opens and shuts in `closes_in`, or as fast as it must to be there in time, and so that the mean
 * opening is the duty either way.
 *
 * The two differ where what is behind does not follow in step. A choked valve into a steady intake passes the same either
 * way. But each pulse rocks the gas of lines and canister to and fro, and a line of one cell, mixed all through, passes what
 * comes in at one end on at the other at once: over pulses vapor then gets from the tank into the intake, or back, that a
 * steady stream would have left where it was. Where pulses are resolved, give the lines on the way several `cells`. Heron at 30 %
 * for a minute, with a fuel whose isobutane the carbon had none of: 0.2 mmol of it reach the engine averaged, 19 mmol by
 * pulses and lines of one cell, 5 mmol with eight cells in the vapor and the purge line. */
#include "element/elements.h"

enum { BORE, CLOSES_IN, SEAT, PULSES };

enum { NORMALLY };

enum { FROM, TO };

static const struct row valve_parameter[] = {
    {"bore", ULLAGE_LENGTH, REQUIRED, 1e-4, 0.5, "of the wide-open valve, as a sharp round hole", true},
    {"closes_in", ULLAGE_TIME, 0.0, 0.0, 3600.0, "time to shut or to open", true},
    {"seat_leak", ULLAGE_LENGTH, 0.0, 0.0, 0.1, "thin round hole that the shut seat is like", true},
    {"pulses", ULLAGE_RATE, 0.0, 0.0, 1e3, "each is resolved where it is set to a share; 0: averaged, which differs: give lines cells", true},
    {0}};

static const char *const rests[] = {"open", "shut", NULL};
static const struct word_row valve_word[] = {{"normally", rests, 0, "without any command"}, {0}};

static const struct end_row valve_end[] = {
    {"from", true, "gas space on one side"}, {"to", true, "gas space on the other side, or air"}, {0}};

static const struct command_row valve_command[] = {{"open", 1.0}, {"shut", 0.0}, {0}};

static const struct show_row valve_shows[] = {{"open", ULLAGE_NUMBER, "how far it is open"}, {0}};

static struct flow valve_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    return closure_flow(at, at->parameter[BORE], at->parameter[SEAT], a, b);
}

static double valve_seeps(const struct passage_view *at)
{
    return closure_seeps(at, at->parameter[BORE], at->parameter[SEAT]);
}

static void valve_passages(struct blueprint *into, int part)
{
    const struct attachment from = blueprint_attachment(into, part, FROM);
    const struct attachment to = blueprint_attachment(into, part, TO);
    if (from.kind == ATTACHED_PLACE && to.kind == ATTACHED_PLACE)
        blueprint_passage(into, (struct passage_plan){.part = part,
                                                      .a = from.place,
                                                      .b = to.place,
                                                      .law = valve_flow,
                                                      .joint_of = -1,
                                                      .height_a = from.height,
                                                      .height_b = to.height,
                                                      .seep = valve_seeps,
                                                      .bore = into->part[part].value[BORE],
                                                      .reach = 0.25 * M_PI * into->part[part].value[BORE]});
}

static double valve_at_rest(const struct part *part)
{
    return part->word[NORMALLY] == 0 ? 1.0 : 0.0;
}

static double valve_moves_in(const double *parameter, double from, double to)
{
    return parameter[PULSES] > 0.0 ? 0.0 : parameter[CLOSES_IN] * fabs(to - from); /* a clock waits for its period */
}

/* Its clock at a moment: periods begin at count/rate, which is reckoned the same way everywhere, so that no moment lies
 * before the period it begins. */
struct pulse {
    double count, rate, duty;  /* rate: 1/s */
    double opens, shuts, edge; /* s: beginning of the edges, and how long one takes */
};

static double period_begins(const struct pulse *pulse, double later)
{
    return (pulse->count + later) / pulse->rate;
}

static struct pulse valve_pulse(const struct command_view *at, double time)
{
    struct pulse pulse = {.rate = at->parameter[PULSES]};
    pulse.count = floor(time * pulse.rate);
    pulse.count += time >= period_begins(&pulse, 1.0) ? 1.0 : time < period_begins(&pulse, 0.0) ? -1.0 : 0.0;
    pulse.opens = period_begins(&pulse, 0.0);
    pulse.duty = ramp_value(at->ramp, pulse.opens);
    pulse.shuts = period_begins(&pulse, pulse.duty);
    pulse.edge = fmin(at->parameter[CLOSES_IN], fmin(pulse.duty, 1.0 - pulse.duty) / pulse.rate);
    return pulse;
}

static double edge_share(double since, double lasts)
{
    return since < 0.0 ? 0.0 : since >= lasts ? 1.0 : since / lasts;
}

static double valve_opening(const struct command_view *at, double time)
{
    if (!(at->parameter[PULSES] > 0.0))
        return ramp_value(at->ramp, time);
    const struct pulse pulse = valve_pulse(at, time);
    if (pulse.duty <= 0.0 || pulse.duty >= 1.0)
        return pulse.duty;
    return edge_share(time - pulse.opens, pulse.edge) - edge_share(time - pulse.shuts, pulse.edge);
}

static double valve_corner(const struct command_view *at, double time)
{
    if (!(at->parameter[PULSES] > 0.0))
        return (double)INFINITY;
    const struct pulse pulse = valve_pulse(at, time);
    const double next = period_begins(&pulse, 1.0);
    if (pulse.duty <= 0.0 ||
        pulse.duty >= 1.0) /* standing still: only a command on its way can change that at the next period */
        return at->ramp->ends > time || ramp_value(at->ramp, next) != pulse.duty ? next : (double)INFINITY;
    const double corner[] = {pulse.opens + pulse.edge, pulse.shuts, pulse.shuts + pulse.edge};
    for (int k = 0; k < 3; k++)
        if (corner[k] > time && corner[k] < next)
            return corner[k];
    return next;
}

static void valve_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[0] = at->opening;
}

const struct element_kind valve_kind = {
    .name = "valve",
    .meaning = "opens and shuts a way for gas",
    .parameter = valve_parameter,
    .fault = valve_fault,
    .word = valve_word,
    .end = valve_end,
    .command = valve_command,
    .at_rest = valve_at_rest,
    .moves_in = valve_moves_in,
    .opens = valve_opening,
    .corner = valve_corner,
    .shows = valve_shows,
    .is_passage = true,
    .passages = valve_passages,
    .show = valve_show,
};
