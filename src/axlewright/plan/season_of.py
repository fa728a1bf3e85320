"""The season as it lies ahead: what each machine still has to cut, when it is off, and what a lost day costs by its date.

Kept by what it is made of: a page that is opened again costs nothing, a crop typed anew costs its own machine alone.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache

import numpy as np

from axlewright.engines.limits import OutOfRange
from axlewright.engines.season import DAY, DaysLost, days_lost, drawn_days
from axlewright.engines.season import Crop as Standing
from axlewright.engines.season.weather import chain_from_spell, year_shares
from axlewright.kinds import Array
from axlewright.plan.choice_of import crop_numbers, typed_of
from axlewright.plan.once import Kept
from axlewright.plan.weather_of import climate_of
from axlewright.plan.workings import Refused, Workings
from axlewright.quantities import Quantity
from axlewright.quantities.draws import own_shares
from axlewright.trade.seasons import Climate, Crop, crops
from axlewright.yard import Machine, Season, Work, Yard

COUNT = 2048  # seasons drawn
LONGEST = 250  # days from the first crop's first to the last one's end
MOST_DAYS = 48  # days of a curve; a longer season is asked every second or third
MOST_KEPT = 320
SEED = 20_08  # of the weather: one for the whole yard, so that all machines stand in the same rain
ENDS = (0.1, 0.5, 0.9)

Three = tuple[float, float, float]
"""One season in ten below, every second one, nine in ten below."""


@dataclass(frozen=True, slots=True)
class CropAhead:
    """One crop that a machine still has to cut.

    Attributes:
        work: as it was typed
        season: the year that it belongs to
        row: what the trade knows of the crop
        name: under which its numbers stand
        numbers: area, rate, hours, worth, loss, by the last word of their names
        hire: what a hired machine costs above the own running, where somebody said
        left: machine hours still to run in it [s]
    """

    work: Work
    season: Season
    row: Crop
    name: str
    numbers: Mapping[str, Quantity]
    hire: Quantity | None
    left: Three

    @property
    def off(self) -> bool:
        """Whether it is all cut."""
        return self.numbers["area"].spread.middle() <= 0


@dataclass(frozen=True, slots=True)
class DayLost:
    """What it costs that a machine stands on this day, where it could have cut [money]."""

    on: date
    low: float
    middle: float
    high: float


@dataclass(frozen=True, slots=True)
class MachineAhead:
    """The season of one machine.

    Attributes:
        machine: which
        crops: what it has to cut, in the order in which it is ripe
        begins: the first day on which it may cut
        ends: the day after which what stands is lost
        finish: when the last crop is off: one season in ten, every second, nine in ten; None: not at all
        late: share of seasons in which something stands at its end [-]
        workable: days that can be worked from `begins` to `ends` [1]
        days: what a lost day costs, by date; the next day alone where no more was asked
        hired: what a hired machine costs for a day's work of this one [money]; None: nobody said
        climate: the weather it stands in
    """

    machine: Machine
    crops: tuple[CropAhead, ...]
    begins: date
    ends: date
    finish: tuple[date | None, date | None, date | None]
    late: float
    workable: Three
    days: tuple[DayLost, ...]
    hired: Three | None
    climate: Climate

    @property
    def next_day(self) -> DayLost:
        """The next day that can be lost."""
        return self.days[0]


@dataclass(frozen=True, slots=True)
class NotReckoned:
    """A machine whose season cannot be reckoned, and why."""

    machine: Machine
    crops: tuple[CropAhead, ...]
    because: str


_KEPT: Kept[MachineAhead | NotReckoned | None] = Kept(MOST_KEPT)
_CROPS: Kept[tuple[CropAhead, ...]] = Kept(MOST_KEPT)
"""By the records that they are made of, which are frozen."""


def season_of(yard: Yard, today: date) -> tuple[MachineAhead | NotReckoned, ...]:
    """The season of every machine that has something to cut, the one whose next lost day is dearest first."""
    found = [made for one in yard.machines if (made := machine_ahead(yard, one, today, whole=False))]
    return tuple(sorted(found, key=_dearest))


def _dearest(one: MachineAhead | NotReckoned) -> tuple[float, str]:
    if isinstance(one, NotReckoned):
        return -math.inf, one.machine.id  # it wants somebody
    return -one.next_day.middle, one.machine.id


def machine_ahead(
    yard: Yard, machine: Machine, today: date, *, whole: bool = True
) -> MachineAhead | NotReckoned | None:
    """The season of a machine, with the lost days of all of it or the next alone; None where nothing is left to cut."""
    works = yard.work_of(machine.id, today)
    if not works:
        return None

    def make() -> MachineAhead | NotReckoned | None:
        ahead = tuple(one for one in crops_ahead(yard, machine, today) if not one.off)
        climate = climate_of(yard, works)
        return _reckoned(machine, ahead, climate, today, whole=whole) if ahead else None

    return _KEPT.get((machine, works, yard.rains, yard.title.decimal, today, whole), make)


def crops_ahead(yard: Yard, machine: Machine, today: date) -> tuple[CropAhead, ...]:
    """What a machine has to cut, that which is off already too, while its window lasts."""
    works = yard.work_of(machine.id, today)
    return _CROPS.get(
        (machine.kind, works, yard.title.decimal),
        lambda: tuple(_crop(yard, machine, work, season) for work, season in works),
    )


def _crop(yard: Yard, machine: Machine, work: Work, season: Season) -> CropAhead:
    name = f"season/{season.id}/{machine.id}/{work.crop}"
    numbers = crop_numbers(yard, work, name, machine.kind)
    short = {key.removeprefix(f"{name}."): one for key, one in numbers.items()}
    hire = typed_of(yard, work, "hire", f"{name}.hire")
    w = _workings(short, hire)
    left = _three(np.asarray(w[f"{name}.area"].draws) / np.asarray(w[f"{name}.rate"].draws))
    return CropAhead(work, season, crops()[work.crop], name, short, hire, left)


def _workings(numbers: Mapping[str, Quantity], hire: Quantity | None) -> Workings:
    named = {one.name: one for one in (*numbers.values(), *((hire,) if hire else ()))}
    return Workings(named, SEED, COUNT)


def _three(draws: Array) -> Three:
    low, middle, high = (float(at) for at in np.quantile(draws, ENDS))
    return low, middle, high


@lru_cache(maxsize=8)
def weather(climate: Climate, days: int) -> Array:
    """Which days of each drawn season can be worked, a season a row: 1 or 0."""
    chain = chain_from_spell(climate.share, climate.spell / DAY)
    years = year_shares(own_shares(SEED, "season/year", COUNT), climate.share, climate.between_years)
    luck = own_shares(SEED, "season/weather", COUNT * days).reshape(days, COUNT)
    made = np.asarray(drawn_days(luck.T, years, chain.memory), float)
    made.setflags(write=False)
    return made


def _reckoned(
    machine: Machine, ahead: tuple[CropAhead, ...], climate: Climate, today: date, *, whole: bool
) -> MachineAhead | NotReckoned:
    begins = max(today, min(one.work.starts for one in ahead))
    ends = max(one.work.ends for one in ahead)
    span = (ends - begins).days + 1
    if span > LONGEST:
        return NotReckoned(machine, ahead, f"from {begins} to {ends} are {span} days: no harvest lasts so long")
    good = weather(climate, LONGEST)[:, :span]
    asked = np.arange(0, span if whole else 1, math.ceil(span / MOST_DAYS))
    try:
        lost, worth, hired = _lost(ahead, begins, good, asked)
    except (OutOfRange, Refused) as no:
        return NotReckoned(machine, ahead, str(no))
    money = (np.asarray(lost.more) * worth[:, None, :]).sum(axis=2)
    finish = np.asarray(lost.finish, float)
    at = [None if not math.isfinite(day) else begins + timedelta(days=math.floor(day / DAY)) for day in np.quantile(finish, ENDS, method="lower")]  # fmt: skip
    return MachineAhead(
        machine,
        ahead,
        begins,
        ends,
        (at[0], at[1], at[2]),
        float(np.isinf(finish).mean()),
        _three(good.sum(axis=1)),
        tuple(_day(begins, int(day), money[:, n], good[:, day]) for n, day in enumerate(asked)),
        hired,
        climate,
    )


def _day(begins: date, day: int, money: Array, good: Array) -> DayLost:
    """A day's cost over the seasons in which it could have been worked."""
    return DayLost(begins + timedelta(days=day), *_three(money[good > 0] if good.any() else money))


