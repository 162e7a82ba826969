"""A vented tank with a bed as ordinary differential equations, for tests/outside/day.py.

States are pressures, amounts of vapor and temperatures of gas, not amounts and energies as in the program: heats of
adsorption and of vaporization are sources of heat here, and the air is what the gas law leaves."""
from collections import namedtuple
from math import pi, sqrt

import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import csc_matrix, lil_matrix

from day_laws import (ADSORPTION, AIR, CARBON, CONDUCTS, FUEL, FUEL_MASS, GASOLINE, MASS, PLASTIC, R, RADIATION, ROOM,
                      STANDARD, STILL_AIR, VAPORIZATION, WARM, beside, blown, both, diffusivity, enthalpy, evaporation,
                      heat_capacity, hole, level, liquid_energy, liquid_heat_capacity, liquid_volume, loading, lying,
                      side, speed, standing, vapor_pressure, viscosity)

HOUR = 3600.0

TANK = {"volume": 45e-3, "height": 0.22, "level": 0.4, "layer": 0.1, "wall": 5e-3}
VAPOR_LINE = {"bore": 8e-3, "length": 1.5, "loss": 3.0, "cells": 4, "wall": 1.5e-3}
VENT_LINE = {"bore": 14e-3, "length": 0.4, "loss": 2.0, "cells": 3, "wall": 1.5e-3}
BED = {"length": 0.12, "cells": 20, "end_space": 5e-5, "wall": 2e-3, "film": 8.0}
VENT = 10e-3  # m

# Air outside: temperature, pressure over STANDARD, sun [W/m2], wind [m/s]; in a Weather, one of each for every hour.
Air = namedtuple("Air", "kelvin excess sun wind")


def cube(volume):
    return 6.0 * volume ** (2.0 / 3.0)


def columns_apart(sees):
    """Groups of columns that share no row."""
    groups, taken = [], []
    for column in range(sees.shape[1]):
        rows = set(sees.indices[sees.indptr[column]:sees.indptr[column + 1]])
        k = next((k for k, has in enumerate(taken) if not has & rows), len(groups))
        if k == len(groups):
            groups.append([])
            taken.append(set())
        groups[k].append(column)
        taken[k] |= rows
    return groups


