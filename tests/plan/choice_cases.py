"""A choice by hand: one crop, one drive, every number as it is asked for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from axlewright.kinds import KINDS
from axlewright.plan.reckon.choice_evidence import Witness
from axlewright.plan.reckon.choice_task import DAY, ChoiceTask, WorkAhead, age_of, taken
from axlewright.plan.steps.jobs import Here
from axlewright.quantities import Exact, Quantity, parse
from axlewright.trade.seasons import climates
from axlewright.yard import COURSES, Hours

TODAY = date(2026, 8, 1)


def given(name: str, kind: str, typed: str) -> Quantity:
    return Quantity(name, KINDS[kind], Exact(parse(typed, kind).si), "measured", "by hand", typed)


def task(
    seen: tuple[Witness, ...] = (),
    own: Mapping[str, Quantity] | None = None,
    courses: tuple[str, ...] = ("run", "run with checks", "fit a used drive", "rebuild now", "hire out"),
    starts: int = 14,
    count: int = 256,
    seed: int = 7,
) -> ChoiceTask:
    """A task of 60 ha that are ripe in so many days; prices and waits as the trade takes them, but for one's own."""
    quantities, none = taken(own or {})
    at = "season/crops.1"
    crop = [
        given(f"{at}.area", "area", "60 ha"),
        given(f"{at}.rate", "field-rate", "1.5 ha/h"),
        given(f"{at}.hours", "duration", "8 h"),
        given(f"{at}.worth", "area-price", "1000 /ha"),
        given(f"{at}.loss", "rate", "0.01 /d"),
    ]
    age = age_of(Hours(2500, "engine", 50))
    quantities |= {one.name: one for one in (*crop, age)}
    works = (WorkAhead("barley", starts, starts + 25, 3 * DAY, 15 * DAY, 0.6),)
    wanted = tuple(course for course in COURSES if course in courses)
    return ChoiceTask(TODAY, seen, quantities, none, works, climates()["ordinary"], wanted, Here(), Hours(2500, "engine", 50), seed=seed, count=count)  # fmt: skip


def with_seen(base: ChoiceTask, *seen: tuple[str, str]) -> ChoiceTask:
    return replace(base, seen=tuple(Witness(finding, grade, 0.0, 1) for finding, grade in seen))
