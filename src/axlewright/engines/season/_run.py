"""One course through all drawn seasons at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.season._checked import check
from axlewright.engines.season._clock import HAIR, FieldClock, Rows, Way, at_rows, outset, work_on
from axlewright.engines.season._ledger import Ledger
from axlewright.engines.season._stops import (
    Drives,
    Mask,
    Tally,
    after_winter,
    count_let_go,
    fetch,
    found_at,
    hired_from,
    machine_hours,
    next_idle,
    stand,
)
from axlewright.engines.season.courses import Common, Course, Life, Outcome, Recovery, Winter
from axlewright.kinds import Array

USED, PLAIN = Recovery(), Winter()
MOST_STOPS = 2  # in one season: the third drive holds


def untroubled(clock: FieldClock) -> Outcome:
    """How the seasons go without trouble: what every course is held against.

    Args:
        clock: the drawn seasons

    Returns:
        the outcome of a machine that never stops

    Source: the field clock.
    Valid: as the clock.
    """
    nothing = np.zeros(clock.seasons)
    season = Ledger(delayed=clock.delayed, standing=clock.standing)
    return Outcome(
        "without trouble",
        0,
        Ledger(),
        season,
        clock.finish,
        nothing,
        nothing,
        nothing,
        nothing,
        Life(),
        nothing,
        nothing,
    )


def run_course(
    clock: FieldClock,
    common: Common,
    course: Course,
    recoveries: tuple[Recovery, ...] = (USED,),
    winter: Winter = PLAIN,
) -> tuple[Outcome, ...]:
    """How a course goes in every drawn season, under each recovery.

    Args:
        clock: the drawn seasons
        common: what is drawn once for all courses
        course: the course
        recoveries: what may be done once the machine stands; the first stretch is gone through once for all of them
        winter: what a rebuild takes, and what winter's bills count today

    Returns:
        an outcome for each recovery

    Source: events of a season in docs/engines/season.md.
    Valid: two drives let go at most; the third holds.
    """
    check(clock, common, course, recoveries)
    first = _first_stretch(clock, common, course, winter)
    return tuple(
        _recovered(clock, common, course, recovery, winter, first, number) for number, recovery in enumerate(recoveries)
    )


@dataclass(frozen=True, slots=True)
class _First:
    """The first stretch: until a stop, the last crop or the season's end."""

    way: Way
    drives: Drives
    tally: Tally
    let_go: Rows
    found: Rows


def _first_stretch(clock: FieldClock, common: Common, course: Course, winter: Winter) -> _First:
    size = clock.seasons
    rows = np.arange(size)
    way, drives, tally = outset(clock, course.ready), _drives(clock, common, course, winter), Tally(size)
    if course.meanwhile:
        way = _until_it_comes(clock, common, course, winter, tally, drives)
    nobody = np.empty(0, np.intp)
    if course.works == "none":
        way.time[:] = clock.end
        return _First(way, drives, tally, nobody, nobody)
    found = found_at(course.checks, Life(drives.fails, drives.lets_go), np.asarray(common.seen), size)
    stop = np.minimum(drives.lets_go, found)
    per = machine_hours(common, rows)
    budget = np.maximum(stop, 0.0) / per
    worked = work_on(clock, way, rows, budget, at_rows(course.rate, rows))
    if course.works == "hired":
        _count_hired(clock, tally, way, rows)
    stopped = (worked >= budget * (1 - HAIR)) & way.unfinished()
    hours = np.where(stopped, np.maximum(stop, 0.0), worked * per)
    if np.isfinite(course.checks.interval):
        tally.add("checks", rows, np.floor(hours / course.checks.interval * (1 + HAIR)))
    drives.wear(rows, hours)
    seen = found < np.inf
    return _First(way, drives, tally, rows[stopped & ~seen], rows[stopped & seen])


