"""The rules of answers: the question is there, it is asked of such a thing, and the answer can be read and believed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from axlewright.quantities import NotRead
from axlewright.trade.questions import Question, Whose, questions
from axlewright.yard.faults import closest
from axlewright.yard.picture import Yard
from axlewright.yard.records import Answer, Record

Bad = Iterator[tuple[Record, str, str, str]]
"""Record, key, what is wrong, what is right."""


def whose(answer: Answer) -> Whose:
    """Whose an answer is."""
    if answer.trouble is not None:
        return "trouble"
    return "machine" if answer.machine else "design" if answer.design else "yard"


def bad_answers(yard: Yard) -> Bad:
    """Every mistake of the answers of a yard."""
    known = questions()
    things: tuple[tuple[Literal["trouble", "machine", "design"], set[object]], ...] = (
        ("trouble", {t.number for t in yard.troubles}),
        ("machine", {m.id for m in yard.machines}),
        ("design", {d.id for d in yard.designs}),
    )
    for answer in yard.answers:
        if sum(one is not None for one in answer.about) > 1:
            yield answer, "", "It is of a trouble, a machine or a design: of one of them.", "Take the others away."
        for key, there in things:
            named = getattr(answer, key)
            if named is not None and named not in there:
                yield answer, key, f"There is no {key} {named}.", closest(named, map(str, there))
        if answer.name not in known:
            yield answer, "name", f"There is no question {answer.name}.", closest(answer.name, known)
        else:
            yield from _read(answer, known[answer.name], yard)
    yield from _two_at_once(yard)


def _read(answer: Answer, asked: Question, yard: Yard) -> Bad:
    if whose(answer) not in ("trouble", asked.of):
        right = f"It is asked of {THE[asked.of]}, or of one trouble alone."
        yield answer, "name", f"{answer.name} is not asked of {THE[whose(answer)]}.", right
    try:
        asked.read(answer.value, yard.title.decimal)
    except NotRead as bad:
        said = str(bad)
        right = "" if bad.choices else f'Write value = "{asked.example}".'
        yield answer, "value", said, right


THE: dict[Whose, str] = {
    "trouble": "a trouble",
    "machine": "a machine",
    "design": "a design",
    "yard": "the yard’s gear",
}


def _two_at_once(yard: Yard) -> Bad:
    """Two answers of one day, neither with a time, that say different things: nobody knows which is the newer."""
    last: dict[tuple[object, ...], Answer] = {}
    for answer in yard.answers:
        if answer.at is not None:
            continue
        other = last.setdefault((answer.about, answer.name, answer.on), answer)
        if other.value != answer.value:
            yield (
                answer,
                "value",
                f"{answer.name} is {other.value} and {answer.value} on {answer.on}.",
                "Keep one of the two, or write at = with the time.",
            )
