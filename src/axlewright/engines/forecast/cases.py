"""What cases teach a table of findings, and what weighted draws are worth (D2)."""

from __future__ import annotations

from typing import Any

import numpy as np

from axlewright.engines.forecast._condition import Shares
from axlewright.engines.forecast._evidence import Numbers
from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import Array, Share


def learned_row(row: Shares, worth: Share, counts: Numbers) -> Shares:
    """A row of a table of findings, after cases whose condition was proved.

    Args:
        row: chance of each grade under one condition, before [-]
        worth: how many cases the row is worth [-]
        counts: cases of each grade found under that condition [1]

    Returns:
        chance of each grade, after [-]

    Source: posterior mean of a Dirichlet, (worth row + counts)/(worth + cases).
    Valid: proved cases only (cover off, let go, or sound 500 h after the look); a nought stays a nought where nothing came.
    Try: row="0.45; 0.40; 0.12; 0.03" worth=8 counts="3; 5; 2; 0"

    >>> learned_row(np.array([0.5, 0.5]), 8.0, [2, 0]).tolist()
    [0.6, 0.4]
    """
    before, found = np.asarray(row, float), np.asarray(counts, float)
    within("row", before, 0.0, 1.0)
    within("counts", found, 0.0)
    above("worth", worth)
    _as_many("counts", found, before)
    each = np.asarray(worth, float)[..., None]
    total: Any = each + found.sum(axis=-1, keepdims=True)
    return np.asarray((each * before + found) / total)


def effective_share(weights: Shares, shares: Shares) -> Share:
    """How many draws of equal weight weighted draws are worth, as a share of their number.

    Args:
        weights: weight of each draw, or of each class of draws [-]
        shares: share of the draws in each class [-]

    Returns:
        share; under 0.1 no number made with these weights is shown [-]

    Source: (sum p w)^2 / sum p w^2, Kish.
    Valid: weights not all 0.
    Try: weights="1; 0.01" shares="0.02; 0.98"

    >>> round(float(effective_share(np.array([1.0, 0.01]), np.array([0.02, 0.98]))), 4)
    0.0442
    """
    given, part = np.asarray(weights, float), np.asarray(shares, float)
    within("weights", given, 0.0)
    within("shares", part, 0.0)
    _as_many("shares", part, given)
    total = (part * given).sum(axis=-1)
    above("weights", total, why="not all of them 0")
    return np.asarray(total**2 / ((part * given**2).sum(axis=-1) * part.sum(axis=-1)))[()]


def _as_many(what: str, one: Array, other: Array) -> None:
    """Raise `OutOfRange` unless there are as many of one as of the other."""
    many, wanted = (float(np.shape(numbers)[-1]) if np.ndim(numbers) else 1.0 for numbers in (one, other))
    if many != wanted:
        raise OutOfRange(what, many, wanted, wanted, why="so many")
