"""Loads of a pair: forces and moments balance about any point, mirror images, what is the same at a switch."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.engines.limits import OutOfRange
from axlewright.engines.running.loads import (
    axial_loads,
    effective_spread,
    equivalent_load,
    mesh_forces,
    radial_loads,
    static_equivalent_load,
)

loads = st.floats(0, 2e5)
sides = st.floats(-5e4, 5e4)
factors = st.floats(0.7, 2.2)


@given(loads, loads, sides, st.floats(0.05, 0.6), st.floats(-0.2, 0.4), st.floats(0.3, 1.1))
def test_forces_and_moments_balance(
    n: float, t: float, side: float, spread: float, offset: float, radius: float
) -> None:
    """Axis z outward, y up, x forward; the reactions come from solving the two moment sums, not from the formula."""
    ground = np.array([t, n, side])
    arm = np.array([0.0, -radius, spread + offset])  # from the inboard centre to the footprint
    moment = np.cross(arm, ground)
    # reaction of the outboard bearing at z = spread: cross((0, 0, S), R) + moment = 0 in x and y
    out = np.array([-moment[1], moment[0], 0.0]) / spread
    inner = -(ground * [1, 1, 0] + out)
    got = radial_loads(n, t, side, spread, offset, radius)
    assert float(got.outboard) == pytest.approx(float(np.hypot(*out[:2])), abs=1e-6 * (1 + n + t + abs(side)))
    assert float(got.inboard) == pytest.approx(float(np.hypot(*inner[:2])), abs=1e-6 * (1 + n + t + abs(side)))


@given(loads, loads, factors, factors, sides)
def test_thrust_balances_and_none_is_less_than_its_own(
    a: float, b: float, ya: float, yb: float, outward: float
) -> None:
    for arrangement in ("back to back", "face to face"):
        got = axial_loads(a, b, ya, yb, outward, arrangement)  # type: ignore[arg-type]
        sign = 1 if arrangement == "back to back" else -1
        assert sign * (float(got.inboard) - float(got.outboard)) == pytest.approx(outward, abs=1e-6)
        assert float(got.outboard) >= 0.5 * a / ya - 1e-9
        assert float(got.inboard) >= 0.5 * b / yb - 1e-9
        # one of them always has no more than its own
        rest = min(float(got.outboard) - 0.5 * a / ya, float(got.inboard) - 0.5 * b / yb)
        assert rest == pytest.approx(0, abs=1e-6)


@given(loads, loads, factors, factors, sides)
def test_the_other_arrangement_is_the_mirror_image(a: float, b: float, ya: float, yb: float, outward: float) -> None:
    one, other = axial_loads(a, b, ya, yb, outward, "back to back"), axial_loads(a, b, ya, yb, -outward, "face to face")
    assert (one.outboard, one.inboard) == (other.outboard, other.inboard)


def test_back_to_back_is_wide_and_face_to_face_narrow() -> None:
    """The catalogue's own pair (NSK E1102, 5.7): a spread of 83.8 mm, or a fifth of it turned round."""
    wide, narrow = (effective_spread(0.050, 0.0199, 0.0139, which) for which in ("back to back", "face to face"))  # type: ignore[arg-type]
    assert (round(float(wide), 4), round(float(narrow), 4)) == (0.0838, 0.0162)
    with pytest.raises(OutOfRange, match="meet or have crossed"):
        effective_spread(0.030, 0.0199, 0.0139, "face to face")


def test_no_jump_where_both_numbers_come_from_one_angle() -> None:
    """Y e = 0.6 holds for one cup angle: then the load does not jump at e."""
    for angle in np.radians([10, 16, 28]):
        y, e = 0.4 / np.tan(angle), 1.5 * np.tan(angle)
        below, past = (float(equivalent_load(1e4, 1e4 * e * part, y, e)) for part in (1 - 1e-9, 1 + 1e-9))
        assert below == pytest.approx(past, rel=1e-6)
    assert float(equivalent_load(0.0, 5e3, 1.4, 0.42)) == pytest.approx(7e3)


@given(loads, loads, st.floats(0.3, 1.5))
def test_a_bump_never_counts_less_than_its_load(radial: float, axial: float, y0: float) -> None:
    load = float(static_equivalent_load(radial, axial, y0, 1.0))
    assert load >= radial
    assert float(static_equivalent_load(radial, axial, y0, 3.0)) == pytest.approx(3 * load)


def test_a_mesh_gives_back_its_torque_and_its_angle() -> None:
    got = mesh_forces(9000.0, 0.17, np.radians(20), np.radians(12))
    assert float(got.tangential) * 0.17 == pytest.approx(9000)
    # the force on the tooth stands square to it: normal angle between the radial part and the rest
    assert np.arctan(float(got.radial) / float(np.hypot(got.tangential, got.axial))) == pytest.approx(np.radians(20))
    assert not float(mesh_forces(9000.0, 0.17, 0.35, 0.0).axial)
