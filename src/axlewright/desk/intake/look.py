"""A file is looked through: what it is, what would come of it, what is wrong line by line. Taking it in keeps just that."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from axlewright.desk.intake import columns, csv_table, telematics
from axlewright.desk.intake.cells import NotRead
from axlewright.desk.intake.csv_table import DELIMITERS
from axlewright.desk.intake.found import NOTHING, Comes, Found, TakeIn, Wrong
from axlewright.desk.intake.hours import hours_rows
from axlewright.desk.intake.machines import machine_rows, word_of
from axlewright.desk.intake.oil_samples import sample_rows, told_of
from axlewright.desk.intake.rain import known_days, rain_rows, years_of
from axlewright.desk.intake.sheet import BadCell, Line, Sheet, sheet_of
from axlewright.desk.intake.who import Names
from axlewright.desk.now import Now, may
from axlewright.yard import Change, ClockReading, Machine, Record, Yard, mistakes, spell

TRIES = 25  # each leaves out more lines, until what is left agrees
NEW_CLOCK = " If a new clock was fitted, write new_clock = true."

Rows = Iterable[tuple[Line, Sequence[Any] | NotRead]]


@dataclass
class Gathered:
    """What the lines of a file bring, before it is held against the yard."""

    records: dict[int, list[Record]] = field(default_factory=dict)
    comes: list[Comes] = field(default_factory=list)
    wrong: list[Wrong] = field(default_factory=list)
    already: int = 0


@may("owner")
def take_in(yard: Yard, deed: TakeIn, now: Now, data: bytes) -> Change:
    """Keep what a file says, whole, or not at all; with `leave_out` its good lines alone.

    Raises:
        Faults: what is wrong with it, line by line, or what must be said first
    """
    return taken(look_through(yard, deed, now, data))


def taken(found: Found) -> Change:
    """The change of a file that was looked through.

    Raises:
        Faults: what stands against it
    """
    refused = found.refused()
    if refused:
        raise refused
    return found.change


def look_through(yard: Yard, deed: TakeIn, now: Now, data: bytes) -> Found:
    """What would come of a file; nothing is kept.

    Raises:
        Faults: it is none that can be read at all
    """
    if telematics.is_one(deed.name, data):
        return heard_of(yard, deed, now, telematics.read(data))
    table = csv_table.read(data, columns.is_known)
    known = columns.recognised(table, deed)
    sheet, asks, told = sheet_of(table, known, deed)
    found = Found(deed.name, known.table, told, asks=(*known.asks, *asks))
    if found.asks:
        return found
    fitting, wide = _too_wide(sheet)
    gathered = _gathered(yard, fitting, deed, now)
    gathered.wrong += wide
    return settled(yard, deed, now, found, gathered)


def _too_wide(sheet: Sheet) -> tuple[Sheet, list[Wrong]]:
    """The lines that fit under the headers, and what is wrong with the others: 1,5 between commas is two cells."""
    headers = list(sheet.table.headers)
    while headers and not headers[-1]:
        headers.pop()
    good, wrong = [], []
    for row in sheet.table.rows:
        if any(cell.strip() for cell in row.cells[len(headers) :]):
            what = f"It has {len(row.cells)} cells under {len(headers)} headers."
            right = (
                f"A {DELIMITERS[sheet.table.delimiter]} inside a cell needs quotes around it, or save with semicolons."
            )
            wrong.append(Wrong(row.number, "", what, right))
        else:
            good.append(row)
    return (replace(sheet, table=replace(sheet.table, rows=tuple(good))) if wrong else sheet), wrong


def _gathered(yard: Yard, sheet: Sheet, deed: TakeIn, now: Now) -> Gathered:
    names = Names(yard)
    match sheet.columns.table:
        case "hours":
            return readings_gathered(yard, *_parted(hours_rows(sheet, names, deed, now)))
        case "machines":
            return _machines(yard, machine_rows(sheet, yard, now))
        case "oil":
            return _samples(yard, sample_rows(sheet, names, deed, now))
        case "rain":
            return _rain(yard, rain_rows(sheet, deed), now)


def _parted(rows: Rows) -> tuple[list[tuple[int, Any]], list[Wrong]]:
    """Lines that can be read, one by one, and what is wrong with the others."""
    good: list[tuple[int, Any]] = []
    wrong: list[Wrong] = []
    for line, brings in rows:
        if isinstance(brings, NotRead):
            at = brings.at if isinstance(brings, BadCell) else ""
            wrong.append(Wrong(line.number, at, brings.what, brings.right))
        else:
            good.extend((line.number, one) for one in brings)
    return good, wrong


def readings_gathered(yard: Yard, good: Iterable[tuple[int, ClockReading]], wrong: list[Wrong]) -> Gathered:
    """Clock readings, of each machine, clock and day the last, but a new clock's first one too."""
    found = Gathered(wrong=wrong)
    corrected = {one.corrects for one in yard.clock_readings if one.corrects}
    kept = {(r.machine, r.clock, r.on, round(r.hours, 2)) for r in yard.clock_readings if r.id not in corrected}
    last: dict[tuple[str, str, date, bool], tuple[int, ClockReading]] = {}
    count = 0
    for number, read in good:
        count += 1
        key = (read.machine, read.clock, read.on, read.new_clock)
        if key not in last or read.hours >= last[key][1].hours:
            last[key] = (number, read)
    for number, read in last.values():
        if (read.machine, read.clock, read.on, read.hours) in kept:
            found.already += 1
            continue
        found.records.setdefault(number, []).append(read)
        fresh = ", a new clock" if read.new_clock else ""
        found.comes.append(
            Comes(number, f"{read.machine}, {read.clock} clock: {spell(read.hours)} h on {read.on}{fresh}")
        )
    found.already += count - len(last)
    return found


