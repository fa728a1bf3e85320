"""What is on the threads and under the heads, and the friction it gives."""

from __future__ import annotations

from functools import cache

from axlewright.quantities.units import NotRead
from axlewright.trade.rows import Row, rows
from axlewright.trade.threads import Known

EXAMPLE = "what is on it: anti-seize, moly paste, engine oil, as received, used dry, or rust"


class Condition(Row):
    """A state of threads or heads and its nut factor."""

    id: str
    label: str
    also: tuple[str, ...] = ()
    word: str
    nut_factor: float
    log_sd: float
    greased: bool
    usual: bool = False
    new: bool = False
    clean_first: bool = False
    known: Known


class FrictionClass(Row):
    """A friction class: least and greatest friction."""

    id: str
    low: float
    high: float
    what: str
    known: Known


class Scatter(Row):
    """How a nut factor's spread splits into job and bolt."""

    job: float
    bolt: float
    known: Known


@cache
def conditions() -> dict[str, Condition]:
    """All states by id, the most slippery first."""
    return {row.id: row for row in rows("lubricants.toml", "condition", Condition)}


@cache
def friction_classes() -> dict[str, FrictionClass]:
    return {row.id: row for row in rows("lubricants.toml", "friction_class", FrictionClass)}


@cache
def scatter() -> Scatter:
    return rows("lubricants.toml", "scatter", Scatter)[0]


def condition(typed: str) -> Condition:
    """A state from what people call it.

    Raises:
        NotRead: no such state
    """
    word = " ".join(typed.strip().lower().replace("_", " ").split())
    for row in conditions().values():
        if word in (row.id, row.id.replace("-", " "), row.label.lower(), *row.also):
            return row
    raise NotRead(typed, EXAMPLE, tuple(row.label for row in conditions().values()), "no such state is known")
