"""The Bring home sheet: fire first, what towing needs, the choice made once by hold, then towed or carried."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from axlewright.plan.sheet.band_words import BandWords
from axlewright.plan.sheet.frame import Drawn, Frame, Number, Numbers
from axlewright.plan.sheet.steps_page import StepBlocks, in_columns
from axlewright.plan.steps.bands import Edges, printed
from axlewright.plan.steps.day import pieces
from axlewright.plan.steps.jobs import Here, minutes
from axlewright.sheets import Boxes, Lines, Section, Sheet
from axlewright.sheets.blocks import Block, Box, Line
from axlewright.trade.networks import weave
from axlewright.trade.steps import Steps

ROWS = 2
NETWORK = "bring-home"
FIRST = ("bh-stop", "bh-see", "bh-book", "bh-choose")
EITHER = ("bh-empty", "bh-chock", "bh-ground")
TOWED = ("bh-hitch", "bh-free", "bh-pull")
CARRIED = ("bh-load", "bh-haul")
LAST = ("bh-home",)
BOOK = ("undone, and where", "steers without engine", "greatest speed")


@dataclass(frozen=True, slots=True)
class BringHomeFacts:
    """What the sheet is drawn from: title block, what the book says by its line, edges given, whom to ring."""

    frame: Frame
    here: Here = field(default_factory=Here)
    book: Mapping[str, Sequence[str | Number]] = field(default_factory=dict)
    given: Mapping[str, Edges] = field(default_factory=dict)
    ring: Mapping[str, str] = field(default_factory=dict)  # recovery, seller, neighbour: name and number


def bring_home_sheet(rows: Steps, facts: BringHomeFacts) -> Drawn:
    """The sheet of one page, both ways on it."""
    work = weave(rows, NETWORK, ("towed", "carried"))
    numbers = Numbers()
    band = rows.band["bh-heat"]
    make = StepBlocks(
        rows,
        BandWords(rows, numbers),
        {"bh-heat": printed(band, {}, facts.given)},
        {s.task.id: minutes(rows, s.task, "likely", facts.here.size, facts.here.first_time) for s in work.steps},
        {
            p.name: p
            for way in ("towed", "carried")
            for p in pieces(rows, weave(rows, NETWORK, (way,)), facts.here)
            if p.block
        },
        {},
        {},
        {s.task.id: n for n, s in enumerate(work.steps, 1)},
    )
    steps = {s.task.id: s for s in work.steps}

    def told(names: Sequence[str]) -> list[Block]:
        return [b for name in names for b in make.step(steps[name]).blocks]

    sections = [
        Section(heading="Fire first", aside="chaff smoulders for half an hour", blocks=(*told(FIRST[:2]), _does())),
        Section(heading="What the book says on towing", blocks=(*told(FIRST[2:3]), _book(facts.book, numbers))),
        Section(heading="Choose once", blocks=(_ways(), *told(FIRST[3:]))),
        Section(heading="Either way", blocks=tuple(told(EITHER))),
        Section(heading="Towed", aside="no brake, no parking brake", blocks=tuple(told(TOWED))),
        Section(heading="Carried", aside="by winch, not under power", blocks=tuple(told(CARRIED))),
        Section(heading="At home", blocks=tuple(told(LAST))),
        Section(heading="Whom to ring", blocks=(_ring(facts.ring),)),
    ]
    frame = facts.frame
    head = frame.head("Bring home")
    sheet = Sheet(
        name="bring-home",
        head=head,
        answer=("A wheel that leans, locks or rocks is carried, or put right where it stands.",),
        sections=in_columns(sections),
        revisions=frame.revisions[-ROWS:],
        block=frame.block("Bring home"),
        paper="dense",
    )
    return Drawn((sheet,), numbers.entries)


def _does() -> Boxes:
    return Boxes(
        lead="The wheel",
        boxes=tuple(Box(words=(w,)) for w in ("stands", "leans", "locks", "drags", "rocks")),
    )


def _ways() -> Boxes:
    return Boxes(
        boxes=tuple(Box(words=(w,)) for w in ("carried", "towed", "put right here", "left, made safe")),
        after="by",
        line=True,
    )


def _book(book: Mapping[str, Sequence[str | Number]], numbers: Numbers) -> Lines:
    return Lines(lines=tuple(Line(label=w, written=numbers.told(book[w]) if w in book else ()) for w in BOOK))


def _ring(ring: Mapping[str, str]) -> Lines:
    known = tuple(Line(label=name, written=(number,)) for name, number in ring.items())
    return Lines(lines=known[:3] or tuple(Line(label=w) for w in ("recovery", "second tractor", "route and width")))
