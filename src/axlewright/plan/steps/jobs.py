"""Which jobs a course comes to on this machine, and how long their steps take there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from axlewright.kinds import Array
from axlewright.plan.steps.schedule import Times, schedule
from axlewright.trade.networks import Job, Step, weave
from axlewright.trade.steps import By, Size, Steps, Task

Column: TypeAlias = Literal["low", "likely", "high"]

WHEN: Mapping[str, tuple[str, str]] = {
    "brake-at-drive": ("drive/brake", "at-the-drive"),
    "half-shaft-out": ("drive/half-shaft", "comes-out"),
    "spindle-too": ("drive/spindle", "comes-off"),
    "split-rim": ("wheel/rim", "split"),
    "dual-wheels": ("wheel/duals", "duals"),
    "by-road": ("work/by-road", "yes"),
}
"""Conditions of steps, each by the question and the answer that say that it holds."""
BY: Mapping[str, By] = {"forks": "saddle", "hook": "hook"}


@dataclass(frozen=True, slots=True)
class Here:
    """What a job depends on besides its course.

    Attributes:
        drive: how the drive is built (rows `drive`)
        by: what carries it, or that it stays on the machine
        when: conditions that hold (rows `when`), as brake-at-drive
        kept: cards that are under twelve months old
        scope: depth of the bench
        size: of the machine
        hands: people who work
        first_time: they have not done it before
        in_field: the machine stands in the field
        raised: the corner stands on wood already
    """

    drive: str = "flange"
    by: By = "saddle"
    when: frozenset[str] = frozenset()
    kept: frozenset[str] = frozenset()
    scope: str = ""
    size: Size = "medium"
    hands: int = 2
    first_time: bool = False
    in_field: bool = False
    raised: bool = False


@dataclass(frozen=True, slots=True)
class Plan:
    """The jobs of a course in order: those before the machine works again, and those that have time."""

    now: tuple[Job, ...]
    later: tuple[Job, ...]

    @property
    def all(self) -> tuple[Job, ...]:
        return (*self.now, *self.later)


class NoWay(ValueError):
    """No job does this for such a drive, carried so."""

    def __init__(self, what: str, here: Here, known: Sequence[str]) -> None:
        super().__init__(
            f"Nothing is known for {what} on a drive of kind {here.drive}, by {here.by}. There is {', '.join(known)}."
        )


def size_of(rows: Steps, mass: float) -> Size:
    """Size of a machine by its mass without header [kg]."""
    least, most = rows.rules.size.medium
    return "small" if mass < least else "large" if mass > most else "medium"


def plan(rows: Steps, course: str, here: Here) -> Plan:
    """The jobs of a course on this machine.

    Raises:
        NoWay: no such job for such a drive; says what there is
        KeyError: there is no such course
    """
    row = rows.course[course]
    first = [*(rows.if_in_field if here.in_field else ()), *row.uses, *(row.if_raised if here.raised else ())]
    return Plan(tuple(job(rows, name, here) for name in first), tuple(job(rows, name, here) for name in row.later))


def job(rows: Steps, name: str, here: Here) -> Job:
    """A job by the name of a composition or network, or of what is to be done (swap, reseal, rebuild).

    Raises:
        NoWay: no such job for such a drive; says what there is
    """
    ways = [w for w in rows.ways if w.job == name]
    if ways:
        fitting = [w.use for w in ways if w.drive == here.drive and w.by == here.by]
        if not fitting:
            raise NoWay(name, here, sorted({f"{w.drive} by {w.by}" for w in ways}))
        name = fitting[0]
    return weave(rows, name, here.when, here.kept, here.scope)


def minutes(rows: Steps, task: Task, column: Column, size: Size = "medium", first_time: bool = False) -> float:
    """Minutes of a task on a machine of a size, by people who have or have not done it [min]."""
    value: float = getattr(task.minutes, column)
    return value * rows.rules.scale[task.scale][size] * (task.first if first_time else 1.0)


def all_minutes(rows: Steps, steps: Iterable[Step], column: Column, here: Here) -> Array:
    """Minutes of each step [min]."""
    return np.array([minutes(rows, s.task, column, here.size, here.first_time) for s in steps])


def times(steps: Sequence[Step], lasts: Array, hands: int) -> Times:
    """When each step begins and ends, begun at 0. What stands outside these steps is taken as done.

    Raises:
        TooFewHands: a step takes more people than there are
    """
    inside = {s.task.id for s in steps}
    return schedule(
        [s.task.id for s in steps],
        lasts,
        [s.task.hands for s in steps],
        {s.task.id: [a for a in s.after if a in inside] for s in steps},
        hands,
    )


def finish(rows: Steps, steps: Sequence[Step], column: Column, here: Here) -> float:
    """Minutes from the first of these steps to the end of all [min].

    Raises:
        TooFewHands: a step takes more people than there are
    """
    return float(times(steps, all_minutes(rows, steps, column, here), here.hands).finish)


def likely_plan(rows: Steps, work: Job, here: Here) -> Times:
    """The job at its likely minutes: what the step card prints beside its steps."""
    return times(work.steps, all_minutes(rows, work.steps, "likely", here), here.hands)
