"""Jobs of each course and kind of drive, their hours and the end of the day, against the tables of docs/engines/steps.md."""

from __future__ import annotations

from datetime import datetime, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.kinds import Array
from axlewright.plan.steps import day, hours
from axlewright.plan.steps.jobs import Here, NoWay, finish, job, likely_plan, minutes, plan, size_of
from axlewright.plan.steps.schedule import TooFewHands
from axlewright.quantities.draws import own_shares
from axlewright.trade.networks import Job
from axlewright.trade.steps import Minutes
from axlewright.trade.steps_read import steps

ROWS = steps()
USUAL = frozenset({"brake-at-drive", "half-shaft-out"})
NINE = {
    "run",
    "run with checks",
    "reseal",
    "fit a spare",
    "fit a used drive",
    "fit a rebuilt exchange",
    "rebuild now",
    "hire out",
    "park",
}


def shares(name: str) -> Array:
    return own_shares(11, name, 1500)


def test_the_nine_courses_are_there() -> None:
    assert set(ROWS.course) == NINE


@pytest.mark.parametrize("course", sorted(NINE))
@pytest.mark.parametrize("drive", [d.id for d in ROWS.drives])
@pytest.mark.parametrize("by", ["saddle", "hook"])
def test_every_course_has_its_jobs_for_every_kind_of_drive(course: str, drive: str, by: str) -> None:
    got = plan(ROWS, course, Here(drive=drive, by=by, when=USUAL, in_field=True, raised=True))  # type: ignore[arg-type]
    assert got.now[0].id == "bring-home"
    assert all(j.steps for j in got.all)
    on = {s.task.id for j in got.all for s in j.steps}
    if drive == "planetary-apart":
        assert not on & {"ns-home", "nh-home", "dl-studs"}
    elif by == "hook":
        assert not on & {"os-take", "ns-trial"}
    if course in {"hire out", "park"}:
        assert "make-safe" in {j.id for j in got.now}


def test_a_reseal_stays_on_the_machine_where_the_lip_comes_out_there() -> None:
    assert plan(ROWS, "reseal", Here(by="machine")).now[-1].id == "reseal-on-machine"
    with pytest.raises(NoWay, match="swap on a drive of kind flange, by machine"):
        job(ROWS, "swap", Here(by="machine"))


def test_the_spare_is_looked_at_before_anything_comes_off() -> None:
    first = plan(ROWS, "fit a spare", Here()).now[0]
    assert [s.task.id for s in first.steps] == ["sh-before"]


def test_nobody_does_a_swap_alone() -> None:
    with pytest.raises(TooFewHands, match="ra-lay takes 2 people"):
        finish(ROWS, job(ROWS, "swap", Here()).steps, "likely", Here(hands=1))


# block, its minutes likely and high with two practised people, and high the first time on a large machine
BLOCKS = [
    ("saddle", "nl-crack", 68, 149, 4 * 60 + 38),
    ("saddle", "wo-chain", 23, 56, 1 * 60 + 46),
    ("saddle", "os-take", 34, 89, 2 * 60 + 51),
    ("saddle", "ns-trial", 49, 119, 3 * 60 + 39),
    ("hook", "nh-trial", 51, 124, 3 * 60 + 48),
    ("saddle", "wn-pick", 28, 66, 2 * 60 + 4),
    ("saddle", "sd-hold", 31, 68, 2 * 60 + 8),
]


@pytest.mark.parametrize(("by", "block", "likely", "high", "first"), BLOCKS)
def test_minutes_of_the_blocks(by: str, block: str, likely: float, high: float, first: float) -> None:
    def piece(here: Here) -> day.Piece:
        return next(p for p in day.pieces(ROWS, job(ROWS, "swap", here), here) if p.name == block)

    got = piece(Here(by=by, when=USUAL))  # type: ignore[arg-type]
    slow = piece(Here(by=by, when=USUAL, size="large", first_time=True))  # type: ignore[arg-type]
    assert (got.likely, got.high) == (likely, high)
    assert slow.high == pytest.approx(first, abs=0.5)


# the note's simulation of 1,500 draws; a table of another program, so a few per cent apart
TABLE = [
    ("swap", {}, (7.9, 12.4, 20.8)),
    ("swap", {"first_time": True}, (11, 17, 29)),
    ("swap", {"first_time": True, "size": "large"}, (13, 20, 34)),
    ("raised-corner-look", {}, (2.6, 4.0, 7.0)),
    ("reseal-on-machine", {}, (6.2, 9.4, 15.9)),
]


@pytest.mark.parametrize(("name", "how", "table"), TABLE)
def test_hours_of_whole_jobs(name: str, how: dict[str, object], table: tuple[float, ...]) -> None:
    here = Here(when=USUAL, **how)  # type: ignore[arg-type]
    got = hours.taken(ROWS, job(ROWS, name, here), here, shares)
    assert [got.at(q) for q in (0.1, 0.5, 0.9)] == pytest.approx(table, rel=0.07)


