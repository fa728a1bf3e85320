"""What a printed form can say of bolts without a program: factors for grease, and torques never to go above."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from axlewright.engines.joints import threads
from axlewright.engines.joints.order import cross_order
from axlewright.engines.joints.window import torque_window
from axlewright.kinds import KINDS
from axlewright.plan.workings import Workings
from axlewright.quantities import Basis, Exact, Quantity
from axlewright.quantities.draws import CAREFUL
from axlewright.trade import lubricants, steels, surfaces, tightening
from axlewright.trade.lubricants import Condition
from axlewright.trade.threads import Thread, parse_designation

METRIC = (("M16", "M18", "M20", "M22", "M24"), ("8.8", "10.9"))
COUNTS = (6, 8, 10, 12, 16, 20)
INCH = (("5/8-11", "3/4-10", "7/8-9", "1-8"), ("5", "8"))


@dataclass(frozen=True, slots=True)
class Line:
    """One bolt of the table: thread, grade, and the name of its highest torque for each state."""

    thread: Thread
    grade: steels.Grade
    unit: str
    highest: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BoltTable:
    """States in columns, bolts in rows; every number stands in the workings under its name."""

    w: Workings
    states: tuple[Condition, ...]
    factors: tuple[str, ...]
    lines: tuple[Line, ...]


def orders() -> dict[int, tuple[int, ...]]:
    """Orders of tightening for the usual numbers of bolts."""
    return {bolts: cross_order(bolts) for bolts in COUNTS}


@cache
def bolt_table() -> BoltTable:
    """The table of the blank form: closed form, least strengths, the housing thread not counted."""
    states = tuple(state for state in lubricants.conditions().values() if state.usual)
    meant = next(state for state in states if state.new)
    given: dict[str, Quantity] = {}

    def put(name: str, kind: str, value: float, basis: Basis, source: str) -> str:
        given[name] = Quantity(name, KINDS[kind], Exact(value), basis, source)
        return name

    put("share", "share", CAREFUL, "assumed", "5 bolts in a hundred beyond: the careful end of every sheet")
    put("clamp", "force", 0.0, "assumed", "none asked: upper edge only")
    wrench = tightening.wrenches()["checked"]
    put("wrench", "share", wrench.error, "assumed", wrench.source)
    for state in states:
        put(f"{state.id}/nut-factor", "share", state.nut_factor, "assumed", state.source)
        put(f"{state.id}/log-sd", "share", state.log_sd, "assumed", state.source)
        times = f"same pull as bolts {meant.word}: nut factor over {meant.nut_factor:g}"
        put(f"{state.id}/factor", "share", state.nut_factor / meant.nut_factor, "computed", times)
    w = Workings(given, 0, 1)
    lines = []
    for (sizes, grades), unit in ((METRIC, "N·m"), (INCH, "lbf·ft")):
        for size in sizes:
            thread = parse_designation(size)
            _bolt(w, put, thread)
            for mark in grades:
                grade = steels.grade_at(mark, thread.diameter)
                put(f"{size}/{mark}/yield", "pressure", grade.yields, "book", grade.source)
                put(f"{size}/{mark}/tensile", "pressure", grade.tensile, "book", grade.source)
                highest = tuple(_highest(w, size, mark, state) for state in states)
                lines.append(Line(thread, grade, unit, highest))
    return BoltTable(w, states, tuple(f"{state.id}/factor" for state in states), tuple(lines))


def _bolt(w: Workings, put: object, thread: Thread) -> None:
    """Geometry of one thread."""
    assert callable(put)
    name = thread.designation.split(" ")[0]
    head = surfaces.head_of(thread.diameter)
    put(f"{name}/diameter", "length", thread.diameter, "book", thread.designation)
    put(f"{name}/pitch", "length", thread.pitch, "book", thread.designation)
    put(f"{name}/bearing", "length", (head.face + head.hole) / 2, "assumed", head.source)
    size = {"diameter": f"{name}/diameter", "pitch": f"{name}/pitch"}
    inch = thread.system == "inch"
    w.work_out(f"{name}/pitch-diameter", threads.pitch_diameter, **size)
    w.work_out(
        f"{name}/stress-diameter", threads.stress_diameter_inch if inch else threads.stress_diameter_metric, **size
    )
    w.work_out(f"{name}/stress-area", threads.circle_area, diameter=f"{name}/stress-diameter")


def _highest(w: Workings, size: str, mark: str, state: Condition) -> str:
    name = f"{size}/{mark}/{state.id}"
    w.work_out(
        name,
        torque_window,
        clamp_needed="clamp",
        yield_stress=f"{size}/{mark}/yield",
        tensile_strength=f"{size}/{mark}/tensile",
        nut_factor=f"{state.id}/nut-factor",
        nut_factor_log_sd=f"{state.id}/log-sd",
        wrench_log_sd="wrench",
        share="share",
        diameter=f"{size}/diameter",
        pitch=f"{size}/pitch",
        pitch_diameter=f"{size}/pitch-diameter",
        stress_area=f"{size}/stress-area",
        stress_diameter=f"{size}/stress-diameter",
        bearing_diameter=f"{size}/bearing",
    )
    return f"{name}.high"
