"""The ready card: what is known stands on it with how it is known, what is not is a line to write on; one page of either paper."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from axlewright import store
from axlewright.plan.pack import pack
from axlewright.plan.sheet.ready_card import ready_cards
from axlewright.render import pdf, render
from axlewright.render.show import Show
from axlewright.sheets import Lines
from axlewright.yard import Answer, Change, Machine, Title, Yard

DAY = date(2026, 8, 28)
DEMO = store.at(store.DEMO).read()


def text_of(yard: Yard, machine: str, **how: Any) -> str:
    made = pack(ready_cards(yard, yard.machine(machine), DAY))
    return render(made, Show(**how), "text").decode().replace("\u00a0", " ").replace("\u202f", " ")


def lines_of(yard: Yard, machine: str) -> dict[str, bool]:
    """Every line by its label, and whether something stands on it."""
    sheet = ready_cards(yard, yard.machine(machine), DAY).sheets[0]
    blocks = [block for section in sheet.sections for block in section.blocks if isinstance(block, Lines)]
    return {line.label: bool(line.written) for block in blocks for line in block.lines}


@pytest.mark.parametrize("machine", [one.id for one in DEMO.machines])
@pytest.mark.parametrize(("paper", "measures"), [("A4", "metric"), ("Letter", "us")])
def test_it_is_one_page_of_either_paper(machine: str, paper: Any, measures: Any) -> None:
    made = pack(ready_cards(DEMO, DEMO.machine(machine), DAY))
    assert len(made.sheets) == 1
    assert pdf.render(made, Show(paper=paper, measures=measures))[:4] == b"%PDF"


def test_what_is_known_stands_there_with_how_and_its_source() -> None:
    told = text_of(DEMO, "linnet")
    answered = DEMO.answered(machine="linnet")["machine/lift-height"]
    assert f"{answered.value} ms" in told
    basis = ready_cards(DEMO, DEMO.machine("linnet"), DAY).basis
    assert all(entry.source for entry in basis.values())
    assert not any(entry.basis == "assumed" for entry in basis.values())


def test_a_machine_nobody_knows_is_all_blank_lines_with_their_units() -> None:
    bare = Yard.of([Title(name="T"), Machine(id="lark", name="Lark")])
    lines = lines_of(bare, "lark")
    assert len(lines) > 35
    assert not any(lines.values())
    assert f"{len(lines)} lines blank" in text_of(bare, "lark")
    us = Yard.of([Title(name="T", measures="us"), Machine(id="lark", name="Lark")])
    assert "lb" in text_of(us, "lark", measures="us")


def test_a_guess_leaves_its_line_blank_and_a_measurement_fills_it() -> None:
    def with_(basis: str) -> Yard:
        answer = Answer(id="a", name="machine/jack-ahead", value="60 mm", machine="linnet", on=DAY, basis=basis)  # type: ignore[arg-type]
        return DEMO.with_(Change((answer,)))

    label = "jack point ahead of the axle"
    assert not lines_of(DEMO, "linnet")[label]
    assert not lines_of(with_("assumed"), "linnet")[label]
    assert lines_of(with_("measured"), "linnet")[label]
    before, after = (text_of(yard, "linnet") for yard in (DEMO, with_("measured")))
    blanks = [int(text.split(" lines blank")[0].split()[-1]) for text in (before, after)]
    assert blanks[0] - blanks[1] == 1
