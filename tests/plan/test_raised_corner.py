"""The blank Raised corner: one side, every line to write on, its tables rounded to the safe side."""

from __future__ import annotations

import io
import math

import pytest
from plan.held_cases import G, every_number_has_its_basis, read, shown_in
from pypdf import PdfReader

from axlewright.plan.drawn_up import BLANKS, blank
from axlewright.plan.reckon.raised_table import crib_table, heaviest_corners
from axlewright.plan.sheet.raised_corner import LIST, ORDER, STOPS, blank_raised_corner
from axlewright.render import render
from axlewright.render.show import Show


def test_it_is_a_blank_by_name() -> None:
    (sheet,) = blank("raised-corner").sheets
    assert sheet.name == "raised-corner"
    assert "raised-corner" in BLANKS
    assert sheet.block.form == "A"
    assert not sheet.verdicts
    assert not sheet.deciding


@pytest.mark.parametrize("measures", ["metric", "us"])
def test_one_side(measures: str) -> None:
    for paper in ("A4", "Letter"):
        pdf = render(blank("raised-corner"), Show(paper=paper, measures=measures), "pdf")  # type: ignore[arg-type]
        assert len(PdfReader(io.BytesIO(pdf)).pages) == 1


def test_every_line_and_stop_is_there() -> None:
    said = " ".join(read(blank_raised_corner()).split())
    for words in (*STOPS, *(label for label, _ in LIST), *(lead for lead, _ in ORDER)):
        assert words in said
    assert "Jacks lift, they do not hold." in said


def test_its_numbers_are_those_reckoned_rounded_to_the_safe_side() -> None:
    drawn = blank_raised_corner()
    every_number_has_its_basis(drawn)
    shown = {one.name: one for one in shown_in(drawn.sheets)}
    for row in heaviest_corners():
        assert shown[f"blank/{row.kind}/jack"].toward == "up"
        assert f"{math.ceil(row.jack / G / 100 - 1e-9) / 10:.1f} t" in read(drawn)
    for crib in crib_table():
        one = shown[f"blank/crib/{crib.section:g}/two"]
        assert (one.toward, one.si) == ("down", pytest.approx(crib.two / G))
