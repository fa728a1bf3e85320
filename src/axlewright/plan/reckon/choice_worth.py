"""What would turn the choice: prices at which another course is better, what moves it most, and what to find out next."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.season import Look, worth_of_asking, worth_of_looks
from axlewright.kinds import Array
from axlewright.plan.reckon.choice import Made
from axlewright.plan.reckon.choice_task import HOUR, ChoiceTask
from axlewright.quantities.draws import what_moves

BINS = 5  # of a number that could be asked
PRICES = {"price/used": ("bought", "bought_for"), "price/spare": ("kept", "kept_for"), "price/hire": ("hired", "hired_for")}  # fmt: skip
BELIEVED = (0.5, 2.0)  # of the least and the greatest price drawn: farther out no price is believed
LIKELY = 0.02  # an outcome less likely than this says nothing on a sheet
ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Turn:
    """A price from which on another course is better, all else as it is."""

    price: str
    at: float  # [SI]
    over: bool  # better above it, else under it
    course: str


@dataclass(frozen=True, slots=True)
class Candidate:
    """A look that could be taken.

    Attributes:
        name: of what it finds
        outcomes: what it could show
        chances: chance of each outcome in each condition: a condition a row [-]
        stopped: for each outcome, the courses that a verdict would strike out then
        minutes: of all people together [min]
    """

    name: str
    outcomes: tuple[str, ...]
    chances: Array
    stopped: tuple[frozenset[str], ...]
    minutes: float


@dataclass(frozen=True, slots=True)
class Asked:
    """A number that somebody could be asked for, by its name in the workings."""

    name: str
    minutes: float


@dataclass(frozen=True, slots=True)
class FindOut:
    """What finding something out is worth to the choice.

    Attributes:
        name: of the look, or of the number that is asked
        minutes: of all people together [min]
        worth: what it saves on the mean [money]
        net: the same less people's time [money]
        then: for each outcome that is likely enough: what it shows, its chance, the course that is best then
    """

    name: str
    minutes: float
    worth: float
    net: float
    then: tuple[tuple[str, float, str], ...]

    @property
    def turns(self) -> bool:
        """Whether any outcome changes what is done."""
        return len({course for _, _, course in self.then}) > 1


def by_life(made: Made, task: ChoiceTask) -> Array:
    """Mean cost over the seasons of each life: a life a row, a course a column [money]."""
    costs = np.asarray(made.w["choice/compared"].draws.costs)
    return np.asarray(costs.reshape(task.count, -1, costs.shape[1]).mean(axis=1))


def turns(made: Made, task: ChoiceTask) -> tuple[Turn, ...]:
    """The prices at which another course becomes the better one: money is straight in each of them."""
    best = made.best
    if best is None:
        return ()
    both = made.w["choice/compared"].draws
    mean: dict[str, float] = {course: both.told[n].mean for n, course in enumerate(task.courses)}
    open_ = [one.name for one in made.courses if not one.stopped and one.name != best.name]
    found = []
    for price, (count, paid) in PRICES.items():
        many, spent = ([getattr(one, part) for one in both.uses] for part in (count, paid))
        sign = -1.0 if count == "kept" else 1.0
        n = task.courses.index(best.name)
        drawn = np.asarray(made.w[price if price != "price/used" else "price/used-home"].draws)
        now, (least, most) = float(drawn.mean()), np.quantile(drawn, (0.01, 0.99))
        for other in open_:
            k = task.courses.index(other)
            slope = sign * (many[n] - many[k])
            gap = float(mean[other] - sign * spent[k] - (mean[best.name] - sign * spent[n]))
            if abs(slope) < ROUNDING:
                continue
            at = gap / slope
            if BELIEVED[0] * least < at < BELIEVED[1] * most:
                found.append((price, at, bool(slope > 0), other, now))
    return tuple(Turn(*one) for price in PRICES for one in _nearest([f for f in found if f[0] == price]))


def _nearest(found: Sequence[tuple[str, float, bool, str, float]]) -> list[tuple[str, float, bool, str]]:
    """Of several points at which a price turns it, the nearest above and the nearest below today's."""
    above = [f for f in found if f[2] and f[1] >= f[4]]
    below = [f for f in found if not f[2] and f[1] <= f[4]]
    near = [min(above, key=lambda f: f[1])] if above else []
    near += [max(below, key=lambda f: f[1])] if below else []
    return [(price, at, over, other) for price, at, over, other, _ in near]


