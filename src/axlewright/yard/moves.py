"""Moves of a drive, and the stays that they make of its life: where it sat, from when to when, and at which hours of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import Annotated, ClassVar

from pydantic import Field

from axlewright.yard.hours import Hours
from axlewright.yard.records import Corner, Drive, Id, Photo, Prose, Record, Sits, SitsSchema, Word

Ran = Callable[[str, date, date], Hours | None]
"""The engine hours that a machine ran from a day to another; None where no clock tells."""


class Move(Record):
    """A drive went somewhere. `hours` are its own as they were counted that day; left out, its machines' clocks count on."""

    what: ClassVar[str] = "move"
    adds: ClassVar[bool] = True
    drive: Word = Field(examples=["bramble-left"])
    to: Annotated[Sits, SitsSchema] = Field(examples=["shelf"])
    on: date = Field(examples=["2026-08-28"])
    hours: float | None = Field(None, ge=0, le=100_000, examples=[1200])
    about: float = Field(0.0, ge=0, le=100_000, examples=[100])
    trouble: int | None = Field(None, ge=1, examples=[3])
    over: Prose = Field("", examples=["breather, level plug and brake line"])
    """What was changed over so that it fits that side."""
    photo: Photo = Field("", examples=["flange.jpg"])
    note: Prose = Field("", examples=["Hung level at the second try"])
    corrects: Id | None = None


@dataclass(frozen=True, slots=True)
class Stay:
    """A stretch of a drive's life at one place.

    Attributes:
        drive: its id
        sits: where
        since: from which day; None: from before anybody wrote it down
        until: to which day; None: it sits there now
        hours: its own hours when it came there; None where nobody knows
        move: the move that brought it; None at the place where its record begins
    """

    drive: str
    sits: Sits
    since: date | None
    until: date | None
    hours: Hours | None
    move: Move | None = None

    def covers(self, day: date) -> bool:
        """Whether it sat there on a day; the day of a move belongs to the new place."""
        return (self.since is None or self.since <= day) and (self.until is None or day < self.until)


def stays(drive: Drive, moves: Iterable[Move], ran: Ran) -> tuple[Stay, ...]:
    """All stays of a drive, the first first: where its record says that it sat, then where each move took it.

    Args:
        drive: as it was written down
        moves: its own, in order
        ran: hours of a machine between two days
    """
    own = None if drive.hours is None else Hours(drive.hours, "engine", drive.about)
    found = [Stay(drive.id, drive.sits, drive.since, None, own)]
    for move in moves:
        last = found[-1]
        found[-1] = Stay(last.drive, last.sits, last.since, move.on, last.hours, last.move)
        arrived = own_hours(found[-1], move.on, ran) if move.hours is None else Hours(move.hours, "engine", move.about)
        found.append(Stay(drive.id, move.to, move.on, None, arrived, move))
    return tuple(found)


def own_hours(stay: Stay, on: date, ran: Ran) -> Hours | None:
    """The hours that a drive itself has run by a day of a stay. Nothing runs on a shelf; doubts add up."""
    if stay.hours is None or not isinstance(stay.sits, Corner):
        return stay.hours
    if stay.since is None:
        return stay.hours if stay.until is None else None
    since = ran(stay.sits.machine, stay.since, on)
    return since and Hours(round(stay.hours.hours + since.hours, 1), "engine", round(stay.hours.about + since.about, 1))


def judged_from(lived: Iterable[Stay]) -> date | None:
    """The day from which looks at a drive speak of it: on the bench its cover comes off, and it is judged afresh."""
    return next((stay.until for stay in reversed(tuple(lived)) if stay.sits == "bench" and stay.until), None)


def now(drive: Drive, lived: tuple[Stay, ...]) -> Drive:
    """The drive as it stands today: where its last move took it, and its own hours when it came there."""
    last = lived[-1]
    if last.move is None:
        return drive
    hours = last.hours
    says = {
        "sits": last.sits,
        "since": last.since,
        "hours": hours and hours.hours,
        "about": hours.about if hours else 0.0,
    }
    return drive.model_copy(update=says)


def overlaps(every: Iterable[Stay]) -> Iterator[tuple[Stay, Stay]]:
    """Two stays of two drives at one corner at one time, the one that began later second."""
    by_corner: dict[Corner, list[Stay]] = {}
    for stay in every:
        if isinstance(stay.sits, Corner):
            by_corner.setdefault(stay.sits, []).append(stay)
    for there in by_corner.values():
        there.sort(key=lambda one: one.since or date.min)
        longest = there[0]
        for one in there[1:]:
            if one.drive != longest.drive and (longest.until is None or (one.since or date.min) < longest.until):
                yield longest, one
            if one.until is None or (longest.until is not None and one.until > longest.until):
                longest = one
