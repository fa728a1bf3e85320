"""Finishes, last starts and orders, dates to decide by, hours between checks, offers: second methods and laws."""

from __future__ import annotations

import itertools
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq, minimize_scalar

from axlewright.engines.limits import OutOfRange
from axlewright.engines.season import best_order, decide_by, finish, interval, latest, money, work
from axlewright.engines.season.offer import most_worth

HOUR, DAY = 3600.0, 86400.0


# --- networks ---


def a_network(rng: np.random.Generator, tasks: int = 7) -> tuple[finish.Activity, ...]:
    return tuple(
        finish.Activity(f"t{i}", rng.lognormal(1, 0.5, 40), " ".join(f"t{j}" for j in range(i) if rng.random() < 0.4))
        for i in range(tasks)
    )


def longest_chains(tasks: tuple[finish.Activity, ...]) -> np.ndarray:
    """Every chain of tasks there is, added up."""
    after = {t.name: t.after.split() for t in tasks}
    takes = {t.name: np.asarray(t.takes) for t in tasks}

    def chains(name: str) -> list[np.ndarray]:
        return [takes[name] + c for before in after[name] for c in chains(before)] or [takes[name]]

    return np.max([c for t in tasks for c in chains(t.name)], axis=0)


@pytest.mark.parametrize("seed", range(6))
def test_a_network_is_done_with_its_longest_chain(seed: int) -> None:
    tasks = a_network(np.random.default_rng(seed))
    path = finish.network_finish(tasks)
    np.testing.assert_allclose(path.finish, longest_chains(tasks))
    assert (path.slack >= -1e-9).all()
    for number, task in enumerate(tasks):  # a task longer by its slack in each draw moves no end; by more it does
        longer = [t if t is not task else finish.Activity(t.name, np.asarray(t.takes) + 1e-3, t.after) for t in tasks]
        moved = np.asarray(finish.network_finish(tuple(longer)).finish) > np.asarray(path.finish) + 1e-9
        assert moved.mean() == pytest.approx(path.critical_share[number], abs=0.06)


def test_networks_that_cannot_be_are_refused() -> None:
    a = finish.Activity("a", 1.0)
    for bad in ((), (a, a), (finish.Activity("b", 1.0, "a"), a), (finish.Activity("a", -1.0),)):
        with pytest.raises(OutOfRange, match="tasks"):
            finish.network_finish(bad)


@settings(max_examples=30, deadline=None)
@given(st.floats(5, 15), st.floats(0.5, 4), st.floats(5, 15), st.floats(0.5, 4), st.floats(-0.8, 0.8))
def test_the_later_of_two_is_that_of_draws(m: float, s: float, n: float, t: float, r: float) -> None:
    z = np.random.default_rng(1).standard_normal((2, 200_000))
    later = np.maximum(m + s * z[0], n + t * (r * z[0] + (1 - r * r) ** 0.5 * z[1]))
    found = finish.later_of_two(m, s, n, t, r)
    assert float(found.mean) == pytest.approx(later.mean(), abs=0.05)
    assert float(found.deviation) == pytest.approx(later.std(), abs=0.05)


def test_the_best_order_is_that_of_all_orders() -> None:
    lasts = {"a": 3.0, "b": 2.0, "c": 4.0, "d": 1.0, "e": 2.0}
    after = {"c": ["a"], "d": ["b"], "e": ["b"]}

    def late(order: Any) -> float:
        """One pair of hands; each task must be done by its own time: the sum of how late they are."""
        due, time, total = {"a": 9.0, "b": 2.0, "c": 12.0, "d": 3.0, "e": 6.0}, 0.0, 0.0
        for task in order:
            time += lasts[task]
            total += max(time - due[task], 0.0)
        return total

    fitting = [
        o for o in itertools.permutations(lasts) if all(o.index(b) < o.index(t) for t, bs in after.items() for b in bs)
    ]
    found = best_order(tuple(lasts), after, late, np.random.default_rng(2).random((120, 5)))
    assert found in fitting
    assert late(found) == min(map(late, fitting)) < late(tuple(lasts))
    with pytest.raises(OutOfRange):
        best_order(("a", "b"), {"a": ["b"], "b": ["a"]}, late, np.zeros((1, 2)))


