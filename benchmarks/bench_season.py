"""Season: courses through 2,048 trajectories with five seasons each, prices moved, looks, more draws."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from axlewright.engines.season import (
    Checks,
    Common,
    Crop,
    FieldClock,
    Job,
    Jobs,
    Life,
    Look,
    Prices,
    Recovery,
    Replacement,
    by_trajectory,
    compare,
    drawn_days,
    field_clock,
    run_course,
    standard_courses,
    untroubled,
    worth_of_looks,
)
from benchmarks.clock import Bench, median_ms

COUNT, SEASONS, DAYS = 2048, 5, 80
HOUR, DAY, HA = 3600.0, 86400.0, 1e4
NAMES = (
    "run", "run with checks", "reseal", "fit a spare", "fit a used drive", "fit a rebuilt exchange", "rebuild now",
    "hire out",
)  # fmt: skip
WAYS = (Recovery(), Recovery("used", 3 * DAY, quoted=True), Recovery("used", 0.0))
PRICES = Prices(
    tow=700, labour=70 / HOUR, winter_labour=30 / HOUR, used=3300, exchange=8000, deposit=1600, seal_kit=170,
    rebuild=1500, extra_parts=650, damage=13000, hire=105 / HA, hire_call=350, check=0, hold=0,
    crop=np.array([1150 / HA]),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Drawn:
    common: Common
    shares: np.ndarray
    states: np.ndarray


def drawn(count: int) -> Drawn:
    rng = np.random.default_rng(1)

    def each(values: np.ndarray) -> np.ndarray:
        return np.repeat(values, SEASONS)

    def about(middle: float, spread: float = 0.5) -> np.ndarray:
        return each(middle * np.exp(spread * rng.standard_normal(count)))

    def fresh() -> Life:
        fails = about(3000) * HOUR
        return Life(fails, fails + about(90, 0.9) * HOUR)

    def replacement(days: float) -> Replacement:
        return Replacement(about(days) * DAY, fresh(), fresh())

    def job(days: float, hours: float) -> Job:
        return Job(about(days, 0.3) * DAY, about(hours, 0.3) * HOUR)

    states = rng.choice(3, count, p=[0.3, 0.5, 0.2])
    fails = each(np.select([states == 2], [0.0], 900 * rng.random(count))) * HOUR
    fitted = Life(fails, fails + about(90, 0.9) * HOUR)
    luck = {name: each(rng.random(count)) for name in ("seen", "honoured")}
    common = Common(
        fitted=fitted, resealed=fitted, spare=replacement(0.2), used=replacement(5), exchange=replacement(8),
        rebuilt=replacement(8), jobs=Jobs(job(1, 25), job(2, 30), job(0.7, 12), job(4, 26)),
        hire_lead=about(5) * DAY, kit_lead=about(2) * DAY, road=about(0.06), damage=about(0.3),
        unsafe_field=0.005, unsafe_road=0.1, **luck,
    )  # fmt: skip
    return Drawn(common, rng.random((count * SEASONS, DAYS)), states)


def run(given: Drawn) -> tuple[Any, FieldClock]:
    days = drawn_days(given.shares, 0.62, 0.2)
    clock = field_clock((Crop(115 * HA, 1.7 * HA / HOUR, 0.0, 0.006 / DAY, 3 * DAY, 14 * DAY),), days * (8 * HOUR))
    rows = standard_courses(given.common, NAMES, Checks(25 * HOUR, 0.7))
    return tuple(run_course(clock, given.common, row, WAYS) for row in rows), clock


def all_of_it(given: Drawn) -> Any:
    outcomes, clock = run(given)
    return compare(outcomes, PRICES, untroubled(clock), replicates=SEASONS)


def courses() -> float:
    given = drawn(COUNT)
    return median_ms(lambda: all_of_it(given), runs=9)


def prices() -> float:
    outcomes, clock = run(drawn(COUNT))
    free = untroubled(clock)
    return median_ms(lambda: compare(outcomes, PRICES, free, replicates=SEASONS))


def looks() -> float:
    given = drawn(COUNT)
    choice = all_of_it(given)
    plug = np.array([[0.9, 0.09, 0.01], [0.55, 0.38, 0.07], [0.1, 0.35, 0.55]])
    twelve = tuple(Look(f"look {n}", plug) for n in range(12))
    return median_ms(lambda: worth_of_looks(by_trajectory(choice.costs, SEASONS), given.states, twelve, pairs=True))


def ten_times() -> float:
    few, many = drawn(COUNT), drawn(10 * COUNT)
    return median_ms(lambda: all_of_it(many), runs=3, warm=1) / median_ms(lambda: all_of_it(few), runs=9)


def benches() -> list[Bench]:
    return [
        Bench("season: 8 courses, 3 recoveries, 2,048 x 5 seasons", courses, bound=120),
        Bench("season: the same courses at another price", prices, bound=30),
        Bench("season: 12 looks and their 66 pairs", looks, bound=20),
        Bench("season: ten times the draws, by the time of one", ten_times, unit="x"),
    ]
