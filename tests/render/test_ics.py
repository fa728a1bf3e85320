"""The calendar file, read back by a general library: every day, every word, whatever was typed in them."""

from __future__ import annotations

from datetime import UTC, date, datetime

import icalendar
from hypothesis import given, settings
from hypothesis import strategies as st
from yard.made import lines

from axlewright.render.ics import LONGEST, Event, calendar, folded

MADE = datetime(2026, 8, 28, 19, 5, tzinfo=UTC)
events = st.builds(
    Event,
    uid=st.from_regex(r"[a-z0-9-]{1,20}@[a-z-]{1,20}\.axlewright", fullmatch=True),
    on=st.dates(date(2020, 1, 1), date(2100, 12, 30)),
    summary=lines,
    description=st.one_of(st.just(""), lines, st.lists(lines, min_size=2, max_size=3).map("\n".join)),
    location=st.one_of(st.just(""), lines),
)


@settings(max_examples=60)
@given(lines, st.lists(events, max_size=4, unique_by=lambda one: one.uid))
def test_a_parser_reads_back_what_was_written(name: str, many: list[Event]) -> None:
    data = calendar(name, many, MADE)
    read = icalendar.Calendar.from_ical(data)
    assert str(read["VERSION"]) == "2.0"
    assert "X-WR-CALNAME" in read
    found = {str(one["UID"]): one for one in read.walk("VEVENT")}
    assert set(found) == {one.uid for one in many}
    for one in many:
        event = found[one.uid]
        assert event.decoded("DTSTART") == one.on
        assert (event.decoded("DTEND") - one.on).days == 1
        assert str(event["SUMMARY"]) == one.summary
        assert str(event.get("DESCRIPTION", "")) == one.description
        assert str(event.get("LOCATION", "")) == one.location


@given(st.text(st.characters(exclude_categories=("Cc", "Cs")), max_size=400))
def test_no_line_is_longer_than_the_standard_allows_and_none_is_lost(text: str) -> None:
    cut = folded(text)
    assert all(len(line.encode()) <= LONGEST for line in cut.split("\r\n"))
    assert cut.replace("\r\n ", "") == text


def test_the_same_day_again_keeps_its_id() -> None:
    first, later = (calendar("Due", [Event("6-nuts@y.axlewright", day, "nuts")], MADE) for day in (date(2026, 8, 29), date(2026, 9, 2)))  # fmt: skip
    ids = [str(icalendar.Calendar.from_ical(data).walk("VEVENT")[0]["UID"]) for data in (first, later)]
    assert ids[0] == ids[1]
