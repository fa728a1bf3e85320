"""The walk-round at the machine: who made it, the grade that a holding or lifting sheet has by it, its list, what it guards."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal

from axlewright.sheets import Day, Grade, HoldPoint, Lines, Run, Section, Text, text
from axlewright.sheets.blocks import Line
from axlewright.trade.verdicts import questions

# What the sheet itself makes a hold point or a caution of: nobody can answer it before the work.
GUARDED: dict[str, dict[str, str]] = {
    "HOLDING": {
        "read-again": "done", "held-by": "jack-and-wood", "held-from-rolling": "chocks-alone",
        "brakes-off": "after-two-saw-the-chocks", "rear-blocks-each-bite": "yes", "rear-blocks-at-height": "yes",
        "on-the-jack": "no", "gauge": "in-its-band",
    },
    "LIFTING": {"under-it": "nobody", "taken-off-wheel": "flat-or-chained", "on-the-forks": "yes"},
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Walked:
    """A walk-round that was made at the machine."""

    who: str
    on: date
    at: str = ""  # time of day, as they wrote it


def graded(walked: Walked | None, letter: str) -> Grade:
    """NOT FOR LIFTING until somebody walked round the machine; then who and when."""
    if walked is None:
        return Grade(shop=False, words=text("table sheet, to decide with"))
    title = Run(voice="strong", words=(" ".join(filter(None, ("Shop sheet", letter))),))
    time = f", {walked.at}" if walked.at else ""
    return Grade(shop=True, words=text(title, " walked round ", Day(on=walked.on), f"{time}, {walked.who}"))


def answered(line: str, answers: Mapping[str, str], walked: Walked | None) -> dict[str, str]:
    """The answers that a line is judged by; without a walk-round nothing seen at the table stands in for it."""
    mine = {asked: said for asked, said in answers.items() if questions()[asked].line == line}
    if line == "HOLDING":
        mine["walk-round"] = "done" if walked else "not-yet"
    if walked is None:
        return mine
    return {**GUARDED[line], **mine}


def walk_round(lines: tuple[tuple[str, str], ...], place: Literal["left", "right"] = "right") -> Section:
    """The list that turns a table sheet into a shop sheet: what is looked at, and the line it is written on."""
    return Section(
        heading="Walk-round",
        aside="turns this into a shop sheet",
        place=place,
        blocks=(Lines(lines=tuple(Line(label=label, unit=unit) for label, unit in lines), stacked=True, ticked=True),),
    )


def before_the_lift(heading: str, aside: str, words: Text, lines: tuple[str, ...]) -> Section:
    """The hold point of a shop sheet: what is read once more before anything is lifted."""
    hold = HoldPoint(lead="Before the first lift.", words=words, lines=lines)
    return Section(heading=heading, aside=aside, place="right", blocks=(hold,))
