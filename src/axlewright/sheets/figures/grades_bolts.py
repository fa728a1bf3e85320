"""Bolts, nuts and cracks as they are seen: 26 by 20 mm, not to scale."""

from __future__ import annotations

import math

from axlewright.sheets.drawing import Drawing, Path, Point, Shape
from axlewright.sheets.figures.shapes import Ring, circle, drawn, filled, head, line, lines, polygon, ring

_AT: Point = (13.0, 9.4)


def bolts(grade: str) -> Drawing:
    says, shapes = {
        "still": ("Bolt head: the paint mark runs straight from head to flange.", (*_bolt(), *_paint(0.0))),
        "streak": (
            "Bolt head with a rust streak, a shiny ring round it and a broken paint mark.",
            (*_streaked(), *_paint(14.0)),
        ),
        "loose": ("Bolt head that turns: head and flange marks stand apart.", (*_bolt(), *_paint(38.0), *_turning())),
        "gone": ("An empty hole, the bolt gone, and a head that broke off.", _gone()),
    }[grade]
    return drawn(20.0, says, *shapes, width=26.0)


def nuts(grade: str) -> Drawing:
    says, shapes = {
        "still": (
            "Wheel nut: the paint mark runs straight, at two looks running.",
            (*_nut(), *_paint(0.0), *_ticks(2)),
        ),
        "once-still": (
            "Wheel nut: the paint mark runs straight, at one look so far.",
            (*_nut(), *_paint(0.0), *_ticks(1)),
        ),
        "streak": (
            "Wheel nut with a rust streak, a shiny ring and a broken paint mark.",
            (*_streaked(), *_stud(), *_paint(14.0)),
        ),
        "moved": ("Wheel nut that has turned: the marks stand apart.", (*_nut(), *_paint(38.0), *_turning())),
        "gone": ("A stud without its nut, broken, in a hole worn oval.", _oval()),
    }[grade]
    return drawn(20.0, says, *shapes, width=26.0)


def cracks(grade: str) -> Drawing:
    """A flange corner, and the bridge between two stud holes: where cracks begin."""
    says = {
        "none": "Flange corner and stud holes, bare and whole.",
        "suspect": "A fine line at the flange corner and between two stud holes.",
        "crack": "A line that bleeds rust, at the flange corner and between two stud holes.",
    }[grade]
    corner: Ring = ((1.5, 2), (6, 2), (6, 9), (12.5, 9), (12.5, 17.5), (1.5, 17.5))
    shapes: list[Shape] = [
        *filled(corner, "cut"),
        circle("paper", 20.0, 9.8, 8.0),
        circle("thin", 20.0, 9.8, 2.6),
        circle("paper-thin", 15.9, 6.6, 1.5),
        circle("paper-thin", 24.1, 6.6, 1.5),
    ]
    at_corner: Ring = ((6.0, 9.0), (4.9, 10.4), (4.6, 12.0), (3.4, 13.6))
    between: Ring = ((17.4, 6.3), (18.9, 5.7), (20.3, 6.5), (22.6, 6.2))
    if grade == "suspect":
        shapes.append(lines("hidden", (at_corner, between)))
    if grade == "crack":
        shapes.append(Path(d="M6.3 9.3q-.6 3 -2.8 7.2h1.7q1.4 -3.6 1.7 -6.8z", role="solid-must"))
        shapes.append(Path(d="M19.4 6q.2 3.4 -.7 7.6h1.7q.2 -3.4 .1 -7.3z", role="solid-must"))
        shapes.append(lines("outline", (at_corner, between)))
    return drawn(20.0, says, *shapes, width=28.5)


def _hexagon(x: float, y: float, r: float, turn: float = 0.0) -> Ring:
    return tuple(
        (x + r * math.sin(math.tau * i / 6 + turn), y - r * math.cos(math.tau * i / 6 + turn)) for i in range(6)
    )


def _bolt() -> tuple[Shape, ...]:
    return (circle("paper-thin", *_AT, 7.6), polygon("paper", _hexagon(*_AT, 6.4)))


def _stud() -> tuple[Shape, ...]:
    return (circle("paper-thin", *_AT, 3.3), circle("thin", *_AT, 2.5))


def _nut() -> tuple[Shape, ...]:
    return (*_bolt(), *_stud())


def _streaked() -> tuple[Shape, ...]:
    x, y = _AT
    d = f"M{x + 3.2} {y + 5.6}q3.2 .8 4.8 4.6h-2.8q-1.7 -2.8 -3.9 -3.4z"
    return (circle("oil", x, y, 8.6), circle("blank", x, y, 7.6), *_bolt(), Path(d=d, role="solid-must"))


def _paint(turned: float) -> tuple[Shape, ...]:
    """A stroke of paint across head and flange; the half on the head has turned by so many degrees."""
    x, y = _AT
    a = math.radians(-45.0 + turned)
    inner = ((x + 3.5 * math.sin(a), y - 3.5 * math.cos(a)), (x + 5.8 * math.sin(a), y - 5.8 * math.cos(a)))
    b = math.radians(-45.0)
    outer = ((x + 7.2 * math.sin(b), y - 7.2 * math.cos(b)), (x + 10.6 * math.sin(b), y - 10.6 * math.cos(b)))
    if turned:
        return (lines("limit", (inner, outer)),)
    return (line("limit", inner[0], outer[1]),)


def _turning() -> tuple[Shape, ...]:
    x, y = _AT
    return (
        Path(d=f"M{x + 2.6} {y - 9.1}a9.5 9.5 0 0 1 6.7 7", role="outline"),
        head((x + 9.6, y - 0.8), (0.28, 1.0), 2.2, 1.4),
    )


def _ticks(count: int) -> tuple[Shape, ...]:
    """One short stroke for each look at which it was still; an open one for the look to come."""
    return tuple(circle("solid" if look < count else "paper-thin", 22.6, 12.6 + 3.6 * look, 1.1) for look in range(2))


def _gone() -> tuple[Shape, ...]:
    return (
        circle("thin", 9.4, 9.4, 7.6),
        polygon("hidden", _hexagon(9.4, 9.4, 6.4)),
        circle("solid", 9.4, 9.4, 3.2),
        polygon("paper", _hexagon(21.4, 13.6, 3.6, 0.3)),
        line("outline", (19.6, 12.4), (21.0, 14.2), (21.8, 12.9), (23.2, 14.6)),
    )


def _oval() -> tuple[Shape, ...]:
    x, y = _AT
    return (
        circle("thin", x, y, 7.6),
        Path(
            d=f"M{x - 3.2} {y}a3.2 3.2 0 0 1 3.2 -3.2h1.6a3.2 3.2 0 0 1 0 6.4h-1.6a3.2 3.2 0 0 1 -3.2 -3.2z",
            role="paper",
        ),
        polygon("solid", ring(x, y, 2.5, 12)),
        polygon("hidden", _hexagon(x, y, 6.4)),
    )
