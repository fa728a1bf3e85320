"""Geometry of 60 degree screw threads, ISO metric and unified inch alike: diameters, stress area, strip areas."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from axlewright.engines.joints._limits import not_above
from axlewright.engines.limits import above, within
from axlewright.kinds import Area, Length, Share

HEIGHT = math.sqrt(3) / 2  # of the sharp triangle over the pitch; ISO 68-1, the same in ASME B1.1
FLANK = 1 / math.sqrt(3)  # tan 30 degrees: half of the flank angle
INCH_STRESS_PITCHES = 0.9743  # pitches taken off the diameter for the stress area; ASME B1.1 appendix B, SAE J429


def check_thread(diameter: Any, pitch: Any) -> None:
    """Refuse what cannot be a thread: no standard thread is coarser than a third of its diameter."""
    above("diameter", diameter)
    above("pitch", pitch)
    not_above("pitch", pitch, np.asarray(diameter) / 3, "no standard thread is coarser than a third of its diameter")


def pitch_diameter(diameter: Length, pitch: Length) -> Length:
    """Basic pitch diameter of a 60 degree thread.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]

    Returns:
        pitch diameter [m]

    Source: ISO 724, d2 = d - 3/4 H with H = 0.866025 P (ISO 68-1); the same in ASME B1.1.
    Valid: 0 < pitch <= diameter / 3.

    >>> round(float(pitch_diameter(0.020, 0.0025) * 1000), 3)
    18.376
    """
    check_thread(diameter, pitch)
    return diameter - 0.75 * HEIGHT * pitch


def nut_minor_diameter(diameter: Length, pitch: Length) -> Length:
    """Basic minor diameter of the nut or the tapped hole.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]

    Returns:
        minor diameter of the internal thread [m]

    Source: ISO 724, D1 = d - 5/4 H; the same in ASME B1.1.
    Valid: 0 < pitch <= diameter / 3.

    >>> round(float(nut_minor_diameter(0.020, 0.0025) * 1000), 3)
    17.294
    """
    check_thread(diameter, pitch)
    return diameter - 1.25 * HEIGHT * pitch


def bolt_minor_diameter(diameter: Length, pitch: Length) -> Length:
    """Minor diameter of the bolt, at the rounded root.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]

    Returns:
        minor diameter of the external thread [m]

    Source: ISO 898-1, d3 = d - 17/12 H.
    Valid: 0 < pitch <= diameter / 3.

    >>> round(float(bolt_minor_diameter(0.020, 0.0025) * 1000), 3)
    16.933
    """
    check_thread(diameter, pitch)
    return diameter - 17 / 12 * HEIGHT * pitch


def stress_diameter_metric(diameter: Length, pitch: Length) -> Length:
    """Diameter of the circle that has the stress area of an ISO metric thread.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]

    Returns:
        stress diameter [m]

    Source: ISO 898-1, ds = (d2 + d3)/2.
    Valid: 0 < pitch <= diameter / 3.

    >>> round(float(stress_diameter_metric(0.020, 0.0025) * 1000), 3)
    17.655
    """
    return (pitch_diameter(diameter, pitch) + bolt_minor_diameter(diameter, pitch)) / 2


def stress_diameter_inch(diameter: Length, pitch: Length) -> Length:
    """Diameter of the circle that has the stress area of a unified inch thread.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]

    Returns:
        stress diameter [m]

    Source: ASME B1.1 appendix B, ds = D - 0.9743/n, taken for every grade as SAE J429 does.
    Valid: 0 < pitch <= diameter / 3.

    >>> round(float(stress_diameter_inch(0.75 * 0.0254, 0.0254 / 10) / 0.0254), 4)
    0.6526
    """
    check_thread(diameter, pitch)
    return diameter - INCH_STRESS_PITCHES * pitch


def circle_area(diameter: Length) -> Area:
    """Area of a circle, as of the stress diameter.

    Args:
        diameter: diameter [m]

    Returns:
        area [m^2]

    Source: geometry.
    Valid: diameter > 0.

    >>> round(float(circle_area(0.017655) * 1e6), 1)
    244.8
    """
    above("diameter", diameter)
    return math.pi / 4 * diameter**2


def stress_area_metric(diameter: Length, pitch: Length) -> Area:
    """Nominal stress area of an ISO metric thread.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]

    Returns:
        area [m^2]

    Source: ISO 898-1, As = pi/4 ((d2 + d3)/2)^2.
    Valid: 0 < pitch <= diameter / 3.

    >>> round(float(stress_area_metric(0.020, 0.0025) * 1e6), 1)
    244.8
    """
    return circle_area(stress_diameter_metric(diameter, pitch))


def stress_area_inch(diameter: Length, pitch: Length) -> Area:
    """Tensile stress area of a unified inch thread.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch, 25.4 mm over the threads per inch [m]

    Returns:
        area [m^2]

    Source: ASME B1.1 appendix B, At = 0.7854 (D - 0.9743/n)^2; SAE J429 takes it for every grade. For steel above
        100 ksi handbooks also print a form with the least pitch diameter, about 2 % less.
    Valid: 0 < pitch <= diameter / 3.

    >>> round(float(stress_area_inch(0.75 * 0.0254, 0.0254 / 10) / 0.0254**2), 3)
    0.334
    """
    return circle_area(stress_diameter_inch(diameter, pitch))


def percent_of_full_thread(diameter: Length, pitch: Length, drill: Length) -> Share:
    """Share of the full thread depth that a tap drill leaves.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]
        drill: diameter of the drilled hole [m]

    Returns:
        share of the full depth [-]

    Source: (D - drill)/(1.299038 P), twice the height 3/4 H of the full thread; Machinery's Handbook tap drill charts.
    Valid: drill to the nominal diameter.

    >>> round(float(percent_of_full_thread(0.020, 0.0025, 0.0175)), 2)
    0.77
    """
    check_thread(diameter, pitch)
    above("drill", drill)
    not_above("drill", drill, diameter, "a hole wider than the bolt leaves no thread")
    return (diameter - drill) / (1.5 * HEIGHT * pitch)


def strip_width_internal(pitch: Length, bolt_major_least: Length, nut_pitch_greatest: Length) -> Length:
    """Area of housing or nut thread that shears, for each length of engagement.

    Args:
        pitch: pitch [m]
        bolt_major_least: least major diameter of the bolt [m]
        nut_pitch_greatest: greatest pitch diameter of the tapped thread [m]

    Returns:
        area for each length, zero where the flanks no longer meet [m]

    Source: FED-STD-H28/2B appendix B, pi n Ds [1/(2n) + 0.57735 (Ds - En)].
    Valid: clipped at zero, as threads that do not meet hold nothing.

    >>> round(float(strip_width_internal(0.00254, 0.7353 * 0.0254, 0.6927 * 0.0254)) / 0.0254, 3)
    1.723
    """
    above("pitch", pitch)
    above("bolt_major_least", bolt_major_least)
    above("nut_pitch_greatest", nut_pitch_greatest)
    width = pitch / 2 + FLANK * (bolt_major_least - nut_pitch_greatest)
    return math.pi / pitch * bolt_major_least * np.maximum(width, 0.0)


def strip_width_external(pitch: Length, nut_minor_greatest: Length, bolt_pitch_least: Length) -> Length:
    """Area of bolt thread that shears, for each length of engagement.

    Args:
        pitch: pitch [m]
        nut_minor_greatest: greatest minor diameter of the tapped thread [m]
        bolt_pitch_least: least pitch diameter of the bolt [m]

    Returns:
        area for each length, zero where the flanks no longer meet [m]

    Source: FED-STD-H28/2B appendix B, pi n Kn [1/(2n) + 0.57735 (Es - Kn)].
    Valid: clipped at zero, as threads that do not meet hold nothing.

    >>> round(float(strip_width_external(0.00254, 0.663 * 0.0254, 0.6773 * 0.0254)) / 0.0254, 3)
    1.213
    """
    above("pitch", pitch)
    above("nut_minor_greatest", nut_minor_greatest)
    above("bolt_pitch_least", bolt_pitch_least)
    width = pitch / 2 + FLANK * (bolt_pitch_least - nut_minor_greatest)
    return math.pi / pitch * nut_minor_greatest * np.maximum(width, 0.0)


def strip_area_internal(
    engagement: Length, pitch: Length, bolt_major_least: Length, nut_pitch_greatest: Length
) -> Area:
    """Area of housing or nut thread that shears when it strips over the bolt.

    Args:
        engagement: length of full thread engaged [m]
        pitch: pitch [m]
        bolt_major_least: least major diameter of the bolt [m]
        nut_pitch_greatest: greatest pitch diameter of the tapped thread [m]

    Returns:
        area, zero where the flanks no longer meet [m^2]

    Source: FED-STD-H28/2B appendix B, pi n Le Ds [1/(2n) + 0.57735 (Ds - En)].
    Valid: engagement >= 0; clipped at zero, as threads that do not meet hold nothing.

    >>> round(float(strip_area_internal(0.0254, 0.00254, 0.7353 * 0.0254, 0.6927 * 0.0254) / 0.0254**2), 3)
    1.723
    """
    within("engagement", engagement, 0.0)
    return engagement * strip_width_internal(pitch, bolt_major_least, nut_pitch_greatest)


def strip_area_external(
    engagement: Length, pitch: Length, nut_minor_greatest: Length, bolt_pitch_least: Length
) -> Area:
    """Area of bolt thread that shears when the bolt strips.

    Args:
        engagement: length of full thread engaged [m]
        pitch: pitch [m]
        nut_minor_greatest: greatest minor diameter of the tapped thread [m]
        bolt_pitch_least: least pitch diameter of the bolt [m]

    Returns:
        area, zero where the flanks no longer meet [m^2]

    Source: FED-STD-H28/2B appendix B, pi n Le Kn [1/(2n) + 0.57735 (Es - Kn)].
    Valid: engagement >= 0; clipped at zero, as threads that do not meet hold nothing.

    >>> round(float(strip_area_external(0.0254, 0.00254, 0.663 * 0.0254, 0.6773 * 0.0254) / 0.0254**2), 3)
    1.213
    """
    within("engagement", engagement, 0.0)
    return engagement * strip_width_external(pitch, nut_minor_greatest, bolt_pitch_least)
