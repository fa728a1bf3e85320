"""How a drive hangs on its legs: tensions, tilt, whether it stays so (A6)."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np

from axlewright.engines.holding.supports import Point
from axlewright.engines.lifting import _energy as energy
from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import Angle, Array, Count, Force, Length, Share, Stiffness, YesNo

SLACK = 0.005  # share of the weight under which a leg is slack
ROLLED = np.radians(30)  # tilt beyond which the wanted attitude did not hold
UNDETERMINED = 1e-7  # share of W/D under which nothing fixes the attitude


@dataclass(frozen=True, slots=True)
class Line:
    """A leg on one eye, or one sling that runs free over the hook between two.

    Attributes:
        eyes: where it bears on the body: one, or two of a running sling
        length: bearing point to bearing point, over the hook where it runs [m]
        stiffness: EA over length [N/m]
    """

    eyes: tuple[Point, ...]
    length: Length
    stiffness: Stiffness


@dataclass(frozen=True, slots=True)
class Hang:
    """How a body hangs. Axes are the body's: z is up as one wants it to hang.

    Attributes:
        tensions: pull in each line, in the order given [N]
        slack: lines that carry nothing to speak of [-]
        leg_angles: greatest angle of each line from plumb, as it hangs [rad]
        tilt: angle between the up that is wanted and the real one [rad]
        up_x: real up, part along the body's x [-]
        up_y: real up, part along the body's y [-]
        up_z: real up, part along the body's z [-]
        hook_x: hook in the body [m]
        hook_y: hook in the body [m]
        hook_z: hook in the body [m]
        drop: hook to centre of gravity [m]
        wanted_holds: it stays about as wanted: no saddle on the way, tilt under 30 degrees [-]
        determined: something fixes the attitude; without that the tilt says nothing [-]
        least_stiffness: least curvature of the energy at rest, positive in a stable hang [N/m]
        slackening_angle: slope of a side pull at the centre of gravity that slackens a leg; of three taut legs or more [rad]
        slackens_first: number of that leg, from 1; 0 with fewer than three taut legs [1]
    """

    tensions: tuple[Force, ...]
    slack: tuple[YesNo, ...]
    leg_angles: tuple[Angle, ...]
    tilt: Angle
    up_x: Share
    up_y: Share
    up_z: Share
    hook_x: Length
    hook_y: Length
    hook_z: Length
    drop: Length
    wanted_holds: YesNo
    determined: YesNo
    least_stiffness: Stiffness
    slackening_angle: Angle
    slackens_first: Count


def _refuse_unless_it_can_hang(weight: Force, lines: tuple[Line, ...]) -> None:
    within("lines", len(lines), 1, 4, "one to four lines")
    within("weight", weight, 0, np.finfo(float).max)
    for line in lines:
        within("lines", len(line.eyes), 1, 2, "a line bears on one eye, or on two when it runs over the hook")
        above("lines", line.length, 0, "a length")
        above("lines", line.stiffness, 0, "a stiffness")
        if len(line.eyes) == 2:
            within("lines", line.length - _apart(*line.eyes), 1e-9, np.inf, "longer than its two eyes are apart")
    for one, other in combinations([line for line in lines if len(line.eyes) == 1], 2):
        spare = one.length + other.length - _apart(one.eyes[0], other.eyes[0])
        within("lines", spare, 1e-9, np.inf, "two legs must reach one hook")


def _apart(a: Point, b: Point) -> Array:
    length: Array = np.sqrt(np.asarray((a.x - b.x) ** 2 + (a.y - b.y) ** 2 + (a.z - b.z) ** 2, float))
    return length


def _rigging(weight: Force, centre: Point, lines: tuple[Line, ...]) -> tuple[energy.Rigging, tuple[int, ...]]:
    """All draws side by side; also the shape that the results take."""
    eyes = [eye for line in lines for eye in line.eyes]
    numbers = [weight, centre.x, centre.y, centre.z]
    numbers += [part for eye in eyes for part in (eye.x, eye.y, eye.z)]
    numbers += [line.length for line in lines] + [line.stiffness for line in lines]
    drawn = np.broadcast_arrays(*(np.asarray(n, float) for n in numbers))
    shape = drawn[0].shape
    flat = np.stack([d.reshape(-1) for d in drawn], axis=-1)
    if not np.isfinite(flat).all():
        raise OutOfRange("lines", float("nan"), -np.inf, np.inf, why="every place, length and stiffness is a number")
    e, m = len(eyes), len(lines)
    line_of = np.array([n for n, line in enumerate(lines) for _ in line.eyes], np.intp)
    places = flat[:, 4 : 4 + 3 * e].reshape(-1, e, 3)
    lengths, stiffness = flat[:, 4 + 3 * e : 4 + 3 * e + m], flat[:, 4 + 3 * e + m :]
    return energy.Rigging(flat[:, 0], flat[:, 1:4], places, line_of, lengths, stiffness), shape


def hang(weight: Force, centre: Point, lines: tuple[Line, ...]) -> Hang:
    """How a body hangs on one to four lines from one hook, and whether it stays as wanted.

    The hook's place in the body makes the energy of stretch and weight least; the curvature there says whether the
    hang is stable. A start just as wanted that is only balanced, a saddle, is left and said.

    Args:
        weight: weight of the body [N]
        centre: its centre of gravity, in the body
        lines: legs and running slings

    Returns:
        tensions, attitude and how sure it is

    Source: statics of a rigid body by energy; agrees with a rigid-body simulation, docs/engines/lifting.md.
    Valid: hook a point, lines without weight or friction, body rigid and touching nothing.

    >>> legs = tuple(Line((Point(x, 0.0, 0.0),), 0.5, 1e7) for x in (-0.3, 0.3))
    >>> held = hang(1000.0, Point(0.0, 0.0, -0.2), legs)
    >>> [round(float(t)) for t in held.tensions], bool(held.wanted_holds)  # W/2 / cos b, cos b = 0.8
    ([625, 625], True)
    """
    _refuse_unless_it_can_hang(weight, lines)
    rig, shape = _rigging(weight, centre, lines)
    nothing = rig.weight == 0
    rig.weight = np.where(nothing, 1.0, rig.weight)  # a body without weight takes no attitude; it is worked out as 1 N
    hook, saddle, settled = energy.rest(rig)
    if not settled.all():
        raise OutOfRange("lines", 0.0, 1.0, 1.0, float(1 - settled.mean()), "no rest was found for this rig")
    found = energy.look(rig, hook)
    tension = np.where(nothing[:, None], 0.0, found.tension)
    tilt = np.arctan2(np.hypot(found.up[:, 0], found.up[:, 1]), found.up[:, 2])
    least = np.linalg.eigvalsh(found.curve)[:, 0]
    determined = ~nothing & (least > UNDETERMINED * rig.weight / found.drop)
    from_plumb = np.arccos(np.clip(np.einsum("nei,ni->ne", found.towards, found.up), -1, 1))
    slack = tension < SLACK * rig.weight[:, None]
    pull_angle, first = _slackening(found, rig, slack)

    def shaped(values: Array) -> Array:
        return values.reshape(shape)

    of = [np.flatnonzero(rig.line_of == n) for n in range(len(lines))]
    (up_x, up_y, up_z), (hook_x, hook_y, hook_z) = (
        (shaped(part[:, 0]), shaped(part[:, 1]), shaped(part[:, 2])) for part in (found.up, hook)
    )
    return Hang(
        tensions=tuple(shaped(tension[:, n]) for n in range(len(lines))),
        slack=tuple(slack[:, n].reshape(shape) for n in range(len(lines))),
        leg_angles=tuple(shaped(from_plumb[:, eyes].max(axis=1)) for eyes in of),
        tilt=shaped(tilt),
        up_x=up_x,
        up_y=up_y,
        up_z=up_z,
        hook_x=hook_x,
        hook_y=hook_y,
        hook_z=hook_z,
        drop=shaped(found.drop),
        wanted_holds=(~saddle & (tilt <= ROLLED)).reshape(shape),
        determined=determined.reshape(shape),
        least_stiffness=shaped(np.where(nothing, 0.0, least)),
        slackening_angle=shaped(pull_angle),
        slackens_first=shaped(first),
    )


def _slackening(found: energy.Looked, rig: energy.Rigging, slack: energy.Flags) -> tuple[Array, Array]:
    """Least angle from plumb to a face of the cone of taut legs, and the leg that goes slack there.

    Only single legs make the cone. A pair of legs is a face where all the others lie to one side of it.
    """
    draws, eyes = found.towards.shape[:2]
    single = np.bincount(rig.line_of, minlength=rig.length.shape[1])[rig.line_of] == 1
    taut = ~slack[:, rig.line_of] & single
    angle, first = np.full(draws, np.pi / 2), np.zeros(draws)
    for i, j in combinations(range(eyes), 2):
        normal = np.cross(found.towards[:, i], found.towards[:, j])
        long = np.sqrt((normal**2).sum(axis=-1))
        sound = (long > 1e-9) & taut[:, i] & taut[:, j] & (taut.sum(axis=1) > 2)
        normal = normal / np.maximum(long, energy.TINY)[:, None]
        beside = np.einsum("nei,ni->ne", found.towards, normal)
        others = taut & ~np.isin(np.arange(eyes), (i, j))
        side = np.sign(np.where(others, beside, 0.0).sum(axis=1))
        inside = np.where(others, beside * side[:, None], np.inf)
        here = np.arcsin(np.clip(np.einsum("ni,ni->n", normal, found.up) * side, -1, 1))
        nearer = sound & (inside.min(axis=1) > 0) & (here < angle)
        angle = np.where(nearer, here, angle)
        first = np.where(nearer, rig.line_of[np.argmin(inside, axis=1)] + 1, first)
    return angle, first
