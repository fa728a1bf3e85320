"""Sheets as a pack: what it was made with, and the basis of every number on it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable

from axlewright import VERSION
from axlewright.plan.sheet.frame import Drawn
from axlewright.sheets import BasisEntry, Pack
from axlewright.trade.rows import digest


def pack(*drawn: Drawn) -> Pack:
    """One pack of these sheets, numbered through; its key is the digest of all that stands on it."""
    sheets = [sheet for one in drawn for sheet in one.sheets]
    basis: dict[str, BasisEntry] = {}
    for one in drawn:
        for name, entry in one.basis.items():
            if basis.setdefault(name, entry) != entry:
                raise ValueError(f"two numbers of one pack are called {name}")
    many = len(sheets)
    numbered = tuple(
        sheet.model_copy(update={"block": sheet.block.model_copy(update={"sheet": number, "of": many})})
        for number, sheet in enumerate(sheets, 1)
    )
    made = Pack(version=VERSION, trade=digest(), sheets=numbered, basis=basis)
    return made.model_copy(update={"key": hashlib.sha256(made.model_dump_json().encode()).hexdigest()[:16]})


def named(made: Pack) -> Iterable[str]:
    """The names of a pack's sheets."""
    return (sheet.name for sheet in made.sheets)
