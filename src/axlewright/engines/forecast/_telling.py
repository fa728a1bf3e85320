"""Which finding says most, and whether they fit together: each left out in turn (D2)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.forecast._condition import Forecast, OneShare, Rows, Shares, Times, forecast
from axlewright.engines.forecast._laws import Lives
from axlewright.engines.limits import OutOfRange
from axlewright.kinds import Array, Count, Duration, Share, YesNo

MISFIT = -12.0  # logarithm of the chance of all findings together over that of each alone; below, they do not fit
AGAINST = -3.0  # the same, of the rest and the finding that moves most: one in twenty (ours)


@dataclass(frozen=True, slots=True)
class Telling:
    """What each finding does to the answer.

    Attributes:
        let_go: chance of letting go by the time asked, with all findings [-]
        without: that chance with each finding left out [-]
        ratio: by how much each finding multiplies the odds of letting go [-]
        support: for each, logarithm of how much likelier the rest makes it; below 0 the rest speaks against it [-]
        most: the finding that moves the chance most, counted from 0; -1 for none [1]
        suspect: the finding whose removal helps the others most, counted from 0; -1 for none [1]
        fit: logarithm of the chance of all findings together over that of each alone [-]
        fits: whether they fit together [-]
    """

    let_go: Share
    without: Shares
    ratio: Shares
    support: Shares
    most: Count
    suspect: Count
    fit: Share
    fits: YesNo


def what_speaks(
    lives: Lives,
    now: Duration,
    ago: Times,
    likelihood: Rows,
    by: Duration,
    misfit: OneShare = MISFIT,
    against: OneShare = AGAINST,
) -> Telling:
    """What each finding does to the chance of letting go, and whether findings contradict one another.

    Args:
        lives: laws of the class, one number each
        now: machine hours of the drive, which still carries [s]
        ago: for each finding, machine hours since it was made [s]
        likelihood: for each finding, likelihood under each condition, as it counts beside the others [-]
        by: machine hours ahead by which it may let go [s]
        misfit: fit below which findings do not fit together [-]
        against: support below which the finding that moves most is contradicted [-]

    Returns:
        what each finding does

    Source: evidence with each left out, and of each alone (Bayes); limits assumed.
    Valid: as the forecast. Findings that contradict one another are looked at again, not averaged away.

    >>> from axlewright.engines.forecast._laws import Sojourn
    >>> h = 3600.0
    >>> lives = Lives(
    ...     Sojourn("weibull", 5500 * h, 2), Sojourn("lognormal", 900 * h, 0.7), Sojourn("lognormal", 90 * h, 0.9), 0.35
    ... )
    >>> puddle_and_flakes = np.array([[0.02, 0.07, 0.25, 0.40], [0.02, 0.18, 0.38, 0.345]])
    >>> told = what_speaks(lives, 4000 * h, [0.0, 0.0], puddle_and_flakes, 100 * h)
    >>> int(told.most), bool(told.fits)
    (1, True)
    """
    rows = np.asarray(likelihood, float).reshape(-1, 4)
    since = np.asarray(ago, float).ravel()
    every = np.arange(len(rows), dtype=np.int64)

    def with_only(kept: NDArray[np.int64]) -> Forecast:
        return forecast(lives, now, since[kept], rows[kept], np.array([by], float))

    whole, nothing = with_only(every), with_only(every[:0])
    if np.ndim(whole.log_evidence):
        raise OutOfRange("lives", float(np.size(whole.log_evidence)), 1, 1, why="one law, not draws")
    let_go = float(whole.chance[0, 3])
    less = [with_only(np.delete(every, i)) for i in every]
    alone = np.array([float(with_only(every[i : i + 1]).log_evidence) - float(nothing.log_evidence) for i in every])
    without = np.array([float(f.chance[0, 3]) for f in less])
    support = np.array([float(whole.log_evidence) - float(f.log_evidence) for f in less]) - alone
    fit = float(whole.log_evidence) - float(nothing.log_evidence) - float(alone.sum())
    if not len(every):
        empty = np.zeros(0)
        return Telling(let_go, empty, empty, empty, -1.0, -1.0, 0.0, True)
    most, suspect = int(np.argmax(np.abs(let_go - without))), int(np.argmin(support))
    return Telling(
        let_go, without, _odds(let_go) / _odds(without), support, float(most),
        float(suspect) if len(every) > 1 else -1.0, fit, bool(fit >= misfit and support[most] >= against),
    )  # fmt: skip


def _odds(chance: Array | float) -> Array:
    share: Array = np.asarray(chance, float)
    return share / np.maximum(1 - share, 1e-300)
