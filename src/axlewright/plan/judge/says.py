"""Verdicts in words, as a sheet prints them: conditions with clock readings, why, what is still to be looked at.

Numbers in the words of rules stay numbers: each goes into the basis of the pack under a name of its own.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import floor, inf

from axlewright.plan.judge.grades import PROVED, is_proved
from axlewright.plan.judge.road import Due, Verdict, Verdicts
from axlewright.plan.judge.seen import Pair, State
from axlewright.sheets import BasisEntry, Piece, Shown, Text, VerdictLine
from axlewright.trade.findings import findings
from axlewright.trade.verdicts import Rule, Told, lines, told
from axlewright.yard import Hours
from axlewright.yard.hours import ENGINE_PER_THRESHING

HOUR = 3600.0  # [s]
YES = "level, plug, flange bolts, wheel nuts and rock are fresh, and nothing stands against it."
LOCAL = "Width, lamps and escort by local rule."
MOST_NAMED = 3  # things seen that one sentence names
HAIR = 1e-6  # h: binary noise of a sum of clock readings


@dataclass(slots=True)
class Words:
    """Makes texts, and keeps the basis of every number in them.

    `clock` is what the machine's clock reads now, if it was read; `per_threshing` the most engine hours that pass in
    one hour of the threshing clock.
    """

    clock: Hours | None = None
    per_threshing: float = ENGINE_PER_THRESHING[1]
    basis: dict[str, BasisEntry] = field(default_factory=dict)

    def filled(self, words: str, also: Iterable[Told] = ()) -> Text:
        """Words with each `{number}` in its place, from the rules' own numbers or these."""
        numbers = {**told(), **{number.id: number for number in also}}
        return _joined(
            self.number(numbers[part[1:-1]]) if part.startswith("{") else part
            for part in re.split(r"(\{[a-z-]+\})", words)
            if part
        )

    def number(self, row: Told) -> Shown:
        """A number that a row of trade tells."""
        name = f"told/{row.id}"
        self.basis[name] = BasisEntry(name=name, kind=row.kind, value=row.si, basis="assumed", source=row.source)
        return Shown(name=name, si=row.si, toward=row.toward, digits=2, with_basis=False)

    def clock_at(self, hours: float, *, gone: bool = False) -> Shown | None:
        """What the clock will read after so many engine hours: rounded down, never later. None without a clock that tells.

        `gone`: it is over, and the clock has read it.
        """
        if self.clock is None:
            return None
        ahead = hours if self.clock.clock == "engine" else hours / self.per_threshing
        at = floor(self.clock.hours - self.clock.about + ahead + HAIR)
        if at < 0 or (at <= self.clock.hours and not gone):
            return None  # the clock is not known that closely: hours from now say it
        name = f"clock/plus-{hours:g}"
        self.basis[name] = BasisEntry(
            name=name,
            kind="duration",
            value=at * HOUR,
            basis="computed",
            source=f"{self.clock} {'+' if hours >= 0 else '−'} {abs(hours):g} engine h, rounded down: never later",
        )
        digits = len(str(abs(at)))
        return Shown(
            name=name, si=at * HOUR, toward="down", on_tool="h", digits=digits, with_basis=False, with_unit=False
        )

    def provided(self, condition: Due) -> Text:
        """A condition with its hours: `plug again by 4 755`, `level every 10 h, next at 4 740`, `rock looked at now`."""
        words, hours, left = self.filled(condition.words), condition.every, condition.left
        at = self.clock_at(left) if 0 < left < inf else None
        if hours is not None:
            if left <= 0:
                return (*words, f" now and every {hours:g} h")
            return (*words, f" every {hours:g} h", *((", next at ", at) if at else ()))
        if left == inf:
            return words
        if left <= 0:
            return (*words, " now", *self.was_due(left))
        return (*words, " by ", at) if at else (*words, f" within {left:g} h")

    def was_due(self, left: float) -> Text:
        """What the clock read when a condition fell due."""
        at = self.clock_at(left, gone=True)
        return (", due at ", at) if at and left < 0 else ()

    def conditions(self, verdict: Verdict) -> Text:
        """All conditions of a verdict in one sentence's part."""
        parts: list[Piece] = []
        for condition in verdict.conditions:
            parts += ["; "] if parts else []
            parts += self.provided(condition)
        return _joined(parts)


def verdict_lines(verdicts: Verdicts, words: Words, parked: Sequence[str] = ()) -> tuple[VerdictLine, VerdictLine]:
    """FIELD and ROAD as they are printed on top of a sheet.

    Args:
        verdicts: what the rules say
        words: makes the texts, keeps the basis of their numbers
        parked: words of the park-it-now list that were ticked
    """
    return _line(verdicts.field, _field_words(verdicts, words, parked)), _line(
        verdicts.road, _road_words(verdicts, words)
    )


