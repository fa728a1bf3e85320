"""What a day lost costs, by its date: every season gone through with that day taken out of it, and without."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.engines.season._clock import DAY, HAIR, Crop, Rows, at_rows, check_crop, moment_of, read_at
from axlewright.engines.season.work import share_lost_by_waiting
from axlewright.kinds import Area, Array, Duration

Days: TypeAlias = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class DaysLost:
    """A season without stop, and what each day taken out of it costs more.

    Attributes:
        finish: when the last crop is off where no day is lost; infinite: never [s]
        lost: crop lost all the same, as an area of full worth: seasons, then crops [m^2]
        more: crop lost besides where one day is taken out: seasons, then the days asked, then crops [m^2]
    """

    finish: Duration
    lost: Area
    more: Area


def days_lost(
    crops: tuple[Crop, ...], ends: tuple[float, ...], workable: Duration, days: Days, day: Duration = DAY
) -> DaysLost:
    """What waits longer, and what is never cut, where one day of the season is lost to the machine.

    Work goes on the morning after; what it would have cut that day waits, and so does everything behind it. Running sums
    with one day taken out are the sums themselves less what lies past it, so no season is summed up twice.

    Args:
        crops: in the order in which they are worked
        ends: from now until what stands of each crop is lost, one a crop [s]
        workable: field time of each calendar day from now: seasons on the first axis, days on the last [s]
        days: the days that are taken out, one after the other, each alone: 0 is the first [1]
        day: a calendar day [s]

    Returns:
        what a season costs in crop, and each day lost besides

    Source: prefix sums with a day taken out; K(t) of `share_lost_by_waiting` (docs/engines/season.md).
    Valid: one machine, one order of crops; what it stands for on that day is nobody else's to cut.
    """
    table = np.atleast_2d(np.asarray(workable, float))
    above("day", day)
    within("workable", table, 0.0, float(day), "field time within one day")
    seasons, span = table.shape
    asked = np.asarray(days, np.intp)
    if asked.size and not (asked.min() >= 0 and asked.max() < span):
        raise OutOfRange("days", float(asked.max()), 0.0, span - 1.0, why="a day of the season")
    if not crops or len(crops) != len(ends):
        raise OutOfRange("crops", len(crops), 1.0, np.inf, why="a season needs a crop, and each crop its end")
    for crop in crops:
        check_crop(crop)
    out = _Out(table, asked, float(day))
    lost = np.empty((out.size, len(crops)))
    time, finish = np.zeros(out.size), np.zeros(out.size)
    for number, (crop, end) in enumerate(zip(crops, ends, strict=True)):
        lost[:, number], time, off = _cut(out, crop, end, time)
        finish = np.maximum(finish, off)
    by_day = lost.reshape(seasons, 1 + len(asked), len(crops))
    return DaysLost(
        finish.reshape(seasons, -1)[:, 0], by_day[:, 0], np.maximum(by_day[:, 1:] - by_day[:, :1], 0.0)
    )  # never better: later work never loses less


class _Out:
    """Seasons times (no day, each day asked) taken out, in one long row."""

    def __init__(self, table: Array, asked: Days, day: float) -> None:
        seasons, span = table.shape
        self.table, self.day, self.days = table, day, span
        self.columns = np.concatenate([[0], asked])
        self.taken = np.concatenate([[0.0], np.ones(len(asked))])  # of that day: none, else all of it
        self.rows: Rows = np.repeat(np.arange(seasons), len(self.columns))
        self.size = len(self.rows)
        self.worked = self.sums(table)

    def sums(self, amounts: Array) -> tuple[Array, Array, Array]:
        """Running sums, where the day taken out begins in them, and how much of them it takes."""
        whole = np.zeros((len(amounts), self.days + 1))
        np.cumsum(amounts, axis=1, out=whole[:, 1:])
        return whole, whole[:, self.columns].ravel(), (amounts[:, self.columns] * self.taken).ravel()

    def read(self, sums: tuple[Array, Array, Array], time: Array) -> Array:
        """A running sum at these moments, the day left out."""
        whole, begins, takes = sums
        there = read_at(whole, self.day, time, self.rows)
        return np.asarray(there - np.clip(there - begins, 0.0, takes))

    def moment(self, amount: Array) -> Array:
        """The first moment by which so much was worked, the day left out."""
        whole, begins, takes = self.worked
        return moment_of(whole, self.day, np.where(amount > begins, amount + takes, amount), self.rows)


def _cut(out: _Out, crop: Crop, end: float, time: Array) -> tuple[Array, Array, Array]:
    """One crop: what of it is lost, when the machine is free again, when it was off."""
    area, pace = _one_a_row(out, crop.area), _one_a_row(out, crop.rate)
    close = min(end, out.day * out.days)
    begin = np.maximum(time, _one_a_row(out, crop.ready))
    before = out.read(out.worked, begin)
    room = np.maximum(out.read(out.worked, np.full(out.size, close)) - before, 0.0)
    need = area / pace
    through = need <= room * (1 + HAIR)
    take = np.where(through, need, room)
    stop = np.clip(out.moment(before + take), begin, np.maximum(begin, close))
    waited = out.sums(out.table * _share(out, crop))
    late = pace * np.maximum(out.read(waited, stop) - out.read(waited, begin), 0.0)
    lost = np.where(take > 0, late, 0.0) + np.maximum(area - pace * take, 0.0)
    waits = (area > 0) & (begin < close)  # on this crop, to its end if need be
    free = np.where(waits, np.where(through, stop, close), time)
    off = np.where(through, np.where(area > 0, stop, 0.0), np.inf)
    return lost, free, off


def _one_a_row(out: _Out, value: object) -> Array:
    return np.broadcast_to(at_rows(np.asarray(value, float), out.rows), (out.size,))


def _share(out: _Out, crop: Crop) -> Array:
    """The share lost of what is cut on each day."""

    def column(value: object) -> Array:
        number = np.asarray(value, float)
        return number[:, None] if number.ndim else number

    mornings = np.arange(out.days) * out.day
    late = np.maximum(mornings - column(crop.ready) - column(crop.grace), 0.0)
    return np.asarray(
        share_lost_by_waiting(late, column(crop.loss), doubling=column(crop.doubling), most=column(crop.most))
    )
