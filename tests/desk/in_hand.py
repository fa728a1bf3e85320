"""A trouble of the demo yard brought to where its step card may be begun, and ways to work by it."""

from __future__ import annotations

import itertools
from datetime import UTC, datetime, timedelta
from functools import cache
from typing import Any

from axlewright import desk, store
from axlewright.plan.in_hand.worked import Worked, worked
from axlewright.yard import Change, Yard
from axlewright.yard.asked import open_boxes

EVENING = datetime(2026, 8, 28, 19, 5, tzinfo=UTC)
NUMBERS = itertools.count()
FIGURES = {
    "twin": "30.5",
    "nut-window": "480 to 520",
    "engagement": "8",
    "torque-window": "340 to 380",
    "mass": "390",
    "fill": "11",
    "play-window": "0.1 to 0.2",
}


def now(who: str = "owner", later: int = 0) -> desk.Now:
    return desk.Now(EVENING + timedelta(minutes=later), who, lambda: f"n{next(NUMBERS)}")


@cache
def walked_round(trouble: int = 6, course: str = "") -> Yard:
    """The demo yard, one trouble settled and walked round."""
    yard = store.at(store.DEMO).read()
    if course:
        yard = yard.with_(desk.settle(yard, desk.Settle(trouble=trouble, course=course), now()))
    while left := open_boxes(yard, yard.trouble(trouble)):
        deed = desk.WalkedRound(trouble=trouble, values={asked.id: asked.example for asked in left})
        yard = yard.with_(desk.walk_round(yard, deed, now("owner and helper")))
    return yard


@cache
def card_begun(trouble: int = 6, course: str = "") -> Yard:
    yard = walked_round(trouble, course)
    return yard.with_(desk.begin_card(yard, desk.BeginCard(trouble=trouble), now()))


def of(yard: Yard, trouble: int = 6) -> Worked:
    found = worked(yard, yard.trouble(trouble))
    assert found
    return found


def take(yard: Yard, trouble: int = 6, who: str = "owner", **more: Any) -> Change:
    values = {name.replace("__", "-"): value for name, value in more.pop("values", {}).items()}
    return desk.take_reading(yard, desk.Take(trouble=trouble, values=values, **more), now(who))


def step(yard: Yard, name: str, seen_by: str = "", trouble: int = 6, who: str = "owner") -> Change:
    return desk.do_step(yard, desk.DoStep(trouble=trouble, step=name, seen_by=seen_by), now(who))


def fitting(stands: Worked, reading: str) -> dict[str, str]:
    """A value that its band goes on with, and the figure it hangs on where nobody wrote that."""
    figure, row = stands.figure_of(reading), stands.rows.band.get(reading)
    found = {figure: FIGURES[figure]} if figure else {}
    if row and row.words_go:
        return {**found, reading: row.words_go[0]}
    if figure:
        return {**found, reading: FIGURES[figure].split(" to ")[0]}
    band = stands.bands.get(reading)
    if band is None:
        return {**found, reading: "yes" if stands.rows.reading[reading].unit == "yes or no" else "5"}
    edge = next((marks for marks in band.go if marks is not None), 0)
    return {**found, reading: f"{band.value(edge):g}"}


def work_to(yard: Yard, last: str, trouble: int = 6) -> Yard:
    """Every step before one, each with readings that fit and a second look."""
    while (stands := of(yard, trouble)).now is not None and stands.now.task.id != last:
        at = stands.now.task
        values: dict[str, str] = {}
        for reading in stands.readings_at(at):
            if reading not in stands.taken or stands.taken[reading].says not in ("go on", None):
                values |= fitting(stands, reading)
        if values:
            yard = yard.with_(take(yard, trouble, step=at.id, values=values))
        yard = yard.with_(step(yard, at.id, "helper" if at.hold else "", trouble))
    return yard
