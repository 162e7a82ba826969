/* sim/element/engine.c  An engine as the purge line sees it: an intake at the pressure of its load, what it swallows, what it
 * injects, and the mixture that comes of both.
 *
 * Load. `off`, `idle`, `town`, `motorway`, `boost` stand at 0, 1/4, 1/2, 3/4 and 1 of its command; a share between two of
 * them lies between them. Each has a speed of its own and a pressure in the manifold; off, that of the surroundings. Or the
 * file gives a trace of times, pressures and air flows, counted from the scenario's start and straight between its rows;
 * the first command takes over from it.
 *
 * Air. Four strokes fill the displacement once in two turns: the gas swallowed is
 *   G = efficiency displacement speed/2 p/(R T)   [mol/s]
 * with the manifold as warm as the surroundings. Its throttle holds p, so that what comes through the purge line comes in
 * place of throttle air: of the purge flow F = sum f_i the engine burns with
 *   A = m_air (max(G - F, 0) + f_air)             [kg/s].
 * Should more be purged than it swallows, the pressure would rise in truth; here it is held, and the throttle is shut.
 *
 * Fuel. Injected is what G of air asks for, times 1 + correction; vapor adds its own demand s_i (property/burning.h):
 *   I = G m_air (1 + correction)/s_liquid,  ratio = A / (I s_liquid + sum f_i s_i).
 *
 * Control. The ratio reaches the sensor late: through a chain of CHAIN lags of delay/CHAIN each. Its mean delay is exact and
 * its spread half of it, which mixing in the manifold and the exhaust does too; it is no dead time, and needs no memory of
 * the past beside its states. The sensor tells how far off the mixture is, not only on which side. The unit integrates:
 *   dz/dt = [(ratio_sensed - 1) - UNWIND (z - correction)]/time,   correction = z within its limits.
 * So injection is shortened as the vapor arrives, until ratio = 1 or the limit is met; the second term keeps z near the limit.
 * Below idle (at the start, off) the loop is open: correction and memory fade, and the ratio is told as 1. */
#include "element/elements.h"

enum {
    DISPLACEMENT,
    EFFICIENCY,
    IDLE_SPEED,
    IDLE_PRESSURE,
    TOWN_SPEED,
    TOWN_PRESSURE,
    MOTORWAY_SPEED,
    MOTORWAY_PRESSURE,
    BOOST_SPEED,
    BOOST_PRESSURE,
    CHANGES_IN,
    CORRECTION_LIMIT,
    CORRECTION_TIME,
    DELAY
};

enum { NORMALLY };

enum { INTEGRAL, FIRST_LAG, CHAIN = 4, LAST_LAG = FIRST_LAG + CHAIN - 1, STATES };

enum { AIR }; /* of a network's species */

#define LOAD_STEP 0.25 /* of the command, from one word to the next */
#define IDLE_LOAD LOAD_STEP
#define FOLLOWING 2.0 /* the command's value while it follows its trace */
#define UNWIND 10.0   /* at the limit z stands a tenth of the error beyond it */

#define SPEED_MOST 300.0 /* 1/s: 18000 a minute */

