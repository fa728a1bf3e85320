"""The rules between records: what no single record can know of itself."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import cache
from itertools import pairwise

from axlewright.kinds import Kind
from axlewright.quantities import NotRead, read_spread
from axlewright.trade.findings import findings
from axlewright.yard.answers import bad_answers
from axlewright.yard.card_rules import bad_cards
from axlewright.yard.clock_log import Read, in_order
from axlewright.yard.faults import Fault, closest
from axlewright.yard.hours import CLOCKS, MOST_A_DAY, follows, meant, most_after, spell
from axlewright.yard.move_rules import bad_moves, bad_warranties
from axlewright.yard.moves import Move
from axlewright.yard.picture import Yard, proofs
from axlewright.yard.records import (
    Answer,
    ClockReading,
    Corner,
    Design,
    Finding,
    Machine,
    Record,
    Stage,
    Stated,
    Trouble,
)
from axlewright.yard.sample_rules import bad_samples
from axlewright.yard.samples import OilSample
from axlewright.yard.season_rules import bad_seasons
from axlewright.yard.warranties import Warranty

Grades = Mapping[str, tuple[str, ...]]
"""Every kind of finding with its grades."""
NO_PLACE = "It does not say where it was seen."
Where = Callable[[Record, str], str]
"""Names the place of a record's key (empty: of the record) for a person: a file and line, or a field of a form."""


@cache
def known_grades() -> Grades:
    """The findings of the trade."""
    return {name: tuple(grade.id for grade in finding.grades) for name, finding in findings().items()}


def plain_where(record: Record, key: str) -> str:
    return f"{record.what} {record.id}" + (f", {key}" if key else "")


def mistakes(
    yard: Yard,
    today: date | None,
    where: Where = plain_where,
    only: Collection[Record] | None = None,
    grades: Grades | None = None,
) -> tuple[Fault, ...]:
    """Every mistake between the records of a yard, all at once.

    Args:
        yard: the picture, the new records in it
        today: no record may speak of a later day; None where nobody may ask the clock
        where: names a record's place
        only: report these alone, and where a new one and an old one disagree, doubt the new one
        grades: the kinds of finding there are, each with its grades; the trade's, if left out
    """
    new = None if only is None else {id(r) for r in only}
    look = _Look(yard, yard.title.today or today, known_grades() if grades is None else grades, where)
    found = [*_twice(look), *_names(look), *_days(look), *_clocks(look, only or ()), *_values(look)]
    moves = (*bad_moves(yard, new or ()), *bad_warranties(yard), *bad_samples(yard, look.today))
    found += [look.fault(one, key, what, right) for one, key, what, right in moves]
    return tuple(fault for record, fault in found if new is None or id(record) in new)


@dataclass(frozen=True)
class _Look:
    yard: Yard
    today: date | None
    grades: Grades
    where: Where
    machines: dict[str, Machine] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "machines", {m.id: m for m in self.yard.machines})

    def fault(self, record: Record, key: str, what: str, right: str = "") -> tuple[Record, Fault]:
        return record, Fault(self.where(record, key), what, right)


Found = Iterator[tuple[Record, Fault]]


def _twice(look: _Look) -> Found:
    """Two things with one id; two troubles with one number."""
    ids: dict[tuple[str, object], Record] = {}
    for record in look.yard.records:
        if not record.adds:
            other = ids.setdefault((record.what, record.id), record)
            if other is not record:
                also = look.where(other, "id")
                yield look.fault(
                    record,
                    "id",
                    f"Two {record.what}s have the id {record.id}; the other is {also}.",
                    "Give one another id.",
                )
    for trouble in look.yard.troubles:
        other = ids.setdefault(("number", trouble.number), trouble)
        if other is not trouble and other.id != trouble.id:
            also = look.where(other, "number")
            yield look.fault(
                trouble,
                "number",
                f"Two troubles have the number {trouble.number}; the other is {also}.",
                f"The next free one is {look.yard.next_number}.",
            )


def _names(look: _Look) -> Found:
    """What a record names must be there."""
    yard = look.yard
    designs, drives, troubles = (
        {r.id for r in yard.designs},
        {r.id for r in yard.drives},
        {t.number for t in yard.troubles},
    )
    added = {"clock": {r.id for r in yard.clock_readings}, "finding": {f.id for f in yard.findings}}
    for design in yard.designs:
        for corner in design.fits:
            yield from _corner(look, design, "fits", corner)
    for drive in yard.drives_written:
        if drive.design and drive.design not in designs:
            yield look.fault(drive, "design", f"There is no design {drive.design}.", closest(drive.design, designs))
        if isinstance(drive.sits, Corner):
            yield from _corner(look, drive, "sits", drive.sits)
    placed: tuple[Trouble | Finding, ...] = (*yard.troubles, *yard.findings)
    for one in placed:
        if one.corner:
            yield from _corner(look, one, "corner", one.corner)
        if one.drive and one.drive not in drives:
            yield look.fault(one, "drive", f"There is no drive {one.drive}.", closest(one.drive, drives))
    told: tuple[Finding | Stage, ...] = (*yard.findings, *yard.stages)
    for event in told:
        if event.trouble is not None and event.trouble not in troubles:
            yield look.fault(
                event, "trouble", f"There is no trouble {event.trouble}.", closest(event.trouble, map(str, troubles))
            )
    seen: tuple[Finding | ClockReading, ...] = (*yard.findings, *yard.clock_readings)
    for record in seen:
        if record.corrects and record.corrects not in added[record.what]:
            known = closest(record.corrects, added[record.what])
            yield look.fault(record, "corrects", f"There is no {record.what} {record.corrects} to correct.", known)
        elif isinstance(record, Finding) and record.corrects and not record.photo:
            yield from _proof(look, record)
        if record.corrects == record.id:
            yield look.fault(record, "corrects", "It corrects itself.", "Give the correction an id of its own.")
    for found in yard.findings:
        yield from _grade(look, found)
        if not found.corner and (not found.drive or found.trouble):
            yield look.fault(found, "corner", NO_PLACE, 'Write corner = "bramble/front-left".')


