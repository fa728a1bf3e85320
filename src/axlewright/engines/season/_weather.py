"""Weather of all drawn seasons, day by day."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.limits import OutOfRange, within
from axlewright.kinds import Array, Share

BLOCK = 8192  # seasons at once: they stay near the processor


def drawn_days(shares: Share, share: Share, memory: Share, today: Share = -1.0) -> NDArray[np.bool_]:
    """Which days of each drawn season are workable.

    Args:
        shares: shares of 0 to 1: seasons on the first axis, days on the last [-]
        share: share of workable days, one for all or one a season (`year_shares`) [-]
        memory: by how much a workable day makes the next one likelier [-]
        today: whether it is workable today, the day before the first: 1 or 0; -1: not known [-]

    Returns:
        whether each day is workable, seasons on the first axis [-]

    Source: two-state chain; a day is workable where its share is below its chance.
    Valid: memory 0 or more: then a higher share of workable days never makes a day worse on the same draws.
    """
    luck = np.asarray(shares)
    within("shares", luck, 0.0, 1.0)
    within("share", share, 0.0, 1.0)
    within("memory", memory, 0.0, 1.0)
    within("today", today, -1.0, 1.0)
    if luck.ndim != 2 or not luck.size:
        raise OutOfRange("shares", luck.ndim, 2, 2, why="seasons, then days, one of each at least")
    s, r, known = (np.broadcast_to(np.asarray(v, float), len(luck)) for v in (share, memory, today))
    days = np.empty(luck.shape, bool)
    for at in range(0, len(luck), BLOCK):
        part = slice(at, at + BLOCK)
        days[part] = _days(luck[part], s[part], r[part], known[part]).T
    return days


def _days(luck: Array, s: Array, r: Array, known: Array) -> NDArray[np.bool_]:
    """One column a day, each in one piece of memory."""
    bad_good, good_good = s * (1 - r), s + r * (1 - s)
    columns = np.ascontiguousarray(luck.T)
    good, kept = columns < bad_good, columns < good_good
    days = np.empty(columns.shape, bool)
    days[0] = state = columns[0] < np.where(known < 0, s, np.where(known > 0.5, good_good, bad_good))
    for day in range(1, len(columns)):
        days[day] = state = good[day] | (kept[day] & state)
    return days
