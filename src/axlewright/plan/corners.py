"""How every corner of a yard stands: its drive, its trouble, its verdicts, or *not looked at (n days)*."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from axlewright.plan.facts import Seen, job_open, seen_at
from axlewright.plan.judge import Standing, Verdicts, judge_corner, standing
from axlewright.plan.once import KeptOfYard
from axlewright.yard import Corner, Drive, Trouble, Yard


@dataclass(frozen=True, slots=True)
class CornerNow:
    """One corner today."""

    corner: Corner
    drive: Drive | None
    trouble: Trouble | None  # the one that runs there
    seen: tuple[Seen, ...]
    verdicts: Verdicts
    standing: Standing


_JUDGED: KeptOfYard[dict[Corner, CornerNow]] = KeptOfYard()


def corner_now(yard: Yard, corner: Corner, today: date) -> CornerNow:
    """How a corner stands today: judged once for a picture and a day."""
    kept = _JUDGED.get(yard, today, dict)
    if corner not in kept:
        kept[corner] = _judged(yard, corner, today)
    return kept[corner]


def _judged(yard: Yard, corner: Corner, today: date) -> CornerNow:
    seen = seen_at(yard, corner, today)
    verdicts = judge_corner(seen, job_open=job_open(yard, corner))
    return CornerNow(corner, yard.drive_at(corner), yard.running_at(corner), seen, verdicts, standing(seen))


def corners(yard: Yard, today: date) -> tuple[CornerNow, ...]:
    """All corners, machine by machine."""
    return tuple(corner_now(yard, corner, today) for corner in yard.corners)
