"""Pushes, wind, rolling: against work done on a turning body, and the limits."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.holding.supports import on_wheels
from axlewright.engines.holding.upsets import (
    brake_before_differential,
    chock_hold,
    climb_force,
    push_to_upset,
    rear_wheel_load,
    roll_demand,
    service_brake,
    wind_push,
)
from axlewright.engines.limits import OutOfRange

FEW = settings(max_examples=40, deadline=None)


def test_push_that_tips_is_the_slope_of_the_energy() -> None:
    """A small turn about the edge raises the weight and moves the push: their work is equal."""
    d, h, z, turn = 0.9, 1.6, 1.8, 1e-6
    raised = d * np.sin(turn) + h * (np.cos(turn) - 1)
    moved = z * np.sin(turn)
    assert push_to_upset(1e5, d, h, z, 0.5).tips == pytest.approx(1e5 * raised / moved, rel=1e-4)


def test_no_push_is_needed_at_the_tip_slope() -> None:
    got = on_wheels(1e5, -1.2, 0.03, 1.6, 2.7, 3.3)
    assert push_to_upset(1e5, got.left_distance, 1.6, 1.8, 0.5, got.tip_left).tips == pytest.approx(0, abs=1e-6)


def test_limits_of_a_push() -> None:
    got = push_to_upset(1e5, 0.9, 1.6, np.array([0.0, 1e-9, 2.0]), 0.5)
    assert np.isinf(got.tips[0])
    assert got.tips[1] > 1e12
    assert push_to_upset(1e5, 0.9, 1.6, 2.0, 0.3, np.arctan(0.3)).slides == pytest.approx(0, abs=1e-9)
    assert push_to_upset(1e5, -0.1, 1.6, 2.0, 0.3).tips < 0  # over already


def test_a_bar_never_tips_the_machine() -> None:
    assert push_to_upset(9e4, 0.9, 1.6, 2.0, 0.5).tips > 50 * 600


@FEW
@given(block=st.floats(0.0, 0.5), radius=st.floats(0.6, 1.1))
def test_climbing_is_the_least_force_along_the_climb(block: float, radius: float) -> None:
    """Second way: roll the wheel over the edge step by step; the push at the axle is greatest at the start."""
    force = float(climb_force(4e4, radius, block))
    start = np.arccos((radius - block) / radius)
    angles = np.linspace(0, start, 50)  # of the axle before the edge, from above it
    pushes = 4e4 * np.tan(angles)
    assert force == pytest.approx(pushes.max(), rel=1e-9, abs=1e-3)


def test_chock_holds_the_lesser_and_nothing_without_height() -> None:
    assert chock_hold(4e4, 0.85, 0.0, 0.4) == 0
    assert chock_hold(4e4, 0.85, 0.30, 0.3) == pytest.approx(0.3 * 4e4)
    assert chock_hold(4e4, 0.85, 0.02, 0.9) == pytest.approx(float(climb_force(4e4, 0.85, 0.02)))


@FEW
@given(slope=st.floats(-0.1, 0.1), pull=st.floats(0, 5e3))
def test_rolling_is_wanted_either_way_downhill(slope: float, pull: float) -> None:
    assert roll_demand(1e5, slope, pull) == pytest.approx(float(roll_demand(1e5, -slope, pull)))
    assert roll_demand(1e5, slope, pull) >= pull


def test_nothing_before_the_differential_holds_once_a_wheel_is_clear() -> None:
    down = np.array([True, True, False, False])
    whole = np.array([True, False, True, False])
    assert np.array_equal(brake_before_differential(2e4, 0.8, down, whole) > 0, [True, False, False, False])
    assert np.array_equal(service_brake(2e4, 0.8, down, whole) > 0, [True, False, False, False])
    assert service_brake(2e4, 0.8, True, True) == pytest.approx(2.5e4)


def test_wind_grows_with_the_square_of_its_speed() -> None:
    one, two = wind_push(10.0, 20.0, 2.0), wind_push(20.0, 20.0, 2.0)
    assert two.force == pytest.approx(4 * one.force)
    assert two.moment == pytest.approx(2.0 * two.force)


def test_rear_wheels_carry_pivot_and_axle_between_them() -> None:
    assert 2 * rear_wheel_load(3e4, 8e3) == pytest.approx(3.8e4)


@pytest.mark.parametrize("bad", [lambda: climb_force(1e4, 0.8, 0.9), lambda: roll_demand(1e5, 3.0),
                                 lambda: push_to_upset(0.0, 1, 1, 1, 0.5), lambda: chock_hold(1e4, 0.8, 0.2, -0.1),
                                 lambda: wind_push(-3.0, 20, 2), lambda: brake_before_differential(1e4, 0.0, True, True)])  # fmt: skip
def test_silly_inputs_are_refused(bad: object) -> None:
    with pytest.raises(OutOfRange):
        bad()  # type: ignore[operator]
