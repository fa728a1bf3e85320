"""Ways to tighten, wrenches, passes, locks, and when to look again."""

from __future__ import annotations

from functools import cache

from axlewright.trade.rows import Row, rows
from axlewright.trade.si import Force, Hours, Length, Torque
from axlewright.trade.threads import Known


class Method(Row):
    """A way to tighten, by its tightening factor: greatest over least preload."""

    id: str
    label: str
    low: float
    high: float
    known: Known


class Wrench(Row):
    """The error of a wrench, as standard deviation of the logarithm of its torque."""

    id: str
    label: str
    error: float
    known: Known


class WrenchUse(Row):
    """From which share of its range a wrench counts, what error stops, and the marks of common scales [N m]."""

    from_share: float
    doubt_limit: float
    marks: tuple[Torque, ...]
    known: Known


class PassShare(Row):
    """One pass as a share of the final torque."""

    share: float
    name: str
    known: Known


class Lock(Row):
    """A lock, and what re-tightening means with it."""

    id: str
    label: str
    retighten: bool
    does: str
    known: Known


class Again(Row):
    """When to look again where the book is silent [s]."""

    hours: tuple[Hours, ...]
    then_every: Hours
    still_in_a_row: int
    found_at: int  # a bolt that still moves at this check is a finding
    known: Known


class Loosening(Row):
    """How many times its torque an old bolt may want to break loose."""

    likely: float
    greatest: float
    known: Known


class Hands(Row):
    """What hands pull, and a common multiplier [N]."""

    easy: Force
    hard: Force
    multiplier_ratio: float
    multiplier_efficiency: float
    multiplier_arm: Length
    known: Known


class Feeler(Row):
    """The feeler that must not enter a seated face [m]."""

    gap: Length
    known: Known


@cache
def methods() -> dict[str, Method]:
    return {row.id: row for row in rows("tightening.toml", "method", Method)}


@cache
def wrenches() -> dict[str, Wrench]:
    return {row.id: row for row in rows("tightening.toml", "wrench", Wrench)}


@cache
def wrench_use() -> WrenchUse:
    return rows("tightening.toml", "wrench_use", WrenchUse)[0]


@cache
def pass_shares() -> tuple[PassShare, ...]:
    return rows("tightening.toml", "pass", PassShare)


@cache
def locks() -> dict[str, Lock]:
    return {row.id: row for row in rows("tightening.toml", "lock", Lock)}


@cache
def again() -> Again:
    return rows("tightening.toml", "again", Again)[0]


@cache
def loosening() -> Loosening:
    return rows("tightening.toml", "loosening", Loosening)[0]


@cache
def hands() -> Hands:
    return rows("tightening.toml", "hands", Hands)[0]


@cache
def feeler() -> Feeler:
    return rows("tightening.toml", "feeler", Feeler)[0]


class Book(Row):
    """What a sensible book torque does, as a share of proof load, and the units its number is mistaken between."""

    of_proof_least: float
    of_proof_most: float
    units: tuple[str, ...]
    known: Known


class Caution(Row):
    """What must not be missed when bolts are tightened."""

    id: str
    lead: str
    words: str


@cache
def book() -> Book:
    return rows("tightening.toml", "book", Book)[0]


@cache
def cautions() -> dict[str, Caution]:
    """By id, the most telling first."""
    return {row.id: row for row in rows("tightening.toml", "caution", Caution)}
