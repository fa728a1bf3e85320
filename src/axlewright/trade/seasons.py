"""Crops, weather and pace of a season: what is taken while nobody gave his own."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Annotated, Literal

from pydantic import BeforeValidator, model_validator

from axlewright.quantities import Tenths, parse
from axlewright.trade.rows import Row, rows


def _three(kind: str) -> BeforeValidator:
    def read(given: object) -> object:
        return Tenths(*(parse(one, kind).si for one in given)) if isinstance(given, list) else given

    return BeforeValidator(read)


def _one(kind: str) -> BeforeValidator:
    return BeforeValidator(lambda given: parse(given, kind).si if isinstance(given, str) else given)


Rates = Annotated[Tenths, _three("rate")]
Durations = Annotated[Tenths, _three("duration")]
Prices = Annotated[Tenths, _three("area-price")]
Paces = Annotated[Tenths, _three("field-rate")]
Time = Annotated[float, _one("duration")]


class Crop(Row):
    """A crop: how fast it spoils once it is ripe, how long a day it can be cut, what a hectare brings [SI]."""

    id: str
    label: str
    also: tuple[str, ...] = ()
    delay: Rates
    grace: Time
    doubles: Time
    most: float
    hours: Durations
    worth: Prices


class Climate(Row):
    """The weather of a harvest window [SI]."""

    id: str
    label: str
    share: float
    spell: Time
    between_years: float
    basis: Literal["assumed", "computed"] = "assumed"

    @model_validator(mode="after")
    def _stands(self) -> Climate:
        if not 0 < self.share < 1 or self.spell < 86400 * self.share / (1 - self.share):
            raise ValueError("so few days that can be worked do not come in such long spells")
        return self


class Pace(Row):
    """What a kind of machine cuts in an hour in the field [m^2/s]."""

    id: str
    rate: Paces


ANY = "any"
USUAL = "ordinary"


@cache
def crops() -> Mapping[str, Crop]:
    return {row.id: row for row in rows("seasons.toml", "crop", Crop)}


@cache
def climates() -> Mapping[str, Climate]:
    return {row.id: row for row in rows("seasons.toml", "climate", Climate)}


@cache
def paces() -> Mapping[str, Pace]:
    return {row.id: row for row in rows("seasons.toml", "pace", Pace)}


def pace(kind_of_machine: str | None) -> Pace:
    """The pace of a kind of machine, or of any."""
    return paces().get(kind_of_machine or ANY, paces()[ANY])
