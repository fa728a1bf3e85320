"""The step card as plain pages: forms and no script, readings against their bands, holds that no page passes, a paper typed back."""

from __future__ import annotations

import re
import uuid
from io import BytesIO
from pathlib import Path

import html5lib
import pytest
from desk.in_hand import card_begun, fitting, of, walked_round, work_to
from PIL import Image
from starlette.testclient import TestClient

from axlewright import store
from axlewright.web.app import make
from axlewright.yard import Change, Yard


def kept_in(folder: Path, yard: Yard) -> TestClient:
    """The app over the demo yard with what more stands in this one."""
    store.lay_out(folder, store.DEMO)
    place = store.at(folder)
    before = place.read()
    place.write(Change(tuple(one for one in yard.records if one not in before.records)), before.seen)
    return TestClient(make(folder), follow_redirects=False)


@pytest.fixture
def jacked(tmp_path: Path) -> TestClient:
    """Trouble 6 with the tyre just about to lift."""
    return kept_in(tmp_path / "yard", work_to(card_begun(), "ra-clear"))


def now(client: TestClient) -> Yard:
    return client.app.state.store.read()  # type: ignore[attr-defined]


def at(client: TestClient, step: str) -> str:
    return f"/trouble/6/step/{of(now(client)).place(step)[1]}"


def form(**fields: str) -> dict[str, str]:
    return {"form": uuid.uuid4().hex, "who": "owner", **{k.replace("__", "-"): v for k, v in fields.items()}}


def test_every_step_is_a_whole_page_without_a_script(jacked: TestClient) -> None:
    stands = of(now(jacked))
    for number in range(1, len(stands.cards[""]) + 1):
        got = jacked.get(f"/trouble/6/step/{number}")
        assert got.status_code == 200
        assert "<script" not in got.text
        assert len(got.content) <= 60_000
        assert "If it falls" in got.text
        assert "Way back" in got.text
        if number % 7 == 0:
            html5lib.HTMLParser(strict=True).parse(got.text)
    for path in ("/trouble/6/step", "/trouble/6/type-back"):
        html5lib.HTMLParser(strict=True).parse(jacked.get(path).text)
    assert jacked.get("/trouble/6/step/400").status_code == 404
    assert jacked.get("/trouble/6/step/x").status_code == 404


def test_cautions_stand_on_their_step_and_bands_beside_the_field(jacked: TestClient) -> None:
    page = jacked.get(at(jacked, "ra-clear")).text
    rows = of(now(jacked)).rows
    for name in rows.task["ra-clear"].cautions:
        assert rows.caution[name].lead.split("’")[0][:30] in page.replace("\u00a0", " ")
    gauge = next(band for band in of(now(jacked)).card.bands if band.reading == "jack-gauge")
    assert f"{gauge.go_from:g} to {gauge.go_to:g}" in page
    assert "lower now" in page


def test_a_reading_is_kept_and_says_what_its_band_says(jacked: TestClient) -> None:
    gauge = next(band for band in of(now(jacked)).card.bands if band.reading == "jack-gauge")
    sent = form(**{"r-jack-gauge": f"{(gauge.ask_to or 0) + 20:g}", "go": "keep"})
    here = at(jacked, "ra-clear")
    assert jacked.post(here, data=sent).status_code == 303
    assert jacked.post(here, data=sent).status_code == 303
    page = jacked.get(here).text
    assert "<b>lower now</b>" in page
    assert len([one for one in of(now(jacked)).records if one.reading == "jack-gauge"]) == 1
    again = form(**{"r-jack-gauge": f"{gauge.go_to:g}", "go": "next"})
    answer = jacked.post(here, data=again)
    assert answer.headers["location"] == at(jacked, "ra-band")
    assert "Read before:" in jacked.get(here).text


