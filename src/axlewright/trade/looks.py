"""Looks: what a person can look at, how, when it counts and how long it stays fresh."""

from __future__ import annotations

from functools import cache
from typing import Literal

from axlewright.trade.rows import Row, rows

Stage = Literal["G", "W", "R", "O"]  # on its wheels; working or creeping; raised; wheel off


class Sooner(Row):
    """Grades that make a look grow old sooner."""

    source: str = "as the look"
    grades: dict[str, tuple[str, ...]]
    hours: float


class Look(Row):
    """A quick check that gives a finding. Times in minutes of people, freshness in machine hours and days."""

    id: str
    name: str
    how: str
    short: str  # one line, on the first screen
    printed: str = ""  # two lines, on the printed First look
    stages: tuple[Stage, ...]
    minutes: float = 0
    work_minutes: float = 0  # of work or creeping that it needs besides
    people: int = 1
    people_if: str = ""
    kit: tuple[str, ...] = ()
    after: tuple[str, ...] = ()  # looks that must be clean before
    not_before: str = ""
    stop_if: str = ""
    counts_when: str
    fresh_hours: float | None = None
    fresh_days: float | None = None
    holds: str = ""  # for how long, where no hours or days say it
    good_counts_after_hours: float = 0  # a good grade sooner after the last one is not evidence
    after_fitting_hours: tuple[float, ...] = ()
    sooner: tuple[Sooner, ...] = ()
    gives: tuple[str, ...]


@cache
def looks() -> dict[str, Look]:
    """All looks by id, in the order in which they are done."""
    return {look.id: look for look in rows("looks.toml", "look", Look)}
