"""Sheets as a pack: what it was made with, and the basis of every number on it."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable

from axlewright import VERSION
from axlewright.plan.sheet.frame import Drawn
from axlewright.sheets import BasisEntry, Pack
from axlewright.trade.rows import digest


def pack(*drawn: Drawn, seed: int = 0, count: int = 0) -> Pack:
    """One pack of these sheets, numbered through; `seed` and `count` are those of its draws, where it has any."""
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
    return Pack(version=VERSION, trade=digest(), seed=seed, count=count, sheets=numbered, basis=basis)


def freeze(made: Pack) -> Pack:
    """The pack as it is kept: its numbers cut to six digits, under the key that its content gives it.

    `exp` and `log` differ in the last bit from processor to processor; cut, the same pack has the same bytes on all.
    """
    cut = json.loads(made.model_dump_json(exclude={"key"}), parse_float=six_digits)
    frozen = Pack.model_validate_json(json.dumps(cut))
    return frozen.model_copy(update={"key": key_of(frozen)})


def six_digits(text: str) -> float:
    return float(f"{float(text):.6g}")


def key_of(frozen: Pack) -> str:
    """The digest of all that a frozen pack holds, but its key."""
    return hashlib.sha256(frozen.model_dump_json(exclude={"key"}).encode()).hexdigest()[:16]


def named(made: Pack) -> Iterable[str]:
    """The names of a pack's sheets."""
    return (sheet.name for sheet in made.sheets)
