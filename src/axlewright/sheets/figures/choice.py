"""Figures of the choice: the days by which each course is ordered, what a used drive is worth, how long it may carry."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from axlewright.sheets.drawing import Drawing, Hatch, Label, Path, Point, Shape
from axlewright.sheets.figures.shapes import FIELD, circle, drawn, head, line, lines, number, rectangle, words
from axlewright.sheets.text import Day, Run, Text, text

LEFT, RIGHT = 1.0, 87.0
LETTER = 1.85  # mm, about, of a letter of a label


@dataclass(frozen=True, slots=True)
class Flag:
    """A course on the rule of days: its letter and short name, and its last day."""

    words: str
    on: date
    best: bool = False


def decide_by(flags: Sequence[Flag], today: date, begins: date, ends: date, crop: str) -> Drawing:
    """The last days to order, on a rule of days; left of today it is too late.

    Args:
        flags: courses that have such a day
        today: the sheet's day
        begins: the day on which work begins
        ends: the end of the harvest
        crop: its name, over the window
    """
    first = min([one.on for one in flags] + [today]) - timedelta(days=2)
    last = max(ends, today, begins) + timedelta(days=2)
    span = max((last - first).days, 1)
    flags = _merged(flags)

    def at(on: date) -> float:
        return LEFT + (RIGHT - LEFT) * (on - first).days / span

    base = 24.0 + 4.4 * max(_rows(flags, at) - 3, 0)
    shapes: list[Shape] = [
        Hatch(rings=(rectangle(at(max(begins, first)), base - 4.2, max(at(ends) - at(max(begins, first)), 1.0), 4.2),), fill="spread", outlined=True),
        line("outline", (LEFT - 1, base), (RIGHT + 1, base)),
        lines("dimension", [((at(first + timedelta(days=n)), base), (at(first + timedelta(days=n)), base + (1.8 if n % 7 == 0 else 1.0))) for n in range(span + 1)]),
        line("thin", (at(today), base - 7), (at(today), base + 2.2)),
    ]  # fmt: skip
    shapes += _flags(flags, at, base)
    middle = (at(max(begins, first)) + at(ends)) / 2
    shapes.append(Label(at=(min(middle, RIGHT - LETTER * len(crop) / 2), base - 5.4), words=text(crop), anchor="middle", voice="soft"))  # fmt: skip
    shapes += _days(flags, today, begins, ends, at, base)
    told = ", ".join(f"{one.words} {one.on:%d %b}" for one in flags)
    says = f"Last day to order, nine times in ten: {told}. Today {today:%d %b}." if flags else f"Today {today:%d %b}."
    return drawn(base + 9.5, says, *shapes)


def _rows(flags: Sequence[Flag], at: Callable[[date], float]) -> int:
    """How many rows the flags take."""
    return max((row for _, _, row in _placed(flags, at)), default=0) + 1


def _placed(flags: Sequence[Flag], at: Callable[[date], float]) -> list[tuple[Flag, float, int]]:
    """Each flag with the left end of its words and its row: from the last day back, one without room goes a row up."""
    found: list[tuple[Flag, float, int]] = []
    row, free = 0, RIGHT + 1
    for one in reversed(flags):
        wide = LETTER * len(one.words)
        left = min(max(at(one.on) - 1.0, LEFT), RIGHT + 1 - wide)
        row = row + 1 if left + wide > free - 1 and found else 0
        free = left
        found.append((one, left, row))
    return found


def _flags(flags: Sequence[Flag], at: Callable[[date], float], base: float) -> list[Shape]:
    """Flags in rows: from the last day back, each that has no room goes a row up, so that no staff crosses a name."""
    shapes: list[Shape] = []
    for one, left, row in _placed(flags, at):
        x, y = at(one.on), base - 9.5 - 4.4 * row
        shapes.append(line("limit" if one.best else "thin", (x, y + 1.0), (x, base)))
        told: Text = (Run(voice="strong", words=(one.words,)),) if one.best else (one.words,)
        shapes.append(Label(at=(left, y), words=told))
    return shapes


def _merged(flags: Sequence[Flag]) -> list[Flag]:
    """Flags in order of their days; those of one day share one."""
    found: list[Flag] = []
    for one in sorted(flags, key=lambda flag: flag.on):
        if found and found[-1].on == one.on:
            before = found.pop()
            one = Flag(f"{before.words}, {one.words}", one.on, before.best or one.best)
        found.append(one)
    return found


def _days(
    flags: Sequence[Flag], today: date, begins: date, ends: date, at: Callable[[date], float], base: float
) -> list[Shape]:
    """Days under the rule; what has no room is left out, the best's first."""
    best = [one.on for one in flags if one.best and one.on != today]
    wanted: list[tuple[date, Text, str]] = [(on, (Day(on=on),), "must") for on in best]
    wanted += [(today, ("today",), "strong"), (begins, (Day(on=begins),), "plain"), (ends, (Day(on=ends),), "plain")]
    wanted += [(one.on, (Day(on=one.on),), "soft") for one in flags if not one.best]
    taken: list[tuple[float, float]] = []
    shapes: list[Shape] = []
    for on, told, voice in wanted:
        half = LETTER * 3.2
        x = min(max(at(on), LEFT + half), RIGHT - half)
        if any(abs(x - other) < half + wide + 0.6 for other, wide in taken):
            continue
        taken.append((x, half))
        strong = voice in ("strong", "must")
        shapes.append(Label(at=(x, base + 6.4), words=(Run(voice="strong", words=told),) if strong else told, anchor="middle", voice="must" if voice == "must" else "plain"))  # fmt: skip
    return shapes


