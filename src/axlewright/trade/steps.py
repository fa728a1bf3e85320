"""The work itself as rows: networks of tasks, cautions, bands, compositions and courses, read from steps/*.toml.

A network is a file, its tasks in working order. What they must keep to besides their shape is in `steps_rules`; `steps_read.steps()` is the one way to all of them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field, model_validator

from axlewright.trade.rows import Row

# what carries the raised corner (a rated steel stand counts as wood); what carries wheel or drive
Corner: TypeAlias = Literal["none", "wheel", "jack", "wood"]
Load: TypeAlias = Literal["none", "ground", "bolted", "cradle", "pallet", "bench", "forks", "hook"]
Size: TypeAlias = Literal["small", "medium", "large"]
By: TypeAlias = Literal["saddle", "hook", "machine"]  # how a drive is carried off, or that it stays on the machine
Incoming: TypeAlias = Literal["", "spare", "used", "rebuilt"]
Edge: TypeAlias = tuple[float, float]


class Part(BaseModel):
    """A piece of a row."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Minutes(Part):
    """One job in ten is quicker than `low`, half are quicker than `likely`, one in ten is longer than `high` [min]."""

    low: float = Field(ge=0)
    likely: float = Field(gt=0)
    high: float = Field(gt=0)

    @model_validator(mode="after")
    def _rise(self) -> Minutes:
        if not self.low <= self.likely <= self.high:
            raise ValueError("minutes must rise from low over likely to high")
        return self


class Reading(Part):
    """A value that is written down. `card`: on the front of the step card."""

    id: str
    quantity: str
    unit: str
    limit: str
    card: bool = False


class Hold(Part):
    """What may not be passed: the acts it guards, what must be true, who says so, and how it is shown."""

    guards: tuple[str, ...] = Field(min_length=1)
    must: str
    who: str = Field(min_length=1)
    shown_by: Literal["reading", "second look"]
    readings: tuple[str, ...] = ()

    @model_validator(mode="after")
    def _shown(self) -> Hold:
        if self.shown_by == "reading" and not self.readings:
            raise ValueError("a hold shown by a reading must name its readings")
        return self


class Branch(Part):
    """A trouble on the way: its chance, what it is, the minutes more, and the gear to have near."""

    chance: float = Field(gt=0, lt=1)
    what: str
    extra_minutes: Minutes
    gear: tuple[str, ...] = ()


class Every(Part):
    """That a task comes again."""

    n: int = Field(ge=1)
    of: str


class Task(Row):
    """One step of the work."""

    id: str
    network: str
    title: str
    how: str
    where: str
    after: tuple[str, ...] = ()
    hands: int = Field(ge=0, le=4)
    minutes: Minutes
    scale: Literal["fixed", "mass", "count"]
    first: float = Field(ge=1, le=3)
    when: str = ""
    kept: str = ""
    scope: tuple[str, ...] = ()
    every: Every | None = None
    acts: tuple[str, ...] = ()
    gear: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    draws_on: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    hold: Hold | None = None
    readings: tuple[Reading, ...] = ()
    trouble_branches: tuple[Branch, ...] = ()
    corner: Corner
    load: Load
    end_day: bool
    ground: tuple[str, ...]
    weather: tuple[str, ...]


class Network(Row):
    id: str
    title: str
    sheet: str
    about: str
    own_card: bool = False  # worked on a step card of its own, beside that of the job it is part of
    tasks: tuple[Task, ...] = Field(min_length=1)


class Caution(Row):
    """What can hurt, and whom."""

    id: str
    severity: Literal["stop", "warn", "note"]
    text: str
    hurt: str

    @property
    def lead(self) -> str:
        """Its first sentence, printed in front; of a long one what stands before its colon."""
        first = self.text.split(". ", 1)[0].rstrip(".") + "."
        return first.split(": ", 1)[0] + ":" if len(first) > 90 and ": " in first else first

    @property
    def rest(self) -> str:
        return self.text.removeprefix(self.lead.rstrip(".")).lstrip(". ")


class Band(Row):
    """Go on, lower and ask, lower now: numbers, parts of a figure (`of`), edges given by an engine (`by`), or words."""

    readings: tuple[str, ...] = Field(min_length=1)
    unit: str
    mark: float = Field(1.0, gt=0)
    of: str = ""
    by: str = ""
    go: Edge | None = None
    ask: Edge | None = None
    words_go: tuple[str, ...] = ()
    words_ask: tuple[str, ...] = ()
    words_now: tuple[str, ...] = ()
    say_go: str = ""
    say_ask: str = ""
    say_low: str = ""  # for say_ask, below go on
    say_now: str = ""
    engines: tuple[str, ...] = ()

    @model_validator(mode="after")
    def _one_kind(self) -> Band:
        numbers, words = self.go is not None and self.ask is not None, bool(self.words_go)
        if [numbers, bool(self.by), words].count(True) != 1 or (self.go is None) != (self.ask is None):
            raise ValueError("a band is numbers (go and ask), or `by` an engine's name, or words: one of the three")
        if self.of and not numbers:
            raise ValueError("`of` needs go and ask")
        if self.go and self.ask and not self.ask[0] <= self.go[0] <= self.go[1] <= self.ask[1]:
            raise ValueError("go must lie inside ask")
        return self


class Use(Part):
    """A network as part of a composition."""

    use: str
    after: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    scope: str = ""


