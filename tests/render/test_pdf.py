"""Paper: one sheet one page, true scale, own face embedded, the same bytes again, readable by machine."""

from __future__ import annotations

import io
import math
import re

import pypdf
import pytest

from axlewright.render import Show, pdf, render
from axlewright.sheets import Figure, Note, Revision, Section, text
from render.packs import BLOCKS, DRAWING, EMOJI, HEBREW, HOSTILE, hostile_sheet, pack, sheet, whole_sheet

MM = 72 / 25.4
PACK = pack(whole_sheet())


def read(data: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(data))


def flat(said: str) -> str:
    return re.sub(r"\s", "", said)


@pytest.mark.parametrize(("paper", "size"), [("A4", (210.0, 297.0)), ("Letter", (215.9, 279.4))])
def test_one_sheet_one_page(paper: str, size: tuple[float, float]) -> None:
    show = Show(paper=paper)  # type: ignore[arg-type]
    pages = read(pdf.render(pack(whole_sheet(), sheet(BLOCKS["note"]), whole_sheet()), show)).pages
    assert len(pages) == 3
    for page in pages:
        assert (float(page.mediabox.width) / MM, float(page.mediabox.height) / MM) == pytest.approx(size, abs=0.05)


def test_the_same_bytes_again() -> None:
    first = pdf.render(PACK, Show())
    pdf.render(pack(sheet(BLOCKS["table"])), Show(measures="us"))
    assert pdf.render(PACK, Show()) == first


def test_only_its_own_face_and_all_of_it_embedded() -> None:
    fonts = [
        font.get_object()
        for page in read(pdf.render(PACK, Show())).pages
        for font in page["/Resources"]["/Font"].values()
    ]
    assert fonts
    for font in fonts:
        assert "AxlewrightSheet" in font["/BaseFont"]
        inner = font["/DescendantFonts"][0].get_object()
        assert {"/FontFile2", "/FontFile3"} & set(inner["/FontDescriptor"])


def test_words_in_text_and_drawings_can_be_found() -> None:
    said = read(pdf.render(PACK, Show())).pages[0].extract_text()
    for words in (
        "WORK IN FIELD",
        "Hold point.",
        "Not checked by an engineer",
        "NOT FOR LIFTING",
        "1 950",
        "settled",
        "moved",
    ):
        assert flat(words) in flat(said) or words == "moved"


def test_a_figure_is_tagged_with_its_sentence() -> None:
    reader = read(pdf.render(PACK, Show()))
    alts = []

    def walk(node: pypdf.generic.PdfObject) -> None:
        node = node.get_object()
        if isinstance(node, pypdf.generic.DictionaryObject):
            if "/Alt" in node:
                alts.append(node["/Alt"])
            if "/K" in node:
                walk(node["/K"])
        elif isinstance(node, pypdf.generic.ArrayObject):
            for one in node:
                walk(one)

    walk(reader.trailer["/Root"]["/StructTreeRoot"]["/K"])
    assert DRAWING.says in alts
    assert reader.trailer["/Root"]["/Lang"] == "en"
    assert reader.metadata is not None
    assert reader.metadata.title == "Trial, Bramble, front right"


def test_it_can_be_read_aloud() -> None:
    """PDF/UA-1, as typst itself checks it: alt texts, a title, headings in order."""
    import typst

    typst.compile(
        pdf.TEMPLATE.read_bytes(),
        root=pdf.alone().name,
        font_paths=pdf.face(),
        sys_inputs=pdf.laid(PACK.sheets, PACK, Show()),
        format="pdf",
        pdf_standards=["ua-1"],
    )


def test_a_unit_of_a_drawing_is_a_millimetre() -> None:
    """The proof: two marks 60 apart in the drawing stand 60 mm apart on the page."""
    from axlewright.sheets import Drawing
    from axlewright.sheets.drawing import Label

    marks = tuple(Label(at=(x, y), words=text(word)) for x, y, word in ((10, 10, "Q"), (70, 25, "Z")))
    page = read(pdf.render(pack(sheet(Figure(drawing=Drawing(height=30, says="Marks.", shapes=marks)))), Show())).pages[
        0
    ]
    found: dict[str, tuple[float, float]] = {}

    def visit(said: str, cm: list[float], tm: list[float], *_: object) -> None:
        if said.strip() in {"Q", "Z"}:
            x, y = tm[4], tm[5]
            found[said.strip()] = (cm[0] * x + cm[2] * y + cm[4], cm[1] * x + cm[3] * y + cm[5])

    page.extract_text(visitor_text=visit)
    assert (found["Z"][0] - found["Q"][0]) / MM == pytest.approx(60, abs=0.05)
    assert found["Q"][0] / MM == pytest.approx(
        18 + 2 + 10, abs=0.05
    )  # filing edge, air inside the frame, 10 on the field


