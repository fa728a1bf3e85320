"""How a typed number is read: comma or point, thousands by spaces, mixed fractions. What has two readings is asked."""

from __future__ import annotations

import math
import re
from typing import Literal

SPACES = " \u00a0\u2009\u202f"  # plain, no-break, thin, narrow no-break
FRACTIONS = {"¼": (1, 4), "½": (1, 2), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)}

_SIGN = r"\s*([+\-−–]?)\s*"
_MIXED = re.compile(
    _SIGN + rf"(?:([0-9]+)[{SPACES}]*(?:-|[{SPACES}])[{SPACES}]*)?([0-9]+)[{SPACES}]*[/⁄][{SPACES}]*([0-9]+)(?![0-9.,])"
)
_VULGAR = re.compile(_SIGN + rf"([0-9]*)[{SPACES}-]*([{''.join(FRACTIONS)}])")
_PLAIN = re.compile(_SIGN + rf"((?:[0-9]+(?:[{SPACES}.,][0-9]+)*)|[.,][0-9]+)([eE][+\-−]?[0-9]{{1,3}})?(?![0-9])")


class Doubt(ValueError):
    """A number with more than one reading.

    Attributes:
        choices: what it may mean
        why: what makes it doubtful
        end: where in the text it ends
    """

    def __init__(self, choices: tuple[str, ...], why: str, end: int) -> None:
        super().__init__(why)
        self.choices, self.why, self.end = choices, why, end


def read_number(text: str, decimal: Literal[".", ","] = ".") -> tuple[float | None, str]:
    """The number that a text begins with, and the rest; none where it begins with no number.

    Raises:
        Doubt: it has two readings
    """
    found = _MIXED.match(text)
    if found:
        sign, whole, top, bottom = found.groups()
        if int(bottom) == 0 or (whole and int(top) >= int(bottom)):
            raise Doubt((), "the fraction is not one", found.end())
        value = int(whole or 0) + int(top) / int(bottom)
        return _signed(sign, value), text[found.end() :].strip()
    found = _VULGAR.match(text)
    if found:
        sign, whole, sign_of_part = found.groups()
        top, bottom = FRACTIONS[sign_of_part]
        return _signed(sign, int(whole or 0) + top / bottom), text[found.end() :].strip()
    found = _PLAIN.match(text)
    if not found:
        return None, text
    sign, digits, power = found.groups()
    value = float(_plain(digits, decimal, found.end()) + (power or "").replace("−", "-"))
    if not math.isfinite(value):
        raise Doubt((), "it is beyond all measure", found.end())
    return _signed(sign, value), text[found.end() :].strip()


def _signed(sign: str, value: float) -> float:
    return -value if sign in ("-", "−", "–") and sign else value


def _plain(digits: str, decimal: Literal[".", ","], end: int) -> str:
    """The digits with a point as decimal mark and no thousands marks.

    Raises:
        Doubt: it has two readings
    """
    marks = re.findall(r"[.,]", digits)
    if len(set(marks)) == 2 and marks.count(marks[-1]) == 1:  # 1,234.5 and 1.234,5: the last is the decimal mark
        head, tail = digits.rsplit(marks[-1], 1)
        return _grouped(head, marks[0], digits, end) + "." + _bare(tail, digits, end)
    if len(set(marks)) == 2:
        raise Doubt((), "its points and commas do not agree", end)
    if len(marks) > 1:
        return _grouped(digits, marks[0], digits, end)
    if not marks:
        return _grouped(digits, None, digits, end)
    head, tail = digits.split(marks[0])
    if len(tail) == 3 and marks[0] != decimal and re.fullmatch(r"[1-9][0-9]{0,2}", head):
        other = f"{head}{decimal}{tail.rstrip('0') or '0'}"
        raise Doubt(
            (head + tail, other), f"the {'comma' if marks[0] == ',' else 'point'} may part thousands or decimals", end
        )
    return (_grouped(head, None, digits, end) if head else "0") + "." + _bare(tail, digits, end)


def _bare(tail: str, digits: str, end: int) -> str:
    if not tail.isdigit():
        raise Doubt(_two(digits), "there is a gap in it", end)
    return tail


def _grouped(head: str, mark: str | None, digits: str, end: int) -> str:
    """Whole digits, with thousands parted by this mark or by spaces.

    Raises:
        Doubt: the groups are not of three
    """
    parts = re.split(rf"[{SPACES}]" if mark is None else re.escape(mark), head)
    fits = len(parts[0]) <= 3 and parts[0] != "0" and all(len(p) == 3 and p.isdigit() for p in parts[1:])
    if not parts[0].isdigit() or (len(parts) > 1 and not fits):
        raise Doubt(_two(digits), "it may be one number or two", end)
    return "".join(parts)


def _two(digits: str) -> tuple[str, ...]:
    """A number with a gap: as one, or each of the two."""
    parts = re.split(rf"[{SPACES}]+", digits)
    return ("".join(parts), *parts) if len(parts) == 2 and sum(p.count(".") + p.count(",") for p in parts) <= 1 else ()
