"""Records into the files of a yard folder, so that comments, order and spelling of all else stay as they were."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

import tomlkit
from tomlkit.items import InlineTable, Item

from axlewright.store._lines import Lines
from axlewright.store._text import THINGS, inherits
from axlewright.yard import (
    AfterCheck,
    Answer,
    ClockReading,
    Finding,
    Move,
    OilSample,
    PrintedBand,
    Reading,
    Record,
    Stage,
    Stated,
    StepCard,
    TakenBack,
    Trouble,
    Warranty,
    Work,
)

IN_TABLE: dict[type[Record], str] = {
    Finding: "finding",
    Stage: "stage",
    Answer: "answer",
    Work: "work",
    StepCard: "step_card",
    Reading: "reading",
    AfterCheck: "after_check",
    Move: "move",
    Warranty: "warranty",
    OilSample: "oil_sample",
    TakenBack: "taken_back",
}
LAST = ("who", "at", "id")  # a person reads the rest first
BEGINS = re.compile(r"readings\s*=\s*\[\s*(#.*)?$")
ROW = re.compile(r"\{.*\},\s*(#.*)?")
FOLDER_OF = {model: folder for folder, model in THINGS.items()}


def item(value: Any) -> Item:
    """A value as it is written: whole hours without a point, notes over several lines, times without fractions."""
    if isinstance(value, float) and value.is_integer():
        return tomlkit.item(int(value))
    if isinstance(value, datetime):
        return tomlkit.item(value.replace(microsecond=0))
    if isinstance(value, Mapping):
        return inline({key: item(of) for key, of in value.items()})
    if isinstance(value, str):
        return tomlkit.string(value, multiline=True) if "\n" in value else tomlkit.string(value)
    if isinstance(value, list) and value and isinstance(value[0], Mapping):
        rows = "".join(f"  {item(one).as_string()},\n" for one in value)
        listed = tomlkit.parse(f"x = [\n{rows}]")["x"]
        assert isinstance(listed, Item)
        return listed
    if isinstance(value, list):
        value = [int(one) if isinstance(one, float) and one.is_integer() else one for one in value]
    plain: Item = tomlkit.item(value)
    return plain


def braces(values: Mapping[str, Item]) -> str:
    """`{ a = 1, b = 2 }`, with room inside the braces."""
    return f"{{ {', '.join(f'{key} = {value.as_string()}' for key, value in values.items())} }}"


def inline(values: Mapping[str, Item]) -> InlineTable:
    """A group of keys on one line."""
    table = tomlkit.parse(f"x = {braces(values)}")["x"]
    assert isinstance(table, InlineTable)
    return table


def said(record: Record, without: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """What a record says beyond its defaults and beyond what its file says for it already.

    A drive that is not named beside one that the file names is written as an empty text.
    """
    without = without or {}
    found: dict[str, Any] = {}
    fields = type(record).model_fields
    for key in sorted(fields, key=lambda k: LAST.index(k) if k in LAST else -1):
        field, value = fields[key], getattr(record, key)
        if key in without:
            if value != without[key] and str(value) != without[key]:
                found[key] = "" if value is None else _plain(value)
        elif value != field.default:
            found[key] = _plain(value)
    return found


def _plain(value: Any) -> Any:
    if isinstance(value, Stated):
        return value.model_dump()
    if isinstance(value, PrintedBand):
        return value.model_dump(exclude_none=True)
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    return value if isinstance(value, str | int | float | list) or hasattr(value, "isoformat") else str(value)


def new_file(record: Record) -> str:
    """The text of a file for a new thing. Its id is its file's name."""
    left_out: dict[str, Any] = {"id": record.id}
    if isinstance(record, Trouble):
        left_out = {"id": str(record.number), "number": record.number}
    says = said(record, left_out) or {"id": record.id}  # a file with nothing in it is none
    return "".join(f"{key} = {item(value).as_string()}\n" for key, value in says.items())


def replaced(text: str, old: Record, new: Record) -> str:
    """A thing's file after the thing was changed: keys that stay the same are not touched."""
    before, after = said(old), said(new)
    document = tomlkit.parse(text)
    if isinstance(old, Trouble) and isinstance(new, Trouble):
        _pin(document, old, new)
    for key, value in after.items():
        if key in document and before.get(key) != value:
            document[key] = item(value)
    for key in before:
        if key not in after and key in document:
            del document[key]
    text = tomlkit.dumps(document)
    missing = [key for key in after if key not in document and before.get(key) != after[key]]
    return _with_keys(text, {key: after[key] for key in missing}) if missing else text


def _pin(document: tomlkit.TOMLDocument, old: Trouble, new: Trouble) -> None:
    """Findings go on saying what they said when what their file says for them changes."""
    for key, before, after in (
        ("corner", str(old.corner), str(new.corner)),
        ("drive", old.drive or "", new.drive or ""),
    ):
        for row in document.get("finding", ()) if before != after else ():
            if key not in row:
                row[key] = before


def _with_keys(text: str, values: Mapping[str, Any]) -> str:
    lines = text.split("\n")
    at = Lines(text).after_keys()
    new = [f"{key} = {item(value).as_string()}" for key, value in values.items()]
    return "\n".join([*lines[:at], *new, *lines[at:]])


def with_rows(text: str, records: Iterable[Record], trouble: Trouble | None = None) -> str:
    """A file with findings, stages or answers added at its end."""
    for record in records:
        rows = said(record, inherits(record, trouble))
        written = "".join(f"{key} = {item(value).as_string()}\n" for key, value in rows.items())
        text = f"{_ended(text)}\n[[{IN_TABLE[type(record)]}]]\n{written}"
    return text


def with_readings(text: str, readings: Sequence[ClockReading]) -> str:
    """A machine's file with clock readings added to its list, one to a line."""
    rows = [braces({key: item(of) for key, of in said(read, inherits(read, None)).items()}) for read in readings]
    if tomllib.loads(text).get("readings"):
        longer = _at_the_end(text, rows)
        if longer:
            return longer
        document = tomlkit.parse(text)
        for row in rows:
            document["readings"].add_line(tomlkit.parse(f"x = {row}")["x"], indent="  ")
        return tomlkit.dumps(document)
    document = tomlkit.parse(text)
    if "readings" in document:
        del document["readings"]
        text = tomlkit.dumps(document)
    lines, at = text.split("\n"), Lines(text).after_keys()
    return "\n".join([*lines[:at], "readings = [", *(f"  {row}," for row in rows), "]", *lines[at:]])


def _at_the_end(text: str, rows: Sequence[str]) -> str:
    """A file whose readings stand one to a line, each with its comma, with these after them; else nothing."""
    lines = text.split("\n")
    begins = next((n for n, line in enumerate(lines) if BEGINS.match(line)), len(lines))
    ends = next((n for n, line in enumerate(lines[begins:], begins) if line.strip() == "]"), 0)
    inside = [line.strip() for line in lines[begins + 1 : ends]]
    if not all(not line or line.startswith("#") or ROW.fullmatch(line) for line in inside):
        return ""
    new = "\n".join([*lines[:ends], *(f"  {row}," for row in rows), *lines[ends:]])
    try:
        count = len(tomllib.loads(new)["readings"])
    except tomllib.TOMLDecodeError:
        return ""
    return new if count == len(tomllib.loads(text)["readings"]) + len(rows) else ""


def _ended(text: str) -> str:
    return text if not text or text.endswith("\n") else text + "\n"
