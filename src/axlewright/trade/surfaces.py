"""Faces: embedding, joint friction, and the bearing face of heads."""

from __future__ import annotations

from functools import cache
from typing import Literal

from pydantic import BaseModel, ConfigDict

from axlewright.trade.rows import Row, rows
from axlewright.trade.si import Length
from axlewright.trade.threads import Known

CLOSE = 1e-5  # m


class Depths(BaseModel):
    """How far a thread, a head or nut face and an inner joint bed in [m]."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    thread: Length
    head: Length
    joint: Length


class Embedding(Row):
    """Embedding of faces of one roughness (Rz in micrometres)."""

    id: str
    axial: Depths
    shear: Depths
    known: Known

    def total(self, load: Literal["axial", "shear"], heads: int = 1, joints: int = 1) -> float:
        """Thread, heads and inner joints together [m]."""
        depths = self.shear if load == "shear" else self.axial
        return depths.thread + heads * depths.head + joints * depths.joint


class Face(Row):
    """Friction of a joint face against sliding."""

    id: str
    label: str
    friction: float
    known: Known


class Film(Row):
    """Share of preload lost to something soft in the joint."""

    id: str
    loss_low: float
    loss_high: float
    known: Known


class Head(Row):
    """Bearing face under a hexagon head and its clearance hole [m]."""

    size: Length
    face: Length
    hole: Length
    known: Known


class HeadRule(Row):
    """Bearing face and hole in diameters, where no row stands."""

    face: float
    hole: float
    known: Known


@cache
def embeddings() -> dict[str, Embedding]:
    return {row.id: row for row in rows("surfaces.toml", "embedding", Embedding)}


@cache
def faces() -> dict[str, Face]:
    return {row.id: row for row in rows("surfaces.toml", "face", Face)}


@cache
def films() -> dict[str, Film]:
    return {row.id: row for row in rows("surfaces.toml", "film", Film)}


@cache
def heads() -> tuple[Head, ...]:
    return rows("surfaces.toml", "head", Head)


@cache
def head_rule() -> HeadRule:
    return rows("surfaces.toml", "head_rule", HeadRule)[0]


def head_of(diameter: float) -> Head:
    """The bearing face of a hexagon head of this size; from the rule where no row stands."""
    for row in heads():
        if abs(row.size - diameter) < CLOSE:
            return row
    rule = head_rule()
    return Head(
        size=diameter, face=rule.face * diameter, hole=rule.hole * diameter, known=rule.known, source=rule.source
    )
