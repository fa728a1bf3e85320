"""A drive goes somewhere: onto a corner, the shelf, the bench, or away; what sits there makes room in the same breath."""

from __future__ import annotations

from datetime import timedelta
from typing import Annotated, Any, Literal

from pydantic import Field

from axlewright.desk.now import Blank, Deed, Now, TypedHours, checked, may, record
from axlewright.yard import (
    Change,
    Clock,
    ClockReading,
    Corner,
    Drive,
    Fault,
    Faults,
    Move,
    Record,
    Trouble,
    Yard,
    closest,
)
from axlewright.yard.records import Line, Prose

ASIDE = ("shelf", "bench", "away")


class MoveDrive(Deed):
    """Where a drive goes, what the machine's clock read, and what was changed over for its new side.

    `out_to`: where the drive that sits there goes. `hours`: its own, where somebody counted them anew.
    """

    drive: Line = Field(examples=["broad-spare"])
    to: Line = Field(examples=["bramble/front-left"])
    out_to: Annotated[Literal["shelf", "bench", "away"] | None, Blank] = Field(None, examples=["bench"])
    read: TypedHours = Field(None, examples=[2650])
    clock: Annotated[Clock | None, Blank] = Field(None, examples=["engine"])
    hours: TypedHours = Field(None, examples=[1200])
    about: TypedHours = Field(None, examples=[100])
    trouble: Annotated[int | None, Blank] = Field(None, ge=1, examples=[3])
    over: Prose = Field("", examples=["breather, level plug"])
    note: Prose = ""


@may("owner", "helper")
def move_drive(yard: Yard, deed: MoveDrive, now: Now) -> Change:
    """Move a drive. The same form sent twice moves it once.

    Raises:
        Faults: no such drive or place; it sits there already; another sits there; its kind does not fit that corner
    """
    given, drive = deed.id or now.new_id(), yard.drive(deed.drive)
    if any(one.id.startswith(f"{given}-") for one in yard.moves):
        return Change()
    to = place_named(yard, deed.to)
    new: list[Record] = list(_read(yard, drive, to, deed, given, now))
    at = now.after(one.at for one in yard.moves)
    kept = {"on": deed.day(yard, now), "trouble": deed.trouble, "who": now.who}
    there = yard.drive_at(to) if isinstance(to, Corner) else None
    if isinstance(to, Corner):
        _fits(yard, drive, to)
        if there and there.id != drive.id:
            if deed.out_to is None:
                what = f"{there.name} sits at {to}."
                raise Faults(Fault("out_to", what, f"Say where it goes: {', '.join(ASIDE[:-1])} or {ASIDE[-1]}."))
            new.append(record(Move, id=f"{given}-out", drive=there.id, to=deed.out_to, at=at, **kept))
            at = now.after([at])
    new.append(
        record(
            Move,
            id=f"{given}-move",
            drive=drive.id,
            to=to,
            hours=deed.hours,
            about=deed.about if deed.hours is not None else None,
            over=deed.over,
            note=deed.note,
            at=at,
            **kept,
        )
    )
    return checked(yard, new, now)


def place_named(yard: Yard, said: str) -> Corner | str:
    """The place that is meant: a corner, the shelf, the bench, away.

    Raises:
        Faults: none of them
    """
    word = said.strip().casefold()
    if word in ASIDE:
        return word
    if "/" not in said:
        corners = [str(corner) for corner in yard.corners]
        raise Faults(Fault("to", f"There is no place {said}.", closest(said, [*ASIDE, *corners])))
    try:
        return yard.corner(said)
    except Faults as bad:
        raise Faults(*(Fault("to", one.what, one.right) for one in bad.faults)) from None


def _fits(yard: Yard, drive: Drive, to: Corner) -> None:
    """Raises:
    Faults: its kind names the corners that it fits, and this is none of them
    """
    design = next((one for one in yard.designs if one.id == drive.design), None)
    if design is None or not design.fits or to in design.fits:
        return
    what = f"{design.name} does not fit {to}, by its own file."
    right = f"It fits {', '.join(map(str, design.fits))}. If that is wrong, put the file of the kind right first."
    raise Faults(Fault("to", what, right))


def moves_of_job(yard: Yard, off: Drive | None, on: Drive | None, trouble: Trouble, said: dict[str, Any]) -> list[Move]:
    """The moves that a job has made when the corner is set down: the old drive to the bench, the other in its place.

    None where both are not known, or the moves were written already.
    """
    if off is None or on is None or off.id == on.id or off.sits != trouble.corner or on.sits == trouble.corner:
        return []
    later = said["at"] + timedelta(seconds=1)
    given = said.pop("given")
    return [
        record(Move, id=f"{given}-out", drive=off.id, to="bench", trouble=trouble.number, **said),
        record(
            Move, id=f"{given}-move", drive=on.id, to=trouble.corner, trouble=trouble.number, **{**said, "at": later}
        ),
    ]


def _read(yard: Yard, drive: Drive, to: Corner | str, deed: MoveDrive, given: str, now: Now) -> list[ClockReading]:
    """The machine's clock as it was read: what the drive ran there is counted to this hour."""
    if deed.read is None:
        return []
    corner = to if isinstance(to, Corner) else drive.sits
    if not isinstance(corner, Corner):
        right = "Leave the clock out, or give the drive’s own hours."
        raise Faults(Fault("read", f"{drive.name} sits at no machine, and goes to none.", right))
    clocks = yard.machine(corner.machine).clocks
    clock = deed.clock or (clocks[0] if len(clocks) == 1 else None)
    if clock is None:
        right = f"Say {' or '.join(clocks)}."
        raise Faults(Fault("clock", f"Which clock? {yard.machine(corner.machine).name} has two.", right))
    read = record(
        ClockReading,
        id=f"{given}-clock",
        machine=corner.machine,
        on=deed.day(yard, now),
        hours=deed.read,
        clock=clock,
        note="at a move",
        who=now.who,
        at=now.at,
    )
    return [read]
