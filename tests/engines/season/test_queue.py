"""Which crop is cut first: against every order there is, and what everybody knows."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest
from engines.season.seasons import DAY, HA, HOUR, weather

from axlewright.engines.limits import OutOfRange
from axlewright.engines.season import Crop, best_queue, field_clock

DAYS = weather(np.random.default_rng(21), 40, 60)


def lost(crops: tuple[Crop, ...], worths: tuple[float, ...], order: tuple[int, ...]) -> float:
    clock = field_clock(tuple(crops[k] for k in order), DAYS)
    areas = (np.asarray(clock.delayed) + np.asarray(clock.standing)).mean(axis=0)
    return float(areas @ np.array([worths[k] for k in order]))


@pytest.mark.parametrize("seed", range(8))
def test_the_queue_is_nearly_always_the_best_of_all_orders(seed: int) -> None:
    rng = np.random.default_rng(seed)
    crops = tuple(
        Crop(
            rng.uniform(20, 80) * HA, rng.uniform(1, 3) * HA / HOUR, rng.uniform(0, 15) * DAY,
            rng.uniform(0.002, 0.02) / DAY, rng.uniform(0, 5) * DAY, rng.uniform(8, 30) * DAY,
        )
        for _ in range(4)
    )  # fmt: skip
    worths = tuple(rng.uniform(0.06, 0.2, 4))
    found = best_queue(crops, worths, DAYS)
    every = [lost(crops, worths, order) for order in permutations(range(4))]
    assert lost(crops, worths, found) <= min(every) * 1.02
    assert lost(crops, worths, found) < np.mean(every)


def test_of_two_ripe_ones_the_one_that_spoils_goes_first() -> None:
    slow = Crop(40 * HA, 2 * HA / HOUR, loss=0.001 / DAY)
    quick = Crop(40 * HA, 2 * HA / HOUR, loss=0.02 / DAY)
    assert best_queue((slow, quick), (0.1, 0.1), DAYS) == (1, 0)
    assert best_queue((quick, slow), (0.1, 0.1), DAYS) == (0, 1)
    assert best_queue((slow, quick), (0.1, 0.0001), DAYS) == (0, 1)
    with pytest.raises(OutOfRange, match="worths"):
        best_queue((slow, quick), (0.1,), DAYS)
