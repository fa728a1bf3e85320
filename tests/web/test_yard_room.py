"""The Yard room: what needs somebody, each clock kept up where it stands, what is written down in it, the last change."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from axlewright import store
from axlewright.plan.corners import corners
from axlewright.plan.sheet.yard import MOST_DRAWN, yard_room
from axlewright.plan.sheet.yard_needs import needs
from axlewright.web.app import make
from axlewright.yard import Machine, Title, Yard

TODAY = date(2026, 8, 28)


def form_of(page: str, machine: str, clock: str) -> dict[str, str]:
    """The hidden and typed fields of a clock's form."""
    found = re.findall(r"<form method=\"post\" action=\"/yard\".*?</form>", page, re.DOTALL)
    one = next(form for form in found if f'value="{machine}"' in form and f'name="clock" value="{clock}"' in form)
    return dict(re.findall(r'<input[^>]* name="(\w+)"[^>]* value="([^"]*)"', one))


def read(folder: Path) -> Yard:
    return store.at(folder, TODAY).read()


def stood(folder: Path, machine: str, clock: str) -> float:
    return read(folder).clock_log(machine).readings("engine" if clock == "engine" else "threshing")[-1][1].hours


def test_each_machine_has_a_clock_to_tap_for_each_it_was_given(pages: TestClient) -> None:
    page = pages.get("/yard").text
    for one in store.at(store.DEMO, TODAY).read().machines:
        assert f'id="m-{one.id}"' in page
        for clock in one.clocks:
            assert form_of(page, one.id, clock)["machine"] == one.id


def test_two_taps_keep_a_clock_up(client: TestClient, folder: Path) -> None:
    """The first opens the clock, the second adds hours to what stood there; sent twice they are added once."""
    fields = form_of(client.get("/yard").text, "bramble", "engine")
    before = stood(folder, "bramble", "engine")
    for _ in range(2):
        answer = client.post("/yard", data={**fields, "more": "5"})
        assert (answer.status_code, answer.headers["location"]) == (303, "/yard#m-bramble")
    assert stood(folder, "bramble", "engine") == before + 5
    assert len(read(folder).clock_readings) == len(store.at(store.DEMO, TODAY).read().clock_readings) + 1


def test_a_reading_is_typed_at_the_clock(client: TestClient, folder: Path) -> None:
    fields = form_of(client.get("/yard").text, "linnet", "threshing")
    typed = f"{float(fields['stood'].replace(' ', '')) + 4:g}"
    assert client.post("/yard", data={**fields, "hours": typed}).status_code == 303
    assert stood(folder, "linnet", "threshing") == pytest.approx(float(typed))


def test_a_slip_is_said_at_its_clock_with_what_was_meant(client: TestClient, folder: Path) -> None:
    before = read(folder)
    fields = form_of(client.get("/yard").text, "bramble", "engine")
    slip = f"{stood(folder, 'bramble', 'engine') * 10:.0f}"
    answer = client.post("/yard", data={**fields, "hours": slip})
    assert answer.status_code == 400
    assert f'value="{slip}"' in answer.text
    assert "Did you mean" in answer.text
    assert "A new clock was fitted" in answer.text
    opened = re.findall(r'<details class="ck" open>.*?</details>', answer.text, re.DOTALL)
    assert len(opened) == 1
    assert 'aria-invalid="true"' in opened[0]
    assert read(folder) == before
    take = re.search(r'name="take" value="([^"]+)"', answer.text)
    assert take is not None
    again = form_of(answer.text, "bramble", "engine")
    assert client.post("/yard", data={**again, "take": take[1]}).status_code == 303
    assert stood(folder, "bramble", "engine") == pytest.approx(float(take[1].replace("\u00a0", "").replace(" ", "")))


def test_hours_that_ran_on_meanwhile_are_said_and_nothing_is_kept(client: TestClient, folder: Path) -> None:
    """A page that is stale: somebody read the clock since, further on."""
    stale = form_of(client.get("/yard").text, "bramble", "engine")
    fresh = form_of(client.get("/yard").text, "bramble", "engine")
    client.post("/yard", data={**fresh, "more": "10"})
    kept = stood(folder, "bramble", "engine")
    answer = client.post("/yard", data={**stale, "more": "1"})
    assert answer.status_code == 409
    assert "read since this page was made" in answer.text
    assert stood(folder, "bramble", "engine") == kept


