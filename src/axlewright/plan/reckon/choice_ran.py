"""Courses run through drawn seasons, each brought to spring; called by name through the workings."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.season import (
    DAY,
    Checks,
    Common,
    CourseName,
    FieldClock,
    Ledger,
    Outcome,
    Priced,
    Prices,
    Recovery,
    Winter,
    drawn_days,
    priced,
    run_course,
    standard_courses,
)
from axlewright.engines.season.weather import chain_from_spell, year_shares
from axlewright.kinds import Area, Array, Count, Duration, Money, Share
from axlewright.plan.reckon.choice_blocks import blocks_of, joined, rows_of
from axlewright.quantities.draws import own_shares
from axlewright.trade.seasons import Climate

WITH_IT = ("run", "run with checks", "reseal")  # courses that go on with the drive in trouble
SECOND_RATE = 1.0  # of a second machine of the yard, by the own one


def drawn_weather(climate: Climate, seed: int, seasons: int, days: int) -> NDArray[np.bool_]:
    """Days that can be worked, a season a row."""
    chain = chain_from_spell(climate.share, climate.spell / DAY)
    years = year_shares(own_shares(seed, "season/year", seasons), climate.share, climate.between_years)
    luck = own_shares(seed, "season/weather", seasons * days).reshape(days, seasons)
    return drawn_days(luck.T, years, chain.memory)


@dataclass(frozen=True, slots=True)
class Uses:
    """What a course buys, keeps and hires on the mean, and what that comes to: by it a price is moved without another run.

    Attributes:
        bought: used drives, refunds off [1]
        bought_for: what they cost [money]
        kept: spares that it leaves on the shelf [1]
        kept_for: what they are worth [money]
        hired: area that a hired machine cuts [m^2]
        hired_for: what that costs [money]
    """

    bought: Count
    bought_for: Money
    kept: Count
    kept_for: Money
    hired: Area
    hired_for: Money


@dataclass(frozen=True, slots=True)
class Ran:
    """How one course went in every season, with the recovery that is cheapest on the mean.

    Attributes:
        priced: its seasons in money
        uses: what it uses up on the mean
        ready: from now until work can begin [s]
    """

    priced: Priced
    uses: Uses
    ready: Duration


RECOVERIES = (Recovery("used"), Recovery("used", 3 * DAY, quoted=True))
"""Once it stands: wait for a used drive; or ask, and hire at once where it takes over three days."""


def course_ran(
    course: CourseName,
    clock: FieldClock,
    common: Common,
    prices: Prices,
    free_cost: Money,
    check_every: Duration,
    check_finds: Share,
    never_seen: Share,
    spare: Literal["there", "none"],
    road: Literal["may go", "stays off"],
    next_year: Share,
    replicates: int,
) -> Ran:
    """How one course goes in every drawn season. Seasons are run and priced a block at a time, and their counts let go.

    Args:
        course: which
        clock: the drawn seasons
        common: what is drawn once for all courses
        prices: what one of each count costs
        free_cost: cost of the same seasons without trouble [money]
        check_every: machine hours between checks [s]
        check_finds: chance that a check finds a drive that fails [-]
        never_seen: share of failing drives that no such check can find [-]
        spare: whether a spare lies on the shelf
        road: whether the machine may go on the road with the drive in trouble
        next_year: what one of anything that is paid in winter counts today [-]
        replicates: seasons drawn of each trajectory [1]

    Returns:
        the course with the recovery that is cheapest on the mean

    Source: events of a season, on common draws; counts times prices (docs/engines/season.md).
    Valid: as the season engine; prices as they are given or taken.
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
    blocks = blocks_of(clock.seasons)
    ways: list[list[Priced]] = [[] for _ in recoveries]
    costs, uses = np.zeros(len(recoveries)), np.zeros((len(recoveries), len(fields(Uses))))
    for rows in blocks:
        part, shared, paid = (rows_of(whole, rows, clock.seasons) for whole in (clock, common, prices))
        under = run_course(part, shared, rows_of(row, rows, clock.seasons), recoveries, winter)
        for number, one in enumerate(under):
            done = by_spring(one, part, shared, winter.today, shelf)
            ways[number].append(priced(done, paid, np.asarray(free_cost)[rows]))
            costs[number] += np.sum(ways[number][-1].costs)
            uses[number] += _used_up(done, paid, part.seasons)
    taken = int(np.argmin(costs))  # on the mean: season by season would be foresight
    sizes = [rows.stop - rows.start for rows in blocks]
    return Ran(joined(ways[taken], sizes), Uses(*(uses[taken] / clock.seasons)), row.ready)


def _used_up(outcome: Outcome, prices: Prices, seasons: int) -> Array:
    """The counts behind `Uses` over all seasons of a block, each with what it comes to."""
    many = outcome.season
    counts = (
        (np.asarray(many.used) - np.asarray(many.refunds), prices.used),
        (np.asarray(many.spares), prices.spare),
        (np.asarray(many.hired), prices.hire),
    )
    return np.array(
        [np.broadcast_to(one, (seasons,)).sum() for count, price in counts for one in (count, count * price)]
    )


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
