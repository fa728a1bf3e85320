"""From what was answered of a trouble to quantities and words, each with its basis and source.

A trouble's own answers go before its design's, those before its machine's, those before the yard's gear; then what the
file of machine or design says in a key of its own; last what the trade takes while nobody has answered: of a wheel by the
size that stands on its tyre.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from functools import cached_property

from axlewright.kinds import KINDS
from axlewright.plan.once import once_of
from axlewright.plan.wheel_of import of_tyre
from axlewright.quantities import Basis, Exact, Normal, Quantity, Spread, Tenths, Uniform, parse, read_spread
from axlewright.quantities.spread import NINE_IN_TEN
from axlewright.quantities.spread_text import ABOUT
from axlewright.trade import verdicts
from axlewright.trade.machines import machine_kinds
from axlewright.trade.questions import Question, in_group, question, questions, whose
from axlewright.yard import Answer, Design, Machine, Stated, Trouble, Yard
from axlewright.yard.asked import WALK_ROUND, answers_of, is_asked, open_boxes, stated, ticks, words_answered

__all__ = ["WalkedRound", "missing", "quantities_of", "question", "walked_round", "whose", "words_of"]

NEVER = 5.0  # times what a value is off nine times in ten: farther out than any draw
SAID: dict[Basis, str] = {
    "book": "the machine’s own book",
    "measured": "measured",
    "computed": "reckoned by hand",
    "assumed": "typed, not said how known",
}


@once_of
def quantities_of(yard: Yard, trouble: Trouble) -> Mapping[str, Quantity]:
    """Every number that is known or taken of a trouble, by the name of its question."""
    answers, kind = answers_of(yard, trouble), yard.machine(trouble.corner.machine).kind
    found = {}
    for name, asked in questions().items():
        if not asked.number:
            continue
        if name in answers:
            made: Quantity | None = _of_answer(yard, asked, answers[name], kind)
        else:
            made = _of_file(yard, trouble, asked, kind)
        taken = None if made else asked.taken(kind)
        if taken:
            made = Quantity(name, KINDS[asked.kind], taken.spread, "assumed", taken.source, taken.typed)
        if made:
            found[name] = made
    return {**found, **of_tyre(found, words_of(yard, trouble), answers)}


@once_of
def words_of(yard: Yard, trouble: Trouble) -> Mapping[str, str]:
    """Every answer of a trouble that is a word, and what is taken for one; what nobody answered is not there."""
    found = {name: asked.default for name, asked in questions().items() if asked.default and not asked.number}
    for name, asked in questions().items():
        if not asked.number and (said := stated(yard, trouble, asked)):
            found[name] = str(asked.read(said[0].value, yard.title.decimal))
    return {**found, **words_answered(yard, trouble)}


def judged_words(words: Mapping[str, str], line: str) -> Mapping[str, str]:
    """The answers that a line of verdicts is judged by; nothing that is only taken for one stands among them."""
    return {name: said for name, said in words.items() if name in verdicts.questions() and verdicts.questions()[name].line == line}  # fmt: skip


@dataclass(frozen=True)
class Known:
    """What is known and what is taken of a trouble, looked up once for all groups of questions."""

    yard: Yard
    trouble: Trouble

    @cached_property
    def words(self) -> Mapping[str, str]:
        return words_answered(self.yard, self.trouble)

    @cached_property
    def answers(self) -> Mapping[str, Answer]:
        return answers_of(self.yard, self.trouble)

    @cached_property
    def taken(self) -> frozenset[str]:
        """Names of all that is answered, or taken while nobody has answered."""
        return frozenset(quantities_of(self.yard, self.trouble)) | frozenset(words_of(self.yard, self.trouble))

    def missing(self, group: str) -> tuple[Question, ...]:
        """The questions of a group that arise, and have neither answer nor anything that is taken for one.

        Of the walk-round: its open boxes, since only what was seen for this trouble counts there.
        """
        if group == WALK_ROUND:
            return open_boxes(self.yard, self.trouble)
        return tuple(
            asked
            for asked in in_group(group)
            if asked.id not in self.taken
            and not asked.optional
            and is_asked(asked, self.words)
            and asked.id != WALK_ROUND
        )

    def assumed(self, group: str) -> tuple[Question, ...]:
        """The questions of a group for which something is taken that nobody answered: what is worth asking next."""
        return tuple(
            asked
            for asked in in_group(group)
            if asked.id in self.taken
            and asked.id not in self.answers
            and not stated(self.yard, self.trouble, asked)
            and is_asked(asked, self.words)
        )


def missing(yard: Yard, trouble: Trouble, group: str) -> tuple[Question, ...]:
    """As `Known.missing`."""
    return Known(yard, trouble).missing(group)


def assumed(yard: Yard, trouble: Trouble, group: str) -> tuple[Question, ...]:
    """As `Known.assumed`."""
    return Known(yard, trouble).assumed(group)


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
    ticked = [one for name, one in own.items() if ticks(one) and (question(name).box or name == WALK_ROUND)]
    if not ticked:
        return None
    last = own.get(WALK_ROUND) or max(ticked, key=lambda one: (one.on, one.at.isoformat() if one.at else ""))
    return WalkedRound(last.who, last.on, last.at, open_boxes(yard, trouble))


def source_of(said: Answer | Stated, thing: Machine | Design | None = None) -> str:
    """Where a value comes from, in words: as somebody said, else how it is known, and when and by whom, or in whose file."""
    if said.source:
        return said.source
    if isinstance(said, Answer):
        return f"{SAID[said.basis]}, {said.on.day} {said.on:%b %Y}" + (f", {said.who}" if said.who else "")
    return f"{SAID[said.basis]}; {thing.name}" if thing else SAID[said.basis]


def _of_answer(yard: Yard, asked: Question, answer: Answer, kind: str | None) -> Quantity:
    """An answer as a quantity."""
    spread = read_spread(answer.value, asked.kind, yard.title.decimal)
    return Quantity(
        asked.id,
        KINDS[asked.kind],
        _doubted(asked, spread, answer.basis, kind),
        answer.basis,
        source_of(answer),
        answer.value,
    )


def _of_file(yard: Yard, trouble: Trouble, asked: Question, kind: str | None) -> Quantity | None:
    """What the file of machine or design says in a key of its own."""
    found = stated(yard, trouble, asked)
    if found is None:
        return None
    said: Stated = found[0]
    spread = read_spread(said.value, asked.kind, yard.title.decimal)
    source = said.source or f"{SAID[said.basis]}; {found[1].name}"
    return Quantity(
        asked.id, KINDS[asked.kind], _doubted(asked, spread, said.basis, kind), said.basis, source, said.value
    )


def _doubted(asked: Question, spread: Spread, basis: Basis, kind_of_machine: str | None) -> Spread:
    """A value that was typed without saying how far off it may be.

    A measured one is as far off as its tool. A guess is never exact: it is as doubtful as the trade's own guess of such
    a machine, or a tenth. What stands on a plate or in a book is taken as it stands, and so is a count.
    """
    if not isinstance(spread, Exact) or not asked.give or basis in ("book", "computed"):
        return spread
    value, off = spread.value, asked.doubt(spread.value)
    if basis == "assumed":
        row = machine_kinds().get(kind_of_machine or "")
        by_kind = getattr(row, asked.kind_of_machine) if row and asked.kind_of_machine else None
        if by_kind and by_kind[0] < by_kind[2]:
            low, middle, high = by_kind
            return Tenths(value * low / middle, value, value * high / middle)
        off = max(off, ABOUT * abs(value))
    return _either_way(asked, value, off)


def _either_way(asked: Question, value: float, off: float) -> Spread:
    """A value and how far off it may be, nine times in ten; never past the least that there can be, as under no wind."""
    least = -math.inf if asked.between is None else parse(asked.between[0], asked.kind).si
    if off <= 0 or value <= least:
        return Exact(value)
    if least >= 0 and value - NEVER * off < least:
        return Uniform(max(least, value - off), value + off)
    return Normal(value, off / NINE_IN_TEN)
