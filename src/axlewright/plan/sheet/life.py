"""The life of a drive by its own hours, and of a machine by its clock: where, what was seen, what went wrong."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from axlewright.plan.change_over import to_see
from axlewright.plan.sheet.frame import Drawn, Numbers
from axlewright.plan.sheet.samples import samples
from axlewright.plan.sheet.shelf import hours_told, places, warranty
from axlewright.plan.warranty import warranties_told
from axlewright.sheets import (
    Block,
    Day,
    Figure,
    Go,
    Note,
    Numbered,
    Run,
    Section,
    Sheet,
    Table,
    Text,
    TitleBlock,
    Values,
    text,
)
from axlewright.sheets.blocks import Column, Item, Row
from axlewright.sheets.figures import life
from axlewright.sheets.figures.life import Lane, Mark
from axlewright.sheets.figures.life import Stay as Bar
from axlewright.sheets.figures.machine import CORNERS
from axlewright.trade.findings import findings
from axlewright.trade.questions import question
from axlewright.yard import Corner, Drive, Finding, Hours, Machine, Stay, Trouble, Yard
from axlewright.yard.hours import spell

MOST_MARKS, MOST_SEEN = 8, 40  # leaders on the rule; looks in the table, the newest
LEADER = 28  # letters beside a leader


# a drive
def drive_life(yard: Yard, drive: Drive, today: date) -> Drawn:
    """A drive's life."""
    numbers, seen = Numbers(), seen_of(yard, drive)
    own = yard.drive_hours(drive, today)
    name = _named(drive.name)
    sheet = Sheet(
        name="life",
        head=text(Run(voice="strong", words=(name,)), " · a drive’s life, ", Day(on=today)),
        answer=text(f"{name}: {_where(yard, drive)}", *_ran(own, numbers), "."),
        sections=(
            *_drive_rule(yard, drive, seen, own, today),
            Section(heading="What is known of it", blocks=_known(yard, drive, today), place="right"),
            Section(heading="Where it sat", aside="by its moves", blocks=(_stays(yard, drive, numbers),), place="wide"),
            *_changed_over(yard, drive),
            _troubles(troubles_of(yard, drive), yard),
            _seen(seen, today),
            *samples(yard, drive),
        ),
        block=TitleBlock(title="Life of a drive", corner=name, on=today, yard=yard.title.name),
    )
    return Drawn((sheet,), numbers.entries)


def _named(name: str) -> str:
    return name[0].upper() + name[1:]


def _where(yard: Yard, drive: Drive) -> str:
    if isinstance(drive.sits, Corner):
        return f"at {places(yard, [drive.sits])}"
    return {"shelf": "on the shelf", "bench": "on the bench", "away": "away"}[drive.sits]


def _ran(own: Hours | None, numbers: Numbers) -> Text:
    if own is None:
        return (", its own hours not known",)
    return (", ", *hours_told("life/hours", own, numbers), " of its own")


def seen_of(yard: Yard, drive: Drive) -> tuple[Finding, ...]:
    """What was seen of a drive, wherever it sat, by day: under its own name, or at its corner while it sat there."""
    lived = yard.lives[drive.id]
    return tuple(
        one
        for one in yard.standing
        if one.drive == drive.id
        or (one.drive is None and any(stay.sits == one.corner and stay.covers(one.on) for stay in lived))
    )


def troubles_of(yard: Yard, drive: Drive) -> tuple[Trouble, ...]:
    """The troubles that a drive was in: those opened on it, and those whose job moved it."""
    moved = {stay.move.trouble for stay in yard.lives[drive.id] if stay.move}
    return tuple(one for one in yard.troubles if one.drive == drive.id or one.number in moved)


def _drive_rule(
    yard: Yard, drive: Drive, seen: Sequence[Finding], own: Hours | None, today: date
) -> tuple[Section, ...]:
    """Its stays and what spoke against it, on a rule of its own hours; none where nobody knows those."""
    if own is None:
        words = "Nobody wrote down what it had run. Move it with its hours once, and they are counted from there."
        return (Section(heading="By its own hours", blocks=(Note(words=text(words)),), place="wide"),)
    lived = yard.lives[drive.id]
    bars = []
    for stay, after in zip(lived, (*lived[1:], None), strict=True):
        end = own if after is None else after.hours
        if isinstance(stay.sits, Corner) and stay.hours and end:
            bars.append(Bar(stay.hours.hours, end.hours, text(places(yard, [stay.sits]))))
    first = lived[0].hours
    if first and first.hours > 0:
        bars.insert(0, Bar(0.0, first.hours, text("before it was here"), known=False))
    marks = []
    for one in [f for f in seen if _bad(f)][-MOST_MARKS:]:
        at = yard.drive_hours(drive, one.on)
        if at:
            marks.append(Mark(at.hours, text(_short(_seen_words(one))), must=True))
    drawing = life.rule((Lane(tuple(bars)),), marks, own.hours, text(f"{spell(round(own.hours))} now"))
    return (Section(heading="By its own hours", aside="h, from new", blocks=(Figure(drawing=drawing),)),)


