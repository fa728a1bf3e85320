"""The blocks that stand in a section of a sheet."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from axlewright.sheets.drawing import Drawing
from axlewright.sheets.text import Frozen, Text


class Note(Frozen):
    """A paragraph."""

    kind: Literal["note"] = "note"
    words: Text
    size: Literal["text", "small", "lead"] = "text"
    voice: Literal["plain", "soft", "must"] = "plain"


class Values(Frozen):
    """Label left, value right, a hairline between rows."""

    kind: Literal["values"] = "values"
    rows: tuple[tuple[Text, Text], ...]


class Column(Frozen):
    heading: str
    to: Literal["left", "right"] = "left"
    share: float = 1.0  # of the table's width


class Row(Frozen):
    cells: tuple[Text, ...]
    voice: Literal["plain", "strong", "soft", "struck"] = "plain"


class Table(Frozen):
    """Columns and rows. Struck rows say what is stopped."""

    kind: Literal["table"] = "table"
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    caption: str = ""


class Figure(Frozen):
    """A drawing and its twin in words, made from the same data."""

    kind: Literal["figure"] = "figure"
    drawing: Drawing
    twin: tuple[Text, ...] = ()
    caption: Text = ()  # under it; beside it where it is no wider than half a field
    on_paper: float = 1.0  # its size on paper, where it is not to scale: lines shrink, words keep their size


class Caution(Frozen):
    """What must not be missed: the first words in primer, then the rest."""

    kind: Literal["caution"] = "caution"
    lead: str
    words: Text


class HoldPoint(Frozen):
    """A step that may not be passed until its reading or second look is there."""

    kind: Literal["hold"] = "hold"
    lead: str
    words: Text
    lines: tuple[str, ...] = ()  # what is to be written beside it


class Item(Frozen):
    number: str  # behind a balloon; longer than two letters (1.29 ×) it stands as a key figure
    lead: str
    words: Text
    aside: Text = ()  # right: minutes, a date
    drawing: Drawing | None = None
    boxes: tuple[str, ...] = ()
    done: bool = False


class Numbered(Frozen):
    """Things in order, each behind its balloon; without numbers, a plain list."""

    kind: Literal["numbered"] = "numbered"
    items: tuple[Item, ...]


class Box(Frozen):
    words: Text
    ticked: bool = False


class Boxes(Frozen):
    """Boxes to tick. `stacked` stands one a line, else they run on behind `lead`."""

    kind: Literal["boxes"] = "boxes"
    lead: str = ""
    boxes: tuple[Box, ...]
    stacked: bool = False
    voice: Literal["plain", "must"] = "plain"
    after: str = ""  # a line to write on, or words, behind the boxes
    line: bool = False


class Line(Frozen):
    label: str
    share: float = 1.0
    written: Text = ()
    unit: str = ""
    boxes: tuple[str, ...] = ()  # boxes to tick in place of a line


class Lines(Frozen):
    """Lines to write on. `stacked`: label left, line right, one a row; else side by side with the label under the line."""

    kind: Literal["lines"] = "lines"
    lines: tuple[Line, ...]
    stacked: bool = False
    ticked: bool = False  # each with a box before it


class Band(Frozen):
    reads: Text
    means: Text
    voice: Literal["plain", "strong", "must"] = "plain"


class Bands(Frozen):
    """What a gauge may read: go on, lower and ask, lower now."""

    kind: Literal["bands"] = "bands"
    bands: tuple[Band, ...]
    note: Text = ()


class Dot(Frozen):
    at: float  # SI
    full: bool  # it let go in the field


class Strip(Frozen):
    """A course with its strip of dots: its letter and name, a note below, and its numbers, each under its label."""

    label: Text
    dots: tuple[Dot, ...]
    middle: Text
    middle_at: float
    beyond: int = 0
    letter: str = ""
    note: Text = ()
    values: tuple[tuple[str, Text], ...] = ()


class Stopped(Frozen):
    """A course that is struck out: why, and what would lift it. It has no strip, no cost and no chance."""

    letter: str
    label: Text
    why: Text
    lifted_by: Text


class DotStrip(Frozen):
    """One dot, one season in a hundred, at its cost; all strips on one axis, best first. Then what is stopped."""

    kind: Literal["dots"] = "dots"
    quantity: str  # kind name of the axis
    low: float
    high: float
    strips: tuple[Strip, ...]
    stopped: tuple[Stopped, ...] = ()
    note: Text = ()  # what a dot is


Block: TypeAlias = Annotated[
    Note | Values | Table | Figure | Caution | HoldPoint | Numbered | Boxes | Lines | Bands | DotStrip,
    Field(discriminator="kind"),
]
