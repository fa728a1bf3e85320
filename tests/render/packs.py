"""Packs made by hand for the renderers: one of every kind of block, and one that tries to break out."""

from __future__ import annotations

import datetime
from typing import get_args

from axlewright.sheets import (
    Bands,
    BasisEntry,
    Block,
    Boxes,
    Caution,
    Day,
    Deciding,
    DotStrip,
    Drawing,
    Figure,
    Grade,
    HoldPoint,
    Lines,
    Note,
    Numbered,
    Pack,
    Revision,
    Run,
    Section,
    Sheet,
    Shown,
    Strip,
    Table,
    Text,
    TitleBlock,
    Values,
    VerdictLine,
    text,
)
from axlewright.sheets.blocks import Band, Box, Column, Dot, Item, Line, Row
from axlewright.sheets.drawing import (
    Area,
    Arrow,
    Balloon,
    Circle,
    Dimension,
    Ground,
    Group,
    Hatch,
    Label,
    Leader,
    Mark,
    Path,
    Shape,
)

TODAY = datetime.date(2026, 8, 28)
HOSTILE = '<script>x</script> #let *b* _i_ $x^2$ @a \\n `c` [d] {e} & "q" </style>'
EMOJI, HEBREW = "\N{TRACTOR}", "שלום"

BASIS = {
    entry.name: entry
    for entry in (
        BasisEntry(name="trial/torque", kind="torque", value=383.0, basis="computed", source="by hand"),
        BasisEntry(name="trial/load", kind="mass", value=7431.0, basis="assumed", source="by hand"),
        BasisEntry(name="trial/clock", kind="duration", value=4748 * 3600.0, basis="measured", source="by hand"),
        BasisEntry(name="trial/price", kind="money", value=5150.0, basis="book", source="by hand"),
    )
}
TORQUE = Shown(name="trial/torque", si=383.0, low=331.0, high=447.0, toward="down")
LOAD = Shown(name="trial/load", si=7431.0, toward="up", digits=2)
CLOCK = Shown(name="trial/clock", si=4748 * 3600.0, on_tool="h", with_basis=False)
PRICE = Shown(name="trial/price", si=5150.0)


def strong(*words: str | Shown | Day) -> Run:
    return Run(voice="strong", words=words)


SHAPES: tuple[Shape, ...] = (
    Path(d="M2 30h20v-8a4 4 0 0 1 8 0q4 6 8 0t4 2c1 1 2 2 3 2s2 1 2 2z", role="paper"),
    Circle(at=(70, 14), r=6, role="thin"),
    Hatch(rings=(((50, 8), (60, 8), (60, 20), (50, 20)), ((53, 11), (57, 11), (57, 17), (53, 17))), fill="failing"),
    Group(
        shapes=(Path(d="M0 0 6 0 3 5z", role="outline"),),
        move=(10, 12),
        turn=30,
        scale=1.5,
        mirrored=True,
        context=True,
    ),
    Label(at=(2, 6), words=text("inside ", TORQUE), voice="soft"),
    Leader(at=(30, 24), to=((34, 9),), lines=(text("rock: not"), text("looked at")), unseen=True),
    Dimension(a=(2, 34), b=(40, 34), away=-6, words=text("1 950")),
    Dimension(a=(44, 22), b=(44, 34), away=-4, words=text("785"), voice="must", direction="up"),
    Balloon(at=(80, 30), number="12", r=4.05, ringed=True),
    Arrow(points=((62, 24), (62, 32)), role="solid-must"),
    Mark(sign="centre of gravity", at=(54, 30)),
    Mark(sign="eye", at=(60, 5)),
    Mark(sign="drop", at=(66, 30)),
    Ground(y=44, from_x=2, to_x=60),
    Area(outline=((64, 8), (76, 8), (76, 20), (64, 20)), says="front right", goes_to="/corner/trial"),
)
DRAWING = Drawing(height=50, says="A trial figure. It holds every kind of shape.", shapes=SHAPES)

