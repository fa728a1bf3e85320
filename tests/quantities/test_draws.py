"""Streams by name, digests, and what is read off draws, against a general library and published values."""

from __future__ import annotations

import datetime
import math
from dataclasses import dataclass
from enum import Enum

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from axlewright.quantities import (
    Exact,
    Normal,
    Samples,
    by_ranks,
    careful,
    digest,
    first_order_share,
    own_shares,
    rank_correlation,
    sobol,
    stream,
    what_moves,
)


def test_a_stream_belongs_to_its_name_alone() -> None:
    alone = own_shares(7, "bolts/nut-factor", 100)
    others = [own_shares(7, name, 100) for name in ("bolts/torque", "a-new-one", "bolts/nut-factor")]
    assert np.array_equal(alone, others[2])
    assert not np.array_equal(alone, others[0])
    assert not np.array_equal(alone, own_shares(8, "bolts/nut-factor", 100))


def test_more_draws_begin_with_the_same_draws() -> None:
    assert np.array_equal(own_shares(7, "x", 1000)[:100], own_shares(7, "x", 100))
    assert np.array_equal(sobol(7, "x", 1024, 3)[:100], sobol(7, "x", 100, 3))


def test_streams_of_neighbours_are_apart_and_even() -> None:
    many = np.array([own_shares(1, f"bolt-{i}", 2000) for i in range(20)])
    apart = np.corrcoef(many)[~np.eye(20, dtype=bool)]
    assert np.abs(apart).max() < 5 / math.sqrt(2000)
    assert stats.kstest(many.ravel(), "uniform").pvalue > 1e-4


def test_sobol_points_are_evener_than_chance() -> None:
    points = sobol(3, "season", 1024, 2)
    assert points.shape == (1024, 2)
    for cells in (4, 32):
        counts, _, _ = np.histogram2d(*points.T, bins=cells, range=[[0, 1], [0, 1]])
        assert counts.min() == counts.max() == 1024 / cells**2
    assert sobol(3, "season", 5, 2).shape == (5, 2)


class Seat(Enum):
    FLAT = "flat"
    CONE = "cone"


@dataclass(frozen=True)
class Timber:
    width: float
    height: float


@dataclass(frozen=True)
class Other:
    width: float
    height: float


def test_a_digest_tells_all_parts_apart() -> None:
    parts = [
        ("a", "b"), ("ab",), ("a", "b", ""), (1,), (1.0,), ("1",), (True,), (None,), ((1, 2),), (1, 2), ([1], [2]),
        (Seat.FLAT,), (Seat.CONE,), (Timber(0.1, 0.2),), (Timber(0.2, 0.1),), (Other(0.1, 0.2),), ({"a": 1.0},),
        (np.array([1.0, 2.0]),), (np.array([[1.0], [2.0]]),), (np.array([1, 2]),), (datetime.date(2026, 8, 1),), (b"ab",),
    ]  # fmt: skip
    assert len({digest(*p) for p in parts}) == len(parts)


def test_a_digest_is_the_same_for_equal_parts() -> None:
    assert digest({"a": 1.0, "b": 2}) == digest({"b": 2, "a": 1.0})
    assert digest(0.0) == digest(-0.0)
    assert digest(np.arange(9.0)[::2]) == digest(np.array([0.0, 2, 4, 6, 8]))
    assert digest(np.float64(2.5)) == digest(2.5)
    assert digest(Normal(1, 2)) == digest(Normal(1.0, 2.0).__class__(1, 2))
    assert digest(7, "bolts/torque") == "".join(f"{b:02x}" for b in bytes.fromhex(digest(7, "bolts/torque")))
    with pytest.raises(TypeError, match="no digest"):
        digest(object())


def test_long_samples_are_told_apart() -> None:
    long = np.zeros(100_000)
    other = long.copy()
    other[50_000] = 1e-9
    assert repr(Samples(long)) == repr(Samples(other))  # the reason why bytes count
    assert digest(Samples(long)) != digest(Samples(other))


@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=200), st.sampled_from([0.01, 0.05, 0.25]))
def test_careful_end_is_a_draw_with_few_beyond(draws: list[float], share: float) -> None:
    low, high = careful(np.array(draws), "low", share), careful(np.array(draws), "high", share)
    assert low in draws
    assert sum(d < low for d in draws) <= share * len(draws)
    assert sum(d > high for d in draws) <= share * len(draws)
    assert sum(d <= low for d in draws) > share * len(draws) - 1e-9
    assert -high == careful(-np.array(draws), "low", share)


def test_rank_correlation_against_a_general_library() -> None:
    rng = np.random.default_rng(5)
    x = rng.normal(size=500)
    for y in (x**3, -np.exp(x), x + rng.normal(size=500), np.round(x), rng.normal(size=500)):
        assert rank_correlation(x, y) == pytest.approx(stats.spearmanr(x, y).statistic, abs=1e-12)
    assert rank_correlation(x, np.ones(500)) == 0


@pytest.mark.parametrize("asked", [-1.0, -0.6, 0.0, 0.35, 0.9, 1.0])
def test_draws_go_together_by_ranks(asked: float) -> None:
    leads, own = own_shares(1, "left", 20_000), own_shares(1, "right", 20_000)
    together = by_ranks(leads, own, asked)
    assert rank_correlation(leads, together) == pytest.approx(asked, abs=0.02)
    assert stats.kstest(together, "uniform").pvalue > 1e-4
    with pytest.raises(ValueError, match="between -1 and 1"):
        by_ranks(leads, own, 1.2)


def test_first_order_shares_of_a_sum() -> None:
    x = {name: stats.norm.ppf(own_shares(2, name, 20_000)) for name in ("one", "two", "none")}
    result = 3 * x["one"] + x["two"]
    found = what_moves(x, result)
    assert [name for name, _, _ in found] == ["one", "two", "none"]
    assert [share for _, share, _ in found] == pytest.approx([0.9, 0.1, 0.0], abs=0.02)
    assert found[0][2] > 0.9


def test_first_order_shares_of_ishigami() -> None:
    """Ishigami and Homma 1990, a = 7, b = 0.1: 0.3139, 0.4424, 0 (Saltelli et al. 2008, from memory; closed form below)."""
    a, b = 7.0, 0.1
    x = [np.pi * (2 * own_shares(4, f"x{i}", 40_000) - 1) for i in range(3)]
    y = np.sin(x[0]) + a * np.sin(x[1]) ** 2 + b * x[2] ** 4 * np.sin(x[0])
    variance = a**2 / 8 + b * np.pi**4 / 5 + b**2 * np.pi**8 / 18 + 0.5
    exact = [(0.5 * (1 + b * np.pi**4 / 5) ** 2) / variance, a**2 / 8 / variance, 0.0]
    assert exact == pytest.approx([0.3139, 0.4424, 0.0], abs=1e-4)
    assert [first_order_share(xi, y) for xi in x] == pytest.approx(exact, abs=0.02)


def test_first_order_share_of_few_values_and_none() -> None:
    kind = np.repeat([0.0, 1.0], 500)
    assert first_order_share(kind, 2 * kind + 5) == pytest.approx(1.0)
    assert first_order_share(kind, np.ones(1000)) == 0
    assert first_order_share(np.ones(1000), kind) == 0


def test_a_generator_per_name() -> None:
    one, two = stream(1, "a"), stream(1, "a")
    assert one is not two
    assert one.random() == two.random()
    assert Exact(4).at(0.3) == 4
