"""Courses side by side on common draws: what each costs, how sure that is, and which differ."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated, Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.limits import OutOfRange, within
from axlewright.engines.season._ledger import PRICED, Ledger, Prices, is_nought
from axlewright.engines.season.courses import Outcome
from axlewright.kinds import LAST_AXIS, Array, Count, Duration, Money, Share, YesNo, kind_of

Moneys: TypeAlias = Annotated[Array, kind_of(Money), LAST_AXIS]
Durations: TypeAlias = Annotated[Array, kind_of(Duration), LAST_AXIS]

DOTS = 100
CLOSE = 0.03  # of the smaller cost: a lesser difference says nothing on guessed prices (assumed)
HAIR = 1e-12  # of a share: what binary sums may be off by
SURE = 2.0  # standard errors of the paired difference


@dataclass(frozen=True, slots=True)
class CourseResult:
    """What is told of one course. Costs stand above those of the same seasons without trouble.

    Attributes:
        name: of the course
        recovery: number of the recovery taken if a drive lets go: of those offered, the one of least mean cost [1]
        mean: mean cost [money]
        error: standard error of the mean, by trajectories [money]
        low: cost that one season in ten stays under [money]
        middle: cost that every second stays under [money]
        high: cost that nine in ten stay under [money]
        dots: a hundred seasons in order of cost, each as likely as any other [money]
        cash: mean of what is paid before work begins [money]
        days_lost: mean of the time lost against the same weather without trouble [s]
        finish: when the last crop is off in one season in ten, in every second, in nine of ten; infinite: never [s]
        unfinished: share of seasons in which some crop is never taken off [-]
        fails: chance that a drive lets go at work this season [-]
        unsafe: chance that it is unsafe when it does [-]
        regret: mean of what it costs more than the cheapest of that season, known afterwards [money]
        cheapest: share of seasons in which it would have been the cheapest; hindsight, no confidence [-]
        behind: mean of what it costs more than the best [money]
        behind_error: standard error of that, paired [money]
        too_close: the difference to the best is too small to call
        dominated: another is no worse in cash, cost, days, chance of letting go or of harm, and better in one
    """

    name: str
    recovery: int
    mean: Money
    error: Money
    low: Money
    middle: Money
    high: Money
    dots: Moneys
    cash: Money
    days_lost: Duration
    finish: Durations
    unfinished: Share
    fails: Share
    unsafe: Share
    regret: Money
    cheapest: Share
    behind: Money
    behind_error: Money
    too_close: YesNo
    dominated: YesNo


@dataclass(frozen=True, slots=True)
class Priced:
    """What a course came to in money, one a draw: all that courses are held against each other by.

    Attributes:
        course: its name
        recovery: number of the recovery that was taken once the machine stood [1]
        costs: cost above the same season without trouble [money]
        cash: what is paid before work begins [money]
        lost: time lost against the same weather without trouble [s]
        finish: from now until the last crop is off; infinite where some is never [s]
        failed: how often a drive let go at work [1]
        unsafe: chance that it was unsafe [-]
    """

    course: str
    recovery: int
    costs: Money
    cash: Money
    lost: Duration
    finish: Duration
    failed: Count
    unsafe: Share


@dataclass(frozen=True, slots=True)
class Choice:
    """Courses on common draws.

    Attributes:
        results: one a course, in the order given
        costs: cost above the same season without trouble, a draw a row, a course a column [money]
        best: number of the admitted course of least mean cost [1]
        perfect: the most that knowing everything beforehand could save [money]
    """

    results: tuple[CourseResult, ...]
    costs: Array
    best: int
    perfect: Money


def cost_of(ledger: Ledger, prices: Prices) -> Money:
    """Cost of what a course uses up.

    Args:
        ledger: the counts
        prices: what one of each costs

    Returns:
        cost [money]

    Source: counts times prices.
    Valid: always; straight in every price, so a price can be moved without another run.

    >>> nothing = dict.fromkeys(
    ...     ("exchange", "deposit", "seal_kit", "rebuild", "extra_parts", "hire_call", "check"), 0.0
    ... )
    >>> prices = Prices(
    ...     tow=600,
    ...     labour=0.01,
    ...     winter_labour=0.0,
    ...     used=4000,
    ...     damage=0,
    ...     hire=0,
    ...     hold=0,
    ...     crop=np.array([0.1]),
    ...     **nothing,
    ... )
    >>> float(cost_of(Ledger(tows=1.0, used=1.0, labour=3600.0, delayed=np.array([500.0])), prices))
    4686.0
    """
    total: Any = 0.0
    for count, price, sign in PRICED:
        many = getattr(ledger, count)
        if not is_nought(many):
            total = total + sign * many * np.asarray(getattr(prices, price), float)
    for areas in (ledger.delayed, ledger.standing):
        if not is_nought(areas):
            total = total + (np.asarray(areas) * np.asarray(prices.crop)).sum(axis=-1)
    return np.asarray(total, float)[()]


def compare(
    outcomes: tuple[tuple[Outcome, ...], ...],
    prices: Prices,
    free: Outcome,
    admitted: tuple[bool, ...] = (),
    weights: Share = 1.0,
    replicates: int = 1,
) -> Choice:
    """Courses side by side, each with the recovery that is cheapest on the mean.

    Args:
        outcomes: for each course, its outcome under each recovery
        prices: what one of each count costs
        free: the same seasons without trouble
        admitted: whether a verdict lets the course be taken at all; none given: all may
        weights: how much each trajectory counts; need not add up to 1 [-]
        replicates: seasons drawn of each trajectory, one after another [1]

    Returns:
        the choice

    Source: counts times prices on common draws; standard error of paired differences (docs/engines/season.md).
    Valid: all outcomes on the same draws. Best and too close speak of admitted courses only.
    """
    free_cost = cost_of(free.season, prices)
    ways = (tuple(priced(way, prices, free_cost) for way in under) for under in outcomes)
    return side_by_side(tuple(_cheapest(one, weights, replicates) for one in ways), admitted, weights, replicates)


def priced(outcome: Outcome, prices: Prices, free_cost: Money) -> Priced:
    """Counts times prices, season by season: seasons may be priced a block at a time, and their counts let go.

    Args:
        outcome: how a course went
        prices: what one of each count costs
        free_cost: cost of the same seasons without trouble [money]

    Returns:
        the course in money

    Source: counts times prices.
    Valid: all on the same draws.
    """
    size = np.shape(outcome.finish)

    def full(value: object) -> Array:
        return np.broadcast_to(np.asarray(value, float), size)

    return Priced(
        outcome.course, outcome.recovery, full(np.asarray(cost_of(outcome.season, prices)) - free_cost),
        full(cost_of(outcome.now, prices)), full(outcome.lost), np.asarray(outcome.finish, float), full(outcome.failed),
        full(outcome.unsafe),
    )  # fmt: skip


def side_by_side(
    courses: tuple[Priced, ...], admitted: tuple[bool, ...] = (), weights: Share = 1.0, replicates: int = 1
) -> Choice:
    """Courses that are priced already, held against each other.

    Args:
        courses: each with the recovery that is taken
        admitted: whether a verdict lets the course be taken at all; none given: all may
        weights: how much each trajectory counts; need not add up to 1 [-]
        replicates: seasons drawn of each trajectory, one after another [1]

    Returns:
        the choice

    Source: standard error of paired differences on common draws (docs/engines/season.md).
    Valid: all on the same draws. Best and too close speak of admitted courses only.
    """
    costs = np.stack([np.asarray(one.costs) for one in courses], axis=1)
    may = np.array(admitted or (True,) * len(courses), bool)
    if len(may) != len(courses) or not may.any():
        raise OutOfRange("admitted", may.sum(), 1, len(courses), why="one a course, and one at least may be taken")
    weight = season_weights(weights, replicates, len(costs))
    by_life = by_trajectory(costs, replicates)
    share = _normal(weights, len(by_life))
    means = share @ by_life
    best = int(np.flatnonzero(may)[np.argmin(means[may])])
    least = costs[:, may].min(axis=1)
    first = np.flatnonzero(may)[np.argmin(costs[:, may], axis=1)]
    results = []
    for number, one in enumerate(courses):
        mine, behind = by_life[:, number], by_life[:, number] - by_life[:, best]
        gap, error = float(share @ behind), _error(share, behind)
        close = abs(gap) < max(SURE * error, CLOSE * min(abs(float(means[number])), abs(float(means[best]))))
        found: dict[str, Any] = {
            "mean": float(means[number]), "error": _error(share, mine), "behind": gap, "behind_error": error,
            "too_close": number != best and close, "regret": float(weight @ (costs[:, number] - least)),
            "cheapest": float(weight @ (first == number)),
        }  # fmt: skip
        results.append(CourseResult(**found, **_told(one, weight)))
    return Choice(_dominated(results, may), costs, best, results[best].regret)


TENTHS = np.array([0.1, 0.5, 0.9])


def _told(one: Priced, weight: Array) -> dict[str, Any]:
    """What is told of a course by itself."""
    shares = np.concatenate([TENTHS, (np.arange(DOTS) + 0.5) / DOTS])
    ends = quantiles(np.asarray(one.costs), weight, shares)
    return {
        "name": one.course,
        "recovery": one.recovery,
        "low": ends[0],
        "middle": ends[1],
        "high": ends[2],
        "dots": ends[len(TENTHS) :],
        "cash": float(weight @ np.asarray(one.cash)),
        "days_lost": float(weight @ np.asarray(one.lost)),
        "finish": quantiles(np.asarray(one.finish), weight, TENTHS),
        "unfinished": float(weight @ np.isinf(one.finish)),
        "fails": float(weight @ (np.asarray(one.failed) > 0)),
        "unsafe": float(weight @ np.asarray(one.unsafe)),
        "dominated": False,
    }


def safe_enough(unsafe: Share, limit: Share) -> YesNo:
    """Which courses stay under the limit on harm. The limit strikes out; a chance below it, however small, admits nothing.

    Args:
        unsafe: chance of harm of each course [-]
        limit: limit for one season [-]

    Returns:
        whether each stays under it [-]

    Source: rule; no money is weighed against it.
    Valid: chances assumed, without data: say so where they are shown.
    """
    within("unsafe", unsafe, 0.0, 1.0)
    within("limit", limit, 0.0, 1.0)
    return np.asarray(np.asarray(unsafe, float) <= limit)


def by_trajectory(costs: Array, replicates: int) -> Array:
    """Costs averaged over the weather replicates of each trajectory.

    Args:
        costs: a season a row [money]
        replicates: seasons drawn of each trajectory, one after another [1]

    Returns:
        a trajectory a row [money]

    Source: mean over what the trajectory does not tell.
    Valid: rows in the order of `numpy.repeat`.
    """
    table = np.asarray(costs, float)
    if len(table) % replicates:
        raise OutOfRange("replicates", replicates, 1, len(table), why=f"{len(table)} seasons are no multiple of it")
    return table if replicates == 1 else table.reshape(-1, replicates, *table.shape[1:]).mean(axis=1)


def _cheapest(ways: tuple[Priced, ...], weights: Share, replicates: int) -> Priced:
    """Of one course the recovery of least mean cost, never the cheapest of each season: that would be foresight."""
    weight = season_weights(weights, replicates, len(np.asarray(ways[0].costs)))
    return min(ways, key=lambda way: float(weight @ np.asarray(way.costs)))


def season_weights(weights: Share, replicates: int, seasons: int) -> Array:
    """Weight of each season, all together 1."""
    return np.repeat(_normal(weights, seasons // replicates), replicates) / replicates


def _normal(weights: Share, many: int) -> Array:
    given = np.broadcast_to(np.asarray(weights, float), (many,))
    within("weights", given, 0.0)
    if not given.any():
        raise OutOfRange("weights", 0.0, 0.0, np.inf, why="not all of them 0")
    return np.asarray(given / given.sum())


def _error(share: Array, values: Array) -> float:
    """Standard error of a weighted mean."""
    return float(np.sqrt(((share * (values - share @ values)) ** 2).sum()))


def quantiles(values: Array, weight: Array, at: Array) -> Array:
    """Values that so much of the weight stays at or under; infinite ones are in order too."""
    if np.ptp(weight) == 0:
        place = np.ceil(at * len(values) * (1 - HAIR)).astype(np.intp) - 1
        return np.asarray(np.sort(values)[np.maximum(place, 0)])
    ranked = np.argsort(values)
    sums = np.cumsum(weight[ranked])
    place = np.searchsorted(sums, at * sums[-1] * (1 - HAIR))
    return np.asarray(values[ranked[np.minimum(place, len(ranked) - 1)]])


def _dominated(results: list[CourseResult], may: NDArray[np.bool_]) -> tuple[CourseResult, ...]:
    table = np.array([(r.cash, r.mean, r.days_lost, r.fails, r.unsafe) for r in results])
    told = dominated(table, may)
    return tuple(replace(one, dominated=bool(worse)) for one, worse in zip(results, told, strict=True))


def dominated(table: Array, may: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Which rows another admitted row beats: no worse in any column, better in one."""
    no_worse = np.all(table[None, :, :] <= table[:, None, :], axis=2)
    better = np.any(table[None, :, :] < table[:, None, :], axis=2)
    return np.asarray(np.any(no_worse & better & may[None, :], axis=1))
