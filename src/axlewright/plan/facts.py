"""From the yard's records to what is judged: findings with their age in engine hours and days, at the careful end.

A clock that nobody read may have run 24 h a day since. So a finding's age in engine hours is what the clocks tell, their
doubts added, and 24 h for every day since the last reading: a look without a clock reading is worth a day.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from axlewright.trade.findings import findings
from axlewright.yard import Corner, Finding, Hours, Yard
from axlewright.yard.hours import MOST_A_DAY


@dataclass(frozen=True, slots=True)
class Seen:
    """One finding as it is judged: how long ago it was seen, in engine hours and days.

    An age of None says nothing against it: seen now.

    Attributes:
        since_wiped: engine hours that the plug had run since it was last wiped, when it was looked at; None where nobody
            knows, and then the look counts
        since_off: engine hours that the wheel had run since it was off, when the nuts were looked at; None: long ago
        since_bad: least engine hours from the last bad look of this kind to this one; None: as the ages say
        running: it belongs to the trouble that runs at this corner
    """

    finding: str
    grade: str
    hours_ago: float | None = None
    days_ago: float | None = None
    photo: bool = False
    since_wiped: float | None = None
    since_off: float | None = None
    since_bad: float | None = None
    running: bool = False
    who: str = ""


def seen_at(yard: Yard, corner: Corner, today: date) -> tuple[Seen, ...]:
    """All that is on record of the drive that sits at a corner, each with its age."""
    found, running = yard.findings_at(corner), yard.running_at(corner)
    return tuple(
        replace(
            _seen(yard, corner, one, found[:number], today),
            running=running is not None and one.trouble == running.number,
        )
        for number, one in enumerate(found)
        if one.on <= today
    )


def seen_now(findings: Sequence[Finding]) -> tuple[Seen, ...]:
    """Findings just made, before a machine is named."""
    return tuple(Seen(one.finding, one.grade, photo=bool(one.photo), who=one.who) for one in findings)


def job_open(yard: Yard, corner: Corner) -> bool:
    """Whether a job is in hand at a corner: from the step card begun until the machine stands on its wheels."""
    running = yard.running_at(corner)
    return running is not None and yard.stage(running.number) == "in hand"


def clock_now(yard: Yard, corner: Corner, today: date) -> Hours | None:
    """The clock that this machine's findings are written by, as it stands: None if it was not read that day or the day before."""
    machine = yard.machine(corner.machine)
    for clock in machine.clocks:
        read = [on for on, _ in yard.clock_log(machine.id).readings(clock) if on <= today]
        if read and (today - max(read)).days <= 1:
            return yard.hours(machine.id, today, clock)
    return None


def hours_ago(yard: Yard, corner: Corner, found: Finding, today: date) -> float:
    """The most engine hours that may have passed since a finding."""
    days = (today - found.on).days
    ran = yard.run_since(found, today)
    if ran is None:
        return MOST_A_DAY * days
    unread = (today - max(found.on, last_read(yard, corner, today))).days
    return min(ran.hours + ran.about + MOST_A_DAY * unread, MOST_A_DAY * max(days, 1))


def last_read(yard: Yard, corner: Corner, today: date) -> date:
    """The last day on which one of the machine's clocks was read."""
    return yard.clock_log(corner.machine).last_read(today) or date.min


def _seen(yard: Yard, corner: Corner, found: Finding, earlier: Sequence[Finding], today: date) -> Seen:
    return Seen(
        finding=found.finding,
        grade=found.grade,
        hours_ago=round(hours_ago(yard, corner, found, today), 1),
        days_ago=float((today - found.on).days),
        photo=bool(found.photo),
        since_wiped=_since_wiped(yard, corner, found, earlier),
        since_off=_since_off(yard, corner, found),
        since_bad=_since_bad(yard, corner, found, earlier),
        who=found.who,
    )


def _since_wiped(yard: Yard, corner: Corner, found: Finding, earlier: Sequence[Finding]) -> float | None:
    """Least engine hours from the plug's last look, which wiped it, to this one; None where the clock was not read at both."""
    if found.finding != "plug" or found.hours is None:
        return None
    before = [one for one in earlier if one.finding == "plug" and one.hours is not None and _other_look(one, found)]
    if not before:
        return None
    return _least_ran(yard, corner, before[-1], found)


def _since_bad(yard: Yard, corner: Corner, found: Finding, earlier: Sequence[Finding]) -> float | None:
    """Least engine hours from the last look that found a bolt or nut moved, to this one; none where no clock tells."""
    needing = {grade.id for grade in findings()[found.finding].grades if grade.put_right}
    bad = [one for one in earlier if one.finding == found.finding and one.grade in needing] if needing else ()
    return (_least_ran(yard, corner, bad[-1], found) or 0.0) if bad else None


def _least_ran(yard: Yard, corner: Corner, earlier: Finding, found: Finding) -> float | None:
    """Least engine hours from one look to another; None where no clock tells."""
    then, now = earlier.read(), found.read()
    if then and now and now.clock == then.clock:  # engine hours are not fewer than threshing hours
        return max(now.hours - then.hours - now.about - then.about, 0.0)
    ran = yard.clock_log(corner.machine).ran(earlier.on, found.on, then)
    return None if ran is None else max(ran.hours - ran.about, 0.0)


def _other_look(one: Finding, found: Finding) -> bool:
    """Whether a finding is of another look than this one: two people at one plug are one look."""
    return one.on != found.on or (one.clock == found.clock and one.hours != found.hours)


def _since_off(yard: Yard, corner: Corner, found: Finding) -> float | None:
    """Least engine hours from the drive's coming to its corner, when the wheel was off, to a look at the nuts."""
    drive = yard.drive_at(corner)
    if found.finding != "nuts" or drive is None or drive.since is None:
        return None
    ran = yard.clock_log(corner.machine).ran(drive.since, found.on)
    return 0.0 if ran is None else max(ran.hours - ran.about, 0.0)
