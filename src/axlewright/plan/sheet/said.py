"""Numbers with units inside the words of steps and cautions: they stay numbers, so that a sheet shows them in the yard's measures."""

from __future__ import annotations

import re
from typing import Literal

from axlewright.plan.sheet.frame import Number, Numbers
from axlewright.plan.sheet.measure import stay
from axlewright.quantities.units import find
from axlewright.sheets import Run, Text

UNITS = {
    "mm": ("length", "mm"),
    "m": ("length", "m"),
    "km": ("length", "km"),
    "km/h": ("speed", "km/h"),
    "kg": ("mass", "kg"),
    "C": ("temperature", "°C"),
}
"""Units as they stand in the rows, with kind and symbol; others are the same in both measures, or on a tool."""
FOUND = re.compile(r"(?<![\w.])(?:(\d+(?:\.\d+)?) to )?(\d+(?:\.\d+)?) (mm|m|km/h|km|kg|C)(?![\w/·²³])")
SOURCE = "the words of the step or caution; docs/engines/steps.md: common practice, no source"


def said(words: str, numbers: Numbers) -> Text:
    """Words with their numbers as numbers."""
    parts: list[object] = []
    end = 0
    for found in FOUND.finditer(words):
        low, high, unit = found.groups()
        parts.append(stay(words[end : found.start()]))
        if low:
            parts += [_number(low, unit, numbers, with_unit=False), " to "]
        parts.append(_number(high, unit, numbers))
        end = found.end()
    parts.append(stay(words[end:]))
    return tuple(part for part in parts if part != "")  # type: ignore[misc]


def led(lead: str, numbers: Numbers, voice: Literal["strong", "must"] = "strong") -> tuple[str, Text]:
    """A lead, and the words that stand in its place where it holds a number: bold, in front of the rest; of a caution in primer."""
    if FOUND.search(lead) is None:
        return stay(lead), ()
    return "", (Run(voice=voice, words=said(lead, numbers)), " ")


def _number(typed: str, unit: str, numbers: Numbers, *, with_unit: bool = True) -> object:
    kind, symbol = UNITS[unit]
    tool = find(kind, symbol)
    assert tool is not None
    number = Number(f"said/{typed}-{unit.replace('/', '-')}", kind, tool.to_si(float(typed)), "assumed", SOURCE)
    digits = max(3 if unit == "C" else 2, len(typed.replace(".", "").lstrip("0")))
    return numbers.show(number, digits=digits, with_basis=False, with_unit=with_unit)
