"""From the files of a yard folder to records, with the place of each; every mistake of every file at once."""

from __future__ import annotations

import hashlib
import json
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from pydantic import ValidationError

from axlewright.store._lines import Lines, unreadable
from axlewright.yard import (
    CLOCKS,
    PLACES,
    AfterCheck,
    Answer,
    ClockReading,
    Corner,
    Design,
    Drive,
    Fault,
    Finding,
    Machine,
    Move,
    OilSample,
    Rain,
    Reading,
    Record,
    Season,
    Stage,
    StepCard,
    TakenBack,
    Title,
    Trouble,
    Warranty,
    Work,
    closest,
    faults_of,
)

MOST_BYTES = 1_000_000
"""No file that a person keeps by hand is longer; one that is was put there by mistake."""

THINGS: dict[str, type[Record]] = {
    "machines": Machine,
    "designs": Design,
    "drives": Drive,
    "troubles": Trouble,
    "seasons": Season,
    "rain": Rain,
}
FOLDERS = (*THINGS, "looks")
TABLES: dict[str, dict[str, type[Record]]] = {
    "": {"answer": Answer, "taken_back": TakenBack},
    "machines": {"readings": ClockReading, "answer": Answer},
    "designs": {"answer": Answer},
    "drives": {"move": Move, "warranty": Warranty, "oil_sample": OilSample},
    "troubles": {
        "stage": Stage,
        "finding": Finding,
        "answer": Answer,
        "step_card": StepCard,
        "reading": Reading,
        "after_check": AfterCheck,
    },
    "looks": {"finding": Finding},
    "seasons": {"work": Work},
}
"""What stands inside the files of a folder, and under which name."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a record stands: in which file, and there in the table of which name and number."""

    file: str
    table: str = ""
    index: int = 0


@dataclass(frozen=True)
class Kept:
    """What one file holds. `guessed` stand for what could not be read, so that others may name them."""

    placed: tuple[tuple[Record, Place], ...] = ()
    guessed: tuple[Record, ...] = ()
    faults: tuple[Fault, ...] = ()


def spot(file: str, text: str, place: Place, key: str) -> str:
    """A place as a person finds it: file and line, or the file alone where the key does not stand in it."""
    lines = Lines(text)
    number = lines.line(key, place.table, place.index) or lines.line("", place.table or key, place.index)
    return file if number is None else f"{file}, line {number}"


@lru_cache(maxsize=4096)
def kept(file: str, data: bytes) -> Kept:
    """The records of one file of the folder, by its path there and its bytes."""
    folder, _, stem = file.removesuffix(".toml").rpartition("/")
    if not data.strip():
        return _unread(folder, stem, Fault(file, "The file is empty.", "Delete it, or put back what stood in it."))
    try:
        text = data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as bad:
        line = data[: bad.start].count(b"\n") + 1
        return _unread(folder, stem, _not_text(file, data, line))
    if "\0" in text:
        return _unread(folder, stem, _not_text(file, data, text[: text.index("\0")].count("\n") + 1))
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as bad:
        number, what, right = unreadable(text, bad)
        return _unread(folder, stem, Fault(f"{file}, line {number}", what, right))
    except RecursionError:
        return _unread(folder, stem, Fault(file, "It has too many brackets inside each other.", "Take them apart."))
    if not table and folder:
        return Kept()  # comments alone: an example to copy
    return _File(file, folder, stem, text).read(table)


def _not_text(file: str, data: bytes, line: int) -> Fault:
    if b"\0" in data[:4096]:
        return Fault(file, "This is no text.", "Save it as plain text in UTF-8, or take it out of this folder.")
    return Fault(f"{file}, line {line}", "A letter here is not written in UTF-8.", "Save the file again as UTF-8.")


def _unread(folder: str, stem: str, fault: Fault) -> Kept:
    stand_in = _stand_in(THINGS.get(folder, Title if stem == "yard" else Record), stem, {})
    return Kept((), (stand_in,) if stand_in else (), (fault,))


def _stand_in(model: type[Record], stem: str, table: Mapping[str, Any]) -> Record | None:
    """A record of this id that nothing can be said against, for one that could not be read."""
    loose: dict[type[Record], dict[str, Any]] = {
        Title: {"name": "?"},
        Machine: {"name": "?", "corners": PLACES, "clocks": CLOCKS},
        Design: {"name": "?"},
        Drive: {"name": "?", "sits": "away"},
        Season: {},
    }
    if model not in loose:
        return None
    try:
        given = {} if model is Title else {"id": table.get("id", stem)}
        return model.model_validate({**given, **loose[model]})
    except ValidationError:
        return None


