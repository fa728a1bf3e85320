"""A file looked through and taken in, over the demo yard."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from desk.in_hand import now

from axlewright import desk, store
from axlewright.desk import intake
from axlewright.desk.intake import Found, TakeIn
from axlewright.yard import Change, Yard

YARD = store.at(store.DEMO).read()


def look(data: str | bytes, name: str = "table.csv", yard: Yard = YARD, **said: Any) -> Found:
    raw = data.encode() if isinstance(data, str) else data
    return intake.look_through(yard, desk.typed(TakeIn, yard, {"name": name, **said}), now(), raw)


def takes(data: str | bytes, name: str = "table.csv", yard: Yard = YARD, **said: Any) -> Change:
    return intake.taken(look(data, name, yard, **said))


def wrong(found: Found) -> Mapping[int, str]:
    """What is wrong, by line."""
    return {one.line: f"{one.at}: {one.what} {one.right}" for one in found.wrong}
