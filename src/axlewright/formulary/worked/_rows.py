"""What the trade knows of bolts, greases, housings and wrenches, given by name; and a bolt of it in numbers."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated, TypeAlias

import numpy as np

from axlewright.engines.joints import nut_factor as friction_of
from axlewright.engines.joints import stress, stripping, threads, tightening, window
from axlewright.engines.limits import above
from axlewright.formulary.slots import Named
from axlewright.kinds import Force, Length, Number, Torque
from axlewright.quantities import NotRead
from axlewright.trade import irons, lubricants, steels, surfaces
from axlewright.trade import tightening as ways
from axlewright.trade.threads import Thread, parse_designation

EDGE = 0.05  # share of bolts beyond each edge: the careful end of everything here


def _wrench(text: str) -> ways.Wrench:
    word = " ".join(text.strip().lower().split())
    for row in ways.wrenches().values():
        if word in (row.id, row.id.replace("-", " "), row.label.lower()):
            return row
    labels = tuple(row.id for row in ways.wrenches().values())
    raise NotRead(text, "how far the wrench is to be trusted", labels, "no such wrench is known")


def _head(text: str) -> str:
    if not text.strip():
        raise NotRead(text, steels.EXAMPLE, hint="nothing is typed")
    return text.strip()


OfThread: TypeAlias = Annotated[Thread, Named("thread", parse_designation, "M20")]
OfHead: TypeAlias = Annotated[str, Named("head-mark", _head, "10.9")]
OfGrease: TypeAlias = Annotated[
    lubricants.Condition,
    Named(
        "grease", lubricants.condition, "anti-seize", lambda: tuple(c.label for c in lubricants.conditions().values())
    ),
]
OfHousing: TypeAlias = Annotated[
    irons.Iron, Named("housing", irons.iron, "grey iron 250", lambda: tuple(i.label for i in irons.irons().values()))
]
OfWrench: TypeAlias = Annotated[
    ways.Wrench, Named("wrench", _wrench, "checked", lambda: tuple(w.id for w in ways.wrenches().values()))
]


def careful_factor(log_sd: float) -> float:
    """How many times above its middle the careful end of a lognormal lies."""
    from scipy.special import ndtri

    return math.exp(float(ndtri(1 - EDGE)) * log_sd)


@dataclass(frozen=True, slots=True)
class Bolt:
    """A bolt with its grease and wrench, in numbers."""

    thread: Thread
    grade: steels.Grade
    grease: lubricants.Condition
    error: float
    taken: str = ""  # what had to be taken for want of a head mark

    @property
    def bearing(self) -> float:
        head = surfaces.head_of(self.thread.diameter)
        return (head.face + head.hole) / 2

    @property
    def pitch_diameter(self) -> float:
        return float(threads.pitch_diameter(self.thread.diameter, self.thread.pitch))

    @property
    def area(self) -> float:
        return float(threads.circle_area(self.thread.stress_diameter))

    @property
    def friction(self) -> float:
        k, t = self.grease.nut_factor, self.thread
        return float(friction_of.friction_from_nut_factor(k, t.diameter, t.pitch, self.pitch_diameter, self.bearing))

    @property
    def log_sd(self) -> float:
        """Scatter of the preload at a set torque."""
        return math.hypot(self.grease.log_sd, self.error)

    @property
    def doubts(self) -> str:
        """What is doubtful about it, in a sentence or two; empty where nothing is."""
        clean = "clean it first: on rust, paint or dirt no torque says anything" if self.grease.clean_first else ""
        return "; ".join(doubt for doubt in (self.thread.doubt, self.taken, clean) if doubt)

    def window(self, clamp: Force) -> window.TorqueWindow:
        t, g = self.thread, self.grade
        return window.torque_window(
            clamp, g.yields, g.tensile, self.grease.nut_factor, self.grease.log_sd, self.error, EDGE,
            t.diameter, t.pitch, self.pitch_diameter, self.area, t.stress_diameter, self.bearing,
        )  # fmt: skip

    def yields(self) -> float:
        t = self.thread
        return float(
            stress.preload_at_yield(
                self.grade.yields, t.pitch, self.pitch_diameter, self.friction, self.area, t.stress_diameter
            )
        )

    def breaks(self) -> float:
        t = self.thread
        return float(
            stress.preload_at_break(
                self.grade.tensile, t.pitch, self.pitch_diameter, self.friction, self.area, t.stress_diameter
            )
        )

    def most_before(self, load: Force) -> Torque:
        """Torque at which the tightest bolt just stays below a load: the mirror of the least one for a clamp."""
        likely = tightening.torque_from_nut_factor(load, self.thread.diameter, self.grease.nut_factor)
        least = window.torque_for_clamp(
            load, self.grease.nut_factor, self.grease.log_sd, self.error, self.thread.diameter, EDGE
        )
        return np.asarray(likely) ** 2 / np.maximum(least, np.finfo(float).tiny)

    def pulls(self, torque: Torque) -> tuple[Number, Number, Number]:
        """Preload at a torque: 5 of a hundred below, likely, 95 of a hundred below."""
        likely = tightening.preload_from_nut_factor(torque, self.thread.diameter, self.grease.nut_factor)
        factor = careful_factor(self.log_sd)
        return likely / factor, likely, likely * factor


def bolt_of(thread: Thread, head: str, grease: lubricants.Condition, wrench: ways.Wrench | None) -> Bolt:
    """A bolt by name; a checked wrench where nobody says.

    Raises:
        NotRead: the head mark is none of this thread's
    """
    grade, taken = steels.read_head_mark(head, thread)
    return Bolt(thread, grade, grease, (wrench or ways.wrenches()["checked"]).error, taken)


def carries_of(engaged: Length, thread: Thread) -> Number:
    """Engagement that carries: two pitches of run-out taken off a length, as `engagement_from_lengths` does."""
    above("engaged", engaged)
    carries: Number = np.maximum(np.asarray(engaged, float) - stripping.RUN_OUT_LENGTHS * thread.pitch, 0.0)
    return carries


def strips_at(carries: Number, thread: Thread, housing: irons.Iron) -> tuple[Force, Force]:
    """Preload that strips the housing thread: likely, careful."""
    sizes = thread.limits()
    area = threads.strip_area_internal(carries, thread.pitch, sizes.bolt_major_least, sizes.nut_pitch_greatest)
    least = housing.tensile_low or housing.tensile
    return (
        stripping.strip_load(area, housing.shear_likely * housing.tensile),
        stripping.strip_load(area, housing.shear_low * least),
    )
