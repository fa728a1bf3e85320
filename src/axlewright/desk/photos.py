"""A photo of a paper step card is kept as the record of what stands on it."""

from __future__ import annotations

import hashlib

from pydantic import Field

from axlewright.desk.now import Deed, Now, checked, may, record
from axlewright.desk.readings import in_hand
from axlewright.yard import Beside, Change, Fault, Faults, Reading, Yard
from axlewright.yard.card_values import PHOTO
from axlewright.yard.records import Line, Prose

BEGINS = {b"\xff\xd8\xff": "jpg", b"\x89PNG\r\n\x1a\n": "png"}
"""What a photo's file begins with, and the ending that it is kept under."""
MOST_PHOTO = 12_000_000  # bytes


class KeepPhoto(Deed):
    """A photo of the paper card, kept as the record of what stands on it."""

    trouble: int = Field(ge=1, examples=[3])
    name: Line = ""
    note: Prose = ""


@may("owner", "helper")
def keep_photo(yard: Yard, deed: KeepPhoto, now: Now, data: bytes) -> Change:
    """Keep a photo of the paper in the yard. It passes no hold: what stands on it is typed back for that.

    Raises:
        Faults: no step card; no picture
    """
    _, stands = in_hand(yard, deed.trouble)
    name = photo_name(data)
    step = stands.now or stands.cards[""][-1]
    kept = record(
        Reading,
        id=f"{deed.id or now.new_id()}-photo",
        trouble=deed.trouble,
        step=step.task.id,
        value=PHOTO,
        taken="photo",
        revision=stands.card.revision,
        on=deed.day(yard, now),
        photo=name,
        note=deed.note,
        who=now.who,
        at=now.after(one.at for one in yard.readings if one.trouble == deed.trouble),
    )
    change = checked(yard, (kept,), now)
    return Change(change.records, (Beside(f"photos/{name}", data),) if change else ())


def photo_name(data: bytes) -> str:
    """The name that a photo is kept under: by what stands in it, so that it is kept once.

    Raises:
        Faults: it is no picture, or too large
    """
    ending = next((end for begin, end in BEGINS.items() if data.startswith(begin)), "")
    if not ending:
        right = "Send the photo as the telephone made it."
        raise Faults(Fault("photo", "This is no photo that can be kept: JPEG or PNG.", right))
    if len(data) > MOST_PHOTO:
        raise Faults(Fault("photo", f"The photo is over {MOST_PHOTO / 1e6:g} MB.", "Take it again, smaller."))
    return f"card-{hashlib.sha256(data).hexdigest()[:16]}.{ending}"
