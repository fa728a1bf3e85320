"""What three supports carry and how far each edge is, worked out together: shared by standing and raised machines."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.holding._points import Point, cross, gravity_along, size
from axlewright.engines.limits import above
from axlewright.kinds import Angle, Array, Force, Length, Share, YesNo

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


def on_three(
    weight: Force, centre: Point, first: Point, second: Point, third: Point, nose_down: Angle, left_down: Angle
) -> tuple[Reactions, Edge, Edge, Edge]:
    """Loads of three supports, and the edges first-second, second-third, third-first, each worked out once.

    The upright part of an edge's plane is the area that edge and centre of gravity cut off, seen along gravity: the
    same that gives the load of the third support.
    """
    above("weight", weight, 0, "a weight")
    gravity = gravity_along(nose_down, left_down)
    fall = size(gravity)
    arms = [p - centre for p in (first, second, third)]
    normals = [cross(arms[n], arms[(n + 1) % 3]) for n in range(3)]  # of the planes through an edge and the centre
    areas = [n.z - gravity.x * n.x - gravity.y * n.y for n in normals]  # twice those triangles, seen along gravity
    whole = areas[0] + areas[1] + areas[2]
    sides = [_seen_long(arms[(n + 1) % 3] - arms[n], gravity) for n in range(3)]
    longest = np.maximum(np.maximum(sides[0], sides[1]), sides[2])
    above("third", np.abs(whole) / longest**2, NEARLY_FLAT, "three points that are not on one line")
    inside = np.sign(whole)
    cut = [area * inside for area in areas]
    edges = []
    for n in range(3):
        plane = size(normals[n])
        above("centre", plane, 0, "off the line of an edge")
        edges.append(Edge(cut[n] / sides[n], np.arcsin(np.clip(cut[n] / (plane * fall), -1, 1))))
    share = weight / np.abs(whole)
    loads = Reactions(
        cut[1] * share,
        cut[2] * share,
        cut[0] * share,
        1 / fall,
        np.minimum(np.minimum(cut[0], cut[1]), cut[2]) >= 0,
    )
    return loads, edges[0], edges[1], edges[2]


def _seen_long(edge: Point, gravity: Point) -> Array:
    """Length of an edge seen along gravity."""
    x, y = edge.x + edge.z * gravity.x, edge.y + edge.z * gravity.y
    length: Array = np.sqrt(np.asarray(x * x + y * y, float))
    return length
