"""How long a job takes, as draws: each step by its three minutes, half of the log variance common to all, troubles in.

A trouble goes by its own draw alone: a quick pair of hands does not loosen a seized bolt.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

import numpy as np

from axlewright.kinds import Array
from axlewright.plan.steps.jobs import Here, times
from axlewright.trade.networks import Job
from axlewright.trade.steps import Branch, Minutes, Rules, Steps

Shares: TypeAlias = Callable[[str], Array]
"""Gives the draws' shares (0 to 1) of a name: a stream of its own for each, so that a new step moves no other."""

TINY = 1e-16
"""Keeps the ends of a normal draw finite."""

BLOCK = 4096
"""Draws that are scheduled at once: more no longer fit beside the processor."""

LEAST_LOW = 0.2
"""Of the likely minutes: stands for a low of 0, since a logarithm has no nought (ours)."""


@dataclass(frozen=True, slots=True)
class Taken:
    """Minutes of a job on all draws, and what of them troubles took."""

    minutes: Array  # [min]
    troubles: Array  # how many there were
    at_work: Array  # minutes of people, waiting apart [min]

    def at(self, share: float) -> float:
        """Hours that so many of the draws stay under [h]."""
        return float(np.quantile(self.minutes, share)) / 60


def normal(u: Array) -> Array:
    from scipy.special import ndtri  # scipy is slow to import; only who asks for hours waits for it

    return np.asarray(ndtri(np.minimum(np.maximum(u, TINY), 1 - TINY)))


def spread(rules: Rules, m: Minutes, z: Array) -> Array:
    """Minutes at a standard normal value: lognormal on either side of the likely, through low and high [min]."""
    down, up = _sides(rules.minutes.quick, rules.minutes.long, m.low, m.likely, m.high)
    return np.asarray(m.likely * np.exp(z * np.where(z < 0, down, up)))


@lru_cache(maxsize=4096)
def _sides(quick: float, long: float, low: float, likely: float, high: float) -> tuple[float, float]:
    """Deviation of the logarithm under the likely and over it: one for each task's three minutes."""
    down = np.log(likely / max(low, LEAST_LOW * likely)) / -normal(np.array(quick))
    return float(down), float(np.log(high / likely) / normal(np.array(long)))


def taken(rows: Steps, work: Job, here: Here, shares: Shares, troubles: bool = True) -> Taken:
    """Minutes of a job on all draws.

    Raises:
        TooFewHands: a step takes more people than there are
    """
    rules, common = rows.rules, normal(shares("steps/common"))
    own = np.sqrt(1 - rules.minutes.common)
    shared = np.sqrt(rules.minutes.common) * common
    lasts = np.empty((len(work.steps), len(common)))  # a row a step
    met = np.zeros(len(common))
    for mine, step in zip(lasts, work.steps, strict=True):
        task = step.task
        grown = rules.scale[task.scale][here.size] * (task.first if here.first_time else 1.0)
        mine[:] = grown * spread(rules, task.minutes, shared + own * normal(shares(f"steps/{task.id}")))
        for n, branch in enumerate(task.trouble_branches if troubles else ()):
            comes = np.flatnonzero(shares(f"steps/{task.id}/trouble-{n}") < branch.chance)
            mine[comes] += spread(rules, branch.extra_minutes, normal(shares(f"steps/{task.id}/extra-{n}")[comes]))
            met[comes] += 1
    takes = np.array([s.task.hands for s in work.steps])
    blocks = (lasts[:, first : first + BLOCK].T for first in range(0, len(common), BLOCK))
    finish = np.concatenate([times(work.steps, one, here.hands).finish for one in blocks])
    return Taken(finish, met, takes @ lasts)


@dataclass(frozen=True, slots=True)
class Odds:
    """Of the troubles on the way."""

    at_least_one: float
    mean_minutes: float  # [min]


def odds(branches: Iterable[Branch]) -> Odds:
    """Chance of at least one trouble, and the minutes they take on the mean, each (low + 4 likely + high) / 6."""
    none, mean = 1.0, 0.0
    for b in branches:
        m = b.extra_minutes
        none *= 1 - b.chance
        mean += b.chance * (m.low + 4 * m.likely + m.high) / 6
    return Odds(1 - none, mean)


def branches(work: Job) -> tuple[Branch, ...]:
    """The troubles that may come in a job, in card order."""
    return tuple(b for s in work.steps for b in s.task.trouble_branches)
