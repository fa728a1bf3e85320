"""The class of drives that a choice begins from: a few designs that a drive may be of, and how far apart such designs are."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from axlewright.engines.forecast import Lives, Sojourn, medians_to_failing
from axlewright.kinds import Array
from axlewright.quantities.draws import sobol
from axlewright.trade.choice import class_of_drives

DESIGNS = 16  # designs that it may be of, one as likely as the other before anything was seen
NODES = 5  # of how designs differ in sound, and as many in wearing
MOST_KEPT = 32


@lru_cache(MOST_KEPT)
def class_lives(seed: int, designs: int = DESIGNS) -> Lives:
    """The laws of the class, a design a draw; nothing but the middle where one design is asked."""
    factor = np.ones(3)  # of each median, as designs differ
    if designs > 1:
        shares = sobol(seed, "condition/designs", designs, 4)[:, :3]
        factor = np.exp(np.array(class_of_drives().between) * normal(shares)).T
    lives = _lives(factor)
    for one in (lives.sound, lives.wearing, lives.failing):
        if isinstance(one.median, np.ndarray):
            one.median.setflags(write=False)
    return lives


def _lives(factor: Array) -> Lives:
    """The laws of the class, each median times its factor."""
    row = class_of_drives()
    return Lives(
        Sojourn("weibull", row.sound[0] * factor[0], row.sound[1]),
        Sojourn(
            "lognormal", row.wearing[0] * factor[1], row.wearing[1], row.wearing[2], row.wearing[3] / row.wearing[0]
        ),
        Sojourn("lognormal", row.failing[0] * factor[2], row.failing[1]),
        row.unit_spread,
    )


def normal(u: Array) -> Array:
    from scipy.special import ndtri  # slow to import

    return np.asarray(ndtri(np.clip(u, 1e-12, 1 - 1e-12)))


@lru_cache(MOST_KEPT)
def class_medians(seed: int, designs: int = DESIGNS) -> Array:
    """Time by which half of the drives of each design have begun to fail [s]."""
    medians = np.asarray(medians_to_failing(class_lives(seed, designs)))
    medians.setflags(write=False)
    return medians


@lru_cache(1)
def between_designs() -> tuple[float, float]:
    """Middle of the designs' medians to the first spall [s], and standard deviation of their logarithm.

    Of all designs that the class's own rows allow, by Gauss-Hermite: not of the few that were drawn, so that it is the same
    for every trouble.
    """
    at, weight = np.polynomial.hermite_e.hermegauss(NODES)
    sound, wearing = (one.ravel() for one in np.meshgrid(at, at))
    each = np.outer(weight, weight).ravel() / weight.sum() ** 2
    between = class_of_drives().between
    logs = np.log(medians_to_failing(_lives(np.exp([between[0] * sound, between[1] * wearing, 0.0 * sound]))))
    middle = float(each @ logs)
    return float(np.exp(middle)), float(np.sqrt(each @ np.square(logs - middle)))
