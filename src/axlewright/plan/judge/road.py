"""FIELD and ROAD: the rules of trade/verdicts.toml applied to what counts at a corner."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal

from axlewright.plan.facts import Seen
from axlewright.plan.judge.seen import Pair, State, state_of
from axlewright.trade.verdicts import WORDS, Pairs, Provided, Rule, Word, lines, rules


@dataclass(frozen=True, slots=True)
class Due:
    """A condition as it stands now: `left` are the engine hours until it falls due, none or less where it is overdue."""

    words: str
    within: float | None = None
    every: float | None = None
    left: float = math.inf


@dataclass(frozen=True, slots=True)
class Verdict:
    """One line's word, the rows behind it, and what is printed beside it.

    `why` and `lifted_by` are those of the first row that says the word. `conditions` are those of every row that says
    *only if*, also where a worse word is printed: they hold still when that one is lifted. `unlooked` names the looks
    that this line needs and that nobody took lately.
    """

    line: str
    word: Word
    rows: tuple[str, ...]
    why: str
    lifted_by: str
    conditions: tuple[Due, ...]
    unlooked: tuple[str, ...]
    saying: tuple[Rule, ...]  # every row that says the word, in order


@dataclass(frozen=True, slots=True)
class Verdicts:
    """Both lines, and the ids of all rows that hold."""

    field: Verdict
    road: Verdict
    rows: tuple[str, ...]
    state: State

    @property
    def stopped(self) -> bool:
        """Whether FIELD is no."""
        return self.field.word == "no"

    @property
    def unsafe(self) -> bool:
        """Whether Make safe is printed: what was seen stops FIELD. A job that is not done stops it too, by its own card."""
        return self.stopped and any(rule.holds != "job_open" for rule in self.field.saying)


def printed(words: Iterable[Word]) -> Word:
    """The word that is printed of several: no > not known > only if > yes. No word at all says nothing against it."""
    return min(words, key=WORDS.index, default="yes")


def judge_corner(seen: Iterable[Seen], *, job_open: bool = False) -> Verdicts:
    """FIELD and ROAD from what was seen at a corner.

    Args:
        seen: every finding that is still on record, each with its age in engine hours and days
        job_open: the corner is raised, the wheel or drive off, or a hold point not signed

    Returns:
        both verdicts; a finding that is not named was not looked at
    """
    return judge(state_of(seen, job_open=job_open))


def judge(state: State) -> Verdicts:
    """FIELD and ROAD from what counts."""
    rows = fired(state)
    field = _verdict("FIELD", [(rule, rule.field, rule.field_if) for rule in rows], state)
    road = _verdict("ROAD", [(rule, rule.road, rule.road_if) for rule in rows], state)
    return Verdicts(field, road, _ids(rows), state)


def spoken(state: State) -> tuple[Word, Word]:
    """The words of FIELD and ROAD alone."""
    rows = fired(state)
    return _word("FIELD", [rule.field for rule in rows], state), _word("ROAD", [rule.road for rule in rows], state)


def _word(line: str, says: Iterable[Word | Literal[""]], state: State) -> Word:
    """`yes` is never what is left over: a row must say it, and every look that the line needs must be there."""
    words: list[Word] = [word for word in says if word]
    word = printed(words)
    return "not known" if word == "yes" and (not words or unlooked(line, state)) else word


def unlooked(line: str, state: State) -> tuple[str, ...]:
    """The looks that a line needs and that nobody took lately."""
    return tuple(finding for finding in lines()[line].needs if finding not in state.fresh)


def fired(state: State) -> tuple[Rule, ...]:
    """The rules that hold, in their order."""
    rows: list[Rule] = []
    for when in _compiled():
        if when.holds(state) and (when.also is None or when.also(state, rows)):
            rows.append(when.rule)
    return tuple(rows)


def due(rule: Rule, conditions: Iterable[Provided], state: State) -> Iterator[Due]:
    """The conditions of a row that are still to be met, each with the hours left to it."""
    held = max((state.ages.get(finding, 0.0) for finding, _ in set(rule.named()) & state.pairs), default=0.0)
    held = max([held, *(state.waits(name) for name in rule.stale if name not in state.fresh)])
    for one in conditions:
        looked = [state.ages[name] for name in (*one.met, *one.again) if name in state.fresh]
        if looked and (max(looked) < held or (one.met and max(looked) <= held)):
            continue
        since = max((state.ages.get(name, held) for name in one.of), default=held)
        hours = one.within if one.every is None else one.every
        yield Due(one.words, one.within, one.every, math.inf if hours is None else round(hours - since, 1))


def merged(conditions: Iterable[Due]) -> tuple[Due, ...]:
    """Each condition once, in their order; of two that differ in their hours alone the sooner."""
    kept: dict[str, Due] = {}
    for one in conditions:
        before = kept.get(one.words)
        kept[one.words] = one if before is None else _sooner(before, one)
    return tuple(kept.values())


def _sooner(a: Due, b: Due) -> Due:
    def least(x: float | None, y: float | None) -> float | None:
        return min((h for h in (x, y) if h is not None), default=None)

    return Due(a.words, least(a.within, b.within), least(a.every, b.every), min(a.left, b.left))


def _ids(rows: Iterable[Rule]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(rule.id for rule in rows))


def _verdict(line: str, said: Sequence[tuple[Rule, Word | Literal[""], tuple[Provided, ...]]], state: State) -> Verdict:
    word = _word(line, [says for _, says, _ in said], state)
    saying = tuple(rule for rule, says, _ in said if says == word)
    first = saying[0] if saying else None
    return Verdict(
        line=line,
        word=word,
        rows=_ids(rule for rule, says, _ in said if says),
        why=first.why if first else "",
        lifted_by=first.lifted_by if first else "",
        conditions=merged(one for rule, _, conditions in said for one in due(rule, conditions, state)),
        unlooked=unlooked(line, state),
        saying=saying,
    )


# rows that need more than pairs name one of these
def job_open(state: State, _before: Collection[Rule]) -> bool:
    """The job at this corner is not done."""
    return state.job_open


def field_is_no(_state: State, before: Collection[Rule]) -> bool:
    """A row before this one stops FIELD."""
    return any(rule.field == "no" for rule in before)


def nothing_else(_state: State, before: Collection[Rule]) -> bool:
    """No row before this one holds."""
    return not before


HOLDS: Mapping[str, Callable[[State, Collection[Rule]], bool]] = {
    "job_open": job_open,
    "field_is_no": field_is_no,
    "nothing_else": nothing_else,
}


@dataclass(frozen=True, slots=True)
class _When:
    """A rule with its pairs as sets."""

    rule: Rule
    each: tuple[frozenset[Pair], ...]  # at least one of each
    none: frozenset[Pair]
    stale: frozenset[str]
    fresh: frozenset[str]
    also: Callable[[State, Collection[Rule]], bool] | None

    def holds(self, state: State) -> bool:
        return (
            not any(pairs.isdisjoint(state.pairs) for pairs in self.each)
            and self.none.isdisjoint(state.pairs)
            and (not self.stale or not self.stale <= state.fresh)
            and self.fresh <= state.fresh
        )


@cache
def _compiled() -> tuple[_When, ...]:
    return tuple(
        _When(
            rule=rule,
            each=tuple(_pairs(one) for one in (rule.any, *rule.all) if one),
            none=_pairs(rule.none),
            stale=frozenset(rule.stale),
            fresh=frozenset(rule.fresh),
            also=HOLDS[rule.holds] if rule.holds else None,
        )
        for rule in rules()
    )


def _pairs(table: Pairs) -> frozenset[Pair]:
    return frozenset((finding, grade) for finding, grades in table.items() for grade in grades)
