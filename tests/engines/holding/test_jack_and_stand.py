"""Jack and stand: a falling load by small steps of time, heights by hand, limits."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.holding.corner import corner_held
from axlewright.engines.holding.jack import (
    bites,
    deflection_at_load,
    gauge_pressure,
    jack_fit,
    jack_lean,
    jack_use,
    load_from_gauge,
    ram_area,
    stroke_needed,
    tyre_give,
)
from axlewright.engines.holding.stand import caught_by_second, stand_rating, stand_topple
from axlewright.engines.limits import OutOfRange

FEW = settings(max_examples=30, deadline=None)


@pytest.mark.parametrize("gap", [0.0, 0.001, 0.01])
def test_a_caught_load_is_that_of_a_fall_stepped_through_time(gap: float) -> None:
    weight, settlement = 5e4, 0.004
    k, m = weight / settlement, weight / 9.80665
    y, v, step, most = gap, 0.0, 1e-6, 0.0  # above the stand's top
    while v <= 0:
        v += (-9.80665 + k * max(-y, 0.0) / m) * step
        y += v * step
        most = max(most, k * max(-y, 0.0))
    got = caught_by_second(weight, gap, settlement)
    assert got.load == pytest.approx(most, rel=1e-3)
    assert got.before == 0


def test_stand_plates_and_toppling() -> None:
    assert np.array_equal(stand_rating(1e4, np.array([True, False])), [5e3, 1e4])
    assert stand_topple(6e4, 0.12, 0.6) == pytest.approx(1.2e4)
    with pytest.raises(OutOfRange):
        stand_topple(6e4, 0.12, 0.0)
    with pytest.raises(OutOfRange):
        caught_by_second(6e4, 0.001, 0.0)


@FEW
@given(share=st.floats(0, 0.3), od=st.floats(1.2, 2.2))
def test_loaded_radius_and_deflection_make_the_free_radius(share: float, od: float) -> None:
    give = tyre_give(od, 0.8, share)
    assert give.loaded_radius + give.deflection == pytest.approx(od / 2)
    assert give.section_height == pytest.approx((od - 0.8) / 2)


def test_stroke_lifts_the_wheel_clear_as_the_turning_body_says() -> None:
    """Raise the jack by the stroke: a point at the wheel's plane comes up by deflection and clearance."""
    stroke = float(stroke_needed(0.08, 0.04, 2.7, 0.35))
    held = corner_held(9e4, -1.2, 0.0, 1.6, 2.7, 3.3, 0.0, 0.0, 1.0, 0.0, stroke)
    wheel_rises = np.tan(float(held.roll)) * 3.3 / np.hypot(3.3, 1.35) * 2.7
    assert wheel_rises == pytest.approx(0.12, rel=0.01)


def test_stroke_takes_sink_and_shortening_at_the_jack_itself() -> None:
    assert stroke_needed(0.08, 0.04, 2.7, 0.35, 0.01, 0.02) == pytest.approx(
        float(stroke_needed(0.08, 0.04, 2.7, 0.35)) + 0.03
    )
    assert stroke_needed(0.08, 0.04, 2.7, 0.0) == pytest.approx(0.12)


@pytest.mark.parametrize(
    ("lift_point", "stroke", "under", "enough"),
    [(0.60, 0.15, True, True), (0.60, 0.12, True, False), (0.40, 0.15, False, False)],
)
def test_a_jack_goes_under_and_lifts_far_enough_or_says_so(
    lift_point: float, stroke: float, under: bool, enough: bool
) -> None:
    got = jack_fit(lift_point, 0.35, 0.10, stroke, 0.13)
    assert bool(got.goes_under) is under
    assert bool(got.enough) is enough


def test_proof_loads_are_no_reserve() -> None:
    use = jack_use(np.array([0.7, 0.8, 0.9, 1.0, 1.05]) * 1e5, 1e5)
    assert list(use.within_planning) == [True, True, False, False, False]
    assert list(use.accepted) == [True, True, True, True, False]
    with pytest.raises(OutOfRange):
        jack_use(1e5, 1e5, 1.1)


@FEW
@given(load=st.floats(1e4, 2e5), friction=st.floats(1.0, 1.1))
def test_gauge_up_and_down_give_back_the_load(load: float, friction: float) -> None:
    area = ram_area(0.06)
    up, down = gauge_pressure(load, area, friction), gauge_pressure(load, area, 2 - friction)
    assert load_from_gauge(up, down, area) == pytest.approx(load)


def test_bites_and_lean() -> None:
    assert list(bites(np.array([0.0, 0.05, 0.06, 0.061, 0.2]), 0.06)) == [0, 1, 1, 2, 4]
    assert np.degrees(jack_lean(0.05, 0.45)) == pytest.approx(6.34, abs=0.01)
    assert deflection_at_load(0.2, 1.0) == pytest.approx(0.2)
    assert deflection_at_load(0.2, 0.5) < 0.2
