"""The warranty on a drive: so many days, so many hours, whichever runs out first; and how much of it is left."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import ClassVar, Literal

from pydantic import Field, model_validator

from axlewright.yard.hours import Hours
from axlewright.yard.moves import Ran, Stay
from axlewright.yard.records import Corner, Id, Line, Photo, Prose, Record, Word

Begins = Literal["fitted", "bought"]
State = Literal["waits", "runs", "over", "not known"]


class Warranty(Record):
    """What a seller or a workshop answers for. It begins when the drive is fitted, or on the day it was given."""

    what: ClassVar[str] = "warranty"
    adds: ClassVar[bool] = True
    drive: Word = Field(examples=["bramble-left"])
    on: date = Field(examples=["2026-08-28"])
    days: int | None = Field(None, ge=1, le=10_000, examples=[365])
    hours: float | None = Field(None, gt=0, le=100_000, examples=[300])
    begins: Begins = Field("fitted", examples=["fitted"])
    given_by: Line = Field("", examples=["the breaker at the mill"])
    paper: Line = Field("", examples=["receipt 118"])
    photo: Photo = Field("", examples=["receipt.jpg"])
    note: Prose = Field("", examples=["Cover stays shut"])
    corrects: Id | None = None

    @model_validator(mode="after")
    def _has_an_end(self) -> Warranty:
        if self.days is None and self.hours is None:
            raise ValueError("It ends after so many days, or hours, or both: write days = 365, or hours = 300.")
        return self


@dataclass(frozen=True, slots=True)
class Left:
    """How much of a warranty is left on a day.

    Attributes:
        warranty: what was given
        begun: the day from which it counts; None while it waits for the drive to be fitted
        until: its last day; None where it has none, or waits
        days: days left, its last day among them; None where no day ends it
        ran: hours that the drive ran since it began; None where no clock tells
        hours: hours left, as far off as the clocks are; None where no hours end it, or no clock tells
    """

    warranty: Warranty
    begun: date | None
    until: date | None
    days: int | None
    ran: Hours | None
    hours: Hours | None

    @property
    def state(self) -> State:
        """Whether it waits for the drive to be fitted, runs, or is over; `surely` says what is left for certain."""
        if self.begun is None:
            return "waits"
        if (self.days is not None and self.days <= 0) or (self.hours is not None and self.hours.hours <= 0):
            return "over"
        return "not known" if self.warranty.hours is not None and self.hours is None else "runs"

    @property
    def surely(self) -> float | None:
        """Hours that are left at the least."""
        return None if self.hours is None else max(self.hours.hours - self.hours.about, 0.0)

    def first(self, a_day: float | None, today: date) -> Literal["days", "hours"] | None:
        """Which of the two ends it first, where the drive runs so many hours a day; on a shelf the days do.

        Args:
            a_day: engine hours a day; None where it sits at no machine
            today: the day
        """
        if self.warranty.hours is None or self.days is None:
            return "days" if self.warranty.hours is None else "hours"
        if self.surely is None or self.until is None:
            return None
        if not a_day:
            return "days"
        return "hours" if today + timedelta(days=int(self.surely / a_day)) <= self.until else "days"


def left_of(warranty: Warranty, lived: Iterable[Stay], today: date, ran: Ran) -> Left:
    """How much of a warranty is left.

    Args:
        warranty: what was given
        lived: the stays of its drive, the first first
        today: the day
        ran: hours of a machine between two days
    """
    lived = tuple(lived)
    begun = _begun(warranty, lived)
    if begun is None:
        return Left(warranty, None, None, None, None, None)
    until = begun + timedelta(days=warranty.days) if warranty.days is not None else None
    since = ran_between(lived, begun, today, ran)
    left = None
    if since and warranty.hours is not None:
        left = Hours(round(warranty.hours - since.hours, 1), "engine", since.about)
    return Left(warranty, begun, until, None if until is None else (until - today).days + 1, since, left)


def _begun(warranty: Warranty, lived: tuple[Stay, ...]) -> date | None:
    """The day it was given, or the first on which the drive sat at a corner from then on."""
    if warranty.begins == "bought":
        return warranty.on
    at_work = [stay for stay in lived if isinstance(stay.sits, Corner)]
    fitted = (stay for stay in at_work if stay.until is None or stay.until > warranty.on)
    first = next(fitted, None)
    return None if first is None else max(first.since or warranty.on, warranty.on)


def ran_between(lived: Iterable[Stay], since: date, until: date, ran: Ran) -> Hours | None:
    """Engine hours that a drive ran from a day to another, over every machine it sat at; None where no clock tells."""
    hours, about = 0.0, 0.0
    for stay in lived:
        begin, end = max(stay.since or since, since), min(stay.until or until, until)
        if not isinstance(stay.sits, Corner) or begin >= end:
            continue
        there = ran(stay.sits.machine, begin, end)
        if there is None:
            return None
        hours, about = hours + there.hours, about + there.about
    return Hours(round(hours, 1), "engine", round(about, 1))
