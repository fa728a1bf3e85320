"""Season and Due as people meet them: without a barrier, readable on a telephone, a crop typed with no script at all."""

from __future__ import annotations

from typing import Any

import pytest

from browser.conftest import SHOTS, has_no_barrier, is_large_enough

pytestmark = pytest.mark.browser
ROOMS = ("/season", "/season?crop=linnet.2026.wheat", "/due")


@pytest.mark.parametrize(("width", "height"), [(360, 780), (1280, 900)])
@pytest.mark.parametrize("room", ["/season", "/due"])
def test_no_barrier(browser: Any, address: str, room: str, width: int, height: int) -> None:
    has_no_barrier(browser, address + room, width, height)


def test_every_word_can_be_read_on_a_telephone(browser: Any, address: str) -> None:
    is_large_enough(browser, [address + room for room in ROOMS])


def test_a_crop_is_typed_without_a_script(browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 780}, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{address}/season#cut")
    page.get_by_label("Which machine").select_option(label="Wren")
    page.get_by_label("Which crop").select_option(label="grain maize")
    page.get_by_label("All of it").fill("30 t")
    page.get_by_label("Ripe on").fill("2026-10-05")
    page.get_by_label("Lost after").fill("2026-11-10")
    page.get_by_role("button", name="Write it down").click()
    assert "What you typed is still here" in page.locator("#cut").inner_text()
    assert page.get_by_label("All of it").input_value() == "30 t"
    assert page.get_by_label("All of it").get_attribute("aria-invalid") == "true"
    page.get_by_label("All of it").fill("24 ha")
    page.get_by_role("button", name="Write it down").click()
    assert page.url.endswith("/season#top")
    assert "Wren, grain maize, 05 Oct to 10 Nov" in page.locator("svg[role=img] desc").first.text_content()
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=str(SHOTS / "season-360.png"), full_page=True)
    context.close()
