"""The one unknown that could break a margin of holding: which input, and the value of it at which the margin meets its limit.

Which one: each input alone at its careful end, the rest at their middles. All of them are one reckoning, a draw each.
At what value: with everything else at its careful end, so that a reading on the right side of it settles the matter.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from axlewright.kinds import Array
from axlewright.plan.reckon.corner_task import HELD_SHARE, Case
from axlewright.plan.reckon.holding import Holding, Stage, worked_stages
from axlewright.plan.workings import Got, Workings
from axlewright.quantities import Exact, Quantity, digest
from axlewright.quantities.draws import CAREFUL, careful

FARTHEST = 2.0  # steps from middle to careful end, past the careful end: a value beyond is nothing one could meet
BEST = 1.5  # such steps to the good side: no reading that could settle it lies farther; half as far again as its good tenth
STEPS = 8  # of the secant
NEAR = 1e-3  # of the limit

Tried: TypeAlias = dict[tuple[Case, str, str, float], Workings]
Ratio = Callable[[Workings], Array]  # a margin, draw by draw, in any workings of the corner


@dataclass(frozen=True, slots=True)
class Asked:
    """A margin to be looked into.

    Attributes:
        key: its name
        stage: at which it is least
        case: of the held workings that its careful end is of
        ratio: what it is in workings of which that stage is worked out
        limit: under which it is no
    """

    key: str
    stage: Stage
    case: Case
    ratio: Ratio
    limit: float = 1.0


@dataclass(frozen=True, slots=True)
class Unknown:
    """The input that could break a margin.

    Attributes:
        name: of the input, without whose it is
        middle: of the input [SI]
        worse: which way it counts against the margin: 1 more of it, -1 less
        alone: the margin with this input alone at its careful end
        breaks: whether that is under its limit already
        at: value at which the margin meets its limit, all else at its careful end; None where none in reach does [SI]
        settles: the margin fails at its careful end now, and holds only on the good side of `at`
        case: of the held workings that this is true of
    """

    name: str
    middle: float
    worse: int
    alone: float
    breaks: bool
    at: float | None
    settles: bool
    case: Case


def unknowns(holding: Holding, asked: Iterable[Asked]) -> dict[str, Unknown | None]:
    """For each margin the input that lowers it most; None where none of them lowers it.

    Raises:
        Refused: a number is out of range
    """
    asked = tuple(asked)
    names = _inputs(holding)
    few = _one_by_one(holding, names)
    worked_stages(few, holding.at, {one.stage.name: one.stage for one in asked}.values())
    found: dict[str, Unknown | None] = {}
    tried: Tried = {}
    for one in asked:
        ratios = np.broadcast_to(one.ratio(few), (few.count,))
        least = 1 + int(np.argmin(ratios[1:])) if len(names) else 0
        found[one.key] = (
            _unknown(holding, one, names[(least - 1) // 2], least, few, ratios, tried)
            if least and ratios[least] < ratios[0] - 1e-9
            else None
        )
    return found  # fmt: skip


def _inputs(holding: Holding) -> list[str]:
    """Names of the inputs that are not known exactly."""
    given = holding.likely.quantities
    return [name for name, one in given.items() if not isinstance(one.spread, Exact)]


def ends_of(one: Quantity) -> tuple[float, float]:
    """Careful ends of an input: a tenth for what nobody weighed, as held workings have it, else 5 of a hundred."""
    share = HELD_SHARE if one.basis == "assumed" else CAREFUL
    return float(one.spread.at(share)), float(one.spread.at(1 - share))


def _one_by_one(holding: Holding, names: list[str]) -> Workings:
    """Workings of a few draws: all inputs at their middles, then each at its low and at its high end."""
    w, count = holding.likely, 1 + 2 * len(names)
    few = replace(w, count=count, got={}, refused={})
    for name, one in w.quantities.items():
        draws = np.full(count, one.spread.middle())
        if name in names:
            place = 1 + 2 * names.index(name)
            draws[place : place + 2] = ends_of(one)
        few.got[name] = Got(name, one.kind, draws, one.basis, one.source, digest(name, draws.tobytes()))
    return few


def _unknown(
    holding: Holding, asked: Asked, name: str, place: int, few: Workings, ratios: Array, tried: Tried
) -> Unknown:
    worse = 1 if place % 2 == 0 else -1  # the high end stands second
    middle, end = float(few.got[name].draws[0]), float(few.got[name].draws[place])
    alone = float(ratios[place])
    at, settles = _meets(holding, asked, name, (middle, end), tried)
    return Unknown(
        name.removeprefix(f"{holding.at}/"), middle, worse, alone, alone < asked.limit, at, settles, asked.case
    )


def _meets(
    holding: Holding, asked: Asked, name: str, between: tuple[float, float], tried: Tried
) -> tuple[float | None, bool]:
    """Value of an input at which a margin's careful end meets its limit: by secant, since loads go nearly straight.

    Args:
        holding: corner reckoned through
        asked: the margin
        name: of the input
        between: its middle and its careful end
        tried: workings with an input at a value, kept from one margin to the next

    Returns:
        value, none where it lies out of reach; and whether the margin fails as it stands
    """
    held = holding.held[asked.case]
    middle, end = between

    def beyond(value: float) -> float:
        key = (asked.case, asked.stage.name, name, value)
        if key not in tried:
            tried[key] = held.what_if(replace(held.quantities[name], spread=Exact(value)))
            worked_stages(tried[key], holding.at, (asked.stage,))
        return _careful(asked, tried[key]) - asked.limit

    settles = _careful(asked, held) < asked.limit
    a, b = end, middle
    fa, fb = beyond(a), beyond(b)
    for _ in range(STEPS):
        if fa == fb:
            return None, settles
        a, b, fa = b, b - fb * (b - a) / (fb - fa), fb
        if not -2 * FARTHEST <= (b - middle) / (end - middle) <= 1 + FARTHEST:
            return None, settles  # on the way the secant may step past what counts in the end
        fb = beyond(b)
        if abs(fb) < NEAR:
            meets = (b - middle) / (end - middle) >= -BEST
            return (b if meets else None), settles
    return None, settles


def _careful(asked: Asked, w: Workings) -> float:
    """Careful end of a margin in any workings of which its stage is worked out."""
    return careful(np.broadcast_to(asked.ratio(w), (w.count,)), "low")


def load_ratio(at: str, stage: str, capacity: float | str) -> Ratio:
    """A capacity, or a rating among the inputs, over the load at the corner."""

    def ratio(w: Workings) -> Array:
        holds = w[f"{at}/{capacity}"].draws if isinstance(capacity, str) else capacity
        load = w[f"{at}/{stage}.corner"].draws
        value: Array = np.where(load > 0, holds / np.where(load > 0, load, 1.0), np.inf)
        return value

    return ratio


def tip_ratio(at: str, stage: str, edge: str) -> Ratio:
    """The tangent of the slope left over an edge."""

    def ratio(w: Workings) -> Array:
        value: Array = np.tan(w[f"{at}/{stage}.{edge}"].draws)
        return value

    return ratio


def front_axle(holding: Holding, unknown: Unknown) -> float | None:
    """The same limit as the front axle's load on a weigh ticket [kg]; None where it is no matter of mass."""
    held: Mapping[str, Got] = holding.held[unknown.case].got
    at = holding.at
    if unknown.at is None or unknown.name not in ("mass", "front-share"):
        return None
    other = held[f"{at}/{'front-share' if unknown.name == 'mass' else 'mass'}"]
    return unknown.at * other.middle()
