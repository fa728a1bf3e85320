"""Running sums over all seasons at once against each season gone through day by day."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from engines.season.seasons import CROPS, DAY, HOUR, Page, drives, on_paper, one, weather

from axlewright.engines.season import (
    Checks,
    Course,
    FieldClock,
    Ledger,
    Recovery,
    Winter,
    field_clock,
    run_course,
    standard_courses,
    untroubled,
)
from axlewright.engines.season._clock import moment_of, outset, read_at, work_on

SEASONS = 60
RNG = np.random.default_rng(20261125)
DAYS = weather(RNG, SEASONS)
COMMON = drives(RNG, SEASONS)
CLOCK = field_clock(CROPS, DAYS)
ENDING = tuple(
    replace(crop, ends=float(crop.ready) + days * DAY) for crop, days in zip(CROPS, (9, 14, 11), strict=False)
)
ENDS = field_clock(ENDING, DAYS)  # each crop has a last day of its own
CLOCKS = pytest.mark.parametrize("clock", [CLOCK, ENDS], ids=["one end", "own ends"])
WINTER = Winter()
COURSES = standard_courses(
    COMMON,
    ("run", "run with checks", "reseal", "fit a spare", "fit a used drive", "fit a rebuilt exchange", "rebuild now"),
    checks=Checks(12.5 * HOUR, 0.6),
)
GOING_ON = standard_courses(
    COMMON, ("fit a spare", "fit a used drive", "fit a rebuilt exchange", "rebuild now"), meanwhile=True
)
WAYS = (
    Recovery(),
    Recovery("used", 0.0),
    Recovery("used", 3 * DAY),
    Recovery("exchange", 4 * DAY, quoted=True),
    Recovery("spare"),
    Recovery("rebuilt", 6 * DAY),
)


def count(ledger: Ledger, now: Ledger, name: str, i: int) -> float:
    return one(getattr(ledger, name), i) - one(getattr(now, name), i)


@CLOCKS
@pytest.mark.parametrize("course", [*COURSES, *GOING_ON], ids=lambda c: c.name + ", going on" * c.meanwhile)
def test_a_course_is_what_it_is_on_paper(course: Course, clock: FieldClock) -> None:
    stopped = hired = 0
    for way, outcome in zip(WAYS, run_course(clock, COMMON, course, WAYS, WINTER), strict=True):
        for i in range(SEASONS):
            paper = on_paper(DAYS[i], clock.crops, COMMON, course, way, WINTER, i)
            ledger = outcome.season
            found = {
                "finish": one(outcome.finish, i), "failed": one(outcome.failed, i), "down": one(outcome.down, i),
                "hired": one(ledger.hired, i),
                **{f"delayed {n}": float(ledger.delayed[i, n]) for n in range(len(CROPS))},  # type: ignore[index]
                **{f"standing {n}": float(ledger.standing[i, n]) for n in range(len(CROPS))},  # type: ignore[index]
                **{name: count(ledger, course.now, name, i) for name in ("labour", "tows", "used", "hire_calls")},
            }  # fmt: skip
            if course.winter == "nothing":  # else the winter's bench is in it too
                found |= {name: count(ledger, course.now, name, i) for name in ("winter_labour", "rebuilds")}
            for name, value in found.items():
                assert value == pytest.approx(paper[name], rel=1e-6, abs=1e-6 * HOUR), (course.name, way, i, name)
            stopped += paper["failed"] > 0
            hired += paper["hired"] > 0
    if clock is ENDS:
        return
    assert hired > 20 or course.meanwhile, "these seasons must try the hired machine too"
    if course.name.startswith("run") or (course.meanwhile and course.name != "fit a spare"):
        assert stopped > 50


@CLOCKS
def test_without_trouble_it_is_what_it_is_on_paper(clock: FieldClock) -> None:
    free = untroubled(clock)
    unfinished = 0
    for i in range(SEASONS):
        page = Page(DAYS[i], clock.crops)
        page.work(np.inf)
        assert one(free.finish, i) == pytest.approx(np.inf if any(page.standing) else page.time)
        np.testing.assert_allclose(free.season.delayed[i], page.delayed, rtol=1e-9, atol=1e-6)  # type: ignore[index]
        np.testing.assert_allclose(free.season.standing[i], page.standing, rtol=1e-9, atol=1e-6)  # type: ignore[index]
        unfinished += any(page.standing)
    assert 0 < unfinished < SEASONS


@CLOCKS
def test_work_stops_at_a_moment_and_at_a_budget(clock: FieldClock) -> None:
    rng = np.random.default_rng(5)
    rows = np.arange(SEASONS)
    way = outset(clock, rng.uniform(0, 20, SEASONS) * DAY)
    pages = [Page(DAYS[i], clock.crops, way.time[i]) for i in range(SEASONS)]
    for _ in range(4):
        budget, rate = rng.uniform(0, 40, SEASONS) * HOUR, rng.uniform(0.5, 1.5, SEASONS)
        until = np.maximum(way.time, rng.uniform(0, 45, SEASONS) * DAY)
        worked = work_on(clock, way, rows, budget, rate, until)
        for i, page in enumerate(pages):
            assert worked[i] == pytest.approx(page.work(budget[i], rate[i], until[i]), rel=1e-9, abs=1e-6)
            if not page.done() and worked[i] < budget[i] * (1 - 1e-9):
                assert way.time[i] == pytest.approx(page.time)
            page.time = way.time[i]  # at the end of its work it may stand on either side of an idle stretch
            np.testing.assert_allclose(way.standing()[i], page.standing, rtol=1e-9, atol=1e-3)
            np.testing.assert_allclose([area[i] for area in way.delayed], page.delayed, rtol=1e-9, atol=1e-3)


def test_sums_are_read_and_turned_round() -> None:
    rng = np.random.default_rng(2)
    rows = rng.integers(0, SEASONS, 500)
    amount = rng.random(500) * np.asarray(CLOCK.worked)[rows, -1] * 1.1
    moments = moment_of(CLOCK.worked, DAY, amount, rows)
    reached = np.isfinite(moments)
    np.testing.assert_array_equal(reached, amount <= np.asarray(CLOCK.worked)[rows, -1])
    back = read_at(CLOCK.worked, DAY, moments[reached], rows[reached])
    np.testing.assert_allclose(back, amount[reached], rtol=1e-9)
    for row, wanted, moment in zip(rows[reached][:100], amount[reached], moments[reached], strict=False):
        assert read_at(CLOCK.worked, DAY, np.array([moment * (1 - 1e-9)]), np.array([row]))[0] < wanted
    assert not moment_of(CLOCK.worked, DAY, np.array([0.0]), np.array([0])).any()


def test_a_crop_is_lost_on_its_own_last_day_and_the_next_goes_on() -> None:
    """Two crops, a day each of work in every day: the first has two days for four days of work."""
    days = np.full((1, 10), 10 * HOUR)
    first, second = (replace(CROPS[0], area=area, rate=1.0 / 3600, ready=0.0, loss=0.0) for area in (40.0, 20.0))
    free = untroubled(field_clock((replace(first, ends=2 * DAY), second), days))
    np.testing.assert_allclose(np.asarray(free.season.standing)[0], [20.0, 0.0])
    assert np.isinf(free.finish).all(), "something never came off"
    whole = untroubled(field_clock((replace(first, ends=20 * DAY), second), days))
    np.testing.assert_allclose(np.asarray(whole.season.standing)[0], [0.0, 0.0])
    assert one(whole.finish, 0) == pytest.approx(6 * DAY)
