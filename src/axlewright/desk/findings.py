"""Something was seen at a corner: findings, the trouble that they open, and a finding put right."""

from __future__ import annotations

from collections import Counter
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from axlewright.desk.now import Blank, Deed, Now, TypedHours, checked, may, record
from axlewright.yard import Change, Clock, Corner, Fault, Faults, Finding, Record, Stage, Trouble, Yard
from axlewright.yard.records import Line, Photo, Prose


class Mark(BaseModel):
    """One finding ticked, and what goes with it."""

    model_config = ConfigDict(frozen=True, extra="forbid", str_strip_whitespace=True)

    finding: Line
    grade: Line
    note: Prose = ""
    photo: Photo = ""


class Seen(Deed):
    """What somebody saw, all at one look. Without a corner it can be judged, but there is nothing to keep it at."""

    corner: Annotated[Line | None, Blank] = Field(None, examples=["bramble/front-left"])
    marks: tuple[Mark, ...] = ()
    hours: TypedHours = None
    clock: Annotated[Clock | None, Blank] = Field(None, examples=["engine"])
    about: TypedHours = Field(None, examples=[5])
    trouble: Annotated[int | None, Blank] = Field(None, ge=1, examples=[3])
    opens: bool = True
    """False for a look at a corner that was well: its findings belong to no trouble."""
    note: Prose = ""


@may("owner", "helper")
def add_findings(yard: Yard, seen: Seen, now: Now) -> Change:
    """Keep what was seen: in the trouble named, else in the one that runs at the corner, else in a new one.

    Without a corner and a trouble the change holds the findings alone, to be judged and not to be stored: a store
    refuses them.

    Raises:
        Faults: unknown finding, grade, corner or trouble; hours on the wrong clock, running back or jumping; a day to come
    """
    corner = yard.corner(seen.corner) if seen.corner else None
    given = seen.id or now.new_id()
    before, trouble = _sent_before(yard, given)
    if seen.trouble is not None:
        trouble = yard.trouble(seen.trouble)
    elif not before and corner and seen.opens:
        trouble = yard.running_at(corner)
        if trouble is None:
            return _opened(yard, seen, corner, given, now)
    found = _findings(yard, seen, trouble, corner or (trouble.corner if trouble else None), given, now)
    if not found:
        raise Faults(Fault("marks", "Nothing was ticked.", "Tick what you saw: plug=paste"))
    return checked(yard, found, now)


@may("owner", "helper")
def open_trouble(yard: Yard, seen: Seen, now: Now) -> Change:
    """Open a trouble at a corner, with what was seen there (nothing yet is allowed: the first look comes next).

    Raises:
        Faults: as `add_findings`; no corner; a trouble runs there already
    """
    if not seen.corner:
        raise Faults(Fault("corner", "At which corner?", "Write bramble/front-left."))
    corner = yard.corner(seen.corner)
    given = seen.id or now.new_id()
    if _sent_before(yard, given)[0]:
        return add_findings(yard, seen.model_copy(update={"id": given}), now) if seen.marks else Change()
    running = yard.running_at(corner)
    if running:
        raise Faults(Fault("corner", f"Trouble {running.number} runs at {corner}.", "Add what you saw to it."))
    return _opened(yard, seen, corner, given, now)


def _sent_before(yard: Yard, given: str) -> tuple[bool, Trouble | None]:
    """Whether this same form was sent before, and the trouble that it went to."""
    for trouble in yard.troubles:
        if trouble.id == given:
            return True, trouble
    for found in yard.findings:
        if found.id.startswith(f"{given}-"):
            return True, yard.trouble(found.trouble) if found.trouble else None
    return False, None


def _opened(yard: Yard, seen: Seen, corner: Corner, given: str, now: Now) -> Change:
    drive, day, kept = yard.drive_at(corner), seen.day(yard, now), {"who": now.who, "at": now.at}
    trouble = record(
        Trouble,
        id=given,
        number=yard.next_number,
        corner=corner,
        drive=drive.id if drive else None,
        opened=day,
        note=seen.note,
        **kept,
    )
    stage = record(Stage, id=f"{given}-seen", trouble=trouble.number, stage="seen", on=day, **kept)
    return checked(yard, [trouble, stage, *_findings(yard, seen, trouble, corner, given, now)], now)


def _findings(
    yard: Yard, seen: Seen, trouble: Trouble | None, corner: Corner | None, given: str, now: Now
) -> list[Record]:
    clock = seen.clock
    if seen.hours is not None and clock is None and corner:
        clocks = yard.machine(corner.machine).clocks
        clock = clocks[0] if len(clocks) == 1 else None
    sitting = yard.drive_at(corner) if corner else None
    times: Counter[str] = Counter()
    found: list[Record] = []
    for mark in seen.marks:
        times[mark.finding] += 1
        again = f".{times[mark.finding]}" if times[mark.finding] > 1 else ""
        found.append(
            record(
                Finding,
                id=f"{given}-{mark.finding}{again}",
                finding=mark.finding,
                grade=mark.grade,
                corner=corner,
                drive=sitting.id if sitting else None,
                trouble=trouble.number if trouble else None,
                on=seen.day(yard, now),
                hours=seen.hours,
                clock=clock if seen.hours is not None else None,
                about=seen.about if seen.hours is not None else None,
                photo=mark.photo,
                note=mark.note,
                who=now.who,
                at=now.at,
            )
        )
    return found


class Correction(Deed):
    """What a finding should have said. What is left out stays as it was."""

    corrects: Line = Field(examples=["3-plug"])
    finding: Annotated[Line | None, Blank] = None
    grade: Annotated[Line | None, Blank] = Field(None, examples=["paste"])
    corner: Annotated[Line | None, Blank] = Field(None, examples=["bramble/front-left"])
    hours: TypedHours = None
    clock: Annotated[Clock | None, Blank] = Field(None, examples=["engine"])
    photo: Photo = ""
    note: Prose = ""


@may("owner", "helper")
def correct_finding(yard: Yard, deed: Correction, now: Now) -> Change:
    """Put a finding right by a new one that points at it; the old one is kept and counts no longer.

    Raises:
        Faults: no such finding; a proof without a photo; and as `add_findings`
    """
    old = next((f for f in reversed(yard.findings) if f.id == deed.corrects), None)
    if old is None:
        raise Faults(Fault("corrects", f"There is no finding {deed.corrects} in this yard."))
    corner = yard.corner(deed.corner) if deed.corner else old.corner
    moved = corner != old.corner
    sitting = yard.drive_at(corner) if moved and corner else None
    other_machine = bool(moved and corner and old.corner and corner.machine != old.corner.machine)
    stood = None if other_machine else old.hours  # another machine has another clock
    put_right = record(
        Finding,
        id=deed.id or now.new_id(),
        finding=deed.finding or old.finding,
        grade=deed.grade or old.grade,
        corner=corner,
        drive=(sitting.id if sitting else None) if moved else old.drive,
        trouble=None if moved else old.trouble,
        on=deed.on or old.on,
        hours=stood if deed.hours is None else deed.hours,
        clock=deed.clock or (None if other_machine else old.clock),
        about=0.0 if other_machine else old.about,
        photo=deed.photo,
        note=deed.note,
        corrects=old.id,
        who=now.who,
        at=now.at,
    )
    return checked(yard, (put_right,), now)
