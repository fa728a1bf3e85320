"""The pages over a yard in a database: what they show is what they show over its folder, and what is sent is kept."""

from __future__ import annotations

import re
import threading
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from axlewright.store import DEMO, at, lay_out
from axlewright.web.app import make
from axlewright.yard import Change

HIDDEN = re.compile(r'<input type="?hidden"?[^>]*>')  # the mark of the yard, the id of a form
PAGES = ("/", "/yard", "/trouble/6", "/due", "/shelf", "/bench", "/season")


@pytest.fixture
def places(tmp_path: Path) -> tuple[str, str]:
    """The demo yard, in a folder and in a database."""
    lay_out(tmp_path / "yard", DEMO)
    lay_out(tmp_path / "yard.db", at(DEMO).read())
    return str(tmp_path / "yard"), str(tmp_path / "yard.db")


def test_the_pages_are_the_same(places: tuple[str, str]) -> None:
    apps = [make(place) for place in places]
    for app in apps:
        app.state.patience = 60.0  # a choice that is still being made out in one of them would be another page
    folder, database = (TestClient(app) for app in apps)
    for page in PAGES:
        shown, kept = folder.get(page), database.get(page)
        assert kept.status_code == shown.status_code == 200, page
        texts = {HIDDEN.sub("", one.text) for one in (shown, kept)}
        assert len(texts) == 1, page


def test_ten_at_once(places: tuple[str, str]) -> None:
    """One server, several people: each page comes whole while somebody writes."""
    client = TestClient(make(places[1]))
    found: list[int] = []

    def look() -> None:
        found.extend(client.get(page).status_code for page in PAGES[:3])

    people = [threading.Thread(target=look) for _ in range(10)]
    for one in people:
        one.start()
    store = at(places[1])
    yard = store.read()
    drive = yard.drives_written[0]
    for n in range(5):
        yard = store.read()
        store.write(Change((drive.model_copy(update={"note": f"looked at {n}"}),)), yard.seen)
    for one in people:
        one.join()
    assert found == [200] * 30
    store.close()
