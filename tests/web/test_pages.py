"""Every page: answers, small, whole HTML, no other host, no script; forms keep what was typed."""

from __future__ import annotations

import re
import uuid
from pathlib import Path

import html5lib
import pytest
from starlette.testclient import TestClient

from axlewright import store
from axlewright.web.app import make
from axlewright.yard import Corner

PAGES = (
    "/",
    "/?corner=bramble/front-left",
    "/yard",
    "/trouble",
    "/trouble/5",
    "/trouble/6",
    "/trouble/7",
    "/trouble/8",
    "/trouble/6/first-look",
    "/trouble/7/make-safe",
    "/make-safe",
    "/due",
    "/season",
    "/season?crop=linnet.2026.wheat",
    "/blank/first-look",
    "/blank/grease-and-torque",
    "/blank/re-tighten-log",
    "/blank/buyers-list",
)
HOSTILE = "<script>alert(1)</script>'; DROP TABLE findings; -- \U0001f69c"


@pytest.mark.parametrize("page", PAGES)
def test_a_page_is_whole_small_and_speaks_to_no_other_host(page: str, client: TestClient) -> None:
    got = client.get(page)
    assert got.status_code == 200
    html5lib.HTMLParser(strict=True).parse(got.text)
    assert len(got.content) <= 60_000
    assert "<script" not in got.text
    outside = [u for u in re.findall(r'(?:href|src|action)="([^"]+)"', got.text) if "://" in u]
    assert not outside
    assert "default-src 'none'" in got.headers["content-security-policy"]


@pytest.mark.parametrize("page", PAGES)
def test_every_link_of_a_page_answers(page: str, client: TestClient) -> None:
    for link in set(re.findall(r'href="(/[^"#]*)', client.get(page).text)):
        assert client.get(link.replace("&amp;", "&")).status_code == 200, f"{page} links to {link}"


@pytest.mark.parametrize(
    ("name", "starts"), [("pdf", b"%PDF"), ("txt", b"First look"), ("json", b"{"), ("html", b"<!doctype html>")]
)
def test_a_sheet_comes_as_a_file(name: str, starts: bytes, client: TestClient) -> None:
    got = client.get(f"/trouble/6/first-look.{name}")
    assert got.status_code == 200
    assert got.content.startswith(starts)


def test_nothing_ticked_is_not_known_twice(client: TestClient) -> None:
    got = client.post("/", data={"form": uuid.uuid4().hex})
    assert got.text.count("</svg>not known</b>") == 2


def test_ticks_without_a_corner_are_judged_and_stay_ticked(client: TestClient, folder: Path) -> None:
    before = {p: p.read_bytes() for p in folder.rglob("*.toml")}
    got = client.post("/", data={"where": ["wheel-side"], "plug": "flakes", "clock": "4730", "which": "engine"})
    assert got.status_code == 200
    assert re.search(r'value="wheel-side"[^>]* checked', got.text)
    assert r'value="flakes" checked' in got.text
    assert 'value="4730"' in got.text
    assert {p: p.read_bytes() for p in folder.rglob("*.toml")} == before


@pytest.mark.parametrize("tick", [{"park": "smoke"}, {"plug": "chips"}, {"wheel": "rock"}, {"plug": "pieces"}])
def test_a_stop_says_no_twice_and_leads_to_make_safe(tick: dict[str, str], client: TestClient) -> None:
    got = client.post("/", data=tick)
    answer = got.text.split('<section class="ans"')[1].split('class="yes"')[0]
    assert answer.count("<b>no</b>") == 2
    assert "/make-safe" in answer


def test_with_a_corner_a_trouble_is_opened_and_sent_twice_is_kept_once(client: TestClient, folder: Path) -> None:
    form = {"form": uuid.uuid4().hex, "plug": "flakes", "corner": "wren/front-right", "clock": "187"}
    first, second = client.post("/", data=form), client.post("/", data=form)
    assert first.status_code == second.status_code == 303
    assert first.headers["location"] == second.headers["location"]
    yard = store.at(folder).read()
    at = Corner("wren", "front-right")
    assert len(yard.troubles_at(at)) == 1
    assert len([f for f in yard.findings_at(at) if f.finding == "plug"]) == 1
    assert "flakes" in client.get(first.headers["location"]).text


