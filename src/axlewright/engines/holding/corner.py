"""One front corner off its wheel: on a jack, a crib or a stand, level or raised; what is put on and taken off (A1)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.holding._points import Point, cross, dot, size, turned
from axlewright.engines.holding._three import on_three
from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Force, Length, Number, Share, YesNo


@dataclass(frozen=True, slots=True)
class Body:
    """What is held: its weight and where that acts.

    Attributes:
        weight: weight [N]
        x: centre of gravity forward of the front axle [m]
        y: centre of gravity left of the middle [m]
        z: centre of gravity above the ground, machine level [m]
    """

    weight: Force
    x: Length
    y: Length
    z: Length


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
class InboardJack:
    """A jack on the front axle's line, inboard of the wheel it takes the place of.

    Attributes:
        jack: load of the jack [N]
        other_wheel_change: what the other front wheel gains, so negative [N]
        rear_change: what the rear gains: nothing [N]
    """

    jack: Force
    other_wheel_change: Force
    rear_change: Force


@dataclass(frozen=True, slots=True)
class _Line:
    """The line a corner turns about when it is raised: other wheel's contact to rear pivot, turning the corner up."""

    wheel: Point
    pivot: Point
    axis: Point


def _turning_line(track: Length, wheelbase: Length, pivot_height: Length, lift: Point) -> _Line:
    above("track", track, 0, "a distance")
    above("wheelbase", wheelbase, 0, "a distance")
    within("pivot_height", pivot_height, 0)
    within("lift_x", lift.x)
    within("lift_z", lift.z)
    above("lift_y", np.abs(lift.y), 0, "left of the middle is positive, right negative; not in the middle")
    wheel, pivot = Point(0.0, -np.sign(lift.y) * track / 2, 0.0), Point(-wheelbase, 0.0, pivot_height)
    along = pivot - wheel
    axis = along.times(1 / size(along))
    up = np.sign(cross(axis, lift - wheel).z)
    return _Line(wheel, pivot, axis.times(up))


@dataclass(frozen=True, slots=True)
class _Turn:
    """A turn about that line by its sine and cosine, which is all that turning a point asks of it."""

    sine: Number
    cosine: Number


def _turn_for(line: _Line, lift: Point, rise: Length) -> _Turn:
    """The turn that raises the lift point by `rise`: B cos r + C sin r = B + rise, the lesser of its two answers.

    With R the reach, cos a = B/R and cos b = (B + rise)/R, it is r = a - b.
    """
    within("rise", rise, 0)
    v = lift - line.wheel
    beside = (v - line.axis.times(dot(v, line.axis))).z
    lever = cross(line.axis, v).z
    above("lift_y", lever, 0, "the lift point must be beside the line other wheel to pivot")
    if not np.any(rise):
        return _Turn(0.0 * lever, 1.0 + 0.0 * lever)
    square = beside * beside + lever * lever
    high = beside + rise
    within("rise", rise, 0, np.min(np.sqrt(square) - beside), "the lift point turns no higher")
    left = np.sqrt(np.maximum(square - high * high, 0.0))
    return _Turn((lever * high - beside * left) / square, (beside * high + lever * left) / square)


