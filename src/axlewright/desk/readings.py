"""Something was read at a step: taken there, or typed back from paper."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Annotated

from pydantic import Field

from axlewright.desk.now import Blank, Deed, Now, checked, may, record
from axlewright.plan.in_hand.worked import Worked, worked
from axlewright.quantities import NotRead
from axlewright.trade.networks import Step
from axlewright.yard import Change, Fault, Faults, Reading, Trouble, Yard, closest
from axlewright.yard.card_values import DONE, asked_at, figures_at, read_figure, read_value, spelled
from axlewright.yard.cards import Taken, TimeOfDay
from axlewright.yard.records import Line, Photo, Prose


class Take(Deed):
    """What was read, by the names of the readings, as typed. `step` is where; left out, where each is taken."""

    trouble: int = Field(ge=1, examples=[3])
    step: Annotated[Line | None, Blank] = Field(None, examples=["ra-settle"])
    values: Mapping[str, Line]
    taken: Taken = "page"
    seen_by: Line = Field("", examples=["helper"])
    time: TimeOfDay = Field("", examples=["14:20"])
    photo: Photo = ""
    note: Prose = ""
    corrects: Annotated[Line | None, Blank] = Field(None, examples=["3-crib-settle"])


@may("owner", "helper")
def take_reading(yard: Yard, deed: Take, now: Now) -> Change:
    """Keep readings. At a step that stands behind a hold nothing is taken before the hold is passed.

    Raises:
        Faults: no step card; no such reading; a value that cannot be read; a hold that is not passed; all of them at once
    """
    trouble, stands = in_hand(yard, deed.trouble)
    given = {name: value for name, value in deed.values.items() if value}
    if not given:
        raise Faults(Fault("values", "Nothing was read.", "Write a reading and its value: crib-settle=1"))
    if deed.corrects and len(given) > 1:
        raise Faults(Fault("corrects", "One reading corrects one other.", "Send them one at a time."))
    if deed.corrects and not any(one.id == deed.corrects for one in stands.records):
        raise Faults(Fault("corrects", f"There is no standing reading {deed.corrects} in trouble {trouble.number}."))
    faults: list[Fault] = []
    new = []
    for name, value in given.items():
        try:
            step = place_of(stands, name, deed.step)
            if deed.taken in ("page", "command"):
                _reachable(stands, step, name)
            made = _reading(yard, deed, now, stands, step, name, value)
            if not sent_before(yard, made):
                new.append(made)
        except Faults as bad:
            faults += bad.faults
    if faults:
        raise Faults(*faults)
    return checked(yard, new, now)


def in_hand(yard: Yard, number: int) -> tuple[Trouble, Worked]:
    """A trouble, and how far its step card came.

    Raises:
        Faults: no such trouble; it was put by; no step card was begun
    """
    trouble = yard.trouble(number)
    if yard.stage(number) == "put by":
        raise Faults(Fault("trouble", f"Trouble {number} is put by.", "Its step card is for the record."))
    stands = worked(yard, trouble)
    if stands is None:
        right = f"Begin it: axlewright reading {number} --begin, or the page /trouble/{number}/step."
        raise Faults(Fault("trouble", f"No step card was begun for trouble {number}.", right))
    return trouble, stands


def place_of(stands: Worked, name: str, said: str | None = None) -> Step:
    """The step at which something is written.

    Raises:
        Faults: no such step or reading on this card; says which there are
    """
    if said is not None:
        step = stands.steps.get(said)
        if step is None:
            raise Faults(Fault("step", f"There is no step {said} on this card.", closest(said, stands.steps)))
        if name not in asked_at(step.task.id):
            raise Faults(Fault(name, f"{stands.name(said)}, asks for no {name}.", closest(name, asked_at(said))))
        return step
    for step in stands.job.steps:
        if name in {r.id for r in step.task.readings} or name in figures_at(step.task.id):
            return step
    known = {name for step in stands.job.steps for name in asked_at(step.task.id)}
    raise Faults(Fault(name, f"There is no reading {name} on this card.", closest(name, known)))


def _reachable(stands: Worked, step: Step, name: str) -> None:
    """Raises:
    Faults: a hold stands before the step; says which, and what it waits for
    """
    holds = stands.holds_before(step.task.id)
    if holds:
        first = holds[0].task.id
        wants = stands.wants(first)
        right = wants[0].words if wants else "Pass it first."
        raise Faults(Fault(name, f"{stands.name(first)}, is not passed.", right))


def _reading(yard: Yard, deed: Take, now: Now, stands: Worked, step: Step, name: str, value: str) -> Reading:
    """One reading, its value with the unit that the card prints.

    Raises:
        Faults: it cannot be read
    """
    decimal = yard.title.decimal
    figure = figures_at(step.task.id).get(name)
    unit = figure.unit if figure else stands.reading(name).unit
    try:
        if figure:
            read_figure(figure, value, decimal)
        else:
            read_value(stands.reading(name), value, decimal)
    except NotRead as bad:
        raise Faults(Fault(name, str(bad), "")) from None
    try:
        return record(
            Reading,
            id=f"{deed.id or now.new_id()}-{name}",
            trouble=deed.trouble,
            step=step.task.id,
            reading=name,
            value=spelled(value, unit),
            taken=deed.taken,
            revision=stands.card.revision,
            seen_by=deed.seen_by,
            on=deed.day(yard, now),
            time=deed.time or clock_time(deed.taken, now),
            photo=deed.photo,
            note=deed.note,
            corrects=deed.corrects,
            who=now.who,
            at=now.after(one.at for one in yard.readings if one.trouble == deed.trouble),
        )
    except Faults as bad:
        raise Faults(*(replace(fault, where=name) for fault in bad.faults)) from None


def clock_time(taken: Taken, now: Now) -> str:
    """The time of day of what is written as it happens; of paper only what stands on it."""
    return f"{now.at:%H:%M}" if taken in ("page", "command") else ""


def sent_before(yard: Yard, made: Reading) -> bool:
    """Whether a form with this reading came before: sent again a minute later it is still kept once."""
    return any((one.id, one.step, one.value) == (made.id, made.step, made.value) for one in yard.readings)


class TypeBack(Deed):
    """A paper step card, typed back in one go: its letter, the readings on it, and the last step that was done."""

    trouble: int = Field(ge=1, examples=[3])
    part: Line = Field("", examples=["bench"])
    revision: Line = Field("", examples=["C"])
    values: Mapping[str, Line] = {}
    up_to: Annotated[int | None, Blank] = Field(None, ge=1, le=999, examples=[28])
    seen_by: Line = Field("", examples=["helper"])
    time: TimeOfDay = Field("", examples=["14:20"])
    note: Prose = ""
    photo: Photo = ""


@may("owner", "helper")
def type_back(yard: Yard, deed: TypeBack, now: Now) -> Change:
    """Keep what stands on a paper card: its readings, and the steps that were done by it.

    Steps count as done only as far as the holds among them are passed by what was read and seen.

    Raises:
        Faults: another letter than the card that holds; a value that cannot be read; a hold that these readings do not
            pass; all of them at once
    """
    _, stands = in_hand(yard, deed.trouble)
    faults: list[Fault] = []
    if deed.revision and stands.card.revision and deed.revision.upper() != stands.card.revision:
        what = f"The card that holds is {stands.card.revision}; paper {deed.revision} is void."
        faults.append(Fault("revision", what, "Type back the newer paper, or look whose letter it is."))
    if deed.part not in stands.cards:
        faults.append(Fault("part", f"There is no card {deed.part} here.", closest(deed.part, stands.cards)))
        raise Faults(*faults)
    given = deed.id or now.new_id()
    values = {name: value for name, value in deed.values.items() if value}
    change, plain = Change(), {"id": given, "trouble": deed.trouble, "on": deed.on, "photo": deed.photo}
    if values:
        shared = {"seen_by": deed.seen_by, "time": deed.time, "note": deed.note}
        try:
            change = take_reading(yard, Take(**plain, **shared, values=values, taken="paper"), now)
        except Faults as bad:
            faults += bad.faults
    try:
        done = _done_up_to(yard.with_(change), deed, given, now)
    except Faults as bad:
        faults += bad.faults
    if faults:
        raise Faults(*faults)
    if not values and deed.up_to is None:
        raise Faults(Fault("values", "Nothing was typed.", "Type the readings, or the last step that was done."))
    return Change((*change.records, *done.records))


def _done_up_to(yard: Yard, deed: TypeBack, given: str, now: Now) -> Change:
    """The steps of a card up to a number as done.

    Raises:
        Faults: no such step; one of them does not count as done; says which, and what is missing
    """
    _, stands = in_hand(yard, deed.trouble)
    if deed.up_to is None:
        return Change()
    last = stands.at(deed.part, deed.up_to)
    if last is None:
        right = f"It has steps 1 to {len(stands.cards[deed.part])}."
        raise Faults(Fault("up_to", f"This card has no step {deed.up_to}.", right))
    mine = [step.task.id for step in stands.cards[deed.part][: deed.up_to] if step.task.id not in stands.done]
    at = now.after(one.at for one in yard.readings if one.trouble == deed.trouble)
    new = [
        record(
            Reading,
            id=f"{given}-{name}.done",
            trouble=deed.trouble,
            step=name,
            value=DONE,
            taken="paper",
            revision=stands.card.revision,
            seen_by=deed.seen_by,
            on=deed.day(yard, now),
            time=deed.time,
            photo=deed.photo,
            who=now.who,
            at=at,
        )
        for name in mine
    ]
    change = checked(yard, new, now)
    after = worked(yard.with_(change), yard.trouble(deed.trouble))
    assert after
    for name in mine:
        if name not in after.done:
            wants = after.wants(name)
            what = f"{after.name(name)}, does not count as done."
            raise Faults(Fault("up_to", what, wants[0].words if wants else ""))
    return change
