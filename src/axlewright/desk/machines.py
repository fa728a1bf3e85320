"""A machine came into the yard; a drive that sits at its corner is written down, and the kind that it is of."""

from __future__ import annotations

from typing import Annotated

from pydantic import BeforeValidator, Field

from axlewright.desk.now import Blank, Deed, Now, TypedHours, checked, may, record
from axlewright.desk.spares import DriveWritten, drive_made, word_for
from axlewright.trade.machines import machine_kinds
from axlewright.yard import (
    Change,
    Clock,
    ClockReading,
    Design,
    Fault,
    Faults,
    Machine,
    Yard,
    closest,
)
from axlewright.yard.records import Basis, Line, Place, Prose, Stated

Several = BeforeValidator(lambda given: (given,) if isinstance(given, str) else given)


@may("owner")
def add_machine(yard: Yard, machine: Machine, now: Now) -> Change:
    """Keep a new machine. One that is there already is not written over.

    Raises:
        Faults: another machine has this id
    """
    there = next((m for m in yard.machines if m.id == machine.id), None)
    machine = machine.model_copy(update={"who": now.who, "at": now.after(())})
    if there and there.body() != machine.body():
        raise Faults(Fault("id", f"There is a machine {machine.id} already.", "Give this one another id."))
    return checked(yard, (machine,), now)


class MachineIn(Deed):
    """A machine that came to the yard: what it is called, its kind, where its drives sit, what its clocks read."""

    name: Annotated[Line, Field(min_length=1, max_length=60)] = Field(examples=["Bramble"])
    kind: Annotated[Line | None, Blank] = Field(None, examples=["walker-combine"])
    corners: Annotated[tuple[Place, ...], Several] = Field((), examples=[["front-left", "front-right"]])
    engine: TypedHours = Field(None, examples=[2650])
    threshing: TypedHours = Field(None, examples=[1900])
    clocks: Annotated[tuple[Clock, ...], Several] = Field(("engine",), examples=[["engine"]])
    note: Prose = ""


@may("owner")
def machine_in(yard: Yard, deed: MachineIn, now: Now) -> Change:
    """Write down a machine with what its clocks read. The same form sent twice writes it once.

    Raises:
        Faults: another machine has this name; no such kind; no corner; a clock that it was not said to have
    """
    named = next((one for one in yard.machines if one.name.casefold() == deed.name.casefold()), None)
    given = deed.id or now.new_id()
    faults = list(_faults(deed))
    if faults:
        raise Faults(*faults)
    taken = {one.id for one in (*yard.machines, *yard.gone)}
    made = record(
        Machine,
        id=named.id if named else word_for(deed.name, taken, given, "machine"),
        name=deed.name,
        kind=deed.kind,
        corners=deed.corners,
        clocks=deed.clocks,
        note=deed.note,
        who=now.who,
        at=now.at,
    )
    if named and named.body() != made.body():
        raise Faults(Fault("name", f"A machine named {named.name} is here already.", "Give this one another name."))
    hours: dict[Clock, float | None] = {"engine": deed.engine, "threshing": deed.threshing}
    read = [
        record(
            ClockReading,
            id=f"{given}-{clock}",
            machine=made.id,
            on=deed.day(yard, now),
            hours=hours[clock],
            clock=clock,
            who=now.who,
            at=now.at,
        )
        for clock in deed.clocks
        if hours[clock] is not None
    ]
    return checked(yard, (made, *read), now)


def _faults(deed: MachineIn) -> list[Fault]:
    kinds, found = list(machine_kinds()), []
    if deed.kind and deed.kind not in kinds:
        found.append(Fault("kind", f"No kind {deed.kind} is known.", closest(deed.kind, kinds)))
    if not deed.corners:
        found.append(Fault("corners", "A drive sits at no corner.", "Tick each wheel that is driven by a drive."))
    if not deed.clocks:
        found.append(Fault("clocks", "It has no clock.", "Tick the clock it has; hours are what a look grows old by."))
    for clock, hours in (("engine", deed.engine), ("threshing", deed.threshing)):
        if hours is not None and clock not in deed.clocks:
            found.append(
                Fault(clock, f"It was not said to have a {clock} clock.", "Tick that clock too, or clear this.")
            )
    return found


class DriveHere(DriveWritten):
    """A drive that sits at a corner, as it is found there."""

    corner: Line = Field(examples=["bramble/front-left"])
    name: Line = Field("", examples=["left drive"])


@may("owner", "helper")
def drive_here(yard: Yard, deed: DriveHere, now: Now) -> Change:
    """Write down the drive that sits at a corner. One that nobody named is called after its corner.

    Raises:
        Faults: no such corner; another drive sits there; its name or a number on it is another drive's
    """
    corner = yard.corner(deed.corner)
    name = deed.name or f"{yard.machine(corner.machine).name} {corner.place.replace('-', ' ')}"
    there = yard.drive_at(corner)
    if there and there.name.casefold() != name.casefold():
        what = f"{there.name} sits there already."
        raise Faults(Fault("corner", what, "Its own page moves it off: then this one can be written down."))
    return drive_made(yard, deed, now, name=name, sits=corner)


class DesignIn(Deed):
    """What drives of one kind share, as far as somebody knows it."""

    name: Annotated[Line, Field(min_length=1)] = Field(examples=["Two-stage hub"])
    fits: Annotated[tuple[Line, ...], Several] = Field((), examples=[["bramble/front-left"]])
    mass: Line = Field("", examples=["290 kg"])
    oil: Line = Field("", examples=["80W-90"])
    oil_volume: Line = Field("", examples=["8 l"])
    bolts: Line = Field("", examples=["10 x M18"])
    bolt_torque: Line = Field("", examples=["380 Nm"])
    known: Basis = Field("assumed", examples=["book"])
    source: Line = Field("", examples=["service book, p. 40"])
    note: Prose = ""


@may("owner")
def design_in(yard: Yard, deed: DesignIn, now: Now) -> Change:
    """Write down a kind of drive. Values are kept as they were typed, each with how it is known.

    Raises:
        Faults: another kind has this name; no such corner; a value that cannot be read
    """
    named = next((one for one in yard.designs if one.name.casefold() == deed.name.casefold()), None)
    taken = {one.id for one in (*yard.designs, *yard.gone)}
    stated = {
        key: Stated(value=value, basis=deed.known, source=deed.source)
        for key in ("mass", "oil_volume", "bolt_torque")
        if (value := getattr(deed, key))
    }
    made = record(
        Design,
        id=named.id if named else word_for(deed.name, taken, deed.id or now.new_id(), "design"),
        name=deed.name,
        fits=tuple(yard.corner(one) for one in deed.fits),
        oil=deed.oil,
        bolts=deed.bolts,
        note=deed.note,
        who=now.who,
        at=now.at,
        **stated,
    )
    if named and named.body() != made.body():
        raise Faults(Fault("name", f"Drives named {named.name} are here already.", "Give this kind another name."))
    return checked(yard, (made,), now)
