"""Reckoned once: what was made a moment ago, from the same inputs or of the same picture of a yard, is at hand."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import wraps
from threading import Lock
from typing import Generic, ParamSpec, TypeVar

from axlewright.quantities import digest
from axlewright.yard import Trouble, Yard

P = ParamSpec("P")
R = TypeVar("R")
V = TypeVar("V")
MOST_KEPT = 4
MOST_TOLD = 16


class Kept(Generic[V]):
    """The last few things that were made, each under its key; what was asked for last is the last to go.

    Several may ask at once. What two make at one time is kept once.
    """

    def __init__(self, most: int = MOST_KEPT) -> None:
        self.most, self.lock = most, Lock()
        self.kept: dict[Hashable, V] = {}

    def get(self, key: Hashable, make: Callable[[], V]) -> V:
        """What was made before under this key, else made now."""
        with self.lock:
            if key in self.kept:
                self.kept[key] = self.kept.pop(key)
                return self.kept[key]
        made = make()
        with self.lock:
            found = self.kept.setdefault(key, made)
            while len(self.kept) > self.most:
                del self.kept[next(iter(self.kept))]
        return found


class KeptOfYard(Generic[V]):
    """The last few things that were made of a yard, each by the yard's picture itself, which is frozen, and a key.

    The picture is kept beside, so that its place stands for it and for nothing else.
    """

    def __init__(self, most: int = MOST_KEPT) -> None:
        self.kept: Kept[tuple[Yard, V]] = Kept(most)

    def get(self, yard: Yard, key: Hashable, make: Callable[[], V]) -> V:
        """What was made before of this picture under this key, else made now."""
        return self.kept.get((id(yard), key), lambda: (yard, make()))[1]


def once_of(function: Callable[[Yard, Trouble], R]) -> Callable[[Yard, Trouble], R]:
    """Keep what was told of the last few troubles, each by the yard's picture and by which corner and drive it is about."""
    kept: KeptOfYard[R] = KeptOfYard(MOST_TOLD)

    @wraps(function)
    def told(yard: Yard, trouble: Trouble) -> R:
        return kept.get(yard, (trouble.number, trouble.corner, trouble.drive), lambda: function(yard, trouble))

    return told


def once(function: Callable[P, R]) -> Callable[P, R]:
    """Keep the last few results of a function of frozen things, by the digest of what it is given."""
    kept: Kept[R] = Kept()

    @wraps(function)
    def asked(*given: P.args, **named: P.kwargs) -> R:
        return kept.get(digest(given, named), lambda: function(*given, **named))

    return asked