def _machines(yard: Yard, rows: Rows) -> Gathered:
    good, wrong = _parted(rows)
    found = Gathered(wrong=wrong)
    there = {one.id: one for one in yard.machines}
    for number, machine in good:
        before = there.get(machine.id)
        if before == machine:
            found.already += 1
            continue
        found.records[number] = [machine]
        found.comes.append(Comes(number, _machine_told(machine, before)))
    return found


def _machine_told(machine: Machine, before: Machine | None) -> str:
    if before is None:
        return f"{machine.name}, a new machine: {machine.id}"
    said = {key for key in type(machine).model_fields if getattr(machine, key) != getattr(before, key)}
    return f"{machine.name} gets {', '.join(sorted(key.replace('_', ' ') for key in said))}"


def _samples(yard: Yard, rows: Rows) -> Gathered:
    good, wrong = _parted(rows)
    found = Gathered(wrong=wrong)
    kept = {one.id.partition("-")[0] for one in yard.oil_samples}
    for number, sample in good:
        if sample.id in kept:
            found.already += 1
            continue
        kept.add(sample.id)
        found.records[number] = [sample]
        found.comes.append(Comes(number, told_of(sample)))
    return found


def _rain(yard: Yard, rows: Rows, now: Now) -> Gathered:
    """Whole years are kept: they stand at the last line that brings anything to them."""
    good, wrong = _parted(rows)
    found = Gathered(wrong=wrong)
    kept = known_days(yard)
    new: list[tuple[str, date, float]] = []
    at: dict[tuple[str, int], int] = {}
    for number, (station, on, mm) in good:
        before = kept.get((word_of(station), on))
        if on > yard.today(now.at.date()):
            found.wrong.append(Wrong(number, "", f"{on} has not come yet.", "Write the day on which it fell."))
        elif before == mm:
            found.already += 1
        else:
            new.append((station, on, mm))
            at[word_of(station), on.year] = number
            was = "" if before is None else f" (was {before:g})"
            found.comes.append(Comes(number, f"{station}, {on}: {mm:g} mm{was}"))
    for year in years_of(yard, new, now):
        found.records.setdefault(at[word_of(year.station), year.year], []).append(year)
    return found


def settled(yard: Yard, deed: TakeIn, now: Now, found: Found, gathered: Gathered) -> Found:
    """What a file brings, held against the yard and its rules; with `leave_out` until what is left agrees."""
    wrong = list(gathered.wrong)
    gone = {(one.what, one.id) for one in yard.gone}
    left = {number: [_again(one, gone) for one in records] for number, records in gathered.records.items()}
    for _ in range(TRIES):
        change = yard.fresh(Change(tuple(one for number in sorted(left) for one in left[number])))
        more = list(_against(yard, change, left, now)) if change else []
        wrong += more
        if not more or not deed.leave_out:
            break
        left = {number: records for number, records in left.items() if number not in {one.line for one in more}}
    wrong.sort(key=lambda one: one.line)
    bad = {one.line for one in wrong}
    stands = not more and (not wrong or deed.leave_out)
    return found.but(
        change=change if stands else NOTHING,
        comes=tuple(sorted((one for one in gathered.comes if one.line not in bad), key=lambda one: one.line)),
        already=gathered.already,
        wrong=tuple(wrong),
        left_out=len(bad) if stands else 0,
    )


def _again(record: Record, gone: set[tuple[str, str]]) -> Record:
    """A record under an id that was not taken back: what was taken back once can come again."""
    new, times = record.id, 1
    while (record.what, new) in gone:
        times += 1
        new = f"{record.id}-{times}"
    return record if new == record.id else record.model_copy(update={"id": new})


def _against(yard: Yard, change: Change, left: dict[int, list[Record]], now: Now) -> Iterable[Wrong]:
    """The rules of the yard that the new records break, each at its line."""
    lines = {id(one): number for number, records in left.items() for one in records}
    here: dict[str, int] = {}

    def where(record: Record, key: str) -> str:
        name = f"{lines.get(id(record), 0)}\n{key}"
        here[name] = lines.get(id(record), 0)
        return name

    for fault in mistakes(yard.with_(change), now.at.date(), where, only=change.records):
        number, _, key = fault.where.partition("\n")
        new_clock = fault.right.endswith(NEW_CLOCK)
        right = fault.right.removesuffix(NEW_CLOCK)
        if new_clock:
            right += f" If a new clock was fitted then, say --new-clock {number}."
        yield Wrong(int(number), key.replace("_", " "), fault.what, right, new_clock)


def heard_of(yard: Yard, deed: TakeIn, now: Now, answer: telematics.Answer) -> Found:
    """What would come of hours that machines sent themselves."""
    good, wrong = telematics.readings(answer.rows, Names(yard), deed, now)
    found = Found(deed.name, "hours", answer.told)
    return settled(yard, deed, now, found, readings_gathered(yard, good, wrong))
