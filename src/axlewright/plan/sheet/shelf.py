"""The Shelf: each spare as it lies, what is written on it, what is known of its past, where it fits, what care it wants."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from axlewright.plan.kept import OLD, Kept, kept
from axlewright.plan.sheet.frame import Drawn, Number, Numbers
from axlewright.plan.warranty import warranties_told
from axlewright.quantities import NotRead, read_spread
from axlewright.sheets import Caution, Day, Figure, Go, Note, Run, Section, Sheet, Table, Text, TitleBlock, Values, text
from axlewright.sheets.blocks import Block, Column, Row
from axlewright.sheets.figures import empty, stored
from axlewright.sheets.figures.drive_side import Drive as Size
from axlewright.sheets.figures.machine import CORNERS
from axlewright.trade.findings import findings
from axlewright.trade.steps_read import steps
from axlewright.yard import Answer, Corner, Drive, Hours, Yard
from axlewright.yard.hours import spell

PLACES = ("left", "right")
HOUR = 3600.0
OWN = "its hours as they were written down, and its machines’ clocks since"
COUNT = {1: "One spare", 2: "Two spares", 3: "Three spares", 4: "Four spares"}
CAUTIONS = ("no-oil-tag", "forks-nobody", "fingers-joint")
DRAWN = 6  # spares that are drawn, those that want care first; the rest stand in a table
MOST = 60  # lines of that table
MARKS = 34  # letters of a line of what is written on it


def shelf_sheet(yard: Yard, today: date) -> Drawn:
    """The shelf today."""
    found, numbers = kept(yard, "shelf", today), Numbers()
    parts = [_spare(yard, one, today, numbers, PLACES[n % 2]) for n, one in enumerate(found[:DRAWN])]
    parts += [_rest(yard, found[DRAWN:], today)] if len(found) > DRAWN else []
    sheet = Sheet(
        name="shelf",
        head=text(Run(voice="strong", words=("Shelf",)), f" · {yard.title.name}, spare drives, ", Day(on=today)),
        answer=_answer(found, today),
        lead=text("A spare is worth what is known of it: its number, its hours, the day it was turned.")
        if found
        else (),
        sections=(*parts, *(_care() if found else _empty())),
        block=TitleBlock(title="Shelf", corner="spare drives", on=today, yard=yard.title.name),
    )
    return Drawn((sheet,), numbers.entries)


def _answer(found: Sequence[Kept], today: date) -> Text:
    if not found:
        return text("Nothing on the shelf.")
    many = COUNT.get(len(found), f"{len(found)} spares")
    late = [one for one in found if one.turn_by and one.turn_by <= today]
    if late:
        rest = f" and {len(late) - 1} more" if len(late) > 1 else ""
        return text(f"{many}. {late[0].drive.name[0].upper()}{late[0].drive.name[1:]}{rest}: ten turns are due.")
    next_ = next((one for one in found if one.turn_by), None)
    if next_ is None or next_.turn_by is None:
        return text(f"{many}. Nobody wrote since when it lies there.")
    return text(f"{many}. Ten turns are due by ", Day(on=next_.turn_by), f": {next_.drive.name}.")


def _spare(yard: Yard, one: Kept, today: date, numbers: Numbers, place: str) -> Section:
    size, to_scale = size_of(yard, one)
    scale = stored.scale_of(size)
    name = one.drive.name[0].upper() + one.drive.name[1:]
    says = f"{name} in its saddle on a pallet" + (
        f"; written on it: {', '.join(one.drive.numbers)}." if one.drive.numbers else "."
    )
    tag = "NO OIL" if "NO OIL" in one.drive.note.upper() else "FULL" if "FULL" in one.drive.note.upper() else ""
    drawing = stored.on_pallet(size, scale, says, text(tag) if tag else (), _marks(one.drive.numbers))
    return Section(
        heading=name,
        aside=f"1:{scale:g}" if to_scale else "not to scale: nobody taped it",
        place="right" if place == "right" else "left",
        blocks=(Figure(drawing=drawing), *told(yard, one, today, numbers), *_old(one, today)),
    )


def _rest(yard: Yard, found: Sequence[Kept], today: date) -> Section:
    """The spares that are not drawn, one a line."""
    columns = (
        Column(heading="drive", share=2.2),
        Column(heading="written on it", share=2),
        Column(heading="fits", share=2.4),
        Column(heading="ten turns by", share=1.4),
    )
    rows = tuple(
        Row(
            cells=(
                text(Go(words=one.drive.name, to=f"/drive/{one.drive.id}")),
                text(", ".join(one.drive.numbers)),
                _fits(yard, one),
                text(Run(voice="must", words=("now",)) if one.turn_by <= today else Day(on=one.turn_by))
                if one.turn_by
                else (),
            )
        )
        for one in found[:MOST]
    )
    more = (Note(words=text(f"And {len(found) - MOST} more: find one by any number written on it."), size="small"),)
    return Section(
        heading="The others",
        aside="those that want care first",
        place="wide",
        blocks=(Table(columns=columns, rows=rows), *(more if len(found) > MOST else ())),
    )


def _marks(written: Sequence[str]) -> tuple[Text, ...]:
    return tuple(text(one[:MARKS]) for one in written[:2])


def size_of(yard: Yard, one: Kept) -> tuple[Size, bool]:
    """The drive by its length and flange; and whether both were taped."""
    answers = yard.answered(design=one.design.id) if one.design else {}
    length, flange = (_metres(answers.get(f"drive/{name}")) for name in ("length", "flange"))
    usual = Size()
    return Size(flange=flange or usual.flange, length=length or usual.length), bool(length and flange)


def _metres(answer: Answer | None) -> float | None:
    if answer is None:
        return None
    try:
        return read_spread(answer.value, "length").middle()
    except NotRead:
        return None


def told(yard: Yard, one: Kept, today: date, numbers: Numbers) -> tuple[Block, ...]:
    """What is known of it, line by line; what nobody knows is said so."""
    rows: list[tuple[Text, Text]] = [
        (text("its own page"), text(Go(words=f"life of {one.drive.name}", to=f"/drive/{one.drive.id}"))),
        (text("written on it"), text(", ".join(one.drive.numbers) or "nothing: paint a number on it")),
        (text("kind"), text(one.design.name if one.design else "not said")),
        (text("its own hours"), hours_told(f"drive/{one.drive.id}/hours", one.hours, numbers)),
        (text("here since"), text(Day(on=one.since)) if one.since else text("nobody wrote it")),
        (text("fits"), _fits(yard, one)),
        (text("warranty"), warranty(yard, one.drive, today)),
        (text("seen of it"), _seen(one, today)),
    ]
    if one.turn_by:
        late = one.turn_by <= today
        day: Text = (Run(voice="must", words=("now, since ", Day(on=one.turn_by))),) if late else (Day(on=one.turn_by),)
        rows.append((text("ten turns by"), day))
    note: tuple[Block, ...] = (Note(words=text(one.drive.note), size="small", voice="soft"),) if one.drive.note else ()
    return (Values(rows=tuple(rows)), *note)


def warranty(yard: Yard, drive: Drive, today: date) -> Text:
    """What is left of the newest warranty on a drive."""
    found = warranties_told(yard, drive, today)
    if not found:
        return text("none written down")
    left = found[-1].left
    if left.state == "waits":
        return text("begins when it is fitted")
    until: Text = ("to ", Day(on=left.until)) if left.until else ()
    if left.state == "over":
        return text("over", *((", ", *until) if until else ()))
    if left.surely is None:
        return (
            text(*until, ", hours left not known" if until else "hours left not known")
            if left.warranty.hours
            else until
        )
    return text(*until, f"{', ' if until else ''}{spell(left.surely)} h left at the least")


def hours_told(name: str, hours: Hours | None, numbers: Numbers) -> Text:
    """Hours of a drive's own, by how much they may be off; a number of this name."""
    if hours is None:
        return text("not known")
    off = hours.about
    low, high = max(hours.hours - off, 0.0) * HOUR, (hours.hours + off) * HOUR
    number = Number(name, "duration", hours.hours * HOUR, "measured", OWN, low, high)
    shown = numbers.show(number, on_tool="h", digits=len(f"{round(hours.hours)}"))
    return (shown, f" ± {spell(off)}") if off else (shown,)


