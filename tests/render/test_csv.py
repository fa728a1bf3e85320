"""A table as CSV, read back by the standard library: every word, every number, and nothing that a spreadsheet would run."""

from __future__ import annotations

import csv
import io
import math
from datetime import date
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.render.csv import BEGINS, FORMULA, Cell, Table, safe, written

texts = st.text(st.characters(exclude_categories=("Cs",)), max_size=30)
cells: st.SearchStrategy[Cell] = st.one_of(texts, st.floats(), st.integers(), st.booleans(), st.dates(), st.none())
Decimal = Literal[".", ","]


def read(data: bytes, decimal: Decimal) -> list[list[str]]:
    text = data.decode("utf-8-sig")
    return list(csv.reader(io.StringIO(text, newline=""), delimiter=";" if decimal == "," else ","))


@settings(max_examples=80)
@given(st.lists(st.tuples(cells, cells, cells), max_size=5), st.sampled_from([".", ","]))
def test_what_was_written_is_read_back(rows: list[tuple[Cell, ...]], decimal: Decimal) -> None:
    data = written(Table(("a", "b [h]", "c"), tuple(rows)), decimal)
    assert data.startswith(BEGINS.encode())
    assert data.endswith(b"\r\n"), "RFC 4180, 2.1: a line ends in CRLF"
    found = read(data, decimal)
    assert found[0] == ["a", "b [h]", "c"]
    assert len(found) == len(rows) + 1
    for row, got in zip(rows, found[1:], strict=True):
        for cell, text in zip(row, got, strict=True):
            if isinstance(cell, bool):
                assert text == ("yes" if cell else "no")
            elif isinstance(cell, float):
                plain = text.replace(decimal, ".")
                assert (float(plain).hex() == cell.hex()) if text else not math.isfinite(cell)
            elif isinstance(cell, int):
                assert int(text) == cell
            elif isinstance(cell, date):
                assert date.fromisoformat(text) == cell
            else:
                assert text in (cell or "", f"'{cell}")


@settings(max_examples=100)
@given(st.sampled_from(FORMULA), st.sampled_from(["", " ", "  ", "\u00a0"]), texts, st.sampled_from([".", ","]))
def test_no_text_is_a_formula(sign: str, before: str, rest: str, decimal: Decimal) -> None:
    """What begins with a sign of a formula, also behind blanks, comes with an apostrophe before it."""
    typed = f"{before}{sign}{rest}"
    data = written(Table((typed,), ((typed,),)), decimal)
    for row in read(data, decimal):
        assert row[0] == f"'{typed}"


@pytest.mark.parametrize("typed", ["=1+1", "+1", "-2", "@SUM(A1)", "\t=1", '=cmd|"/c calc"!A1', "\uff1d1"])
def test_those_that_spreadsheets_are_known_to_run(typed: str) -> None:
    assert safe(typed) == f"'{typed}"


@pytest.mark.parametrize("typed", ["plug=paste", "a - b", "10 x M18", "", "3+4", "o'clock"])
def test_plain_words_stay_as_they_are(typed: str) -> None:
    assert safe(typed) == typed


def test_a_negative_number_is_a_number_and_stays_one() -> None:
    assert written(Table(("left [h]",), ((-2.5,), (-3,))), ",") == "\ufeffleft [h]\r\n-2,5\r\n-3\r\n".encode()
    assert written(Table(("a", "b"), ((1.0, 1e-9),)), ",").decode().splitlines()[1] == "1;1e-09"
