"""The years after a course, under one fixed policy."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.engines.season._ledger import Ledger
from axlewright.engines.season.courses import Common, Life, Outcome, Winter, Years
from axlewright.kinds import Array, Number

PLAIN = Winter()
Mask = NDArray[np.bool_]


def years_after(common: Common, outcome: Outcome, years: Years, winter: Winter = PLAIN) -> Ledger:
    """What the years after use up, each count discounted to today.

    Each year and corner: a check before the season, which may find a drive that fails, so that it is changed without
    loss; else it lets go at work. A spare is taken from the shelf, else a used drive is bought.

    Args:
        common: what is drawn once for all courses
        outcome: how the course left the drives
        years: the years after
        winter: what a rebuild takes

    Returns:
        the counts

    Source: one fixed policy a year and corner (docs/engines/season.md).
    Valid: a drive lets go once a year and corner at most.
    """
    size = len(np.asarray(outcome.finish))
    _check(years, size)

    def full(value: Number) -> Array:
        return np.broadcast_to(np.asarray(value, float), (size,)).copy()

    fails = [full(outcome.fitted.fails), full(years.twin.fails)]
    lets_go = [full(outcome.fitted.lets_go), full(years.twin.lets_go)]
    spare = full(outcome.spare)
    shape = (size, years.count, 2)
    looks = np.broadcast_to(np.asarray(years.looks, float), shape)
    new_fails = np.broadcast_to(np.asarray(years.next_lives.fails, float), shape)
    new_lets_go = np.broadcast_to(np.asarray(years.next_lives.lets_go, float), shape)
    jobs, total = common.jobs, Ledger()
    yearly = 1.0 / (1.0 + float(np.asarray(years.discount)))
    for year in range(years.count):
        counts_as: float = yearly ** (year + 1)
        core = np.zeros(size)
        for corner in range(2):
            seen = (fails[corner] <= 0) & (looks[:, year, corner] < years.power)
            gone = ~seen & (lets_go[corner] <= years.hours)
            change = seen | gone
            shelf = change & (spare > 0)
            spare -= shelf
            core = np.where(change, np.where(gone, winter.let_go, winter.failing), core)
            hours = np.where(gone, np.maximum(years.hours - lets_go[corner], 0.0), years.hours)
            total += _changed(common, years, counts_as, seen, gone, shelf)
            fails[corner] = np.where(change, new_fails[:, year, corner], fails[corner]) - hours
            lets_go[corner] = np.where(change, new_lets_go[:, year, corner], lets_go[corner]) - hours
        if years.keeps_spare:
            rebuilt = (core > 0) & (spare <= 0)
            benched: Array = np.where(rebuilt, counts_as, 0.0)
            total += Ledger(rebuilds=benched * core, winter_labour=benched * jobs.rebuild.labour)
            spare += rebuilt
    last: float = yearly**years.count
    left = sum(np.clip(life / years.whole_life, 0.0, 1.0) for life in lets_go)
    return total + Ledger(spares=last * spare, hours_left=last * np.asarray(left))


def _changed(common: Common, years: Years, counts_as: float, seen: Mask, gone: Mask, shelf: Mask) -> Ledger:
    """What drives that are changed in one year at one corner take, as counts of today."""
    jobs = common.jobs
    went: Array = np.where(gone, counts_as, 0.0)
    planned: Array = np.where(seen, counts_as, 0.0)
    with_spare, without = (np.where(gone & there, counts_as, 0.0)[:, None] for there in (shelf, ~shelf))
    return Ledger(
        tows=went,
        labour=went * jobs.field_swap.labour,
        winter_labour=planned * jobs.swap.labour,
        used=np.where((seen | gone) & ~shelf, counts_as, 0.0),
        extra_parts=went,
        damage=went * common.damage,
        delayed=with_spare * np.asarray(years.delayed_with) + without * np.asarray(years.delayed_without),
    )


def with_years(common: Common, outcome: Outcome, years: Years, winter: Winter = PLAIN) -> Outcome:
    """The outcome with the years after counted in.

    Args:
        common: what is drawn once for all courses
        outcome: how the season went
        years: the years after
        winter: what a rebuild takes

    Returns:
        the outcome; its season counts the years after too

    Source: sum of the counts.
    Valid: as `years_after`.
    """
    return replace(outcome, season=outcome.season + years_after(common, outcome, years, winter))


def life_after_reseal(fitted: Life, cause: Number, seal: int, lasts: Number) -> Life:
    """What a drive has before it with a new seal: bearings and gears as they were, only a leak no longer ends it.

    Args:
        fitted: what it had before it
        cause: what would make it let go, by its number [1]
        seal: the number of the seal among the causes [1]
        lasts: machine hours that a drive holds which only its seal would have ended [s]

    Returns:
        what it has now

    Source: the leak is changed, the path of the bearings is not (docs/engines/season.md).
    Valid: a sound shaft under the lip.
    """
    by_seal = np.asarray(cause) == seal
    return Life(
        np.where(by_seal, np.maximum(fitted.fails, lasts), fitted.fails),
        np.where(by_seal, np.maximum(fitted.lets_go, lasts), fitted.lets_go),
    )


def _check(years: Years, size: int) -> None:
    within("years.count", years.count, 0, 40)
    within("years.hours", years.hours, 0.0)
    within("years.power", years.power, 0.0, 1.0)
    within("years.looks", years.looks, 0.0, 1.0)
    within("years.discount", years.discount, 0.0, 1.0)
    above("years.whole_life", years.whole_life)
    for name, value in (("looks", years.looks), ("next_lives", years.next_lives.lets_go)):
        if np.ndim(value) and np.shape(value) != (size, years.count, 2):
            raise OutOfRange(f"years.{name}", float(np.size(value)), size * years.count * 2, size * years.count * 2)
