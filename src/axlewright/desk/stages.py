"""A trouble came to another stage: judged, settled with a course, put by."""

from __future__ import annotations

from datetime import date
from typing import Any

from pydantic import Field

from axlewright.desk.now import Deed, Now, checked, may, record
from axlewright.plan.in_hand.due import checks_due
from axlewright.yard import COURSES, Change, Course, Fault, Faults, Stage, Yard, closest
from axlewright.yard.records import Line, Prose

SWAPS: tuple[Course, ...] = ("fit a spare", "fit a used drive", "fit a rebuilt exchange")
"""Courses after which another drive sits at the corner."""


class Reached(Deed):
    """A trouble, and what is to be said of the stage that it came to."""

    trouble: int = Field(ge=1, examples=[3])
    note: Prose = ""


class Settle(Reached):
    """The course that was taken."""

    course: Line = Field(examples=["fit a spare"])


def course_of(text: str) -> Course:
    """A course from its name as people type it: `fit a spare`, `fit-spare`.

    Raises:
        Faults: none of the nine
    """
    for course in COURSES:
        if _short(text) == _short(course):
            return course
    near = closest(text.replace("-", " "), COURSES)
    right = near if near.startswith("Did") else f"There is {', '.join(COURSES)}."
    raise Faults(Fault("course", f"There is no course {text}.", right))


def _short(text: str) -> str:
    return " ".join(word for word in text.casefold().replace("-", " ").split() if word not in ("a", "the"))


@may("owner")
def settle(yard: Yard, deed: Settle, now: Now) -> Change:
    """Take a course. The one that was taken already, and nothing since, is left as it is.

    Raises:
        Faults: no such trouble or course; it was put by
    """
    course, number = course_of(deed.course), yard.trouble(deed.trouble).number
    if yard.stage(number) == "settled" and yard.course(number) == course and not deed.note:
        return Change()
    return _stage(yard, deed, now, stage="settled", course=course)


@may("owner", "helper")
def judged(yard: Yard, deed: Reached, now: Now) -> Change:
    """The verdicts and the choice were made out.

    Raises:
        Faults: no such trouble; it was put by
    """
    return _stage(yard, deed, now, stage="judged")


@may("owner")
def put_by(yard: Yard, deed: Reached, now: Now) -> Change:
    """Close a trouble; nothing comes after it.

    Raises:
        Faults: no such trouble; it was put by before
    """
    return _stage(yard, deed, now, stage="put by")


def left_open(yard: Yard, number: int, today: date) -> tuple[str, ...]:
    """What a trouble still leaves open, in words, for whoever puts it by: nothing of it is refused, nothing goes unsaid."""
    trouble, found = yard.trouble(number), []
    course = yard.course(number)
    worked = any(one.stage in ("in hand", "set down") for one in yard.stages_of(number))
    if course in SWAPS and worked and not any(one.trouble == number for one in yard.moves):
        found.append(
            f"No drive was moved for it, though its course is {course}: move DRIVE {trouble.corner} says which."
        )
    due = checks_due(yard, trouble, today)
    if due:
        looks = f"{len(due)} after-check" + ("s run" if len(due) > 1 else " runs")
        found.append(f"{looks} still, and will fall due no more: {'; '.join(one.words for one in due)}.")
    drive = yard.drive_at(trouble.corner)
    if worked and drive and trouble.drive and drive.id != trouble.drive:
        out = yard.drive(trouble.drive)
        found.append(f"{out.name} came off and is on the {out.sits}: its own page and the Bench go on with it.")
    return tuple(found)


def _stage(yard: Yard, deed: Reached, now: Now, **says: Any) -> Change:
    number = yard.trouble(deed.trouble).number
    made = record(
        Stage,
        id=f"{deed.id or now.new_id()}-{says['stage'].replace(' ', '-')}",
        trouble=number,
        on=deed.day(yard, now),
        note=deed.note,
        who=now.who,
        at=now.after(s.at for s in yard.stages_of(number)),
        **says,
    )
    last = next((s for s in reversed(yard.stages_of(number)) if s.stage == "put by"), None)
    if last is not None and last.id != made.id:
        what = f"Trouble {number} was put by on {last.on}."
        raise Faults(Fault("trouble", what, "What is seen now at this corner opens a new one."))
    return checked(yard, (made,), now)
