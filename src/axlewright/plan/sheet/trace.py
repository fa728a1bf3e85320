"""Numbers of the workings on a sheet: each with its basis, and with all that it was made of."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from axlewright.plan.workings import Got, Workings
from axlewright.sheets import BasisEntry, Shown


def entry_of(got: Got, typed: str = "") -> BasisEntry:
    """What the basis says of a number: its middle, its careful ends where it varies, where it comes from."""
    low, high = got.ends()
    varies = low != high
    return BasisEntry(
        name=got.name,
        kind=got.kind.name,
        value=got.middle(),
        low=low if varies else None,
        high=high if varies else None,
        basis=got.basis,
        source=got.source,
        made_of=got.made_of,
        typed=typed,
    )


@dataclass(slots=True)
class Trace:
    """Shows numbers of one trouble's workings, and keeps the basis of each down to what was typed."""

    w: Workings
    entries: dict[str, BasisEntry] = field(default_factory=dict)

    def show(
        self,
        name: str,
        *,
        si: float | None = None,
        ends: bool = False,
        toward: Literal["nearest", "down", "up"] = "nearest",
        on_tool: str | None = None,
        digits: int = 3,
        with_basis: bool = False,
        with_unit: bool = True,
    ) -> Shown:
        """A number by its name: its middle, or one of its ends given as `si`; with both ends where they are asked for."""
        entry = self.keep(name)
        return Shown(
            name=name,
            si=entry.value if si is None else si,
            low=entry.low if ends else None,
            high=entry.high if ends else None,
            toward=toward,
            on_tool=on_tool,
            digits=digits,
            with_basis=with_basis,
            with_unit=with_unit,
        )

    def keep(self, name: str) -> BasisEntry:
        """The basis of a number, and of all that it was made of."""
        found = self.entries.get(name)
        if found is None:
            got = self.w[name]
            quantity = self.w.quantities.get(name)
            named = (one for part in got.made_of for one in parts_of(self.w, part))
            parts = tuple(one for one in named if _is_number(self.w[one]))
            entry = entry_of(got, quantity.typed if quantity else "")
            found = self.entries[name] = entry.model_copy(update={"made_of": parts})
            for part in parts:
                self.keep(part)
        return found


def parts_of(w: Workings, name: str) -> tuple[str, ...]:
    """A number by its name; the parts of one that was put together of named parts, and what a thing was worked out of."""
    if name not in w:
        return tuple(sorted(one for one in {*w.quantities, *w.got} if one.startswith(f"{name}.")))
    got = w[name]
    if _is_number(got) or not got.made_of:
        return (name,)
    return tuple(dict.fromkeys(one for part in got.made_of for one in parts_of(w, part)))


def _is_number(got: Got) -> bool:
    return getattr(got.draws, "dtype", None) is not None
