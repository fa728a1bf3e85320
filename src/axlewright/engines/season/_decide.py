"""Dates to decide by: the latest safe start on a grid of days, and the first course that is lost by waiting (E6)."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from axlewright.engines.limits import OutOfRange, within
from axlewright.kinds import Array, Duration, Money, Share

SURE = 0.9


def latest(starts: Duration, finishes: Duration, need_by: Duration, confidence: Share = SURE) -> float:
    """The latest of several starts that is still in time, sure enough; minus infinity where none is.

    Args:
        starts: days on which it could begin or be ordered, rising [s]
        finishes: when it would be done: draws on the first axis, starts on the last; an arrival, closed days and nights
            in it [s]
        need_by: when it is needed; may be draws [s]
        confidence: share of draws that shall be in time [-]

    Returns:
        start [s]

    Source: P(F(s) <= need by) >= confidence on the same draws for every start (docs/engines/season.md).
    Valid: a later start is never done sooner.
    """
    days = np.asarray(starts, float)
    table = np.asarray(finishes, float)
    if table.shape[-1:] != days.shape:
        raise OutOfRange("finishes", table.shape[-1], len(days), len(days), why="one a start")
    within("confidence", confidence, 0.0, 1.0)
    need = np.asarray(need_by, float)
    chance = (table <= (need[:, None] if need.ndim else need)).mean(axis=0)
    fits = chance >= confidence
    return float(days[fits].max()) if fits.any() else -np.inf


@dataclass(frozen=True, slots=True)
class DecideBy:
    """The date to decide by.

    Attributes:
        date: the last day on which every course worth having can still be had; infinite where nothing is lost by waiting [s]
        course: number of the course that is lost then; -1: none [1]
        loss: what losing it costs on the mean; infinite where no course is left then [money]
        losses: what losing each one alone would cost on the mean [money]
    """

    date: float
    course: int
    loss: float
    losses: Money


def decide_by(means: Money, dates: Duration, admitted: tuple[bool, ...] = ()) -> DecideBy:
    """The first date on which a course worth having drops out, and what its loss costs.

    Args:
        means: mean cost of each course [money]
        dates: the last day on which each can be begun or ordered; infinite: any day [s]
        admitted: whether each course may be taken; none given: all may

    Returns:
        the date

    Source: mean cost of the best course with and without (docs/engines/season.md).
    Valid: as the means. Courses drop out in the order of their dates, one after another.
    """
    cost, last = np.asarray(means, float), np.asarray(dates, float)
    may = np.array(admitted or (True,) * len(cost), bool)
    if not may.any() or cost.shape != last.shape or cost.shape != may.shape:
        raise OutOfRange("admitted", may.sum(), 1, len(cost), why="one a course, and one at least may be taken")
    value = np.where(may, cost, np.inf)
    others = np.array([np.delete(value, k).min(initial=np.inf) for k in range(len(value))])
    losses = np.where(may, np.maximum(others - value.min(), 0.0), 0.0)
    left, now = value.copy(), value.min()
    for course in np.argsort(last, kind="stable"):
        if last[course] == np.inf:
            break
        left[course] = np.inf
        if left.min() > now:
            return DecideBy(float(last[course]), int(course), float(left.min() - now), losses)
    return DecideBy(np.inf, -1, 0.0, losses)


def best_order(
    tasks: Sequence[str],
    after: Mapping[str, Sequence[str]],
    finish_of: Callable[[Sequence[str]], float],
    shares: Array,
) -> tuple[str, ...]:
    """An order of tasks that is done soonest of those tried: one for all draws, so call it on middle durations.

    Args:
        tasks: each behind what it waits for; this order is tried first
        after: what each waits for
        finish_of: when all is done in an order
        shares: shares of 0 to 1: orders to try on the first axis, tasks on the last

    Returns:
        the order

    Source: serial schedules over random orders that keep precedence (docs/engines/season.md).
    Valid: a better order may be among those not tried.
    """
    best = tuple(tasks)
    soonest = finish_of(best)
    for key in np.atleast_2d(np.asarray(shares, float)):
        wish = dict(zip(tasks, key, strict=True))
        order: list[str] = []
        open_tasks = set(tasks)
        while open_tasks:
            free = [t for t in open_tasks if not any(a in open_tasks for a in after.get(t, ()))]
            if not free:
                raise OutOfRange("after", float(len(open_tasks)), 0, 0, why="tasks that wait for one another")
            chosen = min(free, key=lambda t: (wish[t], t))
            order.append(chosen)
            open_tasks.remove(chosen)
        when = finish_of(order)
        if when < soonest - 1e-12 * abs(soonest):
            best, soonest = tuple(order), when
    return best
