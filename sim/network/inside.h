/* sim/network/inside.h  What a network is made of. For network/ and run/ only.
 *
 * State vector (deviations from the start, so that small changes are not rounded against large stocks):
 *   volume v, at volume[v].at:  N'_0 .. N'_{carried-1} [mol], E' [J], P [Pa, pressure - reference]; with carbon in it
 *     Q'_0 .. Q'_{species-1} [mol taken up], its E' then being that of gas, carbon and what it holds; a liquid's (pool.h);
 *     the wall's E' [J]; what the shell has crept [m3]
 *   followers with a lag: their value [Pa or mol/s]
 *   controllers: their own
 *   accounts: see below; all start at 0
 * Carried quantities are the species that make up the gas, then passive ones that ride along (smoke, in mol of gas that
 * carries it). The pressure is redundant (the equation of state holds it), because with p as an unknown the stiff part
 * of the system is linear; its drift is drawn back with time constant DRIFT_TIME. */
#ifndef NETWORK_INSIDE_H
#define NETWORK_INSIDE_H

#include "base/stiff.h"
#include "law/diffusion.h"
#include "law/flow.h"
#include "network/network.h"
#include "network/pool.h"

#define DRIFT_TIME 1.0 /* s: any value from 1 ms to 1 s gives the same answers and counts */

enum { CARRIED_MOST = SPECIES_MOST, FELT_MOST = 2 * CARRIED_MOST + LIQUID_MOST + 3, BLOCK_MOST = FELT_MOST + 3 };

/* Accounts of a way between the system and a boundary, each way apart so that `in` and `out` are known: carried
 * quantities in, out [mol], enthalpy in, out [J]. Of a volume: heat in, out, work in, out [J]; of a liquid: heat
 * in, out [J], and what has run out of it through openings, less what was filled in [kg], which the accounts of these hold
 * as well. */
enum {
    HEAT_IN,
    HEAT_OUT,
    WORK_IN,
    WORK_OUT,
    VOLUME_ACCOUNTS,
    LIQUID_HEAT_IN = VOLUME_ACCOUNTS,
    LIQUID_HEAT_OUT,
    LIQUID_DRAINED,
    POOL_ACCOUNTS
};

struct volume {
    int part;
    double room, give;           /* m3 at ambient pressure; m3/Pa */
    double creep, creep_time;    /* m3/Pa, s */
    int creep_at;                /* of the block's states; -1: the shell does not creep */
    struct heat_way film, outer; /* as in volume_plan */
    double wall, sunlit;         /* J/K, m2 */
    double sides;                /* J/K of walls that stand, where liquid is: parted at its level */
    int at;                      /* first state; E' at + carried, P at + carried + 1, wall E' after that */
    int felt;                    /* states that neighbours feel, too: N', E', P, Q', amounts and energy of a liquid */
    int wall_at;                 /* of the block's states: the wall's E'; after the pool's */
    struct vessel_shape shape;   /* where liquid is */
    struct pool *pool;           /* liquid in it, or null */
    int liquid_in;               /* volume whose liquid takes room from this one; -1 */
    double liquid_share;         /* of that liquid's volume; `room` is what there is without any */
    int narrow_at;               /* where its columns lie in the scratch's narrowing; -1 where liquid_in is */
    int block;                   /* states of its own: felt, the pool's, the wall's, what crept */
    double carbon;               /* kg; 0: none */
    double dry;                  /* J/K: heat capacity of the carbon */
    int aged;                    /* row of its part's live parameters: share of it that holds nothing; 0: none */
    double wet;                  /* share of its pores that liquid fuel got into */
    double uptake[CARRIED_MOST]; /* 1/s [species] */
    struct sorbent sorbent;      /* of the species in their order */
    int account; /* first of its VOLUME_ACCOUNTS rows (POOL_ACCOUNTS with a liquid), counted from 0 of the accounts */
    double stock[CARRIED_MOST], energy, excess, wall_energy; /* at the start: mol, J, Pa, J */
    double load[CARRIED_MOST];                               /* mol on the carbon at the start */
    double temperature;                                      /* K at the start */
    int columns;                                             /* of each of its rows; see pattern.c */
    const int *column;                                       /* [columns] */
    int own;                                                 /* where its own block begins in `column` */
};