def _corner(look: _Look, record: Record, key: str, corner: Corner) -> Found:
    machine = look.machines.get(corner.machine)
    if machine is None:
        yield look.fault(record, key, f"There is no machine {corner.machine}.", closest(corner.machine, look.machines))
    elif corner.place not in machine.corners:
        has = f"It has {' and '.join(machine.corners)}."
        yield look.fault(record, key, f"{machine.name} has no drive at {corner.place}.", has)


def _grade(look: _Look, found: Finding) -> Found:
    grades = look.grades.get(found.finding)
    if grades is None:
        yield look.fault(found, "finding", f"There is no finding {found.finding}.", closest(found.finding, look.grades))
    elif found.grade not in grades:
        near = closest(found.grade, grades)
        all_of_them = f"The grades of {found.finding}: {', '.join(grades)}."
        right = f"{near} {all_of_them}" if near.startswith("Did") else all_of_them
        yield look.fault(found, "grade", f"{found.finding} has no grade {found.grade}.", right)


def _proof(look: _Look, correction: Finding) -> Found:
    """What rules a sound drive out is not talked away: whoever corrects it shows a photo."""
    for old in look.yard.findings:
        if old.id == correction.corrects and (old.finding, old.grade) in proofs():
            what = f"{old.grade} on {old.on} is proof. It is corrected by a photo, or not at all."
            yield look.fault(correction, "photo", what, 'Write photo = "plug.jpg".')


def _days(look: _Look) -> Found:
    """No day lies ahead; a trouble's stages come after it was opened, and nothing after it was put by."""
    today = look.today
    for record, key, day in _dated(look.yard):
        if today and day > today:
            yield look.fault(
                record, key, f"{day} has not come yet: today is {today}.", f"Write {key} = {today}, or the day it was."
            )
    for trouble in look.yard.troubles:
        put_by: Stage | None = None
        for stage in look.yard.stages_of(trouble.number):
            if stage.on < trouble.opened:
                yield look.fault(
                    stage,
                    "on",
                    f"{stage.stage} on {stage.on}, before the trouble was opened on {trouble.opened}.",
                    "Put one of the two right.",
                )
            if put_by:
                yield look.fault(
                    stage, "stage", f"{stage.stage} after the trouble was put by on {put_by.on}.", "Open a new trouble."
                )
            put_by = stage if stage.stage == "put by" else put_by


def _dated(yard: Yard) -> Iterator[tuple[Record, str, date]]:
    for trouble in yard.troubles:
        yield trouble, "opened", trouble.opened
    told: tuple[Finding | ClockReading | Stage | Answer | Move | Warranty | OilSample, ...] = (
        *yard.findings,
        *yard.clock_readings,
        *yard.stages,
        *yard.answers,
        *yard.moves,
        *yard.warranties,
        *yard.oil_samples,
    )
    for record in told:
        yield record, "on", record.on
    for drive in yard.drives_written:
        if drive.since:
            yield drive, "since", drive.since


def _clocks(look: _Look, doubted: Collection[Record]) -> Found:
    """A clock runs forwards, at most 24 h a day, and is a clock that the machine has."""
    for read in look.yard.clock_readings:
        if read.machine not in look.machines:
            right = closest(read.machine, look.machines)
            yield look.fault(read, "machine", f"There is no machine {read.machine}.", right)
    for found in look.yard.findings:
        if found.hours is not None and found.clock is None:
            yield look.fault(found, "hours", "Hours of which clock?", 'Write clock = "engine" or clock = "threshing".')
    new = {id(r) for r in doubted}
    for machine in look.machines.values():
        reads = look.yard.clock_log(machine.id).reads
        for clock in CLOCKS:
            own = in_order(r for r in reads if r.hours.clock == clock)
            if clock in machine.clocks:
                others = [r for r in reads if r.hours.clock != clock]
                strays = tuple(_strays(own, new))
                yield from (_slip(look, machine, bad, other, others) for bad, other in strays)
                if clock == "threshing" and not strays:
                    yield from _outrun(look, machine, reads, new)
                continue
            right = f"It has {' and '.join(machine.clocks)}: say which was read."
            for one in own:
                yield look.fault(one.record, "clock", f"{machine.name} has no {clock} clock.", right)


