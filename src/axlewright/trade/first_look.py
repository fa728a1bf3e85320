"""The First look as rows: park it now, places where oil sits, five looks, what every outcome means, whom to ring."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from axlewright.trade.rows import Row, rows, table
from axlewright.trade.verdicts import Told, Word


class FirstLook(Row):
    """One of the five looks: its finding, and what its grades are called in the table of outcomes."""

    id: str
    finding: str
    unlooked: str
    outcomes: dict[str, tuple[str, ...]]


class Outcome(Row):
    """A row of the table; a look it does not name may show anything."""

    n: int
    wipe: tuple[str, ...] = ()
    chalk: tuple[str, ...] = ()
    breather: tuple[str, ...] = ()
    level: tuple[str, ...] = ()
    plug: tuple[str, ...] = ()
    field: Word
    road: Word
    means: str
    next: str
    answer: str  # the same as one sentence, to be printed large
    call: str

    def fits(self, shows: Mapping[str, frozenset[str]]) -> bool:
        """Whether it fits what the five looks show: by look, every outcome that is true at once."""
        asked = (self.wipe, self.chalk, self.breather, self.level, self.plug)
        return all(not wanted or not shows[look].isdisjoint(wanted) for look, wanted in zip(LOOKS, asked, strict=True))


LOOKS = ("wipe", "chalk", "breather", "level", "plug")


class Short(Row):
    """A row of the short form, and the long rows that it stands for."""

    see: str
    rows: tuple[int, ...]
    means: str


class Tick(Row):
    """Something that can be ticked, and the finding that it is kept and judged as; `also`, where it may be either."""

    id: str
    words: str
    finding: str
    grade: str
    also: dict[str, str] = {}


class Call(Row):
    """One telephone call."""

    id: str
    whom: str
    ask: str

    @property
    def words(self) -> str:
        return f"{self.whom}: “{self.ask}”"


@cache
def first_looks() -> dict[str, FirstLook]:
    """The five looks in order."""
    return {look.id: look for look in rows("first_look.toml", "look", FirstLook)}


@cache
def outcomes() -> tuple[Outcome, ...]:
    return rows("first_look.toml", "row", Outcome)


@cache
def short_rows() -> tuple[Short, ...]:
    return rows("first_look.toml", "short", Short)


@cache
def ticks(name: str) -> dict[str, Tick]:
    """What can be ticked: `park`, `place`, `plug` or `wheel`."""
    return {tick.id: tick for tick in rows("first_look.toml", name, Tick)}


@cache
def calls() -> dict[str, Call]:
    return {call.id: call for call in rows("first_look.toml", "call", Call)}


@cache
def said() -> Mapping[str, str]:
    """What each outcome is called where it is printed."""
    outcome: dict[str, Any] = table("first_look.toml")["outcome"]
    return outcome


def then() -> str:
    """What to do once one is ticked, with `{numbers}`."""
    words: str = table("first_look.toml")["park_then"]["words"]
    return words


@cache
def numbers() -> tuple[Told, ...]:
    return rows("first_look.toml", "number", Told)


def outcome_of(shows: Mapping[str, frozenset[str]]) -> Outcome:
    """The first row that fits what the five looks show.

    Raises:
        LookupError: no row fits: the table has a hole
    """
    for row in outcomes():
        if row.fits(shows):
            return row
    raise LookupError(f"no row of the First look table fits {dict(shows)}")
