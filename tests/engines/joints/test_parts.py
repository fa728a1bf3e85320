"""Resilience by quadrature, stripping by its limits, orders by their properties, readings by simulation."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from axlewright.engines.joints import (
    evidence,
    order,
    plates,
    resilience,
    stress,
    stripping,
    tightening,
    tools,
)
from axlewright.engines.limits import OutOfRange

DW, DH, E = 0.0276, 0.0206, 170e9


def by_slices(grip: float, part: float, tangent: float, two_cones: bool) -> float:
    """Resilience of the clamped part, slice by slice: the cone grows to the part's own edge and no farther."""

    def slice_gives(x: float) -> float:
        depth = min(x, grip - x) if two_cones else x
        outer = min(max(DW, 0.0) + 2 * depth * tangent, part)
        return 1 / (E * math.pi / 4 * (min(outer, part) ** 2 - DH**2))

    kinks = [(part - DW) / (2 * tangent), grip / 2, grip - (part - DW) / (2 * tangent)]
    inside = sorted(x for x in kinks if 0 < x < grip)
    return float(integrate.quad(slice_gives, 0, grip, points=inside, epsabs=0, epsrel=1e-10)[0])


@pytest.mark.parametrize("part", [0.026, 0.030, 0.036, 0.050, 0.070, 0.200])
@pytest.mark.parametrize("grip", [0.012, 0.030, 0.080])
def test_cones_and_sleeves_are_the_sum_of_their_slices(part: float, grip: float) -> None:
    through = plates.plate_resilience_through(grip, DW, DH, part, 0.40, E)
    tapped = plates.plate_resilience_tapped(grip, DW, DH, part, 0.40, E)
    assert through == pytest.approx(by_slices(grip, part, 0.40, two_cones=True), rel=1e-7)
    assert tapped == pytest.approx(by_slices(grip, part, 0.40, two_cones=False), rel=1e-7)


def test_two_methods_for_the_clamped_part_stand_within_a_fifth() -> None:
    # the tapped joint of the notes, 1.19 and 1.44 nm/N: show the spread, not one figure
    tangent = plates.cone_tangent_tapped(0.030, DW, 0.070)
    vdi = plates.plate_resilience_tapped(0.030, DW, DH, 0.070, tangent, E)
    bolt = resilience.bolt_resilience(0.01905, 0.00254, 0.0127, 0.0173, 205e9)
    bolt += resilience.housing_resilience(0.01905, 110e9)
    frustum = 1 / plates.frustum_stiffness(E, 0.030, DW, 0.01905)
    assert 1 / 1.25 < (bolt + frustum) / (bolt + vdi) < 1.25


def test_a_cone_that_would_not_open_is_refused() -> None:
    with pytest.raises(OutOfRange, match="too narrow"):
        plates.cone_tangent_through(1e-7, DW, 0.0277)


def test_angle_there_and_back() -> None:
    angle = resilience.angle_for_preload(134e3, 33e3, 1.24e-9, 2.1e-10, 0.00254)
    assert resilience.preload_from_angle(angle, 33e3, 1.24e-9, 2.1e-10, 0.00254) == pytest.approx(134e3)
    five = resilience.preload_from_angle(angle + math.radians(5), 33e3, 1.24e-9, 2.1e-10, 0.00254)
    assert 0.15 < five / 134e3 - 1 < 0.25  # 5 degrees are a fifth of a short stiff joint's preload
    assert resilience.embedding_loss(8e-6, 0.6e-9, 2.1e-10) > 1.7 * resilience.embedding_loss(8e-6, 1.24e-9, 2.1e-10)


def test_a_socket_joint_shares_by_its_springs() -> None:
    # a bolt as soft as its parts takes half, a hard joint leaves the bolt nearly alone
    assert resilience.load_share(1e-9, 1e-9) == pytest.approx(0.5)
    assert resilience.load_share(1e-9, 1e-12) < 0.001


def test_the_first_thing_to_go() -> None:
    goes = stripping.fails_first(254e3, np.array([400e3, 200e3, 300e3]), np.array([300e3, 500e3, 100e3]))
    assert list(goes.first) == [0, 1, 2]
    assert list(goes.load) == [254e3, 200e3, 100e3]


