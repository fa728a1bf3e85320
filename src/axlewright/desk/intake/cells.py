"""What stands in the cells: numbers with comma or point, days in their many forms. What has two readings is asked."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Literal

from axlewright.quantities.numbers import SPACES, Doubt, read_number

Decimal = Literal[".", ","]
Dates = Literal["day-first", "month-first"]
NOTHING = frozenset({"", "-", "–", "—", "n/a", "na", "nd", "n.d.", "n/d", "null", "none", "?"})
EXAMPLE_DAY = "Write year-month-day: 2026-08-28."

_NUMBER = re.compile(rf"[+\-−–<≤]*\s*([0-9]+(?:[{SPACES}.,'’][0-9]+)*)")
_ISO = re.compile(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})(?:[t\s].*)?")
_EIGHT = re.compile(r"(\d{4})(\d{2})(\d{2})")
_PARTS = re.compile(r"(\d{1,2})([-/.])\s?(\d{1,2})\2\s?(\d{4}|\d{2})(?:[\s,]+\d{1,2}[:.]\d{2}.*)?")
_NAMED = re.compile(r"(?:(\d{1,2})[\s.\-]+([a-z]{3,9})|([a-z]{3,9})[\s.]+(\d{1,2}))[\s,.\-]+(\d{4})(?:\s.*)?")
_COUNT = re.compile(r"\d{5}(?:[.,]\d+)?")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


class NotRead(ValueError):
    """A cell that cannot be used. The text says what is wrong with it; `right` what would be right."""

    def __init__(self, what: str, right: str = "") -> None:
        self.what, self.right = what, right
        super().__init__(f"{what} {right}".strip())


@dataclass(frozen=True, slots=True)
class Two:
    """What may be read in two ways, and on which line: the first such."""

    line: int
    text: str
    ways: Mapping[str, str]


def empty(text: str) -> bool:
    """Whether a cell says nothing."""
    return text.strip().casefold() in NOTHING


# numbers
def _marks(text: str) -> tuple[Decimal | None, bool]:
    """The decimal mark that a number shows beyond doubt, and whether its one mark may part thousands or decimals."""
    found = _NUMBER.match(text.strip())
    digits = found[1] if found else ""
    marks = [sign for sign in digits if sign in ".,"]
    if not marks:
        return None, False
    last: Decimal = "." if marks[-1] == "." else ","
    other: Decimal = "," if last == "." else "."
    if len(set(marks)) == 2:
        return last, False
    if len(marks) > 1:
        return other, False
    head, tail = digits.split(last)
    if len(tail) == 3 and re.fullmatch(r"[1-9][0-9]{0,2}", head):
        return None, True
    return last, False


def decimal_of(cells: Iterable[tuple[int, str]], delimiter: str, said: Decimal | None) -> Decimal | Two | None:
    """The decimal mark of a file's numbers: as said, or as they show; two readings where they do not; None: all are whole.

    Args:
        cells: line and text of every number
        delimiter: of the file; a comma between columns goes with a point between decimals
        said: by the person
    """
    if said:
        return said
    shown: set[Decimal] = set()
    doubtful: Two | None = None
    for line, text in cells:
        mark, doubt = _marks(text)
        if mark:
            shown.add(mark)
        elif doubt and doubtful is None:
            number = (_NUMBER.match(text.strip()) or [""])[0]
            ways = {".": number.replace(",", ""), ",": number.replace(".", "").replace(",", ".")}
            doubtful = Two(line, number, ways)
    if len(shown) == 1:
        return shown.pop()
    if doubtful and not shown and delimiter == "," and "." in doubtful.text:
        return "."
    return doubtful


@lru_cache(maxsize=4096)
def number(text: str, decimal: Decimal) -> tuple[float, str]:
    """The number of a cell, and what stands behind it. Which mark is the decimal one is settled here.

    Raises:
        NotRead: it does not begin with a number, or with one that nobody writes so
    """
    plain = re.sub(r"(?<=\d)['’](?=\d)", "", text.strip())
    try:
        value, rest = read_number(plain, decimal)
    except Doubt as doubt:
        if doubt.why.endswith("may part thousands or decimals"):
            return float(doubt.choices[0]), plain[doubt.end :].strip()
        raise NotRead(f"{short(text)} is no number: {doubt.why}.", "Write 1234.5.") from None
    if value is None:
        raise NotRead(f"{short(text)} is no number.", "Write 1234.5, or leave it empty.")
    return value, rest


def short(text: str) -> str:
    """A cell as it stands in a message: on one line, in quotes, not too long."""
    one = " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())
    return f"“{one if len(one) <= 40 else one[:39] + '…'}”"


# days
@lru_cache(maxsize=4096)
def ways_of(text: str) -> Mapping[str, date]:
    """The days that a text may mean. One key `sure`; else by whether the day or the month stands first.

    Raises:
        NotRead: it is no day in any reading
    """
    said = text.strip().casefold()
    if found := _ISO.fullmatch(said):
        return {"sure": _day(text, int(found[1]), int(found[3]), int(found[4]))}
    if found := _EIGHT.fullmatch(said):
        return {"sure": _day(text, int(found[1]), int(found[2]), int(found[3]))}
    if found := _NAMED.fullmatch(said):
        name, day = (found[2], found[1]) if found[2] else (found[3], found[4])
        if name[:3] in _MONTHS:
            return {"sure": _day(text, int(found[5]), _MONTHS.index(name[:3]) + 1, int(day))}
    if found := _PARTS.fullmatch(said):
        first, second, year = int(found[1]), int(found[3]), found[4]
        return _two_ways(text, first, second, int(year) + (2000 if len(year) == 2 else 0), len(year) == 2)
    if _COUNT.fullmatch(said):
        right = "Give that column a date's form in the spreadsheet, and save it again."
        raise NotRead(f"{short(text)} is a spreadsheet's count of days, not a day.", right)
    raise NotRead(f"{short(text)} is no day that can be read.", EXAMPLE_DAY)


def _day(text: str, year: int, month: int, day: int) -> date:
    try:
        return date(year, month, day)
    except ValueError:
        raise NotRead(f"There is no day {short(text)}.", EXAMPLE_DAY) from None


def _two_ways(text: str, first: int, second: int, year: int, short_year: bool) -> dict[str, date]:
    """Both readings, as far as there are such days. A year of two digits leaves it in doubt, whatever stands before it."""
    found: dict[str, date] = {}
    for way, month, day in (("day-first", second, first), ("month-first", first, second)):
        try:
            found[way] = date(year, month, day)
        except ValueError:
            continue
    if not found:
        raise NotRead(f"There is no day {short(text)}.", EXAMPLE_DAY)
    if len(set(found.values())) == 1 and len(found) == 2 and not short_year:
        return {"sure": next(iter(found.values()))}
    return found


def dates_of(cells: Sequence[tuple[int, str]], said: Dates | None) -> Dates | Two | None:
    """Whether the day or the month stands first in a column: as said, or as its days show; None: nothing is in doubt."""
    if said:
        return said
    votes: set[str] = set()
    doubtful: Two | None = None
    for line, text in cells:
        try:
            ways = ways_of(text)
        except NotRead:
            continue
        if "sure" in ways:
            continue
        if len(ways) == 1 and re.search(r"\d{4}", text):  # 26-08-28 may begin with its year
            votes |= ways.keys()
        if doubtful is None or (len(doubtful.ways) == 1 and len(ways) == 2):
            doubtful = Two(line, text.strip(), {way: f"{day:%d %b %Y}" for way, day in ways.items()})
    if len(votes) == 1:
        return "day-first" if "day-first" in votes else "month-first"
    return doubtful


def day(text: str, dates: Dates | None) -> date:
    """The day of a cell, where it is settled what stands first.

    Raises:
        NotRead: it is none, or none in that order
    """
    ways = ways_of(text)
    found = ways.get("sure") or (ways.get(dates) if dates else None)
    if found is None:
        raise NotRead(
            f"There is no day {short(text)} with the {(dates or 'day').partition('-')[0]} first.", EXAMPLE_DAY
        )
    return found
