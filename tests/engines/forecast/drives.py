"""A class of drives to try, and two other ways to forecast it: weighted draws from the class, and a chain of exponentials."""

from __future__ import annotations

from typing import Any

import numpy as np
from scipy.linalg import expm

from axlewright.engines.forecast import Lives, Sojourn, fresh_lives

HOUR = 3600.0
NONE: list[float] = []
NO_ROWS = np.empty((0, 4))
FLAKES = np.array([0.03, 0.2, 0.35, 0.3])
CLEAN = np.array([0.8, 0.4, 0.1, 0.05])


def a_class(unit_spread: float = 0.35, short_share: float = 0.0) -> Lives:
    """Invented: sound 4,800 h, wearing 800 h, failing 110 h."""
    wearing = Sojourn("lognormal", 800 * HOUR, 0.8, short_share, 25 / 800)
    return Lives(Sojourn("weibull", 4800 * HOUR, 1.8), wearing, Sojourn("lognormal", 110 * HOUR, 0.85), unit_spread)


def exponential(*means_h: float) -> Lives:
    """Exponential stays: a Weibull of shape 1, whose median is ln 2 times its mean."""
    sound, wearing, failing = (Sojourn("weibull", mean * HOUR * np.log(2), 1.0) for mean in means_h)
    return Lives(sound, wearing, failing, 0.0)


class Drawn:
    """Lives drawn from the class, weighted by what was seen: importance sampling, the independent test."""

    def __init__(self, lives: Lives, now_h: float, ago_h: Any, rows: Any, count: int = 400_000, seed: int = 7) -> None:
        self.lives = fresh_lives(lives, np.random.default_rng(seed).random((count, 4)))
        self.now = now_h * HOUR
        self.weight = np.ones(count)
        for ago, row in zip(ago_h, rows, strict=True):
            self.weight *= np.asarray(row)[self.condition_at(self.now - ago * HOUR)]
        self.evidence = float(self.weight.mean())
        self.weight[self.lives.lets_go <= self.now] = 0.0
        self.carrying = float(self.weight.mean())

    def condition_at(self, time: float) -> Any:
        one = self.lives
        return (time >= one.wears).astype(int) + (time >= one.fails) + (time >= one.lets_go)

    def mean(self, of: Any) -> tuple[float, float]:
        """Mean of something over the weighted draws, and its standard error."""
        values = np.asarray(of, float)
        middle = float(self.weight @ values / self.weight.sum())
        error = np.sqrt(float(self.weight**2 @ (values - middle) ** 2)) / float(self.weight.sum())
        return middle, float(error)

    def chances(self, ahead_h: float) -> tuple[Any, Any]:
        condition = self.condition_at(self.now + ahead_h * HOUR)
        both = [self.mean(condition == c) for c in range(4)]
        return np.array([m for m, _ in both]), np.array([e for _, e in both])


def filtered(means_h: Any, now_h: float, ago_h: Any, rows: Any, ahead_h: float) -> tuple[Any, float]:
    """Chances by the matrix exponential of a chain of exponential stays, and the logarithm of the evidence."""
    q = np.zeros((4, 4))
    for c, mean in enumerate(means_h):
        q[c, c], q[c, c + 1] = -1 / mean, 1 / mean
    at, chance, log = 0.0, np.array([1.0, 0, 0, 0]), 0.0
    for hour, row in sorted(((now_h - ago, tuple(row)) for ago, row in zip(ago_h, rows, strict=True))):
        chance = chance @ expm(q * (hour - at)) * np.array(row)
        log += np.log(chance.sum())
        chance, at = chance / chance.sum(), hour
    chance = chance @ expm(q * (now_h - at))
    return chance @ expm(q * ahead_h), float(log)
