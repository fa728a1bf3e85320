"""The page that takes in: nothing is kept before it was seen; what is asked is a field; twice sent is kept once."""

from __future__ import annotations

import re
from pathlib import Path

import html5lib
import pytest
from starlette.testclient import TestClient

from axlewright import store
from axlewright.yard import Yard

TABLES = Path(__file__).parents[2] / "docs" / "how-to" / "tables"


def yard(folder: Path) -> Yard:
    return store.at(folder).read()


def fields(page: str) -> dict[str, str]:
    """What the form under the preview would send as it stands."""
    begins = page.index('<form method="post" action="/take-in#look"')
    form = page[begins : page.index("</form>", begins)]
    return dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)">', form))


def send(client: TestClient, name: str, data: bytes, **said: str) -> str:
    got = client.post("/take-in", data=said, files={"file": (name, data)})
    html5lib.HTMLParser(strict=True).parse(got.text)
    assert "<script" not in got.text
    return got.text


def test_the_page_is_whole_and_the_due_room_leads_to_it(pages: TestClient) -> None:
    got = pages.get("/take-in")
    assert got.status_code == 200
    html5lib.HTMLParser(strict=True).parse(got.text)
    assert 'href="/take-in"' in pages.get("/due").text


def test_a_file_is_shown_first_then_kept_and_twice_sent_it_is_kept_once(client: TestClient, folder: Path) -> None:
    before = yard(folder)
    shown = send(client, "hours.csv", (TABLES / "hours.csv").read_bytes())
    assert "line 2: bramble, engine clock" in shown
    assert "Take it in" in shown
    assert yard(folder) == before
    sent = {**fields(shown), "do": "keep", "who": "owner"}
    kept = client.post("/take-in", data=sent)
    assert (kept.status_code, kept.headers["location"]) == (303, "/take-in?kept=yes")
    assert "Taken in: 3 clock" in client.get("/take-in?kept=yes").text
    after = yard(folder)
    assert len(after.clock_readings) == len(before.clock_readings) + 3
    again = client.post("/take-in", data=sent)
    assert again.status_code == 200
    assert "the yard was changed in the meantime" in again.text
    assert "All of it is kept already." in again.text
    assert yard(folder) == after


def test_what_is_asked_is_a_field_and_its_answer_stays(client: TestClient, folder: Path) -> None:
    shown = send(client, "rain.csv", b"date;precipitation\n05/08/2026;3\n", **{"ask.station": "Low Meadow"})
    assert 'name="ask.dates"' in shown
    assert 'name="ask.units.rain"' in shown
    assert "Take it in" not in shown
    half = client.post("/take-in", data={**fields(shown), "ask.units.rain": "in", "do": "look"}).text
    assert 'name="ask.units.rain" value="in"' in half
    whole = client.post("/take-in", data={**fields(half), "ask.dates": "day-first", "do": "look"}).text
    assert "Low Meadow, 2026-08-05: 76.2 mm" in whole
    assert client.post("/take-in", data={**fields(whole), "do": "keep"}).status_code == 303
    assert [round(mm, 3) for mm in yard(folder).rain("Low Meadow").values()] == [76.2]


def test_wrong_lines_stand_on_the_page_and_can_be_left_out_or_be_a_new_clock(client: TestClient, folder: Path) -> None:
    table = b"machine,date,engine hours\nwren,2026-08-28,4\nlark,2026-08-26,9\nbramble,2026-08-24,3349.5\n"
    shown = send(client, "hours.csv", table)
    assert "line 3, machine:" in shown
    assert "a new clock was fitted then" in shown
    assert client.post("/take-in", data={**fields(shown), "do": "keep"}).status_code == 200, "not while lines are wrong"
    ticked = client.post("/take-in", data={**fields(shown), "new_clock": "2", "leave_out": "yes", "do": "look"}).text
    assert "2 new, 1 left out" in ticked
    sent = {**fields(ticked), "new_clock": "2", "leave_out": "yes", "do": "keep"}
    assert client.post("/take-in", data=sent).status_code == 303
    assert any(one.new_clock and one.machine == "wren" for one in yard(folder).clock_readings)


HOSTILE = '<script>alert("x")</script>'


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("x.csv", b"", "There is no file"),
        ("x.png", b"\x89PNG\r\n\x1a\n\0\0\0\0", "no text"),
        ("x.csv", b"colour,taste\nred,sweet\n", "does not tell what this is"),
        ("x.xml", b"<Orders/>", "no answer of ISO 15143-3"),
        ("x.csv", f'machine,date,engine hours\n"{HOSTILE}",{HOSTILE},1\n'.encode(), "cannot be parted"),
        (f"{HOSTILE}.csv", f"machine,date,engine hours\n{HOSTILE},2026-08-24,1\n".encode(), "No machine"),
        ("../../../etc/x.csv", b"machine,date,engine hours\nlark,2026-08-24,1\n", ">x.csv"),
    ],
)
def test_whatever_is_sent_gets_words_and_nothing_is_kept(
    name: str, data: bytes, says: str, client: TestClient, folder: Path
) -> None:
    before = yard(folder)
    shown = send(client, name, data)
    assert says in shown
    assert yard(folder) == before


def test_a_file_that_is_no_longer_held_is_chosen_again(client: TestClient) -> None:
    got = client.post("/take-in", data={"held": "0" * 64, "do": "keep", "seen": "1"})
    assert got.status_code == 400
    assert "no longer held" in got.text


def test_too_much_is_refused_before_it_is_read(client: TestClient) -> None:
    got = client.post("/take-in", content=b"x", headers={"content-length": "100000000"})
    assert got.status_code == 413
