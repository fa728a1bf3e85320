"""Questions: every value that an engine, a sheet or a verdict may ask for, of whom, and what to take while nobody has answered."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Literal, get_args

from pydantic import ConfigDict, Field, model_validator

from axlewright.kinds import KINDS
from axlewright.quantities import (
    Basis,
    Discrete,
    Exact,
    LogNormal,
    Normal,
    NotRead,
    Pert,
    Spread,
    Tenths,
    Triangular,
    Uniform,
    Unit,
    parse,
    read_spread,
    spell,
)
from axlewright.quantities.choices import CHOICES
from axlewright.quantities.spread import NINE_IN_TEN
from axlewright.quantities.units import units_of
from axlewright.trade import irons, lubricants, tightening, verdicts
from axlewright.trade.answer_texts import ALL, HERE, MISSING, NONE, READERS, one_of
from axlewright.trade.machines import machine_kinds
from axlewright.trade.rows import Row, rows, table
from axlewright.trade.slings import handlings, stretches
from axlewright.trade.soils import soils
from axlewright.trade.supports import frictions
from axlewright.trade.timber import species, strength_classes
from axlewright.trade.tyres import ballasts

Whose = Literal["trouble", "machine", "design", "yard"]
WHOSE: tuple[Whose, ...] = get_args(Whose)
Decimal = Literal[".", ","]
MOST_GUESSES = 2


@dataclass(frozen=True, slots=True)
class Default:
    """What is taken while nobody has answered. Its basis is always *assumed*."""

    spread: Spread
    source: str
    typed: str = ""


__all__ = ["ALL", "HERE", "MISSING", "NONE", "Question", "in_group", "question", "questions", "reach", "whose"]


class Question(Row):
    """One question. `source` is that of its default, and of what is believed.

    Attributes:
        id: a path; what comes before the stroke is its group
        asks: the question, one short sentence
        help: how to find out, one sentence
        example: an answer
        of: whose it is; any answer may also be given for one trouble alone
        groups: other groups that it belongs to
        kind: of a number
        choices: of a word
        rows: the words are rows of another table, by any name that people give them
        reads: the text is read by one of `READERS`
        between: what is believed; an answer outside is asked again
        give: how far off a measured answer is that did not say so, nine times in ten
        basis: how an answer is known, where nobody says
        default: a spread, or a word, while nobody has answered
        kind_of_machine: the default is this field of the machine's kind
        field: the answer may stand as this key in the file of its thing
        given: asked only where one of these was answered
        box: ticked at the walk-round
        optional: nothing is missing where nobody answered
    """

    id: str
    asks: str = Field(max_length=80)
    help: str = Field(max_length=160)
    example: str
    of: Whose
    groups: tuple[str, ...] = ()
    kind: str = ""
    choices: tuple[str, ...] = ()
    rows: str = ""
    reads: str = ""
    between: tuple[str, str] | None = None
    give: str = ""
    basis: Basis = "measured"
    default: str = ""
    kind_of_machine: str = ""
    field: str = ""
    given: Mapping[str, tuple[str, ...]] = {}
    box: bool = False
    optional: bool = False

    @model_validator(mode="after")
    def _stands(self) -> Question:
        if sum(map(bool, (self.kind, self.choices, self.rows, self.reads))) != 1:
            raise ValueError("a question takes a kind, choices, rows or reads: one of them")
        if (self.kind and self.kind not in KINDS) or (self.rows and self.rows not in ROWS) or (self.reads and self.reads not in READERS):  # fmt: skip
            raise ValueError(f"there is no {self.kind or self.rows or self.reads}")
        if not self.kind and (self.between or self.give or self.kind_of_machine):
            raise ValueError("only a number has a range, a doubt or a default by kind of machine")
        if self.give and self.between is None:
            raise ValueError("what is measured has a range")
        for text in filter(None, (self.example, self.default)):
            self.read(text)
        if self.give:
            self.doubt(1.0)
        return self

    @property
    def group(self) -> str:
        """What comes before the stroke; nothing for one that stands alone."""
        return self.id.rpartition("/")[0]

    @property
    def number(self) -> bool:
        return bool(self.kind)

    def belongs(self, group: str) -> bool:
        return group in (self.group, *self.groups)

    @property
    def _a_slope(self) -> bool:
        return self.kind == "angle" and self.between is not None and self.between[0].endswith("%")

    def words(self) -> tuple[str, ...]:
        """What may be answered; nothing where it is a number, or free."""
        return self.choices or (tuple(ROWS[self.rows]()) if self.rows else ())

    def read(self, text: str, decimal: Decimal = ".") -> Spread | str:
        """An answer as typed: a spread, or a word as the trade spells it.

        Raises:
            NotRead: it is none, or one that nobody believes; says what to type
        """
        if self.kind:
            try:
                spread = read_spread(text, self.kind, decimal)
            except NotRead as no:
                if not no.no_unit or not self._a_slope:
                    raise
                both = (
                    f"{text.strip()} %",
                    f"{text.strip()} °",
                )  # a slope is read in either, and the two are far apart
                raise NotRead(text, no.expected, both, no.hint) from no
            self._believe(text, spread, decimal)
            return spread
        if self.choices:
            return one_of(text, {word: (word,) for word in self.choices})
        return one_of(text, ROWS[self.rows]()) if self.rows else READERS[self.reads](text)

    def doubt(self, value: float) -> float:
        """How far off a measured answer is that did not say so, nine times in ten [SI]; nothing where none is known."""
        if not self.give:
            return 0.0
        if self.give.endswith("%") and self.kind not in ("share", "angle"):
            return abs(value) * float(self.give.rstrip("% ")) / 100
        return float(parse(self.give, self.kind).si)

    def taken(self, kind_of_machine: str | None) -> Default | None:
        """What a number is taken as while nobody has answered, on such a machine."""
        row = machine_kinds().get(kind_of_machine or "")
        by_kind = getattr(row, self.kind_of_machine) if row and self.kind_of_machine else None
        if row and by_kind:
            low, middle, high = by_kind
            return Default(Tenths(low, middle, high) if low < high else Exact(middle), row.source)
        if not self.kind or not self.default:
            return None
        return Default(read_spread(self.default, self.kind), self.source, self.default)

    def _believe(self, text: str, spread: Spread, decimal: Decimal) -> None:
        if self.between is None:
            return
        low, high = (parse(end, self.kind).si for end in self.between)
        hair = 1e-9 * max(abs(low), abs(high))
        if all(low - hair <= end <= high + hair for end in reach(spread)):
            return
        wanted = f"an answer to “{self.asks}”, from {self.between[0]} to {self.between[1]}"
        hint = "it is not believed as it stands"
        raise NotRead(text, wanted, self._meant(text, low, high, decimal), hint)

    def _meant(self, text: str, low: float, high: float, decimal: Decimal) -> tuple[str, ...]:
        """The same number in another unit, where that is believed."""
        try:
            typed = parse(text, self.kind, decimal)
        except NotRead:
            return ()
        number = typed.unit.from_si(typed.si)
        fits = [u for u in _usual(self.kind) if u != typed.unit and low <= u.to_si(number) <= high]
        return tuple(spell(u.to_si(number), u) for u in fits[:MOST_GUESSES])


def reach(spread: Spread) -> tuple[float, float]:
    """From where to where a typed spread goes, an open one nine times in ten. Without a library: every yard is read by it."""
    match spread:
        case Exact(value):
            return value, value
        case Normal(mean, sd):
            return mean - NINE_IN_TEN * sd, mean + NINE_IN_TEN * sd
        case LogNormal(median, log_sd):
            return median * math.exp(-NINE_IN_TEN * log_sd), median * math.exp(NINE_IN_TEN * log_sd)
        case Uniform(low, high) | Triangular(low, _, high) | Pert(low, _, high):
            return low, high
        case Discrete(values, _):
            return values[0], values[-1]
        case _:
            return spread.ends()


@cache
def _usual(kind: str) -> tuple[Unit, ...]:
    """The units of a kind that sheets show and people write: what a slip would be in."""
    shown = [c for m in CHOICES.get(kind, {}).values() for c in (m.usual, *(symbol for _, symbol in m.by_size))]
    return tuple(u for u in units_of(kind) if u.symbol in shown or u.sloped)


Names = Mapping[str, tuple[str, ...]]
ROWS: dict[str, Callable[[], Names]] = {
    "greases": lambda: {row.id: (row.label, *row.also) for row in lubricants.conditions().values()},
    "irons": lambda: {row.id: (row.label, *row.also) for row in irons.irons().values()},
    "locks": lambda: {row.id: (row.label,) for row in tightening.locks().values()},
    "soils": lambda: {row.id: (row.label,) for row in soils().values()},
    "woods": lambda: {row.id: (row.label, *row.also) for row in species().values()},
    "stamps": lambda: {row.id: () for row in strength_classes().values()},
    "floors": lambda: {row.id.removeprefix("rubber-on-"): () for row in frictions().values() if row.id.startswith("rubber")},
    "plates": lambda: {row.id: () for row in frictions().values() if row.id.startswith("steel")},
    "ballasts": lambda: {NONE: (), **{row.id: () for row in ballasts().values()}},
    "handlings": lambda: {row.id: (row.label,) for row in handlings().values()},
    "drives": lambda: {row["id"]: (row["words"],) for row in table("steps/common/jobs.toml")["drive"]},
    "legs": lambda: {"chain": (), **{row.id: () for row in stretches().values()}},
}  # fmt: skip
"""Tables whose rows answer a question, each row with the names that people give it."""


class Judged(Row):
    """A question of the verdict rules that a person answers: its words and answers stand in held.toml."""

    id: str
    help: str
    example: str = ""
    groups: tuple[str, ...] = ()
    of: Whose = "trouble"
    box: bool = False

    def question(self) -> Question:
        row = verdicts.questions()[self.id]
        given = self.model_dump()
        asked = {
            "asks": row.asks,
            "choices": row.answers,
            "given": row.given,
            "example": self.example or row.answers[0],
        }
        return Question.model_validate({**given, **asked})


@cache
def questions() -> Mapping[str, Question]:
    """Every question by its id, in the order in which they are asked."""
    plain = rows("questions.toml", "question", _Written)
    judged = rows("questions.toml", "judged", Judged)
    found = [*(one for row in plain for one in row.each_of()), *_pieces(), *(row.question() for row in judged)]
    named = {one.id: one for one in found}
    if len(named) != len(found):
        raise ValueError("trade/questions.toml: one id twice")
    for one in found:
        for asked, answers in one.given.items():
            if asked not in named or not set(answers) <= set(named[asked].words()):
                raise ValueError(f"trade/questions.toml, {one.id}: there is no {asked} with {', '.join(answers)}")
    return named


def _pieces() -> Iterator[Question]:
    """Of each piece of gear and each part that the work names: is it here? Gear is the yard's, parts are a trouble's."""
    words = table("steps/common/words.toml")
    sorts: tuple[tuple[str, Whose], ...] = (("gear", "yard"), ("parts", "trouble"))
    for sort, of in sorts:
        for piece, told in words[sort].items():
            yield Question(
                id=f"{sort}/{piece}",
                asks=f"Here: {told}?",
                help="Yes, no, or the day on which it comes; gear that is lent counts on the day it is promised.",
                example=HERE,
                of=of,
                reads="here",
                optional=True,
                source=words["source"],
            )


class _Written(Row):
    """A row as the file has it: `each` writes it once for several things."""

    model_config = ConfigDict(frozen=True, extra="allow")

    each: tuple[str, ...] = ()

    def each_of(self) -> Iterator[Question]:
        given = self.model_dump(exclude={"each"})
        for name in self.each or ("",):
            filled = {k: v.replace("{each}", name).replace("{EACH}", name.upper()) if isinstance(v, str) else v for k, v in given.items()}  # fmt: skip
            yield Question.model_validate(filled)


def question(name: str) -> Question:
    """The question of this name.

    Raises:
        KeyError: there is none
    """
    return questions()[name]


def whose(name: str) -> Whose:
    """Whose a value is: of a trouble alone, of the machine, of the design of its drive, or of the yard's gear."""
    return question(name).of


def in_group(group: str) -> tuple[Question, ...]:
    """The questions of a group, in the order in which they are asked."""
    return tuple(one for one in questions().values() if one.belongs(group))
