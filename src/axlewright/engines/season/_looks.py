"""Looks, pairs of looks and questions on the kept draws: which would change the course, and what that is worth (E3)."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.limits import OutOfRange, within
from axlewright.kinds import Array, Count, Money, Share, YesNo

ROUNDING = 1e-9  # of the costs: what sums may be off by
FEW = 200.0  # draws that count: fewer behind one grade, and what is said of it is rough
BINS = 15
FLAGS = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Look:
    """A look that may be made, by what it may say.

    Attributes:
        name: its name
        chances: chance of each grade (last axis) in each state (first axis); a row adds up to 1 [-]
        price: hours and material it takes, and the mean of any delay it brings [money]
        group: looks of one group err together and are never paired
        admits: whether each course (last axis) may be taken after each grade; none: as now
    """

    name: str
    chances: Share
    price: Money = 0.0
    group: str = ""
    admits: YesNo | None = None


@dataclass(frozen=True, slots=True)
class LookWorth:
    """What a look, or a pair of them, is worth on the kept draws.

    Attributes:
        names: one look or two
        worth: what it saves on the mean [money]
        net: the same less its price [money]
        chances: chance of each grade; of a pair all grades of the second for each of the first [-]
        courses: number of the best course after each, as in the costs; -1 where none may be taken [1]
        behind: draws that count behind each grade [1]
        changes: a grade that may come up leads to another course than now
        rough: few draws stand behind a grade that may come up
    """

    names: tuple[str, ...]
    worth: float
    net: float
    chances: Share
    courses: Count
    behind: Count
    changes: bool
    rough: bool


def worth_of_looks(
    costs: Array,
    states: NDArray[np.int64],
    looks: tuple[Look, ...],
    weights: Share = 1.0,
    admitted: tuple[bool, ...] = (),
    pairs: bool = False,
) -> tuple[LookWorth, ...]:
    """Looks by what they are worth, best first; with pairs of looks where asked.

    Args:
        costs: cost of each course (last axis), one trajectory a row, averaged over its weather [money]
        states: state of each trajectory by its number; what the chances of all looks hang on [1]
        looks: what may be looked at
        weights: weight of each trajectory; all findings made before are in it [-]
        admitted: whether a verdict lets each course be taken now; none given: all may
        pairs: pairs of looks too

    Returns:
        worth, what each grade would lead to, and how sure that is

    Source: EVSI = min_k sum w C - sum over grades of min_k sum w L C: Raiffa and Schlaifer 1961; on draws, Menzies 2016.
    Valid: looks that hang on nothing but the state. Never less than nothing, never more than the ceiling, unless a grade
        opens or closes courses.
    """
    table, share, may = _given(costs, weights, admitted)
    kinds = int(states.max()) + 1
    member = (states[None, :] == np.arange(kinds)[:, None]) * share
    sums = member @ table  # state by course
    total, squares = member.sum(axis=1), (member**2).sum(axis=1)
    now = sums.sum(axis=0)
    best = int(np.flatnonzero(may)[now[may].argmin()])
    scale = float(np.abs(sums).sum())
    asked: list[tuple[Look, ...]] = [(look,) for look in looks]
    if pairs:
        asked += [(a, b) for a, b in combinations(looks, 2) if not a.group or a.group != b.group]
    found = []
    for some in asked:
        chances, admits = _joint(some, kinds, may)
        after = np.where(admits, chances.T @ sums, np.inf)
        said = chances.T @ total
        after[~admits.any(axis=1)] = 0.0
        worth = float(now[best] - after.min(axis=1).sum())
        if all(look.admits is None for look in some):
            worth = not_below_nothing(worth, scale)
        choices = np.where(admits.any(axis=1), after.argmin(axis=1), -1)
        behind = said**2 / np.maximum((chances**2).T @ squares, 1e-300)
        comes = said > 1e-12
        price = sum(float(np.asarray(look.price)) for look in some)
        found.append(
            LookWorth(
                tuple(look.name for look in some), worth, worth - price, said, choices.astype(float), behind,
                bool((choices[comes] != best).any()), bool((behind[comes] < FEW).any()),
            )
        )  # fmt: skip
    return tuple(sorted(found, key=lambda one: -one.net))


def worth_of_state(
    costs: Array, states: NDArray[np.int64], weights: Share = 1.0, admitted: tuple[bool, ...] = ()
) -> float:
    """The most that any look at the state could save: the ceiling shown beside the looks.

    Args:
        costs: cost of each course (last axis), one trajectory a row [money]
        states: state of each trajectory by its number [1]
        weights: weight of each trajectory [-]
        admitted: whether each course may be taken; none given: all may

    Returns:
        saving on the mean [money]

    Source: expected value of perfect information on the state alone; not on weather and leads, which no look tells.
    Valid: as the draws.
    """
    table, share, may = _given(costs, weights, admitted)
    member = (states[None, :] == np.arange(int(states.max()) + 1)[:, None]) * share
    sums = (member @ table)[:, may]
    return not_below_nothing(float(sums.sum(axis=0).min() - sums.min(axis=1).sum()), float(np.abs(sums).sum()))


def worth_of_asking(
    costs: Array, values: Array, weights: Share = 1.0, admitted: tuple[bool, ...] = (), bins: int = BINS
) -> float:
    """What it saves to know an input beforehand: a quoted lead, a price, the contractor's day.

    The course of each bin is chosen on one half of the draws and priced on the other, so that a question which tells
    nothing is worth nothing but chance.

    Args:
        costs: cost of each course (last axis), a draw a row [money]
        values: the input of each draw, in any unit [-]
        weights: weight of each draw [-]
        admitted: whether each course may be taken; none given: all may
        bins: bins of the input, as many draws in each [1]

    Returns:
        saving on the mean [money]

    Source: expected value of perfect information on one input by binning: Strong, Oakley 2013 (from memory); halves ours.
    Valid: a slight under-estimate.
    """
    table, share, may = _given(costs, weights, admitted)
    table = table[:, may]
    within("bins", bins, 1, max(len(table) // 4, 1))
    rank = np.argsort(np.argsort(values, kind="stable"), kind="stable")
    group = rank * bins // len(table)
    half = rank % 2
    weighed = share[:, None] * table
    sums = np.zeros((2, bins, table.shape[1]))
    np.add.at(sums, (half, group), weighed)
    best_now = sums.sum(axis=(0, 1)).argmin()
    saved = 0.0
    for here in range(2):
        chosen = sums[1 - here].argmin(axis=1)
        saved += float((sums[here][:, best_now] - sums[here][np.arange(bins), chosen]).sum())
    return max(saved, 0.0)


def not_below_nothing(worth: float, scale: float) -> float:
    """News costs nothing to have; what rounding leaves is nothing, more than that is a mistake of the program."""
    if worth < -ROUNDING * max(scale, 1e-300):
        raise ArithmeticError(f"a worth of {worth:g} on costs of {scale:g}: it cannot be less than nothing")
    return max(worth, 0.0)


def _given(costs: Array, weights: Share, admitted: tuple[bool, ...]) -> tuple[Array, Array, FLAGS]:
    table = np.asarray(costs, float)
    within("costs", table)
    weight = np.broadcast_to(np.asarray(weights, float), (len(table),))
    within("weights", weight, 0.0)
    may = np.array(admitted or (True,) * table.shape[1], bool)
    if len(may) != table.shape[1] or not may.any():
        raise OutOfRange("admitted", may.sum(), 1, table.shape[1], why="one a course, and one at least may be taken")
    if not weight.any():
        raise OutOfRange("weights", 0.0, 0.0, np.inf, why="not all of them 0")
    return table, weight / weight.sum(), may


def _joint(some: tuple[Look, ...], states: int, may: FLAGS) -> tuple[Array, FLAGS]:
    """Chances of all grades together, and which courses may be taken after each; what one look forbids stays forbidden."""
    chances, admits = np.ones((states, 1)), np.ones((1, len(may)), bool)
    opened = all(look.admits is None for look in some)
    for look in some:
        one = np.atleast_2d(np.asarray(look.chances, float))
        within(f"{look.name}.chances", one, 0.0, 1.0)
        within(f"{look.name}.chances", one.sum(axis=1), 1 - 1e-6, 1 + 1e-6, "they add up to 1 in each state")
        if len(one) < states:
            raise OutOfRange(f"{look.name}.chances", len(one), states, np.inf, why="a row for each state")
        chances = (chances[:, :, None] * one[:states, None, :]).reshape(states, -1)
        allowed = np.broadcast_to(
            may if look.admits is None else np.asarray(look.admits, bool), (one.shape[1], len(may))
        )
        admits = (admits[:, None, :] & allowed[None, :, :]).reshape(-1, len(may))
    return chances, admits if not opened else np.broadcast_to(may, admits.shape)