def _line(verdict: Verdict, text: Text) -> VerdictLine:
    return VerdictLine(
        line=lines()[verdict.line].title,
        word=verdict.word,
        words=text,
        stops=verdict.word == "no",
        unseen=verdict.word == "not known",
    )


def _field_words(verdicts: Verdicts, words: Words, parked: Sequence[str]) -> Text:
    verdict = verdicts.field
    match verdict.word:
        case "no" if parked:
            return (f"park it where it stands: {few([one[0].lower() + one[1:] for one in parked], '; ')}.",)
        case "no":
            return _stop(verdict, verdicts.state)
        case "not known":
            if len(verdict.unlooked) == len(lines()["FIELD"].needs) and not verdicts.state.pairs:
                return (f"{lines()['FIELD'].unlooked}.",)
            missing = [name for name in verdict.unlooked if name in {"level", "plug"}] or verdict.unlooked
            return _then(f"not before {are_looked_at(missing)}.", verdict, words)
        case "only if":
            return (*words.conditions(verdict), ".")
        case _:
            return (YES,)


def _road_words(verdicts: Verdicts, words: Words) -> Text:
    verdict = verdicts.road
    match verdict.word:
        case "no" if verdicts.field.word == "no":
            return ("as in the field. Not even home.",)
        case "no":
            return (*_stop(verdict, verdicts.state), f" Lifted by: {verdict.lifted_by}.")
        case "not known":
            if len(verdict.unlooked) == len(lines()["ROAD"].needs):
                return (f"{lines()['ROAD'].unlooked}.",)
            return _then(f"stay off until {are_looked_at(verdict.unlooked)}.", verdict, words)
        case "only if":
            return (*words.conditions(verdict), f". {LOCAL}")
        case _:
            return (f"{YES} {LOCAL}",)


def _then(first: str, verdict: Verdict, words: Words) -> Text:
    still = words.conditions(verdict)
    return (first, " Then still: ", *still, ".") if still else (first,)


def _stop(verdict: Verdict, state: State) -> Text:
    """The first row in full, the others by what was seen."""
    told_of = [rule for rule in verdict.saying if rule.id != "R31"]
    if not told_of:
        return (f"{verdict.why}.",)
    first, *others = told_of
    pairs = because(first, state)
    why = PROVED if is_proved(pairs) else first.why
    named = ", ".join(seen_words(first, state))
    also = list(dict.fromkeys(one for rule in others for one in seen_words(rule, state) if one not in named))
    return (*((named, ": ") if named else ()), why, ".", *((f" Also {few(also)}.",) if also else ()))


def few(said: Sequence[str], between: str = ", ") -> str:
    """The first of several things said, and how many more there are."""
    more = len(said) - MOST_NAMED
    return between.join(said[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


def because(rule: Rule, state: State) -> tuple[Pair, ...]:
    """The pairs for which a rule holds."""
    named = set(rule.named()) & state.pairs
    order = {
        (name, grade.id): (n, m) for n, (name, f) in enumerate(findings().items()) for m, grade in enumerate(f.grades)
    }
    return tuple(sorted(named, key=order.__getitem__))


def seen_words(rule: Rule, state: State) -> tuple[str, ...]:
    """What was seen, and what was not looked at, for which a rule holds."""
    seen = [_seen(finding, grade, state) for finding, grade in because(rule, state)]
    unseen = [f"{findings()[name].name} not looked at" for name in rule.stale if name not in state.fresh]
    return (*seen, *unseen)


def _seen(finding: str, grade: str, state: State) -> str:
    """What was seen; where it was found good since, why that is not yet enough."""
    row = findings()[finding]
    if finding not in state.moved:
        return row.grade(grade).seen
    hours = [f"{least:g} h" for least in row.grade(grade).put_right if least]
    enough = f"not yet found still after {' and after '.join(hours)}" if hours else "found still but once since"
    return f"{row.grade(state.moved[finding]).seen}, {enough}"


def are_looked_at(names: Sequence[str]) -> str:
    """`rock is looked at`, `level and plug are looked at`."""
    said = [SHORT.get(name, name) for name in names]
    joined = said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"
    many = len(said) > 1 or said[0].endswith("s")
    return f"{joined} {'are' if many else 'is'} looked at"


SHORT = {"bolts": "flange bolts", "nuts": "wheel nuts"}


def _joined(pieces: Iterable[Piece]) -> Text:
    """Neighbouring words in one piece."""
    out: list[Piece] = []
    for piece in pieces:
        if isinstance(piece, str) and out and isinstance(out[-1], str):
            out[-1] += piece
        else:
            out.append(piece)
    return tuple(out)