def _bad(found: Finding) -> bool:
    return not findings()[found.finding].grade(found.grade).good


def _seen_words(found: Finding) -> str:
    return findings()[found.finding].grade(found.grade).seen


def _short(words: str) -> str:
    """As much as stands beside a leader."""
    return words if len(words) <= LEADER else words[: LEADER - 1].rstrip() + "…"


def _stays(yard: Yard, drive: Drive, numbers: Numbers) -> Block:
    rows = []
    for n, stay in enumerate(yard.lives[drive.id]):
        rows.append(
            Row(
                cells=(
                    text(_place(yard, stay)),
                    (
                        *((Day(on=stay.since),) if stay.since else ()),
                        " to ",
                        Day(on=stay.until) if stay.until else "now",
                    ),
                    hours_told(f"life/stay-{n + 1}", stay.hours, numbers),
                    text(stay.move.over or stay.move.note) if stay.move else (),
                )
            )
        )
    columns = (
        Column(heading="where", share=2.4),
        Column(heading="when", share=2.2),
        Column(heading="came with", share=1.6),
        Column(heading="changed over", share=2.4),
    )
    return Table(columns=columns, rows=tuple(rows))


def _place(yard: Yard, stay: Stay) -> str:
    return places(yard, [stay.sits]) if isinstance(stay.sits, Corner) else str(stay.sits)


def _known(yard: Yard, drive: Drive, today: date) -> tuple[Block, ...]:
    design = next((one for one in yard.designs if one.id == drive.design), None)
    rows = [
        (text("written on it"), text(", ".join(drive.numbers) or "nothing: paint a number on it")),
        (text("kind"), text(design.name if design else "not said")),
        (text("fits"), text(places(yard, design.fits) if design and design.fits else "nobody said")),
        (text("warranty"), warranty(yard, drive, today)),
    ]
    missing = [words for one in warranties_told(yard, drive, today)[-1:] for words in one.missing]
    notes = [*([drive.note] if drive.note else []), *missing]
    return (Values(rows=tuple(rows)), *(Note(words=text(one), size="small", voice="soft") for one in notes))


def _changed_over(yard: Yard, drive: Drive) -> tuple[Section, ...]:
    """What is changed over or looked at before a drive that sits at no machine sits right at one that it fits."""
    design = next((one for one in yard.designs if one.id == drive.design), None)
    if isinstance(drive.sits, Corner) or design is None or not design.fits:
        return ()
    by_words: dict[tuple[str, ...], list[Corner]] = {}
    for corner in design.fits:
        words = tuple(
            one.words + (f" ({question(one.asks).asks})" if one.asks else "") for one in to_see(yard, drive, corner)
        )
        by_words.setdefault(words, []).append(corner)
    blocks: list[Block] = []
    for said, corners in by_words.items():
        blocks.append(Note(words=text(Run(voice="strong", words=(f"At {places(yard, corners)}:",)))))
        blocks.append(Numbered(items=tuple(Item(number="", lead="", words=text(one)) for one in said)))
    return (
        Section(heading="Before it is fitted", aside="changed over, looked at", blocks=tuple(blocks), place="right"),
    )


def _troubles(found: Sequence[Trouble], yard: Yard) -> Section:
    rows = tuple(
        Row(
            cells=(
                text(Go(words=f"trouble {one.number}", to=f"/trouble/{one.number}")),
                (Day(on=one.opened),),
                text(yard.course(one.number) or "no course yet"),
                text(yard.stage(one.number)),
            )
        )
        for one in reversed(found)
    )
    columns = (
        Column(heading="trouble", share=1.2),
        Column(heading="from", share=1.2),
        Column(heading="course", share=1.8),
        Column(heading="stage", share=1.2),
    )
    block: Block = Table(columns=columns, rows=rows) if rows else Note(words=text("No trouble was ever written down."))
    return Section(heading="Troubles", aside="the newest first", blocks=(block,), place="right")


