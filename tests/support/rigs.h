/* tests/support/rigs.h  Small scenarios that many tests run. */
#ifndef SUPPORT_RIGS_H
#define SUPPORT_RIGS_H

/* A tank that gives behind a line, a second space, a vent that shuts, shop gas that is joined, a hole that opens. Full
 * heat, full laws: everything moves at once. */
static const char rig_pull_up[] =
    "ullage: scenario/1\nname: pull-up\n"
    "surroundings: {pressure: 101325 Pa, temperature: [[0 s, 20 degC], [10 min, 24 degC]]}\n"
    "system:\n  parts:\n"
    "    tank: {type: tank, volume: 45 L, give: 0.2 L/kPa}\n"
    "    vapor-line: {type: line, from: tank, to: canister.tank, bore: 8 mm, length: 1.5 m, cells: 3, loss: 2}\n"
    "    canister: {type: canister, beds: [{volume: 1.4 L, length: 250 mm}]}\n"
    "    vent-line: {type: line, from: canister.air, to: vent, bore: 14 mm, length: 0.4 m}\n"
    "    vent: {type: valve, from: vent-line, to: air, bore: 10 mm, normally: open, closes_in: 50 ms}\n"
    "    port: {type: port, of: canister}\n"
    "    leak: {type: hole, from: tank, to: air, diameter: 0.5 mm, wall: 1 mm, normally: plugged}\n"
    "equipment:\n"
    "  supply: {type: supply, gauge_pressure: 3.0 kPa, flow_limit: 15 L/min, gas: nitrogen, tracer: smoke}\n"
    "  meter: {type: meter, of: supply, time_constant: 1 s}\n"
    "procedure:\n  steps:\n"
    "    - set: {vent: shut}\n    - join: {supply: port}\n    - wait: {for: 90 s}\n"
    "    - read: {filled: tank.gauge_pressure, smoke: tank.smoke, warm: tank.temperature}\n"
    "    - set: {leak: open}\n    - wait: {for: 60 s}\n"
    "    - read: {leaking: tank.gauge_pressure, hole: meter.hole, flow: leak.flow, share: canister.nitrogen}\n"
    "    - set: {vent: open}\n    - wait: {for: 5 s}\n"
    "    - read: {vented: tank.gauge_pressure, left: tank.amount}\n"
    "record: {every: 0.5 s, channels: [tank.gauge_pressure, meter.hole, vent.flow]}\n";

/* One vessel that empties slowly into another while both trade heat: smooth and mildly stiff. */
static const char rig_smooth[] =
    "ullage: scenario/1\nname: smooth\n"
    "surroundings: {pressure: 101325 Pa, temperature: 20 degC}\n"
    "system:\n  parts:\n"
    "    near: {type: vessel, volume: 20 L}\n"
    "    far: {type: vessel, volume: 0.5 L}\n"
    "    line: {type: line, from: near, to: far, bore: 4 mm, length: 2 m}\n"
    "    out: {type: hole, from: far, to: air, diameter: 0.8 mm, wall: 0.5 mm}\n"
    "start:\n  near: {gauge_pressure: 20 kPa, temperature: 40 degC, gas: carbon dioxide}\n"
    "  far: {gauge_pressure: 20 kPa}\n"
    "procedure:\n  steps:\n    - wait: {for: 40 s}\n"
    "    - read: {near: near.gauge_pressure, far: far.gauge_pressure, temperature: near.temperature, share: far.air}\n";

#endif
