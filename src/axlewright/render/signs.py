"""Signs in path notation: shut eye, drop, quarters of the centre of gravity, arrowhead, polygon."""

from __future__ import annotations

from collections.abc import Iterable

from axlewright.render.geometry import Point, short

HEAD, HALF = 2.4, 0.42  # mm, an arrowhead's length and half its width


def polygon(points: Iterable[Point], *, closed: bool = True) -> str:
    """A line through points."""
    return "M" + "L".join(f"{short(x)} {short(y)}" for x, y in points) + ("Z" if closed else "")


def arrowhead(tip: Point, way: Point) -> str:
    """A head that points this way (a unit vector)."""
    (x, y), (ux, uy) = tip, way
    x0, y0 = x - ux * HEAD, y - uy * HEAD
    return polygon((tip, (x0 - uy * HALF, y0 + ux * HALF), (x0 + uy * HALF, y0 - ux * HALF)))


def quarters(x: float, y: float, r: float) -> str:
    """The two full quarters of a centre of gravity."""
    return "".join(
        f"M{short(x)} {short(y)}V{short(y - s * r)}A{short(r)} {short(r)} 0 0 1 {short(x + s * r)} {short(y)}Z"
        for s in (1, -1)
    )


def eye(x: float, y: float, wide: float) -> str:
    """A shut eye, its middle at x and y."""
    k = wide / 2.6

    def n(value: float) -> str:
        return short(value * k)

    lashes = (
        f"M{short(x)} {short(y + 0.3 * k)}v{n(0.72)}M{short(x - 0.8 * k)} {short(y + 0.12 * k)}l{n(-0.36)} {n(0.64)}"
    )
    lashes += f"M{short(x + 0.8 * k)} {short(y + 0.12 * k)}l{n(0.36)} {n(0.64)}"
    return f"M{short(x - 1.3 * k)} {short(y - 0.3 * k)}q{n(1.3)} {n(1.24)} {n(2.6)} 0" + lashes


def drop(x: float, y: float, tall: float) -> str:
    """A drop, its middle at x and y."""
    r = 0.3 * tall
    top, middle = y - tall / 2, y + tall / 2 - r
    return (
        f"M{short(x)} {short(top)}Q{short(x + r)} {short(middle - r)} {short(x + r)} {short(middle)}"
        f"A{short(r)} {short(r)} 0 0 1 {short(x - r)} {short(middle)}Q{short(x - r)} {short(middle - r)} {short(x)} {short(top)}Z"
    )
