"""The Due room: the clocks typed, an after-check made, a slip that loses nothing; the ready card of a machine."""

from __future__ import annotations

import uuid
from pathlib import Path

import html5lib
import icalendar
import pytest
from starlette.testclient import TestClient

from axlewright import store


def form(**fields: str) -> dict[str, str]:
    return {"form": uuid.uuid4().hex, **{name.replace("__", "."): value for name, value in fields.items()}}


@pytest.mark.parametrize(
    "path", ["/due", "/trouble/5/after/wheel-nuts", "/trouble/5/after/coupling", "/machine/wren/ready-card"]
)
def test_each_is_a_whole_page_without_a_script(path: str, pages: TestClient) -> None:
    got = pages.get(path)
    assert got.status_code == 200
    assert "<script" not in got.text
    assert len(got.content) <= 60_000
    html5lib.HTMLParser(strict=True).parse(got.text)


def test_what_runs_out_first_stands_on_top(pages: TestClient) -> None:
    page = pages.get("/due").text
    assert page.index("coupling lock seen") < page.index("wheel nuts, moved or still")
    assert 'href="/trouble/5/after/coupling"' in page
    assert 'href="/?corner=wren/front-right"' in page


@pytest.mark.parametrize(
    ("ending", "begins"), [("pdf", b"%PDF"), ("json", b"{"), ("txt", b"Due"), ("ics", b"BEGIN:VCALENDAR")]
)
def test_it_can_be_taken_along(ending: str, begins: bytes, pages: TestClient) -> None:
    got = pages.get(f"/due.{ending}")
    assert got.content.startswith(begins)
    if ending == "ics":
        assert len(icalendar.Calendar.from_ical(got.content).walk("VEVENT")) >= 5
    assert pages.get("/due.docx").status_code == 404


def test_a_clock_is_kept_in_two_taps_and_a_slip_keeps_the_rest(client: TestClient, folder: Path) -> None:
    before = len(store.at(folder).read().clock_readings)
    same = client.post("/due", data=form(linnet__engine="2 598"))
    assert same.status_code == 303
    assert len(store.at(folder).read().clock_readings) == before
    mixed = client.post("/due", data=form(linnet__engine="2601", bramble__engine="33700", wren__engine="soon"))
    assert mixed.status_code == 400
    assert 'value="33700"' in mixed.text
    assert 'value="soon"' in mixed.text
    assert "Did you mean" in mixed.text
    kept = store.at(folder).read()
    assert len(kept.clock_readings) == before + 1
    assert kept.hours("linnet", kept.today(kept.clock_readings[-1].on)).hours == 2601  # type: ignore[union-attr]


def test_an_after_check_is_made_once_and_the_list_goes_on(client: TestClient, folder: Path) -> None:
    sent = form(nuts="still", clock="2599", which="engine", who="helper")
    for _ in range(2):
        assert client.post("/trouble/5/after/wheel-nuts", data=sent).status_code == 303
    yard = store.at(folder).read()
    assert [one.value for one in yard.readings if one.step == "wheel-nuts"] == ["still"]
    assert [one.hours for one in yard.findings if one.finding == "nuts"].count(2599) == 1
    assert client.post("/trouble/5/after/coupling", data=form(says="lock seen", clock="2599")).status_code == 303
    assert "coupling lock seen" not in client.get("/due").text


@pytest.mark.parametrize(
    ("fields", "wrong", "kept"),
    [
        ({"clock": "2599"}, "nuts-wrong", 'value="2599"'),
        ({"nuts": "still"}, "clock-wrong", "selected"),
        ({"nuts": "still", "clock": "12"}, "clock-wrong", 'value="12"'),
        ({"nuts": "still", "clock": "many"}, "clock-wrong", 'value="many"'),
        ({"nuts": "tight", "clock": "2599"}, "nuts-wrong", 'value="2599"'),
    ],
)
def test_what_cannot_be_is_said_beside_its_field(
    fields: dict[str, str], wrong: str, kept: str, client: TestClient, folder: Path
) -> None:
    before = store.at(folder).read()
    got = client.post("/trouble/5/after/wheel-nuts", data=form(**fields))
    assert got.status_code == 400
    assert wrong in got.text
    assert kept in got.text
    assert store.at(folder).read() == before


def test_what_does_not_run_is_not_there(pages: TestClient) -> None:
    assert pages.get("/trouble/6/after/wheel-nuts").status_code == 404
    assert pages.get("/trouble/5/after/nothing").status_code == 404
    assert pages.get("/machine/lark/ready-card").status_code == 404
    assert pages.get("/machine/wren/ready-card.pdf").content.startswith(b"%PDF")
    assert 'href="/machine/wren/ready-card"' in pages.get("/yard").text
