"""What a yard says to programs: the same rows for a command with --json, for the HTTP interface and for a spreadsheet."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from axlewright.plan.choice_made import Choice
from axlewright.plan.corners import corners
from axlewright.plan.first_look import FirstLook
from axlewright.plan.in_hand.due import Due
from axlewright.plan.in_hand.worked import Worked
from axlewright.plan.reckon.choice_worth import FindOut
from axlewright.plan.sheet import choice_words as say
from axlewright.render.show import Words
from axlewright.yard import Corner, Trouble, Yard

DIGITS = 6


def corners_said(yard: Yard, today: date) -> dict[str, Any]:
    """Every corner: how it stands, may it work, may it go on the road."""
    rows = [
        {
            "corner": str(one.corner),
            "drive": one.drive.id if one.drive else None,
            "stands": one.standing.words,
            "field": one.verdicts.field.word,
            "road": one.verdicts.road.word,
            "rows": list(one.verdicts.rows),
            "trouble": one.trouble.number if one.trouble else None,
        }
        for one in corners(yard, today)
    ]
    return {"yard": yard.title.name, "today": today.isoformat(), "corners": rows}


def due_said(yard: Yard, found: Sequence[Due], today: date) -> dict[str, Any]:
    rows = [
        {
            "id": one.id,
            "what": one.what,
            "corner": str(one.corner),
            "trouble": one.trouble,
            "look": one.look or None,
            "words": one.words,
            "at": one.at,
            "clock": one.clock if one.at is not None else None,
            "on": one.on.isoformat() if one.on else None,
            "hours_left": one.left,
            "expected": one.expected.isoformat() if one.expected else None,
            "state": one.state(today),
        }
        for one in found
    ]
    return {"yard": yard.title.name, "today": today.isoformat(), "due": rows}


def choice_said(choice: Choice, words: Words, number: int) -> dict[str, Any]:
    """The same for programs; money in the yard's own currency, chances as shares."""
    by = say.decide_by(choice)
    return {
        "trouble": number,
        "answer": words.plain(say.answer(choice, lettered=False)),
        "call": say.call(choice),
        "decide_by": by[0].isoformat() if by else None,
        "first_look": choice.look_first,
        "find_out": [_found(choice, one) for one in choice.found],
        "courses": [_course(choice, name) for name in (one.name for one in say.ordered(choice))],
    }


def _found(choice: Choice, one: FindOut) -> dict[str, Any]:
    return {
        "name": one.name.removesuffix("-found"),
        "words": say.find_out_name(one),
        "minutes": round(one.minutes, 1),
        "first": list(choice.before.get(one.name, ())),
        "worth": _cut(one.worth),
        "net": _cut(one.net),
        "then": [{"shows": shows, "chance": _cut(chance), "course": then} for shows, chance, then in one.then],
    }


def _course(choice: Choice, name: str) -> dict[str, Any]:
    """A course with its numbers; one that is struck out with why, and what would lift that, and no number."""
    one = next(made for made in choice.made.courses if made.name == name)
    if one.stopped:
        stop = choice.stops[name]
        return {"course": name, "stopped": True, "why": stop.why, "lifted_by": stop.lifted_by}
    return {
        "course": name,
        "stopped": False,
        "mean": _cut(one.mean),
        "lets_go": _cut(one.fails),
        "order_by": one.order_by.isoformat() if one.order_by else None,
        "too_late": one.too_late,
    }


def _cut(value: float) -> float:
    """Six digits: the last ones differ from processor to processor."""
    return float(f"{value:.{DIGITS}g}")


def look_said(look: FirstLook, words: Words, corner: Corner | None, trouble: int | None) -> dict[str, Any]:
    verdicts = [
        {"line": line.line, "word": line.word, "says": words.plain(line.words), "rows": list(verdict.rows)}
        for line, verdict in zip(look.lines, (look.field, look.road), strict=True)
    ]
    return {
        "corner": str(corner) if corner else None,
        "trouble": trouble,
        "verdicts": verdicts,
        "make_safe": look.make_safe,
        "answer": words.plain(look.answer),
        "means": look.outcome.means,
        "next": look.outcome.next,
        "call": look.call,
        "date": words.plain(look.date),
        "looks": [
            {
                "look": one.look.id,
                "minutes": one.look.minutes,
                "showed": list(one.shown),
                "would": {w.words: {"field": w.field, "road": w.road, "means": w.row.means} for w in one.would},
            }
            for one in look.looks
        ],
    }


def card_said(yard: Yard, trouble: Trouble, stands: Worked | None) -> dict[str, Any]:
    """The same for programs."""
    found: dict[str, Any] = {"trouble": trouble.number, "stage": yard.stage(trouble.number), "card": None}
    if stands is None:
        return found
    now = stands.now
    found["card"] = {"revision": stands.card.revision, "job": stands.card.job, "title": stands.job.title}
    found["at"] = (
        {"step": now.task.id, "number": stands.place(now.task.id)[1], "title": now.task.title} if now else None
    )
    found["wants"] = [{"reading": w.reading, "words": w.words} for w in stands.wants(now.task.id)] if now else []
    found["done"] = sum(step.task.id in stands.done for step in stands.cards[""])
    found["of"] = len(stands.cards[""])
    found["readings"] = [
        {"reading": one.reading, "value": one.typed, "says": one.says, "who": one.who} for one in stands.taken.values()
    ]
    return found


def machines_said(yard: Yard, today: date) -> dict[str, Any]:
    """Every machine with what its clocks read last."""
    rows = [
        {
            "id": one.id,
            "name": one.name,
            "kind": one.kind,
            "corners": [str(corner) for corner in one.at_corners()],
            "clocks": [
                {"clock": clock, "hours": stood.hours if (stood := yard.hours(one.id, today, clock)) else None}
                for clock in one.clocks
            ],
        }
        for one in yard.machines
    ]
    return {"machines": rows}


def drives_said(yard: Yard, today: date) -> dict[str, Any]:
    """Every drive: where it sits, and the hours that it ran itself."""
    rows = []
    for one in yard.drives:
        ran = yard.drive_hours(one, today)
        rows.append(
            {
                "id": one.id,
                "name": one.name,
                "design": one.design,
                "sits": str(one.sits),
                "since": one.since.isoformat() if one.since else None,
                "numbers": list(one.numbers),
                "hours": round(ran.hours, 3) if ran else None,
                "about": round(ran.about, 3) if ran else None,
            }
        )
    return {"drives": rows}


def trouble_row(yard: Yard, one: Trouble) -> dict[str, Any]:
    return {
        "number": one.number,
        "corner": str(one.corner),
        "drive": one.drive,
        "opened": one.opened.isoformat(),
        "stage": yard.stage(one.number),
        "course": yard.course(one.number),
    }


def readings_said(yard: Yard, one: Trouble) -> dict[str, Any]:
    """All readings of a trouble that stand, in the order in which they were taken."""
    keys = ("step", "reading", "value", "time", "hours", "clock", "taken", "who", "seen_by", "note")
    rows = [
        {**{key: getattr(reading, key) for key in keys}, "on": reading.on.isoformat()}
        for reading in yard.standing_readings
        if reading.trouble == one.number
    ]
    return {"trouble": one.number, "readings": rows}