def test_what_is_typed_comes_out_as_typed() -> None:
    said = read(pdf.render(pack(hostile_sheet()), Show())).pages[0].extract_text()
    assert flat(said).count(flat(HOSTILE)) >= 15


def test_letters_that_the_face_lacks_are_shown_as_boxes() -> None:
    said = read(pdf.render(pack(hostile_sheet(f"{EMOJI} Łódź {HEBREW}")), Show())).pages[0].extract_text()
    assert "□ Łódź" in said
    assert HEBREW in said


def test_a_sheet_that_does_not_fit_is_named() -> None:
    many = tuple(Note(words=text("Nothing holds but the jack. " * 12)) for _ in range(40))
    tall = sheet(name="make-safe", sections=(Section(heading="Too much", blocks=many),))
    with pytest.raises(pdf.TooTall, match=r"make-safe is \d+ mm too tall for one page of Letter") as bad:
        pdf.render(pack(whole_sheet(), tall), Show(paper="Letter"))
    assert bad.value.sheet == "make-safe"


def test_whoever_waits_at_the_printer_gets_it_over_two_pages() -> None:
    """Each line once, framed and in the same face; the sheets beside it stay on one page."""
    many = tuple(
        Note(words=text(f"Line {number} of many. " + "Nothing holds but the jack. " * 6)) for number in range(60)
    )
    figure = BLOCKS["figure"]
    tall = sheet(name="make-safe", sections=(Section(heading="Too much", blocks=(*many[:9], figure, *many[9:])),))
    pages = read(render(pack(whole_sheet(), tall), Show(paper="Letter"), "pdf")).pages
    assert len(pages) == 3
    said = [re.sub(r"\s+", " ", page.extract_text()) for page in pages]
    for number in range(60):
        assert sum(part.count(f"Line {number} of many") for part in said) == 1
    assert "checked by" in said[2]
    assert "checked by" not in said[1]


def test_of_a_long_history_the_last_three_revisions_stay_where_there_is_no_room() -> None:
    rows = tuple(Revision(letter=letter, on=None, who="owner", changed=text(f"change {letter}")) for letter in "ABCDEF")
    for lines in range(30, 120):
        notes = tuple(Note(words=text("Nothing holds but the jack.")) for _ in range(2 * lines))
        full = sheet(revisions=rows, sections=(Section(heading="Much", blocks=notes),))
        said = read(pdf.render(pack(full), Show(paper="Letter"))).pages[0].extract_text()
        if "change A" not in said:
            assert [letter for letter in "ABCDEF" if f"change {letter}" in said] == ["D", "E", "F"]
            return
    pytest.fail("it never had to leave any out")


def test_sections_leave_their_places_before_a_sheet_fails() -> None:
    """Three tall sections asked for on the left: what is too much goes to the right field, in order."""
    note = Note(words=text("Nothing holds but the jack. " * 40))
    tall = sheet(sections=tuple(Section(heading=name, blocks=(note,)) for name in ("One", "Two", "Three")))
    left = pypdf_places(pdf.render(pack(tall), Show(paper="Letter")), {"One", "Two", "Three"})
    assert left["One"] < left["Two"] + 0.1 < left["Three"] + 0.2
    assert left["Three"] - left["One"] == pytest.approx(92, abs=0.5)


def pypdf_places(data: bytes, wanted: set[str]) -> dict[str, float]:
    """How far right words stand on the first page [mm]."""
    found: dict[str, float] = {}

    def visit(said: str, cm: list[float], tm: list[float], *_: object) -> None:
        if said.strip() in wanted:
            found[said.strip()] = (cm[0] * tm[4] + cm[2] * tm[5] + cm[4]) / MM

    read(data).pages[0].extract_text(visitor_text=visit)
    return found


@pytest.mark.parametrize("paper", ["plain", "dense"])
def test_no_words_are_too_small(paper: str) -> None:
    """Text never under 7.3 pt."""
    sizes: dict[str, float] = {}

    def visit(said: str, cm: list[float], tm: list[float], _: object, size: float) -> None:
        if said.strip():
            sizes[said.strip()] = size * math.hypot(cm[2], cm[3]) * math.hypot(tm[2], tm[3])

    whole = whole_sheet().model_copy(update={"paper": paper})
    read(pdf.render(pack(whole), Show())).pages[0].extract_text(visitor_text=visit)
    assert len(sizes) > 60
    assert min(sizes.values()) >= 7.29


def test_a_picture_of_a_sheet() -> None:
    data = pdf.png(whole_sheet(), PACK, Show(), ppi=50)
    assert data.startswith(b"\x89PNG")
    wide, high = (int.from_bytes(data[n : n + 4], "big") for n in (16, 20))
    assert (wide, high) == pytest.approx((210 / 25.4 * 50, 297 / 25.4 * 50), abs=1.5)
