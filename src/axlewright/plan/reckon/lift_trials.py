"""Beside the lift itself: what a shorter leg does to how it hangs, and what the scale on the hook may show."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from axlewright.plan.reckon.lifting import Lifting, hung, most_mass
from axlewright.plan.steps.bands import NoBand, gauge_band
from axlewright.plan.workings import Got, Refused
from axlewright.quantities import digest

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
