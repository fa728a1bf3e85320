"""The bolt figures: to scale, each number where its bolt is, ranges where their torques are."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from figures import measure
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.joints.order import cross_order, fitted_first
from axlewright.sheets.drawing import Area, Balloon, Circle, Dimension, Hatch, Path
from axlewright.sheets.figures import bolts, formulary
from axlewright.sheets.text import text

FLANGE = bolts.Flange(10, 0.335, 0.395, register=(0.26, 0.16), face=0.29)


def test_flange_is_to_scale() -> None:
    drawn = bolts.order(FLANGE, cross_order(10), text("10 on 335"))
    scale = bolts.scale_for(FLANGE.outside)
    diameters = {round(2 * one.r * scale / 1000, 4) for one in measure.of(drawn, Circle)}
    assert {0.335, 0.395, 0.26, 0.16, 0.29} <= diameters
    assert f"1:{scale:g}" in drawn.says
    assert not measure.off(drawn)
    assert not measure.words_off(drawn)


def test_numbers_stand_at_their_bolts_clockwise_from_the_top() -> None:
    order = fitted_first(cross_order(10), (3, 8))
    drawn = bolts.order(FLANGE, order, text("10 on 335"), fitted=(3, 8))
    balloons = measure.of(drawn, Balloon)
    assert [one.number for one in balloons] == [str(n) for n in range(1, 11)]
    for turn, bolt in enumerate(order):
        x, y = balloons[turn].at
        angle = math.degrees(math.atan2(x - 44, 46 - y)) % 360
        assert angle == pytest.approx(36.0 * (bolt - 1), abs=0.1)
    assert [one.number for one in balloons if one.ringed] == ["1", "2"]
    assert measure.said(drawn).count("guide bush") == 2


@settings(max_examples=25, deadline=None)
@given(st.integers(3, 32), st.floats(0.15, 0.9), st.floats(1.05, 1.5))
def test_bolts_never_overlap_and_stay_on_the_field(count: int, circle: float, wider: float) -> None:
    flange = bolts.Flange(count, circle, circle * wider)
    drawn = bolts.order(flange, cross_order(count), text("bolts"), fitted=(1, count // 2 + 1))
    balloons = measure.of(drawn, Balloon)
    assert not measure.off(drawn)
    for i, one in enumerate(balloons):
        for other in balloons[:i]:
            assert math.dist(one.at, other.at) >= one.r + other.r


def test_uneven_circle_keeps_its_angles() -> None:
    flange = replace(FLANGE, bolts=4, angles=(0.0, 80.0, 180.0, 260.0))
    drawn = bolts.order(flange, (1, 3, 2, 4), text("4"))
    at = [one.at for one in measure.of(drawn, Balloon)]
    assert at[2][0] == pytest.approx(
        44 + 1000 * 0.335 / 2 / bolts.scale_for(0.395) * math.sin(math.radians(80)), abs=0.01
    )
    words = [plain for (plain,) in bolts.order_words(flange, (1, 3, 2, 4), (3,))]
    assert words == ["1: at 12 o’clock", "2: at 6 o’clock, guide bush", "3: at half past 2", "4: at half past 8"]


ROWS = (
    bolts.Window(text("paste"), 210.0, 290.0, 350.0, text("210 to 290")),
    bolts.Window(text("oil"), 300.0, 420.0, 520.0, text("300 to 420"), 360.0, text("360")),
    bolts.Window(text("dry"), 640.0, 600.0, 700.0, text("no window")),
)


def drawn_windows(rows: tuple[bolts.Window, ...] = ROWS, book: float | None = 500.0):
    ticks = [(torque, text(f"{torque:g}")) for torque in (200.0, 400.0, 600.0)]
    return bolts.windows(rows, (100.0, 750.0), ticks, text("N·m"), book=book, book_words=text("book 500"))


def torque(x: float) -> float:
    return 100.0 + x / 88.0 * 650.0


def test_ranges_stand_where_their_torques_are() -> None:
    drawn = drawn_windows()
    edges = {}
    for hatch in measure.of(drawn, Hatch):
        (left, top), (right, _) = measure.edges(hatch.rings[0])
        edges[round(top, 1), hatch.fill] = (torque(left), torque(right))
    assert edges[13.8, "wearing"] == pytest.approx((100, 210), abs=0.1)
    assert edges[13.8, "failing"] == pytest.approx((290, 350), abs=0.1)
    assert edges[13.8, "let go"] == pytest.approx((350, 750), abs=0.1)
    assert edges[44.8, "wearing"][1] == pytest.approx(640, abs=0.1)  # no window: too slack until it may yield
    holds = [measure.edges(measure.path_points(p.d)) for p in measure.of(drawn, Path, role="outline")]
    assert [tuple(round(torque(x)) for x in (a[0], b[0])) for a, b in holds] == [(210, 290), (300, 420)]


def test_the_book_and_the_setting_cross_the_bars() -> None:
    drawn = drawn_windows()
    (book,) = measure.of(drawn, Path, role="solid-construction")
    (left, top), (right, foot) = measure.edges(measure.path_points(book.d))
    assert torque((left + right) / 2) == pytest.approx(500, abs=0.2)
    assert top < 13.8
    assert foot > 44.8
    (setting,) = measure.of(drawn, Path, role="solid")
    (left, _), (right, _) = measure.edges(measure.path_points(setting.d))
    assert torque((left + right) / 2) == pytest.approx(360, abs=0.2)
    assert not measure.of(drawn_windows(book=None), Path, role="solid-construction")
    for _, name in bolts.NAMED:
        assert name in measure.said(drawn)
    assert not measure.off(drawn)
    assert not measure.words_off(drawn)


@settings(max_examples=30, deadline=None)
@given(st.lists(st.floats(20e3, 300e3), min_size=1, max_size=5), st.floats(30e3, 250e3))
def test_words_under_the_rule_never_cross(limits: list[float], middle: float) -> None:
    marks = [bolts.Limit(at, text(f"yields {at / 1000:.0f}")) for at in limits]
    drawn = bolts.holds((0.8 * middle, middle, 1.2 * middle), marks, 320e3, text(f"{middle / 1000:.0f} kN"))
    assert not measure.off(drawn)
    assert not measure.words_off(drawn)
    boxes = [measure.word_box(label) for label in measure.of(drawn, measure.Label)]
    for i, one in enumerate(boxes):
        for other in boxes[:i]:
            assert not measure.cross(one, other)


def test_pull_stands_on_its_rule() -> None:
    drawn = bolts.holds((80e3, 100e3, 130e3), [bolts.Limit(150e3, text("yields"), must=True)], 200e3, text("100 kN"))
    left, right = (measure.edges(measure.path_points(p.d)) for p in measure.of(drawn, Path, role="solid"))
    assert left[0][0] / 88 * 200e3 == pytest.approx(80e3, rel=1e-3)
    assert right[1][0] / 88 * 200e3 == pytest.approx(130e3, rel=1e-3)
    (limit,) = measure.of(drawn, Path, role="limit")
    assert measure.path_points(limit.d)[0][0] / 88 * 200e3 == pytest.approx(150e3, rel=1e-3)


TYPED = formulary.Bolt(
    head=text("8.8"),
    thread=text("M16 × 2"),
    engaged=text("20 mm"),
    grease=(text("moly paste"), text("threads")),
    housing=text("iron 200"),
    clamp=text("60 kN"),
    torque=text("150 N·m"),
    window=text("130 to 175"),
    depth=20 / 16,
)


def test_bolt_asks_for_all_that_is_typed() -> None:
    drawn = formulary.bolt(TYPED)
    asked = {one.asks for kind in (Area, Dimension) for one in measure.of(drawn, kind)}
    assert asked == set(formulary.ASKS)
    assert not measure.off(drawn)
    assert not measure.words_off(drawn)
    assert "Set 150 N·m" in drawn.says
    areas = measure.of(drawn, Area)
    for i, one in enumerate(areas):
        assert all(not measure.cross(measure.edges(one.outline), measure.edges(other.outline)) for other in areas[:i])


@pytest.mark.parametrize("depth", [0.8, 1.25, 2.0])
def test_thread_is_as_deep_as_it_is_engaged(depth: float) -> None:
    drawn = formulary.bolt(replace(TYPED, depth=depth))
    (engaged,) = measure.of(drawn, Dimension, asks="engaged")
    (thread,) = measure.of(drawn, Dimension, asks="thread")
    assert (engaged.a[1] - engaged.b[1]) / (thread.b[0] - thread.a[0]) == pytest.approx(depth)
    assert not measure.off(drawn)


def test_bolt_without_a_result_has_no_torque_on_it() -> None:
    drawn = formulary.bolt(replace(TYPED, torque=(), window=()))
    assert not measure.of(drawn, Path, role="limit")
    assert "Set" not in drawn.says


@settings(max_examples=60, deadline=None)
@given(st.floats(120, 600), st.floats(4, 120), st.floats(0.0, 1.0))
def test_the_torque_to_set_never_stands_on_a_hatch(low: float, wide: float, share: float) -> None:
    high = low + wide
    chosen = low + share * wide
    row = bolts.Window(text("moly paste"), low, high, high + 20, text("x to y"), chosen, text(f"{chosen:.0f}"))
    drawn = drawn_windows((row,))
    said = f"{chosen:.0f}"
    (label,) = [one for one in measure.of(drawn, measure.Label) if measure.plain(one.words) == said and one.at[1] < 25]
    box = measure.word_box(label)
    for hatch in measure.of(drawn, Hatch):
        assert not measure.cross(box, measure.edges(hatch.rings[0])), hatch.fill
    assert not measure.words_off(drawn)
