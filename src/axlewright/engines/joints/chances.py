"""Chances of too little and too much preload, in closed form and by shares of 0 to 1 for a simulation.

Two layers of scatter: the job (same grease, wrench, person: common to all its bolts) and the bolt. To treat bolts as
independent doubles the chance that any of them yields.
"""

from __future__ import annotations

import numpy as np

from axlewright.engines.joints.stress import ELASTIC, _preload_at
from axlewright.engines.joints.tightening import FRICTION_MOST, thread_lever
from axlewright.engines.limits import above, within
from axlewright.kinds import Area, Array, Count, Force, Length, Number, Pressure, Share, Torque

HALVINGS = 50  # of an interval below 1: well past the last digit
NODES = 64  # of the Gauss-Hermite rule over the job's scatter


def chance_past_load(
    torque: Torque,
    torque_log_sd: Share,
    nut_factor: Share,
    nut_factor_log_sd: Share,
    diameter: Length,
    load: Force,
    load_log_sd: Share = 0.0,
) -> Share:
    """Chance that one bolt is pulled past a load, in plain pull.

    Args:
        torque: median torque [N m]
        torque_log_sd: scatter of the torque, as standard deviation of its logarithm [-]
        nut_factor: median nut factor [-]
        nut_factor_log_sd: scatter of the nut factor [-]
        diameter: nominal diameter [m]
        load: load not to be passed, median [N]
        load_log_sd: scatter of that load [-]

    Returns:
        chance [-]

    Source: ratio of lognormals, Phi((ln(T/(K d)) - ln F)/sqrt(sT^2 + sK^2 + sF^2)).
    Valid: at least one scatter above zero.

    >>> round(float(chance_past_load(542.327, 0.04, 0.13, 0.12, 0.01905, 193409.0)), 3)
    0.837
    """
    from scipy.special import ndtr

    above("torque", torque)
    above("nut_factor", nut_factor)
    above("diameter", diameter)
    above("load", load)
    for name, sd in (("torque_log_sd", torque_log_sd), ("load_log_sd", load_log_sd)):
        within(name, sd, 0.0, 2.0)
    above("nut_factor_log_sd", nut_factor_log_sd)
    spread = np.sqrt(np.asarray(torque_log_sd) ** 2 + np.asarray(nut_factor_log_sd) ** 2 + np.asarray(load_log_sd) ** 2)
    chance: Share = ndtr(np.log(torque / (nut_factor * diameter * load)) / spread)
    return chance


def chance_below_clamp(
    torque: Torque,
    torque_log_sd: Share,
    nut_factor: Share,
    nut_factor_log_sd: Share,
    diameter: Length,
    clamp_needed: Force,
) -> Share:
    """Chance that one bolt keeps less than the clamp needed.

    Args:
        torque: median torque [N m]
        torque_log_sd: scatter of the torque, as standard deviation of its logarithm [-]
        nut_factor: median nut factor [-]
        nut_factor_log_sd: scatter of the nut factor [-]
        diameter: nominal diameter [m]
        clamp_needed: preload needed [N]

    Returns:
        chance [-]

    Source: ratio of lognormals, the other tail of chance_past_load.
    Valid: at least one scatter above zero.

    >>> round(float(chance_below_clamp(542.327, 0.04, 0.20, 0.15, 0.01905, 102309.0)), 4)
    0.0167
    """
    return 1 - chance_past_load(torque, torque_log_sd, nut_factor, nut_factor_log_sd, diameter, clamp_needed)


def friction_at_yield(
    torque: Torque,
    yield_stress: Pressure,
    pitch: Length,
    pitch_diameter: Length,
    stress_area: Area,
    stress_diameter: Length,
    bearing_diameter: Length,
) -> Share:
    """Friction, equal in thread and under the head, at which a torque just brings a bolt to yield.

    Args:
        torque: torque at the wrench [N m]
        yield_stress: yield strength [Pa]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        stress_area: tensile stress area [m^2]
        stress_diameter: diameter of the circle of that area [m]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        friction, 0 where even a frictionless bolt stays below yield, 0.8 where it yields even at that [-]

    Source: combined stress falls steadily as friction rises at a fixed torque; bisection on it, torsion elastic.
    Valid: torque above zero.

    >>> round(float(friction_at_yield(451.0, 940e6, 0.0025, 0.018376, 244.8e-6, 0.017655, 0.0251)), 4)
    0.0763
    """
    above("torque", torque)
    above("yield_stress", yield_stress)
    above("bearing_diameter", bearing_diameter)
    shape = np.broadcast_shapes(
        *(np.shape(a) for a in (torque, yield_stress, pitch, pitch_diameter, stress_area, bearing_diameter))
    )
    low, high = np.zeros(shape), np.full(shape, FRICTION_MOST)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        lever = thread_lever(pitch, pitch_diameter, middle)
        limit = _preload_at(yield_stress, lever, stress_area, stress_diameter, ELASTIC)
        yields = torque > limit * (lever + middle * bearing_diameter / 2)
        low, high = np.where(yields, middle, low), np.where(yields, high, middle)
    return low