def test_a_clock_that_cannot_be_is_asked_again_with_all_that_was_typed(client: TestClient, folder: Path) -> None:
    before = {p: p.read_bytes() for p in folder.rglob("*.toml")}
    form = {"plug": "flakes", "where": "input", "corner": "bramble/front-left", "clock": "33660"}
    got = client.post("/", data=form)
    assert got.status_code == 400
    assert "Did you mean" in got.text
    assert 'name="take"' in got.text
    assert 'value="33660"' in got.text
    assert r'value="flakes" checked' in got.text
    assert re.search(r'value="input"[^>]* checked', got.text)
    assert {p: p.read_bytes() for p in folder.rglob("*.toml")} == before


@pytest.mark.parametrize(
    "form",
    [
        {"plug": "gold"},
        {"park": "everything"},
        {"where": HOSTILE},
        {"clock": HOSTILE},
        {"clock": "-5", "plug": "paste"},
        {"corner": HOSTILE, "plug": "paste"},
        {"corner": "bramble/front-left", "plug": "paste", "clock": "1e309"},
        {"corner": "bramble/front-left", "plug": "paste", "clock": "nan"},
        {"clock": "9" * 5000},
    ],
)
def test_nonsense_gets_a_page_that_says_so_and_changes_nothing(
    form: dict[str, str], client: TestClient, folder: Path
) -> None:
    before = {p: p.read_bytes() for p in folder.rglob("*.toml")}
    got = client.post("/", data=form)
    assert got.status_code == 400
    assert "Not kept yet" in got.text
    assert "<script" not in got.text
    assert {p: p.read_bytes() for p in folder.rglob("*.toml")} == before


def test_what_was_seen_is_added_to_a_trouble(client: TestClient, folder: Path) -> None:
    form = {"form": uuid.uuid4().hex, "level": "low", "who": "helper", "note": HOSTILE}
    assert client.post("/trouble/8", data=form).status_code == 303
    assert client.post("/trouble/8", data=form).status_code == 303
    found = [f for f in store.at(folder).read().findings_of(8) if f.finding == "level"]
    assert [(f.grade, f.who, f.note) for f in found] == [("low", "helper", HOSTILE)]
    assert "<script" not in client.get("/trouble/8").text


def test_a_trouble_page_keeps_what_was_typed(client: TestClient) -> None:
    got = client.post("/trouble/8", data={"level": "low", "clock": "33660", "which": "engine", "note": "after rain"})
    assert got.status_code == 400
    assert r'value="low" selected' in got.text
    assert "after rain" in got.text
    assert "Did you mean" in got.text


def test_an_empty_form_at_a_trouble_says_so(client: TestClient) -> None:
    got = client.post("/trouble/8", data={})
    assert got.status_code == 400
    assert "Nothing was ticked" in got.text


@pytest.mark.parametrize(
    "page", ["/trouble/41", "/trouble/41/first-look", "/nope", "/trouble/6/nope", "/blank/nope", "/?x=/../"]
)
def test_a_page_that_is_not_there_says_where_one_is(page: str, client: TestClient) -> None:
    got = client.get(page)
    if page.startswith("/?"):
        assert got.status_code == 200
    else:
        assert got.status_code == 404
        assert "/yard" in got.text


def test_a_yard_that_cannot_be_read_says_all_its_mistakes(folder: Path, client: TestClient) -> None:
    (folder / "machines" / "bramble.toml").write_text("name = Bramble\n", encoding="utf-8")
    (folder / "machines" / "wren.toml").write_bytes(b"\xff\xfe\x00binary")
    got = client.get("/yard")
    assert got.status_code == 400
    assert "bramble.toml" in got.text
    assert "wren.toml" in got.text