class Join(Part):
    task: str
    after: tuple[str, ...] = Field(min_length=1)


class Composition(Row):
    id: str
    title: str
    about: str
    parts: tuple[Use, ...] = Field(min_length=1)
    joins: tuple[Join, ...] = ()
    given: tuple[str, ...] = ()


class DriveKind(Row):
    id: str
    words: str
    watch: str


class Way(Row):
    """Which composition does a job for a drive of a kind, carried so."""

    job: str
    drive: str
    by: By
    use: str


class Course(Row):
    """What a course uses: compositions, networks or jobs (by `Way`), in order."""

    id: str
    uses: tuple[str, ...] = Field(min_length=1)
    later: tuple[str, ...] = ()
    if_raised: tuple[str, ...] = ()
    incoming: Incoming = ""
    note: str


class Apart(Row):
    """A network worked by itself, in no course."""

    id: str


class WayBack(Row):
    id: str
    blocks: tuple[str, ...] = Field(min_length=1)
    how: str
    minutes: float = Field(gt=0)


class Refusal(Row):
    id: str
    what: str
    why: str


class AfterCheck(Row):
    """A look that a job brings. `finds`: what it shows, as findings; else one of `answers`. `mornings`: days on which it is made too.

    `days`: so long after set-down it is made whatever the clock reads; for a machine that stands.
    """

    id: str
    look: str
    hours: tuple[float, ...] = Field(min_length=1)
    then_every: float | None = None
    acts: tuple[str, ...] = ()
    tasks: tuple[str, ...] = ()
    drives: tuple[Incoming, ...] = ()
    finds: tuple[str, ...] = ()
    answers: tuple[str, ...] = ()
    mornings: int = Field(0, ge=0)
    days: int | None = Field(None, ge=1)
    note: str = ""
    engine: str = ""


class FloorRule(Row):
    id: str
    what: str
    metres: float = Field(gt=0)
    why: str


class Rest(Part):
    corner: tuple[Corner, ...]
    load: tuple[Load, ...]


class Gauge(Part):
    reserve: float
    raising: float
    both_ways: float
    mark: dict[str, float]


class TwoStill(Part):
    ahead_h: tuple[float, ...]  # after the one that moved, then after each that is still
    still: int
    third: int


class DayRule(Part):
    before_sunset_min: float
    longest_h: float


class CardRule(Part):
    readings: int
    cautions: int


class MinutesRule(Part):
    quick: float
    long: float
    common: float


class SizeRule(Part):
    medium: Edge


class Rules(Row):
    """The few numbers that the rules use."""

    scale: dict[str, dict[Size, float]]
    size: SizeRule
    minutes: MinutesRule
    rest: Rest
    day: DayRule
    card: CardRule
    gauge: Gauge
    two_still: TwoStill


Words: TypeAlias = dict[str, str]


class Glossary(Row):
    """The short lists that keys are taken from, each with its words."""

    where: Words
    ground: Words
    weather: Words
    act: Words
    gear: Words
    parts: Words
    when: Words
    kept: Words
    every: Words
    scope: Words
    engine: Words


@dataclass(frozen=True)
class Steps:
    """All rows of the work."""

    networks: tuple[Network, ...]
    words: Glossary
    rules: Rules
    cautions: tuple[Caution, ...] = ()
    bands: tuple[Band, ...] = ()
    figures: Mapping[str, str] | None = None  # what a band may be a part of
    givers: Mapping[str, str] | None = None  # what may give a band's edges
    compositions: tuple[Composition, ...] = ()
    drives: tuple[DriveKind, ...] = ()
    ways: tuple[Way, ...] = ()
    courses: tuple[Course, ...] = ()
    apart: tuple[Apart, ...] = ()
    if_in_field: tuple[str, ...] = ()
    ways_back: tuple[WayBack, ...] = ()
    refusals: tuple[Refusal, ...] = ()
    after_checks: tuple[AfterCheck, ...] = ()
    floor: tuple[FloorRule, ...] = ()

    @cached_property
    def network(self) -> dict[str, Network]:
        return {n.id: n for n in self.networks}

    @cached_property
    def task(self) -> dict[str, Task]:
        return {t.id: t for n in self.networks for t in n.tasks}

    @cached_property
    def caution(self) -> dict[str, Caution]:
        return {c.id: c for c in self.cautions}

    @cached_property
    def composition(self) -> dict[str, Composition]:
        return {c.id: c for c in self.compositions}

    @cached_property
    def course(self) -> dict[str, Course]:
        return {c.id: c for c in self.courses}

    @cached_property
    def band(self) -> dict[str, Band]:
        """The band of each reading that has one."""
        return {reading: b for b in self.bands for reading in b.readings}

    @cached_property
    def reading(self) -> dict[str, Reading]:
        return {r.id: r for t in self.task.values() for r in t.readings}

    @cached_property
    def way_back(self) -> dict[str, WayBack]:
        """The way back from a block, by the block's first task."""
        return {block: w for w in self.ways_back for block in w.blocks}


class NotUsable(ValueError):
    """Rows that break a rule. `mistakes` holds all of them, each (where, what)."""

    def __init__(self, mistakes: tuple[tuple[str, str], ...]) -> None:
        self.mistakes = mistakes
        super().__init__("\n".join(f"{where}: {what}" for where, what in mistakes))
