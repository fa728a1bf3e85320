"""The Choice sheet: one sentence, one call, one date; courses best first, the struck ones with what would lift them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import timedelta

import numpy as np

from axlewright.kinds import Array
from axlewright.plan.choice_made import Choice
from axlewright.plan.reckon.choice import CourseMade
from axlewright.plan.reckon.choice_task import RAISES
from axlewright.plan.sheet import choice_words as say
from axlewright.plan.sheet.bolt_words import NOT_WORKED
from axlewright.plan.sheet.choice_trace import ChoiceTrace as Trace
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.held import WORKED
from axlewright.sheets import (
    BasisEntry,
    Day,
    DotStrip,
    Figure,
    Note,
    Numbered,
    Run,
    Section,
    Sheet,
    Shown,
    Stopped,
    Strip,
    Text,
    Values,
    VerdictLine,
    text,
)
from axlewright.sheets.blocks import Dot, Item
from axlewright.sheets.figures import choice as figures
from axlewright.trade.choice import numbers

ROWS = 3  # of the revision table
MOST_STRIPS = 6  # courses with a strip of their own
MOST_FOUND = 3
DAY = 86400.0
AXIS = 0.97  # share of all dots that the axis holds


def choice_sheet(choice: Choice, lines: Sequence[VerdictLine], frame: Frame, basis: dict[str, BasisEntry]) -> Drawn:
    """The sheet of one page.

    Args:
        choice: the choice made out
        lines: both verdicts, as they are printed on top
        frame: what its title block says
        basis: of the numbers in the verdicts
    """
    trace = Trace(choice.made.w, dict(basis))
    sections = [
        Section(heading="", place="wide", blocks=(strips(choice, trace),)),
        _decide(choice),
        _find_out(choice, trace),
        *_turns(choice, trace),
    ]
    sheet = Sheet(
        name="choice",
        head=frame.head("Choice"),
        verdicts=tuple(lines),
        answer=say.answer(choice),
        lead=say.lead(choice),
        sections=tuple(sections),
        revisions=frame.revisions[-ROWS:],
        block=frame.block("Choice"),
    )
    return Drawn((sheet,), trace.entries)


def no_choice_sheet(because: str, lines: Sequence[VerdictLine], frame: Frame, basis: dict[str, BasisEntry]) -> Drawn:
    """The sheet where a number cannot be worked out: which one, and why."""
    told = Note(words=text(f"{because[0].upper()}{because[1:]}. Put it right among the prices and waits, or in the season’s file; the other sheets stand."))  # fmt: skip
    sheet = Sheet(
        name="choice",
        head=frame.head("Choice"),
        verdicts=tuple(lines),
        answer=text("No choice can be made out."),
        sections=(Section(heading="Why", place="wide", blocks=(told,)),),
        revisions=frame.revisions[-ROWS:],
        block=frame.block("Choice"),
    )
    return Drawn((sheet,), basis)


def strips(choice: Choice, trace: Trace) -> DotStrip:
    """The courses with their dots, best first, then what is struck out."""
    open_ = [one for one in say.ordered(choice) if not one.stopped]
    shown, rest = open_[:MOST_STRIPS], open_[MOST_STRIPS:]
    low, high = _axis(choice, shown)
    also = f" Also, dearer than these: {', '.join(say.words(one.name).title.lower() for one in rest)}." if rest else ""
    return DotStrip(
        quantity="money",
        low=low,
        high=high,
        note=(
            "Cost above a season without trouble, to next spring. One dot: one season in a hundred; full: a drive lets go in the field. Triangle: mean."
            + also
            + _not_known(choice),
            *say.bearings(choice, trace),
        ),
        strips=tuple(_strip(choice, one, trace, high) for one in shown),
        stopped=tuple(_stopped(choice, one) for one in choice.made.courses if one.stopped),
    )


def _not_known(choice: Choice) -> str:
    """Of courses that raise the corner: what passes here on likely numbers, and not yet on careful ones."""
    if not choice.unknown or not any(one.name in RAISES and not one.stopped for one in choice.made.courses):
        return ""
    told = "; ".join(f"{line}, by {_listed([MARGINS.get(one, one.replace('-', ' ')) for one in names])}" for line, names in choice.unknown)  # fmt: skip
    return f" Not known yet, as guesses stand: {told}."


MARGINS = {**WORKED, **NOT_WORKED}


def _listed(names: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def _axis(choice: Choice, shown: Sequence[CourseMade]) -> tuple[float, float]:
    """From the least cost to where nearly all dots lie, in round numbers."""
    every = np.concatenate([_costs(choice, one) for one in shown]) if shown else np.array([0.0, 1.0])
    least, most = float(every.min()), float(np.quantile(every, AXIS))
    most = max([most, *(one.mean for one in shown)])
    step = 10 ** math.floor(math.log10(max(most - least, 1.0))) / 2
    return math.floor(least / step) * step, math.ceil(most * 1.04 / step) * step


def _costs(choice: Choice, one: CourseMade) -> Array:
    return np.asarray(choice.made.w[f"{one.at}.dots"].draws, float)


def _strip(choice: Choice, one: CourseMade, trace: Trace, high: float) -> Strip:
    costs = _costs(choice, one)
    full = _full(choice, one, costs)
    dots = tuple(Dot(at=float(cost), full=bool(let)) for cost, let in zip(costs, full, strict=True) if cost <= high)
    title, note = say.words(one.name).title, _note(choice, one, trace)
    if one.name == "run with checks":
        title = f"{title} every {numbers().check_every / 3600:.0f} h"
    return Strip(
        letter=say.letters(choice)[one.name],
        label=text(title),
        note=note,
        values=_values(choice, one, trace),
        dots=dots,
        middle=(trace.show(f"{one.at}.mean", digits=3),),
        middle_at=one.mean,
        beyond=len(costs) - len(dots),
    )


def _full(choice: Choice, one: CourseMade, costs: Array) -> Array:
    """Which of the hundred seasons are those in which a drive let go: as many of each cost as there were."""
    both = choice.made.w["choice/compared"].draws
    k = choice.task.courses.index(one.name)
    order = np.argsort(np.asarray(both.costs)[:, k], kind="stable")
    failed = np.asarray(both.failed)[order, k] > 0
    part = [piece.mean() for piece in np.array_split(failed, len(costs))]
    owed, full = 0.0, []
    for share in part:  # carried over, so that as many dots are full as seasons let go
        owed += float(share)
        full.append(owed >= 0.5)
        owed -= full[-1]
    return np.array(full)


def _values(choice: Choice, one: CourseMade, trace: Trace) -> tuple[tuple[str, Text], ...]:
    need = choice.made.need_by
    ready = trace.keep(f"{one.at}/in-time.share").value
    return (
        ("mean cost", (trace.show(f"{one.at}.mean", digits=3),)),
        ("days lost", (_days(one, trace),)),
        ("lets go in field", _in_hundred(f"{one.at}.fails", trace)),
        ("ready today" if choice.made.begun else f"ready {need.day} {need:%b}", ("yes",) if ready >= 0.995 else _in_hundred(f"{one.at}/in-time.share", trace)),
        ("order by", _order_by(choice, one)),
    )  # fmt: skip


def _days(one: CourseMade, trace: Trace) -> Shown | str:
    entry = trace.keep(f"{one.at}.days_lost")
    return f"{entry.value / DAY:.1f}"


def _in_hundred(name: str, trace: Trace) -> Text:
    value = trace.keep(name).value
    return (f"{100 * value:.0f} ", Run(voice="soft", words=("in 100",)))


def _order_by(choice: Choice, one: CourseMade) -> Text:
    if not say.words(one.name).orders:
        return ("–",)
    if one.order_by is None:
        return ("none to be had",)
    if one.too_late:
        return ("today",) if choice.made.begun else (Run(voice="struck", words=(Day(on=one.order_by),)),)
    voice = "must" if one is choice.made.best else "strong"
    return (Run(voice=voice, words=(Day(on=one.order_by),)),)


def _note(choice: Choice, one: CourseMade, trace: Trace) -> Text:
    """What it takes now, and what it leaves."""
    cash = trace.keep(f"{one.at}.cash").value
    paid: Text = ("Cash now ", trace.show(f"{one.at}.cash", digits=2), ". ") if cash >= 1 else ()
    had = trace.keep(f"{one.at}/in-time.had").value
    rare = f" In {100 * (1 - had):.0f} of 100 none is to be had." if 1 - had > 0.005 else ""
    return (*paid, LEAVES[one.name] + rare)


LEAVES = {
    "run": "Nothing is looked at before it lets go.",
    "run with checks": "Plug, level, bolts and heat; it stops at what they find.",
    "reseal": "The bearings stay as they are.",
    "fit a spare": "It comes off the shelf; the old one takes its place by spring.",
    "fit a used drive": "Core saved, spare on the shelf by spring.",
    "fit a rebuilt exchange": "No spare kept.",
    "rebuild now": "It waits for parts and bench.",
    "hire out": "Your own machine stands.",
    "park": "The second machine does both.",
}


def _stopped(choice: Choice, one: CourseMade) -> Stopped:
    stop = choice.stops[one.name]
    return Stopped(
        letter=say.letters(choice)[one.name],
        label=text(say.words(one.name).title),
        why=text(stop.why),
        lifted_by=text(stop.lifted_by),
    )


def _decide(choice: Choice) -> Section:
    """The rule of days."""
    made, names = choice.made, say.letters(choice)
    flags = [
        figures.Flag(f"{names[one.name]} {say.words(one.name).short}", one.order_by, one is made.best)
        for one in made.courses
        if not one.stopped and one.order_by and (one.order_by - choice.task.today).days > -28
    ]
    ends = made.ends[1] or choice.task.today + timedelta(days=max(work.ends for work in choice.task.works))
    crop = choice.task.works[0].crop
    drawing = figures.decide_by(flags, choice.task.today, made.need_by, ends, crop)
    late = "" if not made.begun else " The work has begun: every day counts from today."
    told = f"Last day to order and still be ready on {made.need_by.day} {made.need_by:%B}, 9 seasons in 10, where there is one. Left of today: too late for that."  # fmt: skip
    return Section(
        heading="Decide by",
        aside=say.sure(),
        blocks=(Figure(drawing=drawing, caption=text(told + late), twin=(text(drawing.says),)),),
    )


def _find_out(choice: Choice, trace: Trace) -> Section:
    """What is worth finding out, with its own hours."""
    items = find_out_items(choice, trace, MOST_FOUND)
    block = Numbered(items=items) if items else Note(words=text("Nothing is worth more than the time it takes."))
    return Section(heading="Find out next", aside="worth to you, less your time", place="right", blocks=(block,))


def find_out_items(choice: Choice, trace: Trace, most: int) -> tuple[Item, ...]:
    """The looks and questions, each with its time, its worth and what it would change."""
    first = Item(number="", lead=say.FIRST_LOOK + ".", words=text("Half an hour, no jacking. It is not priced: FIELD asks for it."))  # fmt: skip
    items = [first] if choice.look_first else []
    for n, one in enumerate(say.find_out_rows(choice, most - len(items)), 1):
        worth = say.money(trace, f"find-out/{n}", one.net, f"worth of {one.name.removesuffix('-found')}: what the best course costs less, over its outcomes, less {one.minutes:.0f} minutes")  # fmt: skip
        items.append(
            Item(
                number="",
                lead=f"{say.find_out_name(one)}.",
                words=text(say.find_out_told(choice, one)),
                aside=(Run(voice="strong", words=(worth,)),),
            )
        )
    return tuple(items)


def _turns(choice: Choice, trace: Trace) -> tuple[Section, ...]:
    """What would turn it, one price at a time; and the most that a used drive is worth."""
    rows = list(say.turn_rows(choice, trace))
    if choice.worth is not None and choice.worth > 0:
        most = say.money(trace, "worth/used", choice.worth, "counts times prices: where a used drive’s mean cost is that of the best other course; freight taken off")  # fmt: skip
        rows.insert(0, (("The most that a used drive is worth to you at its seller’s",), (Run(voice="strong", words=(most,)),)))  # fmt: skip
    if not rows:
        return ()
    caution = Note(words=text("Money and chances on your figures; they do not make an unsafe machine safe."), size="small", voice="soft")  # fmt: skip
    return (Section(heading="What would turn it", aside="one at a time", place="wide", blocks=(Values(rows=tuple(rows)), caution)),)  # fmt: skip
