"""Legs whose sharing is not fixed by statics: the least and the greatest that each can carry (A6)."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np

from axlewright.engines.holding.supports import Point
from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import Array, Force

NEARLY = 1e-9


@dataclass(frozen=True, slots=True)
class TensionRange:
    """What each leg can carry, whatever its length is out by.

    Attributes:
        least: of each leg [N]
        greatest: of each leg [N]
    """

    least: tuple[Force, ...]
    greatest: tuple[Force, ...]


def _towards(
    weight: Force, hook: Point, centre: Point, eyes: tuple[Point, ...]
) -> tuple[Array, Array, Array, tuple[int, ...]]:
    """Weights (n), unit vectors from eyes to hook (n, e, 3), up (n, 3), and the shape of the draws."""
    points = (hook, centre, *eyes)
    numbers = [part for p in points for part in (p.x, p.y, p.z)]
    load, *drawn = np.broadcast_arrays(*(np.asarray(n, float) for n in (weight, *numbers)))
    shape = load.shape
    at = np.stack([d.reshape(-1) for d in drawn], axis=-1).reshape(-1, len(points), 3)
    arms = at[:, :1, :] - at[:, 1:, :]
    long = np.sqrt((arms**2).sum(axis=-1))
    above("hook", long, 0, "apart from the eyes and the centre of gravity")
    unit = arms / long[..., None]
    return load.reshape(-1), unit[:, 1:], unit[:, 0], shape


def tension_range(weight: Force, hook: Point, centre: Point, eyes: tuple[Point, ...]) -> TensionRange:
    """Least and greatest pull that statics lets each leg have.

    Each corner of what is possible rests on one, two or three legs: all of them are tried.

    Args:
        weight: weight [N]
        hook: place of the hook in the body, as it hangs [m]
        centre: centre of gravity, in the body [m]
        eyes: where the legs bear, in the body [m]

    Returns:
        pulls of each leg

    Source: sum T u = W w with no leg pushing; corners of a linear programme.
    Valid: one to four legs; stiff legs are rated on the greatest.
    """
    within("weight", weight, 0)
    within("eyes", len(eyes), 1, 4, "one to four legs")
    load, unit, up, shape = _towards(weight, hook, centre, eyes)
    count = len(eyes)
    least, greatest = np.full((len(up), count), np.inf), np.full((len(up), count), -np.inf)
    for size in range(1, min(count, 3) + 1):
        for legs in combinations(range(count), size):
            share, fits = _corner(unit[:, legs, :], up)
            pulls = np.zeros((len(up), count))
            pulls[:, legs] = share
            least = np.where(fits[:, None], np.minimum(least, pulls), least)
            greatest = np.where(fits[:, None], np.maximum(greatest, pulls), greatest)
    held = np.isfinite(least[:, 0])
    if not held.all():
        why = "the legs cannot hold it so; it would swing"
        raise OutOfRange("hook", 0.0, 1.0, 1.0, float(1 - held.mean()), why)
    return TensionRange(
        tuple((least[:, n] * load).reshape(shape) for n in range(count)),
        tuple((greatest[:, n] * load).reshape(shape) for n in range(count)),
    )


def _corner(unit: Array, up: Array) -> tuple[Array, Array]:
    """Shares of the weight on a few legs, and in which draws these alone can hold it."""
    gram = np.einsum("nei,nfi->nef", unit, unit)
    sound = np.linalg.det(gram) > NEARLY
    gram = np.where(sound[:, None, None], gram, np.eye(unit.shape[1]))
    share = np.linalg.solve(gram, np.einsum("nei,ni->ne", unit, up)[..., None])[..., 0]
    left = np.einsum("ne,nei->ni", share, unit) - up
    fits = sound & (np.abs(left).max(axis=-1) < 1e-6) & (share.min(axis=-1) >= -1e-9)
    return np.maximum(share, 0.0), fits


def tensions_at(weight: Force, hook: Point, centre: Point, eyes: tuple[Point, ...]) -> tuple[Force, ...]:
    """Pull in each of one to three legs with the hook at a place.

    Args:
        weight: weight [N]
        hook: place of the hook in the body [m]
        centre: centre of gravity, in the body [m]
        eyes: where the legs bear, in the body [m]

    Returns:
        pulls in the order of the eyes [N]

    Source: sum T u = W w; statics.
    Valid: no more than three legs, so that statics fixes them.
    """
    within("eyes", len(eyes), 1, 3, "one to three legs; more are not fixed by statics")
    found = tension_range(weight, hook, centre, eyes)
    return found.greatest
