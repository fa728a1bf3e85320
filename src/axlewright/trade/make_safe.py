"""Make safe as rows: the order of work, whom to ring, what must not be missed."""

from __future__ import annotations

from functools import cache

from axlewright.trade.rows import Row, rows
from axlewright.trade.verdicts import Pairs, Told


class Words(Row):
    """A line, with `{numbers}`."""

    words: str


class Caution(Row):
    """What must not be missed; always, or where one of these was seen."""

    lead: str
    words: str
    given: Pairs = {}


@cache
def order() -> tuple[Words, ...]:
    """What is done, in this order."""
    return rows("make_safe.toml", "order", Words)


@cache
def ring() -> tuple[Words, ...]:
    """Whom to ring: a line each to write the number on."""
    return rows("make_safe.toml", "ring", Words)


@cache
def cautions() -> tuple[Caution, ...]:
    return rows("make_safe.toml", "caution", Caution)


@cache
def numbers() -> tuple[Told, ...]:
    return rows("make_safe.toml", "number", Told)
