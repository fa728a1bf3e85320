"""Spreads against a general statistics library, and as text."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from axlewright.kinds import KINDS
from axlewright.quantities import (
    Discrete,
    Exact,
    LogNormal,
    Normal,
    NotRead,
    Pert,
    Quantity,
    Samples,
    Spread,
    Triangular,
    Uniform,
    read_spread,
    write_spread,
)

INSIDE = np.linspace(0.001, 0.999, 401)


@pytest.mark.parametrize(
    ("spread", "theirs"),
    [
        (Normal(18000, 1200), stats.norm(18000, 1200)),
        (LogNormal(0.14, 0.15), stats.lognorm(0.15, scale=0.14)),
        (Uniform(-3, 5), stats.uniform(-3, 8)),
        (Triangular(2, 3, 7), stats.triang(1 / 5, 2, 5)),
        (Triangular(2, 2, 7), stats.triang(0, 2, 5)),
        (Triangular(2, 7, 7), stats.triang(1, 2, 5)),
        (Pert(2, 3, 7), stats.beta(1 + 4 / 5, 1 + 16 / 5, 2, 5)),
        (Pert(0, 0, 1), stats.beta(1, 5)),
    ],
    ids=lambda s: type(s).__name__,
)
def test_against_a_general_library(spread: Spread, theirs: stats.rv_continuous) -> None:
    np.testing.assert_allclose(spread.at(INSIDE), theirs.ppf(INSIDE), rtol=1e-12, atol=1e-12)
    assert spread.middle() == pytest.approx(theirs.median())
    assert spread.ends() == pytest.approx(theirs.ppf([0.05, 0.95]))
    assert np.all(np.isfinite(np.asarray(spread.at(np.array([0.0, 1.0])))))


def test_pert_has_the_variance_of_its_note() -> None:
    low, likely, high = 2.0, 3.0, 7.0
    drawn = np.asarray(Pert(low, likely, high).at((np.arange(200_000) + 0.5) / 200_000))
    mean = (low + 4 * likely + high) / 6
    assert drawn.mean() == pytest.approx(mean, rel=1e-6)
    assert drawn.var() == pytest.approx((mean - low) * (high - mean) / 7, rel=1e-5)


def test_discrete_values_come_by_their_weights() -> None:
    spread = Discrete((4.0, 6.0, 9.0), (1.0, 0.0, 3.0))
    drawn = np.asarray(spread.at((np.arange(1000) + 0.5) / 1000))
    assert {v: int((drawn == v).sum()) for v in np.unique(drawn)} == {4.0: 250, 9.0: 750}
    assert list(np.asarray(spread.at(np.array([0.0, 1.0])))) == [4.0, 9.0]


def test_samples_come_back_whole() -> None:
    values = np.random.default_rng(1).gamma(2.0, size=2000)
    spread = Samples(values)
    drawn = np.asarray(spread.at((np.arange(2000) + 0.5) / 2000))
    assert np.array_equal(drawn, np.sort(values))
    assert spread == Samples(values.copy())
    assert spread != Samples(values[:-1])
    values[0] = 99
    assert 99 not in spread.values  # a copy, and read-only
    with pytest.raises(ValueError, match="read-only"):
        spread.values[0] = 1


@given(
    st.sampled_from(
        [
            Exact(3.0),
            Normal(5, 2),
            LogNormal(2, 0.4),
            Uniform(-1, 1),
            Triangular(0, 0.1, 4),
            Pert(0, 3, 4),
            Discrete((1.0, 2.0), (0.5, 0.5)),
            Samples(np.array([3.0, 1.0, 2.0])),
        ]
    ),
    st.floats(0, 1),
    st.floats(0, 1),
)
def test_a_greater_share_is_never_a_lesser_value(spread: Spread, one: float, other: float) -> None:
    low, high = sorted((one, other))
    values = np.asarray(spread.at(np.array([low, high])))
    assert np.isfinite(values).all()
    assert values[0] <= values[1]
    assert float(spread.at(low)) == pytest.approx(
        values[0], rel=1e-14, abs=1e-300
    )  # alone or among others, to the last bit


@pytest.mark.parametrize("bad", [-0.01, 1.01, float("nan")])
def test_a_share_outside_is_refused(bad: float) -> None:
    for spread in (Exact(1), Normal(0, 1), Uniform(0, 1), Samples(np.ones(3))):
        with pytest.raises(ValueError, match="between 0 and 1"):
            spread.at(bad)


@pytest.mark.parametrize(
    "make",
    [
        lambda: Exact(math.inf),
        lambda: Normal(0, 0),
        lambda: Normal(math.nan, 1),
        lambda: LogNormal(-1, 0.1),
        lambda: Uniform(2, 1),
        lambda: Triangular(0, 2, 1),
        lambda: Pert(1, 1, 1),
        lambda: Discrete((1, 2), (1,)),
        lambda: Discrete((2, 1), (1, 1)),
        lambda: Discrete((1, 2), (0, 0)),
        lambda: Samples(np.array([])),
        lambda: Samples(np.array([1, math.nan])),
    ],
)
def test_a_spread_that_is_none_is_refused(make: object) -> None:
    with pytest.raises(ValueError, match=r"\w+ \w+"):
        make()  # type: ignore[operator]


@pytest.mark.parametrize(
    ("text", "kind", "spread"),
    [
        ("18 t", "mass", Exact(18000)),
        ("18 t ± 2 t", "mass", stats.norm(18000, 2000 / 1.6448536269514722)),
        ("18 ± 2 t", "mass", stats.norm(18000, 2000 / 1.6448536269514722)),
        ("18 t +/- 2", "mass", stats.norm(18000, 2000 / 1.6448536269514722)),
        ("18 t, plus or minus 10 %", "mass", stats.norm(18000, 1800 / 1.6448536269514722)),
        ("about 4730 h", "duration", stats.norm(4730 * 3600, 473 * 3600 / 1.6448536269514722)),
        ("about 4730 h ± 50 h", "duration", stats.norm(4730 * 3600, 50 * 3600 / 1.6448536269514722)),
        ("11 to 13 t", "mass", Uniform(11000, 13000)),
        ("between 11 and 13 t", "mass", Uniform(11000, 13000)),
        ("3 1/4 to 3 1/2 in", "length", Uniform(0.08255, 0.0889)),
        ("900 kg to 1,5 t", "mass", Uniform(900, 1500)),
        ("11 to 13 t, likely 12 t", "mass", Pert(11000, 12000, 13000)),
        ("11 to 13 t, most often 12 t", "mass", Triangular(11000, 12000, 13000)),
        ("2 to 3 %", "share", Uniform(0.02, 0.03)),
        ("14 % ± 2 %", "share", stats.norm(0.14, 0.02 / 1.6448536269514722)),
        ("0.14 ×/÷ 1.3", "share", stats.lognorm(math.log(1.3) / 1.6448536269514722, scale=0.14)),
        ("80 °C ± 9 °F", "temperature", stats.norm(353.15, 5 / 1.6448536269514722)),
        ("12 mm (30 %) or 10 mm (70 %)", "length", Discrete((0.01, 0.012), (0.7, 0.3))),
    ],
)
def test_a_spread_as_a_file_says_it(text: str, kind: str, spread: object) -> None:
    read = read_spread(text, kind)
    theirs = spread.ppf if hasattr(spread, "ppf") else spread.at  # type: ignore[attr-defined]
    np.testing.assert_allclose(np.asarray(read.at(INSIDE)), theirs(INSIDE), rtol=1e-9)
    again = read_spread(write_spread(read, kind, digits=12), kind)
    np.testing.assert_allclose(np.asarray(again.at(INSIDE)), np.asarray(read.at(INSIDE)), rtol=1e-9)


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("13 to 11 t", "mass", "from the lower value to the higher"),
        ("18 t ± 2 bar", "mass", "bar is a pressure"),
        ("about 0 t", "mass", "about 0"),
        ("10 mm or 12 mm (3 %)", "length", "share is missing"),
        ("10 mm (30 %) or 12 mm (30 %)", "length", "add up"),
        ("0.14 ± 10 %", "share", "of the number or beside it"),
        ("0.14 ×/÷ 0.9", "share", "more than 1"),
        ("11 to 13", "mass", "unit is missing"),
        ("11 to 13 t, likely 20 t", "mass", "between the ends"),
        ("a few tonnes", "mass", "begin with a number"),
    ],
)
def test_a_spread_that_cannot_be_read_says_why(text: str, kind: str, says: str) -> None:
    with pytest.raises(NotRead, match=says):
        read_spread(text, kind)


def test_samples_have_no_text() -> None:
    with pytest.raises(ValueError, match="no text"):
        write_spread(Samples(np.ones(3)), "mass")


def test_a_quantity_says_whose_it_is_and_where_from() -> None:
    mass = KINDS["mass"]
    known = Quantity("bramble/mass", mass, Exact(1.0), "measured", "weigh ticket")
    assert known == Quantity("bramble/mass", mass, Exact(1.0), "measured", "weigh ticket")
    with pytest.raises(ValueError, match="source"):
        Quantity("bramble/mass", mass, Exact(1.0), "measured", "")
    with pytest.raises(ValueError, match="basis is one of"):
        Quantity("bramble/mass", mass, Exact(1.0), "guessed", "somebody")  # type: ignore[arg-type]
