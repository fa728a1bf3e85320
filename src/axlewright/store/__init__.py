"""Where a yard is kept. A store reads a yard and writes a change to it, or says that it has moved."""

from __future__ import annotations

from pathlib import Path
from typing import Protocol

from axlewright.store.folder import BLANK, DEMO, Day, Folder, lay_out
from axlewright.yard import Change, Made, Yard


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


def at(where: str | Path, today: Day = None) -> Store:
    """The store that a person named: a folder."""
    return Folder(Path(where), today)


__all__ = ["BLANK", "DEMO", "Day", "Folder", "Store", "at", "lay_out"]
