"""A trouble's choice made out: what verdicts strike out first, then the courses, then what to find out next.

Kept for as long as nothing of what it is made of changes: a page that is opened again costs nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import lru_cache

import numpy as np

from axlewright.plan.choice_of import choice_task, is_chosen
from axlewright.plan.facts import Seen, job_open, seen_at
from axlewright.plan.held_here import HeldHere, held_here
from axlewright.plan.judge import Stop, course_stop, judge_corner, may_look, missing, unsafe_stop
from axlewright.plan.once import Kept, KeptOfYard
from axlewright.plan.reckon.choice import Made, compare, in_order, made_out
from axlewright.plan.reckon.choice_task import RAISES, ChoiceTask
from axlewright.plan.reckon.choice_worth import (
    Asked,
    Candidate,
    FindOut,
    Turn,
    find_out,
    turns,
    what_moves_it,
    worth_of_used,
)
from axlewright.plan.steps.jobs import Here, finish, job
from axlewright.plan.workings import Memo, Workings
from axlewright.quantities import digest
from axlewright.trade.choice import items
from axlewright.trade.findings import findings, floored
from axlewright.trade.looks import Look, looks
from axlewright.trade.steps_read import steps
from axlewright.yard import Trouble, Yard

MOST_KEPT = 16
CALL = 6.0  # minutes of a telephone call (ours)
LOOKED = ("plug", "oil-metal", "rock", "turn", "heat", "backlash", "noise", "wobble")
ASKED = {"lead/used": "fit a used drive", "price/used": "fit a used drive", "lead/exchange": "fit a rebuilt exchange", "lead/hire": "hire out"}  # fmt: skip
HAIR = 1e-6  # h: a look to come is newer than one made just now
RAISED = "raised-corner-look"
NOTHING_HELD = HeldHere()
HEAVY = ("season/clock", "season/workable", "season/common", "choice/ran")  # numbers of every drawn season


@dataclass(frozen=True, slots=True)
class Choice:
    """A choice as it stands today.

    Attributes:
        task: what it was reckoned from
        made: courses, best first, and every number by its name
        stops: why a course is struck out, and what would lift it
        found: what to find out next, by worth
        turns: prices at which another course is better
        moves: what moves it most: name, share of the variance
        worth: the most that a used drive is worth at its seller's [money]; None: it is no course
        look_first: FIELD is not known: nothing is chosen before the First look
        unknown: lines of the work that pass on likely numbers alone: HOLD, LIFT or JOINT, and by which margins
        before: for each look ahead, the looks that come before it
    """

    task: ChoiceTask
    made: Made
    stops: Mapping[str, Stop]
    found: tuple[FindOut, ...]
    turns: tuple[Turn, ...]
    moves: tuple[tuple[str, float], ...]
    worth: float | None
    look_first: bool
    unknown: tuple[tuple[str, tuple[str, ...]], ...] = ()
    before: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


_KEPT: Kept[Choice] = Kept(MOST_KEPT)
_OF_YARD: KeptOfYard[Choice | None] = KeptOfYard(MOST_KEPT)


def choice_of(yard: Yard, trouble: Trouble, today: date, seed: int, count: int) -> Choice | None:
    """The choice of a trouble; None where there is none to make, or nobody said what is to be cut.

    Raises:
        Refused: a number cannot be worked out; says which
    """
    key = (trouble.number, today, seed, count)
    return _OF_YARD.get(yard, key, lambda: _choice_of(yard, trouble, today, seed, count))


def _choice_of(yard: Yard, trouble: Trouble, today: date, seed: int, count: int) -> Choice | None:
    if not is_chosen(yard, trouble, today):
        return None
    task = choice_task(yard, trouble, today, seed, count)
    seen, open_ = seen_at(yard, trouble.corner, today), job_open(yard, trouble.corner)
    held = held_here(yard, trouble, seed, count)
    key = digest(task_of(task), seen, open_, held)
    return _KEPT.get(key, lambda: made(task, seen, open_, held))


def task_of(task: ChoiceTask) -> tuple[object, ...]:
    """All that a task holds, for its digest."""
    return (
        task.today, task.seen, dict(task.quantities), dict(task.none), task.works, repr(task.climate), task.courses,
        repr(task.here), repr(task.age), repr(task.spare), repr(task.clock), task.bearings, task.no_bearings, task.seed, task.count,
    )  # fmt: skip


def made(task: ChoiceTask, seen: tuple[Seen, ...], job_is_open: bool = False, held: HeldHere = NOTHING_HELD) -> Choice:
    """The choice of a task, of what was seen as it is judged, and of whether the corner can be held here."""
    verdicts = judge_corner(seen, job_open=job_is_open)
    stops: dict[str, Stop] = {course: stop for course in task.courses if (stop := course_stop(course, verdicts))}
    if held.stop:
        stops = {**dict.fromkeys((course for course in RAISES if course in task.courses), held.stop), **stops}
    task = replace(task, on_road=verdicts.road.word in ("yes", "only if"))
    out = made_out(task, dict.fromkeys(stops, True))
    unsafe = {one.name: stop for one in out.courses if not one.stopped and (stop := unsafe_stop(one.unsafe))}
    if unsafe:
        stops |= unsafe
        compare(out.w, task, dict.fromkeys(stops, True))
        out = replace(out, courses=in_order(out.w, task, dict.fromkeys(stops, True)))
    struck = frozenset({*unsafe, *(RAISES if held.stop else ())})  # whatever a look shows
    ahead = [_look(task, name, seen, struck, job_is_open) for name in LOOKED if name not in verdicts.state.fresh and may_look(verdicts, name)]  # fmt: skip
    found = Choice(
        task,
        out,
        stops,
        find_out(out, task, ahead, _asks(out)),
        turns(out, task),
        what_moves_it(out, task),
        worth_of_used(out, task),
        verdicts.field.word == "not known",
        held.unknown,
        {one.name: missing(verdicts, looks()[findings()[one.name].look]) for one in ahead},
    )
    _let_go(out.w)
    return found


def _let_go(w: Workings) -> None:
    """What each season came to is wanted no more: of a choice that is kept, only what is told and where it comes from."""
    for name, got in w.got.items():
        if name.startswith(HEAVY):
            w.got[name] = replace(got, draws=None, told=[])
    w.things = {name: one for name, one in w.things.items() if not name.startswith(HEAVY)}
    w.memo = Memo()


def _asks(out: Made) -> tuple[Asked, ...]:
    """The numbers that somebody could be asked for: of courses that are open, and that nobody has typed."""
    open_ = {one.name for one in out.courses if not one.stopped}
    found = []
    for name, course in ASKED.items():
        typed = out.w.quantities.get(name)
        if course in open_ and (typed is None or (typed.basis == "assumed" and typed.source == items_source(name))):
            found.append(Asked(f"{name}-found" if f"{name}-found" in out.w.got else name, CALL))
    return tuple(found)


def items_source(name: str) -> str:
    """Where a number comes from while nobody has typed it."""
    return items()[name].source if name in items() else ""


def _look(task: ChoiceTask, name: str, seen: tuple[Seen, ...], unsafe: frozenset[str], open_: bool) -> Candidate:
    """A look: what each grade's chance is in each condition, and what it would strike out."""
    by = "dial" if name == "rock" else ""
    grades = [grade for grade in findings()[name].grades if grade.p is not None and grade.by in ("", by)]
    rows = np.array([floored(grade.p) for grade in grades if grade.p])[:, :3]  # it carries still
    stopped = []
    for grade in grades:
        verdicts = judge_corner((*_before(seen, name), Seen(name, grade.id, photo=True)), job_open=open_)
        stopped.append(unsafe | {course for course in task.courses if course_stop(course, verdicts)})
    return Candidate(
        name,
        tuple(grade.words for grade in grades),
        (rows / rows.sum(axis=0)).T,
        tuple(frozenset(one) for one in stopped),
        minutes_of(looks()[findings()[name].look], task),
    )


def _before(seen: tuple[Seen, ...], name: str) -> Iterator[Seen]:
    for one in seen:
        yield replace(one, hours_ago=(one.hours_ago or 0.0) + HAIR) if one.finding == name else one


def minutes_of(look: Look, task: ChoiceTask) -> float:
    """Minutes of all people together that a look takes; one that raises the corner carries its own support."""
    if "R" in look.stages:
        return _raised_minutes(task.here)
    return (look.minutes + look.work_minutes) * look.people


@lru_cache(maxsize=64)
def _raised_minutes(here: Here) -> float:
    return finish(steps(), job(steps(), RAISED, here).steps, "likely", here) * here.hands
