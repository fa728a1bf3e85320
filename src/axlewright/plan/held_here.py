"""Whether the corner can be held here, its wheel and drive lifted, and its bolts set right: what a choice asks beforehand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from axlewright.plan.bolts_of import bolt_task
from axlewright.plan.judge import HeldVerdict, Stop, judge_line
from axlewright.plan.judge.held import LiftInputs, because, judged_hold, judged_lift, stops_of, walked_of
from axlewright.plan.lift_of import lift_task
from axlewright.plan.quantities_of import judged_words, words_of
from axlewright.plan.reckon.joints import joint
from axlewright.plan.support_of import support_inputs
from axlewright.plan.workings import Refused
from axlewright.yard import Faults, Trouble, Yard

MOST_LIFTS = 3  # of many things that would lift a stop, the first few are said


@dataclass(frozen=True, slots=True)
class HeldHere:
    """What HOLD, LIFT and JOINT say as things stand, to the courses whose work raises the corner.

    Attributes:
        stop: why that work cannot be done here, and what would lift that; None: nothing stops it
        unknown: lines that do not pass at the careful end, HOLD, LIFT or JOINT, each with the margins that do not
    """

    stop: Stop | None = None
    unknown: tuple[tuple[str, tuple[str, ...]], ...] = ()


def held_here(yard: Yard, trouble: Trouble, seed: int, count: int) -> HeldHere:
    """What the lines of holding, lifting and bolts say of a trouble; nothing where no kind of machine is named.

    A line that waits for its walk-round alone says nothing: that is what table sheets are for.
    """
    said = list(_lines(yard, trouble, seed, count))
    stops = [(line, verdict) for line, verdict in said if verdict.word == "no"]
    unknown = tuple(
        (line, told) for line, verdict in said if verdict.word == "not known" and (told := _careful(verdict))
    )
    return HeldHere(_stop(stops) if stops else None, unknown)


def _lines(yard: Yard, trouble: Trouble, seed: int, count: int) -> Iterator[tuple[str, HeldVerdict]]:
    inputs, walked = support_inputs(yard, trouble, seed, count), walked_of(yard, trouble)
    if inputs is None:
        return
    yield "HOLD", judged_hold(inputs, walked)[0]
    answers = judged_words(words_of(yard, trouble), "LIFTING")
    at = f"{trouble.corner.machine}.{trouble.corner.place}/lift"
    yield "LIFT", judged_lift(LiftInputs(lift_task(yard, trouble), answers, at, seed, count), walked)[0]
    try:
        task = bolt_task(yard, trouble)
        made = joint(task, f"trouble-{trouble.number}/bolts", seed, count) if task else None
    except (Faults, Refused):  # the Bolts sheet says so
        return
    if made is not None:
        yield "JOINT", judge_line("JOINT", made.answers, made.margins)


def _stop(stops: list[tuple[str, HeldVerdict]]) -> Stop:
    """The stops of all lines as one."""
    why = " ".join(
        f"{line} is stop: {verdict.why if line == 'JOINT' else because(verdict)}." for line, verdict in stops
    )
    lifts = list(dict.fromkeys(lift for line, verdict in stops for lift in _lifts(line, verdict)))
    more = "; and what else its sheet says." if len(lifts) > MOST_LIFTS else "."
    return Stop(why, "; ".join(lifts[:MOST_LIFTS]) + more)


def _lifts(line: str, verdict: HeldVerdict) -> tuple[str, ...]:
    if line == "JOINT":
        return (verdict.lifted_by,)
    return tuple(lift for stop in stops_of(verdict) for lift in stop.lifts)


def _careful(verdict: HeldVerdict) -> tuple[str, ...]:
    """Which margins hold at their middle and not at their careful end."""
    weak = (one.rule.margin for one in verdict.fired if one.word == "not known" and one.margin)
    return tuple(dict.fromkeys(weak))
