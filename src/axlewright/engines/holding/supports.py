"""Three supports: what each carries, and how far the machine is from tipping over each edge (A1)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.holding._points import Point as Point  # stands here for all who hold and lift
from axlewright.engines.holding._points import are_somewhere as are_somewhere
from axlewright.engines.holding._points import cross, double_area, gravity_along, seen_along
from axlewright.engines.holding._three import Edge as Edge
from axlewright.engines.holding._three import Reactions as Reactions
from axlewright.engines.holding._three import on_three, triangle
from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Force, Length, Share, YesNo


@dataclass(frozen=True, slots=True)
class OnWheels:
    """A machine on its two front wheels and the pivot of its rear axle.

    Attributes:
        front_left: load of the left front wheel, along gravity [N]
        front_right: load of the right front wheel, along gravity [N]
        rear_pivot: load of the rear pivot, without the rear axle's own weight [N]
        square_share: part of each load that presses square on the ground [-]
        stands: no support would have to pull [-]
        front_distance: centre of gravity inside the front edge [m]
        left_distance: centre of gravity inside the edge left wheel to pivot [m]
        right_distance: centre of gravity inside the edge right wheel to pivot [m]
        tip_front: least further slope that tips it over the front edge [rad]
        tip_left: least further slope that tips it over the left edge [rad]
        tip_right: least further slope that tips it over the right edge [rad]
        tip_least: the least of the three [rad]
    """

    front_left: Force
    front_right: Force
    rear_pivot: Force
    square_share: Share
    stands: YesNo
    front_distance: Length
    left_distance: Length
    right_distance: Length
    tip_front: Angle
    tip_left: Angle
    tip_right: Angle
    tip_least: Angle


def three_supports(
    weight: Force,
    centre: Point,
    first: Point,
    second: Point,
    third: Point,
    nose_down: Angle = 0.0,
    left_down: Angle = 0.0,
) -> Reactions:
    """Loads of three supports under a rigid body on a two-way slope.

    Each load is the weight times the share of the area that the centre of gravity, seen along gravity, cuts off
    in the triangle of the supports. Supports may stand at different heights. A centre of gravity outside the
    triangle gives a negative load and `stands` false: for a stop, never for a sheet.

    Args:
        weight: weight of the body [N]
        centre: its centre of gravity [m]
        first: a support [m]
        second: a support [m]
        third: a support [m]
        nose_down: slope of the ground forward [rad]
        left_down: slope of the ground to the left [rad]

    Returns:
        loads along gravity [N]

    Source: equilibrium of parallel forces, any textbook of statics.
    Valid: rigid body on three points; exact with the supports in one plane, else good to 3 % up to 10 degrees of slope.

    >>> level = three_supports(90.0, Point(0, 0, 1), Point(1, 1, 0), Point(1, -1, 0), Point(-2, 0, 0))
    >>> [round(float(load), 6) for load in (level.first, level.second, level.third)]
    [30.0, 30.0, 30.0]
    """
    are_somewhere(centre=centre, first=first, second=second, third=third)
    return on_three(weight, centre, triangle(first, second, third, nose_down, left_down))[0]


def edge(
    centre: Point, start: Point, end: Point, opposite: Point, nose_down: Angle = 0.0, left_down: Angle = 0.0
) -> Edge:
    """Distance and slope left until a body tips over the line through two of its supports.

    Args:
        centre: centre of gravity [m]
        start: support at one end of the edge [m]
        end: support at the other end [m]
        opposite: the third support, which says which side is inside [m]
        nose_down: slope of the ground forward [rad]
        left_down: slope of the ground to the left [rad]

    Returns:
        distance in plan and least further slope

    Source: static overturning angle as in ISO 16231-2 clause 5; asin of the upright part of the normal of the plane
        through edge and centre of gravity, from statics.
    Valid: rigid body; a centre of gravity lower than the edge is answered too small.
    """
    are_somewhere(centre=centre, start=start, end=end, opposite=opposite)
    return on_three(1.0, centre, triangle(start, end, opposite, nose_down, left_down))[1]


def slope_share(slope: Angle) -> Share:
    """A slope as rise over run, as rules and phone levels have it.

    Args:
        slope: slope [rad]

    Returns:
        rise over run [-]

    Source: tangent.
    Valid: under a quarter turn.
    """
    within("slope", slope, -1.55, 1.55, "in radians")
    return np.tan(slope)


def steepest_slope(nose_down: Angle, left_down: Angle) -> Share:
    """Steepest slope of ground that falls both ways, as rise over run.

    Args:
        nose_down: slope of the ground forward [rad]
        left_down: slope of the ground to the left [rad]

    Returns:
        rise over run, never negative [-]

    Source: slope of a plane from its slopes along two ways square to one another.
    Valid: up to 45 degrees each way.

    >>> round(float(steepest_slope(np.arctan(0.03), np.arctan(-0.04))), 6)
    0.05
    """
    falls = gravity_along(nose_down, left_down)
    return np.hypot(falls.x, falls.y)


def tip_slope_towards(centre: Point, start: Point, end: Point, opposite: Point, downhill: Angle) -> Angle:
    """Slope, falling in one given direction, at which a body on level ground's triangle tips over an edge.

    Args:
        centre: centre of gravity [m]
        start: support at one end of the edge [m]
        end: support at the other end [m]
        opposite: the third support, which says which side is inside [m]
        downhill: direction the slope falls, from straight ahead to the left [rad]

    Returns:
        slope; a quarter turn where it never tips over this edge that way [rad]

    Source: gravity lies in the plane through edge and centre of gravity; statics.
    Valid: rigid body that stands when level.
    """
    within("downhill", downhill)
    are_somewhere(centre=centre, start=start, end=end, opposite=opposite)
    flat = Point(0.0, 0.0, -1.0)
    a, b, d = (seen_along(flat, p) for p in (start, end, opposite))
    normal = cross(end - start, centre - start).times(np.sign(double_area(a, b, d)))
    within("centre", normal.z, 0, np.inf, "it must stand when level")
    # the plane rises from the edge to the centre of gravity, so its normal leans out over the edge
    outward = normal.x * np.cos(downhill) + normal.y * np.sin(downhill)
    return np.where(outward > 0, np.arctan2(normal.z, outward), np.pi / 2)


def on_wheels(
    weight: Force,
    centre_x: Length,
    centre_y: Length,
    centre_z: Length,
    track: Length,
    wheelbase: Length,
    pivot_height: Length = 0.0,
    nose_down: Angle = 0.0,
    left_down: Angle = 0.0,
) -> OnWheels:
    """Loads under a machine that stands on its front wheels and its rear axle's pivot, and its distance from tipping.

    Args:
        weight: weight without the rear axle's own [N]
        centre_x: centre of gravity forward of the front axle, so negative [m]
        centre_y: centre of gravity left of the middle [m]
        centre_z: centre of gravity above the ground [m]
        track: distance of the front wheels' contacts [m]
        wheelbase: front axle to rear pivot [m]
        pivot_height: rear pivot above the ground [m]
        nose_down: slope of the ground forward [rad]
        left_down: slope of the ground to the left [rad]

    Returns:
        loads, distances and tip slopes

    Source: equilibrium of parallel forces; static overturning angle as in ISO 16231-2 clause 5.
    Valid: oscillating rear axle with wheels that roll freely; not for tracks, a rigid or driven rear axle, sprung legs.

    >>> held = on_wheels(90_000.0, -1.2, 0.0, 1.5, 2.6, 3.0)
    >>> round(float(held.front_left), 1), round(float(held.rear_pivot), 1)
    (27000.0, 36000.0)
    """
    above("track", track, 0, "a distance")
    above("wheelbase", wheelbase, 0, "a distance")
    within("pivot_height", pivot_height, 0)
    for what, value in (("centre_x", centre_x), ("centre_y", centre_y), ("centre_z", centre_z)):
        within(what, value)
    centre, left, right = Point(centre_x, centre_y, centre_z), Point(0.0, track / 2, 0.0), Point(0.0, -track / 2, 0.0)
    pivot = Point(-wheelbase, 0.0, pivot_height)
    loads, front, over_right, over_left = on_three(weight, centre, triangle(left, right, pivot, nose_down, left_down))
    least = np.minimum(np.minimum(front.tip_slope, over_left.tip_slope), over_right.tip_slope)
    return OnWheels(
        loads.first,
        loads.second,
        loads.third,
        loads.square_share,
        loads.stands,
        front.distance,
        over_left.distance,
        over_right.distance,
        front.tip_slope,
        over_left.tip_slope,
        over_right.tip_slope,
        least,
    )