def test_engagement_by_lengths_is_the_more_careful_count() -> None:
    by_turns = stripping.engagement_from_turns(10, 0.0025)
    by_lengths = stripping.engagement_from_lengths(0.055, 0.030, 0.050, 0.0025)
    assert by_lengths < by_turns < 0.025
    assert stripping.engagement_from_turns(0.5, 0.0025) == 0
    assert stripping.engagement_from_lengths(0.030, 0.030, 0.050, 0.0025) == 0
    # more bolt than hole: what counts is the hole, and it bottoms
    assert stripping.engagement_from_lengths(0.090, 0.030, 0.030, 0.0025) == pytest.approx(0.025)
    assert stripping.room_to_bottom(0.090, 0.030, 0.030, 0.0025) < 0


def test_two_rules_in_print_differ_by_two() -> None:
    areas = stripping.engagement_by_area_weaker(
        215.8e-6, 0.0308, stripping.strength_ratio(0.0308, 1034e6, 0.0438, 207e6)
    )
    shear = stripping.engagement_by_shear(215.8e-6, 1034e6, 0.0438, 1.1 * 207e6, 0.0)
    assert 2.0 < areas / shear < 2.4


def test_the_rule_by_shear_is_where_bolt_and_thread_are_even() -> None:
    length = stripping.engagement_by_shear(215.8e-6, 1034e6, 0.0438, 227e6, 0.002) - 0.002
    assert stripping.strip_load(0.0438 * length, 227e6) == pytest.approx(215.8e-6 * 1034e6)


def test_alexanders_factors_join_and_stop() -> None:
    assert stripping.bolt_bending_factor(1.0) == pytest.approx(
        float(stripping.bolt_bending_factor(1.0 + 1e-9)), abs=1e-3
    )
    assert stripping.nut_bending_factor(1.0) == pytest.approx(float(stripping.nut_bending_factor(1.0 + 1e-9)), abs=1e-3)
    assert stripping.nut_dilation_factor(1.9) == pytest.approx(1, abs=2e-3)
    for call in (
        lambda: stripping.nut_dilation_factor(1.39),
        lambda: stripping.bolt_bending_factor(2.3),
        lambda: stripping.nut_bending_factor(0.3),
    ):
        with pytest.raises(OutOfRange):
            call()


