"""What falls due in a yard: after-checks by clock and morning, looks that are too old, dates to decide by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import floor
from typing import Literal

from axlewright.plan.in_hand.checks import NextCheck, checks_of, next_check
from axlewright.yard import Clock, Corner, Hours, Trouble, Yard
from axlewright.yard.card_values import look_of

State = Literal["overdue", "today", "ahead"]
What = Literal["after-check", "look", "decide"]
LATELY = 45  # days over which a machine's pace is taken
LEAST_RUN, LEAST_DAYS = 5.0, 3  # h and days under which it says nothing
USUAL_DAY = 8.0  # h a working day runs; common practice, no source


@dataclass(frozen=True, slots=True)
class Due:
    """One thing that falls due.

    Attributes:
        what: an after-check, a look at a corner, or a choice to be made
        id: stays the same while it falls due again: a calendar knows it by this
        corner: where
        words: what is looked at
        trouble: whose it is
        look: name of the after-check
        at: clock reading at which it falls due [h]
        clock: which clock
        second: reading of the second clock, where one was printed [h]
        on: day on which it falls due, where a day says so
        left: engine hours still to run [h]
        expected: day by which the clock may stand there, at the machine's pace lately
        stops: until it is done the machine goes no further
    """

    what: What
    id: str
    corner: Corner
    words: str
    trouble: int | None = None
    look: str = ""
    at: float | None = None
    clock: Clock = "engine"
    second: float | None = None
    on: date | None = None
    left: float | None = None
    expected: date | None = None
    stops: bool = False

    def state(self, today: date) -> State:
        """Whether it is overdue, falls due today, or lies ahead."""
        if self.stops or (self.left is not None and self.left < 0) or (self.on and self.on < today):
            return "overdue"
        if (self.left is not None and self.left < 1) or self.on == today:
            return "today"
        return "ahead"

    @property
    def day(self) -> date | None:
        """The day under which it stands in a calendar."""
        return min((day for day in (self.on, self.expected) if day), default=None)


@dataclass(frozen=True, slots=True)
class DecideBy:
    """The day by which somebody decides, or by which the course taken is begun; and what it is, in a few words."""

    on: date
    words: str = "take a course"


Decides = Mapping[int, DecideBy] | Mapping[int, date]
"""By trouble, the date to decide by."""


@dataclass(frozen=True, slots=True)
class Pace:
    """Engine hours a day that a machine ran lately, and how that is known."""

    hours: float
    measured: bool

    def day(self, left: float, today: date) -> date:
        """The day on which so many hours will have run."""
        return today + timedelta(days=max(floor(left / self.hours), 0))


def pace_of(yard: Yard, machine: str, today: date) -> Pace:
    """The hours a day of a machine over the last weeks; a usual working day where nobody can tell."""
    counted = [(on, read) for on, read in yard.clock_log(machine).counted["engine"] if on <= today]
    lately = [(on, read) for on, read in counted if (today - on).days <= LATELY]
    if len(lately) > 1:
        days, ran = (lately[-1][0] - lately[0][0]).days, lately[-1][1].hours - lately[0][1].hours
        if days >= LEAST_DAYS and ran >= LEAST_RUN:
            return Pace(ran / days, measured=True)
    return Pace(USUAL_DAY, measured=False)


def due_of(
    yard: Yard,
    today: date,
    decide: Decides | None = None,
    unseen: Mapping[Corner, str] | None = None,
) -> tuple[Due, ...]:
    """All that falls due, what runs out first on top.

    Args:
        yard: as it stands
        today: the day
        decide: by trouble, the date to decide by, or to begin what was decided
        unseen: corners that nobody has looked at, or whose look is too old, each with its words
    """
    found: list[Due] = []
    for one in yard.troubles:
        if yard.stage(one.number) == "put by":
            continue
        found += checks_due(yard, one, today)
        by = (decide or {}).get(one.number)
        if isinstance(by, date):
            by = DecideBy(by)
        if by:
            found.append(Due("decide", f"decide-{one.number}", one.corner, by.words, one.number, on=by.on))
    for corner, words in (unseen or {}).items():
        name = f"look-{corner.machine}-{corner.place}"
        found.append(Due("look", name, corner, f"First look: {words}", on=today))
    return tuple(sorted(found, key=lambda due: _order(due, today)))


def checks_due(yard: Yard, trouble: Trouble, today: date) -> tuple[Due, ...]:
    """The after-checks of a trouble that are still to be made."""
    found = [next_check(yard, trouble, check, today) for check in checks_of(yard, trouble.number)]
    ahead = [told for told in found if not told.over]
    if not ahead:
        return ()
    pace = pace_of(yard, trouble.corner.machine, today)
    return tuple(_on_its_clock(yard, _check(trouble, told, pace, today), today) for told in ahead)


def _on_its_clock(yard: Yard, due: Due, today: date) -> Due:
    """By a clock that the machine has: one without an engine clock is told by its other, never later."""
    clocks = yard.machine(due.corner.machine).clocks
    if due.at is None or "engine" in clocks:
        return due
    read = yard.on_clock(due.corner.machine, Hours(due.at, "engine"), clocks[0], today)
    return replace(
        due,
        at=float(floor(read.hours - read.about)) if due.second is None else due.second,
        clock=clocks[0],
        second=None,
    )


def _check(trouble: Trouble, told: NextCheck, pace: Pace, today: date) -> Due:
    check = told.check
    row = look_of(check.look)
    words = "wheel off: faces and seats" if told.wheel_off else check.says or (row.look if row else check.look)
    return Due(
        "after-check",
        f"{trouble.number}-{check.look}",
        trouble.corner,
        words,
        trouble.number,
        check.look,
        at=told.at,
        second=told.second,
        on=min((day for day in (told.morning, told.by) if day), default=None),
        left=told.ran,
        expected=None if told.ran is None else pace.day(told.ran, today),
        stops=told.wheel_off,
    )


def _order(due: Due, today: date) -> tuple[date, float, str]:
    """What stops first, then by day, then by hours left."""
    days = [day for day in (due.on, due.expected) if day]
    first = date.min if due.stops else min(days, default=today)
    return first, due.left if due.left is not None else 0.0, due.id
