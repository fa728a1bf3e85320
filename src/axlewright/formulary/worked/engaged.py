"""What a bolt tells when it is tried: turns by hand, and a test bolt."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from axlewright.engines.joints import nut_factor as friction_of
from axlewright.engines.joints import stripping
from axlewright.engines.joints.nut_factor import NutFactorKnown
from axlewright.engines.limits import within
from axlewright.formulary.worked._rows import OfGrease, OfHead, OfHousing, OfThread, bolt_of, strips_at
from axlewright.kinds import Count, Force, Length, Share, Torque, YesNo
from axlewright.trade import irons, lubricants, steels


@dataclass(frozen=True, slots=True)
class ByHand:
    """What a bolt holds that goes in so many turns by hand.

    Attributes:
        engagement: engaged thread that carries, 0.8 pitches taken off [m]
        in_diameters: the same in diameters of the bolt [-]
        strips: preload that likely strips the housing thread [N]
        strips_low: the same at its careful end [N]
        breaks: pull that breaks the bolt, pull alone [N]
        bolt_goes_first: the careful housing outlasts a bolt stronger than its class, so that the bolt is the fuse [-]
        turns_wanted: turns by hand for that [1]
    """

    engagement: Length
    in_diameters: Share
    strips: Force
    strips_low: Force
    breaks: Force
    bolt_goes_first: YesNo
    turns_wanted: Count


def turns_by_hand(turns: Count, thread: OfThread, head: OfHead, housing: OfHousing | None = None) -> ByHand:
    """What a bolt holds that goes in so many full turns by hand, and how many it ought to.

    Args:
        turns: full turns of a clean bolt, by hand, until it stops [1]
        thread: thread of the bolt
        head: what stands on its head
        housing: what it is screwed into; grey iron of unknown class where nobody says

    Returns:
        engagement, what the housing thread holds, and the turns at which the bolt goes first

    Source: ISO 68-1, ISO 724 and ASME B1.1 for the thread; FED-STD-H28/2B for the strip area; VDI 2230-1 for shear over
        tensile strength and the bolt that is 1.2 times stronger than its class.
    Valid: empirical (rows of the trade carry their own units); sound threads, not chased, not bell-mouthed.
    Try: turns=9 thread=M16 head=8.8 housing="grey iron 200"

    >>> from axlewright.trade.irons import iron
    >>> from axlewright.trade.threads import parse_designation
    >>> h = turns_by_hand(10, parse_designation("M20"), "10.9", iron("iron 250"))
    >>> round(float(h.engagement) * 1000, 1), bool(h.bolt_goes_first)
    (23.0, False)
    """
    within("turns", turns, 0.0, 200.0)
    bolt = bolt_of(thread, head, next(iter(lubricants.conditions().values())), None)
    carries = stripping.engagement_from_turns(turns, thread.pitch)
    metal = housing or irons.iron("unknown")
    likely, careful = strips_at(carries, thread, metal)
    breaks = bolt.grade.tensile * bolt.area
    _, of_a_metre = strips_at(1.0, thread, metal)
    wanted = steels.lot().greatest_tensile * breaks / of_a_metre
    return ByHand(
        engagement=carries,
        in_diameters=carries / thread.diameter,
        strips=likely,
        strips_low=careful,
        breaks=breaks,
        bolt_goes_first=np.asarray(careful) >= breaks * steels.lot().greatest_tensile,
        turns_wanted=np.ceil(wanted / thread.pitch + stripping.RUN_OUT_TURNS),
    )


def bolt_test(
    torque: Torque, preload: Force, thread: OfThread, grease: OfGrease, tests: Count = 1.0, reading: Share = 0.05
) -> NutFactorKnown:
    """What a test bolt says of this grease and this wrench: the nut factor of the bolts to come.

    Args:
        torque: torque that the wrench was set to [N m]
        preload: preload found, by stretch or by a load cell; the mean of several [N]
        thread: thread of the bolts
        grease: what is on thread and under the head
        tests: number of test bolts [1]
        reading: error of one preload found, as standard deviation of its logarithm [-]

    Returns:
        median: likely nut factor now [-]
        job_log_sd: what is left of the spread common to all bolts of the job, of its logarithm [-]
        bolt_log_sd: spread from bolt to bolt [-]
        log_sd: spread of the next bolt, both together [-]

    Source: K = T/(F d); normal prior of the trade's row and normal readings of the logarithm, Gelman, Bayesian Data
        Analysis, 2.5.
    Valid: empirical (rows of the trade carry their own units); test bolts greased and tightened as the job will be.
    Try: torque="150 N·m" preload="62 kN" thread=M16 grease=anti-seize tests=2

    >>> from axlewright.trade.lubricants import condition
    >>> from axlewright.trade.threads import parse_designation
    >>> round(float(bolt_test(390.0, 121e3, parse_designation("M20"), condition("anti-seize"), 3).median), 3)
    0.157
    """
    found = friction_of.nut_factor_from_test(torque, preload, thread.diameter)
    within("preload", found, 0.03, 0.6, "as nut factor: under 0.03 no friction is left, over 0.6 the thread seizes")
    split = lubricants.scatter()
    size = math.hypot(split.job, split.bolt)
    return friction_of.update_nut_factor(
        grease.nut_factor, grease.log_sd * split.job / size, grease.log_sd * split.bolt / size, found, tests, reading
    )
