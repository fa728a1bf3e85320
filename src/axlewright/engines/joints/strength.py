"""What a bolt carries in plain pull: proof, yield and tensile load, and the real strength beside the least one."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.joints._limits import not_below
from axlewright.engines.limits import above, within
from axlewright.kinds import Area, Force, Pressure, Share


@dataclass(frozen=True, slots=True)
class BoltLoads:
    """Loads of one bolt in plain pull, by the least strengths of its grade."""

    proof: Force
    yielding: Force
    tensile: Force


def bolt_loads(
    stress_area: Area, proof_stress: Pressure, yield_stress: Pressure, tensile_strength: Pressure
) -> BoltLoads:
    """Proof load, least yield load and least tensile load of a bolt.

    Args:
        stress_area: tensile stress area [m^2]
        proof_stress: proof stress of the grade at this size [Pa]
        yield_stress: least yield or 0.2 % proof strength [Pa]
        tensile_strength: least tensile strength [Pa]

    Returns:
        proof: load that leaves no set [N]
        yielding: least load at yield, plain pull [N]
        tensile: least load at break, plain pull [N]

    Source: area times stress; ISO 898-1, SAE J429.
    Valid: proof <= yield <= tensile. With torsion a bolt yields earlier: see preload_at_yield.

    >>> round(bolt_loads(244.8e-6, 600e6, 660e6, 830e6).proof)
    146880
    """
    above("stress_area", stress_area)
    above("proof_stress", proof_stress)
    not_below("yield_stress", yield_stress, proof_stress, "yield is not below the proof stress")
    not_below("tensile_strength", tensile_strength, yield_stress, "a bolt breaks above its yield")
    return BoltLoads(stress_area * proof_stress, stress_area * yield_stress, stress_area * tensile_strength)


def tensile_load(stress_area: Area, tensile_strength: Pressure) -> Force:
    """Load that breaks a bolt in plain pull.

    Args:
        stress_area: tensile stress area [m^2]
        tensile_strength: tensile strength [Pa]

    Returns:
        load [N]

    Source: area times stress; ISO 898-1, SAE J429.
    Valid: both above zero.

    >>> round(tensile_load(244.8e-6, 1040e6))
    254592
    """
    above("stress_area", stress_area)
    above("tensile_strength", tensile_strength)
    return stress_area * tensile_strength


def structural_pretension(tensile: Force) -> Force:
    """Least pretension of a structural bolt.

    Args:
        tensile: least tensile load [N]

    Returns:
        pretension [N]

    Source: AISC 360-05 tables J3.1 and J3.1M, 0.70 of the tensile load.
    Valid: structural bolts with nuts in steel; a yardstick only, not a rule for tapped holes.

    >>> round(structural_pretension(203000.0))
    142100
    """
    above("tensile", tensile)
    return 0.7 * tensile


def real_strength(least: Pressure, median_factor: Share, log_sd: Share, share: Share) -> Pressure:
    """Strength of a real lot of bolts at a share of all lots, above the least of its grade.

    Args:
        least: least strength of the grade [Pa]
        median_factor: median of real over least strength [-]
        log_sd: standard deviation of its logarithm [-]
        share: share of lots that are weaker [-]

    Returns:
        strength [Pa]

    Source: lognormal spread of a lot; the two numbers are assumed (docs/engines/joints.md, strength).
    Valid: 0 < share < 1; median factor 1 to 1.5.

    >>> round(real_strength(940e6, 1.08, 0.04, 0.5) / 1e6)
    1015
    """
    from scipy.special import ndtri

    above("least", least)
    within("median_factor", median_factor, 1.0, 1.5)
    within("log_sd", log_sd, 0.0, 1.0)
    within("share", share, 1e-9, 1 - 1e-9)
    strength: Pressure = least * median_factor * np.exp(log_sd * ndtri(share))
    return strength
