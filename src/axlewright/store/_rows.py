"""From rows of a database to records and back."""

from __future__ import annotations

import gc
from collections.abc import Generator, Iterable, Iterator, Sequence
from contextlib import contextmanager
from datetime import datetime
from functools import cache
from typing import Any

from pydantic import TypeAdapter, ValidationError
from sqlalchemy import Connection, Row, Select, func, select

from axlewright.store._schema import record
from axlewright.yard import RECORDS, Fault, Faults, Record

ADDS = tuple(sorted(what for what, model in RECORDS.items() if model.adds))


@cache
def _many(what: str) -> TypeAdapter[list[Record]]:
    """What reads many bodies of one sort in one go."""
    one: Any = RECORDS[what]
    return TypeAdapter(list[one])


@contextmanager
def calm() -> Generator[None]:
    """No sweeping while many records are made that all stay: it costs as much as making them."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def body(one: Record) -> str:
    """A record as it is kept."""
    return one.model_dump_json(exclude_defaults=True)


def when(at: datetime | None) -> str | None:
    """A time as it is kept."""
    return at.isoformat().replace("+00:00", "Z") if at else None


def read_when(said: str | None) -> datetime | None:
    return datetime.fromisoformat(said.replace("Z", "+00:00")) if said else None


def all_records(connection: Connection, name: str) -> list[Record]:
    """Every record that stands: of history all, of a thing the last.

    Raises:
        Faults: a body that cannot be read
    """
    found: list[Record] = []
    joined = func.aggregate_strings(record.c.body, ",")
    with calm():
        for what, bodies in connection.execute(
            select(record.c.what, joined).where(record.c.what.in_(ADDS)).group_by(record.c.what)
        ):
            found += _read(what, f"[{bodies}]", name)
        things: dict[tuple[str, str], str] = {}
        for row in connection.execute(_in_order(select(record).where(record.c.what.not_in(ADDS)))):
            things[row.what, row.id] = row.body
        for what in sorted({what for what, _ in things}):
            found += _read(what, f"[{','.join(text for (of, _), text in things.items() if of == what)}]", name)
    return found


def records_of(rows: Iterable[Row[Any]], name: str) -> tuple[Record, ...]:
    """The records of these rows, in their order."""
    return tuple(_read(row.what, f"[{row.body}]", name)[0] for row in rows)


def since(connection: Connection, mark: int) -> Sequence[Row[Any]]:
    """The rows that came after a mark."""
    return connection.execute(_in_order(select(record).where(record.c.change > mark))).all()


def _in_order(rows: Select[Any]) -> Select[Any]:
    return rows.order_by(record.c.change, record.c.position)


def _read(what: str, bodies: str, name: str) -> list[Record]:
    if what not in RECORDS:
        right = "A newer version of this program wrote it: use that one."
        raise Faults(Fault(name, f"It holds a sort of record that is not known here: {what}.", right))
    try:
        return _many(what).validate_json(bodies)
    except ValidationError as bad:
        first = bad.errors()[0]
        at = ".".join(str(part) for part in first["loc"][1:])
        raise Faults(
            Fault(
                name, f"A record of sort {what} cannot be read ({at}: {first['msg']}).", "put-back fetches a snapshot."
            )
        ) from None


def rows_of(number: int, records: Iterable[Record], first: int = 0) -> Iterator[dict[str, Any]]:
    """The rows that keep these records as parts of a change."""
    for position, one in enumerate(records, first):
        yield {"change": number, "position": position, "what": one.what, "id": one.id, "body": body(one)}
