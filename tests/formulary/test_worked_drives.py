"""What one look says, by name: against lives drawn from the class and weighted, and against the order of the grades."""

from __future__ import annotations

import numpy as np
import pytest

from axlewright.engines.forecast import fresh_lives
from axlewright.formulary.call import call
from axlewright.formulary.worked.drives import _lives_of_class
from axlewright.trade.findings import findings, floored
from axlewright.yard.faults import Faults

HOUR = 3600.0


def says(look: str, hours: str = "3500 h", ahead: str = "150 h") -> dict[str, float]:
    answer = call("what-a-look-says", {"hours": hours, "saw": look, "ahead": ahead})
    return {value.name: float(value.si) for value in answer.values}  # type: ignore[arg-type]


def test_flakes_by_weighted_lives() -> None:
    lives = fresh_lives(_lives_of_class(), np.random.default_rng(9).random((600_000, 4)))
    now = 3500 * HOUR
    condition = (lives.wears <= now).astype(int) + (lives.fails <= now)
    flakes = next(g.p for g in findings()["plug"].grades if g.id == "flakes")
    assert flakes is not None
    weight = np.array(floored(flakes))[condition] * (lives.lets_go > now)
    got = says("plug flakes")
    for number, name in enumerate(("sound", "wearing", "failing")):
        assert got[name] == pytest.approx(weight[condition == number].sum() / weight.sum(), abs=5e-3)
    assert got["carries"] == pytest.approx(weight[lives.lets_go > now + 150 * HOUR].sum() / weight.sum(), abs=5e-3)


@pytest.mark.parametrize("finding", ["plug", "oil-metal", "turn", "wobble", "heat", "leak-wheel"])
def test_a_worse_grade_is_never_better_news(finding: str) -> None:
    got = [says(f"{finding} {grade.id}") for grade in findings()[finding].grades]
    carries = [one["carries"] for one in got]
    assert carries == sorted(carries, reverse=True)
    assert carries[0] > got[0]["carries_unseen"] > carries[-1]


@pytest.mark.parametrize(
    ("look", "says_so"),
    [("plug", "plug has no such grade"), ("plug purple", "plug has no such grade"), ("", "speaks of bearings"), ("bolts loose", "speaks of bearings")],
)  # fmt: skip
def test_a_look_that_says_nothing_is_named(look: str, says_so: str) -> None:
    with pytest.raises(Faults) as bad:
        says(look or "?")
    assert any(says_so in str(fault) for fault in bad.value.faults)
