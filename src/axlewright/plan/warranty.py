"""A warranty told: what is left of it, which end comes first and when, and what of its record is missing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from axlewright.plan.in_hand.due import Pace, pace_of
from axlewright.yard import Corner, Drive, Left, Yard

LOST = "Dates, hours, oil and photos are its proof: a lost record, or an opened drive, voids most warranties."
"""Common practice, no source."""


@dataclass(frozen=True, slots=True)
class WarrantyTold:
    """A warranty on a drive today.

    Attributes:
        left: what is left
        first: which end comes first, at the machine's pace lately
        by: the day by which it will have ended so; None where nobody can tell
        pace: the pace that was taken; None where it sits at no machine
        missing: what its record lacks, or what may have voided it, in words
    """

    left: Left
    first: str | None
    by: date | None
    pace: Pace | None
    missing: tuple[str, ...]


def warranties_told(yard: Yard, drive: Drive, today: date) -> tuple[WarrantyTold, ...]:
    """Every warranty on a drive, the newest last."""
    pace = pace_of(yard, drive.sits.machine, today) if isinstance(drive.sits, Corner) else None
    found = []
    for left in yard.warranty_left(drive, today):
        first = left.first(pace.hours if pace else None, today)
        by = left.until
        if first == "hours":
            by = pace.day(left.surely, today) if pace and left.surely is not None else None
        runs = left.state == "runs"
        found.append(
            WarrantyTold(left, first if runs else None, by if runs else None, pace, _missing(yard, drive, left))
        )
    return tuple(found)


def _missing(yard: Yard, drive: Drive, left: Left) -> tuple[str, ...]:
    found = []
    if not left.warranty.paper and not left.warranty.photo:
        found.append("No paper of it is written down: the receipt’s number, or its photo.")
    if left.begun is None:
        return tuple(found)
    there = next((stay for stay in yard.lives[drive.id] if stay.covers(left.begun)), None)
    if there and isinstance(there.sits, Corner):
        read = any(
            day == left.begun for clock in yard.clock_log(there.sits.machine).counted.values() for day, _ in clock
        )
        if not read:
            name = yard.machine(there.sits.machine).name
            found.append(f"{name}’s clock was not read on {left.begun}, the day it began.")
    for stay in yard.lives[drive.id]:
        if stay.sits == "bench" and stay.since and stay.since >= left.begun:
            found.append(f"It went to the bench on {stay.since}: opened there, it is void with most.")
    return tuple(found)