def _lost(
    ahead: tuple[CropAhead, ...], begins: date, good: Array, asked: np.ndarray
) -> tuple[DaysLost, Array, Three | None]:
    """Every day asked, taken out of every drawn season; what a hectare of each crop brings; a hired machine for a day."""
    draws = [_drawn(one) for one in ahead]
    hours = draws[0]["hours"]  # a good day of the first crop is the measure: another crop's longer day cuts more in it
    standing = tuple(
        Standing(
            one["area"],
            one["rate"] * one["hours"] / hours,
            (crop.work.starts - begins).days * DAY,
            one["loss"],
            crop.row.grace,
            crop.row.doubles,
            crop.row.most,
        )
        for crop, one in zip(ahead, draws, strict=True)
    )
    ends = tuple(((one.work.ends - begins).days + 1) * DAY for one in ahead)
    lost = days_lost(standing, ends, good * hours[:, None], asked)
    first = draws[0]
    hired = _three(first["hire"] * first["rate"] * first["hours"]) if "hire" in first else None
    return lost, np.stack([one["worth"] for one in draws], axis=1), hired


def _drawn(one: CropAhead) -> dict[str, Array]:
    w = _workings(one.numbers, one.hire)
    wanted = (*one.numbers, *(("hire",) if one.hire else ()))
    return {key: np.asarray(w[f"{one.name}.{key}"].draws, float) for key in wanted}
