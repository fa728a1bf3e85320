"""How long a drive stays in one condition: the law of it, and what the rating of its bearings says of it (D2)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.forecast._laws import Sojourn, check_sojourn, left_at, time_at
from axlewright.engines.limits import above, within
from axlewright.kinds import Duration, Share


def sojourn_survival(sojourn: Sojourn, time: Duration) -> Share:
    """Share of the drives still in a condition so long after they came into it.

    Args:
        sojourn: the law of the condition
        time: time in it [s]

    Returns:
        share [-]

    Source: Weibull S = 0.5^((t/median)^shape); lognormal S = 1 - Phi(ln(t/median)/sd); a share of short ones mixed in.
    Valid: time from 0.
    Try: sojourn.family=weibull sojourn.median="5500 h" sojourn.spread=2 time="3000 h"

    >>> round(float(sojourn_survival(Sojourn("weibull", 5500 * 3600.0, 2.0), 3000 * 3600.0)), 4)
    0.8136
    """
    check_sojourn(sojourn)
    within("time", time, 0.0)
    return left_at(sojourn, np.asarray(time, float))[()]  # type: ignore[no-any-return]


def sojourn_time(sojourn: Sojourn, share: Share) -> Duration:
    """Time after which this share of the drives is still in a condition.

    Args:
        sojourn: the law of the condition
        share: share still in it [-]

    Returns:
        time [s]

    Source: the survival turned round; where short ones are mixed in, by halving between the times of the two laws.
    Valid: share above 0, at most 1.
    Try: sojourn.family=lognormal sojourn.median="900 h" sojourn.spread=0.7 share=0.9

    >>> round(float(sojourn_time(Sojourn("lognormal", 900 * 3600.0, 0.7), 0.5)) / 3600, 6)
    900.0
    """
    check_sojourn(sojourn)
    above("share", share)
    within("share", share, 0.0, 1.0)
    return time_at(sojourn, np.asarray(share, float))[()]  # type: ignore[no-any-return]


@dataclass(frozen=True, slots=True)
class Leaned:
    """A class's median life, leaned on what is known of one design.

    Attributes:
        median: median life [s]
        spread: standard deviation of its logarithm [-]
        factor: by how much sound and wearing are stretched [-]
    """

    median: Duration
    spread: Share
    factor: Share


def life_with_bearings(
    class_median: Duration, class_spread: Share, bearing_median: Duration, bearing_spread: Share
) -> Leaned:
    """Median life to the first spall, of what the class says and what the bearings are rated for.

    Args:
        class_median: median of the class: sound and wearing together [s]
        class_spread: standard deviation of its logarithm between designs [-]
        bearing_median: median life of the bearings by rating, as time of the same clock [s]
        bearing_spread: standard deviation of its logarithm [-]

    Returns:
        median, what doubt is left, and the factor on sound and wearing

    Source: product of two normal laws of ln(median), means weighted by 1/sd^2; a rating is the first spall, so it speaks
        of sound and wearing together.
    Valid: both of the same clock.

    >>> round(float(life_with_bearings(6000 * 3600.0, 0.8, 12000 * 3600.0, 0.7).median) / 3600)
    8885
    """
    for name, value in (("class_median", class_median), ("bearing_median", bearing_median)):
        above(name, value)
    for name, value in (("class_spread", class_spread), ("bearing_spread", bearing_spread)):
        above(name, value)
    own, rated = 1 / np.square(class_spread), 1 / np.square(bearing_spread)
    factor = np.exp(rated / (own + rated) * np.log(np.asarray(bearing_median) / class_median))
    return Leaned(class_median * factor, 1 / np.sqrt(own + rated), factor)
