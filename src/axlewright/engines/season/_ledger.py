"""What a course uses up, counted first; money comes second, as counts times prices."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Annotated, Any, TypeAlias

from axlewright.kinds import (
    LAST_AXIS,
    Area,
    AreaPrice,
    Array,
    Count,
    Duration,
    Money,
    MoneyRate,
    Number,
    Share,
    kind_of,
)

CropAreas: TypeAlias = Annotated[Number, kind_of(Area), LAST_AXIS]  # one a crop along the last axis, draws before it
CropPrices: TypeAlias = Annotated[Array, kind_of(AreaPrice), LAST_AXIS]


@dataclass(frozen=True, slots=True)
class Ledger:
    """Counts of one course, one a draw (or one number for all draws). A price is never among them.

    What is paid later stands here as a count of today: discounted.

    Attributes:
        tows: recoveries from the field [1]
        labour: hours of people in the season [s]
        winter_labour: hours of people off season [s]
        used: used drives bought [1]
        exchanges: rebuilt exchange drives bought, their deposit apart [1]
        deposits: deposits lost, as the old drive was past rebuilding [1]
        seal_kits: seal kits [1]
        rebuilds: sets of parts for a rebuild; more than 1 where the old drive has suffered [1]
        extra_parts: sets of other parts that a let go spoils [1]
        damage: secondary damage, in new drives [-]
        hired: area that a hired machine worked [m^2]
        hire_calls: hired machines that came [1]
        checks: checks made [1]
        holds: drives that a seller keeps back until a day, for a fee [1]
        refunds: refunds on used drives, in prices of one [-]
        delayed: crop lost by waiting, as an area of full worth, a crop each [m^2]
        standing: crop never taken off, a crop each [m^2]
        spares: spares left on the shelf at the end [1]
        hours_left: lives left in the fitted drives at the end, in whole lives [-]
    """

    tows: Count = 0.0
    labour: Duration = 0.0
    winter_labour: Duration = 0.0
    used: Count = 0.0
    exchanges: Count = 0.0
    deposits: Count = 0.0
    seal_kits: Count = 0.0
    rebuilds: Count = 0.0
    extra_parts: Count = 0.0
    damage: Share = 0.0
    hired: Area = 0.0
    hire_calls: Count = 0.0
    checks: Count = 0.0
    holds: Count = 0.0
    refunds: Share = 0.0
    delayed: CropAreas = 0.0
    standing: CropAreas = 0.0
    spares: Count = 0.0
    hours_left: Share = 0.0

    def __add__(self, other: Ledger) -> Ledger:
        return Ledger(**{name: _sum(getattr(self, name), getattr(other, name)) for name in COUNTS})


COUNTS = tuple(f.name for f in fields(Ledger))


def _sum(one: Any, other: Any) -> Any:
    """The sum; nought for all draws is left out, as most counts of most courses are."""
    if is_nought(one):
        return other
    return one if is_nought(other) else one + other


def is_nought(count: Any) -> bool:
    """Whether a count is nought for all draws, as it stands where nothing was counted."""
    return isinstance(count, float) and not count


@dataclass(frozen=True, slots=True)
class Prices:
    """What one of each count costs. Each may be one number or draws.

    Attributes:
        tow: a recovery from the field [money]
        labour: an hour of one person in the season [money/s]
        winter_labour: an hour of one person off season [money/s]
        used: a used drive, brought home [money]
        exchange: a rebuilt exchange drive, brought home, without its deposit [money]
        deposit: deposit on the old drive [money]
        seal_kit: a seal kit [money]
        rebuild: parts of a rebuild, of a drive that wears [money]
        extra_parts: other parts that a let go spoils [money]
        damage: secondary damage as great as a new drive [money]
        hire: hired machine above one's own running [money/m^2]
        hire_call: what a hired machine costs for coming [money]
        check: a check [money]
        hold: fee for keeping a drive back [money]
        crop: worth of each crop as it stands [money/m^2]
        spare: what a spare on the shelf is worth at the end [money]
        hours_left: what a whole life left in a fitted drive is worth at the end [money]
    """

    tow: Money
    labour: MoneyRate
    winter_labour: MoneyRate
    used: Money
    exchange: Money
    deposit: Money
    seal_kit: Money
    rebuild: Money
    extra_parts: Money
    damage: Money
    hire: AreaPrice
    hire_call: Money
    check: Money
    hold: Money
    crop: CropPrices
    spare: Money = 0.0
    hours_left: Money = 0.0


PRICED: tuple[tuple[str, str, float], ...] = (
    ("tows", "tow", 1.0),
    ("labour", "labour", 1.0),
    ("winter_labour", "winter_labour", 1.0),
    ("used", "used", 1.0),
    ("exchanges", "exchange", 1.0),
    ("deposits", "deposit", 1.0),
    ("seal_kits", "seal_kit", 1.0),
    ("rebuilds", "rebuild", 1.0),
    ("extra_parts", "extra_parts", 1.0),
    ("damage", "damage", 1.0),
    ("hired", "hire", 1.0),
    ("hire_calls", "hire_call", 1.0),
    ("checks", "check", 1.0),
    ("holds", "hold", 1.0),
    ("refunds", "used", -1.0),  # comes back
    ("spares", "spare", -1.0),
    ("hours_left", "hours_left", -1.0),
)
"""Count, its price, and whether it costs or comes back. Crops stand apart, one a crop."""
