"""Weighing: each way back from loads that three supports or a lifted axle would show."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.holding.corner import corner_held, put_on
from axlewright.engines.holding.supports import on_wheels
from axlewright.engines.holding.weighing import (
    axle_loads,
    centre_from_scales,
    centre_from_share,
    grain_mass,
    height_by_raising_rear,
    height_from_gauge,
    maize_density,
    pitch_of_lift,
)
from axlewright.engines.limits import OutOfRange
from axlewright.quantities.units import parse

FEW = settings(max_examples=40, deadline=None)
SHAPE = (2.7, 3.3, 0.7, 0.1, 1.0, 0.6)  # track, wheelbase, pivot height, lift point


@FEW
@given(x=st.floats(-2, -0.5), y=st.floats(-0.2, 0.2))
def test_scales_give_back_the_place_they_were_read_from(x: float, y: float) -> None:
    shown = on_wheels(1e5, x, y, 1.6, 2.7, 3.3)
    got = centre_from_scales(
        *(load / 9.80665 for load in (shown.front_left, shown.front_right, shown.rear_pivot)), 3.3, 2.7
    )
    assert [got.x, got.y, got.mass * 9.80665] == pytest.approx([x, y, 1e5], abs=1e-6)


@FEW
@given(height=st.floats(1.0, 2.5), rise=st.floats(0.05, 0.4), y=st.floats(-0.1, 0.1))
def test_gauge_gives_back_the_height_it_was_read_at(height: float, rise: float, y: float) -> None:
    clear, raised = (corner_held(9e4, -1.2, y, height, *SHAPE, r).corner for r in (0.0, rise))
    assert height_from_gauge(clear, raised, -1.2, y, *SHAPE, rise) == pytest.approx(height, abs=1e-6)


def test_one_per_cent_in_the_ratio_is_about_a_tenth_of_a_metre() -> None:
    clear, raised = (corner_held(9e4, -1.2, 0.0, 1.6, *SHAPE, r).corner for r in (0.0, 0.2))
    off = height_from_gauge(clear, 0.99 * raised, -1.2, 0.0, *SHAPE, 0.2)
    assert off - 1.6 == pytest.approx(0.10, abs=0.05)


@FEW
@given(height=st.floats(1.0, 2.5), lift=st.floats(0.2, 1.0))
def test_lifted_rear_axle_gives_back_the_height(height: float, lift: float) -> None:
    """Second way: turn the centre of gravity about the front wheels' centre and take moments about it."""
    radius, base, mass, x = 0.85, 3.4, 11_000.0, -1.3
    tilt = float(pitch_of_lift(lift, base))
    behind = -x * np.cos(tilt) - (height - radius) * np.sin(tilt)
    gain = mass * (1 - behind / (base * np.cos(tilt))) - mass * (1 + x / base)
    assert height_by_raising_rear(mass, base, lift, gain, radius) == pytest.approx(height, abs=1e-6)


@FEW
@given(share=st.floats(0.1, 1.2))
def test_share_and_centre_are_one_thing_said_twice(share: float) -> None:
    assert axle_loads(5e4, centre_from_share(share, 3.6), 3.6).front_share == pytest.approx(share)


def test_header_on_moves_load_forward_past_the_front_axle() -> None:
    with_header = put_on(1e5, -1.2, 0, 1.6, 3e4, 2.2, 0, 0.8)
    off, on = axle_loads(1e5, -1.2, 3.4), axle_loads(with_header.weight, with_header.x, 3.4)
    assert on.rear < off.rear
    assert on.front - off.front > 3e4


def test_test_weight_is_a_density_that_a_units_table_knows() -> None:
    from axlewright.engines.holding.weighing import grain_density

    per_cubic_foot = 60 / 1.2444560185185  # a bushel of 2150.42 in^3 in ft^3
    assert grain_density(60 * 0.45359237) == pytest.approx(parse(f"{per_cubic_foot} lb/ft³", "density").si, rel=1e-6)


def test_wet_maize_is_lighter_and_grain_has_a_mass() -> None:
    assert maize_density(0.25) < maize_density(0.15)
    assert grain_mass(5.0, 700.0) == pytest.approx(3500)


@pytest.mark.parametrize("bad", [lambda: maize_density(15.0), lambda: grain_mass(-1.0, 700.0),
                                 lambda: centre_from_scales(0, 0, 0, 3.3, 2.7), lambda: centre_from_share(62.0, 3.3),
                                 lambda: height_by_raising_rear(1e4, 3.3, 3.4, 100, 0.8)])  # fmt: skip
def test_silly_inputs_are_refused(bad: object) -> None:
    with pytest.raises(OutOfRange):
        bad()  # type: ignore[operator]
