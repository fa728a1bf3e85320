"""Beside the lift itself: what a shorter leg does, the scale's bands, what could break the forks, what they carry farther out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from axlewright.engines.holding.wheel import load_at_centre
from axlewright.plan.margins import Margin
from axlewright.plan.reckon.lifting import Lifting, drive_on_forks, hung, most_mass, wheel_on_forks
from axlewright.plan.reckon.unknowns import ends_of
from axlewright.plan.steps.bands import NoBand, gauge_band
from axlewright.plan.workings import Got, Refused, Workings
from axlewright.quantities import Exact, careful, digest

SHORTER = 0.010  # m
POUND = 0.45359237  # kg


@dataclass(frozen=True, slots=True)
class Shortened:
    """A leg made shorter by a hundredth of a metre: how much the wheel end comes up, and the right side [rad]."""

    leg: str
    end_up: float
    side_up: float


def shortened(made: Lifting) -> Shortened | None:
    """What the leg does that is set most easily: the one with a hoist, else the last. None with fewer than two legs."""
    task = made.task
    if len(task.legs) < 2 or not made.hangs:
        return None
    n = next((n for n, leg in enumerate(task.legs) if leg.hoist), len(task.legs) - 1)
    at, likely = made.at, made.likely
    w = replace(likely, count=2, got={}, refused={})  # as it is, and with that leg shorter; all else at its middle
    for name, one in likely.quantities.items():
        draws = np.full(2, one.spread.middle())
        if name == f"{at}/legs.{n + 1}.length":
            draws[1] -= SHORTER
        w.got[name] = Got(name, one.kind, draws, one.basis, one.source, digest(name, draws.tobytes()))
    try:
        hung(w, at, task)
    except Refused:
        return None
    change = [float(np.diff(w[f"{at}/lies.{name}"].draws)[0]) for name in ("end_up", "side_up")]
    return Shortened(task.legs[n].name, *change)


def scale_marks(made: Lifting) -> tuple[int, int, int]:
    """What the scale on the hook may show, in its own marks: go on from, go on to, lower now above.

    Raises:
        NoBand: no tag is read, or the heaviest is more than the weakest part holds
    """
    limit = most_mass(made)
    if limit is None:
        raise NoBand("Tags of hoist and slings must be read before a band is printed.")
    unit, step = made.task.scale
    one = step * (POUND if unit == "lb" else 1.0)
    low = made["drive-mass"].ends()[0]
    return gauge_band(low, made.heaviest(), limit, 1.0, one)


@dataclass(frozen=True, slots=True)
class ForksBreak:
    """The one unknown that could break the hold of the forks.

    Attributes:
        name: of the input
        at: value of it at which they meet their limit, all else at its careful end [SI]
        more: more of it counts against them
        settles: they fail at the careful end now, and hold on the good side of `at`
    """

    name: str
    at: float
    more: bool
    settles: bool


Forked = Literal["wheel", "drive"]
ON_FORKS: dict[Forked, Callable[[Workings, str, object], Margin | None]] = {
    "wheel": wheel_on_forks,  # type: ignore[dict-item]
    "drive": drive_on_forks,  # type: ignore[dict-item]
}
ASKED: dict[Forked, tuple[str, ...]] = {
    "wheel": ("wheel-mass", "standoff", "wheel-width", "wheel-diameter", "tipping-line", "rated-centre"),
    "drive": ("drive-mass", "besides", "reach", "tipping-line", "rated-centre"),
}
STEPS = 60  # of halving
FARTHEST = 3.0  # times the way from the middle to the careful end: a value beyond is nothing one could meet


def forks_break(made: Lifting, what: Forked) -> ForksBreak | None:
    """Which guess alone lowers the hold of the forks most, and from which value on it is too much; None where none does."""
    at, likely = made.at, made.likely
    given = likely.quantities
    names = [full for name in ASKED[what] if (full := f"{at}/{name}") in given and not isinstance(given[full].spread, Exact)]  # fmt: skip
    count = 1 + 2 * len(names)
    few = replace(likely, count=count, got={}, refused={})
    for name, one in given.items():
        draws = np.full(count, one.spread.middle())
        if name in names:
            place = 1 + 2 * names.index(name)
            draws[place : place + 2] = ends_of(one)
        few.got[name] = Got(name, one.kind, draws, one.basis, one.source, digest(name, draws.tobytes()))
    margin = ON_FORKS[what](few, at, made.task)
    if margin is None or not names:
        return None
    ratios = np.broadcast_to(margin.ratios(), (count,))
    least = 1 + int(np.argmin(ratios[1:]))
    if not ratios[least] < ratios[0] - 1e-9:
        return None
    name = names[(least - 1) // 2]
    middle, end = float(few.got[name].draws[0]), float(few.got[name].draws[least])
    return _where(made, what, name, middle, end)


def _where(made: Lifting, what: Forked, name: str, middle: float, end: float) -> ForksBreak | None:
    """The value at which the careful end of the hold is one, by halving: it falls steadily from the good side to the bad."""

    def hold(value: float) -> float:
        moved = made.held.what_if(replace(made.held.quantities[name], spread=Exact(value)))
        margin = ON_FORKS[what](moved, made.at, made.task)
        assert margin is not None
        return careful(margin.ratios(), "low")

    good, bad = middle - FARTHEST * (end - middle), middle + FARTHEST * (end - middle)
    good = max(good, 1e-3 * abs(middle)) if middle > 0 else good
    if hold(good) < 1 or hold(bad) >= 1:
        return None
    settles = hold(end) < 1 if made.held.quantities[name].basis == "assumed" else hold(middle) < 1
    for _ in range(STEPS):
        half = (good + bad) / 2
        good, bad = (half, bad) if hold(half) >= 1 else (good, half)
        if abs(bad - good) < 1e-4 * abs(bad):
            break
    return ForksBreak(name.removeprefix(f"{made.at}/"), good, end > middle, settles)


def carried(made: Lifting) -> tuple[tuple[float, float], ...]:
    """What the forks carry by load centre, at the careful end: points of a line that falls past the plate's centre [m, kg]."""
    if made.task.loader is None or made.task.loader.rated is None:
        return ()
    rated, centre, line = (
        made.held[f"{made.at}/{name}"].ends()[0] for name in ("rated", "rated-centre", "tipping-line")
    )
    far = max([centre * 2.0, *(1.15 * made[name].middle() for name in ("reach", "wheel-centre") if f"{made.at}/{name}" in made.likely)])  # fmt: skip
    beyond = [centre + (far - centre) * n / 12 for n in range(13)]
    return ((0.0, rated), *((at, float(load_at_centre(rated, centre, at, line))) for at in beyond))