struct boundary {
    int part; /* -1: atmosphere */
    double (*pressure)(const struct boundary_view *at);
    double share[CARRIED_MOST]; /* by carried index */
};

struct passage {
    int part, a, b, joint_of, beside;
    passage_law *law;
    double constant[4], bore, reach, conduct, section;
    double (*reaches)(const struct passage_view *at);
    bool inner;
    int surface;                        /* volume whose liquid's surface it begins at: see passage_plan; -1 */
    int stirred;                        /* live parameter by the network's count; -1: none */
    int dip;                            /* volume whose liquid can cover its opening; -1: none */
    bool dip_at_b;                      /* that volume is on side b */
    double dip_height;                  /* m */
    wet_law *wet;                       /* in place of law; null */
    int wet_a, wet_b;                   /* volumes whose liquid hinders it; -1 */
    int source, sink;                   /* volumes that liquid runs from and to by it; -1: it does not */
    double (*seep)(const struct passage_view *at); /* as in passage_plan */
    double lift;                                   /* as in passage_plan */
    double (*pour)(const struct passage_view *at);
    int warmth;                         /* live parameter by the network's count */
    int joint;                          /* index among the joints; -1: always there */
    int account_a, account_b;           /* first account row of a side that is a boundary; -1: a volume */
    int a_in_a, b_in_a, a_in_b, b_in_b; /* where the block of one side begins in the columns of the other; -1: none */
    int row_a, row_b, columns;          /* of its account rows: where each side's block begins; -1 */
};

struct follower {
    int part, place, passage;
    enum follows follows;
    int lag_row, stuck_row; /* as in follower_plan */
    int at;                 /* state; -1: follows at once */
};

/* A passage into a controller's boundary, and where the block of the volume at its other end begins in the columns. */
struct controller_way {
    int passage, volume, at; /* volume -1, at -1: another boundary */
};

struct controller {
    int part, place, states;
    void (*rates)(const struct controller_view *at, struct controller_rates *rates);
    int at; /* first state */
    int ways, columns;
    struct controller_way *way;
    int *column; /* [columns] of each of its rows: volumes in ascending order, then its own states */
};

struct network {
    struct arena *arena;
    int parts;
    struct part *part;
    int *parameter_at; /* [parts]: where a part's live parameters begin */
    int parameters;
    int carried, species;     /* species <= carried: the first `species` make up the gas */
    int number[CARRIED_MOST]; /* in the species table */
    const struct species *kind[CARRIED_MOST];
    int fuels, first_fuel;               /* components of the liquid; the carried index of the first one's vapor */
    struct component *fuel;              /* [fuels] */
    double *fuel_stock, *fuel_pumped; /* [fuels] mol, in proportion: of the tank's, of what is filled in */
    double fill_level, fill_temperature; /* share of a tank's inside; K */
    int volumes, boundaries, passages, followers, switches, controllers, joints;
    struct volume *volume;
    struct boundary *boundary;
    struct passage *passage;
    struct follower *follower;
    struct controller *controller;
    struct switch_plan *toggle; /* those of a part stand together */
    int *switch_at;             /* [parts]: its first one */
    struct joint *joint;
    bool *joined;     /* [joints] from the start */
    int *main_volume; /* [parts]: the volume that stands for a part; -1 */
    int *follower_of; /* [parts]; -1 */
    int *controller_of;         /* [parts]; -1 */
    struct air_needs air_needs; /* of the species in their order, and of what engines inject */
    int faults;
    struct fault *fault;                          /* faults.c */
    const char **fault_name;
    int *first_fault, *next_fault;                /* [parts], [faults]: those of a part, one after the other; -1 */
    int *fault_of;                                /* [parts]: the fault that a hole is; -1 */
    int (*moves)[2];                              /* [faults]: rows of parameters; -1 */
    int taps, pour_places;
    struct tap *tap;                              /* pouring.c: of the faults in their order */
    struct pour_place *pour_place;
    int *tap_of;                                  /* [faults]; -1 */
    int *feeds;       /* [parts]: place a meter's `feeds` end names; -1 */
    double reference; /* Pa: atmosphere at the start */
    struct assumptions assume;
    struct diffusers diffusers;      /* of the species in their order */
    struct profile weather[WEATHERS]; /* of the surroundings, as the file has it */
    int narrows;                     /* columns of all volumes that a liquid takes room from */
    struct stiff_system stiff;       /* shape and scales; functions and context are the run's */
    int *pattern_start, *pattern_column;
    bool idle; /* no gas is kept anywhere: one state at rest stands in, for a stepper must have one */
    int channels;
    struct ullage_channel *channel;
    int *channel_row; /* what each channel is: see channels.c */
};

