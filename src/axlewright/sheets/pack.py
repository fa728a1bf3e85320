"""A sheet with its head, verdicts, answer, sections and foot; and the pack that is frozen whole."""

from __future__ import annotations

import datetime
from typing import Literal

from axlewright.sheets.blocks import Block
from axlewright.sheets.text import Frozen, Text


class Grade(Frozen):
    """Of a holding or lifting sheet: a table sheet is stamped NOT FOR LIFTING, a shop sheet says who walked round when."""

    shop: bool
    words: Text


class VerdictLine(Frozen):
    """One ruled line: WORK IN FIELD, the word, its conditions."""

    line: str
    word: str
    words: Text
    stops: bool = False  # printed in primer
    unseen: bool = False  # printed with the shut eye


class Deciding(Frozen):
    """A deciding number with its words below; at most two."""

    number: Text
    words: Text


class Section(Frozen):
    """A 2 px rule, a heading left, scale or unit right, blocks below.

    `place` is where it goes on paper: in the left or right field of the band it stands in, or across both. On a screen
    sections flow in one to three columns; `wide` ones take two of them.
    """

    heading: str
    aside: str = ""
    blocks: tuple[Block, ...]
    place: Literal["left", "right", "wide"] = "left"
    voice: Literal["plain", "must"] = "plain"


class Revision(Frozen):
    letter: str
    on: datetime.date | None
    who: str
    changed: Text
    ahead: bool = False  # the next stage, in construction ink


class TitleBlock(Frozen):
    """Fields after ISO 7200. Empty fields stay to be written in."""

    title: str
    corner: str = ""  # machine and corner
    trouble: str = ""
    sheet: int = 1
    of: int = 1
    revision: str = ""
    form: str = ""  # a blank form carries its letter here, in place of a revision
    on: datetime.date | None = None
    yard: str = ""
    made_by: str = ""
    checked_by: str = ""  # blank: "Not checked by an engineer"
    measures: str = ""  # blank: the measures it is shown in


class Sheet(Frozen):
    name: str  # first-look, make-safe, bolts, support ...
    head: Text  # one plain line, what and where
    grade: Grade | None = None
    verdicts: tuple[VerdictLine, ...] = ()
    answer: Text = ()  # the answer in one sentence, as the heading
    lead: Text = ()
    deciding: tuple[Deciding, ...] = ()
    sections: tuple[Section, ...]
    revisions: tuple[Revision, ...] = ()
    block: TitleBlock
    paper: Literal["plain", "dense"] = "plain"  # dense: 8.1 pt on paper, for First look


class BasisEntry(Frozen):
    """One number of the pack: what it is, where it comes from, what it was made of."""

    name: str
    kind: str
    value: float  # middle, SI
    low: float | None = None
    high: float | None = None
    basis: Literal["book", "measured", "computed", "assumed"]
    source: str
    made_of: tuple[str, ...] = ()
    typed: str = ""


class Pack(Frozen):
    """Sheets drawn up together, with the basis of every number shown."""

    form: int = 1
    version: str
    key: str = ""
    trade: str = ""  # digest of trade
    seed: int = 0
    count: int = 0
    sheets: tuple[Sheet, ...]
    basis: dict[str, BasisEntry] = {}
