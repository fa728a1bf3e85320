"""Torque and chances: catalogue rows, simulation against closed form, the window solved backwards."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import optimize, special

from axlewright.engines.joints import chances, nut_factor, stress, threads, tightening, window
from axlewright.engines.limits import OutOfRange
from axlewright.trade import steels, surfaces
from axlewright.trade.threads import parse_designation

D, P, D2, AREA, DS, DM = 0.020, 0.0025, 0.018376, 244.8e-6, 0.017655, 0.0251
BOLT = (P, D2, AREA, DS, DM)
DRAWS = 200_000


@pytest.fixture(scope="module")
def shares() -> np.ndarray:
    return np.random.default_rng(20260828).random((3, DRAWS))


# VDI 2230-1:2003 table A1, coarse thread, 90 in 100 of yield, friction 0.12: torque in N m; from memory
@pytest.mark.parametrize(("size", "torque"), [("M12", 84), ("M16", 206), ("M20", 415), ("M24", 714)])
def test_catalogue_torque_of_class_8_8(size: str, torque: float) -> None:
    t = parse_designation(size)
    head, grade = surfaces.head_of(t.diameter), steels.grade_at("8.8", t.diameter)
    d2, area = threads.pitch_diameter(t.diameter, t.pitch), threads.circle_area(t.stress_diameter)
    preload = stress.assembly_preload_plastic(grade.yields, 0.9, t.pitch, d2, 0.12, area, t.stress_diameter)
    found = tightening.table_torque(preload, t.pitch, d2, 0.12, 0.12, (head.face + head.hole) / 2)
    assert found == pytest.approx(torque, rel=0.006)


def test_three_forms_of_one_torque_agree_at_usual_friction() -> None:
    for mu in (0.0, 0.08, 0.15, 0.25):
        long = tightening.torque_from_preload(1e5, P, D2, mu, mu, DM)
        assert tightening.three_term_torque(1e5, P, D2, mu, mu, DM) == pytest.approx(long, rel=0.01)
        assert tightening.table_torque(1e5, P, D2, mu, mu, DM) == pytest.approx(long, rel=0.012)
        assert 1e5 * D * (0.02 + 1.16 * mu) == pytest.approx(long, rel=0.03)  # K about 0.02 + 1.16 mu, coarse thread


def test_split_adds_up_and_is_the_trades_rule() -> None:
    split = tightening.torque_split(P, D2, 0.14, 0.14, DM)
    assert split.pitch_share + split.thread_share + split.head_share == pytest.approx(1)
    assert (split.pitch_share, split.thread_share, split.head_share) == pytest.approx((0.10, 0.40, 0.50), abs=0.05)


def test_work_balance_without_friction() -> None:
    assert 2 * math.pi * tightening.torque_from_preload(1e5, P, D2, 0.0, 0.0, DM) == pytest.approx(1e5 * P)
    assert tightening.frictionless_nut_factor(D, P) * D * 1e5 == pytest.approx(1e5 * P / (2 * math.pi))


def test_a_slippery_thread_falls_open() -> None:
    mu = tightening.self_locking_friction(P, D2)
    assert (
        tightening.loosening_torque(1e5, P, D2, mu * 0.9, 0.0, DM)
        < 0
        < tightening.loosening_torque(1e5, P, D2, mu * 1.1, 0.0, DM)
    )


def test_impossible_nut_factors_are_refused_by_name() -> None:
    with pytest.raises(OutOfRange, match="no friction is left") as bad:
        nut_factor.friction_from_nut_factor(0.015, D, P, D2, DM)
    assert bad.value.what == "nut_factor"
    with pytest.raises(OutOfRange, match="galls"):
        nut_factor.friction_from_nut_factor(1.2, D, P, D2, DM)


def near(p: float) -> float:
    """Three standard errors of a simulated chance."""
    return 3 * math.sqrt(p * (1 - p) / DRAWS)


def test_chance_past_a_load_is_what_a_simulation_counts(shares: np.ndarray) -> None:
    k = nut_factor_draws = chances.nut_factor_by_shares(0.14, 0.0, 0.15, 0.5, shares[0])
    torque = 390.0 * np.exp(0.04 * special.ndtri(shares[1]))
    preload = tightening.preload_from_nut_factor(torque, D, nut_factor_draws)
    p = float(chances.chance_past_load(390.0, 0.04, 0.14, 0.15, D, 165e3))
    assert np.mean(preload > 165e3) == pytest.approx(p, abs=near(p))
    q = float(chances.chance_below_clamp(390.0, 0.04, 0.14, 0.15, D, 112e3))
    assert np.mean(torque / (k * D) < 112e3) == pytest.approx(q, abs=near(q))


def test_chance_of_yield_is_what_a_simulation_counts(shares: np.ndarray) -> None:
    mu = 0.103 * np.exp(0.18 * special.ndtri(shares[0]))
    preload = tightening.preload_from_torque(451.0, P, D2, mu, mu, DM)
    twist = preload * tightening.thread_lever(P, D2, mu)  # the same draw for pull and twist
    yields = stress.combined_stress_elastic(preload, twist, AREA, DS).combined > 940e6
    p = float(chances.chance_of_yield(451.0, 0.103, 0.18, 940e6, *BOLT))
    assert np.mean(yields) == pytest.approx(p, abs=near(p))


def test_friction_at_yield_is_the_root() -> None:
    def over(mu: float) -> float:
        return float(window.torque_at_yield(940e6, P, D2, mu, mu, AREA, DS, DM)) - 451.0

    root = optimize.brentq(over, 0.01, 0.7)
    assert float(chances.friction_at_yield(451.0, 940e6, *BOLT)) == pytest.approx(root, abs=1e-9)
    assert chances.friction_at_yield(1.0, 940e6, *BOLT) == 0  # too little to yield even without friction
    assert float(chances.friction_at_yield(1e5, 940e6, *BOLT)) == pytest.approx(0.8)


def test_bolts_of_one_job_yield_together(shares: np.ndarray) -> None:
    rng = np.random.default_rng(7)
    factor = chances.nut_factor_by_shares(0.14, 0.12, 0.09, shares[0][:, None], rng.random((DRAWS, 12)))
    preload = 390.0 / (factor * D)
    p = float(chances.chance_any_bolt(390.0 / (0.14 * D), 0.12, 0.09, 198e3, 12))
    assert np.mean(preload.max(axis=1) > 198e3) == pytest.approx(p, abs=near(p))
    alone = float(chances.chance_past_load(390.0, 1e-9, 0.14, 0.15, D, 198e3))
    assert alone < p < 1 - (1 - alone) ** 12  # the independent figure is twice as bad
    assert float(chances.scatter_of_mean(0.12, 0.09, 12)) == pytest.approx(
        np.std(np.log(preload).mean(axis=1)), rel=0.02
    )


def test_the_window_keeps_its_promise(shares: np.ndarray) -> None:
    found = window.torque_window(92e3, 940e6, 1040e6, 0.14, 0.15, 0.04, 0.05, D, *BOLT)
    k = chances.nut_factor_by_shares(0.14, 0.0, 0.15, 0.5, shares[0])
    error = np.exp(0.04 * special.ndtri(shares[1]))
    mu = nut_factor.friction_from_nut_factor(k, D, P, D2, DM)
    assert np.mean(found.low * error / (k * D) < 92e3) == pytest.approx(0.05, abs=near(0.05))
    yields = window.torque_at_yield(940e6, P, D2, mu, mu, AREA, DS, DM)
    assert np.mean(found.high * error > yields) == pytest.approx(0.05, abs=near(0.05))
    breaks = stress.preload_at_break(1040e6, P, D2, mu, AREA, DS)
    breaks = tightening.torque_from_preload(breaks, P, D2, mu, mu, DM)
    assert np.mean(found.may_break * error > breaks) == pytest.approx(0.05, abs=near(0.05))
    p = float(window.chance_past_yield(found.high, 0.04, 0.14, 0.15, 940e6, D, *BOLT))
    assert p == pytest.approx(0.05, abs=1e-6)


def test_without_a_wrenchs_error_the_window_is_the_frictions_own_end() -> None:
    found = window.torque_window(92e3, 940e6, 1040e6, 0.14, 0.15, 0.0, 0.05, D, *BOLT)
    k = 0.14 * math.exp(-0.15 * 1.6448536)
    mu = nut_factor.friction_from_nut_factor(k, D, P, D2, DM)
    assert found.high == pytest.approx(window.torque_at_yield(940e6, P, D2, mu, mu, AREA, DS, DM), rel=2e-3)


def test_the_window_shuts_when_more_is_asked_than_the_bolt_has() -> None:
    needs = np.array([60e3, 92e3, 120e3, 150e3])
    found = window.torque_window(needs, 940e6, 1040e6, 0.14, 0.15, 0.04, 0.05, D, *BOLT)
    assert (np.diff(found.low) > 0).all()
    assert found.low[0] < found.high
    assert found.low[-1] > found.high
    assert found.may_break > found.high


def test_a_test_bolt_moves_the_middle_and_shrinks_the_spread() -> None:
    tests = np.array([1, 3, 10])
    found = nut_factor.update_nut_factor(0.14, 0.12, 0.09, 0.16, tests, 0.05)
    assert ((found.median > 0.14) & (found.median < 0.16)).all()
    assert (np.diff(found.median) > 0).all()
    assert (np.diff(found.log_sd) < 0).all()
    assert (found.log_sd > 0.09).all()  # bolts still differ from one another
    # brute force: weigh job factors by how well they explain three tests
    job = np.linspace(-0.8, 0.8, 20_001)
    weight = np.exp(-0.5 * (job / 0.12) ** 2 - 0.5 * 3 * (math.log(0.16 / 0.14) - job) ** 2 / (0.09**2 + 0.05**2))
    mean = np.sum(job * weight) / weight.sum()
    assert found.median[1] == pytest.approx(0.14 * math.exp(mean), rel=1e-6)
    assert found.job_log_sd[1] == pytest.approx(math.sqrt(np.sum((job - mean) ** 2 * weight) / weight.sum()), rel=1e-6)
