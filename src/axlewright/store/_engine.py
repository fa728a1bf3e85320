"""Connections to a database: how each kind is opened, and what its troubles are called in plain words."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from urllib.parse import quote

from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url, text
from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError

from axlewright.yard import Fault, Faults

WAIT = 10.0  # [s] for another program to be done with its writing
WRITES = "axlewright_writes"
"""Marks a connection that is going to write: it holds others off from its first word."""
ONE_AT_A_TIME = 0x61786C65
"""Key of PostgreSQL's advisory lock: who holds it may write."""


def url_of(said: str) -> URL:
    """The address of a database as a person gave it: a file that ends in .db or .sqlite, or an URL.

    Raises:
        Faults: it is none that can be used
    """
    if "://" not in said:
        return URL.create("sqlite", database=said)
    try:
        url = make_url(said)
    except ArgumentError:
        raise Faults(Fault("--yard", "This is no address of a database.", f"Write {EXAMPLES}.")) from None
    kind = url.get_backend_name()
    if kind in ("postgresql", "postgres"):
        return url.set(drivername="postgresql+psycopg")
    if kind == "sqlite" and url.database:
        return url.set(drivername="sqlite")
    raise Faults(Fault(url.render_as_string(), "A yard is not kept in such a database.", f"Write {EXAMPLES}."))


EXAMPLES = "a folder, my-yard.db, sqlite:///my-yard.db or postgresql://user@host/yard"


def name_of(url: URL) -> str:
    """The address for a person, without its password."""
    return str(url.database) if url.get_backend_name() == "sqlite" else url.render_as_string().replace("+psycopg", "")


def engine_of(url: URL, create: bool = False) -> Engine:
    """The connections of a database; none is opened yet. `create`: an SQLite file that is not there is made."""
    if url.get_backend_name() == "sqlite":
        path = Path(str(url.database))
        mode = "rwc" if create else "rw"
        address = f"file:{quote(str(path))}?mode={mode}"

        def connect() -> sqlite3.Connection:
            return sqlite3.connect(address, uri=True, timeout=WAIT, isolation_level=None, check_same_thread=False)

        engine = create_engine("sqlite://", creator=connect, pool_size=4, max_overflow=8, poolclass=_queue())
        event.listen(engine, "connect", _set_up)
        event.listen(engine, "begin", _begin_sqlite)
        return engine
    try:
        engine = create_engine(url, pool_size=4, max_overflow=8, pool_pre_ping=True, isolation_level="REPEATABLE READ")
    except (ModuleNotFoundError, NoSuchModuleError):
        raise Faults(
            Fault(name_of(url), "What speaks to PostgreSQL is not installed.", "pip install 'axlewright[postgres]'")
        ) from None
    return engine


def _queue() -> type:
    from sqlalchemy.pool import QueuePool

    return QueuePool


def _set_up(connection: sqlite3.Connection, _record: object) -> None:
    """Each connection: a write that was answered survives the plug being pulled."""
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON"):
        connection.execute(f"pragma {pragma}")


def _begin_sqlite(connection: Connection) -> None:
    writes = connection.get_execution_options().get(WRITES)
    connection.exec_driver_sql("begin immediate" if writes else "begin")


def hold(connection: Connection) -> None:
    """Hold other writers off until this transaction ends."""
    if connection.dialect.name == "postgresql":
        connection.execute(text(f"select pg_advisory_xact_lock({ONE_AT_A_TIME})"))


def writing(engine: Engine) -> Engine:
    """The same connections, for one that writes.

    PostgreSQL: what is seen is what was committed when a word is said, so that a writer who waited sees what came before.
    """
    if engine.dialect.name == "postgresql":
        return engine.execution_options(isolation_level="READ COMMITTED")
    return engine.execution_options(**{WRITES: True})


FULL = ("database or disk is full", "No space left", "could not extend")
SAID = (
    (FULL, "The disk is full. Nothing was changed.", "Make room and try again."),
    (("disk I/O error",), "The disk does not take it. Nothing was changed.", "Is it full, or failing?"),
    (("database is locked",), "Another program is writing here.", "Try again when it is done."),
    (("readonly", "read-only"), "This may not be written here.", "Ask who owns it."),
    (("not a database", "malformed"), "This is no database, or it is damaged.", "put-back fetches a snapshot."),
    (("unable to open",), "This cannot be opened.", "Is its folder there, and may you write in it?"),
    (("password", "authentication", "role"), "The database does not let you in.", "Look at user and password."),
    (("does not exist",), "There is no such database.", "Make it first: createdb yard."),
    (("connection", "connect", "server"), "The database does not answer.", "Is its server running?"),
)


def in_words(bad: DBAPIError, name: str) -> Faults:
    """Why a database could not be read or written."""
    said = str(bad.orig)
    for signs, what, right in SAID:
        if any(sign in said for sign in signs):
            return Faults(Fault(name, what, right))
    return Faults(Fault(name, f"The database says: {said.splitlines()[0] if said else type(bad.orig).__name__}.", ""))
