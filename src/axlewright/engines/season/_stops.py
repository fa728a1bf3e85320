"""When a check finds it, what a stop costs, and what the machine goes on with afterwards."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.season._clock import FieldClock, Rows, Way, at_rows
from axlewright.engines.season._ledger import Ledger
from axlewright.engines.season.courses import Checks, Common, Course, Life, Recovery, Winter
from axlewright.kinds import Array

Mask = NDArray[np.bool_]


@dataclass(slots=True)
class Tally:
    """What is counted on the way, one a season; a count that nothing touches stays nought."""

    size: int
    counts: dict[str, Array] = field(default_factory=dict)

    def add(self, name: str, rows: Rows, many: Array | float) -> None:
        if name not in self.counts:
            self.counts[name] = np.zeros(self.size)
        self.counts[name][rows] += many

    def ledger(self, way: Way) -> Ledger:
        return Ledger(**self.counts, delayed=np.stack(way.delayed, -1), standing=way.standing())


@dataclass(slots=True)
class Drives:
    """The drive that works, and those that came off, one a season."""

    fails: Array  # machine hours before the drive at work begins to fail [s]
    lets_go: Array  # and lets go [s]
    spare: Array  # spares on the shelf
    core: Array  # sets of parts for the drive that came off; 0: none did
    down: Array  # time the machine stood [s]
    failed: Array  # drives that let go
    unsafe: Array  # chance that it was unsafe

    def copy(self) -> Drives:
        return Drives(*(getattr(self, name).copy() for name in self.__slots__))

    def wear(self, rows: Rows, hours: Array) -> None:
        self.fails[rows] -= hours
        self.lets_go[rows] -= hours


def found_at(checks: Checks, life: Life, seen: Array, size: int) -> Array:
    """Machine hours at which a check finds that the drive fails; infinite where none does before it lets go [s]."""
    interval = float(checks.interval)
    if not np.isfinite(interval):
        return np.full(size, np.inf)
    luck = np.broadcast_to(np.asarray(seen, float), (size,))
    never = np.broadcast_to(np.asarray(checks.never_seen, float), (size,))
    with np.errstate(divide="ignore", invalid="ignore"):
        left = np.where(luck < never, 0.0, (1 - luck) / (1 - never))
        misses = np.floor(np.log(left) / np.log1p(-np.asarray(checks.power, float)))
    misses = np.where(
        luck < never, np.inf, np.where(np.asarray(checks.power) >= 1, 0.0, np.where(left >= 1, 0.0, misses))
    )
    misses = np.where(np.asarray(checks.power) <= 0, np.inf, misses)
    first = np.maximum(np.ceil(np.asarray(life.fails, float) / interval), 1.0)
    found = (first + misses) * interval
    return np.asarray(np.where(found < life.lets_go, found, np.inf))


def next_idle(clock: FieldClock, time: Array, rows: Rows) -> Array:
    """The first morning from a moment on, of a day that cannot be worked; the season's end where all can [s]."""
    worked = np.asarray(clock.worked)
    days = worked.shape[1] - 1
    idle = worked[rows, 1:] <= worked[rows, :-1]
    mornings = np.arange(days) * float(clock.day)
    ahead = idle & (mornings >= time[:, None])
    return np.where(ahead.any(axis=1), mornings[ahead.argmax(axis=1)], clock.end)


@dataclass(frozen=True, slots=True)
class Fetched:
    """What is put in after a stop, one a row: of the shelf, used, exchange, or the old drive rebuilt."""

    lead: Array
    fails: Array
    lets_go: Array
    shelf: Mask
    used: Mask
    exchange: Mask
    rebuilt: Mask


def fetch(common: Common, recovery: Recovery, drives: Drives, rows: Rows, turn: int) -> Fetched:
    """The drive that the recovery names; where there is none the next best: used for a spare, else the old one rebuilt."""

    def lives(source: str, name: str) -> Array:
        replacement = getattr(common, source)
        life = replacement.life if turn == 0 else replacement.next_life
        return np.asarray(at_rows(getattr(life, name), rows))

    def lead(source: str) -> Array:
        return np.broadcast_to(at_rows(getattr(common, source).lead, rows), rows.shape)

    nothing = np.zeros(len(rows), bool)
    shelf = (drives.spare[rows] > 0) & (lead("spare") < np.inf) if recovery.source == "spare" else nothing
    wants_used = ~shelf if recovery.source in ("spare", "used") else nothing
    used = wants_used & (lead("used") < np.inf)
    exchange = (lead("exchange") < np.inf) if recovery.source == "exchange" else nothing
    rebuilt = ~(shelf | used | exchange)
    masks = {"spare": shelf, "used": used, "exchange": exchange, "rebuilt": rebuilt}
    bench = np.where(rebuilt, at_rows(common.jobs.rebuild.takes, rows), 0.0)
    picks = list(masks.values())

    def picked(values: list[Array]) -> Array:
        return np.asarray(np.select(picks, values))

    return Fetched(
        picked([lead(s) for s in masks]) + bench,
        picked([lives(s, "fails") for s in masks]),
        picked([lives(s, "lets_go") for s in masks]),
        shelf, used, exchange, rebuilt,
    )  # fmt: skip


