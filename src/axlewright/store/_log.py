"""The log of a yard folder: who changed what and when, a text file a month that a person can read.

    change 12, mark 31415926, 2026-08-28T19:30:00Z, owner
    - machine {"id":"bramble","name":"Bramble"}
    + machine {"id":"bramble","name":"Bramble","note":"Bought used"}
    + finding {"id":"9c41","finding":"plug","grade":"paste","on":"2026-08-28"}
    = photos/plug.jpg

`+` stands before what came, `-` before how it stood, `=` before a file. The yard is what its other files say, never this
one: whoever edits them by hand need not touch the log, and the mark tells that it was done.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from pydantic import ValidationError

from axlewright.yard import RECORDS, Change, Fault, Faults, Made, Record, Yard, who_and_when

PLACE = "log"
FILE = re.compile(r"log/\d{4}-\d\d\.txt")
UNDATED = "log/0000-00.txt"
HEAD = re.compile(r"^change (\d+), mark (\d+), (\S+), (.*)$", re.MULTILINE)
LINE = re.compile(r"([+-]) ([a-z-]+(?: [a-z-]+)?) (\{.*\})")


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a change: a record that came (`+`), how a thing stood (`-`), or the name of a file (`=`)."""

    sign: Literal["+", "-", "="]
    says: Record | str


@dataclass(frozen=True, slots=True)
class Block:
    """One change as the log has it."""

    number: int
    mark: int
    at: datetime | None
    who: str
    lines: tuple[Line, ...] = ()

    def made(self, mark: int | None = None) -> Made:
        """The change; the mark of the records as they stand now tells whether somebody edited them since."""
        before = {(one.what, one.id): one for one in self._records("-")}
        after = {(one.what, one.id): one for one in self._records("+") if (one.what, one.id) in before and not one.adds}
        added = tuple(one for one in self._records("+") if one.adds or (one.what, one.id) not in before)
        names = tuple(line.says for line in self.lines if isinstance(line.says, str))
        edited = mark is not None and mark != self.mark
        return Made(self.number, self.who, self.at, added, tuple(before.values()), tuple(after.values()), names, edited)

    def _records(self, sign: str) -> Iterator[Record]:
        return (line.says for line in self.lines if line.sign == sign and isinstance(line.says, Record))

    def text(self) -> str:
        """As it is written."""
        when = self.at.isoformat().replace("+00:00", "Z") if self.at else "-"
        rows = [f"change {self.number}, mark {self.mark}, {when}, {self.who}"]
        for line in self.lines:
            said = line.says if isinstance(line.says, str) else f"{line.says.what} {body(line.says)}"
            rows.append(f"{line.sign} {said}")
        return "\n".join(rows) + "\n"


def body(record: Record) -> str:
    """A record as JSON on one line, what is as usual left out."""
    return record.model_dump_json(exclude_defaults=True)


def of(yard: Yard, new: Change, number: int, mark: int) -> Block:
    """The block of a change: `new` is what of it was not kept yet in the yard before it."""
    stood = {(one.what, one.id): one for one in yard.records if not one.adds}
    lines: list[Line] = []
    for record in new.records:
        key = (record.what, record.id)
        if key in stood and not record.adds:
            lines.append(Line("-", stood.pop(key)))  # how it stood at first, should it come twice
        lines.append(Line("+", record))
    who, at = who_and_when(new.records)
    return Block(number, mark, at, who, (*lines, *(Line("=", one.name) for one in new.beside)))


def file_for(block: Block, newest: str) -> str:
    """The file that a change is written to: its month's, but never one before the newest, so that the last stays last."""
    return max(f"{PLACE}/{block.at:%Y-%m}.txt" if block.at else UNDATED, newest)


def blocks(name: str, text: str) -> tuple[Block, ...]:
    """The changes of one file of the log, the first first.

    Raises:
        Faults: a line that is none of ours
    """
    found: list[Block] = []
    lines: list[Line] = []
    for number, row in enumerate(text.split("\n"), 1):
        if not row.strip():
            continue
        head = HEAD.fullmatch(row)
        try:
            if head:
                if found:
                    found[-1] = _with(found[-1], lines)
                lines = []
                when = None if head[3] == "-" else datetime.fromisoformat(head[3].replace("Z", "+00:00"))
                found.append(Block(int(head[1]), int(head[2]), when, head[4]))
            else:
                lines.append(_line(row))
                if not found:
                    raise ValueError
        except (ValueError, ValidationError, KeyError):
            what = "This is no line of the log." if not head else "This is no head of a change."
            right = "Take the file away: the yard is what its other files say."
            raise Faults(Fault(f"{name}, line {number}", what, right)) from None
    if found:
        found[-1] = _with(found[-1], lines)
    return tuple(found)


def _with(block: Block, lines: Iterable[Line]) -> Block:
    return Block(block.number, block.mark, block.at, block.who, tuple(lines))


def _line(row: str) -> Line:
    if row.startswith("= "):
        return Line("=", row[2:])
    told = LINE.fullmatch(row)
    if told is None:
        raise ValueError
    return Line("+" if told[1] == "+" else "-", RECORDS[told[2]].model_validate_json(told[3]))


def last_text(files: Mapping[str, bytes]) -> tuple[str, str]:
    """The newest file of a log and what stands in it; the name of the first one there would be, and nothing, without."""
    names = sorted(name for name in files if FILE.fullmatch(name))
    return (names[-1], files[names[-1]].decode("utf-8", "replace")) if names else (UNDATED, "")


def last_number(text: str) -> int:
    """The number of the last change in a file of the log; 0 where there is none."""
    return max((int(head[1]) for head in HEAD.finditer(text)), default=0)
