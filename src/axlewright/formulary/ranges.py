"""What a function allows of each number, by its own answer to what is no number.

Every engine refuses nan by name and says the limits it holds to; so nobody writes them down a second time.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from axlewright.engines.limits import OutOfRange
from axlewright.formulary.call import given_by
from axlewright.formulary.examples import texts_to_try
from axlewright.formulary.read import Formula

MOST = 1e300  # beyond it a limit is of the machine's numbers, not of the formula
NUDGE = 1.001  # another argument moved by this: a limit that moves with it is none of this argument alone


@dataclass(frozen=True, slots=True)
class Range:
    """Least and greatest value allowed [SI]; none where there is no such limit."""

    low: float | None = None
    high: float | None = None
    above: bool = False  # the least value itself is not allowed


@cache
def ranges(found: Formula) -> dict[str, Range]:
    """The limits of a function's numbers by argument; those that hang on other arguments are left out."""
    texts = texts_to_try(found)
    if not texts:
        return {}
    given = given_by(found, texts)
    allowed = {}
    for slot in found.takes:
        if slot.form != "quantity" or slot.kind.name == "yes-no" or slot.many:
            continue
        here = _asked(found, given, slot.name)
        there = _asked(found, _nudged(given), slot.name)
        if here is None or there is None:
            continue
        above = here[2]
        ends = zip(here[:2], there[:2], (-1.0, 1.0), strict=True)
        low, high = (
            a if a == b and _refused(found, given, slot.name, a, side, above and side < 0) else None
            for a, b, side in ends
        )
        if low is not None or high is not None:
            allowed[slot.name] = Range(low, high, low is not None and above)
    return allowed


def _nudged(given: dict[str, Any]) -> dict[str, Any]:
    return {name: value * NUDGE if isinstance(value, float) else value for name, value in given.items()}


def _refused(found: Formula, given: dict[str, Any], name: str, end: float, side: float, itself: bool) -> bool:
    """Whether a value just beyond an end is refused as well: a function may take what is no number for another fault."""
    if abs(end) > MOST:
        return False
    beyond = end if itself else end + side * max(abs(end) * 1e-6, 1e-9)
    return _asked(found, given, name, beyond) is not None


def _asked(
    found: Formula, given: dict[str, Any], name: str, value: float = math.nan
) -> tuple[float, float, bool] | None:
    """The limits that the function names when this argument is no number, or another value."""
    try:
        with np.errstate(all="ignore"):
            found.function(**{**given, name: value})
    except OutOfRange as bad:
        return (bad.low, bad.high, "more than" in bad.why) if bad.what == name else None
    except (ValueError, TypeError, ArithmeticError):
        return None
    return None
