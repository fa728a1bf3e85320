"""What a trouble says of its flange bolts, as quantities: each with its basis, and where it comes from."""

from __future__ import annotations

from axlewright.kinds import KINDS
from axlewright.plan.reckon.bolt_task import BoltTask, WrenchHeld
from axlewright.quantities import Exact, NotRead, Quantity, parse, read_spread
from axlewright.trade import irons, lubricants
from axlewright.trade.threads import parse_designation
from axlewright.yard import Bolts, Fault, Faults, Trouble
from axlewright.yard.records import Stated


def bolt_task(trouble: Trouble) -> BoltTask | None:
    """The bolts of a trouble; None where nobody has looked at them yet.

    Raises:
        Faults: something of it cannot be read; says which and what to type
    """
    if trouble.bolts is None:
        return None
    looked, where = trouble.bolts, f"trouble {trouble.number}, bolts"
    try:
        return _task(looked)
    except NotRead as bad:
        raise Faults(Fault(where, str(bad))) from None


def _task(looked: Bolts) -> BoltTask:
    for state in filter(None, (looked.grease, looked.grease_under_heads, looked.book_means)):
        lubricants.condition(state)
    irons.iron(looked.housing)
    task = BoltTask(
        thread=parse_designation(looked.thread),
        bolts=looked.count,
        head_mark=looked.head_mark,
        on_threads=looked.grease,
        on_heads=looked.grease_under_heads,
        turns=None if looked.turns is None else _counted(looked.turns),
        engaged=_quantity("engaged", "length", looked.engaged),
        housing=looked.housing,
        circle=_quantity("circle", "length", looked.circle),
        outside=_quantity("outside", "length", looked.outside),
        fitted=looked.in_bushes,
        book_torque=_quantity("book-torque", "torque", looked.book_torque),
        book_grease=looked.book_means,
        clamp_needed=_quantity("clamp-needed", "force", looked.clamp_needed),
        wrench=_wrench(looked),
        reached=looked.reached,
    )
    _ = task.marked  # a mark that nobody knows is said now, not half way through
    return task


def _counted(turns: float) -> Quantity:
    return Quantity("turns", KINDS["count"], Exact(turns), "measured", "full turns by hand", f"{turns:g}")


def _quantity(name: str, kind: str, stated: Stated | None) -> Quantity | None:
    """A value as typed, with its spread."""
    if stated is None:
        return None
    source = stated.source or {"book": "the machine’s own book", "assumed": "typed, not said how known"}.get(
        stated.basis, "typed"
    )
    return Quantity(name, KINDS[kind], read_spread(stated.value, kind), stated.basis, source, stated.value)


def _wrench(looked: Bolts) -> WrenchHeld | None:
    """The wrench, where both ends of its scale were read; its marks are in the unit that was typed."""
    if looked.wrench_from is None or looked.wrench_to is None:
        return None
    least, greatest = (parse(one.value, "torque") for one in (looked.wrench_from, looked.wrench_to))
    if greatest.unit.symbol == "lbf·ft":
        return WrenchHeld(float(least.si), float(greatest.si), 5.0 * greatest.unit.to_si(1.0), "lbf·ft")
    return WrenchHeld(float(least.si), float(greatest.si))
