"""Which line of a TOML file a key stands on, and where a new one goes. No TOML reader of ours says it."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import cached_property

HEADER = re.compile(r"\s*\[\[?\s*([\w.\" -]+?)\s*\]\]?\s*(#.*)?$")
KEY = re.compile(r"\s*\"?([\w-]+)\"?\s*[=.]")


@dataclass(frozen=True, slots=True)
class Statement:
    """A header or a key with its value: its first and last line, counted from 1."""

    first: int
    last: int
    header: str = ""
    key: str = ""


@dataclass(frozen=True)
class Lines:
    """The statements of a file that can be read."""

    text: str

    @cached_property
    def statements(self) -> tuple[Statement, ...]:
        """All in order. A statement ends with the first line at which it can be read alone."""
        lines = self.text.split("\n")
        found, number = [], 0
        while number < len(lines):
            first, line = number, lines[number]
            number += 1
            if not line.strip() or line.lstrip().startswith("#"):
                continue
            if header := HEADER.match(line):
                found.append(Statement(number, number, header=header[1]))
                continue
            while number < len(lines) and not _whole("\n".join(lines[first:number])):
                number += 1
            key = KEY.match(line)
            found.append(Statement(first + 1, number, key=key[1] if key else ""))
        return tuple(found)

    def line(self, key: str, table: str = "", index: int = 0) -> int | None:
        """The line of a key: of the file itself, or of its table of that name and number (empty key: of the table).

        A list of `{ ... }` with one to a line counts as tables too.
        """
        inside, count = not table, -1
        for statement in self.statements:
            if statement.header:
                if inside and table:
                    return None
                if not table:
                    break
                count += statement.header == table
                inside = statement.header == table and count == index
                if inside and not key:
                    return statement.first
            elif table and statement.key == table and count < 0:
                return self._in_list(statement, index)
            elif inside and statement.key == key:
                return statement.first
        return None

    def _in_list(self, statement: Statement, index: int) -> int:
        lines = self.text.split("\n")[statement.first - 1 : statement.last]
        rows = [statement.first + n for n, line in enumerate(lines) if line.lstrip().startswith("{")]
        return rows[index] if index < len(rows) else statement.first

    def after_keys(self) -> int:
        """How many lines to leave before a new key of the file itself: after its last one, or before the first header."""
        last = 0
        for statement in self.statements:
            if statement.header:
                break
            last = statement.last
        if last:
            return last
        first = self.statements[0].first - 1 if self.statements else len(self.text.split("\n")) - 1
        return max(first, 0)


def _whole(text: str) -> bool:
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return False
    return True


BARE = re.compile(r"=\s*(?!true\b|false\b|inf\b|nan\b)[^\W\d]")
COMMA = re.compile(r"=\s*\d+,\d+\s*(#.*)?$")
DAY = re.compile(r"=\s*(\d{4})-(\d\d?)-(\d\d?)\b")
UNIT = re.compile(r"=\s*[\d.]+\s*[^\W\d]")


def unreadable(text: str, bad: tomllib.TOMLDecodeError) -> tuple[int | None, str, str]:
    """The line at which a file cannot be read, what is wrong with it and what would be right, in plain words."""
    at = re.search(r"line (\d+)", str(bad))
    lines = text.split("\n")
    number = min(int(at[1]), len(lines)) if at else len(lines)
    line = lines[number - 1].strip()
    if at is None:
        return number, "The file ends in the middle of something.", "A quote or a bracket was opened and not closed."
    said = f"This line cannot be read: {line if len(line) <= 60 else line[:57] + '...'}"
    if "overwrite" in str(bad) or "twice" in str(bad):
        return number, f"This stands twice in the file: {line}", "Keep one of the two."
    if day := DAY.search(line):
        year, month, of_month = map(int, day.groups())
        if month > 12 and of_month <= 12:
            return (
                number,
                f"There is no month {month}. Day and month turned round?",
                f"Write {year}-{of_month:02d}-{month:02d}.",
            )
        return number, f"There is no day {day[0].lstrip('= ')}.", "A date is year-month-day: 2026-08-28."
    if COMMA.search(line):
        return number, said, f"A number has a point for decimals: {line.split('#')[0].strip().replace(',', '.')}"
    if BARE.search(line) or UNIT.search(line):
        key, _, value = line.split("#")[0].partition("=")
        return number, said, f'Text, and a value with its unit, stands in quotes: {key.strip()} = "{value.strip()}"'
    return (
        number,
        said,
        'A line reads key = value: name = "Bramble" for text, hours = 12 for a number, on = 2026-08-28 for a day.',
    )
