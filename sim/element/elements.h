/* sim/element/elements.h  Every kind's table, and the few things that several kinds share. */
#ifndef ELEMENT_ELEMENTS_H
#define ELEMENT_ELEMENTS_H

#include "element/element.h"

extern const struct element_kind vessel_kind, tank_kind, canister_kind, line_kind, hole_kind, valve_kind, cap_kind,
    port_kind, supply_kind, meter_kind, gauge_kind, sensor_kind, manifold_kind, check_valve_kind, relief_kind,
    roll_over_kind, fill_limit_kind, level_sensor_kind, temperature_sensor_kind, engine_kind, nozzle_kind;

/* ---- what can be wrong: faults_of_gas.c, faults_of_valves.c, faults_of_instruments.c ---- */
extern const struct fault_row tank_fault[], canister_fault[], line_fault[], valve_fault[], cap_fault[], relief_fault[],
    fill_limit_fault[], roll_over_fault[], check_fault[], gauge_fault[], level_fault[], temperature_fault[],
    meter_fault[], supply_fault[], port_fault[];

/* ---- shells: shell.c ----
 * A wall of plastic around a gas: film inside, heat capacity, film outside. A film is one coefficient, or COMPUTED: from
 * the difference of temperature, as the shell stands. area 0: that of a cube of the volume. */
struct shell {
    double area;             /* m2; 0: a cube's */
    double thickness;        /* m; 0: no wall */
    double film, outer_film; /* W/m2/K; COMPUTED */
    enum stance stance;      /* SURFACE_STANDS or SURFACE_LIES, outside */
    double size;             /* m: its height, or diameter; 0: the side of a cube */
};
struct volume_plan shell_plan(int part, double volume, double give, struct shell shell);

/* J/K of so much wall. */
double wall_capacity(double area, double thickness);
double cube_area(double volume);

/* W/m2/K of two surfaces that see each other, near 20 degC. */
double radiation_film(void);

/* m: a gas between two walls `apart` conducts to each as through this, in the slowest mode, pi^2/2 k/apart [CARSLAW1959]. */
double conduction_path(double apart);

/* One surface of a body towards gas inside it, or towards the air around it (with what it radiates). film: as above. */
struct surface inner_surface(enum stance stance, double area, double size, double path, double film);
struct surface outer_surface(enum stance stance, double area, double size, double film);

/* ---- liquids: tank.c ----
 * m/s of a vapor through gas at rest over `path` [m]; 0: through gas that moves by itself, by Chilton and Colburn as heat, by
 * the power 2/3 of what it spreads like [CHILTON1934]. pressure: Pa. */
double liquid_transfer(const struct component *component, double path, double pressure);

/* Adds a problem where parameter `row` of a part puts liquid somewhere and the scenario has no fuel. */
void liquid_check(struct blueprint *into, int part, int row);

/* ---- instruments: instrument.c ----
 * What a dial shows of a true value: error of zero and gain, then steps of `resolution` (0: none), then the ends of its
 * scale. off_scale receives +1, -1 or 0. Noise comes on top, and a broken wire draws it to an end of its scale. */
struct instrument {
    double zero_error, gain_error, resolution, least, most;
    double noise;                       /* what it jumps by now */
    double open_circuit, short_circuit; /* share of the way to the upper, to the lower end */
};

/* What a part's reading jumps by at a moment: normal, of that root mean square, the same at each visit. */
double instrument_noise(const struct part_look *at, double noise);

double instrument_shows(const struct instrument *instrument, double value, signed char *off_scale);

/* ---- openings: closure.c ----
 * A hole of `diameter` and `wall` as the assumptions have it: the full law, or the frozen one. */
struct flow opening_flow(double diameter, double wall, double discharge, const struct gas *a, const struct gas *b);

/* The same to a liquid [m]: the round hole of the area that is free. */
double closure_seeps(const struct passage_view *at, double bore, double leak);

/* An opening of `bore` as far as it is open; where it is closed, what closes it leaks like a thin hole of `leak`. */
struct flow closure_flow(const struct passage_view *at, double bore, double leak, const struct gas *a,
                         const struct gas *b);

/* ---- seats under a spring: poppet.c ---- */
struct poppet {
    double opens;        /* Pa of difference at which it lifts off */
    double hysteresis;   /* share of that by which it reseats lower */
    double overpressure; /* share of that, above it, at which it is wide open */
};

/* Margin of its switch (on: off its seat) at a difference of pressure that lifts it [Pa]. */
double poppet_margin(const struct poppet *poppet, double difference, bool on);
/* How far it is open once off its seat, 0..1, and the slope by the difference [1/Pa]. */
struct sloped poppet_lift(const struct poppet *poppet, double difference);

/* Two of them, one against the other: seat 0 lets gas out of side a, seat 1 into it. on: their switches; difference a - b. */
struct two_way {
    struct poppet seat[2];
};
struct sloped two_way_lift(const struct two_way *relief, const bool *on, double difference);

/* The switches of a two-way relief of a part between two places, told by the margins of its seats; what the story says when
 * pressure opens it, when vacuum does, when it shuts. */
struct two_way_words {
    const char *opens, *opens_inward, *shuts;
};
void two_way_build(struct blueprint *into, int part, int a, int b, struct two_way_words words,
                   double (*pressure_margin)(const struct switch_view *at, bool on),
                   double (*vacuum_margin)(const struct switch_view *at, bool on));

/* Flow through a seat that is open to a share, which goes with the difference of pressure from a to b; as far as it is
 * shut it leaks like a thin hole of `leak`. */
struct flow seat_flow(struct sloped share, double bore, double leak, double discharge, const struct gas *a,
                      const struct gas *b);

/* ---- seats over a float: float.c ---- */
struct float_seat {
    double drop;      /* m that liquid has to fall under the opening until the float is down */
    double holds_to;  /* Pa of difference that its weight is worth on its seat */
    double held_open; /* share of its opening that it does not shut */
};

/* Margin of its switch (on: it shuts the seat). tilted: it lies over and shuts whatever the liquid does. */
double float_margin(const struct float_seat *seat, const struct switch_view *at, bool tilted, bool on);

/* How far the seat is open, on: shut by its float, which may be jammed either way. */
double float_opening(bool on, double held_shut, double held_open);

/* The round hole that a seat open to a share is to a liquid [m]. */
double float_seeps(double open, double bore, double leak);

/* m of what diffuses: through a thin round hole its diameter, by the share of it that is open, and from there to the middle
 * of the gas at its ends, `within` 1/m. */
double float_reaches(double open, double bore, double within);

/* The part's passage from its end 0 to its end 1 and, where that is made, the switch of its float. Its constant: `within`. */
struct float_passage {
    passage_law *law;
    double bore;
    double (*seep)(const struct passage_view *at);
    double (*reaches)(const struct passage_view *at);
    double (*margin)(const struct switch_view *at, bool on);
};
void float_build(struct blueprint *into, int part, const struct float_passage *plan);

#endif
