"""Readings of a clock on a rule, and the one that cannot be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from axlewright.sheets.drawing import Drawing, Label, Shape
from axlewright.sheets.figures.shapes import FIELD, circle, drawn, line, lines, plain, voiced
from axlewright.sheets.text import Day, Text, text

_LEFT, _RIGHT, _TOP, _FOOT = 4.0, 86.0, 6.5, 60.5
_LOW, _HIGH = 0.93, 0.03  # share of the height at which the least reading and the greatest stand


@dataclass(frozen=True, slots=True)
class Reading:
    """A clock reading [h] on a day."""

    on: date
    hours: float


def jump(kept: Sequence[Reading], typed: Reading, last: Text, asked: Text) -> Drawing:
    """The readings kept so far on a rule of days, and the typed one that does not fit.

    Args:
        kept: readings in order of their days, at least one
        typed: the reading in doubt
        last: words at the last kept reading, `4 713, 14 Aug`
        asked: words at the typed one, `47 300 typed`

    Returns:
        the drawing; its heights are to scale, so that a slip of a digit leaps to the eye
    """
    every = [*kept, typed]
    first, until = kept[0].on, max(one.on for one in every)
    days = max((until - first).days, 1)
    low, high = min(one.hours for one in every), max(one.hours for one in every)
    reach = max(high - low, 1.0)

    def at(one: Reading) -> tuple[float, float]:
        share = (one.hours - low) / reach
        return (
            _LEFT + 4.0 + (_RIGHT - _LEFT - 15.0) * (one.on - first).days / days,
            _TOP + (_FOOT - _TOP) * (_LOW + (_HIGH - _LOW) * share),
        )

    points = [at(one) for one in kept]
    wrong, end = at(typed), points[-1]
    marks: list[Shape] = [
        line("outline", (_LEFT, _FOOT), (_RIGHT, _FOOT)),
        lines("dimension", [((_LEFT + 10 * k, _FOOT), (_LEFT + 10 * k, _FOOT + 1.6)) for k in range(9)]),
        line("must-dashed", end, wrong),
        *([line("subject", *points)] if len(points) > 1 else []),
        *(circle("paper", x, y, 1.05) for x, y in points),
        circle("solid-must", *wrong, 1.2),
        Label(at=(wrong[0] - 2.6, wrong[1] + 1.2), words=voiced(asked, "strong"), anchor="end", voice="must"),
        Label(at=(end[0] - 0.6, end[1] - 3.0), words=last, anchor="end" if end[0] > FIELD / 2 else "start"),
        Label(at=(_LEFT, _FOOT + 6.6), words=text(Day(on=first)), voice="soft"),
        Label(at=(_RIGHT - 2.0, _FOOT + 6.6), words=text(Day(on=until)), anchor="end", voice="soft"),
    ]
    says = f"{len(kept)} readings of the clock, and {plain(asked)}, which cannot be: it stands far off their line."
    return drawn(68.4, says, *marks)
