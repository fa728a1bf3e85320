"""The yard as it stands: a frozen picture of its records, ways to look things up in it, and changes to it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cache, cached_property
from typing import Any, TypeVar

from axlewright.trade.findings import findings
from axlewright.yard.cards import AfterCheck, Reading, StepCard
from axlewright.yard.clock_log import ClockLog, Read
from axlewright.yard.faults import Fault, Faults, closest
from axlewright.yard.hours import Clock, Hours
from axlewright.yard.known import Layers, by_id, clocked
from axlewright.yard.moves import Move, Stay, judged_from, own_hours, stays
from axlewright.yard.moves import now as as_it_stands
from axlewright.yard.order import in_order, with_new
from axlewright.yard.records import (
    Answer,
    ClockReading,
    Corner,
    Course,
    Design,
    Drive,
    Finding,
    Machine,
    Record,
    Stage,
    StageName,
    Title,
    Trouble,
)
from axlewright.yard.samples import OilSample, Rain, rain_of
from axlewright.yard.seasons import Season, Work
from axlewright.yard.taken_back import TakenBack, parted
from axlewright.yard.warranties import Left, Warranty, left_of

R = TypeVar("R", bound=Record)
N = TypeVar("N", Machine, Drive, Design)


@dataclass(frozen=True)
class Beside:
    """A file kept beside the records and never changed, such as a frozen pack or a photo: `packs/3f9a.json`."""

    name: str
    data: bytes = field(repr=False)


@dataclass(frozen=True)
class Change:
    """The records to add to a yard, in the order in which they came about, and the files to keep beside them."""

    records: tuple[Record, ...] = ()
    beside: tuple[Beside, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.records or self.beside)

    def of(self, model: type[R]) -> tuple[R, ...]:
        return tuple(r for r in self.records if isinstance(r, model))


PLACE_OF = {
    "machine": "machines",
    "clock": "clock_readings",
    "design": "designs",
    "drive": "drives_written",
    "trouble": "troubles",
    "finding": "findings",
    "stage": "stages",
    "answer": "answers",
    "season": "seasons",
    "work": "works",
    "step card": "step_cards",
    "reading": "readings",
    "after-check": "after_checks",
    "move": "moves",
    "warranty": "warranties",
    "oil sample": "oil_samples",
    "rain": "rains",
    "taken back": "taken_back",
}
"""Where the records of a sort stand in the picture."""


@dataclass(frozen=True)
class Yard:
    """All records of a yard at one moment. `seen` is the store's mark of that moment: give it back when you write.

    Nothing here is ever changed; `with_` gives a new picture. Of findings, clock readings, stages, answers and moves
    everything ever kept stands here, also what was corrected later: the folds (`newest`, `drives` ...) leave that out.
    """

    title: Title
    machines: tuple[Machine, ...] = ()
    clock_readings: tuple[ClockReading, ...] = ()
    designs: tuple[Design, ...] = ()
    drives_written: tuple[Drive, ...] = ()
    troubles: tuple[Trouble, ...] = ()
    findings: tuple[Finding, ...] = ()
    stages: tuple[Stage, ...] = ()
    answers: tuple[Answer, ...] = ()
    seasons: tuple[Season, ...] = ()
    works: tuple[Work, ...] = ()
    step_cards: tuple[StepCard, ...] = ()
    readings: tuple[Reading, ...] = ()
    after_checks: tuple[AfterCheck, ...] = ()
    moves: tuple[Move, ...] = ()
    warranties: tuple[Warranty, ...] = ()
    oil_samples: tuple[OilSample, ...] = ()
    rains: tuple[Rain, ...] = ()
    taken_back: tuple[TakenBack, ...] = ()
    gone: tuple[Record, ...] = ()
    """What was taken back: kept, and part of nothing else here."""
    seen: int = field(default=0, compare=False)

    @classmethod
    def of(cls, records: Iterable[Record], seen: int = 0) -> Yard:
        """The picture that these records give. The same records in another order give an equal one.

        Raises:
            Faults: no title among them
        """
        sorts: dict[str, list[Any]] = defaultdict(list)
        counting, gone = parted(records)
        for record in counting:
            sorts[record.what].append(record)
        if not sorts["title"]:
            raise Faults(Fault("yard", "It has no name.", 'Write name = "Long Acre".'))
        told = {place: in_order(what, sorts[what]) for what, place in PLACE_OF.items()}
        put_away = sorted(gone, key=lambda one: (one.what, one.id, one.model_dump_json()))
        return cls(sorts["title"][-1], **told, gone=tuple(put_away), seen=seen)

    @cached_property
    def records(self) -> tuple[Record, ...]:
        things = (*self.machines, *self.designs, *self.drives_written, *self.troubles, *self.seasons)
        told = (*self.clock_readings, *self.findings, *self.stages, *self.answers, *self.works, *self.moves)
        return (
            self.title,
            *things,
            *told,
            *self.step_cards,
            *self.readings,
            *self.after_checks,
            *self.warranties,
            *self.oil_samples,
            *self.rains,
            *self.taken_back,
            *self.gone,
        )

    # the yard itself
    @property
    def name(self) -> str:
        return self.title.name

    @property
    def measures(self) -> str:
        return self.title.measures

    @property
    def currency(self) -> str:
        return self.title.currency

    def today(self, really: date) -> date:
        """The day that is taken as today: the yard's own, if it has one."""
        return self.title.today or really

    # changes
    def fresh(self, change: Change) -> Change:
        """What of a change is not kept yet. Same id and same body: kept once; same id, other body: a second reading."""
        kept: dict[tuple[str, str], list[Any]] = {}
        for record in change.records:
            if (record.what, record.id) not in kept:
                kept[record.what, record.id] = [one.body() for one in self.known.get(f"{record.what} {record.id}")]
        new = []
        for record in change.records:
            body, before = record.body(), kept[record.what, record.id]
            if body in before[None if record.adds else -1 :]:
                continue
            before.append(body)
            new.append(record)
        return Change(tuple(new), change.beside)

    def with_(self, change: Change) -> Yard:
        """The picture after a change."""
        new = self.fresh(change).records
        gone = {(one.sort, one.of) for one in self.taken_back}
        if any(isinstance(one, TakenBack) or (one.what, one.id) in gone for one in new):
            return self._with_all(new)
        sorts: dict[str, list[Any]] = defaultdict(list)
        for record in new:
            sorts[record.what].append(record)
        title = sorts.pop("title", [self.title])[-1]
        told: dict[str, Any] = {}
        for what, came in sorts.items():
            if came[0].adds:
                told[PLACE_OF[what]] = with_new(what, self.sort(what), came)
            else:
                latest = {record.id: record for record in came}
                stay = [record for record in self.sort(what) if record.id not in latest]
                told[PLACE_OF[what]] = in_order(what, [*stay, *latest.values()])
        made = replace(self, title=title, **told)
        if all(one.adds for one in new):
            made._carry(self, new)
        return made

    def marked(self, seen: int) -> Yard:
        """The same picture under another mark."""
        made = replace(self, seen=seen)
        made.__dict__.update({name: found for name, found in self.__dict__.items() if name != "seen"})
        return made

    def _carry(self, before: Yard, new: tuple[Record, ...]) -> None:
        """What was found out of the picture before holds of this one too, with the records that only came to it."""
        found = before.__dict__
        if "known" in found:
            self.__dict__["known"] = before.known.with_(by_id(new))
        if "clocked" in found:
            self.__dict__["clocked"] = before.clocked.with_(clocked(new, self._machines_of))
        if "corrections" in found:
            self.__dict__["corrections"] = (*before.corrections, *_correcting(new))

    @cached_property
    def known(self) -> Layers:
        """All records by sort and id, those that were taken back too."""
        return Layers.of(by_id(self.records))

    @cached_property
    def clocked(self) -> Layers:
        """Findings, clock readings and readings by sort and machine."""
        return Layers.of(clocked((*self.findings, *self.clock_readings, *self.readings), self._machines_of))

    @cached_property
    def corrections(self) -> tuple[Any, ...]:
        """All records that correct another."""
        return _correcting((*self.findings, *self.clock_readings, *self.readings, *self.after_checks, *self.moves))

    @property
    def _machines_of(self) -> Mapping[int, str]:
        """By the number of a trouble its machine."""
        return {one.number: one.corner.machine for one in self.troubles}

    def _with_all(self, new: tuple[Record, ...]) -> Yard:
        """The picture made anew, as it must be where something was taken back."""
        replaced = {(r.what, r.id) for r in new if not r.adds}
        latest = {(r.what, r.id): r for r in new if not r.adds}
        stay = [r for r in self.records if (r.what, r.id) not in replaced]
        return Yard.of([*stay, *latest.values(), *(r for r in new if r.adds)], self.seen)

    def sort(self, what: str) -> tuple[Any, ...]:
        """All records of one sort, as `what` names it."""
        return (self.title,) if what == "title" else getattr(self, PLACE_OF[what])

    # looking up
    def machine(self, said: str) -> Machine:
        """The machine of this id or name.

        Raises:
            Faults: there is none; says which comes closest
        """
        return _find(self.machines, said, "machine")

    def drive(self, said: str) -> Drive:
        """The drive of this id or name, or with this number written on it."""
        numbered = [d for d in self.drives if said and said in d.numbers]
        return numbered[0] if len(numbered) == 1 else _find(self.drives, said, "drive")

    def design(self, said: str) -> Design:
        return _find(self.designs, said, "design")

    def trouble(self, number: int) -> Trouble:
        for trouble in self.troubles:
            if trouble.number == number:
                return trouble
        last = f"The last is {self.troubles[-1].number}." if self.troubles else "None is written down yet."
        raise Faults(Fault("trouble", f"There is no trouble {number} in this yard.", last))

    def corner(self, said: str) -> Corner:
        """The corner that is meant by `bramble/front-left`; the machine's name will do for its id.

        Raises:
            Faults: no such spelling, machine, or corner of that machine
        """
        try:
            typed = Corner.read(said)
        except ValueError as bad:
            first = next((str(c) for c in self.corners), "bramble/front-left")
            raise Faults(Fault("corner", f"{said}: {bad}", f"Write {first}.")) from None
        machine = self.machine(typed.machine)
        if typed.place not in machine.corners:
            has = f"It has {' and '.join(machine.corners)}."
            raise Faults(Fault("corner", f"{machine.name} has no drive at {typed.place}.", has))
        return Corner(machine.id, typed.place)

    def named(self, corner: Corner) -> str:
        """A corner as people say it: `Bramble, front left`."""
        return f"{self.machine(corner.machine).name}, {corner.place.replace('-', ' ')}"

    @cached_property
    def corners(self) -> tuple[Corner, ...]:
        """Every corner of every machine."""
        return tuple(corner for machine in self.machines for corner in machine.at_corners())

    # drives, as their moves left them
    @cached_property
    def lives(self) -> Mapping[str, tuple[Stay, ...]]:
        """By drive all its stays, the first first."""
        corrected = {move.corrects for move in self.moves if move.corrects}
        by_drive: dict[str, list[Move]] = defaultdict(list)
        for move in self.moves:  # by day
            if move.id not in corrected:
                by_drive[move.drive].append(move)
        return {one.id: stays(one, by_drive[one.id], self._ran) for one in self.drives_written}

    def _ran(self, machine: str, since: date, until: date) -> Hours | None:
        return self.clock_log(machine).ran(since, until)

    @cached_property
    def drives(self) -> tuple[Drive, ...]:
        """The drives as they stand today: where each sits, since when, with which hours of its own it came there."""
        return tuple(as_it_stands(one, self.lives[one.id]) for one in self.drives_written)

    @cached_property
    def _at_corner(self) -> Mapping[Corner, Drive]:
        return {d.sits: d for d in reversed(self.drives) if isinstance(d.sits, Corner)}

    def drive_at(self, corner: Corner) -> Drive | None:
        """The drive that sits at a corner."""
        return self._at_corner.get(corner)

    @cached_property
    def spares(self) -> tuple[Drive, ...]:
        """The drives on the shelf."""
        return tuple(d for d in self.drives if d.sits == "shelf")

    def warranty_left(self, drive: Drive, today: date) -> tuple[Left, ...]:
        """The warranties on a drive, the newest last, each with what is left of it."""
        corrected = {one.corrects for one in self.warranties if one.corrects}
        own = [one for one in self.warranties if one.drive == drive.id and one.id not in corrected]
        return tuple(left_of(one, self.lives[drive.id], today, self._ran) for one in own)

    # troubles
    @cached_property
    def _stages(self) -> Mapping[int, list[Stage]]:
        by_trouble: dict[int, list[Stage]] = defaultdict(list)
        for stage in self.stages:
            by_trouble[stage.trouble].append(stage)
        return dict(by_trouble)

    def stages_of(self, number: int) -> tuple[Stage, ...]:
        return tuple(self._stages.get(number, ()))

    def stage(self, number: int) -> StageName:
        """The stage that a trouble has come to."""
        stages = self.stages_of(number)
        return stages[-1].stage if stages else "seen"

    def course(self, number: int) -> Course | None:
        """The course that was taken last in a trouble."""
        return next((s.course for s in reversed(self.stages_of(number)) if s.course), None)

    def troubles_at(self, corner: Corner) -> tuple[Trouble, ...]:
        return tuple(t for t in self.troubles if t.corner == corner)

    def running_at(self, corner: Corner) -> Trouble | None:
        """The trouble at a corner that is not put by, the newest if there are more."""
        running = [t for t in self.troubles_at(corner) if self.stage(t.number) != "put by"]
        return running[-1] if running else None

    @property
    def next_number(self) -> int:
        """The number of the next trouble; none is given twice, also where the first was taken back."""
        gone = [one.number for one in self.gone if isinstance(one, Trouble)]
        return max([*gone, *(t.number for t in self.troubles)], default=0) + 1

    # findings, as they hold now
    @cached_property
    def standing(self) -> tuple[Finding, ...]:
        """All findings but those that a later one corrects."""
        corrected = {f.corrects for f in self.findings if f.corrects}
        return tuple(f for f in self.findings if f.id not in corrected)

    @cached_property
    def _at(self) -> Mapping[Corner | None, tuple[Finding, ...]]:
        by_corner: dict[Corner | None, list[Finding]] = defaultdict(list)
        for found in self.standing:
            by_corner[found.corner].append(found)
        return {corner: tuple(found) for corner, found in by_corner.items()}

    def findings_of(self, number: int) -> tuple[Finding, ...]:
        """The standing findings of a trouble, by day."""
        return tuple(f for f in self.standing if f.trouble == number)

    def findings_at(self, corner: Corner) -> tuple[Finding, ...]:
        """The standing findings at a corner, by day: those of the drive that sits there now, not of one that is gone.

        What was proof against a drive goes with it to another corner, until it was on the bench.
        """
        drive = self.drive_at(corner)
        here = self._at.get(corner, ())
        if drive is None:
            return here
        afresh = judged_from(self.lives[drive.id]) or date.min
        own = [f for f in here if f.drive in {None, drive.id} and (f.drive or not drive.since or f.on >= drive.since)]
        brought = [f for f in self._proofs.get(drive.id, ()) if f.corner != corner]
        found = tuple(f for f in own if f.on >= afresh)
        return with_new("finding", found, [_elsewhere(f, corner) for f in brought if f.on >= afresh])

    @cached_property
    def _proofs(self) -> Mapping[str, list[Finding]]:
        """By drive what was seen of it that is proof, under its name or at a corner while it sat there."""
        by_drive: dict[str, list[Finding]] = defaultdict(list)
        for one in self.standing:
            if (one.finding, one.grade) in proofs():
                by_drive[one.drive or self._sat(one.corner, one.on)].append(one)
        return by_drive

    def _sat(self, corner: Corner | None, on: date) -> str:
        """The drive that sat at a corner on a day; empty where nobody knows."""
        there = (name for name, lived in self.lives.items() for one in lived if one.sits == corner and one.covers(on))
        return next(there, "")

    @cached_property
    def seen_of_drives(self) -> Mapping[str, Mapping[str, Finding]]:
        """By drive and kind of finding the newest that names the drive, the newest last."""
        found: dict[str, dict[str, Finding]] = defaultdict(dict)
        for one in self.standing:  # by day: the last one stays
            if one.drive:
                found[one.drive].pop(one.finding, None)
                found[one.drive][one.finding] = one
        return found

    def newest(self, corner: Corner) -> Mapping[str, tuple[Finding, ...]]:
        """By kind of finding, the newest at a corner: several where the last look, or two on one day, saw more than one."""
        found: dict[str, tuple[Finding, ...]] = {}
        for one in self.findings_at(corner):
            last = found.get(one.finding, ())
            found[one.finding] = (*last, one) if last and _one_look(last[-1], one) else (one,)
        return found

    # answers
    @cached_property
    def _answered(self) -> Mapping[tuple[int | None, str | None, str | None], Mapping[str, Answer]]:
        newest: dict[tuple[int | None, str | None, str | None], dict[str, Answer]] = defaultdict(dict)
        for answer in self.answers:  # by day: the last one stays
            newest[answer.about][answer.name] = answer
        return dict(newest)

    def answered(
        self, *, trouble: int | None = None, machine: str | None = None, design: str | None = None
    ) -> Mapping[str, Answer]:
        """The newest answer of each name: of a trouble, of a machine, of a design, or of the yard's gear."""
        return self._answered.get((trouble, machine, design), {})

    # the season
    def work_of(self, machine: str, on: date) -> tuple[tuple[Work, Season], ...]:
        """What a machine still has to cut on a day, in the order in which it is ripe; each with its season."""
        newest = {work.about: work for work in self.works if work.machine == machine}  # by day: the last one stays
        seasons = {one.id: one for one in self.seasons}
        ahead = [work for work in newest.values() if work.ends >= on and work.season in seasons]
        return tuple((one, seasons[one.season]) for one in sorted(ahead, key=lambda w: (w.starts, w.crop)))

    def rain(self, station: str = "") -> Mapping[date, float]:
        """The rain of each day that was measured [mm], by day; of a station, or of the only one.

        Raises:
            ValueError: no such station; several, and none named
        """
        return rain_of(self.rains, station)

    def samples_of(self, drive: str) -> tuple[OilSample, ...]:
        """The standing oil samples of a drive, by day."""
        corrected = {one.corrects for one in self.oil_samples if one.corrects}
        return tuple(one for one in self.oil_samples if one.drive == drive and one.id not in corrected)

    # work in hand
    @cached_property
    def standing_readings(self) -> tuple[Reading, ...]:
        """All readings but those that a later one corrects, by when they were taken."""
        corrected = {one.corrects for one in self.readings if one.corrects}
        return tuple(one for one in self.readings if one.id not in corrected)

    # clocks
    @cached_property
    def _clock_logs(self) -> Mapping[str, ClockLog]:
        corrected = {r.corrects for r in self.clock_readings if r.corrects}
        reads: dict[str, list[Read]] = defaultdict(list)
        for read in self.clock_readings:
            if read.id not in corrected:
                reads[read.machine].append(Read(read.on, read.read(), read, read.new_clock))
        for found in self.standing:
            hours = found.read()
            if found.corner and hours:
                reads[found.corner.machine].append(Read(found.on, hours, found))
        places = {one.number: one.corner.machine for one in self.troubles}
        for looked in self.standing_readings:
            hours = looked.read()
            if hours and looked.trouble in places:
                reads[places[looked.trouble]].append(Read(looked.on, hours, looked))
        return {machine: ClockLog(tuple(log)) for machine, log in reads.items()}

    def clock_log(self, machine: str) -> ClockLog:
        """All that a machine's clocks read, on clock readings and findings alike, but what was corrected."""
        return self._clock_logs.get(machine, ClockLog())

    def hours(self, machine: str, on: date, clock: Clock = "engine") -> Hours | None:
        """What a clock stands at on a day, as far as is known. After the last reading nobody knows what it ran since."""
        return self.clock_log(machine).stood(on, clock)

    def on_clock(self, machine: str, read: Hours, clock: Clock, on: date) -> Hours:
        """A reading as the machine's other clock would have shown it that day."""
        return self.clock_log(machine).on_clock(read, clock, on)

    def run_since(self, found: Finding, on: date) -> Hours | None:
        """Engine hours that the machine ran from a finding to a day; None where no clock tells."""
        if found.corner is None:
            return None
        return self.clock_log(found.corner.machine).ran(found.on, on, found.read())

    def drive_hours(self, drive: Drive, on: date) -> Hours | None:
        """The hours that a drive itself has run by a day: its own when it came to its corner, and the machine's since."""
        there = next((stay for stay in reversed(self.lives[drive.id]) if stay.covers(on)), None)
        return own_hours(there, on, self._ran) if there else None


