"""Verdict rules: what was seen, what margins there are, and what may be done then. Read by `plan/judge`, the only place that says a word."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

from axlewright.trade.findings import findings
from axlewright.trade.rows import Row, rows

Word = Literal["no", "not known", "only if", "yes"]
WORDS: tuple[Word, ...] = ("no", "not known", "only if", "yes")  # the earlier one wins
Pairs = dict[str, tuple[str, ...]]  # finding (or question) -> grades (or answers)
HELD = ("HOLDING", "LIFTING", "JOINT", "OIL", "BENCH RELEASE")


class _Part(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Provided(_Part):
    """One condition of an `only if`, and when it falls due in machine hours: once, or again and again.

    The hours run from the look for which the rule holds; those of `every`, from the last look at what `of` names.
    `met`: it is left out once these were looked at no earlier than that; `again`: once they were looked at later.
    """

    words: str
    within: float | None = None
    every: float | None = None
    of: tuple[str, ...] = ()
    met: tuple[str, ...] = ()
    again: tuple[str, ...] = ()


class Lift(_Part):
    """What would turn a `no`: what is then seen (and judged), or what is then said."""

    do: str
    shows: dict[str, str] = {}
    then: str = ""


class Told(Row):
    """A number in the words of rules, in SI."""

    id: str
    kind: str
    si: float
    toward: Literal["nearest", "down", "up"] = "nearest"


class Line(Row):
    """A line of verdicts, and the looks without which it is never `yes`."""

    id: str
    title: str
    needs: tuple[str, ...] = ()
    unlooked: str = ""


class _When(Row):
    """When a rule holds: every measure that it names must."""

    id: str
    any: Pairs = {}
    all: tuple[Pairs, ...] = ()
    none: Pairs = {}
    stale: tuple[str, ...] = ()
    fresh: tuple[str, ...] = ()
    holds: str = ""
    why: str
    lifted_by: str

    def named(self) -> Iterator[tuple[str, str]]:
        """Every pair that it names."""
        for pairs in (self.any, *self.all, self.none):
            for finding, grades in pairs.items():
                yield from ((finding, grade) for grade in grades)


class Rule(_When):
    """A row of FIELD and ROAD."""

    field: Word | Literal[""] = ""
    road: Word | Literal[""] = ""
    field_if: tuple[Provided, ...] = ()
    road_if: tuple[Provided, ...] = ()
    lift: tuple[Lift, ...] = ()

    @model_validator(mode="after")
    def _names_what_there_is(self) -> Rule:
        known = findings()
        for finding, grade in self.named():
            if finding not in known or grade not in {g.id for g in known[finding].grades}:
                raise ValueError(f"no finding {finding} with grade {grade}")
        asked = (name for one in (*self.field_if, *self.road_if) for name in (*one.of, *one.met, *one.again))
        for finding in (*self.stale, *self.fresh, *asked):
            if finding not in known:
                raise ValueError(f"no finding {finding}")
        if (self.field == "only if") != bool(self.field_if) or (self.road == "only if") != bool(self.road_if):
            raise ValueError("`only if` and its conditions go together")
        return self


class Question(Row):
    """What must be known beside the margins, with its answers, the good one first.

    `stops` says an answer that is a stop in words, `lifts` what would lift just that one; else the rule's own does.
    `found` are findings that give an answer by themselves, whatever was said.
    """

    id: str
    line: str
    asks: str
    answers: tuple[str, ...] = Field(min_length=2)
    given: Pairs = {}  # asked only where one of these was answered
    stops: Mapping[str, str] = {}
    lifts: Mapping[str, str] = {}
    found: Mapping[str, Pairs] = {}

    @model_validator(mode="after")
    def _of_its_answers(self) -> Question:
        if strange := {*self.stops, *self.lifts, *self.found} - {*self.answers}:
            raise ValueError(f"{self.id} has no answer {', '.join(sorted(strange))}")
        return self


class HeldRule(_When):
    """A row of HOLDING, LIFTING, JOINT, OIL or BENCH RELEASE: by answers, or by a margin at its careful end."""

    line: Literal["HOLDING", "LIFTING", "JOINT", "OIL", "BENCH RELEASE"]
    word: Word | Literal[""] = ""
    margin: str = ""
    no_below: float | None = None
    not_known_below: float | None = None
    only_if_below: float | None = None
    condition: str = ""
    given: Pairs = {}  # holds only where one of these was answered

    @model_validator(mode="after")
    def _by_answers_or_by_margin(self) -> HeldRule:
        limits = (self.no_below, self.not_known_below, self.only_if_below)
        if bool(self.margin) == bool(self.word) or bool(self.margin) != any(limit is not None for limit in limits):
            raise ValueError("a row says its word, or names a margin and its limits")
        if (self.word == "only if" or self.only_if_below is not None) and not self.condition:
            raise ValueError("`only if` without a condition")
        return self


@cache
def lines() -> dict[str, Line]:
    return {line.id: line for line in rows("verdicts.toml", "line", Line)}


@cache
def rules() -> tuple[Rule, ...]:
    """The rows of FIELD and ROAD, in their order."""
    return rows("verdicts.toml", "rule", Rule)


@cache
def told() -> Mapping[str, Told]:
    return {number.id: number for number in rows("verdicts.toml", "number", Told)}


@cache
def held_rules() -> tuple[HeldRule, ...]:
    """The rows of HOLDING, LIFTING, JOINT, OIL and BENCH RELEASE."""
    return rows("held.toml", "rule", HeldRule)


@cache
def questions() -> dict[str, Question]:
    return {question.id: question for question in rows("held.toml", "question", Question)}
