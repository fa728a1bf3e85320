"""Figures of the choice: flags at their days, no staff through a name, nothing off the field; the curve and its end."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from figures import measure
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.sheets.drawing import Drawing, Label, Path
from axlewright.sheets.figures.choice import Curve, Flag, decide_by, forecast, read_at
from axlewright.sheets.figures.shapes import FIELD
from axlewright.sheets.text import text

TODAY = date(2026, 8, 28)
BEGINS, ENDS = date(2026, 9, 12), date(2026, 9, 25)
NAMES = ("A used drive", "B exchange", "C rebuild", "D hire")
days = st.lists(st.integers(-25, 12), min_size=1, max_size=4, unique=True)


def rule(offsets: list[int]) -> Drawing:
    flags = [Flag(NAMES[n], TODAY + timedelta(days=off), n == 0) for n, off in enumerate(offsets)]
    return decide_by(flags, TODAY, BEGINS, ENDS, "maize")


def staffs(drawing: Drawing) -> list[tuple[float, float, float]]:
    """Upright lines of flags: place, top, foot."""
    found = []
    for shape in drawing.shapes:
        if isinstance(shape, Path) and shape.role in ("thin", "limit"):
            (x, top), (x_, foot) = measure.path_points(shape.d)[:2]
            if abs(x - x_) < 0.01 and foot > top:
                found.append((x, top, foot))
    return found


def names(drawing: Drawing) -> list[Label]:
    return [one for one in drawing.shapes if isinstance(one, Label) and measure.plain(one.words).startswith(tuple("ABCD"))]  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(days)
def test_no_staff_goes_through_a_name(offsets: list[int]) -> None:
    drawing = rule(offsets)
    for label in names(drawing):
        wide = 1.7 * len(measure.plain(label.words))
        for x, top, foot in staffs(drawing):
            inside = label.at[0] + 1.4 < x < label.at[0] + wide - 1
            crosses = top < label.at[1] - 1 and foot > label.at[1] - 2.5
            assert not (inside and crosses), (offsets, measure.plain(label.words), x)


@settings(max_examples=40, deadline=None)
@given(days)
def test_all_of_it_lies_on_the_field(offsets: list[int]) -> None:
    drawing = rule(offsets)
    for label in names(drawing):
        assert 0 <= label.at[0] <= FIELD
        assert label.at[1] > 2.0
    for x, _, foot in staffs(drawing):
        assert 0 <= x <= FIELD
        assert foot <= drawing.height


def test_flags_stand_in_the_order_of_their_days_to_scale() -> None:
    drawing = rule([-10, 0, 10])
    apart = [x for x, top, _ in staffs(drawing) if top < 20]
    assert max(apart) - min(apart) == pytest.approx(86 * 20 / ((ENDS - TODAY).days + 2 + 12), rel=0.02)


def test_two_courses_of_one_day_share_a_flag() -> None:
    flags = [Flag("A used drive", TODAY, True), Flag("B rebuild", TODAY)]
    said = [measure.plain(one.words) for one in names(decide_by(flags, TODAY, BEGINS, ENDS, "maize"))]
    assert len(said) == 1


CURVE = Curve((0.0, 50.0, 100.0), (1.0, 0.9, 0.8), (1.0, 0.85, 0.7), (1.0, 0.95, 0.9))


def test_the_curve_is_read_straight_between_its_points() -> None:
    assert read_at(CURVE, 0.0) == pytest.approx(1.0)
    assert read_at(CURVE, 25.0) == pytest.approx(0.95)
    assert read_at(CURVE, 100.0) == pytest.approx(0.8)
    assert read_at(CURVE, 500.0) == pytest.approx(0.8)  # no farther than it was asked


@pytest.mark.parametrize("clock", [None, 4730.0])
def test_the_forecast_says_hours_of_the_clock_or_from_now(clock: float | None) -> None:
    drawing = forecast(CURVE, (60.0, 70.0, 90.0), clock, text("14"), (text("harvest ends"),))
    said = [measure.plain(one.words) for one in drawing.shapes if isinstance(one, Label)]
    assert ("4 730" in said) == (clock is not None)
    assert "0" in said
    assert "100" in said
    assert "14" in said
    for point in measure.points(drawing):
        assert -1 <= point[0] <= FIELD + 1
