"""Rating life of rolling bearings with line contact, in turns, kilometres and hours (C2)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeAlias

import numpy as np

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import LAST_AXIS, Array, Count, Duration, Force, Length, Rate, Share, Speed, kind_of

Loads: TypeAlias = Annotated[Array, kind_of(Force), LAST_AXIS]
Rates: TypeAlias = Annotated[Array, kind_of(Rate), LAST_AXIS]
Shares: TypeAlias = Annotated[Array, kind_of(Share), LAST_AXIS]

EXPONENT = 10 / 3  # of life on load, line contact; ISO 281
RATED_TURNS = 1e6  # turns that nine of ten bearings reach at a load of their capacity; ISO 281
PAST = "past what a rating life holds for"
MOST_LOAD = 0.5  # of the capacity: above it ISO 281 speaks of no life (from memory; to refuse is the safe side)
RATED_SURVIVAL = 0.9  # share of bearings that reach the rating life
PAIR_SLOPE = 9 / 8  # Weibull slope of a pair; Lundberg and Palmgren. One manual takes 3/2
TWO_PI = 2 * np.pi
LEAST = 1.0  # turns: less is no life


def basic_rating_life(capacity: Force, load: Force, static_capacity: Force | None = None) -> Count:
    """Turns that nine of ten such bearings reach before the first spall, by capacity and load alone.

    Args:
        capacity: basic dynamic capacity C [N]
        load: equivalent load P; none gives a life without limit [N]
        static_capacity: basic static capacity C0, where known [N]

    Returns:
        rating life in turns, infinite where there is no load [1]

    Source: ISO 281, L10 = (C/P)^(10/3) million turns.
    Valid: load at most half the capacity and the static capacity; above it no life is given.
    Try: capacity="300 kN" load="80 kN"

    >>> round(float(basic_rating_life(200e3, 50e3)) / 1e6, 1)
    101.6
    """
    above("capacity", capacity)
    within("load", load, 0.0)
    part = np.asarray(load, float) / np.asarray(capacity, float)
    if (part > MOST_LOAD).any():
        worst = float(np.max(np.asarray(load, float)))
        raise OutOfRange(
            "load", worst, 0.0, MOST_LOAD * float(np.min(capacity)), float((part > MOST_LOAD).mean()), PAST
        )
    if static_capacity is not None:
        above("static_capacity", static_capacity)
        of_static = np.asarray(load, float) / np.asarray(static_capacity, float)
        if (of_static > 1).any():
            worst = float(np.max(np.asarray(load, float)))
            raise OutOfRange("load", worst, 0.0, float(np.min(static_capacity)), float((of_static > 1).mean()), PAST)
    with np.errstate(divide="ignore"):
        return np.asarray(RATED_TURNS * part**-EXPONENT)[()]


def wheel_rate(speed: Speed, rolling_radius: Length) -> Rate:
    """Turns of a wheel in a second.

    Args:
        speed: speed over ground [m/s]
        rolling_radius: loaded radius of the tyre [m]

    Returns:
        turns in a second [1/s]

    Source: v/(2 pi R).
    Valid: no slip.
    Try: speed="5 km/h" rolling-radius="800 mm"

    >>> round(float(wheel_rate(1.5, 0.8)), 3)
    0.298
    """
    within("speed", speed, 0.0)
    above("rolling_radius", rolling_radius)
    return np.asarray(np.asarray(speed, float) / (TWO_PI * np.asarray(rolling_radius, float)))[()]


def running_time(turns: Count, rate: Rate) -> Duration:
    """Time in which a wheel makes so many turns.

    Args:
        turns: turns; may be infinite [1]
        rate: turns in a second [1/s]

    Returns:
        time, infinite where it does not turn [s]

    Source: turns over turns in a second.
    Valid: always.
    Try: turns=500000 rate="18 rev/min"

    >>> float(running_time(3.6e6, 0.5)) / 3600
    2000.0
    """
    _may_be_unlimited("turns", turns)
    within("rate", rate, 0.0)
    count, each = np.broadcast_arrays(np.asarray(turns, float), np.asarray(rate, float))
    return np.asarray(np.where(each > 0, count / np.where(each > 0, each, 1.0), np.inf))[()]


def running_distance(turns: Count, rolling_radius: Length) -> Length:
    """Distance in which a wheel makes so many turns.

    Args:
        turns: turns; may be infinite [1]
        rolling_radius: loaded radius of the tyre [m]

    Returns:
        distance [m]

    Source: 2 pi R a turn.
    Valid: no slip.
    Try: turns=500000 rolling-radius="800 mm"

    >>> round(float(running_distance(1000.0, 0.5)), 1)
    3141.6
    """
    _may_be_unlimited("turns", turns)
    above("rolling_radius", rolling_radius)
    return np.asarray(TWO_PI * np.asarray(rolling_radius, float) * turns)[()]


def reliability_factor(survival: Share) -> Share:
    """By how much rating life shrinks where more than nine of ten are to reach it.

    Args:
        survival: share of bearings that are to reach the life [-]

    Returns:
        a1 [-]

    Source: a1 = 0.95 (ln(1/S)/ln(1/0.9))^(2/3) + 0.05, the three-parameter form behind the table of ISO 281:2007.
    Valid: 0.9 to 0.9995; not to be mixed with a law of two parameters.

    >>> round(float(reliability_factor(0.99)), 2)
    0.25
    """
    within("survival", survival, RATED_SURVIVAL, 0.9995)
    return np.asarray(0.95 * (np.log(survival) / np.log(RATED_SURVIVAL)) ** (2 / 3) + 0.05)[()]


def survival_life(rating_life: Count, survival: Share, slope: Share) -> Count:
    """Turns that another share of the bearings reach than nine of ten: the median at a half.

    Args:
        rating_life: turns that nine of ten reach [1]
        survival: share of bearings that reach the life asked [-]
        slope: Weibull slope, 1.1 to 1.5 [-]

    Returns:
        turns [1]

    Source: Weibull of two parameters, L = L10 (ln(1/S)/ln(1/0.9))^(1/slope).
    Valid: the first spall, not letting go; not to be mixed with the reliability factor.
    Try: rating-life=40000000 survival=0.5 slope=1.5

    >>> round(float(survival_life(1e6, 0.5, 1.5)) / 1e6, 3)
    3.511
    """
    _may_be_unlimited("rating_life", rating_life)
    above("survival", survival)
    within("survival", survival, 0.0, 1 - 1e-9)
    within("slope", slope, 0.5, 10.0)
    return np.asarray(
        np.asarray(rating_life, float) * (np.log(survival) / np.log(RATED_SURVIVAL)) ** (1 / np.asarray(slope, float))
    )[()]


def pair_life(first: Count, second: Count, slope: Share = PAIR_SLOPE) -> Count:
    """Turns that nine of ten pairs reach before either bearing spalls.

    Args:
        first: rating life of the one [1]
        second: rating life of the other [1]
        slope: Weibull slope; 9/8, one manual 3/2 [-]

    Returns:
        turns [1]

    Source: (L1^-e + L2^-e)^(-1/e), Lundberg and Palmgren; Timken Engineering Manual with 3/2.
    Valid: lives above 0, infinite ones too.
    Try: first=60000000 second=120000000

    >>> round(float(pair_life(100.0, 100.0)), 1)
    54.0
    """
    _may_be_unlimited("first", first, LEAST)
    _may_be_unlimited("second", second, LEAST)
    within("slope", slope, 0.5, 10.0)
    one, other = np.asarray(first, float), np.asarray(second, float)
    with np.errstate(divide="ignore"):
        return np.asarray((one**-slope + other**-slope) ** (-1 / np.asarray(slope, float)))[()]


def ramp_mean_load(least: Force, greatest: Force) -> Force:
    """The steady load that costs as much life as one that rises evenly.

    Args:
        least: load at the beginning [N]
        greatest: load at the end [N]

    Returns:
        load [N]

    Source: mean of F^(10/3) over the rise, its 0.3 power; Timken Engineering Manual, weighted average load.
    Valid: steady speed.
    Try: least="20 kN" greatest="80 kN"

    >>> round(float(ramp_mean_load(0.0, 1000.0)), 1)
    644.1
    """
    within("least", least, 0.0)
    within("greatest", greatest, 0.0)
    low, high = np.broadcast_arrays(np.asarray(least, float), np.asarray(greatest, float))
    power = EXPONENT + 1
    top = np.where(np.maximum(low, high) > 0, np.maximum(low, high), 1.0)
    one, other = low / top, high / top
    step = np.where(np.abs(other - one) > 1e-6, other - one, 1.0)
    mean = np.where(
        np.abs(other - one) > 1e-6, (other**power - one**power) / (power * step), ((one + other) / 2) ** EXPONENT
    )
    return np.asarray(top * mean ** (1 / EXPONENT))[()]


@dataclass(frozen=True, slots=True)
class DutyLife:
    """Life over several states of work.

    Attributes:
        time: time that nine of ten reach [s]
        turns: turns that nine of ten reach [1]
        rate: turns in a second, in the mean over time [1/s]
        load: the steady load that would cost as much, states weighted by turns [N]
    """

    time: Duration
    turns: Count
    rate: Rate
    load: Force


def duty_life(
    capacity: Force, time_shares: Shares, rates: Rates, loads: Loads, factors: Shares | None = None
) -> DutyLife:
    """Life over states of work that differ in load and speed: field level, field slope, road.

    Args:
        capacity: basic dynamic capacity C [N]
        time_shares: share of the time in each state; they add up to anything [-]
        rates: turns in a second in each [1/s]
        loads: equivalent load in each [N]
        factors: by how much oil and dirt change the life in each; 1 where nobody says [-]

    Returns:
        life, mean rate and mean load

    Source: linear damage, Palmgren and Miner; loads weighted by turns, not by hours.
    Valid: each load at most half the capacity.
    Try: capacity="300 kN" time-shares="0.5; 0.35; 0.15" rates="18 rev/min; 18 rev/min; 74 rev/min" loads="60 kN; 90 kN; 60 kN"

    >>> life = duty_life(300e3, np.array([0.8, 0.2]), np.array([0.3, 1.2]), np.array([60e3, 60e3]))
    >>> round(float(life.load)), round(float(life.rate), 2)
    (60000, 0.48)
    """  # fmt: skip
    share, rate, load = (np.asarray(one, float) for one in (time_shares, rates, loads))
    within("time_shares", share, 0.0)
    within("rates", rate, 0.0)
    whole: Array = share.sum(axis=-1)
    above("time_shares", whole, why="not all of them 0")
    modified = np.ones_like(load) if factors is None else np.asarray(factors, float)
    above("factors", modified)
    lives = basic_rating_life(np.asarray(capacity, float)[..., None], load) * modified
    turning = share * rate / whole[..., None]
    mean_rate: Array = turning.sum(axis=-1)
    above("rates", mean_rate, why="a wheel that turns in one state at least")
    damage = (turning / lives).sum(axis=-1)
    mean_load = ((turning * load**EXPONENT).sum(axis=-1) / mean_rate) ** (1 / EXPONENT)
    time = running_time(1.0, damage)
    return DutyLife(time, np.asarray(time * mean_rate)[()], mean_rate[()], np.asarray(mean_load)[()])


def _may_be_unlimited(what: str, value: Count, least: float = 0.0) -> None:
    """Raise `OutOfRange` unless every one is `least` or more; infinite ones stand."""
    draws = np.asarray(value, float)
    within(what, np.where(draws == np.inf, least, draws), least)
