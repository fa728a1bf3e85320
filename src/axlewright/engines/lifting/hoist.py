"""Hoist and drive in motion: tipping, castors, the boom's arc, a drop through slack, a swing (A6)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.gravity import STANDARD_GRAVITY
from axlewright.engines.limits import above, within
from axlewright.kinds import Acceleration, Angle, Duration, Force, Length, Mass, Share, Speed, Stiffness


@dataclass(frozen=True, slots=True)
class HoistLoads:
    """Castor loads of a shop hoist.

    Attributes:
        front: both front castors [kg]
        rear: both rear castors; negative when it tips [kg]
        tips_at: reach of the hook at which it tips forward [m]
        margin: moment that holds it over the moment that tips it [-]
    """

    front: Mass
    rear: Mass
    tips_at: Length
    margin: Share


@dataclass(frozen=True, slots=True)
class BoomArc:
    """How the end of a boom moves between two angles.

    Attributes:
        drift: towards the hoist [m]
        lift: upward [m]
    """

    drift: Length
    lift: Length


@dataclass(frozen=True, slots=True)
class Drop:
    """A load that drops through slack onto its sling.

    Attributes:
        factor: peak over weight [-]
        peak: peak pull [N]
    """

    factor: Share
    peak: Force


@dataclass(frozen=True, slots=True)
class Swing:
    """A drive that comes free with its hook beside its centre of gravity.

    Attributes:
        angle: of the rope from plumb [rad]
        side_force: on the studs while the hook carries all of it [N]
        peak_share: greatest pull over weight [-]
        speed: through the middle [m/s]
        reach: how far it swings to the other side [m]
        period: there and back [s]
    """

    angle: Angle
    side_force: Force
    peak_share: Share
    speed: Speed
    reach: Length
    period: Duration


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a drive.

    Attributes:
        mass: mass [kg]
        at: its centre of gravity along the axis, from the mounting face [m]
    """

    mass: Mass
    at: Length


@dataclass(frozen=True, slots=True)
class Assembled:
    """Pieces together.

    Attributes:
        mass: mass [kg]
        at: centre of gravity along the axis, from the mounting face [m]
    """

    mass: Mass
    at: Length


def hoist_loads(hoist: Mass, hoist_centre: Length, wheelbase: Length, load: Mass, hook: Length) -> HoistLoads:
    """Castor loads of a shop hoist, and the reach at which it tips forward.

    Args:
        hoist: mass of the hoist [kg]
        hoist_centre: its centre of gravity ahead of the rear castors [m]
        wheelbase: rear to front castors [m]
        load: on the hook, handling in it [kg]
        hook: ahead of the rear castors [m]

    Returns:
        loads, reach, margin; infinite margin while the hook is behind the front castors

    Source: moments about the castors; statics.
    Valid: level concrete, legs down and locked; side tipping and swing looked at apart.
    """
    within("hook", hook)
    above("hoist", hoist, 0, "a mass")
    above("wheelbase", wheelbase, 0, "a distance")
    within("hoist_centre", hoist_centre, 0, np.min(wheelbase), "between its castors")
    above("load", load, 0, "a mass")
    front = (load * hook + hoist * hoist_centre) / wheelbase
    holds = hoist * (wheelbase - hoist_centre)
    out = np.asarray(load * (hook - wheelbase), float)
    margin = np.where(out > 0, holds / np.where(out > 0, out, 1.0), np.inf)
    return HoistLoads(front, load + hoist - front, wheelbase + holds / load, margin)


def boom_arc(boom: Length, start: Angle, end: Angle) -> BoomArc:
    """How far the hook moves in while a boom is raised.

    Args:
        boom: pivot to hook [m]
        start: of the boom over level, negative below [rad]
        end: of the boom over level [rad]

    Returns:
        drift and lift; rolling the hoist and lifting must go together

    Source: circle.
    Valid: boom on a pivot.
    """
    above("boom", boom, 0, "a length")
    within("start", start, -np.pi / 2, np.pi / 2)
    within("end", end, -np.pi / 2, np.pi / 2)
    return BoomArc(boom * (np.cos(start) - np.cos(end)), boom * (np.sin(end) - np.sin(start)))


def castor_push(radius: Length, step: Length) -> Share:
    """Push that rolls a castor over a step, over its load.

    Args:
        radius: of the castor [m]
        step: height of the step [m]

    Returns:
        push over load [-]

    Source: moment about the edge, sqrt(2 r s - s^2)/(r - s).
    Valid: step lower than the axle; on soil plates or another way.
    """
    above("radius", radius, 0, "a radius")
    within("step", step, 0, np.nextafter(np.min(radius), 0), "lower than the axle, else it cannot")
    return np.sqrt(2 * radius * step - step**2) / (radius - step)


def drop_through_slack(weight: Force, stiffness: Stiffness, slack: Length) -> Drop:
    """Peak pull when a drive drops through slack.

    Args:
        weight: weight [N]
        stiffness: of sling and hoist together [N/m]
        slack: drop before the sling is tight [m]

    Returns:
        factor and peak

    Source: energy, W (1 + sqrt(1 + 2 k s/W)).
    Valid: elastic rig, nothing lost; no slack at all is already twice.
    """
    above("weight", weight, 0, "a weight")
    above("stiffness", stiffness, 0, "a stiffness")
    within("slack", slack, 0)
    factor = 1 + np.sqrt(1 + 2 * stiffness * slack / weight)
    return Drop(factor, factor * weight)


def swing_free(
    weight: Force, offset: Length, hook_to_centre: Length, gravity: Acceleration = STANDARD_GRAVITY
) -> Swing:
    """What a drive does when it comes free with the hook beside its centre of gravity.

    Args:
        weight: weight [N]
        offset: hook beside the centre of gravity [m]
        hook_to_centre: pivot of the swing to centre of gravity [m]
        gravity: acceleration of gravity [m/s^2]

    Returns:
        side force before, swing after

    Source: pendulum; peak W (3 - 2 cos a).
    Valid: offset less than the drop; period of small swings.
    """
    above("gravity", gravity)
    above("weight", weight, 0, "a weight")
    above("hook_to_centre", hook_to_centre, 0, "a distance")
    within("offset", offset, 0, np.nextafter(np.min(hook_to_centre), 0), "less than the drop")
    angle = np.arcsin(offset / hook_to_centre)
    return Swing(
        angle,
        weight * np.tan(angle),
        3 - 2 * np.cos(angle),
        np.sqrt(2 * gravity * hook_to_centre * (1 - np.cos(angle))),
        hook_to_centre * np.sin(angle),
        2 * np.pi * np.sqrt(hook_to_centre / gravity),
    )


def assembled(pieces: tuple[Piece, ...]) -> Assembled:
    """Mass and centre of gravity of a drive from its pieces.

    Args:
        pieces: casing, gears, axle with flange, oil left in

    Returns:
        mass and place

    Source: sum of moments.
    Valid: oil runs to the low side when it tilts.
    """
    within("pieces", len(pieces), 1, 1000, "at least one piece")
    for piece in pieces:
        within("pieces", piece.mass, 0)
        within("pieces", piece.at)
    mass = sum((piece.mass for piece in pieces), 0.0)
    above("pieces", mass, 0, "together a mass")
    return Assembled(mass, sum((piece.mass * piece.at for piece in pieces), 0.0) / mass)