def _fits(yard: Yard, one: Kept) -> Text:
    if not one.fits:
        return text("nobody said; it stands in its kind’s file, or in the book")
    return text(places(yard, [corner for corner, _ in one.fits]))


def places(yard: Yard, corners: Sequence[Corner]) -> str:
    """Corners in words, machine by machine: `Wren, front left and front right`."""
    names = {machine.id: machine.name for machine in yard.machines}
    by_machine: dict[str, list[str]] = {}
    for corner in corners:
        by_machine.setdefault(corner.machine, []).append(CORNERS[corner.place])
    return "; ".join(f"{names.get(machine, machine)}, {' and '.join(at)}" for machine, at in by_machine.items())


def _seen(one: Kept, today: date) -> Text:
    if not one.seen:
        return text("not looked at since it came")
    last = one.seen[-1]
    words = findings()[last.finding].grade(last.grade)
    days = (today - last.on).days
    voice = words.seen if words.good else Run(voice="must", words=(words.seen,))
    return text(voice, ", today" if days == 0 else f", {days} days ago")


def _old(one: Kept, today: date) -> tuple[Block, ...]:
    if not one.is_old(today):
        return ()
    words = f"over {OLD // 365} years on the shelf. Look at lip and oil before it is fitted."
    return (Caution(lead="It lay long:", words=text(words)),)


def _care() -> tuple[Section, ...]:
    rows = steps()
    turn = rows.task["sh-quarter"]
    cautions = tuple(
        Caution(lead=one.lead, words=text(one.rest)) for name in CAUTIONS if (one := rows.caution.get(name)) is not None
    )
    return (
        Section(heading="How a spare is kept", aside="common practice", place="wide", blocks=(
            Note(words=text(f"{turn.title}. {turn.how}")),
            Note(words=text(f"{rows.task['sh-before'].title}. {rows.task['sh-before'].how}")),
        )),
        Section(heading="What must not be missed", place="wide", blocks=cautions),
    )  # fmt: skip


def _empty() -> tuple[Section, ...]:
    return (
        Section(
            heading="Shelf",
            aside="spare drives",
            blocks=(
                Figure(drawing=empty.shelf()),
                Note(
                    words=text("A drive gets here by a move: off a machine, from a seller, or off the bench."),
                    size="lead",
                ),
                Note(
                    words=text(
                        "Then it shows which corners it fits, what is known of its past, and when it wants its ten turns."
                    ),
                    size="small",
                    voice="soft",
                ),
            ),
        ),
    )