def _outrun(look: _Look, machine: Machine, reads: Sequence[Read], new: Collection[int]) -> Found:
    """The threshing clock never runs more than the engine's: one that seems to was read off the wrong clock."""
    engine = in_order(r for r in reads if r.hours.clock == "engine")
    threshing = in_order(r for r in reads if r.hours.clock == "threshing")
    if any(r.new_clock for r in engine):
        return
    days = [r.on for r in engine]
    for earlier, later in pairwise(threshing):
        before, after = bisect_right(days, earlier.on), bisect_left(days, later.on)
        if later.new_clock or before == 0 or after == len(days):
            continue
        start, end = engine[before - 1].hours, engine[after].hours
        ran, most = later.hours.hours - earlier.hours.hours, end.hours - start.hours
        doubt = (
            start.about + end.about + earlier.hours.about + later.hours.about + MOST_A_DAY
        )  # read on one day, not in one hour
        if ran <= most + doubt:
            continue
        doubted = later if id(later.record) in new or id(earlier.record) not in new else earlier
        yield look.fault(
            doubted.record,
            "hours",
            f"{machine.name}, threshing clock {spell(doubted.hours.hours)} h on {doubted.on}: it would have run"
            f" {spell(ran)} h while the engine ran {spell(most)}.",
            "Was it the engine clock that was read?",
        )


def _strays(reads: Sequence[Read], new: Collection[int]) -> Iterator[tuple[Read, Read]]:
    """The readings of one clock that cannot be, each with the reading it does not fit to.

    Of two that do not fit together the new one is doubted; else the one that the next reading does not fit to; else
    the later.
    """
    last: Read | None = None
    for number, read in enumerate(reads):
        if last is None or read.new_clock or _fit(last, read):
            last = read
            continue
        after = reads[number + 1] if number + 1 < len(reads) and not reads[number + 1].new_clock else None
        if (id(read.record) in new) != (id(last.record) in new):
            doubt_last = id(last.record) in new
        else:
            doubt_last = after is not None and _fit(read, after) and not _fit(last, after)
        if doubt_last:
            yield last, read
            last = read
        else:
            yield read, last


def _fit(earlier: Read, later: Read) -> bool:
    return follows(earlier.hours, later.hours, (later.on - earlier.on).days)


def _slip(look: _Look, machine: Machine, bad: Read, other: Read, others: Iterable[Read]) -> tuple[Record, Fault]:
    """What is wrong with hours that cannot be, and what was likely meant."""
    days = abs((bad.on - other.on).days)
    typed, stood, clock = bad.hours.hours, other.hours.hours, bad.hours.clock
    if bad.on < other.on:
        low, high = max(stood - most_after(days), 0.0), stood
        span = f"At most {spell(MOST_A_DAY)} h a day: not under {spell(low)} that day."
    else:
        low, high = stood, stood + most_after(days)
        span = f"At most {spell(MOST_A_DAY)} h a day: not over {spell(high)} by then."
    what = f"{machine.name}, {clock} clock {spell(typed)} h on {bad.on}; it read {spell(stood)} on {other.on}. {span}"
    guess = meant(typed, low, high)
    if any(_fit(o, bad) if o.on <= bad.on else _fit(bad, o) for o in _nearest(others, bad.on)):
        right = f"It fits the {'threshing' if clock == 'engine' else 'engine'} clock: which one was read?"
    elif guess is not None:
        right = f"Did you mean {spell(guess)}?"
    else:
        right = "Read the clock again."
    if isinstance(bad.record, ClockReading):
        right += " If a new clock was fitted, write new_clock = true."
    return look.fault(bad.record, "hours", what, right)


def _nearest(reads: Iterable[Read], on: date) -> list[Read]:
    """The reading of the other clock that lies nearest in time, and not years away."""
    near = sorted((r for r in reads if abs(r.on - on) <= timedelta(days=366)), key=lambda r: abs(r.on - on))
    return near[:1]


@cache
def _stated(model: type[Machine] | type[Design]) -> tuple[tuple[str, Kind], ...]:
    return tuple(
        (key, mark) for key, info in model.model_fields.items() for mark in info.metadata if isinstance(mark, Kind)
    )


def _values(look: _Look) -> Found:
    """Values typed with a unit can be read, as the kind that they must be; answers can be believed too."""
    things: tuple[Machine | Design, ...] = (*look.yard.machines, *look.yard.designs)
    for record in things:
        for key, kind in _stated(type(record)):
            stated: Stated | None = getattr(record, key)
            if stated is None:
                continue
            try:
                read_spread(stated.value, kind, look.yard.title.decimal)
            except NotRead as bad:
                yield look.fault(record, key, str(bad))
    for answer, key, what, right in bad_answers(look.yard):
        yield look.fault(answer, key, what, right)
    for told, key, what, right in bad_seasons(look.yard, look.today):
        yield look.fault(told, key, what, right)
    for done, key, what, right in bad_cards(look.yard, look.today):
        yield look.fault(done, key, what, right)
