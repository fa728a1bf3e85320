"""Points of a machine, and what is done with them: seen along gravity, turned about a line.

Axes everywhere in holding: origin on the ground under the middle of the front axle, x forward, y left, z up,
square to the ground the machine stands on.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from axlewright.engines.limits import within
from axlewright.kinds import Angle, Array, Length, Number, Share

STEEPEST = np.pi / 4  # rad; a choice: nothing is held on more, and a slope typed in degrees is caught


@dataclass(frozen=True, slots=True)
class Point:
    """A point of the machine or under it.

    Attributes:
        x: forward of the front axle [m]
        y: left of the middle [m]
        z: above the ground [m]
    """

    x: Length
    y: Length
    z: Length

    def __sub__(self, other: Point) -> Point:
        return Point(self.x - other.x, self.y - other.y, self.z - other.z)

    def __add__(self, other: Point) -> Point:
        return Point(self.x + other.x, self.y + other.y, self.z + other.z)

    def times(self, factor: Number) -> Point:
        return Point(self.x * factor, self.y * factor, self.z * factor)


@dataclass(frozen=True, slots=True)
class Direction:
    """Which way, of any length: only the way counts.

    Attributes:
        x: part forward [-]
        y: part to the left [-]
        z: part up [-]
    """

    x: Share
    y: Share
    z: Share


class Three(Protocol):
    """Anything with three parts."""

    @property
    def x(self) -> Number: ...
    @property
    def y(self) -> Number: ...
    @property
    def z(self) -> Number: ...


def are_somewhere(**points: Point) -> None:
    """Refuse a point of which a coordinate is no number."""
    for name, p in points.items():
        for axis in ("x", "y", "z"):
            within(f"{name}.{axis}", getattr(p, axis))


def dot(a: Three, b: Three) -> Number:
    return a.x * b.x + a.y * b.y + a.z * b.z


def cross(a: Three, b: Three) -> Point:
    return Point(a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x)


def size(a: Three) -> Array:
    length: Array = np.sqrt(np.asarray(dot(a, a), float))
    return length


def gravity_along(nose_down: Angle, left_down: Angle) -> Direction:
    """The direction things fall, (tan a, tan b, -1): not of length one."""
    within("nose_down", nose_down, -STEEPEST, STEEPEST, "in radians")
    within("left_down", left_down, -STEEPEST, STEEPEST, "in radians")
    return Direction(np.tan(nose_down), np.tan(left_down), -1.0)


def seen_along(gravity: Three, p: Point) -> Point:
    """The point of the ground plane that lies under `p` along gravity."""
    return Point(p.x + p.z * gravity.x, p.y + p.z * gravity.y, 0.0 * p.z)


def double_area(a: Point, b: Point, c: Point) -> Number:
    """Twice the area of a triangle in plan; positive when a, b, c run to the left."""
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)


def turned(p: Point, about: Point, axis: Three, sine: Number, cosine: Number) -> Point:
    """A point turned about the line through `about` along `axis` (of length one), right-handed (Rodrigues)."""
    across = cross(axis, p - about)
    back = cross(axis, across)
    left = 1 - cosine
    return Point(
        p.x + across.x * sine + back.x * left,
        p.y + across.y * sine + back.y * left,
        p.z + across.z * sine + back.z * left,
    )
