"""HOLDING, LIFTING, JOINT, OIL, BENCH RELEASE: answers and margins at the careful end, never a chance."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from axlewright.plan.judge.road import printed
from axlewright.trade.verdicts import HeldRule, Pairs, Question, Word, held_rules, questions

CAREFUL = 0.05  # the low end at which a margin is held against its limit
MIDDLE = 0.5


class Margin(Protocol):
    """Capacity over demand of one thing at one stage."""

    @property
    def what(self) -> str:
        """Name of what is asked of it: jack, crossing, slip ..."""

    @property
    def stage(self) -> str:
        """Stage of the work at which it is asked."""

    def at(self, share: float) -> float:
        """Capacity over demand at a share of 0 to 1, draw by draw."""


@dataclass(frozen=True, slots=True)
class Fixed:
    """A margin known by its middle and its careful end."""

    what: str
    middle: float
    careful: float
    stage: str = ""

    def at(self, share: float) -> float:
        return self.careful if share < MIDDLE else self.middle


@dataclass(frozen=True, slots=True)
class Fired:
    """A row that holds: its word, and the margin or the answers behind it."""

    rule: HeldRule
    word: Word
    margin: Margin | None = None
    answers: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class HeldVerdict:
    """One line's word, every row that says less than yes, and what nobody answered or worked out."""

    line: str
    word: Word
    rows: tuple[str, ...]
    why: str
    lifted_by: str
    conditions: tuple[str, ...]
    fired: tuple[Fired, ...]
    unanswered: tuple[Question, ...]
    unworked: tuple[str, ...]


def least(margins: Iterable[Margin], what: str) -> Margin | None:
    """The weakest margin of this name over its stages, at the careful end."""
    return min((m for m in margins if m.what == what), key=lambda m: m.at(CAREFUL), default=None)


def by_margin(rule: HeldRule, margins: Sequence[Margin]) -> Word:
    """What a row says of its margin.

    The middle under the limit: no. Only the careful end under it: not known, until the unknown behind it is measured.
    A margin that nobody worked out is not a good one.
    """
    weakest = least(margins, rule.margin)
    if weakest is None:
        return "not known"
    middle, careful = weakest.at(MIDDLE), weakest.at(CAREFUL)
    if rule.no_below is not None:
        if not middle >= rule.no_below:  # nan is not a good one either
            return "no"
        if not careful >= rule.no_below:
            return "not known"
    if rule.not_known_below is not None and not careful >= rule.not_known_below:
        return "not known"
    if rule.only_if_below is not None and not careful >= rule.only_if_below:
        return "only if"
    return "yes"


def judge_line(line: str, answers: Mapping[str, str], margins: Sequence[Margin] = ()) -> HeldVerdict:
    """The verdict of a line that is judged by answers and margins.

    Args:
        line: HOLDING, LIFTING, JOINT, OIL or BENCH RELEASE
        answers: by question; one that is left out is not known
        margins: every margin worked out, of one stage or of all

    Raises:
        ValueError: an answer that its question does not have
    """
    _refuse_unknown(answers)
    rows = [rule for rule in held_rules() if rule.line == line and not rule.holds and _may_hold(rule.given, answers)]
    fired = [one for rule in rows if (one := _fire(rule, answers, margins))]
    unanswered = tuple(
        q for q in questions().values() if q.line == line and q.id not in answers and _may_hold(q.given, answers)
    )
    unworked = tuple(dict.fromkeys(rule.margin for rule in rows if rule.margin and not least(margins, rule.margin)))
    word = printed([one.word for one in fired] + (["not known"] if unanswered or unworked else []))
    first = next((one.rule for one in fired if one.word == word), None)
    if word == "yes":
        first = next(rule for rule in held_rules() if rule.line == line and rule.holds)
    asked = unanswered[0].asks if unanswered else ""
    return HeldVerdict(
        line=line,
        word=word,
        rows=tuple(dict.fromkeys(one.rule.id for one in fired)) or ((first.id,) if first and word == "yes" else ()),
        why=first.why if first else asked or f"not worked out: {', '.join(unworked)}",
        lifted_by=first.lifted_by if first else "the answer" if asked else "the workings",
        conditions=tuple(dict.fromkeys(one.rule.condition for one in fired if one.word == "only if")),
        fired=tuple(fired),
        unanswered=unanswered,
        unworked=unworked,
    )


def _refuse_unknown(answers: Mapping[str, str]) -> None:
    known = questions()
    for asked, answer in answers.items():
        if asked not in known:
            raise ValueError(f"no question {asked}")
        if answer not in known[asked].answers:
            raise ValueError(f"{asked}: no answer {answer}; there is {', '.join(known[asked].answers)}")


def _may_hold(given: Pairs, answers: Mapping[str, str]) -> bool:
    """Whether a row or question applies; where nobody answered, it may."""
    return all(answers.get(asked, wanted[0]) in wanted for asked, wanted in given.items())


def _fire(rule: HeldRule, answers: Mapping[str, str], margins: Sequence[Margin]) -> Fired | None:
    """The row with its word, if it says less than yes."""
    if rule.margin:
        word, behind = by_margin(rule, margins), least(margins, rule.margin)
        return Fired(rule, word, behind) if word != "yes" and behind is not None else None
    mine = tuple((asked, answers[asked]) for asked, said in rule.any.items() if answers.get(asked) in said)
    return Fired(rule, rule.word, answers=mine) if rule.word and mine else None


@dataclass(frozen=True, slots=True)
class Breaks:
    """The one unknown that could break a margin.

    `margin_alone`: the margin with this input alone at its careful end. `at`: the value at which the margin meets its
    limit, the rest at their middles; None where no value that way does.
    """

    name: str
    margin_middle: float
    margin_alone: float
    at: float | None


def breaking_unknown(
    margin: Callable[[Mapping[str, float]], float],
    middle: Mapping[str, float],
    careful: Mapping[str, float],
    limit: float = 1.0,
    far: float = 1000.0,
) -> Breaks | None:
    """The input that alone, moved to its own careful end with the rest at their middles, lowers a margin most.

    Args:
        margin: the margin as a function of the inputs by name
        middle: every input at its middle
        careful: the inputs that are not known, each at its careful end
        limit: what the margin must not fall under [-]
        far: how many times the step from middle to careful end is tried before a value is called out of reach [-]

    Returns:
        that input; None where no input alone lowers the margin
    """
    here = margin(middle)
    alone = {name: margin({**middle, name: end}) for name, end in careful.items()}
    name = min(alone, key=lambda n: alone[n], default=None)
    if name is None or alone[name] >= here:
        return None
    step = careful[name] - middle[name]

    def beyond(steps: float) -> float:
        return margin({**middle, name: middle[name] + steps * step}) - limit

    return Breaks(name, here, alone[name], _meets(beyond, middle[name], step, far))


def _meets(beyond: Callable[[float], float], start: float, step: float, far: float) -> float | None:
    """Where a falling margin meets its limit, by steps that double and then by halving."""
    low, high = 0.0, 1.0
    if beyond(low) <= 0:
        return start
    while beyond(high) > 0:
        low, high = high, 2 * high
        if high > far:
            return None
    for _ in range(60):
        half = (low + high) / 2
        low, high = (half, high) if beyond(half) > 0 else (low, half)
    return start + high * step
