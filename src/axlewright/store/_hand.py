"""Records into the texts of a yard folder: which file a record stands in, and what is written there."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from axlewright.store import _edit
from axlewright.store._text import kept
from axlewright.yard import (
    AfterCheck,
    Answer,
    Change,
    ClockReading,
    Fault,
    Faults,
    Finding,
    Move,
    OilSample,
    Reading,
    Record,
    Stage,
    StepCard,
    TakenBack,
    Title,
    Trouble,
    Warranty,
    Work,
    Yard,
)

Files = Mapping[str, bytes]
"""The files of a folder: path from the folder, with forward slashes, and what stands in each."""
IN_TROUBLE = (Stage, Finding, Answer, StepCard, Reading, AfterCheck)


def as_text(yard: Yard) -> Files:
    """A whole yard as the files of a folder, one per thing, in an order that hangs on the records alone."""
    texts: dict[str, str] = {}
    Hand({}, Yard(yard.title), yard, texts).put(Change(yard.records))
    return {name: text.encode() for name, text in sorted(texts.items())}


def text_of(data: bytes) -> str:
    """The text of a file, with line ends of one kind."""
    return data.decode("utf-8-sig", "replace").replace("\r\n", "\n")


@dataclass(frozen=True)
class Hand:
    """Writes records into the texts of files."""

    files: Files
    yard: Yard
    wanted: Yard
    texts: dict[str, str]

    def text(self, name: str) -> str:
        return self.texts[name] if name in self.texts else text_of(self.files.get(name, b""))

    def put(self, new: Change) -> None:
        homes = {(r.what, r.id): place.file for n, d in self.files.items() for r, place in kept(n, d).placed}
        before = {(r.what, r.id): r for r in self.yard.records if not r.adds}
        latest = {(r.what, r.id): r for r in new.records if not r.adds}
        for key, record in latest.items():
            if key in homes:
                self.texts[homes[key]] = _edit.replaced(self.text(homes[key]), before[key], record)
            else:
                homes[key] = self._home(record)
                self.texts[homes[key]] = _edit.new_file(record)
        rows: dict[str, list[Record]] = defaultdict(list)
        for record in new.records:
            if record.adds:
                rows[self._whose(record, homes)].append(record)
        for name, added in rows.items():
            self._add(name, added)

    def _home(self, record: Record) -> str:
        if isinstance(record, Title):
            return "yard.toml"
        stem = str(record.number) if isinstance(record, Trouble) else record.id
        name = f"{_edit.FOLDER_OF[type(record)]}/{stem}.toml"
        if name in self.files:  # a file of that name that holds something else
            raise Faults(Fault(name, f"It stands where {record.what} {record.id} would be written.", "Rename it."))
        return name

    def _whose(self, record: Record, homes: Mapping[tuple[str, str], str]) -> str:
        if isinstance(record, ClockReading):
            return homes["machine", record.machine]
        if isinstance(record, Work):
            return homes["season", record.season]
        if isinstance(record, Move | Warranty | OilSample):
            return homes["drive", record.drive]
        if isinstance(record, TakenBack):
            return "yard.toml"
        if isinstance(record, Answer) and record.trouble is None:
            thing = ("machine", record.machine) if record.machine else ("design", record.design)
            return homes[thing[0], thing[1]] if thing[1] else "yard.toml"
        if isinstance(record, IN_TROUBLE) and record.trouble is not None:
            return homes["trouble", self.wanted.trouble(record.trouble).id]
        assert isinstance(record, Finding)
        return f"looks/{record.corner.machine if record.corner else record.drive}.toml"

    def _add(self, name: str, added: list[Record]) -> None:
        text = self.text(name)
        readings = [r for r in added if isinstance(r, ClockReading)]
        if readings:
            text = _edit.with_readings(text, readings)
        trouble = None
        if name.startswith("troubles/") and isinstance(added[0], IN_TROUBLE) and added[0].trouble:
            trouble = self.wanted.trouble(added[0].trouble)
        self.texts[name] = _edit.with_rows(text, [r for r in added if not isinstance(r, ClockReading)], trouble)
