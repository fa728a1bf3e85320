"""Courses run through drawn seasons, each brought to spring; called by name through the workings."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from axlewright.engines.season import (
    DAY,
    Checks,
    Common,
    CourseName,
    FieldClock,
    Ledger,
    Outcome,
    Recovery,
    Winter,
    drawn_days,
    run_course,
    standard_courses,
)
from axlewright.engines.season.weather import chain_from_spell, year_shares
from axlewright.kinds import Array, Duration, Share
from axlewright.plan.reckon.choice_blocks import blocks_of, joined, rows_of
from axlewright.quantities.draws import own_shares
from axlewright.trade.seasons import Climate

WITH_IT = ("run", "run with checks", "reseal")  # courses that go on with the drive in trouble
SECOND_RATE = 1.0  # of a second machine of the yard, by the own one


def drawn_weather(climate: Climate, seed: int, seasons: int, days: int) -> Array:
    """Days that can be worked, a season a row: 1 or 0."""
    chain = chain_from_spell(climate.share, climate.spell / DAY)
    years = year_shares(own_shares(seed, "season/year", seasons), climate.share, climate.between_years)
    luck = own_shares(seed, "season/weather", seasons * days).reshape(days, seasons)
    return np.asarray(drawn_days(luck.T, years, chain.memory), float)


@dataclass(frozen=True, slots=True)
class Ran:
    """How one course went in every season, under each way of recovering.

    Attributes:
        under: an outcome for each recovery
        ready: from now until work can begin [s]
    """

    under: tuple[Outcome, ...]
    ready: Duration


RECOVERIES = (Recovery("used"), Recovery("used", 3 * DAY, quoted=True))
"""Once it stands: wait for a used drive; or ask, and hire at once where it takes over three days."""


def course_ran(
    course: CourseName,
    clock: FieldClock,
    common: Common,
    check_every: Duration,
    check_finds: Share,
    never_seen: Share,
    spare: Literal["there", "none"],
    road: Literal["may go", "stays off"],
    next_year: Share,
    replicates: int,
) -> Ran:
    """How one course goes in every drawn season.

    Args:
        course: which
        clock: the drawn seasons
        common: what is drawn once for all courses
        check_every: machine hours between checks [s]
        check_finds: chance that a check finds a drive that fails [-]
        never_seen: share of failing drives that no such check can find [-]
        spare: whether a spare lies on the shelf
        road: whether the machine may go on the road with the drive in trouble
        next_year: what one of anything that is paid in winter counts today [-]
        replicates: seasons drawn of each trajectory [1]

    Returns:
        an outcome for each recovery

    Source: events of a season, on common draws (docs/engines/season.md).
    Valid: as the season engine.
    """
    checks = Checks(
        float(np.min(check_every)), np.repeat(check_finds, replicates), np.repeat(never_seen, replicates), "stop"
    )
    if course in WITH_IT and road == "stays off":
        common = replace(common, road=0.0)
    winter = Winter(today=float(np.median(next_year)))
    (row,) = standard_courses(common, (course,), checks, winter=winter, second_rate=SECOND_RATE)
    recoveries = (Recovery("spare"), *RECOVERIES) if spare == "there" and course != "fit a spare" else RECOVERIES
    shelf = 1.0 if spare == "there" else 0.0
    blocks = []
    for rows in blocks_of(clock.seasons):
        part, shared = rows_of(clock, rows, clock.seasons), rows_of(common, rows, clock.seasons)
        under = run_course(part, shared, rows_of(row, rows, clock.seasons), recoveries, winter)
        blocks.append(tuple(by_spring(one, part, shared, winter.today, shelf) for one in under))
    sizes = [rows.stop - rows.start for rows in blocks_of(clock.seasons)]
    return Ran(tuple(joined(same, sizes) for same in zip(*blocks, strict=True)), row.ready)


def by_spring(outcome: Outcome, clock: FieldClock, common: Common, today: Share, shelf: float) -> Outcome:
    """A course brought to spring: a fitted drive that would not last another such season is rebuilt over winter.

    So courses end alike: with a drive that will do, and more or fewer spares on the shelf than there were.
    """
    ahead = sum(np.asarray(crop.area) / np.asarray(crop.rate) for crop in clock.crops) * (1 + np.asarray(common.road))
    fails = np.asarray(outcome.fitted.fails, float)
    due = np.where(fails <= ahead, 1.0, 0.0) * today
    work = np.asarray(common.jobs.swap.labour) + np.asarray(common.jobs.rebuild.labour)
    more = Ledger(
        rebuilds=due * np.where(fails <= 0, Winter().failing, 1.0),
        winter_labour=due * work,
        spares=(np.asarray(outcome.spare, float) - shelf) * today,
    )
    return replace(outcome, season=outcome.season + more)
