"""Packs frozen under a key: the same key the same bytes, whatever became of the yard since."""

from __future__ import annotations

import dataclasses
import json
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from axlewright import desk, store
from axlewright.plan.drawn_up import draw_up
from axlewright.plan.pack import freeze, key_of
from axlewright.render import Show, render
from axlewright.yard import Faults, Yard

NOW = desk.Now(datetime(2026, 8, 28, 19, tzinfo=UTC), "owner", lambda: "new")
DEED = desk.DrawUp(trouble=6)
RUNNING = 6  # settled in the demo yard


@pytest.fixture
def place(tmp_path: Path) -> store.Store:
    store.lay_out(tmp_path / "yard", store.DEMO)
    return store.at(tmp_path / "yard")


def drawn(place: store.Store, number: int = RUNNING, now: desk.Now = NOW) -> str:
    deed = desk.DrawUp(trouble=number)
    return desk.key_in(desk.carry_out(place, lambda yard: desk.draw_up(yard, deed, now))[1])


def test_drawn_up_is_a_stage_with_its_key_and_is_read_back_whole(place: store.Store) -> None:
    key = drawn(place)
    yard = place.read()
    stage = yard.stages_of(RUNNING)[-1]
    assert (stage.stage, stage.pack, stage.who) == ("drawn up", key, "owner")
    kept = desk.pack_kept(place, key)
    assert kept.key == key
    assert kept.seed
    assert kept.count == 2048
    assert any(row.changed for row in kept.sheets[0].revisions if "drawn up" in str(row.changed) and not row.ahead)


def test_the_same_key_gives_the_same_bytes_after_the_yard_went_on(place: store.Store) -> None:
    key = drawn(place)
    first = [render(desk.pack_kept(place, key), Show(), name) for name in ("json", "pdf")]
    answers = desk.Answers(trouble=RUNNING, values={"bolts/grease": "dry"})
    desk.carry_out(place, lambda yard: desk.answer(yard, answers, NOW))
    other = drawn(place, now=dataclasses.replace(NOW, new_id=lambda: "other"))
    assert other != key
    assert [render(desk.pack_kept(place, key), Show(), name) for name in ("json", "pdf")] == first


def test_drawn_up_again_with_nothing_new_keeps_nothing_new(place: store.Store) -> None:
    key, yard = drawn(place), place.read()
    assert drawn(place, now=dataclasses.replace(NOW, new_id=lambda: "again")) == key
    assert place.read() == yard


def test_the_key_hangs_on_six_digits_and_no_more() -> None:
    yard = store.at(store.DEMO).read()
    made = draw_up(yard, yard.trouble(RUNNING), date(2026, 8, 28))
    frozen = freeze(made)
    name, entry = next((n, e) for n, e in made.basis.items() if e.value > 1)

    def moved(by: float) -> str:
        said = {**made.basis, name: entry.model_copy(update={"value": frozen.basis[name].value * (1 + by)})}
        return freeze(made.model_copy(update={"basis": said})).key

    assert moved(1e-9) == frozen.key
    assert moved(1e-3) != frozen.key
    assert key_of(frozen) == frozen.key
    numbers = json.loads(frozen.model_dump_json(), parse_float=lambda text: text)
    assert all(len(text.strip("-").partition("e")[0].replace(".", "").strip("0")) <= 6 for text in strings(numbers))


def strings(part: object) -> list[str]:
    """The numbers of a basis, as they are written."""
    assert isinstance(part, dict)
    return [e[key] for e in part["basis"].values() for key in ("value", "low", "high") if isinstance(e[key], str)]


def test_a_stop_is_frozen_too_but_reaches_no_stage(place: store.Store) -> None:
    number = next(
        t.number
        for t in place.read().troubles
        if draw_up(place.read(), t, date(2026, 8, 28)).sheets[0].name == "make-safe"
    )
    before = place.read().stage(number)
    key = drawn(place, number)
    assert [sheet.name for sheet in desk.pack_kept(place, key).sheets] == ["make-safe"]
    assert place.read().stage(number) == before


def test_one_that_was_put_by_is_printed_but_not_opened_again(place: store.Store) -> None:
    closed = desk.Reached(trouble=RUNNING)
    desk.carry_out(place, lambda yard: desk.put_by(yard, closed, NOW))
    key, stages = drawn(place), place.read().stages_of(RUNNING)
    assert stages[-1].stage == "put by"
    assert desk.pack_kept(place, key)


def test_a_pack_that_somebody_changed_is_not_printed(place: store.Folder, tmp_path: Path) -> None:
    key = drawn(place)
    file = tmp_path / "yard" / "packs" / f"{key}.json"
    file.write_text(file.read_text().replace("owner", "nobody", 1))
    with pytest.raises(Faults, match="somebody changed it"):
        desk.pack_kept(place, key)
    file.write_text("{")
    with pytest.raises(Faults, match="somebody changed it"):
        desk.pack_kept(place, key)


@pytest.mark.parametrize("key", ["0123456789abcdef", "../../etc/passwd", "", "x"])
def test_a_key_of_no_pack(key: str, place: store.Store) -> None:
    with pytest.raises(Faults, match="No pack was frozen"):
        desk.pack_kept(place, key)


def test_who_may(place: store.Store) -> None:
    assert desk.allowed(desk.draw_up, "helper")
    assert not desk.allowed(desk.draw_up, "reader")
    assert isinstance(place.read(), Yard)


def test_the_foot_says_which_course_was_settled(place: store.Store) -> None:
    yard = place.read()
    rows = draw_up(yard, yard.trouble(RUNNING), date(2026, 8, 28)).sheets[0].revisions
    course = yard.course(RUNNING)
    assert course
    assert any(course in str(row.changed) for row in rows if not row.ahead)
