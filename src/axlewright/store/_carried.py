"""A whole yard out of a database, and into one."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import Connection, delete, insert, select, text

from axlewright.store import _log, _rows
from axlewright.store._beside import must_be_beside
from axlewright.store._hand import Files
from axlewright.store._schema import ARRIVED, beside, change, record
from axlewright.store.whole import Whole, log_of, texts_of
from axlewright.yard import Record, Yard


def whole(connection: Connection, yard: Yard, name: str) -> Whole:
    """All of a yard, as the open transaction sees it."""
    names = connection.scalars(select(beside.c.name)).all()
    kept = [one for one in names if must_be_beside(one, refuse=False)]
    came = {one: data(connection, one) or b"" for one in names if one.endswith(".toml")}
    logs = {one: data(connection, one) or b"" for one in names if _log.FILE.fullmatch(one)}
    texts = texts_of(yard, came)
    return Whole(
        {**texts, **log_of(blocks(connection, name), logs, texts)},
        tuple(sorted(kept)),
        lambda one: data(connection, one) or b"",
    )


def blocks(connection: Connection, name: str) -> list[_log.Block]:
    """The changes that were made here, as a folder's log has them; how a whole yard came in is none."""
    heads = connection.execute(select(change).where(change.c.note != ARRIVED).order_by(change.c.number)).all()
    if not heads:
        return []
    files: dict[int, list[str]] = {}
    for number, of in connection.execute(select(beside.c.change, beside.c.name).order_by(beside.c.name)):
        files.setdefault(number, []).append(of)
    rows = connection.execute(select(record).order_by(record.c.change, record.c.position)).all()
    stood: dict[tuple[str, str], Record] = {}
    lines: dict[int, list[_log.Line]] = {}
    for row, one in zip(rows, _rows.records_of(rows, name), strict=True):
        mine = lines.setdefault(row.change, [])
        if not one.adds:
            key = (one.what, one.id)
            if key in stood:
                mine.append(_log.Line("-", stood[key]))
            stood[key] = one
        mine.append(_log.Line("+", one))
    return [
        _log.Block(
            head.number,
            head.number,
            _rows.read_when(head.at),
            head.who,
            (*lines.get(head.number, ()), *(_log.Line("=", of) for of in files.get(head.number, ()))),
        )
        for head in heads
    ]


def fill(connection: Connection, number: int, came: Whole, yard: Yard, said: tuple[str, datetime | None]) -> None:
    """Bring a whole yard in as one change, with its files as they came."""
    connection.execute(insert(change), {"number": number, "who": said[0], "at": _rows.when(said[1]), "note": ARRIVED})
    connection.execute(insert(record), list(_rows.rows_of(number, yard.records)))
    for name, content in came.files():
        connection.execute(insert(beside), {"name": name, "data": content, "change": number})


def empty(connection: Connection) -> None:
    """Take all out, inside the open transaction, past the guards that let nobody change a row."""
    if connection.dialect.name == "postgresql":
        connection.execute(text("truncate beside, record, change"))
        return
    guards = connection.execute(text("select name, sql from sqlite_master where type = 'trigger'")).all()
    for name, _ in guards:
        connection.execute(text(f'drop trigger "{name}"'))
    for table in (beside, record, change):
        connection.execute(delete(table))
    for _, made_by in guards:
        connection.exec_driver_sql(made_by)


def last_that_came(connection: Connection) -> tuple[_log.Block, Files] | None:
    """The last change in the log that a yard came with, and the files that it left; None where it came with none."""
    names = connection.scalars(select(beside.c.name)).all()
    logs = {one: data(connection, one) or b"" for one in names if _log.FILE.fullmatch(one)}
    found = _log.blocks(*_log.last_text(logs))
    if not found:
        return None
    return found[-1], {one: data(connection, one) or b"" for one in names if one.endswith(".toml")}


def data(connection: Connection, name: str) -> bytes | None:
    """A file kept beside the records."""
    found = connection.scalar(select(beside.c.data).where(beside.c.name == name))
    return None if found is None else bytes(found)
