"""Steps on paper: each with its cautions, readings and holds, and how pages are filled."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from axlewright.plan.sheet.band_words import BandWords
from axlewright.plan.sheet.frame import Numbers
from axlewright.plan.sheet.measure import lines
from axlewright.plan.sheet.said import led, said
from axlewright.plan.steps.bands import Printed
from axlewright.plan.steps.day import Piece, way_back
from axlewright.sheets import (
    Bands,
    Boxes,
    Caution,
    Figure,
    HoldPoint,
    Lines,
    Note,
    Numbered,
    Run,
    Section,
    Table,
    Text,
    Values,
)
from axlewright.sheets.blocks import Block, Item, Line
from axlewright.trade.networks import Step
from axlewright.trade.steps import Caution as Row
from axlewright.trade.steps import Hold, Reading, Steps, Task

LINE, SIZE = 3.4, 8.1  # mm of a line, and points, of the dense face
FIELD = 88.0  # mm
READS = 0.25  # of a field: what a gauge reads, before what it means
BALLOON, ASIDE, BAR, FRAME = 7.6, 13.0, 3.8, 8.0  # mm that these take of a field's width
GAP = 1.2  # mm between blocks
CELL = 1.5  # mm free beside a cell
HEADING = 7.0  # mm of a section's rule and heading
WRITTEN = 5.5  # mm of a line to write on in a hold's frame
FOOT = 22.0  # mm that must be left for a part to begin at the foot of a column
COLUMN = 206.0  # mm that a column may fill on the lower of both papers
GOES_ON = "goes on"  # beside a heading that stands over an earlier column too
SPARSE, FULLER = 0.75, 1.12  # of a column: a last page with less stands almost empty; what a column holds at most
BOXED = 1.32  # of a line: one with boxes in it
TICK = "mmm "  # as wide as a box and its gaps
USUALLY = "the one who does it, then the second adult, by name"
"""Who signs a hold unless it says otherwise: that is what its two lines are for."""


@dataclass(frozen=True, slots=True)
class Piled:
    """Blocks of one step, kept together, with the height they take on paper [mm]."""

    part: str
    number: int
    blocks: tuple[Block, ...]
    height: float


@dataclass(slots=True)
class StepBlocks:
    """Turns steps into blocks. A caution stands in full once on a page, and by its first words after that."""

    rows: Steps
    words: BandWords
    bands: Mapping[str, Printed | None]
    minutes: Mapping[str, float]
    runs: Mapping[str, Piece]  # blocks by their first task
    latest: Mapping[str, str]  # clock after which a block is not begun, by its first task
    front: Mapping[str, int]  # place of each reading on the front of the card
    numbers: Mapping[str, int]
    said: set[str] = field(default_factory=set)

    def new_page(self) -> None:
        self.said.clear()

    def step(self, step: Step) -> Piled:
        task = step.task
        blocks: list[Block] = []
        if task.id in self.runs:
            blocks.append(self.run(self.runs[task.id]))
        blocks += self.cautions(task.cautions)
        number = str(self.numbers[task.id])
        if task.hold:
            blocks += self.readings(step, lines=False)
            blocks.append(self.hold(number, task, task.hold))
        else:
            takes = self.minutes[task.id]
            lead, first = led(task.title + ".", self.words.numbers)
            aside: Text = ((f"{takes:.0f} min" if takes < 100 else spell(round(takes))),) if takes >= 1 else ()
            blocks.append(
                Numbered(items=(Item(number=number, lead=lead, words=(*first, *self.told(task.how)), aside=aside),))
            )
            blocks += self.readings(step)
        return Piled(step.part, self.numbers[task.id], tuple(blocks), sum(map(height, blocks)))

    def hold(self, number: str, task: Task, hold: Hold) -> HoldPoint:
        """A hold with its own readings and the two who sign it."""
        who = () if hold.who == USUALLY else (Run(voice="soft", words=(f" By: {hold.who}.",)),)
        lead, first = led(task.title + ".", self.words.numbers)
        words: Text = (*first, *self.told(task.how), " ", *self.told(hold.must), ".", *who)
        read = tuple(f"{r.quantity}, {self.unit(r)}".removesuffix(", ") for r in task.readings)
        signed = ("first", "second") if hold.shown_by == "second look" else ("read by", "seen by")
        return HoldPoint(lead=f"{number}  {lead}", words=words, lines=(*read, *signed))

    def run(self, piece: Piece) -> Note:
        """What stands before a run of steps that may not be broken: how long, not after when, and the way back."""
        back = way_back(self.rows, piece)
        last = self.numbers[piece.steps[-1].task.id]
        clock = self.latest.get(piece.name, "____")
        words: list[str | Run] = [
            Run(voice="strong", words=(f"From here to {last} the day may not end: ",)),
            f"{spell(piece.likely)}, {spell(piece.high)} when it is slow; not begun after {clock}.",
        ]
        if back:
            words += [Run(voice="strong", words=(" Way back: ",)), back.how]
        return Note(words=tuple(words))

    def cautions(self, names: Sequence[str]) -> Iterator[Block]:
        """Each in full where this page says it first; those said already in one block, by their first words.

        First words that only name a case say nothing by themselves: those are said in full again.
        """
        rows = [self.rows.caution[n] for n in names]
        short = {r.id for r in rows if r.id in self.said and (r.severity == "note" or not r.lead.endswith(":"))}
        again = [r.lead for r in rows if r.id in short and r.severity != "note"]
        if again:
            lead, first = led(" ".join(again), self.words.numbers, "must")
            yield Caution(lead=lead, words=first)
        for row in rows:
            if row.id in short:
                continue
            self.said.add(row.id)
            if row.severity == "note":
                yield Note(words=self.told(row.text), size="small", voice="soft")
            else:
                yield self.caution(row)

    def caution(self, row: Row) -> Caution:
        """A caution in full."""
        return told_caution(row, self.words.numbers)

    def told(self, words: str) -> Text:
        """Words with their numbers as numbers."""
        return said(words, self.words.numbers)

    def readings(self, step: Step, *, lines: bool = True) -> Iterator[Block]:
        """Lines to write readings on, each with its band; on the front those that stand there."""
        for reading in step.task.readings:
            band, cut = self.rows.band.get(reading.id), self.bands.get(reading.id)
            if reading.id in self.front:
                where = Run(voice="strong", words=(f"Reading {self.front[reading.id]} on the front: ",))
                yield Note(words=(where, reading.quantity, "."))
                continue
            if lines:
                yield Lines(lines=(Line(label=reading.quantity, unit=self.unit(reading)),), stacked=True)
            if band and reading.card:
                yield self.words.block(step.task, reading, band, cut)
            elif band and (cut or band.words_go):
                yield Note(words=self.words.short(step.task, reading, band, cut), size="small")

    def unit(self, reading: Reading) -> str:
        cut = self.bands.get(reading.id)
        if cut:  # the unit that is printed on the tool
            return self.words.unit(cut.unit)
        return self.words.unit(reading.unit) if reading.unit not in {"class", "grade", "yes or no"} else ""


def told_caution(row: Row, numbers: Numbers) -> Caution:
    """A caution in full, its numbers as numbers."""
    lead, first = led(row.lead, numbers, "must")
    words = (*first, *(said(row.rest, numbers) if row.rest else ()))
    return Caution(lead=lead, words=words)


def spell(minutes: float) -> str:
    """Minutes as people say them: 45 min, 2 h 25."""
    whole = math.ceil(minutes - 1e-9)
    return f"{whole} min" if whole < 100 else f"{whole // 60} h {whole % 60:02d}"


def height(block: Block) -> float:
    """The height a block takes on paper [mm]."""

    def rows(text: Text, takes: float = 0.0) -> float:
        return LINE * lines(text, FIELD - takes, SIZE)

    def led(lead: str, words: Text) -> Text:
        return (Run(voice="strong", words=(lead,)), *words)

    match block:
        case Numbered(items=items):
            told = sum(rows(led(i.lead, i.words), BALLOON + (ASIDE if i.aside else 0.0)) + GAP for i in items)
            return told + sum(LINE * BOXED for i in items if i.boxes)
        case HoldPoint():
            return rows(led(block.lead, block.words), FRAME) + WRITTEN * len(block.lines) + 1.0 + GAP
        case Caution():
            return rows(led(block.lead, block.words), BAR) + GAP
        case Note():
            return rows(block.words) + GAP
        case Lines(stacked=stacked):
            return 7.0 * len(block.lines) if stacked else 8.5
        case Figure(drawing=drawing):
            return drawing.height + GAP
        case Values(rows=of):
            return (LINE + 0.3) * len(of) + GAP
        case Boxes(boxes=boxes, stacked=stacked):
            each = [Run(voice="soft", words=(TICK, *(w for w in b.words if isinstance(w, str)))) for b in boxes]
            if stacked:
                return sum(rows((run,)) + 0.6 for run in each) + GAP
            return rows((block.lead + " ", *each)) * BOXED + GAP
        case Bands(bands=bands):
            room = FIELD * READS
            high = [max(LINE * lines(b.reads, room, SIZE), rows(b.means, room)) for b in bands]
            return sum(high) + 0.3 * len(high) + (rows(block.note) if block.note else 0.0) + GAP
        case Table(columns=columns, rows=of):
            all_ = sum(c.share for c in columns)
            wide = [FIELD * c.share / all_ - CELL for c in columns]
            tall = [max(lines(cell, room, SIZE) for cell, room in zip(row.cells, wide, strict=True)) for row in of]
            return LINE * (sum(tall) + 1) + 0.3 * len(tall) + GAP
        case _:
            return 4 * LINE


@dataclass(frozen=True, slots=True)
class Page:
    """A page of steps in two columns."""

    sections: tuple[Section, ...]
    first: int
    last: int
    parts: tuple[str, ...]


def pages(steps: Sequence[Step], make: StepBlocks, column: float = COLUMN, taken: float = 0.0) -> tuple[Page, ...]:
    """Steps on pages of two columns; a step is never cut, and a part that would begin at a column's foot begins the next.

    Where columns a little fuller save a page that would stand almost empty, they are filled so.

    Args:
        steps: in their order
        make: makes blocks of them
        column: height of a column [mm]
        taken: of the first column of the first page [mm]
    """
    filled = _filled(steps, make, column, taken)
    if len(filled) > 1 and sum(p.height for part in filled[-1] for p in part) < SPARSE * column:
        fuller = _filled(steps, make, FULLER * column, taken)
        filled = fuller if len(fuller) < len(filled) else filled
    return tuple(_page(columns, make.rows) for columns in filled if columns[0])


Filled: TypeAlias = list[tuple[list[Piled], list[Piled]]]


def _filled(steps: Sequence[Step], make: StepBlocks, column: float, taken: float) -> Filled:
    make.new_page()
    filled: Filled = [([], [])]
    at, used = 0, taken
    for step in steps:
        said = set(make.said)
        piled = make.step(step)
        here = filled[-1][at]
        begins = not here or here[-1].part != piled.part
        need = piled.height + (HEADING if begins else 0.0)
        if here and used + need + (FOOT if begins else 0.0) > column:
            if at == 1:
                make.said = said
                make.new_page()
                filled.append(([], []))
                piled = make.step(step)
            at, used = 1 - at, 0.0
            need = piled.height + HEADING
        filled[-1][at].append(piled)
        used += need
    return filled


def _page(columns: tuple[list[Piled], list[Piled]], rows: Steps) -> Page:
    piles = [p for c in columns for p in c]
    return Page(
        _sections(columns, rows), piles[0].number, piles[-1].number, tuple(dict.fromkeys(p.part for p in piles))
    )


def _sections(columns: Sequence[Sequence[Piled]], rows: Steps) -> tuple[Section, ...]:
    sections: list[Section] = []
    seen: set[str] = set()
    for place, piles in zip(("left", "right"), columns, strict=True):
        parts: dict[str, list[Block]] = {}
        for pile in piles:
            parts.setdefault(pile.part, []).extend(pile.blocks)
        for part, blocks in parts.items():
            aside = GOES_ON if part in seen else ""
            seen.add(part)
            left = place == "left"
            sections.append(
                Section(
                    heading=rows.network[part].title,
                    aside=aside,
                    blocks=tuple(blocks),
                    place="left" if left else "right",
                )
            )
    return tuple(sections)


def in_columns(sections: Sequence[Section]) -> tuple[Section, ...]:
    """Sections in their order down the left field and on down the right, so that both end about level."""
    heights = [HEADING + sum(map(height, s.blocks)) for s in sections]
    best = min(range(1, len(sections) + 1), key=lambda n: max(sum(heights[:n]), sum(heights[n:])))
    placed = [s.model_copy(update={"place": "left" if n < best else "right"}) for n, s in enumerate(sections)]
    joined: list[Section] = []
    for one in placed:  # what goes on in the same column needs no heading again
        last = joined[-1] if joined else None
        if last and one.aside == GOES_ON and (one.heading, one.place) == (last.heading, last.place):
            joined[-1] = last.model_copy(update={"blocks": _run_together(last.blocks, one.blocks)})
        else:
            joined.append(one)
    return tuple(joined)


def _run_together(first: tuple[Block, ...], then: tuple[Block, ...]) -> tuple[Block, ...]:
    """Blocks after each other, boxes that meet in one."""
    last, next_ = first[-1], then[0]
    if isinstance(last, Boxes) and isinstance(next_, Boxes):
        return (*first[:-1], last.model_copy(update={"boxes": last.boxes + next_.boxes}), *then[1:])
    return first + then
