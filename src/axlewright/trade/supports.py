"""What holds a machine: friction, stiffness, and figures of jack, crib and stand."""

from __future__ import annotations

from functools import cache

from axlewright.trade.rows import Row, rows
from axlewright.trade.si import Angle, Force, Length, Stiffness
from axlewright.trade.threads import Known


class _Held(Row):
    id: str
    known: Known


class Friction(_Held):
    """A design value of friction."""

    value: float


class StiffnessRow(_Held):
    """A stiffness [N/m]: low end, middle, high end."""

    value: tuple[Stiffness, Stiffness, Stiffness]


class HeldFigure(_Held):
    """A pure number."""

    value: float


class HeldLength(_Held):
    """A length [m]."""

    value: Length


class HeldAngle(_Held):
    """An angle [rad]."""

    value: Angle


class HeldForce(_Held):
    """A force [N]."""

    value: Force


@cache
def frictions() -> dict[str, Friction]:
    return {row.id: row for row in rows("supports.toml", "friction", Friction)}


@cache
def stiffnesses() -> dict[str, StiffnessRow]:
    return {row.id: row for row in rows("supports.toml", "stiffness", StiffnessRow)}


@cache
def held_figures() -> dict[str, HeldFigure]:
    return {row.id: row for row in rows("supports.toml", "figure", HeldFigure)}


@cache
def held_lengths() -> dict[str, HeldLength]:
    return {row.id: row for row in rows("supports.toml", "length", HeldLength)}


@cache
def held_angles() -> dict[str, HeldAngle]:
    return {row.id: row for row in rows("supports.toml", "angle", HeldAngle)}


@cache
def held_forces() -> dict[str, HeldForce]:
    return {row.id: row for row in rows("supports.toml", "force", HeldForce)}
