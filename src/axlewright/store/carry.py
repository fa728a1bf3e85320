"""Yards carried whole: a snapshot while others write, a snapshot put back, a yard handed out and taken in."""

from __future__ import annotations

import os
import re
import sqlite3
import tempfile
from collections.abc import Callable, Generator
from contextlib import closing, contextmanager
from datetime import datetime
from pathlib import Path

from axlewright import store
from axlewright.store.whole import Whole
from axlewright.yard import Fault, Faults, Yard

ZIP = ".zip"


def keep(kept: store.Store, to: Path) -> None:
    """Take a snapshot of a yard while it is being written to: a zip, or of an SQLite yard a copy of its database.

    Raises:
        Faults: something stands there already, or it cannot be written; then nothing is there
    """
    if to.suffix.lower() == ZIP:
        from axlewright.store.zipped import pack

        with kept.whole() as whole, _new(to) as place, place.open("wb") as out:
            pack(whole, out)
            out.flush()
            os.fsync(out.fileno())
    elif to.suffix.lower() in store.DATABASE:
        with _new(to) as place:
            _copy(kept, place)
    else:
        raise Faults(Fault(str(to), "A snapshot is a .zip or a .db.", "Write --to yard.zip"))


def hand_out(kept: store.Store, to: str | Path) -> None:
    """A whole yard to somewhere new: a zip, a folder, a database.

    Raises:
        Faults: something is kept there already, or it cannot be written
    """
    if Path(to).suffix.lower() == ZIP:
        keep(kept, Path(to))
        return
    with kept.whole() as whole:
        if not store.is_database(to):
            store.at(to).fill(whole)
        elif "://" in str(to):
            _into_new(str(to), whole)
        else:
            with _new(Path(to)) as place:
                _into_new(place, whole)


def _into_new(to: str | Path, whole: Whole) -> None:
    store.lay_out(to, Yard(whole.yard().title))
    made = store.at(to)
    made.fill(whole)
    made.close()


def take_in(source: Path, into: store.Store, who: str = "", at: datetime | None = None) -> Yard:
    """A whole yard from a zip or a database file into a yard that is blank; refused into one that holds anything.

    Returns:
        the yard as it was taken in
    """
    with opened(source) as whole:
        into.fill(whole, who=who, at=at)
    return into.read()


def put_back(source: Path, into: store.Store, before: Path, who: str = "", at: datetime | None = None) -> Yard:
    """A snapshot in place of all that a yard holds. What it holds is kept first, as a snapshot of its own.

    Args:
        source: the snapshot
        into: the yard
        before: where the snapshot of what stands there now goes
        who: who does it
        at: when

    Raises:
        Faults: the snapshot cannot be read, or has mistakes; nothing was changed
    """
    with opened(source) as whole:
        whole.yard()
        keep(into, before)
        into.fill(whole, over=True, who=who, at=at)
    return into.read()


def renew(where: str, snapshot: Path) -> tuple[str, str] | None:
    """Keep a snapshot of a database that an earlier version kept, then bring it up to date.

    Args:
        where: the database
        snapshot: where the snapshot goes, if there is something to do; of an SQLite file the file as it was

    Returns:
        the step of its schema before and now; None where there was nothing to do

    Raises:
        Faults: it is no database, or cannot be brought up to date; then it is as it was
    """
    from axlewright.store._engine import url_of
    from axlewright.store._schema import NEWEST
    from axlewright.store.database import Database, step_of

    if not store.is_database(where):
        raise Faults(Fault(where, "A folder is always up to date.", "--renew is for a database."))
    with closing(Database(url_of(where), older=True)) as old:
        with old.looking() as connection:
            if step_of(connection, old.name) == NEWEST:
                return None
        keep(old, snapshot)
        return old.renew()


def beside(where: str, at: datetime, word: str = "") -> Path:
    """A name for a snapshot beside the yard, with the time in it: `my-yard-2026-08-28-193000.zip`."""
    place, stem, ending = _named(where)
    names = (
        "-".join(filter(None, (stem, word, f"{at:%Y-%m-%d-%H%M%S}{again}")))
        for again in ("", *map("-{}".format, range(2, 99)))
    )
    return next(one for name in names if not (one := place / f"{name}{ending}").exists())


def kept_of(where: str) -> list[Path]:
    """The snapshots of a yard that stand beside it, the newest first."""
    place, stem, _ = _named(where)
    named = re.compile(re.escape(stem) + r"(-before-put-back)?-\d{4}-\d\d-\d\d-\d{6}(-\d+)?\.(zip|db)")
    found = [one for one in place.iterdir() if named.fullmatch(one.name)] if place.is_dir() else []
    return sorted(found, key=lambda one: one.stat().st_mtime, reverse=True)


def _named(where: str) -> tuple[Path, str, str]:
    if "://" in where and not where.startswith("sqlite"):
        return Path(), where.split("?")[0].rsplit("/", 1)[-1] or "yard", ZIP
    path = Path(store.name_of(where))
    return path.parent, path.stem if store.is_database(where) else path.name, ".db" if store.is_database(where) else ZIP


@contextmanager
def opened(source: Path) -> Generator[Whole]:
    """The yard in a snapshot: a zip, or a database file.

    Raises:
        Faults: it is none, or cannot be read
    """
    if not source.is_file():
        raise Faults(Fault(str(source), "There is no such file.", "keep makes a snapshot."))
    if source.suffix.lower() in store.DATABASE:
        with closing(store.at(source)) as snapshot, snapshot.whole() as whole:
            yield whole
        return
    from axlewright.store.zipped import unpacked

    with unpacked(source) as whole:
        yield whole


@contextmanager
def _new(to: Path) -> Generator[Path]:
    """A file that comes to be whole or not at all, and never over another."""
    if to.exists():
        raise Faults(Fault(str(to), "Something stands here already. Nothing was changed.", "Give a new name."))
    try:
        with tempfile.TemporaryDirectory(dir=to.parent, prefix=".keeping-") as beside:
            place = Path(beside) / to.name
            yield place
            os.replace(place, to)
    except OSError as bad:
        from axlewright.store._safe import in_words

        raise in_words(bad, to) from bad


def _copy(kept: store.Store, to: Path) -> None:
    """An SQLite yard as another SQLite file; any other yard is carried into one."""
    from axlewright.store.database import Database

    if not isinstance(kept, Database) or kept.url.get_backend_name() != "sqlite":
        hand_out(kept, to)
        return
    copy(Path(str(kept.url.database)), to)


def copy(database: Path, to: Path) -> None:
    """An SQLite file copied while others write to it, whatever its schema."""
    connect: Callable[[Path], sqlite3.Connection] = sqlite3.connect
    with closing(connect(database)) as source, closing(connect(to)) as target:
        source.backup(target)
        target.execute("pragma journal_mode=delete")  # one file, with nothing beside it


__all__ = ["beside", "copy", "hand_out", "keep", "kept_of", "opened", "put_back", "renew", "take_in"]
