"""Parts, hoist and saddle: against steps of time, balances of moments, a beam by hand, limits."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.lifting.hoist import (
    Piece,
    assembled,
    boom_arc,
    castor_push,
    drop_through_slack,
    hoist_loads,
    swing_free,
)
from axlewright.engines.lifting.saddle import in_saddle, saddle_on_forks
from axlewright.engines.lifting.slings import (
    angle_factor,
    bolt_as_pin,
    eyebolt_engagement,
    leg_stiffness,
    lift_load,
    lower_limit,
    part_holds,
    rope_bend,
    sleeve_grip,
    unmarked_shackle_ceiling,
)
from axlewright.engines.limits import OutOfRange

FEW = settings(max_examples=40, deadline=None)


@pytest.mark.parametrize("slack", [0.0, 0.003, 0.02])
def test_a_drop_is_that_of_a_fall_stepped_through_time(slack: float) -> None:
    weight, k = 3200.0, 4e5
    m, y, v, step, most = weight / 9.80665, slack, 0.0, 1e-6, 0.0
    while v <= 0:
        v += (-9.80665 + k * max(-y, 0.0) / m) * step
        y += v * step
        most = max(most, k * max(-y, 0.0))
    assert drop_through_slack(weight, k, slack).peak == pytest.approx(most, rel=1e-3)


def test_a_swing_is_that_of_a_pendulum_stepped_through_time() -> None:
    offset, drop, g = 0.12, 1.4, 9.80665
    got = swing_free(3000.0, offset, drop)
    angle, speed, step, time, most, fastest = float(np.arcsin(offset / drop)), 0.0, 1e-4, 0.0, 0.0, 0.0
    while angle > -float(got.angle) + 1e-6 and time < 5:
        speed += -g / drop * np.sin(angle) * step
        angle += speed * step
        time += step
        most = max(most, np.cos(angle) + drop * speed**2 / g)
        fastest = max(fastest, abs(speed) * drop)
        if speed > 0:
            break
    assert 2 * time == pytest.approx(float(got.period), rel=0.02)
    assert got.peak_share == pytest.approx(most, rel=1e-3)
    assert got.speed == pytest.approx(fastest, rel=1e-3)
    assert got.reach == pytest.approx(offset)


@FEW
@given(hook=st.floats(0.3, 2.5), load=st.floats(100, 900))
def test_hoist_balances_and_tips_where_its_rear_castors_lift(hook: float, load: float) -> None:
    got = hoist_loads(90.0, 0.5, 1.5, load, hook)
    assert got.front + got.rear == pytest.approx(90 + load)
    assert got.front * 1.5 == pytest.approx(load * hook + 90 * 0.5)
    assert (got.rear > 0) == (hook < float(got.tips_at))
    assert (got.margin > 1) == (hook < float(got.tips_at))
    if hook <= 1.5:
        assert np.isinf(got.margin)


@FEW
@given(start=st.floats(-0.6, 1.0), rise=st.floats(0.01, 0.5))
def test_boom_end_stays_on_its_circle(start: float, rise: float) -> None:
    got = boom_arc(1.3, start, start + rise)
    x, z = 1.3 * np.cos(start) - got.drift, 1.3 * np.sin(start) + got.lift
    assert np.hypot(x, z) == pytest.approx(1.3)


def test_castors() -> None:
    pushes = castor_push(0.05, np.array([0.0, 0.002, 0.01, 0.03]))
    assert pushes[0] == 0
    assert (np.diff(pushes) > 0).all()
    with pytest.raises(OutOfRange):
        castor_push(0.05, 0.05)


def test_pieces_put_together() -> None:
    whole = assembled((Piece(100.0, 0.1), Piece(50.0, 0.4)))
    assert whole.mass == pytest.approx(150)
    assert whole.at == pytest.approx(0.2)
    draws = assembled((Piece(np.array([100.0, 200.0]), 0.1), Piece(50.0, 0.4)))
    assert np.allclose(draws.at, [0.2, 0.16])
    with pytest.raises(OutOfRange):
        assembled(())


def test_a_loose_bolt_is_a_cantilever_by_hand() -> None:
    """A round bar of the root's diameter: M c/I and V/A from its own integrals."""
    got = bolt_as_pin(0.016, 0.002, 2500.0, 0.02, 640e6, np.radians(60))
    r = float(got.root) / 2
    y = (np.arange(20_000) + 0.5) / 10_000 - 1
    second = (2 * np.sqrt(1 - y**2) * y**2).mean() * 2 * r**4
    across = 2500 * np.sin(np.radians(60))
    assert got.bending == pytest.approx(across * 0.02 * r / second, rel=1e-4)
    assert got.shear == pytest.approx(across / (np.pi * r**2))
    assert got.tension == pytest.approx(2500 * np.cos(np.radians(60)) / 156.7e-6, rel=2e-3)  # ISO 898-1: M16, 157 mm^2
    assert got.equivalent >= got.bending + got.tension
    assert bolt_as_pin(0.016, 0.002, 0.0, 0.02, 640e6).on_yield == np.inf


