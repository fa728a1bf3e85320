"""The Season as pages: a crop is typed, what was typed is not lost, a page that stood open too long is told."""

from __future__ import annotations

import re

import pytest
from fastapi.testclient import TestClient

NEW = {"machine": "linnet", "crop": "soybean", "area": "20 ha", "starts": "2026-09-20", "ends": "2026-10-20"}


def form(client: TestClient, path: str = "/season") -> dict[str, str]:
    page = client.get(path).text
    return {"form": re.findall(r'name="form" value="([0-9a-f]{32})"', page)[0], "stands": re.findall(r'name="stands" value="([^"]*)"', page)[0]}  # fmt: skip


def test_the_room_and_its_files(pages: TestClient) -> None:
    page = pages.get("/season")
    assert page.status_code == 200
    assert len(page.content) < 60_000
    for ending, starts in (("pdf", b"%PDF"), ("txt", b"Season"), ("json", b"{")):
        assert pages.get(f"/season.{ending}").content.startswith(starts)
    assert pages.get("/season.exe").status_code == 404
    assert 'aria-current="page">Season' in page.text


def test_every_field_has_its_sentence(pages: TestClient) -> None:
    page = pages.get("/season").text
    fields = re.findall(
        r'<(?:input type="(?:text|date)"|select)[^>]*name="([\w-]+)"[^>]*aria-describedby="([\w-]+)', page
    )
    assert len(fields) >= 18
    for name, help_ in fields:
        told = re.search(rf'<small id="{help_}">([^<]+)</small>', page)
        assert told, name
        assert told[1].rstrip().endswith(".")


def test_a_crop_is_typed_and_stands_on_the_rule(client: TestClient) -> None:
    sent = {**NEW, **form(client)}
    for _ in range(2):
        assert client.post("/season", data=sent).status_code == 303
    page = client.get("/season").text
    assert "Linnet, soybean, 20 Sep to 20 Oct" in page
    assert page.count("Linnet’s soybean") == 1
    again = client.get("/season", params={"crop": "linnet.2026.soybean"}).text
    assert 'value="20 ha"' in again
    assert 'value="2026-10-20"' in again


@pytest.mark.parametrize("area", ["<script>alert(1)</script>", "'; DROP TABLE x; --", "🚜", "مزرعة", "1" * 5_000])
def test_what_was_typed_is_kept_beside_what_is_wrong(client: TestClient, area: str) -> None:
    before = client.get("/season.json").content
    answer = client.post("/season", data={**NEW, **form(client), "area": area, "note": "far <b>fields"})
    assert answer.status_code == 400
    assert "far &lt;b&gt;fields" in answer.text
    assert "<script>alert" not in answer.text
    assert 'id="area-wrong"' in answer.text
    assert 'value="2026-09-20"' in answer.text
    assert client.get("/season.json").content == before


def test_a_page_that_stood_open_too_long_is_told_and_may_insist(client: TestClient) -> None:
    path = "/season?crop=wren.2026.oats"
    mine, theirs = form(client, path), form(client, path)
    oats = {**NEW, "machine": "wren", "crop": "oats", "year": "2026"}
    assert client.post("/season", data={**oats, **theirs, "area": "21 ha", "who": "helper"}).status_code == 303
    late = client.post("/season", data={**oats, **mine, "area": "17 ha"})
    assert late.status_code == 409
    assert "helper typed it anew: 21 ha" in late.text
    assert 'value="17 ha"' in late.text
    assert "17 ha" not in client.get("/season.txt").text
    stands = re.findall(r'name="stands" value="([^"]*)"', late.text)[0]
    insists = {
        **oats,
        "area": "17 ha",
        "stands": stands,
        "form": re.findall(r'name="form" value="(\w+)"', late.text)[0],
    }
    assert client.post("/season", data=insists).status_code == 303
    assert "17 ha" in client.get("/season.txt").text


def test_the_weather_of_a_year(client: TestClient) -> None:
    sent = {"what": "season", "season": "2026", "climate": "wet-autumn", "form": form(client)["form"]}
    assert client.post("/season", data=sent).status_code == 303
    assert "Wet autumn." in client.get("/season.txt").text
    wrong = client.post("/season", data={**sent, "season": "next year"})
    assert wrong.status_code == 400
    assert 'id="season-wrong"' in wrong.text
    assert 'value="next year"' in wrong.text


def test_a_crop_that_nobody_typed_opens_an_empty_form(pages: TestClient) -> None:
    for crop in ("", ".", "x.y.z", "linnet", "<i>.2026.wheat"):
        assert pages.get("/season", params={"crop": crop}).status_code == 200
    assert pages.get("/season", params={"machine": "nobody"}).status_code == 200
