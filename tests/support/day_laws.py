"""Substances and laws of a tank with carbon, coded anew from their equations for tests/outside/day.py. SI units.

Figures are the program's own data, with its sources (sim/sources.md); nothing else is shared with it."""
from math import exp, log, log10, pi, sqrt

import numpy as np

R = 8.31446261815324  # J/mol/K
STANDARD = 101325.0   # Pa
ROOM = 293.15         # K: where properties that the model takes as constant are taken
WARM = 298.15         # K: where heats and isotherms are given
ZERO = 273.15

# ---- gases and the quick fuel ----

RVP = 9.0  # psi
AIR, FUEL = 0, 1
FUEL_MASS = 66e-3 + (10.0 - RVP) * 2e-3 / 3.0  # kg/mol of the vapor [AP42], 7 to 10 psi
MASS = np.array([28.9647e-3, FUEL_MASS])
CP = np.array([3.5 * R, 1650.0 * FUEL_MASS])   # J/mol/K of the gases at 298.15 K [POLING5], [SURROGATE7]
CP_SLOPE = np.array([0.00156, 4.5 * FUEL_MASS])  # J/mol/K2, the same
LIQUID_CP, LIQUID_CP_SLOPE = 2000.0 * FUEL_MASS, 3.55 * FUEL_MASS  # of the liquid [SURROGATE7]
VAPORIZATION = 345e3 * FUEL_MASS               # J/mol at 298.15 K [SURROGATE7]
VISCOSITY = ((1.425e-6, 0.5039, 108.3), (6.3412e-8, 0.84758, 41.718))  # Pa s: air, vapor as n-pentane [PERRY8]
SPREAD = np.array([19.7, 1480.0 * FUEL_MASS])  # diffusion volumes [FULLER1969]


def heat_capacity(kelvin):
    """J/mol/K of both gases."""
    return np.add.outer(CP, 0.0 * kelvin) + np.multiply.outer(CP_SLOPE, kelvin - WARM)


def enthalpy(kelvin):
    """J/mol of both gases over what they have at 298.15 K."""
    over = kelvin - WARM
    return np.multiply.outer(CP, over) + np.multiply.outer(CP_SLOPE, 0.5 * over * over)


def liquid_heat_capacity(kelvin):
    return LIQUID_CP + LIQUID_CP_SLOPE * (kelvin - WARM)


def liquid_energy(kelvin):
    """J/mol over what it has at 298.15 K."""
    return (LIQUID_CP + 0.5 * LIQUID_CP_SLOPE * (kelvin - WARM)) * (kelvin - WARM)


def vapor_pressure(kelvin):
    """[AP42] 7.1, gasoline with S = 3, as printed: psi of degF."""
    t = (kelvin - ZERO) * 1.8 + 32.0 + 459.6
    s, r = sqrt(3.0), log10(RVP)
    return 6894.757293168361 * exp((0.7553 - 413.0 / t) * s * r - (1.854 - 1042.0 / t) * s
                                   + (2416.0 / t - 2.013) * r - 8742.0 / t + 15.64)


def liquid_volume(kelvin):
    """m3/mol and its slope: 740 kg/m3 at 60 degF, expanding like n-heptane (DIPPR 105)."""
    critical, base, power = 540.2, 0.26211, 0.28141
    far, near = 1.0 - 288.7056 / critical, 1.0 - kelvin / critical
    value = FUEL_MASS / 740.0 * base ** (near ** power - far ** power)
    return value, -value * log(base) * power * near ** (power - 1.0) / critical


def diffusivity(kelvin, pressure):
    """m2/s of the vapor in air [FULLER1966]."""
    mass = 2e3 / (1.0 / MASS).sum()
    return 0.00143e-4 * kelvin ** 1.75 / (pressure * 1e-5 * sqrt(mass) * (SPREAD ** (1.0 / 3.0)).sum() ** 2)


