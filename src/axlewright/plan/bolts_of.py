"""What is known of a trouble's flange bolts, as the task that they are reckoned from."""

from __future__ import annotations

from collections.abc import Mapping

from axlewright.plan.quantities_of import quantities_of, words_of
from axlewright.plan.reckon.bolt_task import BoltTask, WrenchHeld
from axlewright.quantities import NotRead, Quantity, parse
from axlewright.trade.questions import ALL, NONE
from axlewright.trade.threads import parse_designation
from axlewright.yard import Fault, Faults, Trouble, Yard
from axlewright.yard.asked import answers_of

Quantities = Mapping[str, Quantity]
Words = Mapping[str, str]


def bolts_known(yard: Yard, trouble: Trouble) -> bool:
    """Whether enough is known of a trouble's bolts for their sheet: their thread, and how many they are."""
    known = answers_of(yard, trouble)
    return "bolts/thread" in known and "bolts/count" in known


def bolt_task(yard: Yard, trouble: Trouble) -> BoltTask | None:
    """The bolts of a trouble; None while nobody knows their thread and how many they are.

    Raises:
        Faults: two answers do not go together; says which and what to type
    """
    if not bolts_known(yard, trouble):
        return None
    numbers, words = quantities_of(yard, trouble), words_of(yard, trouble)
    try:
        return _task(numbers, words)
    except NotRead as bad:
        raise Faults(Fault(f"trouble {trouble.number}, bolts", str(bad))) from None


def _task(numbers: Quantities, words: Words) -> BoltTask:
    bolts = round(numbers["bolts/count"].spread.middle())
    task = BoltTask(
        thread=parse_designation(words["bolts/thread"]),
        bolts=bolts,
        head_mark=words.get("bolts/head-mark", ""),
        on_threads=words.get("bolts/grease", ""),
        on_heads=words.get("bolts/grease-head", ""),
        turns=numbers.get("bolts/turns-by-hand"),
        engaged=numbers.get("bolts/engaged"),
        housing=words["bolts/iron"],
        circle=numbers.get("bolts/circle"),
        outside=numbers.get("bolts/outside"),
        fitted=_listed(words.get("bolts/fitted", NONE), bolts),
        located_by=words.get("located-by", ""),
        book_torque=numbers.get("bolts/book-torque"),
        book_grease=words["bolts/book-grease"],
        clamp_needed=numbers.get("bolts/need"),
        wrench=_wrench(numbers, words),
        reached=_listed(words["bolts/wrench-reach"], bolts) if "bolts/wrench-reach" in words else None,
        lock=words["bolts/lock"],
        hole=parse_designation(words["bolts/hole"]) if "bolts/hole" in words else None,
        again_after=tuple(
            float(parse(part, "duration").si) for part in words.get("bolts/again-after", "").split(",") if part
        ),
    )
    _ = task.marked  # a mark that does not go with the thread is said now, not half way through
    return task


def _listed(said: str, bolts: int) -> tuple[int, ...]:
    """Numbers of bolts from their list."""
    if said in (NONE, ALL):
        return tuple(range(1, bolts + 1)) if said == ALL else ()
    return tuple(int(part) for part in said.split(","))


def _wrench(numbers: Quantities, words: Words) -> WrenchHeld | None:
    """The wrench, where both ends of its scale were read; its marks are in the unit that was typed."""
    least, greatest, mark = (numbers.get(f"wrench/{name}") for name in ("least", "greatest", "mark"))
    if least is None or greatest is None:
        return None
    unit = parse(greatest.typed, "torque").unit
    step = mark.spread.middle() if mark else 5.0 * unit.to_si(1.0)
    checked = words.get("wrench/checked") == "yes"
    return WrenchHeld(least.spread.middle(), greatest.spread.middle(), step, unit.symbol, checked)
