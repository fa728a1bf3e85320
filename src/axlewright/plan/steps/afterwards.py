"""After-checks as the clock will read: which a job brings, when, and what a nut that moved does to the list."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

from axlewright.trade.networks import Job
from axlewright.trade.steps import AfterCheck, Incoming, Rules, Steps


def due(check: AfterCheck, set_down: float, count: int | None = None) -> tuple[int, ...]:
    """Clock readings at which a check falls due: cut to whole hours, so never later than its hours.

    Args:
        check: row of the trade
        set_down: engine clock when the machine stood on its wheel again [h]
        count: how many; those of the row when left out [1]
    """
    hours = list(check.hours)
    while check.then_every and count and len(hours) < count:
        hours.append(hours[-1] + check.then_every)
    return tuple(floor(set_down + h) for h in hours[:count])


def on_second_clock(
    check: AfterCheck, set_down: float, second: float, rate: float, count: int | None = None
) -> tuple[float, ...]:
    """The same on a second clock, never later: cut to whole hours, or to tenths where the whole hour is past already.

    Args:
        check: row of the trade
        set_down: engine clock at set-down [h]
        second: second clock at set-down [h]
        rate: greatest engine hours in one of its hours [-]
        count: how many; those of the row when left out [1]
    """
    readings = [second + (reading - set_down) / rate for reading in due(check, set_down, count)]
    return tuple(float(floor(r)) if floor(r) > second else floor(r * 10) / 10 for r in readings)


@dataclass(frozen=True, slots=True)
class Looked:
    """A check as it was done: the clock then, and whether any nut moved."""

    at: float
    moved: bool


@dataclass(frozen=True, slots=True)
class Next:
    """When the nuts are looked at next, on the engine clock. `wheel_off`: they are not; faces and seats are."""

    at: int | None
    wheel_off: bool = False


def two_still(rules: Rules, check: AfterCheck, set_down: float, looked: Sequence[Looked]) -> Next:
    """The next check of the nuts after those done.

    One that moved is looked at again after one hour and then each ten hours until two checks in a row are still, as its
    verdict asks; then the list goes on with its first entry later than the clock. Moved at the third check or later:
    wheel off.
    """
    rule = rules.two_still
    if any(c.moved for c in looked[rule.third - 1 :]):
        return Next(None, wheel_off=True)
    now = looked[-1].at if looked else set_down
    moved = [i for i, c in enumerate(looked) if c.moved]
    if moved and (still := len(looked) - 1 - moved[-1]) < rule.still:
        ahead = rule.ahead_h[min(still, len(rule.ahead_h) - 1)]
        return Next(floor(now + ahead) if still else ceil(now + ahead))  # sooner than an hour says nothing yet
    count = len(check.hours)
    while True:
        later = [at for at in due(check, set_down, count) if at > now]
        if later:
            return Next(later[0])
        if not check.then_every:
            return Next(None)
        count += 1


def brought(rows: Steps, jobs: Sequence[Job], incoming: Incoming = "") -> tuple[AfterCheck, ...]:
    """The after-checks that jobs bring, by what was done in them and what drive is on now."""
    tasks = {s.task.id for j in jobs for s in j.steps}
    acts = {a for j in jobs for s in j.steps for a in s.task.acts}
    return tuple(
        c
        for c in rows.after_checks
        if not (c.acts or c.tasks or c.drives)
        or acts & set(c.acts)
        or tasks & set(c.tasks)
        or (incoming and incoming in c.drives)
    )
