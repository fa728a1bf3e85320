"""The Season room as a sheet: windows of crops on a rule of days, what each machine still has to cut, what a lost day costs."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from axlewright.plan.season_of import CropAhead, MachineAhead, NotReckoned, crops_ahead, machine_ahead, season_of
from axlewright.plan.sheet.frame import Drawn, Numbers
from axlewright.plan.sheet.season_numbers import Told
from axlewright.sheets import Day, Figure, Go, Note, Run, Section, Sheet, Table, Text, TitleBlock, text
from axlewright.sheets.blocks import Column, Row
from axlewright.sheets.figures import empty, season
from axlewright.trade.seasons import Climate
from axlewright.yard import Yard

MOST_BARS = 10  # crops on the rule of days
ALL, FEW = 6, 3  # machines with a curve: all of them, or the dearest where there are more; the rest stand in a table
MOST = 48  # lines of that table
PLACES = ("left", "right")
WHOLE = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")

Ahead = MachineAhead | NotReckoned


def season_sheet(yard: Yard, today: date, first: str = "") -> Drawn:
    """The season today; `first`: the machine that is drawn first, whatever a lost day costs it."""
    numbers = Numbers()
    found = season_of(yard, today)
    found = tuple(sorted(found, key=lambda one: one.machine.id != first)) if first else found
    told = Told(yard, today, numbers)
    sections = _sections(yard, found, told, today) if found else _empty(yard, today)
    years = sorted({crop.season.id for one in found for crop in one.crops})
    sheet = Sheet(
        name="season",
        head=text(Run(voice="strong", words=("Season",)), f" · {yard.title.name}, {', '.join(years)}{', ' if years else ''}", Day(on=today)),
        answer=_answer(yard, found, told, today),
        lead=_lead(found),
        sections=sections,
        block=TitleBlock(title="Season", corner="all machines", on=today, yard=yard.title.name),
    )  # fmt: skip
    return Drawn((sheet,), numbers.entries)


def reckoned(found: Sequence[Ahead]) -> list[MachineAhead]:
    return [one for one in found if isinstance(one, MachineAhead)]


def _answer(yard: Yard, found: Sequence[Ahead], told: Told, today: date) -> Text:
    if not yard.machines:
        return text("No machine in this yard yet: nothing to cut with.")
    if not found:
        over = any(work.ends < today for work in yard.works)
        return text("Nothing left to cut." if over else "Nobody wrote down yet what is to be cut.")
    ready = reckoned(found)
    if not ready:
        return text(f"{found[0].machine.name} cannot be reckoned: a number is missing or out of range.")
    dearest = max(ready, key=lambda one: one.next_day.middle)
    now = [one for one in ready if one.begins == today and one is not dearest and one.next_day.middle > 0]
    when: Text = ("now",) if dearest.begins == today else ("from ", Day(on=dearest.begins), " on")
    said = text(dearest.machine.name, " ", told.lost(dearest, ends=False), " ", *when, ".")
    if not now:
        return text("A lost day costs ", *said)
    first = max(now, key=lambda one: one.next_day.middle)
    return text(f"A lost day costs {first.machine.name} ", told.lost(first, ends=False), " now, and ", *said)


def _lead(found: Sequence[Ahead]) -> Text:
    ready = reckoned(found)
    last = [one.finish[1] for one in ready]
    if not ready:
        return ()
    if None in last:
        late = next(one for one in ready if one.finish[1] is None)
        return text(f"{late.machine.name} is not through by ", Day(on=late.ends), ", every second season.")
    low = max(one.finish[0] or one.ends for one in ready)
    ends = max((one for one in ready), key=lambda one: one.finish[1] or one.ends)
    assert ends.finish[1] is not None
    high: Text = (Day(on=ends.finish[2]),) if ends.finish[2] else ("not by its end",)
    return text("If nothing stops it, the last crop is off about ", Day(on=ends.finish[1]), " (", Day(on=min(low, ends.finish[1])), " to ", *high, ").")  # fmt: skip


def _sections(yard: Yard, found: Sequence[Ahead], told: Told, today: date) -> tuple[Section, ...]:
    many = ALL if len(found) <= ALL else FEW
    whole = [machine_ahead(yard, one.machine, today) for one in found[:many]]
    drawn = [_machine(one, told, PLACES[n % 2]) for n, one in enumerate(whole, 1) if one]
    rest = found[many:]
    return (
        _calendar(yard, found, told, today),
        *drawn,
        *((_rest(rest, told),) if rest else ()),
        _weather(reckoned(found), told),
    )


# --- the rule of days
def _calendar(yard: Yard, found: Sequence[Ahead], told: Told, today: date) -> Section:
    bars = [(one, crop) for one in found for crop in one.crops]
    done = [crop for machine in yard.machines for crop in crops_ahead(yard, machine, today) if crop.off]
    bars.sort(key=lambda pair: (pair[1].work.starts, pair[0].machine.id))
    shown = [_bar(one, crop, told, today) for one, crop in bars[:MOST_BARS]]
    blocks = [Figure(drawing=season.calendar(shown, today), twin=tuple(_twin(one, crop, told) for one, crop in bars[:MOST_BARS]))]  # fmt: skip
    words = "Bar: the crop’s window. Heavy line: the work, to the middle season’s last day; hatched: one season in ten is off sooner, one in ten later."  # fmt: skip
    more: list[Note] = [Note(words=text(words), size="small", voice="soft")]
    if len(bars) > MOST_BARS:
        more.append(Note(words=text(f"And {len(bars) - MOST_BARS} more, later ones: they stand below."), size="small"))
    if done:
        off = ", ".join(f"{yard.machine(one.work.machine).name}’s {one.row.label}" for one in done[:ALL])
        more.append(Note(words=text(f"Off already: {off}."), size="small"))
    return Section(heading="Work ahead", aside=_first(bars, today), blocks=(*blocks, *more))


def _first(bars: Sequence[tuple[Ahead, CropAhead]], today: date) -> str:
    begins = min(crop.work.starts for _, crop in bars)
    days = (begins - today).days
    return f"days left to the first: {days}" if days > 0 else "the first is ripe"


def _bar(one: Ahead, crop: CropAhead, told: Told, today: date) -> season.Bar:
    """A crop on the rule; of several crops of one machine only the last carries the day it is off."""
    finish = one.finish if isinstance(one, MachineAhead) and crop is one.crops[-1] else None
    ends = crop.work.ends
    name = text(Run(voice="strong", words=(one.machine.name,)), " ", told.area(crop), f" {crop.row.label}")
    if isinstance(one, NotReckoned):
        note = text(Run(voice="must", words=("not reckoned",)))
    elif finish is None:
        note = text("to ", Day(on=ends))
    else:
        note = text("off ", Day(on=finish[1])) if finish[1] else text(Run(voice="must", words=("not through",)))
    words = f"{one.machine.name}, {crop.row.label}, {crop.work.starts:%d %b} to {ends:%d %b}"
    works = max(today, crop.work.starts)
    return season.Bar(name, note, crop.work.starts, ends, works, finish or (works, works, works), words)


def _twin(one: Ahead, crop: CropAhead, told: Told) -> Text:
    window = text(f"{one.machine.name}, ", told.area(crop), f" {crop.row.label}: ", Day(on=crop.work.starts), " to ", Day(on=crop.work.ends))  # fmt: skip
    if isinstance(one, NotReckoned):
        return (*window, ".")
    return (*window, ", all off about ", *told.finish(one), ".")


# --- machine by machine
def _machine(one: Ahead, told: Told, place: str) -> Section:
    if isinstance(one, NotReckoned):
        said = Note(words=text(f"Cannot be reckoned: {one.because}."), voice="must")
        return Section(heading=one.machine.name, aside="not reckoned", blocks=(said,))
    curve = season.Lost(
        tuple(day.on for day in one.days),
        tuple(day.low for day in one.days),
        tuple(day.middle for day in one.days),
        tuple(day.high for day in one.days),
    )
    hired = (one.hired[1], text("hired for a day ", told.hired(one))) if one.hired else None
    drawing = season.lost_days(curve, one.finish, text(told.lost(one, ends=False)), hired)
    figure = Figure(drawing=drawing, twin=told.days(one))
    return Section(
        heading=one.machine.name,
        aside=f"{told.yard.title.currency}, cost of a lost day by its date",
        place="right" if place == "right" else "left",
        blocks=(figure, *told.values(one)),
    )


def _rest(found: Sequence[Ahead], told: Told) -> Section:
    """The machines that are not drawn, one a line."""
    columns = (
        Column(heading="machine", share=1.5),
        Column(heading="to cut", share=2.2),
        Column(heading="runs", to="right", share=1.0),
        Column(heading="off about", to="right", share=1.2),
        Column(heading="a lost day", to="right", share=1.3),
    )
    rows = tuple(
        Row(
            cells=(
                text(Go(words=one.machine.name, to=f"/season?machine={one.machine.id}")),
                text(", ".join(crop.row.label for crop in one.crops)),
                told.hours(one.crops),
                _off(one),
                text(told.lost(one, ends=False)) if isinstance(one, MachineAhead) else text("not reckoned"),
            )
        )
        for one in found[:MOST]
    )
    note = (Note(words=text(f"And {len(found) - MOST} more."), size="small"),) if len(found) > MOST else ()
    return Section(heading="The others", aside="dearest lost day first", place="wide", blocks=(Table(columns=columns, rows=rows), *note))  # fmt: skip


def _off(one: Ahead) -> Text:
    if isinstance(one, MachineAhead) and one.finish[1]:
        return text(Day(on=one.finish[1]))
    return text(Run(voice="must", words=("not through",)))


# --- weather, and how it is read
def _weather(found: Sequence[MachineAhead], told: Told) -> Section:
    rows: dict[str, Climate] = {one.climate.id: one.climate for one in found}
    notes = [note for row in rows.values() for note in told.climate(row)]
    read = "A lost day: one on which the machine could have cut and stands; next morning it goes on. Line: the middle season. Band: one season in ten costs less, one in ten more."  # fmt: skip
    why = "What waits past its best loses worth, each day more than the last; what stands at its end is lost whole. A day lost early makes everything wait."  # fmt: skip
    return Section(
        heading="The weather, and how to read it",
        aside="odds of a workable day",
        blocks=(*notes, Note(words=text(read), size="small", voice="soft"), Note(words=text(why), size="small", voice="soft")),
    )  # fmt: skip


def _empty(yard: Yard, today: date) -> tuple[Section, ...]:
    if not yard.machines:
        return (
            Section(
                heading="Season",
                aside="machines first",
                blocks=(
                    Figure(drawing=empty.yard()),
                    Note(words=text("A machine gets here by its first look: ", Go(words="look at a corner", to="/"), "."), size="lead"),
                ),
            ),
        )  # fmt: skip
    return (
        Section(
            heading="Season",
            aside="nothing to cut written down",
            blocks=(
                Figure(drawing=season.empty(today)),
                Note(words=text("A crop gets here by three things: which machine cuts it, how much, from when to when."), size="lead"),
                Note(
                    words=text("Then it shows when the last of it is off, on how many days it can be cut, and what a lost day costs by its date. Until then no trouble has a date to decide by."),
                    size="small",
                    voice="soft",
                ),
            ),
        ),
    )  # fmt: skip
