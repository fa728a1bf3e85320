"""Ground: bending by summing strips, spreading by sums of areas, a slab against Hertz's plate on springs, limits."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.holding.ground import (
    clay_bearing,
    ground_area,
    mat_of_timbers,
    plate_side_that_counts,
    pressure_below,
    sink_of_pad,
    slab_bending_at_edge,
    slab_bending_inside,
    steel_plate,
    tyre_proof,
)
from axlewright.engines.limits import OutOfRange

FEW = settings(max_examples=40, deadline=None)


def by_strips(pressure: float, reach: float, width: float, face: float = 0.0) -> tuple[float, float]:
    """Moment at the face and shear at a distance from it, of ground pressure under a cantilever, strip by strip."""
    x = (np.arange(20_000) + 0.5) / 20_000 * reach
    push = pressure * width * reach / 20_000
    return float((push * x).sum()), float(push * (x > face).sum())


@FEW
@given(load=st.floats(2e4, 1.2e5), allowed=st.floats(5e4, 2e5), depth=st.floats(0.08, 0.2))
def test_mat_bends_as_its_strips_do(load: float, allowed: float, depth: float) -> None:
    got = mat_of_timbers(load, 1e3, allowed, 0.8, 0.4, depth)
    moment, shear = by_strips(float(got.pressure), float(got.cantilever), 0.8, depth)
    assert got.moment == pytest.approx(moment, rel=1e-3, abs=1e-6)
    assert got.shear == pytest.approx(shear, rel=2e-3, abs=20)
    assert got.bending == pytest.approx(float(got.moment) / (0.8 * depth**2 / 6))
    assert got.area * allowed == pytest.approx(load + 1e3)


def test_plate_bends_as_its_strips_do() -> None:
    got = steel_plate(6e4, 0.8, 0.25, 0.025)
    moment, _ = by_strips(float(got.pressure), 0.275, 1.0)
    assert got.moment == pytest.approx(moment, rel=1e-3)
    x = np.linspace(0, 0.275, 4001)  # integrate the curvature twice, from the clamped face
    curve = got.pressure * (0.275 - x) ** 2 / 2 / (210e9 * 0.025**3 / 12)
    slope = np.concatenate([[0], np.cumsum((curve[1:] + curve[:-1]) / 2 * np.diff(x))])
    bend = ((slope[1:] + slope[:-1]) / 2 * np.diff(x)).sum()
    assert got.edge_deflection == pytest.approx(bend, rel=1e-4)


@FEW
@given(load=st.floats(2e4, 2e5), thickness=st.floats(0.008, 0.05), stress=st.floats(8e7, 2.4e8))
def test_the_side_that_counts_just_bears_its_bending(load: float, thickness: float, stress: float) -> None:
    side = float(plate_side_that_counts(load, 1.2, 0.25, thickness, stress))
    bending = float(steel_plate(load, side, 0.25, thickness).bending)
    assert 0.25 <= side <= 1.2
    assert bending <= stress * (1 + 1e-9)
    if side < 1.2 - 1e-9:
        assert bending == pytest.approx(stress)


def test_pressure_below_is_the_load_over_a_growing_area() -> None:
    depths = np.linspace(0, 2, 50)
    got = pressure_below(7e4, 0.8, 0.5, depths)
    assert got[0] * 0.4 == pytest.approx(7e4)
    assert (np.diff(got) < 0).all()
    assert np.allclose(got * (0.8 + depths) * (0.5 + depths), 7e4)


def test_sink_agrees_with_the_pressure_of_a_stiff_punch() -> None:
    """Second way: the known pressure under a stiff round punch, summed by Boussinesq at its middle."""
    load, d, e, nu = 5e4, 0.6, 1e7, 0.5
    r = (np.arange(200_000) + 0.5) / 200_000
    ring = 1 / np.sqrt(1 - r**2)  # pressure of the punch over half its mean
    sink = (1 - nu**2) / (np.pi * e) * load / (2 * np.pi * (d / 2) ** 2) * 2 * np.pi * (ring * (d / 2)).mean()
    assert sink_of_pad(load / (np.pi / 4 * d**2), d, e, nu) == pytest.approx(sink, rel=5e-3)


def test_clay_thumb_and_strength_are_about_one() -> None:
    got = clay_bearing(np.array([2e4, 5e4, 7e4]))
    assert np.allclose(got.allowed, got.unconfined, rtol=0.03)


def test_area_and_own_tyre() -> None:
    assert ground_area(6e4, 3e3, 7e4).side ** 2 * 7e4 == pytest.approx(6.3e4)
    got = tyre_proof(1.5e5, 4e4)
    assert got.footprint * got.pressure == pytest.approx(4e4)
    assert got.allowed < got.pressure
    with pytest.raises(OutOfRange):
        ground_area(6e4, 3e3, 0.0)  # mud: a mat and a test first


def test_slab_edge_is_worse_than_inside_and_thickness_helps() -> None:
    """Inside against the plate of Hertz on springs, whose bending under a small round load Timoshenko prints."""
    load, a, k, e, nu = 6e4, 0.15, 5e7, 30e9, 0.15
    inside = [float(slab_bending_inside(load, a, h, k, e, nu)) for h in (0.12, 0.15, 0.20)]
    assert inside == sorted(inside, reverse=True)
    assert slab_bending_at_edge(load, a, 0.15, k, e, nu) > inside[1]
    h = 0.30  # thick, so that the small-load rule of Westergaard is used: Timoshenko, Plates and Shells, art. 57
    b = np.sqrt(1.6 * a**2 + h**2) - 0.675 * h
    plate = 0.275 * (1 + nu) * load / h**2 * np.log10(e * h**3 / (k * b**4))
    assert slab_bending_inside(load, a, h, k, e, nu) == pytest.approx(plate, rel=0.02)


@pytest.mark.parametrize("bad", [lambda: mat_of_timbers(7e4, 0, 0.0, 0.7, 0.3, 0.1), lambda: steel_plate(7e4, 0.3, 0.4, 0.02),
                                 lambda: sink_of_pad(1e5, 0.5, 0.0), lambda: sink_of_pad(1e5, 0.5, 1e7, 0.6),
                                 lambda: tyre_proof(0.0, 4e4), lambda: slab_bending_inside(6e4, 0.1, 0.0, 5e7)])  # fmt: skip
def test_silly_inputs_are_refused(bad: object) -> None:
    with pytest.raises(OutOfRange):
        bad()  # type: ignore[operator]