/* ---- inputs of a run: what may change from outside ---- */
struct inputs {
    const double *parameter;    /* live [network->parameters] */
    const struct ramp *opening; /* [parts] */
    const bool *joined;         /* [joints] */
    double before; /* s: inputs are taken as they are just before this moment, where a step must not look */
    const bool *on; /* [switches] */
    const struct fault_now *fault; /* [faults]; null: as they begin */
    const bool *ails;              /* [parts]: a fault moves its parameters or its command; null: as they begin */
    uint64_t seed;                 /* of all noise */
    const struct weather_way *weather; /* [WEATHERS]; null: as the file has it */
    const struct tap_now *tap;     /* [taps]; null: nothing is poured */
    const struct pour *pour;       /* [pour_places] */
};

/* A part's parameters as its faults have them now; `room` is written to where there are any. */
struct parameters {
    double value[ROWS_MOST];
};
const double *parameters_now(const struct network *network, const struct inputs *inputs, int part, double time,
                             struct parameters *room);
/* What its command comes to. */
double opening_now(const struct network *network, const struct inputs *inputs, int part, double time, double commanded);
bool network_faults_take(struct network *network, const struct ullage_description *from);
struct fault_now fault_begins(const struct network *network, int index);
bool fault_ails(const struct network *network, int index);

/* ---- the gas of every place, and what flows: filled anew at each call ---- */
struct place_gas {
    struct gas gas;
    double amount, gas_capacity; /* n [mol], sum N cv [J/K] */
    double heat_capacity;        /* C [J/K]: gas, carbon and what it holds */
    double gas_warming, warming; /* what a kelvin adds to these, J/K2 */
    double active;               /* kg of carbon that still holds anything */
    double load[CARRIED_MOST];   /* mol on the carbon */
    double share[CARRIED_MOST];  /* of n; passive ones too */
    double enthalpy[CARRIED_MOST], heat[CARRIED_MOST]; /* h_i [J/mol], cp_i [J/mol/K] [species] */
    double h, cp;                                      /* of a mol of the gas: J, J/K */
    double wall_temperature;     /* K */
    struct sloped wall;          /* J/K, by the volume of its liquid */
    double empty;                /* m3 at ambient pressure: room left by the liquid, and what has crept */
    double narrowing, creeping;  /* m3/s: how fast that shrinks, and the shell's own part of it, outward */
    struct pool_now liquid;      /* where there is a pool */
    double room;                 /* m3 now */
    double viscosity_by_temperature, viscosity_by_share[CARRIED_MOST]; /* only where slopes are asked for */
};

/* d quantity / d own state, in the order of a volume's block without its wall. */
struct gradient {
    double by[GAS_QUANTITIES][FELT_MOST];
    double height[FELT_MOST]; /* of a liquid's surface, m */
    double volume[FELT_MOST]; /* of the liquid, m3 */
};

/* A row over the blocks of both sides of one passage. */
struct pair {
    double a[FELT_MOST], b[FELT_MOST];
};

/* Liquid on its way from one volume to another: spill.c. */
struct spill_now {
    double flow, by_flow, by_drop; /* m3/s; by the gas's flow from source to sink [mol/s], by the source's pressure over the
                                      sink's [Pa] */
    double by_source, by_sink;     /* by their liquids [1/s] */
};

/* A passage at an opening that liquid can cover: dip.c. Or one that liquid on a side hinders. */
struct dip_now {
    struct wet wet;
    struct spill_now spill;
    double cover, cover_slope; /* share, by the liquid's height */
    double flow_by_height;     /* of the gas, mol/s/m */
    double pour, warmth;       /* m3/s of fuel that comes in, K */
    double drain;              /* m3/s of liquid to the outside */
    double drain_by_pressure, drain_by_height; /* m3/s/Pa of the tank, m2/s */
};

