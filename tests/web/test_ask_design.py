"""What is asked of a kind of drive, on its page: typed once, it holds for every drive of the kind; mistakes come back."""

from __future__ import annotations

import re
from pathlib import Path

import html5lib
import pytest
from plan.bearing_cases import TODAY, TYPED
from starlette.testclient import TestClient

from axlewright import store
from axlewright.plan.choice_of import choice_task
from axlewright.web.pages.ask import OF_A_KIND

AT = "/yard/design/drop-box/ask/bearings"


def test_its_bearings_typed_once_hold_for_every_drive_of_the_kind(client: TestClient, folder: Path) -> None:
    place = store.at(folder)
    before = place.read()
    sent = client.post(AT, data={**TYPED, "who": "owner", "basis": "measured", "source": "caliper, on the bench"})
    assert sent.status_code == 303
    yard = place.read()
    kept = yard.answered(design="drop-box")
    assert {name: kept[name].value for name in TYPED} == TYPED
    assert kept["bearings/footprint"].source == "caliper, on the bench"
    for number in (7, 9):  # at either side
        known = [choice_task(one, one.trouble(number), TODAY, 1, 64).bearings is not None for one in (before, yard)]
        assert known == [False, True]
    assert 'value="71 mm"' in client.get(AT).text


@pytest.mark.parametrize("group", OF_A_KIND)
def test_every_group_is_a_whole_page(group: str, client: TestClient) -> None:
    got = client.get(f"/yard/design/broad-hub/ask/{group}")
    assert got.status_code == 200
    html5lib.HTMLParser(strict=True).parse(got.text)


def test_what_only_a_book_prints_is_folded_until_something_stands_there(client: TestClient) -> None:
    folded = client.get(AT).text
    assert re.search(r'<details class="more"><summary>[^<]*C0', folded)
    inside = folded.partition('<details class="more">')[2].partition("</details>")[0]
    assert inside.count("<input") == 8
    assert "bearings/outboard-bore" not in inside
    client.post(AT, data={"bearings/inboard-capacity": "254 kN", "who": "owner"})
    assert '<details class="more" open>' in client.get(AT).text


def test_a_slip_of_unit_comes_back_at_its_field_and_nothing_is_kept(client: TestClient, folder: Path) -> None:
    sent = client.post(AT, data={"bearings/outboard-bore": "97 m", "bearings/inboard-bore": "81 mm", "who": "owner"})
    assert sent.status_code == 400
    assert "97 mm" in sent.text
    assert 'value="81 mm"' in sent.text
    assert "bearings/inboard-bore" not in store.at(folder).read().answered(design="drop-box")
    assert client.post(AT, data={"who": "owner"}).status_code == 400


def test_only_what_a_kind_shares_is_asked_of_it(client: TestClient) -> None:
    assert "bearings/wheel-carries" not in client.get(AT).text
    assert "bearings/wheel-carries" in client.get("/trouble/6/ask/bearings").text
    assert "bolts/grease" not in client.get("/yard/design/drop-box/ask/bolts").text.replace("bolts/book-grease", "")
    assert client.get("/yard/design/drop-box/ask/jack").status_code == 404
    assert client.get("/yard/design/no-hub/ask/bearings").status_code == 404


def test_the_way_there_is_on_the_page_of_kinds_and_on_the_troubles(client: TestClient) -> None:
    assert f'href="{AT}"' in client.get("/yard/design").text
    assert 'href="/yard/design/broad-hub/ask/bearings"' in client.get("/trouble/6/ask/bearings").text