def viscosity(x, kelvin):
    """Of two gases, x the share of vapor [WILKE1950]."""
    air, fuel = (c[0] * kelvin ** c[1] / (1.0 + c[2] / kelvin) for c in VISCOSITY)
    m = MASS[AIR] / MASS[FUEL]
    air_fuel = (1.0 + np.sqrt(air / fuel) * m ** -0.25) ** 2 / sqrt(8.0 * (1.0 + m))
    fuel_air = (1.0 + np.sqrt(fuel / air) * m ** 0.25) ** 2 / sqrt(8.0 * (1.0 + 1.0 / m))
    return (1.0 - x) * air / (1.0 - x + x * air_fuel) + x * fuel / (x + (1.0 - x) * fuel_air)


def evaporation(transfer, area, pressure, share, kelvin):
    """mol/s: one vapor through a film of a gas that stays [BIRD2002]."""
    return transfer * area * pressure / (R * kelvin) * log(pressure * (1.0 - share)
                                                           / (pressure - vapor_pressure(kelvin)))


# ---- carbon: three sites, Langmuir's equation for a mixture on each ----

CARBON = {"density": 300.0, "void": 0.40, "gas": 0.80, "grain": 2e-3, "heat": 900.0, "conducts": 0.15, "rate": 0.03,
          "tortuosity": 1.6}
SITES = np.array([1.346, 2.982, 7.907])            # mol/kg [PAN1998], [LILLO2006]
AIR_AFFINITY = [6.444e-7, 1.921e-7, 4.097e-8]      # 1/Pa at 298.15 K, as nitrogen [ADSORPTION2014]
BUTANE_AFFINITY = [1.540e-3, 0.1128e-3, 4.017e-6]  # the same [PAN1998]
AIR_HEAT, BUTANE_HEAT = 9743.0, 28790.0            # J/mol
BUTANE_PRESSURE, BUTANE_LIQUEFIES = 242789.58, 22886.36  # Pa, J/mol of n-butane at 298.15 K [POLING5]


def held_like_butane():
    """At the same share of the pressure at which the vapor would condense, the same load."""
    condenses = 1e3 * (193.8 + 7.8 * (RVP - 7.0))
    step = 0.01
    liquefies = R * WARM ** 2 * log(vapor_pressure(WARM + step) / vapor_pressure(WARM - step)) / (2.0 * step)
    return np.array(BUTANE_AFFINITY) * BUTANE_PRESSURE / condenses, BUTANE_HEAT + liquefies - BUTANE_LIQUEFIES


FUEL_AFFINITY, FUEL_HEAT = held_like_butane()
AFFINITY = np.array([AIR_AFFINITY, FUEL_AFFINITY])
ADSORPTION = np.array([AIR_HEAT, FUEL_HEAT])  # J/mol


def loading(partial, kelvin):
    """mol/kg at rest; partial[2, n] Pa, kelvin[n]."""
    stronger = np.exp(ADSORPTION[:, None] / R * (1.0 / kelvin - 1.0 / WARM))
    x = AFFINITY[:, :, None] * (stronger * partial)[:, None, :]
    return (SITES[None, :, None] * x / (1.0 + x.sum(axis=0))).sum(axis=1)


# ---- surfaces ----

PLASTIC = 950.0 * 2000.0                             # J/m3/K
RADIATION = 4.0 * 0.92 * 5.670374419e-8 * ROOM ** 3  # W/m2/K
CONDUCTS = 0.0257                                    # W/m/K, air
STIR = 0.05                                          # K: the least difference that convection reckons with


class Fluid:
    """What convection asks of a fluid, constant."""

    def __init__(self, density, expansion, heat, viscous, conducts):
        self.kinematic, spreads = viscous / density, conducts / (density * heat)
        self.per_cube = 9.80665 * expansion / (self.kinematic * spreads)  # Ra/(L^3 dT)
        self.prandtl, self.conducts = self.kinematic / spreads, conducts


STILL_AIR = Fluid(STANDARD * 0.0289647 / (R * ROOM), 1.0 / ROOM, 29.13 / 0.0289647, 1.82e-5, CONDUCTS)
GASOLINE = Fluid(740.0, 1.2e-3, 2100.0, 5e-4, 0.12)


