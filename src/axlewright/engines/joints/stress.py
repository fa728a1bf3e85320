"""Pull and twist together: stress while tightening, and the preload at which a bolt yields or breaks under the wrench.

The torsion model is named in every function: elastic counts the outer fibre (16), plastic a section twisted fully
plastic (12). Tables of the two editions of VDI 2230 differ by 8 to 9 % for this alone; elastic is the careful one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from axlewright.engines.joints.tightening import _short_lever, thread_lever
from axlewright.engines.limits import above, within
from axlewright.kinds import Area, Array, Force, Length, Number, Pressure, Share, Torque

ELASTIC = 16.0  # tau = 16 T/(pi d^3): outer fibre of an elastic round section
PLASTIC = 12.0  # tau = 12 T/(pi d^3): the same section fully plastic


@dataclass(frozen=True, slots=True)
class Stress:
    """Stress in a bolt while it is tightened."""

    tension: Pressure
    torsion: Pressure
    combined: Pressure


def _stress(preload: Force, torque: Torque, area: Area, diameter: Length, model: float) -> Stress:
    within("preload", preload, 0.0)
    within("thread_torque", torque, 0.0)
    above("stress_area", area)
    above("stress_diameter", diameter)
    tension = preload / area
    torsion = model * torque / (math.pi * diameter**3)
    return Stress(tension, torsion, np.sqrt(tension**2 + 3 * torsion**2))


def combined_stress_elastic(
    preload: Force, thread_torque: Torque, stress_area: Area, stress_diameter: Length
) -> Stress:
    """Stress in a bolt under the wrench, torsion counted elastic at the outer fibre.

    Args:
        preload: preload [N]
        thread_torque: torque in the thread, without the share of the head [N m]
        stress_area: tensile stress area [m^2]
        stress_diameter: diameter of the circle of that area [m]

    Returns:
        tension: stress of the pull [Pa]
        torsion: shear stress of the twist [Pa]
        combined: both together, sqrt(s^2 + 3 t^2) [Pa]

    Source: von Mises with t = 16 T/(pi ds^3); VDI 2230, edition of 1986.
    Valid: below yield. The careful form for old bolts.

    >>> round(combined_stress_elastic(207.9e3, 251.0, 244.8e-6, 0.017655).combined / 1e6)
    940
    """
    return _stress(preload, thread_torque, stress_area, stress_diameter, ELASTIC)


def combined_stress_plastic(
    preload: Force, thread_torque: Torque, stress_area: Area, stress_diameter: Length
) -> Stress:
    """Stress in a bolt under the wrench, torsion counted with the section fully plastic.

    Args:
        preload: preload [N]
        thread_torque: torque in the thread, without the share of the head [N m]
        stress_area: tensile stress area [m^2]
        stress_diameter: diameter of the circle of that area [m]

    Returns:
        tension: stress of the pull [Pa]
        torsion: shear stress of the twist [Pa]
        combined: both together, sqrt(s^2 + 3 t^2) [Pa]

    Source: von Mises with t = 12 T/(pi ds^3); VDI 2230 since 2001.
    Valid: near yield.

    >>> round(combined_stress_plastic(207.9e3, 251.0, 244.8e-6, 0.017655).combined / 1e6)
    901
    """
    return _stress(preload, thread_torque, stress_area, stress_diameter, PLASTIC)


def _preload_at(
    stress: Pressure, lever: Number, stress_area: Area, stress_diameter: Length, model: float
) -> Number | Array:
    above("stress_area", stress_area)
    above("stress_diameter", stress_diameter)
    per_newton = np.sqrt(1 / stress_area**2 + 3 * (model * lever / (math.pi * stress_diameter**3)) ** 2)
    preload: Number = stress / per_newton
    return preload


def preload_at_yield(
    yield_stress: Pressure,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    stress_area: Area,
    stress_diameter: Length,
) -> Force:
    """Preload at which a bolt yields under the wrench, torsion counted elastic.

    Args:
        yield_stress: yield or 0.2 % proof strength [Pa]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        stress_area: tensile stress area [m^2]
        stress_diameter: diameter of the circle of that area [m]

    Returns:
        preload [N]

    Source: combined stress equal to yield, long form in the thread, t = 16 T/(pi ds^3).
    Valid: friction 0 to 0.8. After the wrench is off about half of the twist springs back.

    >>> round(preload_at_yield(940e6, 0.0025, 0.018376, 0.103, 244.8e-6, 0.017655) / 1000)
    198
    """
    above("yield_stress", yield_stress)
    lever = thread_lever(pitch, pitch_diameter, friction_thread)
    return _preload_at(yield_stress, lever, stress_area, stress_diameter, ELASTIC)


def preload_at_break(
    tensile_strength: Pressure,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    stress_area: Area,
    stress_diameter: Length,
) -> Force:
    """Preload at which a bolt breaks under the wrench, section fully plastic in torsion.

    Args:
        tensile_strength: tensile strength [Pa]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        stress_area: tensile stress area [m^2]
        stress_diameter: diameter of the circle of that area [m]

    Returns:
        preload [N]

    Source: combined stress equal to the tensile strength, long form in the thread, t = 12 T/(pi ds^3).
    Valid: friction 0 to 0.8; an estimate, as past yield the load is shared anew over the section.

    >>> round(preload_at_break(1040e6, 0.0025, 0.018376, 0.103, 244.8e-6, 0.017655) / 1000)
    233
    """
    above("tensile_strength", tensile_strength)
    lever = thread_lever(pitch, pitch_diameter, friction_thread)
    return _preload_at(tensile_strength, lever, stress_area, stress_diameter, PLASTIC)


def assembly_preload_plastic(
    yield_stress: Pressure,
    use: Share,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    stress_area: Area,
    stress_diameter: Length,
) -> Force:
    """Greatest assembly preload at a share of yield, as printed in tables since 2001.

    Args:
        yield_stress: least yield or 0.2 % proof strength [Pa]
        use: share of it that pull and twist may use, 0.9 in the tables [-]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        stress_area: tensile stress area [m^2]
        stress_diameter: diameter of the circle of that area [m]

    Returns:
        preload [N]

    Source: VDI 2230-1 since 2001, F = v Rp As/sqrt(1 + 3 [1.5 d2/ds (P/(pi d2) + 1.155 mu)]^2).
    Valid: friction to 0.25, where the short form of the thread term holds.

    >>> round(assembly_preload_plastic(660e6, 0.9, 0.0015, 0.0190257, 0.12, 271.5e-6, 0.018593) / 1000)
    148
    """
    within("use", use, 0.0, 1.0)
    above("yield_stress", yield_stress)
    lever = _short_lever(pitch, pitch_diameter, friction_thread)
    return _preload_at(use * yield_stress, lever, stress_area, stress_diameter, PLASTIC)


def assembly_preload_elastic(
    yield_stress: Pressure,
    use: Share,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    stress_area: Area,
    stress_diameter: Length,
) -> Force:
    """Greatest assembly preload at a share of yield, as printed in tables before 2001.

    Args:
        yield_stress: least yield or 0.2 % proof strength [Pa]
        use: share of it that pull and twist may use, 0.9 in the tables [-]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        stress_area: tensile stress area [m^2]
        stress_diameter: diameter of the circle of that area [m]

    Returns:
        preload [N]

    Source: VDI 2230, edition of 1986, F = v Rp As/sqrt(1 + 3 [2 d2/ds (P/(pi d2) + 1.155 mu)]^2).
    Valid: friction to 0.25, where the short form of the thread term holds.

    >>> round(assembly_preload_elastic(660e6, 0.9, 0.0025, 0.018376, 0.14, 244.8e-6, 0.017655) / 1000)
    117
    """
    within("use", use, 0.0, 1.0)
    above("yield_stress", yield_stress)
    lever = _short_lever(pitch, pitch_diameter, friction_thread)
    return _preload_at(use * yield_stress, lever, stress_area, stress_diameter, ELASTIC)


def pressure_under_head(preload: Force, washer_diameter: Length, hole_diameter: Length) -> Pressure:
    """Mean pressure under a head, nut or washer.

    Args:
        preload: preload [N]
        washer_diameter: outer diameter of the bearing face [m]
        hole_diameter: diameter of the hole [m]

    Returns:
        pressure [Pa]

    Source: VDI 2230-1, p = F/(pi/4 (dw^2 - dh^2)).
    Valid: hole smaller than the face.

    >>> round(pressure_under_head(140.96e3, 0.0276, 0.0206) / 1e6)
    532
    """
    within("preload", preload, 0.0)
    above("hole_diameter", hole_diameter)
    above("washer_diameter", np.asarray(washer_diameter) - hole_diameter, why="the face is wider than the hole")
    return preload / (math.pi / 4 * (washer_diameter**2 - hole_diameter**2))
