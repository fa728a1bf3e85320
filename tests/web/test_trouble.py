"""The Trouble room: asks by pictures, says what an answer moved, keeps a form once, says when a page is old."""

from __future__ import annotations

import io
import re
import uuid
from pathlib import Path

import html5lib
import pytest
from PIL import Image
from starlette.testclient import TestClient

from axlewright import store
from axlewright.trade.findings import findings
from axlewright.web.app import make
from axlewright.yard import Finding

HOSTILE = "<script>alert(1)</script>'; DROP TABLE findings; -- \U0001f69c"
GOOD = "Nothing is written over"


def form(**fields: str) -> dict[str, str]:
    return {"form": uuid.uuid4().hex, "seen": "", "not": "", **fields}


def words_of(page: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", page).split())


def found(folder: Path, number: int, finding: str) -> list[Finding]:
    return [one for one in store.at(folder).read().findings if one.trouble == number and one.finding == finding]


def jpeg(red: int = 120) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (900, 600), (red, 90, 60)).save(out, "JPEG")
    return out.getvalue()


# what it asks
@pytest.mark.parametrize("number", range(1, 10))
def test_every_trouble_is_whole_small_and_begins_with_its_verdicts(number: int, pages: TestClient) -> None:
    got = pages.get(f"/trouble/{number}")
    assert got.status_code == 200
    html5lib.HTMLParser(strict=True).parse(got.text)
    assert len(got.content) <= 60_000
    said = words_of(got.text)
    assert said.index("WORK IN FIELD") < said.index("GO ON ROAD") < said.index("What was seen")


@pytest.mark.parametrize("finding", list(findings()))
def test_every_look_has_a_page_with_each_grade_and_a_way_not_to_say(finding: str, pages: TestClient) -> None:
    got = pages.get(f"/trouble/6/look/{finding}")
    assert got.status_code == 200
    html5lib.HTMLParser(strict=True).parse(got.text)
    assert len(got.content) <= 60_000
    grades = re.findall(r'name="grade" value="([^"]*)"', got.text)
    assert [one for one in grades if one not in ("", "cant-tell")] == [g.id for g in findings()[finding].grades]
    assert "ot looked at" in got.text
    assert "an’t tell" in got.text


def test_what_is_worth_most_is_asked_on_the_spot_before_the_rest(pages: TestClient) -> None:
    section = pages.get("/trouble/6").text.split('<section id="ask">')[1].split("</section>")[0]
    worth = [int(one.replace("\u202f", "")) for one in re.findall(r"€\s?([\d\u202f]+)", words_of(section))]
    assert worth == sorted(worth, reverse=True)
    assert len(worth) >= 2
    first, asked = section.index("/look/"), section.index("<form")
    assert first < asked
    assert re.search(r"/look/([\w-]+)", section)[1] == re.search(r'action="/trouble/6/look/([\w-]+)"', section)[1]


def test_not_looked_at_keeps_nothing_and_asks_the_next(client: TestClient, folder: Path) -> None:
    before = {p: p.read_bytes() for p in folder.rglob("*.toml")}
    asked = re.findall(r'action="/trouble/6/look/([\w-]+)"', client.get("/trouble/6").text)[0]
    seen = [asked]
    for grade in ("cant-tell", ""):
        got = client.post(f"/trouble/6/look/{seen[-1]}", data=form(grade=grade, **{"not": ",".join(seen[:-1])}))
        assert got.status_code == 303
        page = client.get(got.headers["location"]).text
        seen.append(re.findall(r'action="/trouble/6/look/([\w-]+)"', page)[0])
    assert len(set(seen)) == 3
    assert "Ask them again" in page
    assert {p: p.read_bytes() for p in folder.rglob("*.toml")} == before


def test_a_stop_asks_for_the_second_look_and_no_price_stands_above_it(pages: TestClient) -> None:
    said = words_of(pages.get("/trouble/7").text)
    assert "Second look: magnet plug" in said
    assert "€" not in said[: said.index("Second look")]


def test_while_the_job_is_in_hand_nothing_is_asked_beside_the_step_card(pages: TestClient) -> None:
    for number in (1, 5, 9):
        assert "Find out next" not in pages.get(f"/trouble/{number}").text


