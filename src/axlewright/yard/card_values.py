"""What may be written at a step or an after-check, and how it is read: in the unit that the card prints beside it."""

from __future__ import annotations

from functools import cache
from typing import Literal

from axlewright.quantities import NotRead, parse
from axlewright.quantities.units import find
from axlewright.trade.steps import AfterCheck, Band, Reading, Task
from axlewright.trade.steps_read import steps

Decimal = Literal[".", ","]
Value = float | str

KIND_OF = {
    "%": "angle",
    "deg": "angle",
    "mm": "length",
    "m": "length",
    "bar": "pressure",
    "psi": "pressure",
    "kg": "mass",
    "L": "volume",
    "N·m": "torque",
    "K": "temperature-step",
}
"""The kind of what is read in the unit of its tool; counts and turns are bare numbers, the rest are words."""
BARE = ("count", "turns")
DONE, UNDONE, PHOTO = "done", "not done", "photo"
"""What may be written of a step itself; a photo stands for the paper, and says nothing of what is done."""
YES_NO = ("yes", "no")


@cache
def task_of(reading: str) -> Task:
    """The step at which a reading is taken; of those on several cards the first."""
    return next(task for task in steps().task.values() if any(r.id == reading for r in task.readings))


@cache
def look_of(look: str) -> AfterCheck | None:
    """The after-check of this name."""
    return next((row for row in steps().after_checks if row.id == look), None)


@cache
def figures_at(step: str) -> dict[str, Band]:
    """The figures that the bands of a step hang on, by name: they may be written by hand where nobody has reckoned them."""
    rows = steps()
    task = rows.task[step]
    asked = [*(r.id for r in task.readings), *(task.hold.readings if task.hold else ())]
    return {rows.band[r].of: rows.band[r] for r in asked if r in rows.band and rows.band[r].of}


def asked_at(step: str) -> tuple[str, ...]:
    """All that may be written at a step: its readings, those its hold asks for, and the figures its bands hang on."""
    task = steps().task[step]
    own = [r.id for r in task.readings]
    return tuple(dict.fromkeys([*own, *(task.hold.readings if task.hold else ()), *figures_at(step)]))


def words_of(reading: Reading) -> tuple[str, ...]:
    """The words that a reading may be; nothing where it is a number, or free."""
    band = steps().band.get(reading.id)
    if band and band.words_go:
        return (*band.words_go, *band.words_ask, *band.words_now)
    return YES_NO if reading.unit == "yes or no" else ()


def read_value(reading: Reading, text: str, decimal: Decimal = ".") -> Value:
    """A reading as typed, in the unit of its tool; a bare number is in the unit that the card prints.

    Raises:
        NotRead: it is none, or cannot be
    """
    words = words_of(reading)
    if words:
        said = text.strip().casefold()
        if said not in words:
            raise NotRead(text, f"{reading.quantity}: {', '.join(words[:-1])} or {words[-1]}")
        return said
    if reading.unit in BARE or reading.unit in KIND_OF:
        return read_number(text, reading.unit, decimal)
    if not text.strip():
        raise NotRead(text, reading.quantity, hint="nothing is typed")
    return text.strip()


def read_number(text: str, unit: str, decimal: Decimal = ".") -> float:
    """A number in this unit of a tool.

    Raises:
        NotRead: it is none, is of another kind, or is less than nothing
    """
    if unit in BARE:
        bare = text.strip().removesuffix(unit).strip()
        value = parse(bare, "count" if unit == "count" else "share", decimal).si
    else:
        kind = KIND_OF[unit]
        tool = find(kind, unit)
        assert tool is not None
        value = tool.from_si(_with_unit(text, kind, unit, decimal))
    if value < 0 and unit not in ("K", "%", "deg"):
        raise NotRead(text, f"a reading in {unit}", hint="it is less than nothing")
    return round(value, 6)


def _with_unit(text: str, kind: str, unit: str, decimal: Decimal) -> float:
    """In SI; the unit of the tool where none is typed."""
    try:
        return parse(text, kind, decimal).si
    except NotRead as bad:
        if not bad.no_unit:
            raise
        return parse(f"{text.strip()} {unit}", kind, decimal).si


def read_figure(band: Band, text: str, decimal: Decimal = ".") -> tuple[float, float]:
    """A figure that a band hangs on: `33.5`, or from and to, `350 to 390`; in the unit of the band.

    Raises:
        NotRead: it is none
    """
    low, _, high = text.partition(" to ")
    ends = read_number(low, band.unit, decimal), read_number(high or low, band.unit, decimal)
    if not 0 < ends[0] <= ends[1]:
        raise NotRead(text, f"a figure in {band.unit}", hint="it is nothing, or runs backwards")
    return ends


def spelled(text: str, unit: str) -> str:
    """A value as it is kept: with its unit, where only a number was typed."""
    bare = text.strip()
    if (
        not bare
        or not (bare[-1].isdigit() or bare[-1] in "¼½¾⅛⅜⅝⅞")
        or unit in ("class", "grade", "yes or no", "count")
    ):
        return bare
    return f"{bare} {unit}"
