"""The picture that the files of a yard folder give, and the mark of them."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache

from axlewright.store._hand import Files, text_of
from axlewright.store._text import Kept, Place, kept, spot
from axlewright.yard import Fault, Faults, Record, Yard, mistakes


def mark(files: Files) -> int:
    """A number that changes with anything in the files (short enough for a JSON number)."""
    made_of = hashlib.sha256()
    for name, data in sorted(files.items()):
        made_of.update(f"{name}\0{len(data)}\0".encode() + data)
    return int.from_bytes(made_of.digest()[:6], "big")


def read_all(files: Files) -> tuple[dict[str, Kept], list[Fault]]:
    found = {name: kept(name, data) for name, data in files.items()}
    return found, [fault for one in found.values() for fault in one.faults]


@dataclass(frozen=True, slots=True)
class _Marked:
    """Files that are the same when their mark is."""

    mark: int
    files: Files = field(compare=False)


def picture(files: Files, today: date | None, folder: str = "") -> Yard:
    """The yard that these files hold.

    Raises:
        Faults: every mistake of every file, and between them
    """
    return _picture(_Marked(mark(files), files), today, folder)


@lru_cache(maxsize=8)
def _picture(marked: _Marked, today: date | None, folder: str) -> Yard:
    """The picture is frozen, so that a folder which did not change need not be read into records again."""
    files = marked.files
    found, faults = read_all(files)
    places: dict[int, Place] = {}
    records: list[Record] = []
    once: set[tuple[str, str]] = set()
    for one in found.values():
        for record, place in one.placed:
            said = record.model_dump_json(exclude={"at"}) if record.adds else ""
            if record.adds and (record.id, said) in once:
                continue  # the same line twice
            once.add((record.id, said))
            places[id(record)] = place
            records.append(record)
    real = tuple(records)
    records += [guess for one in found.values() for guess in one.guessed]

    def where(record: Record, key: str) -> str:
        place = places.get(id(record))
        return spot(place.file, text_of(files[place.file]), place, key) if place else folder

    yard = Yard.of(records, marked.mark)
    faults += mistakes(yard, today, where, only=real)
    if faults:
        raise Faults(*sorted(set(faults), key=lambda f: _in_order(f.where)))
    return yard


def _in_order(where: str) -> tuple[str, int]:
    file, _, line = where.rpartition(", line ")
    return (file, int(line)) if line.isdecimal() else (where, 0)
