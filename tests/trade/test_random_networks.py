"""Networks made at random against brute force: who waits for whom, circles, guards, blocks, the end of a day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.plan.steps.day import Piece, first_safe_stop
from axlewright.trade.networks import Job, Step, hand_on
from axlewright.trade.steps import Hold, Minutes, Task
from axlewright.trade.steps_rules import _circle

Graph = dict[str, list[str]]
MORNING = datetime(2027, 7, 1, 7, 0)


@st.composite
def graphs(draw: st.DrawFn, most: int = 7) -> Graph:
    """Tasks in working order, each with some of the earlier ones before it."""
    names = [f"t{i}" for i in range(draw(st.integers(1, most)))]
    return {n: [m for m in names[:i] if draw(st.booleans())] for i, n in enumerate(names)}


def paths(after: Mapping[str, Sequence[str]], task: str) -> set[str]:
    """All that can be walked to from a task, step by step."""
    found: set[str] = set()
    walk = list(after[task])
    while walk:
        one = walk.pop()
        if one not in found:
            found.add(one)
            walk += after[one]
    return found


@given(graphs(), st.data())
def test_who_stays_waits_for_the_same_that_stay(after: Graph, data: st.DataObject) -> None:
    """Leaving tasks out changes nothing between those that stay: found by walking every path of the whole network."""
    left_out = frozenset(data.draw(st.sets(st.sampled_from(sorted(after)))))
    handed = hand_on(after, left_out)
    assert set(handed) == set(after) - left_out
    for task in handed:
        assert paths(handed, task) == paths(after, task) - left_out


@given(st.integers(1, 5), st.data())
def test_a_circle_is_found_where_no_order_exists(count: int, data: st.DataObject) -> None:
    """Every order of the tasks is tried: if none keeps to what each waits for, there is a circle."""
    names = [f"t{i}" for i in range(count)]
    after = {n: [m for m in names if m != n and data.draw(st.integers(0, 2)) == 0] for n in names}
    orders = (
        all(order.index(a) < order.index(n) for n in names for a in after[n]) for order in permutations(names)
    )  # fmt: skip
    found = _circle(after)
    assert bool(found) != any(orders)
    for task in found:  # what is named lies on the way from one that waits to one that is waited for
        assert any(task in after[other] for other in found)
        assert any(other in found for other in after[task])


def task(name: str, *, hold: tuple[str, ...] = (), acts: tuple[str, ...] = (), end_day: bool = True) -> Task:
    return Task(
        id=name, network="n", title=name, how="", where="floor", hands=1,
        minutes=Minutes(low=1, likely=1, high=1), scale="fixed", first=1, acts=acts,
        hold=Hold(guards=hold, must="m", who="w", shown_by="second look") if hold else None,
        corner="none", load="none", end_day=end_day, ground=("any",), weather=("any",), source="s",
    )  # fmt: skip


@given(graphs(), st.data())
def test_a_guard_is_the_last_hold_on_a_path_to_its_act(after: Graph, data: st.DataObject) -> None:
    holds = {n: data.draw(st.sampled_from([(), ("lift",), ("move",), ("lift", "move")])) for n in after}
    steps = tuple(Step(task(n, hold=holds[n]), "n", tuple(after[n])) for n in after)
    job = Job("j", "j", steps, frozenset())
    order = list(after)
    for name in order:
        guards = [n for n in order if n in paths(after, name) and "lift" in holds[n]]
        assert job.guard("lift", name) == (guards[-1] if guards else "")
        assert job.before[name] == paths(after, name)


@given(st.lists(st.booleans(), min_size=1, max_size=9))
def test_blocks_are_the_longest_runs_that_may_not_be_left(rests: list[bool]) -> None:
    """A block runs from the first step after which the day may not end to the next after which it may."""
    steps = tuple(Step(task(f"t{i}", end_day=rest), "n", ()) for i, rest in enumerate(rests))
    marked = []
    for i, rest in enumerate(rests):
        entered = not rest or (i > 0 and not rests[i - 1])
        marked.append((i, entered))
    wanted: list[list[int]] = []
    for i, entered in marked:
        if not entered:
            continue
        if wanted and wanted[-1][-1] == i - 1 and not rests[i - 1]:
            wanted[-1].append(i)
        else:
            wanted.append([i])
    got = [[int(s.task.id[1:]) for s in block] for block in Job("j", "j", steps, frozenset()).blocks()]
    assert got == wanted


@given(st.lists(st.tuples(st.integers(1, 90), st.integers(0, 90), st.booleans()), max_size=7), st.integers(0, 500))
def test_the_day_ends_where_one_minute_after_another_says_so(work: list[tuple[int, int, bool]], minutes: int) -> None:
    """The clock is moved minute by minute through the pieces; a block is begun only if its slow end is before the limit."""
    pieces = [Piece(f"p{i}", likely, likely + more, block) for i, (likely, more, block) in enumerate(work)]
    by = MORNING + timedelta(minutes=minutes)
    clock, last = 0, None
    for piece in pieces:
        if clock + (piece.high if piece.block else piece.likely) > minutes:
            break
        for _ in range(int(piece.likely)):
            clock += 1
        last = piece.name
    end = first_safe_stop(pieces, MORNING, by)
    assert (end.last.name if end.last else None) == last
    assert end.at == MORNING + timedelta(minutes=clock) <= by
    assert (end.refused is None) == (last == (pieces[-1].name if pieces else None))


def test_a_circle_of_one_is_one() -> None:
    assert _circle({"a": ["a"]}) == ("a",)
    with pytest.raises(KeyError):
        hand_on({"a": ["b"]}, frozenset({"b"}))
