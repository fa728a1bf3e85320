"""An elastic pair of taper roller bearings: what end play or preload does to loads and life (C2).

Rigid shaft on two rows of elastic rollers; unknown are where the shaft sits at each effective centre and along its axis.
The energy of the rollers less the work of the loads is convex, so its least is the one place where all balances.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.engines.running.life import EXPONENT, RATED_TURNS, pair_life
from axlewright.engines.running.loads import Arrangement
from axlewright.engines.running.rating import LIMIT_OVER_TANGENT
from axlewright.kinds import Array, Count, Force, Length, Share

MM = 1e-3  # m
STIFFNESS = 35948.0  # N/mm^(10/9) of a roller 1 mm long, both contacts, steel on steel; ISO/TS 16281 eq. 35
POWER = 10 / 9  # of the load of a roller on its approach; ISO/TS 16281
TURNING, STANDING = 4.0, 4.5  # powers of the mean load of the ring that turns against the load, and of the other
INNER_PART, OUTER_PART, RINGS = 0.378, 0.364, 1.038  # ring ratings; ISO/TS 16281 eqs 47, 48
SLOPE = 9 / 8
STEPS = 200  # of the search, at most
CLOSE = 1e-10  # of the loads: what may be out of balance


@dataclass(frozen=True, slots=True)
class ElasticBearing:
    """A taper roller bearing with its insides.

    Attributes:
        rollers: number of rollers [1]
        roller_diameter: mean diameter of a roller [m]
        roller_length: length that carries [m]
        thrust_limit: e; the cup half angle follows [-]
        mean_diameter: pitch diameter [m]
        capacity: basic dynamic capacity C [N]
    """

    rollers: Count
    roller_diameter: Length
    roller_length: Length
    thrust_limit: Share
    mean_diameter: Length
    capacity: Force


@dataclass(frozen=True, slots=True)
class ZoneMeans:
    """Means of roller loads over a load zone, the heaviest roller 1.

    Attributes:
        radial: mean of load times cosine: Jr [-]
        axial: mean of load: Ja [-]
        turning: mean of the ring that turns against the load [-]
        standing: mean of the other ring [-]
    """

    radial: Share
    axial: Share
    turning: Share
    standing: Share


def zone_means(zone: Share) -> ZoneMeans:
    """Means of roller loads, by how much of the circle is loaded.

    Args:
        zone: epsilon: share of the diameter that the load zone spans; 0.5 is half the circle [-]

    Returns:
        means

    Source: Sjovall's integrals with line contact, 10/9; ring means by the powers of ISO/TS 16281.
    Valid: 0.01 to 100; many rollers.
    Try: zone=0.5

    >>> round(float(zone_means(0.5).radial), 3)
    0.245
    """
    within("zone", zone, 0.01, 100.0)
    given = np.asarray(zone, float)
    found = np.array([_means(float(one)) for one in given.ravel()]).T.reshape(4, *given.shape)
    return ZoneMeans(*(one[()] for one in found))


@lru_cache(maxsize=64)
def _means(zone: float) -> tuple[float, float, float, float]:
    # substituted so that the kink at the end of the zone costs no accuracy
    half = np.arccos(max(1 - 2 * zone, -1.0))
    at, weights = np.polynomial.legendre.leggauss(80)
    angle = half * (1 + at) / 2
    weights = weights * half / 2 / np.pi
    load: Array = np.maximum(1 - (1 - np.cos(angle)) / (2 * zone), 0.0) ** POWER
    turning, standing = ((weights @ load**power) ** (1 / power) for power in (TURNING, STANDING))
    return float(weights @ (load * np.cos(angle))), float(weights @ load), float(turning), float(standing)


@dataclass(frozen=True, slots=True)
class ElasticPair:
    """What a pair carries and how long.

    Attributes:
        outboard_thrust: thrust on the bearing at the wheel [N]
        inboard_thrust: thrust on the other one [N]
        outboard_reference: steady radial load at half a load zone that costs as much life, at the wheel [N]
        inboard_reference: the same of the other one [N]
        outboard_loaded: rollers that carry, at the wheel [1]
        inboard_loaded: the same of the other one [1]
        turns: turns that nine of ten pairs reach before the first spall [1]
    """

    outboard_thrust: Force
    inboard_thrust: Force
    outboard_reference: Force
    inboard_reference: Force
    outboard_loaded: Count
    inboard_loaded: Count
    turns: Count


def elastic_pair(
    outboard: ElasticBearing,
    inboard: ElasticBearing,
    outboard_radial: Force,
    inboard_radial: Force,
    outward: Force,
    end_play: Length,
    arrangement: Arrangement = "back to back",
) -> ElasticPair:
    """Thrusts, loads that count and life of a pair, by its end play.

    The radial loads stand against one another, as those of an overhung wheel do.

    Args:
        outboard: the bearing at the wheel
        inboard: the other one
        outboard_radial: radial load of the bearing at the wheel [N]
        inboard_radial: radial load of the other one, the opposite way [N]
        outward: thrust from outside on the shaft, outward positive [N]
        end_play: end play of the pair; negative is preload [m]
        arrangement: which way the cones face

    Returns:
        thrusts, loads and life

    Source: ISO/TS 16281 for rollers and rings; balance by the least of a convex energy (docs/engines/running.md).
    Valid: empirical (roller stiffness); rigid shaft and housing, no misalignment; cones turn; first roller across the load.
    Try: outboard.rollers=19 outboard.roller-diameter="19 mm" outboard.roller-length="31 mm" outboard.thrust-limit=0.42
        outboard.mean-diameter="138 mm" outboard.capacity="310 kN" inboard.rollers=18 inboard.roller-diameter="17 mm"
        inboard.roller-length="27 mm" inboard.thrust-limit=0.42 inboard.mean-diameter="124 mm" inboard.capacity="240 kN"
        outboard-radial="60 kN" inboard-radial="20 kN" outward="0 kN" end-play="0.05 mm"

    >>> out = ElasticBearing(19, 0.019, 0.031, 0.42, 0.138, 310e3)
    >>> into = ElasticBearing(18, 0.017, 0.027, 0.42, 0.124, 240e3)
    >>> loose, set_right = (elastic_pair(out, into, 60e3, 20e3, 0.0, play).turns for play in (5e-4, 0.0))
    >>> round(float(loose / set_right), 1)
    0.4
    """
    for one in (outboard, inboard):
        _check(one)
    for name, value in (("outboard_radial", outboard_radial), ("inboard_radial", inboard_radial)):
        within(name, value, 0.0)
    within("outward", outward, -1e7, 1e7)
    within("end_play", end_play, -1e-3, 1e-2)
    drawn = np.broadcast_arrays(
        *(np.asarray(value, float) for value in (outboard_radial, inboard_radial, outward, end_play))
    )
    out, inner = _Row.of(outboard), _Row.of(inboard)
    sign = -1.0 if arrangement == "back to back" else 1.0
    found = np.array(
        [_balanced(out, inner, sign, *map(float, one)) for one in zip(*(d.ravel() for d in drawn), strict=True)]
    )
    parts: list[Array] = [part.reshape(drawn[0].shape)[()] for part in found.T]
    lives = [
        RATED_TURNS * (np.asarray(bearing.capacity) / part) ** EXPONENT
        for bearing, part in ((outboard, parts[2]), (inboard, parts[3]))
    ]
    return ElasticPair(parts[0], parts[1], parts[2], parts[3], parts[4], parts[5], pair_life(lives[0], lives[1], SLOPE))


# --- how it is done ---


def _check(bearing: ElasticBearing) -> None:
    within("rollers", bearing.rollers, 5, 1000)
    for name in ("roller_diameter", "roller_length", "mean_diameter", "capacity"):
        above(name, getattr(bearing, name))
    within("thrust_limit", bearing.thrust_limit, 0.15, 1.2)


@dataclass(frozen=True, slots=True)
class _Row:
    """A row of rollers in numbers; mm and N."""

    across: Array  # unit vectors of the rollers, times the cosine of the cup angle
    along: float  # sine of the cup angle
    stiffness: float
    inner: float  # rating of the inner ring, N a roller
    outer: float
    half_zone: float  # heaviest roller of a radial load of 1 N at half a load zone

    @staticmethod
    def of(bearing: ElasticBearing) -> _Row:
        count = round(float(bearing.rollers))
        angle = float(np.arctan(float(bearing.thrust_limit) / LIMIT_OVER_TANGENT))
        at = 2 * np.pi * np.arange(count) / count
        slim = float(bearing.roller_diameter) * np.cos(angle) / float(bearing.mean_diameter)
        ratio = RINGS * ((1 - slim) / (1 + slim)) ** (143 / 108)
        each = float(bearing.capacity) / (0.83 * count * np.cos(angle))
        return _Row(
            np.cos(angle) * np.column_stack([np.cos(at), np.sin(at)]),
            float(np.sin(angle)),
            STIFFNESS * (float(bearing.roller_length) / MM) ** (8 / 9),
            each / INNER_PART * (1 + ratio**4.5) ** (2 / 9),
            each / OUTER_PART * (1 + ratio**-4.5) ** (2 / 9),
            1 / (count * np.cos(angle) * _means(0.5)[0]),
        )

    def reference(self, load: Array) -> float:
        """The radial load at half a load zone that costs this row as much life as these loads of its rollers."""
        turning, standing = (np.mean(load**power) ** (1 / power) for power in (TURNING, STANDING))
        cost = (turning / self.inner) ** 4.5 + (standing / self.outer) ** 4.5
        _, _, turned, stood = _means(0.5)
        of_one = (self.half_zone * turned / self.inner) ** 4.5 + (self.half_zone * stood / self.outer) ** 4.5
        return float((cost / of_one) ** (1 / 4.5))


def _balanced(
    out: _Row, inner: _Row, sign: float, out_radial: float, in_radial: float, outward: float, end_play: float
) -> tuple[float, ...]:
    """Thrusts, reference loads and loaded rollers where all balances; `sign` is of the outboard row against thrust outward."""
    play = end_play / MM / 2
    # how far each roller is pressed, of where the shaft sits: x and y at each centre, and along the axis
    presses = np.zeros((len(out.across) + len(inner.across), 5))
    presses[: len(out.across), :2], presses[: len(out.across), 4] = out.across, sign * out.along
    presses[len(out.across) :, 2:4], presses[len(out.across) :, 4] = inner.across, -sign * inner.along
    free = np.concatenate([np.full(len(out.across), play * out.along), np.full(len(inner.across), play * inner.along)])
    stiff = np.concatenate([np.full(len(out.across), out.stiffness), np.full(len(inner.across), inner.stiffness)])
    load = np.array([0.0, out_radial, 0.0, -in_radial, outward])
    size = max(float(np.abs(load).max()), 1.0)
    sits = np.array([0.0, 0.05 + max(play, 0.0), 0.0, -0.05 - max(play, 0.0), 0.0])

    def pressed(at: Array) -> Array:
        return np.asarray(np.maximum(presses @ at - free, 0.0))

    def energy(at: Array) -> float:
        return float(stiff @ pressed(at) ** (POWER + 1) / (POWER + 1) - load @ at)

    for _ in range(STEPS):
        depth = pressed(sits)
        pull = presses.T @ (stiff * depth**POWER) - load
        if np.abs(pull).max() <= CLOSE * size:
            break
        touching = depth > 0
        slope = np.where(touching, stiff * POWER * np.where(touching, depth, 1.0) ** (POWER - 1), 0.0)
        curve = presses.T @ (slope[:, None] * presses)
        step = -np.linalg.solve(curve + 1e-9 * np.trace(curve) * np.eye(5), pull)
        reach, here, falls = 1.0, energy(sits), float(pull @ step)
        rounding = 1e-12 * abs(here)
        while energy(sits + reach * step) > here + 1e-4 * reach * falls + rounding and reach > 1e-9:
            reach /= 2
        sits = sits + reach * step
    else:
        if np.abs(pull).max() > 1e-6 * size:
            raise OutOfRange("outward", outward, -np.inf, np.inf, why="no place was found where all balances")
    depth = pressed(sits)
    rollers = stiff * depth**POWER
    of_out, of_inner = rollers[: len(out.across)], rollers[len(out.across) :]
    return (
        out.along * of_out.sum(), inner.along * of_inner.sum(), out.reference(of_out), inner.reference(of_inner),
        float((of_out > 0).sum()), float((of_inner > 0).sum()),
    )  # fmt: skip
