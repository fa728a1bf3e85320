"""Energy of a body that hangs from one point, by the place of the hook in the body, and its least value.

For a hook at h the body can always swing until its centre of gravity c lies straight under the hook, so gravity's energy is
-W |h - c| and V(h) = sum k/2 max(0, l - L)^2 - W |h - c|. The swing taken out is always stable: the hang is stable just
where the second derivative of V is positive. Arrays are (draws, ...); eyes of one line share its pull.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from axlewright.kinds import Array

Flags = NDArray[np.bool_]
STRETCHES = (
    0.05,
    0.005,
    0.0,
)  # share of its length that the softest line is let stretch under the weight, stage by stage
KICK = 0.005  # m: how far a saddle is left to either side
CLOSE = 1e-9  # share of the weight that is no force
CLOSE_ENOUGH = 1e-6  # share of the weight at which rounding is the cause
MOST_STEPS = 200
TINY = 1e-12  # m
FLAT = 1e-12  # determinant over the cube of the trace, under which a curve is no plain bowl


@dataclass(slots=True)
class Rigging:
    """All draws of a rig: weight (n), centre (n, 3), eyes (n, e, 3), line of each eye (e), length and stiffness (n, m)."""

    weight: Array
    centre: Array
    eyes: Array
    line_of: NDArray[np.intp]
    length: Array
    stiffness: Array

    def some(self, which: NDArray[np.intp]) -> Rigging:
        return Rigging(
            self.weight[which],
            self.centre[which],
            self.eyes[which],
            self.line_of,
            self.length[which],
            self.stiffness[which],
        )

    def softer(self, stretch: float) -> Rigging:
        """The same with no line stiffer than one that the weight stretches by this share; as it is for a share of 0."""
        if stretch == 0:
            return self
        most = self.weight[:, None] / (stretch * self.length)
        return Rigging(self.weight, self.centre, self.eyes, self.line_of, self.length, np.minimum(self.stiffness, most))


@dataclass(slots=True)
class Looked:
    """Energy, slope and curvature at a place of the hook, with what each line does there."""

    energy: Array
    slope: Array
    curve: Array
    tension: Array
    towards: Array  # (n, e, 3): from each eye to the hook
    up: Array  # (n, 3): from the centre of gravity to the hook
    drop: Array  # (n): how far


def look(rig: Rigging, hook: Array) -> Looked:
    """Energy and its derivatives at a place of the hook."""
    lines = rig.length.shape[1]
    arm = hook[:, None, :] - rig.eyes
    reach = np.maximum(_size(arm), TINY)
    towards = arm / reach[..., None]
    of_line = np.equal(np.arange(lines)[:, None], rig.line_of)  # (m, e)
    single = len(rig.line_of) == lines  # an eye each, in order: most rigs, and looked at most often
    long = (reach if single else reach @ of_line.T) - rig.length
    stretch = np.maximum(long, 0.0)
    tension = rig.stiffness * stretch
    pull = towards if single else np.einsum("me,nei->nmi", of_line.astype(float), towards)
    below = hook - rig.centre
    drop = np.maximum(_size(below), TINY)
    up = below / drop[:, None]
    energy = 0.5 * (rig.stiffness * stretch**2).sum(axis=-1) - rig.weight * drop
    slope = np.einsum("nm,nmi->ni", tension, pull) - rig.weight[:, None] * up
    one = np.eye(3)
    active = rig.stiffness * (long > 0)
    turning = tension[:, rig.line_of] / reach
    curve = _spread(active - turning, towards) if single else _spread(active, pull) - _spread(turning, towards)
    curve += turning.sum(axis=-1)[:, None, None] * one
    curve -= (rig.weight / drop)[:, None, None] * (one - up[:, :, None] * up[:, None, :])
    return Looked(energy, slope, curve, tension, towards, up, drop)


def _size(arrows: Array) -> Array:
    """How long arrows are."""
    return np.asarray(np.sqrt(np.einsum("...i,...i->...", arrows, arrows)))


def _spread(weight: Array, arrows: Array) -> Array:
    """Sum over lines of weight times arrow by arrow."""
    return np.asarray(np.swapaxes(arrows * weight[..., None], 1, 2) @ arrows)


def start(rig: Rigging) -> Array:
    """The hook straight above the centre of gravity, as high as no line is over length; else half the shortest line up."""
    centre, lines = rig.centre, rig.length.shape[1]
    high = rig.length.max(axis=1) + np.sqrt(((rig.eyes - centre[:, None, :]) ** 2).sum(axis=-1)).max(axis=1)
    ups = np.repeat(high[:, None], lines, axis=1)
    of_line = np.equal(np.arange(lines)[:, None], rig.line_of).astype(float)
    for _ in range(60):  # Newton from above on a length that curves upward: it never passes the highest answer
        hooks = centre[:, None, :] + ups[..., None] * np.array([0.0, 0.0, 1.0])  # one for each line
        arm = hooks[:, :, None, :] - rig.eyes[:, None, :, :]
        reach = np.maximum(np.sqrt((arm**2).sum(axis=-1)), TINY)
        over = (reach * of_line).sum(axis=-1) - rig.length
        if (over <= 1e-9 * rig.length).all():
            break
        grows = (arm[..., 2] / reach * of_line).sum(axis=-1)
        ups = ups - np.where(over > 0, over / np.maximum(grows, 0.05), 0.0)
    height = ups.min(axis=1)
    height = np.where(height > TINY, height, rig.length.min(axis=1) / 2)
    hook: Array = centre + height[:, None] * np.array([0.0, 0.0, 1.0])
    return hook


def _step(curve: Array, slope: Array, radius: Array) -> Array:
    """Newton's step with negative curvature turned over, no longer than the radius of trust."""
    step, bowl = _straight_down(curve, slope)
    if not bowl.all():
        step[~bowl] = _turned_over(curve[~bowl], slope[~bowl])
    size = np.sqrt((step**2).sum(axis=-1))
    cut: Array = step * np.minimum(1.0, radius / np.maximum(size, TINY))[:, None]
    return cut


