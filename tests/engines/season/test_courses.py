"""Laws of courses on common draws, and of what is told of them."""

from __future__ import annotations

import itertools
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
    Job,
    Ledger,
    Life,
    Outcome,
    Recovery,
    Replacement,
    Warranty,
    Winter,
    Years,
    by_trajectory,
    compare,
    cost_of,
    field_clock,
    life_after_reseal,
    run_course,
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


def mean_cost(course: Course, common: Common = COMMON, prices: Any = PRICES, way: Recovery = WAYS[1]) -> float:
    (outcome,) = run_course(CLOCK, common, course, (way,))
    return float(np.mean(np.asarray(cost_of(outcome.season, prices))))


def failed(course: Course, common: Common = COMMON) -> np.ndarray:
    return np.asarray(run_course(CLOCK, common, course)[0].failed)


# --- courses ---


def test_two_rows_of_the_same_data_come_to_the_same_in_every_season() -> None:
    one_run, other = (run_course(CLOCK, COMMON, replace(row("run"), name=n), WAYS) for n in ("a", "b"))
    for first, second in zip(one_run, other, strict=True):
        np.testing.assert_array_equal(cost_of(first.season, PRICES), cost_of(second.season, PRICES))
        np.testing.assert_array_equal(first.finish, second.finish)


def test_another_course_or_another_way_moves_no_number() -> None:
    alone = run_course(CLOCK, COMMON, row("run"), WAYS[1:2])[0]
    for course in rows():
        run_course(CLOCK, COMMON, course, WAYS)
    again = run_course(CLOCK, COMMON, row("run"), WAYS)[1]
    for name in ("finish", "down", "failed", "unsafe"):
        np.testing.assert_array_equal(getattr(alone, name), getattr(again, name))
    np.testing.assert_array_equal(cost_of(alone.season, PRICES), cost_of(again.season, PRICES))


def test_what_costs_a_hundred_more_costs_a_hundred_more_and_is_dominated() -> None:
    plain = row("run")
    dearer = replace(plain, name="dearer", now=Ledger(holds=2.0))  # two holds at 50
    outcomes = tuple(run_course(CLOCK, COMMON, course, WAYS) for course in (plain, dearer))
    choice = compare(outcomes, PRICES, FREE)
    assert choice.results[1].mean - choice.results[0].mean == pytest.approx(100)
    assert choice.results[1].behind == pytest.approx(100)
    assert choice.results[1].behind_error == pytest.approx(0, abs=1e-8)
    assert [r.dominated for r in choice.results] == [False, True]


def test_a_higher_price_never_makes_a_course_cheaper() -> None:
    comes_back = {"spare", "hours_left"}
    for course in rows():
        (outcome,) = run_course(CLOCK, COMMON, course)
        before = np.asarray(cost_of(outcome.season, PRICES))
        for part in fields(PRICES):
            if part.name in comes_back:
                continue
            dearer = replace(PRICES, **{part.name: np.asarray(getattr(PRICES, part.name)) * 1.5})
            assert (np.asarray(cost_of(outcome.season, dearer)) >= before - 1e-9).all(), part.name


def test_cost_is_straight_in_every_price() -> None:
    outcome = run_course(CLOCK, COMMON, row("fit a used drive"), WAYS)[1]
    for part in fields(PRICES):
        at = [
            np.asarray(
                cost_of(outcome.season, replace(PRICES, **{part.name: np.asarray(getattr(PRICES, part.name)) + k}))
            )
            for k in (0.0, 1.0, 2.0)
        ]
        np.testing.assert_allclose(at[2] - at[1], at[1] - at[0], rtol=1e-6, atol=1e-6)


def test_longer_leads_and_jobs_cost_no_less_where_no_machine_is_hired() -> None:
    course = row("run")
    before = mean_cost(course, way=WAYS[0])
    longer = replace(COMMON, used=replace(COMMON.used, lead=np.asarray(COMMON.used.lead) + 2 * DAY))
    assert mean_cost(course, longer, way=WAYS[0]) >= before
    jobs = replace(COMMON.jobs, field_swap=Job(np.asarray(COMMON.jobs.field_swap.takes) + DAY, COMMON.jobs.swap.labour))
    slower = replace(COMMON, jobs=jobs)
    same = replace(
        COMMON, jobs=replace(COMMON.jobs, field_swap=replace(COMMON.jobs.field_swap, labour=COMMON.jobs.swap.labour))
    )
    assert mean_cost(course, slower, way=WAYS[0]) >= mean_cost(course, same, way=WAYS[0])