def chance_of_yield(
    torque: Torque,
    friction: Share,
    friction_log_sd: Share,
    yield_stress: Pressure,
    pitch: Length,
    pitch_diameter: Length,
    stress_area: Area,
    stress_diameter: Length,
    bearing_diameter: Length,
) -> Share:
    """Chance that one bolt yields under pull and twist together.

    Args:
        torque: torque at the wrench [N m]
        friction: median friction, equal in thread and under the head [-]
        friction_log_sd: its scatter, as standard deviation of its logarithm [-]
        yield_stress: yield strength [Pa]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        stress_area: tensile stress area [m^2]
        stress_diameter: diameter of the circle of that area [m]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        chance [-]

    Source: Phi(ln(mu*/mu)/s) with mu* from friction_at_yield.
    Valid: one friction for thread and head; two want a simulation by preload_by_shares.

    >>> round(float(chance_of_yield(451.0, 0.103, 0.18, 940e6, 0.0025, 0.018376, 244.8e-6, 0.017655, 0.0251)), 3)
    0.048
    """
    from scipy.special import ndtr

    within("friction", friction, 1e-3, FRICTION_MOST)
    above("friction_log_sd", friction_log_sd)
    least = friction_at_yield(
        torque, yield_stress, pitch, pitch_diameter, stress_area, stress_diameter, bearing_diameter
    )
    ratio = np.maximum(np.asarray(least) / friction, 1e-300)
    chance: Share = ndtr(np.log(ratio) / friction_log_sd)
    return chance


def chance_any_bolt(preload: Force, job_log_sd: Share, bolt_log_sd: Share, load: Force, bolts: Count) -> Share:
    """Chance that any bolt of a joint is pulled past a load, job and bolt scatter apart.

    Args:
        preload: median preload [N]
        job_log_sd: scatter common to all bolts of the job, wrench and grease [-]
        bolt_log_sd: scatter from bolt to bolt [-]
        load: load not to be passed [N]
        bolts: number of bolts [1]

    Returns:
        chance [-]

    Source: integral over the job's factor of 1 - (1 - p)^n, Gauss-Hermite rule.
    Valid: both scatters above zero.

    >>> round(float(chance_any_bolt(139e3, 0.12, 0.09, 198e3, 12)), 3)
    0.057
    """
    from scipy.special import log_ndtr

    above("preload", preload)
    above("load", load)
    above("job_log_sd", job_log_sd)
    above("bolt_log_sd", bolt_log_sd)
    within("bolts", bolts, 1.0)
    at, weight = np.polynomial.hermite_e.hermegauss(NODES)
    room = np.log(np.asarray(load) / preload)[..., None] - np.asarray(job_log_sd)[..., None] * at
    none_passes = np.exp(np.asarray(bolts)[..., None] * log_ndtr(room / np.asarray(bolt_log_sd)[..., None]))
    chance: Share = 1 - (none_passes * weight).sum(axis=-1) / weight.sum()
    return chance


def scatter_of_mean(job_log_sd: Share, bolt_log_sd: Share, bolts: Count) -> Share:
    """Scatter of the mean preload of all bolts of a joint.

    Args:
        job_log_sd: scatter common to all bolts of the job [-]
        bolt_log_sd: scatter from bolt to bolt [-]
        bolts: number of bolts [1]

    Returns:
        scatter, as a share of the mean [-]

    Source: sqrt(job^2 + bolt^2/n).
    Valid: scatters small against 1.

    >>> round(float(scatter_of_mean(0.12, 0.09, 12)), 3)
    0.123
    """
    within("job_log_sd", job_log_sd, 0.0, 2.0)
    within("bolt_log_sd", bolt_log_sd, 0.0, 2.0)
    within("bolts", bolts, 1.0)
    return np.sqrt(job_log_sd**2 + bolt_log_sd**2 / bolts)


def nut_factor_by_shares(
    median: Share, job_log_sd: Share, bolt_log_sd: Share, job_share: Share, bolt_share: Share
) -> Share:
    """Nut factors of a simulation: job and bolt scatter at given shares of their spreads.

    Args:
        median: median nut factor [-]
        job_log_sd: scatter common to all bolts of the job [-]
        bolt_log_sd: scatter from bolt to bolt [-]
        job_share: shares of 0 to 1, one a draw [-]
        bolt_share: shares of 0 to 1, one a draw and bolt [-]

    Returns:
        nut factors [-]

    Source: lognormal in two layers.
    Valid: shares inside 0 to 1. Pull and twist of one bolt come from the same draw, never drawn apart.

    >>> round(float(nut_factor_by_shares(0.14, 0.12, 0.09, 0.5, 0.5)), 2)
    0.14
    """
    from scipy.special import ndtri

    above("median", median)
    within("job_log_sd", job_log_sd, 0.0, 2.0)
    within("bolt_log_sd", bolt_log_sd, 0.0, 2.0)
    within("job_share", job_share, 1e-12, 1 - 1e-12)
    within("bolt_share", bolt_share, 1e-12, 1 - 1e-12)
    scatter: Array = job_log_sd * ndtri(job_share) + bolt_log_sd * ndtri(bolt_share)
    found: Number = median * np.exp(scatter)
    return found