def both(natural, forced):
    return (natural ** 3 + forced ** 3) ** (1.0 / 3.0)


def rayleigh(fluid, size, difference):
    return fluid.per_cube * size ** 3 * (difference * difference + STIR * STIR) ** 0.5


def standing(fluid, height, difference, rest=0.825, pr=0.492):
    """W/m2/K [CHURCHILLCHU1975]."""
    slip = (1.0 + (pr / fluid.prandtl) ** (9.0 / 16.0)) ** (8.0 / 27.0)
    return fluid.conducts / height * (rest + 0.387 * rayleigh(fluid, height, difference) ** (1.0 / 6.0) / slip) ** 2


def lying(fluid, diameter, difference):
    """A cylinder [CHURCHILLCHU1975]."""
    return standing(fluid, diameter, difference, 0.60, 0.559)


def side(fluid, height, difference, path):
    """Inside a closed space: beside conduction over `path`."""
    return both(standing(fluid, height, difference), fluid.conducts / path)


def overturning(fluid, size, difference):
    """[LLOYD1974], joined by the tenth power."""
    ra = rayleigh(fluid, size, difference)
    return fluid.conducts / size * ((0.54 * ra ** 0.25) ** 10 + (0.15 * ra ** (1.0 / 3.0)) ** 10) ** 0.1


def level(fluid, size, upward, path=0.0):
    """upward: how much warmer what lies below is. path: to the middle of a closed space; 0: open [RADZIEMSKA2001]."""
    stirred = overturning(fluid, size, upward)
    if path > 0.0:
        settled = fluid.conducts / path
        stirred = (stirred ** 10 + settled ** 10) ** 0.1
    else:
        settled = fluid.conducts / size * 0.52 * rayleigh(fluid, size, upward) ** 0.2
    if upward <= 0.0:
        return settled
    return settled + (stirred - settled) * upward ** 2 / (upward ** 2 + STIR ** 2)


def blown(fluid, length, wind):
    """What wind carries off [GNIELINSKI1975]."""
    re, pr = np.maximum(wind * length / fluid.kinematic, 1e-9), fluid.prandtl
    laminar = 0.664 * re ** 0.5 * pr ** (1.0 / 3.0)
    turbulent = 0.037 * re ** 0.8 * pr / (1.0 + 2.443 * re ** -0.1 * (pr ** (2.0 / 3.0) - 1.0))
    return fluid.conducts / length * (laminar ** 2 + turbulent ** 2) ** 0.5


# ---- ways of gas ----

def speed(step, rub, swirl, mu, rho):
    """m/s that solves  step = rub mu v + swirl rho v |v|."""
    viscous = rub * mu
    return 2.0 * step / (viscous + np.sqrt(viscous * viscous + 4.0 * swirl * rho * np.abs(step)))


def hole(diameter, step, pressure, kelvin, mass, mu):
    """mol/s through a thin sharp hole, step >= 0: X = K0 Re + K Re^2, K at its thin edge [HOLE158]."""
    drive = 2.0 * pressure * mass / (R * kelvin) * step * (diameter / mu) ** 2
    creeping, thin = 12.0 * pi, 0.02
    first = 2.0 * drive / (creeping + sqrt(creeping ** 2 + 8.0 * drive))
    if first <= 0.0:
        return 0.0
    inertia = 1.0 - exp(-first / 20.4)
    filled = 1.60 + 0.45 / (1.0 + (first / (105.0 * (thin + 0.25) ** 1.22)) ** 1.6)
    free = 1.0 / (1.0 + (2720.0 * thin ** 0.68 / first) ** (0.76 + 2.82 * thin))
    k = inertia * (filled + (2.66 - filled) * free)
    return pi / 4.0 * diameter * mu / mass * 2.0 * drive / (creeping + sqrt(creeping ** 2 + 4.0 * k * drive))


def beside(conductance, flow):
    """What diffusion is worth beside a stream that carries the shares upstream [SCHARFETTER1969]."""
    p = np.clip(np.abs(flow) / conductance, 1e-6, 500.0)
    return conductance * p / np.expm1(p)
