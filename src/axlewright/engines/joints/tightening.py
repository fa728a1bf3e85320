"""Torque and preload: long form, three terms, nut factor, and what lies between a friction and a nut factor."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from axlewright.engines.joints._limits import not_above
from axlewright.engines.limits import above, within
from axlewright.kinds import Force, Length, Share, Torque, YesNo

SECANT = 2 / math.sqrt(3)  # 1/cos 30 degrees: the flank's wedge on friction in the thread
FRICTION_MOST = 0.8  # beyond it a thread galls; friction is no longer a number
NUT_FACTOR_LEAST, NUT_FACTOR_MOST = 0.03, 0.6  # below no friction is left (P/(2 pi d) is about 0.02), above it seizes
USUAL_NUT_FACTOR = (0.08, 0.35)  # outside: wax or paste of unusual slip, or rust, paint, a bottomed thread


def _check(pitch: Any, diameter: Any, *frictions: tuple[str, Any]) -> None:
    above("pitch", pitch)
    above("pitch_diameter", diameter)
    not_above("pitch", pitch, np.asarray(diameter) / 2, "no standard thread is coarser")
    for name, value in frictions:
        within(name, value, 0.0, FRICTION_MOST)


def thread_lever(pitch: Length, pitch_diameter: Length, friction_thread: Share) -> Length:
    """Torque in the thread for each newton of preload.

    Args:
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]

    Returns:
        lever of the preload in the thread [m]

    Source: d2/2 (tan l + mu sec 30)/(1 - mu tan l sec 30), l the lead angle; Shigley, 9th ed., eq. 8-5.
    Valid: friction 0 to 0.8.

    >>> round(float(thread_lever(0.0025, 0.018376, 0.12) * 1000), 3)
    1.681
    """
    _check(pitch, pitch_diameter, ("friction_thread", friction_thread))
    slope = pitch / (math.pi * pitch_diameter)
    wedge = SECANT * friction_thread
    return pitch_diameter / 2 * (slope + wedge) / (1 - wedge * slope)


def _short_lever(pitch: Length, pitch_diameter: Length, friction_thread: Share) -> Length:
    """`thread_lever` without its small product, as the tables take it."""
    _check(pitch, pitch_diameter, ("friction_thread", friction_thread))
    return pitch / (2 * math.pi) + SECANT / 2 * pitch_diameter * friction_thread


def torque_from_preload(
    preload: Force,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    friction_head: Share,
    bearing_diameter: Length,
) -> Torque:
    """Torque at the wrench that a preload wants, long form.

    Args:
        preload: preload [N]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        friction_head: friction under head or nut [-]
        bearing_diameter: mean diameter of the bearing face, (washer face + hole)/2 [m]

    Returns:
        torque [N m]

    Source: Shigley, 9th ed., eq. 8-26; Bickford: T = F [d2/2 (tan l + mu sec 30)/(1 - mu tan l sec 30) + mu_h Dm/2].
    Valid: below yield; frictions 0 to 0.8.

    >>> round(float(torque_from_preload(100e3, 0.0025, 0.018376, 0.12, 0.12, 0.0251)), 1)
    318.7
    """
    within("preload", preload, 0.0)
    within("friction_head", friction_head, 0.0, FRICTION_MOST)
    above("bearing_diameter", bearing_diameter)
    return preload * (thread_lever(pitch, pitch_diameter, friction_thread) + friction_head * bearing_diameter / 2)


def preload_from_torque(
    torque: Torque,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    friction_head: Share,
    bearing_diameter: Length,
) -> Force:
    """Preload that a torque gives, long form.

    Args:
        torque: torque at the wrench [N m]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        friction_head: friction under head or nut [-]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        preload [N]

    Source: Shigley, 9th ed., eq. 8-26, turned round.
    Valid: below yield; frictions 0 to 0.8.

    >>> round(preload_from_torque(318.7, 0.0025, 0.018376, 0.12, 0.12, 0.0251) / 1000)
    100
    """
    within("torque", torque, 0.0)
    within("friction_head", friction_head, 0.0, FRICTION_MOST)
    above("bearing_diameter", bearing_diameter)
    return torque / (thread_lever(pitch, pitch_diameter, friction_thread) + friction_head * bearing_diameter / 2)


def three_term_torque(
    preload: Force,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    friction_head: Share,
    bearing_diameter: Length,
) -> Torque:
    """Torque that a preload wants, in the three terms of the torque tables.

    Args:
        preload: preload [N]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        friction_head: friction under head or nut [-]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        torque [N m]

    Source: T = F [P/(2 pi) + 0.577 d2 mu + Dm/2 mu_h], the long form without its small product; VDI 2230-1.
    Valid: within 1 % of the long form up to a friction of 0.25.

    >>> round(float(three_term_torque(147.9e3, 0.0015, 0.0190257, 0.12, 0.12, 0.025095)), 0)
    453.0
    """
    within("preload", preload, 0.0)
    within("friction_head", friction_head, 0.0, FRICTION_MOST)
    above("bearing_diameter", bearing_diameter)
    return preload * (_short_lever(pitch, pitch_diameter, friction_thread) + friction_head * bearing_diameter / 2)


def table_torque(
    preload: Force,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    friction_head: Share,
    bearing_diameter: Length,
) -> Torque:
    """Torque that a preload wants, with the rounded factors that printed torque tables are made with.

    Args:
        preload: preload [N]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        friction_head: friction under head or nut [-]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        torque [N m]

    Source: VDI 2230-1 as printed, T = F [0.16 P + 0.58 d2 mu + Dm/2 mu_h].
    Valid: to compare with a printed table; up to 0.5 % above three_term_torque.

    >>> round(float(table_torque(147.9e3, 0.0015, 0.0190257, 0.12, 0.12, 0.025095)), 0)
    454.0
    """
    within("preload", preload, 0.0)
    _check(pitch, pitch_diameter, ("friction_thread", friction_thread), ("friction_head", friction_head))
    above("bearing_diameter", bearing_diameter)
    return preload * (0.16 * pitch + 0.58 * pitch_diameter * friction_thread + friction_head * bearing_diameter / 2)


def loosening_torque(
    preload: Force,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    friction_head: Share,
    bearing_diameter: Length,
) -> Torque:
    """Torque that breaks a fresh bolt loose.

    Args:
        preload: preload [N]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        friction_head: friction under head or nut [-]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        torque, negative where the thread does not hold itself [N m]

    Source: the three terms with the pitch term turned round; VDI 2230-1.
    Valid: a fresh joint; rust or compound wants 1.2 to 2 times the tightening torque (common practice, no source).

    >>> round(float(loosening_torque(100e3, 0.0025, 0.018376, 0.12, 0.12, 0.0251)), 0)
    238.0
    """
    return three_term_torque(
        preload, pitch, pitch_diameter, friction_thread, friction_head, bearing_diameter
    ) - 2 * preload * pitch / (2 * math.pi)


def self_locking_friction(pitch: Length, pitch_diameter: Length) -> Share:
    """Friction below which a thread no longer holds itself.

    Args:
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]

    Returns:
        friction in the thread [-]

    Source: tan l cos 30, the friction at which a loaded flank slides down its lead.
    Valid: no friction under the head counted.

    >>> round(float(self_locking_friction(0.0025, 0.018376)), 4)
    0.0375
    """
    _check(pitch, pitch_diameter)
    return pitch / (math.pi * pitch_diameter) / SECANT


def preload_from_nut_factor(torque: Torque, diameter: Length, nut_factor: Share) -> Force:
    """Preload that a torque gives, by nut factor.

    Args:
        torque: torque at the wrench [N m]
        diameter: nominal diameter [m]
        nut_factor: nut factor K of this thread and grease [-]

    Returns:
        preload [N]

    Source: T = K F d; Shigley, 9th ed., ch. 8.
    Valid: below yield; nut factor 0.03 (under it no friction is left) to 0.6.

    >>> round(float(preload_from_nut_factor(390.0, 0.020, 0.14) / 1000), 1)
    139.3
    """
    within("torque", torque, 0.0)
    above("diameter", diameter)
    within("nut_factor", nut_factor, NUT_FACTOR_LEAST, NUT_FACTOR_MOST, "under it no friction is left, over it seizes")
    return torque / (nut_factor * diameter)


def torque_from_nut_factor(preload: Force, diameter: Length, nut_factor: Share) -> Torque:
    """Torque that a preload wants, by nut factor.

    Args:
        preload: preload [N]
        diameter: nominal diameter [m]
        nut_factor: nut factor K of this thread and grease [-]

    Returns:
        torque [N m]

    Source: T = K F d; Shigley, 9th ed., ch. 8.
    Valid: below yield; nut factor 0.03 to 0.6.

    >>> round(torque_from_nut_factor(139.3e3, 0.020, 0.14))
    390
    """
    within("preload", preload, 0.0)
    above("diameter", diameter)
    within("nut_factor", nut_factor, NUT_FACTOR_LEAST, NUT_FACTOR_MOST, "under it no friction is left, over it seizes")
    return preload * nut_factor * diameter


def frictionless_nut_factor(diameter: Length, pitch: Length) -> Share:
    """Nut factor that is left without any friction: no typed one can be below it.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]

    Returns:
        nut factor [-]

    Source: work balance, 2 pi T = F P, so K0 = P/(2 pi d).
    Valid: always.

    >>> round(float(frictionless_nut_factor(0.020, 0.0025)), 5)
    0.01989
    """
    above("diameter", diameter)
    above("pitch", pitch)
    return pitch / (2 * math.pi * diameter)


def nut_factor_is_unusual(nut_factor: Share) -> YesNo:
    """Whether a nut factor wants a second look: it lies outside 0.08 to 0.35.

    Args:
        nut_factor: nut factor K [-]

    Returns:
        yes or no [-]

    Source: published nut factors of greases and of rusty threads (docs/engines/joints.md, tightening).
    Valid: nut factor above 0.

    >>> bool(nut_factor_is_unusual(0.05))
    True
    """
    above("nut_factor", nut_factor)
    low, high = USUAL_NUT_FACTOR
    draws = np.asarray(nut_factor, float)
    return (draws < low) | (draws > high)


@dataclass(frozen=True, slots=True)
class TorqueSplit:
    """Where the torque goes: only the first share stretches the bolt."""

    pitch_share: Share
    thread_share: Share
    head_share: Share


def torque_split(
    pitch: Length, pitch_diameter: Length, friction_thread: Share, friction_head: Share, bearing_diameter: Length
) -> TorqueSplit:
    """Where the torque goes: stretch, thread friction, friction under the head.

    Args:
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        friction_head: friction under head or nut [-]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        pitch_share: share that stretches the bolt [-]
        thread_share: share lost in the thread [-]
        head_share: share lost under the head [-]

    Source: terms of the long form; the trade's rule says 10, 40 and 50 in 100.
    Valid: frictions 0 to 0.8.

    >>> round(float(torque_split(0.0025, 0.018376, 0.12, 0.12, 0.0251).pitch_share), 3)
    0.125
    """
    whole = torque_from_preload(1.0, pitch, pitch_diameter, friction_thread, friction_head, bearing_diameter)
    stretch = pitch / (2 * math.pi) / whole
    head = friction_head * bearing_diameter / 2 / whole
    return TorqueSplit(stretch, 1 - stretch - head, head)