/* d of what a drain hangs on, to one state. */
struct drain_slope {
    double flow, pressure, volume; /* m3/s, Pa of the tank, m3 of liquid */
    double amount[LIQUID_MOST], energy[LIQUID_MOST];
};

struct surroundings_now {
    double pressure, pressure_rate, temperature, temperature_rate;
    double sun, wind; /* W/m2, m/s */
};

struct scratch {
    double time; /* s: inputs are taken as at this moment */
    struct surroundings_now air;
    struct place_gas *volume;   /* [volumes] */
    struct place_gas *boundary; /* [boundaries] */
    struct flow *flow;          /* [passages] */
    double *reach;              /* [passages] m: of diffusion, as far as it is open now */
    double *stir;               /* [passages] mol/s that change places */
    double *shaken;             /* [passages] of that, what goes with the surface */
    double *conduct;            /* [passages] W/K */
    double *lag;                /* [followers] s */
    struct dip_now *dip;        /* [passages] */
    double *rates;              /* [states + accounts]: what slopes are formed beside */
    struct gradient *gradient;  /* [volumes] */
    struct pair *slope;         /* [passages]: d flow */
    double *narrowing;  /* [narrows] d narrowing; by volume and the columns of its rows, as far as liquid goes */
    double *room_slope; /* [narrows] d empty */
};

bool scratch_take(const struct network *network, struct scratch *scratch); /* false when memory is out */
void scratch_release(struct scratch *scratch);

/* surroundings.c: the one place where air, sun and wind are read; value, how fast it changes, next corner after time. */
double weather_value(const struct network *network, const struct inputs *inputs, enum weather which, double time);
double weather_slope(const struct network *network, const struct inputs *inputs, enum weather which, double time);
double weather_corner(const struct network *network, const struct inputs *inputs, double time); /* of all; INFINITY */
struct surroundings_now surroundings_at(const struct network *network, const struct inputs *inputs, double time);
double weather_begins(const struct network *network, enum weather which); /* at the start */

/* Both return 0, or 1 outside the domain. Neither touches anything but its outputs and the scratch. */
int network_rates(const struct network *network, const struct inputs *inputs, double time, const double *y,
                  double *dydt, struct scratch *scratch);
int network_slopes(const struct network *network, const struct inputs *inputs, double time, const double *y,
                   double *value, struct scratch *scratch);

/* Gases and flows alone. slopes: viscosity's too. */
int network_state(const struct network *network, const struct inputs *inputs, double time, const double *y,
                  struct scratch *scratch, bool slopes);
const struct place_gas *place_of(const struct scratch *scratch, int place);
double passage_opening(const struct network *network, const struct inputs *inputs, const struct passage *passage,
                       double time);

/* What a part's command comes to at a moment, and its course with it. */
double part_opening(const struct network *network, const struct inputs *inputs, int part, double time);

/* Pa of a boundary. */
double boundary_pressure(const struct network *network, const struct inputs *inputs, const struct boundary *boundary,
                         double time, double ambient);

/* Balances from gases and flows: the second half of network_rates. */
void network_balances(const struct network *network, const double *y, double *dydt, struct scratch *scratch);

/* p of the equation of state: positive root of give p^2 + (room - give p_air) p - n R T = 0. */
double pressure_of_state(const struct volume *volume, const struct place_gas *place, double ambient);

/* Over a volume's rates of amount: sum dN_i [mol/s]; the energy they have there, sum u_i dN_i + sum (h_i - heat_i) dQ_i
 * [W], and what a kelvin adds to it, sum cv_i dN_i + sum cp_i dQ_i [W/K]. */
struct intake {
    double amount, energy, capacity;
};
struct intake volume_intake(const struct network *network, const struct volume *volume, const struct place_gas *place,
                            const double *own);

/* u_i of the gas and h_i - heat_i of what the carbon holds, J/mol. */
static inline double inner_energy(const struct place_gas *place, int i)
{
    return place->enthalpy[i] - GAS_CONSTANT * place->gas.temperature;
}

static inline double load_energy(const struct volume *volume, const struct place_gas *place, int i)
{
    return place->enthalpy[i] - volume->sorbent.heat[i];
}

