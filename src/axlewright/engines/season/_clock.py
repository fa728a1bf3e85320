"""The field clock: how much can be worked by any moment of each drawn season, and what waiting until then costs.

Two running sums make every course a few look-ups: no loop over days, none over draws.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.engines.season._ledger import CropAreas
from axlewright.engines.season.work import share_lost_by_waiting
from axlewright.kinds import Area, Array, Duration, FieldRate, Rate, Share

DAY = 86_400.0  # a calendar day [s]
HAIR = 1e-12  # of the hours given: what binary sums may be off by
Rows = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Crop:
    """One crop of the season. The order in which crops are given is the order in which they are worked.

    Attributes:
        area: what still stands [m^2]
        rate: area worked in an hour of the field [m^2/s]
        ready: from now until it may be worked; negative where it could be before [s]
        loss: share of it lost for each day that it waits past `grace` [1/s]
        grace: from `ready` on, time that it may wait without loss [s]
        doubling: time in which the loss of a day grows by as much as it began with; infinite: never [s]
        most: the greatest share that waiting can cost [-]
        ends: from now until what stands of it is lost; infinite: with the season [s]
    """

    area: Area
    rate: FieldRate
    ready: Duration = 0.0
    loss: Rate = 0.0
    grace: Duration = 0.0
    doubling: Duration = np.inf
    most: Share = 0.6
    ends: Duration = np.inf


@dataclass(frozen=True, slots=True)
class FieldClock:
    """Drawn seasons with the crops that stand in them; a season a row.

    Attributes:
        crops: in the order in which they are worked
        worked: field time that can be worked by the beginning of each day [s]
        waited: for each crop, field time by the beginning of each day times the share lost on the day it is worked [s]
        day: a calendar day [s]
        finish: when the last crop is off where nothing stops the machine; infinite: never [s]
        delayed: crop lost by waiting all the same, a crop each [m^2]
        standing: crop that is never taken off all the same, a crop each [m^2]
    """

    crops: tuple[Crop, ...]
    worked: Duration
    waited: tuple[Duration, ...]
    day: Duration = DAY
    finish: Duration = np.inf
    delayed: CropAreas = 0.0
    standing: CropAreas = 0.0

    @property
    def seasons(self) -> int:
        return int(np.shape(self.worked)[0])

    @property
    def end(self) -> float:
        """The season's end from now: what stands then is lost [s]."""
        return float(self.day * (np.shape(self.worked)[1] - 1))


def field_clock(crops: tuple[Crop, ...], workable: Duration, day: Duration = DAY) -> FieldClock:
    """Running sums of what can be worked, and of what is lost by waiting until then.

    Args:
        crops: in the order in which they are worked
        workable: field time of each calendar day from now to the season's end: seasons on the first axis, days on the
            last [s]
        day: a calendar day [s]

    Returns:
        the clock

    Source: prefix sums; the loss of a day is that of its morning (docs/engines/season.md).
    Valid: no day with more work in it than it has hours.
    """
    table = np.atleast_2d(np.asarray(workable, float))
    above("day", day)
    within("workable", table, 0.0, float(day), "field time within one day")
    if not crops:
        raise OutOfRange("crops", 0.0, 1.0, np.inf, why="a season needs a crop")
    for crop in crops:
        check_crop(crop)
    seasons, days = table.shape
    worked = np.zeros((seasons, days + 1))
    np.cumsum(table, axis=1, out=worked[:, 1:])
    mornings = np.arange(days) * float(day)
    waited = []
    for crop in crops:
        late = np.maximum(mornings - _column(crop.ready) - _column(crop.grace), 0.0)
        share = share_lost_by_waiting(
            late, _column(crop.loss), doubling=_column(crop.doubling), most=_column(crop.most)
        )
        sums = np.zeros((seasons, days + 1))
        np.cumsum(table * share, axis=1, out=sums[:, 1:])
        waited.append(sums)
    clock = FieldClock(crops, worked, tuple(waited), day)
    way = outset(clock, 0.0)
    work_on(clock, way, np.arange(seasons), np.full(seasons, np.inf), 1.0)
    return FieldClock(crops, worked, tuple(waited), day, way.finish(), np.stack(way.delayed, -1), way.standing())


