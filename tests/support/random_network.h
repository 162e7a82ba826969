/* tests/support/random_network.h  A scenario drawn at random, as the text of a file: vessels in a tree of lines, holes of
 * every shape that come and go, valves that move, a supply with its meter, an engine or a manifold, weather. */
#ifndef SUPPORT_RANDOM_NETWORK_H
#define SUPPORT_RANDOM_NETWORK_H

#include "support/near.h"

#include <stdbool.h>

enum { RANDOM_TEXT = 16384 };

struct drawing {
    uint64_t stream;
    char *text;
    size_t filled;
};

static inline double draw_between(struct drawing *at, double least, double most)
{
    return least + (most - least) * near_draw(&at->stream);
}

/* Evenly in the logarithm: sizes spread over decades. */
static inline double draw_log(struct drawing *at, double least, double most)
{
    return least * pow(most / least, near_draw(&at->stream));
}

static inline int draw_count(struct drawing *at, int least, int most)
{
    const int picked = least + (int)(near_draw(&at->stream) * (most - least + 1));
    return picked > most ? most : picked;
}

static inline void draw_text(struct drawing *at, const char *format, ...) __attribute__((format(printf, 2, 3)));

static inline void draw_text(struct drawing *at, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const int wrote = vsnprintf(at->text + at->filled, RANDOM_TEXT - at->filled, format, arguments);
    va_end(arguments);
    if (wrote < 0 || at->filled + (size_t)wrote >= RANDOM_TEXT)
        fail_msg("a drawn network does not fit into its text");
    at->filled += (size_t)wrote;
}

static inline void draw_hole(struct drawing *at, int index, int vessel)
{
    draw_text(at, "    hole-%d: {type: hole, from: v%d, to: air, ", index, vessel);
    const int shape = draw_count(at, 0, 5);
    const double size = draw_log(at, 0.15, 3.0);
    switch (shape) {
    case 1:
        draw_text(at, "shape: slit, width: %.4g cm, gap: 0.03 mm, wall: 2 mm}\n", size);
        break;
    case 2:
        draw_text(at, "shape: porous, permeability: 1e-12 m2, area: %.4g cm2, wall: 4 mm}\n", size);
        break;
    case 3:
        draw_text(at, "shape: crack, passes: %.4g L/min}\n", size);
        break;
    default:
        draw_text(at, "diameter: %.4g mm, wall: %.3g mm}\n", size, draw_between(at, 0.0, 2.0));
    }
}

/* What a bed suffers, from a stream of its own: one bed in three is sound. */
static inline void draw_bed_faults(struct drawing *at, bool fuelled)
{
    struct drawing aside = {at->stream ^ 0x5bd1e995u, NULL, 0};
    if (draw_count(&aside, 0, 2) == 0)
        return;
    draw_text(at, ", channelled: %.3g, dusted: %.3g, aged: %.3g", draw_between(&aside, 0.0, 0.5),
              draw_between(&aside, 0.0, 0.3), draw_between(&aside, 0.0, 0.8));
    if (fuelled)
        draw_text(at, ", wet: %.3g", draw_between(&aside, 0.0, 0.6));
}

/* Liquid elsewhere than in the tank, from a stream of its own: in the sump of the bed, in a line that begins under liquid. */
static inline void draw_sump(struct drawing *at, bool fuelled)
{
    struct drawing aside = {at->stream ^ 0x9e3779b9u, NULL, 0};
    const double sump = draw_log(&aside, 1.0, 100.0), spot = draw_log(&aside, 0.5, 20.0);
    if (!fuelled || draw_count(&aside, 0, 2) == 0) {
        draw_text(at, "}\n");
        return;
    }
    draw_text(at, ", sump: %.3g mL, liquid: %.3g mL}\n", sump,
              draw_count(&aside, 0, 1) * draw_between(&aside, 0.0, sump));
    draw_text(at,
              "    under: {type: line, from: t.%s, to: bed.tank, bore: %.3g mm, length: 2 m, low_spot: %.3g mL, "
              "low_spot_height: %.3g mm, liquid: %.3g mL}\n",
              draw_count(&aside, 0, 1) ? "low" : "high", draw_between(&aside, 5.0, 10.0), spot,
              draw_log(&aside, 10.0, 120.0), draw_between(&aside, 0.0, spot));
}

