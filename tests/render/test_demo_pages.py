"""Every sheet of every trouble of the demo yard on paper: one page each, both papers, both measures."""

from __future__ import annotations

import io
from datetime import date
from typing import Any

import pypdf
import pytest

from axlewright.plan.drawn_up import draw_up
from axlewright.render import Show, pdf
from axlewright.store import DEMO, at

YARD = at(DEMO, date(2026, 8, 28)).read()


@pytest.mark.parametrize(
    "number", [trouble.number for trouble in YARD.troubles if YARD.stage(trouble.number) != "put by"]
)
def test_a_sheet_of_the_demo_is_one_page(number: int) -> None:
    made = draw_up(YARD, YARD.trouble(number), YARD.today(date(2026, 8, 28)))
    shows: list[Any] = [Show(paper="A4"), Show(paper="Letter", measures="us")]
    for show in shows:
        assert len(pypdf.PdfReader(io.BytesIO(pdf.render(made, show))).pages) == len(made.sheets)
