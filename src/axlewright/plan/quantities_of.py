"""From what was answered of a trouble to quantities and words, each with its basis and source.

A trouble's own answers go before its design's, those before its machine's, those before the yard's gear; then what the
file of machine or design says in a key of its own; last what the trade takes while nobody has answered.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from axlewright.kinds import KINDS
from axlewright.quantities import Basis, Exact, Normal, Quantity, Spread, read_spread
from axlewright.quantities.spread import NINE_IN_TEN
from axlewright.trade.questions import Question, in_group, question, questions, whose
from axlewright.yard import Answer, Stated, Trouble, Yard
from axlewright.yard.asked import WALK_ROUND, answers_of, is_asked, open_boxes, stated, words_answered

__all__ = ["WalkedRound", "missing", "quantities_of", "question", "walked_round", "whose", "words_of"]

SAID: dict[Basis, str] = {
    "book": "the machine’s own book",
    "measured": "measured",
    "computed": "reckoned by hand",
    "assumed": "typed, not said how known",
}


def quantities_of(yard: Yard, trouble: Trouble) -> Mapping[str, Quantity]:
    """Every number that is known or taken of a trouble, by the name of its question."""
    answers, kind = answers_of(yard, trouble), yard.machine(trouble.corner.machine).kind
    found = {}
    for name, asked in questions().items():
        if not asked.number:
            continue
        made = _of_answer(yard, asked, answers[name]) if name in answers else _of_file(yard, trouble, asked)
        taken = None if made else asked.taken(kind)
        if taken:
            made = Quantity(name, KINDS[asked.kind], taken.spread, "assumed", taken.source, taken.typed)
        if made:
            found[name] = made
    return found


def words_of(yard: Yard, trouble: Trouble) -> Mapping[str, str]:
    """Every answer of a trouble that is a word, and what is taken for one; what nobody answered is not there."""
    found = {name: asked.default for name, asked in questions().items() if asked.default and not asked.number}
    for name, asked in questions().items():
        if not asked.number and (said := stated(yard, trouble, asked)):
            found[name] = str(asked.read(said[0].value, yard.title.decimal))
    return {**found, **words_answered(yard, trouble)}


def missing(yard: Yard, trouble: Trouble, group: str) -> tuple[Question, ...]:
    """The questions of a group that arise, and have neither answer nor anything that is taken for one.

    Of the walk-round: its open boxes, since only what was seen for this trouble counts there.
    """
    if group == WALK_ROUND:
        return open_boxes(yard, trouble)
    words, known = words_answered(yard, trouble), {**quantities_of(yard, trouble), **words_of(yard, trouble)}
    return tuple(
        asked
        for asked in in_group(group)
        if asked.id not in known and not asked.optional and is_asked(asked, words) and asked.id != WALK_ROUND
    )


def assumed(yard: Yard, trouble: Trouble, group: str) -> tuple[Question, ...]:
    """The questions of a group for which something is taken that nobody answered: what is worth asking next."""
    words, answers = words_answered(yard, trouble), answers_of(yard, trouble)
    known = {**quantities_of(yard, trouble), **words_of(yard, trouble)}
    return tuple(
        asked
        for asked in in_group(group)
        if asked.id in known and asked.id not in answers and not stated(yard, trouble, asked) and is_asked(asked, words)
    )


@dataclass(frozen=True, slots=True)
class WalkedRound:
    """A walk-round, as far as it came.

    Attributes:
        who: who ticked the last box
        on: the day of it
        at: the time it was kept, if it was
        missing: boxes that are open still
    """

    who: str
    on: date
    at: datetime | None
    missing: tuple[Question, ...]

    @property
    def complete(self) -> bool:
        """Every box has its answer: then, and only then, table sheets become shop sheets."""
        return not self.missing


def walked_round(yard: Yard, trouble: Trouble) -> WalkedRound | None:
    """The walk-round of a trouble; None where nobody has begun one."""
    own = yard.answered(trouble=trouble.number)
    ticked = [one for name, one in own.items() if question(name).box or name == WALK_ROUND]
    if not ticked:
        return None
    last = own.get(WALK_ROUND) or max(ticked, key=lambda one: (one.on, one.at.isoformat() if one.at else ""))
    return WalkedRound(last.who, last.on, last.at, open_boxes(yard, trouble))


def _of_answer(yard: Yard, asked: Question, answer: Answer) -> Quantity:
    """An answer as a quantity; a measured one that does not say how far off it may be is as far off as its tool."""
    source = answer.source or f"{SAID[answer.basis]}, {answer.on.day} {answer.on:%b %Y}" + (
        f", {answer.who}" if answer.who else ""
    )
    spread = read_spread(answer.value, asked.kind, yard.title.decimal)
    return Quantity(
        asked.id,
        KINDS[asked.kind],
        _doubted(asked, spread, answer.basis),
        answer.basis,
        source,
        answer.value,
    )


def _of_file(yard: Yard, trouble: Trouble, asked: Question) -> Quantity | None:
    """What the file of machine or design says in a key of its own."""
    found = stated(yard, trouble, asked)
    if found is None:
        return None
    said: Stated = found[0]
    spread = read_spread(said.value, asked.kind, yard.title.decimal)
    source = said.source or f"{SAID[said.basis]}; {found[1].name}"
    return Quantity(asked.id, KINDS[asked.kind], _doubted(asked, spread, said.basis), said.basis, source, said.value)


def _doubted(asked: Question, spread: Spread, basis: Basis) -> Spread:
    if not isinstance(spread, Exact) or basis != "measured":
        return spread
    off = asked.doubt(spread.value)
    return Normal(spread.value, off / NINE_IN_TEN) if off > 0 else spread
