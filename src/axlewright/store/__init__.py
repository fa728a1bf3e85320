"""Where a yard is kept. A store reads a yard and writes a change to it, or says that it has moved."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Protocol

from axlewright.store.folder import BLANK, DEMO, Folder, lay_out
from axlewright.yard import Change, Yard


class Store(Protocol):
    """What every store does: read a yard, write a change, give a file kept beside it; what is promised stands at `Folder`."""

    def read(self) -> Yard: ...

    def write(self, change: Change, seen: int) -> int: ...

    def file(self, name: str) -> bytes | None: ...


def at(where: str | Path, today: date | None = None) -> Store:
    """The store that a person named: a folder."""
    return Folder(Path(where), today)


__all__ = ["BLANK", "DEMO", "Folder", "Store", "at", "lay_out"]
