"""What takes longer than a page may: begun in the background, kept for as long as the yard's picture is the same.

Verdicts never wait for money: a page shows what is there, says what is being made out, and asks again by itself.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from concurrent.futures import Future, ThreadPoolExecutor
from datetime import date
from threading import Lock
from typing import Any, Generic, TypeVar

from axlewright.plan.choice_made import Choice
from axlewright.plan.choice_of import is_chosen
from axlewright.plan.drawn_up import chosen
from axlewright.yard import Trouble, Yard

V = TypeVar("V")
MOST = 32
PATIENCE = 0.05  # s that a page waits: what is kept already is there by then
AGAIN = 1  # s after which a page that waits asks again


class Kept(Generic[V]):
    """The last few things made of a yard, each by the yard's picture itself, which is frozen, and a key."""

    def __init__(self, most: int = MOST) -> None:
        self.most, self.lock = most, Lock()
        self.kept: dict[tuple[int, Hashable], tuple[Yard, V]] = {}

    def get(self, yard: Yard, key: Hashable, make: Callable[[], V]) -> V:
        """What was made before under this key, else made now. The picture is kept beside, so that its place stands for it."""
        place = (id(yard), key)
        with self.lock:
            found = self.kept.get(place)
        if found is None:
            found = (yard, make())
            with self.lock:
                found = self.kept.setdefault(place, found)
                while len(self.kept) > self.most:
                    del self.kept[next(iter(self.kept))]
        return found[1]


_POOL = ThreadPoolExecutor(max_workers=1, thread_name_prefix="choice")
_BEGUN: Kept[Future[Any]] = Kept()


def begin(yard: Yard, trouble: Trouble, today: date) -> Future[Any]:
    """Begin to make the choice of a trouble out; begun once for one picture of the yard."""
    return _BEGUN.get(yard, (trouble.number, today), lambda: _POOL.submit(chosen, yard, trouble, today))


def choice_soon(yard: Yard, trouble: Trouble, today: date, patience: float = PATIENCE) -> tuple[Choice | None, bool]:
    """The choice of a trouble, and whether it is still being made out; none where there is none, or none can be made."""
    if not is_chosen(yard, trouble, today):
        return None, False
    try:
        found = begin(yard, trouble, today).result(patience)
    except TimeoutError:
        return None, True
    return (found if isinstance(found, Choice) else None), False