@FEW
@given(off=st.floats(0.005, 0.06), pull=st.floats(500, 6000))
def test_standing_off_farther_is_never_stronger(off: float, pull: float) -> None:
    near, far = (bolt_as_pin(0.02, 0.0025, pull, a, 640e6) for a in (off, off + 0.01))
    assert far.on_yield < near.on_yield


def test_a_clamped_sleeve_gapes_where_its_edge_is_unloaded() -> None:
    """The ring's stress at its edge is the clamp's less the moment's: both are equal at the gaping moment."""
    outer, inner, preload, pull, off = 0.022, 0.011, 6e4, 4e3, 0.03
    got = sleeve_grip(preload, pull, off, outer, inner, 0.15)
    area, modulus = np.pi * (outer**2 - inner**2), np.pi / 4 * (outer**4 - inner**4) / outer
    assert got.gap_moment == pytest.approx(preload / area * modulus / (pull * off))
    assert got.slip == pytest.approx(0.15 * preload / pull)


def test_limits_and_factors() -> None:
    assert lift_load(300.0, 1.1, 10.0) == pytest.approx(341)
    assert part_holds(2000.0, 0.8, 0.87, 1.0, 0.75) == pytest.approx(2000 * 0.8 * 0.87 * 0.75)
    assert lower_limit(3200.0, 3000.0) == 3000
    assert eyebolt_engagement(0.016) == pytest.approx(0.024)
    assert leg_stiffness(2e4, 0.05, 0.8) * 0.05 * 0.8 == pytest.approx(2e4)
    assert angle_factor(np.radians(30)) * np.cos(np.radians(30)) == pytest.approx(1)
    # navy steelworker manual: 1/2 in 0.75, 5/8 in 1.17, 3/4 in 1.69 short tons
    assert np.allclose(
        unmarked_shackle_ceiling(np.array([0.5, 0.625, 0.75]) * 0.0254) / 907.18474, [0.75, 1.17, 1.69], atol=0.005
    )
    assert (np.diff(rope_bend(np.linspace(1, 25, 50))) > 0).all()


@pytest.mark.parametrize("bad", [lambda: angle_factor(60.0), lambda: part_holds(-1.0), lambda: part_holds(1e3, 2.5), lambda: rope_bend(0.5),
                                 lambda: lift_load(300.0, 0.9), lambda: bolt_as_pin(0.02, 0.0025, -1.0, 0.03, 6e8),
                                 lambda: drop_through_slack(3e3, 0.0, 0.01), lambda: swing_free(3e3, 1.5, 1.4), lambda: boom_arc(1.3, 35.0, 40.0)])  # fmt: skip
def test_silly_inputs_are_refused(bad: object) -> None:
    with pytest.raises(OutOfRange):
        bad()  # type: ignore[operator]


@FEW
@given(radius=st.floats(0.12, 0.3), gap=st.floats(0.05, 0.2), off=st.floats(0, 0.02))
def test_a_saddle_lets_roll_where_the_plumb_line_leaves_its_block(radius: float, gap: float, off: float) -> None:
    got = in_saddle(3e3, radius, gap, off, 0.25, 0.4)
    tilt = float(got.rolls_at)
    edge = np.array([gap / 2, -radius * np.cos(np.arcsin(gap / 2 / radius))])  # of the block, from the housing's axis
    centre = np.array([off, 0.0])
    down = np.array([np.sin(tilt), -np.cos(tilt)])
    arm = edge - centre
    assert arm[0] * down[1] - arm[1] * down[0] == pytest.approx(0, abs=1e-9)
    assert 2 * got.per_block * np.cos(got.contact_angle) == pytest.approx(3e3)
    assert np.tan(got.tips_at) == pytest.approx((0.25 - off) / 0.4)


def test_forks_with_a_saddle_are_rated_at_their_load_centre() -> None:
    near, far = (saddle_on_forks(1500.0, 0.5, x, 350.0, 40.0, tipping_line=1.1) for x in (0.5, 0.9))
    assert near.allowed == pytest.approx(1500)
    assert far.allowed * 2.0 == pytest.approx(1500 * 1.6)
    assert near.margin == pytest.approx(1500 / (390 * 1.3))
    assert far.margin < near.margin
