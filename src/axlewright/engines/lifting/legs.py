"""One leg, two legs, level legs: closed forms, and what to change so that it hangs level (A6)."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

import numpy as np

from axlewright.engines.holding.supports import Point, are_somewhere
from axlewright.engines.lifting.hang import Line, hang
from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Array, Count, Force, Length, RotationalStiffness, Share, YesNo


@dataclass(frozen=True, slots=True)
class OneLeg:
    """A body on one leg.

    Attributes:
        tilt: from the wanted attitude [rad]
        tension: pull in the leg [N]
        holds: the centre of gravity is under the eye as wanted [-]
    """

    tilt: Angle
    tension: Force
    holds: YesNo


@dataclass(frozen=True, slots=True)
class TwoLegs:
    """A body on two rigid legs, hook in the plane of the eyes and the centre of gravity.

    Attributes:
        hook_from_eye_1: along the line of the eyes, from eye 1 towards eye 2 [m]
        hook_above_eyes: square to that line [m]
        tilt: positive where eye 2 comes up [rad]
        angle_1: leg 1 from plumb [rad]
        angle_2: leg 2 from plumb [rad]
        tension_1: pull in leg 1 [N]
        tension_2: pull in leg 2 [N]
        drop: hook to centre of gravity [m]
        roll_stiffness: against rolling about the line of the eyes; negative when it rolls over [N m/rad]
        holds: the centre of gravity is under the line of the eyes, and both legs pull [-]
    """

    hook_from_eye_1: Length
    hook_above_eyes: Length
    tilt: Angle
    angle_1: Angle
    angle_2: Angle
    tension_1: Force
    tension_2: Force
    drop: Length
    roll_stiffness: RotationalStiffness
    holds: YesNo


@dataclass(frozen=True, slots=True)
class LevelTwoLegs:
    """Two legs whose hook is over the centre of gravity, eyes at one height.

    Attributes:
        length_a: of leg A [m]
        length_b: of leg B [m]
        tension_a: pull in leg A [N]
        tension_b: pull in leg B [N]
    """

    length_a: Length
    length_b: Length
    tension_a: Force
    tension_b: Force


@dataclass(frozen=True, slots=True)
class LevelLegs:
    """Lengths with which a body hangs as wanted.

    Attributes:
        lengths: of each leg, in the order of the eyes [m]
        hook_above_centre: hook over the centre of gravity [m]
    """

    lengths: tuple[Length, ...]
    hook_above_centre: Length


@dataclass(frozen=True, slots=True)
class Sensitivity:
    """How far a body tilts for a centre of gravity that is elsewhere.

    Attributes:
        in_plane: tilt in the plane of two legs [rad]
        across: roll across it [rad]
    """

    in_plane: Angle
    across: Angle


@dataclass(frozen=True, slots=True)
class LinkPlan:
    """Whole links taken up, and how it hangs then.

    Attributes:
        links: taken up on each leg [1]
        tilt: from the wanted attitude [rad]
        end_up: slope of the body's x axis, positive where its far end comes up [rad]
        side_up: slope of the body's y axis, positive where its far side comes up [rad]
        greatest_angle: of any leg from plumb [rad]
    """

    links: tuple[Count, ...]
    tilt: Angle
    end_up: Angle
    side_up: Angle
    greatest_angle: Angle


def one_leg(weight: Force, offset: Length, drop: Length) -> OneLeg:
    """How a body hangs on one leg.

    Args:
        weight: weight [N]
        offset: centre of gravity beside the eye, as wanted [m]
        drop: centre of gravity under the eye, as wanted; negative above it [m]

    Returns:
        tilt and tension

    Source: the centre of gravity comes under the eye; statics.
    Valid: leg free to turn at its eye.

    >>> round(float(np.degrees(one_leg(3000.0, 0.05, 0.05).tilt)), 6)
    45.0
    """
    within("drop", drop)
    within("weight", weight, 0)
    within("offset", offset, 0)
    return OneLeg(np.arctan2(offset, drop), np.ones_like(np.asarray(offset, float)) * weight, np.asarray(drop) > 0)


def two_legs(
    weight: Force, span: Length, length_1: Length, length_2: Length, centre_from_eye_1: Length, centre_below: Length
) -> TwoLegs:
    """How a body hangs on two rigid legs in one plane with its centre of gravity.

    Args:
        weight: weight [N]
        span: between the eyes [m]
        length_1: of leg 1, bearing point to bearing point [m]
        length_2: of leg 2, bearing point to bearing point [m]
        centre_from_eye_1: centre of gravity along the line of the eyes, from eye 1 towards eye 2 [m]
        centre_below: centre of gravity under the line of the eyes; negative above it [m]

    Returns:
        hook, tilt, angles, tensions, whether it holds

    Source: triangle of the legs and three forces that meet (Lami); any textbook of statics.
    Valid: legs that make a triangle; eyes at one height where the body hangs as wanted.

    >>> held = two_legs(1000.0, 0.6, 0.5, 0.5, 0.3, 0.2)
    >>> round(float(held.tension_1), 6), round(float(held.tilt), 6)
    (625.0, 0.0)
    """
    within("weight", weight, 0)
    for what, value in (("span", span), ("length_1", length_1), ("length_2", length_2)):
        above(what, value, 0, "a length")
    within(
        "length_1",
        length_1 + length_2 - span,
        1e-9,
        np.inf,
        "both legs must reach one hook: together longer than the span",
    )
    within("length_2", span - np.abs(length_1 - length_2), 1e-9, np.inf, "legs that differ by less than the span")
    along = (length_1**2 - length_2**2 + span**2) / (2 * span)
    high = np.sqrt(length_1**2 - along**2)
    tilt = np.arctan2(along - centre_from_eye_1, high + centre_below)
    one, two = np.arctan2(along, high) - tilt, np.arctan2(span - along, high) + tilt
    drop = np.hypot(along - centre_from_eye_1, high + centre_below)
    above("centre_below", drop, 0, "the centre of gravity is not in the hook")
    pull_1, pull_2 = (weight * np.sin(angle) / np.sin(one + two) for angle in (two, one))
    return TwoLegs(
        hook_from_eye_1=along,
        hook_above_eyes=high,
        tilt=tilt,
        angle_1=one,
        angle_2=two,
        tension_1=pull_1,
        tension_2=pull_2,
        drop=drop,
        roll_stiffness=weight * high * centre_below / drop,
        holds=(np.asarray(centre_below) > 0) & (pull_1 >= 0) & (pull_2 >= 0),
    )


def level_two_legs(weight: Force, from_a: Length, from_b: Length, hook_above: Length) -> LevelTwoLegs:
    """Lengths and tensions of two legs with the hook over the centre of gravity, eyes at one height.

    Args:
        weight: weight [N]
        from_a: centre of gravity to eye A, along the line of the eyes [m]
        from_b: centre of gravity to eye B, along the line of the eyes [m]
        hook_above: hook above the eyes [m]

    Returns:
        lengths and tensions

    Source: lifting gear user guide (UK 2018, 2nd ed.), T_A = W d_B L_A/(H (d_A + d_B)); moments.
    Valid: eyes at one height on either side of the centre of gravity.
    """
    within("weight", weight, 0)
    within("from_a", from_a, 0)
    within("from_b", from_b, 0)
    above("from_a", from_a + from_b, 0, "two eyes apart")
    above("hook_above", hook_above, 0, "a height")
    length_a, length_b = np.hypot(from_a, hook_above), np.hypot(from_b, hook_above)
    share = weight / (hook_above * (from_a + from_b))
    return LevelTwoLegs(length_a, length_b, share * from_b * length_a, share * from_a * length_b)


def level_legs(centre: Point, eyes: tuple[Point, ...], kept: int, kept_length: Length) -> LevelLegs:
    """Lengths of all legs with which a body hangs as wanted, one leg's kept.

    Args:
        centre: centre of gravity, in the body
        eyes: where the legs bear, in the body
        kept: number of the leg that stays, from 1 [1]
        kept_length: its length [m]

    Returns:
        lengths, and the hook's height

    Source: hook on the plumb line through the centre of gravity; lengths are distances to it.
    Valid: kept leg longer than its eye lies beside that line.
    """
    within("eyes", len(eyes), 1, 4, "one to four legs")
    within("kept", kept, 1, len(eyes), "counted from 1")
    are_somewhere(centre=centre, **{f"eyes.{n}": eye for n, eye in enumerate(eyes, 1)})
    eye = eyes[kept - 1]
    beside = np.hypot(eye.x - centre.x, eye.y - centre.y)
    within("kept_length", kept_length - beside, 1e-9, np.inf, "longer than its eye lies beside the plumb line")
    hook_z = eye.z + np.sqrt(kept_length**2 - beside**2)
    return LevelLegs(_to_hook(centre, eyes, hook_z), hook_z - centre.z)


def shorten_only(centre: Point, eyes: tuple[Point, ...], lengths: tuple[Length, ...]) -> tuple[Length, ...]:
    """How much to change each leg so that the body hangs as wanted, where legs can only be made shorter.

    Args:
        centre: centre of gravity, in the body
        eyes: where the legs bear, in the body
        lengths: of the legs now [m]

    Returns:
        changes, none of them longer, one of them nothing [m]

    Source: the highest hook on the plumb line that no leg is too short for.
    Valid: every leg longer than its eye lies beside that line.
    """
    within("eyes", len(eyes), 1, 4, "one to four legs")
    within("lengths", len(lengths), len(eyes), len(eyes), "one length for each eye")
    heights = [level_legs(centre, eyes, n + 1, length).hook_above_centre for n, length in enumerate(lengths)]
    hook_z = np.minimum.reduce(np.broadcast_arrays(*heights)) + centre.z
    wanted = _to_hook(centre, eyes, hook_z)
    return tuple(np.minimum(new - old, 0.0) for new, old in zip(wanted, lengths, strict=True))


def _to_hook(centre: Point, eyes: tuple[Point, ...], hook_z: Length) -> tuple[Array, ...]:
    return tuple(
        np.sqrt(np.asarray((e.x - centre.x) ** 2 + (e.y - centre.y) ** 2 + (e.z - hook_z) ** 2, float)) for e in eyes
    )


def running_sling_depth(half_span: Length, hook_above: Length) -> Length:
    """Least depth of the centre of gravity under the eyes for one running sling to hang level.

    Args:
        half_span: half the distance of the eyes [m]
        hook_above: hook above the eyes [m]

    Returns:
        depth; less than it and the body runs over to one side [m]

    Source: the hook lies on an ellipse with the eyes as foci; f^2/H.
    Valid: sling free over the hook, or a basket without grip; eyes at one height, centre of gravity in the middle.
    """
    above("half_span", half_span, 0, "a distance")
    above("hook_above", hook_above, 0, "a height")
    return half_span**2 / hook_above


def tilt_for_centre(shift: Length, drop: Length, centre_below: Length) -> Sensitivity:
    """How far a two-leg hang tilts when the centre of gravity is elsewhere than thought.

    Args:
        shift: how far elsewhere [m]
        drop: hook to centre of gravity [m]
        centre_below: centre of gravity under the eyes [m]

    Returns:
        tilt in the plane of the legs and across it

    Source: geometry of the rigid triangle, and of the roll about the eyes.
    Valid: long legs help only in the plane; across it only eyes well above the centre of gravity.
    """
    within("shift", shift, 0)
    above("drop", drop, 0, "a distance")
    above("centre_below", centre_below, 0, "a depth")
    return Sensitivity(np.arctan2(shift, drop), np.arctan2(shift, centre_below))


def whole_links(
    weight: Force, centre: Point, lines: tuple[Line, ...], pitch: Length, most: int = 3
) -> tuple[LinkPlan, ...]:
    """How a body hangs with whole links taken up on its legs, the most level first.

    Args:
        weight: weight [N]
        centre: centre of gravity, in the body
        lines: single legs of chain
        pitch: of the chain: three times its size [m]
        most: greatest number of links taken up on a leg [1]

    Returns:
        plans; among equals the one with fewer links first

    Source: energy of each hang; pitch 3 d of EN 818-2 chain, read.
    Valid: numbers, not draws; shortening hooks only shorten.
    """
    within("most", most, 0, 8)
    within("lines", len(lines), 1, 4, "one to four legs")
    for number, line in enumerate(lines, 1):
        within(f"lines.{number}.eyes", len(line.eyes), 1, 1, "single legs, each on one eye")
        are_somewhere(**{f"lines.{number}.eyes.1": line.eyes[0]})
    above("pitch", pitch, 0, "a length")
    tried = []
    for taken in product(range(most + 1), repeat=len(lines)):
        lengths = [float(line.length - n * pitch) for line, n in zip(lines, taken, strict=True)]
        if min(lengths) > 0 and _reaches(lines, lengths):
            tried.append((taken, lengths))
    within("lines", len(tried), 1, np.inf, "legs that reach one hook")
    each = np.array([lengths for _, lengths in tried])
    tried_lines = tuple(Line(line.eyes, each[:, n], line.stiffness) for n, line in enumerate(lines))
    held = hang(weight, centre, tried_lines)
    tilts, steepest = np.asarray(held.tilt), np.max(np.asarray(held.leg_angles), axis=0)
    ends, sides = np.arctan2(held.up_x, held.up_z), np.arctan2(held.up_y, held.up_z)
    plans = [
        LinkPlan(taken, float(tilts[k]), float(ends[k]), float(sides[k]), float(steepest[k]))
        for k, (taken, _) in enumerate(tried)
    ]
    return tuple(sorted(plans, key=lambda plan: (round(float(plan.tilt), 9), sum(plan.links))))


def _reaches(lines: tuple[Line, ...], lengths: list[float]) -> bool:
    """Whether each two legs still meet."""
    for i, one in enumerate(lines):
        for j, other in enumerate(lines[:i]):
            a, b = one.eyes[0], other.eyes[0]
            if lengths[i] + lengths[j] <= np.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2 + (a.z - b.z) ** 2) + 1e-6:
                return False
    return True


def basket_holds_roll(radius: Length, hook_above: Length, friction: Share) -> Length:
    """How far off a cylinder's axis the centre of gravity may lie before the cylinder rolls in a basket.

    Args:
        radius: of the cylinder [m]
        hook_above: hook above its axis [m]
        friction: of strap on casting [-]

    Returns:
        distance beside the axis [m]

    Source: rope round a cylinder, q = exp(mu (pi + 2 b)), tan psi = (q - 1)/(q + 1) tan b with sin b = r/H; H sin psi.
    Valid: plain basket, hook over the axis.
    """
    above("radius", radius, 0, "a radius")
    above("hook_above", hook_above - radius, 0, "above the cylinder")
    within("friction", friction, 0, 1)
    b = np.arcsin(radius / hook_above)
    q = np.exp(friction * (np.pi + 2 * b))
    turn: Array = np.arctan((q - 1) / (q + 1) * np.tan(b))
    return hook_above * np.sin(turn)


def strap_slides(friction: Share) -> Angle:
    """Tilt of a cylinder's axis at which a strap on it may start to slide.

    Args:
        friction: of strap on casting: 0.10 oily, 0.25 dry [-]

    Returns:
        tilt [rad]

    Source: Coulomb friction, atan mu; the wrap helps and is not counted.
    Valid: plain cylinder; a flange, boss or second strap stops it.
    """
    within("friction", friction, 0, 1)
    return np.arctan(friction)
