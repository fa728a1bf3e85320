"""The First look on paper: the blank form A, and the sheet of a trouble."""

from __future__ import annotations

from collections.abc import Collection

from axlewright.plan.judge import Words
from axlewright.plan.sheet.frame import Drawn
from axlewright.sheets import (
    Block,
    Boxes,
    Figure,
    Lines,
    Note,
    Numbered,
    Run,
    Section,
    Sheet,
    Table,
    Text,
    TitleBlock,
    text,
)
from axlewright.sheets.blocks import Box, Column, Item, Line, Row
from axlewright.sheets.figures import drive_section, level, machine, plug
from axlewright.sheets.figures.machine import CornerLook
from axlewright.trade.first_look import Tick, first_looks, numbers, outcomes, short_rows, then, ticks
from axlewright.trade.looks import looks

FORM = "A"
TWIN = "Look at the twin on the other side too. It tells what is usual here."
BOXES = {
    "wipe": ("dry", "gear", "brake", "hydraulic", "grease or ballast", "from above", "can’t tell"),
    "chalk": ("put on", "nothing", "machine side", "wheel side", "elsewhere"),
    "breather": ("free", "blocked", "not found"),
    "level": ("at mark", "finger touches", "none", "over"),
    "plug": ("bare or smooth", "flakes", "chips", "no magnet"),
}
MUST: Text = (
    Run(voice="must", words=("A chip, a loose bolt, a clunk: not on the road.",)),
    " The machine’s own book comes first.",
)


def blank_first_look() -> Drawn:
    """The form to print and fill in by hand: one side, hand units."""
    words = Words()
    sheet = Sheet(
        name="first-look",
        head=text(Run(voice="strong", words=("First look",)), ", one side, to print. Hand, coin, phone level"),
        answer=text("Half an hour, nothing jacked: wipe, chalk, breather, level, plug."),
        sections=(
            _named(),
            Section(heading="B. Park it now if", aside="one tick is enough", voice="must", blocks=park_boxes(words)),
            Section(
                heading="Where the oil sits",
                aside="circle it",
                blocks=(Figure(drawing=drive_section.drawing(drive_section.named()), on_paper=0.75),),
            ),
            _wrench(),
            Section(heading="E. What it means", aside="first row that fits", blocks=(meanings(),)),
            _circle(),
            _looks(),
            _so(),
        ),
        block=TitleBlock(title="First look", form=FORM, measures="hand"),
        paper="dense",
    )
    return Drawn((sheet,), dict(words.basis))


def _named() -> Section:
    return Section(
        heading="",
        place="wide",
        blocks=(
            Lines(
                lines=(
                    Line(label="machine", share=2),
                    Line(label="clock"),
                    Line(label="", boxes=("engine", "threshing")),
                    Line(label="date"),
                    Line(label="who", share=2),
                )
            ),
        ),
    )


def park_boxes(words: Words, ticked: Collection[Tick] = ()) -> tuple[Block, ...]:
    """The nine of the park-it-now list, and what to do."""
    rows = tuple(Box(words=text(row.words), ticked=row in ticked) for row in ticks("park").values())
    return (
        Boxes(boxes=rows, stacked=True, voice="must"),
        Note(words=words.filled(then(), numbers()), size="small"),
    )


def meanings() -> Table:
    """What each outcome means, in short."""
    by_number = {row.n: row for row in outcomes()}
    rows = []
    for short in short_rows():
        row = by_number[short.rows[0]]
        rows.append(Row(cells=(text(short.see), word(row.field), word(row.road), text(short.means))))
    return Table(
        columns=(
            Column(heading="you see", share=3.1),
            Column(heading="field", share=1.6),
            Column(heading="road", share=1.6),
            Column(heading="it means", share=3.7),
        ),
        rows=tuple(rows),
    )


def word(said: str) -> Text:
    """A verdict's word in a table: `no` in primer."""
    return text(Run(voice="must", words=(said,))) if said == "no" else text(said)


def _circle() -> Section:
    blank = CornerLook(state="sound", words=(text("circle it if it is this one"),))
    corners = dict.fromkeys(machine.DRIVEN, blank)
    drawing = machine.plan("forage-harvester", corners, scale=300.0, labels=False)
    return Section(
        heading="A. Circle the corner",
        aside="nose up",
        place="right",
        blocks=(Figure(drawing=drawing, caption=text(TWIN)),),
    )


def _looks() -> Section:
    items = [
        Item(number=str(number), lead=looks()[name].name, words=text(looks()[name].printed), boxes=BOXES[name])
        for number, name in enumerate(first_looks(), 1)
    ]
    return Section(
        heading="C. Five looks, in this order",
        aside="hand units",
        place="right",
        blocks=(
            Numbered(items=tuple(items[:4])),
            Figure(drawing=level.card()),
            Numbered(items=tuple(items[4:])),
            Figure(drawing=plug.card()),
        ),
    )


def _wrench() -> Section:
    def row(lead: str, *said: str) -> Boxes:
        return Boxes(lead=lead, boxes=tuple(Box(words=text(one)) for one in said))

    return Section(
        heading="D. Then a wrench on every one",
        aside="10 minutes, tightening way",
        blocks=(
            row("Flange bolts", "still", "rust streak", "loose", "gone", "out of reach"),
            row("Wheel nuts", "still", "rust streak", "moved", "gone"),
        ),
    )


def _so() -> Section:
    def row(lead: str, *said: str, after: str = "", line: bool = False) -> Boxes:
        return Boxes(lead=lead, boxes=tuple(Box(words=text(one)) for one in said), after=after, line=line)

    return Section(
        heading="F. So",
        aside="worst row wins; not looked at is never yes",
        place="wide",
        blocks=(
            row("WORK IN FIELD", "no", "not known", "only if", line=True),
            row("GO ON ROAD", "no", "not known", after="never yes from these five: rock is still to come"),
            Lines(
                lines=(
                    Line(label="ring", share=2),
                    Line(label="by when"),
                    Line(label="look again at clock reading"),
                )
            ),
            Note(words=MUST, size="lead"),
            Lines(lines=(Line(label="who looked"), Line(label="who looked second"))),
        ),
    )
