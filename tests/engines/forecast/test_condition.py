"""How a drive stands: against the matrix exponential, weighted draws, another integral over the drive's own factor, laws."""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
import pytest
from engines.forecast.drives import CLEAN, FLAKES, HOUR, NO_ROWS, NONE, Drawn, a_class, exponential, filtered
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.forecast import (
    Forecast,
    Lives,
    Sojourn,
    chance_band,
    chance_by,
    condition_before,
    forecast,
    pooled,
    posterior_weights,
)
from axlewright.engines.limits import OutOfRange
from axlewright.trade.findings import findings

AHEAD = np.array([0.0, 50.0, 200.0, 700.0]) * HOUR


@pytest.mark.parametrize("seed", range(5))
def test_exponential_stays_agree_with_the_matrix_exponential(seed: int) -> None:
    rng = np.random.default_rng(seed)
    means = rng.uniform([2000, 400, 60], [6000, 1500, 200])
    now = float(rng.uniform(500, 6000))
    ago = np.sort(rng.uniform(0, now, 4))
    rows = rng.uniform(0.05, 1.0, (4, 4))
    got = forecast(exponential(*means), now * HOUR, ago * HOUR, rows, AHEAD, carries=False)
    for n, ahead in enumerate(AHEAD / HOUR):
        wanted, log = filtered(means, now, ago, rows, ahead)
        np.testing.assert_allclose(got.chance[n], wanted, atol=1e-3)
        assert float(got.log_evidence) == pytest.approx(log, abs=2e-3)


def test_halving_the_cells_quarters_the_error() -> None:
    """The order of the method: cell means of what steps, midpoints of what does not."""
    means, now, ago, rows = (4000.0, 700.0, 100.0), 3000.0, [1234.5, 321.0], np.array([CLEAN, FLAKES])
    wanted, _ = filtered(means, now, ago, rows, 150.0)
    errors = [
        np.abs(forecast(exponential(*means), now * HOUR, np.array(ago) * HOUR, rows, [150 * HOUR], False, fineness=f)
               .chance[0] - wanted).max()
        for f in (3.6, 7.2, 14.4)
    ]  # fmt: skip
    assert errors[0] / errors[1] == pytest.approx(4, rel=0.25)
    assert errors[1] / errors[2] == pytest.approx(4, rel=0.25)


@pytest.mark.parametrize("short_share", [0.0, 0.15])
@pytest.mark.parametrize(
    ("now", "ago", "rows"),
    [
        (3000.0, [], []),
        (4200.0, [800.0, 90.0], [CLEAN, FLAKES]),
        (6000.0, [400.0, 300.0, 0.0], [FLAKES, CLEAN, [0.05, 0.2, 0.5, 0.6]]),
        (2500.0, [60.0], [[0.0, 0.0, 0.2, 0.3]]),
    ],
)
def test_weighted_draws_from_the_class_say_the_same(
    now: float, ago: list[float], rows: list[list[float]], short_share: float
) -> None:
    """Importance sampling: another method, that knows nothing of a grid."""
    lives = a_class(short_share=short_share)
    given_rows = np.array(rows, float).reshape(-1, 4)
    got = forecast(lives, now * HOUR, np.array(ago) * HOUR, given_rows, AHEAD)
    drawn = Drawn(lives, now, ago, given_rows)
    for n, ahead in enumerate(AHEAD / HOUR):
        chance, error = drawn.chances(float(ahead))
        assert (np.abs(got.chance[n] - chance) <= 4 * error + 1.5e-3).all()
    assert float(got.log_evidence) == pytest.approx(np.log(drawn.carrying), abs=0.02)


def test_the_drives_own_factor_by_a_plain_sum_over_many() -> None:
    """Each factor is a class of its own, all medians stretched; the sum over 161 of them needs no nodes."""
    lives, now, ago = a_class(), 4200 * HOUR, np.array([700.0, 60.0]) * HOUR
    rows = np.array([CLEAN, FLAKES])
    z = np.linspace(-5, 5, 161)
    stretched = [
        Lives(
            *(replace(s, median=s.median * np.exp(0.35 * one)) for s in (lives.sound, lives.wearing, lives.failing)),
            0.0,
        )
        for one in z
    ]
    alone = [forecast(one, now, ago, rows, AHEAD) for one in stretched]
    weight = np.exp(-0.5 * z**2 + np.array([float(f.log_evidence) for f in alone]))
    wanted = np.tensordot(weight / weight.sum(), np.array([f.chance for f in alone]), axes=1)
    np.testing.assert_allclose(forecast(lives, now, ago, rows, AHEAD).chance, wanted, atol=1e-3)


