"""Shelf and Bench as pages: a drive comes in by the form, turns are kept, what was typed is not lost."""

from __future__ import annotations

import re

import pytest
from fastapi.testclient import TestClient


def form(client: TestClient, path: str, which: int = -1) -> str:
    return re.findall(r'name="form" value="([0-9a-f]{32})"', client.get(path).text)[which]


@pytest.mark.parametrize("place", ["shelf", "bench"])
def test_the_room_and_its_files(client: TestClient, place: str) -> None:
    assert client.get(f"/{place}").status_code == 200
    for ending, starts in (("pdf", b"%PDF"), ("txt", place.capitalize().encode()), ("json", b"{")):
        assert client.get(f"/{place}.{ending}").content.startswith(starts)
    assert client.get(f"/{place}.exe").status_code == 404


def test_a_drive_comes_in_and_stands_on_the_shelf(client: TestClient) -> None:
    sent = {"form": form(client, "/shelf"), "name": "red hub", "numbers": "tag 77", "hours": "1 000", "about": "50"}
    for _ in range(2):
        assert client.post("/shelf", data=sent, follow_redirects=False).status_code == 303
    page = client.get("/shelf").text
    assert page.count("Red hub") == client.get("/shelf").text.count("Red hub") > 0
    assert "tag 77" in page


@pytest.mark.parametrize("name", ["broad spare", "<script>alert(1)</script>\u202e", "x" * 200])
def test_what_was_typed_is_kept_beside_what_is_wrong(client: TestClient, name: str) -> None:
    answer = client.post("/shelf", data={"form": form(client, "/shelf"), "name": name, "note": "rusty <b>"})
    assert answer.status_code == 400
    assert "rusty &lt;b&gt;" in answer.text
    assert "<script>" not in answer.text
    assert 'id="name-wrong"' in answer.text


def test_ten_turns_are_kept(client: TestClient) -> None:
    sent = {"form": form(client, "/shelf", 0), "turned": "broad-spare", "grade": "smooth"}
    assert client.post("/shelf", data=sent, follow_redirects=False).status_code == 303
    assert "turns smooth" in client.get("/shelf").text
    wrong = client.post("/shelf", data={**sent, "form": form(client, "/shelf", 0), "turned": "no-such"})
    assert wrong.status_code == 400
    assert 'id="turned-wrong"' in wrong.text


@pytest.mark.parametrize("path", ["/drive/broad-spare", "/drive/tag 0617", "/machine/linnet", "/machine/Linnet"])
def test_lives_are_found_by_name_or_number(pages: TestClient, path: str) -> None:
    assert pages.get(path).status_code == 200
    assert pages.get(f"{path}.pdf").content.startswith(b"%PDF")
    assert pages.get(f"{path}.txt").status_code == 200


def test_a_life_that_is_not_there_is_said(pages: TestClient) -> None:
    answer = pages.get("/drive/brod-spare")
    assert answer.status_code == 404
    assert "broad-spare" in answer.text


def test_a_drive_is_moved_by_its_page_and_what_sits_there_makes_room(client: TestClient) -> None:
    sent = {"form": form(client, "/drive/broad-spare"), "to": "bramble/front-left", "read": "3 371", "clock": "engine"}
    asked = client.post("/drive/broad-spare", data=sent)
    assert asked.status_code == 400
    assert 'id="out_to-wrong"' in asked.text
    assert 'value="3 371"' in asked.text
    for _ in range(2):  # sent twice it moves once
        assert client.post("/drive/broad-spare", data={**sent, "out_to": "bench"}).status_code == 303
    page = client.get("/drive/broad-spare").text
    assert "at Bramble, front left" in page
    assert client.get("/bench").text.count("Bramble, left drive") > 0


@pytest.mark.parametrize("where", ["shelv", "<b>", "bramble/front-middle", "shelf", "linnet/front-left"])
def test_no_drive_goes_where_it_cannot(client: TestClient, where: str) -> None:
    answer = client.post(
        "/drive/broad-spare", data={"form": form(client, "/drive/broad-spare"), "to": where, "note": "kept"}
    )
    assert answer.status_code == 400
    assert 'id="to-wrong"' in answer.text
    assert 'value="kept"' in answer.text
