"""What is asked of a trouble: answered on a page, refused beside its field, walked round box by box, settled."""

from __future__ import annotations

import uuid
from pathlib import Path

import html5lib
import pytest
from starlette.testclient import TestClient

from axlewright import store
from axlewright.web.forms import on_page
from axlewright.web.pages.ask import GROUPS
from axlewright.yard import Fault
from axlewright.yard.asked import answers_of, open_boxes


def told(folder: Path, number: int, name: str) -> str:
    yard = store.at(folder).read()
    return answers_of(yard, yard.trouble(number))[name].value


@pytest.mark.parametrize("group", GROUPS)
def test_every_group_is_a_whole_page(group: str, client: TestClient) -> None:
    got = client.get(f"/trouble/6/ask/{group}")
    assert got.status_code == 200
    html5lib.HTMLParser(strict=True).parse(got.text)
    assert len(got.content) <= 60_000
    assert f"/trouble/6/ask/{group}" in client.get("/trouble/6").text


def test_an_answer_is_kept_and_sent_twice_is_kept_once(client: TestClient, folder: Path) -> None:
    form = {"form": uuid.uuid4().hex, "bolts/grease": "moly-paste", "basis": "measured"}
    assert client.post("/trouble/6/ask/bolts", data=form).status_code == 303
    after = {p: p.read_bytes() for p in folder.rglob("*.toml")}
    assert client.post("/trouble/6/ask/bolts", data=form).status_code in (303, 400)
    assert {p: p.read_bytes() for p in folder.rglob("*.toml")} == after
    assert told(folder, 6, "bolts/grease") == "moly-paste"


@pytest.mark.parametrize(
    "form",
    [{"bolts/count": "many"}, {"bolts/thread": "3/4"}, {"bolts/book-torque": "7 t"}, {"bolts/grease": "butter"}, {}],
)
def test_nonsense_stands_beside_its_field_and_changes_nothing(
    form: dict[str, str], client: TestClient, folder: Path
) -> None:
    before = {p: p.read_bytes() for p in folder.rglob("*.toml")}
    got = client.post("/trouble/6/ask/bolts", data=form)
    assert got.status_code == 400
    assert "Not kept yet" in got.text
    for typed in form.values():
        assert typed in got.text
    assert {p: p.read_bytes() for p in folder.rglob("*.toml")} == before


def test_a_walk_round_closes_boxes_one_by_one(client: TestClient, folder: Path) -> None:
    yard = store.at(folder).read()
    first, *rest = open_boxes(yard, yard.trouble(6))
    assert "NOT FOR LIFTING" in client.get("/trouble/6/ask/walk-round").text
    form = {"form": uuid.uuid4().hex, first.id: first.example, "who": "helper"}
    assert client.post("/trouble/6/ask/walk-round", data=form).status_code == 303
    yard = store.at(folder).read()
    assert first not in open_boxes(yard, yard.trouble(6))
    assert len(open_boxes(yard, yard.trouble(6))) >= len(rest) - 3


def test_a_course_is_settled(client: TestClient, folder: Path) -> None:
    got = client.post("/trouble/8/settle", data={"form": uuid.uuid4().hex, "course": "reseal"})
    assert got.status_code == 303
    assert store.at(folder).read().course(8) == "reseal"
    assert client.post("/trouble/8/settle", data={"course": "pray"}).status_code == 400


def test_what_is_not_asked_is_not_there(client: TestClient) -> None:
    assert client.get("/trouble/6/ask/horoscope").status_code == 404
    assert client.get("/trouble/41/ask/bolts").status_code == 404


@pytest.mark.parametrize(
    ("told", "shown"),
    [
        ("Write hours = 2650.", "Write it so: 2650."),
        ('Write value = "1 %"', "Write it so: 1 %"),
        ('Type engaged="26 mm", say.', "Type 26 mm, say."),
        ("Type head=8.8, say.", "Type 8.8, say."),
        ("Type 40 kN or 40 lbf.", "Type 40 kN or 40 lbf."),
        ("Write linnet/front-left.", "Write linnet/front-left."),
        ("", ""),
    ],
)
def test_a_page_tells_what_to_type_and_no_key_of_a_file(told: str, shown: str) -> None:
    assert on_page(Fault("hours", "It cannot be read.", told)) == Fault("hours", "It cannot be read.", shown)
