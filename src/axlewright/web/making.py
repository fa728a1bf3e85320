"""What takes longer than a page may: begun in the background, kept for as long as the yard's picture is the same.

Verdicts never wait for money: a page shows what is there, says what is being made out, and asks again by itself.
"""

from __future__ import annotations

from concurrent.futures import Future, ThreadPoolExecutor
from datetime import date
from typing import Any

from axlewright.plan.choice_made import Choice
from axlewright.plan.choice_of import is_chosen
from axlewright.plan.drawn_up import chosen
from axlewright.plan.once import KeptOfYard
from axlewright.yard import Trouble, Yard

MOST = 32
PATIENCE = 0.05  # s that a page waits: what is kept already is there by then
AGAIN = 1  # s after which a page that waits asks again


_POOL = ThreadPoolExecutor(max_workers=1, thread_name_prefix="choice")
_BEGUN: KeptOfYard[Future[Any]] = KeptOfYard(MOST)


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
