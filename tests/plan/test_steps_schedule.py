"""Serial schedule against a minute-by-minute one on random small networks, and its laws."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import permutations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.plan.steps import hours
from axlewright.plan.steps.jobs import Here, job
from axlewright.plan.steps.schedule import TooFewHands, schedule
from axlewright.trade.networks import Job
from axlewright.trade.steps_read import steps

Network = tuple[list[str], list[int], list[int], dict[str, list[str]], int]


@st.composite
def networks(draw: st.DrawFn) -> Network:
    count = draw(st.integers(1, 8))
    hands = draw(st.integers(1, 4))
    names = [f"t{i}" for i in range(count)]
    lasts = draw(st.lists(st.integers(0, 7), min_size=count, max_size=count))
    takes = draw(st.lists(st.integers(0, hands), min_size=count, max_size=count))
    after = {n: [names[j] for j in range(i) if draw(st.integers(0, 3)) == 0] for i, n in enumerate(names)}
    return names, lasts, takes, after, hands


def by_the_minute(
    names: Sequence[str], lasts: Sequence[int], takes: Sequence[int], after: dict[str, list[str]], hands: int
) -> list[int]:
    """The rule itself: try each minute in turn until hands are free throughout."""
    placed: dict[str, tuple[int, int, int]] = {}
    for name, last, need in zip(names, lasts, takes, strict=True):
        at = max((placed[a][1] for a in after[name]), default=0)
        while need and any(
            sum(h for b, e, h in placed.values() if b <= m < e) + need > hands for m in range(at, at + last)
        ):
            at += 1
        placed[name] = at, at + last, need
    return [placed[n][0] for n in names]


@given(networks())
def test_begins_as_by_the_minute(net: Network) -> None:
    names, lasts, takes, after, hands = net
    assert schedule(names, np.array(lasts, float), takes, after, hands).begins.tolist() == by_the_minute(*net)


@given(networks(), st.integers(0, 10**6))
def test_draws_go_each_by_itself(net: Network, seed: int) -> None:
    names, lasts, takes, after, hands = net
    many = np.array(lasts) + np.random.default_rng(seed).integers(0, 5, (6, len(names)))
    together = schedule(names, many.astype(float), takes, after, hands).begins
    assert together.tolist() == [by_the_minute(names, row.tolist(), takes, after, hands) for row in many]


@given(networks())
def test_never_more_hands_in_use_than_there_are(net: Network) -> None:
    names, lasts, takes, after, hands = net
    got = schedule(names, np.array(lasts, float), takes, after, hands)
    for minute in range(int(got.finish) + 1):
        busy = (got.begins <= minute) & (minute < got.ends)
        assert np.array(takes)[busy].sum() <= hands


@given(networks())
def test_hands_without_limit_give_the_longest_chain(net: Network) -> None:
    names, lasts, takes, after, _ = net
    chain: dict[str, int] = {}
    for name, last in zip(names, lasts, strict=True):
        chain[name] = last + max((chain[a] for a in after[name]), default=0)
    assert float(schedule(names, np.array(lasts, float), takes, after, 99).finish) == pytest.approx(max(chain.values()))


@given(networks(), st.floats(0.01, 50))
def test_the_unit_of_time_does_not_matter(net: Network, scale: float) -> None:
    names, lasts, takes, after, hands = net
    plain = schedule(names, np.array(lasts, float), takes, after, hands)
    scaled = schedule(names, np.array(lasts) * scale, takes, after, hands)
    assert scaled.begins == pytest.approx(plain.begins * scale, abs=1e-6 * scale)


def test_one_and_the_same_job_in_its_best_and_its_card_order() -> None:
    """The drive change of ten tasks that the note on courses gives: 15 h in list order, 14 h at best, 10.5 h with three.

    All lists that keep to precedence were tried there.
    """
    table = {
        "A": (2, 2, ""), "B": (1, 2, "A"), "C": (2, 2, "B"), "D": (2, 1, "C"), "E": (3, 1, ""),
        "F": (4, 1, ""), "G": (2, 2, "DEF"), "H": (1, 2, "G"), "I": (0.5, 1, "G"), "J": (0.5, 2, "HI"),
    }  # fmt: skip

    def finish(order: Sequence[str], hands: int) -> float:
        rows = [table[n] for n in order]
        after = {n: list(table[n][2]) for n in order}
        return float(schedule(order, np.array([r[0] for r in rows]), [r[1] for r in rows], after, hands).finish)

    assert finish(tuple(table), 3) == pytest.approx(10.5)
    assert finish(tuple(table), 2) == pytest.approx(15.0)
    tail = ("G", "H", "I", "J")
    lists = {o for o in permutations("ABCDEF") if o.index("A") < o.index("B") < o.index("C") < o.index("D")}
    assert min(finish((*o, *tail), 2) for o in lists) == pytest.approx(14.0)


@pytest.mark.parametrize(("hands", "says"), [(1, "1 is here"), (0, "nobody is here")])
def test_too_few_hands_are_said_by_name(hands: int, says: str) -> None:
    with pytest.raises(TooFewHands, match=f"lift off takes 2 people; {says}") as few:
        schedule(["lift off"], np.array([5.0]), [2], {}, hands)
    assert (few.value.task, few.value.takes) == ("lift off", 2)


def test_nothing_to_do_is_done_at_once() -> None:
    assert float(schedule([], np.array([]), [], {}, 1).finish) == pytest.approx(0.0)


def test_draws_in_blocks_come_to_the_same_as_all_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    rows, here = steps(), Here()
    work = job(rows, "swap", here)
    rng = {name: np.random.default_rng(n).random(300) for n, name in enumerate(asked_names(work))}
    whole = hours.taken(rows, work, here, rng.__getitem__)
    monkeypatch.setattr(hours, "BLOCK", 64)
    parts = hours.taken(rows, work, here, rng.__getitem__)
    np.testing.assert_array_equal(whole.minutes, parts.minutes)


def asked_names(work: Job) -> list[str]:
    own = [f"steps/{step.task.id}" for step in work.steps]
    more = [f"steps/{s.task.id}/{what}-{n}" for s in work.steps for n, _ in enumerate(s.task.trouble_branches) for what in ("trouble", "extra")]  # fmt: skip
    return ["steps/common", *own, *more]
