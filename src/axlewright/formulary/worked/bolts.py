"""Bolts by name: what stands on the head, what is on the thread, what it screws into, and the torque that follows."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.formulary.worked._rows import (
    Bolt,
    OfGrease,
    OfHead,
    OfHousing,
    OfThread,
    OfWrench,
    bolt_of,
    careful_factor,
    carries_of,
    strips_at,
)
from axlewright.kinds import Angle, Force, Length, Share, Torque, YesNo
from axlewright.trade import irons, steels

ROUNDING = 1e-9  # of a mark: a torque that stands on a mark stays on it


Limit: TypeAlias = Literal["the bolt yields", "the housing thread strips"]
First: TypeAlias = Literal["the bolt", "the housing thread", "one or the other"]


@dataclass(frozen=True, slots=True)
class BoltWindow:
    """The torques that hold and do not hurt.

    Attributes:
        set_to: what to set, the greatest mark of the wrench not above the middle of the window [N m]
        holds: the setting lies in the window; where not, nothing is safe to set [-]
        low: below it the slackest bolt does not keep the clamp needed [N m]
        high: above it the tightest bolt yields or the housing thread strips [N m]
        high_by: what the upper edge is for
        may_break: torque from which the tightest bolt may break [N m]
        preload: likely preload at the setting [N]
        preload_low: slackest, 5 of a hundred below [N]
        preload_high: tightest, 95 of a hundred below [N]
        bolt_yields: preload at which the bolt yields, pull and twist together, the twist counted elastic [N]
        bolt_breaks: preload at which it breaks, pull and twist together [N]
        housing_strips: preload that likely strips the housing thread [N]
        housing_strips_low: the same at its careful end [N]
        first: what goes first; the bolt should, it can be replaced
        pitch_diameter: pitch diameter [m]
        lead: lead angle of the thread [rad]
        bearing_diameter: mean diameter under the head [m]
        friction: likely friction, equal in thread and under the head [-]
        nut_factor: likely nut factor K [-]
        nut_factor_low: 5 of a hundred below [-]
        nut_factor_high: 95 of a hundred below [-]
        engagement: engaged thread that carries, two pitches of run-out taken off [m]
        doubts: what is doubtful about it; nothing where all is plain
    """

    set_to: Torque
    holds: YesNo
    low: Torque
    high: Torque
    high_by: Limit
    may_break: Torque
    preload: Force
    preload_low: Force
    preload_high: Force
    bolt_yields: Force
    bolt_breaks: Force
    housing_strips: Force
    housing_strips_low: Force
    first: First
    pitch_diameter: Length
    lead: Angle
    bearing_diameter: Length
    friction: Share
    nut_factor: Share
    nut_factor_low: Share
    nut_factor_high: Share
    engagement: Length
    doubts: str


def bolt_window(
    thread: OfThread,
    head: OfHead,
    grease: OfGrease,
    engaged: Length,
    clamp: Force,
    housing: OfHousing | None = None,
    wrench: OfWrench | None = None,
    mark: Torque = 5.0,
) -> BoltWindow:
    """What torque holds and does not hurt, with the grease that is really on the bolt.

    Lower edge: the slackest bolt keeps the clamp needed. Upper edge: the tightest stays below yield, and below what the
    careful end of the housing thread carries. Five in a hundred lie beyond each.

    Args:
        thread: thread of the bolt
        head: what stands on its head
        grease: what is on thread and under the head
        engaged: length of thread engaged, from lengths [m]
        clamp: clamp that each bolt must keep [N]
        housing: what it is screwed into; grey iron of unknown class where nobody says
        wrench: how far the wrench is to be trusted; a checked one where nobody says
        mark: step of the wrench's scale [N m]

    Returns:
        the window, what it took, and what breaks first

    Source: VDI 2230-1 for torque and combined stress; ISO 68-1, ISO 724 and ASME B1.1 for the thread; ISO 898-1 and
        SAE J429 for the grade; FED-STD-H28/2B for the strip area. Friction: class tables and published tests, spread ours.
    Valid: empirical (rows of the trade carry their own units); grease on thread and head alike; a bolt not yet stretched.
    Try: thread=M16 head=8.8 grease=anti-seize engaged="26 mm" clamp="40 kN"

    >>> from axlewright.trade.irons import iron
    >>> from axlewright.trade.lubricants import condition
    >>> from axlewright.trade.threads import parse_designation
    >>> w = bolt_window(parse_designation("M20"), "10.9", condition("anti-seize"), 0.027, 92e3, iron("iron 250"))
    >>> round(float(w.low)), float(w.set_to), bool(w.holds), w.first
    (333, 390.0, True, 'one or the other')
    """
    within("clamp", clamp, 0.0)
    above("mark", mark)
    bolt = bolt_of(thread, head, grease, wrench)
    carries = carries_of(engaged, thread)
    likely, careful = strips_at(carries, thread, housing or irons.iron("unknown"))
    edges = bolt.window(clamp)
    strips = bolt.most_before(careful)
    high = np.minimum(edges.high, strips)
    set_to = np.floor((edges.low + high) / 2 / mark + ROUNDING) * mark
    slack, pull, tight = bolt.pulls(set_to)
    return BoltWindow(
        set_to=set_to,
        holds=(edges.low <= set_to) & (set_to <= high),
        low=edges.low,
        high=high,
        high_by="the bolt yields" if np.median(edges.high) <= np.median(strips) else "the housing thread strips",
        may_break=edges.may_break,
        preload=pull,
        preload_low=slack,
        preload_high=tight,
        bolt_yields=bolt.yields(),
        bolt_breaks=bolt.breaks(),
        housing_strips=likely,
        housing_strips_low=careful,
        first=_first(bolt, likely, careful),
        pitch_diameter=bolt.pitch_diameter,
        lead=math.atan(thread.pitch / (math.pi * bolt.pitch_diameter)),
        bearing_diameter=bolt.bearing,
        friction=bolt.friction,
        nut_factor=grease.nut_factor,
        nut_factor_low=grease.nut_factor / careful_factor(grease.log_sd),
        nut_factor_high=grease.nut_factor * careful_factor(grease.log_sd),
        engagement=carries,
        doubts=bolt.doubts,
    )


def _first(bolt: Bolt, likely: Force, careful: Force) -> First:
    """What goes first. To promise the bolt, the careful housing must outlast a bolt stronger than its class."""
    breaks = bolt.breaks()
    if np.min(careful) >= breaks * steels.lot().greatest_tensile:
        return "the bolt"
    return "the housing thread" if np.min(likely) < breaks else "one or the other"


@dataclass(frozen=True, slots=True)
class BookTorque:
    """What a book torque does to this bolt.

    Attributes:
        pull_low: slackest bolt, 5 of a hundred below [N]
        pull: likely pull [N]
        pull_high: tightest bolt, 95 of a hundred below [N]
        of_proof: likely pull over proof load [-]
        yields: pull at which the bolt yields, pull and twist together [N]
        breaks: pull at which it breaks [N]
        says: what to think of the number
    """

    pull_low: Force
    pull: Force
    pull_high: Force
    of_proof: Share
    yields: Force
    breaks: Force
    says: Literal[
        "plausible",
        "low: look at the unit and the head mark",
        "high: look at the unit and the grease",
        "may break the bolt",
    ]


USUAL = (0.55, 0.90)  # likely pull over proof load of a sensible book torque; common practice, no source


def book_torque(
    torque: Torque, thread: OfThread, head: OfHead, grease: OfGrease, wrench: OfWrench | None = None
) -> BookTorque:
    """What a torque out of a book does to a bolt with the grease that is really on it.

    Args:
        torque: the book's torque [N m]
        thread: thread of the bolt
        head: what stands on its head
        grease: what is on thread and under the head
        wrench: how far the wrench is to be trusted; a checked one where nobody says

    Returns:
        pull of the slackest, the likely and the tightest bolt, beside what the bolt bears

    Source: T = K F d with the trade's nut factors; VDI 2230-1 for yield and break under pull and twist together.
    Valid: empirical (rows of the trade carry their own units); grease on thread and head alike; a likely pull under
        the tensile load.
    Try: torque="210 N·m" thread=M16 head=8.8 grease="as received, film of oil"

    >>> from axlewright.trade.lubricants import condition
    >>> from axlewright.trade.threads import parse_designation
    >>> b = book_torque(570.0, parse_designation("M20"), "10.9", condition("anti-seize"))
    >>> round(float(b.pull) / 1000), b.says
    (204, 'may break the bolt')
    """
    above("torque", torque)
    bolt = bolt_of(thread, head, grease, wrench)
    slack, pull, tight = bolt.pulls(torque)
    yields, breaks = bolt.yields(), bolt.breaks()
    past = bolt.grade.tensile * bolt.area * bolt.thread.diameter * bolt.grease.nut_factor
    within("torque", torque, 0.0, past, "past that the bolt breaks: look at the unit, the head mark and the page again")
    of_proof = pull / (bolt.grade.proof * bolt.area)
    middle = float(np.median(of_proof))
    if np.max(tight) >= breaks:
        says = "may break the bolt"
    elif middle > USUAL[1] or np.max(tight) >= yields:
        says = "high: look at the unit and the grease"
    else:
        says = "plausible" if middle >= USUAL[0] else "low: look at the unit and the head mark"
    return BookTorque(slack, pull, tight, of_proof, yields, breaks, says)  # type: ignore[arg-type]
