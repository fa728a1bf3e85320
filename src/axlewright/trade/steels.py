"""Bolt grades by size, and what a head mark means."""

from __future__ import annotations

import difflib
import re
from functools import cache

from axlewright.quantities.units import NotRead
from axlewright.trade.rows import Row, rows
from axlewright.trade.si import Length, Stress
from axlewright.trade.threads import Known, System, Thread

EXAMPLE = "what stands on the head: 8.8, 10.9, 12.9; 3 lines, 6 lines; or no mark"
CLOSE = 1e-6  # m: a diameter that stands on a limit belongs below it


class Grade(Row):
    """Least strengths of one grade over a range of sizes [Pa]."""

    id: str
    standard: str
    over: Length
    to: Length
    proof: Stress
    yields: Stress
    tensile: Stress
    shear: float
    known: Known

    @property
    def system(self) -> System:
        return "metric" if self.standard.startswith("ISO") else "inch"


class HeadMark(Row):
    """What a head shows, and the grade to take for it."""

    shown: str
    also: tuple[str, ...] = ()
    system: System
    grade: str
    says: str
    known: Known


class Lot(Row):
    """A real lot of bolts beside the least strengths of its grade."""

    id: str
    median: float
    log_sd: float
    greatest_tensile: float
    modulus: Stress
    known: Known


@cache
def grades() -> tuple[Grade, ...]:
    return rows("steels.toml", "grade", Grade)


@cache
def head_marks() -> tuple[HeadMark, ...]:
    return rows("steels.toml", "head_mark", HeadMark)


@cache
def lot() -> Lot:
    return rows("steels.toml", "lot", Lot)[0]


def grade_at(grade: str, diameter: float) -> Grade:
    """The row of a grade that holds at a diameter.

    Raises:
        NotRead: no such grade, or not at that size
    """
    mine = [row for row in grades() if row.id.lower() == grade.strip().lower()]
    if not mine:
        near = difflib.get_close_matches(grade.strip(), sorted({row.id for row in grades()}), 3, 0.5)
        raise NotRead(grade, EXAMPLE, tuple(near), "no grade of that name is known")
    for row in mine:
        if row.over + CLOSE < diameter <= row.to + CLOSE:
            return row
    most = max(row.to for row in mine)
    said = f"{most / 0.0254:g} in" if mine[0].system == "inch" else f"{most * 1000:g} mm"
    raise NotRead(grade, EXAMPLE, hint=f"there is no {grade} above {said}: look at the head again")


def read_head_mark(mark: str, thread: Thread) -> tuple[Grade, str]:
    """The grade that a head mark stands for on this thread, and a sentence where one had to be taken.

    Raises:
        NotRead: no such mark, or none that this thread can carry
    """
    typed = re.sub(r"^(grade|class|sae|iso)\s+", "", mark.strip(), flags=re.IGNORECASE)
    for row in head_marks():
        if row.system == thread.system and typed.lower() in (row.shown, *row.also) and not _is_grade(typed, row):
            return grade_at(row.grade, thread.diameter), row.says
    found = grade_at(typed, thread.diameter)
    if found.system != thread.system:
        says = f"{found.id} is a mark of {found.system} bolts, {thread.designation} is {thread.system}"
        raise NotRead(mark, EXAMPLE, hint=f"{says}: look at the head and the thread again")
    return found, ""


def _is_grade(typed: str, row: HeadMark) -> bool:
    """Whether a bare number is a grade's own name, not a count of lines."""
    return typed == row.grade
