"""The torque window for the grease really used, solved backwards from the clamp needed and the yield not to be passed."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from axlewright.engines.joints.nut_factor import friction_from_nut_factor
from axlewright.engines.joints.stress import ELASTIC, PLASTIC, _preload_at, preload_at_break, preload_at_yield
from axlewright.engines.joints.tightening import thread_lever, torque_from_preload
from axlewright.engines.limits import above, within
from axlewright.kinds import Area, Array, Force, Length, Pressure, Share, Torque

STEPS = np.linspace(-5.0, 5.0, 401)  # standard normal: 6 in ten million lie beyond
WEIGHTS = np.exp(-(STEPS**2) / 2) / np.exp(-(STEPS**2) / 2).sum()
SLIPPERY, ROUGH = 1.0005, 0.8  # over the frictionless limit, and the nut factor at which a thread has galled
HALVINGS = 50


@dataclass(frozen=True, slots=True)
class TorqueWindow:
    """Torques between which a bolt is neither too slack nor past yield, and where it may break.

    `low` above `high` is an empty window: no torque is safe.
    """

    low: Torque
    high: Torque
    may_break: Torque


def torque_for_clamp(
    clamp_needed: Force,
    nut_factor: Share,
    nut_factor_log_sd: Share,
    wrench_log_sd: Share,
    diameter: Length,
    share: Share,
) -> Torque:
    """Least torque at which the slackest bolt still keeps the clamp needed.

    Args:
        clamp_needed: preload needed [N]
        nut_factor: median nut factor [-]
        nut_factor_log_sd: scatter of the nut factor, as standard deviation of its logarithm [-]
        wrench_log_sd: scatter of the wrench [-]
        diameter: nominal diameter [m]
        share: share of bolts allowed to be slacker [-]

    Returns:
        torque [N m]

    Source: T = K F d at the rough end of friction and the slack end of the wrench, both lognormal.
    Valid: share 0.0001 to 0.5.

    >>> round(float(torque_for_clamp(92e3, 0.14, 0.15, 0.04, 0.020, 0.05)))
    333
    """
    from scipy.special import ndtri

    within("clamp_needed", clamp_needed, 0.0)
    above("nut_factor", nut_factor)
    within("nut_factor_log_sd", nut_factor_log_sd, 0.0, 2.0)
    within("wrench_log_sd", wrench_log_sd, 0.0, 1.0)
    above("diameter", diameter)
    within("share", share, 1e-4, 0.5)
    rough: Share = np.exp(-ndtri(share) * np.hypot(nut_factor_log_sd, wrench_log_sd))
    return clamp_needed * nut_factor * diameter * rough


def torque_at_yield(
    yield_stress: Pressure,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    friction_head: Share,
    stress_area: Area,
    stress_diameter: Length,
    bearing_diameter: Length,
) -> Torque:
    """Torque that brings a bolt of known friction to yield, torsion counted elastic.

    Args:
        yield_stress: yield or 0.2 % proof strength [Pa]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        friction_head: friction under head or nut [-]
        stress_area: tensile stress area [m^2]
        stress_diameter: diameter of the circle of that area [m]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        torque [N m]

    Source: preload_at_yield in the long form.
    Valid: frictions 0 to 0.8.

    >>> round(float(torque_at_yield(940e6, 0.0025, 0.018376, 0.0764, 0.0764, 244.8e-6, 0.017655, 0.0251)))
    451
    """
    preload = preload_at_yield(yield_stress, pitch, pitch_diameter, friction_thread, stress_area, stress_diameter)
    return torque_from_preload(preload, pitch, pitch_diameter, friction_thread, friction_head, bearing_diameter)


def torque_at_break(
    tensile_strength: Pressure,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    friction_head: Share,
    stress_area: Area,
    stress_diameter: Length,
    bearing_diameter: Length,
) -> Torque:
    """Torque that breaks a bolt of known friction, section fully plastic in torsion.

    Args:
        tensile_strength: tensile strength [Pa]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        friction_head: friction under head or nut [-]
        stress_area: tensile stress area [m^2]
        stress_diameter: diameter of the circle of that area [m]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        torque [N m]

    Source: preload_at_break in the long form.
    Valid: frictions 0 to 0.8.

    >>> round(float(torque_at_break(1040e6, 0.0025, 0.018376, 0.0764, 0.0764, 244.8e-6, 0.017655, 0.0251)))
    521
    """
    preload = preload_at_break(tensile_strength, pitch, pitch_diameter, friction_thread, stress_area, stress_diameter)
    return torque_from_preload(preload, pitch, pitch_diameter, friction_thread, friction_head, bearing_diameter)


@dataclass(frozen=True, slots=True)
class _Bolt:
    """What stays the same over all friction of one bolt."""

    diameter: Length
    pitch: Length
    pitch_diameter: Length
    stress_area: Area
    stress_diameter: Length
    bearing_diameter: Length

    def __post_init__(self) -> None:
        """Refuse by name before anything is divided by it."""
        for name in ("diameter", "pitch", "pitch_diameter", "stress_area", "stress_diameter", "bearing_diameter"):
            above(name, getattr(self, name))

    def log_torque(self, stress: Pressure, nut_factor: Share, log_sd: Share, model: float) -> Array:
        """Logarithm of the torque that reaches a stress, over `STEPS` of the nut factor's spread (last axis)."""
        fields = (self.diameter, self.pitch, self.pitch_diameter, self.stress_area, self.stress_diameter)
        d, p, d2, area, ds = (np.asarray(value, float)[..., None] for value in fields)
        dm = np.asarray(self.bearing_diameter, float)[..., None]
        k = np.asarray(nut_factor, float)[..., None] * np.exp(np.asarray(log_sd, float)[..., None] * STEPS)
        # the spread's far ends leave physics: no friction at all, and a galled thread; neither decides an edge
        k = np.clip(k, SLIPPERY * p / (2 * math.pi * d), ROUGH)
        mu = friction_from_nut_factor(k, d, p, d2, dm)
        lever = thread_lever(p, d2, mu)
        preload = _preload_at(np.asarray(stress, float)[..., None], lever, area, ds, model)
        found: Array = np.log(preload * (lever + mu * dm / 2))
        return found


