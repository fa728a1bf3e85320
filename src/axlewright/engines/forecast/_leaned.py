"""A class leaned on what one design's bearings are rated for."""

from __future__ import annotations

import numpy as np

from axlewright.engines.forecast._condition import OneShare, forecast
from axlewright.engines.forecast._laws import Lives, stretched
from axlewright.engines.forecast.sojourns import life_with_bearings
from axlewright.engines.limits import OutOfRange
from axlewright.kinds import Duration

CLASS_SPREAD = 0.8  # standard deviation of ln(median to the first spall) between designs of a class; assumed
BEARING_SPREAD = 0.7  # the same of what bearings of known load are rated for; assumed
HALVINGS = 40


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
