"""A warranty as it is told: which end comes first at the machine's pace, and what of its record is missing."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from desk.in_hand import now

from axlewright import desk, store
from axlewright.plan.warranty import WarrantyTold, warranties_told
from axlewright.yard import Change, ClockReading, Faults, Warranty, Yard

TODAY = date(2026, 8, 28)
DEMO = store.at(store.DEMO).read()
BARE = Yard.of([one for one in DEMO.records if not isinstance(one, Warranty)])


def given(yard: Yard = BARE, drive: str = "linnet-spare", on: date = date(2026, 8, 1), **says: Any) -> WarrantyTold:
    deed = desk.typed(desk.GiveWarranty, yard, {"drive": drive, "on": on, **says})
    after = yard.with_(desk.give_warranty(yard, deed, now()))
    return warranties_told(after, after.drive(drive), TODAY)[-1]


def test_it_begins_on_the_day_of_the_move_and_its_hours_are_what_the_machine_ran() -> None:
    told = given(days="90", hours="400", paper="receipt 12")
    assert told.left.begun == date(2026, 8, 14)
    assert told.left.until == date(2026, 8, 14) + timedelta(days=90)
    ran = BARE.clock_log("linnet").ran(date(2026, 8, 14), TODAY)
    assert told.left.hours
    assert ran
    assert told.left.hours.hours == 400 - ran.hours


def test_which_end_comes_first_is_said_with_its_day() -> None:
    soon, late = given(days="90", hours="40"), given(days="20", hours="400")
    assert soon.pace
    assert (soon.first, late.first) == ("hours", "days")
    assert soon.left.surely is not None
    assert soon.by == soon.pace.day(soon.left.surely, TODAY)
    assert late.by == late.left.until
    assert given(drive="broad-spare", days="90", hours="40").first is None  # it waits on the shelf
    bought = given(drive="broad-spare", days="90", hours="40", begins="bought")
    assert (bought.first, bought.by) == ("days", date(2026, 8, 1) + timedelta(days=90))


def test_what_its_record_lacks_is_named() -> None:
    told = " ".join(given(days="90").missing)
    assert "receipt" in told
    read = any(day == date(2026, 8, 14) for day, _ in BARE.clock_log("linnet").counted["engine"])
    assert ("was not read on 2026-08-14" in told) is not read
    clock = ClockReading(id="c", machine="linnet", on=date(2026, 8, 14), hours=2569, clock="engine")
    assert "was not read" not in " ".join(given(BARE.with_(Change((clock,))), days="90", paper="receipt 4").missing)
    assert given(drive="linnet-old", on=date(2026, 8, 10), days="90").missing[-1].startswith("It went to the bench")


@pytest.mark.parametrize(
    ("fields", "where"),
    [
        ({}, "days"),
        ({"days": "0"}, "days"),
        ({"days": "ninety"}, "days"),
        ({"hours": "3 kg"}, "hours"),
        ({"days": "3", "drive": "spire"}, "drive"),
        ({"days": "3", "on": date(2026, 9, 1)}, "on"),
        ({"days": "3", "corrects": "nothing"}, "corrects"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(fields: dict[str, Any], where: str) -> None:
    with pytest.raises(Faults) as bad:
        given(**fields)
    assert where in {one.where for one in bad.value.faults}


def test_sent_twice_is_kept_once() -> None:
    deed = desk.GiveWarranty(id="form", drive="broad-spare", days=90)
    once = BARE.with_(desk.give_warranty(BARE, deed, now()))
    assert not desk.give_warranty(once, deed, now(later=3))