def _correcting(records: Iterable[Any]) -> tuple[Any, ...]:
    return tuple(one for one in records if getattr(one, "corrects", None))


def _elsewhere(found: Finding, corner: Corner) -> Finding:
    """A finding as it counts at another corner; the clock of another machine says nothing there."""
    same = found.corner is not None and found.corner.machine == corner.machine
    return found if same else found.model_copy(update={"hours": None, "clock": None, "about": 0.0})


@cache
def proofs() -> frozenset[tuple[str, str]]:
    """What rules a sound drive out, by finding and grade."""
    return frozenset((name, one.id) for name, finding in findings().items() for one in finding.grades if one.proof)


def _one_look(earlier: Finding, later: Finding) -> bool:
    """Whether two findings of one kind are of one look: the same day, and no clock that went on in between."""
    before, after = earlier.read(), later.read()
    went_on = (
        before and after and before.clock == after.clock and after.hours > before.hours + before.about + after.about
    )
    return earlier.on == later.on and not went_on


def _find(among: Sequence[N], said: str, what: str) -> N:
    wanted = said.strip().casefold()
    for one in among:
        if one.id == wanted:
            return one
    named = [one for one in among if one.name.casefold() == wanted]
    if len(named) == 1:
        return named[0]
    if named:
        ids = " or ".join(one.id for one in named)
        raise Faults(Fault(what, f"{len(named)} are named {said}.", f"Write {ids}."))
    raise Faults(Fault(what, f"No {what} {said} in this yard.", closest(said, (one.id for one in among))))