/* A gas's way for heat as the level of its liquid leaves it: `whole` itself, or `part` of it. */
const struct heat_way *way_now(const struct volume *volume, const struct place_gas *place, const struct heat_way *whole,
                               struct heat_way *part);

struct diffusion_side diffusion_side_of(const struct place_gas *place);

/* Partial pressures of the species of a place [Pa] [species]. */
void partial_pressures(const struct network *network, const struct place_gas *place, double *pressure);

/* followers.c: those of a plan; false when memory is out. What one runs after, now: Pa over the atmosphere, mol/s, a share, K;
 * what of it matters. How late each is now; rates and rows of slopes; the columns of such a row. */
bool followers_take(struct network *network, const struct blueprint *plan);
double follower_sees(const struct network *network, const struct follower *follower, const struct scratch *scratch);
double follower_scale(const struct follower *follower);
void followers_look(const struct network *network, const struct inputs *inputs, double time, struct scratch *scratch);
void followers_rates(const struct network *network, const double *y, double *dydt, const struct scratch *scratch);
void followers_slopes(const struct network *network, const struct scratch *scratch, double *value);
int follower_row(const struct network *network, const struct follower *follower, int *column);
/* pattern.c: columns of a passage's account rows. */
int passage_row(const struct network *network, const struct passage *passage, int *column);

/* copy.c. False when memory is out. */
bool parts_copy(struct network *network, const struct ullage_description *from);
bool weather_take(struct network *network, const struct surroundings *from);

/* controllers.c: those of a plan, after the species are known. False when memory is out. */
bool controllers_take(struct network *network, const struct blueprint *plan);

/* What a controller sees, after network_state; room and arriving[SPECIES_MOST] are filled and kept by the view. */
struct controller_view controller_sees(const struct network *network, const struct inputs *inputs,
                                       const struct controller *controller, const double *y,
                                       const struct scratch *scratch, struct parameters *room, double *arriving);
/* Rates of all controllers' states, and their rows of slopes; after the balances, or the passages' slopes. */
void controllers_rates(const struct network *network, const struct inputs *inputs, const double *y, double *dydt,
                       const struct scratch *scratch);
void controllers_slopes(const struct network *network, const struct inputs *inputs, const double *y, double *value,
                        const struct scratch *scratch);

/* Largest |p - p_eos| over the volumes [Pa]. */
double network_drift(const struct network *network, const struct inputs *inputs, double time, const double *y,
                     struct scratch *scratch);

/* switches.c: takes them over from the plan; false when memory is out. And the margin of switch s, whose bit is `on`; > 0:
 * it flips. */
bool switches_take(struct network *network, const struct blueprint *plan);
double network_margin(const struct network *network, const struct inputs *inputs, double time, const double *y, int s,
                      bool on);

/* pattern.c: rows, columns and where each block lies. False when memory is out. */
bool pattern_make(struct network *network);

/* held.c: gas shares [carried] of a volume that begins with what it is told to hold; fills its load. False: its carbon cannot
 * hold that. And what the volumes of a part hold now, row by row. */
bool held_begin(const struct network *network, struct volume *volume, const struct held *held, double pressure,
                double temperature, double *share);
void held_look(const struct network *network, const struct scratch *scratch, int part, double *load, double *share);

/* channels.c */
bool channels_make(struct network *network);
void channels_look(const struct network *network, const struct inputs *inputs, double time, const double *y,
                   struct scratch *scratch, int count, const int *channel, double *value, signed char *off_scale);

/* Whether species i is neither air nor test gas nor tracer; kg that carbon holds of such, and their mole share in gas. */
bool is_vapor(const struct network *network, int i);
double fuel_loaded(const struct network *network, const struct volume *volume, const struct place_gas *place);
double vapor_share(const struct network *network, const struct place_gas *place);

/* cells.c: as ullage_run_cells; NAN where the state is none that gas can have. */
void cells_look(const struct network *network, const struct inputs *inputs, double time, const double *y,
                struct scratch *scratch, int part, struct ullage_cell *cell);

/* wetting.c: share of the grains of a wet cell that are as full as over the fuel; `left` [m3] lies between them. And the
 * shares of a gas at rest with carbon of which that share is so full. */
