"""Findings with their age from a yard's records, at the careful end."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.plan.facts import clock_now, hours_ago, job_open, seen_at, seen_now
from axlewright.plan.judge import judge_corner
from axlewright.yard import ClockReading, Corner, Drive, Finding, Machine, Record, Stage, Title, Trouble, Yard

CORNER = Corner("tern", "front-left")
DAY = date(2026, 7, 1)


def yard(*records: Record, clocks: tuple[str, ...] = ("engine",), since: date | None = None) -> Yard:
    return Yard.of(
        [
            Title(name="A trial yard"),
            Machine(id="tern", name="Tern", clocks=clocks),
            Drive(id="tern-left", name="left drive", sits=CORNER, since=since),
            *records,
        ]
    )


def read(days: int, hours: float, clock: str = "engine", about: float = 0.0) -> ClockReading:
    on = DAY + timedelta(days=days)
    return ClockReading(id=f"clock-{clock}-{days}", machine="tern", on=on, hours=hours, clock=clock, about=about)


def found(
    days: int,
    finding: str = "plug",
    grade: str = "paste",
    hours: float | None = None,
    clock: str = "engine",
    number: int = 0,
) -> Finding:
    return Finding(
        id=f"{finding}-{days}-{number}",
        finding=finding,
        grade=grade,
        corner=CORNER,
        drive="tern-left",
        on=DAY + timedelta(days=days),
        hours=hours,
        clock=clock if hours is not None else None,
    )


def age(days: int, *records: Record, clocks: tuple[str, ...] = ("engine",)) -> float | None:
    return seen_at(yard(*records, clocks=clocks), CORNER, DAY + timedelta(days=days))[0].hours_ago


def test_hours_between_two_readings() -> None:
    assert age(6, found(0, hours=500), read(6, 540)) == 40
    assert age(6, read(0, 500), found(0), read(6, 540)) == 40, "the clock was read that day"


def test_doubts_of_both_readings_add_to_the_age() -> None:
    assert age(6, read(0, 500, about=5), found(0), read(6, 540, about=2)) == 47


def test_a_day_without_a_reading_may_have_been_worked_through() -> None:
    """Read on day 6; two days later the machine may have run 48 h more."""
    assert age(8, found(0, hours=500), read(6, 540)) == 88
    assert age(2, found(0, hours=500)) == 48


def test_without_any_clock_a_look_is_worth_a_day() -> None:
    assert [age(days, found(0)) for days in (0, 1, 2)] == [0, 24, 48]
    records = [
        found(0, f, g)
        for f, g in (("level", "at-mark"), ("plug", "paste"), ("bolts", "still"), ("nuts", "still"), ("rock", "none"))
    ]
    words = [judge_corner(seen_at(yard(*records), CORNER, DAY + timedelta(days=days))).road.word for days in (0, 1, 2)]
    assert words == ["yes", "yes", "not known"]


def test_nobody_runs_more_than_24_h_a_day() -> None:
    assert age(1, found(0, hours=500), read(0, 500), read(1, 520, about=30)) == 24


def test_threshing_hours_count_as_the_engine_hours_they_may_be() -> None:
    """20 h on the threshing clock: 26 to 30 engine hours (1.3 to 1.5 times)."""
    got = age(5, found(0, hours=400, clock="threshing"), read(5, 420, "threshing"), clocks=("engine", "threshing"))
    assert got is not None
    assert got >= 30


def test_findings_of_a_later_day_do_not_count() -> None:
    assert len(seen_at(yard(found(0), found(3)), CORNER, DAY)) == 1


def test_findings_of_a_drive_that_is_gone_do_not_count() -> None:
    old = found(0, grade="chips").model_copy(update={"drive": "tern-old"})
    assert seen_at(yard(old, found(5)), CORNER, DAY + timedelta(days=5))[0].grade == "paste"


def test_a_correction_with_a_photo_ends_a_proof() -> None:
    chips = found(0, grade="chips", hours=500)
    again = found(1, hours=501).model_copy(update={"corrects": chips.id, "photo": "plug.jpg"})
    assert judge_corner(seen_at(yard(chips), CORNER, DAY)).field.word == "no"
    assert [one.grade for one in seen_at(yard(chips, again), CORNER, DAY + timedelta(days=1))] == ["paste"]


@pytest.mark.parametrize(("second", "since"), [(505.0, 5.0), (512.0, 12.0), (None, None)])
def test_hours_since_the_plug_was_wiped(second: float | None, since: float | None) -> None:
    seen = seen_at(yard(found(0, hours=500), found(2, hours=second)), CORNER, DAY + timedelta(days=2))
    assert [one.since_wiped for one in seen] == [None, since]


def test_two_people_at_one_plug_are_one_look() -> None:
    both = (found(0, hours=500), found(0, hours=500, grade="thick", number=1))
    assert [one.since_wiped for one in seen_at(yard(*both), CORNER, DAY)] == [None, None]


def test_nuts_know_when_the_wheel_was_off() -> None:
    records = (read(0, 500), found(1, "nuts", "still", hours=503), found(3, "nuts", "still", hours=515))
    fitted = yard(*records, since=DAY)
    seen = seen_at(fitted, CORNER, DAY + timedelta(days=3))
    assert [one.since_off for one in seen] == [3, 15]
    assert "R14" not in judge_corner(seen).rows
    assert "R14" in judge_corner(seen[:1]).rows
    assert all(one.since_off is None for one in seen_at(yard(*records), CORNER, DAY + timedelta(days=3)))


def test_a_job_in_hand_is_open() -> None:
    trouble = Trouble(id="t", number=1, corner=CORNER, opened=DAY)
    stages = [
        Stage(id=f"s{n}", trouble=1, stage=stage, on=DAY) for n, stage in enumerate(("seen", "in hand", "set down"))
    ]
    assert not job_open(yard(), CORNER)
    assert not job_open(yard(trouble, stages[0]), CORNER)
    assert job_open(yard(trouble, *stages[:2]), CORNER)
    assert not job_open(yard(trouble, *stages), CORNER)


def test_the_clock_now_is_one_that_was_read_lately() -> None:
    here = yard(read(0, 500), read(0, 360, "threshing"), read(4, 530), clocks=("engine", "threshing"))
    got = clock_now(here, CORNER, DAY + timedelta(days=5))
    assert got is not None
    assert (got.hours, got.clock) == (530, "engine")
    assert clock_now(here, CORNER, DAY + timedelta(days=6)) is None
    assert clock_now(yard(), CORNER, DAY) is None


@given(
    st.lists(st.floats(0, 24), min_size=12, max_size=12),
    st.sets(st.integers(0, 11)),
    st.integers(0, 11),
    st.booleans(),
)
def test_an_age_is_never_less_than_what_was_run(ran: list[float], days: set[int], looked: int, noted: bool) -> None:
    """Whatever the machine ran (at most 24 h a day) and whenever its clock was read in the evening."""
    stood = [100 + sum(ran[: day + 1]) for day in range(12)]  # in the evening
    look = found(looked, hours=stood[looked] if noted else None)
    here = yard(look, *(read(day, stood[day]) for day in days))
    for day in range(looked, 12):
        got = hours_ago(here, CORNER, here.findings[0], DAY + timedelta(days=day))
        assert got >= stood[day] - stood[looked] - 0.11, day  # hours are kept to a tenth


def test_findings_just_made_have_no_age() -> None:
    (one,) = seen_now([found(0, grade="chips").model_copy(update={"photo": "a.jpg"})])
    assert (one.hours_ago, one.days_ago, one.photo) == (None, None, True)


@pytest.mark.parametrize(
    ("hours", "stands"),
    [((500, 502, 513), False), ((500, 500.5, 513), True), ((500, 502, 508), True), ((None, None, None), True)],
)
def test_a_streak_is_over_when_the_clocks_say_so(hours: tuple[float | None, ...], stands: bool) -> None:
    """Judged with doubt on the careful side: where no clock was read, nobody knows that it worked an hour."""
    grades = ("streak", "still", "still")
    records = [found(day, "bolts", grade, read_) for day, (grade, read_) in enumerate(zip(grades, hours, strict=True))]
    rows = judge_corner(seen_at(yard(*records), CORNER, DAY + timedelta(days=2))).rows
    assert ("R13" in rows) is stands


def test_only_findings_of_the_trouble_that_runs_are_of_it() -> None:
    trouble = Trouble(id="t", number=1, corner=CORNER, opened=DAY)
    stage = Stage(id="s", trouble=1, stage="seen", on=DAY)
    mine = found(1, "level", "low").model_copy(update={"trouble": 1})
    seen = seen_at(yard(trouble, stage, found(0), mine), CORNER, DAY + timedelta(days=1))
    assert [one.running for one in seen] == [False, True]
    by = Stage(id="p", trouble=1, stage="put by", on=DAY + timedelta(days=1))
    seen = seen_at(yard(trouble, stage, by, found(0), mine), CORNER, DAY + timedelta(days=1))
    assert not any(one.running for one in seen)
