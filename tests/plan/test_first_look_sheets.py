"""The First look and Make safe on paper: one page, whatever was seen, with every number's basis."""

from __future__ import annotations

import re
from datetime import date
from io import BytesIO

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from axlewright.plan.facts import Seen
from axlewright.plan.first_look import FirstLook, first_look
from axlewright.plan.sheet.first_look import blank_first_look
from axlewright.plan.sheet.first_look_trouble import first_look_sheet
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.make_safe import make_safe
from axlewright.render import Show, pdf, render
from axlewright.sheets import Figure, Pack, Revision, text
from axlewright.sheets.drawing import Leader
from axlewright.sheets.figures import machine, plug
from axlewright.sheets.figures.machine import CornerLook
from axlewright.trade.findings import findings
from axlewright.trade.first_look import ticks
from axlewright.yard import Hours

TODAY = date(2026, 7, 1)
FULL = Frame(
    corner="Tern, forage harvester, front left",
    trouble="3",
    revision="F",
    on=TODAY,
    yard="A trial yard with a long name",
    made_by="owner",
    revisions=tuple(
        Revision(letter=letter, on=TODAY, who="owner, helper", changed=text("seen: level low, thick paste on the plug and 3 more"))
        for letter in "ABCDEF"
    ),
)  # fmt: skip
PLAN = machine.plan("forage-harvester", {"front-left": CornerLook(circled=True)}, scale=300.0, labels=False)
SHOWS = (Show(), Show(measures="us", paper="Letter"))
CLOCK = Hours(4730)


def pack(drawn: Drawn) -> Pack:
    return Pack(version="trial", sheets=drawn.sheets, basis=drawn.basis)


def look_at(*ticked: str, before: tuple[Seen, ...] = ()) -> FirstLook:
    return first_look(ticked, clock=CLOCK, today=TODAY, before=before)


def words(drawn: Drawn, show: Show = SHOWS[0]) -> str:
    """What the one page says, its line breaks taken out."""
    reader = PdfReader(BytesIO(render(pack(drawn), show, "pdf")))
    assert len(reader.pages) == len(drawn.sheets) == 1
    return re.sub(r"\s+", " ", reader.pages[0].extract_text())


@pytest.mark.parametrize("show", SHOWS, ids=lambda show: show.paper)
def test_the_blank_form_is_one_page_with_all_that_is_asked(show: Show) -> None:
    said = words(blank_first_look(), show)
    for row in ticks("park").values():
        assert row.words.split(",")[0] in said
    for heading in ("A. Circle", "B. Park", "C. Five looks", "D. Then a wrench", "E. What it means", "F. So"):
        assert heading in said
    for lines in ("look again at clock reading", "who looked second", "by when", "never yes from these five"):
        assert lines in said
    assert "checked by" not in said, "a form to write on has the short title block"


def test_the_plug_card_on_the_blank_form_is_true_size() -> None:
    figures = [b for s in blank_first_look().sheets[0].sections for b in s.blocks if isinstance(b, Figure)]
    sizes = [figure.on_paper for figure in figures if figure.drawing == plug.card()]
    assert sizes == [1], "shrunk, a chip would look like a flake"


def test_the_blank_form_says_hand_units_and_its_letter() -> None:
    block = blank_first_look().sheets[0].block
    assert (block.form, block.measures) == ("A", "hand")


@pytest.mark.parametrize("show", SHOWS, ids=lambda show: show.paper)
@pytest.mark.parametrize(
    "ticked",
    [[f"park={one}" for one in ticks("park")], [f"{name}={grade.id}" for name, f in findings().items() for grade in f.grades]],
    ids=["all nine", "every finding at once"],
)  # fmt: skip
def test_make_safe_is_one_page_whatever_stops_it(ticked: list[str], show: Show) -> None:
    said = words(make_safe(look_at(*ticked), FULL), show)
    assert "Make it safe first" in said
    assert "for each cause one of its rows" in said


def test_make_safe_says_why_and_what_would_turn_it() -> None:
    said = words(make_safe(look_at("plug=chips"), FULL))
    assert "chips on the plug, rock not looked at: failing until the cover is off." in said
    assert "as in the field. Not even home." in said
    assert "Second look at the magnet plug, with a photo" in said
    assert "FIELD not known: not before level is looked at." in said
    assert "plug and rock every 10 h, next at" in said
    assert "ROAD stays no." in said
    assert "Cover off, or another drive fitted" in said
    assert "3 m and more all round" in said


def test_a_photo_needs_no_second_look() -> None:
    with_photo = first_look(["plug=chips"], photo=True)
    assert "Second look" not in words(make_safe(with_photo, Frame()))


