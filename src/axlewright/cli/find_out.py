"""find-out: what to find out next for a trouble, by what it is worth."""

from __future__ import annotations

import json
from argparse import Namespace
from collections.abc import Iterator

from axlewright.cli import sheets, tables, yards
from axlewright.desk.rows import choice_said
from axlewright.desk.tables import choice_table
from axlewright.plan.choice_made import Choice
from axlewright.plan.drawn_up import chosen
from axlewright.plan.sheet import choice_words as say
from axlewright.plan.workings import Refused
from axlewright.render.show import Words
from axlewright.yard import Fault, Faults


def run(args: Namespace) -> int:
    yard = yards.opened(args).read()
    trouble = yard.trouble(args.trouble)
    today = yards.day(args) or yard.today(yards.now(args).at.date())
    choice = chosen(yard, trouble, today)
    if choice is None:
        cut = f"Write what {yard.machine(trouble.corner.machine).name} still has to cut in seasons/{today.year}.toml, or settle nothing more: a job in hand has its steps."
        raise Faults(Fault(f"trouble {trouble.number}", "There is no choice to make here.", cut))
    if isinstance(choice, Refused):
        raise Faults(Fault(f"trouble {trouble.number}", f"No choice can be made out: {choice.because}.", "Put that right, then try again."))  # fmt: skip
    words = Words(sheets.show(args, yard), {}, today)
    if tables.is_asked(args):
        tables.write(args, choice_table(choice, words, trouble.number, yard.currency), yard)
    if args.json:
        print(json.dumps(choice_said(choice, words, trouble.number), ensure_ascii=False, indent=1))
    elif not args.to:
        print("\n".join(listed(choice, words, args.quiet)))
    return 0


def listed(choice: Choice, words: Words, quiet: bool) -> Iterator[str]:
    """What to do, then what is worth finding out, and what is not."""
    if not quiet:
        yield words.plain(say.answer(choice, lettered=False))
        yield say.call(choice)
        by = say.decide_by(choice)
        if by:
            yield f"{words.day(by[0])}: {words.plain(by[1])}."
        yield ""
    if choice.look_first:
        yield f"{say.FIRST_LOOK}. Half an hour, no jacking; FIELD asks for it, so it has no price."
    for one in choice.found:
        if one.net > 0:
            worth = f"{words.show.currency} {one.net:,.0f}".replace(",", " ")
            yield f"{worth:>10}  {say.find_out_name(one)}. {say.find_out_told(choice, one)}"
    rest = [say.find_out_name(one) for one in choice.found if one.net <= 0]
    if rest:
        yield f"\nNot worth its time for the choice alone: {'; '.join(rest)}. What a verdict asks for is looked at all the same."
