"""How far the clamped parts give: pressure cones and sleeves, and frusta as a second method."""

from __future__ import annotations

import math

import numpy as np

from axlewright.engines.limits import above
from axlewright.kinds import Length, Pressure, Resilience, Share, Stiffness


def cone_tangent_through(grip: Length, washer_diameter: Length, part_diameter: Length) -> Share:
    """Tangent of the pressure cone's half angle, bolt with nut.

    Args:
        grip: clamped length [m]
        washer_diameter: outer diameter of the bearing face [m]
        part_diameter: outer diameter of the clamped part [m]

    Returns:
        tangent [-]

    Source: VDI 2230-1 eq. 5.1/27, 0.362 + 0.032 ln(lK/(2 dw)) + 0.153 ln(DA/dw).
    Valid: tangent above zero: a grip or part too small for the method is refused.

    >>> round(float(cone_tangent_through(0.030, 0.0276, 0.036)), 4)
    0.3831
    """
    above("grip", grip)
    above("washer_diameter", washer_diameter)
    above("part_diameter", part_diameter)
    tangent = (
        0.362
        + 0.032 * np.log(grip / (2 * washer_diameter))
        + 0.153 * np.log(np.asarray(part_diameter) / washer_diameter)
    )
    above("part_diameter", tangent, why="too narrow for this method: the cone would not open")
    return tangent


def cone_tangent_tapped(grip: Length, washer_diameter: Length, part_diameter: Length) -> Share:
    """Tangent of the pressure cone's half angle, bolt in a tapped hole.

    Args:
        grip: clamped length [m]
        washer_diameter: outer diameter of the bearing face [m]
        part_diameter: outer diameter of the clamped part [m]

    Returns:
        tangent [-]

    Source: VDI 2230-1 eq. 5.1/26, 0.348 + 0.013 ln(lK/dw) + 0.193 ln(DA/dw).
    Valid: tangent above zero: a grip or part too small for the method is refused.

    >>> round(float(cone_tangent_tapped(0.030, 0.0276, 0.070)), 4)
    0.5287
    """
    above("grip", grip)
    above("washer_diameter", washer_diameter)
    above("part_diameter", part_diameter)
    tangent = (
        0.348 + 0.013 * np.log(grip / washer_diameter) + 0.193 * np.log(np.asarray(part_diameter) / washer_diameter)
    )
    above("part_diameter", tangent, why="too narrow for this method: the cone would not open")
    return tangent


def _cone(length: Length, washer: Length, hole: Length, tangent: Share, modulus: Pressure, cones: float) -> Resilience:
    """The cone, or both cones, that fits into the part: `cones` is VDI's w, 1 for two cones, 2 for one."""
    spread = cones * length * tangent
    return (
        2
        * np.log((washer + hole) * (washer + spread - hole) / ((washer - hole) * (washer + spread + hole)))
        / (cones * modulus * math.pi * hole * tangent)
    )


def _plate(
    grip: Length, washer: Length, hole: Length, part: Length, tangent: Share, modulus: Pressure, cones: float
) -> Resilience:
    """Cone, and where the part is narrower than it the sleeve that is left (VDI 2230-1 eqs 5.1/24, 5.1/25)."""
    above("hole_diameter", hole)
    above("modulus", modulus)
    above("tangent", tangent)
    above("washer_diameter", np.asarray(washer) - hole, why="the face is wider than the hole")
    above("part_diameter", np.asarray(part) - hole, why="the part is wider than the hole")
    face = np.minimum(washer, part)
    fits = np.minimum(grip, (np.asarray(part) - face) / (cones * tangent))
    sleeve = (grip - fits) / (modulus * math.pi / 4 * (part**2 - hole**2))
    resilience: Resilience = _cone(fits, face, hole, tangent, modulus, cones) + sleeve
    return resilience


def plate_resilience_through(
    grip: Length,
    washer_diameter: Length,
    hole_diameter: Length,
    part_diameter: Length,
    tangent: Share,
    modulus: Pressure,
) -> Resilience:
    """How far the clamped parts give, bolt with nut: two cones, and a sleeve where the part is narrow.

    Args:
        grip: clamped length [m]
        washer_diameter: outer diameter of the bearing face [m]
        hole_diameter: diameter of the hole [m]
        part_diameter: outer diameter of the clamped part [m]
        tangent: tangent of the cone's half angle [-]
        modulus: modulus of elasticity of the parts [Pa]

    Returns:
        resilience [m/N]

    Source: VDI 2230-1 eqs 5.1/24 and 5.1/25, w = 1.
    Valid: one material; for several sum their frusta.

    >>> round(float(plate_resilience_through(0.030, 0.0276, 0.0206, 0.036, 0.3831, 170e9) * 1e9), 3)
    0.367
    """
    above("grip", grip)
    return _plate(grip, washer_diameter, hole_diameter, part_diameter, tangent, modulus, 1.0)


def plate_resilience_tapped(
    grip: Length,
    washer_diameter: Length,
    hole_diameter: Length,
    part_diameter: Length,
    tangent: Share,
    modulus: Pressure,
) -> Resilience:
    """How far the clamped part gives, bolt in a tapped hole: one cone, and a sleeve where the part is narrow.

    Args:
        grip: clamped length [m]
        washer_diameter: outer diameter of the bearing face [m]
        hole_diameter: diameter of the hole [m]
        part_diameter: outer diameter of the clamped part [m]
        tangent: tangent of the cone's half angle [-]
        modulus: modulus of elasticity of the part [Pa]

    Returns:
        resilience [m/N]

    Source: VDI 2230-1 eqs 5.1/24 and 5.1/25, w = 2.
    Valid: one material; for several sum their frusta.

    >>> round(float(plate_resilience_tapped(0.030, 0.0276, 0.0206, 0.070, 0.5287, 170e9) * 1e9), 3)
    0.207
    """
    above("grip", grip)
    return _plate(grip, washer_diameter, hole_diameter, part_diameter, tangent, modulus, 2.0)


def frustum_stiffness(modulus: Pressure, thickness: Length, face_diameter: Length, hole_diameter: Length) -> Stiffness:
    """Stiffness of one frustum of 30 degrees in a clamped part.

    Args:
        modulus: modulus of elasticity [Pa]
        thickness: height of the frustum [m]
        face_diameter: smaller diameter of the frustum [m]
        hole_diameter: nominal diameter of the bolt [m]

    Returns:
        stiffness [N/m]

    Source: Shigley, 9th ed., eq. 8-20: 0.5774 pi E d/ln[(1.155 t + D - d)(D + d)/((1.155 t + D + d)(D - d))].
    Valid: face wider than the bolt. Second method beside plate_resilience_*: the two agree within 20 %.

    >>> round(float(frustum_stiffness(14.5 * 6.894757e9, 0.25 * 0.0254, 0.75 * 0.0254, 0.5 * 0.0254)) / 1e9, 3)
    4.113
    """
    above("modulus", modulus)
    above("thickness", thickness)
    above("hole_diameter", hole_diameter)
    above("face_diameter", np.asarray(face_diameter) - hole_diameter, why="the face is wider than the bolt")
    tangent = 1 / math.sqrt(3)
    grown = 2 * tangent * thickness
    narrow, wide = face_diameter - hole_diameter, face_diameter + hole_diameter
    return tangent * math.pi * modulus * hole_diameter / np.log((grown + narrow) * wide / ((grown + wide) * narrow))
