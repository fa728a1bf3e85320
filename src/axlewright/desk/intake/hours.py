"""Clock readings of machines out of a table: one a machine, clock and day; the last of a day counts."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from datetime import date, datetime

from axlewright.desk.intake.cells import NotRead
from axlewright.desk.intake.found import TakeIn
from axlewright.desk.intake.sheet import BadCell, Line, Sheet
from axlewright.desk.intake.who import Names
from axlewright.desk.now import Now
from axlewright.yard import CLOCKS, Clock, ClockReading, Machine, spell

MOST_HOURS = 100_000.0
CLOCK_WORDS: dict[str, Clock] = {
    "engine": "engine", "motor": "engine", "e": "engine",
    "threshing": "threshing", "drum": "threshing", "separator": "threshing", "cutting": "threshing", "t": "threshing",
}  # fmt: skip
YES = frozenset({"yes", "y", "x", "1", "true", "ja", "new"})


def hours_rows(
    sheet: Sheet, names: Names, deed: TakeIn, now: Now
) -> Iterator[tuple[Line, list[ClockReading] | NotRead]]:
    """Line by line its readings, or what is wrong with it."""
    for line in sheet.lines():
        try:
            yield line, list(_readings(line, names, deed, now))
        except NotRead as bad:
            yield line, bad


def _readings(line: Line, names: Names, deed: TakeIn, now: Now) -> Iterator[ClockReading]:
    machine, on = _machine(line, names, deed), line.day("on")
    about = line.hours("about") or 0.0
    new_clock = line.number in deed.new_clock or line.text("new_clock").casefold() in YES
    for column in ("engine", "threshing", "hours"):
        hours = line.hours(column)
        if hours is None:
            continue
        clock = _clock(line, machine, deed) if column == "hours" else CLOCK_WORDS[column]
        if clock not in machine.clocks:
            right = f"It has {' and '.join(machine.clocks)}."
            raise BadCell(line.header(column), NotRead(f"{machine.name} has no {clock} clock.", right))
        if not 0 <= hours <= MOST_HOURS:
            right = "Read the clock again."
            raise BadCell(line.header(column), NotRead(f"No clock reads {spell(hours)} h.", right))
        yield reading(
            machine, on, hours, clock, now, about=about, new_clock=new_clock, note=line.text("note"), of=deed.name
        )


def reading(
    machine: Machine,
    on: date,
    hours: float,
    clock: Clock,
    now: Now,
    *,
    of: str,
    about: float = 0.0,
    new_clock: bool = False,
    note: str = "",
) -> ClockReading:
    """A reading whose id is made of what it says, so that the same line twice is one."""
    hours = round(hours, 2)
    said = f"{machine.id} {on} {clock} {hours:g} {about:g} {new_clock}"
    return ClockReading(
        id="t" + hashlib.sha256(said.encode()).hexdigest()[:14],
        machine=machine.id,
        on=on,
        hours=hours,
        clock=clock,
        about=about,
        new_clock=new_clock,
        note=note or f"from {of}",
        who=now.who,
        at=datetime_of(now),
    )


def datetime_of(now: Now) -> datetime:
    return now.at.replace(microsecond=0)


def _machine(line: Line, names: Names, deed: TakeIn) -> Machine:
    said = line.text("machine") or deed.machine
    if not said:
        raise BadCell(
            line.header("machine"), NotRead("Which machine is not said.", "Fill it in, or say --machine NAME.")
        )
    try:
        return names.machine(said)
    except NotRead as bad:
        raise BadCell(line.header("machine"), bad) from None


def _clock(line: Line, machine: Machine, deed: TakeIn) -> Clock:
    said = line.text("clock")
    if said:
        word = said.casefold().split()[0]
        if word in CLOCK_WORDS:
            return CLOCK_WORDS[word]
        raise BadCell(line.header("clock"), NotRead(f"There is no clock {said[:20]}.", f"Write {' or '.join(CLOCKS)}."))
    if deed.clock:
        return deed.clock
    if len(machine.clocks) == 1:
        return machine.clocks[0]
    raise BadCell(
        line.header("hours"),
        NotRead(f"Which clock? {machine.name} has two.", "Say --clock engine or --clock threshing."),
    )
