"""What the operations answer with: one model each, so that the description of an operation is what it gives."""

from __future__ import annotations

from datetime import date
from functools import cache
from typing import Annotated, Any, Literal, Union

from pydantic import BaseModel, ConfigDict, Field, create_model

from axlewright.yard import RECORDS
from axlewright.yard.records import Record


class Shape(BaseModel):
    """What all answers share: no field that is not described."""

    model_config = ConfigDict(extra="forbid")


def name_of(record: type[Record]) -> str:
    return "Kept" + record.__name__


def kept_of(record: type[Record]) -> type[Shape]:
    """A record in an answer, with what it is."""
    doc = f"What was kept: a {record.what}."
    what: Any = Literal[record.what]  # a word out of the table of records
    return create_model(name_of(record), __base__=Shape, __doc__=doc, what=(what, ...), record=(record, ...))


@cache
def done() -> type[Shape]:
    """What an operation that keeps something answers with."""
    any_of: Any = Union[tuple(kept_of(record) for record in RECORDS.values())]  # ruff: ignore[non-pep604-annotation-union]
    fields: dict[str, Any] = {
        "deed": (str, Field(description="its name", examples=["settle"])),
        "kept": (
            list[Annotated[any_of, Field(discriminator="what")]],
            Field(description="the records that came new; none where the same was sent before"),
        ),
        "files": (list[str], Field(description="files kept beside the records, such as a frozen pack")),
        "preview": (bool, Field(description="true: nothing was written")),
        "trouble": (int | None, Field(description="number of the trouble that it belongs to")),
        "stage": (str | None, Field(description="the stage that this trouble has come to")),
        "pack": (str | None, Field(description="key of the pack that was frozen")),
        "mark": (int, Field(description="mark of the yard as it stands now, for If-Match")),
    }
    return create_model("Done", __base__=Shape, __doc__="What a deed has changed.", **fields)


class YardSaid(Shape):
    """The yard, and how it likes its numbers."""

    name: str
    today: date
    measures: Literal["metric", "us"]
    decimal: Literal[".", ","]
    currency: str
    paper: Literal["A4", "Letter"]
    machines: int
    drives: int
    troubles: int
    mark: int


class ClockSaid(Shape):
    clock: Literal["engine", "threshing"]
    hours: float | None = Field(description="[h], as it was last read; null where nobody did")


class MachineSaid(Shape):
    id: str
    name: str
    kind: str | None
    corners: list[str]
    clocks: list[ClockSaid]


class MachinesSaid(Shape):
    machines: list[MachineSaid]


class DriveSaid(Shape):
    id: str
    name: str
    design: str | None
    sits: str = Field(description="a corner, shelf, bench or away")
    since: date | None
    numbers: list[str]
    hours: float | None = Field(description="[h] that it ran itself; null where nobody knows")
    about: float | None = Field(description="by how much that may be off [h]")


class DrivesSaid(Shape):
    drives: list[DriveSaid]


class CornerSaid(Shape):
    corner: str
    drive: str | None
    stands: str
    field: str
    road: str
    rows: list[str]
    trouble: int | None


class CornersSaid(Shape):
    yard: str
    today: date
    corners: list[CornerSaid]


class TroubleRow(Shape):
    number: int
    corner: str
    drive: str | None
    opened: date
    stage: str
    course: str | None


class TroublesSaid(Shape):
    troubles: list[TroubleRow]


class VerdictSaid(Shape):
    line: str
    word: str
    says: str
    rows: list[str]


class LookSaid(Shape):
    look: str
    minutes: float
    showed: list[str]
    would: dict[str, dict[str, str]]


class FirstLookSaid(Shape):
    """May it work, may it go on the road, and what to look at first."""

    corner: str | None
    trouble: int | None
    verdicts: list[VerdictSaid]
    make_safe: bool
    answer: str
    means: str
    next: str
    call: str
    date: str
    looks: list[LookSaid]


class FindingSaid(Shape):
    id: str
    finding: str
    grade: str
    on: date
    hours: float | None
    clock: str | None
    who: str
    note: str
    photo: str


class StageSaid(Shape):
    stage: str
    on: date
    who: str
    course: str | None
    pack: str | None
    note: str


class SheetNamed(Shape):
    name: str
    title: str


class TroubleSaid(TroubleRow):
    """A trouble as it stands."""

    note: str
    first_look: FirstLookSaid
    findings: list[FindingSaid]
    stages: list[StageSaid]
    sheets: list[SheetNamed] = Field(description="the sheets that would be drawn up now")
    walk_round_open: int = Field(description="boxes of the walk-round that are open")


class QuestionSaid(Shape):
    name: str
    of: str
    asks: str
    help: str
    answers: list[str]
    example: str
    value: str | None
    basis: str | None
    source: str | None
    missing: bool


class AskedSaid(Shape):
    trouble: int
    corner: str
    questions: list[QuestionSaid]


class FindOutThen(Shape):
    shows: str
    chance: float
    course: str


class FindOutSaid(Shape):
    name: str
    words: str
    minutes: float
    first: list[str]
    worth: float
    net: float
    then: list[FindOutThen]


class CourseSaid(Shape):
    course: str
    stopped: bool
    why: str | None = None
    lifted_by: str | None = None
    mean: float | None = None
    lets_go: float | None = None
    order_by: date | None = None
    too_late: bool | None = None


class ChoiceSaid(Shape):
    """What to do and what to find out next; money in the yard's currency, chances as shares of one."""

    trouble: int
    answer: str
    call: str
    decide_by: date | None
    first_look: bool
    find_out: list[FindOutSaid]
    courses: list[CourseSaid]


class CardNamed(Shape):
    revision: str
    job: str
    title: str


class AtStep(Shape):
    step: str
    number: int
    title: str


class WantSaid(Shape):
    reading: str
    words: str


class ReadSaid(Shape):
    reading: str
    value: str
    says: str | None
    who: str


class CardSaid(Shape):
    """How far the work of a step card came."""

    trouble: int
    stage: str
    card: CardNamed | None
    at: AtStep | None = None
    wants: list[WantSaid] = []
    done: int = 0
    of: int = 0
    readings: list[ReadSaid] = []


class ReadingSaid(Shape):
    step: str
    reading: str | None
    value: str
    on: date
    time: str
    hours: float | None
    clock: str | None
    taken: str
    who: str
    seen_by: str
    note: str


class ReadingsSaid(Shape):
    trouble: int
    readings: list[ReadingSaid]


class DueSaid(Shape):
    id: str
    what: Literal["after-check", "look", "decide"]
    corner: str
    trouble: int | None
    look: str | None
    words: str
    at: float | None
    clock: str | None
    on: date | None
    hours_left: float | None
    expected: date | None
    state: Literal["overdue", "today", "ahead"]


class DuesSaid(Shape):
    yard: str
    today: date
    due: list[DueSaid]


class GradeSaid(Shape):
    grade: str
    words: str
    stop: bool


class FindingNamed(Shape):
    finding: str
    name: str
    grades: list[GradeSaid]


class WordsSaid(Shape):
    """The words that deeds take: findings with their grades, courses, after-checks."""

    findings: list[FindingNamed]
    courses: list[str]


class CropSaid(Shape):
    season: str
    machine: str
    crop: str
    area: str
    done: str | None
    starts: date
    ends: date


class SeasonSaid(Shape):
    """What is still to be cut, by machine, in the order in which it is ripe."""

    work: list[CropSaid]


class PacksSaid(Shape):
    packs: list[str]


class PackSaid(Shape):
    key: str
    trouble: int | None
    corner: str
    on: date | None
    sheets: list[SheetNamed]
