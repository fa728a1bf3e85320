"""Tables of others: what their columns are called, and the units that stand in them."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Literal, get_args

from pydantic import BaseModel, ConfigDict, Field

from axlewright.trade.rows import Row, rows

TableName = Literal["machines", "hours", "oil", "rain"]
TABLES: tuple[TableName, ...] = get_args(TableName)


class MeasureUnit(BaseModel):
    """A unit as people write it, and how much of the kept one it is."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    is_: str = Field(alias="is")
    also: tuple[str, ...] = ()
    factor: float


class Measure(Row):
    """What a column measures. `keeps`: the unit that is kept; empty where a value is kept as it stands, with its unit."""

    id: str
    keeps: str
    units: tuple[MeasureUnit, ...]

    def unit(self, spelled: str) -> MeasureUnit | None:
        """The unit that is meant, by any of its spellings."""
        wanted = plain(spelled)
        return next((one for one in self.units if wanted in {plain(one.is_), *map(plain, one.also)}), None)


class Column(Row):
    """A column of a table. `needed`: no table without it; `tells`: it gives the table away; `several` may stand for it."""

    table: TableName
    id: str
    words: tuple[str, ...]
    measure: str = ""
    needed: bool = False
    tells: bool = False
    several: bool = False


def plain(text: str) -> str:
    """A word without what people write differently: capitals, points, underscores, spaces side by side."""
    return " ".join(text.casefold().replace("_", " ").replace(".", " ").split())


@cache
def measures() -> Mapping[str, Measure]:
    return {row.id: row for row in rows("take_in.toml", "measure", Measure)}


@cache
def columns(table: TableName) -> Mapping[str, Column]:
    """The columns of a table by their names here."""
    return {row.id: row for row in rows("take_in.toml", "column", Column) if row.table == table}


@cache
def spelled(table: TableName) -> Mapping[str, str]:
    """By each spelling of a header the column that it stands for."""
    return {plain(word): row.id for row in columns(table).values() for word in (row.id, *row.words)}
