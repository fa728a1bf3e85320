"""The ground under jack, crib and stand: what it bears, what spreads the load, how far it sinks (A4)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Area, Force, Length, Pressure, Share, SubgradeModulus, Torque

STEEL_MODULUS = 210e9  # Pa, structural steel, EN 1993-1-1


@dataclass(frozen=True, slots=True)
class GroundArea:
    """Ground that a load needs.

    Attributes:
        area: area [m^2]
        side: side of a square of it [m]
    """

    area: Area
    side: Length


@dataclass(frozen=True, slots=True)
class Mat:
    """A timber mat that spreads a load lengthwise.

    Attributes:
        area: ground needed [m^2]
        length: mat's length needed [m]
        cantilever: beyond the loaded length, at each end [m]
        pressure: under the mat from the load [Pa]
        moment: bending at the face of the load [N m]
        bending: stress of that [Pa]
        shear: shear one depth from the face [N]
        shear_stress: stress of that [Pa]
    """

    area: Area
    length: Length
    cantilever: Length
    pressure: Pressure
    moment: Torque
    bending: Pressure
    shear: Force
    shear_stress: Pressure


@dataclass(frozen=True, slots=True)
class Plate:
    """A steel plate that spreads a load.

    Attributes:
        pressure: under the plate [Pa]
        moment: bending at the face of the foot, for each metre of width [N]
        bending: stress of that [Pa]
        edge_deflection: how far its edge bends up [m]
    """

    pressure: Pressure
    moment: Force
    bending: Pressure
    edge_deflection: Length


@dataclass(frozen=True, slots=True)
class ClayBearing:
    """What a pad on clay bears.

    Attributes:
        ultimate: pressure at which it fails [Pa]
        allowed: pressure allowed [Pa]
        unconfined: unconfined strength that a thumb tells [Pa]
    """

    ultimate: Pressure
    allowed: Pressure
    unconfined: Pressure


@dataclass(frozen=True, slots=True)
class TyreProof:
    """What the machine's own tyre has proved of the ground.

    Attributes:
        pressure: mean pressure it stood on [Pa]
        footprint: its print [m^2]
        allowed: pressure allowed under a pad for a day [Pa]
    """

    pressure: Pressure
    footprint: Area
    allowed: Pressure


def ground_area(load: Force, own_weight: Force, allowed: Pressure) -> GroundArea:
    """Ground that a load and what carries it need.

    Args:
        load: on crib, jack or stand [N]
        own_weight: of crib, mat and plate [N]
        allowed: pressure allowed on the ground [Pa]

    Returns:
        area and side

    Source: (P + own weight)/q; statics.
    Valid: load in the middle of the area.

    >>> ground_area(90_000.0, 0.0, 40_000.0).side
    1.5
    """
    within("load", load, 0)
    within("own_weight", own_weight, 0)
    above("allowed", allowed, 0, "this ground bears nothing without a mat and a test")
    area = (load + own_weight) / allowed
    return GroundArea(area, area**0.5)


def mat_of_timbers(
    load: Force, mat_weight: Force, allowed: Pressure, width: Length, loaded_length: Length, depth: Length
) -> Mat:
    """Length a timber mat needs, and its bending and shear.

    Args:
        load: on the mat [N]
        mat_weight: of the mat [N]
        allowed: pressure allowed on the ground [Pa]
        width: of the mat, all its timbers side by side [m]
        loaded_length: length that the crib's base covers, along the mat's grain [m]
        depth: of the timbers [m]

    Returns:
        area, length, pressure, bending, shear; no bending where the loaded length alone is enough

    Source: Duerr, Effective Bearing Length of Crane Mats (2010), equations 1-8.
    Valid: timbers bolted or evenly loaded; load in the middle; stress limits in trade/timber.toml.
    """
    within("load", load, 0)
    within("mat_weight", mat_weight, 0)
    above("allowed", allowed, 0, "this ground bears nothing without a mat and a test")
    for what, value in (("width", width), ("loaded_length", loaded_length), ("depth", depth)):
        above(what, value, 0, "a length")
    area = (load + mat_weight) / allowed
    length = area / width
    cantilever = np.maximum(length - loaded_length, 0.0) / 2
    pressure = load / (width * length)
    moment = pressure * width * cantilever**2 / 2
    shear = pressure * width * np.maximum(cantilever - depth, 0.0)
    return Mat(
        area,
        length,
        cantilever,
        pressure,
        moment,
        6 * moment / (width * depth**2),
        shear,
        1.5 * shear / (width * depth),
    )


def steel_plate(load: Force, side: Length, foot: Length, thickness: Length, modulus: Pressure = STEEL_MODULUS) -> Plate:
    """Pressure under a square steel plate, and how it bends.

    Args:
        load: on the foot in its middle [N]
        side: of the plate [m]
        foot: side of what stands on it [m]
        thickness: of the plate [m]
        modulus: of steel [Pa]

    Returns:
        pressure, bending, deflection

    Source: cantilever strip under even pressure; textbook bending of beams.
    Valid: even pressure; a plate that bends visibly presses most under its foot.
    """
    within("modulus", modulus)
    within("load", load, 0)
    above("side", side, 0, "a length")
    within("foot", foot, 0, np.min(side), "no more than the plate")
    above("thickness", thickness, 0, "a thickness")
    reach = (side - foot) / 2
    pressure = load / side**2
    moment = pressure * reach**2 / 2
    return Plate(pressure, moment, 6 * moment / thickness**2, pressure * reach**4 / (8 * modulus * thickness**3 / 12))


def plate_side_that_counts(load: Force, side: Length, foot: Length, thickness: Length, stress: Pressure) -> Length:
    """Side of a plate that counts: all of it, or as much as its bending stress allows.

    Args:
        load: on the foot in its middle [N]
        side: of the plate [m]
        foot: side of what stands on it [m]
        thickness: of the plate [m]
        stress: allowed in bending, two thirds of yield [Pa]

    Returns:
        side [m]

    Source: cantilever strip, 6 m/t^2 = s with m = P (s - f)^2/(8 s^2), solved for the side.
    Valid: foot in the middle.
    """
    above("load", load, 0, "a load")
    above("side", side, 0, "a length")
    above("foot", foot, 0, "a length")
    within("foot", foot, 0, np.min(side), "no more than the plate")
    above("thickness", thickness, 0, "a thickness")
    above("stress", stress, 0, "a stress")
    share = thickness * np.sqrt(4 * stress / (3 * load))
    return np.minimum(side, np.where(share < 1, foot / np.maximum(1 - share, 1e-12), np.inf))


def clay_bearing(
    cohesion: Pressure, bearing_factor: Share = 5.14, shape: Share = 1.2, safety: Share = 3.0
) -> ClayBearing:
    """What a pad on clay bears for a short time.

    Args:
        cohesion: undrained shear strength [Pa]
        bearing_factor: 2 + pi [-]
        shape: 1 + 0.2 B/L, of a square pad 1.2 [-]
        safety: against failure [-]

    Returns:
        pressures

    Source: Prandtl and Skempton; thumb classes of OSHA 1926 Subpart P, appendix A.
    Valid: saturated clay, days; the allowed pressure is about the unconfined strength.
    """
    within("cohesion", cohesion, 0)
    within("bearing_factor", bearing_factor, 5, 6)
    within("shape", shape, 1, 1.2)
    within("safety", safety, 1, 10)
    ultimate = bearing_factor * shape * cohesion
    return ClayBearing(ultimate, ultimate / safety, 2 * cohesion)


def tyre_proof(inflation: Pressure, tyre_load: Force, divide_by: Share = 1.5) -> TyreProof:
    """Pressure that the ground has proved by carrying the machine's own tyre without a rut.

    Args:
        inflation: of that tyre; the stiffness of its carcass counts nothing [Pa]
        tyre_load: on that tyre [N]
        divide_by: caution for a pad that stands a day [-]

    Returns:
        pressure, print, pressure allowed

    Source: mean contact pressure about equal to inflation (Arvidsson and Keller 2007); the division a choice.
    Valid: stood there with no rut over 10 mm; a pad of like size, for a day.
    """
    above("inflation", inflation, 0, "a pressure")
    within("tyre_load", tyre_load, 0)
    within("divide_by", divide_by, 1, 10)
    return TyreProof(inflation, tyre_load / inflation, inflation / divide_by)


def pressure_below(load: Force, width: Length, length: Length, below: Length) -> Pressure:
    """Pressure that reaches a weaker layer under a pad of gravel.

    Args:
        load: on the pad's top [N]
        width: of the loaded area [m]
        length: of the loaded area [m]
        below: thickness of the pad [m]

    Returns:
        pressure [Pa]

    Source: spread 2 vertical to 1 horizontal, P/((B + z)(L + z)); two open geotechnical references.
    Valid: pad firmer than what lies under it.
    """
    within("load", load, 0)
    above("width", width, 0, "a length")
    above("length", length, 0, "a length")
    within("below", below, 0)
    return load / ((width + below) * (length + below))


def sink_of_pad(pressure: Pressure, diameter: Length, modulus: Pressure, poisson: Share = 0.5) -> Length:
    """How far a stiff pad sinks.

    Args:
        pressure: under the pad [Pa]
        diameter: of a round pad of its area [m]
        modulus: of the soil [Pa]
        poisson: of the soil; 0.5 for clay under a quick load [-]

    Returns:
        sink [m]

    Source: Boussinesq, rigid round punch, s = pi/4 q D (1 - nu^2)/E.
    Valid: elastic, deep soil; most of it comes in the first hour.
    """
    within("pressure", pressure, 0)
    above("diameter", diameter, 0, "a length")
    above("modulus", modulus, 0, "a modulus")
    within("poisson", poisson, 0, 0.5)
    return np.pi / 4 * pressure * diameter * (1 - poisson**2) / modulus


def _stiffness_radius(thickness: Length, subgrade: SubgradeModulus, modulus: Pressure, poisson: Share) -> Length:
    above("thickness", thickness, 0, "a thickness")
    above("subgrade", subgrade, 0, "a modulus")
    above("modulus", modulus, 0, "a modulus")
    within("poisson", poisson, 0, 0.5)
    return (modulus * thickness**3 / (12 * (1 - poisson**2) * subgrade)) ** 0.25


def _even_radius(loaded_radius: Length, thickness: Length) -> Length:
    """Westergaard's b, for a load on less than 1.724 times the thickness."""
    small = np.sqrt(1.6 * np.asarray(loaded_radius) ** 2 + thickness**2) - 0.675 * thickness
    return np.where(np.asarray(loaded_radius) < 1.724 * thickness, small, loaded_radius)


