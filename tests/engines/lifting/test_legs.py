"""Closed forms of one and two legs, level and links: against the hang by energy, linear programmes, brute force."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from axlewright.engines.holding.supports import Point
from axlewright.engines.lifting.hang import Line, hang
from axlewright.engines.lifting.indeterminate import tension_range, tensions_at
from axlewright.engines.lifting.legs import (
    basket_holds_roll,
    level_legs,
    level_two_legs,
    one_leg,
    running_sling_depth,
    shorten_only,
    strap_slides,
    tilt_for_centre,
    two_legs,
    whole_links,
)
from axlewright.engines.limits import OutOfRange

FEW = settings(max_examples=40, deadline=None)
EYES = (Point(-0.31, -0.22, 0.02), Point(0.27, -0.19, 0.0), Point(0.02, 0.24, 0.03))


@FEW
@given(a=st.floats(0.4, 1.0), b=st.floats(0.4, 1.0), at=st.floats(0.05, 0.5), depth=st.floats(0.03, 0.3))
def test_two_stiff_legs_hang_as_the_energy_says(a: float, b: float, at: float, depth: float) -> None:
    assume(abs(a - b) < 0.45 and a + b > 0.62)
    closed = two_legs(3000.0, 0.55, a, b, at, depth)
    assume(min(float(closed.tension_1), float(closed.tension_2)) > 150)
    assume(abs(float(closed.tilt)) < 1.0)
    by_energy = hang(
        3000.0, Point(at, 0.0, -depth), tuple(Line((Point(x, 0.0, 0.0),), n, 2e9) for x, n in ((0.0, a), (0.55, b)))
    )
    assert np.allclose([closed.tension_1, closed.tension_2], by_energy.tensions, rtol=2e-3, atol=2)
    assert abs(float(closed.tilt)) == pytest.approx(float(by_energy.tilt), abs=2e-3)
    assert np.sign(closed.tilt) == np.sign(by_energy.up_x) or abs(float(closed.tilt)) < 2e-3
    assert np.allclose(np.abs([closed.angle_1, closed.angle_2]), by_energy.leg_angles, atol=3e-3)


@FEW
@given(a=st.floats(0.4, 1.0), b=st.floats(0.4, 1.0), at=st.floats(0.05, 0.5), depth=st.floats(-0.2, 0.3))
def test_two_legs_end_for_end_give_the_mirror_result(a: float, b: float, at: float, depth: float) -> None:
    assume(abs(a - b) < 0.5 and a + b > 0.6)
    one, other = two_legs(3000.0, 0.55, a, b, at, depth), two_legs(3000.0, 0.55, b, a, 0.55 - at, depth)
    assert one.tilt == pytest.approx(-float(other.tilt))
    assert [one.tension_1, one.tension_2] == pytest.approx([float(other.tension_2), float(other.tension_1)])
    assert bool(one.holds) == bool(other.holds)


@FEW
@given(depth=st.floats(-0.2, 0.3))
def test_roll_stiffness_is_the_curvature_of_the_energy(depth: float) -> None:
    assume(abs(depth) > 0.02)
    got = two_legs(3000.0, 0.55, 0.6, 0.6, 0.275, depth)
    high, h = float(got.hook_above_eyes), 1e-4
    drops = [np.hypot(high * np.cos(r) + depth, high * np.sin(r)) for r in (-h, 0, h)]
    curve = -3000.0 * (drops[0] - 2 * drops[1] + drops[2]) / h**2
    assert got.roll_stiffness == pytest.approx(curve, rel=1e-3)
    assert bool(got.holds) is (depth > 0)


def test_two_legs_refuse_what_makes_no_triangle() -> None:
    for span, a, b in ((0.55, 0.2, 0.2), (0.2, 0.9, 0.5), (0.0, 0.5, 0.5)):
        with pytest.raises(OutOfRange):
            two_legs(3000.0, span, a, b, 0.1, 0.1)


@FEW
@given(offset=st.floats(0, 0.2), drop=st.floats(0.02, 0.4))
def test_one_leg_hangs_as_the_energy_says(offset: float, drop: float) -> None:
    closed = one_leg(3000.0, offset, drop)
    by_energy = hang(3000.0, Point(offset, 0.0, -drop), (Line((Point(0.0, 0.0, 0.0),), 0.7, 1e7),))
    assert closed.tilt == pytest.approx(float(by_energy.tilt), abs=1e-6)
    assert closed.tension == pytest.approx(float(by_energy.tensions[0]))
    assert np.degrees(one_leg(3000.0, 0.0, -0.1).tilt) == pytest.approx(180)


@FEW
@given(a=st.floats(0.05, 1.0), b=st.floats(0.05, 1.0), high=st.floats(0.2, 2))
def test_level_two_legs_balance(a: float, b: float, high: float) -> None:
    got = level_two_legs(3000.0, a, b, high)
    upright = got.tension_a * high / got.length_a + got.tension_b * high / got.length_b
    sideways = got.tension_a * a / got.length_a - got.tension_b * b / got.length_b
    assert upright == pytest.approx(3000)
    assert sideways == pytest.approx(0, abs=1e-6)


@FEW
@given(x=st.floats(-0.07, 0.1), y=st.floats(-0.1, 0.1), kept=st.integers(1, 3), length=st.floats(0.6, 1.1))
def test_level_lengths_hang_level(x: float, y: float, kept: int, length: float) -> None:
    """Wherever the centre lies within the eyes: outside them a leg would have to push."""
    centre = Point(x, y, -0.12)
    plan = level_legs(centre, EYES, kept, length)
    got = hang(3000.0, centre, tuple(Line((e,), n, 1e9) for e, n in zip(EYES, plan.lengths, strict=True)))
    assert np.degrees(got.tilt) < 0.02
    assert float(got.drop) == pytest.approx(float(plan.hook_above_centre), abs=1e-4)
    hook = Point(x, y, -0.12 + plan.hook_above_centre)
    assert np.allclose(tensions_at(3000.0, hook, centre, EYES), got.tensions, rtol=1e-3, atol=1)


@FEW
@given(lengths=st.tuples(*[st.floats(0.6, 1.0)] * 3))
def test_only_shortening_is_the_least_shortening(lengths: tuple[float, ...]) -> None:
    centre = Point(0.03, -0.02, -0.12)
    changes = [float(c) for c in shorten_only(centre, EYES, lengths)]
    assert max(changes) == pytest.approx(0, abs=1e-12)
    new = tuple(n + c for n, c in zip(lengths, changes, strict=True))
    got = hang(3000.0, centre, tuple(Line((e,), n, 1e9) for e, n in zip(EYES, new, strict=True)))
    assert np.degrees(got.tilt) < 0.02
    for hook_z in np.linspace(0.2, 1.2, 400):  # every other hook that shortens all of them shortens more
        other = [float(np.sqrt((e.x - 0.03) ** 2 + (e.y + 0.02) ** 2 + (e.z - hook_z) ** 2)) - n for e, n in zip(EYES, lengths, strict=True)]  # fmt: skip
        if max(other) <= 0:
            assert sum(other) <= sum(changes) + 1e-9


def test_links_tried_are_all_there_are_and_the_most_level_stands_first() -> None:
    lines = tuple(Line((e,), n, 4e6) for e, n in zip(EYES, (0.80, 0.74, 0.77), strict=True))
    centre, pitch = Point(0.03, -0.02, -0.12), 0.024
    plans = whole_links(3000.0, centre, lines, pitch, 2)
    assert {plan.links for plan in plans} == set(product(range(3), repeat=3))
    tilts = [float(plan.tilt) for plan in plans]
    assert tilts == sorted(tilts)
    for plan in (plans[0], plans[7], plans[-1]):
        taken = tuple(Line(line.eyes, line.length - n * pitch, line.stiffness) for line, n in zip(lines, plan.links, strict=True))  # fmt: skip
        assert plan.tilt == pytest.approx(float(hang(3000.0, centre, taken).tilt), abs=1e-7)


@FEW
@given(
    x=st.floats(-0.2, 0.2), y=st.floats(-0.1, 0.1), high=st.floats(0.4, 1.2),
    taped=st.lists(st.tuples(st.integers(-400, 400), st.integers(-300, 300), st.integers(-50, 50)), min_size=1, max_size=4),
)  # fmt: skip
def test_range_is_that_of_a_linear_programme(x: float, y: float, high: float, taped: list[tuple[int, ...]]) -> None:
    from scipy.optimize import linprog

    places = [tuple(axis / 1000 for axis in place) for place in taped]  # whole millimetres: a hair's breadth is no leg
    eyes, hook, centre = tuple(Point(*p) for p in places), Point(0.0, 0.0, high), Point(x * 0.3, y * 0.3, -0.2)
    units = np.array([(np.array([0, 0, high]) - p) / np.linalg.norm(np.array([0, 0, high]) - p) for p in places]).T
    up = np.array([-centre.x, -centre.y, high + 0.2])
    up = up / np.linalg.norm(up)

    def ends(n: int) -> tuple[float, float] | None:
        found = [linprog(s * np.eye(len(places))[n], A_eq=units, b_eq=up, bounds=(0, None)) for s in (1, -1)]
        return (found[0].fun, -found[1].fun) if all(f.success for f in found) else None

    wanted = [ends(n) for n in range(len(places))]
    try:
        got = tension_range(1.0, hook, centre, eyes)
    except OutOfRange:
        assert wanted[0] is None
        return
    assume(wanted[0] is not None)  # the programme's own tolerance at its edge
    for n, want in enumerate(wanted):
        assert want is not None
        assert [float(got.least[n]), float(got.greatest[n])] == pytest.approx(want, abs=1e-5)


def test_four_equal_legs_can_each_carry_from_nothing_to_half_over_cosine() -> None:
    eyes = tuple(Point(x, y, 0.0) for x, y in ((-0.3, -0.2), (0.3, -0.2), (0.3, 0.2), (-0.3, 0.2)))
    got = tension_range(np.array([1e3, 2e3]), Point(0.0, 0.0, 0.8), Point(0.0, 0.0, -0.1), eyes)
    slope = 0.8 / np.sqrt(0.8**2 + 0.13)
    assert np.allclose(got.greatest[2], np.array([1e3, 2e3]) / 2 / slope)
    assert np.allclose(got.least, 0, atol=1e-6)
    with pytest.raises(OutOfRange):
        tension_range(1e3, Point(0.0, 0.0, 0.8), Point(1.0, 0.0, -0.1), eyes)


def test_straps_and_baskets() -> None:
    assert np.degrees(strap_slides(0.25)) == pytest.approx(14.04, abs=0.01)
    assert running_sling_depth(0.3, 0.6) == pytest.approx(0.15)
    assert basket_holds_roll(0.15, 0.6, 0.0) == pytest.approx(0)  # without friction any offset turns it
    assert basket_holds_roll(0.15, 0.6, 0.4) > basket_holds_roll(0.15, 0.6, 0.1) > 0
    # full grip: the two tangent points are eyes, and the pull of one leg alone leaves through them
    assert basket_holds_roll(0.15, 0.6, 1.0) < 0.6 * np.sin(np.arcsin(0.25))
    sens = tilt_for_centre(0.01, 0.7, 0.12)
    assert sens.across > sens.in_plane


def test_the_basket_rolls_where_its_legs_pull_in_the_ratio_of_the_wrap() -> None:
    """Second way: hang the cylinder by its two tangent points and read the ratio of the pulls at the offset found."""
    radius, high, mu = 0.15, 0.6, 0.2
    b = np.arcsin(radius / high)
    off = float(basket_holds_roll(radius, high, mu))
    psi = np.arcsin(off / high)
    pulls = [np.sin(b + s * psi) / np.sin(2 * b) for s in (1, -1)]  # Lami, the plumb line psi beside the middle
    assert pulls[0] / pulls[1] == pytest.approx(np.exp(mu * (np.pi + 2 * b)), rel=1e-6)
