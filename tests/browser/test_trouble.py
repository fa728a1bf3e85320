"""The Trouble room in a real browser: asked by pictures, what moved is told, a place is tapped; with and without a script."""

from __future__ import annotations

import re
from typing import Any

import pytest

from browser.conftest import SHOTS, has_no_barrier, is_large_enough

pytestmark = pytest.mark.browser
SIZES = ((360, 780), (1280, 900))
PAGES = (
    "/trouble/7",
    "/trouble/8",
    "/trouble/6/look/leak-wheel",
    "/trouble/7/look/plug",
    "/blank/grades",
)


@pytest.mark.parametrize(("width", "height"), SIZES)
@pytest.mark.parametrize("script", [True, False])
def test_an_answer_by_picture_shows_what_it_moved(
    width: int, height: int, script: bool, browser: Any, address: str
) -> None:
    context = browser.new_context(viewport={"width": width, "height": height}, java_script_enabled=script)
    page = context.new_page()
    page.goto(f"{address}/trouble/6")
    form = page.locator("#ask form.qf")
    form.locator("label").nth(1).click()
    form.get_by_role("button", name="Keep it").click()
    page.wait_for_url(re.compile(r"/trouble/6\?moved=\w{32}$"))
    said = page.locator("main").inner_text()
    told = said[said.index("What moved") : said.index("What was seen")]
    assert "Kept: " in told
    assert "Work in field" in told or "Nothing moved" in told
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SHOTS / f"moved-{width}-{'script' if script else 'plain'}.png", full_page=True)
    context.close()


def test_a_place_on_the_drawing_is_tapped_with_a_thumb(browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 780}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto(f"{address}/trouble/6")
    places = page.locator("figure svg a")
    assert places.count() == 6
    plug = page.locator("figure svg a[href$='/look/plug']")
    box = plug.bounding_box()
    plug.tap(position={"x": box["width"] / 2, "y": box["height"] - 40}, force=True)  # 48 px of words at its foot
    page.wait_for_url(re.compile(r"/trouble/6/look/plug$"))
    wide = page.locator(".gp").first.bounding_box()["width"]
    assert abs(wide - 22 * 96 / 25.4) < 1, "22 mm of a page are 22 mm"
    context.close()


def test_targets_of_a_question_are_large(browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 780})
    page = context.new_page()
    page.goto(f"{address}/trouble/7/look/plug")
    for box in page.locator(".gr label, .qf button, .qf select, .qf input[type=text], .qf summary").all():
        if box.is_visible():
            assert box.bounding_box()["height"] >= 48, box.inner_html()
    context.close()


def test_by_keyboard_alone(browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page = context.new_page()
    page.goto(f"{address}/trouble/6/look/noise")
    page.locator("input[name=grade][value=none]").focus()
    page.keyboard.press("Space")
    page.get_by_role("button", name="Keep it").focus()
    page.keyboard.press("Enter")
    page.wait_for_url(re.compile(r"/trouble/6\?moved="))
    assert "Kept: no noise" in page.locator("main").inner_text()
    context.close()


@pytest.mark.parametrize("path", PAGES)
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_no_barrier_and_nothing_cut_off(path: str, width: int, height: int, browser: Any, address: str) -> None:
    has_no_barrier(browser, address + path, width, height)


def test_every_text_is_large_enough_to_read(browser: Any, address: str) -> None:
    is_large_enough(browser, [address + path for path in PAGES])
