"""What is known of a trouble for the work itself: its jobs, the people and the day, and what each sheet still waits for.

Nothing is taken for what the work hangs on: a question that nobody answered is named, with the sheets that wait for it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from functools import cached_property

from axlewright.plan.quantities_of import quantities_of, question, words_of
from axlewright.plan.raised import is_raised
from axlewright.plan.steps.jobs import BY, Here, NoWay, Plan, plan, size_of
from axlewright.plan.steps.jobs import WHEN as WHEN
from axlewright.plan.steps.kit import Have
from axlewright.quantities import Quantity
from axlewright.trade.answer_texts import HERE, MISSING
from axlewright.trade.networks import Job
from axlewright.trade.questions import Question
from axlewright.trade.steps import By, Course, Edge, Steps
from axlewright.trade.steps_read import steps
from axlewright.yard import Drive, Faults, Trouble, Yard
from axlewright.yard.asked import answers_of, design_of

FIGURES: Mapping[str, tuple[str, float]] = {
    "fill": ("oil/volume", 1e-3),
    "mass": ("drive/mass", 1.0),
    "twin": ("drive/turns", 1.0),
    "nut-window": ("nuts/torque", 1.0),
}
"""Figures that bands are parts of: the question that gives each, and its band's unit in SI."""
IMPLIED = {
    "jack": "walk-round/jack-plate", "timber": "walk-round/timber-count", "torque-wrench": "wrench/greatest",
    "loader": "loader/plate", "hoist": "hoist/plate", "seat-plate": "walk-round/plate-along",
}  # fmt: skip
"""Gear that is here because somebody read its plate or taped it."""
TORQUES = ("nh-torque", "ns-torque", "sd-nut-torque")
OTHER_SHEETS = ("First look", "Bring home", "Seller's yard", "Shelf", "Bench")
"""Networks that stand on a sheet of that name, and so not on the Steps sheets."""
NO_STEPS = ("run", "hire out")
"""Courses without a step card: the stop list on the cab card, and no number that calms."""


@dataclass(frozen=True, slots=True)
class Wait:
    """What a sheet waits for: questions nobody answered, or something else, in words."""

    sheet: str
    words: str = ""
    questions: tuple[Question, ...] = ()


