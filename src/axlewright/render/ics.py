"""A calendar file after RFC 5545: days with a name, each under an id that stays, so that a calendar updates it in place."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

LONGEST = 75  # octets of a line, without its end
END = "\r\n"


@dataclass(frozen=True, slots=True)
class Event:
    """A day and what falls on it. `uid` stays the same when the day moves."""

    uid: str
    on: date
    summary: str
    description: str = ""
    location: str = ""


def calendar(name: str, events: Iterable[Event], made: datetime) -> bytes:
    """The calendar as a file.

    Args:
        name: what a calendar calls it
        events: what falls due, a day each
        made: when it was made
    """
    stamp = made.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Axlewright//Due//EN", "CALSCALE:GREGORIAN"]
    lines += ["METHOD:PUBLISH", f"X-WR-CALNAME:{_text(name)}"]
    for event in sorted(events, key=lambda one: (one.on, one.uid)):
        lines += [
            "BEGIN:VEVENT",
            f"UID:{_text(event.uid)}",
            f"DTSTAMP:{stamp}",
            f"DTSTART;VALUE=DATE:{event.on:%Y%m%d}",
            f"DTEND;VALUE=DATE:{event.on + timedelta(days=1):%Y%m%d}",
            f"SUMMARY:{_text(event.summary)}",
        ]
        lines += [f"DESCRIPTION:{_text(event.description)}"] if event.description else []
        lines += [f"LOCATION:{_text(event.location)}"] if event.location else []
        lines += ["TRANSP:TRANSPARENT", "END:VEVENT"]
    lines.append("END:VCALENDAR")
    return "".join(f"{folded(line)}{END}" for line in lines).encode()


def _text(said: str) -> str:
    """A text value: what would end it or part it is escaped."""
    plain = said.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
    return plain.replace("\r\n", "\\n").replace("\n", "\\n").replace("\r", "\\n")


def folded(line: str) -> str:
    """A long line over several, each of 75 octets at most, no letter cut in two."""
    parts, part, room = [], "", LONGEST
    for letter in line:
        size = len(letter.encode())
        if size > room:
            parts.append(part)
            part, room = "", LONGEST - 1  # a line that goes on begins with a space
        part += letter
        room -= size
    return f"{END} ".join([*parts, part])
