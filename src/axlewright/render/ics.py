"""A calendar file: days with a name, each under an id that stays, so that a calendar updates it in place.

It is a snapshot, so it names no METHOD: RFC 5545, 3.7.2, says that without one nobody is invited to anything. With one it
would need an organizer with a mail address (RFC 5546, 3.2.1). What is over stays in it for a while as CANCELLED (RFC 5545,
3.8.1.11): a calendar that took the file in merges it by id and never learns that a day is gone from the file.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

PRODUCT = "-//Axlewright//Due//EN"
LOOK_AGAIN = timedelta(hours=12)  # how often a calendar that subscribed asks again (RFC 7986, 5.7)


@dataclass(frozen=True, slots=True)
class Event:
    """A day and what falls on it.

    Attributes:
        uid: stays the same when the day moves (RFC 7986, 5.3: no name of a machine or a yard in it)
        on: the day, all of it, in whatever zone the reader is
        summary: what falls due
        changed: when that was last revised
        sequence: counts up with every revision
        description: more of it
        location: where
        over: it falls due no more
    """

    uid: str
    on: date
    summary: str
    changed: datetime
    sequence: int = 0
    description: str = ""
    location: str = ""
    over: bool = False


def calendar(name: str, events: Iterable[Event]) -> bytes:
    """The calendar as a file; the same events give the same bytes.

    Args:
        name: what a calendar calls it
        events: what falls due, a day each
    """
    import icalendar  # a tenth of a second: only who asks for a calendar waits for it

    made = icalendar.Calendar()
    made.add("PRODID", PRODUCT)
    made.add("VERSION", "2.0")
    made.add("CALSCALE", "GREGORIAN")
    for key in ("NAME", "X-WR-CALNAME"):  # RFC 7986, 5.1; and what calendars read before it
        made.add(key, icalendar.vText(plain(name)))
    made.add("REFRESH-INTERVAL", LOOK_AGAIN, parameters={"VALUE": "DURATION"})
    for event in sorted(events, key=lambda one: (one.on, one.uid)):
        stamp = event.changed.astimezone(UTC).replace(microsecond=0)
        one = icalendar.Event()
        one.add("UID", event.uid)
        one.add("DTSTAMP", stamp)  # without a METHOD it says when the event was revised (RFC 5545, 3.8.7.2)
        one.add("LAST-MODIFIED", stamp)
        one.add("SEQUENCE", event.sequence)
        one.add("DTSTART", event.on)
        one.add("DTEND", event.on + timedelta(days=1))
        one.add("SUMMARY", plain(event.summary))
        for key, said in (("DESCRIPTION", event.description), ("LOCATION", event.location)):
            if said:
                one.add(key, plain(said))
        one.add("STATUS", "CANCELLED" if event.over else "CONFIRMED")
        one.add("TRANSP", "TRANSPARENT")
        made.add_component(one)
    return bytes(made.to_ical())


def plain(said: str) -> str:
    """A text with line ends of one kind, without the control letters that RFC 5545, 3.1, keeps out of a value.

    A typed backslash before an N is a line end too: the standard's own sign of one (3.3.11), and the library takes it so.
    """
    lines = said.replace("\r\n", "\n").replace("\r", "\n")
    kept = "".join(letter for letter in lines if letter in "\n\t" or (ord(letter) >= 32 and ord(letter) != 127))
    return kept.replace("\\N", "\n")
