"""A newcomer with an empty yard: from nothing to a first own pack by its pages alone, on a telephone and at a desk, with and without a script."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from axlewright import store
from browser.conftest import SHOTS, served

pytestmark = pytest.mark.browser
# Keystroke-level model of Card, Moran and Newell (1980), from memory: a key 0.28 s for an average typist, pointing 1.1 s,
# a press 0.2 s, a hand between keys and pointer 0.4 s, making up one's mind 1.35 s.
KEY, POINT, PRESS, HAND, MIND = 0.28, 1.1, 0.2, 0.4, 1.35
MOST = 180.0  # [s]


@pytest.fixture
def empty(tmp_path: Path) -> Iterator[str]:
    """An empty yard."""
    store.lay_out(tmp_path / "yard")
    with served(tmp_path / "yard") as where:
        yield where


@dataclass
class Person:
    """Somebody at a page; counts what it takes."""

    page: Any
    took: float = 0.0

    def tap(self, what: Any) -> None:
        what.click()
        self.took += MIND + POINT + PRESS

    def type(self, what: Any, text: str) -> None:
        what.fill(text)
        self.took += MIND + POINT + PRESS + 2 * HAND + KEY * len(text)

    def choose(self, what: Any, value: str) -> None:
        what.select_option(value)
        self.took += MIND + 2 * (POINT + PRESS)


@pytest.mark.parametrize(("width", "height", "script"), [(360, 780, False), (360, 780, True), (1280, 900, False)])
def test_from_nothing_to_a_first_own_pack(width: int, height: int, script: bool, browser: Any, empty: str) -> None:
    context = browser.new_context(viewport={"width": width, "height": height}, java_script_enabled=script)
    page = context.new_page()
    me = Person(page)
    page.goto(f"{empty}/yard")
    assert "No machine" in page.locator("h1").inner_text()
    me.tap(page.get_by_role("link", name="A machine came in"))
    me.type(page.locator("#f-name"), "Lark")
    me.tap(page.locator("label:has(input[value='forage-harvester'])"))
    me.type(page.locator("#f-engine"), "2650")
    me.tap(page.get_by_role("button", name="Write it down"))
    assert "Lark" in page.locator("main").inner_text()

    page.goto(empty)
    me.took += POINT + PRESS
    me.tap(page.get_by_label("oil at: wheel side, behind the disc"))
    me.tap(page.locator("label:has(input[name='plug'][value='paste'])"))
    corner = page.locator("label[for^='c-'][for$='-lark']").first
    me.tap(corner)
    me.tap(page.get_by_role("button", name="Tell me"))
    page.wait_for_url(re.compile(r"/trouble/1"))
    assert page.locator("dl.vd .v").count() == 2

    for finding, grade in (("level", "at-mark"), ("bolts", "still"), ("nuts", "still"), ("rock", "none")):
        page.goto(f"{empty}/trouble/1/look/{finding}")
        me.took += MIND + POINT + PRESS
        me.tap(page.locator(f"label:has(input[name='grade'][value='{grade}'])").first)
        me.tap(page.get_by_role("button", name="Keep it"))
        page.wait_for_url(re.compile(r"/trouble/1(\?|$|#)"))
    said = page.locator("dl.vd").inner_text()
    assert "only if" in said or "yes" in said

    me.choose(page.locator("#course"), "fit a used drive")
    me.tap(page.get_by_role("button", name="Settle it"))
    assert "Settled: fit a used drive" in page.locator("main").inner_text()
    me.tap(page.get_by_role("button", name="Draw up and freeze"))
    page.wait_for_url(re.compile(r"/pack/[0-9a-f]{16}$"))
    pack = page.url
    pdf = context.request.get(f"{pack}.pdf")
    assert pdf.body().startswith(b"%PDF")
    told = context.request.get(f"{pack}.txt").text()
    for sheet in ("Choice", "Support", "NOT FOR LIFTING", "Lark"):
        assert sheet.casefold() in told.casefold(), sheet
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SHOTS / f"first-pack-{width}-{'script' if script else 'plain'}.png", full_page=True)
    print(f"by the keystroke-level model {me.took:.0f} s of tapping and typing")
    assert me.took < MOST
    context.close()
