"""Reckoned once: what a pure function gave for the same inputs a moment ago is at hand for the sheet that asks next."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import ParamSpec, TypeVar

from axlewright.quantities import digest

P = ParamSpec("P")
R = TypeVar("R")
MOST_KEPT = 4


def once(function: Callable[P, R]) -> Callable[P, R]:
    """Keep the last few results of a function of frozen things, by the digest of what it is given."""
    kept: dict[str, R] = {}

    @wraps(function)
    def asked(*given: P.args, **named: P.kwargs) -> R:
        key = digest(given, named)
        found = kept.pop(key) if key in kept else function(*given, **named)
        kept[key] = found  # the last to go
        while len(kept) > MOST_KEPT:
            del kept[next(iter(kept))]
        return found

    return asked
