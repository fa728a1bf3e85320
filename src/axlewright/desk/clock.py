"""A clock was read."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from axlewright.desk.now import Blank, Deed, Now, TypedHours, checked, may, record
from axlewright.yard import Change, Clock, ClockReading, Yard
from axlewright.yard.records import Line, Prose


class ReadClock(Deed):
    """A clock of a machine, as it was read. `new_clock`: it was changed, and begins with this reading."""

    machine: Line = Field(examples=["bramble"])
    hours: TypedHours = Field(examples=[2650])
    clock: Annotated[Clock | None, Blank] = Field(None, examples=["engine"])
    about: TypedHours = Field(None, examples=[5])
    new_clock: bool = False
    note: Prose = ""


@may("owner", "helper")
def read_clock(yard: Yard, deed: ReadClock, now: Now) -> Change:
    """Keep a clock reading. A machine with one clock need not say which.

    Raises:
        Faults: hours that run back or jump (with what was likely meant), a clock that the machine has not, a day to come
    """
    machine = yard.machine(deed.machine)
    clock = deed.clock or (machine.clocks[0] if len(machine.clocks) == 1 else None)
    read = record(
        ClockReading,
        id=deed.id or now.new_id(),
        machine=machine.id,
        on=deed.day(yard, now),
        hours=deed.hours,
        clock=clock,
        about=deed.about,
        new_clock=deed.new_clock,
        note=deed.note,
        who=now.who,
        at=now.at,
    )
    return checked(yard, (read,), now)