def corner_held(
    weight: Force,
    centre_x: Length,
    centre_y: Length,
    centre_z: Length,
    track: Length,
    wheelbase: Length,
    pivot_height: Length,
    lift_x: Length,
    lift_y: Length,
    lift_z: Length,
    rise: Length = 0.0,
    nose_down: Angle = 0.0,
    left_down: Angle = 0.0,
) -> CornerHeld:
    """Loads, tipping distances and drift of a machine held at one front corner, level or raised.

    One stage of the work is one call: weight and centre of gravity as they are then (before, with the wheel off,
    with the drive off), measured with the machine level, and the point that is held, jack or crib, at its rise.
    The body turns about the line from the other wheel's contact to the rear pivot.

    Args:
        weight: weight without the rear axle's own [N]
        centre_x: centre of gravity forward of the front axle, machine level, so negative [m]
        centre_y: centre of gravity left of the middle, machine level [m]
        centre_z: centre of gravity above the ground, machine level [m]
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
        loads, turn, drift, distances and tip slopes

    Source: rotation of a rigid body about a line, then equilibrium of parallel forces; statics.
    Valid: oscillating rear axle, body rigid, tyres of the standing wheels stiff; yaw free, so the drift holds to 30 %.

    >>> held = corner_held(90_000.0, -1.2, 0.0, 1.5, 2.6, 3.0, 0.6, 0.0, 1.0, 0.5)
    >>> round(float(held.corner)), round(float(held.drift), 6)  # 90000 (1 - 1.2/3) 1.3/2.3
    (30522, 0.0)
    """
    for what, value in (("centre_x", centre_x), ("centre_y", centre_y), ("centre_z", centre_z)):
        within(what, value)
    centre, lift = Point(centre_x, centre_y, centre_z), Point(lift_x, lift_y, lift_z)
    line = _turning_line(track, wheelbase, pivot_height, lift)
    turn = _turn_for(line, lift, rise)
    now, top = centre, lift  # nothing turns while it stands on the ground
    if np.any(turn.sine):
        now, top = (turned(p, line.wheel, line.axis, turn.sine, turn.cosine) for p in (centre, lift))
    drift_x, drift_y = top.x - lift.x, top.y - lift.y
    loads, front, far, near = on_three(weight, now, top, line.wheel, line.pivot, nose_down, left_down)
    return CornerHeld(
        loads.first,
        loads.second,
        loads.third,
        loads.square_share,
        loads.stands,
        np.arctan2(turn.sine, turn.cosine),
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


def block_gap_closed(
    track: Length,
    wheelbase: Length,
    pivot_height: Length,
    lift_x: Length,
    lift_y: Length,
    lift_z: Length,
    rise: Length,
    block_arm: Length,
) -> Length:
    """Gap taken up at the rear axle block on the far side when a front corner is raised.

    Args:
        track: distance of the front wheels' contacts [m]
        wheelbase: front axle to rear pivot [m]
        pivot_height: rear pivot above the ground [m]
        lift_x: lift point forward of the front axle [m]
        lift_y: lift point left of the middle [m]
        lift_z: lift point above the ground, machine level [m]
        rise: how far it is raised [m]
        block_arm: block to pivot, sideways [m]

    Returns:
        how far the body comes down on the far block [m]

    Source: rotation of a rigid body about the line other wheel to pivot.
    Valid: rear axle stays level with the ground.
    """
    within("block_arm", block_arm, 0)
    lift = Point(lift_x, lift_y, lift_z)
    line = _turning_line(track, wheelbase, pivot_height, lift)
    block = line.pivot + Point(0.0, -np.sign(lift_y) * block_arm, 0.0)
    turn = _turn_for(line, lift, rise)
    return block.z - turned(block, line.wheel, line.axis, turn.sine, turn.cosine).z


def jack_inboard(wheel_load: Force, track: Length, inboard: Length) -> InboardJack:
    """Load of a jack on the axle's line inboard of the wheel, from the load weighed under that wheel.

    Args:
        wheel_load: load under the wheel before [N]
        track: distance of the front wheels' contacts [m]
        inboard: wheel's contact to jack [m]

    Returns:
        load of the jack and what the other supports gain

    Source: moments about the other wheel; statics.
    Valid: level ground, jack on the line of the front axle, 0 to less than the track.

    >>> round(float(jack_inboard(48_000.0, 2.7, 0.3).jack))
    54000
    """
    within("wheel_load", wheel_load)
    above("track", track, 0, "a distance")
    within("inboard", inboard, 0, np.nextafter(np.min(track), 0), "between wheel and other wheel")
    factor = track / (track - inboard)
    return InboardJack(wheel_load * factor, wheel_load * (1 - factor), 0.0 * wheel_load * factor)


def beside_middle(track: Length, inboard: Length) -> Length:
    """How far a point on the axle lies from the machine's middle.

    Args:
        track: distance of the front wheels' contacts [m]
        inboard: wheel's contact to the point [m]

    Returns:
        distance [m]

    Source: geometry.
    Valid: on the wheel's own side of the middle.
    """
    above("track", track, 0, "a distance")
    within("inboard", inboard, -np.max(track), np.nextafter(np.min(track) / 2, 0), "on the wheel's side of the middle")
    return track / 2 - inboard


def load_relieved(part_weight: Force, part_inboard: Length, track: Length, held_inboard: Length) -> Force:
    """Fall of the load at the held corner when a part is taken off on the axle's line.

    Args:
        part_weight: weight of the part [N]
        part_inboard: wheel's contact to the part's centre of gravity [m]
        track: distance of the front wheels' contacts [m]
        held_inboard: wheel's contact to jack or crib [m]

    Returns:
        how much less the jack or crib carries [N]

    Source: moments about the other wheel; statics.
    Valid: level, part on the line of the front axle.
    """
    within("part_inboard", part_inboard)
    within("part_weight", part_weight, 0)
    above("track", track, 0, "a distance")
    within("held_inboard", held_inboard, 0, np.nextafter(np.min(track), 0), "between wheel and other wheel")
    return part_weight * (track - part_inboard) / (track - held_inboard)


def put_on(
    weight: Force,
    x: Length,
    y: Length,
    z: Length,
    part_weight: Force,
    part_x: Length,
    part_y: Length,
    part_z: Length,
) -> Body:
    """Weight and centre of gravity of a body with a part put on.

    Args:
        weight: weight of the body [N]
        x: its centre of gravity forward [m]
        y: its centre of gravity to the left [m]
        z: its centre of gravity up [m]
        part_weight: weight of the part [N]
        part_x: the part's centre of gravity forward [m]
        part_y: the part's centre of gravity to the left [m]
        part_z: the part's centre of gravity up [m]

    Returns:
        both together

    Source: sum of moments; statics.
    Valid: weights not negative.
    """
    for what, value in (("x", x), ("y", y), ("z", z), ("part_x", part_x), ("part_y", part_y), ("part_z", part_z)):
        within(what, value)
    within("part_weight", part_weight, 0)
    both = weight + part_weight
    above("weight", both, 0, "a weight")
    share = part_weight / both
    return Body(both, x + share * (part_x - x), y + share * (part_y - y), z + share * (part_z - z))


def taken_off(
    weight: Force,
    x: Length,
    y: Length,
    z: Length,
    part_weight: Force,
    part_x: Length,
    part_y: Length,
    part_z: Length,
) -> Body:
    """Weight and centre of gravity of a body with a part of it taken off.

    Args:
        weight: weight of the body with the part [N]
        x: its centre of gravity forward [m]
        y: its centre of gravity to the left [m]
        z: its centre of gravity up [m]
        part_weight: weight of the part [N]
        part_x: the part's centre of gravity forward [m]
        part_y: the part's centre of gravity to the left [m]
        part_z: the part's centre of gravity up [m]

    Returns:
        what is left

    Source: sum of moments; statics.
    Valid: the part weighs less than the whole.
    """
    for what, value in (("x", x), ("y", y), ("z", z), ("part_x", part_x), ("part_y", part_y), ("part_z", part_z)):
        within(what, value)
    within("part_weight", part_weight, 0)
    left = weight - part_weight
    above("weight", left, 0, "the part must weigh less than the whole")
    share = part_weight / left
    return Body(left, x - share * (part_x - x), y - share * (part_y - y), z - share * (part_z - z))
