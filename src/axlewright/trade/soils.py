"""Ground: what it is allowed to bear, and what a thumb tells of it."""

from __future__ import annotations

from functools import cache

from axlewright.trade.rows import Row, rows
from axlewright.trade.si import Stress
from axlewright.trade.threads import Known


class Soil(Row):
    """A kind of ground: pressure allowed (low end, middle, high end) and modulus (low, high) [Pa]."""

    id: str
    label: str
    allowed: tuple[Stress, Stress, Stress]
    modulus: tuple[Stress, Stress]
    known: Known


class Thumb(Row):
    """A class of the thumb test and the least unconfined strength in it [Pa]."""

    id: str
    says: str
    least: Stress
    known: Known


@cache
def soils() -> dict[str, Soil]:
    return {row.id: row for row in rows("soils.toml", "soil", Soil)}


@cache
def thumbs() -> dict[str, Thumb]:
    return {row.id: row for row in rows("soils.toml", "thumb", Thumb)}
