"""The jack: stroke, height, rating, gauge, lean (A2). Jacks lift, they do not hold."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Area, Count, Force, Length, Pressure, Share, YesNo


@dataclass(frozen=True, slots=True)
class TyreGive:
    """How far a tyre is pressed in.

    Attributes:
        section_height: rim to tread [m]
        deflection: how far the load presses it in [m]
        loaded_radius: axle above the ground [m]
    """

    section_height: Length
    deflection: Length
    loaded_radius: Length


@dataclass(frozen=True, slots=True)
class JackFit:
    """Whether a jack goes under and lifts far enough.

    Attributes:
        packing: what goes under the jack besides its base; negative when it does not go under [m]
        goes_under: there is room for it [-]
        stroke_short: stroke that is missing; negative is spare [m]
        enough: goes under and lifts far enough in one bite [-]
    """

    packing: Length
    goes_under: YesNo
    stroke_short: Length
    enough: YesNo


@dataclass(frozen=True, slots=True)
class JackUse:
    """Load against rating.

    Attributes:
        use: load over rating [-]
        within_planning: not over the planning limit, for a load that is estimated [-]
        accepted: not over the rating; proof loads are tests, not reserve [-]
    """

    use: Share
    within_planning: YesNo
    accepted: YesNo


def tyre_give(outside_diameter: Length, rim: Length, share: Share) -> TyreGive:
    """Deflection and loaded radius of a tyre.

    Args:
        outside_diameter: of the tyre, not loaded [m]
        rim: diameter of the rim [m]
        share: deflection as a share of the section height [-]

    Returns:
        section height, deflection, loaded radius

    Source: geometry; 0.16 to 0.22 of section height at rated load, common practice, no source; the machinery data
        standard covers 0.10 to 0.30.
    Valid: share 0 to 0.35; plan the stroke with 0.22.

    >>> give = tyre_give(1.8, 0.8, 0.2)
    >>> round(give.deflection, 3), round(give.loaded_radius, 3)
    (0.1, 0.8)
    """
    above("rim", rim, 0, "a diameter")
    above("outside_diameter", outside_diameter - rim, 0, "more than the rim")
    within("share", share, 0, 0.35)
    height = (outside_diameter - rim) / 2
    return TyreGive(height, share * height, outside_diameter / 2 - share * height)


def deflection_at_load(share_at_rated: Share, load_over_rated: Share) -> Share:
    """Deflection share of a tyre that carries less than its rated load.

    Args:
        share_at_rated: deflection share at rated load [-]
        load_over_rated: load over rated load [-]

    Returns:
        deflection share at this load [-]

    Source: power 0.9 of the load, from memory.
    Valid: inflated as rated; load 0 to 1.5 times rated.
    """
    within("share_at_rated", share_at_rated)
    within("load_over_rated", load_over_rated, 0, 1.5)
    return share_at_rated * load_over_rated**0.9


def stroke_needed(
    deflection: Length,
    clearance: Length,
    track: Length,
    inboard: Length,
    sink: Length = 0.0,
    shortening: Length = 0.0,
) -> Length:
    """Stroke that lifts the wheel clear, at a jack inboard of it.

    Args:
        deflection: tyre's, which comes out first [m]
        clearance: wanted under the tyre [m]
        track: distance of the front wheels' contacts [m]
        inboard: wheel's contact to jack [m]
        sink: of the ground under the jack [m]
        shortening: of what stands under the jack [m]

    Returns:
        stroke [m]

    Source: lever about the other wheel; geometry.
    Valid: the other tyre stays as it is; deflection and clearance at the wheel, sink and shortening at the jack.
    """
    for what, value in (("deflection", deflection), ("clearance", clearance), ("sink", sink)):
        within(what, value, 0)
    within("shortening", shortening, 0)
    above("track", track, 0, "a distance")
    within("inboard", inboard, 0, np.nextafter(np.min(track), 0), "between wheel and other wheel")
    return (deflection + clearance) * (track - inboard) / track + sink + shortening


def jack_fit(
    lift_point_height: Length,
    closed_height: Length,
    base_stack: Length,
    stroke: Length,
    stroke_wanted: Length,
) -> JackFit:
    """Whether a jack goes under the lift point and lifts far enough.

    Args:
        lift_point_height: lift point above the ground, wheel down [m]
        closed_height: jack, closed [m]
        base_stack: plate and timber under the jack [m]
        stroke: of the jack [m]
        stroke_wanted: that lifts the wheel clear [m]

    Returns:
        packing, what is missing

    Source: geometry. No loose extender between saddle and load (Ohio State University Extension AEX-591).
    Valid: heights measured at the machine.
    """
    for what, value in (
        ("lift_point_height", lift_point_height),
        ("closed_height", closed_height),
        ("base_stack", base_stack),
    ):
        within(what, value)
    within("stroke", stroke, 0)
    within("stroke_wanted", stroke_wanted, 0)
    packing = lift_point_height - closed_height - base_stack
    short = stroke_wanted - stroke
    under = np.asarray(packing) >= 0
    return JackFit(packing, under, short, under & (np.asarray(short) <= 0))


def jack_use(load: Force, rating: Force, planning_limit: Share = 0.8) -> JackUse:
    """Load of a jack against its plate.

    Args:
        load: load [N]
        rating: on the plate [N]
        planning_limit: greatest use for a load that is estimated [-]

    Returns:
        use, and whether it may be planned with and used

    Source: ASME B30.1 test loads are tests, not reserve (read in an excerpt); 0.8 a choice.
    Valid: plate read; short, long and metric tons told apart.
    """
    within("load", load, 0)
    above("rating", rating, 0, "a rating")
    within("planning_limit", planning_limit, 0, 1, "proof loads are no reserve")
    use = np.asarray(load / rating)
    return JackUse(use, use <= planning_limit, use <= 1)


def ram_area(bore: Length) -> Area:
    """Area of a jack's ram.

    Args:
        bore: diameter of the ram's piston [m]

    Returns:
        area [m^2]

    Source: geometry.
    Valid: single-acting ram.
    """
    above("bore", bore, 0, "a diameter")
    return np.pi / 4 * bore**2


def gauge_pressure(load: Force, area: Area, friction: Share = 1.0) -> Pressure:
    """Pressure that the jack's gauge shows under a load.

    Args:
        load: load [N]
        area: of the ram [m^2]
        friction: factor of seal friction: 1 for the mean of raising and lowering, more while raising [-]

    Returns:
        pressure [Pa]

    Source: p = F/A; friction 5 to 10 % each way, common practice, no source.
    Valid: friction factor 0.85 to 1.15.
    """
    within("load", load, 0)
    above("area", area, 0, "an area")
    within("friction", friction, 0.85, 1.15)
    return friction * load / area


def load_from_gauge(raising: Pressure, lowering: Pressure, area: Area) -> Force:
    """Load from the gauge, read while raising and while lowering.

    Args:
        raising: gauge while raising [Pa]
        lowering: gauge while lowering, at the same height [Pa]
        area: of the ram [m^2]

    Returns:
        load [N]

    Source: the mean of both, so that friction drops out; common practice, no source.
    Valid: slow, same height; the gauge at the ram.
    """
    within("raising", raising, 0)
    within("lowering", lowering, 0)
    above("area", area, 0, "an area")
    return (raising + lowering) / 2 * area


def jack_lean(drift: Length, jack_height: Length) -> Angle:
    """Lean of a jack whose head was carried sideways.

    Args:
        drift: travel of the lift point in plan since the jack was last set plumb [m]
        jack_height: base to saddle [m]

    Returns:
        lean [rad]

    Source: geometry.
    Valid: base does not slide; set plumb again over 3 degrees (a choice).
    """
    within("drift", drift, 0)
    above("jack_height", jack_height, 0, "a height")
    return np.arctan2(drift, jack_height)


def bites(rise: Length, bite: Length) -> Count:
    """Number of bites in which a corner is raised.

    Args:
        rise: whole rise [m]
        bite: greatest rise between two cribbings [m]

    Returns:
        bites [1]

    Source: counting; bites of 50 to 75 mm a choice.
    Valid: any.

    >>> float(bites(0.20, 0.06))
    4.0
    """
    within("rise", rise, 0)
    above("bite", bite, 0, "a rise")
    return np.ceil(np.asarray(rise) / bite - 1e-9)
