"""The choice in words: what is to be done, whom to ring, by when, what would turn it, what to find out next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from axlewright.plan.bearings_of import CARRIES, NEEDED
from axlewright.plan.choice_made import Choice
from axlewright.plan.reckon.choice import CourseMade
from axlewright.plan.reckon.choice_bearings import LIFE, WHY_NOT
from axlewright.plan.reckon.choice_worth import FindOut, Turn
from axlewright.plan.sheet.choice_trace import ChoiceTrace as Trace
from axlewright.sheets import BasisEntry, Day, Run, Shown, Text
from axlewright.trade.choice import CourseWords, courses, numbers
from axlewright.trade.findings import findings
from axlewright.trade.first_look import calls
from axlewright.trade.looks import looks

LETTERS = "ABCDEFGHJ"
DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
PRICED = {
    "price/used": "A used drive, brought home, costs",
    "price/spare": "A spare on the shelf is worth",
    "price/hire": "A hired machine costs",
}
ASKS = {
    "lead/used": ("Ask the seller of a used drive for the day", "wait"),
    "price/used": ("Ask what a used drive costs", "price"),
    "lead/exchange": ("Ask the rebuilder for the day", "wait"),
    "lead/hire": ("Ask the contractor for the day", "wait"),
}
MOST_OUTCOMES = 2
FIRST_LOOK = "First look: wipe, chalk, breather, level, plug"


def letters(choice: Choice) -> Mapping[str, str]:
    """The letter of each course on the sheet: best first."""
    return {one.name: LETTERS[n] for n, one in enumerate(ordered(choice))}


def ordered(choice: Choice) -> tuple[CourseMade, ...]:
    """The courses as the sheet has them: the one to take, the others by cost, then what is struck out."""
    best = choice.made.best
    return tuple(sorted(choice.made.courses, key=lambda one: (one.stopped, one is not best)))


def words(course: str) -> CourseWords:
    return courses()[course]


def answer(choice: Choice, lettered: bool = True) -> Text:
    """What to do, in one sentence, with its day."""
    best = choice.made.best
    if choice.look_first:
        return ("First the half hour: wipe, chalk, breather, level, plug. No course is chosen before.",)
    if best is None:
        return ("Every course is struck out: what would lift that stands beside each.",)
    letter = f"{letters(choice)[best.name]}: " if lettered else ""
    does = words(best.name).does
    said = f"{letter}{does}" if letter else does[0].upper() + does[1:]
    return (f"{said}.", *_order(choice, best))


def _order(choice: Choice, best: CourseMade) -> Text:
    """By when it is ordered; of a course without an order, how long another stays open."""
    orders = words(best.name).orders
    if orders and best.order_by and not best.too_late:
        return (f" Order {orders} by {DAYS[best.order_by.weekday()]}", " ", Day(on=best.order_by), ".")
    if orders:
        return (f" Order {orders} today.",)
    return ()


def call(choice: Choice) -> str:
    """One telephone call."""
    best = choice.made.best
    if choice.look_first or best is None:
        return calls()["nobody"].words if "nobody" in calls() else "Nobody yet: look first."
    return words(best.name).call


def decide_by(choice: Choice) -> tuple[date, Text] | None:
    """The day after which something worth having drops out, and what that is. None: nothing is lost by waiting."""
    best = choice.made.best
    if best is None or choice.look_first:
        return None
    if best.order_by and not best.too_late:
        return best.order_by, ("decide by: after that it comes too late in more than 1 season of 10",)
    if words(best.name).orders:
        return choice.task.today, ("order today: in more than 1 season of 10 it is late already",)
    ahead = [one for one in choice.made.courses if not one.stopped and one.order_by and not one.too_late]
    if ahead:
        first = min(ahead, key=lambda one: one.order_by or choice.task.today)
        assert first.order_by is not None
        return first.order_by, (f"then {words(first.name).short} drops out: ordered later, it is late in more than 1 season of 10",)  # fmt: skip
    return None


def lead(choice: Choice) -> Text:
    """The call, and how many courses there are."""
    stopped = len([one for one in choice.made.courses if one.stopped])
    many = len(choice.made.courses)
    close = [one for one in choice.made.courses if one.too_close and not one.stopped]
    best = choice.made.best
    told = ("Too close to call by money: the one that lets go less often stands first. " if close and best and not choice.look_first else "")  # fmt: skip
    struck = f"; {NUMBER[stopped]} {'is' if stopped == 1 else 'are'} stopped" if stopped else ""
    return (f"{call(choice)} {told}{NUMBER[many].capitalize()} courses, best first{struck}.",)


NUMBER = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def turn_rows(choice: Choice, trace: Trace) -> Iterator[tuple[Text, Text]]:
    """Prices at which another course is better, one at a time."""
    names = letters(choice)
    for n, turn in enumerate(choice.turns):
        yield (*_turn(turn, n, trace),), (Run(voice="strong", words=(names[turn.course],)),)


def _turn(turn: Turn, n: int, trace: Trace) -> Text:
    kind = "area-price" if turn.price == "price/hire" else "money"
    name = f"turn/{n + 1}"
    trace.entries[name] = BasisEntry(name=name, kind=kind, value=float(turn.at), basis="computed", source="counts times prices: where two mean costs are the same", made_of=())  # fmt: skip
    word = "over" if turn.over else "under"
    return (f"{PRICED[turn.price]} {word} ", Shown(name=name, si=float(turn.at), digits=2))


def find_out_rows(choice: Choice, most: int) -> tuple[FindOut, ...]:
    """What is worth finding out, by its worth less the time it takes; then what a verdict asks for anyway."""
    good = [one for one in choice.found if one.net > 0]
    return tuple(good[:most])


def find_out_name(one: FindOut) -> str:
    """A look or a question, as a person is told of it."""
    asked = ASKS.get(one.name.removesuffix("-found"))
    if asked:
        return asked[0]
    look = looks()[findings()[one.name].look]
    return f"Raise it: {findings()[one.name].name}" if "R" in look.stages else f"{look.name}: {findings()[one.name].name}"  # fmt: skip


def find_out_time(one: FindOut) -> str:
    """How long it takes, people and support in it."""
    if one.name.removesuffix("-found") in ASKS:
        return f"{one.minutes:.0f} min, telephone"
    look = looks()[findings()[one.name].look]
    if "R" in look.stages:
        return f"{one.minutes / 60 / 2:.0f} h, two people; its own support sheet"
    people = "" if look.people == 1 else f", {NUMBER[look.people]} people"
    return f"{one.minutes / look.people:.0f} min{people}"


def first(before: Sequence[str]) -> str:
    """The looks that come before one: ` First: cracks.`"""
    return f" First: {', '.join(looks()[name].name.lower() for name in before)}." if before else ""


def find_out_then(choice: Choice, one: FindOut) -> str:
    """How it would change what is done."""
    best = choice.made.best
    if best is None or not one.turns:
        return "Whatever it shows, you would do the same."
    turned = [(shows, course) for shows, _, course in one.then if course != best.name]
    told = [f"{shows}: {words(course).short}" for shows, course in turned[:MOST_OUTCOMES]]
    return "; ".join(told)[0].upper() + "; ".join(told)[1:] + "."


def find_out_told(choice: Choice, one: FindOut) -> str:
    """How long it takes, how it would change what is done, and what comes before it."""
    before = choice.before.get(one.name, ())
    return f"{find_out_time(one)}. {find_out_then(choice, one)}{first(before)}"


def money(trace: Trace, name: str, si: float, source: str) -> Shown:
    """A sum of money that no formula of the engines gave by itself."""
    trace.entries[name] = BasisEntry(name=name, kind="money", value=si, basis="computed", source=source)
    return Shown(name=name, si=si, digits=2)


def sure() -> str:
    return f"{numbers().sure * 10:.0f} in 10 sure"


def bearings(choice: Choice, trace: Trace) -> Text:
    """What its bearings are rated for at this load, and that the forecast leans on it; else why it does not. Goes on a line."""
    w, missing = choice.made.w, choice.task.no_bearings
    if LIFE in w.got:
        hours = [trace.show(name, digits=2) for name in ("bearings/basic-time", f"{LIFE}.time")]
        return (" Bearings at this load, 9 pairs in 10: ", hours[0], " by load alone, ", hours[1], " with oil film and dirt; the forecast leans on it.")  # fmt: skip
    if WHY_NOT in w.things:
        return (f" Bearings: the class speaks alone. {w.things[WHY_NOT].value}",)
    if not missing:
        return ()
    if missing == (CARRIES,):
        return (f" Bearings: what this wheel carries is not known, so the class speaks alone: give the machine its kind, or type {CARRIES}.",)  # fmt: skip
    if set(missing) == set(NEEDED):
        return (" Bearings not typed, so the class speaks alone: sizes of both and where they sit, under Bearings.",)
    told = ", ".join(name.removeprefix("bearings/").replace("-", " ") for name in missing)
    return (f" Bearings: until {told} {'is' if len(missing) == 1 else 'are'} typed too, the class speaks alone.",)


def moved_by(choice: Choice) -> tuple[tuple[tuple[str, float], ...], str]:
    """The guesses that move the choice most, and what they move."""
    open_ = [one for one in choice.made.courses if not one.stopped]
    if len(open_) < 2:
        return (), ""
    names = letters(choice)
    return choice.moves, f"Of the difference in cost between courses {names[open_[0].name]} and {names[open_[1].name]}, over all draws."  # fmt: skip