def _chance(log_torque: Array, limits: Array, wrench_log_sd: Share) -> Array:
    """Chance that torque times the wrench's error passes its limit, over the spread of friction."""
    from scipy.special import ndtr

    spread = np.maximum(np.asarray(wrench_log_sd, float), 1e-4)[..., None]
    found: Array = (ndtr((log_torque[..., None] - limits) / spread) * WEIGHTS).sum(axis=-1)
    return found


def _torque_of_chance(share: Share, limits: Array, wrench_log_sd: Share) -> Array:
    """Torque whose chance of passing its limit is `share`: bisection on the logarithm."""
    room = 6 * np.asarray(wrench_log_sd, float)
    low, high = limits.min(axis=-1) - room - 0.1, limits.max(axis=-1) + room + 0.1
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        past = _chance(middle, limits, wrench_log_sd) > share
        low, high = np.where(past, low, middle), np.where(past, middle, high)
    found: Array = np.exp((low + high) / 2)
    return found


def chance_past_yield(
    torque: Torque,
    wrench_log_sd: Share,
    nut_factor: Share,
    nut_factor_log_sd: Share,
    yield_stress: Pressure,
    diameter: Length,
    pitch: Length,
    pitch_diameter: Length,
    stress_area: Area,
    stress_diameter: Length,
    bearing_diameter: Length,
) -> Share:
    """Chance that one bolt yields at a torque, by nut factor, wrench and twist together.

    Args:
        torque: torque set [N m]
        wrench_log_sd: scatter of the wrench, as standard deviation of the logarithm [-]
        nut_factor: median nut factor [-]
        nut_factor_log_sd: scatter of the nut factor [-]
        yield_stress: yield strength [Pa]
        diameter: nominal diameter [m]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        stress_area: tensile stress area [m^2]
        stress_diameter: diameter of the circle of that area [m]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        chance [-]

    Source: integral over the nut factor of Phi((ln T - ln T_yield)/s), torsion elastic.
    Valid: friction equal in thread and under the head.

    >>> p = chance_past_yield(451.0, 0.04, 0.14, 0.15, 940e6, 0.02, 0.0025, 0.018376, 244.8e-6, 0.017655, 0.0251)
    >>> round(float(p), 3)
    0.053
    """
    above("torque", torque)
    above("yield_stress", yield_stress)
    within("wrench_log_sd", wrench_log_sd, 0.0, 1.0)
    above("nut_factor", nut_factor)
    within("nut_factor_log_sd", nut_factor_log_sd, 0.0, 2.0)
    bolt = _Bolt(diameter, pitch, pitch_diameter, stress_area, stress_diameter, bearing_diameter)
    limits = bolt.log_torque(yield_stress, nut_factor, nut_factor_log_sd, ELASTIC)
    return _chance(np.log(np.asarray(torque, float)), limits, wrench_log_sd)


