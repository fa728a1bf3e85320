"""What must be changed over, or looked at, before a drive sits right at a corner."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from axlewright.trade.change_over import Over, When, change_over
from axlewright.yard import Answer, Corner, Drive, Yard


@dataclass(frozen=True, slots=True)
class ToSee:
    """One thing to change over or to look at.

    Attributes:
        words: what
        asks: a question of its kind that nobody answered, on which it hangs; empty where it is known
        source: where it is from
    """

    words: str
    asks: str
    source: str


def came_from(yard: Yard, drive: Drive) -> Corner | None:
    """The corner that a drive sat at last; None where it never sat at one of this yard's."""
    return next((stay.sits for stay in reversed(yard.lives[drive.id]) if isinstance(stay.sits, Corner)), None)


def side(corner: Corner) -> str:
    """Left or right."""
    return corner.place.rpartition("-")[2]


def to_see(yard: Yard, drive: Drive, to: Corner) -> tuple[ToSee, ...]:
    """What is changed over or looked at when a drive goes to a corner, in the order of work.

    What its kind does not need is left out; what hangs on a question that nobody answered is said, with the question.
    """
    before = came_from(yard, drive)
    when: set[When] = {"always"}
    if before is None:
        when.add("from-outside")
    elif side(before) != side(to):
        when.add("other-side")
    answers = yard.answered(design=drive.design) if drive.design else {}
    found = [one for one in change_over() if when & set(one.when)]
    return tuple(ToSee(one.words, asks, one.source) for one in found if (asks := _asks(one, answers)) is not None)


def _asks(one: Over, answers: Mapping[str, Answer]) -> str | None:
    """The question that is open; empty where none is; None where the answer rules it out."""
    open_ = ""
    for name, wanted in one.given.items():
        answer = answers.get(name)
        if answer is None:
            open_ = name
        elif answer.value not in wanted:
            return None
    return open_
