"""What the parts of a rig must bear and what they hold: slings, shackles, eyebolts, a bolt in a spare hole (A6).

Step tables of the trade (choke angle, shackle, edge, hitch) are rows in trade/slings.toml; here are the formulas.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.joints.threads import bolt_minor_diameter, stress_area_metric
from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Force, Length, Mass, Pressure, Share, Stiffness, YesNo

REACHED = 1e-9  # a factor that is met but for rounding is met


@dataclass(frozen=True, slots=True)
class PinStress:
    """A loose bolt as the pin a sling pulls on.

    Attributes:
        root: diameter at the root of its thread [m]
        tension: stress from the pull along the bolt [Pa]
        bending: stress from the stand-off [Pa]
        shear: stress from the pull across the bolt [Pa]
        equivalent: all together (von Mises) [Pa]
        on_yield: yield over that [-]
        enough: the factor on yield is met [-]
    """

    root: Length
    tension: Pressure
    bending: Pressure
    shear: Pressure
    equivalent: Pressure
    on_yield: Share
    enough: YesNo


@dataclass(frozen=True, slots=True)
class SleeveGrip:
    """A bolt that clamps a sleeve hard, so that the sleeve and not the bolt takes the pull.

    Attributes:
        gap_moment: moment at which the sleeve begins to gape, over the moment there is [-]
        slip: friction over the pull across [-]
    """

    gap_moment: Share
    slip: Share


def angle_factor(from_plumb: Angle) -> Share:
    """Pull of a leg over its upright part.

    A pull found from the hang has this in it already.

    Args:
        from_plumb: angle of the leg from plumb, not from level [rad]

    Returns:
        factor [-]

    Source: 1/cos; angle charts of wire rope and web sling leaflets.
    Valid: under 85 degrees for the figure itself; over 60 no leg is used.

    >>> round(float(angle_factor(np.radians(60))), 6)
    2.0
    """
    within("from_plumb", from_plumb, 0, np.radians(85), "in radians")
    return 1 / np.cos(from_plumb)


def lift_load(mass: Mass, handling: Share, gear: Mass = 0.0) -> Mass:
    """Load a rig must be good for.

    Args:
        mass: of the drive at its careful end [kg]
        handling: factor for how it is lifted [-]
        gear: hook block, chain, straps [kg]

    Returns:
        load [kg]

    Source: handling factors of trade/slings.toml (0027/ND rev. 11, table 5-1).
    Valid: smooth work; a drop through slack is worked out apart.
    """
    within("mass", mass, 0)
    within("gear", gear, 0)
    within("handling", handling, 1, 3)
    return (mass + gear) * handling


def part_holds(
    straight: Mass, hitch: Share = 1.0, choke: Share = 1.0, bend: Share = 1.0, hook_without_cradle: Share = 1.0
) -> Mass:
    """Working load limit of a part as it is used.

    Args:
        straight: working load limit on the tag, pulled straight [kg]
        hitch: of the mode: choked, basket [-]
        choke: of the choke's angle [-]
        bend: over an edge, round a pin, off the axis [-]
        hook_without_cradle: of a grab hook [-]

    Returns:
        limit [kg]

    Source: chain of the mode factors of EN 1492-1 or the tag, and the choke, edge and bend tables.
    Valid: tag read; the lower of tag and code's table.

    >>> part_holds(1000.0, 0.8, 0.5)
    400.0
    """
    within("straight", straight, 0)
    within("hitch", hitch, 0, 2.1)
    within("choke", choke, 0, 1)
    within("bend", bend, 0, 1)
    within("hook_without_cradle", hook_without_cradle, 0, 1)
    return straight * hitch * choke * bend * hook_without_cradle


def lower_limit(tag: Mass, code: Mass) -> Mass:
    """Working load limit that counts: the lower of tag and code.

    Args:
        tag: on the part [kg]
        code: in the code's table [kg]

    Returns:
        limit [kg]

    Source: where a code's table is lower, the lower one counts.
    Valid: same mode and angle.
    """
    within("tag", tag, 0)
    within("code", code, 0)
    return np.minimum(tag, code)


def leg_stiffness(limit: Force, stretch: Share, length: Length) -> Stiffness:
    """Stiffness of a leg from how much its kind stretches at its working load limit.

    Args:
        limit: working load limit [N]
        stretch: share of its length at that limit [-]
        length: of the leg [m]

    Returns:
        stiffness [N/m]

    Source: EA = WLL over stretch; shares of trade/slings.toml.
    Valid: within a factor of two; the tilt hardly depends on it, the sharing of four legs does.
    """
    above("limit", limit, 0, "a load")
    within("stretch", stretch, 1e-4, 0.5)
    above("length", length, 0, "a length")
    return limit / stretch / length


def rope_bend(diameter_ratio: Share) -> Share:
    """Share of its strength that wire rope keeps round a bend.

    Args:
        diameter_ratio: diameter it is bent round over its own [-]

    Returns:
        share [-]

    Source: 1 - 0.5/sqrt(D/d), read in an open implementation; leaflet chart 0.50 at 1.
    Valid: empirical; D/d 1 and more. A basket whose tag is rated at D/d 25 carries its tag there.

    >>> rope_bend(4.0)
    0.75
    """
    within("diameter_ratio", diameter_ratio, 1, np.inf, "tighter than its own diameter")
    return 1 - 0.5 / diameter_ratio**0.5


def eyebolt_engagement(diameter: Length, diameters: Share = 1.5) -> Length:
    """Least engagement of a lifting eyebolt in a tapped hole.

    Args:
        diameter: of its thread [m]
        diameters: how many, 1.5 in steel, 2 in grey iron [-]

    Returns:
        engagement [m]

    Source: DOE-STD-1090 12.4; in cast iron two diameters, and stripping of the housing decides.
    Valid: shoulder seated; shim no thicker than a sixteenth of the diameter.
    """
    above("diameter", diameter, 0, "a diameter")
    within("diameters", diameters, 1.5, 5)
    return diameters * diameter


def unmarked_shackle_ceiling(bow: Length) -> Mass:
    """Greatest load that an unmarked shackle was ever given; it is not used for lifting.

    Args:
        bow: diameter of its bow [m]

    Returns:
        load [kg]

    Source: navy steelworker manual, 3 D^2 short tons with D in inches.
    Valid: empirical, inches in the constant; to judge what was done, never to lift by.
    """
    above("bow", bow, 0, "a diameter")
    return 3 * (bow / 0.0254) ** 2 * 907.18474


def bolt_as_pin(
    diameter: Length,
    pitch: Length,
    pull: Force,
    stand_off: Length,
    yield_strength: Pressure,
    off_axis: Angle = np.pi / 2,
    wanted: Share = 3.0,
) -> PinStress:
    """Stress of a loose bolt that a sling pulls on, a stand-off away from the face.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]
        pull: of the sling [N]
        stand_off: face to line of pull [m]
        yield_strength: of the bolt [Pa]
        off_axis: pull from the bolt's axis, a quarter turn when square to it [rad]
        wanted: factor on yield [-]

    Returns:
        stresses and factor

    Source: cantilever on the thread's root, d3 of ISO 724; 3 on yield after ASME BTH-1 category B (read).
    Valid: not clamped; ISO metric thread; bolt of known grade, neither old nor from the joint.
    """
    within("pull", pull, 0)
    within("stand_off", stand_off, 0)
    above("yield_strength", yield_strength, 0, "a strength")
    within("off_axis", off_axis, 0, np.pi / 2)
    within("wanted", wanted, 1, 10)
    root = bolt_minor_diameter(diameter, pitch)
    along, across = pull * np.cos(off_axis), pull * np.sin(off_axis)
    tension = along / stress_area_metric(diameter, pitch)
    bending = 32 * across * stand_off / (np.pi * root**3)
    shear = 4 * across / (np.pi * root**2)
    both = np.sqrt((tension + bending) ** 2 + 3 * shear**2)
    factor = np.where(both > 0, yield_strength / np.where(both > 0, both, 1.0), np.inf)
    return PinStress(root, tension, bending, shear, both, factor, factor >= wanted - REACHED)


def sleeve_grip(
    preload: Force,
    pull: Force,
    stand_off: Length,
    sleeve_outer: Length,
    sleeve_inner: Length,
    friction: Share,
    off_axis: Angle = np.pi / 2,
) -> SleeveGrip:
    """How hard a clamped sleeve sits on the face under a sling's pull.

    Args:
        preload: of the bolt, at its low end [N]
        pull: of the sling [N]
        stand_off: face to line of pull [m]
        sleeve_outer: outer radius of sleeve or washer on the face [m]
        sleeve_inner: inner radius [m]
        friction: of the faces [-]
        off_axis: pull from the bolt's axis [rad]

    Returns:
        both as margins; 2 is wanted of each

    Source: gaping begins at M = (F - N)(Ro^2 + Ri^2)/(4 Ro) for a ring; Coulomb friction.
    Valid: bolt tightened; its own stress looked at apart.
    """
    above("preload", preload, 0, "a preload")
    above("pull", pull, 0, "a pull")
    above("stand_off", stand_off, 0, "a length")
    above("sleeve_outer", sleeve_outer - sleeve_inner, 0, "more than the inner radius")
    within("sleeve_inner", sleeve_inner, 0)
    within("friction", friction, 0, 1)
    within("off_axis", off_axis, np.radians(1), np.pi / 2, "along the axis nothing bends or slips")
    left = preload - pull * np.cos(off_axis)
    across = pull * np.sin(off_axis)
    gapes = left * (sleeve_outer**2 + sleeve_inner**2) / (4 * sleeve_outer)
    return SleeveGrip(gapes / (across * stand_off), friction * left / across)