def test_a_hold_is_not_passed_and_says_what_is_missing_and_loses_nothing(jacked: TestClient) -> None:
    behind = jacked.get(at(jacked, "ra-up")).text
    assert "is not passed" in behind
    assert '<form method="post" id="write"' not in behind
    assert jacked.post(at(jacked, "ra-up"), data=form(go="next")).status_code == 400
    hold = at(jacked, "ra-band")
    refused = jacked.post(hold, data=form(go="next", seen_by="helper", note="wind"))
    assert refused.status_code == 400
    assert "nobody has read it" in refused.text or "is not done" in refused.text
    assert 'value="helper"' in refused.text
    assert "ra-band" not in of(now(jacked)).done
    wrong = jacked.post(hold, data=form(go="next", **{"r-jack-gauge": "12 mm", "r-jack-lean": "1"}))
    assert 'value="12 mm"' in wrong.text
    assert "aria-invalid" in wrong.text


def test_a_step_can_be_taken_back(jacked: TestClient) -> None:
    assert "ra-first" in of(now(jacked)).done
    assert jacked.post(at(jacked, "ra-first"), data=form(go="undo")).status_code == 303
    assert "ra-first" not in of(now(jacked)).done


def test_the_whole_way_by_pages_alone(tmp_path: Path) -> None:
    """From the walk-round to the looks that follow, with nothing but forms."""
    client = kept_in(tmp_path / "yard", walked_round())
    begin = client.get("/trouble/6/step").text
    ticked = re.findall(r'name="when" value="([a-z-]+)" checked', begin)
    assert "brake-at-drive" in ticked
    answer = client.post("/trouble/6/step", data={**form(hands="2"), "when": ticked})
    assert answer.status_code == 303
    for _ in range(140):
        stands = of(now(client))
        if stands.now is None:
            break
        task = stands.now.task
        fields = {"go": "next", "seen_by": "helper"}
        for reading in stands.readings_at(task):
            if reading not in stands.taken or stands.taken[reading].says not in ("go on", None):
                fields |= {f"r-{name}": value for name, value in fitting(stands, reading).items()}
        answer = client.post(at(client, task.id), data=form(**fields))
        assert answer.status_code == 303, answer.text
    assert of(now(client)).now is None
    bad = client.post("/trouble/6/set-down", data=form(engine="33680"))
    assert bad.status_code == 400
    assert 'value="33680"' in bad.text
    assert client.post("/trouble/6/set-down", data=form(engine="3368")).status_code == 303
    assert now(client).stage(6) == "set down"
    assert "looks that follow are written down" in client.get("/trouble/6/step").text


def test_what_is_missing_before_the_card_is_said(client: TestClient) -> None:
    assert "No course was taken" in client.get("/trouble/8/step").text
    page = client.get("/trouble/6/step").text
    assert "of the walk-round open" in page
    refused = client.post("/trouble/6/step", data=form(hands="1"))
    assert refused.status_code == 400
    assert "second adult" in refused.text
    assert client.get("/trouble/61/step").status_code == 404
    assert client.get("/trouble/6/step/4").status_code == 303


def test_a_paper_card_is_typed_back_and_a_slip_loses_nothing(jacked: TestClient) -> None:
    page = jacked.get("/trouble/6/type-back").text
    front = of(now(jacked)).front()
    assert all(f'name="r-{name}"' in page for name in front)
    assert len(front) <= 7
    sent = form(**{"r-jack-gauge": "15O", "r-crib-settle": "1", "up_to": "21", "seen_by": "helper", "time": "25:00"})
    refused = jacked.post("/trouble/6/type-back", data=sent)
    assert refused.status_code == 400
    for typed in ('value="15O"', 'value="1"', 'value="21"', 'value="helper"', 'value="25:00"'):
        assert typed in refused.text
    assert "time-wrong" in refused.text
    again = jacked.post("/trouble/6/type-back", data={**sent, "time": "16:20"})
    assert "jack-gauge-wrong" in again.text
    gauge = next(band for band in of(now(jacked)).card.bands if band.reading == "jack-gauge")
    right = {**sent, "time": "16:20", "r-jack-gauge": f"{gauge.go_to:g}"}
    assert jacked.post("/trouble/6/type-back", data=right).status_code == 303
    assert "ra-held" in of(now(jacked)).done


