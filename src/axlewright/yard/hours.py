"""The two clocks of a machine: hours with 'about, plus or minus', from one clock to the other, and what a slip meant."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from operator import itemgetter
from typing import Literal

Clock = Literal["engine", "threshing"]
CLOCKS: tuple[Clock, ...] = ("engine", "threshing")

ENGINE_PER_THRESHING = (1.3, 1.5)
"""Engine hours that pass in one threshing hour: common practice, no source."""

MOST_A_DAY = 24.0  # [h]
STRETCH = 50.0  # [h] a shorter one says more of road and idling than of the clocks
WHOLE_HOURS = 1.0  # [h] by which two readings of a clock without decimals may miss what ran between them


@dataclass(frozen=True, slots=True)
class Hours:
    """A clock as it was read: hours, which clock, and by how much it may be off either way."""

    hours: float
    clock: Clock = "engine"
    about: float = 0.0

    def __str__(self) -> str:
        off = f" ± {spell(self.about)}" if self.about else ""
        return f"{spell(self.hours)}{off} h ({self.clock} clock)"


@dataclass(frozen=True, slots=True)
class Pair:
    """Both clocks of one machine, read on the same day."""

    engine: Hours
    threshing: Hours


def spell(hours: float) -> str:
    """Hours with a no-break space between thousands: 4 730, 4 730.5."""
    rounded = round(hours, 1)
    return (f"{rounded:,.0f}" if rounded == int(rounded) else f"{rounded:,.1f}").replace(",", "\u00a0")


def rate(pairs: Sequence[Pair]) -> tuple[float, float]:
    """Least and greatest engine hours in a threshing hour.

    Measured over every stretch of `STRETCH` threshing hours or more between known pairs, as far as their doubts allow;
    what practice says narrows it further, unless the measurement lies wholly beyond that. Practice alone where there is
    no such stretch.
    """
    low, high = ENGINE_PER_THRESHING
    ordered = sorted(pairs, key=_threshing)
    least, most, start = math.inf, 0.0, 0
    for number, end in enumerate(ordered):
        first = ordered[start]
        engine, threshing = end.engine.hours - first.engine.hours, end.threshing.hours - first.threshing.hours
        if threshing < STRETCH:
            continue
        start = number
        engine_off = end.engine.about + first.engine.about + WHOLE_HOURS
        threshing_off = end.threshing.about + first.threshing.about + WHOLE_HOURS
        if threshing > threshing_off and engine > engine_off:
            least = min(least, (engine - engine_off) / (threshing + threshing_off))
            most = max(most, (engine + engine_off) / (threshing - threshing_off))
    if least > most:
        return low, high
    return (max(least, low), min(most, high)) if max(least, low) <= min(most, high) else (least, most)


def _threshing(pair: Pair) -> float:
    return pair.threshing.hours


def convert(read: Hours, to: Clock, pairs: Sequence[Pair] = ()) -> Hours:
    """What the other clock of the same machine showed at that moment.

    The nearest known pair is the anchor; from it the clocks run apart at `rate`. Without a pair both are taken to have
    begun at 0. Doubts add up (they are limits, not standard deviations), and so does the hour it is off by.

    >>> convert(Hours(1000, "threshing"), "engine")
    Hours(hours=1400.0, clock='engine', about=100.0)
    """
    if read.clock == to:
        return read
    low, high = rate(pairs)
    if to == "threshing":
        low, high = 1 / high, 1 / low
    nearest = min(pairs, key=lambda p: abs(_side(p, read.clock).hours - read.hours), default=None)
    here, there = (_side(nearest, read.clock), _side(nearest, to)) if nearest else (Hours(0, read.clock), Hours(0, to))
    middle, half = (low + high) / 2, (high - low) / 2
    ran = read.hours - here.hours
    about = there.about + middle * (read.about + here.about) + half * abs(ran)
    return Hours(round(there.hours + middle * ran, 1), to, round(about, 1))


def _side(pair: Pair, clock: Clock) -> Hours:
    return pair.engine if clock == "engine" else pair.threshing


def follows(earlier: Hours, later: Hours, days: int) -> bool:
    """Whether a clock can have gone from one reading to the other in so many days: not back, not over 24 h a day."""
    off = earlier.about + later.about
    return -off <= later.hours - earlier.hours <= most_after(days) + off


def most_after(days: int) -> float:
    """The most that a clock can go on in so many days; two readings of one day may lie a day apart."""
    return MOST_A_DAY * max(days, 1)


def meant(typed: float, low: float, high: float) -> float | None:
    """The hours that a slip of the finger may have meant: the likeliest that lies in low..high.

    Slips, likeliest first: a nought or a decimal point (ten times, a tenth), two neighbours changed, a digit twice or
    too many, a digit left out.

    >>> meant(47300, 4713, 5049)
    4730.0
    """
    digits = f"{typed:.0f}"
    slips: list[list[float]] = [
        [typed / 10, typed * 10],
        [float(digits[:i] + digits[i + 1] + digits[i] + digits[i + 2 :]) for i in range(len(digits) - 1)],
        [float(digits[:i] + digits[i + 1 :]) for i in range(len(digits)) if len(digits) > 1],
        [float(digits[:i] + d + digits[i:]) for i in range(len(digits) + 1) for d in "0123456789"],
    ]
    for guesses in slips:
        fitting = sorted(g for g in guesses if low <= g <= high)
        if fitting:
            return fitting[0]
    return None


def between(readings: Sequence[tuple[date, Hours]], on: date) -> Hours | None:
    """The clock on a day, from readings of one clock in the order of their days.

    Between two readings it lies somewhere from the one to the other; after the last it is the last, before the first
    it is not known.
    """
    number = bisect_right(readings, on, key=itemgetter(0))
    if number == 0:
        return None
    day, read = readings[number - 1]
    if day == on or number == len(readings):
        return read
    then, later = readings[number]
    share = (on - day).days / (then - day).days
    middle = read.hours + share * (later.hours - read.hours)
    about = max(middle - read.hours + read.about, later.hours + later.about - middle)
    return replace(read, hours=round(middle, 1), about=round(about, 1))