def test_what_would_turn_it_is_judged_with_what_else_was_seen() -> None:
    clean = ("level=at-mark", "plug=paste", "bolts=still", "rock=none")
    alone = words(make_safe(look_at(*clean, "nuts=moved"), FULL))
    assert (
        "FIELD yes: level, plug, flange bolts, wheel nuts and rock are fresh, and nothing stands against it." in alone
    )
    both = words(make_safe(look_at(*clean, "nuts=moved", "cracks=crack"), FULL))
    assert "this one is lifted; FIELD stays no until the others are" in both


def test_cautions_are_those_of_what_was_seen() -> None:
    assert "goes through skin" in words(make_safe(look_at("fluid=jet"), FULL))
    assert "can leave acid" in words(make_safe(look_at("smoke=smoke"), FULL))
    assert "can leave acid" not in words(make_safe(look_at("plug=chips"), FULL))


def test_lengths_are_said_in_the_readers_measures_and_rounded_to_the_safe_side() -> None:
    said = words(make_safe(look_at("plug=chips"), FULL), SHOWS[1])
    assert "9.9 ft and more all round" in said, "3 m is 9.84 ft"
    assert "within 65 ft" in said, "20 m is 65.6 ft"


def test_an_empty_frame_leaves_lines_to_write_on() -> None:
    assert words(make_safe(look_at("plug=chips"), Frame()))
    assert words(first_look_sheet(look_at(), Frame()))


milder = st.fixed_dictionaries(
    {},
    optional={
        name: st.sampled_from([grade.id for grade in f.grades if not grade.stop]) for name, f in findings().items()
    },
)


@settings(max_examples=15, phases=[Phase.explicit, Phase.generate])  # shrinking a page takes minutes
@given(milder, st.sampled_from(SHOWS))
def test_the_first_look_of_a_trouble_is_one_page_whatever_was_seen(seen: dict[str, str], show: Show) -> None:
    look = look_at(*(f"{name}={grade}" for name, grade in seen.items()))
    drawn = make_safe(look, FULL) if look.make_safe else first_look_sheet(look, FULL, PLAN)
    assert words(drawn, show)


def test_the_first_look_of_a_trouble_tells_what_was_seen_and_what_was_not() -> None:
    before = (
        Seen("level", "low", 4, 1),
        Seen("plug", "thick", 4, 1),
        Seen("leak-wheel", "drips", 4, 1),
        Seen("bolts", "still", 4, 1),
    )
    drawn = first_look_sheet(look_at(before=before), FULL, PLAN)
    said = words(drawn)
    for told in ("level low", "plug thick", "drips here", "yesterday", "rock", "Wheel nuts not looked at"):
        assert told in said, told
    leaders = [s for s in _shapes(drawn) if isinstance(s, Leader)]
    assert sum(leader.unseen for leader in leaders) == 3  # heat, breather, rock
    # 10 h hold while it drips, 4 of them are gone: to 4 736; the plug 25 h: to 4 751
    assert re.search(r"Oil level low, finger touches 4.736", said)
    assert re.search(r"Magnet plug thick paste over 5 mm, still smooth 4.751", said)


def _shapes(drawn: Drawn) -> list[object]:
    return [
        s
        for section in drawn.sheets[0].sections
        for b in section.blocks
        if isinstance(b, Figure)
        for s in b.drawing.shapes
    ]


def test_the_next_look_is_told_with_what_each_outcome_would_mean() -> None:
    said = words(first_look_sheet(look_at("fluid=gear", "where=input", "breather=free", "level=at-mark"), FULL))
    assert "What the next look would mean: plug" in said
    assert "harmless side leaks" in said
    rock = words(
        first_look_sheet(look_at("fluid=gear", "where=input", "breather=free", "level=at-mark", "plug=paste"), FULL)
    )
    assert "What the next look would mean: rock" in rock
    assert "clunk by eye" in rock


@pytest.mark.parametrize("name", ["html", "text", "json"])
def test_every_renderer_knows_them(name: str) -> None:
    for drawn in (
        blank_first_look(),
        make_safe(look_at("park=nut"), FULL),
        first_look_sheet(look_at("plug=thick"), FULL, PLAN),
    ):
        for show in SHOWS:
            assert render(pack(drawn), show, name)


def test_a_sheet_too_tall_says_so() -> None:
    sheet = blank_first_look().sheets[0]
    twice = sheet.model_copy(update={"sections": sheet.sections * 2})
    with pytest.raises(pdf.TooTall, match="first-look is"):
        pdf.one(twice, pack(blank_first_look()), Show())