def worth_of_used(made: Made, task: ChoiceTask) -> float | None:
    """The most that a used drive is worth at its seller's: above it another course is better [money]; None: it is no course."""
    name = "fit a used drive"
    open_ = [one for one in made.courses if not one.stopped]
    if name not in {one.name for one in open_} or len(open_) < 2:
        return None
    both = made.w["choice/compared"].draws
    n = task.courses.index(name)
    mine = both.uses[n]
    most = math.inf
    for other in open_:
        k = task.courses.index(other.name)
        slope = float(mine.bought - both.uses[k].bought)
        if other.name != name and slope > ROUNDING:
            gap = both.told[k].mean - both.uses[k].bought_for - (both.told[n].mean - mine.bought_for)
            most = min(most, float(gap) / slope)
    return most - float(np.mean(made.w["price/freight"].draws)) if math.isfinite(most) else None


def what_moves_it(made: Made, task: ChoiceTask, most: int = 6) -> tuple[tuple[str, float], ...]:
    """The numbers that move the difference of the two best courses most, each with the share of its variance.

    Those of bearings are none of them: they come in by their middle and how far they lie apart, not draw by draw.
    """
    open_ = [one.name for one in made.courses if not one.stopped]
    if len(open_) < 2:
        return ()
    costs = by_life(made, task)
    first, second = (task.courses.index(name) for name in open_[:2])
    by_middle = task.bearings.quantities if task.bearings else {}
    drawn = {name: np.asarray(made.w[name].draws, float) for name in made.w.quantities if name not in by_middle}
    moved = {name: draws for name, draws in drawn.items() if np.ptp(draws) > 0}
    ranked = what_moves(moved, costs[:, first] - costs[:, second])
    return tuple((name, share) for name, share, _ in ranked[:most] if share > 0.01)


def find_out(
    made: Made, task: ChoiceTask, candidates: Sequence[Candidate], asked: Sequence[Asked] = ()
) -> tuple[FindOut, ...]:
    """What could be found out, by its worth less people's time; the greatest first.

    A course that a verdict would strike out after an outcome is none then; that verdict is never priced.
    """
    if made.best is None:
        return ()
    costs = by_life(made, task)
    may = tuple(not one.stopped for one in sorted(made.courses, key=lambda one: task.courses.index(one.name)))  # fmt: skip
    hour = float(np.mean(made.w["price/hour-in-season"].draws)) * HOUR
    states = np.asarray(made.w["life/fitted"].draws.condition, np.int64)
    found = [_looked(one, task, costs, states, may, hour) for one in candidates]
    found += [_asked(one, made, task, costs, may, hour) for one in asked]
    return tuple(sorted(found, key=lambda one: (-one.net, one.minutes)))


def _looked(
    one: Candidate, task: ChoiceTask, costs: Array, states: NDArray[np.int64], may: tuple[bool, ...], hour: float
) -> FindOut:
    admits = np.array([[course not in out for course in task.courses] for out in one.stopped])
    (worth,) = worth_of_looks(costs, states, (Look(one.name, one.chances, admits=admits),), admitted=may)
    then = tuple(
        (outcome, float(chance), task.courses[int(course)])
        for outcome, chance, course in zip(
            one.outcomes, np.asarray(worth.chances), np.asarray(worth.courses), strict=True
        )
        if chance >= LIKELY and course >= 0
    )
    saved = max(worth.worth, 0.0)
    return FindOut(one.name, one.minutes, saved, saved - one.minutes / 60 * hour, then)


def _asked(one: Asked, made: Made, task: ChoiceTask, costs: Array, may: tuple[bool, ...], hour: float) -> FindOut:
    """A question: its worth in classes of the answer, and the course that is best in each of a few of them."""
    draws = np.asarray(made.w[one.name].draws, float)
    saved = worth_of_asking(costs, draws, admitted=may)
    inside = np.isfinite(draws)
    edges = np.quantile(draws[inside], np.arange(1, BINS) / BINS)
    place = np.where(inside, np.searchsorted(edges, np.where(inside, draws, 0.0)), BINS)
    open_ = np.where(may, 0.0, np.inf)
    then = [(_class(one.name, n, edges), float(np.mean(place == n)), task.courses[int(np.argmin(costs[place == n].mean(axis=0) + open_))]) for n in range(BINS + 1) if (place == n).any()]  # fmt: skip
    return FindOut(one.name, one.minutes, saved, saved - one.minutes / 60 * hour, tuple(then))


def _class(name: str, n: int, edges: Array) -> str:
    if n == BINS:
        return "none to be had"
    days = name.startswith("lead/")
    low, high = (f"{edges[k] / 86400:.0f} days" if days else f"{edges[k]:.0f}" for k in (max(n - 1, 0), min(n, BINS - 2)))  # fmt: skip
    return f"up to {high}" if n == 0 else f"over {low}" if n == BINS - 1 else f"{low.removesuffix(' days')} to {high}"