# --- shop hours ---

WEEK = tuple(finish.Open((24 * d + 8) * HOUR, (24 * d + 16) * HOUR) for d in range(5))


def minute_by_minute(start: float, work_needed: float) -> float:
    time, left = start, work_needed
    while True:
        of_week = time % (7 * DAY)
        if any(o.begins <= of_week < o.ends for o in WEEK):
            left -= 60.0
            if left <= 1e-6:
                return time + 60.0
        time += 60.0


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10 * 24 * 60), st.integers(1, 60 * 60))
def test_shop_hours_are_those_of_a_clock(start: int, minutes: int) -> None:
    found = float(finish.done_in_shop(start * 60.0, minutes * 60.0, WEEK))
    assert found == pytest.approx(minute_by_minute(start * 60.0, minutes * 60.0), abs=1e-3)


def test_shop_hours_over_draws_and_weeks() -> None:
    starts, lasts = np.array([0.0, 3 * DAY, 9 * DAY]), np.array([3.0, 50.0, 100.0]) * HOUR
    many = finish.done_in_shop(starts, lasts, WEEK)
    alone = [float(finish.done_in_shop(s, w, WEEK)) for s, w in zip(starts, lasts, strict=True)]
    np.testing.assert_allclose(many, alone)
    for bad in ((), (finish.Open(5.0, 4.0),), (finish.Open(0.0, 9 * DAY),), WEEK[::-1]):
        with pytest.raises(OutOfRange, match="week"):
            finish.done_in_shop(0.0, HOUR, bad)


# --- dates ---


def test_without_arrivals_the_last_start_is_the_day_less_a_quantile() -> None:
    takes = np.random.default_rng(3).lognormal(1.5, 0.5, 4000) * DAY
    need = 30 * DAY
    grid = np.arange(0, 30, 0.01) * DAY
    found = latest(grid, grid[None, :] + takes[:, None], need, 0.9)
    assert found == pytest.approx(need - float(finish.time_needed(takes, 0.9)), abs=0.02 * DAY)
    assert finish.chance_in_time(takes, need - found) == pytest.approx(0.9, abs=0.01)
    assert latest(grid, grid[None, :] + takes[:, None], 0.0) == -np.inf


def test_surer_is_earlier_and_a_later_need_is_later() -> None:
    takes = np.random.default_rng(4).lognormal(1.5, 0.5, 500) * DAY
    grid = np.arange(30) * DAY
    done = grid[None, :] + takes[:, None]
    by_chance = [latest(grid, done, 28 * DAY, q) for q in (0.5, 0.7, 0.9, 0.99)]
    assert by_chance == sorted(by_chance, reverse=True)
    by_need = [latest(grid, done, need * DAY) for need in (10, 15, 20, 28)]
    assert by_need == sorted(by_need)
    drawn = latest(grid, done, np.full(500, 20 * DAY))
    assert drawn == latest(grid, done, 20 * DAY)


def test_the_date_to_decide_by_is_when_the_best_left_is_lost() -> None:
    means, dates = [5000.0, 4000.0, 4600.0, 3000.0], np.array([9.0, 4.0, 7.0, np.inf]) * DAY
    found = decide_by(means, dates)
    assert (found.date, found.course, found.loss) == (np.inf, -1, 0.0)
    barred = decide_by(means, dates, (True, True, True, False))
    assert (barred.date, barred.course, barred.loss) == (4 * DAY, 1, 600.0)
    np.testing.assert_allclose(barred.losses, [0, 600, 0, 0])
    # the third is as good as the second: nothing is lost until it goes too, and then there is none left
    dropped = decide_by([5000.0, 4000.0, 4000.0], np.array([1.0, 2.0, 3.0]) * DAY)
    assert (dropped.date, dropped.course, dropped.loss) == (3 * DAY, 2, np.inf), (
        "the second is as good: nothing lost on day two but"
    )


