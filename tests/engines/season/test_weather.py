"""Workable days: drawn days against the exact recursion, the recursion against counting out, closed forms."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import beta, binom, chi2_contingency

from axlewright.engines.limits import OutOfRange
from axlewright.engines.season import drawn_days, weather

SHARE, MEMORY = 0.65, 0.4


def counted_out(share: float, memory: float, days: int) -> np.ndarray:
    """Chance of each count by every row of days there is."""
    chain = weather.chain_from_memory(share, memory)
    step = {0: float(chain.after_bad), 1: float(chain.after_good)}
    chances = np.zeros(days + 1)
    for one in itertools.product((0, 1), repeat=days):
        chance = share if one[0] else 1 - share
        for before, after in itertools.pairwise(one):
            chance *= step[before] if after else 1 - step[before]
        chances[sum(one)] += chance
    return chances


def test_the_recursion_is_counting_out() -> None:
    np.testing.assert_allclose(weather.days_chances(SHARE, MEMORY, 9), counted_out(SHARE, MEMORY, 9), atol=1e-12)
    np.testing.assert_allclose(weather.days_chances(SHARE, 0.0, 20), binom.pmf(np.arange(21), 20, SHARE), atol=1e-12)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.05, 0.95), st.floats(0.0, 0.9), st.integers(1, 40))
def test_mean_and_variance_are_those_of_the_closed_form(share: float, memory: float, days: int) -> None:
    chances, count = weather.days_chances(share, memory, days), np.arange(days + 1)
    assert chances.sum() == pytest.approx(1)
    assert chances @ count == pytest.approx(share * days)
    variance = chances @ (count - share * days) ** 2
    assert variance == pytest.approx(float(weather.days_variance(share, memory, days)), rel=1e-6, abs=1e-9)


def test_drawn_days_are_those_of_the_exact_chain() -> None:
    rng = np.random.default_rng(11)
    days = drawn_days(rng.random((20_000, 30)), SHARE, MEMORY)
    counts = np.bincount(days.sum(axis=1), minlength=31) / 20_000
    exact = weather.days_chances(SHARE, MEMORY, 30)
    error = np.sqrt(np.maximum(exact * (1 - exact), 1e-6) / 20_000)
    assert (np.abs(counts - exact) < 4.5 * error).all()
    after = days[:, 1:][days[:, :-1]].mean()
    assert after == pytest.approx(float(weather.chain_from_memory(SHARE, MEMORY).after_good), abs=0.005)


def test_todays_weather_counts_and_wears_off() -> None:
    rng = np.random.default_rng(12)
    luck = rng.random((20_000, 12))
    good, bad, unknown = (drawn_days(luck, SHARE, MEMORY, today).mean(axis=0) for today in (1.0, 0.0, -1.0))
    assert good[0] > unknown[0] > bad[0]
    assert good[-1] == pytest.approx(bad[-1], abs=0.01)
    for today, found in ((1.0, good), (0.0, bad)):
        exact = weather.days_chances(SHARE, MEMORY, 12, today) @ np.arange(13)
        assert found.sum() == pytest.approx(exact, abs=0.05)


@settings(max_examples=20, deadline=None)
@given(st.floats(0.05, 0.9), st.floats(0.0, 0.09), st.floats(0.0, 0.9))
def test_a_better_climate_never_makes_a_day_worse_on_the_same_draws(share: float, more: float, memory: float) -> None:
    luck = np.random.default_rng(13).random((50, 40))
    assert (drawn_days(luck, share, memory) <= drawn_days(luck, share + more, memory)).all()


def test_more_days_begin_with_the_same_days() -> None:
    luck = np.random.default_rng(14).random((30, 60))
    np.testing.assert_array_equal(drawn_days(luck, SHARE, MEMORY)[:, :20], drawn_days(luck[:, :20], SHARE, MEMORY))


def test_no_memory_is_each_day_alone_and_the_ends_are_all_and_none() -> None:
    luck = np.random.default_rng(15).random((30, 60))
    np.testing.assert_array_equal(drawn_days(luck, SHARE, 0.0), luck < SHARE)
    assert drawn_days(luck, 1.0, 0.3).all()
    assert not drawn_days(luck, 0.0, 0.3).any()


def test_years_differ_as_they_are_told_to() -> None:
    shares = (np.arange(20_000) + 0.5) / 20_000
    years = np.asarray(weather.year_shares(shares, 0.7, 0.09))
    assert years.mean() == pytest.approx(0.7, abs=1e-4)
    assert years.std() == pytest.approx(0.09, rel=1e-2)
    assert (np.diff(years) >= 0).all()
    size = 0.7 * 0.3 / 0.09**2 - 1
    np.testing.assert_allclose(years[::4000], beta.ppf(shares[::4000], 0.7 * size, 0.3 * size), rtol=1e-6)
    np.testing.assert_array_equal(weather.year_shares(shares[:5], 0.7, 0.0), np.full(5, 0.7))


@pytest.mark.parametrize(
    ("share", "spread"), [(0.7, 0.09), (0.97, 0.02), (0.3, 0.05), (0.6, 0.2), (0.5, 0.28), (0.5, 0.4)]
)
def test_many_years_are_those_of_the_exact_inverse_out_to_the_ends(share: float, spread: float) -> None:
    ends = [0.0, 1e-300, 1e-12, 1e-9, 1 - 1e-9, 1 - 1e-12, 1.0]
    shares = np.concatenate([np.random.default_rng(3).random(4000), ends])
    size = share * (1 - share) / spread**2 - 1
    exact = beta.ppf(shares, share * size, (1 - share) * size)
    np.testing.assert_allclose(weather.year_shares(shares, share, spread), exact, rtol=0, atol=1e-8)


def test_years_that_differ_scatter_the_days_by_the_law_of_total_variance() -> None:
    rng = np.random.default_rng(16)
    years = weather.year_shares(rng.random(40_000), SHARE, 0.1)
    days = drawn_days(rng.random((40_000, 30)), years, MEMORY).sum(axis=1)
    assert days.var() == pytest.approx(float(weather.days_variance(SHARE, MEMORY, 30, 0.1)), rel=0.03)


@settings(max_examples=30, deadline=None)
@given(st.floats(0.1, 0.9), st.floats(0.01, 0.9))
def test_there_and_back(share: float, memory: float) -> None:
    chain = weather.chain_from_memory(share, memory)
    again = weather.chain_from_spell(share, chain.good_spell)
    assert float(again.after_bad) == pytest.approx(float(chain.after_bad))
    assert float(again.memory) == pytest.approx(memory)
    assert float(again.bad_spell) == pytest.approx(1 / float(chain.after_bad))
    deviation = float(weather.days_variance(share, memory, 7)) ** 0.5
    assert float(weather.memory_from_reports(share, 7.0, deviation)) == pytest.approx(memory, abs=1e-6)


def test_test_of_memory_is_the_librarys() -> None:
    wanted = chi2_contingency([[40, 25], [18, 61]], correction=False).statistic
    assert float(weather.chain_from_counts(40, 25, 18, 61).chi_square) == pytest.approx(wanted)


def test_counts_of_a_drawn_record_give_its_chain_back() -> None:
    days = drawn_days(np.random.default_rng(17).random((1, 60_000)), SHARE, MEMORY)[0]
    c = weather.days_followed(days)
    assert c.bad_bad + c.bad_good + c.good_bad + c.good_good == 59_999
    chain = weather.chain_from_counts(c.bad_bad, c.bad_good, c.good_bad, c.good_good).chain
    assert float(chain.memory) == pytest.approx(MEMORY, abs=0.015)


def test_a_spell_on_the_edge_is_not_refused_by_rounding() -> None:
    assert float(weather.chain_from_spell(0.8, 0.8 / 0.2).after_bad) == pytest.approx(1.0)
    assert float(weather.chain_from_spell(0.9, 0.9 / (1 - 0.9)).after_bad) == pytest.approx(1.0)
    with pytest.raises(OutOfRange, match="spell"):
        weather.chain_from_spell(0.8, 3.5)


def test_rain_before_the_record_counts_as_dry_and_two_days_count_together() -> None:
    rain = np.array([0.0, 4.9, 0.9, 0.0, 7.0, 0.0, 0.0, 0.0])
    found = weather.workable_by_rain(rain)
    by_hand = []
    for i, today in enumerate(rain):
        one, two = rain[i - 1] if i else 0.0, rain[i - 2] if i > 1 else 0.0
        by_hand.append(today < 1 and one < 5 and one + two < 10)
    assert found.tolist() == by_hand


@pytest.mark.parametrize(
    "call",
    [
        lambda: weather.chain_from_spell(1.0, 4.0),
        lambda: weather.chain_from_counts(0, 0, 3, 4),
        lambda: weather.days_variance(0.5, 0.3, 10, 0.6),
        lambda: weather.memory_from_reports(0.5, 7.0, 0.4),
        lambda: weather.year_shares(0.5, 0.5, 0.5),
        lambda: drawn_days(np.zeros(3), 0.5, 0.1),
        lambda: drawn_days(np.full((2, 3), np.nan), 0.5, 0.1),
    ],
)
def test_what_cannot_be_is_refused(call: object) -> None:
    with pytest.raises(OutOfRange):
        call()  # type: ignore[operator]