@dataclass(frozen=True, slots=True)
class Curve:
    """The chance that the drive still carries, at each time ahead [h]; its band."""

    hours: tuple[float, ...]
    carries: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]


def forecast(curve: Curve, ends: tuple[float, float, float], clock: float | None, chance: Text, end_words: Sequence[Text]) -> Drawing:  # fmt: skip
    """Of a hundred such drives those that still carry, over machine hours, with the harvest's end across.

    Args:
        curve: chances over the hours ahead
        ends: hours ahead at the harvest's end: one season in ten, every second, nine in ten
        clock: what the engine clock reads now [h]; None: hours from now stand below
        chance: the chance that it has let go by then, as a dimension
        end_words: what stands at the harvest's end
    """
    left, right, top, base = 11.0, 74.0, 7.0, 66.0
    most = curve.hours[-1]

    def x(hours: float) -> float:
        return left + (right - left) * min(max(hours / most, 0.0), 1.0)

    def y(share: float) -> float:
        return base - (base - top) * share

    at = ends[1]
    carries = _read(curve.carries, curve.hours, at)
    shapes: list[Shape] = []
    for part in (0, 25, 50, 75, 100):
        shapes.append(line("outline" if part == 0 else "hair", (left, y(part / 100)), (right, y(part / 100))))
        shapes.append(Label(at=(left - 2, y(part / 100) + 1.1), words=text(f"{part}"), anchor="end"))
    band = [(x(h), y(v)) for h, v in zip(curve.hours, curve.high, strict=True)]
    band += [(x(h), y(v)) for h, v in reversed(tuple(zip(curve.hours, curve.low, strict=True)))]
    shapes.append(Path(d="M" + "L".join(f"{number(px)} {number(py)}" for px, py in band) + "z", role="oil"))
    shapes.append(Hatch(rings=(rectangle(x(ends[0]), top, max(x(ends[2]) - x(ends[0]), 0.8), base - top),), fill="spread"))  # fmt: skip
    points: list[Point] = [(x(h), y(v)) for h, v in zip(curve.hours, curve.carries, strict=True)]
    shapes += [line("subject", *points), line("outline", (x(at), top), (x(at), base)), circle("solid", x(at), y(carries), 1.1)]  # fmt: skip
    shapes += [
        line("dimension", (x(at), y(carries)), (right + 10, y(carries))),
        line("dimension", (right, y(1.0)), (right + 10, y(1.0))),
    ]
    shapes += [
        line("dimension", (right + 8, y(1.0)), (right + 8, y(carries))),
        head((right + 8, y(1.0)), (0, -1)),
        head((right + 8, y(carries)), (0, 1)),
    ]
    shapes.append(
        Label(at=(right + 6.5, max(y((1 + carries) / 2) + 1.7, y(1.0) + 4.6)), words=chance, anchor="end", size="key")
    )
    for step in range(5):
        hours = most * step / 4
        told = f"{round(hours + clock)}" if clock is not None else f"{round(hours)}"
        shapes.append(Label(at=(x(hours), base + 5.4), words=text(_spaced(told)), anchor="middle"))
    shapes.append(Label(at=(right + 12, base + 5.4), words=text("h"), anchor="end"))
    side = x(at) - 2 if x(at) > (left + right) / 2 else x(at) + 2
    low = y(0.42) if carries > 0.55 else y(0.9)
    anchor = "end" if side < x(at) else "start"
    shapes += words((side, low), *end_words, anchor=anchor)  # type: ignore[arg-type]
    free = y(0.12) if carries > 0.3 else y(0.72)
    shapes += words((left + 2, free), "of a hundred still carrying", voice="soft")
    says = "Of a hundred drives of which this was seen, those that still carry, over machine hours; the band is what is not known of the design; across it the harvest’s end."
    return drawn(base + 8.5, says, *shapes, width=FIELD)


def read_at(curve: Curve, hours: float) -> float:
    """The chance that it still carries after so many hours."""
    return _read(curve.carries, curve.hours, hours)


def _read(values: Sequence[float], hours: Sequence[float], at: float) -> float:
    """A curve at some hours, straight between its points."""
    for n in range(1, len(hours)):
        if at <= hours[n]:
            part = (at - hours[n - 1]) / (hours[n] - hours[n - 1])
            return values[n - 1] + part * (values[n] - values[n - 1])
    return values[-1]


def _spaced(figures: str) -> str:
    return figures if len(figures) < 4 else f"{figures[:-3]}\u202f{figures[-3:]}"
