"""What is asked of a trouble, as lines to read."""

from __future__ import annotations

from collections.abc import Iterable

from axlewright.desk.asked import Asked, as_data, asked_of
from axlewright.trade.questions import WHOSE

NAME, VALUE, BASIS = 26, 26, 9  # letters of the first columns

__all__ = ["as_data", "asked_of", "listed"]


def listed(asked: Iterable[Asked]) -> Iterable[str]:
    """A line for each, under whose they are."""
    asked = tuple(asked)
    for whose in WHOSE:
        yield {"trouble": "Of this trouble", "machine": "\nOf the machine", "design": "\nOf the drive’s design", "yard": "\nOf the yard’s gear"}[whose]  # fmt: skip
        for one in asked:
            if one.question.of == whose:
                told = one.value or ("missing" if one.missing else "-")
                yield f"  {one.question.id:{NAME}} {told:{VALUE}} {one.basis:{BASIS}} {one.question.asks}"