BLOCKS: dict[str, Block] = {
    "note": Note(
        words=text("Read ", TORQUE, " and ", LOAD, " before ", Day(on=datetime.date(2026, 9, 1)), "."), size="lead"
    ),
    "values": Values(rows=((text("torque"), text(TORQUE)), (text("load"), text(LOAD)), (text("price"), text(PRICE)))),
    "table": Table(
        columns=(Column(heading="stage", share=2), Column(heading="load", to="right")),
        rows=(
            Row(cells=(text("header on"), text("stop")), voice="struck"),
            Row(cells=(text("header off"), text(LOAD))),
        ),
        caption="Loads by stage",
    ),
    "figure": Figure(drawing=DRAWING, twin=(text("In words: ", TORQUE),), caption=text("Ringed: a guide bush.")),
    "caution": Caution(lead="Hands and feet out from under.", words=text("Nothing holds but the jack.")),
    "hold": HoldPoint(lead="Hold point.", words=text("A feeler must not enter."), lines=("taken by",)),
    "numbered": Numbered(
        items=(
            Item(
                number="1",
                lead="Wipe",
                words=text("white paper."),
                aside=text("5 min"),
                boxes=("dry", "gear oil"),
                done=True,
            ),
            Item(
                number="1.29 ×",
                lead="Timber",
                words=text("holds."),
                drawing=Drawing(width=20, height=10, says="Wood.", shapes=()),
            ),
        )
    ),
    "boxes": Boxes(
        lead="WORK IN FIELD", boxes=(Box(words=text("no"), ticked=True), Box(words=text("not known"))), line=True
    ),
    "lines": Lines(
        lines=(
            Line(label="machine", share=2),
            Line(label="", boxes=("engine",)),
            Line(label="clock", written=text(CLOCK)),
        )
    ),
    "bands": Bands(
        bands=(
            Band(reads=text("to 557"), means=text(strong("go on")), voice="plain"),
            Band(reads=text("over 673"), means=text("lower now"), voice="must"),
        ),
        note=text("Likely 422."),
    ),
    "dots": DotStrip(
        quantity="money",
        low=0.0,
        high=20000.0,
        strips=(
            Strip(
                label=text("used drive"),
                dots=tuple(Dot(at=4000.0 + 100 * n, full=n % 7 == 0) for n in range(30)),
                middle=text(PRICE),
                middle_at=5150.0,
                beyond=2,
            ),
        ),
    ),
}


def title(name: str = "Trial", **fields: object) -> TitleBlock:
    given = {
        "corner": "Bramble, front right",
        "trouble": "14",
        "revision": "A",
        "on": TODAY,
        "yard": "Low Meadow (invented)",
    }
    return TitleBlock.model_validate(given | {"title": name} | fields)


def sheet(*blocks: Block, name: str = "trial", **fields: object) -> Sheet:
    given: dict[str, object] = {
        "name": name,
        "head": text(strong("Trial"), " · Bramble, front right"),
        "sections": (Section(heading="What there is", aside="trial", blocks=blocks),),
        "block": title(),
    }
    return Sheet.model_validate(given | fields)


def pack(*sheets: Sheet) -> Pack:
    return Pack(version="0.0.0", sheets=sheets, basis=BASIS)


def whole_sheet() -> Sheet:
    """A sheet with every block and every part."""
    left, right = ("values", "table", "figure", "numbered", "hold"), ("note", "boxes", "lines", "bands", "dots")
    return sheet(
        name="whole",
        grade=Grade(shop=False, words=text("table sheet, to decide with")),
        verdicts=(
            VerdictLine(line="WORK IN FIELD", word="no", words=text("chips on the plug."), stops=True),
            VerdictLine(line="GO ON ROAD", word="not known", words=text("rock by ", CLOCK, "."), unseen=True),
        ),
        answer=text("Set ", TORQUE, ": ", Run(voice="must", words=("your bolts are greased.",))),
        lead=text("Held by ", Run(voice="soft", words=(LOAD,)), "; ", Run(voice="struck", words=("not towed",)), "."),
        deciding=(
            Deciding(number=text(TORQUE), words=text("at the wrench")),
            Deciding(number=text(LOAD), words=text("on the jack")),
        ),
        sections=(
            Section(heading="Left", aside="1:50, mm", blocks=tuple(BLOCKS[kind] for kind in left)),
            Section(heading="Right", place="right", voice="must", blocks=tuple(BLOCKS[kind] for kind in right)),
            Section(heading="What must not be missed", place="wide", blocks=(BLOCKS["caution"], BLOCKS["caution"])),
        ),
        revisions=(
            Revision(letter="A", on=TODAY, who="owner", changed=text(strong("seen"), ": wet wheel side")),
            Revision(letter="B", on=datetime.date(2026, 9, 1), who="", changed=text(strong("settled")), ahead=True),
        ),
    )


def hostile_sheet(said: str = HOSTILE) -> Sheet:
    """A sheet whose every word is what somebody typed to break out."""
    words: Text = text(said)
    drawing = Drawing(height=12, says=said, shapes=(Label(at=(2, 8), words=words),))
    left: tuple[Block, ...] = (
        Note(words=text(said, Run(voice="must", words=(said,)))),
        Values(rows=((words, words),)),
        Table(columns=(Column(heading=said),), rows=(Row(cells=(words,)),), caption=said),
        Figure(drawing=drawing, twin=(words,), caption=words),
    )
    right: tuple[Block, ...] = (
        Caution(lead=said, words=words),
        HoldPoint(lead=said, words=words, lines=(said,)),
        Numbered(items=(Item(number="1", lead=said, words=words, aside=(), boxes=(said,)),)),
        Boxes(lead=said, boxes=(Box(words=words),), after=said),
        Lines(lines=(Line(label=said, written=words, unit="t"),), stacked=True),
        Bands(bands=(Band(reads=text("to 5"), means=words),), note=words),
    )
    sections = (Section(heading=said, blocks=left), Section(heading=said, place="right", blocks=right))
    return sheet(name="hostile", head=words, answer=words, sections=sections, block=title(said, corner=said))


def kinds() -> list[str]:
    """The kinds of block there are, as the model knows them."""
    union = get_args(Block)[0]
    return [one.model_fields["kind"].default for one in get_args(union)]