def test_how_sure_it_pays_to_be_is_the_least_of_what_both_cost() -> None:
    mean, spread, late, early = 9.0, 3.0, 1500.0, 100.0
    z = np.random.default_rng(5).standard_normal(100_000)

    def cost(before: float) -> float:
        over = mean + spread * z - before
        return float(np.mean(np.where(over > 0, late * over, -early * over)))

    best = minimize_scalar(cost, bounds=(5, 25), method="bounded").x
    assert float(finish.time_before(mean, spread, finish.how_sure(late, early))) == pytest.approx(best, abs=0.15)
    assert float(finish.chance_before(mean, spread, best)) == pytest.approx(0.9375, abs=0.01)


# --- hours between checks ---


@pytest.mark.parametrize(("every", "power", "never"), [(25.0, 1.0, 0.0), (25.0, 0.7, 0.0), (60.0, 0.4, 0.2)])
def test_share_unseen_is_that_of_drives_gone_through_one_by_one(every: float, power: float, never: float) -> None:
    rng = np.random.default_rng(6)
    fails, lasts = rng.random(400_000) * every, rng.exponential(90.0, 400_000)
    missed = np.where(rng.random(400_000) < never, 10**6, rng.geometric(power, 400_000) - 1)
    found = every * (1 + missed) < fails + lasts
    share = float(interval.share_unseen(every, 90.0, power, never))
    assert share == pytest.approx(1 - found.mean(), abs=4 * (0.25 / 400_000) ** 0.5)


@settings(max_examples=30, deadline=None)
@given(st.floats(50, 5000), st.floats(20, 300), st.floats(0.2, 1), st.floats(1.2, 5), st.floats(0.001, 0.1))
def test_the_best_interval_is_that_of_a_search(
    sound: float, failing: float, power: float, ratio: float, check: float
) -> None:
    given_costs = 1 / sound, failing, power, ratio * 1000.0, 1000.0, check * 1000.0
    best = interval.best_interval(*given_costs)
    found = minimize_scalar(
        lambda x: float(interval.check_cost(np.exp(x), *given_costs)), bounds=(np.log(0.01), np.log(1e6)), method="bounded",
        options={"xatol": 1e-9},
    )  # fmt: skip
    assert float(best.cost) <= found.fun * (1 + 1e-9)
    if np.isfinite(best.interval):
        assert float(best.cost) == pytest.approx(found.fun, rel=1e-6)


def test_checks_that_cost_more_than_they_save_are_none() -> None:
    best = interval.best_interval(1 / 600, 90.0, 0.7, 9000.0, 8990.0, 35.0)
    assert (best.interval, best.cost) == (np.inf, pytest.approx(15.0))
    with pytest.raises(OutOfRange, match="let_go"):
        interval.best_interval(1 / 600, 90.0, 0.7, 4000.0, 4500.0, 35.0)


def test_chance_to_last_is_that_of_drives_gone_through_one_by_one() -> None:
    rng = np.random.default_rng(8)
    alive = np.ones(200_000, bool)
    for _ in range(4):  # put right after each perfect check
        sound, failing = rng.exponential(500, 200_000), rng.exponential(90, 200_000)
        alive &= sound + failing > 75
    assert float(interval.chance_to_last(75.0, 500.0, 90.0, 3.0)) == pytest.approx(alive.mean(), abs=0.004)
    same, near = (float(interval.chance_to_last(75.0, 90.0, f, 0.0)) for f in (90.0, 90.0001))
    assert same == pytest.approx(near, rel=1e-5)


# --- money ---


def test_the_most_an_offer_is_worth_is_a_root() -> None:
    other, without, refunded, part = 11450.0, 6200.0, 0.09, 0.6
    root = brentq(lambda price: without + price * (1 - refunded * part) - other, 0, 1e5)
    assert float(most_worth(other, without, refunded, part).price) == pytest.approx(root)


