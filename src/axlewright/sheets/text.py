"""Words on a sheet: plain strings, and numbers that keep their SI value until a renderer shows them."""

from __future__ import annotations

import datetime
from typing import Literal, TypeAlias

from pydantic import BaseModel, ConfigDict


class Frozen(BaseModel):
    """The base of all that a sheet is made of."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class Shown(Frozen):
    """A number of the pack. Its kind, basis and source stand once in `Pack.basis` under its name.

    `toward` is the way to round in the unit shown: down for what may be asked of a part, up for what it must carry.
    `on_tool` is the unit printed on a gauge, a wrench or a clock: no choice of measures converts it.
    """

    part: Literal["shown"] = "shown"
    name: str
    si: float
    low: float | None = None
    high: float | None = None
    toward: Literal["nearest", "down", "up"] = "nearest"
    on_tool: str | None = None
    digits: int = 3
    with_basis: bool = True  # print the two small letters after the unit
    with_unit: bool = True


class Day(Frozen):
    """A date, written as the reader writes dates."""

    part: Literal["day"] = "day"
    on: datetime.date


class Run(Frozen):
    """Some words in another voice: strong, must (primer), soft, struck through."""

    part: Literal["run"] = "run"
    voice: Literal["strong", "must", "soft", "struck"]
    words: tuple[str | Shown | Day, ...]


class Go(Frozen):
    """Words that open another sheet on a screen; on paper they are words."""

    part: Literal["go"] = "go"
    words: str
    to: str


Piece: TypeAlias = str | Shown | Day | Run | Go
Text: TypeAlias = tuple[Piece, ...]


def text(*pieces: Piece) -> Text:
    """A text of these pieces: `text("holds ", shown)`."""
    return pieces