@pytest.mark.parametrize("bolts", range(1, 41))
def test_an_order_takes_each_bolt_once_and_never_pulls_lopsided(bolts: int) -> None:
    for first in {1, bolts, (bolts + 1) // 2}:
        found = order.cross_order(bolts, first)
        assert sorted(found) == list(range(1, bolts + 1))
        assert found[0] == first
        assert order.lopsidedness(found, bolts) <= 1 + 1e-9
    if bolts % 2 == 0:
        assert (order.cross_order(bolts)[1] - 1) == bolts // 2  # the second is across from the first


def test_a_mirrored_flange_gives_the_mirrored_order_back() -> None:
    # seen from the other side bolt i is bolt n + 2 - i: a group of four stays a group of four
    there = order.cross_order(12)
    mirrored = [(12 + 1 - i) % 12 + 1 for i in there]
    assert order.lopsidedness(mirrored, 12) == pytest.approx(order.lopsidedness(there, 12))
    for four in range(0, 12, 4):
        angles = sorted((n - 1) * 30 % 90 for n in mirrored[four : four + 4])
        assert len(set(angles)) == 1


@given(st.integers(4, 24), st.data())
def test_fitted_bolts_go_first_and_none_is_lost(bolts: int, data: st.DataObject) -> None:
    fitted = data.draw(st.lists(st.integers(1, bolts), unique=True, max_size=3))
    found = order.fitted_first(order.cross_order(bolts), fitted)
    assert list(found[: len(fitted)]) == fitted
    assert sorted(found) == list(range(1, bolts + 1))


def test_bad_orders_are_refused() -> None:
    for call in (
        lambda: order.cross_order(0),
        lambda: order.cross_order(12, 13),
        lambda: order.cross_order(2.5),  # type: ignore[arg-type]
        lambda: order.fitted_first((1, 2, 3), (4,)),
        lambda: order.fitted_first((1, 2, 3), (1, 1)),
        lambda: order.passes(400.0, (0.6, 0.3, 1.0), 10.0),
        lambda: order.passes(400.0, (0.3, 0.6), 10.0),
        lambda: order.passes(400.0, (), 10.0),
    ):
        with pytest.raises(OutOfRange):
            call()


@given(st.floats(1.0, 2000.0), st.sampled_from([1.0, 2.0, 5.0, 10.0, 1.3558179483314]))
def test_a_pass_is_never_rounded_up(torque: float, mark: float) -> None:
    made = order.passes(torque, (0.3, 0.6, 1.0, 1.0), mark)
    for step in made:
        assert step.torque <= step.share * torque * (1 + 1e-9)
        assert step.share * torque - step.torque < mark
    assert [p.pattern for p in made] == ["cross", "cross", "cross", "circle"]
    assert made[2].torque == made[3].torque
    assert order.floor_to_mark(order.floor_to_mark(torque, mark), mark) == order.floor_to_mark(torque, mark)


def test_an_adapter_square_to_the_wrench_changes_nothing() -> None:
    assert tools.adapter_setting(400.0, 0.5, 0.05, math.pi / 2) == pytest.approx(400.0)
    assert tools.adapter_setting(400.0, 0.5, 0.05, math.pi) == pytest.approx(400.0 * 0.5 / 0.45)
    assert tools.adapter_setting(400.0, 0.5, 0.0, 0.0) == pytest.approx(400.0)


def test_a_multiplier_keeps_its_moments() -> None:
    found = tools.multiplier(542.3, 5.0, 0.9, 0.25)
    assert found.torque_in + found.reaction_torque == pytest.approx(542.3)
    assert found.reaction_force * 0.25 == pytest.approx(found.reaction_torque)


def test_pressure_is_refused_where_the_hole_is_as_wide_as_the_face() -> None:
    with pytest.raises(OutOfRange):
        stress.pressure_under_head(1e5, 0.022, 0.022)


def test_break_out_gives_the_preload_back() -> None:
    for mu in (0.08, 0.14, 0.24):
        torque = tightening.loosening_torque(120e3, 0.0025, 0.018376, mu, mu, 0.0251)
        assert evidence.preload_from_break_out(torque, 0.0025, 0.018376, mu, mu, 0.0251) == pytest.approx(120e3)
    with pytest.raises(OutOfRange, match="does not hold itself"):
        evidence.preload_from_break_out(100.0, 0.0025, 0.018376, 0.03, 0.0, 0.0251)


def test_scores_of_sound_bolts_are_standard_deviations() -> None:
    readings = np.random.default_rng(3).normal(23.0, 1.5, (4000, 16))
    scores = evidence.stand_out_scores(readings, 0.1)
    assert np.std(scores) == pytest.approx(1.0, abs=0.35)  # the median absolute deviation of 16 scatters
    assert np.mean(np.abs(scores) > evidence.STANDS_OUT) < 0.03


def test_the_bolt_that_turned_too_far_stands_out_even_beside_equal_readings() -> None:
    scores = evidence.stand_out_scores([23, 23, 23, 23, 23, 41, 23, 23], 1.0)
    assert [i for i, s in enumerate(scores) if s > evidence.STANDS_OUT] == [5]
    assert not (np.abs(evidence.stand_out_scores([23, 24, 23, 23], 1.0)) > evidence.STANDS_OUT).any()
    short = evidence.stand_out_scores([24, 22, 23, 25, 6, 23], 1.0)
    assert short[4] < -evidence.STANDS_OUT
    with pytest.raises(OutOfRange, match="too few"):
        evidence.stand_out_scores([23, 24, 23], 1.0)


def test_a_loose_bolt_counts_as_nothing() -> None:
    assert evidence.share_of_preload_kept(120e3, 120e3, 0, 12) == 1
    assert evidence.share_of_preload_kept(120e3, 120e3, 6, 12) == pytest.approx(0.5)
