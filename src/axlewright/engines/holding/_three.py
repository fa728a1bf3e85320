"""What three supports carry and how far each edge is, worked out together: shared by standing and raised machines."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.holding._points import Direction, Point, cross, gravity_along, size
from axlewright.engines.limits import above
from axlewright.kinds import Angle, Area, Array, Force, Length, Share, YesNo

NEARLY_FLAT = 1e-9  # share of a triangle's longest side squared, under which its three points lie on a line


@dataclass(frozen=True, slots=True)
class Reactions:
    """What three supports carry, each taken along gravity.

    Attributes:
        first: load of the first support [N]
        second: load of the second support [N]
        third: load of the third support [N]
        square_share: part of each load that presses square on the ground [-]
        stands: no support would have to pull [-]
    """

    first: Force
    second: Force
    third: Force
    square_share: Share
    stands: YesNo


@dataclass(frozen=True, slots=True)
class Edge:
    """How far the centre of gravity is inside one edge of the supports.

    Attributes:
        distance: from the edge to the centre of gravity, both seen along gravity on the ground; negative outside [m]
        tip_slope: least further slope, in the worst direction, that tips it over this edge; negative outside [rad]
    """

    distance: Length
    tip_slope: Angle


@dataclass(frozen=True, slots=True)
class Triangle:
    """Three supports on a slope, whatever stands on them.

    Attributes:
        first: first support [m]
        second: second support [m]
        third: third support [m]
        gravity: the way things fall
        fall: length of `gravity`, whose upright part is 1 [-]
        area: twice the area of the triangle, seen along gravity; negative where it runs to the right [m^2]
        first_side: length of the edge first-second, seen along gravity [m]
        second_side: length of the edge second-third [m]
        third_side: length of the edge third-first [m]
    """

    first: Point
    second: Point
    third: Point
    gravity: Direction
    fall: Share
    area: Area
    first_side: Length
    second_side: Length
    third_side: Length


def triangle(first: Point, second: Point, third: Point, nose_down: Angle, left_down: Angle) -> Triangle:
    """Three supports on a slope, refused where they lie on one line."""
    gravity = gravity_along(nose_down, left_down)
    edges = (second - first, third - second, first - third)
    across = cross(edges[0], edges[1])
    area = across.z - gravity.x * across.x - gravity.y * across.y
    sides = [_seen_long(edge, gravity) for edge in edges]
    longest = np.maximum(np.maximum(sides[0], sides[1]), sides[2])
    above("third", np.abs(area) / longest**2, NEARLY_FLAT, "three points that are not on one line")
    return Triangle(first, second, third, gravity, size(gravity), area, *sides)


def on_three(weight: Force, centre: Point, on: Triangle) -> tuple[Reactions, Edge, Edge, Edge]:
    """Loads of three supports, and the edges first-second, second-third, third-first, each worked out once.

    The upright part of an edge's plane is the area that edge and centre of gravity cut off, seen along gravity: the
    same that gives the load of the third support.
    """
    above("weight", weight, 0, "a weight")
    gravity, inside = on.gravity, np.sign(on.area)
    arms = [p - centre for p in (on.first, on.second, on.third)]
    normals = [cross(arms[n], arms[(n + 1) % 3]) for n in range(3)]  # of the planes through an edge and the centre
    cut = [(n.z - gravity.x * n.x - gravity.y * n.y) * inside for n in normals]  # twice those triangles
    edges = []
    for area, normal, side in zip(cut, normals, (on.first_side, on.second_side, on.third_side), strict=True):
        plane = size(normal)
        above("centre", plane, 0, "off the line of an edge")
        sine = np.minimum(np.maximum(area / (plane * on.fall), -1.0), 1.0)
        edges.append(Edge(area / side, np.arcsin(sine)))
    share = weight / np.abs(on.area)
    loads = Reactions(
        cut[1] * share,
        cut[2] * share,
        cut[0] * share,
        1 / on.fall,
        np.minimum(np.minimum(cut[0], cut[1]), cut[2]) >= 0,
    )
    return loads, edges[0], edges[1], edges[2]


def _seen_long(edge: Point, gravity: Direction) -> Array:
    """Length of an edge seen along gravity."""
    x, y = edge.x + edge.z * gravity.x, edge.y + edge.z * gravity.y
    length: Array = np.sqrt(np.asarray(x * x + y * y, float))
    return length
