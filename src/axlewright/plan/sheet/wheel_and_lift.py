"""Wheel and lift: the wheel on the loader, the drive in a saddle on forks or on the hook, and how it will hang."""

from __future__ import annotations

import math
from typing import Literal

from axlewright.plan.judge.held import LiftInputs as LiftInputs
from axlewright.plan.judge.held import Walked, judged_lift
from axlewright.plan.reckon.lift_trials import scale_marks
from axlewright.plan.reckon.lifting import Lifting
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.held import Told, refusal, stopped, times, verdict_line
from axlewright.plan.sheet.lift_figures import degrees, in_the_saddle, on_the_hook
from axlewright.plan.sheet.lift_forks import by_load_centre, drive_on_forks, the_wheel, wheel_on_forks
from axlewright.plan.sheet.lift_words import (
    CALLS,
    LEVEL,
    heaviest,
    it_hangs,
    legs,
    scale,
    trial_lift,
    what_holds,
)
from axlewright.plan.sheet.trace import Trace
from axlewright.plan.sheet.walk_round import graded, walk_round
from axlewright.plan.steps.bands import NoBand
from axlewright.sheets import Block, Caution, Deciding, HoldPoint, Lines, Note, Section, Sheet, Text, text
from axlewright.sheets.blocks import Line

UNTIL = "the walk-round: tags and plates read, the drive weighed or a trial lift planned, the landing built"
MOST_REVISIONS = 3  # the last ones: the sheet is one page
TITLE = "Wheel and lift"


def wheel_and_lift_sheet(inputs: LiftInputs, frame: Frame, walked: Walked | None = None) -> Drawn:
    """The Wheel and lift sheet: a table sheet until somebody walked round, a stop where it is one.

    Args:
        inputs: what it is drawn up from
        frame: what its title block says
        walked: who made the walk-round, and when

    Returns:
        the sheet, and the basis of its numbers
    """
    verdict, made = judged_lift(inputs, walked)
    if verdict.word == "no":
        return stopped("wheel-and-lift", TITLE, verdict_line("LIFT", verdict), verdict, frame, graded(walked, frame.revision))  # fmt: skip
    told = Told(Trace(made.likely))
    sheet = Sheet(
        name="wheel-and-lift",
        head=frame.head(TITLE),
        grade=graded(walked, frame.revision),
        verdicts=(verdict_line("LIFT", verdict, UNTIL if walked is None else "", _goes(told, made)),),
        answer=_answer(told, made),
        deciding=_deciding(told, made),
        sections=(
            *(_hook(told, made, walked) if made.task.how == "hook" else _forks(told, made, walked)),
            Section(heading="What must not be missed", place="wide", blocks=_cautions(made)),
        ),
        revisions=frame.revisions[-MOST_REVISIONS:],
        block=frame.block(TITLE),
    )
    return Drawn((sheet,), told.basis())


def _goes(told: Told, made: Lifting) -> Text:
    """Beside a plain go: at which mass, and from where on one asks."""
    mass = told.input(f"{made.at}/drive-mass", digits=3)
    try:
        _, to, _ = scale_marks(made)
    except NoBand:
        return text("for the drive at ", mass, ".")
    unit, step = made.task.scale
    kilos = 0.45359237 if unit == "lb" else 1.0
    name = f"held/{made.at}/scale/to"
    top = told.own(name, "mass", to * step * kilos, "bands of the scale, in whole marks", on_tool=unit, digits=max(len(str(int(to * step))), 1), with_unit=False)  # fmt: skip
    return text("for the drive at ", mass, "; lower and ask over ", top, f" {unit}.")


def _answer(told: Told, made: Lifting) -> Text:
    """The answer in one sentence."""
    if made.task.how == "forks":
        if made.forks is None:
            return text("On forks in a saddle, once the loader’s plate and its reach are known.")
        return text(
            f"The forks hold it {times(made.forks.at(0.05)).removesuffix(' ×')} times, low, strapped, in its saddle."
        )
    if not made.hangs:
        return text("How it will hang is not known: its legs are not all taped.")
    end, side = (math.degrees(made[f"lies.{name}"].middle()) for name in ("end_up", "side_up"))
    if abs(end) <= LEVEL and abs(side) <= LEVEL:
        return text("It will hang level, near enough for a plain spigot.")
    if abs(end) >= abs(side):
        return text("It will hang with its wheel end ", degrees(told, made, "lies.end_up", size=True), " up." if end > 0 else " down.")  # fmt: skip
    return text("It will hang turned by ", degrees(told, made, "lies.side_up", size=True), ", right side up." if side > 0 else ", right side down.")  # fmt: skip