def test_hours_without_trouble_off_and_on() -> None:
    whole = job(ROWS, "swap", Here(when=USUAL))
    off = {"set-up", "nuts-loose", "raise", "wheel-off", "drive-loose", "lift-off-saddle"}
    for parts, table in (
        (off, (3.0, 4.8, 8.7)),
        ({s.part for s in whole.steps} - off - {"walk-round"}, (3.4, 5.7, 10.0)),
    ):
        part = Job("part", "part", tuple(s for s in whole.steps if s.part in parts), frozenset())
        got = hours.taken(ROWS, part, Here(), shares, troubles=False)
        assert [got.at(q) for q in (0.1, 0.5, 0.9)] == pytest.approx(table, rel=0.06)


def test_trouble_is_the_rule() -> None:
    """20 branches, some trouble in 19 swaps of 20, 1.5 h more on the mean."""
    whole = job(ROWS, "swap", Here(when=USUAL))
    odds = hours.odds(hours.branches(whole))
    got = hours.taken(ROWS, whole, Here(when=USUAL), shares)
    assert len(hours.branches(whole)) == 20
    assert odds.at_least_one == pytest.approx(0.95, abs=0.005)
    assert odds.mean_minutes == pytest.approx(90, abs=5)
    assert (got.troubles > 0).mean() == pytest.approx(odds.at_least_one, abs=0.02)
    assert got.troubles.mean() == pytest.approx(sum(b.chance for b in hours.branches(whole)), rel=0.06)


@given(st.floats(0, 50), st.floats(1, 60), st.floats(1, 90))
def test_a_step_takes_its_three_minutes_at_their_shares(low: float, more: float, most: float) -> None:
    m = Minutes(low=low, likely=low + more, high=low + more + most)
    at = hours.spread(ROWS.rules, m, hours.normal(np.array([0.1, 0.5, 0.9])))
    assert at[1:] == pytest.approx([m.likely, m.high])
    assert at[0] == pytest.approx(max(m.low, hours.LEAST_LOW * m.likely))


def test_a_step_added_moves_no_other_draw() -> None:
    here = Here(when=USUAL)
    whole = job(ROWS, "wheel-on", here)
    less = Job(whole.id, whole.title, whole.steps[:-1], frozenset())
    longer, shorter = hours.taken(ROWS, whole, here, shares), hours.taken(ROWS, less, here, shares)
    last = whole.steps[-1].task.minutes
    z = np.sqrt(0.5) * (hours.normal(shares("steps/common")) + hours.normal(shares("steps/wn-away")))
    assert longer.minutes == pytest.approx(shorter.minutes + hours.spread(ROWS.rules, last, z))


@given(st.sampled_from(["low", "likely", "high"]), st.booleans())
def test_a_larger_machine_never_takes_less(column: str, first: bool) -> None:
    for task in ROWS.task.values():
        small, medium, large = (minutes(ROWS, task, column, s, first) for s in ("small", "medium", "large"))  # type: ignore[arg-type]
        assert small <= medium <= large


def test_size_by_mass() -> None:
    assert [size_of(ROWS, kg) for kg in (7400, 10000, 13000, 13001)] == ["small", "medium", "medium", "large"]


def test_pieces_hold_every_step_once_and_rest_at_their_end() -> None:
    for name in ("swap", "rebuild", "reseal"):
        here = Here(when=USUAL)
        work = job(ROWS, name, here)
        found = day.pieces(ROWS, work, here)
        assert sorted(s.task.id for p in found for s in p.steps) == sorted(s.task.id for s in work.steps)
        assert all(day.rests(ROWS.rules, p.corner, p.load) for p in found)
        assert all(p.likely <= p.high for p in found)


def test_the_day_ends_at_the_same_place_or_later_when_it_is_longer() -> None:
    here = Here(when=USUAL)
    work = day.pieces(ROWS, job(ROWS, "swap", here), here)
    began = datetime(2027, 5, 3, 7, 0)
    at = [day.first_safe_stop(work, began, began + timedelta(hours=h)) for h in range(25)]
    order = [-1 if a.last is None else work.index(a.last) for a in at]
    assert order == sorted(order)
    assert at[0].last is None
    assert at[-1].refused is None
    assert all(a.at <= began + timedelta(hours=h) for h, a in enumerate(at))
    assert all(a.refused is None or not a.refused.block or day.way_back(ROWS, a.refused) for a in at)


def test_the_card_prints_the_likely_minutes() -> None:
    here = Here(when=USUAL)
    work = job(ROWS, "swap", here)
    got = likely_plan(ROWS, work, here)
    assert float(got.finish) == pytest.approx(finish(ROWS, work.steps, "likely", here))
    assert all(got.begin(s.task.id) >= max((got.end(a) for a in s.after), default=0) for s in work.steps)
