"""What an answer moved: verdicts, course, chance, date and cost as they stood before it, and as they stand now."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from axlewright.plan.choice_made import Choice
from axlewright.plan.first_look import FirstLook
from axlewright.plan.sheet import choice_words as say
from axlewright.plan.sheet.choice_trace import ChoiceTrace
from axlewright.plan.sheet.choice_trouble import let_go_by_then
from axlewright.sheets import BasisEntry, Day, Note, Run, Section, Table, Text, text
from axlewright.sheets.blocks import Block, Column, Row
from axlewright.trade.findings import findings
from axlewright.trade.questions import questions
from axlewright.yard import Answer, Finding, Record, Stage, Yard

MOVED = "What moved"
NOTHING = "Nothing moved: both verdicts, the course, the chance, the date and the cost stand as they stood."
SAME = 0.005  # of a chance, and of a cost: less is not told
NONE = "–"


@dataclass(frozen=True, slots=True)
class Stands:
    """A trouble as it stands, or stood."""

    look: FirstLook
    choice: Choice | None


@dataclass(frozen=True, slots=True)
class _Part:
    """One thing that may move: what it is, how it stood, how it stands."""

    name: str
    before: Text
    now: Text
    moved: bool


def told_with(yard: Yard, form: str) -> tuple[Record, ...]:
    """The records that one form brought."""
    every: tuple[Record, ...] = (*yard.findings, *yard.answers, *yard.stages)
    return tuple(one for one in every if _of_form(one, form))


def without(yard: Yard, form: str) -> Yard:
    """The yard as if that form had never been sent; what it corrected stands again."""
    return replace(
        yard,
        findings=tuple(one for one in yard.findings if not _of_form(one, form)),
        answers=tuple(one for one in yard.answers if not _of_form(one, form)),
        stages=tuple(one for one in yard.stages if not _of_form(one, form)),
    )


def _of_form(one: Record, form: str) -> bool:
    return one.id == form or one.id.startswith(f"{form}-")


def still_making() -> tuple[Section, dict[str, BasisEntry]]:
    """While the choice is being made out as it stood, or as it stands."""
    words = text("What it moved is being made out: this page asks again by itself.")
    return Section(heading=MOVED, aside="by what you just wrote", place="wide", blocks=(Note(words=words),)), {}


def moved_section(
    yard: Yard, told: tuple[Record, ...], before: Stands, now: Stands
) -> tuple[Section, dict[str, BasisEntry]]:
    """The section, and the basis of its numbers.

    Args:
        yard: as it stands now
        told: the records that were kept
        before: the trouble without them
        now: the trouble with them
    """
    basis: dict[str, BasisEntry] = {}
    parts = tuple(_parts(before, now, basis))
    blocks: list[Block] = [Note(words=_kept(yard, told))]
    if any(one.moved for one in parts):
        blocks.append(Table(columns=(Column(heading="", share=2.2), Column(heading="before", share=3.0), Column(heading="now", share=3.0)), rows=tuple(_row(one) for one in parts)))  # fmt: skip
    else:
        blocks.append(Note(words=text(NOTHING if now.choice or before.choice else "Nothing moved: both verdicts stand as they stood.")))  # fmt: skip
    return Section(heading=MOVED, aside="by what you just wrote", place="wide", blocks=tuple(blocks)), basis


def _row(one: _Part) -> Row:
    return Row(cells=(text(one.name), one.before, one.now), voice="strong" if one.moved else "soft")


def _parts(before: Stands, now: Stands, basis: dict[str, BasisEntry]) -> Iterator[_Part]:
    for name, old, new in (
        ("Work in field", before.look.lines[0], now.look.lines[0]),
        ("Go on road", before.look.lines[1], now.look.lines[1]),
    ):
        other = old.word == new.word and old.words != new.words
        yield _Part(name, text(old.word), text(new.word + (", on other terms" if other else "")), old != new)
    if before.choice is None and now.choice is None:
        return
    for name, told in (("Best course", _course), ("Decide by", _by)):
        was, is_ = told(before), told(now)
        yield _Part(name, was, is_, was != is_)
    chances = _chance(before), _chance(now)
    yield _Part("Lets go before harvest ends", _in_hundred(chances[0]), _in_hundred(chances[1]), _differs(*chances))
    costs = _cost(before), _cost(now)
    shown = _money(costs[0], "before", before, basis), _money(costs[1], "now", now, basis)
    yield _Part("Its mean cost", *shown, _differs(*costs))


def _course(one: Stands) -> Text:
    if one.choice is None:
        return (NONE,)
    if one.choice.look_first:
        return ("none before the First look",)
    best = one.choice.made.best
    return (say.words(best.name).title if best else "every course is stopped",)


def _by(one: Stands) -> Text:
    by = say.decide_by(one.choice) if one.choice else None
    return (Day(on=by[0]),) if by else (NONE,)


def _chance(one: Stands) -> float | None:
    return let_go_by_then(one.choice) if one.choice else None


def _in_hundred(chance: float | None) -> Text:
    return (NONE,) if chance is None else (f"{100 * chance:.0f} in 100",)


def _cost(one: Stands) -> float | None:
    if one.choice is None or one.choice.look_first or one.choice.made.best is None:
        return None
    return float(one.choice.made.best.mean)


def _money(cost: float | None, at: str, one: Stands, basis: dict[str, BasisEntry]) -> Text:
    if cost is None or one.choice is None:
        return (NONE,)
    return (say.money(ChoiceTrace(one.choice.made.w, basis), f"moved/{at}", cost, "mean cost of the best course above a season without trouble"),)  # fmt: skip


def _differs(old: float | None, new: float | None) -> bool:
    if old is None or new is None:
        return old is not new
    return abs(new - old) > SAME * max(1.0, abs(old))


def _kept(yard: Yard, told: tuple[Record, ...]) -> Text:
    """What was written, as a sentence."""
    said = list(dict.fromkeys(_said(yard, one) for one in told))
    return text(Run(voice="strong", words=("Kept:",)), f" {'; '.join(said)}.")


def _said(yard: Yard, one: Record) -> str:
    if isinstance(one, Finding):
        row, old = findings(), next((f for f in yard.findings if f.id == one.corrects), None)
        seen = row[one.finding].grade(one.grade).seen
        return f"{seen}, in place of {row[old.finding].grade(old.grade).seen}" if old else seen
    if isinstance(one, Answer):
        asked = questions().get(one.name)
        return f"{asked.asks if asked else one.name} {one.value}"
    assert isinstance(one, Stage)
    return f"{one.stage}: {one.course}" if one.course else one.stage