@pytest.mark.parametrize(
    "typed", ["<script>alert(1)</script>", "'; DROP TABLE x; --", "🚜" * 40, "x" * 5000, "\u202e12"]
)
def test_hostile_text_is_kept_as_text_or_refused(typed: str, jacked: TestClient) -> None:
    got = jacked.post(at(jacked, "ra-clear"), data=form(go="keep", **{"r-jack-gauge": typed}))
    assert got.status_code == 400
    assert "<script>alert" not in got.text
    named = jacked.post(at(jacked, "ra-clear"), data={**form(go="next", **{"r-jack-gauge": "150"}), "who": typed})
    assert named.status_code in (303, 400)
    assert "<script>alert" not in jacked.get(at(jacked, "ra-clear")).text


def jpeg() -> bytes:
    out = BytesIO()
    Image.new("RGB", (60, 40), "white").save(out, "JPEG")
    return out.getvalue()


JPEG = jpeg()


def test_a_photo_of_the_paper_is_the_record_and_passes_no_hold(jacked: TestClient) -> None:
    before = of(now(jacked)).done
    sent = {"form": uuid.uuid4().hex, "who": "helper"}
    for _ in range(2):
        got = jacked.post("/trouble/6/photo", data=sent, files={"photo": ("p.jpg", JPEG, "image/jpeg")})
        assert got.status_code == 303
    photos = [one for one in of(now(jacked)).records if one.photo]
    assert len(photos) == 1
    assert of(now(jacked)).done.keys() == before.keys()
    page = jacked.get("/trouble/6/step").text
    assert f"/photo/{photos[0].photo}" in page
    kept = jacked.get(f"/photo/{photos[0].photo}")
    with Image.open(BytesIO(kept.content)) as photo:
        assert photo.size == (60, 40)
    assert kept.headers["content-type"] == "image/jpeg"


def test_a_photo_of_a_step_stands_with_that_step_and_does_it_not(jacked: TestClient) -> None:
    before, here, sent = of(now(jacked)).done, at(jacked, "ra-clear"), {"form": uuid.uuid4().hex, "who": "helper"}
    for _ in range(2):
        got = jacked.post(f"{here}/photo", data=sent, files={"photo": ("p.jpg", JPEG, "image/jpeg")})
        assert got.status_code == 303
    kept = [one for one in of(now(jacked)).records if one.photo]
    assert [one.step for one in kept] == ["ra-clear"]
    assert of(now(jacked)).done.keys() == before.keys()
    assert f"/photo/small/{kept[0].photo}" in jacked.get(here).text
    refused = jacked.post(f"{here}/photo", data=form(), files={"photo": ("p.jpg", b"GIF89a", "image/jpeg")})
    assert refused.status_code == 400
    assert "photo-wrong" in refused.text
    assert jacked.post("/trouble/6/step/999/photo", data=form()).status_code == 404


@pytest.mark.parametrize(("data", "says"), [(b"", "no photo"), (b"<svg>", "no photo"), (b"GIF89a", "no photo")])
def test_what_is_no_photo_is_refused_in_words(data: bytes, says: str, jacked: TestClient) -> None:
    got = jacked.post("/trouble/6/photo", data=form(), files={"photo": ("p.jpg", data, "image/jpeg")})
    assert got.status_code == 400
    assert says in got.text
    assert not [one for one in of(now(jacked)).records if one.photo]


def test_no_photo_is_given_from_elsewhere(jacked: TestClient) -> None:
    for path in ("/photo/card-0.jpg", "/photo/..%2Fyard.toml", "/photo/yard.toml", "/photo/%2e%2e"):
        assert jacked.get(path).status_code in (404, 307)
    assert jacked.post("/trouble/6/photo", content=b"x", headers={"content-length": "14000000"}).status_code == 413
