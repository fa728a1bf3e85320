"""What a trouble's sheet asks for next: what is worth most against its own minutes, and what a verdict asks for whatever it costs."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from axlewright.plan.choice_made import Choice
from axlewright.plan.first_look import FirstLook
from axlewright.plan.judge import FIVE, GIVES, may_look, missing, standing_looks
from axlewright.plan.judge.says import because
from axlewright.plan.sheet import choice_words as say
from axlewright.plan.sheet.choice_trace import ChoiceTrace
from axlewright.plan.sheet.first_look_trouble import look_at
from axlewright.sheets import Go, Note, Numbered, Run, Section, Text, text
from axlewright.sheets.blocks import Block, Item
from axlewright.trade.findings import findings
from axlewright.trade.looks import Look, looks
from axlewright.yard import Trouble, Yard

FIND_OUT = "Find out next"
MOST = 5
WANTED = ("level", "plug", "bolts", "nuts", "rock")
"""What ROAD asks for, in the order in which they are looked at."""
BY_STEPS = ("in hand", "set down", "looked after", "put by")
"""Stages in which the step card asks, or the after-checks, or nobody."""


@dataclass(frozen=True, slots=True)
class Next:
    """One thing to find out.

    Attributes:
        name: of the finding; of the number that somebody is asked for
        asked: it is a number that somebody is asked for
        lead: what to do
        words: how long it takes, and what it would change
        worth: its worth to the choice, less people's time; nothing where it is not priced
    """

    name: str
    asked: bool
    lead: str
    words: str
    worth: Text = ()

    def to(self, number: int) -> str:
        """The page that asks it."""
        return f"/trouble/{number}/ask/choice" if self.asked else look_at(number, self.name)


def asks_of(
    yard: Yard,
    trouble: Trouble,
    look: FirstLook,
    choice: Choice | None,
    trace: ChoiceTrace | None,
    left_out: Collection[str] = (),
) -> tuple[Next, ...]:
    """What to find out next, best first; what somebody could not look at just now is left out."""
    if yard.stage(trouble.number) in BY_STEPS:
        return ()
    found: dict[str, Next] = {}
    for one in _in_order(look, choice, trace):
        for asked in (one,) if one.asked else _may_be(look, one):
            if asked.name not in left_out:
                found.setdefault(asked.name, asked)
    return tuple(found.values())[:MOST]


def _may_be(look: FirstLook, one: Next) -> Iterator[Next]:
    """A look with what must be clean before it; none that may not be made as the corner stands."""
    if not may_look(look.verdicts, one.name):
        return
    before = missing(look.verdicts, looks()[findings()[one.name].look])
    for name in before:
        row = looks()[findings()[GIVES[name]].look]
        told = f"{_minutes(row)}. It comes before “{one.lead}”, and must show nothing that stops it."
        yield Next(GIVES[name], False, _lead(row, GIVES[name]), told)
    yield replace(one, words=one.words + say.first(before))


def _in_order(look: FirstLook, choice: Choice | None, trace: ChoiceTrace | None) -> Iterator[Next]:
    if look.make_safe:
        yield from _second_looks(look)
    else:
        yield from _of_the_five(look)
    if choice and trace:
        yield from _worth(choice, trace)
    if not look.make_safe:
        yield from _wanted(look)


def _second_looks(look: FirstLook) -> Iterator[Next]:
    """What stops it, looked at again: one look without a photo is not yet two."""
    pairs = dict.fromkeys(pair for rule in look.field.saying for pair in because(rule, look.verdicts.state))
    for finding, grade in pairs:
        row = findings()[finding]
        shown = any(one.photo for one in look.everything if (one.finding, one.grade) == (finding, grade))
        if not (row.grade(grade).proof and shown):
            yield Next(finding, False, f"Second look: {row.name}", f"{_minutes(looks()[row.look])}, with a photo. {_capital(row.grade(grade).seen)}: it stops both until this is settled.")  # fmt: skip


def _of_the_five(look: FirstLook) -> Iterator[Next]:
    """While nobody has looked in, the five in their order come before any price."""
    by_id = {one.look.id: one for one in look.looks}
    for name, finding in FIVE.items():
        one = by_id[name]
        if not one.shown:
            yield Next(finding, False, _lead(one.look, finding), f"{_minutes(one.look)}. One of the five of the First look; it is not priced.")  # fmt: skip


def _worth(choice: Choice, trace: ChoiceTrace) -> Iterator[Next]:
    for n, one in enumerate(say.find_out_rows(choice, MOST), 1):
        name = one.name.removesuffix("-found")
        worth = say.money(trace, f"find-out/{n}", one.net, f"worth of {name}: what the best course costs less, over its outcomes, less {one.minutes:.0f} minutes")  # fmt: skip
        told = f"{say.find_out_time(one)}. {say.find_out_then(choice, one)}"
        yield Next(name, name in say.ASKS, say.find_out_name(one), told, (Run(voice="strong", words=(worth,)),))


def _wanted(look: FirstLook) -> Iterator[Next]:
    """What a verdict asks for, whether it pays or not."""
    fresh = look.verdicts.state.fresh
    for name in WANTED:
        if name not in fresh:
            row = looks()[findings()[name].look]
            lead = f"Raise it: {findings()[name].name}" if "R" in row.stages else _lead(row, name)
            support = "; its own support sheet" if "R" in row.stages else ""
            yield Next(name, False, lead, f"{_minutes(row)}{support}. ROAD asks for it; it is not priced.")


def find_out(asks: tuple[Next, ...], number: int, *, making: bool = False) -> Section:
    """The section: the best of them, which the page asks on the spot, then the rest."""
    blocks: list[Block] = []
    if asks:
        first, rest = asks[0], asks[1:]
        blocks.append(Numbered(items=(_item(first, number),)))
        if rest:
            blocks.append(Numbered(items=tuple(_item(one, number) for one in rest)))
    elif not making:
        blocks.append(Note(words=text("Nothing is worth more than the time it takes.")))
    if making:
        words = text("What each look is worth is being made out.")
        blocks.append(Note(words=words, size="small", voice="soft"))
    return Section(heading=FIND_OUT, aside="worth to you, less your time", place="right", blocks=tuple(blocks))


def _item(one: Next, number: int) -> Item:
    return Item(
        number="", lead="", words=text(Go(words=f"{one.lead}.", to=one.to(number)), f" {one.words}"), aside=one.worth
    )


def known_of(look: FirstLook, finding: str) -> tuple[str, ...]:
    """What a look showed so far, as a person says it."""
    return tuple(findings()[finding].grade(one.grade).words for one in standing_looks(look.everything).get(finding, ()))


def _minutes(look: Look) -> str:
    people = f", {say.NUMBER[look.people]} people" if look.people > 1 else ""
    if not look.minutes:
        return f"{look.work_minutes:g} min of work{people}"
    work = f" and {look.work_minutes:g} of work" if look.work_minutes else ""
    return f"{look.minutes:g} min{work}{people}"


def _lead(look: Look, finding: str) -> str:
    """What to do: `Level: oil level`; `Cracks` where both have one name."""
    name = findings()[finding].name
    return look.name if name == look.name.lower() else f"{look.name}: {name}"


def _capital(said: str) -> str:
    return said[0].upper() + said[1:]
