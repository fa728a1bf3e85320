"""A yard in a database: SQLite in one file, or PostgreSQL by its address, by the same words of SQLAlchemy Core."""

from __future__ import annotations

import threading
from collections.abc import Generator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, exists, func, insert, inspect, select, text
from sqlalchemy.exc import DBAPIError

from axlewright.store import _carried, _engine, _log, _rows
from axlewright.store._beside import kept_already, must_be_beside
from axlewright.store._read import mark
from axlewright.store._schema import ARRIVED, NEWEST, OLDER, beside, change, record
from axlewright.store.folder import Day, day
from axlewright.store.whole import Whole, is_blank, not_blank
from axlewright.yard import Beside, Change, Fault, Faults, Made, Moved, Record, Title, Yard, who_and_when
from axlewright.yard.part import broken

TOO_MANY = 400
"""Changes to catch up with one by one; past it the whole yard is read again."""


class Database:
    """A yard kept in a database. What is promised stands at `Folder`.

    The picture that was read last is kept: while nobody wrote, reading asks for the mark alone, and after a few changes
    it reads those. The mark is the number of the last change.
    """

    def __init__(self, url: URL, today: Day = None, *, older: bool = False) -> None:
        self.url, self.today, self.older = url, today, older
        self.name = _engine.name_of(url)
        self._engine: Engine | None = None
        self._opening = threading.Lock()
        self._kept: Yard | None = None

    def read(self) -> Yard:
        """The yard as it stands."""
        with self.looking() as connection:
            return self._picture(connection, _mark(connection))

    def write(self, new: Change, seen: int) -> int:
        """Add a change to the yard, whole or not at all; it lasts when this returns."""
        with self.writing() as connection:
            now = _mark(connection)
            if now != seen:
                raise Moved(seen, now)
            yard = self._picture(connection, now)
            fresh = yard.fresh(new)
            files = self._new_files(connection, fresh.beside)
            if not fresh.records and not files:
                return now
            wanted = yard.with_(Change(fresh.records))
            faults = broken(yard, wanted, fresh.records, day(self.today))
            if faults:
                raise Faults(*faults)
            add(connection, now + 1, fresh.records, files)
            wanted = wanted.marked(now + 1)
        self._kept = wanted
        return now + 1

    def last(self) -> Made | None:
        """The last change; None where none was made since the yard was laid out or brought in."""
        with self.looking() as connection:
            row = connection.execute(select(change).order_by(change.c.number.desc()).limit(1)).first()
            if row is None or row.note == ARRIVED:
                block = _carried.last_that_came(connection)
                return block[0].made(mark(block[1])) if block else None
            mine = connection.execute(select(record).where(record.c.change == row.number).order_by(record.c.position))
            records = _rows.records_of(mine, self.name)
            things = {(one.what, one.id): one for one in records if not one.adds}
            before = {key: was for key in things if (was := self._stood(connection, key, row.number))}
            added = tuple(one for one in records if one.adds)
            came = tuple(one for key, one in things.items() if key not in before)
            after = tuple(one for key, one in things.items() if key in before)
            names = connection.scalars(select(beside.c.name).where(beside.c.change == row.number)).all()
            at = _rows.read_when(row.at)
            return Made(row.number, row.who, at, (*came, *added), tuple(before.values()), after, _by_name(names))

    def beside(self) -> tuple[str, ...]:
        """The names of all files kept beside the records."""
        with self.looking() as connection:
            found = connection.scalars(select(beside.c.name).order_by(beside.c.name)).all()
        return tuple(name for name in found if must_be_beside(name, refuse=False))

    def file(self, name: str) -> bytes | None:
        """A file kept beside the records, `packs/3f9a.json`; None where there is none."""
        must_be_beside(name)
        with self.looking() as connection:
            return _carried.data(connection, name)

    @contextmanager
    def whole(self) -> Generator[Whole]:
        """All of the yard at one moment, to be carried to another store."""
        with self.looking() as connection:
            yield _carried.whole(connection, self._picture(connection, _mark(connection)), self.name)

    def fill(self, whole: Whole, over: bool = False, who: str = "", at: datetime | None = None) -> None:
        """Take a whole yard in, all of it or nothing. `over`: in place of all that stands here."""
        yard = whole.yard(day(self.today))
        with self.writing() as connection:
            now = _mark(connection)
            blank = is_blank(self._picture(connection, now)) and not connection.scalar(select(exists(select(beside))))
            if not over and not blank:
                raise not_blank(self.name)
            _carried.empty(connection)
            number = max(now, _log.last_number(_log.last_text(whole.log)[1])) + 1
            _carried.fill(connection, number, whole, yard, (who, at))
        self._kept = None

    # how it is opened
    @property
    def engine(self) -> Engine:
        """Its connections. They are opened when they are first wanted, and the schema is looked at then."""
        with self._opening:
            return self._opened()

    def _opened(self) -> Engine:
        if self._engine is None:
            if self.url.get_backend_name() == "sqlite" and not Path(str(self.url.database)).exists():
                raise Faults(Fault(self.name, "There is no yard here.", "lay-out makes a new one."))
            engine = _engine.engine_of(self.url)
            try:
                with self._in_words(), engine.connect() as connection:
                    must_be_ours(connection, self.name, self.older)
            except Faults:
                engine.dispose()
                raise
            self._engine = engine
        return self._engine

    @contextmanager
    def looking(self) -> Generator[Connection]:
        """The database at one moment."""
        with self._in_words(), self.engine.connect() as connection, connection.begin():
            yield connection

    @contextmanager
    def writing(self) -> Generator[Connection]:
        """The database, held against other writers; all that is done lasts when this ends, or nothing of it."""
        with self._in_words(), _engine.writing(self.engine).connect() as connection, connection.begin():
            _engine.hold(connection)
            yield connection

    def renew(self) -> tuple[str, str] | None:
        """Bring a database that an earlier version kept up to date, all the way or not at all.

        Returns:
            the step of its schema before and now; None where there was nothing to do
        """
        with self.writing() as connection:
            step = step_of(connection, self.name)
            if step == NEWEST:
                return None
            from axlewright.store._migrate import upgrade

            upgrade(connection)
            return str(step), NEWEST

    def close(self) -> None:
        """Let go of all connections."""
        if self._engine is not None:
            self._engine.dispose()
            self._engine = None

    @contextmanager
    def _in_words(self) -> Generator[None]:
        try:
            yield
        except DBAPIError as bad:
            raise _engine.in_words(bad, self.name) from bad

    # the picture
    def _picture(self, connection: Connection, now: int) -> Yard:
        kept = self._kept
        if kept is None or kept.seen > now or now - kept.seen > TOO_MANY:
            records = _rows.all_records(connection, self.name)
            if not any(isinstance(one, Title) for one in records):
                raise Faults(Fault(self.name, "There is no yard here.", "lay-out makes a new one."))
            with _rows.calm():
                kept = Yard.of(records, now)
        elif kept.seen < now:
            arrived = select(exists().where(change.c.number > kept.seen, change.c.note == ARRIVED))
            if connection.scalar(arrived):
                self._kept = None
                return self._picture(connection, now)
            new = _rows.records_of(_rows.since(connection, kept.seen), self.name)
            kept = kept.with_(Change(new)).marked(now)
        self._kept = kept
        return kept

    def _stood(self, connection: Connection, key: tuple[str, str], number: int) -> Record | None:
        """How a thing stood before a change."""
        earlier = (
            select(record)
            .where(record.c.what == key[0], record.c.id == key[1], record.c.change < number)
            .order_by(record.c.change.desc(), record.c.position.desc())
            .limit(1)
        )
        found = _rows.records_of(connection.execute(earlier), self.name)
        return found[0] if found else None

    def _new_files(self, connection: Connection, files: tuple[Beside, ...]) -> tuple[Beside, ...]:
        """The files to keep that are not there yet; what is kept so is never written over."""
        new: dict[str, Beside] = {}
        for one in files:
            must_be_beside(one.name)
            before = new[one.name].data if one.name in new else _carried.data(connection, one.name)
            if before is None:
                new[one.name] = one
            elif before != one.data:
                raise kept_already(one.name)
        return tuple(new.values())


