"""Housings and flanges: the metals that a bolt is screwed into or clamps."""

from __future__ import annotations

from functools import cache

from pydantic import model_validator

from axlewright.quantities.units import NotRead
from axlewright.trade.rows import Row, rows
from axlewright.trade.si import Stress
from axlewright.trade.threads import Known

EXAMPLE = "what the housing is made of: grey iron 250, ductile iron 400, mild steel 235, or unknown"


class Iron(Row):
    """A metal: least tensile strength, shear over tensile of its threads, modulus, limit of pressure [Pa]."""

    id: str
    label: str
    also: tuple[str, ...] = ()
    tensile: Stress
    tensile_low: Stress = 0.0
    tensile_high: Stress = 0.0
    shear_low: float
    shear_likely: float
    shear_high: float
    modulus: Stress
    pressure: Stress
    known: Known

    @model_validator(mode="after")
    def _rising(self) -> Iron:
        if not self.shear_low <= self.shear_likely <= self.shear_high:
            raise ValueError("shear ratios rise from low to high")
        if (self.tensile_low or self.tensile_high) and not self.tensile_low <= self.tensile <= self.tensile_high:
            raise ValueError("the likely tensile strength lies between its ends")
        return self


@cache
def irons() -> dict[str, Iron]:
    """All metals by id."""
    return {row.id: row for row in rows("irons.toml", "iron", Iron)}


def iron(typed: str) -> Iron:
    """A metal from what people call it.

    Raises:
        NotRead: no such metal
    """
    word = " ".join(typed.strip().lower().split())
    for row in irons().values():
        if word in (row.id, row.id.replace("-", " "), row.label.lower(), *row.also):
            return row
    raise NotRead(typed, EXAMPLE, tuple(row.label for row in irons().values()), "no such metal is known")
