"""Timber: what each species and class bears across the grain, and real sizes."""

from __future__ import annotations

from functools import cache

from axlewright.trade.rows import Row, rows
from axlewright.trade.si import Length, Stress
from axlewright.trade.threads import Known


class Species(Row):
    """A species of the US code: reference value across the grain [Pa] and its wet factor."""

    id: str
    label: str
    also: tuple[str, ...] = ()
    across: Stress
    wet: float
    known: Known


class StrengthClass(Row):
    """A class of EN 338: characteristic strength across the grain [Pa]."""

    id: str
    across: Stress
    known: Known


class Standing(Row):
    """How long a load stands, and kmod for it outdoors."""

    id: str
    factor: float
    known: Known


class Figure(Row):
    """A pure number of timber work."""

    id: str
    value: float
    known: Known


class StressRow(Row):
    """A stress or modulus [Pa]."""

    id: str
    value: Stress
    known: Known


class Size(Row):
    """The real size of a nominal one [m]."""

    id: str
    real: Length
    known: Known


@cache
def species() -> dict[str, Species]:
    return {row.id: row for row in rows("timber.toml", "species", Species)}


@cache
def strength_classes() -> dict[str, StrengthClass]:
    return {row.id: row for row in rows("timber.toml", "strength_class", StrengthClass)}


@cache
def standings() -> dict[str, Standing]:
    return {row.id: row for row in rows("timber.toml", "standing", Standing)}


@cache
def figures() -> dict[str, Figure]:
    return {row.id: row for row in rows("timber.toml", "figure", Figure)}


@cache
def stresses() -> dict[str, StressRow]:
    return {row.id: row for row in rows("timber.toml", "stress", StressRow)}


@cache
def sizes() -> dict[str, Size]:
    return {row.id: row for row in rows("timber.toml", "size", Size)}