def test_the_last_change_is_taken_back_from_the_yard_once(client: TestClient, folder: Path) -> None:
    before = stood(folder, "bramble", "engine")
    client.post("/yard", data={**form_of(client.get("/yard").text, "bramble", "engine"), "more": "5"})
    page = client.get("/yard").text
    assert "Last change: owner" in page
    number = re.search(r'name="number" value="(\d+)"', page)
    assert number is not None
    assert client.post("/yard/take-back", data={"number": number[1]}).status_code == 303
    assert stood(folder, "bramble", "engine") == before
    stale = client.post("/yard/take-back", data={"number": number[1]})
    assert stale.status_code == 409
    assert "Somebody wrote to this yard" in stale.text


def test_a_newcomer_gets_from_nothing_to_a_drive_at_its_corner(tmp_path: Path) -> None:
    folder = tmp_path / "own"
    store.lay_out(folder)
    client = TestClient(make(folder, TODAY), follow_redirects=False)
    assert "No machine in this yard yet." in client.get("/yard").text
    machine = {"name": "Old Wren", "kind": "small-combine", "corners": ["front-left", "front-right"], "clocks": "engine", "engine": "2 261"}  # fmt: skip
    assert client.post("/yard/machine", data={**machine, "form": "0" * 32}).status_code == 303
    assert client.post("/yard/machine", data={**machine, "form": "0" * 32}).status_code == 303
    assert client.post("/yard/design", data={"name": "Hub", "mass": "310 kg", "known": "book", "fits": "old-wren/front-left"}).status_code == 303  # fmt: skip
    assert client.post("/yard/drive", data={"corner": "old-wren/front-left", "numbers": "tag 77", "design": "hub"}).status_code == 303  # fmt: skip
    yard = read(folder)
    assert (len(yard.machines), len(yard.clock_readings), len(yard.drives)) == (1, 1, 1)
    page = client.get("/yard").text
    assert "Old Wren front left" in page
    assert "2\u202f261" in page or "2 261" in page
    saw = client.post("/", data={"plug": "paste", "corner": "old-wren/front-left", "clock": "2261", "form": "1" * 32})
    assert saw.headers["location"].startswith("/trouble/1")
    assert client.get("/trouble/1/first-look.pdf").content.startswith(b"%PDF")


@pytest.mark.parametrize(
    ("page", "data", "field"),
    [
        ("/yard/machine", {"name": "", "corners": "front-left", "clocks": "engine"}, "name"),
        ("/yard/machine", {"name": "Linnet", "corners": "front-left", "clocks": "engine"}, "name"),
        ("/yard/machine", {"name": "New", "clocks": "engine"}, "corners"),
        ("/yard/machine", {"name": "New", "corners": "front-left", "clocks": "engine", "engine": "soon"}, "engine"),
        ("/yard/drive", {"corner": "nowhere"}, "corner"),
        ("/yard/design", {"name": "Odd", "mass": "18 ton"}, "mass"),
        ("/yard/design", {"name": "Odd", "bolt_torque": "380"}, "bolt_torque"),
    ],
)
def test_what_cannot_be_is_said_at_its_field(
    client: TestClient, folder: Path, page: str, data: dict[str, str], field: str
) -> None:
    before = read(folder)
    answer = client.post(page, data={**data, "note": "kept as typed"})
    assert answer.status_code == 400
    assert f'id="{field}-wrong"' in answer.text
    assert "kept as typed" in answer.text
    assert read(folder) == before


def many(count: int) -> Yard:
    return Yard.of(
        [Title(name="Long"), *(Machine(id=f"m{n}", name=f"M {n}", kind="walker-combine") for n in range(count))]
    )


def test_a_long_yard_is_drawn_by_turns_and_every_machine_once() -> None:
    yard = many(2 * MOST_DRAWN + 2)
    drawn = [
        one.id for first in range(0, len(yard.machines), MOST_DRAWN) for one, _ in yard_room(yard, TODAY, first).plans
    ]
    assert sorted(drawn) == sorted(one.id for one in yard.machines)
    assert yard_room(yard, TODAY, 10_000).first == 0


def test_a_short_yard_is_drawn_whole() -> None:
    room = yard_room(many(MOST_DRAWN), TODAY)
    assert len(room.plans) == MOST_DRAWN
    assert room.machines is None


def test_what_is_stopped_comes_first_and_the_longest_unseen_before_the_others() -> None:
    yard = store.at(store.DEMO, TODAY).read()
    order = [need.what for need in needs(yard, corners(yard, TODAY), TODAY)]
    assert order == sorted(order, key=["stop", "check", "trouble", "look"].index)
    found = corners(yard, TODAY)
    stopped = {now.corner for now in found if now.verdicts.unsafe}
    assert {need.corner for need in needs(yard, found, TODAY) if need.what == "stop"} == stopped
    hand = {one.corner for one in yard.troubles if yard.stage(one.number) == "in hand"}
    assert hand
    assert not hand & stopped  # a job in hand goes on by its step card