def test_better_checks_let_go_no_more_often_and_none_are_a_run() -> None:
    first = [
        failed(row("run with checks", checks=Checks(12.5 * HOUR, p)), holding()) > 0 for p in (0.0, 0.3, 0.6, 0.9, 1.0)
    ]
    for less, more in itertools.pairwise(first):
        assert (more <= less).all()
    run = run_course(CLOCK, COMMON, row("run"), WAYS)
    for checks in (Checks(), Checks(1e9 * HOUR, 1.0)):
        for one_way, other in zip(
            run, run_course(CLOCK, COMMON, row("run with checks", checks=checks), WAYS), strict=True
        ):
            np.testing.assert_array_equal(one_way.finish, other.finish)
            np.testing.assert_array_equal(cost_of(one_way.season, PRICES), cost_of(other.season, PRICES))


def holding() -> Common:
    """Replacements that do not let go: what lets go is the drive in trouble."""
    return replace(
        COMMON,
        **{n: Replacement(getattr(COMMON, n).lead, Life(), Life()) for n in ("used", "rebuilt", "spare", "exchange")},
    )


def test_a_check_that_always_sees_and_comes_in_time_lets_nothing_go() -> None:
    fails = np.full(SEASONS, 33 * HOUR)
    common = replace(holding(), fitted=Life(fails, fails + 20 * HOUR))
    outcome = run_course(CLOCK, common, row("run with checks", common=common, checks=Checks(20 * HOUR, 1.0)))[0]
    assert not np.asarray(outcome.failed).any()
    never = run_course(CLOCK, common, row("run with checks", common=common, checks=Checks(20 * HOUR, 1.0, 1.0)))[0]
    assert np.asarray(never.failed).any()


def test_a_stop_put_off_to_an_idle_day_or_until_the_drive_is_there_saves_days() -> None:
    fails = np.full(SEASONS, 12 * HOUR)
    common = replace(holding(), fitted=Life(fails, fails + 500 * HOUR))
    on = {
        how: run_course(CLOCK, common, row("run with checks", common=common, checks=Checks(10 * HOUR, 1.0, 0.0, how)))[
            0
        ]
        for how in ("stop", "next idle day", "until it is there")
    }
    lost = {how: float(np.mean(np.asarray(o.lost))) for how, o in on.items()}
    assert lost["until it is there"] < lost["next idle day"] < lost["stop"]
    assert not any(np.asarray(o.failed).any() for o in on.values())
    soon = replace(common, fitted=Life(fails, fails + 9 * HOUR))
    late = run_course(
        CLOCK, soon, row("run with checks", common=soon, checks=Checks(10 * HOUR, 1.0, 0.0, "until it is there"))
    )[0]
    assert np.asarray(late.failed).any(), "what goes on may let go"


def test_a_later_let_go_never_makes_one() -> None:
    sooner = failed(row("run"), holding()) > 0
    later = replace(holding(), fitted=replace(COMMON.fitted, lets_go=np.asarray(COMMON.fitted.lets_go) + 30 * HOUR))
    assert (failed(row("run", common=later), later)[~sooner] == 0).all()


def test_nothing_is_counted_where_nothing_happens() -> None:
    sound = replace(holding(), fitted=Life())
    (outcome,) = run_course(CLOCK, sound, row("run", common=sound))
    np.testing.assert_array_equal(outcome.finish, FREE.finish)
    np.testing.assert_allclose(cost_of(outcome.season, PRICES), cost_of(FREE.season, PRICES))
    assert not np.asarray(outcome.lost).any()


def test_harm_is_where_it_let_go() -> None:
    (outcome,) = run_course(CLOCK, holding(), row("run"))
    road = np.asarray(COMMON.road)
    once = np.asarray(outcome.failed) == 1
    np.testing.assert_allclose(np.asarray(outcome.unsafe)[once], ((road * 0.1 + 0.005) / (1 + road))[once])
    assert not np.asarray(outcome.unsafe)[np.asarray(outcome.failed) == 0].any()


def test_field_and_hired_area_and_what_stands_are_the_whole() -> None:
    for course in rows(second_rate=0.6):
        for outcome in run_course(CLOCK, COMMON, course, WAYS):
            standing = np.asarray(outcome.season.standing).sum(axis=1)
            assert (np.asarray(outcome.season.hired) + standing <= 130 * HA * (1 + 1e-9)).all()
            np.testing.assert_array_equal(np.isinf(outcome.finish), standing > 0)
    parked = run_course(CLOCK, COMMON, row("park"))[0]
    np.testing.assert_allclose(parked.season.standing, np.tile([90 * HA, 40 * HA], (SEASONS, 1)))


