"""The short lines printed on cab card, key tags and seller's list."""

from __future__ import annotations

from functools import cache

from axlewright.trade.rows import Row, table
from axlewright.trade.steps import Part


class Cab(Part):
    """Speeds and distances in km/h and km; lists in the order in which they are read."""

    speed_km_h: float
    first_stop_km: float
    then_every_km: float
    stop_list: tuple[str, ...]
    before_road: tuple[str, ...]
    last: str


class Fit(Part):
    what: str
    unit: str


class Sound(Part):
    look: str
    how: str
    boxes: tuple[str, ...]


class Seller(Part):
    phone: tuple[str, ...]
    fits: tuple[Fit, ...]
    sound: tuple[Sound, ...]
    terms: tuple[str, ...]
    take: tuple[str, ...]
    last: str


class Tag(Part):
    no_oil: str
    raised: str


class Cards(Row):
    cab: Cab
    seller: Seller
    tag: Tag


@cache
def cards() -> Cards:
    """The lines of all cards."""
    return Cards.model_validate(table("steps/common/cards.toml"))
