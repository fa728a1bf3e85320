"""All that a machine's clocks ever read, as one count of hours that goes on when a clock is changed."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from axlewright.yard.hours import CLOCKS, MOST_A_DAY, Clock, Hours, Pair, between, convert, rate
from axlewright.yard.records import Record


@dataclass(frozen=True, slots=True)
class Read:
    """A clock as one record has it. `new_clock`: the clock was changed, and begins here."""

    on: date
    hours: Hours
    record: Record
    new_clock: bool = False


def in_order(reads: Iterable[Read]) -> tuple[Read, ...]:
    """The readings of one clock by day and hours; on the day of a change the old clock's come before the new one's."""
    reads = tuple(reads)
    begins = {r.on: r.hours.hours for r in reads if r.new_clock}

    def key(read: Read) -> tuple[date, int, float]:
        begin = begins.get(read.on)
        old = begin is not None and not read.new_clock and read.hours.hours > begin + MOST_A_DAY
        return read.on, 0 if old else 1 if read.new_clock else 2, read.hours.hours

    return tuple(sorted(reads, key=key))


@dataclass(frozen=True)
class ClockLog:
    """The readings of one machine, corrected ones left out. Counted hours go on over a change of clock; read ones do not."""

    reads: tuple[Read, ...] = ()

    @cached_property
    def _ordered(self) -> Mapping[Clock, tuple[tuple[Read, float], ...]]:
        """By clock its readings in order, each with how far the count is ahead of it."""
        found: dict[Clock, tuple[tuple[Read, float], ...]] = {}
        for clock in CLOCKS:
            ahead, last, rows = 0.0, None, []
            for read in in_order(r for r in self.reads if r.hours.clock == clock):
                if read.new_clock and last:
                    ahead += last.hours.hours - read.hours.hours
                rows.append((read, ahead))
                last = read
            found[clock] = tuple(rows)
        return found

    def ahead(self, clock: Clock, on: date) -> float:
        """How far the count is ahead of what the clock reads on a day."""
        return next((ahead for since, ahead in reversed(self._changed[clock]) if since <= on), 0.0)

    @cached_property
    def _changed(self) -> Mapping[Clock, tuple[tuple[date, float], ...]]:
        """By clock the days on which it was changed, each with how far the count is ahead from there on."""
        return {
            clock: tuple((read.on, ahead) for read, ahead in rows if read.new_clock)
            for clock, rows in self._ordered.items()
        }

    @cached_property
    def _days(self) -> tuple[date, ...]:
        return tuple(sorted(read.on for read in self.reads))

    def last_read(self, on: date) -> date | None:
        """The last day, up to this one, on which one of the clocks was read."""
        number = bisect_right(self._days, on)
        return self._days[number - 1] if number else None

    @cached_property
    def counted(self) -> Mapping[Clock, tuple[tuple[date, Hours], ...]]:
        """By clock: the hours counted by each day on which it was read."""
        return {
            clock: tuple((r.on, replace(r.hours, hours=r.hours.hours + ahead)) for r, ahead in rows)
            for clock, rows in self._ordered.items()
        }

    @cached_property
    def pairs(self) -> tuple[Pair, ...]:
        """Both counts, where both clocks were read on one day; as doubtful as that day's readings of one clock differ."""
        engine, threshing = _by_day(self.counted["engine"]), _by_day(self.counted["threshing"])
        return tuple(Pair(hours, threshing[day]) for day, hours in engine.items() if day in threshing)

    def readings(self, clock: Clock) -> tuple[tuple[date, Hours], ...]:
        """What the clock read, by day, since it was last changed."""
        reads = [read for read, _ in self._ordered[clock]]
        begin = max((n for n, read in enumerate(reads) if read.new_clock), default=0)
        return tuple((read.on, read.hours) for read in reads[begin:])

    def on_clock(self, read: Hours, clock: Clock, on: date) -> Hours:
        """A reading as the other clock would have shown it that day."""
        if read.clock == clock:
            return read
        count = convert(replace(read, hours=read.hours + self.ahead(read.clock, on)), clock, self.pairs)
        return replace(count, hours=round(count.hours - self.ahead(clock, on), 1))

    def count(self, on: date, clock: Clock = "engine") -> Hours | None:
        """The hours counted by a day; by the other clock where that one was read later or alone."""
        other: Clock = "threshing" if clock == "engine" else "engine"
        own, theirs = between(self.counted[clock], on), between(self.counted[other], on)
        if theirs is None:
            return own
        if own is None:
            return convert(theirs, clock, self.pairs)
        last = max(day for day, _ in self.counted[clock])
        if last < on and max((day for day, _ in self.counted[other] if day <= on), default=last) > last:
            later = convert(theirs, clock, self.pairs)
            return later if later.hours > own.hours else own
        return own

    def stood(self, on: date, clock: Clock = "engine") -> Hours | None:
        """What the clock reads on a day, as far as is known. After the last reading nobody knows what it ran since."""
        count = self.count(on, clock)
        return count and replace(count, hours=round(count.hours - self.ahead(clock, on), 1))

    def ran(self, since: date, until: date, read: Hours | None = None) -> Hours | None:
        """Engine hours run from a day, on which the clock may have been read, to another; None where no clock tells.

        The doubts of both ends add up, unless they are one and the same reading.
        """
        if read is None:
            start = self.count(since)
        else:
            start = convert(replace(read, hours=read.hours + self.ahead(read.clock, since)), "engine", self.pairs)
        end = self.count(until)
        if start is None or end is None:
            return None
        about = 0.0 if start == end else start.about + end.about
        return Hours(round(max(end.hours - start.hours, 0.0), 1), "engine", round(about, 1))

    @property
    def rate(self) -> tuple[float, float]:
        """Least and greatest engine hours in a threshing hour of this machine."""
        return rate(self.pairs)


def _by_day(count: Iterable[tuple[date, Hours]]) -> dict[date, Hours]:
    found: dict[date, Hours] = {}
    for day, hours in count:
        first = found.get(day, hours)
        found[day] = replace(hours, about=max(hours.about, first.about + hours.hours - first.hours))
    return found