/* What opens and shuts by itself. */
static inline void draw_seats(struct drawing *at, int vessels)
{
    static const char *const height[] = {"low", "high", "top"};
    draw_text(
        at,
        "    relief: {type: relief, from: v%d, to: air, bore: %.3g mm, opening_pressure: %.4g Pa, opening_vacuum: "
        "%.4g Pa, hysteresis: %d %%, overpressure: %.3g}\n",
        draw_count(at, 0, vessels - 1), draw_log(at, 0.5, 6.0), draw_log(at, 50.0, 5000.0), draw_log(at, 50.0, 5000.0),
        draw_count(at, 1, 60), draw_log(at, 0.1, 3.0));
    draw_text(at,
              "    check: {type: check-valve, from: v%d, to: bed.purge, bore: %.3g mm, opening_pressure: %.4g Pa}\n",
              draw_count(at, 0, vessels - 1), draw_log(at, 0.5, 4.0), draw_log(at, 20.0, 2000.0));
    draw_text(
        at, "    cap: {type: cap, of: v%d, opening_pressure: %.4g kPa, opening_vacuum: %.4g kPa, seal_leak: 0.1 mm}\n",
        draw_count(at, 0, vessels - 1), draw_log(at, 1.0, 20.0), draw_log(at, 1.0, 10.0));
    draw_text(at, "    roll-over: {type: roll-over, from: t.%s, to: v0, seat_leak: 0.2 mm}\n",
              height[draw_count(at, 0, 2)]);
    draw_text(at, "    limit: {type: fill-limit, from: t.%s, to: v%d, bore: %.3g mm, drop: %.3g mm}\n",
              height[draw_count(at, 0, 2)], draw_count(at, 0, vessels - 1), draw_log(at, 2.0, 16.0),
              draw_log(at, 0.2, 20.0));
    draw_text(at, "    seep: {type: hole, from: t.%s, to: air, diameter: %.3g mm}\n", height[draw_count(at, 0, 2)],
              draw_log(at, 0.1, 2.0));
    draw_text(
        at,
        "    nozzle: {type: nozzle, into: t, draws: v%d, rate: %.3g L/min, spout: %.3g mm, temperature: %.3g degC,\n"
        "             mouth: 300 mm}\n",
        draw_count(at, 0, vessels - 1), draw_log(at, 0.1, 5.0), draw_between(at, 20.0, 250.0),
        draw_between(at, 10.0, 30.0));
}

/* Draws on a stream of its own, so that the rest of a network does not hang on it. */
static inline void draw_intake(struct drawing *at, double pressure)
{
    static const char *const load[] = {"idle", "town", "motorway", "boost"};
    struct drawing aside = {at->stream + 1, at->text, at->filled};
    switch (draw_count(&aside, 0, 2)) {
    case 0:
        draw_text(&aside, "    intake: {type: manifold, pressure: %.4g kPa}\n", pressure);
        break;
    case 1:
        draw_text(&aside, "    intake: {type: engine, normally: %s, delay: %.2g s, correction_limit: %d %%}\n",
                  load[draw_count(&aside, 0, 3)], draw_between(&aside, 0.1, 2.0), draw_count(&aside, 5, 40));
        break;
    default:
        draw_text(&aside,
                  "    intake: {type: engine, trace: [[0 s, 40 kPa, 4 g/s], [%d s, %.3g kPa, 12 g/s], [1 h, 45 kPa, 8 "
                  "g/s]]}\n",
                  draw_count(&aside, 10, 3000), draw_between(&aside, 30.0, 120.0));
    }
    draw_text(&aside, "    purge: {type: valve, to: intake, normally: shut, closes_in: 20 ms, pulses: %.2g Hz, ",
              draw_count(&aside, 0, 1) * draw_between(&aside, 0.02, 0.1));
    at->filled = aside.filled;
}