def _until_it_comes(
    clock: FieldClock, common: Common, course: Course, winter: Winter, tally: Tally, drives: Drives
) -> Way:
    """On with the drive in trouble until the other is there: it may let go before, and then waits in the field."""
    rows = np.arange(clock.seasons)
    way, per = outset(clock, 0.0), machine_hours(common, rows)
    fails, lets_go = (
        np.broadcast_to(np.asarray(v, float), rows.shape) for v in (common.fitted.fails, common.fitted.lets_go)
    )
    comes = np.minimum(np.broadcast_to(np.asarray(course.arrives, float), rows.shape), clock.end)
    budget = lets_go / per
    worked = work_on(clock, way, rows, budget, at_rows(course.rate, rows), comes)
    standing = way.unfinished()
    broken = (worked >= budget * (1 - HAIR)) & standing
    suffered = np.where(broken, winter.let_go, np.where(worked * per >= fails, winter.failing, 1.0))
    drives.core = np.where(drives.core > 0, suffered, 0.0)
    bench = np.broadcast_to(np.asarray(course.now.rebuilds, float), rows.shape)  # counted as it stood at first
    tally.add("rebuilds", rows, np.where(bench > 0, suffered - bench, 0.0))
    tally.add("deposits", rows, np.where(broken, course.now.exchanges, 0.0))
    gone = rows[broken]
    count_let_go(common, tally, drives, gone)
    jobs = common.jobs
    tally.add("labour", gone, at_rows(jobs.field_swap.labour, gone) - at_rows(jobs.swap.labour, gone))
    more = np.where(broken, np.maximum(np.asarray(jobs.field_swap.takes) - jobs.swap.takes, 0.0), 0.0)
    stands = np.asarray(course.ready, float) - course.arrives + more
    on = np.minimum(np.where(standing, np.maximum(way.time, comes) + stands, way.time), clock.end)
    drives.down = on - way.time
    way.time = on
    return way


def _drives(clock: FieldClock, common: Common, course: Course, winter: Winter) -> Drives:
    size = clock.seasons

    def full(value: object) -> Array:
        return np.broadcast_to(np.asarray(value, float), (size,)).copy()

    on_shelf = full(common.spare.lead) < np.inf
    spare = on_shelf.astype(float) - (course.source == "spare") * on_shelf
    core = np.where(full(common.fitted.fails) <= 0, full(winter.failing), 1.0) * np.asarray(course.swaps)
    ready = np.minimum(full(course.ready), clock.end)
    return Drives(
        full(course.life.fails), full(course.life.lets_go), spare, core,
        np.zeros(size) if course.works == "none" else ready, np.zeros(size), np.zeros(size),
    )  # fmt: skip


def _recovered(
    clock: FieldClock, common: Common, course: Course, recovery: Recovery, winter: Winter, first: _First, number: int
) -> Outcome:
    way, drives = first.way.copy(), first.drives.copy()
    tally = Tally(first.tally.size, {name: many.copy() for name, many in first.tally.counts.items()})
    let_go, found = first.let_go, first.found
    if course.works == "own" and not course.meanwhile:
        early = _hired_at_once(clock, common, course, recovery, way, tally, drives)
        let_go, found = let_go[~early[let_go]], found[~early[found]]
    ordered = way.time.copy()
    if found.size:
        found, gone = _after_a_find(clock, common, course, recovery, way, drives, found)
        let_go = np.concatenate([let_go, gone])
        ordered[gone] = way.time[gone]
    if let_go.size and course.warranty.hours:
        _refund(common, course, way, tally, first, let_go)
    standing = way.unfinished()
    rows = np.concatenate([let_go, found])
    broken = np.arange(len(rows)) < len(let_go)
    if course.works == "hired":  # nobody came: the own machine, with the drive that the recovery names
        never = np.flatnonzero((np.broadcast_to(course.ready, (clock.seasons,)) >= np.inf) & standing)
        way.time[never] = ordered[never] = drives.down[never] = 0.0
        tally.add("hire_calls", never, -1.0)
        drives.fails[never] = at_rows(common.fitted.fails, never)  # it still sits there, and comes off now
        rows, broken = np.concatenate([rows, never]), np.concatenate([broken, np.zeros(len(never), bool)])
    for turn in range(MOST_STOPS):
        if not rows.size:
            break
        by_hire = stand(common, recovery, winter, way, tally, drives, rows, broken, ordered[rows], turn, clock.end)
        rows = _go_on(clock, common, course, way, tally, drives, rows, by_hire, turn)
        ordered[rows] = way.time[rows]
        broken = np.ones(len(rows), bool)
    after_winter(common, course, winter, tally, drives)
    finish = way.finish()
    lost = np.minimum(finish, clock.end) - np.minimum(clock.finish, clock.end)
    return Outcome(
        course.name, number, course.now, course.now + tally.ledger(way), finish, lost, drives.down, drives.failed,
        drives.unsafe, Life(drives.fails, drives.lets_go), drives.spare, drives.core,
    )  # fmt: skip


