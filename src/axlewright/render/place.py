"""Where words of a drawing stand: as near as may be to where they were asked for, off each other, inside the field."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import cos, radians, sin
from typing import Literal, TypeAlias

from axlewright.render.face import width
from axlewright.render.show import Spans

Point: TypeAlias = tuple[float, float]
Box: TypeAlias = tuple[float, float, float, float]  # left, top, right, bottom
Anchor: TypeAlias = Literal["start", "middle", "end"]
PITCH, RISE, FALL = 1.2, 0.74, 0.22  # of the size: from line to line, over and under the baseline
AIR = 0.4  # mm between words
EYE = 3.0  # width of the shut eye beside words


@dataclass(slots=True)
class Saying:
    """Words wanted at a place: the anchor of their first baseline."""

    at: Point
    lines: tuple[Spans, ...]
    size: float
    anchor: Anchor = "start"
    classes: str = ""
    bold: bool = False
    turn: float = 0.0
    eye: bool = False
    shifts: Sequence[Point] = ((0.0, 0.0),)  # where they may stand instead, best first
    goes_to: str = ""
    taken: Point = field(default=(0.0, 0.0))

    def width(self, wider: float) -> float:
        """Width of the longest line, with the eye beside the first."""
        wide = [
            sum(width(s.words, self.size, bold=self.bold or s.voice in {"strong", "must"}) for s in line)
            for line in self.lines
        ]
        if self.eye and wide:
            wide[0] += EYE + 1
        return wider * max(wide, default=0.0)

    def corners(self, shift: Point = (0.0, 0.0), wider: float = 1.0) -> tuple[Point, ...]:
        """The corners of the room they take when shifted so."""
        wide = self.width(wider)
        left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[self.anchor]
        top, foot = -RISE * self.size, ((len(self.lines) - 1) * PITCH + FALL) * self.size
        c, s = cos(radians(self.turn)), sin(radians(self.turn))
        x0, y0 = self.at[0] + shift[0], self.at[1] + shift[1]
        ring = ((left, top), (left + wide, top), (left + wide, foot), (left, foot))
        return tuple((x0 + c * x - s * y, y0 + s * x + c * y) for x, y in ring)

    def box(self, shift: Point = (0.0, 0.0), wider: float = 1.0) -> Box:
        """The upright box around it."""
        xs, ys = zip(*self.corners(shift, wider), strict=True)
        return (min(xs), min(ys), max(xs), max(ys))


def shared(a: Box, b: Box) -> float:
    """Area that two boxes share, with air around them."""
    across = min(a[2], b[2]) - max(a[0], b[0]) + AIR
    down = min(a[3], b[3]) - max(a[1], b[1]) + AIR / 2
    return across * down if across > 0 and down > 0 else 0.0


def inside(box: Box, field_: Box) -> Point:
    """The shift that brings a box into the field."""
    return tuple(  # type: ignore[return-value]
        max(low - first, 0.0) or min(high - last, 0.0) if last - first <= high - low else low - first
        for first, last, low, high in ((box[0], box[2], field_[0], field_[2]), (box[1], box[3], field_[1], field_[3]))
    )


def settle(sayings: Iterable[Saying], taken: Iterable[Box], size: Point, wider: float) -> None:
    """Give each saying its shift: the first free one of its own, else the one that covers least."""
    room = list(taken)
    field_ = (0.0, 0.0, *size)
    for saying in sayings:
        best: tuple[float, Point, Box] | None = None
        for rank, wish in enumerate(saying.shifts):
            back = inside(saying.box(wish, wider), field_)
            shift = (wish[0] + back[0], wish[1] + back[1])
            box = saying.box(shift, wider)
            cost = sum(shared(box, other) for other in room) + 0.01 * rank
            if best is None or cost < best[0] - 1e-9:
                best = (cost, shift, box)
            if cost < 0.01 * (rank + 1):
                break
        assert best is not None, "a saying has at least one place"
        saying.taken = best[1]
        room.append(best[2])
