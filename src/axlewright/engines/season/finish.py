"""When work is done, the last safe start, and the last day to order (E6)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeAlias

import numpy as np

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import LAST_AXIS, Array, Duration, Money, Share, kind_of

Durations: TypeAlias = Annotated[Array, kind_of(Duration), LAST_AXIS]
Shares: TypeAlias = Annotated[Array, kind_of(Share), LAST_AXIS]
OneShare: TypeAlias = Annotated[float, kind_of(Share)]
OneDuration: TypeAlias = Annotated[float, kind_of(Duration)]

WEEK = 604_800.0  # [s]
SURE = 0.9  # nine jobs in ten are in time (assumed)
SLACK = 1e-9  # of the finish: less is none


@dataclass(frozen=True, slots=True)
class Activity:
    """A task of a network.

    Attributes:
        name: its name, one word
        takes: how long it takes; may be draws [s]
        after: names of the tasks that come before it, apart by blanks; nothing: it can begin at once
    """

    name: str
    takes: Duration
    after: str = ""


@dataclass(frozen=True, slots=True)
class Path:
    """When a network is done, and what it waits for.

    Attributes:
        finish: when all is done [s]
        critical: names of the tasks without slack, in the order given; over draws those without in every second [-]
        slack: how much later each could be without moving the end; the mean over draws [s]
        critical_share: share of draws in which each is without slack [-]
    """

    finish: Duration
    critical: str
    slack: Durations
    critical_share: Shares


def network_finish(tasks: tuple[Activity, ...]) -> Path:
    """When a network of tasks is done, with hands enough for all, and which tasks it waits for.

    Args:
        tasks: each behind what it waits for

    Returns:
        finish, what it waits for, slack

    Source: forward and backward pass, critical path method (Kelley, Walker 1959).
    Valid: hands enough; a task begins once all before it are done.
    Try: tasks.1.name=off tasks.1.takes="4 h" tasks.2.name=clean tasks.2.takes="2 h" tasks.2.after=off
        tasks.3.name=fetch tasks.3.takes="5 h" tasks.4.name=on tasks.4.takes="3 h" tasks.4.after="clean fetch"

    >>> off, fetch = Activity("off", 4.0), Activity("fetch", 5.0)
    >>> network_finish((off, fetch, Activity("on", 3.0, "off fetch"))).critical
    'fetch on'
    """
    if not tasks:
        raise OutOfRange("tasks", 0.0, 1.0, np.inf, why="one at least")
    place: dict[str, int] = {}
    before: list[list[int]] = []
    for number, task in enumerate(tasks):
        within("tasks", task.takes, 0.0)
        names = task.after.split()
        missing = [name for name in names if name not in place]
        if missing or task.name in place:
            why = (
                f"{task.name} waits for {missing[0]}, which is not before it"
                if missing
                else f"{task.name} is there twice"
            )
            raise OutOfRange("tasks", float(number + 1), 1, len(tasks), why=why)
        before.append([place[name] for name in names])
        place[task.name] = number
    lasts = [np.asarray(task.takes, float) for task in tasks]
    nothing = np.zeros(np.broadcast_shapes(*(one.shape for one in lasts)))
    ends: list[Array] = []
    for takes, waits in zip(lasts, before, strict=True):
        ends.append(np.maximum.reduce([nothing, *(ends[w] for w in waits)]) + takes)
    finish = np.maximum.reduce(ends)
    latest = [finish] * len(tasks)
    for number in reversed(range(len(tasks))):
        for w in before[number]:
            latest[w] = np.minimum(latest[w], latest[number] - lasts[number])
    slack = np.stack([np.broadcast_to(late - end, nothing.shape) for late, end in zip(latest, ends, strict=True)], -1)
    none = slack <= SLACK * finish[..., None]
    share = none.reshape(-1, len(tasks)).mean(axis=0)
    critical = " ".join(task.name for task, part in zip(tasks, share, strict=True) if part >= 0.5)
    return Path(finish[()], critical, slack.reshape(-1, len(tasks)).mean(axis=0), share)


@dataclass(frozen=True, slots=True)
class Spread:
    """Middle and spread of a time.

    Attributes:
        mean: mean [s]
        deviation: standard deviation [s]
    """

    mean: Duration
    deviation: Duration


def three_point(low: Duration, likely: Duration, high: Duration) -> Spread:
    """Mean and standard deviation of a task that takes at least, most likely and at most so long.

    Args:
        low: at least [s]
        likely: most likely [s]
        high: at most [s]

    Returns:
        mean and standard deviation

    Source: PERT, (a + 4m + b)/6 and (b - a)/6. The variance of its beta is (mean - a)(b - mean)/7: another number.
    Valid: a cross-check on one path only; where paths meet the mean of the later one is longer (`later_of_two`).
    Try: low="5 h" likely="8 h" high="17 h"

    >>> three_point(5.0, 8.0, 17.0)
    Spread(mean=9.0, deviation=2.0)
    """
    within("low", low, 0.0)
    within("likely", likely)
    within("high", high)
    _in_order(low, likely, high)
    return Spread((low + 4 * likely + high) / 6, (high - low) / 6)


def _in_order(low: Duration, likely: Duration, high: Duration) -> None:
    if (np.asarray(likely, float) < low).any():
        raise OutOfRange(
            "likely", float(np.min(likely)), float(np.max(low)), float(np.min(high)), why="not under the low"
        )
    if (np.asarray(high, float) < likely).any():
        raise OutOfRange("high", float(np.min(high)), float(np.max(likely)), np.inf, why="not under the likely")


def later_of_two(
    mean: Duration, deviation: Duration, other_mean: Duration, other_deviation: Duration, correlation: Share = 0.0
) -> Spread:
    """Mean and standard deviation of the later of two ends.

    Args:
        mean: mean of the one [s]
        deviation: its standard deviation [s]
        other_mean: mean of the other [s]
        other_deviation: its standard deviation [s]
        correlation: correlation of the two [-]

    Returns:
        mean and standard deviation

    Source: Clark 1961, The greatest of a finite set of random variables.
    Valid: two normal ends.
    Try: mean="10 d" deviation="2 d" other-mean="10 d" other-deviation="2 d"

    >>> round(float(later_of_two(10.0, 2.0, 10.0, 2.0).mean), 4)
    11.1284
    """
    from scipy.special import ndtr

    within("mean", mean)
    above("deviation", deviation)
    within("other_mean", other_mean)
    above("other_deviation", other_deviation)
    within("correlation", correlation, -1.0, 0.999999)
    m, s = np.asarray(mean, float), np.asarray(deviation, float)
    n, t = np.asarray(other_mean, float), np.asarray(other_deviation, float)
    a = np.sqrt(s * s + t * t - 2 * correlation * s * t)
    z = (m - n) / np.where(a > 0, a, 1.0)
    density = np.exp(-z * z / 2) / np.sqrt(2 * np.pi)
    first = m * ndtr(z) + n * ndtr(-z) + a * density
    second = (m * m + s * s) * ndtr(z) + (n * n + t * t) * ndtr(-z) + (m + n) * a * density
    return Spread(first[()], np.sqrt(np.maximum(second - first * first, 0.0))[()])


def time_needed(takes: Durations, confidence: OneShare = SURE) -> Duration:
    """How long before the day it is needed a job must begin, or a part be ordered.

    Args:
        takes: how long all of it takes, one a draw [s]
        confidence: share of jobs that shall be in time [-]

    Returns:
        time [s]

    Source: quantile of the draws; the last safe start is the day it is needed less this.
    Valid: no arrival and no closed day between: then the finish hangs on the day it begins (`latest`).
    Try: takes="5 d; 6 d; 7 d; 9 d; 14 d" confidence=0.8

    >>> time_needed(np.array([5.0, 6.0, 7.0, 9.0, 14.0]), 0.8)
    10.0
    """
    draws = np.asarray(takes, float).ravel()
    if not draws.size:
        raise OutOfRange("takes", 0.0, 1.0, np.inf, why="one draw at least")
    within("takes", draws, 0.0)
    within("confidence", confidence, 0.0, 1.0)
    return float(np.quantile(draws, confidence))


def chance_in_time(takes: Durations, left: OneDuration) -> Share:
    """Share of jobs that are done in the time that is left.

    Args:
        takes: how long all of it takes, one a draw [s]
        left: time that is left [s]

    Returns:
        share [-]

    Source: distribution of the draws.
    Valid: as the draws.
    Try: takes="5 d; 6 d; 7 d; 9 d; 14 d" left="8 d"

    >>> chance_in_time(np.array([5.0, 6.0, 7.0, 9.0, 14.0]), 8.0)
    0.6
    """
    draws = np.asarray(takes, float).ravel()
    if not draws.size:
        raise OutOfRange("takes", 0.0, 1.0, np.inf, why="one draw at least")
    within("takes", draws, 0.0)
    within("left", left, 0.0)
    return float((draws <= left).mean())


def how_sure(late: Money, early: Money) -> Share:
    """How sure of being in time it pays to be.

    Args:
        late: what a late day costs [money]
        early: what a day too early costs [money]

    Returns:
        share of jobs in time [-]

    Source: critical ratio late/(late + early) of the newsvendor, any text on inventory.
    Valid: each day costs the same.
    Try: late=1500 early=100

    >>> float(how_sure(1500.0, 100.0))
    0.9375
    """
    above("late", late)
    within("early", early, 0.0)
    return late / (late + np.asarray(early, float))[()]


def time_before(mean: Duration, deviation: Duration, confidence: Share) -> Duration:
    """How long before the day it is needed to order, where all of it together is about normal.

    Args:
        mean: mean of all it takes [s]
        deviation: its standard deviation [s]
        confidence: share of orders that shall be in time [-]

    Returns:
        time [s]

    Source: normal quantile.
    Valid: confidence above 0 and below 1.
    Try: mean="9 d" deviation="3 d" confidence=0.9375

    >>> round(float(time_before(9.0, 3.0, 0.9375)), 3)
    13.602
    """
    from scipy.special import ndtri

    within("mean", mean)
    within("deviation", deviation, 0.0)
    within("confidence", confidence, 1e-9, 1 - 1e-9)
    return np.asarray(mean + deviation * ndtri(np.asarray(confidence, float)))[()]


def chance_before(mean: Duration, deviation: Duration, left: Duration) -> Share:
    """Chance to be done in the time that is left, where all of it together is about normal.

    Args:
        mean: mean of all it takes [s]
        deviation: its standard deviation [s]
        left: time that is left [s]

    Returns:
        chance [-]

    Source: normal distribution.
    Valid: one path; where paths meet it is too hopeful.
    Try: mean="24 d" deviation="2.24 d" left="28 d"

    >>> round(float(chance_before(24.0, 5**0.5, 28.0)), 4)
    0.9632
    """
    from scipy.special import ndtr

    within("mean", mean)
    above("deviation", deviation)
    within("left", left)
    return np.asarray(ndtr((np.asarray(left, float) - mean) / deviation))[()]


@dataclass(frozen=True, slots=True)
class Open:
    """A stretch of the week in which a shop works.

    Attributes:
        begins: from the beginning of the week [s]
        ends: from the beginning of the week [s]
    """

    begins: Duration
    ends: Duration


def done_in_shop(start: Duration, work: Duration, week: tuple[Open, ...], length: OneDuration = WEEK) -> Duration:
    """When a shop is through with a piece of work.

    What comes outside its hours waits for the next opening; what is done at closing time is done that day.

    Args:
        start: when the work comes in, from the beginning of a week [s]
        work: how long it takes [s]
        week: when the shop works, in order
        length: length of a week [s]

    Returns:
        when it is done, from the beginning of the same week [s]

    Source: hours open by a cumulative table, and back.
    Valid: every week the same; holidays are left out.
    Try: start="86 h" work="10 h" week.1.begins="8 h" week.1.ends="16 h" week.2.begins="80 h" week.2.ends="88 h"

    >>> h = 3600.0
    >>> days = tuple(Open((24 * d + 8) * h, (24 * d + 16) * h) for d in range(5))
    >>> float(done_in_shop((24 * 3 + 14) * h, 10 * h, days)) / h
    112.0
    """
    within("start", start, 0.0)
    above("work", work)
    above("length", length)
    begins, ends = np.array([float(o.begins) for o in week]), np.array([float(o.ends) for o in week])
    if not len(week) or (ends <= begins).any() or (begins[1:] < ends[:-1]).any() or begins[0] < 0 or ends[-1] > length:
        raise OutOfRange("week", float(len(week)), 1.0, np.inf, why="stretches in order, each within the week")
    lasts = ends - begins
    sums = np.cumsum(lasts)
    weeks, at = np.divmod(np.asarray(start, float), length)
    behind = (sums - lasts)[:, None] if at.ndim else sums - lasts
    first = begins[:, None] if at.ndim else begins
    open_for = lasts[:, None] if at.ndim else lasts
    had = np.max(np.where(at >= first, behind + np.clip(at - first, 0.0, open_for), 0.0), axis=0)
    amount = had + np.asarray(work, float)
    more = np.ceil(amount / sums[-1] - 1e-12) - 1  # whole weeks besides
    left = amount - more * sums[-1]
    stretch = np.searchsorted(sums, left - 1e-9 * sums[-1])
    done = ends[stretch] - (sums[stretch] - left)
    return np.asarray((weeks + more) * length + done)[()]
