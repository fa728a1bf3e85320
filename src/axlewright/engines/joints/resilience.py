"""How far a bolt gives, and what follows: share of an outer load, angle, stretch, loss by embedding."""

from __future__ import annotations

import math

from axlewright.engines.joints._limits import not_above
from axlewright.engines.joints.threads import bolt_minor_diameter
from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Area, Force, Length, Pressure, Resilience, Share, Stiffness

# Lengths that stand for head, engaged thread and housing, in diameters; VDI 2230-1 eqs 5.1/5 to 5.1/15
HEAD = 0.5  # of a hexagon head; a socket head takes 0.4
ENGAGED, HOUSING, NUT = 0.5, 0.33, 0.4


def bolt_resilience(
    diameter: Length, pitch: Length, shank_length: Length, thread_length: Length, bolt_modulus: Pressure
) -> Resilience:
    """How far the bolt itself gives: hexagon head, shank, free thread and the thread engaged.

    Args:
        diameter: nominal diameter, of the shank too [m]
        pitch: pitch [m]
        shank_length: plain shank in the grip [m]
        thread_length: free thread in the grip [m]
        bolt_modulus: modulus of elasticity of the bolt [Pa]

    Returns:
        resilience [m/N]

    Source: VDI 2230-1 eqs 5.1/5 to 5.1/15: 0.5 d for the head, shank, free thread and 0.5 d engaged on d3.
    Valid: full shank, hexagon head. Add housing_resilience or nut_resilience.

    >>> round(float(bolt_resilience(0.01905, 0.00254, 0.0127, 0.0173, 205e9) * 1e9), 3)
    1.037
    """
    above("bolt_modulus", bolt_modulus)
    within("shank_length", shank_length, 0.0)
    within("thread_length", thread_length, 0.0)
    shank = math.pi / 4 * diameter**2
    core = math.pi / 4 * bolt_minor_diameter(diameter, pitch) ** 2
    return ((HEAD * diameter + shank_length) / shank + (thread_length + ENGAGED * diameter) / core) / bolt_modulus


def housing_resilience(diameter: Length, housing_modulus: Pressure) -> Resilience:
    """How far the tapped housing gives round the engaged thread.

    Args:
        diameter: nominal diameter [m]
        housing_modulus: modulus of elasticity of the housing [Pa]

    Returns:
        resilience [m/N]

    Source: VDI 2230-1, 0.33 d over the nominal area.
    Valid: bolt in a tapped hole.

    >>> round(float(housing_resilience(0.01905, 110e9) * 1e9), 4)
    0.2005
    """
    above("diameter", diameter)
    above("housing_modulus", housing_modulus)
    return HOUSING * diameter / (housing_modulus * math.pi / 4 * diameter**2)


def nut_resilience(diameter: Length, nut_modulus: Pressure) -> Resilience:
    """How far a nut gives round the engaged thread.

    Args:
        diameter: nominal diameter [m]
        nut_modulus: modulus of elasticity of the nut [Pa]

    Returns:
        resilience [m/N]

    Source: VDI 2230-1, 0.4 d over the nominal area.
    Valid: bolt with nut.

    >>> round(float(nut_resilience(0.01905, 205e9) * 1e9), 4)
    0.1304
    """
    above("diameter", diameter)
    above("nut_modulus", nut_modulus)
    return NUT * diameter / (nut_modulus * math.pi / 4 * diameter**2)


def rod_stiffness(area: Area, modulus: Pressure, length: Length) -> Stiffness:
    """Stiffness of a plain rod in pull.

    Args:
        area: cross-section [m^2]
        modulus: modulus of elasticity [Pa]
        length: length [m]

    Returns:
        stiffness [N/m]

    Source: E A/l.
    Valid: within the elastic range.

    >>> round(float(rod_stiffness(244.8e-6, 205e9, 0.030) / 1e9), 3)
    1.673
    """
    above("area", area)
    above("modulus", modulus)
    above("length", length)
    return area * modulus / length


