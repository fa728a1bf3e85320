"""The season: what each machine still has to cut, when it is ripe, and what it is worth."""

from __future__ import annotations

from datetime import date
from typing import Annotated, ClassVar

from pydantic import Field, model_validator

from axlewright.kinds import KINDS
from axlewright.yard.records import Line, Prose, Record, Stated, Word

AreaStated = Annotated[Stated | None, KINDS["area"]]
FieldRateStated = Annotated[Stated | None, KINDS["field-rate"]]
DurationStated = Annotated[Stated | None, KINDS["duration"]]
AreaPriceStated = Annotated[Stated | None, KINDS["area-price"]]


class Season(Record):
    """One harvest year of the yard, and what weather its windows have as a rule."""

    what: ClassVar[str] = "season"
    id: Word = Field(examples=["2026"])
    climate: Word | None = Field(None, examples=["changeable"])
    note: Prose = Field("", examples=["Beet follows the maize"])


class Work(Record):
    """What one machine has to cut of one crop. A newer one of the same season, machine and crop stands in its place.

    `area` is all of it and `done` what was cut by `on`. `worth` is what the crop on a hectare brings, `hire` what a hired
    machine costs above the own running; `second` is an own machine that can finish it.
    """

    what: ClassVar[str] = "work"
    adds: ClassVar[bool] = True
    season: Word = Field(examples=["2026"])
    machine: Word = Field(examples=["bramble"])
    crop: Word = Field(examples=["whole-crop-maize"])
    on: date | None = Field(None, examples=["2026-08-20"])
    area: Annotated[Stated, KINDS["area"]] = Field(examples=["110 ha"])
    done: AreaStated = Field(None, examples=["30 ha"])
    starts: date = Field(examples=["2026-09-12"])
    ends: date = Field(examples=["2026-10-02"])
    rate: FieldRateStated = Field(None, examples=["1.6 ha/h"])
    hours_a_day: DurationStated = Field(None, examples=["9 h"])
    worth: AreaPriceStated = Field(None, examples=["1300 /ha"])
    hire: AreaPriceStated = Field(None, examples=["100 /ha"])
    second: Word | None = Field(None, examples=["linnet"])
    note: Line = Field("", examples=["Far fields first"])

    @model_validator(mode="after")
    def _ends_after_it_starts(self) -> Work:
        if self.ends <= self.starts:
            raise ValueError(f"It is ripe on {self.starts} and over on {self.ends}: that leaves no day to cut it.")
        if self.second == self.machine:
            raise ValueError("The second machine is another one than this.")
        return self

    @property
    def about(self) -> tuple[str, str, str]:
        """Which work it is: season, machine, crop."""
        return self.season, self.machine, self.crop
