"""The one way an engine refuses a number: `within`, and the error it raises."""

from __future__ import annotations

from typing import Any

import numpy as np

MOST = float(np.finfo(float).max)
LEAST = -MOST


class OutOfRange(ValueError):
    """An argument lies outside what a formula holds for.

    Attributes:
        what: name of the argument
        value: the offending value (of several draws, the farthest out) [SI]
        low: least value allowed [SI]
        high: greatest value allowed [SI]
        part: share of the draws that lie outside [-]
        why: what the limit is for, in a few words
    """

    def __init__(self, what: str, value: float, low: float, high: float, part: float = 1.0, why: str = "") -> None:
        low, high = float(low), float(high)
        self.what, self.value, self.low, self.high, self.part, self.why = what, value, low, high, part, why
        if np.isinf(low) and np.isinf(high):
            span = "a number"
        elif np.isinf(high):
            span = f"at least {low:g}"
        elif np.isinf(low):
            span = f"at most {high:g}"
        else:
            span = f"{low:g} to {high:g}"
        some = "" if part >= 1 else f" in {part:.1%} of the draws"
        super().__init__(f"{what} is {value:g}{some}; it must be {span}" + (f" ({why})" if why else ""))


def within(what: str, value: Any, low: float = -np.inf, high: float = np.inf, why: str = "") -> None:
    """Raise `OutOfRange` unless every draw of `value` is a finite number in low..high, both included."""
    draws = np.asarray(value, float)
    if max(low, LEAST) <= draws.min(initial=MOST) and draws.max(initial=LEAST) <= min(high, MOST):
        return  # nearly always; nan is neither
    fits = np.isfinite(draws)
    if low > -np.inf or high < np.inf:
        fits &= (draws >= low) & (draws <= high)
    if fits.all():
        return
    bad = draws[~fits]
    with np.errstate(invalid="ignore"):  # an endless value beside an endless limit
        beyond = np.maximum(low - bad, bad - high)
    worst = float(bad[int(np.argmax(np.where(np.isfinite(bad), beyond, np.inf)))])
    endless = "a finite number" if np.isinf(worst) else ""
    raise OutOfRange(what, worst, low, high, float(1 - fits.mean()), why or endless)


def above(what: str, value: Any, least: float = 0.0, why: str = "") -> None:
    """Raise `OutOfRange` unless every draw is greater than `least` (and finite)."""
    draws = np.asarray(value, float)
    if least < draws.min(initial=MOST) and draws.max(initial=LEAST) <= MOST:
        return
    fits = (draws > least) & (draws < np.inf)
    if not fits.all():
        bad = draws[~fits]
        worst = float(bad[np.isnan(bad)][0]) if np.isnan(bad).any() else float(bad[0])
        raise OutOfRange(
            what,
            worst,
            float(np.nextafter(least, np.inf)) if least else 0.0,
            np.inf,
            float(1 - fits.mean()),
            why or f"more than {least:g}",
        )