# what it keeps
def test_an_answer_shows_what_it_moved_and_is_kept_once(client: TestClient, folder: Path) -> None:
    sent = form(grade="flakes", who="helper")
    for _ in range(2):
        got = client.post("/trouble/6/look/oil-metal", data=sent)
        assert got.status_code == 303
    assert len(found(folder, 6, "oil-metal")) == 1
    said = words_of(client.get(got.headers["location"]).text)
    told = said[said.index("What moved") : said.index("What was seen")]
    assert "Kept: flakes in the oil." in told
    chances = [int(one) for one in re.findall(r"(\d+) in 100", told)]
    assert chances[1] > chances[0], "metal in the oil never makes it the sounder"
    assert "What moved" not in client.get("/trouble/6").text


def test_what_moved_is_what_the_page_said_before_and_says_now(client: TestClient) -> None:
    def stands(page: str) -> tuple[str, ...]:
        said = words_of(page)
        field = re.search(r"WORK IN FIELD (no|not known|only if|yes)", said)
        return (field[1], *re.findall(r"(\d+) of a hundred", said)[:1])

    before = stands(client.get("/trouble/6").text)
    got = client.post("/trouble/6/look/noise", data=form(grade="knock"))
    page = client.get(got.headers["location"]).text
    now, said = stands(page), words_of(page)
    told = said[said.index("What moved") : said.index("What was seen")]
    assert f"Work in field {before[0]} {now[0]}" in told
    assert now[0] == "no"
    assert f"Lets go before harvest ends {before[1]} in 100 {now[1]} in 100" in told


def test_nothing_moved_is_said(client: TestClient) -> None:
    got = client.post("/trouble/6/look/brakes", data=form(grade="hold"))
    assert "Nothing moved" in client.get(got.headers["location"]).text


def test_an_answer_put_right_is_a_record_of_its_own_and_shows_what_it_moved(client: TestClient, folder: Path) -> None:
    old = found(folder, 6, "plug")[-1]
    got = client.post("/trouble/6/look/plug", data=form(grade="clean", corrects=old.id, note="wrong wheel"))
    assert got.status_code == 303
    kept = found(folder, 6, "plug")
    assert [one.corrects for one in kept if one.grade == "clean"] == [old.id]
    assert old in kept, "what was written first stays"
    assert "in place of" in client.get(got.headers["location"]).text


def test_proof_is_put_right_by_a_photo_or_not_at_all(client: TestClient, folder: Path) -> None:
    old = found(folder, 7, "plug")[-1]
    sent = form(grade="paste", corrects=old.id, note="a lock plate")
    got = client.post("/trouble/7/look/plug", data=sent)
    assert got.status_code == 400
    assert "Choose it here" in got.text
    assert "a lock plate" in got.text
    got = client.post("/trouble/7/look/plug", data=sent, files={"photo": ("p.jpg", jpeg(), "image/jpeg")})
    assert got.status_code == 303
    page = client.get(got.headers["location"]).text
    assert not words_of(page).split("WORK IN FIELD ")[1].startswith("no chips")


def test_a_photo_stands_with_what_it_shows_and_small(client: TestClient, folder: Path) -> None:
    photo = {"photo": ("p.jpg", jpeg(), "image/jpeg")}
    got = client.post("/trouble/6/look/plug", data=form(grade="flakes"), files=photo)
    assert got.status_code == 303
    name = found(folder, 6, "plug")[-1].photo
    assert name
    page = client.get("/trouble/6").text
    assert f'src="/photo/small/{name}"' in page
    assert f'href="/photo/{name}"' in page
    whole, small = client.get(f"/photo/{name}"), client.get(f"/photo/small/{name}")
    assert whole.headers["content-type"] == small.headers["content-type"] == "image/jpeg"
    assert "immutable" in whole.headers["cache-control"]
    assert whole.headers["x-content-type-options"] == "nosniff"
    assert max(Image.open(io.BytesIO(small.content)).size) == 320
    assert client.get("/photo/small/nope.jpg").status_code == 404


