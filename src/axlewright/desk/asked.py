"""What is asked of a trouble: every question, what is known or taken for it, how it is known, and what is missing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from axlewright.plan.quantities_of import Known, quantities_of, source_of, words_of
from axlewright.quantities import Exact, Quantity, Uniform, write_spread
from axlewright.trade.questions import Question, questions
from axlewright.yard import Trouble, Yard
from axlewright.yard.asked import WALK_ROUND, answers_of, is_asked, stated, words_answered

PIECES = ("gear", "parts")  # a hundred of them: listed once somebody spoke of one
TENTHS = (0.1, 0.5, 0.9)


@dataclass(frozen=True, slots=True)
class Asked:
    """A question as it stands at a trouble."""

    question: Question
    value: str
    basis: str
    source: str
    missing: bool


def asked_of(yard: Yard, trouble: Trouble) -> tuple[Asked, ...]:
    """Every question that arises at a trouble."""
    numbers, words, said = quantities_of(yard, trouble), words_of(yard, trouble), answers_of(yard, trouble)
    typed = words_answered(yard, trouble)
    groups = {one.group for one in questions().values()} | {"support", "lift"}
    looked_up = Known(yard, trouble)
    wanted = {one.id for group in groups - {WALK_ROUND} for one in looked_up.missing(group)}
    found = []
    for name, one in questions().items():
        if not is_asked(one, typed) or name == WALK_ROUND or (one.group in PIECES and name not in said):
            continue
        number, answer, filed = numbers.get(name), said.get(name), stated(yard, trouble, one)
        basis = number.basis if number else answer.basis if answer else filed[0].basis if filed else "assumed"
        source = (
            number.source if number else source_of(answer) if answer else source_of(*filed) if filed else one.source
        )
        value = (number.typed or _taken(number)) if number else words.get(name, "")
        known = value != ""
        found.append(Asked(one, value, basis if known else "", source if known else "", name in wanted))
    return tuple(found)


def _taken(number: Quantity) -> str:
    """A number that nobody typed, as text: between its tenths."""
    low, middle, high = (float(number.spread.at(u)) for u in TENTHS)
    return write_spread(Uniform(low, high) if low < high else Exact(middle), number.kind, digits=4)


def as_data(yard: Yard, trouble: Trouble) -> dict[str, Any]:
    rows = [
        {
            "name": one.question.id,
            "of": one.question.of,
            "asks": one.question.asks,
            "help": one.question.help,
            "answers": list(one.question.words()),
            "example": one.question.example,
            "value": one.value or None,
            "basis": one.basis or None,
            "source": one.source or None,
            "missing": one.missing,
        }
        for one in asked_of(yard, trouble)
    ]
    return {"trouble": trouble.number, "corner": str(trouble.corner), "questions": rows}
