"""What a machine stands on while one front corner is held, apart from what it weighs: worked out once for many bodies."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.holding._points import Direction, Point, cross, dot, size, turned
from axlewright.engines.holding._three import Triangle, on_three, triangle
from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Force, Length, Number, Share, YesNo


@dataclass(frozen=True, slots=True)
class CornerHeld:
    """A machine with one front corner on a jack, crib or stand: one stage of the work.

    Attributes:
        corner: load of what holds the corner, along gravity [N]
        other_wheel: load of the other front wheel, along gravity [N]
        rear_pivot: load of the rear pivot, without the rear axle's own weight [N]
        square_share: part of each load that presses square on the ground [-]
        stands: no support would have to pull [-]
        roll: turn of the body about the line other wheel to pivot [rad]
        drift_x: travel of the lift point forward [m]
        drift_y: travel of the lift point to the left [m]
        drift: travel of the lift point in plan [m]
        centre_x: centre of gravity now, forward of the front axle [m]
        centre_y: centre of gravity now, left of the middle [m]
        centre_z: centre of gravity now, above the ground [m]
        front_distance: centre of gravity inside the front edge [m]
        near_distance: centre of gravity inside the edge from the held corner to the pivot [m]
        far_distance: centre of gravity inside the edge from the other wheel to the pivot [m]
        tip_front: least further slope that tips it over the front edge [rad]
        tip_near: least further slope that tips it over the edge at the held corner [rad]
        tip_far: least further slope that tips it over the edge at the other wheel [rad]
        tip_least: the least of the three [rad]
    """

    corner: Force
    other_wheel: Force
    rear_pivot: Force
    square_share: Share
    stands: YesNo
    roll: Angle
    drift_x: Length
    drift_y: Length
    drift: Length
    centre_x: Length
    centre_y: Length
    centre_z: Length
    front_distance: Length
    near_distance: Length
    far_distance: Length
    tip_front: Angle
    tip_near: Angle
    tip_far: Angle
    tip_least: Angle


@dataclass(frozen=True, slots=True)
class Line:
    """The line a corner turns about when it is raised: other wheel's contact to rear pivot, turning the corner up."""

    wheel: Point
    pivot: Point
    axis: Direction


def turning_line(track: Length, wheelbase: Length, pivot_height: Length, lift: Point) -> Line:
    above("track", track, 0, "a distance")
    above("wheelbase", wheelbase, 0, "a distance")
    within("pivot_height", pivot_height, 0)
    within("lift_x", lift.x)
    within("lift_z", lift.z)
    above("lift_y", np.abs(lift.y), 0, "left of the middle is positive, right negative; not in the middle")
    wheel, pivot = Point(0.0, -np.sign(lift.y) * track / 2, 0.0), Point(-wheelbase, 0.0, pivot_height)
    along = pivot - wheel
    up = np.sign(cross(along, lift - wheel).z) / size(along)
    return Line(wheel, pivot, Direction(along.x * up, along.y * up, along.z * up))


@dataclass(frozen=True, slots=True)
class Turn:
    """A turn about that line by its sine and cosine, which is all that turning a point asks of it."""

    sine: Number
    cosine: Number


def turn_for(line: Line, lift: Point, rise: Length) -> Turn:
    """The turn that raises the lift point by `rise`: B cos r + C sin r = B + rise, the lesser of its two answers.

    With R the reach, cos a = B/R and cos b = (B + rise)/R, it is r = a - b.
    """
    within("rise", rise, 0)
    v = lift - line.wheel
    beside = v.z - dot(v, line.axis) * line.axis.z
    lever = cross(line.axis, v).z
    above("lift_y", lever, 0, "the lift point must be beside the line other wheel to pivot")
    if not np.any(rise):
        return Turn(0.0 * lever, 1.0 + 0.0 * lever)
    square = beside * beside + lever * lever
    high = beside + rise
    within("rise", rise, 0, np.min(np.sqrt(square) - beside), "the lift point turns no higher")
    left = np.sqrt(np.maximum(square - high * high, 0.0))
    return Turn((lever * high - beside * left) / square, (beside * high + lever * left) / square)