def _go_on(
    clock: FieldClock, common: Common, course: Course, way: Way, tally: Tally, drives: Drives,
    rows: Rows, by_hire: Mask, turn: int,
) -> Rows:  # fmt: skip
    """Work after a stop; the seasons in which the new drive lets go too."""
    hired, own = rows[by_hire], rows[~by_hire]
    if hired.size:
        before = way.standing()[hired]
        work_on(clock, way, hired, np.full(len(hired), np.inf), at_rows(common.hire_rate, hired))
        for taken in (before - way.standing()[hired]).T:
            tally.add("hired", hired, taken)
    if not own.size:
        return own
    per = machine_hours(common, own)
    budget = drives.lets_go[own] / per if turn + 1 < MOST_STOPS else np.full(len(own), np.inf)
    rate = at_rows(course.rate, own) if course.works == "second" else np.ones(len(own))
    worked = work_on(clock, way, own, budget, rate)
    again = (worked >= budget * (1 - HAIR)) & way.unfinished()[own]
    drives.wear(own, np.where(again, drives.lets_go[own], worked * per))
    return own[again]


def _after_a_find(
    clock: FieldClock, common: Common, course: Course, recovery: Recovery, way: Way, drives: Drives, found: Rows
) -> tuple[Rows, Rows]:
    """A find is no stop yet: the seasons in which the machine is brought to one, and those in which the drive lets go first."""
    if course.checks.on_find == "stop":
        return found, found[:0]
    now = way.time[found]
    if course.checks.on_find == "next idle day":
        until = next_idle(clock, now, found)
    else:
        until = np.minimum(now + fetch(common, recovery, drives, found, 0).lead, clock.end)
    per = machine_hours(common, found)
    budget = drives.lets_go[found] / per
    worked = work_on(clock, way, found, budget, at_rows(course.rate, found), until)
    standing = way.unfinished()[found]
    gone = (worked >= budget * (1 - HAIR)) & standing
    drives.wear(found, np.where(gone, drives.lets_go[found], worked * per))
    return found[standing & ~gone], found[gone]


def _hired_at_once(
    clock: FieldClock, common: Common, course: Course, recovery: Recovery, way: Way, tally: Tally, drives: Drives
) -> Mask:
    """Where a drive is so long in coming that a hired machine is there before it, that one takes the season."""
    size = clock.seasons
    rows = np.arange(size)
    ready = np.broadcast_to(np.asarray(course.ready, float), (size,))
    if not (np.isfinite(recovery.wait) or recovery.quoted) or not ready.any():
        return np.zeros(size, bool)
    hired = hired_from(common, recovery, np.zeros(size), ready, rows)
    early: Mask = hired < ready
    mine = rows[early]
    if mine.size:
        fresh = outset(clock, np.where(early, hired, 0.0))
        work_on(clock, fresh, mine, np.full(len(mine), np.inf), at_rows(common.hire_rate, mine))
        way.time[mine] = fresh.time[mine]
        for number, area in enumerate(fresh.left):
            way.left[number][mine] = area[mine]
            way.delayed[number][mine] = fresh.delayed[number][mine]
            way.lost_as(fresh, number, mine)
        if "checks" in tally.counts:
            tally.counts["checks"][mine] = 0.0
        _count_hired(clock, tally, way, mine)
        tally.add("hire_calls", mine, 1.0)
        drives.down[mine] = np.minimum(hired[mine], clock.end)
        drives.fails[mine] = at_rows(course.life.fails, mine)
        drives.lets_go[mine] = at_rows(course.life.lets_go, mine)
    return early


def _count_hired(clock: FieldClock, tally: Tally, way: Way, rows: Rows) -> None:
    standing = way.standing()
    for number, crop in enumerate(clock.crops):
        tally.add("hired", rows, at_rows(crop.area, rows) - standing[rows, number])


def _refund(common: Common, course: Course, way: Way, tally: Tally, first: _First, rows: Rows) -> None:
    """What the seller pays back of a used drive that let go under warranty."""
    warranty = course.warranty
    hours = at_rows(course.life.lets_go, rows)
    since = way.time[rows] - at_rows(course.ready, rows)
    kept = (hours <= warranty.hours) & (since <= warranty.days) & (at_rows(common.honoured, rows) < warranty.chance)
    share = 1 - hours / np.asarray(warranty.hours, float) if warranty.pro_rata else np.ones(len(rows))
    bought = at_rows(course.now.used, rows)  # none where there was none to be had
    tally.add("refunds", rows, np.where(kept, share * bought, 0.0))
