"""Drawings as SVG: every role has its ink in both styles, dimensions after ISO 129, words where they can be read."""

from __future__ import annotations

import re
from typing import get_args
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.render.draw import CLASSES, HATCHES, Pen, along, draw
from axlewright.render.geometry import Move
from axlewright.render.place import Saying, settle, shared
from axlewright.render.show import Show, Span, Words
from axlewright.render.svg import El, style, whole
from axlewright.sheets import Drawing, text
from axlewright.sheets.drawing import Area, Arrow, Dimension, Group, Hatching, Label, Leader, Path, Role, Shape
from render.packs import BASIS, DRAWING, HOSTILE, TORQUE

WORDS = Words(Show(), BASIS)
US = Words(Show(measures="us"), BASIS)
SVG = "{http://www.w3.org/2000/svg}"


def drawing(*shapes: Shape, width: float = 88.0, height: float = 40.0) -> Drawing:
    return Drawing(width=width, height=height, says="A trial.", shapes=shapes)


def parsed(one: Drawing, *, page: bool, words: Words = WORDS) -> ElementTree.Element:
    said = whole(draw(one, words, page=page), "trial", page=page)
    return ElementTree.fromstring(said)


def test_elements_escape_and_cut_their_numbers() -> None:
    said = str(El("text", "<b>&", El("tspan", "x"), class_='a"b', x=1.23456, transform=None))
    assert said == '<text class="a&quot;b" x="1.23">&lt;b&gt;&amp;<tspan>x</tspan></text>'


def test_every_role_and_hatching_has_its_ink() -> None:
    assert set(CLASSES) == set(get_args(Role))
    assert set(HATCHES) | {"let go"} == set(get_args(Hatching))


@pytest.mark.parametrize("page", [True, False])
def test_every_class_drawn_has_a_rule(page: bool) -> None:
    used = set(re.findall(r'class="([^"]+)"', draw(DRAWING, WORDS, page=page).body))
    rules = set(re.findall(r"\.([a-z][\w]*)", style(page=page))) | {"tap"}
    assert {name for names in used for name in names.split()} <= rules


def test_paper_has_no_variables_and_a_page_no_colours() -> None:
    paper = whole(draw(DRAWING, WORDS, page=False), page=False)
    assert "var(" not in paper  # typst drops such a line without a word
    assert not re.search(r"#[0-9a-f]{3}", style(page=True))


def test_both_styles_know_the_same_classes() -> None:
    page, paper = (set(re.findall(r"\.([a-z][\w]*)", style(page=one))) for one in (True, False))
    assert page == paper


def test_a_figure_says_what_is_seen_and_links_are_reachable() -> None:
    root = ElementTree.fromstring(whole(draw(DRAWING, WORDS, page=True), "f1", page=True))
    assert root.get("aria-labelledby") == "f1-t"
    assert root.findtext("title") == "A trial figure."
    assert root.findtext("desc") == "It holds every kind of shape."
    assert root.get("role") == "group"  # it holds a link
    assert ElementTree.fromstring(whole(draw(drawing(), WORDS, page=True), "f2", page=True)).get("role") == "img"


def test_on_paper_there_are_no_links_and_a_margin_for_thick_lines() -> None:
    root = parsed(DRAWING, page=False)
    assert root.get("viewBox") == "-1 -1 90 52"
    assert not list(root.iter(f"{SVG}a"))


def test_what_is_typed_comes_out_as_typed() -> None:
    root = parsed(drawing(Label(at=(2, 8), words=text(HOSTILE))), page=True)
    assert HOSTILE in ["".join(node.itertext()) for node in root.iter("text")]
    assert not list(root.iter("script"))


