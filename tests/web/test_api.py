"""The HTTP interface against the desk and the commands: once and only once, nobody overwritten, mistakes in one form."""

from __future__ import annotations

import csv
import io
import json
import zipfile
from datetime import date
from pathlib import Path
from typing import Any
from urllib.parse import quote

import icalendar
import pytest
from pydantic import TypeAdapter
from starlette.testclient import TestClient

from axlewright import cli, desk, store
from axlewright.web import guard
from axlewright.web.api import bodies, deeds, shapes
from axlewright.web.api.problems import Problem
from axlewright.web.app import make

SPOT = {"id": "spot", "corner": "linnet/front-left", "marks": [{"finding": "plug", "grade": "paste"}]}
PROBLEM = "application/problem+json"


def do(client: TestClient, deed: str, headers: dict[str, str] | None = None, **says: Any) -> Any:
    return client.post(f"/api/deed/{deed}", json=says, headers=headers)


def files(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.rglob("*.toml")}


# --- once, and nobody overwritten


def test_the_same_id_twice_is_kept_once(client: TestClient, folder: Path) -> None:
    first, again = (do(client, "add-findings", **SPOT) for _ in range(2))
    assert (first.status_code, again.status_code) == (201, 200)
    assert first.json()["trouble"] == again.json()["trouble"] == 10
    assert again.json()["kept"] == []
    assert len(store.at(folder).read().findings_of(10)) == 1
    other = do(client, "add-findings", **{**SPOT, "id": "other"})
    assert other.status_code == 201
    assert len(store.at(folder).read().findings_of(10)) == 2


def test_a_stale_program_is_told_and_writes_nothing(client: TestClient, folder: Path) -> None:
    mark = client.get("/api/trouble/6").headers["etag"]
    assert do(client, "add-findings", **SPOT).status_code == 201
    before = files(folder)
    stale = do(client, "put-by", {"If-Match": mark}, id="gone", trouble=6)
    assert stale.status_code == 412
    assert stale.headers["content-type"] == PROBLEM
    assert files(folder) == before
    fresh = do(client, "put-by", {"If-Match": stale.headers["etag"]}, id="gone", trouble=6)
    assert fresh.status_code == 201
    assert fresh.headers["etag"] == f'"{fresh.json()["mark"]}"' == client.get("/api/yard").headers["etag"]
    sent_again = do(client, "put-by", {"If-Match": stale.headers["etag"]}, id="gone", trouble=6)
    assert sent_again.status_code == 200, "it was kept by this id: the answer was lost, not the deed"


@pytest.mark.parametrize("mark", ['"1"', "W/nothing", '"' + "9" * 400 + '"'])
def test_a_mark_that_is_none_of_ours_fits_no_yard(mark: str, client: TestClient) -> None:
    assert do(client, "put-by", {"If-Match": mark}, id="gone", trouble=6).status_code == 412


def test_any_yard_will_do(client: TestClient) -> None:
    assert do(client, "put-by", {"If-Match": "*"}, id="gone", trouble=6).status_code == 201


