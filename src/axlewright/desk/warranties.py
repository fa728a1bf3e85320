"""A drive came with a warranty, from a seller or off a bench: its two ends are written down."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from axlewright.desk.now import Blank, Deed, Now, TypedHours, checked, may, record
from axlewright.yard import Change, Fault, Faults, Warranty, Yard
from axlewright.yard.records import Id, Line, Photo, Prose
from axlewright.yard.warranties import Begins


class GiveWarranty(Deed):
    """What somebody answers for, and on which paper. `corrects` puts an earlier one right."""

    drive: Line = Field(examples=["broad-spare"])
    days: Annotated[int | None, Blank] = Field(None, ge=1, le=10_000, examples=[365])
    hours: TypedHours = Field(None, examples=[300])
    begins: Begins = Field("fitted", examples=["fitted"])
    given_by: Line = Field("", examples=["the breaker at the mill"])
    paper: Line = Field("", examples=["receipt 118"])
    photo: Photo = ""
    note: Prose = ""
    corrects: Annotated[Id | None, Blank] = None


@may("owner")
def give_warranty(yard: Yard, deed: GiveWarranty, now: Now) -> Change:
    """Write down the warranty on a drive. The same form sent twice writes it once.

    Raises:
        Faults: no such drive; neither days nor hours; a day to come; nothing of that id to correct
    """
    drive, given = yard.drive(deed.drive), deed.id or now.new_id()
    if deed.days is None and not deed.hours:
        raise Faults(Fault("days", "When does it end?", "Give its days, its hours of running, or both."))
    made = record(
        Warranty,
        id=f"{given}-warranty",
        drive=drive.id,
        on=deed.day(yard, now),
        days=deed.days,
        hours=deed.hours or None,
        begins=deed.begins,
        given_by=deed.given_by,
        paper=deed.paper,
        photo=deed.photo,
        note=deed.note,
        corrects=deed.corrects,
        who=now.who,
        at=now.after(one.at for one in yard.warranties),
    )
    return checked(yard, (made,), now)
