"""When each task of a network can begin, by hands: serial schedule in card order, over any number of draws at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from axlewright.kinds import Array

ROUNDING = 1e-9  # of the longest time: what binary sums may be off by


class TooFewHands(ValueError):
    """A task takes more hands than there are."""

    def __init__(self, task: str, takes: int, hands: int) -> None:
        self.task, self.takes, self.hands = task, takes, hands
        there = "nobody is here" if hands < 1 else f"{hands} {'is' if hands == 1 else 'are'} here"
        super().__init__(f"{task} takes {takes} people; {there}. Name a second adult, or leave it.")


@dataclass(frozen=True, slots=True)
class Times:
    """Begin and end of each task; draws on the first axis where the durations had them."""

    tasks: tuple[str, ...]
    begins: Array
    ends: Array

    def begin(self, task: str) -> Array:
        return np.asarray(self.begins[..., self.tasks.index(task)])

    def end(self, task: str) -> Array:
        return np.asarray(self.ends[..., self.tasks.index(task)])

    @property
    def finish(self) -> Array:
        """The end of all."""
        return np.asarray(self.ends.max(axis=-1, initial=0.0))


def schedule(
    tasks: Sequence[str], durations: Array, takes: Sequence[int], after: Mapping[str, Sequence[str]], hands: int
) -> Times:
    """Each task in turn gets the earliest begin at which all it waits for is done and its hands are free throughout.

    Earlier gaps may be filled. A task that takes 0 hands is waiting, and takes nobody.

    Args:
        tasks: in card order, each behind what it waits for
        durations: of the tasks on the last axis, in any unit of time; draws may stand before it
        takes: hands that each task takes
        after: what each task waits for
        hands: how many there are

    Raises:
        TooFewHands: a task takes more than there are
    """
    for task, need in zip(tasks, takes, strict=True):
        if need > hands:
            raise TooFewHands(task, need, hands)
    lasts = np.asfortranarray(np.atleast_2d(np.asarray(durations, float)))  # a task's draws lie side by side
    place = {task: i for i, task in enumerate(tasks)}
    begins, ends = np.zeros_like(lasts), np.zeros_like(lasts)
    busy: list[int] = []
    latest: dict[int, float] = {}
    for i, (task, need) in enumerate(zip(tasks, takes, strict=True)):
        waits = [place[a] for a in after.get(task, ())]
        ready = ends[:, waits].max(axis=1, initial=0.0)
        if need:
            first = float(ready.min(initial=np.inf))
            beside = [j for j in busy if latest[j] > first and (ends[:, j] > ready).any()]
            used = np.array([takes[j] for j in beside])
            if used.sum() + need > hands:
                ready = _first_gap(ready, lasts[:, i], begins[:, beside], ends[:, beside], used, hands - need)
            busy.append(i)
        begins[:, i], ends[:, i] = ready, ready + lasts[:, i]
        latest[i] = float(ends[:, i].max(initial=0.0))
    shape = np.shape(durations)
    return Times(tuple(tasks), begins.reshape(shape), ends.reshape(shape))


def _first_gap(ready: Array, lasts: Array, begins: Array, ends: Array, used: Array, free: int) -> Array:
    """The earliest begin from `ready` on during whose whole time no more than `free` hands are in use.

    The times at which use changes are put in order; between two of them it is constant. A task can begin at such a
    time if the next stretch with too many hands in use begins no sooner than it would end.
    """
    many = len(ready)
    # ends before begins, so that hands handed over at one moment are not counted twice
    at = np.maximum(np.concatenate([ends, begins], axis=1), ready[:, None])
    step = np.concatenate([-used, used])
    order = np.argsort(at, axis=1, kind="stable")
    at = np.concatenate([ready[:, None], np.take_along_axis(at, order, 1)], axis=1)
    use = np.concatenate([np.zeros((many, 1)), np.cumsum(step[order], axis=1)], axis=1)
    blocked = use > free
    until = np.minimum.accumulate(np.where(blocked, at, np.inf)[:, ::-1], axis=1)[:, ::-1]
    slack = ROUNDING * np.maximum(at[:, -1:], 1.0)
    fits = ~blocked & (at + lasts[:, None] <= until + slack)
    return np.asarray(at[np.arange(many), fits.argmax(axis=1)])
