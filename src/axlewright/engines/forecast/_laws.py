"""The laws of a class of drives: how long they stay sound, wearing and failing."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Literal

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Duration, Share

LN2 = float(np.log(2.0))
LEAST = 1e-300  # a share so small that its logarithm is still a number
HALVINGS = 40  # of a bracket in the logarithm: what is left of it is 1e-12


@dataclass(frozen=True, slots=True)
class Sojourn:
    """How long drives stay in one condition.

    Attributes:
        family: Weibull or lognormal
        median: time that half of them stay longer than [s]
        spread: shape of the Weibull, or standard deviation of the logarithm [-]
        short_share: share of them that stay but a part of it [-]
        short_part: the median of those, as a part of the median [-]
    """

    family: Literal["weibull", "lognormal"]
    median: Duration
    spread: Share
    short_share: Share = 0.0
    short_part: Share = 1.0


@dataclass(frozen=True, slots=True)
class Lives:
    """The laws of a class of drives: sound, then wearing, then failing, then let go; never back.

    One factor of each drive (its care, its load) stretches all three.

    Attributes:
        sound: time within setting limits, no abnormal metal
        wearing: time with play, lip or oil outside limits, nothing yet that grows by itself
        failing: time from the first spall until it stops carrying or driving
        unit_spread: standard deviation of the logarithm of each drive's own factor [-]
    """

    sound: Sojourn
    wearing: Sojourn
    failing: Sojourn
    unit_spread: Share


def check_sojourn(sojourn: Sojourn) -> None:
    """Raise `OutOfRange` where a law is none."""
    above("median", sojourn.median)
    above("spread", sojourn.spread)
    within("short_share", sojourn.short_share, 0.0, 1.0)
    above("short_part", sojourn.short_part)


def check_lives(lives: Lives) -> None:
    """Raise `OutOfRange` where one of the laws is none."""
    for sojourn in (lives.sound, lives.wearing, lives.failing):
        check_sojourn(sojourn)
    within("unit_spread", lives.unit_spread, 0.0, 2.0, "beyond a factor of seven up and down these are not one class")


def stretched(lives: Lives, factor: Share) -> Lives:
    """The laws with sound and wearing stretched: a rating of bearings speaks of the time to the first spall.

    Args:
        lives: laws of the class
        factor: by how much, of `life_with_bearings` [-]

    Returns:
        laws

    Source: medians times factor; failing stays, as it begins with the first spall.
    Valid: factor above 0.
    """
    above("factor", factor)
    sound, wearing = (
        replace(one, median=one.median * np.asarray(factor, float)) for one in (lives.sound, lives.wearing)
    )
    return replace(lives, sound=sound, wearing=wearing)


def _left(sojourn: Sojourn, median: Any, time: Any) -> Any:
    """Share of one law left at a time, law and time as they are."""
    from scipy.special import ndtr

    with np.errstate(divide="ignore"):
        if sojourn.family == "weibull":
            return np.exp(-LN2 * (time / median) ** sojourn.spread)
        return ndtr(-np.log(time / median) / sojourn.spread)


def left_at(sojourn: Sojourn, time: Any) -> Any:
    """Share left at a time, inputs known to be in range."""
    whole = _left(sojourn, sojourn.median, time)
    if np.any(np.asarray(sojourn.short_share) > 0):
        short = _left(sojourn, sojourn.median * sojourn.short_part, time)
        whole = (1 - sojourn.short_share) * whole + sojourn.short_share * short
    return whole


def _time(sojourn: Sojourn, median: Any, share: Any) -> Any:
    """Time of one law at which this share is left."""
    from scipy.special import ndtri

    inside = np.maximum(share, LEAST)
    if sojourn.family == "weibull":
        return median * (-np.log(inside) / LN2) ** (1 / np.asarray(sojourn.spread, float))
    return median * np.exp(-sojourn.spread * ndtri(inside))


def time_at(sojourn: Sojourn, share: Any) -> Any:
    """Time at which a share is left, inputs known to be in range."""
    whole = _time(sojourn, sojourn.median, share)
    if not np.any(np.asarray(sojourn.short_share) > 0):
        return whole
    short = _time(sojourn, sojourn.median * sojourn.short_part, share)
    # the mixture's time lies between the times of its two laws; at share 1 both are 0
    low, high = np.log(np.maximum(np.minimum(whole, short), LEAST)), np.log(np.maximum(np.maximum(whole, short), LEAST))
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        more = left_at(sojourn, np.exp(middle)) > share
        low, high = np.where(more, middle, low), np.where(more, high, middle)
    return np.where(np.asarray(share) >= 1, 0.0, np.exp((low + high) / 2))


def stay(sojourn: Sojourn, share: Any, since: Any = 0.0) -> Any:
    """How long drives stay in all that have been in a condition so long, drawn by shares of 0 to 1.

    Where short ones are mixed in, the share first says which law it is, then how far into it: no search is needed.
    """
    if not np.any(np.asarray(sojourn.short_share) > 0):
        return _time(sojourn, sojourn.median, (1 - share) * _left(sojourn, sojourn.median, since))
    short_median = sojourn.median * sojourn.short_part
    short = sojourn.short_share * _left(sojourn, short_median, since)
    whole = (1 - sojourn.short_share) * _left(sojourn, sojourn.median, since)
    part = short / np.maximum(short + whole, LEAST)
    is_short = share < part
    inside = np.where(is_short, share / np.maximum(part, LEAST), (share - part) / np.maximum(1 - part, LEAST))
    median = np.where(is_short, short_median, sojourn.median)
    return _time(sojourn, median, (1 - np.clip(inside, 0.0, 1.0)) * _left(sojourn, median, since))