def hired_from(common: Common, recovery: Recovery, ordered: Array, ready: Array, rows: Rows) -> Array:
    """When a hired machine works, by what is known when it is called; infinite where none is called [s]."""
    late = ready - ordered > recovery.wait
    call = np.where(late, ordered + (0.0 if recovery.quoted else recovery.wait), np.inf)
    return np.asarray(call + at_rows(common.hire_lead, rows))


def stand(
    common: Common, recovery: Recovery, winter: Winter, way: Way, tally: Tally, drives: Drives,
    rows: Rows, let_go: Mask, ordered: Array, turn: int, end: float,
) -> Mask:  # fmt: skip
    """The machine stands: fetch a drive, hire or wait, and count it. Which of these seasons go on with a hired machine."""
    got = fetch(common, recovery, drives, rows, turn)
    jobs = common.jobs
    since = way.time[rows]
    takes = np.where(let_go, at_rows(jobs.field_swap.takes, rows), at_rows(jobs.swap.takes, rows))
    back = np.maximum(since, ordered + got.lead) + takes
    hired = np.maximum(hired_from(common, recovery, ordered, back, rows), since)
    by_hire = hired < back
    on = np.minimum(np.where(by_hire, hired, back), end)
    drives.down[rows] += on - since
    way.time[rows] = on
    people = np.where(let_go, at_rows(jobs.field_swap.labour, rows), at_rows(jobs.swap.labour, rows))
    people = people + np.where(got.rebuilt, at_rows(jobs.rebuild.labour, rows), 0.0)
    tally.add("labour", rows, np.where(by_hire, 0.0, people))
    tally.add("winter_labour", rows, np.where(by_hire, people * at_rows(winter.today, rows), 0.0))
    tally.add("hire_calls", rows, by_hire.astype(float))
    tally.add("used", rows, got.used.astype(float))
    tally.add("exchanges", rows, got.exchange.astype(float))
    tally.add("deposits", rows, (got.exchange & let_go).astype(float))
    suffered = np.where(let_go, winter.let_go, np.where(drives.fails[rows] <= 0, winter.failing, 1.0))
    tally.add("rebuilds", rows, np.where(got.rebuilt, suffered, 0.0))
    keeps = (drives.core[rows] == 0) & ~got.rebuilt & ~got.exchange
    drives.core[rows] = np.where(keeps, suffered, drives.core[rows])
    drives.spare[rows] -= got.shelf
    drives.fails[rows], drives.lets_go[rows] = got.fails, got.lets_go
    count_let_go(common, tally, drives, rows[let_go])
    return by_hire


def count_let_go(common: Common, tally: Tally, drives: Drives, gone: Rows) -> None:
    """What a let go at work takes wherever it comes: recovery, parts, damage, and the chance of harm."""
    tally.add("tows", gone, 1.0)
    tally.add("extra_parts", gone, 1.0)
    tally.add("damage", gone, at_rows(common.damage, gone))
    drives.failed[gone] += 1
    road = at_rows(common.road, gone)
    harm = (road * at_rows(common.unsafe_road, gone) + at_rows(common.unsafe_field, gone)) / (1 + road)
    drives.unsafe[gone] = 1 - (1 - drives.unsafe[gone]) * (1 - harm)


def machine_hours(common: Common, rows: Rows) -> Array:
    """Machine hours for each hour of the field [-]."""
    return 1.0 + at_rows(common.road, rows)


def after_winter(common: Common, course: Course, winter: Winter, tally: Tally, drives: Drives) -> None:
    """The old drive on the bench over winter: for the shelf where it came off, or put back where it still sits."""
    if course.winter == "nothing":
        return
    rows = np.arange(tally.size)
    today = np.broadcast_to(np.asarray(winter.today, float), (tally.size,))
    off = drives.core > 0
    parts, bench = drives.core * today, np.asarray(common.jobs.rebuild.labour) * today
    tally.add("rebuilds", rows, np.where(off, parts, 0.0))
    tally.add("winter_labour", rows, np.where(off, bench, 0.0))
    drives.spare += off
    if course.winter == "back":
        sits = ~off if course.works == "hired" else np.ones(tally.size, bool)
        suffered = np.where(np.asarray(common.fitted.fails) <= 0, winter.failing, 1.0)
        tally.add("rebuilds", rows, np.where(sits, suffered * today, 0.0))
        tally.add("winter_labour", rows, np.where(sits, bench + np.asarray(common.jobs.swap.labour) * today, 0.0))
        drives.fails = np.where(sits, common.rebuilt.life.fails, drives.fails)
        drives.lets_go = np.where(sits, common.rebuilt.life.lets_go, drives.lets_go)
