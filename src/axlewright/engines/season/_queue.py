"""Two crops and one machine: which is cut first."""

from __future__ import annotations

import numpy as np

from axlewright.engines.limits import OutOfRange, within
from axlewright.engines.season._clock import DAY, Crop, field_clock
from axlewright.kinds import AreaPrice, Duration

ENOUGH = 400  # seasons that settle an order


def best_queue(
    crops: tuple[Crop, ...], worths: tuple[AreaPrice, ...], workable: Duration, day: Duration = DAY
) -> tuple[int, ...]:
    """The order in which crops are best cut, as numbers of those given: one for all seasons.

    Args:
        crops: the crops, one number each
        worths: what each is worth [money/m^2]
        workable: field time of each calendar day: seasons on the first axis, days on the last [s]
        day: a calendar day [s]

    Returns:
        numbers of the crops

    Source: the one that loses most in an hour of the machine first (loss x worth x rate, of those ripe first); then
        neighbours are changed about while that saves crop (docs/engines/season.md).
    Valid: each crop is finished before the next is begun.
    """
    if len(worths) != len(crops):
        raise OutOfRange("worths", len(worths), len(crops), len(crops), why="one a crop")
    for worth in worths:
        within("worths", worth, 0.0)
    days = np.atleast_2d(np.asarray(workable, float))[:ENOUGH]

    def lost(order: list[int]) -> float:
        clock = field_clock(tuple(crops[k] for k in order), days, day)
        areas = np.asarray(clock.delayed) + np.asarray(clock.standing)
        return float((areas.mean(axis=0) * [float(np.mean(worths[k])) for k in order]).sum())

    def urgent(k: int) -> tuple[float, float]:
        crop = crops[k]
        return float(np.mean(crop.ready)), -float(np.mean(np.asarray(crop.loss) * worths[k] * crop.rate))

    order = sorted(range(len(crops)), key=urgent)
    least = lost(order)
    tried_all = False
    while not tried_all:
        tried_all = True
        for place in range(len(order) - 1):
            other = [*order]
            other[place], other[place + 1] = order[place + 1], order[place]
            if (less := lost(other)) < least * (1 - 1e-9):
                order, least, tried_all = other, less, False
    return tuple(order)
