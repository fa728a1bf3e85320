"""Figures of the season: windows of crops on a rule of days, what a lost day costs by its date, and both while empty."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from axlewright.sheets.drawing import Drawing, Hatch, Label, Path, Shape
from axlewright.sheets.figures.shapes import (
    FIELD,
    Anchor,
    box,
    circle,
    drawn,
    line,
    lines,
    number,
    plain,
    rectangle,
    trace,
    voiced,
)
from axlewright.sheets.text import Day, Text, text

LEFT, RIGHT = 1.0, 87.0
ROW, BAR = 12.0, 4.4  # mm: one crop, its window
LETTER = 1.85  # mm, about, of a letter of a label
MANY = 75  # days over which a rule has a tick a week
APART = 15.0  # mm between two dates under a rule

Finish = tuple[date | None, date | None, date | None]


@dataclass(frozen=True, slots=True)
class Bar:
    """A crop on the rule of days.

    Attributes:
        name: machine and crop
        note: what stands at the right
        begins, ends: its window
        works: the first day on which the machine may cut it
        finish: when it is off: one season in ten, every second, nine in ten; None: not at all
        told: the window in words, for those who do not see it
    """

    name: Text
    note: Text
    begins: date
    ends: date
    works: date
    finish: Finish
    told: str


def calendar(bars: Sequence[Bar], today: date) -> Drawing:
    """Windows on a rule of days: the window a bar, the work a heavy line in it, hatched when it may be off; today's line across.

    Args:
        bars: at least one, from above
        today: the sheet's day
    """
    first = min(today, *(max(one.begins, today - timedelta(days=21)) for one in bars)) - timedelta(days=1)
    last = max(today, *(one.ends for one in bars)) + timedelta(days=2)
    at = _scale(first, last, LEFT, RIGHT)
    foot = 10.0 + ROW * len(bars)
    shapes = _rule(first, last, at, 6.0, foot)
    shapes.append(line("outline", (at(today), 6.0), (at(today), foot + 1.0)))
    for row, one in enumerate(bars):
        shapes += _bar(one, at, 14.0 + ROW * row)
    shapes.append(box("solid", at(today) - 0.55, 6.0, 1.1, 3.4))
    words = text("today, ", Day(on=today))
    anchor: Anchor = "start" if at(today) < FIELD / 2 else "end"
    shapes.append(Label(at=(at(today), foot + 5.0), words=voiced(words, "strong"), anchor=anchor))
    says = "Windows of the crops on a rule of days. " + "; ".join(one.told for one in bars) + f". Today {today:%d %b}."
    return drawn(foot + 6.6, says, *shapes)


def _bar(one: Bar, at: Callable[[date], float], y: float) -> list[Shape]:
    """A window: outlined, the work to be done a heavy line, hatched from when to when it may be off."""
    left, right = max(at(one.begins), LEFT - 1), at(one.ends + timedelta(days=1))
    low, middle, high = (right if day is None else at(day + timedelta(days=1)) for day in one.finish)
    top, mid = y + 1.6, y + 1.6 + BAR / 2
    begun = max(at(one.works), left)
    shapes: list[Shape] = [box("blank", left, top, right - left, BAR)]
    if high > low:
        shapes.append(Hatch(rings=(rectangle(low, top, max(high - low, 0.8), BAR),), fill="spread"))
    shapes.append(box("outline", left, top, right - left, BAR))
    shapes.append(line("subject", (begun, mid), (max(middle, begun + 0.4), mid)))
    shapes.append(line("outline", (middle, top), (middle, top + BAR)))
    shapes.append(Label(at=(LEFT - 1, y), words=one.name))
    shapes.append(Label(at=(RIGHT + 1, y), words=one.note, anchor="end"))
    return shapes


def _scale(first: date, last: date, left: float, right: float) -> Callable[[date], float]:
    span = max((last - first).days, 1)
    return lambda on: left + (right - left) * (on - first).days / span


def _rule(first: date, last: date, at: Callable[[date], float], y: float, foot: float) -> list[Shape]:
    """A rule of days on top, a date each so often, with hairlines down."""
    days = [first + timedelta(days=n) for n in range((last - first).days + 1)]
    weeks = [day for day in days if day.weekday() == 0]
    marked = _apart([*weeks], at)
    shown = weeks if len(days) > MANY else days
    return [
        lines("hair", [((at(day), y), (at(day), foot)) for day in marked]) if marked else box("blank", 0, 0, 0, 0),
        line("outline", (LEFT - 1, y), (RIGHT + 1, y)),
        lines("dimension", [((at(day), y), (at(day), y + (2.0 if day.weekday() == 0 else 1.1))) for day in shown]),
        *(Label(at=(at(day), y - 2.0), words=(Day(on=day),), anchor=_anchor(at(day)), voice="soft") for day in marked),
    ]


def _anchor(x: float) -> Anchor:
    return "start" if x < LEFT + 5 else "end" if x > RIGHT - 5 else "middle"


def _apart(days: Sequence[date], at: Callable[[date], float]) -> list[date]:
    """Of these days so many that their words do not touch, evenly."""
    if len(days) < 2:
        return list(days)
    step = max(math.ceil(APART / max(at(days[1]) - at(days[0]), 1e-6)), 1)
    return list(days[::step])


@dataclass(frozen=True, slots=True)
class Lost:
    """What a lost day costs, by its date: the middle season, one in ten below, nine in ten below [money]."""

    days: tuple[date, ...]
    low: tuple[float, ...]
    middle: tuple[float, ...]
    high: tuple[float, ...]


def lost_days(curve: Lost, finish: Finish, now: Text, hired: tuple[float, Text] | None) -> Drawing:
    """What a lost day costs, by its date; a band from one season in ten to nine in ten, hatched when the last crop may be off.

    Args:
        curve: by date
        finish: when the last crop is off
        now: the cost of the first day, as it stands at the curve
        hired: what a hired machine costs for a day, and its words
    """
    left, right, top, base = 13.0, 86.0, 8.0, 46.0
    last = curve.days[-1] + timedelta(days=1)
    at = _scale(curve.days[0], last, left, right)
    most = _ceiling(max((*curve.high, hired[0] * 1.25 if hired else 0.0, 1.0)))

    def y(money: float) -> float:
        return base - (base - top) * min(money / most, 1.0)

    shapes: list[Shape] = []
    for part in (0.0, 0.5, 1.0):
        shapes.append(line("outline" if part == 0 else "hair", (left, y(part * most)), (right + 1, y(part * most))))
        shapes.append(Label(at=(left - 1.6, y(part * most) + 1.2), words=text(_spaced(part * most)), anchor="end"))
    low, _, high = (last if day is None else day for day in finish)
    shapes.append(Hatch(rings=(rectangle(at(low), top, max(at(min(high, last)) - at(low), 0.8), base - top),), fill="spread"))  # fmt: skip
    upper = [(at(day), y(money)) for day, money in zip(curve.days, curve.high, strict=True)]
    lower = [(at(day), y(money)) for day, money in zip(curve.days, curve.low, strict=True)]
    shapes.append(Path(d=trace([*upper, *reversed(lower)]), role="oil"))
    points = [(at(day), y(money)) for day, money in zip(curve.days, curve.middle, strict=True)]
    if hired:
        shapes.append(line("thin", (left, y(hired[0])), (right + 1, y(hired[0]))))
        shapes.append(Label(at=(right + 1, y(hired[0]) - 1.2), words=hired[1], anchor="end"))
    shapes += [line("subject", *points), circle("solid", *points[0], 1.1)] if len(points) > 1 else []
    shapes.append(Label(at=(points[0][0] + 2.2, max(points[0][1] - 2.0, top + 3.0)), words=now, size="key"))
    shapes += _dates(curve.days[0], last, finish[1], at, base)
    says = "What a lost day costs by its date, for the middle season, with a band from one season in ten to nine in ten; hatched: when the last crop may be off."
    return drawn(base + 7.6, says, *shapes)


def _dates(first: date, last: date, off: date | None, at: Callable[[date], float], base: float) -> list[Shape]:
    """Ticks a day, and the first, the last and the middle day of its end under the rule."""
    span = (last - first).days
    days = [first + timedelta(days=n) for n in range(0, span + 1, 1 if span <= MANY else 7)]
    shapes: list[Shape] = [lines("dimension", [((at(day), base), (at(day), base + 1.2)) for day in days])]
    taken: list[float] = []
    for day, words in ((off, "off "), (first, ""), (last - timedelta(days=1), "")):
        if day is None:
            continue
        half = LETTER * (3.2 + len(words) / 2)
        x = min(max(at(day), 4.0 + half), 88.0 - half)
        if any(abs(x - other) < 2 * half for other in taken):
            continue
        taken.append(x)
        told: Text = (words, Day(on=day)) if words else (Day(on=day),)
        shapes.append(Label(at=(x, base + 5.8), words=voiced(told, "strong") if words else told, anchor="middle"))
    return shapes


def _ceiling(most: float) -> float:
    """The next 1, 2, 4, 6 or 8 of a power of ten over it: half of it is a plain number too."""
    power = 10.0 ** math.floor(math.log10(most))
    return next(n * power for n in (1, 2, 4, 6, 8, 10) if n * power >= most * 0.999)


def _spaced(money: float) -> str:
    figures = number(money) if money < 10 else f"{money:.0f}"
    return figures if len(figures) < 4 else f"{figures[:-3]}\u202f{figures[-3:]}"


def empty(today: date) -> Drawing:
    """A rule of days with a window that nobody has typed yet, dashed."""
    first, last = today, today + timedelta(days=41)
    at = _scale(first, last, LEFT, RIGHT)
    return drawn(
        46.0,
        "A rule of days, with the dashed window of a crop that nobody has written down yet.",
        *_rule(first, last, at, 6.0, 38.0),
        box("solid", at(today) - 0.55, 6.0, 1.1, 3.4),
        box(
            "hidden",
            at(today + timedelta(days=6)),
            17.0,
            at(today + timedelta(days=35)) - at(today + timedelta(days=6)),
            8.0,
        ),
        line("centre", (LEFT, 32.0), (RIGHT, 32.0)),
        Label(at=(44.0, 22.6), words=text("nothing to cut yet"), anchor="middle", size="key"),
        Label(at=(44.0, 44.0), words=text("which crop, from when to when"), anchor="middle", voice="soft"),
    )


def told(words: Text) -> str:
    """A text without its numbers, for the sentence that says what is seen."""
    return plain(words)
