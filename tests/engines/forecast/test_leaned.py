"""A few designs of a class, leaned on a rating of bearings: against Bayes by brute force, drawn lives, and laws."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.engines.forecast import (
    Lives,
    Sojourn,
    fresh_lives,
    lean_factors,
    lean_of,
    median_to_failing,
    medians_to_failing,
    stretched,
)
from axlewright.engines.limits import OutOfRange
from axlewright.kinds import Array

HOUR = 3600.0
RNG = np.random.default_rng(20)


def designs(many: int, apart: float = 0.5) -> Lives:
    """A class of so many designs, medians of sound and wearing lognormal."""
    sound, wearing = np.exp(apart * RNG.standard_normal((2, many)))
    return Lives(
        Sojourn("weibull", 4800 * HOUR * sound, 2.0),
        Sojourn("lognormal", 1100 * HOUR * wearing, 0.7, 0.15, 0.02),
        Sojourn("lognormal", 110 * HOUR * np.ones(many), 0.9),
        0.35,
    )


def one_of(lives: Lives, n: int) -> Lives:
    part = [replace(law, median=float(law.median[n])) for law in (lives.sound, lives.wearing, lives.failing)]  # type: ignore[index]
    return Lives(*part, lives.unit_spread)


# --- medians of many designs at once
def test_medians_of_designs_are_those_of_the_forecast_one_by_one() -> None:
    lives = designs(12)
    together = medians_to_failing(lives)
    one_by_one = [float(median_to_failing(one_of(lives, n))) for n in range(12)]
    np.testing.assert_allclose(together, one_by_one, rtol=2e-3)


def test_half_of_drawn_drives_have_begun_to_fail_by_the_median() -> None:
    lives = one_of(designs(1), 0)
    drawn = fresh_lives(lives, RNG.random((400_000, 4))).fails
    assert float(medians_to_failing(lives)[0]) == pytest.approx(float(np.median(drawn)), rel=5e-3)


# --- the lean
@pytest.fixture(scope="module")
def many() -> Array:
    return np.asarray(medians_to_failing(designs(8_000)))


def by_brute_force(logs: Array, opinion: float, spread: float) -> tuple[float, float]:
    """Mean and standard deviation of ln(median), each design weighed by the chance of such a rating."""
    weight = np.exp(-(((logs - np.log(opinion)) / spread) ** 2) / 2)
    weight /= weight.sum()
    mean = float(weight @ logs)
    return mean, float(np.sqrt(weight @ (logs - mean) ** 2))


@pytest.mark.parametrize("times", [0.25, 0.6, 1.0, 2.5])
@pytest.mark.parametrize("spread", [0.5, 0.7, 1.1])
def test_leaned_designs_stand_as_bayes_would_weigh_them(many: Array, times: float, spread: float) -> None:
    """Moved and drawn together, all of one weight: the same middle and the same doubt as weighing designs that stay.

    The logarithm of a sum of two lognormal medians is not quite normal, so 3 in 100 are left at a rating of a quarter.
    """
    medians, logs = many, np.log(many)
    lean = lean_of(float(np.exp(logs.mean())), float(logs.std()), times * float(np.exp(logs.mean())), spread, 1e6)
    moved = logs + np.log(lean_factors(medians, lean))
    mean, left = by_brute_force(logs, float(lean.opinion), spread)
    assert float(moved.mean()) == pytest.approx(mean, abs=0.03)
    assert float(moved.std()) == pytest.approx(left, rel=0.04)
    assert float(lean.spread) == pytest.approx(left, rel=0.04)
    assert left < logs.std()


def test_a_leaned_class_has_the_medians_it_was_leaned_to() -> None:
    lives = designs(16)
    medians = medians_to_failing(lives)
    lean = lean_of(5000 * HOUR, 0.43, 2000 * HOUR, 0.8, 1.2)
    factors = lean_factors(medians, lean)
    np.testing.assert_allclose(medians_to_failing(stretched(lives, factors)), medians * factors, rtol=1e-3)


def test_a_rating_stands_beside_all_other_causes() -> None:
    """Two Weibull causes drawn side by side: the median of the first of them is the opinion."""
    fatigue, others = 9000.0, 1.2 * 5000.0
    drawn = np.minimum(*(m * RNG.weibull(2.0, 400_000) / np.log(2) ** 0.5 for m in (fatigue, others)))
    lean = lean_of(5000.0, 0.43, fatigue, 0.8, 1.2)
    assert float(lean.opinion) == pytest.approx(float(np.median(drawn)), rel=5e-3)


def test_however_long_the_rating_no_design_is_stretched_beyond_all_other_causes() -> None:
    medians = np.asarray(medians_to_failing(designs(200)))
    for rated in (1e9 * HOUR, np.inf):
        for spread in (1e-3, 0.7):
            factors = lean_factors(medians, lean_of(5000 * HOUR, 0.43, rated, spread, 1.2))
            assert np.max(factors) <= 1.2
    sure = lean_of(5000 * HOUR, 0.43, np.inf, 1e-3, 1.2)
    assert float(sure.factor) == pytest.approx(1.2, rel=1e-4)


def test_a_short_rating_is_believed_as_it_stands() -> None:
    lean = lean_of(5000.0, 0.4, 50.0, 0.4, 1.2)
    assert float(lean.factor) == pytest.approx(0.1, rel=1e-3)  # half way, by equal doubt


def test_a_rating_of_no_weight_leaves_every_design() -> None:
    medians = np.asarray(medians_to_failing(designs(16)))
    np.testing.assert_allclose(lean_factors(medians, lean_of(5000 * HOUR, 0.43, 90 * HOUR, 1e6, 1.2)), 1.0, atol=1e-9)


@given(
    st.floats(10.0, 1e6), st.floats(1.01, 3.0), st.floats(0.1, 2.0), st.floats(0.1, 0.9), st.floats(1.0, 2.0)
)  # fmt: skip
def test_a_longer_rating_never_shortens_and_designs_keep_their_order(
    rated: float, longer: float, spread: float, apart: float, most: float
) -> None:
    medians = np.geomspace(500.0, 60_000.0, 9)
    short, long = (lean_factors(medians, lean_of(6000.0, apart, one, spread, most)) for one in (rated, rated * longer))
    assert (long >= short - 1e-12).all()
    assert (np.diff(medians * short) > 0).all()
    assert np.max(long) <= most


@pytest.mark.parametrize(("bad", "what"), [({"most": 0.9}, "most"), ({"class_median": 0.0}, "class_median"), ({"bearing_spread": 0.0}, "bearing_spread"), ({"shape": 0.0}, "shape")])  # fmt: skip
def test_what_cannot_be_is_refused(bad: dict[str, float], what: str) -> None:
    fine = {"class_median": 1.0, "class_spread": 0.4, "bearing_median": 2.0, "bearing_spread": 0.7, "most": 1.2}
    with pytest.raises(OutOfRange, match=what):
        lean_of(**{**fine, **bad})