def test_a_hired_machine_works_all_or_the_own_one_does_where_nobody_comes() -> None:
    (outcome,) = run_course(CLOCK, COMMON, row("hire out"))
    comes = np.isfinite(COMMON.hire_lead)
    calls, used = np.asarray(outcome.season.hire_calls), np.broadcast_to(outcome.season.used, SEASONS)
    np.testing.assert_array_equal(calls, comes.astype(float))
    assert not used[comes].any()
    assert used[~comes].any()
    done = np.isfinite(outcome.finish) & comes
    np.testing.assert_allclose(np.asarray(outcome.season.hired)[done], 130 * HA)


def test_warranty_pays_the_drive_and_nothing_else() -> None:
    quick = Life(np.full(SEASONS, 5 * HOUR), np.full(SEASONS, 10 * HOUR))
    common = replace(COMMON, used=Replacement(2 * DAY, quick, Life()))
    with_none, full, part = (
        run_course(CLOCK, common, standard_courses(common, ("fit a used drive",), warranty=w)[0])[0]
        for w in (Warranty(), Warranty(40 * HOUR, chance=1.0), Warranty(40 * HOUR, chance=1.0, pro_rata=True))
    )
    gone = np.asarray(full.failed) > 0
    assert gone.mean() > 0.9
    saved = np.asarray(cost_of(with_none.season, PRICES)) - cost_of(full.season, PRICES)
    np.testing.assert_allclose(saved, np.where(gone, PRICES.used, 0.0), atol=1e-6)
    np.testing.assert_allclose(np.asarray(part.season.refunds)[gone], 0.75)
    honoured = run_course(
        CLOCK, common, standard_courses(common, ("fit a used drive",), warranty=Warranty(40 * HOUR, chance=0.5))[0]
    )[0]
    np.testing.assert_array_equal(np.asarray(honoured.season.refunds) > 0, gone & (np.asarray(COMMON.honoured) < 0.5))


def test_an_early_change_saves_the_core() -> None:
    winter = Winter(1.3, 2.0)
    used = run_course(CLOCK, COMMON, row("fit a used drive"), winter=winter)[0]
    there = np.isfinite(COMMON.used.lead)
    failing = np.asarray(COMMON.fitted.fails) <= 0
    np.testing.assert_allclose(np.asarray(used.core)[there], np.where(failing, 1.3, 1.0)[there])
    shelf = np.asarray(used.spare) - np.isfinite(COMMON.spare.lead)
    assert (shelf[there] == 1).all()
    run = replace(row("run"), winter="shelf")
    outcome = run_course(CLOCK, COMMON, run, winter=winter)[0]
    assert set(np.unique(outcome.core)) <= {0.0, 2.0}


def test_winter_counts_as_much_as_it_counts_today() -> None:
    whole, half = (run_course(CLOCK, COMMON, row("fit a used drive"), winter=Winter(today=t))[0] for t in (1.0, 0.5))
    saved = np.asarray(whole.season.rebuilds) - half.season.rebuilds
    np.testing.assert_allclose(saved, 0.5 * np.asarray(whole.core), atol=1e-9)


def test_common_draws_cut_the_variance_of_run_against_checks() -> None:
    run, checks = (run_course(CLOCK, COMMON, row(n))[0] for n in ("run", "run with checks"))
    one_cost, two = (np.asarray(cost_of(o.season, PRICES)) - cost_of(FREE.season, PRICES) for o in (run, checks))
    assert (one_cost - two).var() < one_cost.var() + two.var()


@pytest.mark.parametrize(
    ("changed", "what"),
    [
        ({"road": -0.1}, "common.road"),
        ({"seen": np.full(SEASONS, 1.5)}, "common.seen"),
        ({"hire_lead": np.full(3, DAY)}, "common.hire_lead"),
        ({"fitted": Life(0.0, -1.0)}, "common.fitted.lets_go"),
        ({"used": Replacement(np.nan, Life(), Life())}, "common.used.lead"),
        ({"used": Replacement(0.0, Life(5.0, 2.0), Life())}, "common.used.life.fails"),
        ({"rebuilt": Replacement(np.inf, Life(), Life())}, "common.rebuilt.lead"),
        ({"hire_rate": 0.0}, "common.hire_rate"),
    ],
)
def test_what_cannot_be_is_refused_by_name(changed: dict[str, Any], what: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        run_course(CLOCK, replace(COMMON, **changed), Course("run"))
    assert refused.value.what == what


def test_seasons_that_cannot_be_are_refused() -> None:
    with pytest.raises(OutOfRange, match="crops"):
        field_clock((), DAYS)
    with pytest.raises(OutOfRange, match="workable"):
        field_clock(CROPS, DAYS + 30 * HOUR)
    with pytest.raises(OutOfRange, match="rate"):
        field_clock((replace(CROPS[0], rate=0.0),), DAYS)
    with pytest.raises(OutOfRange, match="recoveries"):
        run_course(CLOCK, COMMON, Course("run"), ())


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