double wetting_fills(const struct network *network, const struct volume *volume, double pressure, double temperature,
                     const double *share, double *left);
void wetting_shares(const struct network *network, const struct volume *volume, double full, double pressure,
                    double temperature, double *share);

/* ledger.c */
int ledger_rows(const struct network *network);
struct ullage_ledger_row ledger_row(const struct network *network, const double *y, int row);
int ledger_opening_rows(const struct network *network);
struct ullage_opening_row ledger_opening_row(const struct network *network, const double *y, int row);
struct ullage_fuel ledger_fuel(const struct network *network, const double *y);

/* Where the block of a volume begins in the columns of another; -1. pattern.c. */
int pattern_block(const struct network *network, int volume, int of);

/* pool_begin.c: takes over a volume's liquid; its states stand after those that neighbours feel. False when memory is out. */
bool pool_take(struct network *network, struct volume *into, const struct volume_plan *from);
/* Fills it as it begins; m3 that it then has. */
void pool_fill(const struct network *network, int v, double temperature);
double pool_begins(const struct pool *pool);
/* Vapor at `saturation` of what the liquid holds takes its part of the pressure; the other gases share the rest. Fuel that
 * would boil fills it all. */
void pool_saturates(const struct network *network, const struct pool *pool, double pressure, double saturation,
                    double *share);
/* J/K of the wall of a volume's gas at the start. And scales, bases, and which states are amounts, of a block. */
double wall_at_start(const struct network *network, int v);
void pool_scales(const struct network *network, int v, double *scale, double *base, bool *amount);

/* pool.c: d of the energy that a mol of each component adds to the liquid of volume v, to what is felt of that. */
void pool_energy_slopes(const struct network *network, int v, const struct scratch *scratch,
                        double slope[LIQUID_MOST][FELT_MOST]);

/* spill.c: mol/s of each component, and W, that a passage carries from source to sink; and all its slopes, after those of the
 * flows and the pools, before volumes are closed. */
double spill_carries(const struct network *network, int p, const struct scratch *scratch, double *amount);
void spill_slopes(const struct network *network, int p, const struct scratch *scratch, double *value);
/* What of a flow of liquid the sink of passage p takes: `free` with slopes, before anything holds it back. */
struct spill_now spill_taken(const struct network *network, const struct passage *passage,
                             const struct scratch *scratch, struct spill_now free);

/* pouring.c: taps of what holds liquid, after all that has accounts; false when memory is out. As a run begins; and what is to
 * be poured from `time` on, to come to `aim` of the fault's size: of the state there, into pour[places of the tap]. */
bool taps_take(struct network *network);
struct tap_now tap_begins(const struct network *network, int tap);
void tap_turn(const struct network *network, const struct scratch *scratch, int tap, double time, double aim, double ramp,
              struct tap_now *now, struct pour *pour);
bool tap_runs(const struct tap_now *now, double time);
/* What is poured into a liquid at `time`, and whether it has been; its books and their slopes. */
void pour_look(const struct network *network, const struct inputs *inputs, double time, int v, struct pool_now *now);
void taps_book(const struct network *network, const struct inputs *inputs, double time, double *dydt,
               const struct scratch *scratch);
void taps_slopes(const struct network *network, const struct inputs *inputs, double time, double *value,
                 const struct scratch *scratch);
/* Rows of accounts of a tap; columns of each, into `column` where it is not null. */
int tap_rows(const struct network *network);
int tap_row(const struct network *network, const struct tap *tap, int *column);

/* dip.c: flow of gas by an opening that liquid can cover, and what that does; books and slopes of the liquid that leaves
 * there, own: a state of the tank's volume. */
struct flow dip_flow(const struct network *network, const struct passage *passage, const struct passage_view *view,
                     const struct scratch *scratch, struct dip_now *now);
double dip_poured(const struct network *network, const struct pool *pool, const struct dip_now *now, double *amount);
void dip_pour_slope(const struct network *network, int p, const struct scratch *scratch, double *value);
void dip_book(const struct network *network, int p, const struct scratch *scratch, double *dydt);
void dip_slopes(const struct network *network, int p, const struct drain_slope *by, int own,
                const struct scratch *scratch, double *value);

#endif
