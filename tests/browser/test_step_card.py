"""The step card in a real browser: one step on a telephone, a hold passed, the way back in reach, in the dark too."""

from __future__ import annotations

import re
from typing import Any

import pytest

from browser.conftest import SHOTS, has_no_barrier, is_large_enough

pytestmark = pytest.mark.browser
SIZES = ((360, 780), (1280, 900))
STEP = "/trouble/9/step/10"
PAGES = (STEP, "/trouble/9/step/9", "/trouble/9/step/11", "/trouble/9/step", "/trouble/9/type-back", "/trouble/6/step",
         "/due", "/trouble/5/after/wheel-nuts", "/machine/linnet/ready-card")  # fmt: skip


@pytest.mark.parametrize("path", PAGES)
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_no_barrier_and_nothing_cut_off(path: str, width: int, height: int, browser: Any, address: str) -> None:
    has_no_barrier(browser, address + path, width, height)


def test_what_is_pressed_is_large_and_always_in_sight_on_a_telephone(browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 780}, java_script_enabled=False)
    page = context.new_page()
    page.goto(address + STEP)
    for button in page.locator(".bar .btn, .bar button").all():
        box = button.bounding_box()
        assert box["height"] >= 63.5
        assert box["y"] + box["height"] <= 780.5
    for field in page.locator("#write input[type=text]").all():
        assert field.bounding_box()["height"] >= 55.5
    page.get_by_role("link", name="Way back").first.click()
    assert page.locator("#way-back h2").is_visible()
    page.get_by_role("link", name="If it falls").first.click()
    assert page.locator("#if-it-falls").bounding_box()["y"] < 780
    context.close()


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_a_hold_is_passed_by_reading_and_second_look_alone(width: int, height: int, browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": width, "height": height}, java_script_enabled=False)
    page = context.new_page()
    page.goto(address + "/trouble/9/step/11")
    if page.get_by_text("is not passed").count():  # the first of the sizes passes it
        page.get_by_role("link", name="Go to it").click()
        page.wait_for_url("**/step/10")
        page.get_by_label("Read by").fill("owner")
        page.get_by_role("button", name=re.compile(r"Passed, next")).click()
        assert page.get_by_text("A second person looks, by name.").is_visible()
        page.get_by_label("Jack gauge").fill("900")
        page.get_by_label("Seen by, second").fill("helper")
        page.get_by_role("button", name=re.compile(r"Passed, next")).click()
        assert page.get_by_text("lower now", exact=True).first.is_visible()
        assert page.get_by_label("Seen by, second").input_value() == "helper"
        page.get_by_label("Jack gauge").fill("100")
        page.get_by_role("button", name=re.compile(r"Passed, next")).click()
        page.wait_for_url("**/step/11*")
    assert page.get_by_role("button", name=re.compile(r"Done, next")).is_visible()
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SHOTS / f"step-card-{width}.png", full_page=True)
    context.close()


def test_every_text_is_large_enough_to_read(browser: Any, address: str) -> None:
    is_large_enough(browser, [address + path for path in PAGES])
