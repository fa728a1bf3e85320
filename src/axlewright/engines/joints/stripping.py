"""Which thread goes first, and how much engagement it takes: two rules in print that differ by two, both named."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.joints._limits import not_below
from axlewright.engines.limits import above, within
from axlewright.kinds import Area, Array, Count, Force, Length, Pressure, Share

RUN_OUT_LENGTHS, RUN_OUT_TURNS = 2.0, 0.8  # pitches; public code after VDI 2230, both of them
BOTTOM = 1.0  # pitch of clearance that a bolt keeps from the end of its thread; Machinery's Handbook


def engagement_from_turns(turns: Count, pitch: Length) -> Length:
    """Effective engagement of a bolt that goes in by hand a number of full turns.

    Args:
        turns: full turns by hand, counted [1]
        pitch: pitch [m]

    Returns:
        effective engagement, 0.8 pitches taken off, at least zero [m]

    Source: run-out 0.8 P of counted turns; public code after VDI 2230.
    Valid: turns counted on a clean bolt.

    >>> round(float(engagement_from_turns(11, 0.0025)) * 1000, 1)
    25.5
    """
    within("turns", turns, 0.0)
    above("pitch", pitch)
    return np.maximum(turns - RUN_OUT_TURNS, 0.0) * pitch


def engagement_from_lengths(bolt_length: Length, grip: Length, thread_depth: Length, pitch: Length) -> Length:
    """Effective engagement worked out from lengths.

    Args:
        bolt_length: length of the bolt under its head [m]
        grip: clamped length with washer [m]
        thread_depth: depth of full thread in the hole [m]
        pitch: pitch [m]

    Returns:
        effective engagement, two pitches taken off, at least zero [m]

    Source: run-out 2 P from lengths; public code after VDI 2230, Machinery's Handbook on tap chamfers.
    Valid: thread depth as tapped, not as drilled.

    >>> round(float(engagement_from_lengths(0.060, 0.030, 0.035, 0.0025)) * 1000, 1)
    25.0
    """
    above("bolt_length", bolt_length)
    within("grip", grip, 0.0)
    within("thread_depth", thread_depth, 0.0)
    above("pitch", pitch)
    return effective_engagement(np.maximum(np.minimum(bolt_length - np.asarray(grip), thread_depth), 0.0), pitch)


def effective_engagement(engaged: Length, pitch: Length) -> Length:
    """Effective engagement of a length measured or read off a drawing.

    Args:
        engaged: length of thread engaged [m]
        pitch: pitch [m]

    Returns:
        effective engagement, two pitches taken off, at least zero [m]

    Source: run-out 2 P from lengths; public code after VDI 2230, Machinery's Handbook on tap chamfers.
    Valid: engaged length, not the depth of the hole.

    >>> round(float(effective_engagement(0.030, 0.0025)) * 1000, 1)
    25.0
    """
    within("engaged", engaged, 0.0)
    above("pitch", pitch)
    return np.maximum(engaged - RUN_OUT_LENGTHS * pitch, 0.0)


def room_to_bottom(bolt_length: Length, grip: Length, thread_depth: Length, pitch: Length) -> Length:
    """Room between the bolt's end and the end of its thread: below zero it bottoms, full torque and no clamp.

    Args:
        bolt_length: length of the bolt under its head [m]
        grip: clamped length with washer [m]
        thread_depth: depth of full thread in the hole [m]
        pitch: pitch [m]

    Returns:
        room, one pitch kept clear [m]

    Source: length - grip against thread depth - 1 P; Machinery's Handbook.
    Valid: blind hole, blown out.

    >>> round(float(room_to_bottom(0.060, 0.030, 0.035, 0.0025) * 1000), 1)
    2.5
    """
    above("bolt_length", bolt_length)
    within("grip", grip, 0.0)
    within("thread_depth", thread_depth, 0.0)
    above("pitch", pitch)
    return thread_depth - BOTTOM * pitch - (bolt_length - grip)


def shear_strength_of(tensile_strength: Pressure, shear_ratio: Share) -> Pressure:
    """Shear strength of a thread's metal.

    Args:
        tensile_strength: tensile strength [Pa]
        shear_ratio: shear over tensile strength of this metal [-]

    Returns:
        shear strength [Pa]

    Source: VDI 2230-1, ratio by metal; grey iron 0.9 to 1.4, steel of bolts 0.60 to 0.70.
    Valid: ratio 0.3 to 2.

    >>> round(float(shear_strength_of(250e6, 0.9)) / 1e6)
    225
    """
    above("tensile_strength", tensile_strength)
    within("shear_ratio", shear_ratio, 0.3, 2.0)
    return tensile_strength * shear_ratio


def strip_load(strip_area: Area, shear_strength: Pressure) -> Force:
    """Preload that strips a thread.

    Args:
        strip_area: strip area over the effective engagement [m^2]
        shear_strength: shear strength of that thread's metal [Pa]

    Returns:
        load [N]

    Source: area times shear strength; FED-STD-H28/2B, VDI 2230-1.
    Valid: effective engagement, run-out taken off.

    >>> round(float(strip_load(744.8e-6, 206.8e6)) / 1000)
    154
    """
    within("strip_area", strip_area, 0.0)
    above("shear_strength", shear_strength)
    return strip_area * shear_strength


def engagement_by_area(stress_area: Area, external_per_length: Length) -> Length:
    """Engagement at which threads of equal strength hold as much as the bolt, by the rule of areas.

    Args:
        stress_area: tensile stress area of the bolt [m^2]
        external_per_length: strip area of the bolt thread for each length of engagement [m]

    Returns:
        engagement [m]

    Source: FED-STD-H28/2B and Machinery's Handbook, Le = 2 At/(As per length): shear at half of tensile.
    Valid: bolt and housing of equal strength.

    >>> round(float(engagement_by_area(0.33446, 1.2134)), 3)
    0.551
    """
    above("stress_area", stress_area)
    above("external_per_length", external_per_length)
    return 2 * stress_area / external_per_length


def strength_ratio(
    external_per_length: Length, bolt_tensile: Pressure, internal_per_length: Length, housing_tensile: Pressure
) -> Share:
    """How many times the bolt thread is stronger than the housing thread, by the rule of areas.

    Args:
        external_per_length: strip area of the bolt thread for each length of engagement [m]
        bolt_tensile: tensile strength of the bolt [Pa]
        internal_per_length: strip area of the housing thread for each length of engagement [m]
        housing_tensile: tensile strength of the housing [Pa]

    Returns:
        ratio J [-]

    Source: FED-STD-H28/2B and Machinery's Handbook, J = As S_ext/(An S_int).
    Valid: shear taken as half of tensile on both sides, harsh for grey iron.

    >>> round(float(strength_ratio(1.2134, 120.0, 1.7232, 30.0)), 3)
    2.817
    """
    for name, value in (("external_per_length", external_per_length), ("bolt_tensile", bolt_tensile)):
        above(name, value)
    for name, value in (("internal_per_length", internal_per_length), ("housing_tensile", housing_tensile)):
        above(name, value)
    return external_per_length * bolt_tensile / (internal_per_length * housing_tensile)


def engagement_by_area_weaker(stress_area: Area, external_per_length: Length, ratio: Share) -> Length:
    """Engagement at which the bolt breaks before the housing strips, by the rule of areas.

    Args:
        stress_area: tensile stress area of the bolt [m^2]
        external_per_length: strip area of the bolt thread for each length of engagement [m]
        ratio: strength ratio J [-]

    Returns:
        engagement [m]

    Source: FED-STD-H28/2B and Machinery's Handbook, J Le where J is above 1.
    Valid: shear at half of tensile: harsh for grey iron, compare with engagement_by_shear.

    >>> round(float(engagement_by_area_weaker(0.33446, 1.2134, 2.817)) / 0.75, 2)
    2.07
    """
    within("ratio", ratio, 0.0)
    return engagement_by_area(stress_area, external_per_length) * np.maximum(ratio, 1.0)


def engagement_by_shear(
    stress_area: Area,
    bolt_tensile: Pressure,
    internal_per_length: Length,
    shear_strength: Pressure,
    run_out: Length = 0.0,
) -> Length:
    """Engagement at which the bolt breaks before the housing strips, by shear strength.

    Args:
        stress_area: tensile stress area of the bolt [m^2]
        bolt_tensile: tensile strength of the bolt; 1.2 times the least where the bolt must break first [Pa]
        internal_per_length: strip area of the housing thread for each length of engagement [m]
        shear_strength: shear strength of the housing [Pa]
        run_out: length at the end that does not carry; none where effective lengths are compared [m]

    Returns:
        engagement with run-out [m]

    Source: VDI 2230-1, Le = S At/(tau An per length) + run-out.
    Valid: housing thread decides.

    >>> round(float(engagement_by_shear(215.8e-6, 1034e6, 0.04377, 227e6, 0.0) / 0.01905), 2)
    1.18
    """
    above("stress_area", stress_area)
    above("bolt_tensile", bolt_tensile)
    above("internal_per_length", internal_per_length)
    above("shear_strength", shear_strength)
    within("run_out", run_out, 0.0)
    return stress_area * bolt_tensile / (shear_strength * internal_per_length) + run_out


def nut_dilation_factor(width_over_diameter: Share) -> Share:
    """Factor on the strip load for a nut or boss that spreads (C1).

    Args:
        width_over_diameter: width over the nut, or outer diameter of the boss, over the nominal diameter [-]

    Returns:
        factor, at most 1 [-]

    Source: ISO/TR 16224:2012, 4.2.3.1 eq. 6: 3.8 s/d - (s/d)^2 - 2.61 to 1.9, 1 above.
    Valid: from 1.4; a thinner wall is refused.

    >>> round(float(nut_dilation_factor(1.4)), 2)
    0.75
    """
    within("width_over_diameter", width_over_diameter, 1.4, why="a thinner wall spreads beyond the method")
    s = np.asarray(width_over_diameter, float)
    return np.where(s < 1.9, 3.8 * s - s**2 - 2.61, 1.0)


def bolt_bending_factor(strength_ratio: Share) -> Share:
    """Factor on the strip load of the bolt thread, as the other thread bends away (C2).

    Args:
        strength_ratio: Rs, tau An of the nut over tau As of the bolt [-]

    Returns:
        factor [-]

    Source: ISO/TR 16224:2012, 4.2.3.1: 0.897 to Rs 1, above 5.594 - 13.682 Rs + 14.107 Rs^2 - 6.057 Rs^3 + 0.9353 Rs^4.
    Valid: Rs to 2.2.

    >>> round(float(bolt_bending_factor(1.5)), 3)
    1.104
    """
    above("strength_ratio", strength_ratio)
    within("strength_ratio", strength_ratio, 0.0, 2.2)
    r = np.asarray(strength_ratio, float)
    return np.where(r <= 1, 0.897, 5.594 - 13.682 * r + 14.107 * r**2 - 6.057 * r**3 + 0.9353 * r**4)


def nut_bending_factor(strength_ratio: Share) -> Share:
    """Factor on the strip load of the housing thread, as the other thread bends away (C3).

    Args:
        strength_ratio: Rs, tau An of the nut over tau As of the bolt [-]

    Returns:
        factor; where it exceeds 1 take 1 [-]

    Source: ISO/TR 16224:2012, 4.2.3.1: 0.728 + 1.769 Rs - 2.896 Rs^2 + 1.296 Rs^3 from 0.4 to 1, 0.897 above.
    Valid: Rs from 0.4.

    >>> round(float(nut_bending_factor(0.6)), 3)
    1.027
    """
    within("strength_ratio", strength_ratio, 0.4)
    r = np.asarray(strength_ratio, float)
    return np.where(r <= 1, 0.728 + 1.769 * r - 2.896 * r**2 + 1.296 * r**3, 0.897)


@dataclass(frozen=True, slots=True)
class FailsFirst:
    """What goes first as the preload rises: 0 the bolt, 1 its thread, 2 the housing thread."""

    load: Force
    first: Count


def fails_first(bolt_breaks: Force, bolt_strips: Force, housing_strips: Force) -> FailsFirst:
    """Load at which a bolted joint goes, and what goes first.

    Args:
        bolt_breaks: load that breaks the bolt [N]
        bolt_strips: load that strips the bolt thread [N]
        housing_strips: load that strips the housing thread [N]

    Returns:
        load: least of the three [N]
        first: 0 the bolt, 1 its thread, 2 the housing thread; the bolt must be first, it can be replaced [1]

    Source: the weakest of three in series.
    Valid: loads above zero; infinite where a thread cannot strip.

    >>> float(fails_first(223e3, 400e3, 154e3).first)
    2.0
    """
    above("bolt_breaks", bolt_breaks)
    not_below("bolt_strips", bolt_strips, 0.0)  # endless where it cannot strip
    not_below("housing_strips", housing_strips, 0.0)
    loads: Array = np.stack(np.broadcast_arrays(bolt_breaks, bolt_strips, housing_strips))
    return FailsFirst(loads.min(axis=0), np.argmin(loads, axis=0).astype(float))
