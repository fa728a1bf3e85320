"""Drives that sit at no machine: what is known of each, what care is due, and where it fits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from axlewright.trade.findings import findings
from axlewright.trade.steps_read import steps
from axlewright.yard import Corner, Design, Drive, Finding, Hours, Yard

TURNS = "sh-quarter"
"""The step of the shelf that comes again and again: ten turns."""
OLD = 730  # [days] on the shelf after which it is looked at before it is fitted: judge.md row B6, judgement


@dataclass(frozen=True, slots=True)
class Kept:
    """A drive on the shelf or the bench today.

    Attributes:
        drive: itself
        design: what it shares with its like, where one is named
        hours: its own, where they are known
        seen: by kind of look its newest finding, the newest last
        fits: the corners it fits, each with the drive that sits there now
        turned: the day on which it was turned last, or came here
        turn_by: the day by which it wants its ten turns; None off the shelf
    """

    drive: Drive
    design: Design | None
    hours: Hours | None
    seen: tuple[Finding, ...]
    fits: tuple[tuple[Corner, Drive | None], ...]
    since: date | None
    turned: date | None
    turn_by: date | None

    def is_old(self, today: date) -> bool:
        """Whether it lay so long that seal and oil are looked at before it is fitted."""
        return self.since is not None and (today - self.since).days > OLD

    @property
    def bad(self) -> tuple[Finding, ...]:
        """What was seen of it that speaks against it."""
        return tuple(f for f in self.seen if not findings()[f.finding].grade(f.grade).good)


def kept(yard: Yard, place: str, today: date) -> tuple[Kept, ...]:
    """The drives on the shelf, or on the bench; those that want care first on top."""
    seen = yard.seen_of_drives
    found = [_kept(yard, one, seen.get(one.id, {}), today) for one in yard.drives if one.sits == place]
    return tuple(sorted(found, key=lambda one: (one.turn_by or date.max, one.drive.id)))


def _kept(yard: Yard, drive: Drive, seen: Mapping[str, Finding], today: date) -> Kept:
    design = next((one for one in yard.designs if one.id == drive.design), None)
    since = drive.since
    turn = seen.get("turn")
    turned = max([day for day in (since, turn.on if turn else None) if day], default=None)
    every = steps().task[TURNS].every
    assert every is not None
    on_shelf = drive.sits == "shelf"
    return Kept(
        drive=drive,
        design=design,
        hours=yard.drive_hours(drive, today),
        seen=tuple(seen.values()),
        fits=tuple((corner, yard.drive_at(corner)) for corner in (design.fits if design else ())),
        since=since,
        turned=turned,
        turn_by=turned + timedelta(days=every.n) if turned and on_shelf else None,
    )
