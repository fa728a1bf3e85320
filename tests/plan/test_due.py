"""What falls due: by the clock as it will read, by the morning, after looks made in any order, over a change of clock."""

from __future__ import annotations

from datetime import date, timedelta
from math import floor
from typing import Any

import icalendar
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright import store
from axlewright.desk.calendar import calendar_of
from axlewright.plan.in_hand.checks import checks_of, next_check
from axlewright.plan.in_hand.due import USUAL_DAY, checks_due, pace_of
from axlewright.plan.pack import pack
from axlewright.plan.sheet.due import due_sheet, falls_due
from axlewright.render import html, pdf
from axlewright.render.show import Show
from axlewright.yard import (
    AfterCheck,
    Change,
    ClockReading,
    Corner,
    Finding,
    Machine,
    Reading,
    Stage,
    Title,
    Trouble,
    Yard,
)

DAY = date(2026, 8, 28)
DEMO = store.at(store.DEMO).read()
LARK = Machine(id="lark", name="Lark", clocks=("engine", "threshing"))
LEFT = Corner("lark", "front-left")


def yard(
    *more: Any, look: str = "level", due: tuple[float, ...] = (1001, 1010, 1050), now: float = 1004, **check: Any
) -> Yard:
    stood = AfterCheck(id="a", trouble=1, look=look, says=look, set_down=1000.4, due=due, on=date(2026, 8, 20), **check)
    clock = [ClockReading(id=f"c{n}", machine="lark", on=on, hours=h, clock="engine") for n, (on, h) in enumerate([(date(2026, 8, 20), 1000.4), (DAY, now)])]  # fmt: skip
    return Yard.of(
        [Title(name="T"), LARK, Trouble(id="1", number=1, corner=LEFT, opened=date(2026, 8, 1)), stood, *clock, *more]
    )


def made(hours: float, value: str = "at-mark", look: str = "level", on: date = DAY, name: str = "r") -> Reading:
    return Reading(id=f"{name}{hours}", trouble=1, step=look, value=value, on=on, hours=hours, clock="engine")


def at(one: Yard, today: date = DAY) -> float | None:
    return next_check(one, one.trouble(1), checks_of(one, 1)[0], today).at


def test_the_readings_are_those_that_were_written_down() -> None:
    assert at(yard()) == 1001
    assert at(yard(made(1002))) == 1010
    assert at(yard(made(1002), made(1011, name="s"))) == 1050
    assert at(yard(made(1002), made(1051, name="s"))) is None
    assert at(yard(made(1100), every=30.0)) == 1110


def test_a_finding_is_a_look_too() -> None:
    seen = Finding(id="f", finding="level", grade="at-mark", corner=LEFT, trouble=1, on=DAY, hours=1002, clock="engine")
    assert at(yard(seen)) == 1010
    other = seen.model_copy(update={"finding": "plug", "grade": "paste"})
    assert at(yard(other)) == 1001


def test_nuts_keep_the_rule_of_two_still() -> None:
    """One that moved: an hour on, then ten; two still in a row: the list again; moved at the third: wheel off."""
    nuts = {"look": "wheel-nuts", "due": (1001, 1010, 1050, 1300), "every": 250.0}

    def looked(*marks: tuple[float, str]) -> Yard:
        return yard(*(made(h, grade, "wheel-nuts", name=f"n{n}") for n, (h, grade) in enumerate(marks)), **nuts)

    assert at(looked((1001, "moved"))) == 1002
    assert at(looked((1001, "moved"), (1002, "still"))) == 1012
    assert at(looked((1001, "moved"), (1002, "still"), (1012, "still"))) == 1050
    third = looked((1001, "still"), (1010, "still"), (1020, "moved"))
    assert next_check(third, third.trouble(1), checks_of(third, 1)[0], DAY).wheel_off
    assert checks_due(third, third.trouble(1), DAY)[0].stops
    assert at(looked((1301, "still"))) == 1550


def test_a_changed_clock_is_told_by_the_new_one() -> None:
    swapped = ClockReading(id="new", machine="lark", on=date(2026, 8, 26), hours=0, clock="engine", new_clock=True)
    old = ClockReading(id="old", machine="lark", on=date(2026, 8, 26), hours=1003, clock="engine")
    on_new = ClockReading(id="on", machine="lark", on=DAY, hours=2, clock="engine")
    stood = yard()
    kept = [one for one in stood.records if one.id != "c1"]
    found = Yard.of([*kept, old, swapped, on_new, made(1002, on=date(2026, 8, 24))])
    told = next_check(found, found.trouble(1), checks_of(found, 1)[0], DAY)
    assert told.at == 1010 - 1003
    assert told.ran == 5


@pytest.mark.parametrize(
    ("today", "looked_on", "expected"),
    [
        (date(2026, 8, 20), None, date(2026, 8, 21)),
        (date(2026, 8, 23), None, date(2026, 8, 23)),
        (date(2026, 8, 23), date(2026, 8, 23), date(2026, 8, 24)),
        (date(2026, 8, 27), date(2026, 8, 26), date(2026, 8, 27)),
        (date(2026, 8, 28), None, None),
    ],
)
def test_mornings_run_for_their_week(today: date, looked_on: date | None, expected: date | None) -> None:
    mornings = tuple(date(2026, 8, 20) + timedelta(days=n) for n in range(1, 8))
    looks = (made(1000.9, "none", "joint-and-lip", on=looked_on),) if looked_on else ()
    one = yard(*looks, look="joint-and-lip", mornings=mornings)
    assert next_check(one, one.trouble(1), checks_of(one, 1)[0], today).morning == expected