def torque_window(
    clamp_needed: Force,
    yield_stress: Pressure,
    tensile_strength: Pressure,
    nut_factor: Share,
    nut_factor_log_sd: Share,
    wrench_log_sd: Share,
    share: Share,
    diameter: Length,
    pitch: Length,
    pitch_diameter: Length,
    stress_area: Area,
    stress_diameter: Length,
    bearing_diameter: Length,
) -> TorqueWindow:
    """Torque window of a greased bolt: from the slackest bolt that still holds to the tightest below yield.

    Args:
        clamp_needed: preload needed [N]
        yield_stress: least yield strength of the grade [Pa]
        tensile_strength: least tensile strength of the grade [Pa]
        nut_factor: median nut factor of the grease really used [-]
        nut_factor_log_sd: scatter of the nut factor, as standard deviation of its logarithm [-]
        wrench_log_sd: scatter of the wrench [-]
        share: share of bolts allowed past each edge [-]
        diameter: nominal diameter [m]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        stress_area: tensile stress area [m^2]
        stress_diameter: diameter of the circle of that area [m]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        low: torque at which the slackest bolt keeps the clamp needed [N m]
        high: torque at which the tightest bolt stays below yield, torsion elastic [N m]
        may_break: torque from which the tightest bolt may break, torsion plastic [N m]

    Source: T = K F d for the low edge; combined stress and the long form for the others; VDI 2230-1, ISO 898-1.
    Valid: friction equal in thread and under the head. low above high: the window is empty.

    >>> w = torque_window(
    ...     92e3, 940e6, 1.04e9, 0.14, 0.15, 0.04, 0.05, 0.02, 0.0025, 0.018376, 2.448e-4, 0.017655, 0.0251
    ... )
    >>> round(float(w.low)), round(float(w.high)), round(float(w.may_break))
    (333, 449, 519)
    """
    low = torque_for_clamp(clamp_needed, nut_factor, nut_factor_log_sd, wrench_log_sd, diameter, share)
    above("yield_stress", yield_stress)
    above("tensile_strength", tensile_strength)
    bolt = _Bolt(diameter, pitch, pitch_diameter, stress_area, stress_diameter, bearing_diameter)
    yields = bolt.log_torque(yield_stress, nut_factor, nut_factor_log_sd, ELASTIC)
    breaks = bolt.log_torque(tensile_strength, nut_factor, nut_factor_log_sd, PLASTIC)
    return TorqueWindow(
        low, _torque_of_chance(share, yields, wrench_log_sd), _torque_of_chance(share, breaks, wrench_log_sd)
    )