@dataclass(frozen=True)
class Work:
    """The work of a trouble whose course was taken, as far as its records tell."""

    yard: Yard
    trouble: Trouble
    today: date
    taken: str

    @cached_property
    def rows(self) -> Steps:
        return steps()

    @cached_property
    def course(self) -> Course:
        return self.rows.course[self.taken]

    @cached_property
    def numbers(self) -> Mapping[str, Quantity]:
        return quantities_of(self.yard, self.trouble)

    @cached_property
    def words(self) -> Mapping[str, str]:
        return words_of(self.yard, self.trouble)

    @cached_property
    def answered(self) -> frozenset[str]:
        return frozenset(answers_of(self.yard, self.trouble))

    # what the jobs depend on
    @cached_property
    def by(self) -> By:
        if self.taken == "reseal" and self.words.get("drive/lip") == "yes":
            return "machine"
        return BY.get(self.words.get("lift-by", ""), "saddle")

    @cached_property
    def here(self) -> Here:
        """What the jobs depend on; people as far as they are named."""
        hands, mass = self.numbers.get("work/hands"), self.numbers.get("machine/mass")
        return Here(
            drive=self.words.get("drive/built", "flange"),
            by=self.by,
            when=frozenset(when for when, (asked, said) in WHEN.items() if self.words.get(asked) == said),
            size=size_of(self.rows, mass.spread.middle()) if mass else "medium",
            hands=round(hands.spread.middle()) if hands else 0,
            first_time=self.words.get("work/done-before") != "yes",
            in_field=self.in_field,
            raised=self.words.get("work/raised") == "yes",
        )

    @cached_property
    def in_field(self) -> bool:
        return self.words.get("work/stands") == "field"

    @cached_property
    def jobs(self) -> Plan | None:
        """The jobs of the course; None where none is known for such a drive, carried so."""
        try:
            return plan(self.rows, self.taken, self.here)
        except NoWay:
            return None

    @cached_property
    def carded(self) -> tuple[Job, ...]:
        """The jobs that stand on Steps sheets, in order."""
        if self.jobs is None or self.taken in NO_STEPS:
            return ()
        return tuple(job for job in self.jobs.now if not self._on_other_sheet(job))

    def _on_other_sheet(self, job: Job) -> bool:
        row = self.rows.network.get(job.id)
        return row is not None and row.sheet in OTHER_SHEETS

    @cached_property
    def tasks(self) -> frozenset[str]:
        """The steps of all its jobs before the machine works again."""
        return frozenset(s.task.id for job in (self.jobs.now if self.jobs else ()) for s in job.steps)

    @cached_property
    def raises(self) -> bool:
        return any(s.task.corner in ("jack", "wood") for job in self.carded for s in job.steps)

    @cached_property
    def takes_off(self) -> bool:
        """Whether a wheel comes off, or more."""
        return any("wheel-free" in s.task.acts for job in self.carded for s in job.steps)

    # figures of bands, in the bands' own units: what was measured or stands in a book, never a guess
    @cached_property
    def figures(self) -> dict[str, Edge]:
        found = {}
        for figure, (name, unit) in FIGURES.items():
            number = self.numbers.get(name)
            if number is not None and number.basis != "assumed":
                found[figure] = (number.spread.middle() / unit,) * 2
        if "nut-window" in found:
            found["nut-window"] = self._nuts()
        return found

    def _nuts(self) -> Edge:
        """What the wheel nuts may be set to [N m]: from and to as the book has them; a single value to the nearest mark."""
        low, high = self.numbers["nuts/torque"].spread.ends()
        half = self.wrench_marks.get("sd-nut-torque", self.rows.band["sd-nut-torque"].mark) / 2
        return (low, high) if high - low > 2 * half else ((low + high) / 2 - half, (low + high) / 2 + half)

    @cached_property
    def wrench_marks(self) -> dict[str, float]:
        """The step of the torque wrench, where it was read, by the readings that are set with it [N m]."""
        mark = self.numbers.get("wrench/mark")
        return dict.fromkeys(TORQUES, mark.spread.middle()) if mark else {}

    @cached_property
    def asks(self) -> frozenset[str]:
        """What the bands of its readings hang on."""
        read = {r.id for job in self.carded for s in job.steps for r in s.task.readings}
        bands = [self.rows.band[r] for r in read if r in self.rows.band]
        return frozenset(name for band in bands for name in (band.of, band.by) if name)

    # the day
    @cached_property
    def begins(self) -> datetime | None:
        return self._at("work/begins")

    @cached_property
    def sunset(self) -> datetime | None:
        return self._at("work/sunset")

    def _at(self, name: str) -> datetime | None:
        said = self.words.get(name)
        return datetime.combine(self.day or self.today, time.fromisoformat(said)) if said else None

    @cached_property
    def day(self) -> date | None:
        return self._day("work/day")

    @cached_property
    def ready_by(self) -> date | None:
        return self._day("work/ready-by")

    def _day(self, name: str) -> date | None:
        said = self.words.get(name)
        return date.fromisoformat(said) if said else None

    # kit
    @cached_property
    def have(self) -> Have:
        """What is here, lacks and comes: as was said of each piece, or because its plate was read."""
        told = {
            name.partition("/")[2]: said
            for name, said in self.words.items()
            if name.startswith(("gear/", "parts/"))
        }  # fmt: skip
        implied = {piece for piece, name in IMPLIED.items() if name in self.answered and piece not in told}
        if self.words.get("jack/gauge", "none") != "none" and "jack-gauge" not in told:
            implied.add("jack-gauge")
        return Have(
            owned=frozenset(implied | {piece for piece, said in told.items() if said == HERE}),
            lacks=frozenset(piece for piece, said in told.items() if said == MISSING),
            comes={p: date.fromisoformat(said) for p, said in told.items() if said not in (HERE, MISSING)},
        )

    # drives
    @cached_property
    def incoming(self) -> Drive | None:
        """The drive that goes on: as was said, or the lone spare of the same design."""
        if not self.course.incoming:
            return None
        sits = self.yard.drive_at(self.trouble.corner)
        if self.taken == "rebuild now" or (sits and sits != self.outgoing):
            return sits
        said = self.words.get("work/incoming")
        if said:
            try:
                return self.yard.drive(said)
            except Faults:
                return None
        design = design_of(self.yard, self.trouble)
        alike = [d for d in self.yard.spares if design and d.design == design.id]
        return alike[0] if self.course.incoming == "spare" and len(alike) == 1 else None

    @cached_property
    def outgoing(self) -> Drive | None:
        return self.yard.drive(self.trouble.drive) if self.trouble.drive else self.yard.drive_at(self.trouble.corner)

    # what is missing
    def waits(self) -> tuple[Wait, ...]:
        """What its sheets wait for: by name of the sheet, in the order in which they are asked."""
        found = []
        wanted = (("Kit", self._jobs_want()), ("Steps", self._steps_want()), ("Fill and looks", self._fill_wants()))
        for sheet, names in wanted:
            missing = self._unknown(names)
            if missing:
                found.append(Wait(sheet, questions=missing))
        if self.taken not in NO_STEPS:
            found += self._refused()
        return tuple(found)

    def _jobs_want(self) -> Iterable[str]:
        """What says which steps there are."""
        if self.taken in NO_STEPS:
            return
        if self.on_a_way:
            yield "drive/built"
            if self.by != "machine":
                yield "lift-by"
        used = {when for when in self._conditions() if when in WHEN}
        yield from (WHEN[when][0] for when in WHEN if when in used)
        yield "work/hands"

    def _steps_want(self) -> Iterable[str]:
        if self.taken in NO_STEPS:
            return
        yield from self._jobs_want()
        if self.raises:
            yield from ("jack/gauge", "jack/piston", "walk-round/jack-plate")
        yield from (name for figure, (name, _) in FIGURES.items() if figure in self.asks)
        if "torque-window" in self.asks:
            yield from ("bolts/thread", "bolts/count", "bolts/head-mark", "bolts/grease")

    def _fill_wants(self) -> Iterable[str]:
        if self.fills:
            yield from ("oil/volume", "oil/kind", "drive/level-plug")
            if "fi-bleed" in self.tasks:
                yield "brake/fluid"

    @cached_property
    def fills(self) -> bool:
        return "fi-pour" in self.tasks

    @cached_property
    def on_a_way(self) -> bool:
        """Whether its course names what is to be done, and the job hangs on how the drive is built."""
        return any(way.job in self.course.uses for way in self.rows.ways)

    def _conditions(self) -> frozenset[str]:
        """The conditions that its jobs ask about."""
        every = Here(**{**{f: getattr(self.here, f) for f in Here.__slots__}, "when": frozenset(WHEN)})
        try:
            jobs = plan(self.rows, self.taken, every).now
        except NoWay:
            return frozenset()
        return frozenset(s.task.when for job in jobs for s in job.steps if s.task.when)

    def _unknown(self, names: Iterable[str]) -> tuple[Question, ...]:
        known = self.numbers.keys() | self.words.keys()
        return tuple(question(name) for name in dict.fromkeys(names) if name not in known)

    def _refused(self) -> Sequence[Wait]:
        """What no answer to a question lifts by itself."""
        if self.jobs is None:
            try:
                plan(self.rows, self.taken, self.here)
            except NoWay as no:
                return (Wait("Steps", str(no)),)
        found = []
        most = max((s.task for job in self.carded for s in job.steps), key=lambda task: task.hands, default=None)
        if most is not None and 0 < self.here.hands < most.hands:
            there = f"{self.here.hands} {'is' if self.here.hands == 1 else 'are'} named"
            found.append(Wait("Steps", f"{most.title}: it takes {most.hands} people, {there}. Name a second adult, or leave it."))  # fmt: skip
        if self.raises and not is_raised(self.yard, self.trouble):
            found.append(Wait("Steps", "No Support sheet is drawn for such a machine or corner, and without one nothing is raised."))  # fmt: skip
        if self.words.get("jack/gauge") == "none" and self.raises:
            found.append(Wait("Steps", "The jack has no gauge: without one nothing says what it carries."))
        return found


def work_of(yard: Yard, trouble: Trouble, today: date) -> Work | None:
    """The work of a trouble; None while no course is settled, or once it is put by."""
    taken = yard.course(trouble.number)
    return Work(yard, trouble, today, taken) if taken else None


def answered_by(wait: Wait, trouble: int) -> str:
    """The command that answers what a sheet waits for."""
    if not wait.questions:
        return ""
    first = wait.questions[0]
    given = f'"{first.example}"' if " " in first.example else first.example
    return f"draw-up {trouble} {first.id}={given}"


def page_of(asked: Question) -> str:
    """The group of questions whose page asks this one."""
    return "work" if asked.belongs("work") else asked.groups[0] if asked.group == "" and asked.groups else asked.group