def _straight_down(curve: Array, slope: Array) -> tuple[Array, Flags]:
    """Newton's step by Cramer's rule, and in which draws it may be taken: where the curve is plainly a bowl.

    That is nearly every draw of nearly every step, and ten times as quick as eigenvectors.
    """
    (a, b, c), (d, e), f = curve[:, 0].T, curve[:, 1, 1:].T, curve[:, 2, 2]
    of_a, of_b, of_c = d * f - e * e, c * e - b * f, b * e - c * d  # cofactors
    whole = a * of_a + b * of_b + c * of_c
    widest = a + d + f
    bowl = (a > 0) & (a * d - b * b > 0) & (whole > FLAT * widest**3)
    x, y, z = slope.T
    over = -1.0 / np.where(bowl, whole, 1.0)
    step = np.stack(
        [
            (of_a * x + of_b * y + of_c * z) * over,
            (of_b * x + (a * f - c * c) * y + (b * c - a * e) * z) * over,
            (of_c * x + (b * c - a * e) * y + (a * d - b * b) * z) * over,
        ],
        axis=-1,
    )
    return step, bowl


def _turned_over(curve: Array, slope: Array) -> Array:
    """Newton's step along each eigenvector, down where the curve bends down too."""
    values, vectors = np.linalg.eigh(curve)
    steep = np.abs(values)
    steep = np.maximum(steep, 1e-9 * steep.max(axis=-1, keepdims=True))
    along = np.einsum("nij,ni->nj", vectors, slope)
    step: Array = -np.einsum("nij,nj->ni", vectors, along / steep)
    return step


def settle(rig: Rigging, hook: Array) -> tuple[Array, Flags]:
    """Go down from a place to where nothing pulls; also says which draws came to rest."""
    hook = hook.copy()
    radius = 0.2 * rig.length.min(axis=1)
    first = look(rig, hook)
    energy, slope, curve = first.energy, first.slope, first.curve
    which = np.arange(len(hook))
    for _ in range(MOST_STEPS):
        now, e, g, c = rig.some(which), energy[which], slope[which], curve[which]
        step = _step(c, g, radius[which])
        there = look(now, hook[which] + step)
        wanted = np.abs((g * step).sum(axis=-1) + 0.5 * np.einsum("ni,nij,nj->n", step, c, step))
        got = e - there.energy
        force, left = np.sqrt((g**2).sum(axis=-1)), np.sqrt((there.slope**2).sum(axis=-1))
        # near the end both changes of energy are rounding: then a smaller pull is what counts
        better = np.where(wanted > 1e-13 * np.abs(e), got > 0.05 * wanted, left < force)
        size = np.sqrt((step**2).sum(axis=-1))
        wider = np.where(got > 0.6 * wanted, np.maximum(radius[which], 2 * size), radius[which])
        radius[which] = np.where(better, wider, size / 4)
        moved = which[better]
        hook[moved] += step[better]
        energy[moved], slope[moved], curve[moved] = there.energy[better], there.slope[better], there.curve[better]
        which = which[(np.where(better, left, force) > CLOSE * now.weight) & (size >= 1e-14)]
        if not len(which):
            break
    return hook, np.sqrt((slope**2).sum(axis=-1)) <= CLOSE_ENOUGH * rig.weight


def _bends_down(curve: Array, least: Array) -> tuple[Flags, Array]:
    """In which draws a curve bends down more than `least`, and the way it bends most; nought where it is plainly a bowl."""
    doubtful = np.flatnonzero(~_straight_down(curve, curve[:, 0])[1])
    bends, ways = np.zeros(len(curve), np.bool_), np.zeros(curve.shape[:2])
    if doubtful.size:
        values, vectors = np.linalg.eigh(curve[doubtful])
        bends[doubtful], ways[doubtful] = values[:, 0] < least[doubtful], vectors[:, :, 0]
    return bends, ways


def _off_the_saddle(rig: Rigging, hook: Array, ways: Array) -> Array:
    """A few millimetres down from a saddle, to the side where the energy is less."""
    away = KICK * ways
    one, other = look(rig, hook + away).energy, look(rig, hook - away).energy
    side = np.where(one <= other, 1.0, -1.0)
    return np.asarray(hook + side[:, None] * away)


def rest(rig: Rigging) -> tuple[Array, Flags, Flags]:
    """Where the hook comes to rest, which draws left a saddle on the way, and which came to rest at all."""
    hook = start(rig)
    saddle = np.zeros(len(hook), np.bool_)
    settled = saddle
    for stretch in STRETCHES:
        now = rig.softer(stretch)
        for _ in range(3):
            hook, settled = settle(now, hook)
            here = look(now, hook)
            unstable, ways = _bends_down(here.curve, -CLOSE * rig.weight / here.drop)
            if not unstable.any():
                break
            saddle |= unstable
            hook = np.where(unstable[:, None], _off_the_saddle(now, hook, ways), hook)
    return hook, saddle, settled