def slab_bending_inside(
    load: Force,
    loaded_radius: Length,
    thickness: Length,
    subgrade: SubgradeModulus,
    modulus: Pressure = 30e9,
    poisson: Share = 0.15,
) -> Pressure:
    """Bending stress of a concrete slab under a load well inside it.

    Args:
        load: on the slab [N]
        loaded_radius: of a round area of the load's size [m]
        thickness: of the slab [m]
        subgrade: modulus of what lies under it [Pa/m]
        modulus: of concrete [Pa]
        poisson: of concrete [-]

    Returns:
        stress [Pa]

    Source: Westergaard, interior load, 0.316 P/h^2 (4 log10(l/b) + 1.069).
    Valid: 1 m or more off edges, joints, pits and drains; Poisson's number about 0.15.
    """
    within("load", load, 0)
    above("loaded_radius", loaded_radius, 0, "a radius")
    stiff = _stiffness_radius(thickness, subgrade, modulus, poisson)
    b = _even_radius(loaded_radius, thickness)
    return 0.316 * load / thickness**2 * (4 * np.log10(stiff / b) + 1.069)


def slab_bending_at_edge(
    load: Force,
    loaded_radius: Length,
    thickness: Length,
    subgrade: SubgradeModulus,
    modulus: Pressure = 30e9,
    poisson: Share = 0.15,
) -> Pressure:
    """Bending stress of a concrete slab under a load at its edge.

    Args:
        load: on the slab [N]
        loaded_radius: of a round area of the load's size [m]
        thickness: of the slab [m]
        subgrade: modulus of what lies under it [Pa/m]
        modulus: of concrete [Pa]
        poisson: of concrete [-]

    Returns:
        stress [Pa]

    Source: Westergaard, edge load, 0.572 P/h^2 (4 log10(l/b) + 0.359), constants from memory.
    Valid: straight free edge; better not done: keep 1 m off.
    """
    within("load", load, 0)
    above("loaded_radius", loaded_radius, 0, "a radius")
    stiff = _stiffness_radius(thickness, subgrade, modulus, poisson)
    b = _even_radius(loaded_radius, thickness)
    return 0.572 * load / thickness**2 * (4 * np.log10(stiff / b) + 0.359)
