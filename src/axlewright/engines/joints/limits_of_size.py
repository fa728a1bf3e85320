"""Limits of size of bolt and tapped thread: the least and greatest diameters that strip areas are worked out from."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.joints._limits import not_below
from axlewright.engines.joints.threads import check_thread, nut_minor_diameter, pitch_diameter
from axlewright.engines.limits import within
from axlewright.kinds import Length

INCH = 0.0254  # m
MICROMETRE = 1e-6  # m
# Size bands over whose geometric mean ISO 965-1 takes the pitch diameter tolerance, mm
SIZE_BANDS = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0)
# Printed limits are rounded to preferred numbers; from the formula TD2 comes up to 5 % small, TD1 up to 3 % (both read
# against the tables of ISO 965-1 for pitches 1 to 3 mm). The wider is the safer.
NUT_PITCH_ALLOWANCE = 1.05
NUT_MINOR_ALLOWANCE = 1.03


@dataclass(frozen=True, slots=True)
class LimitsOfSize:
    """Least and greatest diameters of a bolt thread and of the thread it goes into."""

    bolt_major_greatest: Length
    bolt_major_least: Length
    bolt_pitch_greatest: Length
    bolt_pitch_least: Length
    nut_pitch_least: Length
    nut_pitch_greatest: Length
    nut_minor_least: Length
    nut_minor_greatest: Length


def pitch_tolerance_unified(diameter: Length, pitch: Length, tolerance_length: Length) -> Length:
    """Pitch diameter tolerance of a unified thread, class 2A.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]
        tolerance_length: length of engagement that the standard takes for this series [m]

    Returns:
        tolerance [m]

    Source: ASME B1.1 clause 5.8, 0.0015 D^1/3 + 0.0015 LE^1/2 + 0.015 P^2/3 in inches. LE is a convention of the
        series, not the engagement of the joint: D for UNC, UNF and 4-, 6-, 8-UN, nine pitches for UNEF, 12-UN and
        finer, and UNS.
    Valid: empirical, in inches; diameter from 1/4 in.

    >>> round(float(pitch_tolerance_unified(0.01905, 0.00254, 0.01905) / 0.0254), 5)
    0.00589
    """
    check_thread(diameter, pitch)
    within("diameter", diameter, 0.25 * INCH * (1 - 1e-9), 12 * INCH)
    not_below("tolerance_length", tolerance_length, pitch)
    size, lead, length = diameter / INCH, pitch / INCH, tolerance_length / INCH
    return INCH * (0.0015 * np.cbrt(size) + 0.0015 * np.sqrt(length) + 0.015 * np.cbrt(lead) ** 2)


def limits_unified(diameter: Length, pitch: Length, tolerance_length: Length) -> LimitsOfSize:
    """Limits of size of a unified bolt of class 2A and a tapped thread of class 2B.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]
        tolerance_length: length of engagement that the standard takes for this series [m]

    Returns:
        bolt_major_greatest: greatest major diameter of the bolt [m]
        bolt_major_least: least major diameter of the bolt [m]
        bolt_pitch_greatest: greatest pitch diameter of the bolt [m]
        bolt_pitch_least: least pitch diameter of the bolt [m]
        nut_pitch_least: least pitch diameter of the tapped thread [m]
        nut_pitch_greatest: greatest pitch diameter of the tapped thread [m]
        nut_minor_least: least minor diameter of the tapped thread [m]
        nut_minor_greatest: greatest minor diameter of the tapped thread [m]

    Source: ASME B1.1 clause 5.8: allowance 0.3 Td2, major tolerance 0.06 P^2/3, 2B pitch tolerance 1.3 Td2, 2B minor
        tolerance 0.25 P - 0.4 P^2, in inches.
    Valid: empirical, in inches; diameter from 1/4 in, 4 threads per inch or more.

    >>> round(float(limits_unified(0.01905, 0.00254, 0.01905).bolt_major_least / 0.0254), 4)
    0.7353
    """
    tolerance = pitch_tolerance_unified(diameter, pitch, tolerance_length)
    lead = pitch / INCH
    within("pitch", pitch, 0.0, 0.25 * INCH * (1 + 1e-9), "4 threads per inch or more")
    allowance = 0.3 * tolerance
    basic = pitch_diameter(diameter, pitch)
    minor = nut_minor_diameter(diameter, pitch)
    major = diameter - allowance
    return LimitsOfSize(
        bolt_major_greatest=major,
        bolt_major_least=major - INCH * 0.06 * np.cbrt(lead) ** 2,
        bolt_pitch_greatest=basic - allowance,
        bolt_pitch_least=basic - allowance - tolerance,
        nut_pitch_least=basic,
        nut_pitch_greatest=basic + 1.3 * tolerance,
        nut_minor_least=minor,
        nut_minor_greatest=minor + INCH * (0.25 * lead - 0.4 * lead**2),
    )


def limits_metric(diameter: Length, pitch: Length) -> LimitsOfSize:
    """Limits of size of a metric bolt 6g and a tapped thread 6H.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]

    Returns:
        bolt_major_greatest: greatest major diameter of the bolt [m]
        bolt_major_least: least major diameter of the bolt [m]
        bolt_pitch_greatest: greatest pitch diameter of the bolt [m]
        bolt_pitch_least: least pitch diameter of the bolt [m]
        nut_pitch_least: least pitch diameter of the tapped thread [m]
        nut_pitch_greatest: greatest pitch diameter of the tapped thread [m]
        nut_minor_least: least minor diameter of the tapped thread [m]
        nut_minor_greatest: greatest minor diameter of the tapped thread [m]

    Source: ISO 965-1, in micrometres with P and d in mm: es = -(15 + 11 P), Td = 180 P^2/3 - 3.15/sqrt P,
        Td2 = 90 P^0.4 d^0.1 (d the geometric mean of its size band), TD2 = 1.32 Td2, TD1 = 230 P^0.7
        (433 P - 190 P^1.22 below 1 mm). TD2 is taken 5 % and TD1 3 % larger: printed limits are rounded upwards by as
        much. A table wins where one is at hand.
    Valid: empirical, in millimetres; diameter 1 to 355 mm, class 6g/6H.

    >>> round(float(limits_metric(0.016, 0.002).bolt_major_least * 1000), 2)
    15.68
    """
    check_thread(diameter, pitch)
    within("diameter", diameter, SIZE_BANDS[0] * 1e-3, SIZE_BANDS[-1] * 1e-3)
    size, lead = np.asarray(diameter, float) * 1e3, np.asarray(pitch, float) * 1e3
    band = np.clip(np.searchsorted(SIZE_BANDS, size, side="left"), 1, len(SIZE_BANDS) - 1)
    mean = np.sqrt(np.take(SIZE_BANDS, band) * np.take(SIZE_BANDS, band - 1))
    deviation = MICROMETRE * (15 + 11 * lead)
    major_tolerance = MICROMETRE * (180 * np.cbrt(lead) ** 2 - 3.15 / np.sqrt(lead))
    pitch_tolerance = MICROMETRE * 90 * lead**0.4 * mean**0.1
    minor_tolerance = MICROMETRE * np.where(lead < 1, 433 * lead - 190 * lead**1.22, 230 * lead**0.7)
    basic = pitch_diameter(diameter, pitch)
    minor = nut_minor_diameter(diameter, pitch)
    return LimitsOfSize(
        bolt_major_greatest=diameter - deviation,
        bolt_major_least=diameter - deviation - major_tolerance,
        bolt_pitch_greatest=basic - deviation,
        bolt_pitch_least=basic - deviation - pitch_tolerance,
        nut_pitch_least=basic,
        nut_pitch_greatest=basic + NUT_PITCH_ALLOWANCE * 1.32 * pitch_tolerance,
        nut_minor_least=minor,
        nut_minor_greatest=minor + NUT_MINOR_ALLOWANCE * minor_tolerance,
    )
