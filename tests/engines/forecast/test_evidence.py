"""How findings count beside one another: by the rules by hand, and by laws over any findings."""

from __future__ import annotations

import numpy as np
import pytest
from engines.forecast.drives import CLEAN, FLAKES, HOUR
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.engines.forecast import exposed_likelihood, finding_weights, updated, weighted_likelihood
from axlewright.engines.forecast.cases import effective_share, learned_row
from axlewright.engines.limits import OutOfRange
from axlewright.trade.findings import findings

DAMP = np.array([0.10, 0.22, 0.22, 0.16])
PLAY = np.array([0.009, 0.06, 0.32, 0.33])
CHIPS = np.array([0.0, 0.0, 0.19, 0.28])
FORGOTTEN = 100 * HOUR


def weights(found: list[tuple[np.ndarray, int, int, int, int, float]], proof: tuple[int, ...] = ()) -> np.ndarray:
    """Of (likelihood, kind, grade, group, day, hours ago)."""
    rows, kinds, grades, groups, days, ago = zip(*found, strict=True)
    sure = [n in proof for n in range(len(found))]
    return finding_weights(
        np.array(rows), kinds, grades, groups, days, np.array(ago) * HOUR, sure, FORGOTTEN, 0.5
    )  # fmt: skip


def test_ten_damp_looks_are_not_ten_witnesses() -> None:
    """One each day of 10 h: 1 + 9 (1 - exp(-0.1)), not 10."""
    got = weights([(DAMP, 0, 1, -1, day, 100.0 - 10 * day) for day in range(10)])
    assert got.sum() == pytest.approx(1 + 9 * (1 - np.exp(-0.1)))
    assert weights([(DAMP, 0, 1, -1, 0, 900.0), (DAMP, 0, 1, -1, 9, 0.0)]).sum() == pytest.approx(2, abs=1e-3)


def test_of_one_day_the_most_telling_of_a_group_counts_in_full() -> None:
    got = weights(
        [(CLEAN, 0, 0, 0, 3, 5.0), (FLAKES, 1, 2, 0, 3, 5.0), (PLAY, 2, 2, 1, 3, 5.0), (DAMP, 3, 1, -1, 3, 5.0)]
    )
    spans = [np.ptp(np.log(row)) for row in (CLEAN, FLAKES)]
    first = int(np.argmax(spans))
    assert got[first] == 1
    np.testing.assert_allclose(got[[1 - first, 2, 3]], [0.5, 1, 1])
    apart = weights([(CLEAN, 0, 0, 0, 3, 25.0), (FLAKES, 1, 2, 0, 4, 5.0)])
    np.testing.assert_allclose(apart, [1, 1])


def test_of_one_hour_the_median_counts_and_of_two_the_worse() -> None:
    three = weights([(DAMP, 0, 1, -1, 0, 5.0), (PLAY, 0, 3, -1, 0, 5.0), (FLAKES, 0, 2, -1, 0, 5.0)])
    np.testing.assert_allclose(three, [0, 0, 1])
    np.testing.assert_allclose(weights([(PLAY, 0, 3, -1, 0, 5.0), (DAMP, 0, 1, -1, 0, 5.0)]), [1, 0])


def test_proof_counts_in_full_beside_anything() -> None:
    got = weights([(CLEAN, 0, 0, 0, 7, 30.0), (CHIPS, 0, 4, 0, 7, 29.0), (PLAY, 1, 3, 0, 7, 29.0)], proof=(1,))
    assert got[1] == 1
    assert got[2] == pytest.approx(0.5)


one = st.tuples(st.integers(0, 2), st.integers(0, 3), st.integers(-1, 1), st.integers(0, 3), st.integers(0, 6))