class Plant:
    """Volumes in a row: layer, bulk, vapor line, tank's space, cells, air's space, vent line. Way k leads from volume k
    to k + 1, the last one to the air."""

    def __init__(self, bed, sunlit):
        self.bed, self.sunlit = bed, sunlit  # m3, m2
        near = 2 + VAPOR_LINE["cells"]
        far = near + BED["cells"] + 1
        self.ends = [near, far]
        self.vapor_line, self.cells = slice(2, near), slice(near + 1, far)
        self.vent_line = slice(far + 1, far + 1 + VENT_LINE["cells"])
        self.count = self.vent_line.stop
        self.carbon = bed / BED["cells"] * CARBON["density"]
        self.tank()
        self.stands(TANK["level"])
        self.walls()
        self.ways(near, far)

    def tank(self):
        t = TANK
        self.roof = t["volume"] / t["height"]
        self.edge = sqrt(self.roof) / 4.0  # area over perimeter
        self.sides = cube(t["volume"]) - 2.0 * self.roof
        self.across = 2.0 * sqrt(self.roof) / pi ** 2
        # as heat at 3 W/m2/K, by the power 2/3 of what spreads [CHILTON1934]: air 1186 J/m3/K, 2.1e-5 m2/s
        self.dew_transfer = 3.0 / 1186.0 * (diffusivity(ROOM, STANDARD) / 2.1e-5) ** (2.0 / 3.0)
        self.parts = np.array([t["layer"], 1.0 - t["layer"]])  # of the gas

    def stands(self, level):
        """What the liquid's share of the height parts: walls, ways through the gas at rest over it."""
        t = TANK
        self.dry, self.wet = self.sides * (1.0 - level), self.sides * level
        self.above, self.below = t["height"] * (1.0 - level), t["height"] * level
        self.upper, self.lower = ((self.roof + a) * t["wall"] * PLASTIC for a in (self.dry, self.wet))
        self.path = 0.5 * t["layer"] * self.above
        self.transfer = diffusivity(ROOM, STANDARD) / self.path

    def walls(self):
        """Of volumes from the vapor line on: heat capacity, conductance inside, area and size outside; room of all."""
        self.room, self.capacity, self.inside, self.outside = (np.zeros(self.count) for _ in range(4))
        self.size = np.ones(self.count)
        self.room[:2] = TANK["volume"] * self.parts
        self.room[self.ends] = BED["end_space"]
        self.room[self.cells] = self.bed / BED["cells"] * CARBON["gas"]
        for line, at in ((VAPOR_LINE, self.vapor_line), (VENT_LINE, self.vent_line)):
            cell = line["length"] / line["cells"]
            self.room[at] = pi / 4.0 * line["bore"] ** 2 * cell
            self.wall(at, pi * line["bore"] * cell, line["wall"], 3.66 * 0.026 / line["bore"],
                      line["bore"] + 2.0 * line["wall"])
        mantle = 2.0 * sqrt(pi * self.bed / BED["length"]) * BED["length"] / BED["cells"]
        self.wall(self.cells, mantle, BED["wall"], BED["film"], BED["length"])
        self.wall(self.ends, cube(BED["end_space"]), BED["wall"], BED["film"], BED["end_space"] ** (1.0 / 3.0))
        self.lie = np.r_[self.vapor_line, self.vent_line]
        self.stand = np.r_[self.ends[0]:self.ends[1] + 1]

    def wall(self, at, area, thickness, film, size):
        self.capacity[at] = area * thickness * PLASTIC
        self.inside[at], self.outside[at], self.size[at] = area * film, area, size

    def ways(self, near, far):
        n = self.count - 1
        self.area, self.rub, self.swirl, self.reach, self.conduct = (np.zeros(n) for _ in range(5))
        self.area[0], self.rub[0] = self.roof, 1.0  # the layer's way has a law of its own
        cells = VAPOR_LINE["cells"]
        self.tube(VAPOR_LINE, range(1, near), [0.5] + [1.0] * (cells - 1) + [0.5])
        cells = VENT_LINE["cells"]
        self.tube(VENT_LINE, range(far, far + cells), [0.5] + [1.0] * (cells - 1))
        c, face = CARBON, self.bed / BED["length"]
        solid, cube_void = 1.0 - c["void"], c["void"] ** 3
        for way in range(near, far):
            stretch = BED["length"] / BED["cells"] * (0.5 if way in (near, far - 1) else 1.0)
            self.area[way] = face
            self.rub[way] = 150.0 * solid ** 2 / (cube_void * c["grain"] ** 2) * stretch  # [ERGUN1952]
            self.swirl[way] = 1.75 * solid / (cube_void * c["grain"]) * stretch
            self.reach[way] = face * c["void"] / (c["tortuosity"] * stretch)
            self.conduct[way] = face * c["conducts"] / stretch

    def tube(self, line, ways, stretches):
        for way, stretch in zip(ways, stretches, strict=True):
            share = stretch / sum(stretches)
            length = line["length"] * share
            self.area[way] = pi / 4.0 * line["bore"] ** 2
            self.rub[way] = 32.0 * length / line["bore"] ** 2  # Hagen and Poiseuille
            self.swirl[way] = 0.5 * line["loss"] * share
            self.reach[way] = self.area[way] / length
            self.conduct[way] = 0.026 * self.area[way] / length


