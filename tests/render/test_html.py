"""The page of a sheet: strict HTML, nothing from elsewhere, no script, small; its parts for the rooms."""

from __future__ import annotations

import re
from typing import Any

import html5lib
import pytest

from axlewright.render import Show, html
from axlewright.sheets import Figure, Note, text
from render.packs import BASIS, DRAWING, EMOJI, HEBREW, HOSTILE, hostile_sheet, pack, sheet, whole_sheet

PACK = pack(whole_sheet())


def parsed(data: bytes) -> Any:
    """The page, by a parser that forgives nothing."""
    return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(data, transport_encoding="utf-8")


def said(node: Any) -> str:
    return "".join(node.itertext())


def test_a_pack_is_strict_html_with_unique_ids() -> None:
    root = parsed(html.render(pack(whole_sheet(), whole_sheet()), Show()))
    ids = [node.get("id") for node in root.iter() if node.get("id")]
    assert len(ids) == len(set(ids))
    referred = [node.get("aria-labelledby") for node in root.iter() if node.get("aria-labelledby")]
    assert referred
    assert set(referred) <= set(ids)


def test_a_page_wants_nothing_from_elsewhere() -> None:
    page = html.render(PACK, Show()).decode()
    assert not re.search(r"https?://(?!www\.w3\.org/2000/svg)|<script|<link|@import|url\(|javascript:", page)
    assert len(page.encode()) < 60_000


@pytest.mark.parametrize("words", [HOSTILE, f"{EMOJI} {HEBREW} Łódź", "&lt;b&gt;", "{{ 7 * 7 }} {% raw %}"])
def test_what_is_typed_comes_out_as_typed(words: str) -> None:
    root = parsed(html.render(pack(hostile_sheet(words)), Show()))
    assert not list(root.iter("script"))
    assert said(root.find(".//h1")) == words
    assert said(root.find(".//caption")) == words
    assert said(root.find(".//figcaption")) == words
    assert words in [said(node) for node in root.iter("{http://www.w3.org/2000/svg}text")] or words in [
        said(node) for node in root.iter("text")
    ]


def test_order_of_a_page() -> None:
    """Head, verdicts, answer, sections, revisions, title block."""
    page = html.render(PACK, Show()).decode()
    marks = ['class="whl"', 'class="vd"', "<h1>", "<h2>", 'class="rev"', 'class="tb"']
    places = [page.index(mark) for mark in marks]
    assert places == sorted(places)


def test_a_blank_box_says_that_no_engineer_checked() -> None:
    assert b'<span class="nock">Not checked by an engineer</span>' in html.render(PACK, Show())


def test_the_basis_is_spelled_out_for_who_asks() -> None:
    assert '<abbr class="bm" title="computed">\u00a0cp</abbr>' in html.render(PACK, Show()).decode()


def test_parts_for_a_room() -> None:
    part = html.body(whole_sheet(), PACK, Show())
    assert part.startswith('<div class="pg">')
    assert "<main" not in part
    assert "svg .o{" in html.css()
    figure = html.figure(DRAWING, Show(), BASIS, name="one", twin=(text("In words <here>."),), caption=text("Ringed."))
    assert 'id="one-t"' in figure
    assert "<summary>In words</summary><p>In words &lt;here&gt;.</p>" in figure


def test_places_where_a_figure_asks_are_in_per_cent_of_it() -> None:
    from axlewright.sheets.figures import drive_section

    drawing = drive_section.drawing(drive_section.questions())
    asks = html.figure(drawing, Show())
    ticks = re.findall(
        r'<input type="checkbox" name="where" value="([\w-]+)" style="left:([\d.]+)%;top:([\d.]+)%"', asks
    )
    assert len(ticks) == 6
    assert all(0 < float(left) < 100 and 0 < float(top) < 100 for _, left, top in ticks)


def test_a_twin_stands_under_its_figure_only_where_there_is_one() -> None:
    page = html.render(pack(sheet(Figure(drawing=DRAWING), Note(words=text("x")))), Show())
    assert b"<details" not in page


def test_the_browser_prints_on_the_paper_that_was_chosen() -> None:
    assert b"@page{size:letter" in html.render(PACK, Show(paper="Letter"))
    assert b"@page{size:letter" not in html.render(PACK, Show())
