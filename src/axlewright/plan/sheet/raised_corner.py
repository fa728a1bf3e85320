"""The blank Raised corner: the walk-round, the floor plan, the order and the log of a raised corner, to fill in by hand."""

from __future__ import annotations

from axlewright.plan.reckon.raised_table import crib_table, heaviest_corners
from axlewright.plan.sheet.frame import Drawn, Number, Numbers
from axlewright.sheets import (
    Boxes,
    Figure,
    HoldPoint,
    Lines,
    Note,
    Numbered,
    Run,
    Section,
    Sheet,
    Shown,
    Table,
    Text,
    TitleBlock,
    text,
)
from axlewright.sheets.blocks import Box, Column, Item, Line, Row
from axlewright.sheets.figures import machine

FORM = "A"
GRAVITY = 9.80665  # m/s^2
STOPS = (
    "tracks, three axles, rigid or driven rear axle, sprung legs",
    "a crack in housing, axle or lift point",
    "tank not empty; header neither off nor on blocks",
    "ground over 3 %, frost under it, wind over 15 m/s",
    "a plate or a timber that nobody read or taped",
    "alone; someone under eighteen; no telephone here; dark before it rests on wood",
)
LIST = (
    ("Ground slope, along and across", "%"),
    ("Front axle, weigh ticket", "t"),
    ("Jack plate", "t"),
    ("Timber: side, length, pieces", "mm, mm"),
    ("Ground: slab, stone, clay by thumb", "kPa"),
    ("Plate on the crib, 20 mm or more", "mm"),
    ("Wheel to jack; wheel to crib", "mm, mm"),
    ("Rear axle blocks, both sides", "10 to 20 mm"),
    ("Chocks, three wheels, seen by two", "who"),
)
ORDER = (
    ("Nuts cracked loose", "with the wheel on the ground."),
    ("Raise one bite,", "50 to 75 mm. Read the gauge in the first 50 mm."),
    ("Wood under it,", "load down on wood, jack set plumb, rear blocks set again. Next bite."),
    ("Tyre clear 30 mm:", "down on the crib, jack slack. Top layer crosses the beam."),
    ("Crib pushed by hand,", "looked at from four sides. Now wheel, then drive."),
)
MUST: Text = (
    Run(voice="must", words=("Jacks lift, they do not hold.",)),
    " One line blank here: do not lift. The machine’s own book comes first.",
)
NAMES = {
    "small-combine": "small combine", "walker-combine": "medium combine", "large-combine": "large combine",
    "very-large-combine": "very large combine", "forage-harvester": "forage harvester",
}  # fmt: skip


def blank_raised_corner() -> Drawn:
    """The form to print and fill in by hand at the machine, before a corner is raised and while it stands so."""
    numbers = Numbers()
    sheet = Sheet(
        name="raised-corner",
        head=text(Run(voice="strong", words=("Raised corner",)), ", one side, to print"),
        answer=text("Every line first, then the first bite. It stands on wood or on a rated stand, never on a jack."),
        sections=(
            Section(heading="", place="wide", blocks=(_who(),)),
            Section(heading="A. Stop if", aside="one tick is enough", voice="must", blocks=(_stops(),)),
            Section(heading="B. Walk-round", aside="seen, not remembered", blocks=(_walk(),)),
            Section(heading="C. Gauge while raising", aside="from the Support sheet", blocks=_gauge()),
            Section(heading="D. In this order", blocks=(_order(),)),
            Section(
                heading="E. Floor plan", aside="nose up, 1:100", place="right", blocks=(_plan(),)
            ),
            Section(heading="F. Not weighed: take no less", aside="header off, tank empty", place="right", blocks=_loads(numbers)),
            Section(heading="G. A crib holds no more", aside="wet, any wood", place="right", blocks=_cribs(numbers)),
            Section(heading="H. Looked at", aside="creaking, bulging ends, lean: load off", place="wide", blocks=(_log(), _hold(), Note(words=MUST, size="lead"))),
        ),
        block=TitleBlock(title="Raised corner", form=FORM),
        paper="dense",
    )  # fmt: skip
    return Drawn((sheet,), numbers.entries)


def _who() -> Lines:
    return Lines(
        lines=(
            Line(label="machine", share=2),
            Line(label="corner"),
            Line(label="clock"),
            Line(label="date, time"),
            Line(label="who", share=1.4),
            Line(label="second adult", share=1.4),
        )
    )


