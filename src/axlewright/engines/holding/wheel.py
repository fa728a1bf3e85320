"""The wheel: its size, mass and ballast, and what carries it (A5). Designations are read in trade/tyres.py."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Density, Force, Length, Mass, Share, Volume, YesNo

RING_SHARE = 0.525  # share of the ring between rim and tread that 75 % liquid fills; fitted to published gallons, 5 %
HANGING = 0.8  # share of a fork rating left for a hanging load, assumed


@dataclass(frozen=True, slots=True)
class Cradled:
    """A wheel that lies in the gap between two forks.

    Attributes:
        contact_angle: from straight down to each contact [rad]
        sink: how far the wheel sinks between the forks [m]
        per_fork: force square to the tread at each fork [N]
        spreading: force that spreads each fork [N]
    """

    contact_angle: Angle
    sink: Length
    per_fork: Force
    spreading: Force


@dataclass(frozen=True, slots=True)
class SlungOnForks:
    """What forks carry in a sling round the tines.

    Attributes:
        standing: capacity at the sling as if the load stood on the forks [kg]
        hanging: capacity for a hanging load [kg]
    """

    standing: Mass
    hanging: Mass


def outside_diameter(width: Length, aspect: Share, rim: Length) -> Length:
    """Outside diameter of a tyre.

    Args:
        width: nominal section width [m]
        aspect: section height over width [-]
        rim: diameter of the rim [m]

    Returns:
        diameter, not loaded [m]

    Source: arithmetic of the size designation; makers may differ by 3 % (Tire and Rim Association tolerance, read).
    Valid: aspect 0.3 to 1.1.

    >>> round(outside_diameter(0.710, 0.70, 42 * 0.0254), 4)
    2.0608
    """
    above("width", width, 0, "a width")
    above("rim", rim, 0, "a diameter")
    within("aspect", aspect, 0.3, 1.1)
    return rim + 2 * aspect * width


def tyre_mass(width: Length, diameter: Length, rim: Length, factor: Density) -> Mass:
    """Mass of a tyre from its size.

    Args:
        width: nominal section width [m]
        diameter: outside diameter [m]
        rim: diameter of the rim [m]
        factor: mass over width and ring, 145 radial, 190 to lift by [kg/m^3]

    Returns:
        mass without rim [kg]

    Source: fitted to an open table of 35 tyre masses: 145 kg/m^3, 126 to 160.
    Valid: drive tyres of rim 24 inch and more; weigh it the first time.
    """
    above("width", width, 0, "a width")
    above("diameter", diameter - rim, 0, "more than the rim")
    above("factor", factor, 0, "a density")
    return factor * width * (diameter**2 - rim**2)


def wheel_mass(tyre: Mass, rim_share: Share, ballast: Mass = 0.0, bolted_on: Mass = 0.0) -> Mass:
    """Mass of a whole wheel.

    Args:
        tyre: mass of the tyre [kg]
        rim_share: mass of rim and disc over that of the tyre [-]
        ballast: liquid in it [kg]
        bolted_on: weights, spacer, dual's clamp [kg]

    Returns:
        mass [kg]

    Source: rim and disc 0.5 to 0.75 of the tyre, from memory.
    Valid: rim share 0.2 to 1.5.
    """
    above("tyre", tyre, 0, "a mass")
    within("rim_share", rim_share, 0.2, 1.5)
    within("ballast", ballast, 0)
    within("bolted_on", bolted_on, 0)
    return tyre * (1 + rim_share) + ballast + bolted_on


def liquid_fill(width: Length, diameter: Length, rim: Length, ring_share: Share = RING_SHARE) -> Volume:
    """Liquid in a tyre filled to the valve at the top (75 %).

    Args:
        width: nominal section width [m]
        diameter: outside diameter [m]
        rim: diameter of the rim [m]
        ring_share: share of the ring between rim and tread, over the nominal width, that is liquid [-]

    Returns:
        volume [m^3]

    Source: factor fitted to a dealer's liquid ballast chart, within 5 %.
    Valid: inch sizes of normal section; untested on L and metric sizes. A chart for the size goes first.
    """
    above("width", width, 0, "a width")
    above("diameter", diameter - rim, 0, "more than the rim")
    within("ring_share", ring_share, 0, 1)
    return ring_share * np.pi / 4 * (diameter**2 - rim**2) * width


def ballast_mass(volume: Volume, density: Density) -> Mass:
    """Mass of liquid ballast.

    Args:
        volume: liquid [m^3]
        density: of the liquid [kg/m^3]

    Returns:
        mass [kg]

    Source: definition of density.
    Valid: any.
    """
    within("volume", volume, 0)
    above("density", density, 0, "a density")
    return volume * density


def ballast_density(mass: Mass, volume: Volume) -> Density:
    """Density of ballast from a table's mass and volume.

    Args:
        mass: of the liquid [kg]
        volume: of the liquid [m^3]

    Returns:
        density [kg/m^3]

    Source: definition of density.
    Valid: any.
    """
    within("mass", mass, 0)
    above("volume", volume, 0, "a volume")
    return mass / volume


def contact_of_duals(inner: Length, outer: Length, equally_inflated: YesNo) -> Length:
    """Where a pair of wheels stands, for tipping and levers.

    Args:
        inner: inner wheel's plane, left of the machine's middle [m]
        outer: outer wheel's plane, on the same side [m]
        equally_inflated: both at one pressure [-]

    Returns:
        middle of the pair, or the inner wheel's plane where the pressures differ or are not known [m]

    Source: statics; the inner plane is a choice, on the careful side.
    Valid: both wheels on the ground.
    """
    within("outer", np.abs(outer) - np.abs(inner), 0, np.inf, "outboard of the inner wheel")
    return np.where(equally_inflated, (inner + outer) / 2, inner)


def rating_from_tipping(full_turn_tipping: Mass, share: Share) -> Mass:
    """Rated load on forks from the full-turn tipping load.

    A rating already contains its share: never apply it twice, never forget it on a tipping figure.

    Args:
        full_turn_tipping: full-turn tipping load at that load centre, not the straight one [kg]
        share: share that the definition allows [-]

    Returns:
        rated load [kg]

    Source: shares of SAE J1197, ISO 14397-1, EN 474-3, SAE J818 (read); trade/loaders.toml.
    Valid: also no more than the lift capacity at that height and the forks' marking.
    """
    above("full_turn_tipping", full_turn_tipping, 0, "a mass")
    within("share", share, 0, 0.8)
    return share * full_turn_tipping


def load_at_centre(rated: Mass, rated_centre: Length, centre: Length, tipping_line: Length = 0.0) -> Mass:
    """What forks carry at a load centre farther out than the rated one.

    Args:
        rated: rated load [kg]
        rated_centre: its load centre, from the fork face [m]
        centre: real load centre, from the fork face [m]
        tipping_line: front axle to fork face; nothing where it is not known [m]

    Returns:
        load; no more than rated where the centre is nearer [kg]

    Source: constant tipping moment; with a tipping line of nothing the simple rule of OSHA truck guidance.
    Valid: tipping only: lift cylinders, forks and carriage may govern sooner.

    >>> round(float(load_at_centre(2000.0, 0.5, 0.8, 1.0)), 1)
    1666.7
    """
    above("rated", rated, 0, "a mass")
    above("rated_centre", rated_centre, 0, "a distance")
    above("centre", centre, 0, "a distance")
    within("tipping_line", tipping_line, 0)
    return rated * np.minimum(1.0, (tipping_line + rated_centre) / (tipping_line + centre))


def wheel_load_centre(
    standoff: Length, width: Length, diameter: Length, crosswise: YesNo, bucket_forks: Length = 0.0
) -> Length:
    """Load centre of a wheel on forks.

    Args:
        standoff: fork face to the wheel [m]
        width: of the wheel [m]
        diameter: of the wheel [m]
        crosswise: the wheel's axle lies across the forks, not along them [-]
        bucket_forks: how much farther out forks on a bucket stand [m]

    Returns:
        distance from the fork face [m]

    Source: geometry; bucket forks add 0.7 to 1.0 m, common practice, no source.
    Valid: wheel against its stop.
    """
    within("width", width)
    within("diameter", diameter)
    within("standoff", standoff, 0)
    within("bucket_forks", bucket_forks, 0)
    return standoff + bucket_forks + np.where(crosswise, diameter, width) / 2


def cradled_on_forks(radius: Length, gap: Length, weight: Force) -> Cradled:
    """How a wheel lies in the gap between two forks, and what it does to them.

    Args:
        radius: of the wheel [m]
        gap: between the forks' inner edges [m]
        weight: of the wheel [N]

    Returns:
        angle, sink, forces

    Source: equilibrium without friction; statics.
    Valid: gap less than the wheel's diameter; no gap and it rolls. Chained to the carriage above its centre.
    """
    above("radius", radius, 0, "a radius")
    within("weight", weight, 0)
    within("gap", gap, 0, 1.98 * np.min(radius), "under the diameter; it must not fall through")
    angle = np.arcsin(gap / (2 * radius))
    return Cradled(angle, radius * (1 - np.cos(angle)), weight / 2 / np.cos(angle), weight / 2 * np.tan(angle))


def slung_on_forks(
    rated: Mass, rated_centre: Length, tipping_line: Length, sling: Length, hanging_share: Share = HANGING
) -> SlungOnForks:
    """What forks carry hanging in a sling that sits in a locked fork hook.

    Args:
        rated: rated load [kg]
        rated_centre: its load centre, from the fork face [m]
        tipping_line: front axle to fork face [m]
        sling: fork face to the sling [m]
        hanging_share: share left for a hanging load [-]

    Returns:
        capacity standing and hanging

    Source: constant tipping moment; 0.8 for a hanging load is assumed, where the maker rates no jib.
    Valid: only outward of the rated centre; never over bare tines.
    """
    within("hanging_share", hanging_share, 0, 1)
    standing = load_at_centre(rated, rated_centre, sling, tipping_line)
    return SlungOnForks(standing, hanging_share * standing)
