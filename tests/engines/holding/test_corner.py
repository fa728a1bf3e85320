"""A corner held and raised: against rotation by a general library, a simulation's ratios, the hand formula, and laws."""

from __future__ import annotations

import numpy as np
import pytest
from engines.holding.simulation import simulated
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.gravity import weight_of
from axlewright.engines.holding.corner import (
    block_gap_closed,
    corner_held,
    jack_inboard,
    load_relieved,
    put_on,
    taken_off,
)
from axlewright.engines.holding.supports import Point, on_wheels, three_supports
from axlewright.engines.limits import OutOfRange

SHAPE = {"track": 2.7, "wheelbase": 3.3, "pivot_height": 0.7, "lift_x": 0.1, "lift_y": 1.0, "lift_z": 0.6}
CENTRE = {"centre_x": -1.15, "centre_y": 0.03, "centre_z": 1.6}
FEW = settings(max_examples=50, deadline=None)


def turned_by_library(point: np.ndarray, about: np.ndarray, axis: np.ndarray, angle: float) -> np.ndarray:
    from scipy.spatial.transform import Rotation

    return about + Rotation.from_rotvec(axis / np.linalg.norm(axis) * angle).apply(point - about)


@FEW
@given(rise=st.floats(0.001, 0.5), side=st.sampled_from([-1.0, 1.0]))
def test_turn_and_drift_agree_with_a_rotation_by_a_library(rise: float, side: float) -> None:
    shape = {**SHAPE, "lift_y": side * SHAPE["lift_y"]}
    got = corner_held(95e3, **CENTRE, **shape, rise=rise)
    wheel, pivot = np.array([0, -side * 1.35, 0]), np.array([-3.3, 0, 0.7])
    lift = np.array([0.1, side * 1.0, 0.6])
    turns = [turned_by_library(lift, wheel, pivot - wheel, s * float(got.roll)) for s in (-1, 1)]
    top = max(turns, key=lambda p: p[2])
    assert top[2] - 0.6 == pytest.approx(rise, abs=1e-9)
    assert [float(got.drift_x), float(got.drift_y)] == pytest.approx(list((top - lift)[:2]), abs=1e-9)
    assert np.sign(got.drift_y) == -side  # towards the standing wheel


@FEW
@given(rise=st.floats(0, 0.4), side=st.floats(-0.1, 0.1), a=st.floats(-0.05, 0.05), b=st.floats(-0.05, 0.05))
def test_mirror_image_gives_the_mirror_result(rise: float, side: float, a: float, b: float) -> None:
    left = corner_held(95e3, **{**CENTRE, "centre_y": side}, **SHAPE, rise=rise, nose_down=a, left_down=b)
    right = corner_held(
        95e3, **{**CENTRE, "centre_y": -side}, **{**SHAPE, "lift_y": -1.0}, rise=rise, nose_down=a, left_down=-b
    )
    for name in ("corner", "other_wheel", "rear_pivot", "roll", "drift", "tip_near", "tip_far", "tip_least"):
        assert getattr(left, name) == pytest.approx(float(getattr(right, name)), abs=1e-7)
    assert left.drift_y == pytest.approx(-float(right.drift_y), abs=1e-9)


@FEW
@given(rise=st.floats(0, 0.4), a=st.floats(-0.05, 0.05), b=st.floats(-0.05, 0.05))
def test_the_three_loads_are_the_weight(rise: float, a: float, b: float) -> None:
    got = corner_held(95e3, **CENTRE, **SHAPE, rise=rise, nose_down=a, left_down=b)
    assert got.corner + got.other_wheel + got.rear_pivot == pytest.approx(95e3)


def test_at_its_own_wheel_and_not_raised_it_is_the_machine_on_its_wheels() -> None:
    wheels = on_wheels(95e3, **CENTRE, track=2.7, wheelbase=3.3, pivot_height=0.7)
    held = corner_held(95e3, **CENTRE, **{**SHAPE, "lift_x": 0.0, "lift_y": 1.35, "lift_z": 0.0})
    for here, there in (
        (held.corner, wheels.front_left),
        (held.other_wheel, wheels.front_right),
        (held.rear_pivot, wheels.rear_pivot),
        (held.tip_near, wheels.tip_left),
        (held.tip_far, wheels.tip_right),
        (held.front_distance, wheels.front_distance),
    ):
        assert here == pytest.approx(float(there))


def test_raising_agrees_with_the_hand_formula() -> None:
    """R(r) = W (d - h tan r)/(D - z tan r), levers and heights about the line other wheel to pivot."""
    level, raised = (corner_held(95e3, **CENTRE, **SHAPE, rise=rise) for rise in (0.0, 0.18))
    wheel, pivot = np.array([0, -1.35]), np.array([-3.3, 0.0])
    along = (pivot - wheel) / np.linalg.norm(pivot - wheel)

    def lever(x: float, y: float) -> tuple[float, float]:
        v = np.array([x, y]) - wheel
        return float(abs(along[0] * v[1] - along[1] * v[0])), float(along @ v) / float(np.linalg.norm(pivot - wheel))

    d, part = lever(-1.15, 0.03)
    big, lift_part = lever(0.1, 1.0)
    tan = np.tan(float(raised.roll))
    by_hand = 95e3 * (d - (1.6 - 0.7 * part) * tan) / (big - (0.6 - 0.7 * lift_part) * tan)
    assert level.corner == pytest.approx(95e3 * d / big)
    assert raised.corner == pytest.approx(by_hand, rel=0.004)
    assert raised.corner < level.corner
    assert raised.other_wheel > level.other_wheel