static inline void draw_parts(struct drawing *at, int vessels, int holes, bool fuelled)
{
    draw_text(at, "system:\n  parts:\n");
    for (int v = 0; v < vessels; v++) {
        const double litres = draw_log(at, 0.05, 60.0);
        const bool gives = draw_count(at, 0, 2) == 0;
        draw_text(at, "    v%d: {type: vessel, volume: %.5g L, give: %.3g L/kPa}\n", v, litres,
                  gives ? 0.004 * litres : 0.0);
    }
    for (int v = 1; v < vessels; v++)
        draw_text(
            at, "    line-%d: {type: line, from: v%d, to: v%d, bore: %.3g mm, length: %.3g m, cells: %d, loss: %.2g}\n",
            v, draw_count(at, 0, v - 1), v, draw_log(at, 2.0, 14.0), draw_log(at, 0.1, 4.0), draw_count(at, 1, 4),
            draw_between(at, 0.0, 4.0));
    const double tank = draw_log(at, 5.0, 60.0);
    /* At 90 % full a shell that gave more could be sucked flat by the intake, and there would be no gas space left. */
    draw_text(at,
              "    t: {type: tank, volume: %.3g L, height: 20 cm, give: %.3g L/kPa, creep: %.3g L/kPa, layer: %.2g, ",
              tank, draw_between(at, 0.0, 0.001 * tank), draw_count(at, 0, 1) * draw_between(at, 0.0, 0.001 * tank),
              draw_count(at, 0, 2) * draw_between(at, 0.02, 0.2));
    draw_text(at,
              "stirred: %.2g cm/s, sunlit: %.2g m2, exhaust: %d W, returned: %d W, wall_thickness: %d mm, "
              "levels: [[0 L, 0 mm], [%.3g L, 90 mm], [%.3g L, 20 cm]], "
              "openings: {low: 60 mm, high: 150 mm, top: 195 mm}}\n",
              draw_count(at, 0, 1) * draw_between(at, 0.0, 5.0), draw_between(at, 0.0, 0.2), draw_count(at, 0, 100),
              draw_count(at, 0, 50), draw_count(at, 0, 5), 0.5 * tank, tank);
    draw_text(at, "    t-line: {type: line, from: t, to: v0, bore: 8 mm, length: 1 m}\n");
    draw_text(at, "    bed: {type: canister, beds: [{volume: %.3g L, length: 20 cm, cells: %d, carbon: %s",
              draw_log(at, 0.05, 2.0), draw_count(at, 1, 5), draw_count(at, 0, 1) ? "stock" : "dense");
    draw_bed_faults(at, fuelled);
    draw_text(at, "}]");
    draw_sump(at, fuelled);
    draw_text(at, "    bed-line: {type: line, from: v0, to: bed.tank, bore: 8 mm, length: 1 m}\n");
    draw_text(at, "    bed-leak: {type: hole, from: bed.air, to: air, diameter: %.3g mm}\n", draw_log(at, 0.2, 3.0));
    for (int h = 0; h < holes; h++)
        draw_hole(at, h, draw_count(at, 0, vessels - 1));
    draw_text(at,
              "    vent: {type: valve, from: v%d, to: air, bore: %.3g mm, normally: open, closes_in: %d ms, seat_leak: "
              "%.2g mm}\n",
              draw_count(at, 0, vessels - 1), draw_log(at, 1.0, 12.0), draw_count(at, 0, 200),
              draw_between(at, 0.0, 0.3));
    draw_intake(at, draw_between(at, 30.0, 101.0));
    draw_text(at, "from: v%d, bore: %.3g mm}\n", draw_count(at, 0, vessels - 1), draw_log(at, 0.5, 4.0));
    draw_seats(at, vessels);
    draw_text(at, "    port: {type: port, of: v%d}\n", draw_count(at, 0, vessels - 1));
    draw_text(at, "    sensor: {type: sensor, of: v0, time_constant: %.3g s}\n", draw_log(at, 0.01, 1.0));
    draw_text(at,
              "equipment:\n  supply: {type: supply, gauge_pressure: %.3g kPa, flow_limit: %.3g L/min, gas: %s, "
              "tracer: smoke}\n  meter: {type: meter, of: supply, time_constant: 1 s}\n",
              draw_between(at, 0.5, 5.0), draw_between(at, 3.0, 20.0),
              draw_count(at, 0, 1) ? "nitrogen" : "carbon dioxide");
}

