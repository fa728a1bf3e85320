"""The main job in a real browser: phone and desk, with and without a script, checked for people who cannot see it."""

from __future__ import annotations

import re
from typing import Any

import pytest

from browser.conftest import SHOTS, has_no_barrier, is_large_enough

pytestmark = pytest.mark.browser
SIZES = ((360, 780), (1280, 900))


@pytest.mark.parametrize(("width", "height"), SIZES)
@pytest.mark.parametrize("script", [True, False])
def test_from_an_oil_spot_to_a_printed_sheet(width: int, height: int, script: bool, browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": width, "height": height}, java_script_enabled=script)
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(address)
    page.get_by_label("oil at: wheel side, behind the disc").check()
    page.get_by_label("flakes: flat, bright, gritty").check()
    page.get_by_role("button", name="Tell me").click()
    assert page.get_by_label("oil at: wheel side, behind the disc").is_checked()
    assert page.locator(".ans .nk .v").first.inner_text().startswith("WORK IN FIELD")
    if width < 700:
        top = page.locator(".ans .nk .v").first.bounding_box()["y"]
        assert 0 <= top < height, "the answer stands on the screen that follows"
    corner = "c-1-linnet" if script else "c-2-wren"
    page.locator(f"label[for='{corner}']").click()
    page.get_by_role("button", name="Tell me").click()
    page.wait_for_url(re.compile(r"/trouble/\d+(\?moved=\w+)?(#\w+)?$"))
    assert "flakes" in page.locator("main").inner_text()
    page.get_by_text("Several at once, from paper").click()
    page.locator("#f-level").select_option("at-mark")
    page.get_by_role("button", name="Keep them").click()
    page.wait_for_url(re.compile(r"/trouble/\d+\?moved=\w+"))
    page.get_by_role("link", name="First look", exact=True).first.click()
    assert page.locator("h1").count() >= 1
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SHOTS / f"first-look-{width}-{'script' if script else 'plain'}.png", full_page=True)
    assert {url.split("/")[2] for url in asked} == {address.split("/")[2]}
    assert page.evaluate("document.documentElement.scrollWidth") <= width if script else True
    context.close()


def test_one_tick_of_the_park_it_now_list_turns_the_answer_without_sending(browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 780}, java_script_enabled=False)
    page = context.new_page()
    page.goto(address)
    assert page.locator(".ans .nk").first.is_visible()
    page.get_by_label("A jet or mist of oil: hands off").check()
    assert page.locator(".ans .yes").is_visible()
    assert not page.locator(".ans > .nk").is_visible()
    context.close()


@pytest.mark.parametrize(
    "path",
    [
        "/",
        "/yard",
        "/trouble",
        "/trouble/6",
        "/trouble/6/ask/bolts",
        "/trouble/6/ask/walk-round",
        "/trouble/7/make-safe",
        "/trouble/6/bolts",
        "/blank/re-tighten-log",
        "/trouble/41",
    ],
)
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_no_barrier_and_nothing_cut_off(path: str, width: int, height: int, browser: Any, address: str) -> None:
    has_no_barrier(browser, address + path, width, height)


def test_by_keyboard_alone(browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page = context.new_page()
    page.goto(address)
    page.get_by_label("A jet or mist of oil: hands off").focus()
    page.keyboard.press("Space")
    page.get_by_role("button", name="Tell me").focus()
    with page.expect_navigation():
        page.keyboard.press("Enter")
    assert page.locator(".ans .yes").is_visible()
    context.close()


def test_every_text_is_large_enough_to_read(browser: Any, address: str) -> None:
    paths = ("/", "/yard", "/trouble/6", "/trouble/7/make-safe", "/trouble/6/bolts", "/blank/grease-and-torque")
    is_large_enough(browser, [address + path for path in paths])
