"""Seasons with the drive in trouble, course by course: functions in the house's form, called by name through the workings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.forecast import Trajectories
from axlewright.engines.season import (
    Common,
    Crop,
    FieldClock,
    Job,
    Jobs,
    Life,
    Replacement,
    field_clock,
)
from axlewright.kinds import (
    LAST_AXIS,
    Area,
    AreaPrice,
    Array,
    Count,
    Duration,
    FieldRate,
    Money,
    Rate,
    Share,
    YesNo,
    kind_of,
)
from axlewright.plan.reckon.choice_blocks import blocks_of, joined, rows_of

Shares: TypeAlias = Annotated[Array, kind_of(Share), LAST_AXIS]
Durations: TypeAlias = Annotated[Array, kind_of(Duration), LAST_AXIS]
YesNos: TypeAlias = Annotated[NDArray[np.bool_], kind_of(YesNo), LAST_AXIS]
Counts: TypeAlias = Annotated[Array, kind_of(Count), LAST_AXIS]
NEVER = float(np.inf)


@dataclass(frozen=True, slots=True)
class CropAhead:
    """One crop that is still to be cut, a trajectory a draw.

    Attributes:
        area: what still stands [m^2]
        rate: area cut in an hour of the field [m^2/s]
        hours: field time in a day that can be worked [s]
        loss: share lost for each day that it waits past its grace [1/s]
        worth: what it brings [money/m^2]
    """

    area: Area
    rate: FieldRate
    hours: Duration
    loss: Rate
    worth: AreaPrice


@dataclass(frozen=True, slots=True)
class Window:
    """When the crops are ripe and how they spoil, one a crop; and how the seasons are drawn.

    Attributes:
        ready: from now until each is ripe [s]
        grace: time that each may wait without loss [s]
        doubling: time in which the loss of a day grows by as much as it began with [s]
        most: the greatest share that waiting can cost [-]
        ends: from now until what stands of each is lost [s]
        replicates: seasons drawn of each trajectory [1]
    """

    ready: Durations
    grace: Durations
    doubling: Durations
    most: Shares
    ends: Durations
    replicates: int


@dataclass(frozen=True, slots=True)
class Workable:
    """Field time of each day from now to the season's end.

    Attributes:
        days: which can be worked, a season a row [-]
    """

    days: YesNos


def lead_or_none(lead: Duration, luck: Share, none: Share) -> Duration:
    """How long one waits for it, where there may be none to be had.

    Args:
        lead: from ordering it until it is on the yard, if there is one [s]
        luck: share of 0 to 1 [-]
        none: chance that there is none [-]

    Returns:
        lead; infinite where there is none [s]

    Source: mixture.
    Valid: always.
    """
    return np.where(np.asarray(luck) < none, NEVER, lead)


def share_of(whole: Money, share: Share) -> Money:
    """A price as a share of another.

    Args:
        whole: the other price [money]
        share: share of it [-]

    Returns:
        price [money]

    Source: product.
    Valid: always.
    """
    return np.asarray(whole * np.asarray(share, float))


def brought_home(price: Money, freight: Money) -> Money:
    """A price with freight.

    Args:
        price: price at the seller's [money]
        freight: what bringing it home costs [money]

    Returns:
        price at home [money]

    Source: sum.
    Valid: always.
    """
    return np.asarray(price + np.asarray(freight, float))


def damage_done(luck: Share, chance: Share, share: Share) -> Share:
    """Secondary damage if it lets go, in new drives.

    Args:
        luck: share of 0 to 1 [-]
        chance: chance that there is any [-]
        share: how much, where there is [-]

    Returns:
        damage [-]

    Source: mixture (assumed).
    Valid: always.
    """
    return np.where(np.asarray(luck) < chance, share, 0.0)


def seasons_ahead(window: Window, workable: Workable, crops: tuple[CropAhead, ...]) -> FieldClock:
    """What can be cut by any moment of each drawn season.

    Args:
        window: when the crops are ripe
        workable: days that can be worked
        crops: what is to be cut

    Returns:
        the field clock

    Source: running sums over drawn days (docs/engines/season.md).
    Valid: hours of a day as those of the first crop; each crop is lost on its own last day.
    """
    many = window.replicates

    def drawn(value: object) -> Array:
        return np.repeat(np.asarray(value, float), many)

    stand = tuple(
        Crop(
            drawn(crop.area),
            drawn(crop.rate),
            float(window.ready[n]),
            drawn(crop.loss),
            float(window.grace[n]),
            float(window.doubling[n]),
            float(window.most[n]),
            float(window.ends[n]),
        )
        for n, crop in enumerate(crops)
    )
    days, hours = np.asarray(workable.days), drawn(crops[0].hours)
    blocks = blocks_of(len(days))
    made = [field_clock(rows_of(stand, rows, len(days)), days[rows] * hours[rows, None]) for rows in blocks]
    whole: FieldClock = joined(made, [rows.stop - rows.start for rows in blocks])
    return whole


@dataclass(frozen=True, slots=True)
class Waits:
    """How long one waits, a trajectory a draw; infinite where there is none.

    Attributes:
        used: for a used drive [s]
        exchange: for a rebuilt exchange drive [s]
        parts: for the parts of a rebuild [s]
        kit: for a seal kit [s]
        hire: for a hired machine [s]
    """

    used: Duration
    exchange: Duration
    parts: Duration
    kit: Duration
    hire: Duration


@dataclass(frozen=True, slots=True)
class Odds:
    """What may come of it, a trajectory a draw.

    Attributes:
        road: machine hours on the road for each in the field [-]
        damage: secondary damage if it lets go, in new drives [-]
        unsafe_field: chance that it is unsafe, if it lets go in the field [-]
        unsafe_road: chance that it is unsafe, if it lets go on the road [-]
        check_finds: chance that a check finds a drive that fails [-]
        never_seen: share of failing drives that no such check can find [-]
        seen: share of 0 to 1: luck of the checks [-]
    """

    road: Share
    damage: Share
    unsafe_field: Share
    unsafe_road: Share
    check_finds: Share
    never_seen: Share
    seen: Share


def all_waits(used: Duration, exchange: Duration, parts: Duration, kit: Duration, hire: Duration) -> Waits:
    """How long one waits for each thing.

    Args:
        used: for a used drive [s]
        exchange: for a rebuilt exchange drive [s]
        parts: for the parts of a rebuild [s]
        kit: for a seal kit [s]
        hire: for a hired machine [s]

    Returns:
        the waits

    Source: put together.
    Valid: always.
    """
    return Waits(used, exchange, parts, kit, hire)


def all_odds(
    road: Share,
    damage: Share,
    unsafe_field: Share,
    unsafe_road: Share,
    check_finds: Share,
    never_seen: Share,
    seen: Share,
) -> Odds:
    """What may come of it.

    Args:
        road: machine hours on the road for each in the field [-]
        damage: secondary damage if it lets go, in new drives [-]
        unsafe_field: chance that it is unsafe, if it lets go in the field [-]
        unsafe_road: chance that it is unsafe, if it lets go on the road [-]
        check_finds: chance that a check finds a drive that fails [-]
        never_seen: share of failing drives that no such check can find [-]
        seen: share of 0 to 1: luck of the checks [-]

    Returns:
        the odds

    Source: put together.
    Valid: always.
    """
    return Odds(road, damage, unsafe_field, unsafe_road, check_finds, never_seen, seen)


def all_jobs(
    swap_takes: Duration,
    swap_labour: Duration,
    reseal_takes: Duration,
    reseal_labour: Duration,
    rebuild_takes: Duration,
    rebuild_labour: Duration,
) -> Jobs:
    """The work of all courses. Where it let go, the swap takes no longer than in the shed: the tow is counted apart.

    Args:
        swap_takes: a drive off and another on, nights in it [s]
        swap_labour: hours of people for it [s]
        reseal_takes: a new seal, nights in it [s]
        reseal_labour: hours of people for it [s]
        rebuild_takes: the drive on the bench, nights in it [s]
        rebuild_labour: hours of people for it [s]

    Returns:
        the work

    Source: put together.
    Valid: always.
    """
    swap = Job(swap_takes, swap_labour)
    return Jobs(swap, swap, Job(reseal_takes, reseal_labour), Job(rebuild_takes, rebuild_labour))


def all_common(
    replicates: int,
    fitted: Trajectories,
    used: Trajectories,
    used_next: Trajectories,
    spare: Trajectories,
    rebuilt: Trajectories,
    rebuilt_next: Trajectories,
    waits: Waits,
    jobs: Jobs,
    odds: Odds,
    shelf: Literal["there", "none"],
) -> Common:
    """Everything that is drawn once for all courses.

    Args:
        replicates: seasons drawn of each trajectory [1]
        fitted: lives of the drive in trouble
        used: lives of a used drive
        used_next: of one put in after it
        spare: lives of the spare on the shelf
        rebuilt: lives of a rebuilt drive
        rebuilt_next: of one put in after it
        waits: how long one waits
        jobs: the work
        odds: what may come of it
        shelf: whether a spare of its design lies on the shelf

    Returns:
        what is common to all courses

    Source: draws by name.
    Valid: always.
    """

    def many(value: object) -> Array:
        return np.repeat(np.broadcast_to(np.asarray(value, float), np.shape(fitted.lets_go)), replicates)

    def life(one: Trajectories) -> Life:
        return Life(many(one.fails), many(one.lets_go))

    def work(job: Job) -> Job:
        return Job(many(job.takes), many(job.labour))

    none = np.full(len(np.asarray(fitted.lets_go)) * replicates, 0.0 if shelf == "there" else NEVER)
    return Common(
        fitted=life(fitted),
        resealed=life(fitted),
        spare=Replacement(none, life(spare), life(used_next)),
        used=Replacement(many(waits.used), life(used), life(used_next)),
        exchange=Replacement(many(waits.exchange), life(rebuilt), life(rebuilt_next)),
        rebuilt=Replacement(many(waits.parts), life(rebuilt), life(rebuilt_next)),
        jobs=Jobs(work(jobs.swap), work(jobs.field_swap), work(jobs.reseal), work(jobs.rebuild)),
        hire_lead=many(waits.hire),
        hire_rate=1.0,
        kit_lead=many(waits.kit),
        road=many(odds.road),
        damage=many(odds.damage),
        unsafe_field=many(odds.unsafe_field),
        unsafe_road=many(odds.unsafe_road),
        seen=many(odds.seen),
        honoured=many(odds.seen),
    )
