"""Every page that can be reached by its links: no barrier, nothing cut off on screen or paper, no other host asked."""

from __future__ import annotations

import io
import re
from typing import Any
from urllib.parse import urljoin, urlsplit

import html5lib
import pytest
from axe_playwright_python.sync_playwright import Axe
from pypdf import PdfReader

pytestmark = pytest.mark.browser
SIZES = ((360, 780), (1280, 900))
FILE = re.compile(r"\.(pdf|txt|json|ics|csv|svg|html|zip)$")
LIKE = re.compile(
    r"(?<=/formulary/)[^/]+|(?<=/step/)[^/]+|(?<=/look/)[\w-]+|(?<=grades-)\d|(?<=steps-)[\w-]+|(?<=basis-)\d+|(?<=key=)\w+|(?<=/pack/)\w+"
)
"""Pages of one kind, told apart by a name alone: the first of each is enough."""
ALIKE = 1  # troubles, drives, machines looked at of each kind, beside those that are named
NAMED = ("/", "/yard", "/trouble/6", "/trouble/7", "/trouble/7/make-safe", "/trouble/41")
PAPER = (595.0, 842.0)  # A4 [pt]
EDGE = 5.0 / 25.4 * 72  # nothing is printed nearer to the edge [pt]


def kind_of(path: str) -> str:
    """A page's kind: its path with the names of things left out."""
    kind = LIKE.sub("*", path)
    kind = re.sub(r"(?<=/trouble/)\d+", "#", kind)
    return re.sub(r"(?<=/(?:drive)/)[^/]+|(?<=/machine/)[^/]+", "#", kind)


@pytest.fixture(scope="module")
def pages(browser: Any, address: str) -> list[str]:
    """The paths of all pages reached from the first by links, of each kind a few."""
    context = browser.new_context()
    request = context.request
    found: list[str] = []
    many: dict[str, int] = {}
    waiting, known = list(NAMED), set()
    while waiting:
        path = waiting.pop(0)
        kind = kind_of(path)
        if path in known or (many.get(kind, 0) >= ALIKE and path not in NAMED):
            continue
        known.add(path)
        many[kind] = many.get(kind, 0) + 1
        answer = request.get(address + path)
        assert answer.status in (200, 404), f"{path}: {answer.status}"
        found.append(path)
        for link in re.findall(r'href="([^"#]+)', answer.text()):
            to = urlsplit(urljoin(address + path, link.replace("&amp;", "&")))
            assert f"{to.scheme}://{to.netloc}" == address, f"{path} leads away, to {link}"
            if not FILE.search(to.path) and not to.path.startswith("/style/"):
                waiting.append(to.path + (f"?{to.query}" if to.query else ""))
    context.close()
    return found


def test_there_is_every_room(pages: list[str]) -> None:
    assert {"/yard", "/trouble", "/shelf", "/bench", "/due", "/season", "/formulary"} <= set(pages)
    assert len(pages) > 40


def test_no_page_has_a_barrier_or_is_wider_than_its_screen(pages: list[str], browser: Any, address: str) -> None:
    wrong = []
    for number, path in enumerate(pages):
        width, height = SIZES[number % 2]
        scheme = ("light", "dark")[number // 2 % 2]
        context = browser.new_context(viewport={"width": width, "height": height}, color_scheme=scheme)
        page = context.new_page()
        asked: list[str] = []
        page.on("request", lambda request, asked=asked: asked.append(request.url))
        page.goto(address + path)
        told = [f"{v['id']}: {v['nodes'][0]['html'][:100]}" for v in Axe().run(page).response["violations"]]
        wrong += [f"{path} {width} {scheme}: {one}" for one in told]
        if page.evaluate("document.documentElement.scrollWidth") > width:
            wrong.append(f"{path} is wider than {width}")
        wrong += [f"{path} asks {url}" for url in asked if not url.startswith((address, "data:"))]
        context.close()
    assert not wrong, "\n".join(wrong)


PILLARS = """() => [...document.querySelectorAll('td, th')].filter(e => e.getClientRects().length && !e.closest('.vh, .wt'))
   .map(e => { const size = parseFloat(getComputedStyle(e).fontSize), said = e.textContent.trim();
     const lines = e.getBoundingClientRect().height / (1.3 * size); return [said.length / lines, Math.round(lines), said.slice(0, 50)] })
   .filter(([letters, lines, said]) => lines > 5 && letters < 11 && said.length > 40)"""
"""Cells of a table that stand one or two words a line: more than five lines, fewer than eleven letters in each."""


def test_no_table_is_a_pillar_of_words_on_a_phone(pages: list[str], browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 780})
    page = context.new_page()
    wrong = []
    for path in pages:
        page.goto(address + path)
        wrong += [f"{path}: {lines} lines, {said!r}" for _, lines, said in page.evaluate(PILLARS)]
    context.close()
    assert not wrong, "\n".join(wrong)


def test_every_page_is_valid_html(pages: list[str], browser: Any, address: str) -> None:
    context = browser.new_context()
    wrong = []
    for path in pages:
        parser = html5lib.HTMLParser(strict=False)
        text = context.request.get(address + path).text()
        parser.parse(text)
        wrong += [f"{path}: {code} at {where}" for where, code, _ in parser.errors]
        ids = re.findall(r'\sid="([^"]+)"', text)
        wrong += [f"{path}: id {one} stands twice" for one in {one for one in ids if ids.count(one) > 1}]
    context.close()
    assert not wrong, "\n".join(wrong)


def test_every_sheet_prints_whole_on_paper(pages: list[str], browser: Any, address: str) -> None:
    """No word of a sheet runs over the edge of its paper; forms and rooms are left on the screen."""
    context = browser.new_context()
    page = context.new_page()
    wrong = []
    for path in [one for one in pages if "/ask/" not in one and "/formulary" not in one]:
        page.goto(address + path)
        printed = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))
        if not 1 <= len(printed.pages) <= 3:
            wrong.append(f"{path}: {len(printed.pages)} pages")
        for sheet in printed.pages:
            over: list[str] = []

            def place(text: str, cm: Any, tm: Any, _font: Any, _size: Any, over: list[str] = over) -> None:
                across = cm[0] * tm[4] + cm[2] * tm[5] + cm[4]
                if text.strip() and not EDGE <= across <= PAPER[0] - EDGE:
                    over.append(text.strip()[:30])

            sheet.extract_text(visitor_text=place)
            wrong += [f"{path}: {one!r} is over the edge" for one in over]
    context.close()
    assert not wrong, "\n".join(wrong)
