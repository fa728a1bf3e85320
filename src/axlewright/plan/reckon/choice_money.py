"""Money of the choice: prices side by side, courses compared, what each is told by; called by name through the workings."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Annotated, TypeAlias

import numpy as np

from axlewright.engines.season import Outcome, Prices, cost_of, side_by_side
from axlewright.engines.season.finish import chance_in_time, time_needed
from axlewright.kinds import LAST_AXIS, Array, Count, Duration, Money, MoneyRate, Share, YesNo, kind_of
from axlewright.kinds import AreaPrice as PriceOfArea
from axlewright.plan.reckon.choice_calls import CropAhead
from axlewright.plan.reckon.choice_ran import Ran, Uses

Moneys: TypeAlias = Annotated[Array, kind_of(Money), LAST_AXIS]
Counts: TypeAlias = Annotated[Array, kind_of(Count), LAST_AXIS]
Durations: TypeAlias = Annotated[Array, kind_of(Duration), LAST_AXIS]


def all_prices(
    tow: Money,
    hour: MoneyRate,
    winter_hour: MoneyRate,
    used: Money,
    exchange: Money,
    deposit: Money,
    seal_kit: Money,
    rebuild: Money,
    extra_parts: Money,
    new_drive: Money,
    hire: PriceOfArea,
    hire_call: Money,
    spare: Money,
    crops: tuple[CropAhead, ...],
    replicates: int,
) -> Prices:
    """What one of each count costs.

    Args:
        tow: a recovery from the field [money]
        hour: an own hour in the season [money/s]
        winter_hour: an own hour off season [money/s]
        used: a used drive, brought home [money]
        exchange: a rebuilt exchange drive, brought home [money]
        deposit: deposit on the old drive [money]
        seal_kit: a seal kit [money]
        rebuild: parts of a rebuild [money]
        extra_parts: other parts that a let go spoils [money]
        new_drive: a new drive, in which secondary damage is counted [money]
        hire: a hired machine above the own running [money/m^2]
        hire_call: what a hired machine costs for coming [money]
        spare: what a sound spare on the shelf is worth by next spring [money]
        crops: what is to be cut, with its worth
        replicates: seasons drawn of each trajectory [1]

    Returns:
        the prices

    Source: prices given or taken, one a trajectory.
    Valid: always.
    """

    def many(value: object) -> Array:
        return np.repeat(np.asarray(value, float), replicates)

    nothing = 0.0
    return Prices(
        tow=many(tow), labour=many(hour), winter_labour=many(winter_hour), used=many(used), exchange=many(exchange),
        deposit=many(deposit), seal_kit=many(seal_kit), rebuild=many(rebuild), extra_parts=many(extra_parts),
        damage=many(new_drive), hire=many(hire), hire_call=many(hire_call), check=nothing, hold=nothing,
        crop=np.stack([many(crop.worth) for crop in crops], axis=-1), spare=many(spare),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Admitted:
    """Which courses a verdict lets be taken, in their order.

    Attributes:
        all: 1 where it may be taken, 0 where not [1]
    """

    all: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """What is told of one course. Costs stand above those of the same seasons without trouble.

    Attributes:
        mean: mean cost [money]
        low: cost that one season in ten stays under [money]
        high: cost that nine in ten stay under [money]
        cash: mean of what is paid before work begins [money]
        days_lost: mean of the time lost against the same weather without trouble [s]
        fails: chance that a drive lets go at work this season [-]
        unsafe: chance that it is unsafe when it does [-]
        cheapest: share of seasons in which it would have been the cheapest [-]
        behind: mean of what it costs more than the best [money]
        too_close: the difference to the best is too small to call [-]
        dots: a hundred seasons in order of cost [money]
    """

    mean: Money
    low: Money
    high: Money
    cash: Money
    days_lost: Duration
    fails: Share
    unsafe: Share
    cheapest: Share
    behind: Money
    too_close: YesNo
    dots: Moneys


@dataclass(frozen=True, slots=True)
class Compared:
    """Courses on common draws.

    Attributes:
        told: what is told of each
        failed: whether a drive let go at work, a season a row, a course a column [1]
        costs: cost above the same season without trouble, a season a row, a course a column [money]
        best: number of the admitted course of least mean cost [1]
        uses: what each uses up on the mean
    """

    told: tuple[Told, ...]
    failed: Counts
    costs: Moneys
    best: int
    uses: tuple[Uses, ...]


def cost_without_trouble(free: Outcome, prices: Prices) -> Money:
    """What the drawn seasons cost without trouble: crop lost by weather alone.

    Args:
        free: the seasons without trouble
        prices: what one of each count costs

    Returns:
        cost [money]

    Source: counts times prices.
    Valid: as the prices.
    """
    return cost_of(free.season, prices)


def compared(ran: tuple[Ran, ...], admitted: Admitted, replicates: int) -> Compared:
    """Courses side by side on common draws.

    Args:
        ran: how each course went
        admitted: which may be taken
        replicates: seasons drawn of each trajectory [1]

    Returns:
        the courses

    Source: paired differences on common draws; each course with the recovery that is cheapest on the mean.
    Valid: prices as they are given or taken.
    """
    choice = side_by_side(
        tuple(one.priced for one in ran), tuple(bool(one) for one in admitted.all), replicates=replicates
    )
    names = [part.name for part in fields(Told)]
    results = tuple(Told(**{name: getattr(one, name) for name in names}) for one in choice.results)
    failed = np.stack([np.asarray(one.priced.failed) for one in ran], axis=1)
    return Compared(results, failed, np.asarray(choice.costs), choice.best, tuple(one.uses for one in ran))


def told(choice: Compared, which: int) -> Told:
    """What is told of one course.

    Args:
        choice: courses on common draws
        which: its number [1]

    Returns:
        its results

    Source: means, paired standard errors and a hundred seasons of common draws (docs/engines/season.md).
    Valid: as the choice.
    """
    return choice.told[which]


@dataclass(frozen=True, slots=True)
class InTime:
    """Whether a course is ready in time, and how much time its order leaves.

    Attributes:
        share: chance that it is ready by then [-]
        takes: time that it takes in nine of ten cases, if it can be had at all [s]
        had: chance that it can be had at all [-]
    """

    share: Share
    takes: Duration
    had: Share


def in_time(ran: Ran, there: Durations, by: Duration, sure: Share, replicates: int) -> InTime:
    """How sure it is that a course is ready by a day, ordered today.

    Args:
        ran: how the course went
        there: wait for what is ordered, a trajectory each; infinite where there is none [s]
        by: the day by which it is wanted, from now [s]
        sure: share of the draws that must do [-]
        replicates: seasons drawn of each trajectory [1]

    Returns:
        chance, time it takes, and chance that it can be had

    Source: quantile of lead and work on common draws.
    Valid: ordered on any day alike; nine in ten of those that can be had.
    """
    had = np.isfinite(np.asarray(there, float))
    given = np.broadcast_to(np.asarray(ran.ready, float), (len(had) * replicates,))[::replicates]
    if not had.any():
        return InTime(0.0, float("inf"), 0.0)
    in_time_ = float(chance_in_time(given[had], float(np.min(by)))) * float(had.mean())
    return InTime(in_time_, float(time_needed(given[had], float(np.min(sure)))), float(had.mean()))
