"""Pictures of the cab card and the key tags: the hub with its cast mark, and the hole for the wire."""

from __future__ import annotations

import math

from axlewright.sheets.drawing import Drawing, Leader, Path
from axlewright.sheets.figures.shapes import circle, drawn, line, number
from axlewright.sheets.text import text

_R = 14.5  # mm, of the hub
_AT = (26.0, 17.0)


def hub(plug: float = 20.0) -> Drawing:
    """A hub from its wheel end, its cast mark level, the oil standing to the level plug.

    Args:
        plug: degrees that the level plug sits below the axis, to the right

    Returns:
        the drawing
    """
    x, y = _AT
    inside = _R - 0.6
    a = math.radians(plug)
    level = y + 9.4 * math.sin(a)
    half = math.sqrt(max(inside**2 - (level - y) ** 2, 0.0))
    large = 1 if level < y else 0
    n = number
    oil = f"M{n(x - half)} {n(level)}A{inside} {inside} 0 {large} 0 {n(x + half)} {n(level)}z"
    at = (x + 9.4 * math.cos(a), level)
    return drawn(
        34.0,
        "Hub from its wheel end: the cast mark level, oil to the level plug.",
        circle("paper", x, y, _R),
        Path(d=oil, role="oil"),
        circle("thin", x, y, 9.0),
        circle("paper", x, y, 3.4),
        line("outline", (x - _R - 3.4, y), (x - _R + 2.4, y)),
        line("outline", (x + _R - 2.4, y), (x + _R + 3.4, y)),
        circle("solid", *at, 1.5),
        Leader(at=at, to=((50.0, 32.4),), lines=(text("level plug"),), anchor="end"),
        Leader(at=(x - _R - 2.6, y), to=((0.0, y - 5.0),), lines=(text("mark"),), anchor="start"),
        width=52.0,
    )


def hole() -> Drawing:
    """A ring where the hole for the wire goes."""
    return drawn(
        8.0,
        "Hole for the wire.",
        circle("thin", 4.0, 4.0, 2.6),
        line("dimension", (4.0, 0.4), (4.0, 7.6)),
        line("dimension", (0.4, 4.0), (7.6, 4.0)),
        width=8.0,
    )
