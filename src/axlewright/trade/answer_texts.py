"""How an answer that is no number is read: words by any of their names, lists, days and times of day."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, time

from axlewright.quantities import NotRead, parse
from axlewright.trade.threads import parse_designation
from axlewright.trade.tyres import read_tyre

NONE, ALL = "none", "all"
HERE, MISSING = "yes", "no"  # of a piece of gear, or a part


def plain(text: str) -> str:
    return " ".join(text.strip().casefold().replace("_", " ").replace("-", " ").split())


def one_of(text: str, known: Mapping[str, tuple[str, ...]]) -> str:
    """The word that was meant, by its own name or another.

    Raises:
        NotRead: none of them
    """
    for word, names in known.items():
        if plain(text) in {plain(name) for name in (word, *names)}:
            return word
    some = tuple(known) if len(known) <= 12 else ()
    raise NotRead(text, "one of the answers" if some else f"one of {', '.join(known)}", some)


def _thread(text: str) -> str:
    return parse_designation(text).designation


def _tyre(text: str) -> str:
    return read_tyre(text).designation


def _line(text: str) -> str:
    if not text.strip():
        raise NotRead(text, "a word")
    return text.strip()


def _numbers(text: str) -> str:
    """Whole numbers parted by commas, or `none`, or `all`.

    Raises:
        NotRead: it is no such list
    """
    if plain(text) in (NONE, ALL):
        return plain(text)
    parts = [part.strip() for part in text.replace(";", ",").split(",") if part.strip()]
    if not parts or not all(part.isdecimal() and int(part) > 0 for part in parts):
        raise NotRead(text, "whole numbers parted by commas, such as 2, 9")
    return ", ".join(str(int(part)) for part in parts)


def _hours(text: str) -> str:
    """Durations parted by commas.

    Raises:
        NotRead: one of them is none
    """
    for part in text.split(","):
        parse(part.strip(), "duration")
    return ", ".join(part.strip() for part in text.split(","))


def _day(text: str) -> str:
    """A day of the calendar.

    Raises:
        NotRead: it is none
    """
    try:
        return date.fromisoformat(text.strip()).isoformat()
    except ValueError:
        raise NotRead(text, "a day: year, month, day, as 2026-09-04") from None


def _time(text: str) -> str:
    """A time of day.

    Raises:
        NotRead: it is none
    """
    hours, _, minutes = text.strip().replace(".", ":").partition(":")
    try:
        if not (hours.isdecimal() and minutes.isdecimal() and len(minutes) == 2):
            raise ValueError
        return f"{time(int(hours), int(minutes)):%H:%M}"
    except ValueError:
        raise NotRead(text, "a time of day: hours and minutes, as 07:30") from None


def _here(text: str) -> str:
    """Whether a piece is here: yes, no, or the day on which it comes.

    Raises:
        NotRead: none of them
    """
    said = plain(text)
    if said in (HERE, MISSING):
        return said
    try:
        return _day(text)
    except NotRead:
        raise NotRead(text, "yes, no, or the day on which it comes, as 2026-09-04", (HERE, MISSING)) from None


READERS: dict[str, Callable[[str], str]] = {
    "thread": _thread, "tyre": _tyre, "line": _line, "numbers": _numbers, "hours": _hours, "day": _day, "time": _time,
    "here": _here,
}  # fmt: skip
