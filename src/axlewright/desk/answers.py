"""Questions were answered: of a trouble, a machine, a design or the yard's gear; and the walk-round was made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Annotated

from pydantic import Field

from axlewright.desk.now import Blank, Deed, Now, checked, may, record
from axlewright.trade.questions import questions
from axlewright.yard import Answer, Basis, Change, Fault, Faults, Yard, closest
from axlewright.yard.asked import WALK_ROUND, answers_of, open_boxes
from axlewright.yard.records import Line

KEPT = "kept"
"""Typed in place of a value: what the yard knew before is still so."""


class Answers(Deed):
    """What was answered, by name, as typed. Of one thing, or, if none is named, of the yard's gear."""

    trouble: Annotated[int | None, Blank] = Field(None, ge=1, examples=[3])
    machine: Annotated[Line | None, Blank] = Field(None, examples=["bramble"])
    design: Annotated[Line | None, Blank] = Field(None, examples=["two-stage"])
    values: Mapping[str, Line]
    basis: Annotated[Basis | None, Blank] = Field(None, examples=["measured"])
    source: Line = Field("", examples=["service book, p. 40"])


@may("owner", "helper")
def answer(yard: Yard, deed: Answers, now: Now) -> Change:
    """Keep answers. One that says what is kept already, of the same day, is left out.

    Raises:
        Faults: no such thing or question; a value that cannot be read, or that nobody believes; all of them at once
    """
    if WALK_ROUND in deed.values:
        right = f"Tick its boxes: axlewright walk-round {deed.trouble or 'TROUBLE'}"
        raise Faults(Fault(WALK_ROUND, "The walk-round is done when every box has its answer.", right))
    return _answers(yard, deed, now)


def _answers(yard: Yard, deed: Answers, now: Now, *, seen: bool = False) -> Change:
    number = None if deed.trouble is None else yard.trouble(deed.trouble).number
    machine = yard.machine(deed.machine).id if deed.machine else None
    design = yard.design(deed.design).id if deed.design else None
    if not deed.values:
        raise Faults(Fault("values", "Nothing was answered.", "Write a name and its value: bolts/count=10"))
    given, before = deed.id or now.new_id(), yard.answered(trouble=number, machine=machine, design=design)
    at = now.after(a.at for a in before.values())
    about = {"trouble": number, "machine": machine, "design": design}
    fields = {**about, "on": deed.day(yard, now), "who": now.who, "at": at}
    new: list[Answer] = []
    faults: list[Fault] = []
    for name, value in deed.values.items():
        try:
            made = _answer(yard, deed, name, value, {**fields, "id": f"{given}-{name.replace('/', '.')}"}, seen=seen)
        except Faults as bad:
            faults += bad.faults
            continue
        old = before.get(name)
        if old is None or old.body() | {"id": made.id} != made.body():
            new.append(made)
    try:
        change = checked(yard, new, now)
    except Faults as bad:
        faults += bad.faults
    if faults:
        raise Faults(*faults)
    return change


def _answer(yard: Yard, deed: Answers, name: str, value: str, fields: Mapping[str, object], *, seen: bool) -> Answer:
    """One answer; *kept* takes over what holds for the trouble so far, with its basis and source.

    Raises:
        Faults: no such question; nothing is kept
    """
    asked = questions().get(name)
    if asked is None:
        raise Faults(Fault(name, f"There is no question {name}.", closest(name, questions())))
    basis, source = deed.basis or asked.basis, deed.source
    if asked.box and deed.trouble is not None and deed.basis is None and not seen:
        basis = "assumed"  # said at the table; only the walk-round sees
    if value == KEPT and deed.trouble is not None:
        known = answers_of(yard, yard.trouble(deed.trouble)).get(name)
        if known is None:
            raise Faults(Fault(name, "Nothing is kept of it yet.", f"Write {name}={asked.example}"))
        value, basis, source = known.value, known.basis, known.source
    try:
        return record(Answer, name=name, value=value, basis=basis, source=source, **fields)
    except Faults as bad:
        raise Faults(*(replace(fault, where=name) for fault in bad.faults)) from None


class WalkedRound(Deed):
    """What was seen at the walk-round, box by box."""

    trouble: int = Field(ge=1, examples=[3])
    values: Mapping[str, Line] = Field(default={})


@may("owner", "helper")
def walk_round(yard: Yard, deed: WalkedRound, now: Now) -> Change:
    """Keep what was seen at the walk-round. When no box is open any more, it is done, by whom and when.

    Raises:
        Faults: as `answer`; a question that is no part of the walk-round
    """
    trouble, asked = yard.trouble(deed.trouble), questions()
    strange = [name for name in deed.values if name in asked and not asked[name].belongs(WALK_ROUND)]
    if strange:
        raise Faults(*(_elsewhere(name, deed.trouble) for name in strange))
    given = deed.id or now.new_id()
    plain = {"id": given, "on": deed.on, "trouble": deed.trouble}
    seen = _answers(yard, Answers(**plain, values=deed.values), now, seen=True) if deed.values else Change()
    after = yard.with_(seen)
    if open_boxes(after, trouble) or (not seen and WALK_ROUND in yard.answered(trouble=deed.trouble)):
        return seen
    done = _answers(after, Answers(**plain, values={WALK_ROUND: "done"}), now, seen=True)
    return Change((*seen.records, *done.records))


def _elsewhere(name: str, trouble: int) -> Fault:
    if name == WALK_ROUND:
        return Fault(name, "The walk-round is done when every box has its answer.", "Tick the boxes that are open.")
    right = f"Write it so: axlewright draw-up {trouble} {name}={questions()[name].example}"
    return Fault(name, f"{name} is no box of the walk-round.", right)
