"""The Formulary in a real browser: typed on the bolt and on lines, phone and desk, with and without a script."""

from __future__ import annotations

from typing import Any

import pytest

from browser.conftest import SHOTS, has_no_barrier, is_large_enough

pytestmark = pytest.mark.browser
SIZES = ((360, 780), (1280, 900))
WRONG = "/formulary/bolt-window?thread=M20&head=9.9&grease=butter&engaged=27&clamp=92+kg&zap=1"
PAGES = (
    "/formulary",
    "/formulary?find=crib",
    "/formulary/bolt-window",
    "/formulary/bolt-window?measures=us&book=400+lbf%C2%B7ft",
    WRONG,
    "/formulary/preload-from-nut-factor",
    "/formulary/preload-from-nut-factor?torque=x&nut-factor=0.14",
    "/formulary/hang",
    "/formulary/crib-layouts",
    "/formulary/nope",
)


@pytest.mark.parametrize(("width", "height"), SIZES)
@pytest.mark.parametrize("script", [True, False])
def test_a_torque_for_the_grease_that_is_on_it(
    width: int, height: int, script: bool, browser: Any, address: str
) -> None:
    context = browser.new_context(viewport={"width": width, "height": height}, java_script_enabled=script)
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{address}/formulary")
    page.locator("main").get_by_role("link").first.click()
    page.wait_for_url("**/formulary/bolt-window")
    page.locator("#f-thread").fill("M20")
    page.locator("#f-head").fill("10.9")
    page.locator("#f-engaged").fill("27")
    page.locator("#f-clamp").fill("92 kN")
    page.locator("#f-grease").select_option("moly paste")
    page.locator("#f-housing").select_option("grey iron 250")
    page.get_by_role("button", name="Work it out").click()
    assert page.get_by_role("alert").is_visible()
    assert page.locator("#f-engaged").get_attribute("aria-invalid") == "true"
    assert page.locator("#f-clamp").input_value() == "92 kN"
    assert page.locator("#f-grease").input_value() == "moly paste"
    page.locator("#f-engaged").fill("27 mm")
    page.locator("#f-engaged").press("Enter")
    page.wait_for_url("**engaged=27+mm**")
    assert page.locator("h1").inner_text().startswith("With moly paste set ")
    page.get_by_label("The book’s torque").fill("500 N·m")
    page.get_by_label("The book’s torque").press("Enter")
    page.wait_for_url("**book=500**")
    assert "may break the bolt" in page.locator("main").inner_text()
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SHOTS / f"formulary-{width}-{'script' if script else 'plain'}.png", full_page=True)
    assert {url.split("/")[2] for url in asked} == {address.split("/")[2]}
    context.close()


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_each_value_stands_on_the_drawing_and_apart(width: int, height: int, browser: Any, address: str) -> None:
    """Every place to type lies within the drawing, is as large as a thumb, and covers no other."""
    context = browser.new_context(viewport={"width": width, "height": height})
    page = context.new_page()
    for engaged in ("10 mm", "26 mm", "40 mm"):
        page.goto(
            f"{address}/formulary/bolt-window?thread=M16&head=8.8&grease=anti-seize&engaged={engaged}&clamp=40 kN"
        )
        around = page.locator(".dw").bounding_box()
        boxes = [one.bounding_box() for one in page.locator(".dw .di").all()]
        assert len(boxes) == 6
        for n, one in enumerate(boxes):
            assert one["height"] >= 43.5
            assert one["x"] >= around["x"] - 1
            assert one["x"] + one["width"] <= around["x"] + around["width"] + 1
            assert one["y"] + one["height"] <= around["y"] + around["height"] + 1
            for other in boxes[n + 1 :]:
                apart = (
                    one["x"] + one["width"] <= other["x"] + 0.5
                    or other["x"] + other["width"] <= one["x"] + 0.5
                    or one["y"] + one["height"] <= other["y"] + 0.5
                    or other["y"] + other["height"] <= one["y"] + 0.5
                )
                assert apart, f"{engaged}: {one} {other}"
        result = page.locator(".re").bounding_box()
        assert all(result["y"] + result["height"] <= one["y"] + 0.5 for one in boxes), "the result stands over the head"
    context.close()


def test_one_more_by_keyboard(browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": 1280, "height": 900}, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{address}/formulary/sprung-contacts")
    before = page.locator("input[name^='contacts.'][name$='.x']").count()
    page.get_by_role("button", name="One more").focus()
    with page.expect_navigation():
        page.keyboard.press("Enter")
    assert page.locator("input[name^='contacts.'][name$='.x']").count() == before + 1
    context.close()


@pytest.mark.parametrize("path", PAGES)
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_no_barrier_and_nothing_cut_off(path: str, width: int, height: int, browser: Any, address: str) -> None:
    has_no_barrier(browser, address + path, width, height)


def test_every_text_is_large_enough_to_read(browser: Any, address: str) -> None:
    is_large_enough(browser, [address + path for path in PAGES])
