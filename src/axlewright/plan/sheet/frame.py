"""What all sheets of a pack share: what stands in the title block, and the numbers with their basis."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from axlewright.sheets import BasisEntry, Grade, Revision, Run, Sheet, Shown, Text, TitleBlock

Basis = Literal["book", "measured", "computed", "assumed"]


@dataclass(frozen=True, slots=True)
class Frame:
    """What the title blocks and heads of a pack's sheets say. Empty fields stay to be written in."""

    corner: str = ""  # machine and corner
    trouble: str = ""
    revision: str = ""
    on: date | None = None
    yard: str = ""
    made_by: str = ""
    checked_by: str = ""
    grade: Grade | None = None
    revisions: tuple[Revision, ...] = ()

    def head(self, title: str) -> Text:
        """The line on top of a sheet: what it is, and of which corner."""
        return (Run(voice="strong", words=(title,)), *((f" · {self.corner}",) if self.corner else ()))

    def block(self, title: str, sheet: int = 1, of: int = 1) -> TitleBlock:
        """The title block of a sheet."""
        return TitleBlock(
            title=title,
            corner=self.corner,
            trouble=self.trouble,
            sheet=sheet,
            of=of,
            revision=self.revision,
            on=self.on,
            yard=self.yard,
            made_by=self.made_by,
            checked_by=self.checked_by,
        )


@dataclass(frozen=True, slots=True)
class Number:
    """A number from outside the work's own rows: SI, with its ends, basis and source; `tool`: the unit it is read in."""

    name: str
    kind: str
    si: float
    basis: Basis
    source: str
    low: float | None = None
    high: float | None = None
    tool: str = ""
    digits: int = 0  # shown; 0: as the sheet has it


@dataclass(slots=True)
class Numbers:
    """The numbers that sheets show: each stands once in the pack's basis, under its name."""

    entries: dict[str, BasisEntry] = field(default_factory=dict)

    def show(
        self,
        number: Number,
        *,
        on_tool: str | None = None,
        digits: int = 3,
        toward: Literal["nearest", "down", "up"] = "nearest",
        ends: bool = False,
        with_basis: bool = True,
        with_unit: bool = True,
    ) -> Shown:
        """The number as it stands in a text; its entry is kept.

        Raises:
            ValueError: another number of this name is shown already
        """
        entry = BasisEntry(
            name=number.name,
            kind=number.kind,
            value=number.si,
            low=number.low,
            high=number.high,
            basis=number.basis,
            source=number.source,
        )
        if self.entries.setdefault(number.name, entry) != entry:
            raise ValueError(f"two numbers of one pack are called {number.name}")
        low, high = (number.low, number.high) if ends else (None, None)
        return Shown(
            name=number.name,
            si=number.si,
            low=low,
            high=high,
            toward=toward,
            on_tool=on_tool or number.tool or None,
            digits=number.digits or digits,
            with_basis=with_basis,
            with_unit=with_unit,
        )

    def told(self, parts: Sequence[str | Number], *, with_basis: bool = True) -> Text:
        """Words and numbers as a text."""
        return tuple(one if isinstance(one, str) else self.show(one, with_basis=with_basis) for one in parts)


@dataclass(frozen=True, slots=True)
class Drawn:
    """Sheets drawn up, and the basis of every number on them."""

    sheets: tuple[Sheet, ...]
    basis: dict[str, BasisEntry]
