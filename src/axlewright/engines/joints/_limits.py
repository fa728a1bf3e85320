"""Limits between two arguments, draw by draw."""

from __future__ import annotations

from typing import Any

import numpy as np

from axlewright.engines.limits import OutOfRange


def not_below(what: str, value: Any, least: Any, why: str = "") -> None:
    """Raise `OutOfRange` unless each draw of `value` is at least its own `least`."""
    draws, low = np.broadcast_arrays(np.asarray(value, float), np.asarray(least, float))
    fits = draws >= low
    if not fits.all():
        worst = int(np.argmax(np.where(fits, -np.inf, np.where(np.isnan(draws), np.inf, low - draws))))
        raise OutOfRange(what, float(draws.flat[worst]), float(low.flat[worst]), np.inf, float(1 - fits.mean()), why)


def not_above(what: str, value: Any, most: Any, why: str = "") -> None:
    """Raise `OutOfRange` unless each draw of `value` is at most its own `most`."""
    draws, high = np.broadcast_arrays(np.asarray(value, float), np.asarray(most, float))
    fits = draws <= high
    if not fits.all():
        worst = int(np.argmax(np.where(fits, -np.inf, np.where(np.isnan(draws), np.inf, draws - high))))
        raise OutOfRange(what, float(draws.flat[worst]), -np.inf, float(high.flat[worst]), float(1 - fits.mean()), why)
