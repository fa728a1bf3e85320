"""Beside the lift itself: what a shorter leg does to how it hangs, and what the scale on the hook may show."""

from __future__ import annotations

from dataclasses import dataclass, replace

from axlewright.plan.reckon.lift_task import LiftTask
from axlewright.plan.reckon.lifting import Lifting, lift, most_mass
from axlewright.plan.steps.bands import NoBand, gauge_band
from axlewright.quantities import Exact

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
    middle = _at_middles(task)
    leg = middle.legs[n]
    short = replace(leg, length=replace(leg.length, spread=Exact(leg.length.spread.middle() - SHORTER)))
    legs = (*middle.legs[:n], short, *middle.legs[n + 1 :])
    before, after = (lift(one, made.at, 1, 1) for one in (middle, replace(middle, legs=legs)))
    if not (before.hangs and after.hangs):
        return None
    change = [after[f"lies.{name}"].middle() - before[f"lies.{name}"].middle() for name in ("end_up", "side_up")]
    return Shortened(leg.name, *change)


def _at_middles(task: LiftTask) -> LiftTask:
    """The same with every place at its middle, wheel and loader left out."""
    drive = task.drive
    places = {
        name: replace(one, spread=Exact(one.spread.middle()))
        for name in ("mass", "along", "sideways", "up")
        for one in [getattr(drive, name)]
    }
    legs = tuple(
        replace(leg, length=replace(leg.length, spread=Exact(leg.length.spread.middle()))) for leg in task.legs
    )
    return replace(task, drive=replace(drive, **places), legs=legs, wheel=None, loader=None)


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
