"""Strips of dots: every dot counted, full ones at the foot, one axis for all, struck courses without strip or price."""

from __future__ import annotations

import re
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.render import html, text
from axlewright.render.dots import HIGHEST, LEFT, RIGHT, axis, drawn
from axlewright.render.show import Show, Words
from axlewright.sheets import DotStrip, Stopped, Strip
from axlewright.sheets.blocks import Dot
from axlewright.sheets.drawing import Circle, Drawing, Label
from render.packs import pack, sheet

WORDS = Words(Show(), {})
dots = st.lists(st.builds(Dot, at=st.floats(3000, 25000), full=st.booleans()), min_size=1, max_size=100)


def block(*strips: Strip, stopped: tuple[Stopped, ...] = ()) -> DotStrip:
    return DotStrip(quantity="money", low=3000.0, high=25000.0, strips=strips, stopped=stopped, note=("One dot.",))


def strip(given: list[Dot], letter: str = "A") -> Strip:
    mean = sum(dot.at for dot in given) / len(given)
    return Strip(letter=letter, label=("Used drive",), dots=tuple(given), middle=("7 340",), middle_at=mean)


def circles(drawing: Drawing) -> list[Circle]:
    return [shape for shape in drawing.shapes if isinstance(shape, Circle)]


@settings(max_examples=40, deadline=None)
@given(dots)
def test_every_dot_is_drawn_once_and_none_over_another(given: list[Dot]) -> None:
    made = circles(drawn(block(strip(given)), strip(given), WORDS))
    assert len({one.at for one in made}) == len(given)
    assert sum(one.role == "solid" for one in made) == sum(dot.full for dot in given)


@settings(max_examples=40, deadline=None)
@given(dots)
def test_full_dots_lie_at_the_foot_of_their_column_and_none_is_over_twelve_high(given: list[Dot]) -> None:
    made = circles(drawn(block(strip(given)), strip(given), WORDS))
    for x in {one.at[0] for one in made}:
        column = sorted((one for one in made if one.at[0] == x), key=lambda one: -one.at[1])
        assert len(column) <= HIGHEST
        assert sorted(column, key=lambda one: one.role != "solid") == column


def test_a_dot_lies_where_its_cost_is_on_the_axis() -> None:
    given = [Dot(at=value, full=False) for value in (3000.0, 14000.0, 25000.0)]
    places = sorted(one.at[0] for one in circles(drawn(block(strip(given)), strip(given), WORDS)))
    for place, wanted in zip(places, (LEFT, (LEFT + RIGHT) / 2, RIGHT), strict=True):
        assert abs(place - wanted) <= 0.71  # half a pitch


def test_the_ticks_of_the_axis_do_not_run_into_one_another() -> None:
    labels = [one for one in axis(block(strip([Dot(at=4000.0, full=False)])), WORDS).shapes if isinstance(one, Label)]
    assert len(labels) >= 3
    for one, other in pairwise(sorted(one.at[0] for one in labels)):
        assert other - one > 8


def test_a_stopped_course_is_struck_with_what_would_lift_it_and_has_no_number() -> None:
    out = Stopped(letter="B", label=("Run it",), why=("FIELD is no.",), lifted_by=("the cover off.",))
    made = pack(sheet(block(strip([Dot(at=4000.0, full=True)]), stopped=(out,))))
    page, said = html.render(made, Show()).decode(), text.render(made, Show()).decode()
    assert "<s>Run it</s>" in page
    assert re.search(r"\[struck: Run it\] stopped: FIELD is no\.\n +Lifted by: the cover off\.", said)
    struck = re.sub(r"<[^>]*>", "", page.split('aria-label="Stopped">')[1].split("</ol>")[0])
    assert struck
    assert not re.search(r"\d", struck)


def test_the_words_of_a_strip_count_what_let_go() -> None:
    given = [Dot(at=4000.0 + n, full=n < 3) for n in range(20)]
    said = text.render(pack(sheet(block(strip(given)))), Show()).decode()
    assert "let go in 3 of 20" in said
