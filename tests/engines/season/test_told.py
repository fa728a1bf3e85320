"""The years after, by hand; courses side by side: what is told of them, against a library and laws."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import numpy as np
import pytest
from engines.season.seasons import CROPS, DAY, HA, HOUR, PRICES, drives, one, weather

from axlewright.engines.limits import OutOfRange
from axlewright.engines.season import (
    Checks,
    Common,
    Course,
    Ledger,
    Life,
    Outcome,
    Priced,
    Recovery,
    Winter,
    Years,
    by_trajectory,
    compare,
    cost_of,
    field_clock,
    life_after_reseal,
    priced,
    run_course,
    side_by_side,
    standard_courses,
    untroubled,
    with_years,
    years_after,
)
from axlewright.engines.season._compare import dominated, quantiles

SEASONS = 600
RNG = np.random.default_rng(7)
DAYS = weather(RNG, SEASONS)
COMMON = drives(RNG, SEASONS)
CLOCK = field_clock(CROPS, DAYS)
FREE = untroubled(CLOCK)
NAMES = (
    "run", "run with checks", "reseal", "fit a spare", "fit a used drive", "fit a rebuilt exchange", "rebuild now",
    "hire out", "park",
)  # fmt: skip
WAYS = (Recovery(), Recovery("used", 3 * DAY), Recovery("used", 4 * DAY, quoted=True))
CHECKS = Checks(12.5 * HOUR, 0.6)


def rows(common: Common = COMMON, names: Any = NAMES, checks: Checks = CHECKS, **more: Any) -> tuple[Course, ...]:
    return standard_courses(common, names, checks=checks, **more)


def row(name: str, **more: Any) -> Course:
    return rows(names=(name,), **more)[0]


# --- the years after ---


def years(**changed: Any) -> Years:
    rng = np.random.default_rng(3)
    fails = rng.lognormal(np.log(1500), 0.6, (SEASONS, 5, 2)) * HOUR
    given: dict[str, Any] = {
        "count": 5, "hours": 300 * HOUR, "power": 0.5, "looks": rng.random((SEASONS, 5, 2)), "twin": COMMON.fitted,
        "next_lives": Life(fails, fails * 1.1), "whole_life": 3000 * HOUR,
        "delayed_with": np.array([0.3 * HA, 0.0]), "delayed_without": np.array([1.5 * HA, 0.0]),
    }  # fmt: skip
    return Years(**{**given, **changed})


def by_hand(outcome: Outcome, ahead: Years, i: int, winter: Winter) -> dict[str, float]:
    """The years after of one season, year by year and corner by corner."""
    life = [
        [one(outcome.fitted.fails, i), one(outcome.fitted.lets_go, i)],
        [one(ahead.twin.fails, i), one(ahead.twin.lets_go, i)],
    ]
    spare, count = one(outcome.spare, i), dict.fromkeys(("tows", "used", "rebuilds", "delayed"), 0.0)
    hours = float(np.asarray(ahead.hours))
    for year in range(ahead.count):
        today, core = (1 + float(np.asarray(ahead.discount))) ** -(year + 1), 0.0
        for corner in (0, 1):
            fails, lets_go = life[corner]
            seen = fails <= 0 and np.asarray(ahead.looks)[i, year, corner] < ahead.power
            gone = not seen and lets_go <= hours
            had = hours
            if seen or gone:
                fresh = (
                    np.asarray(ahead.next_lives.fails)[i, year, corner],
                    np.asarray(ahead.next_lives.lets_go)[i, year, corner],
                )
                had = max(hours - lets_go, 0.0) if gone else hours
                core = winter.let_go if gone else winter.failing
                fails, lets_go = fresh
                if spare > 0:
                    spare -= 1
                    count["delayed"] += today * gone * 0.3 * HA
                else:
                    count["used"] += today
                    count["delayed"] += today * gone * 1.5 * HA
                count["tows"] += today * gone
            life[corner] = [fails - had, lets_go - had]
        if ahead.keeps_spare and core and spare <= 0:
            count["rebuilds"] += today * core
            spare += 1
    return count | {"spares": (1 + float(np.asarray(ahead.discount))) ** -ahead.count * spare}


@pytest.mark.parametrize("keeps", [False, True])
def test_the_years_after_are_what_they_are_by_hand(keeps: bool) -> None:
    outcome = run_course(CLOCK, COMMON, row("fit a used drive"))[0]
    ahead = years(keeps_spare=keeps)
    ledger = years_after(COMMON, outcome, ahead)
    tows = 0.0
    for i in range(0, SEASONS, 7):
        paper = by_hand(outcome, ahead, i, Winter())
        for name in ("tows", "used", "rebuilds", "spares"):
            assert one(getattr(ledger, name), i) == pytest.approx(paper[name], abs=1e-9), (i, name)
        assert float(np.asarray(ledger.delayed)[i].sum()) == pytest.approx(paper["delayed"], abs=1e-6)
        tows += paper["tows"]
    assert tows > 10


def test_a_spare_on_the_shelf_is_worth_something_and_more_the_more_lets_go() -> None:
    outcome = run_course(CLOCK, COMMON, row("run"))[0]
    with_it, without = (replace(outcome, spare=np.full(SEASONS, s)) for s in (1.0, 0.0))

    def worth(ahead: Years) -> float:
        costs = [np.mean(np.asarray(cost_of(with_years(COMMON, o, ahead).season, PRICES))) for o in (without, with_it)]
        return float(costs[0] - costs[1])

    assert worth(years()) > 0
    sound = Life(np.full(SEASONS, 1e6 * HOUR), np.full(SEASONS, 1e6 * HOUR))
    quiet = replace(outcome, fitted=sound)
    plain = [years_after(COMMON, replace(quiet, spare=np.full(SEASONS, s)), years(twin=sound)) for s in (0.0, 1.0)]
    gain = np.asarray(cost_of(plain[0], PRICES)) - cost_of(plain[1], PRICES)
    np.testing.assert_allclose(gain, 1.06**-5 * PRICES.spare)


def test_no_years_add_nothing() -> None:
    outcome = run_course(CLOCK, COMMON, row("run"))[0]
    ledger = years_after(COMMON, outcome, replace(years(count=0), looks=0.5, next_lives=Life()))
    assert not np.asarray(ledger.used).any()
    np.testing.assert_allclose(ledger.spares, outcome.spare)


def test_a_new_seal_saves_no_bearing() -> None:
    life = Life(np.array([10.0, 10.0]), np.array([30.0, 30.0]))
    after = life_after_reseal(life, np.array([0, 1]), 0, 100.0)
    assert np.asarray(after.lets_go).tolist() == [100.0, 30.0]
    assert np.asarray(after.fails).tolist() == [100.0, 10.0]


# --- side by side ---


def choice_of(**more: Any) -> Any:
    return compare(tuple(run_course(CLOCK, COMMON, course, WAYS) for course in rows()), PRICES, FREE, **more)


def test_the_recovery_is_chosen_on_the_mean_and_never_season_by_season() -> None:
    outcomes = tuple(run_course(CLOCK, COMMON, course, WAYS) for course in rows())
    choice = compare(outcomes, PRICES, FREE)
    for ways, result in zip(outcomes, choice.results, strict=True):
        costs = np.array([np.asarray(cost_of(w.season, PRICES)) - cost_of(FREE.season, PRICES) for w in ways])
        assert result.mean == pytest.approx(costs.mean(axis=1).min())
        assert result.mean >= costs.min(axis=0).mean() - 1e-9, "season by season would be cheaper: that is foresight"


def test_seasons_priced_a_block_at_a_time_come_to_the_same() -> None:
    """Only money is kept of each block; the recovery of least mean is that of the sums."""
    blocks = (slice(0, 100), slice(100, 350), slice(350, SEASONS))
    free_cost, courses = np.asarray(cost_of(FREE.season, PRICES)), []
    for ways in (run_course(CLOCK, COMMON, course, WAYS) for course in rows()):
        parts = [[priced(part(way, one), PRICES, free_cost[one]) for one in blocks] for way in ways]
        taken = min(parts, key=lambda part: sum(float(np.sum(one.costs)) for one in part))
        whole = {f.name: np.concatenate([getattr(one, f.name) for one in taken]) for f in fields(Priced)[2:]}
        courses.append(Priced(taken[0].course, taken[0].recovery, **whole))
    told, plain = side_by_side(tuple(courses)), choice_of()
    np.testing.assert_array_equal(told.costs, plain.costs)
    assert told.best == plain.best
    for first, second in zip(told.results, plain.results, strict=True):
        assert first.name == second.name
        for f in fields(first)[1:]:
            np.testing.assert_allclose(getattr(first, f.name), getattr(second, f.name), rtol=1e-9, atol=1e-9)


def part(value: Any, rows: slice) -> Any:
    """An outcome of these seasons alone."""
    if isinstance(value, Outcome | Ledger | Life):
        return replace(value, **{f.name: part(getattr(value, f.name), rows) for f in fields(value)})
    return value[rows] if isinstance(value, np.ndarray) and value.ndim else value


def test_what_knowing_everything_saves_is_the_regret_of_the_best() -> None:
    choice = choice_of()
    least = choice.costs.min(axis=1).mean()
    assert choice.perfect == pytest.approx(choice.results[choice.best].mean - least)
    assert sum(r.cheapest for r in choice.results) == pytest.approx(1)
    assert min(r.mean for r in choice.results) == choice.results[choice.best].mean


def test_weights_all_seven_times_as_great_change_nothing_and_double_weights_are_two_draws() -> None:
    plain, sevenfold = choice_of(), choice_of(weights=np.full(SEASONS, 7.0))
    for first, second in zip(plain.results, sevenfold.results, strict=True):
        assert first.mean == pytest.approx(second.mean)
        np.testing.assert_allclose(first.dots, second.dots)
    values, weight = np.array([4.0, 1.0, 3.0]), np.array([1.0, 2.0, 1.0]) / 4
    twice = quantiles(np.array([4.0, 1.0, 1.0, 3.0]), np.full(4, 0.25), np.arange(0.05, 1, 0.1))
    np.testing.assert_array_equal(quantiles(values, weight, np.arange(0.05, 1, 0.1)), twice)


def test_quantiles_and_error_are_those_of_a_library() -> None:
    result = choice_of().results[0]
    costs = choice_of().costs[:, 0]
    for value, share in ((result.low, 0.1), (result.middle, 0.5), (result.high, 0.9)):
        assert value == pytest.approx(np.quantile(costs, share, method="inverted_cdf"))
    assert result.error == pytest.approx(costs.std() / SEASONS**0.5)
    assert len(result.dots) == 100
    assert (np.diff(result.dots) >= 0).all()


def test_seasons_of_one_trajectory_are_no_draws_of_their_own() -> None:
    """The error goes by trajectories: a trajectory told five times is one witness."""
    outcomes = (run_course(CLOCK, COMMON, row("run"), WAYS), run_course(CLOCK, COMMON, row("fit a spare"), WAYS))
    single = compare(outcomes, PRICES, FREE)
    rep = np.repeat(np.arange(SEASONS), 5)

    def five(outcome: Outcome) -> Outcome:
        def many(value: Any) -> Any:
            if isinstance(value, Ledger | Life):
                return type(value)(**{f.name: many(getattr(value, f.name)) for f in fields(value)})
            return value[rep] if isinstance(value, np.ndarray) and value.ndim else value

        return Outcome(**{f.name: many(getattr(outcome, f.name)) for f in fields(outcome)})

    told = compare(tuple(tuple(map(five, ways)) for ways in outcomes), PRICES, five(FREE), replicates=5)
    for first, second in zip(single.results, told.results, strict=True):
        assert second.error == pytest.approx(first.error)
        assert second.mean == pytest.approx(first.mean)
    np.testing.assert_allclose(by_trajectory(told.costs, 5), single.costs)
    with pytest.raises(OutOfRange, match="replicates"):
        by_trajectory(told.costs, 7)


def test_a_course_that_may_not_be_taken_is_neither_best_nor_a_measure() -> None:
    free = choice_of()
    barred = choice_of(admitted=tuple(number != free.best for number in range(len(NAMES))))
    assert barred.best != free.best
    assert barred.results[free.best].cheapest == 0
    assert barred.results[barred.best].behind == 0
    with pytest.raises(OutOfRange, match="admitted"):
        choice_of(admitted=(False,) * len(NAMES))


def test_one_beats_another_only_where_it_is_worse_in_nothing() -> None:
    table = np.array([[1.0, 5.0], [2.0, 5.0], [1.0, 6.0], [0.5, 7.0], [1.0, 5.0]])
    assert dominated(table, np.ones(5, bool)).tolist() == [False, True, True, False, False]
    assert dominated(table, np.array([False, True, True, True, False])).tolist() == [False, False, False, False, False]
