"""The machine stands on its wheels again: the looks that follow are written down; and each look as it is made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Annotated

from pydantic import Field

from axlewright.desk.findings import Mark, Seen, add_findings
from axlewright.desk.moves import moves_of_job
from axlewright.desk.now import Blank, Deed, Now, TypedHours, checked, may, record
from axlewright.desk.readings import in_hand, sent_before
from axlewright.plan.in_hand.checks import brought_by, checks_of
from axlewright.plan.in_hand.worked import Worked
from axlewright.plan.work_of import work_of
from axlewright.trade.findings import findings
from axlewright.yard import (
    AfterCheck,
    Change,
    Clock,
    ClockReading,
    Fault,
    Faults,
    Hours,
    Reading,
    Record,
    Stage,
    Trouble,
    Yard,
    closest,
)
from axlewright.yard.card_values import look_of
from axlewright.yard.cards import Taken
from axlewright.yard.records import Line, Prose

SET_DOWN = "set-down"


class SetDown(Deed):
    """The corner is down on its wheel: what the clocks read then. One of them is enough."""

    trouble: int = Field(ge=1, examples=[3])
    engine: TypedHours = Field(None, examples=[2650])
    threshing: TypedHours = Field(None, examples=[1907])
    note: Prose = ""


@may("owner", "helper")
def set_down(yard: Yard, deed: SetDown, now: Now) -> Change:
    """Finish the work of a step card: both clocks are kept, the moves that it made, and every look that it brings.

    Raises:
        Faults: no step card; a step of the way down is not done; no clock; hours that cannot be; it was set down before
    """
    trouble, stands = in_hand(yard, deed.trouble)
    number, given = trouble.number, deed.id or now.new_id()
    if any(one.id.startswith(f"{given}-") for one in yard.after_checks):
        return Change()
    left = steps_left(stands)
    if left:
        raise Faults(Fault("trouble", f"{stands.name(left[0])}, is not done.", "Do it, or write that it was."))
    if yard.stage(number) in ("set down", "looked after"):
        raise Faults(Fault("trouble", f"Trouble {number} was set down already.", "Its after-checks run."))
    reads = _clocks(yard, trouble, deed, given, now)
    day = deed.day(yard, now)
    with_clocks = yard.with_(Change(tuple(reads)))
    read: dict[Clock, float] = {one.clock: one.hours for one in reads}
    engine = read.get("engine")
    if engine is None:
        engine = with_clocks.on_clock(
            trouble.corner.machine, Hours(read["threshing"], "threshing"), "engine", day
        ).hours
    second: tuple[Clock, float] | None = ("threshing", read["threshing"]) if "threshing" in read else None
    kept = {"trouble": number, "on": day, "who": now.who}
    at = now.after(stage.at for stage in yard.stages_of(number))
    checks = [
        record(
            AfterCheck,
            id=f"{given}-{one.look}",
            look=one.look,
            says=one.says,
            set_down=engine,
            due=one.due,
            every=one.every,
            second=one.second,
            mornings=one.mornings,
            by=one.by,
            at=at,
            **kept,
        )
        for one in brought_by(with_clocks, trouble, stands.job, engine, second, day)
    ]
    stage = record(Stage, id=f"{given}-set-down", stage="set down", note=deed.note, at=at, **kept)
    work = work_of(yard, trouble, day)
    said = {"given": given, "at": now.after(one.at for one in yard.moves), "on": day, "who": now.who}
    moves = moves_of_job(yard, work.outgoing, work.incoming, trouble, said) if work else []
    return checked(yard, (*reads, *moves, stage, *checks), now)


def steps_left(stands: Worked) -> tuple[str, ...]:
    """The steps that must be done before the machine counts as set down: to the end of the way down, else all of them."""
    shown = stands.cards[""]
    down = [n for n, step in enumerate(shown) if step.part == SET_DOWN]
    upto = shown[: down[-1] + 1] if down else shown
    return tuple(step.task.id for step in upto if step.task.id not in stands.done)


def _clocks(yard: Yard, trouble: Trouble, deed: SetDown, given: str, now: Now) -> list[ClockReading]:
    """The clocks as they were read.

    Raises:
        Faults: none was read, or one that the machine has not
    """
    machine = yard.machine(trouble.corner.machine)
    typed: tuple[tuple[Clock, float | None], ...] = (("engine", deed.engine), ("threshing", deed.threshing))
    found, faults = [], []
    for clock, hours in typed:
        if hours is None:
            continue
        if clock not in machine.clocks:
            has = f"It has {' and '.join(machine.clocks)}."
            faults.append(Fault(clock, f"{machine.name} has no {clock} clock.", has))
            continue
        said = {"machine": machine.id, "on": deed.day(yard, now), "hours": hours, "clock": clock, "note": "at set-down"}
        read = record(ClockReading, id=f"{given}-{clock}", who=now.who, at=now.at, **said)
        try:
            checked(yard, (read,), now)
        except Faults as bad:
            faults += [replace(fault, where=clock) for fault in bad.faults]
        found.append(read)
    if not found and not faults:
        first = machine.clocks[0]
        faults.append(Fault(first, f"What does the {first} clock read?", "The looks that follow hang on it."))
    if faults:
        raise Faults(*faults)
    return found


class LookAfter(Deed):
    """An after-check that was made: what was seen, by finding; or in a word, where it shows none."""

    trouble: int = Field(ge=1, examples=[3])
    look: Line = Field(examples=["wheel-nuts"])
    found: Mapping[str, Line] = {}
    says: Line = Field("", examples=["lock seen"])
    hours: TypedHours = Field(None, examples=[2650])
    clock: Annotated[Clock | None, Blank] = Field(None, examples=["engine"])
    taken: Taken = "page"
    note: Prose = ""


@may("owner", "helper")
def do_after_check(yard: Yard, deed: LookAfter, now: Now) -> Change:
    """Keep an after-check; what it shows is kept as a finding too, so that the verdicts know of it.

    Raises:
        Faults: no such after-check runs; nothing was said, or what it cannot show; no clock reading, or one that cannot be
    """
    trouble = yard.trouble(deed.trouble)
    running = {check.look for check in checks_of(yard, trouble.number)}
    if deed.look not in running:
        right = closest(deed.look, running) or "None runs: they are written down when the machine is set down."
        raise Faults(Fault("look", f"No after-check {deed.look} runs for trouble {trouble.number}.", right))
    value = _shown(deed)
    clocks = yard.machine(trouble.corner.machine).clocks
    clock = deed.clock or (clocks[0] if len(clocks) == 1 else "engine" if "engine" in clocks else clocks[0])
    if deed.hours is None:
        raise Faults(Fault("hours", f"What does the {clock} clock read?", "Without it the next look has no place."))
    given = deed.id or now.new_id()
    day = deed.day(yard, now)
    made = record(
        Reading,
        id=f"{given}-{deed.look}",
        trouble=trouble.number,
        step=deed.look,
        value=value,
        taken=deed.taken,
        on=day,
        hours=deed.hours,
        clock=clock,
        note=deed.note,
        who=now.who,
        at=now.after(one.at for one in yard.readings if one.trouble == trouble.number),
    )
    if sent_before(yard, made):
        return Change()
    new: list[Record] = [made]
    if deed.found:
        marks = tuple(Mark(finding=name, grade=grade, note=deed.note) for name, grade in deed.found.items())
        seen = Seen(id=given, trouble=trouble.number, corner=str(trouble.corner), marks=marks, hours=deed.hours, clock=clock, on=day)  # fmt: skip
        new += add_findings(yard, seen, now).records
    if yard.stage(trouble.number) == "set down":
        at = now.after(stage.at for stage in yard.stages_of(trouble.number))
        said = {"trouble": trouble.number, "on": day, "who": now.who, "at": at}
        new.append(record(Stage, id=f"{given}-looked-after", stage="looked after", **said))
    return checked(yard, new, now)


def _shown(deed: LookAfter) -> str:
    """What was seen, as it is kept.

    Raises:
        Faults: nothing was said, or something that this look cannot show
    """
    row = look_of(deed.look)
    assert row
    if not row.finds:
        said = {answer.casefold(): answer for answer in row.answers}
        if row.answers and deed.says.casefold() not in said:
            choices = " or ".join(row.answers)
            raise Faults(Fault("says", f"{row.look}: what was seen?", f"Write {choices}."))
        return said.get(deed.says.casefold(), deed.says)
    faults = [Fault(name, f"{deed.look} does not show {name}.", closest(name, row.finds)) for name in deed.found if name not in row.finds]  # fmt: skip
    for name, grade in deed.found.items():
        grades = [one.id for one in findings()[name].grades] if name in row.finds else []
        if grades and grade not in grades:
            faults.append(Fault(name, f"{name} has no grade {grade}.", closest(grade, grades)))
    if not deed.found:
        one = findings()[row.finds[0]]
        grades = [grade.id for grade in one.grades]
        faults.append(Fault(one.id, f"{row.look}: what was seen?", f"Write {' or '.join(grades)}."))
    if faults:
        raise Faults(*faults)
    return ", ".join(deed.found.values())
