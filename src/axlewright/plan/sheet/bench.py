"""The Bench: drives being rebuilt. What brought each here, what is measured on it against which limit, how long it takes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from axlewright.plan.judge import least_word
from axlewright.plan.kept import Kept, kept
from axlewright.plan.sheet.frame import Drawn, Number, Numbers
from axlewright.plan.sheet.shelf import told
from axlewright.sheets import (
    Caution,
    Day,
    Figure,
    Go,
    Lines,
    Note,
    Run,
    Section,
    Sheet,
    Table,
    Text,
    TitleBlock,
    text,
)
from axlewright.sheets.blocks import Block, Column, Line, Row
from axlewright.sheets.figures import condition, empty
from axlewright.trade.findings import findings
from axlewright.trade.steps import Task
from axlewright.trade.steps_read import steps
from axlewright.yard import Yard

DEPTHS = {"seal": "lip and rings", "bearings": "all bearings and seals, shims set", "gears": "the train too"}
"""How deep a rebuild goes, as the rows of the bench have it."""
MOST_SHOWN = 8  # drives with their lines to write on
CAUTIONS = ("cradle-fast", "keep-chips", "brake-cleaner")
SOURCE = "minutes of each step of the bench, one after the other; docs/engines/steps.md: common practice, no source"


def bench_sheet(yard: Yard, today: date) -> Drawn:
    """The bench today."""
    found, numbers = kept(yard, "bench", today), Numbers()
    sections = [part for one in found[:MOST_SHOWN] for part in _drive(yard, one, today, numbers)]
    sections += _others(found[MOST_SHOWN:])
    sheet = Sheet(
        name="bench",
        head=text(
            Run(voice="strong", words=("Bench",)), f" · {yard.title.name}, drives being rebuilt, ", Day(on=today)
        ),
        answer=_answer(found),
        lead=text("Measure as found before anything is taken apart: those numbers cannot be had later.")
        if found
        else (),
        sections=(*sections, *(_rebuild(numbers) if found else _empty())),
        block=TitleBlock(title="Bench", corner="drives being rebuilt", on=today, yard=yard.title.name),
    )
    return Drawn((sheet,), numbers.entries)


def _others(found: Sequence[Kept]) -> list[Section]:
    """The drives of a full bench that have no room of their own on the sheet: each by its page."""
    if not found:
        return []
    names = [part for one in found for part in (Go(words=one.drive.name, to=f"/drive/{one.drive.id}"), ", ")][:-1]
    aside = f"{len(found)} more, each by its own page"
    return [Section(heading="Beside them on the bench", aside=aside, place="wide", blocks=(Note(words=tuple(names)),))]


def _answer(found: Sequence[Kept]) -> Text:
    if not found:
        return text("Nothing on the bench.")
    first = found[0]
    more = f" {len(found) - 1} more beside it." if len(found) > 1 else ""
    name = first.drive.name[0].upper() + first.drive.name[1:]
    if not first.bad:
        return text(f"{name} lies here; nobody wrote why.{more}")
    last = first.bad[-1]
    return text(f"{name}: {findings()[last.finding].grade(last.grade).seen}.{more}")


def _drive(yard: Yard, one: Kept, today: date, numbers: Numbers) -> tuple[Section, ...]:
    name = one.drive.name[0].upper() + one.drive.name[1:]
    came = _came_from(yard, one)
    least = least_word((f.finding, f.grade) for f in one.seen)
    state: condition.State = "not looked at" if least == "sound" else least  # what lies here is never called sound
    seen: Block = (
        Table(
            columns=(Column(heading="look", share=1.4), Column(heading="what it showed", share=3), Column(heading="day", share=1.2)),
            rows=tuple(
                Row(cells=(text(findings()[f.finding].name), text(findings()[f.finding].grade(f.grade).seen), (Day(on=f.on),)))
                for f in one.seen
            ),
        )
        if one.seen
        else Note(words=text("Nobody wrote what was seen of it."))
    )  # fmt: skip
    return (
        Section(
            heading=name,
            aside="as it came",
            blocks=(Figure(drawing=condition.drive(state)), *came, *told(yard, one, today, numbers)),
        ),
        Section(heading="Why it came off", aside="by its findings", place="right", blocks=(seen,)),
        Section(
            heading="As found",
            aside="measured before it is opened",
            place="right",
            blocks=(_lines(lambda task: task.id == "bn-found"),),
        ),
        Section(
            heading="As set",
            aside="with its limit, and by what it was measured",
            place="right",
            blocks=(_lines(lambda task: task.id != "bn-found"),),
        ),
    )


def _came_from(yard: Yard, one: Kept) -> tuple[Block, ...]:
    """The trouble that it came off with."""
    number = next((t.number for t in reversed(yard.troubles) if t.drive == one.drive.id), None)
    if number is None:
        return ()
    return (Note(words=text("It came off with ", Go(words=f"trouble {number}", to=f"/trouble/{number}"), ".")),)


def _lines(of: Callable[[Task], bool]) -> Lines:
    rows = [
        Line(label=reading.quantity, unit="" if reading.unit == "class" else reading.unit)
        for task in steps().network["bench"].tasks
        if of(task)
        for reading in task.readings
    ]
    return Lines(lines=tuple(rows), stacked=True)


def minutes(depth: str) -> tuple[float, float, float]:
    """Low, likely and high minutes of a rebuild so deep, its steps one after the other."""
    tasks = [task for task in steps().network["bench"].tasks if depth in task.scope]
    return (
        sum(task.minutes.low for task in tasks),
        sum(task.minutes.likely for task in tasks),
        sum(task.minutes.high for task in tasks),
    )


def _rebuild(numbers: Numbers) -> tuple[Section, ...]:
    rows = []
    for depth, words in DEPTHS.items():
        low, likely, high = (one * 60.0 for one in minutes(depth))
        number = Number(f"bench/{depth}/hours", "duration", likely, "computed", SOURCE, low, high, "h", 2)
        many = len([task for task in steps().network["bench"].tasks if depth in task.scope])
        rows.append(Row(cells=(text(depth), text(words), text(str(many)), text(numbers.show(number, ends=True)))))
    columns = (
        Column(heading="how deep", share=1.2),
        Column(heading="what is new", share=3),
        Column(heading="steps", share=0.8, to="right"),
        Column(heading="hours of work", share=2.2, to="right"),
    )
    cautions = tuple(
        Caution(lead=one.lead, words=text(one.rest))
        for name in CAUTIONS
        if (one := steps().caution.get(name)) is not None
    )
    return (
        Section(heading="How deep it is opened", aside="from all low to all high", place="wide", blocks=(Table(columns=columns, rows=tuple(rows)),)),
        Section(heading="What must not be missed", place="wide", blocks=cautions),
    )  # fmt: skip


def _empty() -> tuple[Section, ...]:
    words = "A drive gets here by a move, off a machine or off the shelf. Then what brought it here stands beside it, and the lines for what is measured."
    return (
        Section(
            heading="Bench",
            aside="drives being rebuilt",
            blocks=(Figure(drawing=empty.bench()), Note(words=text(words), size="lead")),
        ),
    )
