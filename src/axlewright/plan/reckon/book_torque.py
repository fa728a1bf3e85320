"""The book's torque, judged: which unit its number fits, and whether it is meant for these bolts at all."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.engines.joints.strength import bolt_loads
from axlewright.engines.joints.threads import circle_area
from axlewright.engines.joints.tightening import preload_from_nut_factor
from axlewright.kinds import KINDS
from axlewright.plan.reckon.bolt_task import BoltTask
from axlewright.quantities import NotRead, find, parse
from axlewright.trade.tightening import book


@dataclass(frozen=True, slots=True)
class Reading:
    """The book's number read in one unit: what it likely does to a bolt as the book means it.

    Attributes:
        unit: symbol
        torque: torque that the number then is [N m]
        of_proof: likely preload over proof load [-]
        of_tensile: likely preload over tensile load [-]
        typed: this is the unit that was typed
    """

    unit: str
    torque: float
    of_proof: float
    of_tensile: float
    typed: bool

    @property
    def sensible(self) -> bool:
        return book().of_proof_least <= self.of_proof <= book().of_proof_most


def readings(task: BoltTask) -> tuple[Reading, ...]:
    """The book's number in each unit that it is mistaken between, as typed first; none without a book or a head mark."""
    if task.book_torque is None or task.marked is None:
        return ()
    grade, _ = task.marked
    thread = task.thread
    loads = bolt_loads(float(circle_area(thread.stress_diameter)), grade.proof, grade.yields, grade.tensile)
    number, typed = as_typed(task)
    made = []
    for symbol in dict.fromkeys((typed, *book().units)):
        unit = find("torque", symbol)
        assert unit is not None, symbol
        torque = unit.to_si(number)
        preload = preload_from_nut_factor(torque, thread.diameter, task.book_state.nut_factor)
        of_proof, of_tensile = float(preload / loads.proof), float(preload / loads.tensile)
        made.append(Reading(symbol, torque, of_proof, of_tensile, symbol == typed))
    return tuple(made)


def as_typed(task: BoltTask) -> tuple[float, str]:
    """The number and the unit that were typed; newton metres where nothing says otherwise."""
    assert task.book_torque is not None
    try:
        read = parse(task.book_torque.typed, KINDS["torque"])
    except NotRead:
        return task.book_torque.spread.middle(), "N·m"
    return read.unit.from_si(read.si), read.unit.symbol


def doubt(task: BoltTask) -> str:
    """What is doubtful about the book's torque, as a sentence; empty where nothing is."""
    made = readings(task)
    if not made or made[0].sensible:
        return ""
    first = made[0]
    high = first.of_proof > book().of_proof_most
    much = (
        "more than the bolt bears" if first.of_tensile >= 1 else "high for this bolt" if high else "low for this bolt"
    )
    others = [one.unit for one in made[1:] if one.sensible]
    asks = f": is it {' or '.join(others)}?" if others else ": look at the head mark, the thread and the page again."
    return f"In {first.unit} the book’s number is {much}{asks}"


def breaks(task: BoltTask) -> bool:
    """Whether the book's torque, as typed and as the book means it, is past the tensile load of this bolt."""
    made = readings(task)
    return bool(made) and made[0].of_tensile >= 1