def test_a_sure_cost_is_worse_than_the_mean_and_nears_it_as_risk_is_borne() -> None:
    costs, weights = np.random.default_rng(9).lognormal(8, 1, 500), np.ones(500)
    mean = costs.mean()
    found = [float(money.certainty_equivalent(costs, weights, r)) for r in (2e3, 1e4, 1e5, 1e9)]
    assert found == sorted(found, reverse=True)
    assert min(found) >= mean - 1e-6
    assert found[-1] == pytest.approx(mean, rel=1e-4)
    assert float(money.certainty_equivalent(costs + 700, weights, 1e4)) == pytest.approx(found[1] + 700)
    assert np.isfinite(money.certainty_equivalent(costs * 1e6, weights, 1.0))
    small = float(money.certainty_equivalent(costs / 1e3, weights, 1e4))
    assert small == pytest.approx(mean / 1e3 + (costs / 1e3).var() / 2e4, rel=1e-6)


def test_refunds_and_spares_are_those_of_drawn_lives() -> None:
    lives = -np.log1p(-(np.arange(400_000) + 0.5) / 400_000) / 0.12  # years, evenly spread over their law
    assert float(money.expected_refund(0.12, 3.0)) == pytest.approx((lives < 3).mean(), abs=1e-5)
    pro_rata = np.maximum(1 - lives / 3, 0).mean()
    assert float(money.expected_refund_pro_rata(0.12, 3.0)) == pytest.approx(pro_rata, abs=1e-5)
    saved = np.where(lives < 5, np.exp(-0.06 * lives) * 9000, 0).mean()
    assert float(money.spare_protection(0.12, 0.06, 5.0, 9000.0)) == pytest.approx(saved, rel=1e-4)
    kept = (lives >= 5).mean() * np.exp(-0.3) * 3000
    assert float(money.spare_resale(0.12, 0.06, 5.0, 3000.0)) == pytest.approx(kept, rel=1e-4)


def test_at_the_break_even_chance_both_cost_the_same() -> None:
    chance = money.break_even_chance(150.0, 2400.0, 14500.0, 0.03)
    run = money.cost_with_failure(150.0, chance, 14500.0)
    assert float(run) == pytest.approx(float(money.cost_with_failure(2400.0, 0.03, 14500.0)))
    price = money.flip_price(3900.0, 31.2, 7100.0, 4.5)
    assert 3900 + 31.2 * price == pytest.approx(7100 + 4.5 * price)
    with pytest.raises(OutOfRange):
        money.flip_price(1.0, 3.0, 2.0, 3.0)


# --- waiting ---


def test_what_waiting_costs_is_the_integral_of_its_rate() -> None:
    loss, grace, doubling, late = 0.005 / DAY, 4 * DAY, 12 * DAY, 25 * DAY
    time = np.linspace(grace, late, 200_001)
    rate = loss * (1 + (time - grace) / doubling)
    assert float(work.share_lost_by_waiting(late, loss, grace, doubling)) == pytest.approx(
        np.trapezoid(rate, time), rel=1e-6
    )
    assert float(work.share_lost_by_waiting(900 * DAY, loss, grace, doubling)) == pytest.approx(0.6)
    assert not work.share_lost_by_waiting(-5 * DAY, loss)


def test_the_short_rule_is_the_sum_over_hectares() -> None:
    area, worth, pace, working = 200e4, 0.132, 3e4 / HOUR, 0.7 * 8 / 24
    waits = (np.arange(20_000) + 0.5) / 20_000 * area / (pace * working)
    one_by_one = (0.005 / DAY * waits).mean() * worth * area
    assert float(work.area_delay_loss(0.005 / DAY, area, worth, pace, working)) == pytest.approx(one_by_one)


def test_heavy_crop_slows_down_until_the_throughput_is_reached() -> None:
    speed = work.speed_in_crop(2.0, 6.0, 6.0, np.array([0.3, 0.9, 2.0]), 0.7)
    np.testing.assert_allclose(
        work.throughput(work.field_capacity(6.0, speed, 0.7), np.array([0.3, 0.9, 2.0]))[1:], 6.0
    )
    assert float(np.asarray(speed)[0]) == pytest.approx(2.0)
