"""A table of text as people's programs write it: its encoding, its delimiter, its lines with their numbers."""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from axlewright.yard import Fault, Faults

MOST_BYTES = 20_000_000
MOST_LINES = 200_000
MOST_COLUMNS = 200
DELIMITERS = {",": "comma", ";": "semicolon", "\t": "tab"}
MARKS = (
    (codecs.BOM_UTF8, "utf-8", "UTF-8"),
    (codecs.BOM_UTF16_LE, "utf-16-le", "UTF-16"),
    (codecs.BOM_UTF16_BE, "utf-16-be", "UTF-16"),
)
LOOKED_AT = 200  # lines by which a delimiter is told


@dataclass(frozen=True, slots=True)
class Row:
    """A line of a table: its number in the file, from 1, and its cells."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table as it was read, and how."""

    headers: tuple[str, ...]
    rows: tuple[Row, ...]
    delimiter: str
    encoding: str


def bytes_of(path: Path, most: int = MOST_BYTES) -> bytes:
    """What stands in a file. One that is too long is refused before it is read.

    Raises:
        Faults: it cannot be read, or is too long
    """
    try:
        if path.is_dir():
            raise Faults(Fault(str(path), "This is a folder.", "Name one file in it."))
        with path.open("rb") as file:
            size = path.stat().st_size
            data = b"" if size > most else file.read(most + 1)
    except OSError as bad:
        right = "Look at its name and folder." if isinstance(bad, FileNotFoundError) else ""
        raise Faults(Fault(str(path), f"It cannot be read: {bad.strerror or bad}.", right)) from None
    check_size(path.name, max(size, len(data)), most)
    return data


def check_size(name: str, size: int, most: int = MOST_BYTES) -> None:
    """Raises:
    Faults: too many bytes for a table that a person looks through
    """
    if size > most:
        what = f"It is {size / 1e6:,.0f} MB long; {most / 1e6:,.0f} MB is the most. Nothing was read."
        raise Faults(Fault(name, what, "Cut it to fewer years or machines, and take in one after the other."))


def decoded(data: bytes) -> tuple[str, str]:
    """The text of a file, and the name of its encoding.

    Raises:
        Faults: it is no text
    """
    for mark, codec, name in MARKS:
        if data.startswith(mark):
            try:
                return data[len(mark) :].decode(codec), name
            except UnicodeDecodeError as bad:
                before = data[len(mark) : len(mark) + bad.start].decode(codec, "ignore")
                raise _no_text(before.count("\n") + 1) from None
    if b"\0" in data[:4096]:
        raise _no_text(1)
    try:
        return data.decode("utf-8"), "UTF-8"
    except UnicodeDecodeError:
        pass
    try:
        return data.decode("cp1252"), "Windows-1252"
    except UnicodeDecodeError as bad:
        raise _no_text(data[: bad.start].count(b"\n") + 1) from None


def _no_text(line: int) -> Faults:
    right = "Save it in the spreadsheet as CSV in UTF-8, and take that in."
    return Faults(Fault(f"line {line}", "This is no text that can be read.", right))


def read(data: bytes, known: Callable[[str], bool] = bool) -> Table:
    """The table that a file holds.

    Args:
        data: the bytes of the file
        known: whether a header is one that we know; of two delimiters that both part the lines, the one with more of them

    Raises:
        Faults: no text, no table, or too long
    """
    check_size("file", len(data))
    text, encoding = decoded(data)
    if "\0" in text:
        raise _no_text(text[: text.index("\0")].count("\n") + 1)
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    first = 1
    if text.lower().startswith("sep=") and len(text.split("\n", 1)[0]) == len("sep=;"):  # a spreadsheet's own hint
        said, text = text[4], text.split("\n", 1)[1] if "\n" in text else ""
        first, delimiter = 2, said if said in DELIMITERS else _delimiter(text, known)
    else:
        delimiter = _delimiter(text, known)
    rows = list(_rows(text, delimiter, first))
    if not rows:
        raise Faults(Fault("file", "The file is empty.", "The first line names the columns."))
    headers = tuple(cell.strip() for cell in rows[0].cells)
    if len(headers) > MOST_COLUMNS:
        raise Faults(Fault("line 1", f"It has {len(headers)} columns; {MOST_COLUMNS} is the most.", ""))
    if len(rows) == 1:
        raise Faults(Fault("file", "It has headers and no line under them.", "Fill it in, then take it in."))
    return Table(headers, tuple(rows[1:]), delimiter, encoding)


def _delimiter(text: str, known: Callable[[str], bool]) -> str:
    """The delimiter that gives most headers that we know; then most lines as wide as the first; then most columns."""
    head = "\n".join(text.lstrip("\n").split("\n", LOOKED_AT)[:LOOKED_AT])
    found = []
    for delimiter in DELIMITERS:
        try:
            rows = [row for row in csv.reader(io.StringIO(head), delimiter=delimiter) if any(row)]
        except csv.Error:
            continue
        if rows:
            alike = sum(len(row) == len(rows[0]) for row in rows)
            found.append((sum(known(cell.strip()) for cell in rows[0]), alike, len(rows[0]), delimiter))
    return max(found, key=lambda one: one[:3])[3] if found else ","


def _rows(text: str, delimiter: str, first: int) -> Iterator[Row]:
    """The lines that hold anything; the number is that of the line on which a row begins.

    Raises:
        Faults: a quote that is never closed, too many lines
    """
    reader = csv.reader(io.StringIO(text), delimiter=delimiter, strict=True)
    begins = first
    try:
        for count, cells in enumerate(reader):
            if count > MOST_LINES:
                right = "Cut it to fewer years or machines, and take in one after the other."
                raise Faults(Fault("file", f"It has over {MOST_LINES:,} lines.", right))
            if any(cell.strip() for cell in cells):
                yield Row(begins, tuple(cells))
            begins = first + reader.line_num
    except csv.Error:
        what = "This line cannot be parted into cells: a quote is opened and not closed, or stands in the middle of a word."
        raise Faults(Fault(f"line {begins}", what, 'Write a quote inside quotes twice: "7"" pipe".')) from None
