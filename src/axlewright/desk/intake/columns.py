"""Which table a file is, which of its columns is which of ours, and in which units they stand."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from axlewright.desk.intake.csv_table import Table
from axlewright.desk.intake.found import Ask, TakeIn
from axlewright.trade.take_in import TABLES, Column, MeasureUnit, TableName, columns, measures, plain, spelled
from axlewright.yard import Fault, Faults, closest

NONE = "-"
_BRACKET = re.compile(r"(.*?)\s*[\[(]\s*([^\])]*?)\s*[\])]\s*")
_LOOSE = re.compile(r"(.*\S)(?:\s*[,/]\s*|\s+in\s+|\s+)(\S+(?:\s\S+)?)")
_RUN_TOGETHER = re.compile(r"(?<=[a-z])(?=[A-Z])")


@dataclass(frozen=True, slots=True)
class Columns:
    """Where our columns stand in a file: the place of each, and its unit."""

    table: TableName
    at: Mapping[str, tuple[int, ...]]
    units: Mapping[str, MeasureUnit]
    asks: tuple[Ask, ...]
    unknown: tuple[str, ...]

    def __contains__(self, column: object) -> bool:
        return column in self.at


def parted(header: str) -> tuple[str, str]:
    """A header as it is compared, and the unit in its brackets; the unit is empty without.

    >>> parted("Rain [mm]")
    ('rain', 'mm')
    """
    spaced = _RUN_TOGETHER.sub(" ", header) if " " not in header.strip() else header
    found = _BRACKET.fullmatch(spaced)
    return (plain(found[1]), found[2].strip()) if found else (plain(spaced), "")


def column_of(header: str, table: TableName) -> tuple[str, str] | None:
    """Our column that a header stands for, and its unit as written; None where it is none of them."""
    words = spelled(table)
    whole = plain(header.replace("(", " ").replace(")", " ").replace("[", " ").replace("]", " "))
    if whole in words:
        return words[whole], ""
    name, unit = parted(header)
    if name in words:
        return words[name], unit
    loose = _LOOSE.fullmatch(header.strip())
    if loose and (name := plain(loose[1])) in words:
        measure = columns(table)[words[name]].measure
        if (measure and measures()[measure].unit(loose[2])) or (not measure and plain(loose[2]) in ("h", "hrs")):
            return words[name], loose[2]
    return None


def is_known(header: str) -> bool:
    """Whether a header belongs to any of our tables."""
    return any(column_of(header, table) for table in TABLES)


def recognised(table: Table, deed: TakeIn) -> Columns:
    """The columns of a file.

    Raises:
        Faults: it is none of our tables, or what was said of it names no column
    """
    name = deed.table or _which(table)
    ours = columns(name)
    _names(deed, ours, table)
    at: dict[str, list[int]] = {}
    written: dict[str, str] = {}
    unknown: list[str] = []
    named = {plain(header): column for column, header in deed.columns.items() if header != NONE}
    for place, header in enumerate(table.headers):
        found = column_of(header, name)
        column = named.get(plain(header)) or (found[0] if found else "")
        if not column or (column in deed.columns and named.get(plain(header)) != column):
            unknown.append(header)
            continue
        at.setdefault(column, []).append(place)
        unit = found[1] if found and found[0] == column else parted(header)[1]
        written.setdefault(column, unit)
    asks = [*_twice(at, ours, table), *_missing(at, ours, table)]
    units, more = _units(at, ours, written, deed, table)
    return Columns(name, {key: tuple(places) for key, places in at.items()}, units, (*asks, *more), tuple(unknown))


def _which(table: Table) -> TableName:
    """The table that these headers belong to: what is needed stands there, and most of the others.

    Raises:
        Faults: to none of them
    """
    best: tuple[int, int, TableName] | None = None
    for rank, name in enumerate(TABLES):  # later ones say more by their columns
        ours, found = columns(name), {got[0] for header in table.headers if (got := column_of(header, name))}
        tells = [column for column in ours.values() if column.tells]
        here = all(column.id in found for column in ours.values() if column.needed)
        if here and (not tells or any(column.id in found for column in tells)):
            count = sum(column.id in found for column in tells) or (0 if "on" in _days(table) else 1)
            best = max(best or (0, 0, name), (count, rank, name))
    if best is None or not best[0]:
        heads = ", ".join(header or "(empty)" for header in table.headers[:8])
        what = f"The first line does not tell what this is: {heads}{' ...' if len(table.headers) > 8 else ''}."
        right = (
            "It names the columns: machine, date, hours; or date, rain (mm). take-in --list shows all; or say --table."
        )
        raise Faults(Fault("line 1", what, right))
    return best[2]


def _days(table: Table) -> set[str]:
    return {got[0] for header in table.headers if (got := column_of(header, "hours"))}


def _names(deed: TakeIn, ours: Mapping[str, Column], table: Table) -> None:
    """Raises:
    Faults: what was said names a column that neither we nor the file have
    """
    headers = {plain(header) for header in table.headers}
    bad: list[Fault] = []
    groups = {column.measure for column in ours.values() if column.measure}
    for column, header in deed.columns.items():
        if column not in ours:
            bad.append(Fault("columns", f"There is no column {column} here.", closest(column, ours)))
        elif header != NONE and plain(header) not in headers:
            bad.append(Fault("columns", f"The file has no column {header}.", closest(header, table.headers)))
    for column in deed.units:
        if column not in ours and column not in groups:
            bad.append(Fault("units", f"There is no column {column} here.", closest(column, ours)))
    if bad:
        raise Faults(*bad)


def _twice(at: Mapping[str, list[int]], ours: Mapping[str, Column], table: Table) -> list[Ask]:
    return [
        Ask(
            f"columns.{column}",
            f"{len(places)} columns may be the {column.replace('_', ' ')}.",
            tuple(table.headers[place] for place in places),
        )
        for column, places in at.items()
        if len(places) > 1 and not ours[column].several
    ]


def _missing(at: Mapping[str, list[int]], ours: Mapping[str, Column], table: Table) -> list[Ask]:
    return [
        Ask(f"columns.{column.id}", f"Which column is the {column.id}?", tuple(h for h in table.headers if h))
        for column in ours.values()
        if column.needed and column.id not in at
    ]


def _units(
    at: Mapping[str, list[int]],
    ours: Mapping[str, Column],
    written: Mapping[str, str],
    deed: TakeIn,
    table: Table,
) -> tuple[dict[str, MeasureUnit], list[Ask]]:
    """The unit of each column that has one: as said, as its header says, as every cell says; else it is asked.

    Raises:
        Faults: a unit that is none for this column
    """
    units: dict[str, MeasureUnit] = {}
    asks: dict[str, Ask] = {}
    for column, places in at.items():
        name = ours[column].measure
        if not name:
            continue
        measure = measures()[name]
        given = deed.units.get(column) or deed.units.get(name) or written.get(column, "")
        unit = measure.unit(given) if given else None
        symbols = tuple(one.is_ for one in measure.units)
        if unit:
            units[column] = unit
        elif given and (column in deed.units or name in deed.units):
            right = f"It is in {', '.join(symbols)}."
            raise Faults(Fault("units", f"{given} is no unit of {column.replace('_', ' ')}.", right))
        elif any(row.cells[places[0]].strip()[-1:].isdigit() for row in table.rows if places[0] < len(row.cells)):
            whose = name if name == "elements" else column
            header = table.headers[places[0]]
            asks.setdefault(whose, Ask(f"units.{whose}", f"In which unit is {header}?", symbols))
    return units, list(asks.values())
