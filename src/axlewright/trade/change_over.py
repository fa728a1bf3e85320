"""What is looked at, or changed over, when a drive goes to a corner."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Literal

from axlewright.trade.rows import Row, rows

When = Literal["other-side", "from-outside", "always"]


class Over(Row):
    """One thing, when it must be seen to, and the answers of a design without which it need not."""

    id: str
    when: tuple[When, ...]
    words: str
    given: Mapping[str, tuple[str, ...]] = {}


@cache
def change_over() -> tuple[Over, ...]:
    """All of them, in the order of work."""
    return rows("change_over.toml", "over", Over)