def test_raised_loads_agree_with_pedestals_at_the_turned_points() -> None:
    got = corner_held(95e3, **CENTRE, **SHAPE, rise=0.2)
    top = Point(0.1 + got.drift_x, 1.0 + got.drift_y, 0.8)
    now = Point(got.centre_x, got.centre_y, got.centre_z)
    loads, stayed = simulated(95e3, now, [top, Point(0, -1.35, 0), Point(-3.3, 0, 0.7)], 0.0, 0.0)
    assert stayed
    assert np.allclose([got.corner, got.other_wheel, got.rear_pivot], loads, rtol=2e-3)


@FEW
@given(inboard=st.floats(0, 1.2))
def test_inboard_jack_is_three_supports_on_the_axle_line(inboard: float) -> None:
    wheels = on_wheels(95e3, **CENTRE, track=2.7, wheelbase=3.3)
    by_lever = jack_inboard(wheels.front_left, 2.7, inboard)
    whole = three_supports(
        95e3, Point(-1.15, 0.03, 1.6), Point(0, 1.35 - inboard, 0), Point(0, -1.35, 0), Point(-3.3, 0, 0)
    )
    assert by_lever.jack == pytest.approx(float(whole.first))
    assert wheels.front_right + by_lever.other_wheel_change == pytest.approx(float(whole.second), abs=1e-6)
    assert wheels.rear_pivot == pytest.approx(float(whole.third))


def test_a_part_taken_off_relieves_the_crib_as_the_three_supports_say() -> None:
    wheel, at = float(weight_of(610)), (0.0, 1.35, 0.85)
    shape = {**SHAPE, "lift_x": 0.0}
    before = corner_held(95e3, **CENTRE, **shape)
    left = taken_off(95e3, *CENTRE.values(), wheel, *at)
    after = corner_held(left.weight, left.x, left.y, left.z, **shape)
    assert before.corner - after.corner == pytest.approx(float(load_relieved(wheel, 0.0, 2.7, 0.35)))
    back = put_on(left.weight, left.x, left.y, left.z, wheel, *at)
    assert [back.weight, back.x, back.y, back.z] == pytest.approx([95e3, *CENTRE.values()])


@FEW
@given(rise=st.floats(0.01, 0.25), arm=st.floats(0.1, 1.0))
def test_block_closes_by_what_the_other_one_opens(rise: float, arm: float) -> None:
    shape = {k: SHAPE[k] for k in ("track", "wheelbase", "pivot_height", "lift_x", "lift_y", "lift_z")}
    far = block_gap_closed(**shape, rise=rise, block_arm=arm)
    roll = float(corner_held(1.0, **CENTRE, **SHAPE, rise=rise).roll)
    assert 0 < far <= arm * np.sin(roll) + 1e-12  # the line of turning is not quite fore and aft
    assert far == pytest.approx(arm * np.sin(roll) * 3.3 / np.hypot(np.hypot(3.3, 1.35), 0.7), rel=0.05)


def test_no_rise_moves_nothing() -> None:
    got = corner_held(95e3, **CENTRE, **SHAPE, rise=0.0)
    assert [float(got.roll), float(got.drift)] == pytest.approx([0, 0], abs=1e-12)
    assert block_gap_closed(**SHAPE, rise=0.0, block_arm=0.5) == pytest.approx(0.0, abs=1e-12)


def test_draws_are_each_their_own_and_outside_ones_are_said() -> None:
    rises = np.array([0.0, 0.1, 0.2])
    many = corner_held(95e3, **CENTRE, **SHAPE, rise=rises)
    assert np.allclose(many.corner, [float(corner_held(95e3, **CENTRE, **SHAPE, rise=r).corner) for r in rises])
    with pytest.raises(OutOfRange) as refused:
        corner_held(95e3, **CENTRE, **SHAPE, rise=np.array([0.1, 5.0]))
    assert refused.value.what == "rise"
    assert refused.value.part == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("change", "what"),
    [({"lift_y": 0.0}, "lift_y"), ({"rise": -0.1}, "rise"), ({"track": -2.0}, "track"), ({"pivot_height": -1.0}, "pivot_height")],
)  # fmt: skip
def test_silly_inputs_are_refused_by_name(change: dict[str, float], what: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        corner_held(95e3, **CENTRE, **{**SHAPE, "rise": 0.1, **change})
    assert refused.value.what == what


def test_more_taken_off_than_there_is_is_refused() -> None:
    with pytest.raises(OutOfRange):
        taken_off(1e3, 0, 0, 0, 2e3, 0, 0, 0)
    with pytest.raises(OutOfRange):
        load_relieved(-1.0, 0.0, 2.7, 0.3)