def _deciding(told: Told, made: Lifting) -> tuple[Deciding, ...]:
    """The drive's mass, and the wheel's."""
    drive, wheel = made.task.drive, made.task.wheel

    def one(what: str, name: str, basis: str) -> Deciding:
        if basis == "assumed":
            shown = heaviest(told, made, name)
            likely = told.input(f"{made.at}/{name}", digits=3)
            return Deciding(number=text(shown), words=text(f"{what} at its heaviest; ", likely, " is likely"))
        how = "weighed" if basis == "measured" else "by its book" if basis == "book" else "reckoned"
        return Deciding(number=text(told.input(f"{made.at}/{name}", digits=3)), words=text(f"{what}, {how}"))

    found = [one("drive", "drive-mass", drive.mass.basis)]
    if wheel is not None:
        found.append(one("wheel", "wheel-mass", wheel.mass.basis))
    return tuple(found)


def _hook(told: Told, made: Lifting, walked: Walked | None) -> tuple[Section, ...]:
    if "hook" in made.refused or not made.hangs:
        note = refusal(made.refused["hook"], CALLS) if "hook" in made.refused else Note(words=text("Legs not taped yet: bearing point to bearing point, and where each bears on the drive."))  # fmt: skip
        wheel = wheel_on_forks(told, made)
        return (Section(heading="On the hook", blocks=(note,)), *((wheel,) if wheel else ()), *_listed(walked))
    side, end = on_the_hook(told, made)
    wheel = wheel_on_forks(told, made) if "wheel" in made.refused else None
    return (
        side,
        what_holds(told, made),
        *((wheel,) if wheel else ()),
        *(_listed(walked, "left") if walked is None else (trial_lift(),)),
        end,
        it_hangs(told, made),
        scale(told, made),
        legs(told, made),
    )


def _forks(told: Told, made: Lifting, walked: Walked | None) -> tuple[Section, ...]:
    wheel = wheel_on_forks(told, made, "right")
    hold = HoldPoint(
        lead="Before it is carried.",
        words=text("Raised a hand’s breadth: does it lie still, are the rear wheels firm on the ground? Over the sheet’s mass: put it down."),
        lines=("scale", "seen by"),
    )  # fmt: skip
    drawn = the_wheel(told, made) if "wheel" not in made.refused else None
    chart = by_load_centre(told, made)
    if chart is None and walked is not None:  # the walk-round's list is gone, and what the forks carry is not known
        rows = tuple(Line(label=label, unit=unit) for label, unit in ON_FORKS[:2])
        blocks = (Lines(lines=rows, stacked=True, ticked=True),)
        chart = Section(heading="Still to be read", aside="then draw up anew", place="right", blocks=blocks)
    return (
        in_the_saddle(told, made),
        Section(heading="Saddle", aside="timber", blocks=(Note(words=text(SADDLE)),)),
        *((drawn,) if drawn else ()),
        drive_on_forks(told, made),
        *((wheel,) if wheel else ()),
        *((chart,) if chart else ()),
        *(
            _listed(walked, rows=ON_FORKS)
            if walked is None
            else (Section(heading="Hold point", aside="two of you", place="right", blocks=(hold,)),)
        ),
    )


SADDLE = (
    "Two blocks across the forks, hollowed to the body or with wedges nailed on, on one base board; flange clear of the "
    "forks. Two straps, one each side of the centre of gravity, down to the forks. Oil drained, openings plugged."
)
LIST = (
    ("Tags, photo: hoist, hook, slings", "t"),
    ("Loader’s plate: rated, load centre", "kg, mm"),
    ("Drive weighed, or trial lift planned", "kg"),
    ("Oil drained, seen", "seen by"),
    ("Landing built, stands by itself", "seen by"),
    ("Hub under 80 °C, edges padded", "°C"),
    ("Floor under hoist: slab or plates", "seen by"),
)
ON_FORKS = (
    ("Loader’s plate: rated, load centre", "kg, mm"),
    ("Fork face to the drive’s middle", "mm"),
    ("Drive weighed, or trial lift planned", "kg"),
    ("Oil drained, seen", "seen by"),
    ("Saddle built, two straps, chain", "seen by"),
    ("Way out firm and level, nobody in it", "seen by"),
    ("Landing built, stands by itself", "seen by"),
)


def _listed(
    walked: Walked | None, place: Literal["left", "right"] = "right", rows: tuple[tuple[str, str], ...] = LIST
) -> tuple[Section, ...]:
    return (walk_round(rows, place),) if walked is None else ()


def _cautions(made: Lifting) -> tuple[Block, ...]:
    """Three, for hook or forks."""
    nobody = Caution(lead="Nobody under or between.", words=text("Tag line on, hands off the flange faces."))
    wheel = Caution(
        lead="A wheel off its hub lies flat", words=text("or is chained above its middle. It rolls, it tips, it kills.")
    )
    if made.task.how == "forks":
        straight = Caution(
            lead="Low, straight back, creeping.",
            words=text("Never turn an articulated loader with it. Firm level ground."),
        )
        return (nobody, straight, wheel)
    out = Caution(
        lead="Break out with jack bolts,",
        words=text("not the hoist. Pull 0.9 to 1.1 of the mass before the last two bolts."),
    )
    gear = Caution(lead="No farm chain, no tow strap,", words=text("no textile on a hot hub. Pad the rim. Wheel flat or chained."))  # fmt: skip
    return (nobody, out, gear)
