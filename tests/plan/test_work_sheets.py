"""Fill and looks, Bring home, Seller's yard, Buyer's list, Cab card and key tags: what must stand on them, one page each."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import pytest

from axlewright.plan.pack import pack
from axlewright.plan.sheet.bring_home import BringHomeFacts, bring_home_sheet
from axlewright.plan.sheet.fill import Clocks, FillFacts, fill_sheet
from axlewright.plan.sheet.frame import Drawn, Frame, Number
from axlewright.plan.sheet.key_tag import TagFacts, key_tag_sheet
from axlewright.plan.sheet.measure import broken, width
from axlewright.plan.sheet.sellers_yard import SellerFacts, blank_buyers_list, sellers_yard_sheet
from axlewright.plan.steps.afterwards import brought
from axlewright.plan.steps.bands import by_verdicts
from axlewright.plan.steps.jobs import Here, plan
from axlewright.render import pdf, render
from axlewright.render.show import Show, Words
from axlewright.sheets import Bands, Caution, Drawing, Figure, HoldPoint, Numbered, Revision, Table
from axlewright.sheets.blocks import Block
from axlewright.sheets.drawing import Group, Label, Shape
from axlewright.trade.cards import cards
from axlewright.trade.networks import weave
from axlewright.trade.steps_read import steps

ROWS = steps()
EVERY = frozenset(ROWS.words.when)
FRAME = Frame(
    corner="Wren, small combine, front left",
    trouble="31",
    revision="D",
    on=date(2027, 8, 9),
    yard="Low Meadow (invented)",
    made_by="owner",
    revisions=(
        Revision(
            letter="D", on=date(2027, 8, 9), who="owner, helper", changed=("set down, and what was done on the day",)
        ),
    )
    * 7,
)
CLOCKS = Clocks(6120.3, 4408.9)
JOBS = plan(ROWS, "fit a used drive", Here(when=EVERY)).now
CHECKS = brought(ROWS, JOBS, "used")
LITRES = Number("drive/fill", "volume", 0.0125, "book", "the machine's own book")


def fill(**more: object) -> Drawn:
    given = {
        "litres": LITRES,
        "figures": {"fill": (12.5, 12.5)},
        "given": by_verdicts(),
        "oil": "80W-90",
        "turning_plug": True,
        **more,
    }
    return fill_sheet(ROWS, FillFacts(job=JOBS[-1], frame=FRAME, checks=CHECKS, **given))  # type: ignore[arg-type]


def tags(**more: object) -> Drawn:
    known = {
        "machine": "small-combine",
        "corner": "front-left",
        "drive": "W3",
        "fitted": date(2027, 8, 9),
        "old": "W1",
        "why": "chips on the plug; the wheel side ran",
        "clocks": CLOCKS,
    }
    return key_tag_sheet(ROWS, TagFacts(FRAME, CHECKS, **{**known, **more}))  # type: ignore[arg-type]


def seller(**more: object) -> Drawn:
    return sellers_yard_sheet(
        ROWS, SellerFacts(FRAME, twin=33.5, rock_limit=Number("r", "length", 0.0004, "book", "the book"), **more)
    )  # type: ignore[arg-type]


ALL = {
    "fill": fill(clocks=CLOCKS),
    "fill before set-down": fill(),
    "fill, nothing known": fill_sheet(ROWS, FillFacts(JOBS[-1], Frame(), CHECKS)),
    "fill after a reseal": fill_sheet(ROWS, FillFacts(plan(ROWS, "reseal", Here(by="machine")).now[-1], FRAME, CHECKS)),
    "bring home": bring_home_sheet(ROWS, BringHomeFacts(FRAME, given=by_verdicts())),
    "bring home, large, first time": bring_home_sheet(ROWS, BringHomeFacts(FRAME, Here(size="large", first_time=True))),
    "seller": seller(worth=Number("w", "money", 3100.0, "computed", "s"), price=Number("p", "money", 3400.0, "assumed", "asked")),
    "seller, nothing known": sellers_yard_sheet(ROWS, SellerFacts(Frame())),
    "buyer's list": blank_buyers_list(),
    "tags": tags(),
    "tags, nothing known": key_tag_sheet(ROWS, TagFacts(Frame())),
}  # fmt: skip


def blocks(drawn: Drawn) -> Iterator[Block]:
    return (b for sheet in drawn.sheets for s in sheet.sections for b in s.blocks)


def text(drawn: Drawn, **show: object) -> str:
    return " ".join(
        render(pack(drawn), Show(**show), "text").decode().replace("\u202f", " ").replace("\u00a0", " ").split()
    )  # type: ignore[arg-type]


@pytest.mark.parametrize("name", ALL)
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_one_page(name: str, paper: str) -> None:
    for measures in ("metric", "us"):
        assert pdf.render(pack(ALL[name]), Show(paper=paper, measures=measures))[:4] == b"%PDF"  # type: ignore[arg-type]


def test_the_fill_goes_by_litres_and_a_second_person_before_the_first_turn() -> None:
    (hold,) = (b for b in blocks(ALL["fill"]) if isinstance(b, HoldPoint))
    assert "second person has seen oil" in hold.lead
    assert hold.lines == ("seen by",)
    told = text(ALL["fill"])
    assert "12.5 L bk" in told
    assert told.index("Pour, on the wood") < told.index("Level, on the ground") < told.index("First move")
    assert "cast mark stands level" in told
    assert "11.9 to 13.1 L" in told  # a twentieth either way, cut inwards to tenths


def test_steps_on_the_fill_carry_the_numbers_of_the_step_card() -> None:
    place = {s.task.title: n for n, s in enumerate((s for s in JOBS[-1].steps if s.part != "walk-round"), 1)}
    items = [i for b in blocks(ALL["fill"]) if isinstance(b, Numbered) for i in b.items]
    assert len(items) == 14
    words = Words(Show(), ALL["fill"].basis)
    titles = [(i.lead or words.plain(i.words[:1])).rstrip(".").replace("\u00a0", " ") for i in items]
    assert [int(i.number) for i in items] == [place[title] for title in titles]


def test_no_brakes_where_none_were_opened() -> None:
    assert "3. Brakes" in text(ALL["fill"])
    assert "3. Brakes" not in text(ALL["fill after a reseal"])


def test_looks_stand_as_the_clock_will_read() -> None:
    """Set down at 6,120.3: an hour on reads 6,121; the second clock runs slower by 1.5 at most."""
    (table,) = (b for b in blocks(ALL["fill"]) if isinstance(b, Table))
    words = Words(Show(), ALL["fill"].basis)
    nuts = [words.plain(cell).replace("\u202f", "") for cell in table.rows[0].cells]
    assert nuts[1:] == ["6121 · 6130 · 6170 · 6420", "4409 · 4415 · 4442 · 4608"]
    before = next(b for b in blocks(ALL["fill before set-down"]) if isinstance(b, Table))
    heads = [column.heading for column in before.columns]
    assert heads[:4] == ["look", "+ 1 h", "+ 10 h", "+ 50 h"]
    for check, row in zip(CHECKS, before.rows, strict=True):
        lines = [bool(words.plain(cell)) for cell in row.cells[1:]]
        assert lines == [float(head[2:-2]) in check.hours for head in heads[1:]], check.id  # a line where it falls due


def test_both_ways_home_and_the_choice_before_them() -> None:
    drawn = ALL["bring home"]
    numbers = [i.number for b in blocks(drawn) if isinstance(b, Numbered) for i in b.items]
    (hold,) = (b for b in blocks(drawn) if isinstance(b, HoldPoint))
    assert sorted([*map(int, numbers), int(hold.lead.split()[0])]) == list(range(1, 14))
    told = text(drawn)
    assert told.index("Choose once") < told.index("Towed") < told.index("At home")
    assert told.index("Chaff can smoulder") < told.index("What the book says")
    assert told.count("Way back: ") == 2
    shown = {b.lead for b in blocks(drawn) if isinstance(b, Caution)}
    must = {
        ROWS.caution[c].lead
        for s in weave(ROWS, "bring-home", ("towed", "carried")).steps
        for c in s.task.cautions
        if ROWS.caution[c].severity == "stop"
    }
    assert must <= {lead.replace("\u00a0", " ") for lead in shown}


def test_the_seller_is_asked_by_count_and_told_the_most() -> None:
    told = text(ALL["seller"])
    assert "€ 3 100" in told
    assert "33.25 to 33.75 turns go on; fits" in told
    assert "Walking away is an answer." in told
    assert all(f.what in told for f in cards().seller.fits)
    assert "limit 0.4 mm" in told
    blank = text(ALL["buyer's list"])
    assert "Within 1 in 100 of the twin: it fits." in blank
    assert "33" not in blank


def labels(drawing: Drawing) -> Iterator[Label]:
    def within(shapes: tuple[Shape, ...]) -> Iterator[Label]:
        for shape in shapes:
            if isinstance(shape, Group):
                yield from within(shape.shapes)
            elif isinstance(shape, Label):
                yield shape

    return within(drawing.shapes)


def test_cab_card_and_tags_say_what_the_driver_must_know() -> None:
    figures = [b.drawing for b in blocks(ALL["tags"]) if isinstance(b, Figure)]
    assert len(figures) == 5
    said = [d.says for d in figures]
    assert all(line in said[0] for line in (*cards().cab.stop_list, *cards().cab.before_road, cards().cab.last))
    assert all(len(line.replace(",", "").split()) <= 7 for line in cards().cab.stop_list)
    assert "NO OIL" in said[2]
    assert "DO NOT MOVE" in said[3]
    assert "chips on the plug" in said[4]
    for drawing in figures:
        for label in labels(drawing):
            words = "".join(w if isinstance(w, str) else "000 000" for w in label.words)
            wide = width(words, 9.1 if label.size == "text" else 14.2, label.size == "key")
            if label.anchor == "start":
                assert label.at[0] + wide <= drawing.width + 0.5, words


def test_a_slower_speed_of_the_book_stands_on_the_card_rounded_down() -> None:
    slow = Number("book/speed", "speed", 8.9 / 3.6, "book", "the machine's own book")
    names = {
        w.name: w
        for b in blocks(tags(speed=slow))
        if isinstance(b, Figure)
        for label in labels(b.drawing)
        for w in label.words
        if not isinstance(w, str) and hasattr(w, "name")
    }
    assert names["book/speed"].toward == "down"
    assert "cards/road-speed" not in names


def test_nothing_known_leaves_lines_to_write_on_and_no_number() -> None:
    assert not [n for n in ALL["tags, nothing known"].basis if n.startswith("steps/")]
    assert "________" in text(ALL["fill, nothing known"])
    bands = [b for b in blocks(ALL["fill, nothing known"]) if isinstance(b, Bands)]
    assert bands[0].bands[0].reads == ("____ L",)


def test_words_are_broken_where_they_fit() -> None:
    said = "Nobody starts, moves or climbs it while the corner stands on wood, and for 25 mm of it nothing else counts."
    rows = broken(said, 60.0, 9.1)
    assert " ".join(rows).replace("\u00a0", " ") == said
    assert all(width(row, 9.1) <= 60.0 for row in rows)
    assert len(rows) == 3


def test_the_cab_card_has_the_clock_readings_of_the_nuts() -> None:
    """Set down at 6,120.3: the four readings stand over their boxes; before it there are lines to write them on."""
    words = Words(Show(), ALL["tags"].basis)
    (card, *_) = (b for b in blocks(ALL["tags"]) if isinstance(b, Figure))
    heads = [
        words.plain(s.words).replace("\u202f", "")
        for s in card.drawing.shapes
        if isinstance(s, Label) and s.voice == "strong"
    ]
    assert [head for head in heads if head.isdigit()] == ["6121", "6130", "6170", "6420"]


def test_where_no_wheel_came_off_the_road_hangs_on_the_verdict_alone() -> None:
    said = text(key_tag_sheet(ROWS, TagFacts(FRAME)))
    assert "Only while GO ON ROAD says yes" in said
    assert "Not at all before" not in said
    assert "Only while GO ON ROAD" not in text(ALL["tags"])