def test_what_is_no_photo_is_said_and_nothing_is_kept(client: TestClient, folder: Path) -> None:
    sent = form(grade="flakes", note="beside the ditch")
    got = client.post("/trouble/6/look/plug", data=sent, files={"photo": ("p.jpg", b"GIF89a...", "image/jpeg")})
    assert got.status_code == 400
    assert "beside the ditch" in got.text
    assert r'value="flakes" checked' in got.text
    assert not [one for one in found(folder, 6, "plug") if one.grade == "flakes"]


def test_an_old_page_says_what_was_written_since_and_writes_nothing_over(client: TestClient, folder: Path) -> None:
    seen = re.search(r'name="seen" value="([\d.]+)"', client.get("/trouble/6/look/plug").text)[1]
    assert client.post("/trouble/6/look/level", data=form(grade="low", who="helper")).status_code == 303
    sent = form(grade="paste", seen=seen, note="after rain")
    got = client.post("/trouble/6/look/plug", data=sent)
    assert got.status_code == 409
    assert "helper: oil level, low, finger touches" in words_of(got.text)
    assert "after rain" in got.text
    assert r'value="paste" checked' in got.text
    fresh = re.search(r'name="seen" value="([\d.]+)"', got.text)[1]
    again = client.post("/trouble/6/look/plug", data={**sent, "seen": fresh})
    assert again.status_code == 303
    assert client.post("/trouble/6/look/plug", data=sent).status_code == 303, "sent twice it is no old page"
    assert "low" in [one.grade for one in found(folder, 6, "level")]
    assert [one.note for one in found(folder, 6, "plug")].count("after rain") == 1


@pytest.mark.parametrize(
    "wrong",
    [
        {"grade": "gold"},
        {"grade": "flakes", "clock": HOSTILE},
        {"grade": "flakes", "clock": "33660"},
        {"grade": "flakes", "corrects": "no-such"},
        {"note": HOSTILE},
        {"grade": HOSTILE},
    ],
)
def test_nonsense_is_said_at_its_field_and_changes_nothing(
    wrong: dict[str, str], client: TestClient, folder: Path
) -> None:
    before = {p: p.read_bytes() for p in folder.rglob("*.toml")}
    got = client.post("/trouble/6/look/plug", data=form(**wrong))
    assert got.status_code == 400
    assert "Not kept yet" in got.text
    assert "-wrong" in got.text
    assert "<script" not in got.text
    html5lib.HTMLParser(strict=True).parse(got.text)
    assert {p: p.read_bytes() for p in folder.rglob("*.toml")} == before


def test_a_look_that_is_not_there_is_said(pages: TestClient) -> None:
    assert pages.get("/trouble/6/look/gold").status_code == 404
    assert pages.get("/trouble/41/look/plug").status_code == 404
    for asked in ("?moved=zz", f"?moved={'0' * 32}", "?not=gold,<script>", "?moved="):
        got = pages.get(f"/trouble/6{asked}")
        assert got.status_code == 200
        assert "What moved" not in got.text
        assert "<script" not in got.text


# it never waits for money
def test_verdicts_do_not_wait_for_what_is_being_made_out(folder: Path) -> None:
    app = make(folder)
    app.state.patience = 0.0
    client = TestClient(app)
    got = client.get("/trouble/6")
    said = words_of(got.text)
    assert "WORK IN FIELD only if" in said
    if "being made out" in said:  # else it was kept from before
        assert got.headers["refresh"]
        assert 'class="qf"' not in got.text, "what is typed is not taken away by a page that asks again"
    app.state.patience = 60.0
    got = client.get("/trouble/6")
    assert "being made out" not in got.text
    assert "refresh" not in got.headers
    app.state.patience = 0.0
    assert "being made out" not in client.get("/trouble/6").text, "made out once, it stays"


# pictures to print
def test_pictures_of_the_grades_come_on_paper(pages: TestClient) -> None:
    assert pages.get("/blank/grades").status_code == 200
    assert pages.get("/blank/grades.pdf").content.startswith(b"%PDF")
    assert pages.get("/blank/grades-7").status_code == 200
    assert pages.get("/blank/grades-8").status_code == 404
    assert "20 mm" in pages.get("/blank/grades.txt").text
