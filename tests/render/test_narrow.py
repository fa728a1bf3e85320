"""A table on a narrow screen: left alone while it fits, laid by rows when it does not, and no cell lost."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.render.html import stay
from axlewright.render.narrow import narrow

LONG = "Rock by dial, in a workshop with means for it: none or some, to the limit of the book"


def table(headings: list[str], *rows: list[str]) -> dict[str, Any]:
    """A table as the tree has it, every cell one plain run of words."""
    columns = [{"heading": heading, "right": False, "share": None} for heading in headings]
    return {"columns": columns, "rows": [{"cells": [[["plain", w, ""]] if w else [] for w in row]} for row in rows]}


@pytest.mark.parametrize(
    ("headings", "row", "way"),
    [
        (["look", "showed", "fresh to"], ["Breather", "free", "3 368"], None),
        (["name", "value"], ["wheel nuts", "10 of M22"], None),
        (
            ["you see", "field", "road", "it means"],
            ["wheel side wet, plug smooth", "not known", "not known", LONG],
            "a",
        ),
        (
            ["steps", "", "likely", "slow", "not after", "back in"],
            ["10 to 21", LONG, "1 h 42", "3 h 44", "15:01", "25 min"],
            "b",
        ),
        (["because", "do this", "then", "who, when"], ["chips on the plug", LONG, LONG, ""], "c"),
        (["source", "numbers"], [LONG * 4, LONG], "d"),
    ],
)
def test_what_does_not_fit_is_laid_by_rows(headings: list[str], row: list[str], way: str | None) -> None:
    found = narrow(table(headings, row))
    assert (found["way"] if found else None) == way


def test_a_column_to_be_written_in_is_left_to_the_paper() -> None:
    found = narrow(table(["because", "do this", "then", "who, when"], ["chips on the plug", LONG, LONG, ""]))
    assert found is not None
    assert found["cells"] == ["", "", "", "e"]


@given(st.lists(st.lists(st.text("ab ", max_size=60), min_size=4, max_size=4), min_size=1, max_size=5))
def test_no_cell_with_words_is_left_out(rows: list[list[str]]) -> None:
    """Only a column without a word is left out, and never the first; one mark stands for each column."""
    found = narrow(table(["one", "two", "three", "four"], *rows))
    if found:
        assert len(found["cells"]) == 4
        for place, mark in enumerate(found["cells"]):
            assert (mark == "e") == (place > 0 and not any(row[place] for row in rows))
        if found["grid"]:
            tracks = re.sub(r"repeat\((\d+),minmax\(0,1fr\)\)", lambda m: " ".join(["x"] * int(m[1])), found["grid"])
            assert len(tracks.split()) == sum(mark in ("", "n") for mark in found["cells"])


@given(st.integers(0, 10**6), st.sampled_from(["h", "min", "mm", "kg", "N·m", "km/h", "%"]))
def test_a_number_and_its_unit_stay_together(number: int, unit: str) -> None:
    said = stay(f"after {number} {unit}, then look")
    assert f"{number}\u00a0{unit}," in said
    assert said.replace("\u00a0", " ") == f"after {number} {unit}, then look"


def test_words_that_only_begin_like_a_unit_may_be_parted() -> None:
    assert stay("2 hands, 3 looks, 4 metres") == "2 hands, 3 looks, 4 metres"
