"""What falls due on a rule of clock hours: where the clock stands, and a leader to each look."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from axlewright.sheets.drawing import Drawing, Label, Shape
from axlewright.sheets.figures.shapes import FIELD, box, circle, drawn, line, lines, plain, voiced
from axlewright.sheets.text import Text, text

LEFT, RIGHT, RULE, ROW = 4.0, 84.0, 9.0, 6.0  # mm: the first hour and the last on the rule, the rule, a row of words
LETTER = 1.9  # mm, about, of a letter of a label
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)
APART = 19.0  # mm from one reading on the rule to the next, or to where the clock stands


@dataclass(frozen=True, slots=True)
class Fall:
    """A look on the rule: at which hours of the clock, and its words."""

    at: float
    words: Text
    must: bool = False


def rule(now: float, stands: Text, falls: Sequence[Fall]) -> Drawing:
    """Looks on a rule of clock hours, the latest on top, so that no leader crosses a word.

    Args:
        now: what the clock reads [h]
        stands: the same in words
        falls: the looks, at least one
    """
    first = min(now, *(one.at for one in falls))
    reach = max(max(one.at for one in falls) - first, 1.0)
    longest = max(len(plain(one.words)) + 6 for one in falls)  # and the reading before them
    last = max(min(FIELD - 3.0 - LETTER * longest, RIGHT), 2 * LEFT)  # so far right that all words still fit

    def x(at: float) -> float:
        return LEFT + (last - LEFT) * (at - first) / reach

    shapes: list[Shape] = [line("outline", (0.0, RULE), (FIELD, RULE)), *_readings(first, reach, x, now)]
    shapes += [box("solid", x(now) - 0.5, RULE - 2.6, 1.0, 5.2), *_stands(x(now), stands)]
    for row, one in enumerate(sorted(falls, key=lambda fall: -fall.at)):
        at, foot = x(one.at), RULE + ROW * (row + 1) + 1.0
        shapes += [
            line("limit" if one.must else "thin", (at, RULE), (at, foot)),
            circle("solid-must" if one.must else "solid", at, foot, 0.7),
            Label(at=(at + 2.2, foot + 1.2), words=one.words, voice="must" if one.must else "plain"),
        ]
    said = "; ".join(plain(one.words) for one in sorted(falls, key=lambda fall: fall.at))
    return drawn(RULE + ROW * (len(falls) + 1), f"What falls due by the clock, the soonest first: {said}.", *shapes)


def _readings(first: float, reach: float, x: Callable[[float], float], now: float) -> list[Shape]:
    """Ticks in whole steps, as far as the rule goes, and readings where they have room beside the clock's own."""
    scale = x(first + 1.0) - x(first)
    step = next((one for one in STEPS if one * scale >= 3.0), STEPS[-1])
    count = int((RIGHT - LEFT) / (step * scale)) + 1
    ticks = [step * (math.ceil(first / step) + n) for n in range(count)]
    named = [
        at for at in ticks if at % (5 * step) == 0 and APART * 0.6 < x(at) <= RIGHT and abs(x(at) - x(now)) > APART
    ]
    shapes: list[Shape] = [lines("dimension", [((x(at), RULE), (x(at), RULE + (2.2 if at in named else 1.2))) for at in ticks if x(at) <= FIELD])]  # fmt: skip
    return [*shapes, *(Label(at=(x(at), RULE - 4.0), words=text(_spaced(at)), anchor="middle", voice="soft") for at in named)]  # fmt: skip


def _spaced(hours: float) -> str:
    figures = f"{hours:.0f}"
    return figures if len(figures) < 4 else f"{figures[:-3]}\u202f{figures[-3:]}"


def _stands(x: float, stands: Text) -> tuple[Shape, ...]:
    return (Label(at=(max(x - 1.0, 0.0), RULE - 4.0), words=voiced(stands, "strong")),)
