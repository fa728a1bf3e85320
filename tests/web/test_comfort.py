"""Search and how the yard prints, as pages: on every page, without a script, with what was typed kept."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader
from starlette.testclient import TestClient

from axlewright import store

LIKES = {"name": "Low Meadow", "measures": "metric", "dates": "", "decimal": ".", "currency": "EUR", "paper": "A4"}
ROOMS = (
    "/",
    "/yard",
    "/trouble",
    "/trouble/6",
    "/shelf",
    "/bench",
    "/due",
    "/season",
    "/formulary",
    "/likes",
    "/search",
)


@pytest.mark.parametrize("page", ROOMS)
def test_every_page_has_the_search_the_skip_and_one_way_to_the_likes(pages: TestClient, page: str) -> None:
    text = pages.get(page).text
    assert r'<form class="find" role="search" action="/search"><input type="search" name="q"' in text
    assert text.index('href="#here"') < text.index('class="edge"')
    assert 'id="here"' in text
    assert 'href="/likes"' in text
    assert not re.search(r'(?:src|href)="(?:https?:)?//', text), "nothing comes from another host"


def test_a_drive_is_found_by_the_number_on_it_and_its_page_answers(pages: TestClient) -> None:
    yard = store.at(store.DEMO).read()
    for drive in yard.drives:
        for number in drive.numbers:
            text = pages.get("/search", params={"q": number.upper().replace("-", " ")}).text
            assert f'href="/drive/{drive.id}"' in text
            assert pages.get(f"/drive/{drive.id}").status_code == 200


def test_nothing_found_says_what_would_be(pages: TestClient) -> None:
    text = pages.get("/search", params={"q": "zzz-404-zzz"}).text
    assert "Nothing here reads zzz-404-zzz." in text
    assert "cast, stamped or painted" in text


def test_a_hostile_search_is_only_words(pages: TestClient) -> None:
    answer = pages.get("/search", params={"q": "<script>alert(1)</script>" + "x" * 9000})
    assert answer.status_code == 200
    assert "<script>alert" not in answer.text


def test_every_sheet_follows_what_the_yard_likes(client: TestClient, folder: Path) -> None:
    path = "/trouble/6/first-look.txt"
    assert "28 Aug" in client.get(path).text
    us = {**LIKES, "measures": "us", "dates": "ISO", "paper": "Letter", "currency": "CHF"}
    assert client.post("/likes", data=us).status_code == 303
    text = client.get(path).text
    assert "2026-08-28" in text
    assert "28 Aug" not in text
    choice = client.get("/trouble/6/choice.txt").text
    assert "CHF" in choice
    assert "€" not in choice
    assert "tire" in client.get("/likes").text
    title = store.at(folder).read().title
    assert (title.paper, title.dates, title.name) == ("Letter", "ISO", "Low Meadow")
    asked = client.get("/blank/first-look.pdf?paper=A4").content  # for once, on other paper
    assert round(PdfReader(BytesIO(asked)).pages[0].mediabox.width) == 595  # A4 in points


@pytest.mark.parametrize(
    ("field", "said"),
    [("name", ""), ("currency", "<script>"), ("measures", "cubits"), ("paper", "foolscap"), ("dates", "x")],
)
def test_likes_that_cannot_be_are_said_at_their_field(client: TestClient, folder: Path, field: str, said: str) -> None:
    before = store.at(folder).read()
    answer = client.post("/likes", data={**LIKES, field: said})
    assert answer.status_code == 400
    assert f'id="{field}-wrong"' in answer.text
    assert "Low Meadow" in answer.text or field == "name"
    assert store.at(folder).read() == before
