"""The demo yard with bearings typed by hand, and the choice of its trouble made out."""

from __future__ import annotations

from datetime import UTC, date, datetime

from axlewright import desk, store
from axlewright.plan.choice_of import choice_task
from axlewright.plan.reckon.choice_forecast import workings_of
from axlewright.plan.reckon.choice_task import ChoiceTask
from axlewright.plan.workings import Workings
from axlewright.yard import Yard

TODAY = date(2026, 8, 28)
NOW = desk.Now(datetime(2026, 8, 28, 19, 5, tzinfo=UTC), "owner", lambda: "by-hand")
DEMO = store.Folder(store.DEMO).read()
PLAIN = 7  # a trouble of the demo yard at whose design nobody typed bearings; chips were seen
CLEAN = 8  # one of a forage harvester in whose oil nobody saw metal
TYPED = {
    "bearings/outboard-bore": "107 mm", "bearings/outboard-outside": "191 mm", "bearings/outboard-width": "49 mm",
    "bearings/inboard-bore": "88 mm", "bearings/inboard-outside": "157 mm", "bearings/inboard-width": "40 mm",
    "bearings/cup-distance": "122 mm", "bearings/footprint": "71 mm",
}  # fmt: skip


def with_answers(values: dict[str, str], trouble: int = CLEAN, basis: str = "measured") -> Yard:
    """The demo yard with these answers of one trouble."""
    deed = desk.typed(desk.Answers, DEMO, {"trouble": trouble, "values": values, "basis": basis, "on": TODAY})
    return DEMO.with_(desk.answer(DEMO, deed, NOW))


def task_with(values: dict[str, str], trouble: int = CLEAN, count: int = 512, basis: str = "measured") -> ChoiceTask:
    yard = with_answers(values, trouble, basis) if values else DEMO
    return choice_task(yard, yard.trouble(trouble), TODAY, 7, count)


def worked(values: dict[str, str], trouble: int = CLEAN, count: int = 512) -> Workings:
    return workings_of(task_with({**TYPED, **values}, trouble, count))
