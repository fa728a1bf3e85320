"""What a sheet is: title block, blocks, drawings, all as data. Nothing here knows an engine, a unit's look or HTML."""

from axlewright.sheets.blocks import (
    Bands,
    Block,
    Boxes,
    Caution,
    DotStrip,
    Figure,
    HoldPoint,
    Lines,
    Note,
    Numbered,
    Strip,
    Table,
    Values,
)
from axlewright.sheets.drawing import Drawing
from axlewright.sheets.pack import BasisEntry, Deciding, Grade, Pack, Revision, Section, Sheet, TitleBlock, VerdictLine
from axlewright.sheets.text import Day, Go, Piece, Run, Shown, Text, text

__all__ = [
    "Bands",
    "BasisEntry",
    "Block",
    "Boxes",
    "Caution",
    "Day",
    "Deciding",
    "DotStrip",
    "Drawing",
    "Figure",
    "Go",
    "Grade",
    "HoldPoint",
    "Lines",
    "Note",
    "Numbered",
    "Pack",
    "Piece",
    "Revision",
    "Run",
    "Section",
    "Sheet",
    "Shown",
    "Strip",
    "Table",
    "Text",
    "TitleBlock",
    "Values",
    "VerdictLine",
    "text",
]
