"""What falls due, as a calendar file: a day each, under an id that stays while the day moves."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, datetime

from axlewright.plan.choice_made import Choice
from axlewright.plan.drawn_up import chosen
from axlewright.plan.in_hand.due import Due
from axlewright.plan.sheet.choice_words import decide_by
from axlewright.plan.sheet.due import falls_due, told
from axlewright.render.ics import Event, calendar
from axlewright.yard import Yard
from axlewright.yard.hours import spell


def calendar_of(yard: Yard, today: date, made: datetime, decide: Mapping[int, date] | None = None) -> bytes:
    """The calendar of a yard: after-checks and dates to decide by.

    A look that falls due by the clock stands on the day by which the clock may read so, at the pace of the last weeks;
    its words say the reading, which counts.
    """
    due = [one for one in falls_due(yard, today, decide) if one.what != "look"]
    events = [made_event for one in due if (made_event := event(yard, one, today))]
    return calendar(f"Due, {yard.title.name}", events, made)


def decisions(yard: Yard, today: date) -> dict[int, date]:
    """The date to decide by of each trouble for which no course was taken; some seconds each, the first time."""
    found = {}
    for trouble in yard.troubles:
        if yard.stage(trouble.number) not in ("seen", "judged"):
            continue
        choice = chosen(yard, trouble, today)
        by = decide_by(choice) if isinstance(choice, Choice) else None
        if by:
            found[trouble.number] = by[0]
    return found


def event(yard: Yard, due: Due, today: date) -> Event | None:
    """One thing that falls due; None where nobody can say on which day."""
    day = due.day or (today if due.stops else None)
    if day is None:
        return None
    at = f"{spell(due.at)} h on the {due.clock} clock" if due.at is not None else ""
    where = told(yard, due)
    name = where.split(",")[0]
    summary = f"{name}: {due.words}" + (f", at {spell(due.at)} h" if due.at is not None else "")
    counts = "" if due.on or not at else "The clock reading counts, not this day: it may come sooner."
    said = [f"Due at {at}." if at else "", counts, f"Trouble {due.trouble}." if due.trouble else ""]
    return Event(f"{due.id}@{_yard_id(yard)}", max(day, today), summary, " ".join(filter(None, said)), where)


def _yard_id(yard: Yard) -> str:
    return (re.sub(r"[^a-z0-9]+", "-", yard.title.name.lower()).strip("-") or "yard") + ".axlewright"
