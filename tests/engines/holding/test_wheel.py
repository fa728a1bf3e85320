"""Wheel: masses and sizes against listed tyres, forks by moments, the cradle by balance of forces."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.holding.wheel import (
    ballast_density,
    ballast_mass,
    contact_of_duals,
    cradled_on_forks,
    liquid_fill,
    load_at_centre,
    outside_diameter,
    rating_from_tipping,
    slung_on_forks,
    tyre_mass,
    wheel_load_centre,
    wheel_mass,
)
from axlewright.engines.limits import OutOfRange
from axlewright.trade import tyres

FEW = settings(max_examples=40, deadline=None)


@pytest.mark.parametrize("size", sorted(tyres.weighed()))
def test_no_listed_tyre_is_heavier_than_what_is_lifted_by(size: str) -> None:
    """Open tables of tyre masses, read: the factor to lift by covers the heaviest that either lists."""
    tyre, row = tyres.read_tyre(size), tyres.weighed()[size]
    od = outside_diameter(tyre.width, tyre.aspect, tyre.rim)
    low, _, high = tyres.mass_factors()["radial"].factor
    lift_by = tyres.mass_factors()["to-lift-by"].factor[1]
    assert tyre_mass(tyre.width, od, tyre.rim, lift_by) > 0.998 * row.mass[1]
    assert (
        0.95 * tyre_mass(tyre.width, od, tyre.rim, low) < row.mass[0] < 1.05 * tyre_mass(tyre.width, od, tyre.rim, high)
    )


def test_liquid_is_less_than_three_quarters_of_its_ring_and_in_proportion() -> None:
    whole = np.pi / 4 * (1.8**2 - 0.9**2) * 0.5
    assert liquid_fill(0.5, 1.8, 0.9) < 0.75 * whole
    assert liquid_fill(1.0, 1.8, 0.9) == pytest.approx(2 * float(liquid_fill(0.5, 1.8, 0.9)))
    assert ballast_density(ballast_mass(0.4, 1200.0), 0.4) == pytest.approx(1200)
    assert wheel_mass(300.0, 0.5, 400.0, 20.0) == pytest.approx(870)


@FEW
@given(centre=st.floats(0.5, 2.0), line=st.floats(0, 1.5))
def test_moment_about_the_tipping_line_stays(centre: float, line: float) -> None:
    load = float(load_at_centre(2000.0, 0.5, centre, line))
    assert load * (line + centre) == pytest.approx(2000 * (line + 0.5))
    assert load >= load_at_centre(2000.0, 0.5, centre) - 1e-9  # the simple rule is the bound
    assert load <= 2000


def test_nearer_than_rated_gives_no_more() -> None:
    assert load_at_centre(2000.0, 0.6, 0.3, 1.0) == pytest.approx(2000)
    slung = slung_on_forks(1500.0, 0.6, 1.1, 0.4)
    assert slung.standing == pytest.approx(1500)
    assert slung.hanging == pytest.approx(1200)


@FEW
@given(gap=st.floats(0.0, 1.5), radius=st.floats(0.8, 1.0))
def test_cradle_forces_carry_the_wheel(gap: float, radius: float) -> None:
    got = cradled_on_forks(radius, gap, 5e3)
    up = 2 * got.per_fork * np.cos(got.contact_angle)
    assert up == pytest.approx(5e3)
    assert got.spreading == pytest.approx(float(got.per_fork * np.sin(got.contact_angle)))
    assert (radius - got.sink) ** 2 + (gap / 2) ** 2 == pytest.approx(radius**2)


def test_load_centre_and_duals() -> None:
    assert wheel_load_centre(0.05, 0.7, 1.8, False) == pytest.approx(0.40)
    assert wheel_load_centre(0.05, 0.7, 1.8, True, 0.8) == pytest.approx(1.75)
    assert contact_of_duals(1.3, 1.9, True) == pytest.approx(1.6)
    assert contact_of_duals(-1.3, -1.9, False) == pytest.approx(-1.3)


@pytest.mark.parametrize("bad", [lambda: cradled_on_forks(0.9, 1.9, 5e3), lambda: rating_from_tipping(5e3, 0.95),
                                 lambda: outside_diameter(0.8, 65.0, 0.8), lambda: tyre_mass(0.8, 0.7, 0.8, 145),
                                 lambda: contact_of_duals(1.9, 1.3, True), lambda: load_at_centre(2e3, 0.5, 0.0)])  # fmt: skip
def test_silly_inputs_are_refused(bad: object) -> None:
    with pytest.raises(OutOfRange):
        bad()  # type: ignore[operator]
