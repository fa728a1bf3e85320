"""How a drive stands and will stand: chances of sound, wearing, failing, let go by all that was seen of it (D2)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Annotated, Any, TypeAlias

import numpy as np

from axlewright.engines.forecast._grid import Walk, logs_of, walk
from axlewright.engines.forecast._laws import Lives, Sojourn, check_lives
from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import LAST_AXIS, Array, Duration, Share, kind_of

Rows: TypeAlias = Annotated[Array, kind_of(Share), LAST_AXIS]  # a likelihood a condition, a row a finding
Chances: TypeAlias = Annotated[Array, kind_of(Share), LAST_AXIS]  # a chance a condition
Shares: TypeAlias = Annotated[Array, kind_of(Share), LAST_AXIS]
OneShare: TypeAlias = Annotated[float, kind_of(Share)]  # one number, never draws
Times: TypeAlias = Annotated[Sequence[float] | Array, kind_of(Duration), LAST_AXIS]

NODES = 7  # of the drive's own factor: error of a chance under 1e-4 (docs/engines/forecast.md)
FINENESS = 3.6  # cells in the shortest median: 25 h of 90 h
CELLS = 72.0  # for each of them, cells in the three medians together: 25 h of 6,490 h
OLDEST = 12.0  # times the medians of the three conditions together: beyond, the class does not speak of such a drive


@dataclass(frozen=True, slots=True)
class Forecast:
    """How a drive stands at each time asked, and how well the findings fit the class.

    Attributes:
        chance: chance of sound, wearing, failing, let go along the last axis; before it the times asked [-]
        log_evidence: logarithm of the chance of these findings, if the class is what it is said to be [-]
    """

    chance: Chances
    log_evidence: Share


def forecast(
    lives: Lives,
    now: Duration,
    ago: Times,
    likelihood: Rows,
    ahead: Times,
    carries: bool = True,
    nodes: int = NODES,
    fineness: OneShare = FINENESS,
) -> Forecast:
    """Chances of each condition now and later, by all findings.

    No draws and no seed: one answer. Where `lives` or `now` hold draws, so does the answer, on the first axis.

    Args:
        lives: laws of the class
        now: machine hours of the drive [s]
        ago: for each finding, machine hours since it was made [s]
        likelihood: for each finding, likelihood under sound, wearing, failing, let go; up to a factor [-]
        ahead: machine hours from now at which chances are asked [s]
        carries: the drive still carries and drives: it has not let go [-]
        nodes: nodes of the drive's own factor [1]
        fineness: cells in the shortest of the three medians, or in a 72nd of their sum [-]

    Returns:
        chances and evidence

    Source: change-point grid of a chain that never goes back (docs/engines/forecast.md); own factor by Gauss-Hermite.
    Valid: hours of one clock; findings independent but for the condition, or weighted so that they count as such.

    >>> h = 3600.0
    >>> lives = Lives(
    ...     Sojourn("weibull", 5500 * h, 2), Sojourn("lognormal", 900 * h, 0.7), Sojourn("lognormal", 90 * h, 0.9), 0.35
    ... )
    >>> flakes = np.array([[0.02, 0.18, 0.38, 0.345]])
    >>> forecast(lives, 4000 * h, [100 * h], flakes, [0.0, 200 * h]).chance.round(2).tolist()
    [[0.37, 0.53, 0.09, 0.0], [0.36, 0.44, 0.07, 0.13]]
    """
    rows, since, asked, scale = checked(lives, now, ago, likelihood, ahead)
    shape = shape_of(lives, now)
    chance, evidence = np.empty((*shape, len(asked), 4)), np.empty(shape)
    for place, one, age in each(lives, now, shape):
        chance[place], evidence[place] = _forecast(one, age, since, rows, asked, carries, nodes, fineness)
    return Forecast(chance, evidence[()] + scale)


def condition_before(lives: Lives, now: Duration, ago: Times, likelihood: Rows, back: Duration) -> Chances:
    """How a drive stood some hours ago, by all that was seen before and since.

    Args:
        lives: laws of the class, one number each
        now: machine hours of the drive, which still carries [s]
        ago: for each finding, machine hours since it was made [s]
        likelihood: for each finding, likelihood under sound, wearing, failing, let go [-]
        back: machine hours before now [s]

    Returns:
        chance of sound, wearing, failing, let go at that hour [-]

    Source: evidence with the condition of that hour held at each in turn (Bayes).
    Valid: as the forecast.

    >>> h = 3600.0
    >>> lives = Lives(
    ...     Sojourn("weibull", 5500 * h, 2), Sojourn("lognormal", 900 * h, 0.7), Sojourn("lognormal", 90 * h, 0.9), 0.35
    ... )
    >>> condition_before(lives, 4000 * h, [0.0], np.array([[0, 0, 1.0, 1.0]]), 500 * h).round(2).tolist()
    [0.18, 0.77, 0.04, 0.0]
    """
    rows = np.asarray(likelihood, float).reshape(-1, 4)
    since = np.asarray(ago, float).ravel()
    within("back", back, 0.0, float(np.min(now)), "before the drive was new")
    held = [
        float(forecast(lives, now, np.append(since, back), np.vstack([rows, one]), [0.0]).log_evidence)
        for one in np.eye(4)
    ]
    weights = np.exp(np.array(held) - max(held))
    return np.asarray(weights / weights.sum())


def pooled(forecasts: Forecast, weights: Shares) -> Chances:
    """The chances, with all that is not known of design and hours averaged in.

    Args:
        forecasts: forecasts of as many laws or ages, on the first axis [-]
        weights: weight of each before anything was seen; adds up to anything [-]

    Returns:
        chances [-]

    Source: mixture; each weighted by the evidence too (Bayes).
    Valid: weights 0 or more, not all 0.
    """
    share = posterior_weights(forecasts, weights)
    return np.asarray(np.tensordot(share, np.asarray(forecasts.chance), axes=1))


def posterior_weights(forecasts: Forecast, weights: Shares) -> Shares:
    """How much each law or age counts, after what was seen.

    Args:
        forecasts: forecasts of as many laws or ages, on the first axis [-]
        weights: weight of each before anything was seen [-]

    Returns:
        weights that add up to 1 [-]

    Source: Bayes.
    Valid: weights 0 or more, not all 0.
    """
    within("weights", weights, 0.0)
    logs = np.asarray(forecasts.log_evidence, float)
    given = np.broadcast_to(np.asarray(weights, float), logs.shape)
    if not given.any():
        raise OutOfRange("weights", 0.0, 0.0, np.inf, why="not all of them 0")
    share = given * np.exp(logs - logs[given > 0].max())
    return np.asarray(share / share.sum())


@dataclass(frozen=True, slots=True)
class Band:
    """A middle, and the band that holds so much of it.

    Attributes:
        low: low end [-]
        middle: middle [-]
        high: high end [-]
    """

    low: Share
    middle: Share
    high: Share


def chance_band(chances: Shares, weights: Shares, holds: OneShare = 0.8) -> Band:
    """The band in which a chance lies, by what is not known of the design.

    The drive's own factor is averaged inside each chance: it is the chance, not doubt about it.

    Args:
        chances: the chance, one a design on the first axis [-]
        weights: how much each design counts after what was seen [-]
        holds: share of the weight in the band [-]

    Returns:
        low end, middle, high end

    Source: weighted quantiles, straight between neighbours.
    Valid: two designs at least.

    >>> float(chance_band(np.array([0.1, 0.2, 0.3, 0.4]), np.ones(4)).middle)
    0.25
    """
    values = np.asarray(chances, float)
    within("chances", values, 0.0, 1.0)
    within("weights", weights, 0.0)
    within("holds", holds, 0.0, 1.0)
    if values.ndim == 0 or len(values) < 2:
        raise OutOfRange("chances", float(values.size), 2, np.inf, why="one design has no band")
    given = np.broadcast_to(np.asarray(weights, float), (len(values),))
    above("weights", given.sum(), why="not all of them 0")
    at = 0.5 + np.array([-0.5, 0.0, 0.5]) * float(holds)
    flat = values.reshape(len(values), -1)
    ends = np.empty((3, flat.shape[1]))
    for column, mine in enumerate(flat.T):
        order = np.argsort(mine)
        ends[:, column] = _quantiles(mine[order], given[order] / given.sum(), at)
    low, middle, high = (end.reshape(values.shape[1:])[()] for end in ends)
    return Band(low, middle, high)


def chance_by(chances: Shares, ahead: Times, hours: Duration) -> Share:
    """A chance by a date, when the hours until then are not sure.

    Args:
        chances: chance at each time ahead [-]
        ahead: machine hours ahead, rising [s]
        hours: machine hours until the date, one a draw [s]

    Returns:
        chance, averaged over the hours [-]

    Source: mixture over the hours; straight between the times asked.
    Valid: hours within the times asked; the mean of the hours in their place answers another question.

    >>> round(float(chance_by(np.array([0.0, 0.1, 0.4]), [0.0, 100.0, 200.0], np.array([50.0, 150.0]))), 3)
    0.15
    """
    times = np.asarray(ahead, float)
    values = np.asarray(chances, float)
    within("chances", values, 0.0, 1.0)
    if values.shape != times.shape or times.ndim != 1 or (np.diff(times) <= 0).any():
        raise OutOfRange("ahead", float(times.size), float(values.size), float(values.size), why="rising, one a chance")
    within("hours", hours, float(times[0]), float(times[-1]))
    return float(np.interp(np.asarray(hours, float), times, values).mean())


# --- how it is done ---


def _quantiles(rising: Array, weights: Array, at: Array) -> Array:
    """Quantiles of weighted values in rising order.

    From one value to the next it goes straight, over as much of the weight as the lighter of the two has: equal weights
    give the usual quantiles, and a value of no weight pulls none.
    """
    border, width = np.cumsum(weights)[:-1], np.minimum(weights[:-1], weights[1:]) / 2
    knots = np.column_stack([border - width, border + width]).ravel()
    return np.interp(at, knots, np.column_stack([rising[:-1], rising[1:]]).ravel())


def checked(
    lives: Lives, now: Duration, ago: Times, likelihood: Rows, ahead: Times
) -> tuple[Array, Array, Array, float]:
    """Findings, the hours since each, the times asked, in order and of one shape; and the log of what rows were divided by."""
    check_lives(lives)
    within("now", now, 0.0)
    rows = np.asarray(likelihood, float).reshape(-1, 4)
    since, asked = np.asarray(ago, float).ravel(), np.asarray(ahead, float).ravel()
    within("likelihood", rows, 0.0)
    within("ahead", asked, 0.0)
    if len(since) != len(rows):
        raise OutOfRange("ago", float(len(since)), float(len(rows)), float(len(rows)), why="one a finding")
    if not len(asked):
        raise OutOfRange("ahead", 0.0, 1.0, np.inf, why="a time to be asked for")
    within("ago", since, 0.0, float(np.min(now)), "before the drive was new")
    best = rows.max(axis=1, initial=0.0)
    if (best <= 0).any():
        raise OutOfRange("likelihood", 0.0, 0.0, np.inf, why="a finding that no condition can give")
    order = np.argsort(-since, kind="stable")
    return rows[order] / best[order, None], since[order], asked, float(np.log(best).sum())


def come_so_far(now: Duration, most: float) -> None:
    """Raise `OutOfRange` where the logarithm of the likeliest way to the present is none."""
    if not np.isfinite(most):
        raise OutOfRange("now", float(np.max(now)), 0.0, np.inf, why="no drive of this class comes so far")


def shape_of(lives: Lives, now: Duration) -> tuple[int, ...]:
    numbers = [now, lives.unit_spread]
    for part in (lives.sound, lives.wearing, lives.failing):
        numbers += [part.median, part.spread, part.short_share, part.short_part]
    return np.broadcast_shapes(*(np.shape(n) for n in numbers))


def each(lives: Lives, now: Duration, shape: tuple[int, ...]) -> Iterator[tuple[Any, Lives, float]]:
    """Every draw of laws and age, one number each."""
    if not shape:
        yield (), lives, float(now)
        return
    ages = np.broadcast_to(np.asarray(now, float), shape)
    for place in np.ndindex(shape):

        def pick(value: Any, place: tuple[int, ...] = place) -> float:
            return float(np.broadcast_to(np.asarray(value, float), shape)[place])

        sound, wearing, failing = (
            Sojourn(s.family, pick(s.median), pick(s.spread), pick(s.short_share), pick(s.short_part))
            for s in (lives.sound, lives.wearing, lives.failing)
        )
        yield place, Lives(sound, wearing, failing, pick(lives.unit_spread)), float(ages[place])


@lru_cache(maxsize=32)
def _hermite(nodes: int) -> tuple[Array, Array]:
    at, weights = np.polynomial.hermite_e.hermegauss(nodes)
    return at, weights / weights.sum()


def walks(
    lives: Lives, now: float, since: Array, rows: Array, farthest: float, carries: bool, nodes: int, fineness: float
) -> tuple[Walk, Array, Array]:
    """The walk of all nodes of the drive's own factor, the factors, and their weights."""
    within("nodes", nodes, 1, 64)
    within("fineness", fineness, 0.5, 100.0)
    medians = [float(s.median) for s in (lives.sound, lives.wearing, lives.failing)]
    within("now", now, 0.0, OLDEST * sum(medians), "older than any drive of this class")
    within("ahead", farthest, 0.0, OLDEST * sum(medians), "farther than the class can speak of")
    cell = min(min(medians), sum(medians) / CELLS) / fineness
    at, weights = _hermite(nodes if lives.unit_spread > 0 else 1)
    factors = np.exp(float(lives.unit_spread) * at)
    ages, logs = now - since, logs_of(rows)
    if carries:
        ages, logs = np.append(ages, now), np.vstack([logs, logs_of(np.array([1.0, 1.0, 1.0, 0.0]))])
    # a drive whose factor is 2 takes twice as long: the findings stand where they are, its medians are doubled
    sound, wearing, failing = (
        replace(one, median=one.median * factors[:, None]) for one in (lives.sound, lives.wearing, lives.failing)
    )
    return walk(Lives(sound, wearing, failing, 0.0), now, ages, logs, farthest, cell), factors, weights


