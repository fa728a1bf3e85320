"""Courses as the Choice sheet names them, and what things cost and take while nobody typed his own."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import cache

from pydantic import BaseModel, ConfigDict, Field, model_validator

from axlewright.kinds import KINDS
from axlewright.quantities import LogNormal, Tenths, parse
from axlewright.trade.rows import Row, rows, table
from axlewright.trade.si import Hours
from axlewright.trade.verdicts import Word

TENTHS_APART = 2.563  # standard deviations from one tenth to the other of a normal law


class CourseWords(Row):
    """What a course is called, whom to ring for it, and under which words of FIELD it may be taken.

    `fresh`: what must have been looked at lately, and the grades of which it must show one; else `why`, `lifted_by`.
    """

    id: str
    title: str = Field(max_length=60)
    does: str
    call: str
    orders: str = ""
    short: str
    field: tuple[Word, ...] = ()
    fresh: dict[str, tuple[str, ...]] = {}
    why: str = ""
    lifted_by: str = ""

    @model_validator(mode="after")
    def _says_why(self) -> CourseWords:
        if bool(self.fresh) != bool(self.why and self.lifted_by):
            raise ValueError("what asks for a look says why, and what lifts it")
        return self


class Item(Row):
    """A number that is taken while nobody gave his own; `none`: the chance that there is none to be had."""

    id: str
    kind: str
    values: tuple[str, str, str]
    none: float = Field(0.0, ge=0.0, lt=1.0)

    @model_validator(mode="after")
    def _rises(self) -> Item:
        if self.kind not in KINDS:
            raise ValueError(f"there is no kind {self.kind}")
        self.spread()
        return self

    def spread(self) -> Tenths | LogNormal:
        """The three values as a spread that never leaves what can be [SI].

        Raises:
            ValueError: they do not rise, or a chance could come out below 0 or over 1
        """
        low, middle, high = (parse(one, self.kind).si for one in self.values)
        if not self.id.startswith("chance/"):
            return LogNormal(middle, math.log(high / low) / TENTHS_APART)
        tenths = Tenths(low, middle, high)
        if 1.5 * low - 0.5 * middle < 0 or 1.5 * high - 0.5 * middle > 1:
            raise ValueError("such a chance could be less than 0 or more than 1")
        return tenths


class ClassOfDrives(BaseModel):
    """How long drives of a class stay sound, wearing and failing: medians [s], spreads, and how designs differ [-]."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    sound: tuple[Hours, float]
    wearing: tuple[Hours, float, float, Hours]
    failing: tuple[Hours, float]
    unit_spread: float
    between: tuple[float, float, float]
    used_hours: tuple[Hours, Hours, Hours]
    unknown_hours: tuple[Hours, Hours, Hours]
    fault_mean: Hours
    forgotten: Hours
    exposure: Hours
    source: str


class Numbers(BaseModel):
    """How looks are counted [SI]."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    check_every: Hours
    workday: Hours
    sure: float
    unsafe_limit: float
    source: str


@cache
def courses() -> Mapping[str, CourseWords]:
    """The words of the nine courses."""
    return {row.id: row for row in rows("choice.toml", "course", CourseWords)}


@cache
def items() -> Mapping[str, Item]:
    return {row.id: row for row in rows("choice.toml", "item", Item)}


@cache
def class_of_drives() -> ClassOfDrives:
    return ClassOfDrives.model_validate(table("choice.toml")["class"])


@cache
def numbers() -> Numbers:
    return Numbers.model_validate(table("choice.toml")["numbers"])
