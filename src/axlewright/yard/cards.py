"""The records of work in hand: a step card begun, what was read and done by it, and the looks that follow."""

from __future__ import annotations

from datetime import date
from typing import Annotated, ClassVar, Literal, get_args

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, model_validator

from axlewright.yard.hours import Clock, Hours
from axlewright.yard.records import Course, Id, Line, Photo, Prose, Record, Word

Taken = Literal["page", "command", "paper", "photo"]
TAKEN: tuple[Taken, ...] = get_args(Taken)
"""How a reading came here: written on a page, typed as a command, typed back from paper, or a photo of the paper."""


def _time(text: str) -> str:
    hours, _, minutes = text.partition(":")
    if text and not (len(text) == 5 and hours.isdecimal() and minutes.isdecimal() and hours < "24" and minutes < "60"):
        raise ValueError("A time of day is written hours:minutes, as 14:20.")
    return text


TimeOfDay = Annotated[str, Field(max_length=5), AfterValidator(_time)]
Spot = Annotated[float, Field(ge=-100_000, le=100_000)]


class PrintedBand(BaseModel):
    """The band of a reading as it was printed, in the unit of its tool. An end that is left out is not there."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, str_strip_whitespace=True)

    reading: Word
    unit: Annotated[Line, Field(min_length=1)]
    mark: float = Field(1.0, gt=0)
    go_from: Spot | None = None
    go_to: Spot | None = None
    ask_from: Spot | None = None
    ask_to: Spot | None = None


class StepCard(Record):
    """A step card was begun: by which job, from which revision of the sheets, with which bands printed on it.

    A newer one of the same trouble makes the older void. What was done and read by the older one stays.
    """

    what: ClassVar[str] = "step card"
    adds: ClassVar[bool] = True
    trouble: int = Field(ge=1, examples=[3])
    revision: Line = Field("", examples=["C"])
    course: Course = Field(examples=["fit a spare"])
    job: Word = Field(examples=["swap-saddle"])
    drive: Word = Field("flange", examples=["flange"])
    by: Literal["saddle", "hook", "machine"] = Field("saddle", examples=["hook"])
    when: tuple[Word, ...] = Field((), examples=[["brake-at-drive"]])
    kept: tuple[Word, ...] = Field((), examples=[["ready-card"]])
    scope: Word | None = Field(None, examples=["seal"])
    size: Literal["small", "medium", "large"] = Field("medium", examples=["large"])
    hands: int = Field(2, ge=1, le=9, examples=[3])
    first_time: bool = Field(False, examples=[True])
    bands: tuple[PrintedBand, ...] = Field((), examples=[[{"reading": "crib-settle", "unit": "mm", "go_to": 2}]])
    on: date = Field(examples=["2026-08-28"])
    note: Prose = Field("", examples=["Rain until noon"])

    @model_validator(mode="after")
    def _each_once(self) -> StepCard:
        named = [band.reading for band in self.bands]
        if len(named) != len(set(named)):
            raise ValueError("A reading has one band on a card.")
        return self


class Reading(Record):
    """A value written down at a step or an after-check, as typed; or that a step was done. A wrong one is corrected by a new one.

    `reading` names what was read; without it the step itself was done, or its hold passed. `seen_by` is who looked second.
    """

    what: ClassVar[str] = "reading"
    adds: ClassVar[bool] = True
    trouble: int = Field(ge=1, examples=[3])
    step: Word = Field(examples=["ra-settle"])
    reading: Word | None = Field(None, examples=["crib-settle"])
    value: Annotated[Line, Field(min_length=1, examples=["1 mm"])]
    taken: Taken = Field("page", examples=["paper"])
    revision: Line = Field("", examples=["C"])
    seen_by: Line = Field("", examples=["helper"])
    on: date = Field(examples=["2026-08-28"])
    time: TimeOfDay = Field("", examples=["14:20"])
    hours: float | None = Field(None, ge=0, le=100_000, examples=[2650])
    clock: Clock | None = Field(None, examples=["engine"])
    photo: Photo = Field("", examples=["card.jpg"])
    note: Prose = Field("", examples=["Let down and pumped up again"])
    corrects: Id | None = Field(None, examples=["3-crib-settle"])

    def read(self) -> Hours | None:
        """The clock as it stood, if it was read."""
        return None if self.hours is None or self.clock is None else Hours(self.hours, self.clock)


class AfterCheck(Record):
    """A look that falls due after work: at which readings of the engine clock, on which mornings, or by which day at the latest.

    `due` and `second` are clock readings as printed, never hours from now. A newer one of the same look stands in its place.
    """

    what: ClassVar[str] = "after-check"
    adds: ClassVar[bool] = True
    trouble: int = Field(ge=1, examples=[3])
    look: Word = Field(examples=["wheel-nuts"])
    says: Line = Field("", examples=["wheel nuts, moved or still"])
    set_down: float = Field(ge=0, le=100_000, examples=[2650])
    due: tuple[Annotated[float, Field(ge=0, le=200_000)], ...] = Field((), examples=[[2651, 2660]])
    every: float | None = Field(None, gt=0, le=10_000, examples=[250])
    second: tuple[Annotated[float, Field(ge=0, le=200_000)], ...] = Field((), examples=[[1907.5, 1914]])
    mornings: tuple[date, ...] = Field((), examples=[["2026-08-29"]])
    by: date | None = Field(None, examples=["2027-04-25"])
    on: date = Field(examples=["2026-08-28"])
    corrects: Id | None = Field(None, examples=["3-wheel-nuts"])

    @model_validator(mode="after")
    def _comes_after(self) -> AfterCheck:
        if not self.due and not self.mornings:
            raise ValueError("A look falls due at a clock reading or on a morning: write due = [2651, 2660].")
        if list(self.due) != sorted(set(self.due)) or (self.due and self.due[0] < int(self.set_down)):
            raise ValueError("The readings at which it falls due come after set-down, each later than the one before.")
        return self
