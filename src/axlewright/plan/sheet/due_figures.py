"""The curves of the Due room: what looks showed on a rule of machine hours, with the lines that stop."""

from __future__ import annotations

from datetime import date

from axlewright.plan.in_hand.trends import Trend, trends
from axlewright.plan.sheet.frame import Number, Numbers
from axlewright.sheets import Day, Figure, Section, Shown, Text, text
from axlewright.sheets.figures import trend as figures
from axlewright.trade.findings import Grade
from axlewright.yard import Yard

MOST = 3  # curves
HOUR = 3600.0
SOURCE = "the clock as it was read at the look, as it would read in the machine now"


def curves(yard: Yard, today: date, numbers: Numbers) -> tuple[tuple[Trend, ...], tuple[Section, ...]]:
    """The trends that want to be seen, and a section each."""
    found = trends(yard, today, MOST)
    return found, tuple(_section(yard, one, today, numbers, first=not n) for n, one in enumerate(found))


def _section(yard: Yard, one: Trend, today: date, numbers: Numbers, *, first: bool) -> Section:
    stood = yard.hours(one.corner.machine, today, one.clock)
    now = max(stood.hours if stood else 0.0, one.last.hours)
    drawing = figures.trend(
        [(look.hours, look.rank) for look in one.looks],
        [_rung(one, n, grade) for n, grade in enumerate(one.grades)],
        now,
        text(short(one.last.grade)),
        says(yard, one),
    )
    words = "A ring a look, mild below. Thin line: from there on no longer good."
    if one.stops is not None:
        words += " Heavy line: from there on FIELD and ROAD are no."
    twin = tuple(text("at ", _clock(one, look.hours, numbers), ", ", Day(on=look.on), f": {look.grade.words}") for look in one.looks)  # fmt: skip
    name = one.kind.name[0].upper() + one.kind.name[1:]
    return Section(
        heading=name,
        aside=f"{yard.named(one.corner)}, {one.clock} clock",
        blocks=(Figure(drawing=drawing, twin=twin, caption=text(words) if first else ()),),
    )


def _clock(one: Trend, hours: float, numbers: Numbers) -> Shown:
    name = f"due/trend/{one.corner}/{one.kind.id}/{hours:g}"
    number = Number(name, "duration", hours * HOUR, "measured", SOURCE)
    return numbers.show(number, on_tool="h", digits=len(f"{hours:g}".replace(".", "")), with_basis=False)


def _rung(one: Trend, n: int, grade: Grade) -> figures.Rung:
    if one.stops == n:
        return figures.Rung(text(f"{short(grade)}: FIELD no"), "stops")
    return figures.Rung(text(short(grade)), "worse" if one.worse == n else "")


def short(grade: Grade) -> str:
    """A grade in a word or two, as it stands beside a line."""
    return grade.id.replace("-", " ")


def says(yard: Yard, one: Trend) -> str:
    """What the curve shows, in a sentence."""
    told = ", ".join(f"{short(look.grade)} at {look.hours:g}" for look in one.looks)
    line = "" if one.stops is None else f" From {short(one.grades[one.stops])} on FIELD is no."
    return f"{one.kind.name[0].upper()}{one.kind.name[1:]} at {yard.named(one.corner)}, on a rule of {one.clock} hours: {told}.{line}"


def rising(yard: Yard, found: tuple[Trend, ...]) -> Text:
    """The worst trend in a sentence; nothing where none got worse."""
    first = next((one for one in found if one.rises and one.worse is not None and one.last.rank >= one.worse), None)
    if first is None:
        return ()
    before, after = first.looks[-2], first.looks[-1]
    line = "" if first.stops is None or after.rank >= first.stops else f" At {short(first.grades[first.stops])} FIELD is no."  # fmt: skip
    return text(
        f"{yard.named(first.corner)}: {first.kind.name} went from {short(before.grade)} to {short(after.grade)}.{line}"
    )
