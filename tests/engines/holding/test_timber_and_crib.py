"""Timber and crib: published box cribs, a grillage of beams on springs, limits and laws of the codes."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.holding.crib import (
    crib_build,
    crib_heights,
    crib_hold,
    crib_shortening,
    crib_side_hold,
    crossings_hold,
    off_centre_share,
    seat_hold,
)
from axlewright.engines.holding.timber import (
    bearing_allowed_en,
    bearing_allowed_us,
    bearing_length_en,
    bearing_length_factor,
)
from axlewright.engines.limits import OutOfRange

FEW = settings(max_examples=40, deadline=None)
HOLD = {"per_layer": 2, "touched": 2, "width": 0.14, "length": 0.9, "overhang": 0.14, "seat_along": 0.3, "allowed_us": 1.4e6, "allowed_en": 0.8e6}  # fmt: skip


@pytest.mark.parametrize(
    ("side_in", "per_layer", "pounds"),
    # US&R shoring guidance: 24,000 and 60,000 lb; Rescue Systems 1, ch. 30: 55,000 lb
    [(3.5, 2, 24_000), (3.5, 3, 55_000), (5.5, 2, 60_000)],
)
def test_published_box_cribs(side_in: float, per_layer: int, pounds: float) -> None:
    held = crossings_hold(per_layer**2, (side_in * 0.0254) ** 2, 500 * 6894.757)
    assert held / 4.4482216 == pytest.approx(pounds, rel=0.03)


@FEW
@given(e=st.floats(0, 0.1), n=st.integers(2, 4))
def test_off_centre_share_is_that_of_a_stiff_beam_on_equal_springs(e: float, n: int) -> None:
    """Second way: least squares of a stiff bar on n equal springs, loaded off the middle."""
    s = 0.4
    places = (np.arange(n) - (n - 1) / 2) * s
    matrix = np.array([[n, places.sum()], [places.sum(), (places**2).sum()]])
    level, turn = np.linalg.solve(matrix, [1.0, e])
    worst = (level + turn * places).max() * n
    assert off_centre_share(e, 0.0, s, s, n, n) == pytest.approx(worst)
    assert off_centre_share(e, e, s, s, n, n) == pytest.approx(worst**2)


def test_off_centre_limits() -> None:
    assert off_centre_share(0, 0, 0.5, 0.5) == pytest.approx(1)
    assert off_centre_share(0.25, 0, 0.5, 0.5) == pytest.approx(2)  # over one of two timbers
    with pytest.raises(OutOfRange):
        off_centre_share(0.26, 0, 0.5, 0.5)


def test_length_bonus_stands_on_its_limits() -> None:
    inch = 0.0254
    assert bearing_length_factor(5.99 * inch, 3 * inch) > 1
    assert bearing_length_factor(6 * inch, 12 * inch) == 1
    assert bearing_length_factor(2 * inch, 2.9 * inch) == 1
    lengths = np.linspace(0.01, 0.2, 400)
    assert (np.diff(bearing_length_factor(lengths, 0.1)) <= 1e-12).all()


@FEW
@given(contact=st.floats(0.005, 0.3), end=st.floats(0, 0.2), clear=st.floats(0, 0.5))
def test_effective_length_keeps_its_limits(contact: float, end: float, clear: float) -> None:
    got = float(bearing_length_en(contact, end, clear))
    assert contact - 1e-12 <= got <= contact + min(0.06, end + clear / 2, 2 * contact) + 1e-12


def test_codes_are_held_against_the_load_as_it_is() -> None:
    assert bearing_allowed_en(2.5e6, 0.65, 1.3, 1.5) == pytest.approx(bearing_allowed_en(2.5e6, 0.65) / 1.5)
    assert bearing_allowed_us(3e6, 0.67) == pytest.approx(2.01e6)
    for bad in (
        lambda: bearing_allowed_us(3e6, 67.0),
        lambda: bearing_allowed_en(2.5e6, 1.5),
        lambda: bearing_allowed_en(-1.0, 0.7),
    ):
        with pytest.raises(OutOfRange):
            bad()


def test_given_layout_is_its_weakest_part_in_the_lower_code() -> None:
    got = crib_hold(**HOLD)
    by_hand_us = 4 * 0.14**2 * 1.4e6 * (1 + 0.375 * 0.0254 / 0.14)
    by_hand_en = 4 * 0.14 * (0.14 + 0.06) * 0.8e6
    assert got.crossings_us == pytest.approx(by_hand_us)
    assert got.crossings_en == pytest.approx(by_hand_en)
    assert got.seat_us == pytest.approx(float(seat_hold(0.3, 0.14, 2, 1.4e6)))
    assert got.crossings == min(got.crossings_us, got.crossings_en)
    assert got.least == min(got.crossings, got.seat)


@FEW
@given(touched=st.integers(1, 3), more=st.floats(1.0, 1.7))
def test_more_of_anything_never_holds_less(touched: int, more: float) -> None:
    base = {**HOLD, "per_layer": 3, "touched": touched}
    one = crib_hold(**base)
    for name in ("allowed_us", "allowed_en", "seat_along"):
        assert crib_hold(**{**base, name: base[name] * more}).least >= one.least - 1e-6
    assert crib_hold(**base, worst_share=more).crossings == pytest.approx(float(one.crossings) / more)


def test_a_touched_timber_more_counts_its_crossings() -> None:
    one, two = (crib_hold(**{**HOLD, "per_layer": 3, "touched": t}) for t in (1, 2))
    assert two.crossings == pytest.approx(2 * float(one.crossings))


def test_side_hold_by_moments() -> None:
    got = crib_side_hold(6e4, 0.3, 0.8, 0.5, 0.05)
    assert got.topples * 0.8 == pytest.approx(6e4 * 0.2)
    assert got.least == min(got.slides, got.topples)
    assert crib_side_hold(6e4, 0.3, 0.8, 0.5, 0.3).topples < 0  # off its base


@FEW
@given(height=st.floats(0.3, 1.2), section=st.floats(0.08, 0.2), packer=st.floats(0, 0.05))
def test_layers_and_packers_make_the_height(height: float, section: float, packer: float) -> None:
    if height - packer < section:
        return
    got = crib_build(height, section, 2, 0.9, section, 10, packer)
    assert got.tiers * section + got.packers == pytest.approx(height)
    assert packer - 1e-9 <= got.packers < section + packer + 1e-9
    assert bool(got.first_crosses) == (got.tiers % 2 == 1)
    assert got.timbers_short == max(2 * got.tiers - 10, 0)


def test_shortening_and_heights() -> None:
    got = crib_shortening(0.6, 4, 0.5, 1.0e6)
    assert got.upper == pytest.approx(0.6 * 0.01 + 0.004)
    assert got.lower == pytest.approx(0.6 / 370 + 0.004)
    assert got.lower < got.upper
    heights = crib_heights(0.55, 0.1, float(got.upper), 0.015)
    assert heights.built - got.upper == pytest.approx(heights.loaded)
    assert 0.55 + heights.jack_rise == pytest.approx(heights.built + 0.015)


@pytest.mark.parametrize(
    "bad", [{"touched": 3}, {"width": 0.0}, {"overhang": 0.4}, {"per_layer": 1}, {"worst_share": 0.5}]
)
def test_layouts_that_cannot_be_are_refused(bad: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        crib_hold(**{**HOLD, **bad})


def test_crushing_is_refused() -> None:
    with pytest.raises(OutOfRange):
        crib_shortening(0.6, 4, 1.2, 2e6)
    with pytest.raises(OutOfRange):
        crib_build(0.1, 0.14, 2, 0.9, 0.14, 10)