@settings(max_examples=60, deadline=None)
@given(found=st.lists(one, min_size=1, max_size=7), data=st.data())
def test_the_order_of_entry_does_not_matter_and_weights_only_shrink(
    found: list[tuple[int, int, int, int, int]], data: st.DataObject
) -> None:
    rng = np.random.default_rng(len(found))
    rows = rng.uniform(0.01, 1, (len(found), 4))
    # an hour lies on one day, a kind in one group
    whole = [
        (row, kind, grade, kind % 2, ago // 3, float(ago))
        for row, (kind, grade, _, _, ago) in zip(rows, found, strict=True)
    ]
    got = weights(whole)
    assert ((got >= 0) & (got <= 1)).all()
    order = data.draw(st.permutations(range(len(found))))
    np.testing.assert_array_equal(weights([whole[n] for n in order]), got[list(order)])
    assert got.max() == 1


def test_weights_are_powers() -> None:
    """Twice at a half is once in full; at 0 it says nothing; a 0 stays one."""
    half = weighted_likelihood(np.array([PLAY]), np.array([0.5]))
    np.testing.assert_allclose(half * half, [PLAY])
    np.testing.assert_allclose(weighted_likelihood(np.array([PLAY]), np.array([0.0])), 1.0)
    assert not weighted_likelihood(np.array([CHIPS]), np.array([0.5]))[0, :2].any()


PLUG = np.array([grade.p for grade in findings()["plug"].grades])


@pytest.mark.parametrize("hours", [0.0, 5.0, 40.0, 400.0])
def test_a_plug_wiped_lately_is_clean_in_any_condition(hours: float) -> None:
    """Chances of all grades still sum to 1; a clean one says less, bad news says what it says."""
    clean = [n == 0 for n in range(len(PLUG))]
    got = exposed_likelihood(PLUG, clean, np.full(len(PLUG), hours * HOUR), 40 * HOUR)
    np.testing.assert_allclose(got.sum(axis=0), 1.0, atol=1e-12)
    share = 1 - np.exp(-hours / 40)
    np.testing.assert_allclose(got[3], share * PLUG[3], atol=1e-90)
    np.testing.assert_allclose(got[0], share * PLUG[0] + 1 - share)
    # what bad news says hangs on its ratios alone
    np.testing.assert_allclose(got[3] / got[3].max(), PLUG[3] / PLUG[3].max())


def test_findings_of_one_instant_by_hand() -> None:
    """Two doors, one prize: chances 1/2 each; seen what one gives twice as often as the other."""
    np.testing.assert_allclose(updated(np.array([0.5, 0.5]), np.array([[0.2, 0.4], [0.3, 0.3]])), [1 / 3, 2 / 3])
    with pytest.raises(OutOfRange, match="no condition can give all of these"):
        updated(np.array([0.5, 0.5]), np.array([[1.0, 0.0], [0.0, 1.0]]))


def test_cases_one_by_one_teach_what_they_teach_together() -> None:
    row, worth = np.array([0.5, 0.3, 0.15, 0.05]), 8.0
    cases = [0, 2, 2, 1, 3]
    for number, case in enumerate(cases):
        row = learned_row(row, worth + number, np.eye(4)[case])
    whole = learned_row(np.array([0.5, 0.3, 0.15, 0.05]), worth, np.bincount(cases, minlength=4))
    np.testing.assert_allclose(row, whole)
    assert row.sum() == pytest.approx(1)
    np.testing.assert_allclose(learned_row(whole, 1e12, [9, 0, 0, 0]), whole, atol=1e-9)
    assert not learned_row(np.array([0.0, 0, 0.4, 0.6]), 8.0, [0, 0, 3, 1])[:2].any()


def test_weighted_draws_are_worth_their_variance() -> None:
    """The mean of n weighted draws scatters as that of so many equal ones."""
    rng = np.random.default_rng(8)
    weight = rng.gamma(0.6, size=400)
    means = [(weight * rng.normal(size=400)).sum() / weight.sum() for _ in range(6000)]
    worth = float(effective_share(weight, np.full(400, 1 / 400))) * 400
    assert 1 / np.var(means) == pytest.approx(worth, rel=0.06)
    assert float(effective_share(np.ones(7), np.full(7, 1 / 7))) == pytest.approx(1)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: exposed_likelihood(PLUG[:1], [True], [-1.0], HOUR), "exposed is -1"),
        (lambda: exposed_likelihood(PLUG[:1], [True], [1.0], 0.0), "exposure"),
        (lambda: weighted_likelihood(PLUG[:1], np.array([1.1])), "weights is 1.1"),
        (lambda: finding_weights(PLUG[:1], [0, 1], [0], [0], [0], [0.0], [False], HOUR, 0.5), "one a finding"),
        (lambda: finding_weights(PLUG[:1], [0], [0], [0], [0], [0.0], [False], HOUR, 1.5), "others is 1.5"),
        (lambda: learned_row(np.array([0.5, 0.5]), 8.0, [1, 2, 3]), "counts is 3; it must be 2"),
        (lambda: effective_share(np.ones(3), np.ones(2)), "shares is 2"),
        (lambda: effective_share(np.zeros(2), np.ones(2)), "not all of them 0"),
    ],
)
def test_what_cannot_be_is_refused_by_name(call: object, says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        call()  # type: ignore[operator]
