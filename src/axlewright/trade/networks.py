"""From networks to jobs.

A job is a composition (or a network worked by itself) with some tasks left out: what stays is a list of steps in card
order, each with what it waits for.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from axlewright.trade.steps import Composition, Reading, Steps, Task, Use


@dataclass(frozen=True, slots=True)
class Step:
    """A task as it stands in a job: its part, and the steps it waits for."""

    task: Task
    part: str
    after: tuple[str, ...]
    own_card: bool = False


@dataclass(frozen=True, slots=True)
class Card:
    """A step card: the steps worked on it. `part` is empty on the job's own."""

    part: str
    steps: tuple[Step, ...]

    @property
    def readings(self) -> tuple[Reading, ...]:
        """The readings on its front."""
        return tuple(r for s in self.steps for r in s.task.readings if r.card)


@dataclass(frozen=True)
class Job:
    """Steps in card order. A task left out has handed what it waited for on to those that waited for it."""

    id: str
    title: str
    steps: tuple[Step, ...]
    left_out: frozenset[str]

    @cached_property
    def before(self) -> dict[str, frozenset[str]]:
        """All that is done before each step, however far back."""
        found: dict[str, frozenset[str]] = {}
        for step in self.steps:
            found[step.task.id] = frozenset(step.after).union(*(found[a] for a in step.after))
        return found

    @cached_property
    def readings(self) -> tuple[Reading, ...]:
        return tuple(r for s in self.steps for r in s.task.readings)

    @cached_property
    def cards(self) -> tuple[Card, ...]:
        """Its step cards: the job's own, and one for each network that is worked on a card of its own."""
        mine: dict[str, list[Step]] = {}
        for step in self.steps:
            mine.setdefault(step.part if step.own_card else "", []).append(step)
        return tuple(Card(part, tuple(steps)) for part, steps in mine.items())

    def asked(self, task: Task) -> tuple[str, ...]:
        """The readings that a hold asks for: not those of a task that was left out."""
        taken = {r.id for r in self.readings}
        return tuple(r for r in task.hold.readings if r in taken) if task.hold else ()

    def guard(self, act: str, at: str) -> str:
        """The nearest hold that guards an act before the step that does it; empty if there is none."""
        return next(
            (
                s.task.id
                for s in reversed(self.steps)
                if s.task.id in self.before[at] and s.task.hold and act in s.task.hold.guards
            ),
            "",
        )

    def blocks(self) -> tuple[tuple[Step, ...], ...]:
        """Runs of steps after which the day may not end, each with the step that ends it."""
        found: list[tuple[Step, ...]] = []
        run: list[Step] = []
        for step in self.steps:
            if not step.task.end_day or run:
                run.append(step)
            if step.task.end_day and run:
                found.append(tuple(run))
                run = []
        return (*found, tuple(run)) if run else tuple(found)


def hand_on(after: Mapping[str, Sequence[str]], left_out: frozenset[str]) -> dict[str, tuple[str, ...]]:
    """What each task that stays waits for, when those left out hand their own predecessors on.

    Args:
        after: predecessors of each task, in an order in which every task stands behind what it waits for
        left_out: the tasks left out
    """
    found: dict[str, tuple[str, ...]] = {}
    for task, waits in after.items():
        found[task] = tuple(dict.fromkeys(b for a in waits for b in (found[a] if a in left_out else (a,))))
    return {task: waits for task, waits in found.items() if task not in left_out}


def weave(rows: Steps, job: str, when: Iterable[str] = (), kept: Iterable[str] = (), scope: str = "") -> Job:
    """The job by its name: a composition, or a network by itself.

    Args:
        rows: all rows of the work
        job: id of the composition or network
        when: which of the conditions hold here
        kept: the cards that are under twelve months old
        scope: depth of a network that has several (empty: the deepest)

    Raises:
        KeyError: there is no such job
    """
    whole = rows.composition.get(job) or _alone(rows, job, scope)
    holds, cards = {*when, *whole.given}, set(kept)
    joins = {j.task: j.after for j in whole.joins}
    alone = len(whole.parts) == 1
    tasks: dict[str, tuple[Task, str, bool]] = {}
    after: dict[str, tuple[str, ...]] = {}
    last: dict[str, tuple[str, ...]] = {}
    left_out = set()
    for use in whole.parts:
        network = rows.network[use.use].tasks
        waited_for = {a for t in network for a in t.after}
        last[use.use] = tuple(t.id for t in network if t.id not in waited_for)
        entry = tuple(a for part in use.after for a in last[part])
        for task in network:
            tasks[task.id] = task, use.use, rows.network[use.use].own_card and not alone
            own = task.after or (() if task.id in joins else entry)
            after[task.id] = (*own, *joins.get(task.id, ()))
            if (
                (task.when and task.when not in holds)
                or (task.kept and task.kept in cards)
                or task.id in use.without
                or (use.scope and task.scope and use.scope not in task.scope)
            ):
                left_out.add(task.id)
    waits = hand_on(after, frozenset(left_out))
    steps = tuple(Step(t, part, waits[i], own) for i, (t, part, own) in tasks.items() if i in waits)
    return Job(whole.id, whole.title, steps, frozenset(left_out))


def _alone(rows: Steps, network: str, scope: str) -> Composition:
    found = rows.network[network]
    return Composition(
        id=network, title=found.title, about=found.about, source=found.source, parts=(Use(use=network, scope=scope),)
    )


def jobs(rows: Steps) -> tuple[str, ...]:
    """All jobs: the compositions, and the networks that are worked by themselves."""
    named = [*rows.if_in_field, *(a.id for a in rows.apart)]
    named += [u for c in rows.courses for u in (*c.uses, *c.later, *c.if_raised)]
    return tuple(dict.fromkeys([*rows.composition, *(n for n in named if n in rows.network)]))