def test_somebody_writes_in_between(client: TestClient, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every try finds the yard moved: said as 409, and nothing is written."""
    from axlewright.store import Folder
    from axlewright.yard import Moved

    def moved(*_: Any) -> int:
        raise Moved(1, 2)

    monkeypatch.setattr(Folder, "write", moved)
    before = files(folder)
    got = do(client, "add-findings", **SPOT)
    assert got.status_code == 409
    assert files(folder) == before


def test_a_preview_says_all_and_writes_nothing(client: TestClient, folder: Path) -> None:
    before = files(folder)
    got = client.post("/api/deed/add-findings?preview=yes", json=SPOT)
    assert got.status_code == 200
    said = got.json()
    assert said["preview"]
    assert [one["what"] for one in said["kept"]] == ["trouble", "stage", "finding"]
    assert (said["trouble"], said["stage"]) == (10, "seen")
    assert files(folder) == before


def test_who_does_it_stands_on_the_record(client: TestClient) -> None:
    for sent, name in (("Ann", "Ann"), (quote("Jürgen Ä"), "Jürgen Ä"), ("", "owner"), ("a" * 500, "a" * 120)):
        got = client.post("/api/deed/add-findings?preview=yes", json=SPOT, headers={"Who": sent})
        assert {one["record"]["who"] for one in got.json()["kept"]} == {name}


def test_what_a_role_may_not_do_is_refused(client: TestClient, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(deeds, "who_asks", lambda _request: ("Ben", "reader"))
    before = files(folder)
    for one in deeds.operations():
        got = client.post(f"{deeds.HOME}/{one.address}", json={})
        assert got.status_code == 403, one.address
        assert got.json()["faults"][0]["where"] == "who"
    assert files(folder) == before


# --- mistakes


@pytest.mark.parametrize(
    ("method", "path", "body", "status"),
    [
        ("GET", "/api/trouble/77", b"", 404),
        ("GET", "/api/trouble/x", b"", 400),
        ("GET", "/api/nothing", b"", 404),
        ("GET", "/api/pack/0123456789abcdef", b"", 404),
        ("GET", "/api/trouble/1/sheet/nothing.pdf", b"", 404),
        ("GET", "/api/trouble/6/sheets.docx", b"", 400),
        ("GET", "/api/first-look?seen=plug%3Dpasty", b"", 422),
        ("GET", "/api/first-look?seen=plug%3Dpaste&corner=lark/front-left", b"", 404),
        ("PUT", "/api/yard", b"", 405),
        ("POST", "/api/deed/settle", b"", 400),
        ("POST", "/api/deed/settle", b"[1]", 400),
        ("POST", "/api/deed/settle", b"[" * 100_000, 400),
        ("POST", "/api/deed/settle", b"\xff\xfe", 400),
        ("POST", "/api/deed/settle?preview=maybe", b"{}", 400),
        ("POST", "/api/deed/settle", b'{"trouble": 6, "course": "fit a spre"}', 422),
        ("POST", "/api/deed/settle", b'{"trouble": "6", "course": "park"}', 422),
        ("POST", "/api/deed/settle", b'{"trouble": 6, "course": "park", "zap": 1}', 422),
        ("POST", "/api/deed/settle", b'{"trouble": 6, "course": "park", "on": "2026-02-30"}', 422),
        ("POST", "/api/deed/settle", b'{"trouble": 77, "course": "park"}', 422),
        ("POST", "/api/deed/settle", b'{"trouble": NaN, "course": "park"}', 422),
        ("POST", "/api/deed/settle", b'{"trouble": 1e400, "course": "park"}', 422),
        ("POST", "/api/deed/settle", b'{"course": "' + b"x" * 1_100_000 + b'"}', 413),
        ("POST", "/api/deed/keep-photo?trouble=9", b"no picture", 422),
        ("POST", "/api/deed/keep-photo", b"no picture", 422),
        ("POST", "/api/deed/nothing", b"{}", 404),
    ],
)
def test_mistakes_have_one_form(method: str, path: str, body: bytes, status: int, pages: TestClient) -> None:
    got = pages.request(method, path, content=body)
    assert got.status_code == status, got.text
    assert got.headers["content-type"] == PROBLEM
    said = Problem.model_validate_json(got.content)
    assert said.status == status
    assert said.faults
    assert all(one.where and one.what.endswith((".", "?", "...")) for one in said.faults)
    assert "Traceback" not in got.text


def test_all_mistakes_at_once_in_the_words_of_json(pages: TestClient) -> None:
    got = pages.post("/api/deed/settle", json={"trouble": "six", "on": 5, "note": 1})
    said = {one["where"]: f"{one['what']} {one['right']}" for one in got.json()["faults"]}
    assert set(said) == {"trouble", "on", "note", "course"}
    assert "without quotes" in said["trouble"]
    assert 'Write "course": "fit a spare".' in said["course"]
    assert "quotes" in said["on"]


@pytest.mark.parametrize(
    ("value", "right"),
    [("Write on = 2026-08-28.", 'Write "on": "2026-08-28".'), ("Write trouble = 3.", 'Write "trouble": 3.'), ("Go.", "Go.")],
)  # fmt: skip
def test_what_is_right_is_said_in_json(value: str, right: str) -> None:
    assert bodies.in_json(value) == right


def test_nobody_else_is_let_in(pages: TestClient) -> None:
    for headers, status in (({"host": "yard.example"}, 421), ({"origin": "http://yard.example"}, 403)):
        got = pages.post("/api/deed/settle", json={}, headers=headers)
        assert got.status_code == status
        assert got.headers["content-type"] == PROBLEM
    assert pages.post("/settle", data={}, headers={"origin": "http://yard.example"}).headers["content-type"].startswith("text/plain")  # fmt: skip


def test_the_day_taken_as_today_is_that_of_the_server(folder: Path) -> None:
    client = TestClient(make(folder, date(2026, 8, 20)))
    got = client.post("/api/deed/add-findings?preview=yes", json=SPOT)
    assert {one["record"]["on"] for one in got.json()["kept"] if "on" in one["record"]} == {"2026-08-20"}
    assert client.get("/api/yard").json()["today"] == "2026-08-20"


# --- the same on every face


@pytest.mark.parametrize(
    ("path", "command"),
    [
        ("/api/corners", ("corners",)),
        ("/api/due", ("due",)),
        ("/api/trouble/9/card", ("reading", "9")),
        ("/api/trouble/6/asked", ("draw-up", "6", "--list")),
    ],
)
def test_a_command_says_the_same(
    path: str, command: tuple[str, ...], client: TestClient, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main([*command, "--json", "--yard", str(folder)]) == 0
    assert json.loads(capsys.readouterr().out) == client.get(path).json()


def test_every_deed_says_what_its_answer_is(client: TestClient) -> None:
    reads = TypeAdapter(shapes.done())
    for deed, says in (
        ("add-findings", SPOT),
        ("read-clock", {"machine": "wren", "hours": 12.5, "on": "2026-08-28", "new_clock": True}),
        ("turn-drive", {"drive": "box-spare", "grade": "smooth"}),
        ("draw-up", {"trouble": 6}),
        ("answer", {"trouble": 6, "values": {"bolts/count": "10"}}),
    ):  # fmt: skip
        got = do(client, deed, **says)
        assert got.status_code == 201, f"{deed}: {got.text}"
        reads.validate_python(got.json())


def test_a_frozen_pack_comes_in_every_form_with_the_same_bytes(client: TestClient) -> None:
    key = do(client, "draw-up", id="drawn", trouble=1).json()["pack"]
    assert client.get("/api/pack").json() == {"packs": [key]}
    named = client.get(f"/api/pack/{key}").json()
    assert named["trouble"] == 1
    for ending, begins in (("pdf", b"%PDF"), ("txt", b"First look"), ("json", b"{"), ("html", b"<!")):
        first, again = (client.get(f"/api/pack/{key}/all.{ending}") for _ in range(2))
        assert first.status_code == 200
        assert first.content.startswith(begins)
        assert first.content == again.content
        one = client.get(f"/api/pack/{key}/{named['sheets'][0]['name']}.{ending}")
        assert one.content.startswith(begins)
        assert len(one.content) < len(first.content)
    assert do(client, "draw-up", id="drawn", trouble=1).json()["pack"] == key


# --- tables and files


@pytest.mark.parametrize("name", ["corners", "machines", "drives", "due"])
def test_a_table_by_its_ending_or_by_accept(name: str, pages: TestClient) -> None:
    rows = pages.get(f"/api/{name}").json()[name]
    by_ending = pages.get(f"/api/{name}.csv")
    by_accept = pages.get(f"/api/{name}", headers={"accept": "text/csv, application/json;q=0.5"})
    assert by_ending.content == by_accept.content
    assert by_ending.headers["content-type"].startswith("text/csv")
    assert f'filename="{name}.csv"' in by_ending.headers["content-disposition"]
    table = list(csv.reader(io.StringIO(by_ending.content.decode("utf-8-sig"), newline="")))
    assert len(table) == len(rows) + 1
    assert all(len(row) == len(table[0]) for row in table)
    for wants in ("application/json, text/csv", "*/*", "text/html"):
        assert pages.get(f"/api/{name}", headers={"accept": wants}).headers["content-type"] == "application/json"


def test_a_note_that_looks_like_a_formula_is_none(client: TestClient) -> None:
    note = '=HYPERLINK("http://yard.example","look")'
    take = {"trouble": 9, "values": {"crib-settle": "1 mm"}, "step": "ra-settle", "taken": "paper", "note": note}
    assert do(client, "take-reading", **take).status_code == 201
    data = client.get("/api/trouble/9/readings.csv").content.decode("utf-8-sig")
    notes = [row["note"] for row in csv.DictReader(io.StringIO(data, newline=""))]
    assert f"'{note}" in notes
    assert not any(one.startswith(("=", "+", "-", "@")) for one in notes)


def test_drives_have_their_own_hours(pages: TestClient, folder: Path) -> None:
    yard = store.at(folder).read()
    today = yard.today(date.today())
    said = {one["id"]: one["hours"] for one in pages.get("/api/drives").json()["drives"]}
    for drive in yard.drives:
        ran = yard.drive_hours(drive, today)
        assert said[drive.id] == (None if ran is None else pytest.approx(ran.hours, abs=1e-3))


def test_the_calendar_and_the_zip(pages: TestClient) -> None:
    got = pages.get("/api/due.ics")
    assert got.headers["content-type"].startswith("text/calendar")
    assert icalendar.Calendar.from_ical(got.content).walk("VEVENT")
    assert got.content == pages.get("/due.ics").content == pages.get("/due.ics").content
    first, again = (pages.get("/api/yard.zip") for _ in range(2))
    assert first.content == again.content
    names = zipfile.ZipFile(io.BytesIO(first.content)).namelist()
    assert "yard.toml" in names
    assert "troubles/6.toml" in names


def test_a_photo_is_its_own_body(client: TestClient, folder: Path) -> None:
    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (40, 30), (200, 10, 10)).save(out, "JPEG")
    for _ in range(2):
        got = client.post("/api/deed/keep-photo?trouble=9&id=paper&note=both+sides", content=out.getvalue())
        assert got.status_code in (200, 201), got.text
    kept = [one for one in store.at(folder).read().readings if one.photo]
    assert [one.note for one in kept] == ["both sides"]
    assert client.get(f"/photo/{kept[0].photo}").status_code == 200
    assert client.post("/api/deed/keep-photo?trouble=9&trouble=6", content=out.getvalue()).status_code == 422


def test_more_than_an_operation_takes(client: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(deeds, "MOST_FILE", 100)
    got = client.post("/api/deed/keep-photo?trouble=9", content=b"x" * 101)
    assert got.status_code == 413
    assert guard.MOST_BYTES > 100


def test_who_may_is_declared_at_the_deed() -> None:
    assert {one.name for one in deeds.operations()} | set(deeds.ANOTHER_WAY) == set(desk.ROLES)
    assert all(deeds.ANOTHER_WAY.values())
