"""A class leaned on what one design's bearings are rated for: one law, or a few designs that it may be of."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Annotated, TypeAlias

import numpy as np

from axlewright.engines.forecast._condition import OneShare, forecast
from axlewright.engines.forecast._laws import Lives, check_lives, left_at, stretched, time_at
from axlewright.engines.forecast.sojourns import life_with_bearings
from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import LAST_AXIS, Array, Duration, Share, kind_of

Medians: TypeAlias = Annotated[Array, kind_of(Duration), LAST_AXIS]
Factors: TypeAlias = Annotated[Array, kind_of(Share), LAST_AXIS]

CLASS_SPREAD = 0.8  # standard deviation of ln(median to the first spall) between designs of a class; assumed
BEARING_SPREAD = 0.7  # the same of what bearings of known load are rated for; assumed
CLASS_SHAPE = 2.0  # Weibull shape of the time in sound; assumed
HALVINGS = 40
SLICES = 64  # of the stay in sound, by shares of the drives
NODES = 7  # of the drive's own factor, as the forecast has them
LEAST_PART, MOST_PART = 0.05, 4.0  # of sound and wearing together, between which half have begun to fail


def median_to_failing(lives: Lives) -> Duration:
    """Time by which half of the drives of a class have begun to fail.

    Args:
        lives: laws of the class, one number each

    Returns:
        time [s]

    Source: the forecast of a new drive, halved in.
    Valid: as the forecast.
    """
    low, high = 0.0, 2.0 * sum(float(s.median) for s in (lives.sound, lives.wearing, lives.failing))
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        chance = forecast(lives, 0.0, [], np.empty((0, 4)), [middle], carries=False).chance[0]
        if chance.ndim > 1:
            raise OutOfRange("lives", float(len(chance)), 1, 1, why="one law, not draws")
        low, high = (middle, high) if chance[0] + chance[1] > 0.5 else (low, middle)
    return (low + high) / 2


def leaned_on_bearings(
    lives: Lives,
    bearing_median: Duration,
    class_spread: OneShare = CLASS_SPREAD,
    bearing_spread: OneShare = BEARING_SPREAD,
) -> Lives:
    """The laws of a class, leaned on the median life of one design's bearings.

    Args:
        lives: laws of the class, one number each
        bearing_median: time that half of the pairs reach before the first spall, of the same clock [s]
        class_spread: standard deviation of its logarithm between the designs of the class [-]
        bearing_spread: standard deviation of the logarithm of what the bearings say [-]

    Returns:
        laws

    Source: two opinions of one logarithm, weighted by 1/sd^2; sound and wearing stretched alike.
    Valid: fatigue alone: bearings far better than the class say nothing of water and grit, so lean with care.
    """
    leaned = life_with_bearings(median_to_failing(lives), class_spread, bearing_median, bearing_spread)
    return stretched(lives, leaned.factor)


@lru_cache(maxsize=1)
def _own_factors() -> tuple[Array, Array]:
    """Nodes of a normal law and what each weighs."""
    at, weight = np.polynomial.hermite_e.hermegauss(NODES)
    return at, weight / weight.sum()


def medians_to_failing(lives: Lives) -> Medians:
    """Time by which half of the drives of each design have begun to fail, all designs at once.

    Args:
        lives: laws of the class, a design a draw

    Returns:
        times, one a design [s]

    Source: sound and wearing added, sound in 64 slices of equal share, the drive's own factor by Gauss-Hermite; halved in.
    Valid: within 2 in 1000 of the forecast (tested); the share of short wearing is that of all designs.
    """
    check_lives(lives)
    at, weight = _own_factors()
    own = np.exp(np.asarray(lives.unit_spread, float) * at)[:, None, None]
    sound = time_at(lives.sound, (np.arange(SLICES) + 0.5)[:, None] / SLICES)  # slices, designs
    whole = np.atleast_1d(np.asarray(lives.sound.median, float) + lives.wearing.median)
    low, high = LEAST_PART * whole, MOST_PART * whole
    for _ in range(HALVINGS // 2):
        middle = np.sqrt(low * high)
        rest = middle / own - sound  # factors, slices, designs: time left for wearing
        still = np.where(rest > 0, left_at(lives.wearing, np.maximum(rest, 1.0)), 1.0).mean(axis=1)
        more = weight @ still > 0.5
        low, high = np.where(more, middle, low), np.where(more, high, middle)
    return np.sqrt(low * high)


@dataclass(frozen=True, slots=True)
class Lean:
    """What a class and a rating of bearings come to together, as one opinion of the median time to the first spall.

    Attributes:
        class_median: middle of the designs' medians [s]
        class_spread: standard deviation of their logarithm [-]
        bearing_median: median by rating, fatigue alone [s]
        opinion: median by rating beside all other causes [s]
        bearing_spread: standard deviation of its logarithm [-]
        weight: what the rating weighs of the two [-]
        factor: by how much sound and wearing of a design in the middle are stretched [-]
        spread: standard deviation of the logarithm that is left between designs [-]
        most: no design is stretched by more than this [-]
    """

    class_median: Duration
    class_spread: Share
    bearing_median: Duration
    opinion: Duration
    bearing_spread: Share
    weight: Share
    factor: Share
    spread: Share
    most: Share


def lean_of(
    class_median: Duration,
    class_spread: Share,
    bearing_median: Duration,
    bearing_spread: Share,
    most: Share,
    shape: Share = CLASS_SHAPE,
) -> Lean:
    """What the designs of a class and a rating of bearings come to together.

    A rating knows fatigue alone. Water, grit, lost setting and creeping seats end most lives, and a long rating says nothing
    of them: so its opinion is that of fatigue beside all other causes, which would last `most` times the class by themselves.
    However long the rating, the lean is bounded; a short one is believed as it stands.

    Args:
        class_median: middle of the designs' medians to the first spall [s]
        class_spread: standard deviation of their logarithm: what the forecast shows for not knowing the design [-]
        bearing_median: median by rating; may be infinite [s]
        bearing_spread: standard deviation of its logarithm [-]
        most: what all other causes would last, over the class [-]
        shape: Weibull shape of the class [-]

    Returns:
        the two opinions and what they come to

    Source: first of two causes, (M^-k + (most T)^-k)^(-1/k); product of two normal laws of ln(median), weights 1/sd^2.
    Valid: most of 1 and over: were a share f of the class's first spalls fatigue, it is (1 - f)^(-1/k).

    >>> float(lean_of(1.0, 0.4, np.inf, 0.7, 1.2).opinion)
    1.2
    """
    within("most", most, 1.0)
    above("class_median", class_median)
    opinion = _first_of_two(bearing_median, np.asarray(most, float) * class_median, shape)
    both = life_with_bearings(class_median, class_spread, opinion, bearing_spread)
    weight = np.square(both.spread / np.asarray(bearing_spread, float))
    return Lean(
        class_median, class_spread, bearing_median, opinion, bearing_spread, weight, both.factor, both.spread, most
    )


def _first_of_two(one: Duration, other: Duration, shape: Share) -> Duration:
    """Median of the first of two causes of one Weibull shape; either may be infinite."""
    above("shape", shape)
    with np.errstate(divide="ignore"):
        both = np.asarray(one, float) ** -np.asarray(shape, float) + np.asarray(other, float) ** -np.asarray(shape)
        return np.asarray(both ** (-1 / np.asarray(shape, float)))[()]


def lean_factors(medians: Medians, lean: Lean) -> Factors:
    """By how much sound and wearing of each design are stretched.

    Every design moves towards what both opinions come to, and the designs draw together by just so much as the doubt
    shrinks: the spread left over the spread before. To lean each by itself on the same rating would draw them together too
    much, as if each had been rated anew.

    Args:
        medians: median to the first spall, one a design [s]
        lean: what the class and the rating come to together

    Returns:
        factors, one a design [-]

    Source: the linear map that takes one normal law to the other (square-root filter).
    Valid: no design is stretched by more than `lean.most`; shortened is as it comes.
    """
    above("medians", medians)
    off = np.log(np.asarray(medians, float) / lean.class_median)
    shift = np.asarray(lean.weight) * np.log(np.asarray(lean.opinion) / lean.class_median)
    return np.minimum(np.exp(shift + (np.asarray(lean.spread) / lean.class_spread - 1) * off), lean.most)