static const struct row engine_parameter[] = {
    {"displacement", ULLAGE_VOLUME, 2e-3, 5e-5, 0.02, "of all cylinders", true},
    {"volumetric_efficiency", ULLAGE_NUMBER, 0.8, 0.05, 2.0, "gas swallowed, of what fills the displacement", true},
    {"idle_speed", ULLAGE_RATE, 700.0 / 60.0, 1.0, SPEED_MOST, "turns of its shaft", true},
    {"idle_pressure", ULLAGE_PRESSURE, 39e3, 1e3, 1e6, "in the manifold, absolute", true},
    {"town_speed", ULLAGE_RATE, 1500.0 / 60.0, 1.0, SPEED_MOST, "turns of its shaft", true},
    {"town_pressure", ULLAGE_PRESSURE, 45e3, 1e3, 1e6, "in the manifold, absolute", true},
    {"motorway_speed", ULLAGE_RATE, 2400.0 / 60.0, 1.0, SPEED_MOST, "turns of its shaft", true},
    {"motorway_pressure", ULLAGE_PRESSURE, 56e3, 1e3, 1e6, "in the manifold, absolute", true},
    {"boost_speed", ULLAGE_RATE, 3000.0 / 60.0, 1.0, SPEED_MOST, "turns of its shaft", true},
    {"boost_pressure", ULLAGE_PRESSURE, 160e3, 1e3, 1e6, "in the manifold, absolute: above the air's, it pushes back",
     true},
    {"changes_in", ULLAGE_TIME, 1.0, 0.0, 3600.0, "from one load word to the next", true},
    {"correction_limit", ULLAGE_NUMBER, 0.25, 0.0, 0.9,
     "most that the injection is lengthened or shortened; 0: open loop", true},
    {"correction_time", ULLAGE_TIME, 2.0, 0.05, 600.0, "in which an error of the mixture is integrated into itself",
     true},
    {"delay", ULLAGE_TIME, 0.6, 0.01, 60.0, "from purge valve and injector to the mixture's sensor", true},
    {0}};

static const char *const loads[] = {"off", "idle", "town", "motorway", "boost", NULL};
static const struct word_row engine_word[] = {{"normally", loads, 0, "without any command"}, {0}};

static const struct command_row engine_command[] = {{"off", 0.0},
                                                    {"idle", LOAD_STEP},
                                                    {"town", 2.0 * LOAD_STEP},
                                                    {"motorway", 3.0 * LOAD_STEP},
                                                    {"boost", 4.0 * LOAD_STEP},
                                                    {0}};

enum { AIR_RATIO, CORRECTION, MANIFOLD_PRESSURE, GAUGE_PRESSURE, AIR_FLOW, INJECTED, PURGED_FUEL, PURGE_FLOW };

static const struct show_row engine_shows[] = {
    {"air_ratio", ULLAGE_NUMBER, "air over what the fuel needs, as its sensor tells; 1 while the loop is open"},
    {"correction", ULLAGE_NUMBER, "share by which the injection is lengthened; shortened: < 0"},
    {"manifold_pressure", ULLAGE_PRESSURE, "absolute"},
    {"gauge_pressure", ULLAGE_PRESSURE, "of its manifold, against the surroundings"},
    {"air_flow", ULLAGE_MASS_FLOW, "air it burns with, through throttle and purge line"},
    {"injected", ULLAGE_MASS_FLOW, "fuel"},
    {"purged_fuel", ULLAGE_MASS_FLOW, "fuel vapor that arrives through the purge line"},
    {"purge_flow", ULLAGE_MASS_FLOW, "all that arrives through the purge line; out of the manifold: < 0"},
    {0}};

/* ---- load ---- */

struct working {
    double pressure;  /* Pa */
    double swallowed; /* mol/s */
    bool closed;      /* the loop of its mixture */
};

static double between(double from, double to, double share)
{
    return from + share * (to - from);
}

static struct working working_by_load(const double *parameter, double load, double ambient, double temperature)
{
    const double pressure[] = {ambient, parameter[IDLE_PRESSURE], parameter[TOWN_PRESSURE],
                               parameter[MOTORWAY_PRESSURE], parameter[BOOST_PRESSURE]};
    const double speed[] = {0.0, parameter[IDLE_SPEED], parameter[TOWN_SPEED], parameter[MOTORWAY_SPEED],
                            parameter[BOOST_SPEED]};
    const int piece = load < 1.0 ? (int)(load / LOAD_STEP) : 3;
    const double share = load / LOAD_STEP - piece;
    struct working now = {.pressure = between(pressure[piece], pressure[piece + 1], share),
                          .closed = load >= IDLE_LOAD};
    const double volume_flow = 0.5 * between(speed[piece], speed[piece + 1], share) * parameter[DISPLACEMENT];
    now.swallowed = parameter[EFFICIENCY] * volume_flow * now.pressure / (GAS_CONSTANT * temperature);
    return now;
}

/* Index of the last moment of the trace at or before `time`; -1: none. */
static int trace_piece(const struct part *part, double time)
{
    int low = -1, high = part->moments;
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        *(part->trace[middle].time <= time ? &low : &high) = middle;
    }
    return low;
}