def _seen(seen: Sequence[Finding], today: date) -> Section:
    rows = tuple(
        Row(
            cells=(
                (Day(on=one.on),),
                text(Run(voice="must", words=(_seen_words(one),)) if _bad(one) else _seen_words(one)),
                text(f"{spell(one.hours)} h, {one.clock}" if one.hours is not None else ""),
                text(one.who),
            )
        )
        for one in reversed(seen[-MOST_SEEN:])
    )
    columns = (
        Column(heading="day", share=1.2),
        Column(heading="what it showed", share=3),
        Column(heading="clock", share=1.6),
        Column(heading="who", share=1),
    )
    words = "Nobody has looked at it. That calls it nothing, least of all sound."
    block: Block = Table(columns=columns, rows=rows) if rows else Note(words=text(words))
    more = len(seen) - MOST_SEEN
    note = (Note(words=text(f"And {more} older looks."), size="small"),) if more > 0 else ()
    return Section(heading="What was seen", aside="the newest first", blocks=(block, *note), place="wide")


# a machine
def machine_life(yard: Yard, machine: Machine, today: date) -> Drawn:
    """A machine's life: which drives its corners had, by its engine clock, and its troubles."""
    numbers = Numbers()
    stood = yard.hours(machine.id, today)
    troubles = [one for one in yard.troubles if one.corner.machine == machine.id]
    clock = f": {stood}" if stood else ": nobody has read its clock"
    kind = (machine.kind or "").replace("-", " ")
    sheet = Sheet(
        name="life",
        head=text(Run(voice="strong", words=(machine.name,)), " · a machine’s life, ", Day(on=today)),
        answer=text(f"{', '.join(filter(None, (machine.name, kind)))}{clock}."),
        lead=text(Go(words="Ready card", to=f"/machine/{machine.id}/ready-card"), " to fill in winter, and to hang in the cab."),
        sections=(
            *_machine_rule(yard, machine, troubles, today),
            _years(yard, machine, numbers, today),
            _troubles(troubles, yard),
            _sits(yard, machine),
        ),
        block=TitleBlock(title="Life of a machine", corner=machine.name, on=today, yard=yard.title.name),
    )  # fmt: skip
    return Drawn((sheet,), numbers.entries)


def _machine_rule(yard: Yard, machine: Machine, troubles: Sequence[Trouble], today: date) -> tuple[Section, ...]:
    log = yard.clock_log(machine.id)
    now = log.count(today)
    if now is None:
        words = "Type a clock once: from then on what it ran is known."
        return (Section(heading="By its engine clock", blocks=(Note(words=text(words)),), place="wide"),)
    names = {one.id: one.name for one in yard.drives}
    begin = min((hours.hours for _, hours in log.counted["engine"]), default=0.0)
    lanes = []
    for corner in machine.at_corners():
        bars = []
        for stay in sorted(
            (s for lived in yard.lives.values() for s in lived if s.sits == corner), key=lambda s: s.since or date.min
        ):
            start, end = log.count(stay.since) if stay.since else None, log.count(stay.until) if stay.until else now
            if end is not None:
                first = begin if start is None else start.hours
                bars.append(Bar(first, end.hours, text(names[stay.drive]), known=start is not None))
        lanes.append(Lane(tuple(bars), CORNERS[corner.place]))
    marks = []
    for one in troubles[-MOST_MARKS:]:
        at = log.count(one.opened)
        if at:
            marks.append(Mark(at.hours, text(f"trouble {one.number}, {CORNERS[one.corner.place]}"), must=False))
    drawing = life.rule(lanes, marks, now.hours, text(f"{spell(round(now.hours))} now"))
    return (Section(heading="By its engine clock", aside="h, counted on", blocks=(Figure(drawing=drawing),)),)


def _years(yard: Yard, machine: Machine, numbers: Numbers, today: date) -> Section:
    """What it ran in each year, as far as its clocks were read."""
    log = yard.clock_log(machine.id)
    days = [day for day, _ in log.counted["engine"]] + [day for day, _ in log.counted["threshing"]]
    rows = []
    for year in range(today.year, min((day.year for day in days), default=today.year) - 1, -1):
        ran = log.ran(max(date(year, 1, 1), min(days, default=today)), min(date(year + 1, 1, 1), today))
        if ran is not None:
            rows.append(Row(cells=(text(str(year)), hours_told(f"life/{machine.id}/{year}", ran, numbers))))
    columns = (Column(heading="year", share=1), Column(heading="engine hours run", share=2, to="right"))
    block: Block = Table(columns=columns, rows=tuple(rows)) if rows else Note(words=text("Its clock was never read."))
    return Section(heading="Year by year", aside="as far as its clocks were read", blocks=(block,))


def _sits(yard: Yard, machine: Machine) -> Section:
    rows = []
    for corner in machine.at_corners():
        drive = yard.drive_at(corner)
        words: Text = text(Go(words=drive.name, to=f"/drive/{drive.id}")) if drive else text("nobody wrote which")
        rows.append((text(CORNERS[corner.place]), words))
    return Section(heading="What sits there now", blocks=(Values(rows=tuple(rows)),), place="right")
