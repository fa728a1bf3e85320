"""What a wheel, a slope and a gear put on the two taper roller bearings of a drive (C1).

The outboard bearing is the one at the wheel. Moments are taken about effective centres, where alone a taper roller
bearing is free of moment. Thrust counts positive outward, away from the machine. Back to back is the wide spread, an O in
a catalogue's drawing; face to face the narrow one, an X.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Force, Length, Share, Torque

Arrangement: TypeAlias = Literal["back to back", "face to face"]
INDUCED = 0.5  # thrust that a radial load Fr makes is INDUCED Fr/Y; most metric catalogues, half load zone
RADIAL_WITH_THRUST = 0.4  # X of a single-row taper roller bearing past e; ISO 281
STATIC_RADIAL = 0.5  # X0; ISO 76


def effective_spread(
    cup_back_faces: Length, outboard_centre: Length, inboard_centre: Length, arrangement: Arrangement
) -> Length:
    """Distance of the effective centres of a pair.

    Args:
        cup_back_faces: distance of the cup back faces [m]
        outboard_centre: effective centre of the outboard bearing, from its cup back face [m]
        inboard_centre: the same of the inboard bearing [m]
        arrangement: which way the cones face

    Returns:
        spread [m]

    Source: geometry; NSK Rolling Bearings E1102, section 5.7.
    Valid: face to face only while the centres do not meet.
    Try: cup-back-faces="140 mm" outboard-centre="41 mm" inboard-centre="36 mm" arrangement="back to back"

    >>> round(float(effective_spread(0.140, 0.041, 0.036, "back to back")), 3)
    0.217
    """
    for name, value in (("cup_back_faces", cup_back_faces), ("outboard_centre", outboard_centre), ("inboard_centre", inboard_centre)):  # fmt: skip
        within(name, value, 0.0)
    centres = np.asarray(outboard_centre, float) + inboard_centre
    spread = cup_back_faces + (centres if arrangement == "back to back" else -centres)
    above("cup_back_faces", spread, why="as spread: the two centres meet or have crossed")
    return np.asarray(spread)[()]


@dataclass(frozen=True, slots=True)
class RadialLoads:
    """Radial loads of a pair.

    Attributes:
        outboard: on the bearing at the wheel [N]
        inboard: on the other one [N]
    """

    outboard: Force
    inboard: Force


def radial_loads(
    wheel_load: Force, traction: Force, side_force: Force, spread: Length, offset: Length, rolling_radius: Length
) -> RadialLoads:
    """Radial loads of an overhung wheel on its pair of bearings.

    A side force outward is that of the uphill wheel and of the inner wheel of a turn: it adds to the overhang.

    Args:
        wheel_load: load on the ground under the wheel [N]
        traction: pull at the ground [N]
        side_force: side force of the ground on the tyre, outward positive [N]
        spread: distance of the effective centres [m]
        offset: middle of the footprint outboard of the outboard centre; negative inboard [m]
        rolling_radius: loaded radius of the tyre [m]

    Returns:
        radial loads

    Source: statics about the effective centres.
    Valid: rigid shaft and housing; gear forces are added at their own place.
    Try: wheel-load="60 kN" traction="8 kN" side-force="3 kN" spread="210 mm" offset="90 mm" rolling-radius="800 mm"

    >>> loads = radial_loads(60e3, 0.0, 0.0, 0.2, 0.1, 0.8)
    >>> float(loads.outboard), float(loads.inboard)
    (90000.0, 30000.0)
    """
    within("wheel_load", wheel_load, 0.0)
    within("traction", traction)
    within("side_force", side_force)
    above("spread", spread)
    within("offset", offset)
    above("rolling_radius", rolling_radius)
    over = np.asarray(offset, float) / spread
    tilt = np.asarray(side_force, float) * rolling_radius / spread
    return RadialLoads(
        np.hypot(wheel_load * (1 + over) + tilt, traction * (1 + over)),
        np.hypot(wheel_load * over + tilt, traction * over),
    )


@dataclass(frozen=True, slots=True)
class AxialLoads:
    """Thrust on each bearing of a pair.

    Attributes:
        outboard: on the bearing at the wheel [N]
        inboard: on the other one [N]
    """

    outboard: Force
    inboard: Force


def axial_loads(
    outboard_radial: Force,
    inboard_radial: Force,
    outboard_thrust_factor: Share,
    inboard_thrust_factor: Share,
    outward: Force,
    arrangement: Arrangement,
    induced: Share = INDUCED,
) -> AxialLoads:
    """Thrust on each of a pair, by what radial loads make and what comes from outside.

    Args:
        outboard_radial: radial load of the bearing at the wheel [N]
        inboard_radial: radial load of the other one [N]
        outboard_thrust_factor: Y of the bearing at the wheel, 0.4/tan of its cup half angle [-]
        inboard_thrust_factor: Y of the other one [-]
        outward: thrust from outside on the shaft, outward positive [N]
        arrangement: which way the cones face
        induced: part of Fr/Y that a radial load makes of thrust; 0.5, in one catalogue 0.6 [-]

    Returns:
        thrust on each

    Source: balance of thrust at no end play; Timken Engineering Manual and metric catalogues.
    Valid: no preload, no end play; with either, an elastic pair.
    Try: outboard-radial="90 kN" inboard-radial="30 kN" outboard-thrust-factor=1.4 inboard-thrust-factor=1.4 outward="3 kN" arrangement="back to back"

    >>> thrust = axial_loads(90e3, 30e3, 1.5, 1.5, 0.0, "back to back")
    >>> float(thrust.outboard), float(thrust.inboard)
    (30000.0, 30000.0)
    """  # fmt: skip
    for name, value in (("outboard_radial", outboard_radial), ("inboard_radial", inboard_radial)):
        within(name, value, 0.0)
    for name, value in (("outboard_thrust_factor", outboard_thrust_factor), ("inboard_thrust_factor", inboard_thrust_factor), ("induced", induced)):  # fmt: skip
        above(name, value)
    within("outward", outward)
    own_out = induced * np.asarray(outboard_radial, float) / outboard_thrust_factor
    own_in = induced * np.asarray(inboard_radial, float) / inboard_thrust_factor
    # back to back, thrust outward seats the inboard bearing; face to face, the outboard one
    if arrangement == "back to back":
        return AxialLoads(np.maximum(own_out, own_in - outward), np.maximum(own_in, own_out + outward))
    return AxialLoads(np.maximum(own_out, own_in + outward), np.maximum(own_in, own_out - outward))


def equivalent_load(radial: Force, axial: Force, thrust_factor: Share, thrust_limit: Share) -> Force:
    """The load that counts for life, of radial load and thrust on a taper roller bearing.

    Args:
        radial: radial load [N]
        axial: thrust [N]
        thrust_factor: Y [-]
        thrust_limit: e, the part of the radial load below which thrust costs no life [-]

    Returns:
        equivalent load [N]

    Source: ISO 281, single-row taper roller bearing: Fr, or 0.4 Fr + Y Fa past e; never below Fr.
    Valid: Y and e of one bearing; rounded ones of a catalogue jump by up to 2 in 100 at e.
    Try: radial="90 kN" axial="32 kN" thrust-factor=1.4 thrust-limit=0.42

    >>> float(equivalent_load(10e3, 10e3, 1.5, 0.4))
    19000.0
    """
    within("radial", radial, 0.0)
    within("axial", axial, 0.0)
    above("thrust_factor", thrust_factor)
    above("thrust_limit", thrust_limit)
    across, along = np.asarray(radial, float), np.asarray(axial, float)
    both = np.maximum(across, RADIAL_WITH_THRUST * across + thrust_factor * along)
    return np.asarray(np.where(along > thrust_limit * across, both, across))[()]


def static_equivalent_load(radial: Force, axial: Force, static_thrust_factor: Share, shock: Share) -> Force:
    """The load that counts for dents, at a bump.

    Args:
        radial: radial load before the bump [N]
        axial: thrust before the bump [N]
        static_thrust_factor: Y0, 0.22/tan of the cup half angle [-]
        shock: by how much the bump multiplies: 1.5 field, 2.5 road hole, 4 kerb (assumed) [-]

    Returns:
        static equivalent load [N]

    Source: ISO 76, P0 = 0.5 Fr + Y0 Fa, never below Fr.
    Valid: static capacity over it should be 1.5; below 1 expect dents that start spalls.
    Try: radial="90 kN" axial="32 kN" static-thrust-factor=0.8 shock=2.5

    >>> float(static_equivalent_load(10e3, 20e3, 0.8, 2.0))
    42000.0
    """
    within("radial", radial, 0.0)
    within("axial", axial, 0.0)
    above("static_thrust_factor", static_thrust_factor)
    within("shock", shock, 1.0, 20.0)
    across = np.asarray(radial, float)
    return np.asarray(shock * np.maximum(across, STATIC_RADIAL * across + static_thrust_factor * np.asarray(axial)))[()]


@dataclass(frozen=True, slots=True)
class MeshForces:
    """Forces of a mesh on a gear.

    Attributes:
        tangential: along the pitch circle [N]
        radial: towards the gear's axis [N]
        axial: along the axis, at the pitch radius: its moment counts [N]
    """

    tangential: Force
    radial: Force
    axial: Force


def mesh_forces(torque: Torque, pitch_radius: Length, pressure_angle: Angle, helix_angle: Angle) -> MeshForces:
    """Forces of a mesh on the bull gear of a drive.

    Args:
        torque: torque of the gear [N m]
        pitch_radius: radius of its pitch circle [m]
        pressure_angle: normal pressure angle [rad]
        helix_angle: helix angle at the pitch circle; 0 of straight teeth [rad]

    Returns:
        forces

    Source: gear statics, Wt = T/r, Wr = Wt tan(phi)/cos(beta), Wa = Wt tan(beta).
    Valid: one mesh; a planet carrier gives no net force.
    Try: torque="9 kN·m" pitch-radius="170 mm" pressure-angle="20°" helix-angle="0°"

    >>> float(mesh_forces(9000.0, 0.18, 0.349, 0.0).tangential)
    50000.0
    """
    within("torque", torque, 0.0)
    above("pitch_radius", pitch_radius)
    within("pressure_angle", pressure_angle, 0.0, 0.8)
    within("helix_angle", helix_angle, 0.0, 0.8)
    along: Force = np.asarray(torque, float) / pitch_radius
    return MeshForces(along, along * np.tan(pressure_angle) / np.cos(helix_angle), along * np.tan(helix_angle))
