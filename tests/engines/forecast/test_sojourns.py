"""Laws of a stay against a statistics library, and what the bearings say of a class by plain integration."""

from __future__ import annotations

import numpy as np
import pytest
from engines.forecast.drives import a_class
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import lognorm, norm, weibull_min

from axlewright.engines.forecast import Sojourn, fresh_lives, leaned_on_bearings, median_to_failing, stretched
from axlewright.engines.forecast.sojourns import life_with_bearings, sojourn_survival, sojourn_time
from axlewright.engines.limits import OutOfRange

HOUR = 3600.0
TIMES = np.geomspace(1, 30_000, 40) * HOUR


@pytest.mark.parametrize("shape", [0.8, 1.0, 2.0, 4.0])
def test_weibull_by_the_library(shape: float) -> None:
    law = weibull_min(shape, scale=5000 * HOUR / np.log(2) ** (1 / shape))
    np.testing.assert_allclose(
        sojourn_survival(Sojourn("weibull", 5000 * HOUR, shape), TIMES), law.sf(TIMES), rtol=1e-9
    )
    np.testing.assert_allclose(sojourn_time(Sojourn("weibull", 5000 * HOUR, shape), 0.1), law.isf(0.1))


@pytest.mark.parametrize("sd", [0.2, 0.7, 1.2])
def test_lognormal_by_the_library(sd: float) -> None:
    law = lognorm(sd, scale=900 * HOUR)
    np.testing.assert_allclose(sojourn_survival(Sojourn("lognormal", 900 * HOUR, sd), TIMES), law.sf(TIMES), rtol=1e-9)
    np.testing.assert_allclose(sojourn_time(Sojourn("lognormal", 900 * HOUR, sd), 0.97), law.isf(0.97))


def test_short_ones_are_mixed_in() -> None:
    """Fatigue may skip wearing: a share has another median."""
    law = Sojourn("lognormal", 900 * HOUR, 0.7, 0.2, 1 / 45)
    by_library = 0.8 * lognorm(0.7, scale=900 * HOUR).sf(TIMES) + 0.2 * lognorm(0.7, scale=20 * HOUR).sf(TIMES)
    np.testing.assert_allclose(sojourn_survival(law, TIMES), by_library, rtol=1e-9)


@given(
    family=st.sampled_from(["weibull", "lognormal"]),
    spread=st.floats(0.3, 3),
    short=st.sampled_from([0.0, 0.15, 1.0]),
    share=st.floats(1e-6, 1 - 1e-6),
)
def test_a_time_is_the_survival_turned_round(family: str, spread: float, short: float, share: float) -> None:
    law = Sojourn(family, 900 * HOUR, spread, short, 0.05)  # type: ignore[arg-type]
    assert float(sojourn_survival(law, sojourn_time(law, share))) == pytest.approx(share, rel=1e-6)


def test_new_ones_are_all_there() -> None:
    law = Sojourn("lognormal", 900 * HOUR, 0.7, 0.2, 0.05)
    assert float(sojourn_survival(law, 0.0)) == pytest.approx(1)
    assert not float(sojourn_time(law, 1.0))
    with pytest.raises(OutOfRange, match="time is -1"):
        sojourn_survival(law, -1.0)
    with pytest.raises(OutOfRange, match="share"):
        sojourn_time(law, 0.0)


def test_class_and_bearings_by_integration() -> None:
    """The product of two bells of the logarithm, summed on a fine grid."""
    got = life_with_bearings(6000 * HOUR, 0.8, 13_000 * HOUR, 0.7)
    x = np.linspace(np.log(100), np.log(1e6), 40_001)
    weight = norm.pdf(x, np.log(6000), 0.8) * norm.pdf(x, np.log(13_000), 0.7)
    mean = (x * weight).sum() / weight.sum()
    sd = np.sqrt(((x - mean) ** 2 * weight).sum() / weight.sum())
    assert float(got.median) / HOUR == pytest.approx(np.exp(mean), rel=1e-6)
    assert float(got.spread) == pytest.approx(sd, rel=1e-6)
    assert float(got.factor) == pytest.approx(np.exp(mean) / 6000, rel=1e-6)


def test_bearings_of_no_weight_leave_the_class() -> None:
    same = life_with_bearings(6000 * HOUR, 0.8, 13_000 * HOUR, 1e6)
    assert float(same.factor) == pytest.approx(1, abs=1e-9)
    sure = life_with_bearings(6000 * HOUR, 0.8, 13_000 * HOUR, 1e-4)
    assert float(sure.median) / HOUR == pytest.approx(13_000, rel=1e-6)
    with pytest.raises(OutOfRange, match="bearing_median"):
        life_with_bearings(1.0, 0.8, 0.0, 0.7)


def test_a_stretched_class_takes_longer_to_its_first_spall_and_no_longer_after() -> None:
    """Against drives drawn one by one: sound and wearing times the factor, failing as it was."""
    shares = np.random.default_rng(4).random((500, 4))
    plain, long = (fresh_lives(lives, shares) for lives in (a_class(), stretched(a_class(), 1.7)))
    np.testing.assert_allclose(long.fails, 1.7 * plain.fails)
    np.testing.assert_allclose(long.lets_go - long.fails, plain.lets_go - plain.fails)
    with pytest.raises(OutOfRange, match="factor"):
        stretched(a_class(), 0.0)


def test_a_class_leaned_on_its_bearings_by_drawn_lives() -> None:
    """Half have begun to fail by the median; the leaned class lies between both opinions, nearer the surer."""
    lives = a_class(short_share=0.15)
    drawn = fresh_lives(lives, np.random.default_rng(2).random((400_000, 4))).fails
    median = float(median_to_failing(lives))
    assert median == pytest.approx(float(np.median(drawn)), rel=5e-3)
    long = leaned_on_bearings(lives, 3 * median, 0.8, 0.4)
    stretch = float(median_to_failing(long)) / median
    assert stretch == pytest.approx(3**0.8, rel=2e-3)  # 1/0.4^2 beside 1/0.8^2: four parts of five
    assert long.failing == lives.failing
    same = leaned_on_bearings(lives, median)
    assert float(same.sound.median) == pytest.approx(float(lives.sound.median), rel=1e-6)
