"""A simulated fleet: the forecast is calibrated, and the proof has teeth, as it fails where a fault is planted.

Leaving out the drive's own factor passes every count by hours and fails the shape of the whole law; findings counted for
half pass both and fail among those that are told the worst. So several measures stand side by side.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

import numpy as np
import pytest
from engines.forecast.drives import HOUR, a_class
from scipy.stats import kstest

from axlewright.engines.forecast import Lives, forecast, fresh_lives

PLUG = np.array([[0.75, 0.2, 0.04, 0.01], [0.35, 0.45, 0.15, 0.05], [0.08, 0.3, 0.37, 0.25]])  # invented
AGO = np.array([0.0, 0.03, 0.1, 0.25, 0.5])  # of its hours
HORIZONS = np.array([150.0, 400.0]) * HOUR


@dataclass(frozen=True)
class Seen:
    now: float
    left: float
    grades: Any


@cache
def fleet() -> list[Seen]:
    """Drives of the class that still carry, each looked at five times."""
    rng = np.random.default_rng(12)
    true = fresh_lives(a_class(0.5), rng.random((2600, 4)))
    now = rng.uniform(1000, 9000, 2600) * HOUR
    seen = []
    for n in np.flatnonzero(true.lets_go > now):
        at = now[n] * (1 - AGO)
        condition = (at >= true.wears[n]).astype(int) + (at >= true.fails[n])
        grades = [int(rng.choice(4, p=PLUG[c])) for c in condition]
        left = min(float(true.lets_go[n] - now[n]), 40_000 * HOUR)  # beyond, the class does not speak of it
        seen.append(Seen(float(now[n]), left, grades))
    return seen


Forecaster = Callable[[Seen], Any]  # chances of letting go by the horizons, and by the hour at which it did


def told(lives: Lives, times: int | float = 1, carries: bool = True) -> Forecaster:
    def by(one: Seen) -> Any:
        rows = PLUG.T[one.grades] ** times
        likelihood = np.column_stack([rows, rows[:, 2]])
        chance = forecast(lives, one.now, one.now * AGO, likelihood, [*HORIZONS, one.left], carries, 5, 2.4).chance
        return chance[:, 3]

    return by


def proof(forecaster: Forecaster) -> tuple[float, float]:
    """Chance of such a spread of marks if the law were right, and how many standard errors counts are off."""
    chances = np.array([forecaster(one) for one in fleet()])
    happened = np.array([one.left <= HORIZONS for one in fleet()], float)
    by = chances[:, :2]
    worst = by[:, 1] >= np.quantile(by[:, 1], 0.9)  # the tenth that is told the worst
    off = [
        (happened - by)[some].sum(axis=0) / np.sqrt((by * (1 - by))[some].sum(axis=0))
        for some in (np.ones(len(by), bool), worst, ~worst)
    ]
    return float(kstest(chances[:, 2], "uniform").pvalue), float(np.abs(off).max())


def test_the_forecast_is_calibrated() -> None:
    chance, z = proof(told(a_class(0.5)))
    assert chance > 1e-3
    assert z < 3


def shorter(lives: Lives, by: float) -> Lives:
    parts = (lives.sound, lives.wearing, lives.failing)
    return Lives(*(replace(s, median=by * np.asarray(s.median)) for s in parts), lives.unit_spread)


FAULTS = {
    "the drive's own factor left out": told(a_class(0.0)),
    "stays a quarter short": told(shorter(a_class(0.5), 0.75)),
    "that it carries forgotten": told(a_class(0.5), carries=False),
    "every finding counted twice": told(a_class(0.5), times=2),
    "findings counted for half": told(a_class(0.5), times=0.4),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_planted_fault_is_found(fault: str) -> None:
    chance, z = proof(FAULTS[fault])
    assert chance < 1e-3 or z > 3
