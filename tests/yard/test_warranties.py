"""A warranty: days run on the shelf too, hours do not; whichever runs out first; counted day by day as a second method."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError
from yard.test_moves import ASIDE, RATE, START, TODAY, base, lives, move

from axlewright.yard import Change, ClockReading, Corner, Drive, Move, Yard, mistakes
from axlewright.yard.warranties import Left, Warranty

CORNER = Corner("oak", "front-left")  # 3 engine hours a day
SPARE = Drive(id="spare", name="spare", sits="shelf", since=START, hours=900)


def warranty(day: int = 0, drive: str = "spare", **says: Any) -> Warranty:
    return Warranty(id=f"w{day}", drive=drive, on=START + timedelta(days=day), **says)


def left(given_: Warranty, *moves: Move, drive: Drive = SPARE, today: int = 1000) -> Left:
    yard = Yard.of([*base(), drive, *moves, given_])
    assert mistakes(yard, TODAY) == ()
    return yard.warranty_left(yard.drive(drive.id), START + timedelta(days=today))[-1]


def test_it_waits_on_the_shelf_until_the_drive_is_fitted_unless_it_was_given_from_the_day_it_was_bought() -> None:
    waits = left(warranty(days=300, hours=600))
    assert (waits.state, waits.begun, waits.days, waits.hours) == ("waits", None, None, None)
    bought = left(warranty(days=300, hours=600, begins="bought"), today=299)
    assert (bought.state, bought.days, bought.hours and bought.hours.hours) == ("runs", 2, 600)
    assert bought.first(None, START + timedelta(days=299)) == "days"


def test_days_run_from_the_day_it_was_fitted_and_its_last_day_still_counts() -> None:
    fitted = move("spare", CORNER, 100)
    last = left(warranty(days=300), fitted, today=400)
    assert (last.begun, last.until, last.days, last.state) == (
        START + timedelta(days=100), START + timedelta(days=400), 1, "runs",
    )  # fmt: skip
    assert left(warranty(days=300), fitted, today=401).state == "over"


def test_hours_run_out_by_the_machine_that_it_sits_at_and_stand_still_on_the_shelf() -> None:
    fitted, off = move("spare", CORNER, 100, 1), move("spare", "shelf", 200, 2)
    again = move("spare", Corner("ash", "front-left"), 300, 3)  # 5 hours a day there
    runs = left(warranty(hours=600), fitted, off, again, today=300)
    assert runs.ran
    assert runs.ran.hours == 300
    after = left(warranty(hours=600), fitted, off, again, today=340)
    assert after.hours
    assert after.hours.hours == pytest.approx(600 - 300 - 200, abs=0.2)
    assert left(warranty(hours=600), fitted, off, again, today=370).state == "over"


def test_which_runs_out_first_goes_by_the_pace_and_doubt_goes_against_us() -> None:
    """Two readings of the clock years apart leave it open what ran between; one on the very day does not."""
    fitted, today = move("spare", CORNER, 100), 200
    day = START + timedelta(days=today)
    vague = left(warranty(days=200, hours=600), fitted, today=today)
    assert vague.surely == 0
    assert vague.first(0.1, day) == "hours"
    reads = [
        ClockReading(id=f"r{n}", machine="oak", on=START + timedelta(days=n), hours=3.0 * n, clock="engine")
        for n in (100, 200)
    ]
    yard = Yard.of([*base(), *reads, SPARE, fitted, warranty(days=200, hours=600)])
    exact = yard.warranty_left(yard.drive("spare"), day)[-1]
    assert exact.until == day + timedelta(days=100)
    assert exact.surely == 300
    assert [exact.first(pace, day) for pace in (2.9, 3.0, 3.1)] == ["days", "hours", "hours"]
    assert left(warranty(hours=600), fitted, today=today).first(3, day) == "hours"
    assert left(warranty(days=600), fitted, today=today).first(3, day) == "days"


def test_a_machine_whose_clock_nobody_read_says_nothing_of_the_hours() -> None:
    yard = Yard.of([*base()[:2], SPARE, move("spare", CORNER, 100), warranty(days=900, hours=600)])
    told = yard.warranty_left(yard.drive("spare"), START + timedelta(days=300))[-1]
    assert (told.state, told.ran, told.hours, told.days) == ("not known", None, None, 701)
    assert told.first(None, START) is None


def test_it_sits_there_already_when_the_warranty_is_written() -> None:
    here = Drive(id="here", name="here", sits=CORNER, since=START, hours=500)
    told = left(warranty(100, "here", days=30, hours=90), drive=here, today=110)
    assert told.begun == START + timedelta(days=100)
    assert told.ran
    assert told.ran.hours == 30


@settings(max_examples=40)
@given(lives(), st.integers(0, 999), st.integers(1, 1000), st.sampled_from(["fitted", "bought"]))
def test_day_by_day_it_comes_to_the_same(
    lived: tuple[list[Drive], list[Move], dict[str, list[tuple[Any, int]]]], on: int, today: int, begins: str
) -> None:
    drives, moves, where = lived
    one = drives[0]
    given_ = warranty(on, one.id, days=90, hours=250, begins=begins)
    yard = Yard.of([*base(), *drives, *moves, given_])
    told = yard.warranty_left(yard.drive(one.id), START + timedelta(days=today))[-1]

    def place(day: int) -> Any:
        return [p for p, since in where[one.id] if since <= day][-1]

    begun = next((day for day in range(on, 1001) if begins == "bought" or place(day) not in ASIDE), None)
    assert told.begun == (None if begun is None else START + timedelta(days=begun))
    if begun is None:
        assert told.state == "waits"
        return
    ran = sum(RATE[place(day).machine] for day in range(begun, today) if place(day) not in ASIDE)
    assert told.ran
    assert told.ran.hours == pytest.approx(ran, abs=0.1 * len(where[one.id]) + 0.1)
    assert told.days == 90 - (today - begun) + 1


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (warranty(drive="spire", days=3), "no drive spire"),
        (warranty(2000, days=3), "has not come yet"),
        (warranty(days=3, corrects="w9"), "no other warranty w9"),
    ],
)
def test_one_that_cannot_be_is_said(wrong: Warranty, says: str) -> None:
    after = Yard.of([*base(), SPARE]).with_(Change((wrong,)))
    assert says in " ".join(f"{f.what} {f.right}" for f in mistakes(after, TODAY, only=(wrong,)))


def test_one_without_an_end_is_none_and_a_correction_takes_its_place() -> None:
    with pytest.raises(ValidationError, match="so many days"):
        warranty()
    first, right = warranty(days=30), warranty(1, days=60, corrects="w0")
    yard = Yard.of([*base(), SPARE, first, right])
    assert [one.warranty.days for one in yard.warranty_left(yard.drives[0], TODAY)] == [60]
