"""What a look through a file found: what would come new, what is wrong on which line, and what must be said first."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated

from pydantic import Field

from axlewright.desk.intake.cells import Dates, Decimal
from axlewright.desk.now import Blank, Deed
from axlewright.trade.take_in import TableName
from axlewright.yard import Change, Clock, Fault, Faults
from axlewright.yard.records import Line

NOTHING = Change()
MOST_SAID = 20  # mistakes that anyone reads at once


class TakeIn(Deed):
    """A file of others, and what was said about it where the file itself leaves it open.

    `columns`: by our name of a column its header, or `-` for none; `units`: by our name of a column its unit;
    `new_clock`: lines on which a new clock begins; `leave_out`: lines with mistakes are left out, the others kept.
    """

    name: Line = Field(examples=["hours.csv"])
    table: Annotated[TableName | None, Blank] = Field(None, examples=["hours"])
    decimal: Annotated[Decimal | None, Blank] = Field(None, examples=[","])
    dates: Annotated[Dates | None, Blank] = Field(None, examples=["day-first"])
    columns: dict[str, Line] = Field({}, examples=[{"machine": "Unit"}])
    units: dict[str, Line] = Field({}, examples=[{"rain": "mm"}])
    machine: Line = Field("", examples=["bramble"])
    drive: Line = Field("", examples=["bramble-left"])
    station: Line = Field("", examples=["Low Meadow"])
    clock: Annotated[Clock | None, Blank] = Field(None, examples=["engine"])
    new_clock: tuple[int, ...] = Field((), examples=[[7]])
    leave_out: bool = False


@dataclass(frozen=True, slots=True)
class Ask:
    """A question that the file leaves open. `name` is the field of `TakeIn`, with a point before a part of it."""

    name: str
    says: str
    choices: tuple[str, ...] = ()

    def option(self) -> str:
        """How it is answered on the command line."""
        first, _, part = self.name.partition(".")
        words = {"columns": f"--column {part}=HEADER", "units": f"--unit {part}=UNIT"}
        return words.get(first, f"--{first.replace('_', '-')} {first.upper()}")


@dataclass(frozen=True, slots=True)
class Wrong:
    """What is wrong on a line; `at` is the header of the column, or empty."""

    line: int
    at: str
    what: str
    right: str = ""
    new_clock: bool = False
    """It may be right after all, if a new clock was fitted."""

    def fault(self) -> Fault:
        return Fault(f"line {self.line}" + (f", {self.at}" if self.at else ""), self.what, self.right)


@dataclass(frozen=True, slots=True)
class Comes:
    """What one line brings: in words, for whom looks through it first."""

    line: int
    says: str


@dataclass(frozen=True)
class Found:
    """A file as it was looked through.

    Attributes:
        name: of the file
        table: which of our tables it is
        told: how it was read, sentence by sentence
        change: what would be kept; nothing while anything is wrong or asked
        comes: line by line, what it brings
        already: how many lines say what is kept already
        wrong: what is wrong, line by line
        asks: what must be said before it can be read
        left_out: how many lines are left out for their mistakes
    """

    name: str
    table: TableName
    told: tuple[str, ...] = ()
    change: Change = NOTHING
    comes: tuple[Comes, ...] = ()
    already: int = 0
    wrong: tuple[Wrong, ...] = ()
    asks: tuple[Ask, ...] = ()
    left_out: int = 0

    def but(self, **changed: object) -> Found:
        """The same with something else in it."""
        return replace(self, **changed)  # type: ignore[arg-type]  # dataclasses say no more of their fields

    def refused(self) -> Faults | None:
        """All that stands against taking it in; None where nothing does."""
        faults = [Fault(f"{self.name}, {ask.name.replace('.', ' ')}", ask.says, said(ask)) for ask in self.asks]
        if not self.asks and self.wrong and not self.left_out:
            shown = self.wrong[:MOST_SAID]
            faults += [Fault(f"{self.name}, {one.fault().where}", one.what, one.right) for one in shown]
            more = len(self.wrong) - len(shown)
            if more:
                right = "Put these right first; the same slip often stands on every line."
                faults.append(Fault(self.name, f"{more} more are wrong.", right))
        return Faults(*faults) if faults else None


def said(ask: Ask) -> str:
    """What would answer a question."""
    choices = f" ({', '.join(ask.choices[:-1])} or {ask.choices[-1]})" if len(ask.choices) > 1 else ""
    return f"Say {ask.option()}{choices}."
