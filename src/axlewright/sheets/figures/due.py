"""What falls due on a rule of clock hours: where the clock stands, and a leader to each look."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from axlewright.sheets.drawing import Drawing, Label, Shape
from axlewright.sheets.figures.shapes import FIELD, box, circle, drawn, line, plain, voiced
from axlewright.sheets.text import Text

LEFT, LAST, RULE, ROW = 4.0, 42.0, 9.0, 6.0  # mm: the clock now, the last look, the rule, one row of words
TICKS = 8


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

    def x(at: float) -> float:
        return LEFT + (LAST - LEFT) * (at - first) / reach

    shapes: list[Shape] = [line("outline", (0.0, RULE), (FIELD, RULE))]
    ends = [LEFT + (FIELD - 2 * LEFT) * n / TICKS for n in range(TICKS + 1)]
    shapes += [line("dimension", (at, RULE), (at, RULE + 1.4)) for at in ends]
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


def _stands(x: float, stands: Text) -> tuple[Shape, ...]:
    return (Label(at=(max(x - 1.0, 0.0), RULE - 4.0), words=voiced(stands, "strong")),)
