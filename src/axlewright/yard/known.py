"""Ways to find records of a picture again without going through all: made once, and carried over from change to change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from axlewright.yard.records import Record

MOST = 500
"""Entries that are laid over before both layers are made one."""
Pairs = Iterable[tuple[str, Record]]


@dataclass(frozen=True, slots=True)
class Layers:
    """Records by a key: a great mapping that is never changed, and a small one laid over it.

    A key with one record has it bare: most have one, and twenty thousand tuples are slow to make.
    """

    under: Mapping[str, Any]
    over: Mapping[str, Any] = field(default_factory=dict)

    def get(self, key: str) -> tuple[Any, ...]:
        """The records of a key; none where there is no such key."""
        found = self.over.get(key) or self.under.get(key, ())
        return (found,) if isinstance(found, Record) else tuple(found)

    def with_(self, new: Pairs) -> Layers:
        """These and new records, each at the end of its key's."""
        over = dict(self.over)
        for key, record in new:
            over[key] = (*Layers(self.under, over).get(key), record)
        return Layers({**self.under, **over}) if len(over) > MOST else Layers(self.under, over)

    @classmethod
    def of(cls, pairs: Pairs) -> Layers:
        """All these."""
        found: dict[str, Any] = {}
        for key, record in pairs:
            first = found.setdefault(key, record)
            if isinstance(first, list):
                first.append(record)
            elif first is not record:
                found[key] = [first, record]
        return cls(found)


def by_id(records: Iterable[Record]) -> Iterator[tuple[str, Record]]:
    """Each record under its sort and id."""
    return ((f"{one.what} {one.id}", one) for one in records)


def clocked(records: Iterable[Any], places: Mapping[int, str]) -> Iterator[tuple[str, Record]]:
    """What tells of a machine's clocks (findings, clock readings, readings) under its sort and machine."""
    for one in records:
        if one.what == "finding":
            yield f"finding {one.corner.machine if one.corner else ''}", one
        elif one.what == "clock":
            yield f"clock {one.machine}", one
        elif one.what == "reading":
            yield f"reading {places.get(one.trouble, '')}", one
