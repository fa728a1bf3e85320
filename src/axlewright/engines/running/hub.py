"""The life of a wheel's pair of bearings, in one go: loads, film, both bearings together (C1, C2)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.engines.running.film import LEAST_RATIO, fatigue_limit_load, life_modification, viscosity_ratio
from axlewright.engines.running.life import basic_rating_life, pair_life, running_time, survival_life, wheel_rate
from axlewright.engines.running.loads import Arrangement, axial_loads, equivalent_load, radial_loads
from axlewright.kinds import Count, Duration, Force, KinematicViscosity, Length, Share, Speed

TOUCH = 1e-6  # N: a load that is none
THINNEST = 0.1  # a_ISO at and below kappa 0.1, ISO 281:2007: an upper bound there, as wear governs


@dataclass(frozen=True, slots=True)
class Bearing:
    """A taper roller bearing.

    Attributes:
        capacity: basic dynamic capacity C [N]
        static_capacity: basic static capacity C0 [N]
        thrust_factor: Y [-]
        thrust_limit: e [-]
        mean_diameter: pitch diameter of its rollers [m]
    """

    capacity: Force
    static_capacity: Force
    thrust_factor: Share
    thrust_limit: Share
    mean_diameter: Length


@dataclass(frozen=True, slots=True)
class HubLife:
    """Life of the pair.

    Attributes:
        outboard_load: equivalent load of the bearing at the wheel [N]
        inboard_load: equivalent load of the other one [N]
        film: the lower of the two viscosity ratios [-]
        basic_turns: turns that nine of ten pairs reach, by load alone [1]
        turns: the same with oil film and dirt [1]
        time: time that nine of ten pairs reach, with film and dirt [s]
        median: time that half of them reach before the first spall [s]
    """

    outboard_load: Force
    inboard_load: Force
    film: Share
    basic_turns: Count
    turns: Count
    time: Duration
    median: Duration


def hub_life(
    wheel_load: Force,
    traction: Force,
    side_force: Force,
    spread: Length,
    offset: Length,
    rolling_radius: Length,
    speed: Speed,
    viscosity: KinematicViscosity,
    contamination: Share,
    outboard: Bearing,
    inboard: Bearing,
    arrangement: Arrangement = "back to back",
    slope: Share = 1.25,
) -> HubLife:
    """How long the bearings of a wheel last until the first spall, at steady work.

    Args:
        wheel_load: load on the ground under the wheel [N]
        traction: pull at the ground [N]
        side_force: side force of the ground on the tyre, outward positive [N]
        spread: distance of the effective centres [m]
        offset: middle of the footprint outboard of the outboard centre; negative inboard [m]
        rolling_radius: loaded radius of the tyre [m]
        speed: speed over ground [m/s]
        viscosity: viscosity of the oil at work [m^2/s]
        contamination: e_C; 0 where metal is seen in the oil [-]
        outboard: the bearing at the wheel
        inboard: the other one
        arrangement: which way the cones face
        slope: Weibull slope of lives, 1.1 to 1.5 [-]

    Returns:
        loads and lives

    Source: statics, ISO 281:2007 and the pair by 9/8; docs/engines/running.md.
    Valid: empirical (reference viscosity); no end play, no preload; fatigue alone: water, grit and lost setting come on
        top. Below kappa 0.1 the factor of the standard's edge is taken, an upper bound.
    Try: wheel-load="55 kN" traction="6 kN" side-force="2 kN" spread="210 mm" offset="80 mm" rolling-radius="800 mm"
        speed="5 km/h" viscosity="95 mm²/s" contamination=0.03 outboard.capacity="310 kN" outboard.static-capacity="430 kN"
        outboard.thrust-factor=1.4 outboard.thrust-limit=0.42 outboard.mean-diameter="138 mm" inboard.capacity="240 kN"
        inboard.static-capacity="330 kN" inboard.thrust-factor=1.4 inboard.thrust-limit=0.42 inboard.mean-diameter="124 mm"

    >>> big, small = Bearing(310e3, 430e3, 1.4, 0.42, 0.138), Bearing(240e3, 330e3, 1.4, 0.42, 0.124)
    >>> life = hub_life(55e3, 6e3, 2e3, 0.21, 0.08, 0.8, 1.4, 95e-6, 0.03, big, small)
    >>> round(float(life.basic_turns) / 1e6), round(float(life.time) / 3.6e6)
    (52, 6)
    """
    above("speed", speed)
    within("contamination", contamination, 0.0, 1.0)
    radial = radial_loads(wheel_load, traction, side_force, spread, offset, rolling_radius)
    thrust = axial_loads(
        radial.outboard, radial.inboard, outboard.thrust_factor, inboard.thrust_factor, side_force, arrangement
    )
    out = equivalent_load(radial.outboard, thrust.outboard, outboard.thrust_factor, outboard.thrust_limit)
    inner = equivalent_load(radial.inboard, thrust.inboard, inboard.thrust_factor, inboard.thrust_limit)
    rate = wheel_rate(speed, rolling_radius)
    lives, modified, films = [], [], []
    for bearing, load in ((outboard, out), (inboard, inner)):
        basic = basic_rating_life(bearing.capacity, load, bearing.static_capacity)
        film = viscosity_ratio(viscosity, rate, bearing.mean_diameter)
        limit = fatigue_limit_load(bearing.static_capacity, bearing.mean_diameter)
        # at no load the life is without limit, whatever the factor
        factor = life_modification(np.maximum(film, LEAST_RATIO), contamination, limit, np.maximum(load, TOUCH))
        lives.append(basic)
        modified.append(np.where(np.asarray(film) < LEAST_RATIO, THINNEST, factor) * basic)
        films.append(film)
    turns = pair_life(modified[0], modified[1])
    return HubLife(
        out, inner, np.minimum(films[0], films[1]), pair_life(lives[0], lives[1]), turns,
        running_time(turns, rate), running_time(survival_life(turns, 0.5, slope), rate),
    )  # fmt: skip
