"""The forecast of a drive, lives for decisions, and what each finding does."""

from __future__ import annotations

import math
import random
import time
from functools import cache
from typing import Any

import numpy as np

from axlewright.engines.forecast import (
    Lives,
    Sojourn,
    forecast,
    fresh_lives,
    trajectories,
    used_lives,
    what_speaks,
)
from axlewright.quantities.draws import sobol
from benchmarks.clock import Bench, median_ms

HOUR = 3600.0
ROWS = np.array([[0.8, 0.4, 0.1, 0.05], [0.03, 0.2, 0.35, 0.3], [0.1, 0.4, 0.4, 0.2]])  # invented
AGO = np.array([700.0, 90.0, 0.0]) * HOUR
MANY, MANY_AGO = np.vstack([ROWS, ROWS, ROWS[:1]]), np.arange(7, 0, -1) * 60 * HOUR
SIX, NINE, TWELVE = (np.linspace(0, 600, n) * HOUR for n in (6, 9, 12))
NOW, ONE = 4200 * HOUR, np.ones(1)


def of(sound: Any, wearing: Any, failing: Any) -> Lives:
    """Laws of invented drives, medians in hours."""
    return Lives(
        Sojourn("weibull", sound * HOUR, 1.8),
        Sojourn("lognormal", wearing * HOUR, 0.8, 0.15, 1 / 40),
        Sojourn("lognormal", failing * HOUR, 0.85),
        0.35,
    )


@cache
def designs() -> Lives:
    between = sobol(1, "designs", 16, 3) - 0.5
    return of(*(median * np.exp(1.5 * between[:, n]) for n, median in enumerate((4800.0, 800.0, 110.0))))


def one() -> Lives:
    return of(4800.0, 800.0, 110.0)


def both(count: int = 2048) -> float:
    """Chances and lives of one drive, its design not known."""
    shares = sobol(1, "lives", count, 6)

    def do() -> None:
        forecast(designs(), NOW, MANY_AGO, MANY, NINE)
        trajectories(designs(), NOW, MANY_AGO, MANY, shares, ONE)

    return median_ms(do)


def lives(count: int) -> float:
    shares = sobol(1, "lives", count, 6)
    return median_ms(lambda: trajectories(one(), NOW, MANY_AGO, MANY, shares, ONE), runs=5)


def fleet(count: int = 300) -> float:
    """Seconds for 10,000 drives, 7 findings and 12 times each."""
    ages = np.linspace(800, 9000, count) * HOUR
    start = time.perf_counter()
    for age in ages:
        forecast(one(), age, MANY_AGO, MANY, TWELVE)
    return (time.perf_counter() - start) / count * 10_000


def over_plain_python(count: int = 200_000) -> float:
    """New lives a second in NumPy, over those of plain Python."""
    luck, laws = random.Random(1), one()
    start = time.perf_counter()
    for _ in range(20_000):
        factor = math.exp(luck.gauss(0, 0.35))
        wears = luck.weibullvariate(4800 / math.log(2) ** (1 / 1.8), 1.8)
        fails = wears + luck.lognormvariate(math.log(800), 0.8)
        _ = factor * (fails + luck.lognormvariate(math.log(110), 0.85))
    plain = 20_000 / (time.perf_counter() - start)
    plain_laws = Lives(laws.sound, Sojourn("lognormal", 800 * HOUR, 0.8), laws.failing, 0.35)
    shares = np.random.default_rng(1).random((count, 4))
    return count / (median_ms(lambda: fresh_lives(plain_laws, shares), runs=5) / 1e3) / plain


def benches() -> list[Bench]:
    ages = np.linspace(500, 6000, 8) * HOUR
    return [
        Bench("forecast of one drive, 3 findings, 6 times", lambda: median_ms(lambda: forecast(one(), NOW, AGO, ROWS, SIX)), "ms", 20),
        Bench("16 designs, 7 findings, 9 times, and 2,048 lives", both, "ms", 100),
        Bench("what each of 7 findings does", lambda: median_ms(lambda: what_speaks(one(), NOW, MANY_AGO, MANY, 100 * HOUR)), "ms", 50),
        Bench("2,048 used drives of 8 ages", lambda: median_ms(lambda: used_lives(one(), ages, 0.15, sobol(1, "used", 2048, 7))), "ms", 50),
        Bench("10,000 drives, 7 findings, 12 times", fleet, "s", 60),
        Bench("2,000 lives of one drive", lambda: lives(2_000)),
        Bench("20,000", lambda: lives(20_000)),
        Bench("200,000", lambda: lives(200_000)),
        Bench("new lives, times those of plain Python", over_plain_python, "x"),
    ]  # fmt: skip
