"""From friction to nut factor and back, the test bolt, and the scatter of ways to tighten."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from axlewright.engines.joints._limits import not_above, not_below
from axlewright.engines.joints.tightening import FRICTION_MOST, SECANT, torque_from_preload
from axlewright.engines.limits import above, within
from axlewright.kinds import Count, Force, Length, Share, Torque


def nut_factor_from_friction(
    diameter: Length,
    pitch: Length,
    pitch_diameter: Length,
    friction_thread: Share,
    friction_head: Share,
    bearing_diameter: Length,
) -> Share:
    """Nut factor of a thread from the two frictions.

    Args:
        diameter: nominal diameter [m]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        friction_thread: friction in the thread [-]
        friction_head: friction under head or nut [-]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        nut factor K [-]

    Source: K = T/(F d) with the long form; Shigley, 9th ed., eq. 8-26.
    Valid: frictions 0 to 0.8.

    >>> round(float(nut_factor_from_friction(0.020, 0.0025, 0.018376, 0.12, 0.12, 0.0251)), 3)
    0.159
    """
    above("diameter", diameter)
    return torque_from_preload(1.0, pitch, pitch_diameter, friction_thread, friction_head, bearing_diameter) / diameter


def friction_from_nut_factor(
    nut_factor: Share, diameter: Length, pitch: Length, pitch_diameter: Length, bearing_diameter: Length
) -> Share:
    """Friction, equal in thread and under the head, that a nut factor stands for.

    Args:
        nut_factor: nut factor K [-]
        diameter: nominal diameter [m]
        pitch: pitch [m]
        pitch_diameter: pitch diameter [m]
        bearing_diameter: mean diameter of the bearing face [m]

    Returns:
        friction [-]

    Source: the long form with both frictions equal, a quadratic, smaller root.
    Valid: nut factor from P/(2 pi d), where no friction is left, to friction 0.8.

    >>> round(float(friction_from_nut_factor(0.14, 0.020, 0.0025, 0.018376, 0.0251)), 3)
    0.103
    """
    above("diameter", diameter)
    above("pitch", pitch)
    above("pitch_diameter", pitch_diameter)
    above("bearing_diameter", bearing_diameter)
    not_below("nut_factor", nut_factor, pitch / (2 * math.pi * diameter), "P/(2 pi d), where no friction is left")
    slope = pitch / (math.pi * pitch_diameter)
    lever = nut_factor * diameter
    a = SECANT * slope * bearing_diameter / 2
    b = SECANT * slope * lever + bearing_diameter / 2 + SECANT * pitch_diameter / 2
    c = lever - pitch / (2 * math.pi)
    friction = 2 * c / (b + np.sqrt(b**2 - 4 * a * c))
    not_above("nut_factor", friction, FRICTION_MOST, "the friction it stands for; beyond that a thread galls")
    return friction


def nut_factor_from_test(torque: Torque, preload: Force, diameter: Length) -> Share:
    """Nut factor that a test bolt shows.

    Args:
        torque: torque at the wrench [N m]
        preload: preload measured [N]
        diameter: nominal diameter [m]

    Returns:
        nut factor K [-]

    Source: K = T/(F d).
    Valid: preload above zero, below yield.

    >>> round(float(nut_factor_from_test(542.3, 133.4e3, 0.022225)), 3)
    0.183
    """
    above("torque", torque)
    above("preload", preload)
    above("diameter", diameter)
    return torque / (preload * diameter)


@dataclass(frozen=True, slots=True)
class NutFactorKnown:
    """What is known of the nut factor of the bolts still to be tightened."""

    median: Share
    job_log_sd: Share
    bolt_log_sd: Share
    log_sd: Share


def update_nut_factor(
    median: Share, job_log_sd: Share, bolt_log_sd: Share, tested: Share, tests: Count, reading_log_sd: Share
) -> NutFactorKnown:
    """What test bolts of this shed, this grease and this wrench say of the bolts to come.

    Args:
        median: median nut factor before the test [-]
        job_log_sd: spread common to all bolts of a job, as standard deviation of the logarithm [-]
        bolt_log_sd: spread from bolt to bolt [-]
        tested: geometric mean of the nut factors found [-]
        tests: number of test bolts [1]
        reading_log_sd: error of one test's preload [-]

    Returns:
        median: median nut factor now [-]
        job_log_sd: what is left of the common spread [-]
        bolt_log_sd: spread from bolt to bolt, as before [-]
        log_sd: spread of the next bolt, both together [-]

    Source: normal prior and normal readings of the logarithm, conjugate update; Gelman, Bayesian Data Analysis, 2.5.
    Valid: one test at least; the test bolts greased and tightened as the job will be.

    >>> round(float(update_nut_factor(0.14, 0.12, 0.09, 0.16, 3, 0.05).median), 3)
    0.156
    """
    above("median", median)
    above("tested", tested)
    above("job_log_sd", job_log_sd)
    within("bolt_log_sd", bolt_log_sd, 0.0, 2.0)
    within("reading_log_sd", reading_log_sd, 0.0, 2.0)
    within("tests", tests, 1.0)
    error = (bolt_log_sd**2 + reading_log_sd**2) / tests
    weight = job_log_sd**2 / (job_log_sd**2 + error)
    left = job_log_sd * np.sqrt(1 - weight)
    found = median * (tested / median) ** weight
    return NutFactorKnown(found, left, bolt_log_sd, np.hypot(left, bolt_log_sd))


def scatter_of_tightening_factor(tightening_factor: Share) -> Share:
    """Scatter about the middle, plus and minus, that a tightening factor stands for.

    Args:
        tightening_factor: greatest over least preload of the way to tighten [-]

    Returns:
        scatter, plus and minus, as a share of the middle [-]

    Source: VDI 2230-1, (a - 1)/(a + 1).
    Valid: factor from 1.

    >>> round(float(scatter_of_tightening_factor(1.6)), 3)
    0.231
    """
    within("tightening_factor", tightening_factor, 1.0)
    return (tightening_factor - 1) / (tightening_factor + 1)


def least_preload(greatest: Force, tightening_factor: Share) -> Force:
    """Least preload of a bolt set so that the tightest has the greatest one.

    Args:
        greatest: greatest preload [N]
        tightening_factor: greatest over least preload of the way to tighten [-]

    Returns:
        least preload [N]

    Source: VDI 2230-1, F_min = F_max/a.
    Valid: factor from 1.

    >>> round(float(least_preload(41.9e3, 1.8) / 1000), 1)
    23.3
    """
    within("greatest", greatest, 0.0)
    within("tightening_factor", tightening_factor, 1.0)
    return greatest / tightening_factor


@dataclass(frozen=True, slots=True)
class PreloadInterval:
    """Preload at the two corners of wrench and friction."""

    least: Force
    greatest: Force


def preload_interval(
    torque: Torque, wrench_error: Share, nut_factor_least: Share, nut_factor_greatest: Share, diameter: Length
) -> PreloadInterval:
    """Least and greatest preload of one torque: wrench and friction both at their corners.

    Args:
        torque: torque set [N m]
        wrench_error: error of the wrench, plus and minus [-]
        nut_factor_least: least nut factor [-]
        nut_factor_greatest: greatest nut factor [-]
        diameter: nominal diameter [m]

    Returns:
        least: slack wrench on a rough thread [N]
        greatest: strong wrench on a slippery one [N]

    Source: T = K F d at the corners; VDI 2230 friction classes, ISO 6789-1 for the wrench.
    Valid: wrench error under 1.

    >>> round(float(preload_interval(400.0, 0.04, 0.11278, 0.2060, 0.020).greatest / 1000), 1)
    184.4
    """
    within("torque", torque, 0.0)
    within("wrench_error", wrench_error, 0.0, 0.99)
    above("nut_factor_least", nut_factor_least)
    not_below("nut_factor_greatest", nut_factor_greatest, nut_factor_least)
    above("diameter", diameter)
    return PreloadInterval(
        torque * (1 - wrench_error) / (nut_factor_greatest * diameter),
        torque * (1 + wrench_error) / (nut_factor_least * diameter),
    )