static struct working working_by_trace(const struct part *part, double time, double air_mass)
{
    const int k = trace_piece(part, time), last = part->moments - 1;
    const struct part_moment *from = &part->trace[k < 0 ? 0 : k], *to = &part->trace[k < 0      ? 0
                                                                                     : k < last ? k + 1
                                                                                                : last];
    const double share = to->time > from->time ? (time - from->time) / (to->time - from->time) : 0.0;
    return (struct working){between(from->pressure, to->pressure, share),
                            between(from->air_flow, to->air_flow, share) / air_mass, true};
}

static double engine_pressure(const struct boundary_view *at)
{
    return at->opening > 1.0 ? working_by_trace(at->part, at->time, 1.0).pressure
                             : working_by_load(at->parameter, at->opening, at->ambient, STANDARD_TEMPERATURE).pressure;
}

static struct working engine_working(const struct controller_view *at)
{
    return at->opening > 1.0
               ? working_by_trace(at->part, at->time, at->needs->molar_mass[AIR])
               : working_by_load(at->parameter, at->opening, at->ambient_pressure, at->ambient_temperature);
}

static double engine_at_rest(const struct part *part)
{
    return part->moments > 0 ? FOLLOWING : LOAD_STEP * part->word[NORMALLY];
}

static double engine_moves_in(const double *parameter, double from, double to)
{
    return from > 1.0 ? 0.0 : parameter[CHANGES_IN] * fabs(to - from) / LOAD_STEP;
}

/* Where its load passes a word, or the trace a row. */
static double engine_corner(const struct command_view *at, double time)
{
    double next = (double)INFINITY;
    const struct ramp *ramp = at->ramp;
    if (ramp_value(ramp, time) > 1.0) {
        const int k = trace_piece(at->part, time);
        return k + 1 < at->part->moments ? at->part->trace[k + 1].time : next;
    }
    for (int word = 1; loads[word + 1] && ramp->ends > time && ramp->from <= 1.0; word++) {
        const double share = (word * LOAD_STEP - ramp->from) / (ramp->to - ramp->from);
        const double moment = between(ramp->begins, ramp->ends, share);
        if (share > 0.0 && share < 1.0 && moment > time && moment < next)
            next = moment;
    }
    return next;
}

/* ---- mixture ---- */

struct mixture {
    double correction, by_integral;
    double air, injected, demand; /* kg/s; demand: kg/s of air that all the fuel needs */
    double purged, purged_fuel;   /* kg/s */
    bool throttled;               /* air comes through the throttle */
};

static struct mixture engine_mixture(const struct controller_view *at, const struct working *now)
{
    const struct air_needs *needs = at->needs;
    const double limit = at->parameter[CORRECTION_LIMIT], integral = at->state[INTEGRAL];
    const double air_mass = needs->molar_mass[AIR];
    struct mixture mixture = {.correction = fmin(fmax(integral, -limit), limit),
                              .by_integral = fabs(integral) < limit ? 1.0 : 0.0};
    double purge = 0.0, vapor = 0.0;
    for (int i = 0; i < needs->species; i++) {
        purge += at->arriving[i];
        vapor += at->arriving[i] * needs->by_amount[i];
        mixture.purged += at->arriving[i] * needs->molar_mass[i];
        if (needs->by_amount[i] > 0.0)
            mixture.purged_fuel += at->arriving[i] * needs->molar_mass[i];
    }
    mixture.throttled = now->swallowed > purge;
    mixture.air = air_mass * (fmax(now->swallowed - purge, 0.0) + at->arriving[AIR]);
    mixture.demand = now->swallowed * air_mass * (1.0 + mixture.correction) + vapor;
    mixture.injected = now->swallowed * air_mass * (1.0 + mixture.correction) / needs->by_mass;
    return mixture;
}

