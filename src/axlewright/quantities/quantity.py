"""A quantity: a number with its name, kind, spread, basis and source."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias, get_args

from axlewright.kinds import Kind
from axlewright.quantities.spread import Spread

Basis: TypeAlias = Literal["book", "measured", "computed", "assumed"]
BASES: tuple[Basis, ...] = get_args(Basis)


@dataclass(frozen=True, slots=True)
class Quantity:
    """What is known of one number. Its name is a path that says whose it is: `drive-3/hours`, `season/rain`."""

    name: str
    kind: Kind
    spread: Spread
    basis: Basis
    source: str
    typed: str = ""  # as somebody typed it, where somebody did

    def __post_init__(self) -> None:
        if not self.name or not self.source:
            message = (
                f"a quantity has a name and a source: {self.name or 'without name'}, {self.source or 'without source'}"
            )
            raise ValueError(message)
        if self.basis not in BASES:
            message = f"{self.name}: the basis is one of {', '.join(BASES)}, not {self.basis!r}"
            raise ValueError(message)