def check_crop(crop: Crop) -> None:
    """Raise `OutOfRange` where a crop cannot be."""
    within("area", crop.area, 0.0, why="no less than nothing can stand")
    above("rate", crop.rate)
    within("ready", crop.ready)
    within("loss", crop.loss, 0.0)
    within("grace", crop.grace, 0.0)
    within("most", crop.most, 0.0, 1.0)
    if np.ndim(crop.ends) or np.isnan(crop.ends):
        raise OutOfRange("ends", np.nan, -np.inf, np.inf, why="one moment for all seasons, or never")


def _column(value: Share) -> Array:
    """One number a draw beside the days of that draw."""
    number = np.asarray(value, float)
    return number[:, None] if number.ndim else number


def read_at(sums: Duration, day: Duration, time: Duration, rows: Rows) -> Array:
    """A running sum at moments, straight within each day.

    Args:
        sums: running sums by the beginning of each day, a season a row [s]
        day: a calendar day [s]
        time: moments, one a season asked [s]
        rows: the seasons asked
    """
    table = np.asarray(sums)
    return _between(table.ravel(), *_place(table.shape[1] - 1, day, time, rows))


def _place(days: int, day: Duration, time: Duration, rows: Rows) -> tuple[Rows, Array]:
    """Where moments stand in a table of running sums laid out in one row, and how much of that day is over."""
    at = np.clip(np.asarray(time) / day, 0.0, days)
    whole = np.minimum(at.astype(np.intp), days - 1)
    return rows * (days + 1) + whole, at - whole


def _between(flat: Array, at: Rows, part: Array) -> Array:
    low = flat[at]
    return np.asarray(low + part * (flat[at + 1] - low))


def moment_of(sums: Duration, day: Duration, amount: Duration, rows: Rows) -> Array:
    """The first moment by which a running sum has come to an amount; infinite where it never does.

    Args:
        sums: running sums by the beginning of each day, a season a row [s]
        day: a calendar day [s]
        amount: amounts, one a season asked [s]
        rows: the seasons asked
    """
    table = np.asarray(sums)
    days = table.shape[1] - 1
    flat, first = table.ravel(), rows * (days + 1)
    low = np.zeros(len(rows), np.intp)  # the last day that begins with less than the amount
    step = 1 << max(days - 1, 0).bit_length()
    while step:
        ahead = np.minimum(low + step, days)
        low = np.where(flat[first + ahead] < amount, ahead, low)
        step >>= 1
    whole = np.minimum(low, days - 1)
    before = flat[first + whole]
    more = flat[first + whole + 1] - before
    part = np.divide(amount - before, more, out=np.zeros(len(rows)), where=more > 0)
    reached = flat[first + days] >= amount
    return np.where(reached, (whole + np.maximum(part, 0.0)) * day, np.inf)


@dataclass(slots=True)
class Way:
    """How far the seasons have come: one row a season, one list entry a crop."""

    time: Array  # now, in each [s]
    left: list[Array]  # still to be taken off [m^2]
    delayed: list[Array]  # lost by waiting so far, as an area of full worth [m^2]
    gone: list[
        Array | float
    ]  # lost as it stood, when its own time was over; nought while none has an end of its own [m^2]

    def copy(self) -> Way:
        lost = [a if isinstance(a, float) else a.copy() for a in self.gone]
        return Way(self.time.copy(), [a.copy() for a in self.left], [a.copy() for a in self.delayed], lost)

    def lose(self, crop: int, rows: Rows) -> None:
        """What stands of a crop is lost, as its own time is over."""
        lost = self.gone[crop]
        kept = np.zeros(len(self.time)) if isinstance(lost, float) else lost
        kept[rows] += self.left[crop][rows]
        self.left[crop][rows] = 0.0
        self.gone[crop] = kept

    def lost_as(self, other: Way, crop: int, rows: Rows) -> None:
        """In these seasons as much of a crop is lost as on another way."""
        mine, theirs = self.gone[crop], other.gone[crop]
        if isinstance(mine, float) and isinstance(theirs, float):
            return
        kept = np.zeros(len(self.time)) + mine
        kept[rows] = np.broadcast_to(theirs, kept.shape)[rows]
        self.gone[crop] = kept

    def standing(self) -> Array:
        """What was never taken off, a crop each [m^2]."""
        return np.stack([left + gone for left, gone in zip(self.left, self.gone, strict=True)], -1)

    def finish(self) -> Array:
        """When the last crop is off; infinite where some never is."""
        never = self.unfinished()
        for gone in self.gone:
            never |= np.asarray(gone) > 0
        return np.where(never, np.inf, self.time)

    def unfinished(self) -> NDArray[np.bool_]:
        standing = self.left[0] > 0
        for area in self.left[1:]:
            standing |= area > 0
        return standing


