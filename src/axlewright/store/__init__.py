"""Where a yard is kept. A store reads a yard and writes a change to it, or says that it has moved."""

from __future__ import annotations

from contextlib import AbstractContextManager
from datetime import datetime
from pathlib import Path
from typing import Protocol

from axlewright.store import folder
from axlewright.store.folder import BLANK, DEMO, Day, Folder
from axlewright.store.whole import Whole
from axlewright.yard import Change, Made, Yard

DATABASE = (".db", ".sqlite", ".sqlite3")
"""How the name of a file ends that holds a yard as a database."""


class Store(Protocol):
    """What every store does: read a yard, write a change, tell the last one, give the files kept beside the records.

    What is promised stands at `Folder`.
    """

    @property
    def name(self) -> str: ...

    def read(self) -> Yard: ...

    def write(self, change: Change, seen: int) -> int: ...

    def last(self) -> Made | None: ...

    def beside(self) -> tuple[str, ...]: ...

    def file(self, name: str) -> bytes | None: ...

    def whole(self) -> AbstractContextManager[Whole]: ...

    def fill(self, whole: Whole, over: bool = False, who: str = "", at: datetime | None = None) -> None: ...

    def close(self) -> None: ...


def is_database(where: str | Path) -> bool:
    """Whether a person named a database: a file that ends in .db or .sqlite, or an URL."""
    return "://" in str(where) or Path(where).suffix.lower() in DATABASE


def at(where: str | Path, today: Day = None) -> Store:
    """The store that a person named: a folder, a file that ends in .db, or the URL of a database."""
    if is_database(where):
        from axlewright.store._engine import url_of
        from axlewright.store.database import Database

        return Database(url_of(str(where)), today)
    return Folder(Path(where), today)


def there(where: str | Path) -> bool:
    """Whether a yard seems to be kept there; of a server that must be asked first it is believed."""
    if "://" in str(where):
        return True
    return Path(where).is_file() if is_database(where) else (Path(where) / "yard.toml").exists()


def name_of(where: str | Path) -> str:
    """Where a yard is kept, for a person: an URL without its password."""
    if "://" not in str(where):
        return str(where)
    from axlewright.store._engine import name_of, url_of

    return name_of(url_of(str(where)))


def lay_out(where: str | Path, like: Path | Yard = BLANK) -> None:
    """Make a new yard: a folder with examples to copy, or a database; or a copy of another such as `DEMO`.

    Never writes over anything.

    Raises:
        Faults: something stands there already, or it cannot be written
    """
    if not is_database(where):
        folder.lay_out(Path(where), like)
        return
    from axlewright.store import database
    from axlewright.store._engine import url_of

    database.lay_out(url_of(str(where)), like if isinstance(like, Yard) else Folder(like).read())


__all__ = ["BLANK", "DEMO", "Day", "Folder", "Store", "Whole", "at", "is_database", "lay_out", "name_of", "there"]
