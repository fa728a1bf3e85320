"""The lines of a file, read cell by cell by our names of the columns."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from axlewright.desk.intake import cells
from axlewright.desk.intake.cells import Dates, Decimal, NotRead, empty
from axlewright.desk.intake.columns import Columns
from axlewright.desk.intake.csv_table import DELIMITERS, Row, Table
from axlewright.desk.intake.found import Ask, TakeIn
from axlewright.trade.take_in import columns, measures

NUMBERS = frozenset({"hours", "engine", "threshing", "about", "on_oil", "own"})
"""Columns of numbers beside those that have a measure."""
CALLED = {
    "on": "day", "hours": "hours of a clock", "engine": "engine clock", "threshing": "threshing clock",
    "clock": "which clock", "numbers": "numbers on it", "number": "sample number", "on_oil": "hours on the oil",
    "own": "hours of the drive", "added": "oil added",
}  # fmt: skip
"""What a column is called, where its name alone does not tell a person."""
HOURS = frozenset({"h", "hr", "hrs", "hour", "hours", "std"})


class BadCell(NotRead):
    """A cell that cannot be used, and in which column it stands."""

    def __init__(self, at: str, bad: NotRead) -> None:
        super().__init__(bad.what, bad.right)
        self.at = at


@dataclass(frozen=True, slots=True)
class Sheet:
    """A table whose columns are known, and how its numbers and days are to be read."""

    table: Table
    columns: Columns
    decimal: Decimal | None
    dates: Dates | None

    def lines(self) -> Iterator[Line]:
        return (Line(self, row) for row in self.table.rows)


@dataclass(frozen=True, slots=True)
class Line:
    """A line. Each of its ways to read a cell raises `BadCell` where the cell cannot be used."""

    sheet: Sheet
    row: Row

    @property
    def number(self) -> int:
        return self.row.number

    def header(self, column: str) -> str:
        places = self.sheet.columns.at.get(column)
        return self.sheet.table.headers[places[0]] if places else ""

    def texts(self, column: str) -> tuple[str, ...]:
        """All that stands in a column, where several may stand for it; empty cells left out."""
        places = self.sheet.columns.at.get(column, ())
        found = (self.row.cells[place].strip() for place in places if place < len(self.row.cells))
        return tuple(text for text in found if not empty(text))

    def text(self, column: str) -> str:
        for place in self.sheet.columns.at.get(column, ()):
            if place < len(self.row.cells) and not empty(self.row.cells[place]):
                return self.row.cells[place].strip()
        return ""

    def day(self, column: str) -> date:
        text = self.text(column)
        try:
            if not text:
                raise NotRead("The day is missing.", cells.EXAMPLE_DAY)
            return cells.day(text, self.sheet.dates)
        except NotRead as bad:
            raise BadCell(self.header(column), bad) from None

    def hours(self, column: str) -> float | None:
        """Hours as a number; h may stand behind it."""
        text = self.text(column)
        if not text:
            return None
        try:
            value, rest = cells.number(text, self.sheet.decimal or ".")
            if rest and rest.casefold().rstrip(".") not in HOURS:
                raise NotRead(f"{cells.short(text)} is no number of hours.", "Write 3370.5.")
            return value
        except NotRead as bad:
            raise BadCell(self.header(column), bad) from None

    def measured(self, column: str) -> tuple[float, bool] | None:
        """A value in the unit that is kept, and whether it is less than the laboratory can see: `<1`."""
        text = self.text(column)
        if not text:
            return None
        below = text[0] in "<≤"
        measure = measures()[columns(self.sheet.columns.table)[column].measure]
        try:
            value, rest = cells.number(text.lstrip("<≤ "), self.sheet.decimal or ".")
            unit = measure.unit(rest) if rest else self.sheet.columns.units.get(column)
            if unit is None:
                right = f"It is in {', '.join(one.is_ for one in measure.units)}."
                raise NotRead(f"{cells.short(text)} has no unit that is known here.", right)
            if value < 0:
                raise NotRead(f"{cells.short(text)} is less than nothing.", "Write 0 or more, or leave it empty.")
            return float(f"{value * unit.factor:.6g}"), below
        except NotRead as bad:
            raise BadCell(self.header(column), bad) from None

    def stated(self, column: str) -> str:
        """A value as text with its unit, kept as it stands; empty without."""
        text = self.text(column)
        if not text:
            return ""
        try:
            value, rest = cells.number(text, self.sheet.decimal or ".")
            unit = self.sheet.columns.units.get(column)
            symbol = rest or (unit.is_ if unit else "")
            if not symbol:
                raise NotRead(f"{cells.short(text)} has no unit.", "Write it behind the number.")
            return f"{value:.10g} {symbol}"
        except NotRead as bad:
            raise BadCell(self.header(column), bad) from None


def _dates(table: Table, known: Columns, deed: TakeIn, asks: list[Ask]) -> Dates | None:
    """What stands first in the days of a file; where that cannot be told it is asked."""
    if "on" not in known:
        return None
    at = known.at["on"][0]
    days = [(row.number, row.cells[at]) for row in table.rows if at < len(row.cells) and not empty(row.cells[at])]
    found = cells.dates_of(days, deed.dates)
    if not isinstance(found, cells.Two):
        return found
    ways = " or ".join(f"{day} ({way})" for way, day in found.ways.items())
    says = f"Line {found.line}: is {cells.short(found.text)} {ways}?"
    asks.append(Ask("dates", says, ("day-first", "month-first")))
    return None


def sheet_of(table: Table, known: Columns, deed: TakeIn) -> tuple[Sheet, tuple[Ask, ...], tuple[str, ...]]:
    """A table made ready to be read; what must be said first; and how it is read, in sentences."""
    asks: list[Ask] = []
    ours = columns(known.table)
    numbers = [places[0] for key, places in known.at.items() if key in NUMBERS or ours[key].measure]
    typed = [(row.number, row.cells[at]) for row in table.rows for at in numbers if at < len(row.cells)]
    decimal = cells.decimal_of(typed, table.delimiter, deed.decimal)
    if isinstance(decimal, cells.Two):
        ways = " or ".join(f"{value} (--decimal {mark})" for mark, value in decimal.ways.items())
        asks.append(Ask("decimal", f"Line {decimal.line}: is {decimal.text} {ways}?", (".", ",")))
        decimal = None
    dates = _dates(table, known, deed, asks)
    told = [f"Columns parted by {DELIMITERS.get(table.delimiter, table.delimiter)}, text in {table.encoding}."]
    if decimal:
        told.append(f"Decimal {'point' if decimal == '.' else 'comma'}.")
    if dates:
        told.append(f"The {dates.partition('-')[0]} stands first in its dates.")
    read_as = []
    for key, places in known.at.items():
        unit = known.units.get(key)
        heads = " and ".join(table.headers[place] for place in places)
        read_as.append(f"{heads} as {CALLED.get(key, key.replace('_', ' '))}{f' in {unit.is_}' if unit else ''}")
    told.append(f"Read: {'; '.join(read_as)}.")
    if known.unknown:
        told.append(f"Left alone: {', '.join(header or '(empty)' for header in known.unknown)}.")
    return Sheet(table, known, decimal, dates), tuple(asks), tuple(told)