def lines_of(pen: Pen) -> list[list[float]]:
    return [
        [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", d)] for _, name, d in pen.marks if name == "d" for d in [d]
    ]


def dimensioned(**given: object) -> Pen:
    shape = Dimension.model_validate({"a": (10, 20), "b": (40, 20), "away": 6, "words": text("30")} | given)
    pen = Pen(WORDS, page=False)
    pen.dimension(shape, Move())
    return pen


def test_a_dimension_after_iso_129() -> None:
    """Extension lines from 0.8 off the object to 1.2 past the line, words 1 above it."""
    pen = dimensioned()
    first, second, line = lines_of(pen)
    assert first == [10, 19.2, 10, 12.8]
    assert second == [40, 19.2, 40, 12.8]
    assert line == [10, 14, 40, 14]  # left of the way from a to b is up
    assert pen.sayings[0].at == (25, 13)


def test_vertical_words_are_read_from_the_right() -> None:
    pen = dimensioned(b=(10, 50), direction="up", away=5)
    assert pen.sayings[0].turn == pytest.approx(-90)
    assert pen.sayings[0].at[0] == pytest.approx(10 + 5 - 1)  # left of the line


def test_arrows_stand_outside_under_seven_mm() -> None:
    heads = re.findall(r'd="M([-\d.]+)', "".join(said for _, name, said in dimensioned(b=(15, 20)).marks if not name))
    assert [float(x) for x in heads] == [10, 15]  # tips on the ends
    backs = re.findall(r"L([-\d.]+)", "".join(said for _, name, said in dimensioned(b=(15, 20)).marks if not name))
    assert max(float(x) for x in backs) > 15  # tails outside
    inner = re.findall(r"L([-\d.]+)", "".join(said for _, name, said in dimensioned().marks if not name))
    assert all(10 <= float(x) <= 40 for x in inner)


def test_a_mirrored_group_keeps_its_dimension_on_the_same_side_of_the_part() -> None:
    shape = Dimension(a=(10, 20), b=(40, 20), away=6, words=text("30"))
    pen = Pen(WORDS, page=False)
    pen.dimension(shape, Move(mirrored=True, by=(88, 0)))
    assert lines_of(pen)[-1] == [78, 14, 48, 14]


@pytest.mark.parametrize(("b", "way", "left"), [((9, 0), (1, 0), (0, -1)), ((0, 9), (0, 1), (1, 0))])
def test_left_of_the_way(b: tuple[float, float], way: tuple[float, float], left: tuple[float, float]) -> None:
    assert along((0, 0), b, "aligned") == (way, pytest.approx(left))


@pytest.mark.parametrize("words", [WORDS, US])
def test_words_do_not_collide_and_stay_in_their_field(words: Words) -> None:
    """Labels wanted on one place, at both edges: each is read alone, in either measures."""
    wanted = [(84.0, 20.0), (84.0, 20.0), (1.0, 2.0), (44.0, 20.0), (46.0, 21.0)]
    pen = Pen(words, page=False)
    for at in wanted:
        pen.label(Label(at=at, words=text("at ", TORQUE), anchor="start"), Move())
    pen.finish((88.0, 40.0))
    boxes = [saying.box(saying.taken) for saying in pen.sayings]
    for n, box in enumerate(boxes):
        assert box[0] >= -0.01
        assert box[1] >= -0.01
        assert box[2] <= 88.01
        assert box[3] <= 40.01
        assert all(
            min(box[2], b[2]) - max(box[0], b[0]) < 0.01 or min(box[3], b[3]) - max(box[1], b[1]) < 0.01
            for b in boxes[:n]
        )


@given(
    st.lists(st.tuples(st.floats(-10, 100), st.floats(-10, 60)), max_size=8),
    st.sampled_from(["start", "middle", "end"]),
)
def test_words_never_leave_the_field(places: list[tuple[float, float]], anchor: str) -> None:
    sayings = [Saying(at, ((Span("plain", "12 on 380"),),), 3.2, anchor) for at in places]  # type: ignore[arg-type]
    settle(sayings, [], (88.0, 50.0), 1.0)
    for saying in sayings:
        left, top, right, foot = saying.box(saying.taken)
        assert min(left, top) >= -1e-6
        assert right <= 88 + 1e-6
        assert foot <= 50 + 1e-6


def test_boxes_that_only_touch_share_nothing_but_air() -> None:
    assert shared((0, 0, 10, 4), (11, 0, 20, 4)) == 0
    assert shared((0, 0, 10, 4), (5, 1, 20, 3)) > 0


def test_a_leader_ends_at_its_words_dashed_where_nobody_looked() -> None:
    leader = Leader(at=(30, 30), to=((34, 12),), lines=(text("rock: not"), text("looked at")), unseen=True)
    pen = Pen(WORDS, page=False)
    pen.shapes((leader,), Move(), context=False)
    body = pen.finish((88, 40))
    assert 'class="h" d="M30 30L34 12"' in body
    assert 'class="es"' in body  # the shut eye
    assert '<circle class="i" cx="30" cy="30" r="0.6"/>' in body


def test_where_a_drawing_asks() -> None:
    tick = Leader(at=(30, 30), to=((34, 12),), lines=(text("breather"),), asks="where=breather")
    pick = Area(outline=((1, 1), (9, 1), (9, 5)), says="front left", asks="corner=front-left")
    typed = Dimension(a=(10, 20), b=(60, 20), away=6, words=text("d"), asks="diameter")
    asks = draw(drawing(tick, pick, typed), WORDS, page=True).asks
    assert [(ask.name, ask.value, ask.how) for ask in asks] == [
        ("where", "breather", "tick"),
        ("corner", "front-left", "pick"),
        ("diameter", "", "value"),
    ]
    assert asks[0].box == (30.5, 8.5, 37.5, 15.5)  # 7 mm about the end point
    assert asks[1].box == (1, 1, 9, 5)
    assert '<rect class="ft"' in draw(drawing(tick), WORDS, page=False).body  # paper has a box to tick


def test_a_smaller_figure_on_paper_keeps_its_words() -> None:
    one = drawing(Path(d="M0 0 80 0", role="outline"), Label(at=(40, 20), words=text("chock")))
    drawn = draw(one, WORDS, page=False, size=0.5)
    assert (drawn.width, drawn.height) == (44, 20)
    assert 'd="M0 0L40 0"' in drawn.body
    assert ' x="20" y="10"' in drawn.body


def test_context_recedes_in_a_group_and_lines_of_one_class_are_joined() -> None:
    thin = Path(d="M0 0 1 0", role="thin")
    body = draw(drawing(Group(shapes=(thin, thin), context=True), thin), WORDS, page=False).body
    assert body == '<g class="cx"><path class="t" d="M0 0L1 0M0 0L1 0"/></g><path class="t" d="M0 0L1 0"/>'


def test_words_keep_off_the_least_distance() -> None:
    """A name wanted on the primer line between centre of gravity and edge gives way; the line stays to be seen."""
    line = Arrow(points=((20.0, 30.0), (50.0, 30.0)), role="limit")
    name = Label(at=(30.0, 31.0), words=text("jack 4.4 t"), haloed=True)
    pen = Pen(Words(), page=False)
    pen.shapes((line, name), Move(), context=False)
    pen.finish((88.0, 60.0))
    (saying,) = pen.sayings
    _, top, _, foot = saying.box(saying.taken)
    assert foot < 30.0 or top > 30.0
