"""Lives against the published table, plain integration, simulated bearings, and limits."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import weibull_min

from axlewright.engines.limits import OutOfRange
from axlewright.engines.running.life import (
    basic_rating_life,
    duty_life,
    pair_life,
    ramp_mean_load,
    reliability_factor,
    running_distance,
    running_time,
    survival_life,
    wheel_rate,
)
from axlewright.engines.running.spall import spall_mass, spread_of_slope


def bearings(rating: float, slope: float, count: int, seed: int) -> np.ndarray:
    """Lives of bearings of which nine in ten reach the rating life."""
    scale = rating / (-np.log(0.9)) ** (1 / slope)
    return np.asarray(weibull_min(slope, scale=scale).rvs(count, random_state=seed))


def test_nine_of_ten_pairs_reach_the_life_of_the_pair() -> None:
    one, other = bearings(40e6, 1.125, 400_000, 1), bearings(90e6, 1.125, 400_000, 2)
    reached = np.quantile(np.minimum(one, other), 0.1)
    assert float(pair_life(40e6, 90e6)) == pytest.approx(reached, rel=0.01)


@pytest.mark.parametrize("survival", [0.5, 0.7, 0.95])
def test_another_share_reaches_another_life(survival: float) -> None:
    reached = np.quantile(bearings(1e6, 1.5, 400_000, 3), 1 - survival)
    assert float(survival_life(1e6, survival, 1.5)) == pytest.approx(reached, rel=0.02)
    assert float(survival_life(1e6, 0.9, 1.5)) == pytest.approx(1e6)


def test_the_printed_table_of_a1() -> None:
    """Bearing maker's reliability table, the same as ISO 281:2007."""
    printed = {0.90: 1.0, 0.95: 0.64, 0.96: 0.55, 0.97: 0.47, 0.98: 0.37, 0.99: 0.25}
    for survival, factor in printed.items():
        assert float(reliability_factor(survival)) == pytest.approx(factor, abs=0.006)
    with pytest.raises(OutOfRange, match="survival is 0"):
        reliability_factor(0.5)


def test_load_on_a_bearing_of_half_its_capacity_is_the_end() -> None:
    assert float(basic_rating_life(200e3, 100e3)) == pytest.approx(2 ** (10 / 3) * 1e6)
    with pytest.raises(
        OutOfRange, match=r"load is 100001; it must be 0 to 100000 \(past what a rating life holds for\)"
    ):
        basic_rating_life(200e3, 100_001.0)
    with pytest.raises(OutOfRange, match="load is 90000; it must be 0 to 80000"):
        basic_rating_life(200e3, 90e3, 80e3)
    with pytest.raises(OutOfRange, match="of the draws"):
        basic_rating_life(200e3, np.array([50e3, 150e3]))


def test_no_load_and_no_turning_are_without_limit() -> None:
    assert np.isinf(basic_rating_life(200e3, 0.0))
    assert np.isinf(running_time(1e6, 0.0))
    assert float(pair_life(np.inf, 5e6)) == pytest.approx(5e6)
    assert np.isinf(running_distance(np.inf, 0.8))


@given(st.floats(0, 50e3), st.floats(0, 50e3))
def test_a_ramp_by_integration(least: float, greatest: float) -> None:
    mean = quad(lambda x: (least + (greatest - least) * x) ** (10 / 3), 0, 1)[0] ** 0.3
    assert float(ramp_mean_load(least, greatest)) == pytest.approx(mean, rel=1e-6, abs=1e-6)


def test_a_duty_by_going_through_it() -> None:
    """Ten thousand short stretches of work, each costing turns over life, until nothing is left."""
    rng = np.random.default_rng(6)
    shares, rates, pulls = np.array([0.5, 0.3, 0.2]), np.array([0.3, 0.25, 1.2]), np.array([50e3, 90e3, 40e3])
    factors = np.array([0.11, 0.1, 0.3])
    states = rng.choice(3, 200_000, p=shares)
    stretch = 3600.0 * 8
    cost = stretch * rates[states] / (np.asarray(basic_rating_life(300e3, pulls)) * factors)[states]
    lasts = stretch * (np.searchsorted(np.cumsum(cost), 1.0) + 1)
    got = duty_life(300e3, shares, rates, pulls, factors)
    assert float(got.time) == pytest.approx(lasts, rel=0.02)
    assert float(got.turns) == pytest.approx(float(got.time) * float(rates @ shares))


def test_one_state_is_no_duty() -> None:
    alone = duty_life(300e3, np.array([2.0]), np.array([0.3]), np.array([80e3]))
    assert float(alone.turns) == pytest.approx(float(basic_rating_life(300e3, 80e3)))
    assert float(alone.load) == pytest.approx(80e3)
    over_draws = duty_life(np.array([300e3, 250e3]), np.array([1.0, 1]), np.array([0.3, 1]), np.array([80e3, 40e3]))
    assert over_draws.time.shape == (2,)  # type: ignore[union-attr]
    assert over_draws.time[0] > over_draws.time[1]  # type: ignore[index]
    with pytest.raises(OutOfRange, match="turns in one state"):
        duty_life(300e3, np.array([1.0]), np.array([0.0]), np.array([80e3]))


def test_turns_hours_and_kilometres_are_one_journey() -> None:
    turns, speed, radius = 3e6, 1.6, 0.82
    rate = wheel_rate(speed, radius)
    assert float(running_time(turns, rate)) * speed == pytest.approx(float(running_distance(turns, radius)))


@pytest.mark.parametrize("slope", [0.8, 1.1, 2.0])
def test_spread_of_a_slope_by_the_library(slope: float) -> None:
    law = weibull_min(slope)
    got = spread_of_slope(slope)
    assert float(got.tenth) == pytest.approx(law.ppf(0.1) / law.median())
    assert float(got.nine_tenths) == pytest.approx(law.ppf(0.9) / law.median())
    assert float(got.log_sd) == pytest.approx(np.log(law.rvs(400_000, random_state=1)).std(), rel=0.01)


def test_a_first_spall_weighs_milligrams() -> None:
    assert float(spall_mass(6e-6, 0.15e-3)) * 1e6 == pytest.approx(7.0, abs=0.05)
