"""The Seller's yard sheet: does it fit, is it sound, what to pay and what to have written. Blank, it is the Buyer's list."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from axlewright.plan.sheet.band_words import BandWords
from axlewright.plan.sheet.frame import Drawn, Frame, Number, Numbers
from axlewright.plan.sheet.steps_page import in_columns
from axlewright.plan.steps.bands import printed
from axlewright.sheets import (
    Boxes,
    Deciding,
    Figure,
    HoldPoint,
    Lines,
    Note,
    Numbered,
    Run,
    Section,
    Sheet,
    Table,
    Text,
    TitleBlock,
)
from axlewright.sheets.blocks import Block, Box, Column, Item, Line, Row
from axlewright.sheets.figures import plug
from axlewright.trade.cards import Seller, cards
from axlewright.trade.steps import Steps
from axlewright.trade.steps_read import steps

ROWS = 3
FORM = "A"
BLANK = "________"


@dataclass(frozen=True, slots=True)
class SellerFacts:
    """What is known before one goes.

    Attributes:
        frame: title block
        ours: what our own drive measures, by the words of the fit table
        twin: input turns over five turns of the wheel, counted at the twin
        rock_limit: the book's limit of float and rock
        worth: the most it is worth to us
        price: what is asked
        seller: who sells
    """

    frame: Frame
    ours: Mapping[str, Sequence[str | Number]] = field(default_factory=dict)
    twin: float | None = None
    rock_limit: Number | None = None
    worth: Number | None = None
    price: Number | None = None
    seller: str = ""


def sellers_yard_sheet(rows: Steps, facts: SellerFacts) -> Drawn:
    """The sheet for the clipboard, one page."""
    numbers = Numbers()
    words = cards().seller
    deciding = []
    if facts.worth:
        deciding.append(Deciding(number=(numbers.show(facts.worth, toward="down"),), words=("worth at most, to us",)))
    if facts.price:
        deciding.append(Deciding(number=(numbers.show(facts.price),), words=("asked",)))
    frame = facts.frame
    head: Text = (Run(voice="strong", words=("Seller's yard",)), f" · {facts.seller}" if facts.seller else "")
    sheet = Sheet(
        name="sellers-yard",
        head=tuple(p for p in head if p),
        answer=("Fits by calliper and by count, or it stays there.",),
        deciding=tuple(deciding),
        sections=_sections(rows, words, facts, numbers),
        revisions=frame.revisions[-ROWS:],
        block=frame.block("Seller's yard"),
        paper="dense",
    )
    return Drawn((sheet,), numbers.entries)


def blank_buyers_list() -> Drawn:
    """The same as a blank form, with room for what our own drive measures."""
    numbers = Numbers()
    sheet = Sheet(
        name="buyers-list",
        head=(Run(voice="strong", words=("Buyer's list",)), ", one side, to print. Calliper, chalk, magnet"),
        answer=("Fits by calliper and by count, or it stays there.",),
        sections=_sections(steps(), cards().seller, SellerFacts(Frame()), numbers),
        block=TitleBlock(title="Buyer's list", form=FORM, measures="hand, mm"),
        paper="dense",
    )
    return Drawn((sheet,), numbers.entries)


def _sections(rows: Steps, words: Seller, facts: SellerFacts, numbers: Numbers) -> tuple[Section, ...]:
    telling = BandWords(rows, numbers)
    found = [
        Section(heading="A. On the telephone", blocks=(_asked(words),)),
        Section(
            heading="B. Does it fit", aside="ours, theirs; calliper, not eye", blocks=(_fit(words, facts, numbers),)
        ),
        Section(
            heading="C. Count five turns of the output",
            aside="to an eighth of a turn",
            blocks=_count(rows, facts, telling),
        ),
        Section(heading="D. Is it sound", aside="before it is washed", blocks=(_sound(words), _float(facts, numbers))),
        Section(
            heading="The plug, true size", aside="photograph it on this card", blocks=(Figure(drawing=plug.card()),)
        ),
        Section(
            heading="E. Worth, and terms",
            aside="written and signed before money moves",
            blocks=_terms(rows, words, facts, numbers),
        ),
    ]
    return in_columns(found)


def _asked(words: Seller) -> Lines:
    return Lines(stacked=True, lines=tuple(Line(label=q) for q in words.phone))


def _fit(words: Seller, facts: SellerFacts, numbers: Numbers) -> Table:
    rows = tuple(
        Row(
            cells=(
                (fit.what,),
                numbers.told(facts.ours.get(fit.what, (BLANK,)), with_basis=False),
                (BLANK, f" {fit.unit}" if fit.unit else ""),
                ("□",),
            )
        )
        for fit in words.fits
    )
    columns = (
        Column(heading="", share=1.9),
        Column(heading="ours"),
        Column(heading="theirs"),
        Column(heading="fits", share=0.4),
    )
    return Table(columns=columns, rows=rows)


def _count(rows: Steps, facts: SellerFacts, telling: BandWords) -> tuple[Block, ...]:
    band = rows.band["fu-ratio"]
    cut = printed(band, {"twin": (facts.twin, facts.twin)}, {}) if facts.twin else None
    lines = Lines(
        lines=(
            Line(label="at the twin", written=(f"{facts.twin:g}",) if facts.twin else ()),
            Line(label="first count"),
            Line(label="second count"),
        )
    )
    if cut is None:
        says = (
            "Within 1 in 100 of the twin: it fits. To 2 in 100: count ten turns. More: another ratio, it does not fit."
        )
        return lines, Note(words=(says,))
    return lines, telling.block(rows.task["fu-turns"], rows.reading["fu-ratio"], band, cut)


def _sound(words: Seller) -> Numbered:
    return Numbered(
        items=tuple(
            Item(number=str(n), lead=f"{s.look[0].upper()}{s.look[1:]}.", words=(s.how,), boxes=s.boxes)
            for n, s in enumerate(words.sound, 1)
        )
    )


def _float(facts: SellerFacts, numbers: Numbers) -> Lines:
    limit = facts.rock_limit
    written: Text = (numbers.show(limit),) if limit else ()
    return Lines(
        lines=(Line(label="float", unit="mm"), Line(label="the book's limit", written=written), Line(label="by"))
    )


def _terms(rows: Steps, words: Seller, facts: SellerFacts, numbers: Numbers) -> tuple[Block, ...]:
    hold = rows.task["fu-hold"]
    assert hold.hold
    asked: Text = (numbers.show(facts.price),) if facts.price else ()
    worth: Text = (numbers.show(facts.worth, toward="down"),) if facts.worth else ()
    return (
        Lines(
            lines=(Line(label="worth at most", written=worth), Line(label="asked", written=asked), Line(label="agreed"))
        ),
        Boxes(lead="On the receipt:", boxes=tuple(Box(words=(t,)) for t in words.terms)),
        HoldPoint(lead=f"{hold.title}.", words=(hold.hold.must, "."), lines=("signed, buyer", "signed, seller")),
        Boxes(lead="Take along:", boxes=tuple(Box(words=(t,)) for t in words.take)),
        Note(words=(Run(voice="must", words=(words.last,)),), size="lead"),
    )
