"""A table on a narrow screen: which is too tight for one field as it stands, and how its rows are laid there instead.

On paper and on wider screens it stays a table; only the style of a narrow screen reads what is said here.
"""

from __future__ import annotations

from typing import Any

Tree = dict[str, Any]
FIELD = 45  # letters of a table's size in 332 px, a field less its edges
GAP = 1.2  # letters between two columns
LEAST = 13  # letters: a column of words narrower than that stands one or two words a line
SHORT = 10  # letters: such a cell is not broken
LONGEST = 40  # letters: a longer cell asks for no more room than one of so many
LINES = 6  # a cell of more lines is no cell
LETTER = 0.62  # em, the width of a letter in a wide face


def narrow(table: Tree) -> Tree | None:
    """How a table's rows lie on a narrow screen, and where each cell stands there; nothing while it fits one field.

    `a`: the first cell and the short ones on a line, the long ones under it. `b`: a short first cell and the long one on
    a line, the short ones under it. `c`: cell under cell, each by its heading. `d`: of two long ones the first in small
    over the second. A column that is empty to be written in stands on paper alone.
    """
    columns, rows = table["columns"], [row["cells"] for row in table["rows"]]
    if len(columns) < 2 or len(columns) > 7 or not rows:
        return None
    most = [max(_length(row[n]) for row in rows) for n in range(len(columns))]
    if not _tight(columns, rows, most):
        return None
    filled = [n for n, letters in enumerate(most) if letters or not n]
    short = [n for n in filled if most[n] <= SHORT]
    long = [n for n in filled if n not in short]
    rest = [n for n in short if n]
    if rest and long and long[0] == 0:
        widths = " ".join(f"{_em(columns[n], most[n])}em" for n in rest)
        return _way(
            "a",
            f"minmax(0,1fr) {widths}",
            [_place(n, most, "" if n in short or n == 0 else "w") for n in range(len(columns))],
        )
    if rest and long == [1]:
        cells = ["", "s", *(_place(n, most, "n" if n == rest[0] else "") for n in range(2, len(columns)))]
        return _way("b", f"{_em(columns[0], most[0])}em repeat({len(rest)},minmax(0,1fr))", cells)
    return _way("d" if len(columns) == 2 else "c", "", [_place(n, most, "") for n in range(len(columns))])


def _place(column: int, most: list[int], place: str) -> str:
    return "e" if column and not most[column] else place


def _way(way: str, grid: str, cells: list[str]) -> Tree:
    return {"way": way, "grid": grid, "cells": cells}


def _tight(columns: list[Tree], rows: list[list[Any]], most: list[int]) -> bool:
    """Whether a column would stand one or two words a line, or a cell would be a pillar."""
    need = [
        max(_word(column["heading"]), letters if letters <= SHORT else min(letters, LEAST))
        for column, letters in zip(columns, most, strict=True)
    ]
    if sum(need) + GAP * (len(need) - 1) > FIELD:
        return True
    whole = sum(min(letters, LONGEST) for letters in most) or 1
    shares = [c["share"] or 100 * min(letters, LONGEST) / whole for c, letters in zip(columns, most, strict=True)]
    rooms = [max(FIELD * share / 100 - GAP, 1.0) for share in shares]
    return any(_length(cell) / room > LINES for row in rows for cell, room in zip(row, rooms, strict=True))


def _length(cell: list[list[str]]) -> int:
    return sum(len(said) for _, said, _ in cell)


def _word(heading: str) -> int:
    return max((len(word) for word in heading.split()), default=0)


def _em(column: Tree, letters: int) -> float:
    return round(LETTER * max(letters, _word(column["heading"]) * 0.9) + 0.5, 1)