def _stops() -> Boxes:
    return Boxes(boxes=tuple(Box(words=text(one)) for one in STOPS), stacked=True, voice="must")


def _walk() -> Lines:
    return Lines(lines=tuple(Line(label=label, unit=unit) for label, unit in LIST), stacked=True, ticked=True)


def _gauge() -> tuple[Lines, Note]:
    lines = Lines(lines=(Line(label="go on from"), Line(label="to"), Line(label="lower now over"), Line(label="unit")))
    return (lines, Note(words=text("Between them, or under the first: lower and ask. No band: no lift."), size="small"))


def _order() -> Numbered:
    return Numbered(
        items=tuple(Item(number=str(n), lead=lead, words=text(words)) for n, (lead, words) in enumerate(ORDER, 1))
    )


def _plan() -> Figure:
    blank = machine.CornerLook(state="sound", words=())
    looks = dict.fromkeys(machine.DRIVEN, blank)
    drawing = machine.plan("forage-harvester", looks, scale=100.0, labels=False)
    return Figure(
        drawing=drawing,
        caption=text("Draw in: the corner, jack, crib, chocks, rear blocks, hoist legs, forks, where each of you stands, the way out."),
    )  # fmt: skip


def _tonnes(numbers: Numbers, name: str, newtons: float, source: str, up: bool) -> Shown:
    number = Number(name=name, kind="mass", si=newtons / GRAVITY, basis="computed", source=source)
    return numbers.show(number, digits=2, toward="up" if up else "down", with_basis=False)


def _loads(numbers: Numbers) -> tuple[Table, Note]:
    """The heaviest corner of each kind of machine."""
    source = "guesses of the trade at their careful corners; three supports, docs/engines/holding.md"
    rows = [
        Row(cells=(
            text(NAMES.get(row.kind, row.label)),
            text(_tonnes(numbers, f"blank/{row.kind}/jack", row.jack, source, up=True)),
            text(_tonnes(numbers, f"blank/{row.kind}/crib", row.crib, source, up=True)),
        ))
        for row in heaviest_corners()
    ]  # fmt: skip
    columns = (
        Column(heading="kind", share=2.4),
        Column(heading="on the jack", to="right", share=1.5),
        Column(heading="on the crib", to="right", share=1.5),
    )
    note = text(
        "Jack 0.3 to 0.5 m inboard of the wheel, crib beside it, farther in. A plate must hold 1.25 times that."
    )
    return (Table(columns=columns, rows=tuple(rows)), Note(words=note, size="small"))


def _cribs(numbers: Numbers) -> tuple[Table, Note]:
    """What a crib of square timber holds."""
    source = "lower of NDS and EN 1995, wet, kind unknown; docs/engines/holding.md"
    rows = []
    for row in crib_table():
        side = Number(name=f"blank/crib/{row.section:g}", kind="length", si=row.section, basis="assumed", source="a size of timber")  # fmt: skip
        rows.append(Row(cells=(
            text(numbers.show(side, digits=2 if row.section < 0.1 else 3, with_basis=False), " square"),
            text(_tonnes(numbers, f"blank/crib/{row.section:g}/two", row.two, source, up=False)),
            text(_tonnes(numbers, f"blank/crib/{row.section:g}/three", row.three, source, up=False)),
        )))  # fmt: skip
    columns = (
        Column(heading="timber", share=2.0),
        Column(heading="two a layer", to="right", share=1.5),
        Column(heading="three a layer", to="right", share=1.5),
    )
    note = text(
        "Plate 300 mm fore and aft over all of them. Timbers six sides long or more; no higher than they are long. Soft ground: a mat first."
    )
    return (Table(columns=columns, rows=tuple(rows)), Note(words=note, size="small"))


def _log() -> Lines:
    """When it was looked at, by whom."""
    whens = ("after 10 minutes: who", "at a break", "at a break", "after rain", "evening", "next morning")
    return Lines(lines=tuple(Line(label=one) for one in whens))


def _hold() -> HoldPoint:
    return HoldPoint(
        lead="Hold point, before anyone reaches under it.",
        words=text("On wood, jack slack, chocks seen by two, nobody in the cab, key with"),
        lines=("who holds the key; who looked second",),
    )
