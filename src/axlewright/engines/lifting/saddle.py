"""A drive on pallet forks, lying in a timber saddle: low, and still the better way than a hook (A6)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.holding.wheel import load_at_centre
from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Force, Length, Mass, Share


@dataclass(frozen=True, slots=True)
class InSaddle:
    """How a round housing lies between the two blocks of a saddle.

    Attributes:
        contact_angle: from straight down to each block [rad]
        per_block: force square to the housing at each block [N]
        spreading: force that pushes each block outward [N]
        rolls_at: slope at which it rolls out over a block, not strapped [rad]
        tips_at: slope at which housing and saddle tip over the saddle's base [rad]
    """

    contact_angle: Angle
    per_block: Force
    spreading: Force
    rolls_at: Angle
    tips_at: Angle


@dataclass(frozen=True, slots=True)
class OnForks:
    """What forks hold of a drive in its saddle.

    Attributes:
        allowed: load allowed at that load centre [kg]
        load: drive and saddle with handling [kg]
        margin: allowed over load [-]
    """

    allowed: Mass
    load: Mass
    margin: Share


def in_saddle(
    weight: Force,
    radius: Length,
    block_gap: Length,
    centre_off: Length,
    half_base: Length,
    centre_height: Length,
) -> InSaddle:
    """How safely a round housing lies in a saddle of two blocks.

    Args:
        weight: of the drive [N]
        radius: of the housing where it lies [m]
        block_gap: between the blocks' inner edges [m]
        centre_off: centre of gravity beside the housing's axis, towards the worse block [m]
        half_base: saddle's middle to the edge of its base [m]
        centre_height: centre of gravity above that base [m]

    Returns:
        forces and slopes; negative slopes mean that it does not lie there by itself

    Source: equilibrium of three forces without friction; statics. Strapped down all the same.
    Valid: square-edged blocks nailed to the base, gap less than the housing's diameter.
    """
    within("weight", weight, 0)
    above("radius", radius, 0, "a radius")
    above("block_gap", block_gap, 0, "a gap")
    within("block_gap", block_gap, 0, 1.98 * np.min(radius), "under the diameter")
    within("centre_off", centre_off, 0)
    above("half_base", half_base, 0, "a width")
    above("centre_height", centre_height, 0, "a height")
    angle = np.arcsin(block_gap / (2 * radius))
    # about a block's edge the housing's axis stands radius sin(angle) inside and radius cos(angle) up
    rolls = np.arctan2(radius * np.sin(angle) - centre_off, radius * np.cos(angle))
    tips = np.arctan2(half_base - centre_off, centre_height)
    return InSaddle(angle, weight / 2 / np.cos(angle), weight / 2 * np.tan(angle), rolls, tips)


def saddle_on_forks(
    rated: Mass,
    rated_centre: Length,
    centre: Length,
    drive: Mass,
    saddle: Mass,
    handling: Share = 1.3,
    tipping_line: Length = 0.0,
) -> OnForks:
    """What forks allow at the drive's load centre, against drive and saddle.

    Args:
        rated: rated load on forks, its share of the tipping load in it [kg]
        rated_centre: its load centre, from the fork face [m]
        centre: centre of gravity of drive and saddle, from the fork face [m]
        drive: mass at its careful end [kg]
        saddle: mass of the saddle and what straps it [kg]
        handling: factor for loader hydraulics [-]
        tipping_line: front axle to fork face; nothing where it is not known [m]

    Returns:
        load allowed, load, margin

    Source: constant tipping moment; handling 1.3 for loader hydraulics, assumed.
    Valid: firm level ground, under 0.3 m, creeping; lift capacity and forks' marking looked at too.
    """
    above("drive", drive, 0, "a mass")
    within("saddle", saddle, 0)
    within("handling", handling, 1, 3)
    allowed = load_at_centre(rated, rated_centre, centre, tipping_line)
    load = (drive + saddle) * handling
    return OnForks(allowed, load, allowed / load)
