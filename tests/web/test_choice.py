"""The choice on its pages: what to do, by when, and what to find out next; a stop stays a stop."""

from __future__ import annotations

import re

import html5lib
import pytest
from starlette.testclient import TestClient

SHEETS = ("/trouble/6/choice", "/trouble/7/choice", "/trouble/8/choice", "/trouble/6/basis")


def said(page: str) -> str:
    return " ".join(re.sub(r"<[^>]*>", " ", page).split())


@pytest.mark.parametrize("page", SHEETS)
def test_its_sheets_are_whole_and_small(page: str, pages: TestClient) -> None:
    got = pages.get(page)
    assert got.status_code == 200
    html5lib.HTMLParser(strict=True).parse(got.text)
    assert len(got.content) <= 60_000


def test_the_trouble_says_what_to_do_and_links_to_all_courses(pages: TestClient) -> None:
    got = pages.get("/trouble/6").text
    assert 'href="/trouble/6/choice"' in got
    assert "Forecast" in got
    assert "Find out next" in got
    assert "Prices and waits" in got


def test_no_chance_stands_above_the_verdicts(pages: TestClient) -> None:
    got = said(pages.get("/trouble/6").text)
    head = got[: got.index("WORK IN FIELD")]
    assert "in 100" not in head


def test_a_stopped_trouble_keeps_its_first_sentence_and_leads_on(pages: TestClient) -> None:
    got = pages.get("/trouble/7").text
    assert "Make it safe first" in got
    assert 'href="/trouble/7/choice"' in got
    choice = said(pages.get("/trouble/7/choice").text)
    assert "stopped" in choice
    assert "Lifted by:" in choice


def test_before_the_first_look_the_page_says_so(pages: TestClient) -> None:
    assert "No course is chosen before." in said(pages.get("/trouble/8").text)


@pytest.mark.parametrize(("ending", "starts"), [("pdf", b"%PDF"), ("txt", b"Choice"), ("json", b"{")])
def test_the_choice_comes_as_a_file(ending: str, starts: bytes, pages: TestClient) -> None:
    got = pages.get(f"/trouble/6/choice.{ending}")
    assert got.status_code == 200
    assert got.content.startswith(starts)


def test_a_price_that_was_typed_moves_the_choice(client: TestClient) -> None:
    before = said(client.get("/trouble/6/choice").text)
    form = {"form": "f1", "price/used": "90000", "who": "owner", "basis": "measured", "source": "by telephone"}
    assert client.post("/trouble/6/ask/choice", data=form).status_code == 303
    after = said(client.get("/trouble/6/choice").text)
    assert after != before
