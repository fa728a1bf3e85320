"""Threads put right: what a chased thread still holds, and the hole that a wire insert wants."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.engines.joints._limits import not_below
from axlewright.engines.joints.threads import HEIGHT, check_thread, strip_width_internal
from axlewright.engines.limits import above, within
from axlewright.kinds import Length, Share


def chased_thread_share(
    extra_pitch_diameter: Length, pitch: Length, bolt_major_least: Length, nut_pitch_greatest: Length
) -> Share:
    """Share of the housing's strip area that is left after chasing it larger.

    Args:
        extra_pitch_diameter: how much larger the pitch diameter has become [m]
        pitch: pitch [m]
        bolt_major_least: least major diameter of the bolt [m]
        nut_pitch_greatest: greatest pitch diameter of the thread before [m]

    Returns:
        share left [-]

    Source: FED-STD-H28/2B strip area with the larger pitch diameter.
    Valid: a chaser that follows the thread; torn crests and missing turns cost far more.

    >>> round(float(chased_thread_share(0.0002, 0.00254, 0.018677, 0.017595)), 2)
    0.94
    """
    within("extra_pitch_diameter", extra_pitch_diameter, 0.0)
    not_below("bolt_major_least", bolt_major_least, nut_pitch_greatest, "its crests reach the hole's flanks")
    before = strip_width_internal(pitch, bolt_major_least, nut_pitch_greatest)
    after = strip_width_internal(pitch, bolt_major_least, nut_pitch_greatest + extra_pitch_diameter)
    return after / before


@dataclass(frozen=True, slots=True)
class WireInsert:
    """Thread and depths that a wire insert wants in the housing."""

    major: Length
    pitch_diameter: Length
    thread_depth: Length
    drill_bottoming: Length
    drill_plug: Length


def wire_insert(diameter: Length, pitch: Length, insert_length: Length) -> WireInsert:
    """Thread and depth of the hole for a wire thread insert.

    Args:
        diameter: nominal diameter of the bolt [m]
        pitch: pitch [m]
        insert_length: length of the insert [m]

    Returns:
        major: basic major diameter of the housing thread [m]
        pitch_diameter: basic pitch diameter of the housing thread [m]
        thread_depth: least depth of full thread [m]
        drill_bottoming: least drilled depth with a bottoming tap [m]
        drill_plug: least drilled depth with a plug tap [m]

    Source: major D + 1.299 P, pitch D + 0.6495 P; depth length + 1 P, drilled + 4 P or + 6 P (ASME B18.29.2M as quoted,
        insert makers' charts).
    Valid: blind hole; measure the hole and the wall behind it first.

    >>> round(float(wire_insert(0.01905, 0.00254, 0.01905).thread_depth / 0.0254), 2)
    0.85
    """
    check_thread(diameter, pitch)
    above("insert_length", insert_length)
    return WireInsert(
        major=diameter + 1.5 * HEIGHT * pitch,
        pitch_diameter=diameter + 0.75 * HEIGHT * pitch,
        thread_depth=insert_length + pitch,
        drill_bottoming=insert_length + 4 * pitch,
        drill_plug=insert_length + 6 * pitch,
    )
