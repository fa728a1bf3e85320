"""The blank sheets in the repository are what the program makes today."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader

from axlewright.plan.drawn_up import BLANKS, blank
from axlewright.render import render
from axlewright.render.show import Show

BLANK = Path(__file__).parents[2] / "blank"
MM = 72 / 25.4


@pytest.mark.parametrize("name", list(BLANKS))
@pytest.mark.parametrize(("paper", "width", "height"), [("A4", 210.0, 297.0), ("Letter", 215.9, 279.4)])
def test_a_blank_sheet_is_what_the_program_makes(name: str, paper: str, width: float, height: float) -> None:
    show = Show(paper="A4" if paper == "A4" else "Letter")
    file = BLANK / f"{name}-{paper.lower()}.pdf"
    again = f"make it anew: python run.py draw-up {name} --paper {paper} --to blank/{file.name}"
    assert file.read_bytes() == render(blank(name), show, "pdf"), again
    pages = PdfReader(file).pages
    assert len(pages) == len(blank(name).sheets)
    assert len(pages) == 1 or name == "grades"  # pictures of every grade, one sheet for each few looks
    for page in pages:
        size = float(page.mediabox.width) / MM, float(page.mediabox.height) / MM
        assert size == pytest.approx((width, height), abs=0.2)