class Layout:
    """Which rows of the vector hold what, and which states a row sees."""

    NAMES = ("excess", "fuel", "kelvin", "wall", "air_load", "fuel_load", "liquid", "liquid_kelvin", "lower", "sent",
             "vented")
    SIZES = (10.0, 1e-3, 1.0, 1.0, 1e-2, 1e-2, 1.0, 1.0, 1.0, 1e-2, 1e-2)  # what is much: Pa, mol, K, K, mol ...

    def __init__(self, plant):
        n, c = plant.count, BED["cells"]
        edge = np.cumsum([0, n, n, n, n, c, c, 1, 1, 1, 1, 1])
        self.at = dict(zip(self.NAMES, (slice(a, b) for a, b in zip(edge, edge[1:]))))
        self.states = int(edge[-1])
        self.size = np.repeat(self.SIZES, np.diff(edge))
        self.sees = self.pattern(plant)
        self.groups = columns_apart(self.sees)
        self.column = np.repeat(np.arange(self.states), np.diff(self.sees.indptr))
        self.group = np.empty(self.states, dtype=int)
        for k, group in enumerate(self.groups):
            self.group[group] = k

    def split(self, y):
        return {name: y[at] for name, at in self.at.items()}

    def pattern(self, plant):
        first = {name: at.start for name, at in self.at.items()}

        def own(v):
            return [first[name] + v for name in ("excess", "fuel", "kelvin", "wall")]

        def all_of(v):
            c = v - plant.cells.start
            return own(v) + ([first["air_load"] + c, first["fuel_load"] + c] if 0 <= c < BED["cells"] else [])

        sees = lil_matrix((self.states, self.states), dtype=bool)
        tank = own(0) + own(1) + [first[name] for name in ("liquid", "liquid_kelvin", "lower")]
        for v in range(plant.count):
            for row in all_of(v):
                sees[row, all_of(v) + sum((own(w) for w in (v - 1, v + 1) if 0 <= w < plant.count), [])] = True
        for row in tank:
            sees[row, tank] = True
        sees[first["sent"], tank + own(2)] = True
        sees[own(2), first["liquid"]:first["lower"]] = True
        sees[first["vented"], own(plant.count - 1)] = True
        return sees.tocsc()

    def slopes(self, rates, y):
        """d rates / d y by differences, columns that no row sees together at once."""
        step = 1e-7 * self.size
        still = rates(y)
        moved = np.empty((len(self.groups), self.states))
        for k, group in enumerate(self.groups):
            there = y.copy()
            there[group] += step[group]
            moved[k] = rates(there) - still
        values = moved[self.group[self.column], self.sees.indices] / step[self.column]
        return csc_matrix((values, self.sees.indices, self.sees.indptr), shape=self.sees.shape)


