"""One front corner off its wheel: on a jack, a crib or a stand, level or raised; what is put on and taken off (A1)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.holding._footing import CornerHeld as CornerHeld
from axlewright.engines.holding._footing import corner_footing as corner_footing
from axlewright.engines.holding._footing import stands_on as stands_on
from axlewright.engines.holding._footing import turn_for, turning_line
from axlewright.engines.holding._points import Point, turned
from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Force, Length


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
    footing = corner_footing(
        track, wheelbase, pivot_height, lift_x, lift_y, lift_z, rise=rise, nose_down=nose_down, left_down=left_down
    )
    return stands_on(weight, centre_x, centre_y, centre_z, footing)


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
    line = turning_line(track, wheelbase, pivot_height, lift)
    block = line.pivot + Point(0.0, -np.sign(lift_y) * block_arm, 0.0)
    turn = turn_for(line, lift, rise)
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
