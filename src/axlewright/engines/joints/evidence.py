"""What old and new bolts tell: break-out torque on removal, angle from snug to final, readings that do not fit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, TypeAlias

import numpy as np

from axlewright.engines.joints.tightening import loosening_torque
from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import LAST_AXIS, Array, Count, Force, Length, Share, Torque, kind_of

NORMAL = 0.6745  # median absolute deviation of a standard normal, so that a score counts standard deviations
STANDS_OUT = 3.5  # score from which a reading stands out; Iglewicz and Hoaglin 1993, from memory

Readings: TypeAlias = Annotated[Sequence[float] | Array, kind_of(Share), LAST_AXIS]  # plain numbers of any one unit


def preload_from_break_out(
    break_out: Torque,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    friction_head: Share,
    bearing_diameter: Length,
) -> Force:
    """Preload that was left in a bolt, by the torque that broke it loose.

    Args:
        break_out: torque at which it broke loose [N m]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread, as found [-]
        friction_head: friction under head or nut, as found [-]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        preload left, likely more than there is where rust holds the bolt [N]

    Source: loosening torque in three terms, turned round.
    Valid: thread that holds itself; rusted bolts break loose at 1.2 to 2 times (common practice, no source).

    >>> round(float(preload_from_break_out(238.0, 0.0025, 0.018376, 0.12, 0.12, 0.0251)) / 1000)
    100
    """
    within("break_out", break_out, 0.0)
    per_newton = loosening_torque(1.0, pitch, pitch_diameter, friction_thread, friction_head, bearing_diameter)
    above("friction_thread", per_newton, why="a thread that does not hold itself has no break-out torque")
    return break_out / per_newton


def stand_out_scores(readings: Readings, resolution: Share) -> Readings:
    """How far each bolt's reading stands out from the others of its pattern.

    Args:
        readings: angle from snug, torque or stretch, plain numbers of one unit, one a bolt along the last axis [-]
        resolution: what the tool can tell apart; in the same unit; spread below it is not counted [-]

    Returns:
        score in robust standard deviations; 3.5 and more stands out: high turned too far (yields or strips), low too
        little (bottomed or rusty) [-]

    Source: 0.6745 (x - median)/median absolute deviation; Iglewicz and Hoaglin 1993, from memory.
    Valid: four bolts at least.

    >>> [round(float(s), 1) for s in stand_out_scores([22, 24, 23, 21, 25, 48, 23, 22], 1.0)]
    [-0.7, 0.7, 0.0, -1.3, 1.3, 16.9, 0.0, -0.7]
    """
    draws = np.asarray(readings, float)
    if draws.ndim == 0 or draws.shape[-1] < 4:
        raise OutOfRange("readings", float(draws.shape[-1] if draws.ndim else 1), 4, np.inf, why="too few to compare")
    within("readings", draws)
    above("resolution", resolution)
    middle = np.median(draws, axis=-1, keepdims=True)
    spread = np.median(np.abs(draws - middle), axis=-1, keepdims=True)
    # readings as coarse as the tool: a spread of nothing would make any neighbour stand out
    floor = NORMAL * np.asarray(resolution, float)[..., None]
    scores: Array = NORMAL * (draws - middle) / np.maximum(spread, floor)
    return scores


def share_of_preload_kept(left: Force, given: Force, bolts_loose: Count, bolts: Count) -> Share:
    """Share of its clamp that an old joint still had: bolts found loose count as nothing.

    Args:
        left: mean preload left in the bolts that were tight [N]
        given: preload they were given [N]
        bolts_loose: number of bolts found loose [1]
        bolts: number of bolts [1]

    Returns:
        share [-]

    Source: mean over all bolts. A joint at half its clamp was slipping.
    Valid: loose bolts at most all.

    >>> share_of_preload_kept(90e3, 120e3, 3, 12)
    0.5625
    """
    within("left", left, 0.0)
    above("given", given)
    within("bolts", bolts, 1.0)
    within("bolts_loose", bolts_loose, 0.0, float(np.min(bolts)))
    return left / given * (1 - bolts_loose / bolts)