def add(
    connection: Connection,
    number: int,
    records: tuple[Record, ...],
    files: tuple[Beside, ...] = (),
    note: str = "",
    said: tuple[str, datetime | None] | None = None,
) -> None:
    """Write a change of this number into the open transaction."""
    who, at = said or who_and_when(records)
    connection.execute(insert(change), {"number": number, "who": who, "at": _rows.when(at), "note": note})
    rows: list[dict[str, Any]] = list(_rows.rows_of(number, records))
    if rows:
        connection.execute(insert(record), rows)
    for one in files:
        connection.execute(insert(beside), {"name": one.name, "data": one.data, "change": number})


def must_be_ours(connection: Connection, name: str, older: bool = False) -> None:
    """Refuse a database that is empty, another program's, newer than this one, or older unless that is welcome.

    Raises:
        Faults: it is; what to do
    """
    step = step_of(connection, name)
    if step is None:
        raise Faults(Fault(name, "There is no yard here.", "lay-out makes a new one."))
    if step in OLDER and older:
        return
    if step in OLDER:
        right = f"axlewright keep --renew --yard {name} takes a snapshot and brings it up to date."
        raise Faults(Fault(name, "An earlier version of this program kept this yard.", right))
    if step != NEWEST:
        right = "Nothing was changed: use the version that wrote it, or a newer one."
        raise Faults(Fault(name, f"A newer version of this program kept this yard (schema {step}).", right))


def step_of(connection: Connection, name: str) -> str | None:
    """The step of its schema; None where the database is empty.

    Raises:
        Faults: it is another program's
    """
    there = set(inspect(connection).get_table_names())
    if not there:
        return None
    if "alembic_version" not in there or not {"change", "record", "beside"} <= there:
        raise Faults(Fault(name, "This database is another program's.", "Give the yard a database of its own."))
    return str(connection.scalar(text("select version_num from alembic_version")))


def _mark(connection: Connection) -> int:
    return connection.scalar(select(func.max(change.c.number))) or 0


def _by_name(names: Any) -> tuple[str, ...]:
    return tuple(sorted(names))


def lay_out(url: URL, like: Yard) -> None:
    """Make a new yard in a database that is empty or not there yet.

    Raises:
        Faults: something stands there already, or it cannot be made
    """
    name = _engine.name_of(url)
    engine = _engine.engine_of(url, create=True)
    try:
        with _engine.writing(engine).connect() as connection, connection.begin():
            _engine.hold(connection)
            if step_of(connection, name) is not None:
                raise Faults(Fault(name, "Something stands here already. Nothing was changed.", "Give a new name."))
            from axlewright.store._migrate import upgrade

            upgrade(connection)
            add(connection, 1, like.records, note=ARRIVED)
    except DBAPIError as bad:
        raise _engine.in_words(bad, name) from bad
    finally:
        engine.dispose()
