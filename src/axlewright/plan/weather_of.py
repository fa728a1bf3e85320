"""The weather of a harvest window: by the yard's own rain where enough years of it were taken in, else a class of the trade."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from functools import lru_cache

import numpy as np

from axlewright.engines.limits import OutOfRange
from axlewright.engines.season.weather import (
    Followed,
    chain_from_counts,
    chain_from_memory,
    days_followed,
    days_variance,
    workable_by_rain,
)
from axlewright.trade.seasons import USUAL, Climate, climates
from axlewright.yard import Rain, Season, Work, Yard

DAY = 86400.0  # [s]
LEAST_YEARS = 4  # of rain in the window: judgement
MEASURED = 0.9  # of a window's days in a year that counts: judgement
COMBINING = 0.9  # of days fit for fieldwork are dry enough to combine: 0.85 to 0.95, assumed
DRYING = 2  # days before the window whose rain still counts
MOST_MEMORY, LEAST_SHARE, MOST_SHARE = 0.95, 0.05, 0.95


def climate_of(yard: Yard, works: Sequence[tuple[Work, Season]]) -> Climate:
    """The weather that a machine's work stands in: what its season names, else the yard's own rain, else the usual one."""
    named = next((season.climate for _, season in works if season.climate), None)
    if named:
        return climates()[named]
    if not works:
        return climates()[USUAL]
    begins, ends = min(work.starts for work, _ in works), max(work.ends for work, _ in works)
    return by_rain(yard.rains, begins, ends) or climates()[USUAL]


@lru_cache(maxsize=32)
def by_rain(rains: tuple[Rain, ...], begins: date, ends: date) -> Climate | None:
    """The weather of a window by the rain of one station in the years before; None where it is too little, or of several.

    Each year's window is counted for itself: what followed across the turn of a year would fake a memory.
    """
    stations = {one.station for one in rains}
    if len(stations) != 1:
        return None
    rain = dict(day for one in rains for day in one.days())
    years = [
        flags
        for year in sorted({one.year for one in rains})
        if (flags := _window(rain, begins, ends, year)) is not None
    ]
    if len(years) < LEAST_YEARS:
        return None
    counts = [days_followed(flags) for flags in years]
    pooled = Followed(*(sum(getattr(one, name) for one in counts) for name in Followed.__slots__))
    shares = [float(flags.mean()) for flags in years]
    share = min(max(COMBINING * float(np.concatenate(years).mean()), LEAST_SHARE), MOST_SHARE)
    memory = _memory(pooled)
    days = (ends - begins).days + 1
    chance = float(days_variance(share, memory, float(days))) / days**2
    between = math.sqrt(max(COMBINING**2 * float(np.var(shares, ddof=1)) - chance, 0.0))
    (station,) = stations
    return Climate(
        id=f"rain-{begins:%m%d}-{ends:%m%d}",
        label=f"by {len(years)} years of rain at {station}",
        share=share,
        spell=float(chain_from_memory(share, memory).good_spell) * DAY,
        between_years=round(between, 4),
        basis="computed",
        source=f"own rain of {len(years)} years, by the rule of docs/engines/season.md; {COMBINING:g} of such days dry enough, assumed",
    )


def _window(rain: Mapping[date, float], begins: date, ends: date, year: int) -> np.ndarray | None:
    """Which days of a year's window could be worked; None where too few of them were measured, or it is not over."""
    first = _in_year(begins, year)
    last = first + (ends - begins)
    if last >= begins:
        return None
    days = [first + timedelta(days=n) for n in range(-DRYING, (last - first).days + 1)]
    known = [day for day in days[DRYING:] if day in rain]
    if len(known) < MEASURED * len(days[DRYING:]):
        return None
    fell = np.array([rain.get(day, 0.0) for day in days])
    return np.asarray(workable_by_rain(fell))[DRYING:]


def _in_year(day: date, year: int) -> date:
    return day.replace(year=year, day=28 if (day.month, day.day) == (2, 29) else day.day)


def _memory(counted: Followed) -> float:
    try:
        chain = chain_from_counts(counted.bad_bad, counted.bad_good, counted.good_bad, counted.good_good).chain
    except OutOfRange:  # all days of one kind
        return 0.0
    return min(max(float(chain.memory), 0.0), MOST_MEMORY)