static inline void draw_start(struct drawing *at, int vessels, bool isothermal)
{
    static const char *const gas[] = {"air", "nitrogen", "carbon dioxide", "{air: 30 %, carbon dioxide: 70 %}"};
    draw_text(at, "start:\n");
    for (int v = 0; v < vessels; v++)
        draw_text(at, "  v%d: {gauge_pressure: %.4g kPa, temperature: %.4g degC, gas: %s}\n", v,
                  draw_between(at, -20.0, 20.0), isothermal ? 20.0 : draw_between(at, 0.0, 50.0),
                  gas[draw_count(at, 0, 3)]);
}

static inline void draw_faults(struct drawing *at, int vessels)
{
    draw_text(at, "faults:\n");
    draw_text(at, "  - {id: comes, fault: leak, where: v%d, diameter: %.3g mm, from: %d s, ramp: %d s}\n",
              draw_count(at, 0, vessels - 1), draw_log(at, 0.2, 2.0), draw_count(at, 1, 900), draw_count(at, 0, 60));
    draw_text(at,
              "  - {id: blinks, fault: leak, where: v%d, diameter: %.3g mm, from: 2000 s, until: 2200 s, every: 20 s, "
              "for: %d s}\n",
              draw_count(at, 0, vessels - 1), draw_log(at, 0.2, 2.0), draw_count(at, 1, 19));
}

/* Liquid that comes and goes, from a stream of its own. */
static inline void draw_poured(struct drawing *at)
{
    struct drawing aside = {at->stream ^ 0x51ed27u, NULL, 0};
    const bool mixed = !strstr(at->text, "quick") && !strstr(at->text, "n-pentane: 100 %");
    draw_text(at, "  - {id: full, fault: overfilled, where: t, volume: %.3g L, from: %d s, until: %d s}\n",
              draw_log(&aside, 0.01, 5.0), draw_count(&aside, 1, 1500), draw_count(&aside, 1510, 4000));
    draw_text(at, "  - {id: soaked, fault: wet, where: bed, share: %.3g, from: %d s, ramp: %.3g s}\n",
              draw_log(&aside, 0.001, 0.5), draw_count(&aside, 1, 3000), draw_log(&aside, 1.0, 300.0));
    if (mixed)
        draw_text(at, "  - {id: other, fault: %s, where: t, pressure: %.3g kPa, from: %d s, until: %d s}\n",
                  draw_count(&aside, 0, 1) ? "old-fuel" : "wrong-blend", draw_log(&aside, 0.01, 10.0),
                  draw_count(&aside, 1, 1500), draw_count(&aside, 1510, 4000));
    if (strstr(at->text, "under:"))
        draw_text(at, "  - {id: dip, fault: liquid-in-low-spot, where: under, volume: %.3g mL, from: %d s, until: %d s}\n",
                  draw_log(&aside, 0.01, 5.0), draw_count(&aside, 1, 1500), draw_count(&aside, 1510, 4000));
}

