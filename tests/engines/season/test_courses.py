"""Laws of courses on common draws, and of what is told of them."""

from __future__ import annotations

import itertools
from dataclasses import fields, replace
from typing import Any

import numpy as np
import pytest
from engines.season.seasons import CROPS, DAY, HA, HOUR, PRICES, drives, weather

from axlewright.engines.limits import OutOfRange
from axlewright.engines.season import (
    Checks,
    Common,
    Course,
    Job,
    Ledger,
    Life,
    Recovery,
    Replacement,
    Warranty,
    Winter,
    compare,
    cost_of,
    field_clock,
    run_course,
    standard_courses,
    untroubled,
)

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


def test_no_season_knows_of_another() -> None:
    """Any part of the seasons gone through alone gives the same to the last bit: one core, many, or in parts."""
    some = slice(150, 260)

    def part(value: Any) -> Any:
        if isinstance(value, np.ndarray) and value.ndim:
            return value[some]
        if hasattr(value, "__dataclass_fields__"):
            return type(value)(**{f.name: part(getattr(value, f.name)) for f in fields(value)})
        return value

    clock = field_clock(CROPS, DAYS[some])
    for course in rows():
        whole = run_course(CLOCK, COMMON, course, WAYS)
        alone = run_course(clock, part(COMMON), part(course), WAYS)
        for one_way, other in zip(whole, alone, strict=True):
            np.testing.assert_array_equal(np.asarray(one_way.finish)[some], other.finish)
            costs = [np.asarray(cost_of(o.season, PRICES)) for o in (one_way, other)]
            np.testing.assert_array_equal(costs[0][some], costs[1])


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


def test_no_seller_pays_for_a_drive_that_he_never_had() -> None:
    quick = Life(np.full(SEASONS, 5 * HOUR), np.full(SEASONS, 10 * HOUR))
    common = replace(COMMON, used=replace(COMMON.used, life=quick), rebuilt=replace(COMMON.rebuilt, life=quick))
    pays = Warranty(40 * HOUR, chance=1.0)
    (outcome,) = run_course(CLOCK, common, standard_courses(common, ("fit a used drive",), warranty=pays)[0])
    there = np.isfinite(COMMON.used.lead)
    refunds = np.asarray(outcome.season.refunds)
    assert refunds[there].any()
    assert (np.asarray(outcome.failed)[~there] > 0).any()
    assert not refunds[~there].any()


def test_winter_puts_back_what_sits_and_shelves_what_came_off() -> None:
    hired, parked = (run_course(CLOCK, COMMON, row(n, second_rate=0.7))[0] for n in ("hire out", "park"))
    comes = np.isfinite(COMMON.hire_lead)
    first = np.isfinite(COMMON.spare.lead).astype(float)
    parts = np.where(np.asarray(COMMON.fitted.fails) <= 0, 1.3, 1.0)
    for outcome, sits in ((hired, comes), (parked, np.ones(SEASONS, bool))):
        np.testing.assert_allclose(np.asarray(outcome.season.rebuilds)[sits], parts[sits])
        np.testing.assert_allclose(np.asarray(outcome.spare)[sits], first[sits])
        np.testing.assert_array_equal(
            np.asarray(outcome.fitted.fails)[sits], np.asarray(COMMON.rebuilt.life.fails)[sits]
        )
    fitted = ~comes & np.isfinite(COMMON.used.lead) & (np.asarray(hired.failed) == 0)
    np.testing.assert_allclose(np.asarray(hired.spare)[fitted], first[fitted] + 1)
    np.testing.assert_allclose(np.asarray(hired.core)[fitted], parts[fitted])
    assert fitted.any()


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
