"""When each task of a network can begin, by hands: serial schedule in card order, over any number of draws at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from axlewright.kinds import Array

ROUNDING = 1e-9  # of the longest time: what binary sums may be off by
FEW = 6  # rows: more are sorted draw by draw


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
    lasts = np.ascontiguousarray(np.atleast_2d(np.asarray(durations, float)).T)  # a row a task: its draws lie together
    place = {task: i for i, task in enumerate(tasks)}
    begins, ends = np.zeros_like(lasts), np.zeros_like(lasts)
    before: list[set[int]] = []  # all that a task waits for, near and far: it is done by then
    latest: dict[int, float] = {}  # ends of tasks that take hands
    for i, (task, need) in enumerate(zip(tasks, takes, strict=True)):
        waits = [place[a] for a in after.get(task, ())]
        before.append(set().union(waits, *(before[j] for j in waits)))
        ready = begins[i]
        for j in waits:
            np.maximum(ready, ends[j], out=ready)
        if need:
            first = float(ready.min(initial=np.inf))
            beside = [j for j, end in latest.items() if end > first and j not in before[i] and (ends[j] > ready).any()]
            if sum(takes[j] for j in beside) + need > hands:
                each = [j for j in beside for _ in range(takes[j])]
                begins[i] = ready = _first_gap(ready, lasts[i], begins[each], ends[each], hands - need)
        np.add(ready, lasts[i], out=ends[i])
        if need:
            latest[i] = float(ends[i].max(initial=0.0))
    shape = np.shape(durations)
    return Times(tuple(tasks), begins.T.reshape(shape), ends.T.reshape(shape))


def _first_gap(ready: Array, lasts: Array, begins: Array, ends: Array, free: int) -> Array:
    """The earliest begin from `ready` on during whose whole time no more than `free` hands are in use.

    Every hand in use stands as a row of its own. With begins in order and ends in order, more than `free` are in use
    exactly from a begin to the end that stands `free` places before it, where that end is the later one: so many had
    begun, so many fewer had ended. These stretches come in order of both, and one pass over them finds the gap.
    """
    starts, stops = _in_order(begins), _in_order(ends)
    whole = lasts - ROUNDING * np.maximum(stops[-1], 1.0)
    takes_any = whole > 0
    at, over = ready, ready + whole
    for start, stop in zip(starts[free:], stops, strict=False):
        meets = (start < np.minimum(over, stop)) & (stop > at) & takes_any
        if meets.any():
            at = np.where(meets, stop, at)
            over = at + whole
    return np.asarray(at)


def _in_order(rows: Array) -> Sequence[Array]:
    """The values of each draw in order, the least in the first row. Few rows are put in order by exchanging neighbours."""
    if len(rows) > FEW:
        return list(np.ascontiguousarray(np.sort(rows.T.copy(), axis=1).T))
    kept = list(rows)
    for last in range(len(kept) - 1, 0, -1):
        for i in range(last):
            kept[i], kept[i + 1] = np.minimum(kept[i], kept[i + 1]), np.maximum(kept[i], kept[i + 1])
    return kept