def test_other_hosts_and_other_sites_are_refused(client: TestClient) -> None:
    assert client.get("/", headers={"host": "yard.example"}).status_code == 421
    assert client.post("/", data={}, headers={"origin": "http://yard.example"}).status_code == 403
    assert client.post("/", data={}, headers={"sec-fetch-site": "cross-site"}).status_code == 403
    assert client.post("/", content=b"x" * 1_100_000).status_code == 413


def test_an_empty_yard_draws_what_would_stand_there(tmp_path: Path) -> None:
    store.lay_out(tmp_path / "new")
    empty = TestClient(make(tmp_path / "new"))
    for page in ("/", "/yard", "/trouble"):
        got = empty.get(page)
        assert got.status_code == 200
        assert "ound" not in re.sub(r"<style.*?</style>|not the same as sound", "", got.text) or page == "/"


def test_a_style_sheet_may_be_kept_for_ever(client: TestClient) -> None:
    link = re.findall(r'href="(/style/[^"]+)"', client.get("/").text)[0]
    assert "immutable" in client.get(link).headers["cache-control"]


# the first screen with a corner named
def words_of(page: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", page).split())


def answer_of(page: str) -> str:
    return words_of(page[page.index('<div class="nk">') : page.index('<div class="yes">')])


def test_what_is_on_record_at_a_corner_counts_before_anything_is_ticked(client: TestClient, folder: Path) -> None:
    """The yard's link to a corner must not say *not known* of one that is stopped."""
    trouble = next(t for t in store.at(folder).read().troubles if t.number == 7)
    said = answer_of(client.get(f"/?corner={trouble.corner}").text)
    assert said.startswith("WORK IN FIELD no chips on the plug")
    client.post("/trouble/7", data={"rock": "still"})
    assert "WORK IN FIELD no" in answer_of(client.get(f"/?corner={trouble.corner}").text)


def test_a_stop_stays_a_stop_on_a_page_with_a_mistake(client: TestClient) -> None:
    for form in ({"plug": "chips", "clock": "soon"}, {"wheel": "rock", "corner": "nowhere/front-left"}):
        got = client.post("/", data=form)
        assert got.status_code == 400
        assert answer_of(got.text).startswith("WORK IN FIELD no ")
        assert "Make it safe before anything else." in answer_of(got.text)


def test_the_make_safe_sheet_names_what_stops_it_and_nothing_else(client: TestClient) -> None:
    said = client.get("/make-safe.txt").text
    assert "leans" not in said, "nobody said that a wheel leans"
    for form, names in (
        ({"plug": "chips"}, "chips on the plug"),
        ({"wheel": "rock"}, "a clunk at the wheel"),
        ({"park": "smoke"}, "burnt blue hub"),
        ({"wheel": "rock", "plug": "flakes"}, "flakes on the plug"),
    ):
        page = client.post("/", data=form).text
        link = re.findall(r'href="(/make-safe\?[^"]+)"', page)[0].replace("&amp;", "&")
        sheet = client.get(link)
        assert sheet.status_code == 200
        assert names in words_of(sheet.text)
        files = re.findall(r'href="(/make-safe\.[^"]+)"', sheet.text)
        assert [names in client.get(one.replace("&amp;", "&")).text for one in files if ".txt" in one] == [True]
    assert client.get("/make-safe?tick=plug=paste").status_code == 404
    assert client.get("/make-safe?tick=nonsense").status_code in (400, 404)


def test_a_rear_corner_can_be_named_and_stays_named(client: TestClient, folder: Path) -> None:
    machine = folder / "machines" / "wren.toml"
    told = machine.read_text(encoding="utf-8")
    machine.write_text(
        told.replace('["front-left", "front-right"]', '["front-left", "front-right", "rear-left"]'), encoding="utf-8"
    )
    page = client.get("/?corner=Wren/rear left").text
    assert 'value="wren/rear-left" checked' in page
    form = {"plug": "paste", "corner": "wren/rear-left"}
    assert client.post("/", data=form).status_code == 303
    assert store.at(folder).read().running_at(Corner("wren", "rear-left"))
