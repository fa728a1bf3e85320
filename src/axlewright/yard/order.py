"""In which order the records of one sort stand in the picture: told by the records alone, never by how they came."""

from __future__ import annotations

from bisect import insort
from collections.abc import Callable, Iterable, Mapping
from datetime import UTC, date, datetime
from itertools import groupby, pairwise
from operator import itemgetter
from typing import Any

from axlewright.yard.records import STAGES, Record

Key = tuple[Any, ...]
NEVER = datetime.min.replace(tzinfo=UTC)


def _by_id(record: Record) -> Key:
    return (record.id,)


def _by_day(record: Any) -> Key:
    """By the day it speaks of, then by when it was kept."""
    return record.on, record.at or NEVER, record.id


def _by_written(work: Any) -> Key:
    return work.on or date.min, work.at or NEVER, work.id


def _by_look(found: Any) -> Key:
    return found.on, -1.0 if found.hours is None else found.hours, found.at or NEVER, found.id


def _by_stage(stage: Any) -> Key:
    return stage.trouble, stage.on, stage.at or NEVER, STAGES.index(stage.stage), stage.id


def _by_number(trouble: Any) -> Key:
    return trouble.number, trouble.id


KEYS: Mapping[str, Callable[[Any], Key]] = {
    "machine": _by_id,
    "clock": _by_day,
    "design": _by_id,
    "drive": _by_id,
    "trouble": _by_number,
    "finding": _by_look,
    "stage": _by_stage,
    "answer": _by_day,
    "season": _by_id,
    "work": _by_written,
    "step card": _by_day,
    "reading": _by_day,
    "after-check": _by_day,
    "move": _by_day,
    "warranty": _by_day,
    "oil sample": _by_day,
    "rain": _by_id,
    "taken back": _by_day,
}
"""By sort. Each ends with the id; two readings of one id that the rest does not tell apart stand by their bodies."""


def _body(record: Record) -> str:
    return record.model_dump_json(exclude={"at"}) if record.adds else ""


def in_order(what: str, records: Iterable[Any]) -> tuple[Any, ...]:
    """All records of a sort in their order. Things of one id, which is a mistake, stay as they came."""
    key = KEYS[what]
    rows = sorted(((key(one), one) for one in records), key=itemgetter(0))
    if all(first[0] != second[0] for first, second in pairwise(rows)):
        return tuple(one for _, one in rows)
    return tuple(one for _, same in groupby(rows, itemgetter(0)) for one in _settled([row[1] for row in same]))


def _settled(same: list[Any]) -> list[Any]:
    return sorted(same, key=_body) if len(same) > 1 else same  # a body is long: asked for only here


def with_new(what: str, records: tuple[Any, ...], new: Iterable[Any]) -> tuple[Any, ...]:
    """Records in their order, with new ones put in at their places."""
    key = KEYS[what]
    rows = list(records)
    for one in new:
        insort(rows, one, key=lambda r: (key(r), _body(r)))
    return tuple(rows)
