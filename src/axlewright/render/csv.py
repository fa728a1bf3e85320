"""A table for a spreadsheet, after RFC 4180: the unit in the head of its column, numbers with the reader's decimal mark.

With a decimal comma the fields are parted by semicolons, as spreadsheets of those countries do it. A text that a spreadsheet
would take for a formula gets an apostrophe before it, which spreadsheets read as "this is text".
"""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

Cell = str | float | int | bool | date | None
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20", "\u2212")
"""What a formula begins with in a spreadsheet; wide forms and the minus sign too, which some read as the plain ones."""
BEGINS = "\ufeff"  # byte order mark: without it spreadsheets take a file for the letters of one country
MEDIA = "text/csv; charset=utf-8; header=present"


@dataclass(frozen=True, slots=True)
class Table:
    """Heads of columns, with the unit in brackets where there is one, and rows of as many cells."""

    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def written(table: Table, decimal: Literal[".", ","] = ".") -> bytes:
    """The table as a file."""
    out = io.StringIO(newline="")
    write = csv.writer(out, delimiter=";" if decimal == "," else ",", lineterminator="\r\n")
    write.writerow([safe(head) for head in table.heads])
    for row in table.rows:
        write.writerow([cell(one, decimal) for one in row])
    return (BEGINS + out.getvalue()).encode()


def cell(one: Cell, decimal: Literal[".", ","]) -> str:
    """A cell as text. No number is none at all."""
    if one is None:
        return ""
    if isinstance(one, bool):
        return "yes" if one else "no"
    if isinstance(one, int):
        return str(one)
    if isinstance(one, float):
        return f"{one!r}".replace(".", decimal).removesuffix(f"{decimal}0") if math.isfinite(one) else ""
    if isinstance(one, date):
        return one.isoformat()
    return safe(one)


def safe(said: str) -> str:
    """A text that no spreadsheet takes for a formula."""
    return f"'{said}" if said.lstrip(" \u00a0").startswith(FORMULA) or said.startswith(("\t", "\r", "\n")) else said


def listed(heads: Sequence[tuple[str, str]], rows: Sequence[dict[str, Cell]]) -> Table:
    """A table out of rows by name: pairs of a head and the name under which its cell stands."""
    return Table(tuple(head for head, _ in heads), tuple(tuple(row.get(key) for _, key in heads) for row in rows))
