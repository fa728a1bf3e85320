"""The walk-round at the machine: who made it, the grade that a holding or lifting sheet has by it, its list, what it guards."""

from __future__ import annotations

from typing import Literal

from axlewright.plan.judge.held import Walked as Walked
from axlewright.sheets import Day, Grade, HoldPoint, Lines, Run, Section, Text, text
from axlewright.sheets.blocks import Line


def graded(walked: Walked | None, letter: str) -> Grade:
    """NOT FOR LIFTING until somebody walked round the machine; then who and when."""
    if walked is None:
        return Grade(shop=False, words=text("table sheet, to decide with"))
    title = Run(voice="strong", words=(" ".join(filter(None, ("Shop sheet", letter))),))
    time = f", {walked.at}" if walked.at else ""
    return Grade(shop=True, words=text(title, " walked round ", Day(on=walked.on), f"{time}, {walked.who}"))


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