@settings(max_examples=80, deadline=None)
@given(st.lists(st.floats(1000.5, 1200).map(lambda h: round(h, 1)), max_size=6), st.floats(1000.5, 1300))
def test_by_brute_force_the_next_is_the_first_after_the_last_look(looks: list[float], now: float) -> None:
    due = (1001.0, 1010.0, 1050.0)
    one = yard(
        *(made(h, name=f"b{n}") for n, h in enumerate(looks)), due=due, every=40.0, now=round(max([now, *looks]), 1)
    )
    ahead = [*due, *(1050.0 + 40 * n for n in range(1, 20))]
    assert at(one) == next(h for h in ahead if h > max(looks, default=0.0))


def test_the_day_is_told_at_the_machines_own_pace() -> None:
    one = yard(now=1004)
    pace = pace_of(one, "lark", DAY)
    assert not pace.measured, "under five hours say nothing"
    assert pace.hours == USUAL_DAY
    ran = pace_of(yard(now=1040.4), "lark", DAY)
    assert ran.measured
    assert ran.hours == pytest.approx(40 / 8)
    due = checks_due(yard(made(1039), now=1040.4), yard().trouble(1), DAY)[0]
    assert due.at == 1050
    assert due.expected == DAY + timedelta(days=floor(9.6 / 5))


def test_the_demo_shows_what_is_overdue_first_and_what_lies_ahead() -> None:
    found = falls_due(DEMO, DAY)
    states = {one.id: one.state(DAY) for one in found}
    assert states["5-coupling"] == "overdue"
    assert states["5-wheel-nuts"] == "ahead"
    left = [one.left for one in found if one.what == "after-check"]
    assert left == sorted(left, key=lambda hours: hours or 0.0)
    assert {one.what for one in found} == {"after-check", "look"}


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_sheet_is_one_page_and_a_whole_page(paper: Any) -> None:
    made_up = pack(due_sheet(DEMO, DAY))
    assert pdf.render(made_up, Show(paper=paper))[:4] == b"%PDF"
    assert "overdue" in str(html.body(made_up.sheets[0], made_up, Show()))
    empty = pack(due_sheet(Yard.of([Title(name="T")]), DAY))
    assert pdf.render(empty, Show(paper=paper))[:4] == b"%PDF"


def events_of(one: Yard, today: date = DAY, decide: Any = None) -> dict[str, Any]:
    """By the first word of what falls due its event in the calendar."""
    read = icalendar.Calendar.from_ical(calendar_of(one, today, decide)).walk("VEVENT")
    return {str(event["SUMMARY"]).partition(": ")[2].split(",")[0]: event for event in read}


def test_the_calendar_says_that_the_reading_counts() -> None:
    events = events_of(yard(made(1039), now=1040.4), decide={1: date(2026, 9, 4)})
    assert set(events) == {"level", "take a course"}
    assert "clock reading counts" in str(events["level"]["DESCRIPTION"])
    assert events["take a course"].decoded("DTSTART") == date(2026, 9, 4)


def test_a_look_that_was_made_is_cancelled_for_a_while_and_then_gone() -> None:
    """A file that is taken in again merges by id: what were only missing would nag for ever."""
    one = yard(made(1039), now=1040.4)
    done = one.with_(Change((made(1050, name="z"),)))
    ahead, over = events_of(one)["level"], events_of(done)["level"]
    assert (str(ahead["STATUS"]), str(over["STATUS"])) == ("CONFIRMED", "CANCELLED")
    assert str(ahead["UID"]) == str(over["UID"])
    assert over["SEQUENCE"] > ahead["SEQUENCE"]
    assert "level" in events_of(done, DAY + timedelta(days=60))
    assert "level" not in events_of(done, DAY + timedelta(days=61))


def test_a_course_taken_and_a_trouble_put_by_fall_due_no_more() -> None:
    one = yard(made(1039), now=1040.4)
    kept = {"trouble": 1, "on": DAY}
    settled = one.with_(Change((Stage(id="s", stage="settled", course="reseal", **kept),)))
    assert str(events_of(settled)["take a course"]["STATUS"]) == "CANCELLED"
    assert str(events_of(settled)["level"]["STATUS"]) == "CONFIRMED"
    put_by = settled.with_(Change((Stage(id="p", stage="put by", **kept),)))
    assert {str(event["STATUS"]) for event in events_of(put_by).values()} == {"CANCELLED"}
    assert len(events_of(put_by)) == 2


def test_the_same_yard_gives_the_same_bytes_and_news_come_after() -> None:
    """A calendar keeps what has the higher sequence (RFC 5546, 2.1.5): it never falls, whatever is written or passes by."""
    one, before = yard(now=1004), -1
    assert calendar_of(one, DAY) == calendar_of(one, DAY)
    for days, more in ((0, ()), (1, ()), (1, (made(1002),)), (3, ()), (3, (made(1011, name="s", on=DAY),))):
        one = one.with_(Change(more))
        event = events_of(one, DAY + timedelta(days=days))["level"]
        assert event["SEQUENCE"] > before
        before = event["SEQUENCE"]
    renamed = one.with_(Change((Title(name="Other"), LARK.model_copy(update={"name": "Robin"}))))
    assert events_of(renamed)["level"]["UID"] == event["UID"]


def test_two_days_of_one_trouble_never_share_an_id() -> None:
    read = icalendar.Calendar.from_ical(calendar_of(DEMO, DAY, {6: DAY, 8: DAY})).walk("VEVENT")
    ids = [str(event["UID"]) for event in read]
    assert len(ids) == len(set(ids)) >= 7
    assert all(event["DTSTART"].params["VALUE"] == "DATE" for event in read)
