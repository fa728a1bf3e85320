"""Spreads: how sure a number is. Each has one method that matters, `at(u)`: the value at a share of 0 to 1.

Drawing, the careful end of one input, its middle and correlation by ranks all use it. Nothing here returns infinity:
an open end is met at the share 1e-16 from it, some 8 standard deviations out.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

import numpy as np

from axlewright.kinds import Array, Number

NINE_IN_TEN = 1.6448536269514722  # standard deviations from the middle to the 95 % share of a normal
TINY = 1e-16  # the share at which an open end is met


def shares(u: Number) -> Array:
    """Shares of 0 to 1 as an array.

    Raises:
        ValueError: some lie outside
    """
    array = np.asarray(u, float)
    if not ((array >= 0) & (array <= 1)).all():
        message = "a share lies between 0 and 1"
        raise ValueError(message)
    return array


def _finite(**numbers: float) -> None:
    for name, value in numbers.items():
        if not math.isfinite(value):
            message = f"{name} of a spread is {value}"
            raise ValueError(message)


def ask(right: bool, message: str) -> None:
    if not right:
        raise ValueError(message)


class Spread(Protocol):
    """What every spread can do."""

    def at(self, u: Number) -> Number:
        """The value [SI] at these shares."""
        ...

    def middle(self) -> float:
        """The value with half below it [SI]."""
        ...

    def ends(self) -> tuple[float, float]:
        """The values with 5 and 95 of a hundred below them [SI]."""
        ...


class _Ends:
    """Middle and ends, from `at`."""

    __slots__ = ()

    def at(self, u: Number) -> Number:
        raise NotImplementedError

    def middle(self) -> float:
        return float(self.at(0.5))

    def ends(self) -> tuple[float, float]:
        return float(self.at(0.05)), float(self.at(0.95))


def _normal(u: Number) -> Array:
    """The standard normal value at these shares, both ends kept finite."""
    from scipy.special import ndtri

    inside: Array = np.clip(shares(u), TINY, 1 - TINY)
    value: Array = ndtri(inside)
    return value


@dataclass(frozen=True, slots=True)
class Exact(_Ends):
    """One value, known."""

    value: float

    def __post_init__(self) -> None:
        _finite(value=self.value)

    def at(self, u: Number) -> Number:
        return np.full(shares(u).shape, self.value)


@dataclass(frozen=True, slots=True)
class Normal(_Ends):
    """Normal by mean and standard deviation."""

    mean: float
    sd: float

    def __post_init__(self) -> None:
        _finite(mean=self.mean, sd=self.sd)
        ask(self.sd > 0, "the standard deviation of a normal spread is more than 0")

    def at(self, u: Number) -> Number:
        value: Array = self.mean + self.sd * _normal(u)
        return value


@dataclass(frozen=True, slots=True)
class LogNormal(_Ends):
    """A normal logarithm, by median and standard deviation of the logarithm."""

    median: float
    log_sd: float

    def __post_init__(self) -> None:
        _finite(median=self.median, log_sd=self.log_sd)
        ask(self.median > 0 and self.log_sd > 0, "the median and the log-sd of a lognormal spread are more than 0")

    def at(self, u: Number) -> Number:
        value: Array = self.median * np.exp(self.log_sd * _normal(u))
        return value


@dataclass(frozen=True, slots=True)
class Uniform(_Ends):
    """Any value between two as likely as any other."""

    low: float
    high: float

    def __post_init__(self) -> None:
        _finite(low=self.low, high=self.high)
        ask(self.low < self.high, "a spread goes from the lower value to the higher")

    def at(self, u: Number) -> Number:
        share = shares(u)
        return np.clip((1 - share) * self.low + share * self.high, self.low, self.high)


@dataclass(frozen=True, slots=True)
class Triangular(_Ends):
    """Straight up from the low end to the peak, straight down to the high end."""

    low: float
    peak: float
    high: float

    def __post_init__(self) -> None:
        _finite(low=self.low, peak=self.peak, high=self.high)
        ask(self.low <= self.peak <= self.high and self.low < self.high, "the peak of a spread lies between its ends")

    def at(self, u: Number) -> Number:
        share, width = shares(u), self.high - self.low
        up, down = self.peak - self.low, self.high - self.peak
        rising = self.low + np.sqrt(share * width * up)
        falling = self.high - np.sqrt((1 - share) * width * down)
        return np.clip(np.where(share * width < up, rising, falling), self.low, self.high)


@dataclass(frozen=True, slots=True)
class Pert(_Ends):
    """Beta between two ends with alpha = 1 + 4 (m - a)/(b - a), beta = 1 + 4 (b - m)/(b - a): smoother than a triangle."""

    low: float
    likely: float
    high: float

    def __post_init__(self) -> None:
        _finite(low=self.low, likely=self.likely, high=self.high)
        ask(self.low <= self.likely <= self.high and self.low < self.high, "the likely value lies between the ends")

    def at(self, u: Number) -> Number:
        from scipy.special import betaincinv

        width = self.high - self.low
        rise = 4 * (self.likely - self.low) / width
        given = shares(u)
        given = np.where(given < TINY, 0.0, given)  # so near the end that the inverse knows no number
        part: Array = betaincinv(1 + rise, 5 - rise, given)
        return np.clip(self.low + width * part, self.low, self.high)


@dataclass(frozen=True, slots=True)
class Tenths(_Ends):
    """By the values with 10, 50 and 90 of a hundred below them, and no farther out than half as far again.

    Straight between the four; density halves beyond the tenths.
    """

    low: float
    likely: float
    high: float

    def __post_init__(self) -> None:
        _finite(low=self.low, likely=self.likely, high=self.high)
        ask(self.low <= self.likely <= self.high and self.low < self.high, "the likely value lies between its tenths")

    def at(self, u: Number) -> Number:
        least, most = 1.5 * self.low - 0.5 * self.likely, 1.5 * self.high - 0.5 * self.likely
        value: Array = np.interp(shares(u), (0.0, 0.1, 0.5, 0.9, 1.0), (least, self.low, self.likely, self.high, most))
        return value


@dataclass(frozen=True, slots=True)
class Discrete(_Ends):
    """A few values, each with its weight; in rising order, so that a share still means low to high."""

    values: tuple[float, ...]
    weights: tuple[float, ...]

    def __post_init__(self) -> None:
        ask(len(self.values) == len(self.weights) > 0, "each value has one weight")
        ask(all(map(math.isfinite, (*self.values, *self.weights))), "values and weights are numbers")
        ask(min(self.weights) >= 0 and sum(self.weights) > 0, "weights are 0 or more, and not all 0")
        ask(list(self.values) == sorted(set(self.values)), "values stand in rising order, each once")

    def at(self, u: Number) -> Number:
        total = np.cumsum(self.weights)
        last = max(i for i, w in enumerate(self.weights) if w > 0)
        place = np.minimum(np.searchsorted(total, shares(u) * total[-1], side="right"), last)
        values: Array = np.asarray(self.values, float)[place]
        return values


@dataclass(frozen=True, eq=False)
class Samples(_Ends):
    """Values that were drawn or measured elsewhere, each as likely; between two of them no line is drawn."""

    values: Array

    def __post_init__(self) -> None:
        kept = np.array(self.values, float).ravel()
        ask(kept.size > 0 and bool(np.isfinite(kept).all()), "samples are numbers, at least one")
        kept.setflags(write=False)
        object.__setattr__(self, "values", kept)

    @cached_property
    def _rising(self) -> Array:
        return np.sort(self.values)

    def at(self, u: Number) -> Number:
        count = self.values.size
        place = np.minimum((shares(u) * count).astype(int), count - 1)
        values: Array = self._rising[place]
        return values

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Samples) and np.array_equal(self.values, other.values)

    def __hash__(self) -> int:
        return hash(self.values.tobytes())
