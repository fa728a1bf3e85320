"""What the choice of a trouble is reckoned from: quantities, what was seen, what is to be cut, which courses there are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal

from axlewright.kinds import KINDS
from axlewright.plan.reckon.choice_evidence import Witness
from axlewright.plan.steps.jobs import Here
from axlewright.quantities import Basis, Exact, Quantity, Spread, Tenths
from axlewright.trade.choice import Item, class_of_drives, items
from axlewright.trade.seasons import Climate
from axlewright.yard import Course, Hours

DAY = 86400.0
HOUR = 3600.0
RAISES = ("reseal", "fit a spare", "fit a used drive", "fit a rebuilt exchange", "rebuild now")
"""Courses whose work raises the corner and takes wheel or drive off."""


@dataclass(frozen=True, slots=True)
class WorkAhead:
    """One crop that the machine still has to cut; its numbers stand under `season/crops.n` in the quantities.

    Attributes:
        crop: as the trade calls it
        starts: days from today until it is ripe; negative where it is already
        ends: days from today until what stands is lost
        grace, doubles, most: how it spoils (trade/seasons.toml) [s, s, -]
    """

    crop: str
    starts: int
    ends: int
    grace: float
    doubles: float
    most: float


@dataclass(frozen=True, slots=True)
class BearingTask:
    """What is known of the bearings of a drive's design, and of what its wheel carries.

    Attributes:
        quantities: numbers given or taken, by name; those of the machine at work under `at-work`
        arrangement: which way the cones face
        weighed: somebody weighed the wheel, so the machine's own masses are not asked
    """

    quantities: Mapping[str, Quantity]
    arrangement: Literal["back to back", "face to face"]
    weighed: bool


@dataclass(frozen=True, slots=True)
class ChoiceTask:
    """All that the choice is reckoned from.

    Attributes:
        today: the day it is made out
        seen: what was found at this drive
        quantities: numbers given or taken, by name
        none: chance that there is none to be had, by the name of its lead
        works: what is to be cut, in the order in which it is ripe; none: nobody said
        climate: weather of the window
        courses: that there are for this drive and yard, in the order of words
        here: what the jobs depend on
        age: the drive's own machine hours, if known
        spare: hours of the spare on the shelf, and what was found at it; None: nobody knows them
        on_road: the machine may go on the road with the drive in trouble
        clock: the machine's engine clock today, if known
        bearings: of its design, where enough of them is known
        no_bearings: what is missing of them, in names of questions
        seed, count: of the draws
    """

    today: date
    seen: tuple[Witness, ...]
    quantities: Mapping[str, Quantity]
    none: Mapping[str, float]
    works: tuple[WorkAhead, ...]
    climate: Climate
    courses: tuple[Course, ...]
    here: Here
    age: Hours | None = None
    spare: tuple[Hours, tuple[Witness, ...]] | None = None
    on_road: bool = False
    clock: Hours | None = None
    bearings: BearingTask | None = None
    no_bearings: tuple[str, ...] = ()
    seed: int = 0
    count: int = 2048


def assumed(item: Item) -> Quantity:
    """What is taken of an item while nobody gave his own."""
    return Quantity(item.id, KINDS[item.kind], item.spread(), "assumed", item.source, " to ".join((item.values[0], item.values[2])))  # fmt: skip


def taken(own: Mapping[str, Quantity]) -> tuple[dict[str, Quantity], dict[str, float]]:
    """Every item, one's own before what is taken; and of each lead the chance that there is none.

    Whoever gave a lead of his own has found one.
    """
    numbers = {name: own.get(name) or assumed(item) for name, item in items().items()}
    worked = {name: own[name] for name in ("price/used", "price/exchange", "price/deposit") if name in own}
    none = {name: 0.0 if name in own else item.none for name, item in items().items() if item.none}
    return {**numbers, **worked}, none


def number(name: str, kind: str, spread: Spread, basis: Basis, source: str, typed: str = "") -> Quantity:
    return Quantity(name, KINDS[kind], spread, basis, source, typed)


def exact(name: str, kind: str, value: float, basis: Basis, source: str) -> Quantity:
    return number(name, kind, Exact(value), basis, source)


def age_of(hours: Hours | None, name: str = "drive/hours") -> Quantity:
    """A drive's own machine hours; a wide guess where nobody knows them."""
    row = class_of_drives()
    if hours is None:
        return number(name, "duration", Tenths(*row.unknown_hours), "assumed", "nobody knows its hours; " + row.source)  # fmt: skip
    least = max(hours.hours - max(hours.about, 1.0), 0.0) * HOUR
    most = (hours.hours + max(hours.about, 1.0)) * HOUR
    return number(name, "duration", Tenths(least, hours.hours * HOUR, most), "measured", "by its moves and the machine’s clock")  # fmt: skip
