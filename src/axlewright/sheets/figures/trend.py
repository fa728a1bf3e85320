"""What looks at one thing showed, time after time, on a rule of clock hours, with the lines that it must not pass."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from axlewright.sheets.drawing import Drawing, Label, Point, Shape
from axlewright.sheets.figures.shapes import FIELD, Anchor, box, circle, drawn, line, lines, voiced
from axlewright.sheets.text import Text, text

STEP, TOP = 7.6, 9.0  # mm: from one grade to the next, over the worst one
LEFT, RIGHT = 24.0, 84.0  # mm: the first look, right of the grades' words; the last or the clock now
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)
FEW = 4  # ticks with a reading


@dataclass(frozen=True, slots=True)
class Rung:
    """A grade: its words, and how its line is drawn: the mildest that is no longer good, or one that stops."""

    words: Text
    line: str = ""  # "worse" or "stops"


def trend(looks: Sequence[tuple[float, int]], rungs: Sequence[Rung], now: float, last: Text, says: str) -> Drawing:
    """Looks by the clock, mild below and bad above, joined in their order.

    Args:
        looks: clock reading [h] and rung of each look, the first first
        rungs: the grades, mild to bad
        now: what the clock reads [h]
        last: what stands at the last look
        says: what is seen, in a sentence
    """
    base = TOP + STEP * (len(rungs) - 1) + 6.0
    first, end = min(hours for hours, _ in looks), max(now, *(hours for hours, _ in looks))
    reach = max(end - first, 1.0)

    def x(hours: float) -> float:
        return LEFT + (RIGHT - LEFT) * (hours - first) / reach

    def y(rung: int) -> float:
        return base - 5.0 - STEP * rung

    shapes: list[Shape] = []
    for n, rung in enumerate(rungs):
        role = {"stops": "limit", "worse": "thin"}.get(rung.line, "hair")
        shapes.append(line(role, (0.0, y(n)), (FIELD, y(n))))  # type: ignore[arg-type]
        told = voiced(rung.words, "strong") if rung.line == "stops" else rung.words
        shapes.append(Label(at=(0.0, y(n) - 1.2), words=told, voice="must" if rung.line == "stops" else "plain" if rung.line else "soft"))  # fmt: skip
    points: list[Point] = [(x(hours), y(rung)) for hours, rung in looks]
    shapes.append(line("subject", *points))
    shapes += [circle("paper", px, py, 1.05) for px, py in points[:-1]]
    shapes.append(circle("solid", *points[-1], 1.3))
    px, py = points[-1]
    falls = len(points) > 1 and points[-2][1] < py  # the line comes from above: the word stands below it
    side: Anchor = "end" if px > FIELD / 2 and not falls else "start"
    if falls and px > FIELD - 16.0:
        side, py = "end", py + 7.0
    shapes.append(Label(at=(px + (-2.0 if side == "end" else 2.0), py - 1.8), words=last, anchor=side, size="key"))
    shapes += _rule(first, end, now, x, base)
    return drawn(base + 11.0, says, *shapes)


def _rule(first: float, end: float, now: float, x: Callable[[float], float], base: float) -> list[Shape]:
    """The rule of clock hours, its readings in whole steps, and where the clock stands."""
    step = next(one for one in STEPS if (end - first) / one <= FEW or one == STEPS[-1])
    at = [step * n for n in range(math.ceil(first / step), math.floor(end / step) + 1)]
    shapes: list[Shape] = [
        line("outline", (0.0, base), (FIELD, base)),
        box("solid", x(now) - 0.55, base - 2.4, 1.1, 5.0),
        Label(at=(min(x(now), 86.0), base + 9.6), words=voiced(text("now"), "strong"), anchor="middle"),
        Label(at=(FIELD, base + 5.4), words=text("h"), anchor="end", voice="soft"),
    ]
    if at:
        shapes.append(lines("dimension", [((x(one), base), (x(one), base + 1.8)) for one in at]))
    shapes += [Label(at=(x(one), base + 5.4), words=text(_spaced(one)), anchor="middle", voice="soft") for one in at if x(one) < RIGHT - 1.0]  # fmt: skip
    return shapes


def _spaced(hours: float) -> str:
    figures = f"{hours:.0f}"
    return figures if len(figures) < 4 else f"{figures[:-3]}\u202f{figures[-3:]}"
