"""What needs somebody in a yard, in order of what waiting can do."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from axlewright.plan.corners import CornerNow
from axlewright.plan.in_hand.due import Due, checks_due
from axlewright.yard import Corner, StageName, Yard

NEVER = 9999  # days: nobody ever looked
COUNT = {2: "Two", 3: "Three", 4: "Four", 5: "Five", 6: "Six", 7: "Seven", 8: "Eight", 9: "Nine"}
DO = {"stop": "make it safe", "check": "the after-check", "trouble": "go on with it", "look": "take a first look"}
NEXT: dict[StageName, str] = {
    "seen": "Find out what it is, then settle it.",
    "judged": "Settle it: take a course.",
    "settled": "Draw up its sheets.",
    "drawn up": "Walk round, then begin the step card.",
    "in hand": "Go on by the step card.",
}
"""What a trouble wants next, by the stage that it has come to; later ones want their after-checks when those are due."""


@dataclass(frozen=True, slots=True)
class Need:
    """Something that wants somebody: what, where, in words, until when, and the page on which it is done."""

    what: str
    corner: Corner
    words: str
    when: str
    to: str
    waits: int = 0  # days: of two of a kind the longer one comes first


def needs(yard: Yard, found: tuple[CornerNow, ...], today: date) -> tuple[Need, ...]:
    """Stopped corners, after-checks that are due, troubles that run, then corners that nobody looked at for longest."""
    order = list(DO)
    made = [*_stopped(found), *_checks(yard, found, today), *_running(yard, found), *_unseen(found)]
    return tuple(sorted(made, key=lambda need: (order.index(need.what), -need.waits)))


def _stopped(found: tuple[CornerNow, ...]) -> list[Need]:
    return [
        Need("stop", now.corner, f"{_large(now.standing.word or 'stopped')}: make it safe.", "today", address(now))
        for now in found
        if now.verdicts.unsafe
    ]  # fmt: skip


def _checks(yard: Yard, found: tuple[CornerNow, ...], today: date) -> list[Need]:
    made = []
    for now in found:
        if now.trouble and not now.verdicts.unsafe:
            due = [one for one in checks_due(yard, now.trouble, today) if one.state(today) != "ahead"]
            made += [_check(one, today) for one in due[:1]]
    return made


def _check(due: Due, today: date) -> Need:
    when = {"overdue": "overdue", "today": "today"}[due.state(today)]
    words = f"{_large(due.words)}."
    return Need("check", due.corner, words, when, f"/trouble/{due.trouble}/after/{due.look}", int(when == "overdue"))


def _running(yard: Yard, found: tuple[CornerNow, ...]) -> list[Need]:
    return [
        Need(
            "trouble",
            now.corner,
            f"Field {now.verdicts.field.word}, road {now.verdicts.road.word}. {NEXT[yard.stage(now.trouble.number)]}",
            f"trouble {now.trouble.number}",
            address(now),
        )
        for now in found
        if now.trouble
        and not now.verdicts.unsafe
        and yard.stage(now.trouble.number) in NEXT
        and (now.verdicts.field.word, now.verdicts.road.word) != ("yes", "yes")
    ]


def _unseen(found: tuple[CornerNow, ...]) -> list[Need]:
    return [
        Need("look", now.corner, f"{_large(now.standing.words)}. First look, half an hour.",
             "this season", address(now), NEVER if now.standing.days is None else now.standing.days)
        for now in found
        if not now.trouble and not now.verdicts.unsafe and not now.standing.looked
    ]  # fmt: skip


def _large(words: str) -> str:
    return words[:1].upper() + words[1:]


def address(now: CornerNow) -> str:
    """The page that speaks of a corner: its trouble, or a first look there."""
    return f"/trouble/{now.trouble.number}" if now.trouble else f"/?corner={now.corner}"


def answer(yard: Yard, asks: tuple[Need, ...]) -> str:
    """The whole yard in one sentence."""
    if not yard.machines:
        return "No machine in this yard yet."
    if not asks:
        return "Nothing is waiting. A look grows old by hours and days."
    first = asks[0]
    many = "One thing" if len(asks) == 1 else f"{COUNT.get(len(asks), str(len(asks)))} things"
    return f"{many} to do. First {yard.named(first.corner)}: {DO[first.what]}."