/* The first lag runs after the mixture's error while the loop is closed. */
static void mixture_rates(const struct controller_view *at, const struct working *now, const struct mixture *mixture,
                          double lag, struct controller_rates *rates)
{
    const struct air_needs *needs = at->needs;
    const double air_mass = needs->molar_mass[AIR], ratio = mixture->air / mixture->demand;
    rates->value[FIRST_LAG] += (ratio - 1.0) / lag;
    rates->by_state[FIRST_LAG][INTEGRAL] -=
        ratio * now->swallowed * air_mass * mixture->by_integral / (mixture->demand * lag);
    for (int i = 0; i < needs->species; i++) {
        const double air = air_mass * ((i == AIR ? 1.0 : 0.0) - (mixture->throttled ? 1.0 : 0.0));
        rates->by_arriving[FIRST_LAG][i] += (air - ratio * needs->by_amount[i]) / (mixture->demand * lag);
    }
}

static void engine_rates(const struct controller_view *at, struct controller_rates *rates)
{
    const double time = at->parameter[CORRECTION_TIME], lag = at->parameter[DELAY] / CHAIN;
    const struct working now = engine_working(at);
    const struct mixture mixture = engine_mixture(at, &now);
    for (int k = FIRST_LAG; k <= LAST_LAG; k++) {
        rates->value[k] = -at->state[k] / lag;
        rates->by_state[k][k] = -1.0 / lag;
        if (k == FIRST_LAG)
            continue;
        rates->value[k] += at->state[k - 1] / lag;
        rates->by_state[k][k - 1] = 1.0 / lag;
    }
    if (!now.closed) {
        rates->value[INTEGRAL] = -at->state[INTEGRAL] / time;
        rates->by_state[INTEGRAL][INTEGRAL] = -1.0 / time;
        return;
    }
    mixture_rates(at, &now, &mixture, lag, rates);
    rates->value[INTEGRAL] = (at->state[LAST_LAG] - UNWIND * (at->state[INTEGRAL] - mixture.correction)) / time;
    rates->by_state[INTEGRAL][LAST_LAG] = 1.0 / time;
    rates->by_state[INTEGRAL][INTEGRAL] = -UNWIND * (1.0 - mixture.by_integral) / time;
}

/* ---- the part ---- */

static void engine_check(const struct part *part, struct ullage_problems *problems)
{
    for (int k = 1; k < part->moments; k++)
        if (!(part->trace[k].time > part->trace[k - 1].time))
            problem_add(problems, part->trace[k].at, "let each row begin later than the one above it",
                        "the trace of %s goes back in time", part->id);
    if (part->moments > 0 && part->word[NORMALLY] != 0)
        problem_add(problems, part->at, "take one of the two out", "%s has a trace and a load it begins with",
                    part->id);
}

static void engine_stores(struct blueprint *into, int part)
{
    const struct boundary_plan plan = {.part = part, .pressure = engine_pressure, .share = {1.0}};
    const int place = blueprint_boundary(into, plan);
    blueprint_opening(into, part, "", place);
    blueprint_controller(
        into, (struct controller_plan){.part = part, .place = place, .states = STATES, .rates = engine_rates});
}

static void engine_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    const struct controller_view *view = at->controller;
    const struct working now = engine_working(view);
    const struct mixture mixture = engine_mixture(view, &now);
    shown[AIR_RATIO] = 1.0 + view->state[LAST_LAG];
    shown[CORRECTION] = mixture.correction;
    shown[MANIFOLD_PRESSURE] = now.pressure;
    shown[GAUGE_PRESSURE] = now.pressure - at->ambient_pressure;
    shown[AIR_FLOW] = mixture.air;
    shown[INJECTED] = mixture.injected;
    shown[PURGED_FUEL] = mixture.purged_fuel;
    shown[PURGE_FLOW] = mixture.purged;
}

const struct element_kind engine_kind = {
    .name = "engine",
    .meaning = "swallows what is purged, and keeps its mixture",
    .parameter = engine_parameter,
    .word = engine_word,
    .command = engine_command,
    .at_rest = engine_at_rest,
    .moves_in = engine_moves_in,
    .corner = engine_corner,
    .shows = engine_shows,
    .trace_list = true,
    .check = engine_check,
    .stores = engine_stores,
    .show = engine_show,
};
