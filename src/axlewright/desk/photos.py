"""A photo kept with what it shows; one of a paper step card is the record of what stands on it."""

from __future__ import annotations

from contextlib import suppress
from typing import Annotated

from pydantic import Field

from axlewright.desk.now import Deed, Now, checked, may, record
from axlewright.desk.pictures import photo_name, photo_of
from axlewright.desk.readings import in_hand
from axlewright.yard import Beside, Change, Drive, Fault, Faults, Machine, Reading, Record, Yard, closest
from axlewright.yard.card_values import PHOTO
from axlewright.yard.records import Line, Photo, Prose


class KeepPhoto(Deed):
    """A photo of the paper card, kept as the record of what stands on it; or of what is seen at one step."""

    trouble: int = Field(ge=1, examples=[3])
    step: Line = Field("", examples=["set-down-load"])
    name: Line = ""
    note: Prose = ""


@may("owner", "helper")
def keep_photo(yard: Yard, deed: KeepPhoto, now: Now, data: bytes) -> Change:
    """Keep a photo of the paper in the yard. It passes no hold: what stands on it is typed back for that.

    Raises:
        Faults: no step card; no such step on it; no picture
    """
    _, stands = in_hand(yard, deed.trouble)
    photo = photo_of(data)
    step = stands.now or stands.cards[""][-1]
    if deed.step:
        shown = {one.task.id: one for part in stands.cards.values() for one in part}
        if deed.step not in shown:
            raise Faults(Fault("step", f"This card has no step {deed.step}.", closest(deed.step, shown)))
        step = shown[deed.step]
    kept = record(
        Reading,
        id=f"{deed.id or now.new_id()}-photo",
        trouble=deed.trouble,
        step=step.task.id,
        value=PHOTO,
        taken="photo",
        revision=stands.card.revision,
        on=deed.day(yard, now),
        photo=photo_name(photo),
        note=deed.note,
        who=now.who,
        at=now.after(one.at for one in yard.readings if one.trouble == deed.trouble),
    )
    change = checked(yard, (kept,), now)
    return Change(change.records, (photo,) if change else ())


class Photographed(Deed):
    """A photo of a machine or a drive itself: a jacking point, the flange, a plate. `photo` is the name that it is kept under."""

    thing: Line = Field(examples=["bramble"])
    photo: Annotated[Photo, Field(min_length=1, examples=["jack-point.jpg"])]


@may("owner", "helper")
def photograph(yard: Yard, deed: Photographed, now: Now) -> Change:
    """Keep a photo with a machine or a drive. The same photo twice is kept once; those before it stay.

    Raises:
        Faults: no machine or drive of that name
    """
    thing = thing_named(yard, deed.thing)
    if deed.photo in thing.photos:
        return Change()
    said = {"photos": (*thing.photos, deed.photo), "who": now.who, "at": now.at.replace(microsecond=0)}
    return checked(yard, (thing.model_copy(update=said),), now)


def thing_named(yard: Yard, said: str) -> Machine | Drive:
    """A machine or a drive by its id, its name or its number, as its file has it.

    Raises:
        Faults: neither
    """
    with suppress(Faults):
        return yard.machine(said)
    with suppress(Faults):
        named = yard.drive(said).id
        return next(one for one in yard.drives_written if one.id == named)
    near = closest(said, [one.id for one in (*yard.machines, *yard.drives)])
    raise Faults(Fault("thing", f"There is no machine or drive {said}.", near))


def with_photo(change: Change, photo: Beside | None) -> Change:
    """A change with the photo that was taken of it: kept beside the records, and named by each that can show one."""
    if photo is None or not change:
        return change
    return Change(tuple(_showing(one, photo_name(photo)) for one in change.records), (*change.beside, photo))


def _showing(one: Record, name: str) -> Record:
    return one.model_copy(update={"photo": name}) if getattr(one, "photo", None) == "" else one
