"""find-out: what to find out next for a trouble, by what it is worth."""

from __future__ import annotations

import json
from argparse import Namespace
from collections.abc import Iterator
from typing import Any

from axlewright.cli import sheets, yards
from axlewright.plan.choice_made import Choice
from axlewright.plan.drawn_up import chosen
from axlewright.plan.reckon.choice_worth import FindOut
from axlewright.plan.sheet import choice_words as say
from axlewright.plan.workings import Refused
from axlewright.render.show import Words
from axlewright.yard import Fault, Faults

DIGITS = 6


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
    if args.json:
        print(json.dumps(as_data(choice, words, trouble.number), ensure_ascii=False, indent=1))
    else:
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
            yield f"{worth:>10}  {say.find_out_name(one)}. {say.find_out_time(one)}. {say.find_out_then(choice, one)}"
    rest = [say.find_out_name(one) for one in choice.found if one.net <= 0]
    if rest:
        yield f"\nNot worth its time for the choice alone: {'; '.join(rest)}. What a verdict asks for is looked at all the same."


def as_data(choice: Choice, words: Words, number: int) -> dict[str, Any]:
    """The same for programs; money in the yard's own currency, chances as shares."""
    by = say.decide_by(choice)
    return {
        "trouble": number,
        "answer": words.plain(say.answer(choice, lettered=False)),
        "call": say.call(choice),
        "decide_by": by[0].isoformat() if by else None,
        "first_look": choice.look_first,
        "find_out": [found(choice, one) for one in choice.found],
        "courses": [course(choice, name) for name in (one.name for one in say.ordered(choice))],
    }


def found(choice: Choice, one: FindOut) -> dict[str, Any]:
    return {
        "name": one.name.removesuffix("-found"),
        "words": say.find_out_name(one),
        "minutes": round(one.minutes, 1),
        "worth": cut(one.worth),
        "net": cut(one.net),
        "then": [{"shows": shows, "chance": cut(chance), "course": then} for shows, chance, then in one.then],
    }


def course(choice: Choice, name: str) -> dict[str, Any]:
    """A course with its numbers; one that is struck out with why, and what would lift that, and no number."""
    one = next(made for made in choice.made.courses if made.name == name)
    if one.stopped:
        stop = choice.stops[name]
        return {"course": name, "stopped": True, "why": stop.why, "lifted_by": stop.lifted_by}
    return {
        "course": name,
        "stopped": False,
        "mean": cut(one.mean),
        "lets_go": cut(one.fails),
        "order_by": one.order_by.isoformat() if one.order_by else None,
        "too_late": one.too_late,
    }


def cut(value: float) -> float:
    """Six digits: the last ones differ from processor to processor."""
    return float(f"{value:.{DIGITS}g}")