def load_share(bolt_gives: Resilience, parts_give: Resilience) -> Share:
    """Share of an outer pull that the bolt sees while the joint is shut.

    Args:
        bolt_gives: resilience of the bolt [m/N]
        parts_give: resilience of the clamped parts [m/N]

    Returns:
        share [-]

    Source: VDI 2230-1, dP/(dS + dP) for a pull under head and nut; Shigley, C = kb/(kb + km).
    Valid: the joint stays shut.

    >>> round(float(load_share(1.2371e-9, 2.0713e-10)), 4)
    0.1434
    """
    above("bolt_gives", bolt_gives)
    above("parts_give", parts_give)
    return parts_give / (bolt_gives + parts_give)


def angle_for_preload(
    preload: Force, snug_preload: Force, bolt_gives: Resilience, parts_give: Resilience, pitch: Length
) -> Angle:
    """Angle from snug that gives a preload.

    Args:
        preload: preload wanted [N]
        snug_preload: preload at the snug torque, 20 to 30 in 100 of the final [N]
        bolt_gives: resilience of bolt and thread [m/N]
        parts_give: resilience of the clamped parts [m/N]
        pitch: pitch [m]

    Returns:
        angle [rad]

    Source: VDI 2230-1, turn = (dS + dP) dF/P.
    Valid: below yield. A short stiff joint wants 20 to 30 degrees: 5 degrees are a fifth of its preload.

    >>> import math
    >>> round(float(math.degrees(angle_for_preload(133.8e3, 33.45e3, 1.2371e-9, 2.0713e-10, 0.00254))), 1)
    20.5
    """
    above("pitch", pitch)
    above("bolt_gives", bolt_gives)
    above("parts_give", parts_give)
    within("snug_preload", snug_preload, 0.0)
    not_above("snug_preload", snug_preload, preload, "snug is below final")
    return 2 * math.pi * (bolt_gives + parts_give) * (preload - snug_preload) / pitch


def preload_from_angle(
    angle: Angle, snug_preload: Force, bolt_gives: Resilience, parts_give: Resilience, pitch: Length
) -> Force:
    """Preload that an angle from snug gives.

    Args:
        angle: angle turned from snug [rad]
        snug_preload: preload at the snug torque [N]
        bolt_gives: resilience of bolt and thread [m/N]
        parts_give: resilience of the clamped parts [m/N]
        pitch: pitch [m]

    Returns:
        preload [N]

    Source: VDI 2230-1, turn = (dS + dP) dF/P, turned round.
    Valid: below yield; friction hardly matters, snug and angle error do.

    >>> round(float(preload_from_angle(0.3583, 33.45e3, 1.2371e-9, 2.0713e-10, 0.00254) / 1000), 1)
    133.7
    """
    within("angle", angle, 0.0)
    within("snug_preload", snug_preload, 0.0)
    above("pitch", pitch)
    above("bolt_gives", bolt_gives)
    above("parts_give", parts_give)
    return snug_preload + angle / (2 * math.pi) * pitch / (bolt_gives + parts_give)


def preload_from_stretch(stretch: Length, bolt_gives: Resilience) -> Force:
    """Preload of a test bolt from how much longer it measures.

    Args:
        stretch: length tightened less length loose, over the ends [m]
        bolt_gives: resilience of the whole bolt between its ends [m/N]

    Returns:
        preload [N]

    Source: F = dl/dS.
    Valid: below yield; length taken by micrometer on clean ends at one temperature.

    >>> round(float(preload_from_stretch(0.000142, 1.04e-9) / 1000), 1)
    136.5
    """
    within("stretch", stretch, 0.0)
    above("bolt_gives", bolt_gives)
    return stretch / bolt_gives


def embedding_loss(embedding: Length, bolt_gives: Resilience, parts_give: Resilience) -> Force:
    """Preload lost as the faces bed in after tightening.

    Args:
        embedding: how far all faces together bed in [m]
        bolt_gives: resilience of bolt and thread [m/N]
        parts_give: resilience of the clamped parts [m/N]

    Returns:
        preload lost [N]

    Source: VDI 2230-1, FZ = fZ/(dS + dP); guide values of fZ by roughness and load in table 5.4/1.
    Valid: elastic joint; paint or a soft gasket costs far more.

    >>> round(float(embedding_loss(8e-6, 1.2371e-9, 2.0713e-10) / 1000), 2)
    5.54
    """
    within("embedding", embedding, 0.0)
    above("bolt_gives", bolt_gives)
    above("parts_give", parts_give)
    return embedding / (bolt_gives + parts_give)
