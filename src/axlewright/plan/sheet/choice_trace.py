"""Numbers of a choice on its sheets: made of all that went in, through whatever structures lie between."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from axlewright.plan.sheet.trace import Trace, parts_of
from axlewright.plan.workings import Got
from axlewright.quantities import careful
from axlewright.sheets import BasisEntry


@dataclass(slots=True)
class ChoiceTrace(Trace):
    """Shows numbers of a choice: of each the quantities that it was made of stand in the basis."""

    reached: dict[str, tuple[str, ...]] = field(default_factory=dict)

    def keep(self, name: str) -> BasisEntry:
        """The basis of a number, and of the quantities that it was made of."""
        found = self.entries.get(name)
        if found is None:
            got = self.w[name]
            typed = self.w.quantities.get(name)
            parts = tuple(sorted(set(self._inputs(got)) - {name}))
            found = self.entries[name] = entry_of(got, parts, typed.typed if typed else "")
            for part in parts:
                self.keep(part)
        return found

    def _inputs(self, got: Got) -> Iterator[str]:
        """The quantities that a number hangs on, each once."""
        for part in got.made_of:
            if part not in self.reached:
                self.reached[part] = tuple(dict.fromkeys(self._named(part)))
            yield from self.reached[part]

    def _named(self, part: str) -> Iterator[str]:
        if part in self.w.quantities:
            yield part
            return
        for name in parts_of(self.w, part):
            if name in self.w.quantities:
                yield name
            elif name in self.w.got:
                yield from self._inputs(self.w.got[name])


def entry_of(got: Got, made_of: tuple[str, ...], typed: str) -> BasisEntry:
    """What the basis says of a number; an end that never comes is left out."""
    draws = np.asarray(got.draws, float)
    inside = draws[np.isfinite(draws)]
    low, high = careful(inside, "low"), careful(inside, "high")
    return BasisEntry(
        name=got.name,
        kind=got.kind.name,
        value=float(np.median(inside)),
        low=low if low != high else None,
        high=high if low != high else None,
        basis=got.basis,
        source=got.source,
        made_of=made_of,
        typed=typed,
    )
