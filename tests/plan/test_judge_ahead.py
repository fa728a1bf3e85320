"""Which looks may be made next, by the rows of the trade: at a stop nothing is worked, travelled or raised for a look."""

from __future__ import annotations

import pytest

from axlewright.plan.judge import Seen, judge_corner, may_look, missing
from axlewright.trade.findings import findings
from axlewright.trade.looks import looks

STOPPED = (Seen("level", "at-mark"), Seen("breather", "free"), Seen("plug", "chips", photo=True))
CLEAN = (
    Seen("level", "at-mark"),
    Seen("breather", "free"),
    Seen("plug", "paste"),
    Seen("bolts", "still"),
    Seen("nuts", "still"),
    Seen("cracks", "none"),
)


@pytest.mark.parametrize("name", sorted(findings()))
def test_a_stop_leaves_only_looks_at_rest(name: str) -> None:
    """Work, travel (W), a raised corner (R) and a wheel off (O) wait until the stop is lifted."""
    stopped = judge_corner(STOPPED)
    assert stopped.unsafe
    if set(looks()[findings()[name].look].stages) & {"W", "R", "O"}:
        assert not may_look(stopped, name)


def test_a_stop_still_lets_the_oil_be_drained() -> None:
    assert set(looks()[findings()["oil-metal"].look].stages) == {"G"}
    assert may_look(judge_corner(STOPPED), "oil-metal")


@pytest.mark.parametrize("name", sorted(findings()))
def test_where_nothing_stands_against_it_every_look_may_be_made(name: str) -> None:
    assert may_look(judge_corner(CLEAN), name)


@pytest.mark.parametrize("name", sorted(name for name, f in findings().items() if "plug" in looks()[f.look].after))
def test_flakes_on_the_plug_shut_the_looks_that_come_after_it(name: str) -> None:
    flakes = judge_corner([one for one in CLEAN if one.finding != "plug"] + [Seen("plug", "flakes", photo=True)])
    assert not flakes.unsafe
    assert not may_look(flakes, name)


def test_a_look_that_nobody_made_comes_first() -> None:
    unseen = judge_corner([one for one in CLEAN if one.finding != "cracks"])
    row = next(one for one in looks().values() if "cracks" in one.after)
    assert "cracks" in missing(unseen, row)
    assert missing(judge_corner(CLEAN), row) == ()
