"""Slings and the parts between hook and drive: limits, factors, step tables."""

from __future__ import annotations

from functools import cache
from typing import Literal

from pydantic import Field

from axlewright.quantities.units import NotRead
from axlewright.trade.rows import Row, rows
from axlewright.trade.si import Length, Mass
from axlewright.trade.threads import Known

Table = Literal["leg", "shackle", "eyebolt", "eyebolt-printed", "chain-edge"]
Choker = Literal["rope-or-web", "roundsling", "unknown"]
HAIR = 1e-9


class Chain(Row):
    """A chain sling: limits as its table prints them, the single leg first [kg]."""

    grade: Literal["8", "80", "100"]
    size: Length
    limits: tuple[Mass, ...]
    known: Known


class Never(Row):
    """What is no lifting gear."""

    id: str


class CodeChain(Row):
    """What a code allows for alloy chain of a size [kg]."""

    size: Length
    limit: Mass
    known: Known


class Web(Row):
    """A web sling's colour and its limit straight [kg]."""

    colour: str
    limit: Mass
    known: Known


class Factor(Row):
    """A factor by name."""

    id: str
    label: str = ""
    factor: float
    known: Known


class Step(Row):
    """A step of a table: holds up to and with its edge."""

    table: Table
    to: float
    factor: float
    says: str = ""
    known: Known


class Choke(Row):
    """A step of the choke angle: holds from its edge up, or only over it [degrees]."""

    kind: Choker
    start: float = Field(0.0, alias="from")
    over: float | None = None
    factor: float
    known: Known

    def holds(self, angle: float) -> bool:
        return angle > self.over if self.over is not None else angle >= self.start


class Shackle(Row):
    """A carbon bow shackle [kg]."""

    size: Length
    limit: Mass
    known: Known


class Eyebolt(Row):
    """A collar eyebolt: along the axis, at 45 degrees, at 90 degrees [kg]."""

    thread: str
    limits: tuple[Mass, Mass, Mass]
    known: Known


class SlingFigure(Row):
    """A figure by name."""

    id: str
    value: float
    known: Known


@cache
def chains() -> tuple[Chain, ...]:
    return rows("slings.toml", "chain", Chain)


@cache
def nevers() -> dict[str, Never]:
    return {row.id: row for row in rows("slings.toml", "never", Never)}


@cache
def code_chains() -> tuple[CodeChain, ...]:
    return rows("slings.toml", "code_chain", CodeChain)


@cache
def webs() -> dict[str, Web]:
    return {row.colour: row for row in rows("slings.toml", "web", Web)}


@cache
def modes() -> dict[str, Factor]:
    return {row.id: row for row in rows("slings.toml", "mode", Factor)}


@cache
def handlings() -> dict[str, Factor]:
    return {row.id: row for row in rows("slings.toml", "handling", Factor)}


@cache
def shackles() -> tuple[Shackle, ...]:
    return rows("slings.toml", "shackle", Shackle)


@cache
def eyebolts() -> dict[str, Eyebolt]:
    return {row.thread: row for row in rows("slings.toml", "eyebolt", Eyebolt)}


@cache
def stretches() -> dict[str, SlingFigure]:
    return {row.id: row for row in rows("slings.toml", "stretch", SlingFigure)}


@cache
def sling_figures() -> dict[str, SlingFigure]:
    return {row.id: row for row in rows("slings.toml", "figure", SlingFigure)}


@cache
def _steps(table: Table) -> tuple[Step, ...]:
    return tuple(sorted((s for s in rows("slings.toml", "step", Step) if s.table == table), key=lambda s: s.to))


@cache
def _chokes(kind: Choker) -> tuple[Choke, ...]:
    mine = (c for c in rows("slings.toml", "choke", Choke) if c.kind == kind)
    return tuple(sorted(mine, key=lambda c: -(c.start if c.over is None else c.over)))


def step(table: Table, value: float) -> Step:
    """The step of a table that holds at a value (degrees, or chain sizes).

    Raises:
        NotRead: the value is none of the table's
    """
    if not value >= 0:
        raise NotRead(f"{value:g}", "an angle from 0 degrees up")
    for row in _steps(table):
        if value <= row.to + HAIR:
            return row
    raise NotRead(f"{value:g}", f"at most {_steps(table)[-1].to:g}")


def choke_factor(kind: Choker, angle: float) -> float:
    """Share of the choker rating at a choke angle [degrees]; of the lower table where the kind is not known.

    Raises:
        NotRead: no angle of a choke
    """
    if not 0 <= angle <= 180:
        raise NotRead(f"{angle:g}", "a choke angle of 0 to 180 degrees")
    if kind == "unknown":
        return min(choke_factor("rope-or-web", angle), choke_factor("roundsling", angle))
    return next(row.factor for row in _chokes(kind) if row.holds(angle))


def chain(grade: str, size: float) -> Chain:
    """The row of a chain by grade and size [m].

    Raises:
        NotRead: no such chain, or one that is no lifting gear
    """
    if f"grade-{grade}" in nevers():
        raise NotRead(f"grade {grade}", "alloy chain: grade 8, 80 or 100", hint="farm chain is never lifting gear")
    for row in chains():
        if row.grade == grade and abs(row.size - size) < 0.0002:
            return row
    sizes = ", ".join(f"{row.size * 1000:.3g} mm" for row in chains() if row.grade == grade)
    raise NotRead(f"{size * 1000:.3g} mm of grade {grade}", sizes or "grade 8, 80 or 100")


def code_limit(size: float) -> float | None:
    """What a code's own table allows for alloy chain of a size [m -> kg]; None where it says nothing."""
    return next((row.limit for row in code_chains() if abs(row.size - size) < 0.0002), None)
