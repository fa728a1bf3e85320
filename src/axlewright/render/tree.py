"""A sheet as a tree of plain strings: what every layout lays out, so that page, print and terminal cannot disagree.

A text is a list of [voice, words]; a block is a dictionary by its kind; a drawing is left to the one who lays out.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeAlias, assert_never

from axlewright.render import dots
from axlewright.render.show import STAY, Show, Words
from axlewright.render.sides import in_us_units
from axlewright.sheets import (
    Bands,
    Block,
    Boxes,
    Caution,
    DotStrip,
    Drawing,
    Figure,
    HoldPoint,
    Lines,
    Note,
    Numbered,
    Pack,
    Section,
    Sheet,
    Table,
    Text,
    TitleBlock,
    Values,
)

Tree: TypeAlias = dict[str, Any]
Pictured: TypeAlias = Callable[[Drawing, Words, float], Any]  # a drawing, its words, its size on paper
FIELD = 88.0  # mm
SHORT = 10  # letters: a cell of no more stands on one line
LONG = 28  # letters: more of them beside a label need half the field
NOT_CHECKED = "Not checked by an engineer"
MEASURES = {"metric": "metric", "us": "US"}


def length(spans: list[list[str]]) -> int:
    """How many letters there are in a text."""
    return sum(len(said) for _, said, _ in spans)


def tree(sheet: Sheet, pack: Pack, show: Show, pictured: Pictured) -> Tree:
    """The sheet in plain strings; `pictured` says what becomes of a drawing."""
    grower = Grower(Words(show, pack.basis, sheet.block.on), pictured, pack.key)
    grown = grower.sheet(sheet)
    return in_words(grown, grower.words) if show.measures == "us" else grown


def in_words(grown: Any, words: Words) -> Any:
    """A tree whose headings and labels say what the trade says there; addresses and drawings stay as they are."""
    if isinstance(grown, dict):
        return {key: one if key in {"picture", "axis"} else in_words(one, words) for key, one in grown.items()}
    if isinstance(grown, list):
        return [in_words(one, words) for one in grown]
    return words.said(grown) if isinstance(grown, str) and not grown.startswith("/") else grown


class Grower:
    """Turns the parts of a sheet into plain trees."""

    def __init__(self, words: Words, pictured: Pictured, key: str = "") -> None:
        self.words, self.pictured, self.key = words, pictured, key

    def text(self, text: Text) -> list[list[str]]:
        return [[span.voice, span.words, span.to] for span in self.words.spans(text)]

    def sheet(self, sheet: Sheet) -> Tree:
        return {
            "name": sheet.name,
            "dense": sheet.paper == "dense",
            "head": self.text(sheet.head),
            "grade": {"shop": sheet.grade.shop, "words": self.text(sheet.grade.words)} if sheet.grade else None,
            "verdicts": [
                {"line": v.line, "word": v.word, "words": self.text(v.words), "stops": v.stops, "unseen": v.unseen}
                for v in sheet.verdicts
            ],
            "answer": self.text(sheet.answer),
            "lead": self.text(sheet.lead),
            "deciding": [
                {"number": [[s.voice, s.words, s.to] for s in self.words.large(d.number)], "words": self.text(d.words)}
                for d in sheet.deciding
            ],
            "bands": self.bands(sheet.sections),
            "revisions": [
                {
                    "letter": r.letter,
                    "on": ("by " if r.ahead else "") + self.words.day(r.on) if r.on else "",
                    "who": r.who,
                    "changed": self.text(r.changed),
                    "ahead": r.ahead,
                }
                for r in sheet.revisions
            ],
            "block": self.block_fields(sheet.block),
        }

    def bands(self, sections: tuple[Section, ...]) -> list[Tree]:
        """Sections that follow each other in the left and right field stand side by side; a wide one stands alone."""
        bands: list[Tree] = []
        for section in sections:
            wide = section.place == "wide"
            if wide or not bands or bands[-1]["wide"]:
                bands.append({"wide": wide, "sections": []})
            bands[-1]["sections"].append(self.section(section))
        return bands

    def section(self, section: Section) -> Tree:
        return {
            "heading": section.heading,
            "aside": section.aside,
            "place": section.place,
            "must": section.voice == "must",
            "cautions": section.place == "wide" and all(isinstance(block, Caution) for block in section.blocks),
            "blocks": [self.block(block) for block in section.blocks],
        }

    def block(self, block: Block) -> Tree:
        """A block in plain strings. A new kind of block fails here first."""
        text = self.text
        match block:
            case Note():
                return {"kind": "note", "words": text(block.words), "size": block.size, "voice": block.voice}
            case Values():
                rows = [[text(name), text(value)] for name, value in block.rows]
                return {"kind": "values", "rows": rows, "long": any(length(value) > LONG for _, value in rows)}
            case Table():
                return self.table(block)
            case Figure():
                return {
                    "kind": "figure",
                    "picture": self.pictured(block.drawing, self.words, block.on_paper),
                    "wide": block.drawing.width > FIELD,
                    "beside": bool(block.caption) and block.drawing.width <= FIELD / 2,
                    "says": block.drawing.says,
                    "twin": [text(line) for line in block.twin],
                    "caption": text(block.caption),
                }
            case Caution():
                return {"kind": "caution", "lead": block.lead, "words": text(block.words)}
            case HoldPoint():
                return {"kind": "hold", "lead": block.lead, "words": text(block.words), "lines": list(block.lines)}
            case Numbered():
                return self.numbered(block)
            case Boxes():
                boxes = [{"words": text(box.words), "ticked": box.ticked} for box in block.boxes]
                lead = {"lead": block.lead, "strong": block.lead.isupper(), "after": block.after, "line": block.line}
                return {"kind": "boxes", "boxes": boxes, "stacked": block.stacked, "must": block.voice == "must"} | lead
            case Lines():
                return self.lines(block)
            case Bands():
                bands = [{"reads": text(b.reads), "means": text(b.means), "voice": b.voice} for b in block.bands]
                return {"kind": "bands", "bands": bands, "note": text(block.note)}
            case DotStrip():
                return self.dots(block)
            case _:
                assert_never(block)

    def dots(self, block: DotStrip) -> Tree:
        axis = dots.axis(block, self.words)
        rows = [
            {
                "letter": strip.letter,
                "label": self.text(strip.label),
                "note": self.text(strip.note),
                "values": [[label, self.text(value)] for label, value in strip.values],
                "picture": self.pictured(dots.drawn(block, strip, self.words), self.words, 1.0),
                "twin": self.text(dots.told(strip)),
            }
            for strip in block.strips
        ]
        stopped = [
            {
                "letter": one.letter,
                "label": self.text(one.label),
                "why": self.text(one.why),
                "lifted_by": self.text(one.lifted_by),
            }
            for one in block.stopped
        ]
        return {
            "kind": "dots",
            "axis": self.pictured(axis, self.words, 1.0) if rows else None,
            "says": dots.SAYS,
            "note": self.text(block.note),
            "rows": rows,
            "stopped": stopped,
        }

    def table(self, block: Table) -> Tree:
        shares = [column.share for column in block.columns]
        even = len(set(shares)) <= 1
        columns = [
            {
                "heading": c.heading,
                "right": c.to == "right",
                "share": None if even else round(100 * c.share / sum(shares), 2),
            }
            for c in block.columns
        ]
        rows = [{"cells": [self.cell(cell) for cell in row.cells], "voice": row.voice} for row in block.rows]
        headed = any(column.heading for column in block.columns)
        return {"kind": "table", "columns": columns, "rows": rows, "caption": block.caption, "headed": headed}

    def cell(self, text: Text) -> list[list[str]]:
        """A cell's words; a few stay together."""
        spans = self.text(text)
        if length(spans) > SHORT:
            return spans
        return [[voice, said.replace(" ", STAY), to] for voice, said, to in spans]

    def numbered(self, block: Numbered) -> Tree:
        items = [
            {
                "number": item.number,
                "balloon": len(item.number) in (1, 2) or (len(item.number) == 3 and item.number.isdigit()),
                "lead": item.lead,
                "words": self.text(item.words),
                "aside": self.text(item.aside),
                "picture": self.pictured(item.drawing, self.words, 1.0) if item.drawing else None,
                "says": item.drawing.says if item.drawing else "",
                "boxes": list(item.boxes),
                "done": item.done,
            }
            for item in block.items
        ]
        return {"kind": "numbered", "items": items}

    def lines(self, block: Lines) -> Tree:
        lines = [
            {
                "label": one.label,
                "share": one.share,
                "written": self.text(one.written),
                "unit": in_us_units(one.unit) if block.ticked and self.words.show.measures == "us" else one.unit,
                "boxes": list(one.boxes),
            }
            for one in block.lines
        ]
        long = any(len(one.label) > LONG for one in block.lines)
        return {"kind": "lines", "lines": lines, "stacked": block.stacked, "ticked": block.ticked, "long": long}

    def block_fields(self, block: TitleBlock) -> list[Tree]:
        """The title block: name of the field, label, what stands in it. A blank form leaves out what it has no use for."""
        blank = bool(block.form)
        said = [
            ("ti", "title", block.title),
            ("wh", "machine, corner", block.corner),
            ("no", "trouble", block.trouble),
            ("sh", "sheet", f"{block.sheet} of {block.of}"),
            ("rv", "form" if blank else "revision", block.form or block.revision),
            ("dt", "date", self.words.date(block.on) if block.on else ""),
            ("ya", "yard", block.yard),
            ("by", f"made by; pack {self.key}" if self.key else "made by", block.made_by),
            ("ck", "checked by", block.checked_by or ("" if blank else NOT_CHECKED)),
            ("un", "units", block.measures or MEASURES[self.words.show.measures]),
        ]
        keep = ("ti", "ya", "no", "sh", "rv", "un") if blank else tuple(name for name, _, _ in said)
        fields: list[Tree] = sorted(
            ({"name": name, "label": label, "words": words} for name, label, words in said if name in keep),
            key=lambda one: keep.index(one["name"]),
        )
        for one in fields:
            one["voice"] = (
                "must" if one["words"] == NOT_CHECKED else "strong" if one["name"] in {"ti", "rv"} else "plain"
            )
        return fields
