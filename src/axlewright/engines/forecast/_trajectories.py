"""Lives that a drive may still have, by all that was seen: drawn exactly, all of one weight, for decisions (D2)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.forecast._condition import (
    FINENESS,
    NODES,
    OneShare,
    Rows,
    Shares,
    Times,
    checked,
    come_so_far,
    each,
    shape_of,
    walks,
)
from axlewright.engines.forecast._grid import Walk, masses
from axlewright.engines.forecast._laws import Lives, Sojourn, check_lives, stay
from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import Array, Count, Duration, Share

STATE, ENTRY, NEXT, AFTER, BEFORE, CAUSE = range(6)  # what each share of a draw is for
UNIT, SOUND, WEARING, FAILING = range(4)  # the same, of a drive that starts anew


@dataclass(frozen=True, slots=True)
class Trajectories:
    """Lives, one a draw; times from now, past ones negative.

    Attributes:
        wears: machine hours until it begins to wear [s]
        fails: machine hours until it begins to fail [s]
        lets_go: machine hours until it lets go [s]
        condition: how it stands now: 0 sound, 1 wearing, 2 failing [1]
        factor: the drive's own factor on its hours [-]
        cause: what lets go, by its number among the causes [1]
    """

    wears: Duration
    fails: Duration
    lets_go: Duration
    condition: Count
    factor: Share
    cause: Count


def trajectories(
    lives: Lives,
    now: Duration,
    ago: Times,
    likelihood: Rows,
    shares: Shares,
    causes: Shares,
    offered: bool = False,
    nodes: int = NODES,
    fineness: OneShare = FINENESS,
) -> Trajectories:
    """Lives that a drive which still carries may have from now on, by all findings.

    Exact draws from the posterior, all of one weight, no two alike. Where `lives` or `now` hold draws, each is as likely
    as any other before anything was seen, and the lives are drawn over all of them.

    Args:
        lives: laws of the class
        now: machine hours of the drive [s]
        ago: for each finding, machine hours since it was made [s]
        likelihood: for each finding, likelihood under each condition, as it counts beside the others [-]
        shares: six shares of 0 to 1 along the last axis, a row a life, evenly spread: state, entry, next, after, before,
            cause [-]
        causes: share of each cause among drives that let go [-]
        offered: the hours stand for drives on offer, which have come so far before anything was seen; else for drives
            made [-]
        nodes: nodes of the drive's own factor [1]
        fineness: cells in the shortest of the three medians, or in a 72nd of their sum [-]

    Returns:
        a life a row of shares

    Source: inverse distribution over node, condition and hour of entry from the change-point grid
        (docs/engines/forecast.md), then the survival of each law given the hours already in it.
    Valid: as the forecast.

    >>> h = 3600.0
    >>> lives = Lives(
    ...     Sojourn("weibull", 5500 * h, 2), Sojourn("lognormal", 900 * h, 0.7), Sojourn("lognormal", 90 * h, 0.9), 0.35
    ... )
    >>> even = (np.arange(8)[:, None] + 0.5) / 8 * np.ones(6)
    >>> found = trajectories(lives, 4000 * h, [0.0], np.array([[0.02, 0.18, 0.38, 0.345]]), even, np.array([1.0]))
    >>> found.condition.tolist()
    [0.0, 0.0, 0.0, 1.0, 1.0, 1.0, 1.0, 2.0]
    """
    rows, since, _, _ = checked(lives, now, ago, likelihood, [0.0])
    given = _shares(shares, 6)
    shape = shape_of(lives, now)
    grids, factors, weights = [], [], []
    for _, one, age in each(lives, now, shape):
        grid, own, node = walks(one, age, since, rows, 0.0, True, nodes, fineness)
        logs = grid.log_at(grid.now)[:, :3] + np.log(node)[:, None]
        if offered:  # each age as likely as the other among those that carry; what was seen then weighs them
            logs = logs - (_carrying(one, age, nodes, fineness) if len(rows) else np.logaddexp.reduce(logs, axis=None))
        grids.append(grid)
        factors.append(own)
        weights.append(logs)
    logs = np.concatenate(weights)
    come_so_far(now, logs.max())
    chances = np.exp(logs - logs.max()).T.ravel()  # all of sound, then of wearing, then of failing
    chosen, _ = _pick(np.cumsum(chances), given[:, STATE])
    condition, row = np.divmod(chosen, len(logs))
    factor = np.concatenate(factors)[row]
    drive = row // len(factors[0])
    laws, ages = _laws(lives, shape, drive), _picked(now, shape, drive) / factor
    first, second = _entries(grids, condition, row, given)
    # on the clock of a drive whose factor is 1
    times = _lived(laws, ages, condition, first / factor, second / factor, given)
    wears, fails, lets_go = ((t - ages) * factor for t in times)
    cause = np.searchsorted(_cumulated(causes), given[:, CAUSE], side="right")
    return Trajectories(wears, fails, lets_go, condition.astype(float), factor, cause.astype(float))


def fresh_lives(lives: Lives, shares: Shares) -> Trajectories:
    """Lives of drives that start new, whose cause is not asked.

    Args:
        lives: laws of the class; where they hold draws, one a row of shares
        shares: four shares of 0 to 1 along the last axis, a row a life: own factor, sound, wearing, failing [-]

    Returns:
        a life a row

    Source: inverse of each law; own factor lognormal.
    Valid: no assembly fault; see `rebuilt_lives`.

    >>> h = 3600.0
    >>> lives = Lives(
    ...     Sojourn("weibull", 5500 * h, 2), Sojourn("lognormal", 900 * h, 0.7), Sojourn("lognormal", 90 * h, 0.9), 0.35
    ... )
    >>> round(float(fresh_lives(lives, np.full((1, 4), 0.5)).lets_go[0]) / h)
    6490
    """
    from scipy.special import ndtri

    check_lives(lives)
    given = _shares(shares, 4)
    factor: Array = np.exp(np.asarray(lives.unit_spread, float) * ndtri(np.clip(given[:, UNIT], 1e-16, 1 - 1e-16)))
    wears = factor * stay(lives.sound, given[:, SOUND])
    fails = wears + factor * stay(lives.wearing, given[:, WEARING])
    lets_go = fails + factor * stay(lives.failing, given[:, FAILING])
    nothing = np.zeros(len(given))
    return Trajectories(wears, fails, lets_go, nothing, factor, nothing)


# --- how it is done ---


def _carrying(lives: Lives, now: float, nodes: int, fineness: float) -> float:
    """Logarithm of the chance that a drive of the class carries at this age, before anything was seen of it."""
    grid, _, node = walks(lives, now, np.zeros(0), np.empty((0, 4)), 0.0, True, nodes, fineness)
    logs: Array = grid.log_at(grid.now)[:, :3] + np.log(node)[:, None]
    come_so_far(now, float(logs.max()))
    return float(np.logaddexp.reduce(logs, axis=None))


def _shares(shares: Shares, width: int) -> Array:
    given = np.atleast_2d(np.asarray(shares, float))
    within("shares", given, 0.0, 1.0)
    if given.ndim != 2 or given.shape[1] != width:
        raise OutOfRange("shares", float(given.shape[-1]), width, width, why="that many a life")
    return given


def _cumulated(causes: Shares) -> Array:
    part = np.asarray(causes, float).ravel()
    within("causes", part, 0.0)
    above("causes", part.sum(), why="not all of them 0")
    return np.asarray(np.cumsum(part)[:-1] / part.sum())


def _pick(rising: Array, share: Array) -> tuple[NDArray[np.int64], Array]:
    """Which of several weights a share falls on, and how far into it; of weights that rise to their sum."""
    target = share * rising[-1]
    chosen = np.minimum(np.searchsorted(rising, target, side="right"), np.searchsorted(rising, rising[-1]))
    before = np.where(chosen > 0, rising[chosen - 1], 0.0)
    part = (target - before) / (rising[chosen] - before)
    return chosen, np.clip(part, 0.0, 1.0)


def _entries(
    grids: list[Walk], condition: NDArray[np.int64], row: NDArray[np.int64], given: Array
) -> tuple[Array, Array]:
    """When those that wear began to, and when those that fail began to wear and to fail, by the grid of each."""
    first, second = np.zeros(len(given)), np.zeros(len(given))
    nodes = len(grids[0].sound_left)
    for number in np.unique(row[condition > 0]):
        grid, node = grids[number // nodes], number % nodes
        into_wearing, into_failing = grid.into_wearing[node, : grid.now], grid.into_failing[node, : grid.now]
        mine = row == number
        wearing = np.flatnonzero(mine & (condition == 1))
        if wearing.size:
            weight = into_wearing * grid.wearing_left[node, : grid.now][::-1]
            cell, part = _pick(np.cumsum(weight), given[wearing, ENTRY])
            first[wearing] = (cell + part) * grid.width
        failing = np.flatnonzero(mine & (condition == 2))
        if failing.size:
            weight = into_failing * grid.failing_left[node, : grid.now][::-1]
            cell, part = _pick(np.cumsum(weight), given[failing, ENTRY])
            second[failing] = (cell + part) * grid.width
            leaving = masses(grid.wearing_left[node])
            for into in np.unique(cell):
                here = failing[cell == into]
                came = into_wearing[: into + 1] * leaving[: into + 1][::-1]
                began, how_far = _pick(np.cumsum(came), given[here, BEFORE])
                started = (began + how_far) * grid.width
                within_cell = into * grid.width + how_far * (second[here] - into * grid.width)
                first[here] = np.where(began == into, within_cell, started)
    return first, second


def _lived(
    laws: tuple[Sojourn, Sojourn, Sojourn],
    ages: Array,
    condition: NDArray[np.int64],
    first: Array,
    second: Array,
    given: Array,
) -> tuple[Array, Array, Array]:
    """The three times of each life, on the clock of a drive whose factor is 1."""
    sound, wearing, failing = laws
    is_sound, is_failing = condition == 0, condition == 2
    stays = stay(sound, given[:, ENTRY], np.where(is_sound, ages, 0.0))
    wears = np.where(is_sound, np.maximum(stays, ages), first)
    worn = np.where(condition == 1, np.maximum(ages - wears, 0.0), 0.0)
    ends = wears + stay(wearing, given[:, NEXT], worn)
    fails = np.where(is_failing, second, np.where(condition == 1, np.maximum(ends, ages), ends))
    failed = np.where(is_failing, np.maximum(ages - fails, 0.0), 0.0)
    over = fails + stay(failing, given[:, AFTER], failed)
    return wears, fails, np.where(is_failing, np.maximum(over, ages), over)


def _picked(value: Any, shape: tuple[int, ...], drive: NDArray[np.int64]) -> Array:
    return np.asarray(np.broadcast_to(np.asarray(value, float), shape).ravel()[drive])


def _laws(lives: Lives, shape: tuple[int, ...], drive: NDArray[np.int64]) -> tuple[Sojourn, Sojourn, Sojourn]:
    """The laws of each draw; as they are where all draws share them."""
    if not shape:
        return lives.sound, lives.wearing, lives.failing
    sound, wearing, failing = (
        Sojourn(
            s.family, *(_picked(value, shape, drive) for value in (s.median, s.spread, s.short_share, s.short_part))
        )
        for s in (lives.sound, lives.wearing, lives.failing)
    )
    return sound, wearing, failing
