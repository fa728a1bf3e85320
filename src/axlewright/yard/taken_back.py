"""A change that was taken back: what it brought is kept for ever, and counts no longer."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import ClassVar

from pydantic import Field

from axlewright.yard.records import Id, Line, Record


class TakenBack(Record):
    """One record of a change that was taken back: of which sort, and its id. Taken back itself, the other counts again."""

    what: ClassVar[str] = "taken back"
    adds: ClassVar[bool] = True
    sort: Line = Field(examples=["finding"])
    of: Id = Field(examples=["3-plug"])
    on: date = Field(examples=["2026-08-28"])


def parted(records: Iterable[Record]) -> tuple[list[Record], list[Record]]:
    """The records that count, and those that were taken back, each in their order.

    A taking-back names what came before it, so from the last to the first each is settled when its turn comes.
    """
    records = list(records)
    gone: set[tuple[str, str]] = set()
    backs = [one for one in records if isinstance(one, TakenBack)]
    for one in sorted(backs, key=_kept, reverse=True):
        if (one.what, one.id) not in gone:
            gone.add((one.sort, one.of))
    if not gone:
        return records, []
    return _without(records, gone), [one for one in records if (one.what, one.id) in gone]


def _without(records: Sequence[Record], gone: set[tuple[str, str]]) -> list[Record]:
    return [one for one in records if (one.what, one.id) not in gone]


def _kept(one: TakenBack) -> tuple[str, str]:
    return one.at.isoformat() if one.at else "", one.id