@dataclass(frozen=True)
class _File:
    file: str
    folder: str
    stem: str
    text: str

    def where(self, place: Place, key: str) -> str:
        return spot(self.file, self.text, place, key)

    def read(self, table: dict[str, Any]) -> Kept:
        tables = TABLES.get(self.folder, {})
        rows = {name: table.pop(name, []) for name in tables}
        faults: list[Fault] = []
        placed: list[tuple[Record, Place]] = []
        guessed: list[Record] = []
        head: Record | None = None
        whose: Record | None = None
        if self.folder == "looks":
            for key in table:
                faults.append(
                    Fault(self.where(Place(self.file), key), f"There is no {key} here.", closest(key, tables))
                )
        else:
            model = THINGS.get(self.folder, Title)
            head = self._record(model, self._named(model, table), Place(self.file), faults, tables)
            whose = head or _stand_in(model, self.stem, table)
            if head:
                placed.append((head, Place(self.file)))
            elif whose:
                guessed.append(whose)
        for name, model in tables.items():
            for row, place in self._rows(name, rows[name], faults):
                record = self._record(model, self._inherited(model, row, whose), place, faults)
                if record and (whose or self.folder == "looks"):
                    placed.append((record, place))
        return Kept(tuple(placed), tuple(guessed), tuple(faults))

    def _rows(self, name: str, rows: Any, faults: list[Fault]) -> Iterator[tuple[dict[str, Any], Place]]:
        place = Place(self.file, name)
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            right = f"Write {name} = [{{ ... }}]." if name == "readings" else f"Write [[{name}]]."
            faults.append(Fault(self.where(Place(self.file), name), f"{name} is a list of groups of keys.", right))
            return
        for index, row in enumerate(rows):
            yield dict(row), Place(place.file, name, index)

    def _named(self, model: type[Record], table: dict[str, Any]) -> dict[str, Any]:
        """The file's own name stands for an id, and for a trouble's number, that is not written in it."""
        if model is Title:
            return table
        named = {"id": self.stem, **table}
        if model is Trouble and "number" not in table and self.stem.isdecimal():
            named["number"] = int(self.stem)
        return named

    def _inherited(self, model: type[Record], row: dict[str, Any], whose: Record | None) -> dict[str, Any]:
        """A row with what its file says once for all, and with an id made from what it says, if it has none."""
        if self.folder == "machines":
            row = {"machine": whose.id if whose else "unread", **row}
        if self.folder == "designs":
            row = {"design": whose.id if whose else "unread", **row}
        if self.folder == "drives":
            row = {"drive": whose.id if whose else "unread", **row}
        if self.folder == "seasons":
            row = {"season": whose.id if whose else "unread", **row}
        if self.folder == "troubles":
            row = {"trouble": whose.number if isinstance(whose, Trouble) else 1, **row}
        if isinstance(whose, Trouble) and model is Finding:
            row = {"corner": str(whose.corner), "drive": whose.drive, **row}
        if model is Finding and row.get("drive") == "":
            row["drive"] = None
        if "id" not in row:
            said = json.dumps({k: v for k, v in row.items() if v is not None}, sort_keys=True, default=str)
            row["id"] = "h" + hashlib.sha256(said.encode()).hexdigest()[:12]
        return row

    def _record(
        self,
        model: type[Record],
        table: dict[str, Any],
        place: Place,
        faults: list[Fault],
        also: Iterable[str] = (),
    ) -> Record | None:
        try:
            return model.model_validate(table)
        except ValidationError as bad:
            faults.extend(faults_of(bad, model, lambda key: self.where(place, key), also))
            return None


def inherits(record: Record, trouble: Trouble | None) -> dict[str, Any]:
    """What a row need not say, since its file does."""
    if isinstance(record, ClockReading):
        return {"machine": record.machine}
    if isinstance(record, Answer):
        return {"trouble": record.trouble, "machine": record.machine, "design": record.design}
    if isinstance(record, Work):
        return {"season": record.season}
    if isinstance(record, Move | Warranty | OilSample):
        return {"drive": record.drive}
    if trouble is None:
        return {}
    if isinstance(record, Stage | StepCard | Reading | AfterCheck):
        return {"trouble": trouble.number}
    corner: Corner = trouble.corner
    return {"trouble": trouble.number, "corner": str(corner), "drive": trouble.drive}
