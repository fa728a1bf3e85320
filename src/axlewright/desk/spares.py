"""A drive came in; a spare had its ten turns."""

from __future__ import annotations

import re
import unicodedata
from typing import Annotated, Literal

from pydantic import Field

from axlewright.desk.now import Blank, Deed, Now, TypedHours, checked, may, record
from axlewright.yard import Change, Corner, Drive, Fault, Faults, Finding, Yard, closest
from axlewright.yard.records import Line, Prose


class DriveWritten(Deed):
    """What may be said of a drive, wherever it lies: its kind, what is written on it, what is known of its hours."""

    design: Annotated[Line | None, Blank] = Field(None, examples=["two-stage"])
    numbers: Line = Field("", examples=["cast 40-7, tag 311"])
    hours: TypedHours = Field(None, examples=[1200])
    about: TypedHours = Field(None, examples=[200])
    note: Prose = Field("", examples=["From a breaker. NO OIL."])


class DriveIn(DriveWritten):
    """A drive that came to the yard, and what it is called."""

    name: Annotated[Line, Field(min_length=1)] = Field(examples=["broad spare"])
    sits: Literal["shelf", "bench", "away"] = "shelf"


@may("owner", "helper")
def drive_in(yard: Yard, deed: DriveIn, now: Now) -> Change:
    """Write down a drive that came to the yard, from a seller or out of the straw. The same form sent twice writes it once.

    Raises:
        Faults: another drive of this name, or one with a number that is written on this one; no such design
    """
    return drive_made(yard, deed, now, name=deed.name, sits=deed.sits)


def drive_made(yard: Yard, deed: DriveWritten, now: Now, *, name: str, sits: Corner | str) -> Change:
    """The change that writes a drive down at its place.

    Raises:
        Faults: another drive of this name, or one with a number that is written on this one; no such design
    """
    numbers = tuple(filter(None, (one.strip() for one in deed.numbers.split(","))))
    named = next((one for one in yard.drives if one.name.casefold() == name.casefold()), None)
    taken = {one.id for one in (*yard.drives, *yard.gone)}
    made = record(
        Drive,
        id=named.id if named else word_for(name, taken, deed.id or now.new_id()),
        name=name,
        design=yard.design(deed.design).id if deed.design else None,
        numbers=numbers,
        sits=sits,
        since=deed.day(yard, now),
        hours=deed.hours,
        about=deed.about if deed.hours is not None else None,
        note=deed.note,
        who=now.who,
        at=now.at,
    )
    if named and named.body() == made.body():
        return Change()
    faults = [*_named(named), *_numbered(yard, numbers)]
    if faults:
        raise Faults(*faults)
    return checked(yard, (made,), now)


def _named(there: Drive | None) -> list[Fault]:
    what = f"A drive named {there.name} is here already." if there else ""
    return [Fault("name", what, "Give it another name, or move that one.")] if what else []


def _numbered(yard: Yard, numbers: tuple[str, ...]) -> list[Fault]:
    """A number stands on one drive alone: else nobody can tell which is meant."""
    found = []
    for number in numbers:
        other = next((one for one in yard.drives if number in one.numbers), None)
        if other:
            what = f"{number} is written on {other.name} too."
            found.append(Fault("numbers", what, "Is it that one? Else paint another number on it."))
    return found


def word_for(name: str, taken: set[str], given: str, sort: str = "drive") -> str:
    """An id that people can type, from a name."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    word = (
        re.sub(r"[^a-z0-9]+", "-", plain.replace("'", "")).strip("-")[:40].strip("-") or f"{sort}-{given[:6].lower()}"
    )
    if word not in taken:
        return word
    return next(f"{word}-{n}" for n in range(2, len(taken) + 3) if f"{word}-{n}" not in taken)


class Turned(Deed):
    """A spare was turned ten times by hand, and how it turned."""

    drive: Line = Field(examples=["broad-spare"])
    grade: Line = Field("smooth", examples=["smooth"])
    note: Prose = Field("", examples=["A drop at the lip"])


@may("owner", "helper")
def turn_drive(yard: Yard, deed: Turned, now: Now) -> Change:
    """Write that a drive had its ten turns: a look at it, which keeps its oil where it is wanted.

    Raises:
        Faults: no such drive; it sits at a machine; no such grade
    """
    drive = yard.drive(deed.drive)
    if drive.sits not in ("shelf", "bench", "away"):
        what = f"{drive.name} sits at {drive.sits}: it turns with its wheel."
        raise Faults(Fault("drive", what, closest(deed.drive, [one.id for one in yard.spares])))
    made = record(
        Finding,
        id=f"{deed.id or now.new_id()}-turn",
        finding="turn",
        grade=deed.grade,
        drive=drive.id,
        on=deed.day(yard, now),
        note=deed.note,
        who=now.who,
        at=now.at,
    )
    return checked(yard, (made,), now)
