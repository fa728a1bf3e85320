"""Sheets drawn up on a trouble's page, frozen, and given again by their key."""

from __future__ import annotations

import uuid

import html5lib
from starlette.testclient import TestClient


def frozen(client: TestClient) -> str:
    got = client.post("/trouble/6/draw-up", data={"form": uuid.uuid4().hex})
    assert got.status_code == 303
    return str(got.headers["location"])


def test_drawn_up_and_every_sheet_of_it_opens(client: TestClient) -> None:
    at = frozen(client)
    got = client.get(at)
    html5lib.HTMLParser(strict=True).parse(got.text)
    assert at in client.get("/trouble/6").text
    for name in client.get(f"{at}.json").json()["sheets"]:
        one = client.get(f"{at}/{name['name']}")
        assert one.status_code == 200
        assert at.removeprefix("/pack/") in one.text
    assert client.get(f"{at}.pdf").content == client.get(f"{at}.pdf").content
    assert client.get(f"{at}.pdf").content[:5] == b"%PDF-"


def test_sent_twice_is_drawn_up_once(client: TestClient) -> None:
    assert frozen(client) == frozen(client)


def test_what_was_never_frozen(client: TestClient) -> None:
    for path in ("/pack/0123456789abcdef", "/pack/x", "/pack/x.pdf", "/pack/0123456789abcdef/support", "/pack/..%2F.."):
        assert client.get(path).status_code == 404, path
    at = frozen(client)
    assert client.get(f"{at}.doc").status_code == 404
    assert client.get(f"{at}/nothing").status_code == 404
