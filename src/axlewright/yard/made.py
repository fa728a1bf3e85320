"""A change as it was made: who made it, when, what came new and what stood there before."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from axlewright.yard.records import Record


@dataclass(frozen=True)
class Made:
    """A change that a store keeps.

    Attributes:
        number: it counts up from change to change
        who: who made it; empty where nobody said
        at: when; None where nobody said
        added: records that came new: all that history keeps, and things that were not there before
        before: things that were replaced, each as it stood
        after: the same things as this change left them
        beside: names of the files that came to be kept beside the records
        edited: the records were changed past this store since, in an editor: what stands now is not what it left
    """

    number: int
    who: str
    at: datetime | None
    added: tuple[Record, ...] = ()
    before: tuple[Record, ...] = ()
    after: tuple[Record, ...] = ()
    beside: tuple[str, ...] = ()
    edited: bool = False


def who_and_when(records: Iterable[Record]) -> tuple[str, datetime | None]:
    """Who made a change and when, by the records of it: the last that says so."""
    records = tuple(records)
    who = next((one.who for one in reversed(records) if one.who), "")
    return who, max((one.at for one in records if one.at), default=None)
