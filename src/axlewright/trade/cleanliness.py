"""How clean the oil of a drive is: classes, and what was seen in it."""

from __future__ import annotations

from functools import cache

from pydantic import Field

from axlewright.trade.rows import Row, rows


class Cleanliness(Row):
    """A class of ISO 4406, and the two numbers of its oil bath."""

    id: str
    factor: float = Field(gt=0)
    offset: float = Field(gt=0)


class SeenInOil(Row):
    """What was seen, and the most that e_C may be then."""

    id: str
    most: float = Field(ge=0, le=1)


@cache
def classes() -> dict[str, Cleanliness]:
    """All classes by id, cleanest first."""
    return {row.id: row for row in rows("cleanliness.toml", "class", Cleanliness)}


@cache
def seen_in_oil() -> dict[str, SeenInOil]:
    """What can be seen, best first."""
    return {row.id: row for row in rows("cleanliness.toml", "seen", SeenInOil)}