def outset(clock: FieldClock, time: Duration) -> Way:
    """All crops standing, at a moment of each season."""
    size = clock.seasons
    begin = np.minimum(np.broadcast_to(np.asarray(time, float), (size,)), clock.end)
    areas = [np.broadcast_to(np.asarray(crop.area, float), (size,)).copy() for crop in clock.crops]
    return Way(begin.copy(), areas, [np.zeros(size) for _ in clock.crops], [0.0 for _ in clock.crops])


def work_on(
    clock: FieldClock, way: Way, rows: Rows, budget: Duration, rate: Share, until: Duration | None = None
) -> Array:
    """Go on with the crops in turn, until they are off, the field time given is used, a moment is there, or the season ends.

    Args:
        clock: the drawn seasons
        way: how far they have come; moved on
        rows: the seasons that go on
        budget: field time that may be worked, one a row [s]
        rate: rate of the machine, by that of the own one; one a row [-]
        until: moment at which it stops, one a row [s]

    Returns:
        field time worked, one a row [s]
    """
    time = start = way.time[rows]
    total = np.zeros(len(rows))
    days = np.shape(clock.worked)[1] - 1
    worked = np.asarray(clock.worked).ravel()
    whole = worked[rows * (days + 1) + days]
    limit = None if until is None else read_at(clock.worked, clock.day, until, rows)
    for number, crop in enumerate(clock.crops):
        standing = way.left[number][rows]
        if not standing.any():
            continue
        pace = at_rows(crop.rate, rows) * rate
        need = standing / pace
        take = np.minimum(need, budget - total)
        goes = take > 0
        begin = np.where(goes, np.maximum(time, at_rows(crop.ready, rows)), time)
        began = _place(days, clock.day, begin, rows)
        before = _between(worked, *began)
        if limit is not None:
            take = np.minimum(take, np.maximum(limit - before, 0.0))
        over = None
        if crop.ends < clock.end:
            ends = np.full(len(rows), float(crop.ends))
            room = np.maximum(read_at(clock.worked, clock.day, ends, rows) - before, 0.0)
            over = (standing > 0) & (room < np.minimum(need, budget - total))
            over &= True if until is None else ends <= until
            take = np.minimum(take, room)
        end = np.maximum(moment_of(clock.worked, clock.day, before + take, rows), begin)
        late = end >= np.inf
        end[late] = clock.end
        done = np.where(late, np.maximum(whole - before, 0.0), np.maximum(take, 0.0))
        waited = np.asarray(clock.waited[number]).ravel()
        lost = _between(waited, *_place(days, clock.day, end, rows)) - _between(waited, *began)
        way.delayed[number][rows] += pace * np.where(goes, lost, 0.0)
        way.left[number][rows] = np.where(~late & (take >= need), 0.0, np.maximum(standing - pace * done, 0.0))
        time = np.where(goes, end, time)
        total += done
        if over is not None and over.any():
            way.lose(number, rows[over])
            time = np.where(over, np.maximum(time, crop.ends), time)
    if until is not None:  # what the moment stopped stands there then, also where it was idle before
        stopped = way.unfinished()[rows] & (total < budget * (1 - HAIR))
        time = np.where(stopped, np.maximum(until, start), time)
    way.time[rows] = np.minimum(time, clock.end)
    return total


def at_rows(value: Share, rows: Rows) -> Array:
    """A number, or the numbers of these draws."""
    numbers = np.asarray(value, float)
    return numbers[rows] if numbers.ndim else numbers
