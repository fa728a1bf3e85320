"""What looks and questions are worth: against counting out, closed forms and laws."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import norm

from axlewright.engines.limits import OutOfRange
from axlewright.engines.season import Look, LookWorth, worth_of_asking, worth_of_looks, worth_of_state
from axlewright.engines.season import next as looks
from axlewright.engines.season._looks import not_below_nothing

PLUG = np.array([[0.9, 0.09, 0.01], [0.55, 0.38, 0.07], [0.1, 0.35, 0.55]])
ROCK = np.array([[0.93, 0.07], [0.7, 0.3], [0.2, 0.8]])
DRAWS = 900


def drawn(seed: int = 1) -> tuple[np.ndarray, np.ndarray]:
    """Costs of four courses that hang on the state, the weather and luck; and the states."""
    rng = np.random.default_rng(seed)
    states = rng.choice(3, DRAWS, p=[0.5, 0.3, 0.2])
    middle = np.array([[500, 5000, 5500, 9000], [3800, 5200, 5600, 9000], [15000, 8000, 6400, 9000]], float)
    return middle[states] * rng.lognormal(0, 0.4, (DRAWS, 4)), states


def only(costs: np.ndarray, states: np.ndarray, chances: np.ndarray, **more: object) -> LookWorth:
    return worth_of_looks(costs, states, (Look("it", chances),), **more)[0]  # type: ignore[arg-type]


def counted_out(costs: np.ndarray, states: np.ndarray, chances: np.ndarray) -> float:
    """Draw by draw and grade by grade, as one would by hand."""
    now = min(sum(costs[:, k]) for k in range(costs.shape[1]))
    after = 0.0
    for grade in range(chances.shape[1]):
        after += min(
            sum(chances[state, grade] * cost for state, cost in zip(states, costs[:, k], strict=True))
            for k in range(costs.shape[1])
        )
    return float((now - after) / len(states))


def test_a_look_is_worth_what_counting_out_gives() -> None:
    costs, states = drawn()
    for chances in (PLUG, ROCK):
        assert only(costs, states, chances).worth == pytest.approx(counted_out(costs, states, chances))


def test_on_draws_and_on_a_table_of_states_it_is_the_same() -> None:
    costs, states = drawn()
    weights = np.bincount(states) / DRAWS
    means = np.array([costs[states == s].mean(axis=0) for s in range(3)])
    table = looks.worth_of_a_look(
        weights, tuple(looks.Option(c) for c in means.T), tuple(looks.Saying(c) for c in PLUG.T)
    )
    found = only(costs, states, PLUG)
    assert found.worth == pytest.approx(table.worth)
    assert worth_of_state(costs, states) == pytest.approx(table.ceiling)
    np.testing.assert_allclose(found.courses + 1, table.choices)
    np.testing.assert_allclose(found.chances, table.chances)


def row(size: int) -> st.SearchStrategy[list[float]]:
    return st.lists(st.floats(0.01, 1.0), min_size=size, max_size=size)


@settings(max_examples=40, deadline=None)
@given(
    table=st.lists(row(4), min_size=3, max_size=3),
    other=st.lists(row(2), min_size=3, max_size=3),
    weights=row(3),
    costs=st.lists(st.lists(st.floats(-1e4, 1e4), min_size=3, max_size=3), min_size=1, max_size=4),
)
def test_laws_of_a_look(
    table: list[list[float]], other: list[list[float]], weights: list[float], costs: list[list[float]]
) -> None:
    one, two = (np.array(t) / np.array(t).sum(axis=1, keepdims=True) for t in (table, other))
    cost, states, weight = np.array(costs).T, np.arange(3), np.array(weights)
    given_worth = worth_of_looks(cost, states, (Look("a", one), Look("b", two)), weight, pairs=True)
    worth = {w.names: w.worth for w in given_worth}
    ceiling, slack = worth_of_state(cost, states, weight), 1e-9 * max(1.0, np.abs(cost).max())
    everything = float(weight @ (cost[:, (weight @ cost).argmin()] - cost.min(axis=1)) / weight.sum())
    assert ceiling <= everything + slack
    for value in worth.values():
        assert -slack <= value <= ceiling + slack
    assert worth["a", "b"] >= max(worth["a",], worth["b",]) - slack
    merged = np.column_stack([one[:, :2].sum(axis=1), one[:, 2:]])
    assert only(cost, states, merged, weights=weight).worth <= worth["a",] + slack
    assert only(cost, states, np.full((3, 2), 0.5), weights=weight).worth == pytest.approx(0, abs=slack)
    assert only(cost, states, np.eye(3), weights=weight).worth == pytest.approx(ceiling, abs=slack)
    assert only(cost, states, one, weights=weight * 7).worth == pytest.approx(worth["a",], abs=slack)


def test_knowing_the_state_is_worth_no_more_than_knowing_everything() -> None:
    costs, states = drawn()
    everything = costs.mean(axis=0).min() - costs.min(axis=1).mean()
    assert 0 < worth_of_state(costs, states) < everything
    assert worth_of_state(costs, np.arange(DRAWS)) == pytest.approx(everything), "each draw a state of its own"


def test_two_looks_that_err_together_are_no_pair() -> None:
    costs, states = drawn()
    found = worth_of_looks(
        costs, states, (Look("plug", PLUG, group="oil"), Look("oil", PLUG, group="oil"), Look("rock", ROCK)), pairs=True
    )
    assert {w.names for w in found if len(w.names) == 2} == {("plug", "rock"), ("oil", "rock")}


def test_the_price_of_a_look_counts_and_best_comes_first() -> None:
    costs, states = drawn()
    free, dear = worth_of_looks(costs, states, (Look("dear", PLUG, price=5000.0), Look("free", PLUG)))
    assert (free.names, dear.names) == (("free",), ("dear",))
    assert dear.net == pytest.approx(free.net - 5000)


def test_a_look_that_changes_nothing_says_so() -> None:
    costs, states = drawn()
    cheap = np.column_stack([costs[:, 0] * 0, costs[:, 1:]])
    found = only(cheap, states, PLUG)
    assert (found.worth, found.changes) == (0.0, False)
    assert only(costs, states, PLUG).changes


def test_few_draws_behind_a_grade_are_told() -> None:
    costs, states = drawn()
    assert only(costs[:300], states[:300], PLUG).rough
    rep = np.tile(np.arange(DRAWS), 10)
    assert not only(costs[rep], states[rep], PLUG).rough
    plain = only(costs, states, np.full((3, 1), 1.0))
    assert float(np.asarray(plain.behind)[0]) == pytest.approx(DRAWS)


def test_a_grade_may_open_or_close_courses() -> None:
    costs, states = drawn()
    now = (False, True, True, True)  # run may not be taken as long as nobody looked
    after = np.array([[True, True, True, True], now, [False, False, True, True]])
    opening = worth_of_looks(costs, states, (Look("plug", PLUG, admits=after),), admitted=now)[0]
    closed = worth_of_looks(costs, states, (Look("plug", PLUG),), admitted=now)[0]
    assert opening.worth > closed.worth
    assert opening.courses[0] == 0  # type: ignore[index]
    by_hand = min(costs[:, k].sum() for k in (1, 2, 3))
    for grade, may in enumerate(after):
        by_hand -= min((PLUG[states, grade] * costs[:, k]).sum() for k in np.flatnonzero(may))
    assert opening.worth == pytest.approx(by_hand / DRAWS)


def test_knowing_a_number_beforehand_is_worth_what_the_closed_form_says() -> None:
    rng = np.random.default_rng(4)
    asked, rest = rng.normal(1, 1, 200_000), rng.normal(0, 2, 200_000)
    costs = np.column_stack([asked - rest, np.zeros(200_000)])  # two courses, one of them at nothing
    wanted = float(looks.difference_known(-1.0, 1.0))
    assert worth_of_asking(costs, asked, bins=50) == pytest.approx(wanted, rel=0.1)
    assert worth_of_asking(costs, rng.random(200_000), bins=50) < 0.1 * wanted, "what tells nothing is worth nothing"


@pytest.mark.parametrize(("mean", "spread"), [(1.0, 2.0), (-3.0, 1.5), (0.0, 1.0)])
def test_worth_of_a_normal_difference_is_its_integral(mean: float, spread: float) -> None:
    whole, _ = quad(lambda x: max(x, 0) * norm.pdf(x, mean, spread), mean - 12 * spread, mean + 12 * spread, limit=200)
    assert float(looks.difference_known(mean, spread)) == pytest.approx(whole - max(mean, 0), abs=1e-7)


def test_many_looks_tell_all_and_none_tells_nothing() -> None:
    assert float(looks.spread_told(3.0, 1.0, 1e12)) == pytest.approx(3.0)
    assert float(looks.spread_told(3.0, 1e9, 1.0)) == pytest.approx(0, abs=1e-6)


def test_less_than_nothing_is_a_mistake_and_not_hidden() -> None:
    assert not not_below_nothing(-1e-12, 1000.0)
    with pytest.raises(ArithmeticError):
        not_below_nothing(-1.0, 1000.0)


@pytest.mark.parametrize(
    ("chances", "what"),
    [(PLUG * 2, "it.chances"), (PLUG[:2], "it.chances"), (PLUG * 0.5, "it.chances"), (PLUG * np.nan, "it.chances")],
)
def test_chances_that_cannot_be_are_refused(chances: np.ndarray, what: str) -> None:
    costs, states = drawn()
    with pytest.raises(OutOfRange) as refused:
        only(costs, states, chances)
    assert refused.value.what == what


def test_tables_that_do_not_fit_are_refused() -> None:
    options, sayings = (looks.Option(np.zeros(3)),), (looks.Saying(np.ones(3)),)
    for bad in (
        (np.ones(2), options, sayings),
        (np.zeros(3), options, sayings),
        (np.ones(3), (), sayings),
        (np.ones(3), options, ()),
        (np.ones(3), options, (looks.Saying(np.full(3, 0.4)),)),
    ):
        with pytest.raises(OutOfRange):
            looks.worth_of_a_look(*bad)
