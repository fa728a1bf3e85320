"""Oil film, dirt and rating by caliper: joins, limits, laws of size, catalogue bearings."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.engines.limits import OutOfRange
from axlewright.engines.running.film import (
    contamination_factor,
    fatigue_limit_load,
    life_modification,
    reference_viscosity,
    viscosity_ratio,
)
from axlewright.engines.running.rating import capacity_factor, rating_by_caliper
from axlewright.trade.cleanliness import classes, seen_in_oil

ratios = st.floats(0.1, 6)


@given(ratios, ratios, st.floats(0, 1), st.floats(0, 1), st.floats(1e4, 1e5))
def test_a_thicker_film_and_cleaner_oil_never_shorten_a_life(
    one: float, other: float, dirty: float, clean: float, load: float
) -> None:
    """Within what the standard spans; at each of its joins too."""
    thin, thick = sorted((one, other))
    dirty, clean = sorted((dirty, clean))
    assert (
        float(life_modification(thin, dirty, 45e3, load)) <= float(life_modification(thick, dirty, 45e3, load)) * 1.002
    )
    assert (
        float(life_modification(thin, dirty, 45e3, load)) <= float(life_modification(thin, clean, 45e3, load)) + 1e-12
    )
    assert 0.1 - 1e-12 <= float(life_modification(thin, dirty, 45e3, load)) <= 50 + 1e-9


def test_joins_of_the_branches_meet() -> None:
    for join in (0.4, 1.0):
        below, above = (float(life_modification(join * part, 0.3, 45e3, 80e3)) for part in (1 - 1e-9, 1 + 1e-9))
        assert below == pytest.approx(above, rel=2e-3)
    slow, fast = (float(reference_viscosity(1000 / 60 * part, 0.07)) for part in (0.9999, 1.0001))
    assert slow == pytest.approx(fast, rel=0.03)  # the standard's own join is that rough


def test_thinner_than_the_standard_speaks_of_is_refused() -> None:
    with pytest.raises(OutOfRange, match="below it ISO 281 gives no life"):
        life_modification(0.099, 0.1, 45e3, 80e3)
    assert float(life_modification(0.1, 0.0, 45e3, 80e3)) == pytest.approx(0.1)


def test_a_wheel_in_the_field_never_rides_on_its_oil() -> None:
    """Thick gear oil at work (90 to 150 mm2/s), wheel speeds: 0.1 to 0.5 of what it would take."""
    for rate, oil in ((12 / 60, 90e-6), (18 / 60, 150e-6)):
        assert 0.1 < float(viscosity_ratio(oil, rate, 0.14)) < 0.5


@given(st.floats(0.1, 4), st.floats(0.03, 0.3))
def test_dirtier_classes_leave_less(ratio: float, size: float) -> None:
    left = [float(contamination_factor(ratio, size, row.factor, row.offset)) for row in classes().values()]
    assert all(0 <= one <= 1 for one in left)
    assert left == sorted(left, reverse=True)


def test_what_was_seen_wins_over_any_class() -> None:
    row = classes()["-/13/10"]
    left = [
        float(contamination_factor(4.0, 0.14, row.factor, row.offset, seen.most)) for seen in seen_in_oil().values()
    ]
    assert left[0] > 0.8
    np.testing.assert_allclose(left[1:], [0.1, 0.0])


def test_fatigue_limit_of_catalogue_bearings() -> None:
    """A catalogue's 32218: C0 340 kN, Cu 38 kN (read); the rule's spread is 4 in 100."""
    assert float(fatigue_limit_load(340e3, 0.125)) / 1e3 == pytest.approx(38, rel=0.05)
    assert float(fatigue_limit_load(82e3, 0.0999)) == pytest.approx(float(fatigue_limit_load(82e3, 0.1001)), rel=1e-3)


# d, D, T [mm], e; catalogue C, C0 [kN], a [mm]: two bearings of a maker's general catalogue (read)
CATALOGUE = {"32218": (90, 160, 42.5, 0.42, 251, 340, 36.0), "32220": (100, 180, 49.0, 0.42, 319, 440, 41.5)}


@pytest.mark.parametrize("number", CATALOGUE)
def test_a_bearing_by_caliper(number: str) -> None:
    d, big, wide, e, capacity, static, centre = CATALOGUE[number]
    got = rating_by_caliper(d / 1e3, big / 1e3, wide / 1e3, e)
    assert float(got.likely_capacity) / 1e3 == pytest.approx(capacity, rel=0.12)  # two of its spread
    assert float(got.static_capacity) / 1e3 == pytest.approx(static, rel=0.15)
    assert float(got.centre) * 1e3 == pytest.approx(centre, abs=1.1)


@given(st.floats(0.5, 2.0))
def test_twice_the_size_is_a_power_more(scale: float) -> None:
    """All sizes times s: C by s^(7/9 + 29/27), C0 by its square, rollers and angle as they were."""
    one, other = (rating_by_caliper(s * 0.09, s * 0.16, s * 0.0425, 0.42) for s in (1.0, scale))
    assert float(other.capacity) == pytest.approx(float(one.capacity) * scale ** (7 / 9 + 29 / 27))
    assert float(other.static_capacity) == pytest.approx(float(one.static_capacity) * scale**2)
    assert (float(other.rollers), float(other.cup_angle)) == pytest.approx((float(one.rollers), float(one.cup_angle)))


def test_the_factor_has_its_greatest_value_inside() -> None:
    """ISO 281's table rises to about 0.18 and falls after (88.8 there)."""
    slim = np.linspace(0.02, 0.4, 400)
    factors = capacity_factor(slim)
    assert 0.16 < slim[int(np.argmax(factors))] < 0.2
    assert float(np.max(factors)) == pytest.approx(88.8, abs=0.2)
    with pytest.raises(OutOfRange, match="more than the bore"):
        rating_by_caliper(0.1, 0.09, 0.04, 0.42)
