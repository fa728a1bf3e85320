"""After-checks: which a finished job brings, and when each is made next, by the clock as it will read and by the day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import floor

from axlewright.plan.steps.afterwards import Looked, brought, due, on_second_clock, two_still
from axlewright.trade.networks import Job
from axlewright.trade.steps import AfterCheck as Row
from axlewright.trade.steps import Incoming
from axlewright.trade.steps_read import steps
from axlewright.yard import CLOCKS, AfterCheck, Clock, Finding, Reading, Trouble, Yard
from axlewright.yard.card_values import look_of
from axlewright.yard.clock_log import ClockLog
from axlewright.yard.hours import rate

NUTS = "wheel-nuts"
STILL = ("still", "once-still")


@dataclass(frozen=True, slots=True)
class Brought:
    """An after-check as it is written down at set-down."""

    look: str
    says: str
    due: tuple[int, ...]
    every: float | None
    second: tuple[float, ...]
    mornings: tuple[date, ...]
    by: date | None


def brought_by(
    yard: Yard, trouble: Trouble, work: Job, engine: float, second: tuple[Clock, float] | None, on: date
) -> tuple[Brought, ...]:
    """The after-checks that a job brings: readings of the engine clock, of the second one too where it was read, and days.

    Args:
        yard: as it stands
        trouble: whose job it is
        work: the job
        engine: engine clock at set-down [h]
        second: second clock at set-down, and which it is
        on: day of set-down
    """
    rows = steps()
    taken = yard.course(trouble.number)
    incoming: Incoming = rows.course[taken].incoming if taken else ""
    per = rate(yard.clock_log(trouble.corner.machine).pairs)[1]
    made = []
    for row in brought(rows, [work], incoming):
        other = on_second_clock(row, engine, second[1], per) if second else ()
        mornings = tuple(on + timedelta(days=n) for n in range(1, row.mornings + 1))
        by = on + timedelta(days=row.days) if row.days else None
        made.append(Brought(row.id, row.look, due(row, engine), row.then_every, other, mornings, by))
    return tuple(made)


@dataclass(frozen=True, slots=True)
class Made:
    """A look as it was made: when, at which count of engine hours, and whether a nut or bolt had moved."""

    on: date
    hours: float
    moved: bool


@dataclass(frozen=True, slots=True)
class NextCheck:
    """When an after-check is made next.

    Attributes:
        check: what was written down at set-down
        at: reading of the engine clock as it stands in the machine now [h]; None where no clock brings it
        second: reading of the second clock, where one was printed for it [h]
        morning: day on which it is made whatever the clock reads
        wheel_off: it is not looked at again: the wheel comes off, faces and seats are seen
        made: the looks made so far
        ran: engine hours still to run [h] by the clock that comes there first; less than nothing where it is overdue; None
            where nobody knows
        by: day by which it is made at the latest, whatever the clock reads
    """

    check: AfterCheck
    at: float | None
    second: float | None
    morning: date | None
    wheel_off: bool
    made: tuple[Made, ...]
    ran: float | None
    by: date | None = None

    @property
    def over(self) -> bool:
        """Whether the list is at its end."""
        return self.at is None and self.morning is None and self.by is None and not self.wheel_off


def checks_of(yard: Yard, number: int) -> tuple[AfterCheck, ...]:
    """The after-checks that run for a trouble: the newest of each look, in the order of the trade."""
    newest = {check.look: check for check in yard.after_checks if check.trouble == number}
    order = [row.id for row in steps().after_checks]
    return tuple(sorted(newest.values(), key=lambda check: order.index(check.look)))


def next_check(yard: Yard, trouble: Trouble, check: AfterCheck, today: date) -> NextCheck:
    """When an after-check is made next, after those made so far."""
    log = yard.clock_log(trouble.corner.machine)
    ahead = log.ahead("engine", check.on)  # of the count over what the clock read at set-down
    made = looks_made(yard, trouble, check)
    at, wheel_off = _next(check, ahead, made)
    now = log.count(today)
    shift = log.ahead("engine", today)
    second = None
    if at is not None and check.second and at - ahead in check.due and not _changed(log, check, today):
        place = check.due.index(at - ahead)
        second = check.second[place] if place < len(check.second) else None
    morning = _morning(check, made, today)
    return NextCheck(
        check,
        None if at is None else at - shift,
        second,
        None if wheel_off else morning,
        wheel_off,
        made,
        _left(log, check, today, None if at is None or now is None else round(at - now.hours, 1), second),
        None if made else check.by,
    )


def _changed(log: ClockLog, check: AfterCheck, today: date) -> bool:
    """Whether one of the clocks was changed since set-down: the readings printed for the second one are void then."""
    return any(log.ahead(clock, today) != log.ahead(clock, check.on) for clock in CLOCKS)


def _left(log: ClockLog, check: AfterCheck, today: date, left: float | None, second: float | None) -> float | None:
    """Engine hours still to run by the clock that comes there first.

    The second clock says something from the day on which it was read, as long as the engine's was not read later.
    """
    read = [(day, one.hours) for day, one in log.counted["threshing"] if check.on <= day <= today]
    if left is None or second is None or not read:
        return left
    day, stood = read[-1]
    rest = second + log.ahead("threshing", check.on) - stood
    newest = max((on for on, _ in log.counted["engine"] if on <= today), default=day)
    if rest > 0 and newest > day:
        return left
    return min(left, round(rest * log.rate[0], 1))


def looks_made(yard: Yard, trouble: Trouble, check: AfterCheck) -> tuple[Made, ...]:
    """The looks made since set-down, oldest first: written as this after-check, or as a finding with its clock reading."""
    log, row = yard.clock_log(trouble.corner.machine), look_of(check.look)
    start = check.set_down + log.ahead("engine", check.on)
    found: dict[float, Made] = {}
    for one in yard.findings_at(trouble.corner):
        if row and one.finding in row.finds and one.on >= check.on:
            _add(found, yard, trouble, one, one.grade not in STILL)
    for reading in yard.standing_readings:
        if reading.trouble == trouble.number and reading.step == check.look and reading.on >= check.on:
            moved = any(word not in STILL for word in reading.value.split(", "))
            _add(found, yard, trouble, reading, moved)
    return tuple(made for _, made in sorted(found.items()) if made.hours >= floor(start))


def _add(found: dict[float, Made], yard: Yard, trouble: Trouble, one: Finding | Reading, moved: bool) -> None:
    read, on = one.read(), one.on
    log = yard.clock_log(trouble.corner.machine)
    if read is None:
        count = log.count(on)
        hours = None if count is None else count.hours
    else:
        hours = log.on_clock(read, "engine", on).hours + log.ahead("engine", on)
    if hours is not None:
        before = found.get(hours)
        found[hours] = Made(on, hours, moved or (before is not None and before.moved))


def _next(check: AfterCheck, ahead: float, made: Sequence[Made]) -> tuple[float | None, bool]:
    """The next reading of the count of engine hours, and whether the wheel comes off instead."""
    row = look_of(check.look)
    start = floor(check.set_down)
    if check.look == NUTS and row and check.due:
        own: Row = row.model_copy(update={"hours": tuple(at - start for at in check.due), "then_every": check.every})
        told = two_still(steps().rules, own, start, [Looked(one.hours - ahead, one.moved) for one in made])
        return (None if told.at is None else told.at + ahead), told.wheel_off
    last = made[-1].hours if made else -1.0
    at = next((at + ahead for at in check.due if at + ahead > last), None)
    if at is None and check.every and check.due:
        at = check.due[-1] + ahead
        while at <= last:
            at += check.every
    return at, False


def _morning(check: AfterCheck, made: Sequence[Made], today: date) -> date | None:
    """The next morning on which it is made; one that was missed is made today, while its week lasts."""
    last = max((one.on for one in made), default=check.on)
    left = [day for day in check.mornings if day > last]
    if not left or today > check.mornings[-1]:
        return None
    return max(left[0], min(today, left[-1]))
