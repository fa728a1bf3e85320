"""The calendar file, read back by a general library: every day, every word, whatever was typed in them."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, timedelta, timezone

import icalendar
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from yard.made import lines

from axlewright.render.ics import Event, calendar, plain

MADE = datetime(2026, 8, 28, 19, 5, tzinfo=UTC)
LONGEST = 75  # octets of a line without its end: RFC 5545, 3.1
anything = st.text(st.characters(exclude_categories=("Cs",)), min_size=1, max_size=200)
events = st.builds(
    Event,
    uid=st.uuids().map(str),
    on=st.dates(date(2020, 1, 1), date(2100, 12, 30)),
    summary=st.one_of(lines, anything),
    changed=st.datetimes(datetime(2020, 1, 1), datetime(2100, 1, 1), timezones=st.just(timezone(timedelta(hours=2)))),
    sequence=st.integers(0, 2**31 - 1),
    description=st.one_of(st.just(""), lines, anything, st.lists(lines, min_size=2, max_size=3).map("\n".join)),
    location=st.one_of(st.just(""), lines),
    over=st.booleans(),
)


def unescaped(said: str) -> str:
    """RFC 5545, 3.3.11, by hand."""
    return re.sub(r"\\(.)", lambda found: "\n" if found[1] in "nN" else found[1], said)


@settings(max_examples=60)
@given(lines, st.lists(events, max_size=4, unique_by=lambda one: one.uid))
def test_a_parser_reads_back_what_was_written(name: str, many: list[Event]) -> None:
    data = calendar(name, many)
    read = icalendar.Calendar.from_ical(data)
    assert str(read["VERSION"]) == "2.0"
    assert "METHOD" not in read, "a snapshot: nobody is invited"
    for key in ("NAME", "X-WR-CALNAME"):  # the library leaves names that are not of RFC 5545 as they stand in the file
        assert unescaped(str(read[key])) == plain(name)
    found = {str(one["UID"]): one for one in read.walk("VEVENT")}
    assert set(found) == {one.uid for one in many}
    for one in many:
        event = found[one.uid]
        assert event.decoded("DTSTART") == one.on
        assert event["DTSTART"].params["VALUE"] == "DATE"
        assert (event.decoded("DTEND") - one.on).days == 1
        assert event.decoded("DTSTAMP") == event.decoded("LAST-MODIFIED") == one.changed.replace(microsecond=0)
        assert event["SEQUENCE"] == one.sequence
        assert str(event["STATUS"]) == ("CANCELLED" if one.over else "CONFIRMED")
        assert str(event["SUMMARY"]) == plain(one.summary)
        assert str(event.get("DESCRIPTION", "")) == plain(one.description)
        assert str(event.get("LOCATION", "")) == plain(one.location)
    assert calendar(name, reversed(many)) == data, "the order that they come in is nothing"


@settings(max_examples=60)
@given(anything)
def test_no_line_is_longer_than_the_standard_allows_and_none_is_torn(text: str) -> None:
    data = calendar(text, [Event("6@y", date(2026, 8, 29), text, MADE, description=text)])
    lines_of = data.split(b"\r\n")
    assert lines_of.pop() == b""
    for line in lines_of:
        assert len(line) <= LONGEST
        assert b"\n" not in line
        line.decode()  # no letter is cut in two
        assert not any(byte < 32 and byte != 9 for byte in line)


def test_no_word_of_a_text_begins_a_line_of_its_own() -> None:
    """Somebody types what looks like a calendar."""
    said = "nuts\r\nEND:VEVENT\r\nBEGIN:VALARM;X=1,2\\n"
    read = icalendar.Calendar.from_ical(calendar(said, [Event("6@y", date(2026, 8, 29), said, MADE)]))
    assert len(read.walk("VEVENT")) == 1
    assert not read.walk("VALARM")
    assert str(read.walk("VEVENT")[0]["SUMMARY"]) == said.replace("\r\n", "\n")


@pytest.mark.parametrize("sign", ["\x00", "\x1b", "\x7f", "\x08"])
def test_a_letter_that_no_calendar_may_hold_is_left_out(sign: str) -> None:
    assert plain(f"a{sign}b") == "ab"
