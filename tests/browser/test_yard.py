"""The Yard by the keyboard alone: past the edge, to a corner, to a clock, to what is written on a drive."""

from __future__ import annotations

from typing import Any

import pytest

from browser.conftest import CHROME, has_no_barrier, is_large_enough

pytestmark = [pytest.mark.browser, pytest.mark.skipif(CHROME is None, reason="no Chromium here")]
PAGES = ("/yard", "/yard/machine", "/yard/drive", "/yard/design", "/likes", "/search?q=zzz")
HERE = (
    "document.activeElement.getAttribute('href') || document.activeElement.name || document.activeElement.textContent"
)


@pytest.mark.parametrize("page", PAGES)
def test_without_barrier(browser: Any, address: str, page: str) -> None:
    has_no_barrier(browser, address + page, 360, 780)
    has_no_barrier(browser, address + page, 1280, 900)


def test_can_be_read_on_a_telephone(browser: Any, address: str) -> None:
    is_large_enough(browser, [address + page for page in PAGES])


def test_by_the_keyboard_alone_without_a_script(browser: Any, address: str) -> None:
    """Skip link first; every corner and clock by Tab, with a focus that is seen; a clock opened, typed and kept by Enter."""
    context = browser.new_context(viewport={"width": 360, "height": 780}, java_script_enabled=True)
    page = context.new_page()
    page.goto(address + "/yard")
    page.keyboard.press("Tab")
    assert page.evaluate(HERE) == "#here"
    page.keyboard.press("Enter")
    reached: list[str] = []
    for _ in range(60):
        page.keyboard.press("Tab")
        reached.append(page.evaluate(HERE) or "")
        assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") != "none", reached[-1]
        if page.evaluate("document.activeElement.closest('#m-bramble .ck') !== null"):
            break
    assert "/trouble/8" in reached
    assert "/trouble/6" in reached
    page.keyboard.press("Enter")  # opens the clock
    page.keyboard.press("Tab")
    page.keyboard.press("Control+A")
    page.keyboard.type("3 370")
    page.keyboard.press("Enter")
    page.wait_for_url("**/yard#m-bramble")
    assert "3 370" in page.inner_text("#m-bramble .ck summary").replace("\u00a0", " ").replace("\u202f", " ")
    context.close()


def test_a_drive_is_found_from_any_page_by_the_keyboard(browser: Any, address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + "/formulary")
    page.focus("input[type=search]")
    page.keyboard.type("bramble left")
    page.keyboard.press("Enter")
    page.wait_for_url("**/search?q=bramble+left")
    assert page.locator('a[href="/drive/bramble-left"]').count() == 1
    context.close()