class Day:
    """The plant in its weather (an Air of 25 hourly values each)."""

    def __init__(self, bed, weather, sunlit=0.0):
        self.plant, self.weather = Plant(bed, sunlit), weather
        self.layout = Layout(self.plant)

    def begin(self):
        plant, begun = self.plant, self.weather.kelvin[0]
        y = np.zeros(self.layout.states)
        at = self.layout.split(y)
        at["liquid"][:] = TANK["level"] * TANK["volume"] / liquid_volume(begun)[0]
        for name in ("kelvin", "wall", "liquid_kelvin", "lower"):
            at[name][:] = begun
        pressure = STANDARD + self.weather.excess[0]
        at["excess"][:] = self.weather.excess[0]
        at["fuel"][:2] = vapor_pressure(begun) * plant.room[:2] * (1.0 - TANK["level"]) / (R * begun)
        partial = np.array([np.full(BED["cells"], pressure), np.zeros(BED["cells"])])
        at["air_load"][:], at["fuel_load"][:] = plant.carbon * loading(partial, at["kelvin"][plant.cells])
        return y

    def air_at(self, time):
        hour = min(int(time / HOUR), 23)
        past = time / HOUR - hour
        return Air(*((1.0 - past) * of[hour] + past * of[hour + 1] for of in self.weather))

    def gas(self, at):
        """Pressure, room, amount, share of vapor of every volume."""
        room = self.plant.room.copy()
        room[:2] -= at["liquid"] * liquid_volume(at["liquid_kelvin"])[0] * self.plant.parts
        pressure = STANDARD + at["excess"]
        amount = pressure * room / (R * at["kelvin"])
        return pressure, room, amount, at["fuel"] / amount

    def rates(self, air, y):
        plant, at = self.plant, self.layout.split(y)
        plant.stands(at["liquid"][0] * liquid_volume(at["liquid_kelvin"][0])[0] / TANK["volume"])
        gap = 0.5 * plant.above
        plant.reach[0], plant.conduct[0] = plant.roof / gap, CONDUCTS * plant.roof / gap
        dy = np.zeros_like(y)
        d = self.layout.split(dy)
        pressure, room, amount, x = self.gas(at)
        into = np.zeros((2, plant.count))  # mol/s of air, vapor
        heat = np.zeros(plant.count)       # W that warm what is there: C dT/dt
        d["sent"][:], d["vented"][:] = self.streams(air, at, x, into, heat)
        d["air_load"][:], d["fuel_load"][:] = self.take_up(at, x, pressure, into, heat)
        self.warm_walls(air, at, heat, d)
        grows = self.pool(air, at, x, pressure, into, heat, d)
        self.hand_over(at, grows, d)

        cp = heat_capacity(at["kelvin"])
        capacity = (amount - at["fuel"]) * (cp[AIR] - R) + at["fuel"] * (cp[FUEL] - R)
        capacity[plant.cells] += (plant.carbon * CARBON["heat"] + at["air_load"] * cp[AIR][plant.cells]
                                  + at["fuel_load"] * cp[FUEL][plant.cells])
        d["fuel"][:], d["kelvin"][:] = into[FUEL], heat / capacity
        d["excess"][:] = R * (at["kelvin"] * into.sum(axis=0) + amount * d["kelvin"]) / room  # pV = nRT
        d["excess"][:2] += pressure[:2] * grows * plant.parts / room[:2]
        return dy

    def flows(self, air, at, x):
        """mol/s along every way."""
        plant, excess, kelvin = self.plant, at["excess"], at["kelvin"]
        mass, mu = MASS[AIR] + x * (MASS[FUEL] - MASS[AIR]), viscosity(x, kelvin)

        def mean(of):
            return 0.5 * (of[:-1] + of[1:])

        step = excess[:-1] - excess[1:]
        density = (STANDARD + mean(excess)) / (R * mean(kelvin))  # mol/m3
        flow = np.empty(plant.count)
        flow[:-1] = plant.area * density * speed(step, plant.rub, plant.swirl, mean(mu), density * mean(mass))
        flow[0] = 0.05 * plant.roof * step[0]  # hardly any resistance between layer and bulk
        over = excess[-1] - air.excess
        if over >= 0.0:
            flow[-1] = hole(VENT, over, STANDARD + excess[-1], kelvin[-1], mass[-1], mu[-1])
        else:
            flow[-1] = -hole(VENT, -over, STANDARD + air.excess, air.kelvin, MASS[AIR], viscosity(0.0, air.kelvin))
        return flow

    def streams(self, air, at, x, into, heat):
        """Flow, diffusion and conduction of all ways; vapor [mol/s] out of the tank and out of the vent."""
        plant, kelvin, flow = self.plant, at["kelvin"], self.flows(air, at, x)
        next_x, next_kelvin = np.append(x[1:], 0.0), np.append(kelvin[1:], air.kelvin)
        warmth = 0.5 * (kelvin + next_kelvin)
        reach = np.append(plant.reach, pi / 4.0 * VENT)  # the vent's way is one bore long
        spreads = reach * STANDARD / (R * WARM) * diffusivity(WARM, STANDARD) * (warmth / WARM) ** 0.75
        spread = beside(spreads, flow) * (x - next_x)  # vapor one way, air the other
        carried, source = np.where(flow >= 0.0, (x, kelvin), (next_x, next_kelvin))
        moved = np.array([flow * (1.0 - carried), flow * carried])
        near, far = enthalpy(kelvin), enthalpy(next_kelvin)
        swapped = 0.5 * (near + far)
        brought = (enthalpy(source) * moved).sum(axis=0) + spread * (swapped[FUEL] - swapped[AIR])
        brought[:-1] += plant.conduct * (kelvin[:-1] - kelvin[1:])
        moved += np.array([-spread, spread])
        into -= moved
        into[:, 1:] += moved[:, :-1]
        heat -= brought - ((near - R * kelvin) * moved).sum(axis=0)
        heat[1:] += (brought - ((far - R * next_kelvin) * moved).sum(axis=0))[:-1]
        return moved[FUEL][1], moved[FUEL][-1]

    def take_up(self, at, x, pressure, into, heat):
        """mol/s of air, vapor into the carbon of every cell, by linear driving force."""
        cells, kelvin = self.plant.cells, at["kelvin"][self.plant.cells]
        partial = np.array([1.0 - x[cells], x[cells]]) * pressure[cells]
        held = np.array([at["air_load"], at["fuel_load"]])
        taken = CARBON["rate"] * (self.plant.carbon * loading(partial, kelvin) - held)
        into[:, cells] -= taken
        heat[cells] += ((ADSORPTION[:, None] - R * kelvin) * taken).sum(axis=0)  # u of gas goes, h - E of load comes
        return taken

    def warm_walls(self, air, at, heat, d):
        """From the vapor line on; then the tank's upper wall, which passes heat to the bulk."""
        plant, kelvin, wall = self.plant, at["kelvin"], at["wall"]
        inward = plant.inside * (wall - kelvin)
        heat += inward
        warmer, film = wall - air.kelvin, np.zeros(plant.count)
        film[plant.lie] = lying(STILL_AIR, plant.size[plant.lie], warmer[plant.lie])
        film[plant.stand] = standing(STILL_AIR, plant.size[plant.stand], warmer[plant.stand])
        film = both(film, blown(STILL_AIR, plant.size, air.wind)) + RADIATION
        d["wall"][2:] = (-inward - film * plant.outside * warmer)[2:] / plant.capacity[2:]

        difference = wall[1] - kelvin[1]
        inward = difference * (plant.roof * level(STILL_AIR, plant.edge, -difference, 0.5 * plant.above)
                               + plant.dry * side(STILL_AIR, plant.above, difference, plant.across))
        heat[1] += inward
        lost = self.lost(air, wall[1], 1.0, plant.dry, plant.above)
        d["wall"][1] = (plant.sunlit * air.sun - inward - lost) / plant.upper

    def lost(self, air, wall, up, sides, height):
        """W from half of the tank's wall to the air; up: +1 where its level part is a roof, -1 a floor."""
        plant, warmer = self.plant, wall - air.kelvin
        flat = both(level(STILL_AIR, plant.edge, up * warmer), blown(STILL_AIR, plant.edge, air.wind))
        stand = both(standing(STILL_AIR, height, warmer), blown(STILL_AIR, height, air.wind))
        return warmer * (plant.roof * (flat + RADIATION) + sides * (stand + RADIATION))

    def pool(self, air, at, x, pressure, into, heat, d):
        """The liquid; m3/s that it swells by."""
        plant = self.plant
        liquid, warm, lower = at["liquid"][0], at["liquid_kelvin"][0], at["lower"][0]
        over, roof = at["kelvin"][0], at["wall"][1]
        molar, swell = liquid_volume(warm)
        leaves = evaporation(plant.transfer, plant.roof, pressure[0], x[0], warm)  # mol/s
        source = warm if leaves > 0.0 else over
        passed = CONDUCTS * plant.roof / plant.path * (warm - over)
        into[FUEL][0] += leaves
        heat[0] += passed + leaves * (enthalpy(source) - enthalpy(over) + R * over)[FUEL]

        difference = lower - warm
        warmed = difference * (plant.roof * level(GASOLINE, plant.edge, difference, 0.5 * plant.below)
                               + plant.wet * side(GASOLINE, plant.below, difference, plant.across))
        radiated = RADIATION * plant.roof * (roof - warm)
        d["wall"][1] -= radiated / plant.upper
        dew = self.dew(at, x, pressure, into, heat, d)
        # what a mol takes beyond what the liquid loses with it; p dV of what is left goes to the gas
        takes = VAPORIZATION + enthalpy(source)[FUEL] - liquid_energy(warm)
        push = plant.parts @ pressure[:2]
        warming = ((warmed + radiated - passed - leaves * (takes - push * molar)
                    + dew * (liquid_energy(roof) - liquid_energy(warm) - push * molar))
                   / (liquid * (liquid_heat_capacity(warm) + push * swell)))
        grows = liquid * swell * warming - (leaves - dew) * molar
        heat[:2] += pressure[:2] * grows * plant.parts
        d["liquid"][:], d["liquid_kelvin"][:] = dew - leaves, warming
        d["lower"][:] = (-warmed - self.lost(air, lower, -1.0, plant.wet, plant.below)) / plant.lower
        return grows

    def hand_over(self, at, grows, d):
        """A rising liquid takes wall of the gas over as warm as that is, a falling one gives it back."""
        plant, roof, lower = self.plant, at["wall"][1], at["lower"][0]
        handed = plant.sides / TANK["volume"] * TANK["wall"] * PLASTIC * grows * (roof - lower)  # W
        if grows > 0.0:
            d["lower"][:] += handed / plant.lower
        else:
            d["wall"][1] += handed / plant.upper

    def dew(self, at, x, pressure, into, heat, d):
        """mol/s that condense on the roof and the sides over the liquid, and run down as cold as those are."""
        plant, over, roof = self.plant, at["kelvin"][1], at["wall"][1]
        t = min(max((pressure[1] * x[1] - vapor_pressure(roof)) / 200.0, 0.0), 1.0)
        if t == 0.0:
            return 0.0
        dew = -t * t * (3.0 - 2.0 * t) * evaporation(plant.dew_transfer, plant.roof + plant.dry, pressure[1], x[1], roof)
        source = over if dew > 0.0 else roof
        into[FUEL][1] -= dew
        heat[1] -= dew * (enthalpy(source) - enthalpy(over) + R * over)[FUEL]
        d["wall"][1] += dew * (VAPORIZATION + enthalpy(source)[FUEL] - liquid_energy(roof)) / plant.upper
        return dew

    def run(self, every, rtol):
        """Times and states; begun anew every hour, where the weather has a corner."""
        times, states, y = [0.0], [self.begin()], self.begin()
        for begun in np.arange(24) * HOUR:
            def rates(time, y):
                return self.rates(self.air_at(time), y)

            done = solve_ivp(rates, (begun, begun + HOUR), y, method="BDF", first_step=0.5,
                             t_eval=begun + np.arange(every, HOUR + 0.5 * every, every),
                             rtol=rtol, atol=rtol * self.layout.size,
                             jac=lambda time, y: self.layout.slopes(lambda y: rates(time, y), y))
            if not done.success:
                raise ArithmeticError(done.message)
            times += list(done.t)
            states += list(done.y.T)
            y = states[-1]
        return np.array(times), np.array(states)

    def shown(self, time, y):
        """What the program's channels show, SI; grams sent into the vapor line and vented."""
        plant, at = self.plant, self.layout.split(y)
        air = self.air_at(time)
        x = self.gas(at)[3]
        kelvin = at["kelvin"]
        middle = plant.vent_line.start + VENT_LINE["cells"] // 2
        return {"tank.liquid_temperature": at["liquid_kelvin"][0],
                "tank.temperature": kelvin[1],
                "tank.wall_temperature": at["wall"][1],
                "tank.gauge_pressure": at["excess"][1] - air.excess,
                "tank.fuel": at["liquid"][0] * FUEL_MASS,
                "tank.fuel_vapor": x[1],
                "tank.film_vapor": x[0],
                "canister.load": at["fuel_load"].sum() * FUEL_MASS,
                "canister.hottest": kelvin[plant.cells].max(),
                "canister.coldest": kelvin[plant.cells].min(),
                "canister.fuel_vapor": x[plant.ends[0]],
                "vent-line.fuel_vapor": x[middle],
                "sent": 1e3 * FUEL_MASS * at["sent"][0],
                "vented": 1e3 * FUEL_MASS * at["vented"][0]}

    def cells(self, y):
        """Load [kg of vapor], temperature and share of vapor of every cell, [3, cells]."""
        at, cells = self.layout.split(y), self.plant.cells
        return np.array([at["fuel_load"] * FUEL_MASS, at["kelvin"][cells], self.gas(at)[3][cells]])

    def reynolds(self, time, y):
        """The largest in the lines, each told with the narrower line's bore."""
        at = self.layout.split(y)
        x = self.gas(at)[3]
        flow = np.abs(self.flows(self.air_at(time), at, x))
        mass = MASS[AIR] + x * (MASS[FUEL] - MASS[AIR])
        return (4.0 * flow[1:] * mass[1:] / (pi * VAPOR_LINE["bore"] * viscosity(x, at["kelvin"])[1:])).max()
