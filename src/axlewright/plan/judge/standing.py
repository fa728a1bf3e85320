"""How a corner stands between troubles: *not looked at (n days)*, or looked at and the least word for it."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from axlewright.plan.facts import Seen
from axlewright.plan.judge.grades import PROVED, is_proved, least_word
from axlewright.plan.judge.seen import is_fresh, standing_looks, state_of
from axlewright.trade.findings import Condition, findings
from axlewright.trade.looks import looks
from axlewright.trade.verdicts import lines


@dataclass(frozen=True, slots=True)
class Standing:
    """State of a corner. `days` since it turned into *not looked at*; None where nobody ever looked.

    `word` is the least that the findings allow, where it is worse than sound; a look that is fresh stands behind it,
    or a proof, which does not grow old.
    """

    looked: bool
    days: int | None
    word: Condition | None
    words: str


def standing(seen: Iterable[Seen]) -> Standing:
    """How a corner stands, from all that was seen there.

    It is looked at while one of level, plug, bolts, nuts, rock is fresh, and turns into *not looked at* on the day
    on which the freshest of them grew old.
    """
    seen = tuple(seen)
    state, stood = state_of(seen), standing_looks(seen)
    needs = lines()["ROAD"].needs
    looked = any(finding in state.fresh for finding in needs)
    fresh = [
        (one.finding, one.grade)
        for ones in stood.values()
        for one in ones
        if (one.finding, one.grade) in state.pairs and is_fresh(one)
    ]
    kept = [pair for pair in state.pairs if is_proved([pair])]
    least = least_word([*fresh, *kept])
    word = least if least != "sound" else None
    if looked:
        return Standing(True, None, word, PROVED if kept else word or "looked at")
    stale = [gone for finding in needs for one in stood.get(finding, ()) if (gone := days_stale(one)) is not None]
    days = math.floor(min(stale)) if stale else None
    words = "not looked at" if days is None else f"not looked at ({_days(days)})"
    return Standing(False, days, word if kept else None, f"{PROVED}; {words}" if kept else words)


def _days(days: int) -> str:
    return "since today" if days == 0 else "1 day" if days == 1 else f"{days} days"


def days_stale(seen: Seen) -> float | None:
    """Days since a look grew old; None where it has not, or nobody knows when.

    The day on which its hours ran out is taken from an even pace of work since the look.
    """
    look = looks()[findings()[seen.finding].look]
    if is_fresh(seen) or seen.days_ago is None:
        return None
    gone = [0.0]
    if look.fresh_days is not None:
        gone.append(seen.days_ago - look.fresh_days)
    if look.fresh_hours is not None and seen.hours_ago:
        gone.append(seen.days_ago * (1 - look.fresh_hours / seen.hours_ago))
    return max(gone)
