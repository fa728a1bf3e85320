"""Dates to decide by, as far as the choices are made out: a page asks what is known, a command has all of it made out.

A choice takes a good part of a second, its date is one line: the dates are kept by what the choice was reckoned from.
"""

from __future__ import annotations

import math
from datetime import date, timedelta
from threading import Lock

from axlewright.engines.season import DAY
from axlewright.plan.choice_made import Choice, choice_of
from axlewright.plan.choice_of import is_chosen
from axlewright.plan.corners import corners
from axlewright.plan.draws_of import COUNT, seed_of
from axlewright.plan.in_hand.due import DecideBy
from axlewright.plan.once import KeptOfYard
from axlewright.plan.reckon.choice import slug
from axlewright.plan.sheet.choice_words import decide_by
from axlewright.plan.workings import Refused
from axlewright.yard import Course, Trouble, Yard

BEFORE_A_COURSE = ("seen", "judged")
NOTHING_TO_BEGIN = ("run", "run with checks", "park")

_KEPT: KeptOfYard[dict[int, DecideBy | None]] = KeptOfYard()
"""The dates of a picture and a day, by the number of the trouble."""
_ONE = Lock()  # one choice at a time: they share what they keep


def asked(yard: Yard, today: date) -> tuple[Trouble, ...]:
    """The troubles that have a choice to make or a course to begin, the one whose work is ripe first on top.

    Where FIELD is not known no course is chosen before the First look, which is due anyway.
    """
    dark = {now.corner for now in corners(yard, today) if now.verdicts.field.word == "not known"}
    found = [
        one
        for one in yard.troubles
        if is_chosen(yard, one, today) and not (one.corner in dark and yard.stage(one.number) in BEFORE_A_COURSE)
    ]
    return tuple(sorted(found, key=lambda one: (yard.work_of(one.corner.machine, today)[0][0].starts, one.number)))


def known(yard: Yard, today: date) -> tuple[dict[int, DecideBy], tuple[Trouble, ...]]:
    """The dates that are made out already, and the troubles whose are not. It reckons nothing."""
    kept = _KEPT.get(yard, today, dict)
    dates, missing = {}, []
    for one in asked(yard, today):
        if one.number not in kept:
            missing.append(one)
        elif found := kept[one.number]:
            dates[one.number] = found
    return dates, tuple(missing)


def made_out(yard: Yard, today: date, most: int | None = None) -> dict[int, DecideBy]:
    """All dates; some part of a second for each that nobody asked for yet, and at most so many of those."""
    with _ONE:
        kept = _KEPT.get(yard, today, dict)
        for one in known(yard, today)[1][:most]:
            kept[one.number] = _of(yard, one, today)
    return known(yard, today)[0]


def _of(yard: Yard, trouble: Trouble, today: date) -> DecideBy | None:
    """Before a course is taken the day after which something worth having drops out; then the day to begin it."""
    try:
        choice = choice_of(yard, trouble, today, seed_of(trouble), COUNT)
    except Refused:
        return None
    if choice is None:
        return None
    if yard.stage(trouble.number) in BEFORE_A_COURSE:
        by = decide_by(choice)
        return DecideBy(by[0], "take a course") if by else None
    return _begin(choice, yard.course(trouble.number), today)


def _begin(choice: Choice, taken: Course | None, today: date) -> DecideBy | None:
    """The last day to begin the course taken, so that the machine is ready for its first crop nine seasons in ten."""
    if taken is None or taken in NOTHING_TO_BEGIN:
        return None
    name = f"{slug(taken)}/in-time.takes"
    if name not in choice.made.w:  # the course taken is struck out, or cannot be reckoned: no day makes it ready
        return None
    takes = choice.made.w[name].middle()
    ready = choice.made.need_by
    if choice.made.begun:
        return DecideBy(today, f"{taken}: the crop is ripe, and each day costs")
    if not math.isfinite(takes):
        return DecideBy(
            today, f"{taken}: not ready by {ready.day} {ready:%B}, 9 seasons in 10; ask, or take another course"
        )
    on = ready - timedelta(days=math.ceil(takes / DAY))
    if on < today:
        return DecideBy(today, f"{taken}: begin now; ready by {ready.day} {ready:%B} in fewer than 9 seasons of 10")
    return DecideBy(on, f"{taken}: begin it, to be ready by {ready.day} {ready:%B}")
