"""What falls due, as a calendar file: a day each, under an id that stays while the day moves."""

from __future__ import annotations

import uuid
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

from axlewright.plan.due_dates import made_out
from axlewright.plan.in_hand.checks import checks_of, next_check
from axlewright.plan.in_hand.due import DecideBy, Decides, Due
from axlewright.plan.sheet.due import falls_due, told
from axlewright.plan.sheet.revisions import corner_words
from axlewright.render.ics import Event, calendar
from axlewright.yard import Record, Trouble, Yard
from axlewright.yard.hours import spell

SPACE = uuid.uuid5(uuid.NAMESPACE_OID, "axlewright due")
OVER_STAYS = timedelta(days=60)
"""How long what is over still stands in the file, as cancelled: long enough for whoever takes it in once a month."""
BEFORE_A_COURSE = ("seen", "judged")


def calendar_of(yard: Yard, today: date, decide: Decides | None = None) -> bytes:
    """The calendar of a yard: after-checks and dates to decide by. The same yard on the same day gives the same bytes.

    A look that falls due by the clock stands on the day by which the clock may read so, at the pace of the last weeks;
    its words say the reading, which counts.
    """
    due = [one for one in falls_due(yard, today, decide) if one.what != "look"]
    news = bearing(yard)
    events = [made for one in due if one.trouble and (made := event(yard, one, today, news[one.trouble]))]
    ahead = {one.uid for one in events}
    return calendar(
        f"Due, {yard.title.name}", [*events, *(one for one in over(yard, today, news) if one.uid not in ahead)]
    )


def decisions(yard: Yard, today: date) -> dict[int, DecideBy]:
    """The date to decide by of each trouble, and to begin the course taken; part of a second each, the first time."""
    return made_out(yard, today)


def event(yard: Yard, due: Due, today: date, news: Bearing) -> Event | None:
    """One thing that falls due; None where nobody can say on which day."""
    day = due.day or (today if due.stops else None)
    if day is None or due.trouble is None:
        return None
    at = f"{spell(due.at)} h on the {due.clock} clock" if due.at is not None else ""
    where = told(yard, due)
    name = where.split(",")[0]
    summary = f"{name}: {due.words}" + (f", at {spell(due.at)} h" if due.at is not None else "")
    counts = "" if due.on or not at else "The clock reading counts, not this day: it may come sooner."
    said = [f"Due at {at}." if at else "", counts, f"Trouble {due.trouble}."]
    trouble = yard.trouble(due.trouble)
    by_today = due.on is None or day < today  # a day that is reckoned from today, or put off to it, was revised today
    changed = max(news.changed, _midnight(today)) if by_today else news.changed
    return Event(
        uid_of(trouble, due.look or due.what),
        max(day, today),
        summary,
        changed,
        news.count + max((today - trouble.opened).days, 0),
        " ".join(filter(None, said)),
        where,
    )


def over(yard: Yard, today: date, bears: Mapping[int, Bearing]) -> Iterator[Event]:
    """What fell due and does so no more: looks at the end of their list, all of a trouble put by, courses taken."""
    for trouble in yard.troubles:
        stages = yard.stages_of(trouble.number)
        where, news = corner_words(yard, trouble.corner), bears[trouble.number]
        put_by = next((one.on for one in reversed(stages) if one.stage == "put by"), None)
        ended = [
            (check.look, check.says, put_by or done.made[-1].on)
            for check in checks_of(yard, trouble.number)
            if ((done := next_check(yard, trouble, check, today)).over and done.made) or put_by
        ]
        settled = next((one.on for one in reversed(stages) if one.stage == "settled"), put_by)
        if settled and yard.stage(trouble.number) not in BEFORE_A_COURSE:
            ended.append(("decide", "take a course", settled))
        for what, words, on in ended:
            if on <= today <= on + OVER_STAYS:
                count = news.count + max((on - trouble.opened).days, 0)
                words = f"{where.split(',')[0]}: {words}"
                yield Event(uid_of(trouble, what), on, words, news.changed, count, f"Trouble {trouble.number}.", where, over=True)  # fmt: skip


def uid_of(trouble: Trouble, what: str) -> str:
    """The id of what falls due, out of the record of its trouble alone: a yard may be renamed, a machine too."""
    return str(uuid.uuid5(SPACE, f"{trouble.id} {trouble.number} {trouble.corner} {trouble.opened} {what}"))


@dataclass(frozen=True, slots=True)
class Bearing:
    """The records that the days of a trouble hang on: how many there are, and when the newest was kept."""

    count: int
    changed: datetime


def bearing(yard: Yard) -> Mapping[int, Bearing]:
    """By trouble all that was written of it, and what its machine's clocks read."""
    mine: dict[int, list[Record]] = {one.number: [one] for one in yard.troubles}
    told: tuple[Record, ...] = (*yard.stages, *yard.answers, *yard.findings)
    for record in (*told, *yard.step_cards, *yard.readings, *yard.after_checks):
        number: int | None = getattr(record, "trouble", None)
        if number in mine:
            mine[number].append(record)
    clocks: dict[str, list[Record]] = defaultdict(list)
    for read in yard.clock_readings:
        clocks[read.machine].append(read)
    return {
        one.number: Bearing(len(all_of), max(map(_kept, all_of)))
        for one in yard.troubles
        if (all_of := [*mine[one.number], *clocks[one.corner.machine]])
    }


def _kept(one: Record) -> datetime:
    """When a record was kept; one that was written by hand says only of which day it is."""
    day: date | None = getattr(one, "on", None) or getattr(one, "opened", None)
    return one.at or _midnight(day or date.min.replace(year=1970))


def _midnight(day: date) -> datetime:
    return datetime.combine(day, time(), UTC)