TABLES = [(f.id, by, np.array(table)) for f in findings().values() for by, table in f.tables().items()]


@pytest.mark.parametrize(("name", "by", "table"), TABLES, ids=[f"{name} {by}".strip() for name, by, _ in TABLES])
def test_a_worse_grade_never_speaks_for_a_better_drive(name: str, by: str, table: np.ndarray) -> None:
    """For every table of the trade: sound never rises, letting go never falls."""
    for now in (800.0, 4000.0):
        got = [forecast(a_class(), now * HOUR, [30 * HOUR], [row], AHEAD).chance for row in table]
        for mild, worse in itertools.pairwise(got):
            assert (worse[:, 0] <= mild[:, 0] + 1e-12).all()
            assert (worse[:, 3] >= mild[:, 3] - 1e-12).all()


shares = st.floats(0.01, 1.0)
hours = st.floats(1.0, 1900.0)


@settings(max_examples=25, deadline=None)
@given(
    found=st.lists(st.tuples(hours, st.tuples(shares, shares, shares, shares)), min_size=1, max_size=5),
    factor=st.floats(0.01, 50.0),
    data=st.data(),
)
def test_order_factors_and_flat_findings_change_nothing(
    found: list[tuple[float, tuple[float, ...]]], factor: float, data: st.DataObject
) -> None:
    lives, now = a_class(), 2000 * HOUR
    ago, rows = np.array([f[0] for f in found]) * HOUR, np.array([f[1] for f in found])
    first = forecast(lives, now, ago, rows, AHEAD)
    order = np.array(data.draw(st.permutations(range(len(found)))))
    other = forecast(lives, now, [*ago[order], 77 * HOUR], np.vstack([factor * rows[order], [0.3] * 4]), AHEAD)
    np.testing.assert_allclose(other.chance, first.chance, atol=1e-12)
    expected = float(first.log_evidence) + len(found) * np.log(factor) + np.log(0.3)
    assert float(other.log_evidence) == pytest.approx(expected, abs=1e-9)
    np.testing.assert_allclose(first.chance.sum(axis=1), 1.0, atol=1e-12)


def test_still_carrying_is_a_finding() -> None:
    """An old drive that still carries is likelier good than one of which nobody knows whether it does."""
    old, nothing = 9000 * HOUR, (NONE, NO_ROWS)
    known, unknown = (forecast(a_class(), old, *nothing, [0.0], carries=c) for c in (True, False))
    assert unknown.chance[0, 3] > 0.5
    assert not known.chance[0, 3]
    np.testing.assert_allclose(known.chance[0, :3], unknown.chance[0, :3] / unknown.chance[0, :3].sum(), atol=1e-12)
    assert np.exp(float(known.log_evidence)) == pytest.approx(1 - unknown.chance[0, 3], abs=1e-9)


def test_proof_leaves_no_share_of_sound_whatever_else_was_seen() -> None:
    rows = np.array([[0.0, 0.0, 0.2, 0.3], *[CLEAN] * 6])
    got = forecast(a_class(), 3000 * HOUR, np.array([100.0, 90, 80, 70, 60, 50, 0]) * HOUR, rows, AHEAD).chance
    assert got[:, :2].max() < 1e-12
    assert (np.diff(got[:, 3]) > 0).all()


def test_a_new_drive_is_sound_and_a_later_time_never_better() -> None:
    got = forecast(a_class(), 0.0, NONE, NO_ROWS, np.linspace(0, 20000, 41) * HOUR).chance
    np.testing.assert_allclose(got[0], [1, 0, 0, 0], atol=1e-12)
    assert (np.diff(got[:, 0]) <= 0).all()
    assert (np.diff(got[:, 3]) >= 0).all()
    assert got[-1, 3] > 0.98


def test_draws_stand_each_alone() -> None:
    ages, medians = np.array([1500.0, 4200.0, 8000.0]) * HOUR, np.array([3000.0, 4800.0, 9000.0]) * HOUR
    lives = replace(a_class(), sound=Sojourn("weibull", medians, 1.8))
    ago, rows = np.array([30.0, 700.0]) * HOUR, np.array([FLAKES, CLEAN])
    together = forecast(lives, ages, ago, rows, AHEAD)
    for n in range(3):
        one = replace(lives, sound=Sojourn("weibull", float(medians[n]), 1.8))
        alone = forecast(one, float(ages[n]), ago, rows, AHEAD)
        np.testing.assert_array_equal(together.chance[n], alone.chance)
        assert together.log_evidence[n] == alone.log_evidence


