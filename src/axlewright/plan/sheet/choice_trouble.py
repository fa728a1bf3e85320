"""The choice on the trouble's own sheet: what to do and by when, how long the drive may carry."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.plan.choice_made import Choice
from axlewright.plan.sheet import choice_words as say
from axlewright.plan.sheet.choice_trace import ChoiceTrace
from axlewright.sheets import BasisEntry, Day, Deciding, Figure, Go, Run, Section, Text, text
from axlewright.sheets.figures import choice as figures
from axlewright.trade.findings import CONDITIONS

HOUR = 3600.0


@dataclass(frozen=True, slots=True)
class ToldOfIt:
    """What the trouble's sheet says of the choice, and the basis of its numbers.

    Attributes:
        answer: the sentence, and `best` the same after a colon
        course: that is best by today's numbers; empty where none is
        lead: the one call, and the link to all courses
    """

    answer: Text
    course: str
    best: Text
    lead: Text
    link: Go
    deciding: tuple[Deciding, ...]
    condition: Text
    forecast: Section
    trace: ChoiceTrace

    @property
    def basis(self) -> dict[str, BasisEntry]:
        return self.trace.entries


def told_of(choice: Choice, number: int) -> ToldOfIt:
    """One sentence, one call, one date; and the forecast."""
    trace = ChoiceTrace(choice.made.w)
    many = len(choice.made.courses)
    link = Go(words=f"All {say.NUMBER[many]} courses stand on the Choice.", to=f"/trouble/{number}/choice")
    by = say.decide_by(choice)
    return ToldOfIt(
        answer=say.answer(choice, lettered=False),
        course=choice.made.best.name if choice.made.best else "",
        best=_within(say.answer(choice, lettered=False)),
        link=link,
        lead=(f"{say.call(choice)} ", link),
        deciding=(Deciding(number=(Day(on=by[0]),), words=by[1]),) if by else (),
        condition=_condition(choice),
        forecast=_forecast(choice, trace),
        trace=trace,
    )


def _within(said: Text) -> Text:
    """A sentence that goes on after a colon."""
    first, *rest = said
    return (first[0].lower() + first[1:], *rest) if isinstance(first, str) and first else said


def _condition(choice: Choice) -> Text:
    """Chances of each condition, likeliest first."""
    now = choice.made.w["condition"].draws.now
    rows = sorted(zip(CONDITIONS, now, strict=True), key=lambda pair: -pair[1])
    first, *rest = [f"{name} {100 * share:.0f}" for name, share in rows if share >= 0.005 or name == rows[0][0]]
    return text(f"{first} in 100" + (f"; {', '.join(rest)}" if rest else "") + ".")


def curve_of(choice: Choice) -> figures.Curve:
    """How many of a hundred such drives still carry, by hours from today."""
    w = choice.made.w
    found = w["condition"].draws
    hours = tuple(float(at) / HOUR for at in w["condition/ahead"].draws.hours)
    return figures.Curve(hours, *(tuple(map(float, part)) for part in (found.carries, found.low, found.high)))


def let_go_by_then(choice: Choice) -> float:
    """The share of such drives that has let go by the harvest’s end."""
    return 1 - figures.read_at(curve_of(choice), choice.made.clock_ends[1])


def _thousands(hours: float) -> str:
    """A clock reading as it stands on the other sheets."""
    return f"{hours:,.0f}".replace(",", "\u202f")


def _forecast(choice: Choice, trace: ChoiceTrace) -> Section:
    """The curve, its band and the harvest's end."""
    made, curve, by_then = choice.made, curve_of(choice), let_go_by_then(choice)
    clock = choice.task.clock
    at = made.clock_ends[1] + (clock.hours if clock else 0.0)
    low, middle, high = made.ends
    told: list[Text] = [(Run(voice="strong", words=("harvest ends",)),)]
    told.append(
        (Day(on=middle), f", at {_thousands(at)}" if clock else f", {at:.0f} h on") if middle else (f"{at:.0f} h on",)
    )
    if low and high and low != high:
        told.append(("(", Day(on=low), " to ", Day(on=high), ")"))
    drawing = figures.forecast(
        curve, made.clock_ends, clock.hours if clock else None, text(f"{100 * by_then:.0f}"), told
    )
    twin = text(f"By the harvest’s end {100 * by_then:.0f} of a hundred such drives have let go.")
    trace.keep("drive/hours")
    band = text("Band: what is not known about this design. Nobody goes on the road by a chance.")
    return Section(
        heading="Forecast",
        aside="machine hours; drives of this class and your findings",
        place="right",
        blocks=(Figure(drawing=drawing, caption=(*band, *say.bearings(choice, trace)), twin=(twin,)),),
    )
