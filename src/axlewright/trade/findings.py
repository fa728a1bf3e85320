"""Findings: what a look can show, in grades, and how much each grade says of the drive's condition."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from functools import cache, cached_property
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

from axlewright.trade.rows import Row, rows, table

Condition = Literal["sound", "wearing", "failing", "let go"]
CONDITIONS: tuple[Condition, ...] = ("sound", "wearing", "failing", "let go")
Likelihood = tuple[float, float, float, float]  # by condition, in their order


class Grade(BaseModel):
    """One grade of a finding; what the marks mean stands on top of findings.toml."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str
    words: str  # as a choice
    seen: str  # as a sentence's part: "chips on the plug"
    by: Literal["", "dial", "eye"] = ""
    good: bool = False
    stop: bool = False
    lasting: bool = False
    put_right: tuple[float, ...] = ()
    proof: bool = False
    least: Condition = "sound"
    exposure: bool = False
    p: Likelihood | None = None


class Finding(Row):
    """A thing seen or measured, with its grades in order."""

    id: str
    name: str
    look: str  # whose freshness counts
    group: str = ""
    ordered: bool = True  # from mild to bad; else several can be there at once
    picture: str = ""
    grades: tuple[Grade, ...] = Field(alias="grade")

    @model_validator(mode="after")
    def _tables_sum_to_one(self) -> Finding:
        for by, likelihoods in self.tables().items():
            if error := sum_error(likelihoods):
                raise ValueError(f"the table of {self.id} {by or ''} does not sum to 1: off by {error:g}")
        return self

    def grade(self, named: str) -> Grade:
        """The grade of this id.

        Raises:
            KeyError: there is none
        """
        return self.by_id[named]

    @cached_property
    def by_id(self) -> dict[str, Grade]:
        """Its grades by their ids."""
        return {grade.id: grade for grade in self.grades}

    def tables(self) -> dict[str, tuple[Likelihood, ...]]:
        """The probability tables, by the way it was measured: one likelihood for each grade, mildest first."""
        found: dict[str, list[Likelihood]] = {}
        for grade in self.grades:
            if grade.p is not None:
                found.setdefault(grade.by, []).append(grade.p)
        return {by: tuple(likelihoods) for by, likelihoods in found.items()}


class Group(Row):
    """Findings that share a cause: on one day the most telling counts in full, the others less."""

    id: str
    others: float


class HeatLimits(BaseModel):
    """Hub heat: kelvin over the twin, and kelvin absolute."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    warmer: float
    hot: float
    very_hot: float
    hot_at: float
    very_hot_at: float


class Numbers(BaseModel):
    """What the tables need besides."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    floor: float
    leak_before_breather_weight: float
    eye_sees_still: tuple[float, ...]
    rock_limit_without_book: float


@cache
def findings() -> dict[str, Finding]:
    """All findings by id."""
    return {finding.id: finding for finding in rows("findings.toml", "finding", Finding)}


@cache
def groups() -> dict[str, Group]:
    return {group.id: group for group in rows("findings.toml", "group", Group)}


@cache
def heat_limits() -> HeatLimits:
    return HeatLimits.model_validate(table("findings.toml")["heat"])


@cache
def numbers() -> Numbers:
    return Numbers.model_validate(table("findings.toml")["numbers"])


def sum_error(likelihoods: Sequence[Likelihood]) -> float:
    """The most by which the columns of a table miss 1, exactly as the decimals are written."""
    columns = zip(*likelihoods, strict=True)
    return float(max(abs(sum((Decimal(repr(p)) for p in column), Decimal(0)) - 1) for column in columns))


def order_breaks(likelihoods: Sequence[Likelihood]) -> int:
    """How often a worse grade speaks for a sounder condition, over all pairs of grades and of conditions."""
    exact = [[Decimal(repr(p)) for p in row] for row in likelihoods]
    conditions = range(len(CONDITIONS))
    return sum(
        exact[worse][b] * exact[mild][a] < exact[mild][b] * exact[worse][a]
        for mild in range(len(exact))
        for worse in range(mild + 1, len(exact))
        for a in conditions
        for b in conditions
        if b > a
    )


def floored(likelihood: Likelihood, share: float | None = None) -> Likelihood:
    """A grade's likelihood with the floor for a slip: only conditions worse than the one it speaks for most are lifted.

    So a good look may be a slip, and metal is never argued away. Proof (two zeros in front) takes no floor.
    """
    e = numbers().floor if share is None else share
    if likelihood[0] == 0 and likelihood[1] == 0:
        return likelihood
    most = max(range(4), key=lambda c: likelihood[c])
    mean = sum(likelihood) / 4
    sound, wearing, failing, let_go = (
        (1 - e) * p + e * mean if condition > most else p for condition, p in enumerate(likelihood)
    )
    return sound, wearing, failing, let_go


def by_eye(dial: Mapping[Condition, Sequence[float]], still_share: Sequence[float]) -> dict[Condition, float]:
    """The chance that bar and eye call it still, by condition, from the dial's chances of none, some, beyond, far."""
    return {
        condition: sum(p * share for p, share in zip(chances, still_share, strict=True))
        for condition, chances in dial.items()
    }