def test_designs_are_weighed_by_what_was_seen() -> None:
    """Two designs, one short-lived: an old drive without a fault is likelier of the long-lived one."""
    lives = replace(a_class(0.0), sound=Sojourn("weibull", np.array([1500.0, 9000.0]) * HOUR, 3.0))
    got = forecast(lives, 4000 * HOUR, [0.0], [CLEAN], AHEAD)
    weights = posterior_weights(got, np.array([0.5, 0.5]))
    by_hand = np.exp(np.asarray(got.log_evidence))
    np.testing.assert_allclose(weights, by_hand / by_hand.sum())
    assert weights[1] > 0.95
    np.testing.assert_allclose(pooled(got, np.ones(2)), weights[0] * got.chance[0] + weights[1] * got.chance[1])
    np.testing.assert_allclose(pooled(got, np.array([1.0, 0.0])), got.chance[0])


def test_how_it_stood_before_by_weighted_draws() -> None:
    rows = np.array([CLEAN, FLAKES])
    got = condition_before(a_class(), 4200 * HOUR, np.array([700.0, 0.0]) * HOUR, rows, 300 * HOUR)
    drawn = Drawn(a_class(), 4200.0, [700.0, 0.0], rows)
    chance, error = drawn.chances(-300.0)
    assert (np.abs(got - chance) <= 4 * error + 1.5e-3).all()


def test_a_band_of_many_equal_designs_is_their_quantiles() -> None:
    values = np.random.default_rng(2).beta(2, 5, 4001)
    band = chance_band(values, np.ones(4001), 0.8)
    np.testing.assert_allclose([band.low, band.middle, band.high], np.quantile(values, [0.1, 0.5, 0.9]), atol=1e-3)
    weighted = chance_band(np.array([0.1, 0.2, 0.9]), np.array([1e9, 1e9, 1.0]))
    assert weighted.high == pytest.approx(0.2)


def test_a_chance_by_a_date_is_no_chance_at_the_mean_hours() -> None:
    """A bent curve: the mean over the hours, not the curve at their mean."""
    ahead = np.linspace(0, 400, 81)
    chances = (ahead / 400) ** 2
    spread = np.random.default_rng(3).uniform(0, 400, 20_000)
    assert float(chance_by(chances, ahead, spread)) == pytest.approx(1 / 3, abs=0.01)
    with pytest.raises(OutOfRange, match="hours is 401"):
        chance_by(chances, ahead, np.array([401.0]))


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"ago": [-1.0]}, "ago is -1"),
        ({"ago": [2001 * HOUR]}, "before the drive was new"),
        ({"likelihood": [[0.0, 0, 0, 0]]}, "no condition can give"),
        ({"likelihood": [[-0.1, 1, 1, 1]]}, "likelihood is -0.1"),
        ({"likelihood": [[np.nan, 1, 1, 1]]}, "likelihood is nan"),
        ({"ago": [1.0, 2.0]}, "one a finding"),
        ({"ahead": [-5.0]}, "ahead is -5"),
        ({"ahead": []}, "a time to be asked"),
        ({"now": 1e6 * HOUR}, "older than any drive of this class"),
        ({"ahead": [1e6 * HOUR]}, "farther than the class"),
        ({"lives": replace(a_class(), unit_spread=-0.1)}, "unit_spread"),
        ({"lives": replace(a_class(), sound=Sojourn("weibull", 0.0, 2.0))}, "median"),
        ({"lives": replace(a_class(), wearing=Sojourn("lognormal", 9.0, 0.5, 1.5))}, "short_share"),
    ],
)
def test_what_cannot_be_is_refused_by_name(changed: dict[str, object], says: str) -> None:
    plain = {"lives": a_class(), "now": 2000 * HOUR, "ago": [0.0], "likelihood": [FLAKES], "ahead": [0.0]}
    with pytest.raises(OutOfRange, match=says):
        forecast(**{**plain, **changed})  # type: ignore[arg-type]


def test_no_design_and_no_weight_are_refused() -> None:
    two = Forecast(np.zeros((2, 1, 4)), np.zeros(2))
    with pytest.raises(OutOfRange, match="not all of them 0"):
        posterior_weights(two, np.zeros(2))
    with pytest.raises(OutOfRange, match="no band"):
        chance_band(np.array([0.5]), np.ones(1))
    brittle = Lives(*(Sojourn("weibull", one * HOUR, 10.0) for one in (100.0, 1.0, 1.0)), 0.0)
    with pytest.raises(OutOfRange, match="no drive of this class comes so far"):
        forecast(brittle, 1100 * HOUR, NONE, NO_ROWS, [0.0])
