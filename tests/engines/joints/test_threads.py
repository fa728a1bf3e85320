"""Threads against printed limits, and strip areas against a thread cut up by brute force."""

from __future__ import annotations

import math

import numpy as np
import pytest

from axlewright.engines.joints import limits_of_size, strength, threads
from axlewright.engines.limits import OutOfRange

# ISO 965-2, 6g/6H, mm: bolt major greatest and least, bolt pitch greatest and least, nut pitch greatest, nut minor
# greatest; from memory
PRINTED = {
    (16, 2.0): (15.962, 15.682, 14.663, 14.503, 14.913, 14.210),
    (20, 2.5): (19.958, 19.623, 18.334, 18.164, 18.600, 17.744),
    (24, 3.0): (23.952, 23.577, 22.003, 21.803, 22.316, 21.252),
}


@pytest.mark.parametrize(("size", "printed"), PRINTED.items(), ids=lambda x: f"M{x[0]}" if len(x) == 2 else "")
def test_limits_of_size_lie_by_the_printed_ones(size: tuple[float, float], printed: tuple[float, ...]) -> None:
    d, p = size[0] / 1000, size[1] / 1000
    found = limits_of_size.limits_metric(d, p)
    mine = (
        found.bolt_major_greatest,
        found.bolt_major_least,
        found.bolt_pitch_greatest,
        found.bolt_pitch_least,
        found.nut_pitch_greatest,
        found.nut_minor_greatest,
    )
    for value, table in zip(mine, printed, strict=True):
        assert value * 1000 == pytest.approx(table, abs=0.020)
    # what makes a thread weaker is never taken smaller than printed by more than its rounding
    assert found.nut_pitch_greatest * 1000 > printed[4] - 0.002
    assert found.nut_minor_greatest * 1000 > printed[5] - 0.002


def cut(pitch: float, at: float, thread_pitch_diameter: float, inside: bool) -> float:
    """Share of an axial line at a diameter that lies in the metal of a sharp 60 degree thread, by sampling."""
    axial = (np.arange(200_001) + 0.5) / 200_001 * pitch
    # height of the flank line above the pitch line, a triangle wave of half angle 30 degrees
    wave = (np.abs(axial / pitch - 0.5) - 0.25) * pitch * math.sqrt(3)
    radius = thread_pitch_diameter / 2 + wave
    return float(np.mean(at / 2 >= radius if inside else at / 2 <= radius))


def test_strip_areas_are_what_a_cylinder_cuts_of_the_thread() -> None:
    p, ds, en, kn, es = 0.0025, 0.019623, 0.018600, 0.017744, 0.018164
    nut = math.pi * ds * 0.020 * cut(p, ds, en, inside=True)
    bolt = math.pi * kn * 0.020 * cut(p, kn, es, inside=False)
    assert threads.strip_area_internal(0.020, p, ds, en) == pytest.approx(nut, rel=1e-4)
    assert threads.strip_area_external(0.020, p, kn, es) == pytest.approx(bolt, rel=1e-4)


def test_threads_that_do_not_meet_hold_nothing() -> None:
    assert threads.strip_area_internal(0.020, 0.0025, 0.0160, 0.0190) == 0
    assert threads.strip_area_external(0.020, 0.0025, 0.0190, 0.0160) == 0


def test_inch_and_metric_share_the_form() -> None:
    # 3/4-10 in mm, by the metric formula: within half of one in a hundred of the inch one
    d, p = 0.01905, 0.00254
    assert threads.stress_area_metric(d, p) == pytest.approx(threads.stress_area_inch(d, p), rel=0.015)
    assert threads.bolt_minor_diameter(d, p) < threads.nut_minor_diameter(d, p) < threads.pitch_diameter(d, p) < d


@pytest.mark.parametrize(("d", "p"), [(0.0, 0.001), (0.02, 0.0), (0.02, 0.008), (-0.02, 0.001), (0.02, math.inf)])
def test_what_cannot_be_a_thread_is_refused(d: float, p: float) -> None:
    with pytest.raises(OutOfRange):
        threads.pitch_diameter(d, p)


def test_one_bad_draw_is_named_with_its_share() -> None:
    with pytest.raises(OutOfRange, match=r"25\.0%") as bad:
        threads.pitch_diameter(np.array([0.02, 0.02, 0.02, 0.004]), 0.0025)
    assert bad.value.what == "pitch"


def test_a_weaker_lot_is_never_below_its_grade_by_much() -> None:
    shares = np.array([0.001, 0.05, 0.5, 0.95])
    real = strength.real_strength(940e6, 1.08, 0.04, shares)
    assert (np.diff(real) > 0).all()
    assert real[1] > 940e6  # 5 lots in a hundred stand just above the least
    with pytest.raises(OutOfRange):
        strength.bolt_loads(1e-4, 600e6, 500e6, 800e6)
