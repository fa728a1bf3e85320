"""What a look is worth before it is made: by what it may say, and what one would do then (E3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeAlias

import numpy as np

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.engines.season._looks import not_below_nothing
from axlewright.kinds import LAST_AXIS, Array, Count, Money, Share, YesNo, kind_of

Moneys: TypeAlias = Annotated[Array, kind_of(Money), LAST_AXIS]
Shares: TypeAlias = Annotated[Array, kind_of(Share), LAST_AXIS]
Counts: TypeAlias = Annotated[Array, kind_of(Count), LAST_AXIS]


@dataclass(frozen=True, slots=True)
class Option:
    """A course, by what it costs in each state.

    Attributes:
        cost: cost in each state [money]
    """

    cost: Moneys


@dataclass(frozen=True, slots=True)
class Saying:
    """One thing that a look may say.

    Attributes:
        chance: chance of it in each state [-]
    """

    chance: Shares


@dataclass(frozen=True, slots=True)
class Worth:
    """What a look is worth.

    Attributes:
        worth: what it saves on the mean, its own cost apart [money]
        ceiling: what knowing the state itself would save [money]
        now: cost of the best course without it [money]
        best: number of that course, the first is 1 [1]
        chances: chance of each thing it may say [-]
        choices: number of the best course after each [1]
        changes: one of them at least is another course than now [-]
    """

    worth: Money
    ceiling: Money
    now: Money
    best: Count
    chances: Shares
    choices: Counts
    changes: YesNo


def worth_of_a_look(weights: Shares, options: tuple[Option, ...], sayings: tuple[Saying, ...]) -> Worth:
    """What a look saves on the mean, because one of the things that it may say changes the course.

    Args:
        weights: how likely each state is before the look; need not add up to 1 [-]
        options: the courses
        sayings: what the look may say; their chances add up to 1 in each state

    Returns:
        worth, ceiling and what would be done

    Source: expected value of sample information: Raiffa and Schlaifer 1961; ceiling: that of perfect information on the
        state.
    Valid: costs; a gain is a cost below nothing. All findings made before are in the weights.
    Try: weights="0.4; 0.4; 0.2" options.1.cost="900; 3800; 14000" options.2.cost="5200; 5300; 6900"
        sayings.1.chance="0.8; 0.5; 0.2" sayings.2.chance="0.2; 0.5; 0.8"

    >>> dry_wet_soaking = np.array([0.5, 0.3, 0.2])
    >>> drill, leave = Option(np.array([70.0, -50.0, -200.0])), Option(np.zeros(3))
    >>> says = [Saying(np.array(c)) for c in ([0.6, 0.3, 0.1], [0.3, 0.4, 0.4], [0.1, 0.3, 0.5])]
    >>> found = worth_of_a_look(dry_wet_soaking, (drill, leave), tuple(says))
    >>> round(found.worth, 6), round(found.ceiling, 6), found.choices.tolist()
    (12.5, 35.0, [2.0, 1.0, 1.0])
    """
    weight = np.asarray(weights, float).ravel()
    within("weights", weight, 0.0)
    above("weights", weight.sum(), why="not all of them 0")
    if not options:
        raise OutOfRange("options", 0.0, 1.0, np.inf, why="one course at least")
    costs = _table("options", [o.cost for o in options], len(weight)).T
    within("options", costs)
    chances = _table("sayings", [s.chance for s in sayings], len(weight)).T
    within("sayings", chances, 0.0, 1.0)
    within(
        "sayings", chances.sum(axis=1), 1 - 1e-6, 1 + 1e-6, "the chances of what it may say add up to 1 in each state"
    )
    share = weight / weight.sum()
    return _worth_from(share[:, None] * costs, share, chances)


def difference_known(mean: Money, spread: Money) -> Money:
    """What it saves to know a normal difference of two courses before choosing, or as much of it as a look tells.

    Args:
        mean: mean by which the one is cheaper than the other [money]
        spread: standard deviation of what will be known of it [money]

    Returns:
        saving on the mean [money]

    Source: E max(0, X) - max(0, E X) of a normal X: mu Phi(mu/s) + s phi(mu/s), any text on decisions.
    Valid: two courses, a normal difference; spread as in `spread_told` for a look that errs.
    Try: mean=1000 spread=2200

    >>> round(float(difference_known(1.0, 5**0.5)), 6)
    0.479811
    """
    from scipy.special import ndtr

    within("mean", mean)
    above("spread", spread)
    z = np.asarray(mean, float) / spread
    return np.asarray(mean * ndtr(z) + spread * np.exp(-z * z / 2) / np.sqrt(2 * np.pi) - np.maximum(mean, 0.0))[()]


def spread_told(spread: Money, error: Money, looks: Share = 1.0) -> Money:
    """How far the mean of a number may move by looks that err: the spread of what will be believed.

    Args:
        spread: standard deviation of the number before [money]
        error: standard deviation of one look at it [money]
        looks: how many looks [-]

    Returns:
        standard deviation of its mean after them [money]

    Source: normal with normal error: s^2/sqrt(s^2 + e^2/n), any text on Bayesian statistics.
    Valid: looks that err apart.
    Try: spread=1000 error=1000 looks=10

    >>> round(float(spread_told(1.0, 1.0, 10.0)), 6)
    0.953463
    """
    above("spread", spread)
    within("error", error, 0.0)
    above("looks", looks)
    return spread / np.sqrt(1 + np.asarray(error, float) ** 2 / (looks * np.asarray(spread, float) ** 2))


# --- the one product behind all of it ---


def _table(name: str, rows: list[Array], states: int) -> Array:
    """Rows of one number a state."""
    for row in rows:
        if np.shape(row) != (states,):
            raise OutOfRange(name, float(np.size(row)), states, states, why="one number a state")
    if not rows:
        raise OutOfRange(name, 0.0, 1.0, np.inf, why="one at least")
    return np.array(rows, float)


def _worth_from(costs: Array, weight: Array, chances: Array) -> Worth:
    """From costs times weights (state, course), weights, and chances (state, saying)."""
    after = chances.T @ costs
    total = costs.sum(axis=0)
    best = int(total.argmin())
    choices = after.argmin(axis=1)
    scale = float(np.abs(costs).sum())
    worth = not_below_nothing(float(total[best] - after.min(axis=1).sum()), scale)
    ceiling = not_below_nothing(float(total[best] - costs.min(axis=1).sum()), scale)
    said = weight @ chances
    same = choices == best
    return Worth(
        worth, ceiling, float(total[best]), float(best + 1), said, choices + 1.0, bool((~same & (said > 0)).any())
    )
