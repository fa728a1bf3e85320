"""Pictures of every grade that is told by eye, to compare with: each with its word and one line, a bar of 20 mm to prove the size."""

from __future__ import annotations

from functools import cache

from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.sheets import Block, Figure, Run, Section, Sheet, text
from axlewright.sheets.drawing import Drawing
from axlewright.sheets.figures import grades
from axlewright.sheets.figures.shapes import bar, drawn
from axlewright.trade.findings import findings
from axlewright.trade.looks import looks

TRUE_SIZE = ("plug", "oil-metal", "leak-wheel", "leak-input", "puddle", "rock", "seats", "wobble")
"""Findings whose pictures are as large as what they show."""
PROOF = 20.0  # mm
PAGES = (
    ("plug", "level", "water"),
    ("fluid", "breather", "heat"),
    ("leak-wheel", "leak-input"),
    ("oil-metal", "puddle"),
    ("where", "bolts", "nuts"),
    ("cracks", "lean", "backlash", "turn"),
    ("rock", "seats", "wobble"),
)
"""What stands on one page, in the order in which it is looked at."""
NAME = "grades"
LONG, LONGER = 22, 8  # letters of a word on its own; letters more than its grade has


def true_size(finding: str) -> bool:
    return finding in TRUE_SIZE


@cache
def proof() -> Drawing:
    """A bar of 20 mm: only where it measures that are the pictures beside it true."""
    return drawn(9.0, "A bar of 20 mm to measure.", *bar(1.0, 6.0, PROOF, f"{PROOF:.0f} mm"), width=40.0)


def word_and_line(finding: str, grade: str) -> tuple[str, str]:
    """The word of a grade, and the line that tells it from the next: `chips`, `slivers or lumps, 2 mm and more`."""
    said, name = findings()[finding].grade(grade).words, grade.replace("-", " ")
    for mark in (":", ","):
        word, found, line = said.partition(mark)
        if found and len(word) <= max(len(name) + LONGER, LONG):
            return word, line.strip()
    drawing = grades.picture(finding, grade)
    line = drawing.says.partition(": ")[2].rstrip(".") if drawing else ""
    return said, line.removeprefix(said).lstrip(", ")


def grades_sheets() -> Drawn:
    """All pictures, some findings a page: what is told by eye is laid beside them."""
    pages = tuple(_page(n, names) for n, names in enumerate(PAGES, 1))
    return Drawn(pages, {})


def _page(number: int, names: tuple[str, ...]) -> Sheet:
    frame = Frame()
    true = [name for name in names if true_size(name)]
    told = f"True to size: {_listed(true)}, where the bar measures {PROOF:.0f} mm." if true else ""
    sheet = Sheet(
        name=NAME if number == 1 else f"{NAME}-{number}",
        head=(Run(voice="strong", words=("Pictures of the grades",)), f", {number} of {len(PAGES)}"),
        answer=text("Lay it beside what you see. In doubt take the worse."),
        lead=text(told),
        sections=tuple(_section(name, n) for n, name in enumerate(names)),
        block=frame.block("Pictures of the grades", number, len(PAGES)),
        paper="dense",
    )
    return sheet


def _section(finding: str, place: int) -> Section:
    """One finding: each grade with its picture, its word and its line."""
    row = findings()[finding]
    blocks: list[Block] = [_graded(finding, grade.id, grade.stop) for grade in row.grades]
    if true_size(finding):
        blocks.append(Figure(drawing=proof(), caption=text("Measure it. Not 20 mm? Then nothing here is true size.")))
    return Section(
        heading=f"{row.name[0].upper()}{row.name[1:]}",
        aside=looks()[row.look].name.lower(),
        place="right" if place % 2 else "left",
        blocks=tuple(blocks),
    )


def _graded(finding: str, grade: str, stop: bool) -> Block:
    drawing, (word, line) = grades.picture(finding, grade), word_and_line(finding, grade)
    assert drawing is not None
    told = text(Run(voice="must" if stop else "strong", words=(word,)), f" {line}" if line else "")
    return Figure(drawing=drawing, caption=told)


def _listed(names: list[str]) -> str:
    said = [findings()[name].name for name in names]
    return " and ".join(filter(None, (", ".join(said[:-1]), said[-1])))
