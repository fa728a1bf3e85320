"""What could push a machine over, off its crib or away: a push, wind, a slope, and what holds against rolling (A1)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Area, Density, Force, Length, Share, Speed, Torque, YesNo

AIR = 1.225  # kg/m^3, ISO 2533 standard atmosphere at sea level
BLUFF = 1.2  # drag factor of a bluff box, common practice, no source


@dataclass(frozen=True, slots=True)
class Push:
    """A level push square to an edge.

    Attributes:
        tips: push that tips the machine over the edge; negative when it is over already [N]
        slides: push that slides it [N]
    """

    tips: Force
    slides: Force


@dataclass(frozen=True, slots=True)
class Wind:
    """Wind on a side.

    Attributes:
        force: push of the wind [N]
        moment: its moment about the ground [N m]
    """

    force: Force
    moment: Torque


def push_to_upset(
    weight: Force,
    distance: Length,
    centre_height: Length,
    push_height: Length,
    friction: Share,
    slope: Angle = 0.0,
) -> Push:
    """Push that tips the machine over an edge, and push that slides it.

    Args:
        weight: weight [N]
        distance: centre of gravity to the edge, along the ground [m]
        centre_height: centre of gravity above the edge, square to the ground [m]
        push_height: push above the edge [m]
        friction: of what it stands on [-]
        slope: of the ground, falling towards the edge [rad]

    Returns:
        both pushes; a push at the edge's own height never tips (infinite)

    Source: moments and forces about the edge; statics.
    Valid: rigid machine, edge at the height of the ground.

    >>> round(float(push_to_upset(100_000.0, 0.9, 1.5, 1.8, 0.5).tips))
    50000
    """
    within("distance", distance)
    within("centre_height", centre_height)
    above("weight", weight, 0, "a weight")
    within("push_height", push_height, 0)
    within("friction", friction, 0, 2)
    within("slope", slope, -np.pi / 4, np.pi / 4, "in radians")
    moment = weight * (distance * np.cos(slope) - centre_height * np.sin(slope))
    height = np.asarray(push_height, float)
    never = np.where(moment < 0, -np.inf, np.inf)
    tips = np.where(height > 0, moment / np.where(height > 0, height, 1.0), never)
    return Push(tips, weight * (friction * np.cos(slope) - np.sin(slope)))


def wind_push(speed: Speed, side: Area, centre_height: Length, drag: Share = BLUFF, air: Density = AIR) -> Wind:
    """Force and moment of wind on the machine's side.

    Args:
        speed: speed of the wind [m/s]
        side: area of the side [m^2]
        centre_height: middle of that area above the ground [m]
        drag: drag factor [-]
        air: density of air [kg/m^3]

    Returns:
        force and moment about the ground

    Source: dynamic pressure q = rho v^2/2; drag factor of a bluff box 1.2, common practice, no source.
    Valid: gusts as the speed; no shelter.
    """
    within("air", air)
    for what, value in (("speed", speed), ("side", side), ("centre_height", centre_height), ("drag", drag)):
        within(what, value, 0)
    force = air * speed**2 / 2 * side * drag
    return Wind(force, force * centre_height)


def roll_demand(weight: Force, slope: Angle, pull: Force = 0.0) -> Force:
    """Force that the chocks must hold against rolling.

    Args:
        weight: whole weight on its wheels [N]
        slope: of the ground, along the machine [rad]
        pull: pull along the ground from outside, such as a bar's or a loader's [N]

    Returns:
        force along the ground [N]

    Source: W sin a + pull; statics.
    Valid: rolling friction counted as nothing.
    """
    above("weight", weight, 0, "a weight")
    within("slope", slope, -np.pi / 4, np.pi / 4, "in radians")
    within("pull", pull, 0)
    return weight * np.sin(np.abs(slope)) + pull


def climb_force(wheel_load: Force, wheel_radius: Length, block_height: Length) -> Force:
    """Push at which a wheel climbs over a block.

    Args:
        wheel_load: load of the wheel [N]
        wheel_radius: loaded radius [m]
        block_height: height of the block's edge [m]

    Returns:
        level push at the axle [N]

    Source: moment about the edge of the block; R sqrt(2 r h - h^2)/(r - h).
    Valid: rigid wheel on the block's edge; block lower than the axle. A soft tyre wraps the edge and climbs later.

    >>> round(float(climb_force(10_000.0, 1.0, 0.2)))
    7500
    """
    within("wheel_load", wheel_load, 0)
    above("wheel_radius", wheel_radius, 0, "a radius")
    within("block_height", block_height, 0, np.nextafter(np.min(wheel_radius), 0), "lower than the axle")
    return wheel_load * np.sqrt(2 * wheel_radius * block_height - block_height**2) / (wheel_radius - block_height)


def chock_hold(wheel_load: Force, wheel_radius: Length, block_height: Length, friction: Share) -> Force:
    """What one chocked wheel holds against rolling: the lesser of sliding with its chock and climbing over it.

    Args:
        wheel_load: load of the wheel [N]
        wheel_radius: loaded radius [m]
        block_height: height of the chock where the tyre bears [m]
        friction: of chock and tyre on the ground [-]

    Returns:
        force along the ground [N]

    Source: min(mu R, climb); statics.
    Valid: chocks on both sides of the wheel, touching; a chock of no height holds nothing.
    """
    within("friction", friction, 0, 2)
    return np.minimum(friction * wheel_load, climb_force(wheel_load, wheel_radius, block_height))


def three_chocked_wheels(
    other_wheel: Force,
    rear_wheel: Force,
    front_radius: Length,
    rear_radius: Length,
    block_height: Length,
    friction: Share,
) -> Force:
    """What holds a machine with one front corner clear: chocks at the other front wheel and at both rear wheels.

    Args:
        other_wheel: load of the other front wheel [N]
        rear_wheel: load of each rear wheel [N]
        front_radius: loaded radius of the front wheel [m]
        rear_radius: loaded radius of the rear wheels [m]
        block_height: height of the chocks where the tyres bear [m]
        friction: of chock and tyre on the ground [-]

    Returns:
        force along the ground [N]

    Source: sum of min(mu R, climb) over the chocked wheels; brake and gear count nothing.
    Valid: chocks on both sides of each of the three, touching.
    """
    front = chock_hold(other_wheel, front_radius, block_height, friction)
    return front + 2 * chock_hold(rear_wheel, rear_radius, block_height, friction)


def brake_before_differential(
    brake_torque: Torque, rolling_radius: Length, wheels_down: YesNo, drives_whole: YesNo
) -> Force:
    """What a parking brake or gear before an open differential holds at the ground.

    An open differential gives both sides equal torque: a side that is clear of the ground or open can take none, so
    the other gets none.

    Args:
        brake_torque: torque of the brake, both outputs together [N m]
        rolling_radius: loaded radius of the drive wheels [m]
        wheels_down: both drive wheels bear [-]
        drives_whole: both sides are whole from differential to wheel [-]

    Returns:
        force along the ground [N]

    Source: heavy-equipment power-train textbook (Goodheart-Willcox, 2019, pp. 581-582) for where the brake sits; statics.
    Valid: open differential; friction of the tyres not looked at here.
    """
    within("brake_torque", brake_torque, 0)
    above("rolling_radius", rolling_radius, 0, "a radius")
    return np.where(np.logical_and(wheels_down, drives_whole), brake_torque / rolling_radius, 0.0)


def service_brake(brake_torque: Torque, rolling_radius: Length, wheel_down: YesNo, side_whole: YesNo) -> Force:
    """What the service brake of one side holds at the ground: its own side only, while that side is whole.

    Args:
        brake_torque: torque of that side's brake at the wheel [N m]
        rolling_radius: loaded radius of the wheel [m]
        wheel_down: that wheel bears [-]
        side_whole: brake, half shaft, drive and wheel of that side are in place [-]

    Returns:
        force along the ground [N]

    Source: heavy-equipment power-train textbook (Goodheart-Willcox, 2019, pp. 581-582); statics.
    Valid: pedal held or latched; never counted while nobody sits there.
    """
    within("brake_torque", brake_torque, 0)
    above("rolling_radius", rolling_radius, 0, "a radius")
    return np.where(np.logical_and(wheel_down, side_whole), brake_torque / rolling_radius, 0.0)


def rear_wheel_load(rear_pivot: Force, axle_weight: Force) -> Force:
    """Load of one rear wheel: half of what the pivot brings and of the rear axle's own weight.

    Args:
        rear_pivot: load of the rear pivot [N]
        axle_weight: weight of rear axle and its wheels [N]

    Returns:
        load of each rear wheel [N]

    Source: moments about the pivot; statics.
    Valid: level across, pivot in the middle.
    """
    within("rear_pivot", rear_pivot)
    within("axle_weight", axle_weight, 0)
    return (rear_pivot + axle_weight) / 2