@dataclass(frozen=True, slots=True)
class Footing:
    """What a machine stands on while a front corner is held, and how far it is turned; the same whatever it weighs.

    Attributes:
        on: the three supports: held point, other wheel, rear pivot
        level: held point with the machine level
        axis: along the line it turns about, other wheel to pivot
        sine: of the turn [-]
        cosine: of the turn [-]
    """

    on: Triangle
    level: Point
    axis: Direction
    sine: Share
    cosine: Share


def corner_footing(
    track: Length,
    wheelbase: Length,
    pivot_height: Length,
    lift_x: Length,
    lift_y: Length,
    lift_z: Length,
    rise: Length = 0.0,
    nose_down: Angle = 0.0,
    left_down: Angle = 0.0,
) -> Footing:
    """Where a machine stands that is held at one front corner, level or raised, whatever it weighs.

    Args:
        track: distance of the front wheels' contacts [m]
        wheelbase: front axle to rear pivot [m]
        pivot_height: rear pivot above the ground [m]
        lift_x: held point forward of the front axle [m]
        lift_y: held point left of the middle; its sign says which corner [m]
        lift_z: held point above the ground, machine level [m]
        rise: how far the held point is raised above that [m]
        nose_down: slope of the ground forward [rad]
        left_down: slope of the ground to the left [rad]

    Returns:
        supports and turn, for `stands_on`

    Source: rotation of a rigid body about a line.
    Valid: as `corner_held`.

    >>> round(
    ...     abs(float(corner_footing(2.6, 3.0, 0.6, 0.0, 1.0, 0.5).on.area)), 6
    ... )  # 2.3 x 3.0: twice that of the triangle
    6.9
    """
    level = Point(lift_x, lift_y, lift_z)
    line = turning_line(track, wheelbase, pivot_height, level)
    turn = turn_for(line, level, rise)
    # nothing turns while it stands on the ground
    now = turned(level, line.wheel, line.axis, turn.sine, turn.cosine) if np.any(turn.sine) else level
    on = triangle(now, line.wheel, line.pivot, nose_down, left_down)
    return Footing(on, level, line.axis, turn.sine, turn.cosine)


def stands_on(weight: Force, centre_x: Length, centre_y: Length, centre_z: Length, footing: Footing) -> CornerHeld:
    """Loads, tipping distances and drift of a machine on such a footing.

    Args:
        weight: weight without the rear axle's own [N]
        centre_x: centre of gravity forward of the front axle, machine level, so negative [m]
        centre_y: centre of gravity left of the middle, machine level [m]
        centre_z: centre of gravity above the ground, machine level [m]
        footing: what it stands on, of `corner_footing`

    Returns:
        loads, turn, drift, distances and tip slopes

    Source: rotation of a rigid body about a line, then equilibrium of parallel forces; statics.
    Valid: as `corner_held`.
    """
    for what, value in (("centre_x", centre_x), ("centre_y", centre_y), ("centre_z", centre_z)):
        within(what, value)
    on, sine, cosine = footing.on, footing.sine, footing.cosine
    centre = Point(centre_x, centre_y, centre_z)
    now = turned(centre, on.second, footing.axis, sine, cosine) if np.any(sine) else centre
    drift_x, drift_y = on.first.x - footing.level.x, on.first.y - footing.level.y
    loads, front, far, near = on_three(weight, now, on)
    return CornerHeld(
        loads.first,
        loads.second,
        loads.third,
        loads.square_share,
        loads.stands,
        np.arctan2(sine, cosine),
        drift_x,
        drift_y,
        np.sqrt(drift_x * drift_x + drift_y * drift_y),
        now.x,
        now.y,
        now.z,
        front.distance,
        near.distance,
        far.distance,
        front.tip_slope,
        near.tip_slope,
        far.tip_slope,
        np.minimum(np.minimum(front.tip_slope, near.tip_slope), far.tip_slope),
    )