def _forecast(
    lives: Lives, now: float, since: Array, rows: Array, asked: Array, carries: bool, nodes: int, fineness: float
) -> tuple[Array, float]:
    grid, _, weights = walks(lives, now, since, rows, float(asked.max()), carries, nodes, fineness)
    now_logs = grid.log_at(grid.now)[:, : 3 if carries else 4]
    top = now_logs.max()
    come_so_far(now, top)
    evidence = float((weights @ np.exp(now_logs - top)).sum())
    total = _weights_at(grid, weights, asked, top)
    if carries:
        total[asked == 0, 3] = 0.0
    return total / total.sum(axis=1, keepdims=True), float(np.log(evidence) + top)


def _weights_at(grid: Walk, nodes: Array, ahead: Array, top: float) -> Array:
    """Weights at times ahead over all nodes, straight between the edges, so that nothing is lost."""
    last = grid.let_go_by.shape[1] - 1
    place = np.minimum(grid.now + ahead / grid.width, last)
    lower = np.minimum(place.astype(int), last - 1)
    part = (place - lower)[:, None]
    at = {int(edge): nodes @ grid.at_edge(int(edge)) for edge in {*lower, *(lower + 1)}}
    low, high = np.array([at[int(i)] for i in lower]), np.array([at[int(i) + 1] for i in lower])
    return np.asarray(((1 - part) * low + part * high) * np.exp(grid.log_scale - top))