/* One hour, in steps that move valves and join the supply. */
static inline void draw_procedure(struct drawing *at)
{
    draw_text(at, "procedure:\n  steps:\n    - wait: {for: %d s}\n    - set: {vent: shut}\n", draw_count(at, 1, 600));
    draw_text(at, "    - join: {supply: port}\n    - wait: {for: %d s}\n", draw_count(at, 10, 900));
    draw_text(at, "    - set: {purge: %d %%}\n    - wait: {for: %d s}\n", draw_count(at, 5, 100),
              draw_count(at, 1, 300));
    draw_text(at,
              "    - set: {purge: shut}\n    - part_from: supply\n    - wait: {for: %d s}\n    - set: {vent: open}\n"
              "    - set: {nozzle: filling}\n    - wait: {for: %d s}\n    - set: {nozzle: off}\n",
              draw_count(at, 10, 900), draw_count(at, 1, 200));
}

/* What a hand makes of the weather meanwhile, drawn last. */
static inline void draw_weather(struct drawing *at)
{
    draw_text(
        at,
        "by_hand:\n  - {at: %d s, set: {surroundings.temperature: %.3g degC ramp=%ds, surroundings.sun: %d W/m2}}\n",
        draw_count(at, 0, 900), draw_between(at, 5.0, 40.0), draw_count(at, 10, 900), draw_count(at, 0, 1000));
    draw_text(at, "  - {at: %d s, set: {surroundings.altitude: %d m ramp=%ds, surroundings.wind: %.2g m/s}}\n",
              draw_count(at, 900, 1500), draw_count(at, 0, 3000), draw_count(at, 10, 600), draw_between(at, 0.0, 9.0));
    draw_text(at, "  - {at: %d s, set: {surroundings.temperature: as-in-file ramp=%ds}}\n", draw_count(at, 1500, 3000),
              draw_count(at, 10, 900));
}

/* Writes scenario number `seed` into text[RANDOM_TEXT]. */
static inline void random_network(uint64_t seed, char *text)
{
    struct drawing at = {seed * 1000003u + 17u, text, 0};
    const int vessels = draw_count(&at, 1, 6), holes = draw_count(&at, 0, 4);
    const int heat = draw_count(&at, 0, 5);
    static const char *const law[] = {"isothermal", "adiabatic"};
    static const char *const fuel[] = {"rvp: 9 psi", "rvp: 9 psi, fuel: quick", "components: {n-pentane: 100 %}",
                                       "components: {n-pentane: 60 %, ethanol: 10 %, toluene: 30 %}",
                                       "components: {n-butane: 5 %, isooctane: 95 %}"};
    draw_text(&at, "ullage: scenario/1\nname: drawn\nend: 1 h\n");
    if (heat < 2)
        draw_text(&at, "assume: {heat: %s%s}\n", law[heat], draw_count(&at, 0, 1) ? ", discharge: 0.7" : "");
    draw_text(&at,
              "surroundings: {altitude: %d m, temperature: [[0 h, 20 degC], [30 min, %.3g degC], [1 h, 25 degC]], "
              "sun: [[0 h, 0 W/m2], [20 min, %d W/m2]], wind: %.2g m/s}\n",
              draw_count(&at, 0, 3000), draw_between(&at, 10.0, 35.0), draw_count(&at, 0, 900),
              draw_count(&at, 0, 1) * draw_between(&at, 0.0, 6.0));
    if (heat > 0)
        draw_text(&at, "fill: {level: %d %%, temperature: %.3g degC, %s}\n", draw_count(&at, 5, 90),
                  draw_between(&at, 5.0, 35.0), fuel[draw_count(&at, 0, 4)]);
    draw_parts(&at, vessels, holes, heat > 0);
    draw_start(&at, vessels, heat == 0);
    draw_faults(&at, vessels);
    if (heat > 0)
        draw_poured(&at);
    draw_procedure(&at);
    draw_weather(&at);
}

#endif
