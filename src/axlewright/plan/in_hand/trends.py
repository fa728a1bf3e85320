"""What looks at a drive showed, one after the other, by the clock: what goes from mild to bad is watched."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache

from axlewright.plan.once import KeptOfYard
from axlewright.trade.findings import Finding as Kind
from axlewright.trade.findings import Grade, findings
from axlewright.yard import Clock, Corner, Finding, Reading, Trouble, Yard
from axlewright.yard.card_values import look_of

FEWEST = 2  # looks that make a trend
LEAST_GRADES = 3  # of two there is no between
MOST_LOOKS = 12  # of one trend: the last ones
RUNNING = ("put by",)  # a trouble at this stage is watched no more


@dataclass(frozen=True, slots=True)
class Looked:
    """One look: what the clock read as it stands in the machine now [h], the day, the grade and its place from mild to bad."""

    hours: float
    on: date
    grade: Grade
    rank: int


@dataclass(frozen=True, slots=True)
class Trend:
    """What one look showed at a corner, time after time.

    Attributes:
        corner: where
        trouble: whose it is
        kind: what is looked at
        grades: its grades from mild to bad, those that this way of looking gives
        looks: the first first
        clock: by which it stands
        worse: the rank from which on it is no longer good; None: there is none
        stops: the rank from which on FIELD is no; None: no grade of it stops
    """

    corner: Corner
    trouble: int
    kind: Kind
    grades: tuple[Grade, ...]
    looks: tuple[Looked, ...]
    clock: Clock
    worse: int | None
    stops: int | None

    @property
    def last(self) -> Looked:
        return self.looks[-1]

    @property
    def rises(self) -> bool:
        """Whether the last look was worse than the one before."""
        return self.looks[-1].rank > self.looks[-2].rank

    @property
    def weight(self) -> tuple[float, ...]:
        """What wants to be seen first: what stops, then what got worse, what is no longer good, what was looked at last."""
        stops = self.stops is not None and self.last.rank >= self.stops
        bad = self.worse is not None and self.last.rank >= self.worse
        return (stops, bad and self.rises, bad, self.rises, len({one.rank for one in self.looks}) > 1, self.last.on.toordinal())  # fmt: skip


_KEPT: KeptOfYard[tuple[Trend, ...]] = KeptOfYard()


def trends(yard: Yard, today: date, most: int) -> tuple[Trend, ...]:
    """The trends that want to be seen, the worst first; one a corner before a second one of it."""
    return _KEPT.get(yard, today, lambda: _all(yard, today))[:most]


def _all(yard: Yard, today: date) -> tuple[Trend, ...]:
    found = [trend for one in yard.troubles if yard.stage(one.number) not in RUNNING for trend in _of(yard, one, today)]
    found.sort(key=lambda trend: (*(-weight for weight in trend.weight), str(trend.corner), trend.kind.id))
    first: dict[Corner, Trend] = {}
    for trend in found:
        first.setdefault(trend.corner, trend)
    heads = list(first.values())
    placed = {id(trend) for trend in heads}
    return (*heads, *(trend for trend in found if id(trend) not in placed))


def _of(yard: Yard, trouble: Trouble, today: date) -> Iterator[Trend]:
    """The trends at the corner of a trouble, of the drive that sits there."""
    told: dict[tuple[str, str], list[tuple[Grade, int, Finding | Reading]]] = defaultdict(list)
    for one, name, word in _looked(yard, trouble, today):
        rung = _rungs(name).get(word)
        if rung:
            grade, rank = rung
            told[name, grade.by].append((grade, rank, one))
    for (name, _), looks in told.items():
        if len(looks) >= FEWEST and any(rank for _, rank, _ in looks):
            yield from _trend(yard, trouble, findings()[name], looks, today)


@cache
def _rungs(name: str) -> Mapping[str, tuple[Grade, int]]:
    """By its id each grade of a finding that runs from mild to bad, and its place among those of its way of looking."""
    kind = findings().get(name)
    if kind is None or not kind.ordered or len(kind.grades) < LEAST_GRADES:
        return {}
    return {grade.id: (grade, _ladder(kind, grade.by).index(grade)) for grade in kind.grades}


def _looked(yard: Yard, trouble: Trouble, today: date) -> Iterator[tuple[Finding | Reading, str, str]]:
    """Every look at a corner with what it showed: a finding, or an after-check that was written back in words."""
    for one in yard.findings_at(trouble.corner):
        if one.on <= today:
            yield one, one.finding, one.grade
    for read in yard.standing_readings:
        row = look_of(read.step) if read.trouble == trouble.number and read.on <= today else None
        if row:
            for name, word in zip(row.finds, read.value.split(", "), strict=False):
                yield read, name, word


def _ladder(kind: Kind, by: str) -> tuple[Grade, ...]:
    return tuple(grade for grade in kind.grades if grade.by == by)


def _trend(
    yard: Yard, trouble: Trouble, kind: Kind, looks: list[tuple[Grade, int, Finding | Reading]], today: date
) -> Iterator[Trend]:
    machine = yard.machine(trouble.corner.machine)
    clock: Clock = "engine" if "engine" in machine.clocks else machine.clocks[0]
    by_hour: dict[float, Looked] = {}
    for grade, rank, one in looks:
        hours = _hours(yard, machine.id, one, clock, today)
        before = by_hour.get(hours) if hours is not None else None
        if hours is not None and (before is None or rank > before.rank):  # of one look the worst
            by_hour[hours] = Looked(hours, one.on, grade, rank)
    kept = tuple(one for _, one in sorted(by_hour.items()))[-MOST_LOOKS:]
    if len(kept) < FEWEST:
        return
    grades = _ladder(kind, kept[0].grade.by)
    yield Trend(
        trouble.corner,
        trouble.number,
        kind,
        grades,
        kept,
        clock,
        next((n for n, grade in enumerate(grades) if not grade.good), None),
        next((n for n, grade in enumerate(grades) if grade.stop), None),
    )


def _hours(yard: Yard, machine: str, one: Finding | Reading, clock: Clock, today: date) -> float | None:
    """The clock at a look, as it would read in the machine now; by the day where nobody read it."""
    log = yard.clock_log(machine)
    read = one.read()
    if read is None:
        count = log.count(one.on, clock)
        hours = None if count is None else count.hours
    else:
        hours = log.on_clock(read, clock, one.on).hours + log.ahead(clock, one.on)
    return None if hours is None else round(hours - log.ahead(clock, today), 1)
