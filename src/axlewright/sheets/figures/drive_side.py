"""The outline of a drive from the side and from its wheel end, sized by its flange and length, turned as it hangs.

In metres: along the axis from the mounting face outwards, sideways to the right as seen from the wheel end, and up.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from axlewright.sheets.drawing import Point, Shape
from axlewright.sheets.figures.shapes import Ring, circle, line, lines, polygon

Space: TypeAlias = tuple[float, float, float]  # along, sideways, up [m]
Onto: TypeAlias = Callable[[Space], Point]

# Shares of the length (mounting face to hub flange) and of half the flange: an outline of a drive of no make.
_LONG, _HALF = 44.4, 19.2
_INPUT: Ring = ((-9.2, -6), (0, -8), (0, 8), (-9.2, 6))
_FLANGE: Ring = ((0, -19.2), (2.8, -19.2), (2.8, 19.2), (0, 19.2))
_BODY: Ring = (
    (2.8, -16),
    (18.8, -16),
    (31.6, -12),
    (34.8, -10.4),
    (42, -10.4),
    (42, 10.4),
    (34.8, 10.4),
    (31.6, 12),
    (18.8, 16),
    (2.8, 16),
)
_HUB: Ring = ((42, -12.96), (44.4, -12.96), (44.4, 12.96), (42, 12.96))
_NOSE: Ring = ((44.4, -7.2), (48.9, -6.4), (48.9, 6.4), (44.4, 7.2))
_STUDS = (-10.8, -5.0, 5.0, 10.8)


@dataclass(frozen=True, slots=True)
class Drive:
    """A drive by its size: flange diameter and length from mounting face to hub flange [m]."""

    flange: float = 0.48
    length: float = 0.555
    bolts: int = 12
    studs: int = 10

    def space(self, along: float, up: float) -> Space:
        """A point of the outline, from its shares."""
        return (along / _LONG * self.length, 0.0, up / _HALF * self.flange / 2)

    def half_at(self, along: float) -> float:
        """Half the height of the body at a place along the axis [m]."""
        share = along / self.length * _LONG
        upper = [(x, -y) for x, y in (*_FLANGE[:2], *_BODY[:5], *_HUB[:2]) if y < 0]
        for (ax, ay), (bx, by) in pairwise(upper):
            if ax <= share <= bx:
                part = (share - ax) / (bx - ax) if bx > ax else 0.0
                return (ay + (by - ay) * part) / _HALF * self.flange / 2
        return self.flange / 6


def from_side(drive: Drive, onto: Onto) -> tuple[Shape, ...]:
    """Mounting face left, wheel end right."""

    def placed(points: Ring) -> Ring:
        return tuple(onto(drive.space(x, -y)) for x, y in points)

    studs = [placed(((44.4, y - 0.8), (47.6, y - 0.8), (47.6, y + 0.8), (44.4, y + 0.8))) for y in _STUDS]
    ribs = [placed(((4.4, y), (18.8, y))) for y in (-12.8, 0.0, 12.8)]
    return (
        polygon("paper", placed(_INPUT)),
        polygon("paper", placed(_BODY)),
        lines("thin", (*ribs, placed(((18.8, -16), (18.8, 16))), placed(((31.6, -12), (31.6, 12))))),
        polygon("paper", placed(_FLANGE)),
        *(polygon("paper-thin", stud) for stud in studs),
        polygon("paper", placed(_HUB)),
        polygon("paper", placed(_NOSE)),
        lines("centre", [placed(((-1.2, y), (4.0, y))) for y in (-15.0, -11.0, 11.0, 15.0)]),
    )


def from_wheel_end(drive: Drive, onto: Onto, mm: Callable[[float], float]) -> tuple[Shape, ...]:
    """The flange with its bolts, the hub with its studs before it."""
    middle = onto((0.0, 0.0, 0.0))
    half = drive.flange / 2
    hub = 12.96 / _HALF * half

    def round_the(count: int, r: float, size: float) -> tuple[Shape, ...]:
        turns = [math.tau * (i + 0.5) / count for i in range(count)]
        return tuple(circle("paper-thin", *onto((0.0, r * math.sin(turn), r * math.cos(turn))), size) for turn in turns)

    return (
        circle("paper", *middle, mm(half)),
        *round_the(drive.bolts, half * 0.8, 0.9),
        circle("paper", *middle, mm(hub)),
        *round_the(drive.studs, half * 0.55, 1.2),
        circle("paper", *middle, mm(half * 0.375)),
        circle("thin", *middle, mm(half * 0.23)),
    )


def axis(drive: Drive, onto: Onto, beyond: float = 0.2) -> Shape:
    """The centre line along the axis."""
    return line("centre", onto((-0.14 - beyond / 4, 0, 0)), onto((drive.length + beyond, 0, 0)))
