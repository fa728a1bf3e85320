"""Lives for decisions: they are the forecast, drawn; against weighted draws from the class; used and rebuilt drives."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from engines.forecast.drives import CLEAN, FLAKES, HOUR, NO_ROWS, NONE, Drawn, a_class
from scipy.stats import kstest, qmc

from axlewright.engines.forecast import (
    Lives,
    Sojourn,
    Trajectories,
    forecast,
    fresh_lives,
    pooled,
    posterior_weights,
    rebuilt_lives,
    trajectories,
    used_lives,
)
from axlewright.engines.forecast.rebuilt import early_fault_left
from axlewright.engines.limits import OutOfRange

NOW, AGO, ROWS = 4200 * HOUR, np.array([700.0, 60.0]) * HOUR, np.array([CLEAN, FLAKES])
AHEAD = np.array([0.0, 60.0, 300.0, 1500.0]) * HOUR
ONE = np.ones(1)


def spread(width: int, count: int = 2**14, seed: int = 5) -> np.ndarray:
    return np.asarray(qmc.Sobol(width, seed=seed).random(count))


def shares_by(lives: Trajectories, ahead: np.ndarray) -> np.ndarray:
    """Share of the lives in each condition at each time."""
    times = np.array([lives.wears, lives.fails, lives.lets_go])
    condition = (times[None, :, :] <= ahead[:, None, None]).sum(axis=1)
    return np.stack([(condition == c).mean(axis=1) for c in range(4)], axis=-1)


CASES = {
    "nothing seen": (NONE, NO_ROWS),
    "clean, then flakes": (AGO, ROWS),
    "chips": ([30 * HOUR], np.array([[0.0, 0.0, 0.2, 0.3]])),
    "one against the other": (AGO, ROWS[::-1]),
}


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("short_share", [0.0, 0.15])
def test_the_lives_are_the_forecast_drawn(case: str, short_share: float) -> None:
    ago, rows = CASES[case]
    lives = a_class(short_share=short_share)
    drawn = trajectories(lives, NOW, ago, rows, spread(6), ONE)
    np.testing.assert_allclose(shares_by(drawn, AHEAD), forecast(lives, NOW, ago, rows, AHEAD).chance, atol=2.5e-3)


@pytest.mark.parametrize("case", CASES)
def test_every_life_is_in_order_and_none_is_like_another(case: str) -> None:
    drawn = trajectories(a_class(short_share=0.15), NOW, *CASES[case], spread(6, 2048), ONE)
    assert all(np.isfinite(t).all() for t in (drawn.wears, drawn.fails, drawn.lets_go))
    assert (drawn.wears <= drawn.fails).all()
    assert (drawn.fails <= drawn.lets_go).all()
    assert (drawn.lets_go > 0).all()
    assert (drawn.wears >= -NOW).all()
    np.testing.assert_array_equal(drawn.condition >= 1, drawn.wears < 0)
    np.testing.assert_array_equal(drawn.condition == 2, drawn.fails < 0)
    assert len(np.unique(drawn.lets_go)) == 2048


def test_past_and_future_times_as_weighted_draws_have_them() -> None:
    """Not only the conditions: when it began to wear, how long each still has, its own factor."""
    drawn = trajectories(a_class(), NOW, AGO, ROWS, spread(6), ONE)
    weighted = Drawn(a_class(), NOW / HOUR, AGO / HOUR, ROWS)
    condition = weighted.condition_at(weighted.now)
    times = {
        "wears": (weighted.lives.wears, drawn.wears, (1, 2)),
        "fails": (weighted.lives.fails, drawn.fails, (1, 2)),
        "lets_go": (weighted.lives.lets_go, drawn.lets_go, (0, 1, 2)),
        "wears ahead": (weighted.lives.wears, drawn.wears, (0,)),
    }
    for name, (prior, mine, among) in times.items():
        of = np.isin(condition, among)
        here = mine[np.isin(drawn.condition, among)]
        for quantile in (0.1, 0.3, 0.5, 0.7, 0.9):
            at = np.quantile(here, quantile)
            share, error = weighted.mean(of & (prior - weighted.now <= at))
            of_these, _ = weighted.mean(of)
            assert share / of_these == pytest.approx(quantile, abs=4 * error / of_these + 0.012), (name, quantile)
    factor, error = weighted.mean(np.log(weighted.lives.factor))
    assert float(np.log(drawn.factor).mean()) == pytest.approx(factor, abs=4 * error + 5e-3)


def test_more_lives_begin_with_the_same_lives() -> None:
    """A row of shares is a life: any number of workers may share them out."""
    shares = spread(6, 512)
    whole = trajectories(a_class(), NOW, AGO, ROWS, shares, ONE)
    halves = [trajectories(a_class(), NOW, AGO, ROWS, part, ONE) for part in (shares[:200], shares[200:])]
    for field in ("wears", "fails", "lets_go", "factor"):
        np.testing.assert_array_equal(getattr(whole, field), np.concatenate([getattr(half, field) for half in halves]))


def test_a_longer_clock_stretches_all_times() -> None:
    """Hours twice as long, everywhere: the same lives, twice as long."""
    lives, shares = a_class(), spread(6, 256)
    double = Lives(
        *(replace(s, median=2 * np.asarray(s.median)) for s in (lives.sound, lives.wearing, lives.failing)), 0.35
    )
    one, two = (
        trajectories(lives, NOW, AGO, ROWS, shares, ONE),
        trajectories(double, 2 * NOW, 2 * AGO, ROWS, shares, ONE),
    )
    np.testing.assert_allclose(two.lets_go, 2 * one.lets_go, rtol=1e-9)


@pytest.mark.parametrize("offered", [False, True])
def test_designs_are_drawn_as_they_are_pooled(offered: bool) -> None:
    lives = replace(a_class(), sound=Sojourn("weibull", np.array([2000.0, 4800.0, 9000.0]) * HOUR, 1.8))
    drawn = trajectories(lives, NOW, AGO, ROWS, spread(6), ONE, offered=offered)
    found = forecast(lives, NOW, AGO, ROWS, AHEAD)
    unseen = forecast(lives, NOW, NONE, NO_ROWS, [0.0])
    before = np.exp(-np.asarray(unseen.log_evidence)) if offered else np.ones(3)
    weights = posterior_weights(found, before)
    np.testing.assert_allclose(shares_by(drawn, AHEAD), np.tensordot(weights, found.chance, axes=1), atol=4e-3)
    np.testing.assert_allclose(pooled(found, before)[0, 3], 0.0)


def test_flakes_on_a_drive_on_offer_make_it_older_as_well_as_worse() -> None:
    """Against lives drawn for each age, kept where they carry, weighted by the look."""
    ages = np.array([1000.0, 3000.0, 7000.0]) * HOUR
    drawn = trajectories(a_class(), ages, [0.0], [FLAKES], spread(6), ONE, offered=True)
    lives = fresh_lives(a_class(), np.random.default_rng(3).random((300_000, 4)))
    by = 200 * HOUR
    told, let_go = [], []
    for age in ages:
        carrying = lives.lets_go > age
        condition = (age >= lives.wears).astype(int) + (age >= lives.fails)
        weight = (FLAKES[condition] * carrying) / carrying.mean()
        told.append(weight.mean())
        let_go.append((weight * (lives.lets_go <= age + by)).mean())
    assert told[2] > told[0]
    assert (drawn.lets_go <= by).mean() == pytest.approx(sum(let_go) / sum(told), abs=4e-3)


def test_causes_come_by_their_shares_and_move_nothing_else() -> None:
    shares = spread(6, 4096)
    drawn = trajectories(a_class(), NOW, AGO, ROWS, shares, np.array([1.0, 5.0, 2.0]))
    np.testing.assert_allclose([(drawn.cause == n).mean() for n in range(3)], np.array([1, 5, 2]) / 8, atol=1e-3)
    alone = trajectories(a_class(), NOW, AGO, ROWS, shares, ONE)
    np.testing.assert_array_equal(alone.lets_go, drawn.lets_go)
    for cause in range(3):
        assert kstest(drawn.lets_go[drawn.cause == cause], alone.lets_go).pvalue > 1e-3


def test_a_new_drive_lives_by_its_laws() -> None:
    drawn = fresh_lives(a_class(0.0), spread(4))
    assert np.median(drawn.wears) / HOUR == pytest.approx(4800, rel=2e-3)
    assert np.median(drawn.fails - drawn.wears) / HOUR == pytest.approx(800, rel=2e-3)
    assert np.median(drawn.lets_go - drawn.fails) / HOUR == pytest.approx(110, rel=2e-3)
    whole = forecast(a_class(), 0.0, NONE, NO_ROWS, np.array([2000.0, 6000.0]) * HOUR, carries=False).chance
    np.testing.assert_allclose(
        shares_by(fresh_lives(a_class(), spread(4)), np.array([2000.0, 6000.0]) * HOUR), whole, atol=2e-3
    )


def test_a_rebuilt_drive_lets_go_early_by_its_share() -> None:
    """Against the exponential of the faulty and the fading share among those that still run."""
    share, mean = 0.12, 140 * HOUR
    drawn = rebuilt_lives(a_class(), share, mean, spread(5))
    faulty = drawn.condition == 2
    assert faulty.mean() == pytest.approx(share, abs=1e-3)
    assert kstest(drawn.lets_go[faulty] / mean, "expon").pvalue > 0.01
    after = 120 * HOUR
    left = faulty[drawn.lets_go > after].mean()
    assert left == pytest.approx(float(early_fault_left(share, mean, after)), abs=2e-3)
    np.testing.assert_array_equal(drawn.lets_go[~faulty], fresh_lives(a_class(), spread(5)[~faulty, :4]).lets_go)


def test_faults_of_assembly_at_their_limits() -> None:
    assert float(early_fault_left(0.3, HOUR, 0.0)) == pytest.approx(0.3)
    assert float(early_fault_left(1.0, HOUR, 1e9)) == pytest.approx(1.0)  # nothing else is left
    assert not float(early_fault_left(0.5, HOUR, 1e9))
    assert (rebuilt_lives(a_class(), 0.0, HOUR, spread(5, 64)).condition == 0).all()
    assert (rebuilt_lives(a_class(), 1.0, HOUR, spread(5, 64)).condition == 2).all()


def test_a_used_drive_is_a_mixture_of_three() -> None:
    """Bought bad by half failing, half wearing; the others by what their hours say."""
    ages, bad = np.array([1000.0, 2500.0, 6000.0]) * HOUR, 0.3
    drawn = used_lives(a_class(), ages, bad, spread(7))
    by = 300 * HOUR
    fresh = fresh_lives(a_class(), spread(4))
    of_failing = (fresh.lets_go - fresh.fails <= by).mean()
    of_wearing = (fresh.lets_go - fresh.wears <= by).mean()
    others = forecast(a_class(), ages, NONE, NO_ROWS, [by]).chance[:, 0, 3].mean()
    wanted = bad / 2 * (of_failing + of_wearing) + (1 - bad) * others
    assert (drawn.lets_go <= by).mean() == pytest.approx(wanted, abs=3e-3)
    assert (drawn.lets_go > 0).all()
    made = used_lives(a_class(), ages, bad, spread(7), offered=False)
    assert (made.lets_go <= by).mean() < (drawn.lets_go <= by).mean()  # of those made, fewer old ones are left


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: trajectories(a_class(), NOW, AGO, ROWS, np.full((3, 5), 0.5), ONE), "shares is 5; it must be 6"),
        (lambda: trajectories(a_class(), NOW, AGO, ROWS, np.full((3, 6), 1.5), ONE), "shares is 1.5"),
        (lambda: trajectories(a_class(), NOW, AGO, ROWS, np.full((3, 6), 0.5), np.zeros(2)), "not all of them 0"),
        (lambda: fresh_lives(a_class(), np.full((3, 3), 0.5)), "it must be 4"),
        (lambda: used_lives(a_class(), NOW, 0.1, np.full((3, 6), 0.5)), "it must be 7"),
        (lambda: used_lives(a_class(), NOW, 1.1, np.full((3, 7), 0.5)), "bad is 1.1"),
        (lambda: rebuilt_lives(a_class(), 0.1, 0.0, np.full((3, 5), 0.5)), "fault_mean"),
        (lambda: rebuilt_lives(a_class(), 0.1, HOUR, np.full((3, 4), 0.5)), "it must be 5"),
    ],
)
def test_what_cannot_be_is_refused_by_name(call: object, says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        call()  # type: ignore[operator]


@pytest.mark.parametrize("edge", [0.0, 1.0])
def test_shares_at_their_ends_give_lives_too(edge: float) -> None:
    for drawn in (
        trajectories(a_class(short_share=0.15), NOW, AGO, ROWS, np.full((2, 6), edge), ONE),
        used_lives(a_class(), NOW, 0.2, np.full((2, 7), edge)),
        rebuilt_lives(a_class(), 0.2, HOUR, np.full((2, 5), edge)),
    ):
        assert np.isfinite(drawn.lets_go).all()
        assert (drawn.lets_go >= 0).all()
