"""What was looked at of the bolts: kept field by field, refused in words, drawn up on the Bolts sheet."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from axlewright import desk, store
from axlewright.plan.bolts_of import bolt_task
from axlewright.plan.drawn_up import draw_up, will_be_drawn
from axlewright.yard import Faults, Yard

NOW = desk.Now(datetime(2026, 8, 28, 19, tzinfo=UTC), "owner", lambda: "new")


@pytest.fixture
def place(tmp_path: Path) -> store.Store:
    store.lay_out(tmp_path / "yard", store.DEMO)
    return store.at(tmp_path / "yard")


def looked(place: store.Store, number: int, **values: str) -> Yard:
    deed = desk.typed(desk.LookedAtBolts, place.read(), {"trouble": number, "values": values})
    return desk.carry_out(place, lambda yard: desk.look_at_bolts(yard, deed, NOW))[0]


def test_it_is_kept_and_what_was_there_stays(place: store.Store) -> None:
    yard = looked(place, 6, grease="moly-paste", reached="1, 2, 3")
    bolts = yard.trouble(6).bolts
    assert bolts is not None
    assert (bolts.grease, bolts.reached, bolts.thread) == ("moly-paste", (1, 2, 3), "M18")
    assert place.read() == yard


def test_said_twice_it_changes_nothing(place: store.Store) -> None:
    first = looked(place, 6, grease="moly-paste")
    assert looked(place, 6, grease="moly-paste").seen == first.seen


def test_first_look_at_bolts_of_a_trouble(place: store.Store) -> None:
    yard = looked(place, 8, thread="3/4-10 UNC", count="8", book_torque="300 lbf·ft")
    task = bolt_task(yard.trouble(8))
    assert task is not None
    assert task.book_torque is not None
    assert task.book_torque.basis == "book"
    assert float(task.book_torque.spread.at(0.5)) == pytest.approx(300 * 1.3558179483314004)


@pytest.mark.parametrize(
    ("values", "names"),
    [
        ({"threads": "M18"}, "thread"),
        ({"count": "many"}, "count"),
        ({"book_torque": "423"}, "book_torque"),
        ({"book_torque": "12 t"}, "torque"),
        ({"in_bushes": "one"}, "in_bushes"),
    ],
)
def test_nonsense_is_refused_by_name_and_nothing_is_kept(
    place: store.Store, values: dict[str, str], names: str
) -> None:
    before = place.read()
    with pytest.raises(Faults) as bad:
        looked(place, 6, **values)
    assert names in str(bad.value)
    assert place.read() == before


@pytest.mark.parametrize(
    "values", [{"thread": "3/4"}, {"grease": "butter"}, {"head_mark": "nine"}, {"housing": "cheese"}]
)
def test_what_cannot_be_reckoned_with_is_said_where_it_is_drawn_up(place: store.Store, values: dict[str, str]) -> None:
    yard = looked(place, 6, **values)
    with pytest.raises(Faults) as bad:
        draw_up(yard, yard.trouble(6), NOW.at.date())
    assert "trouble 6" in str(bad.value)


def test_the_bolts_sheet_is_in_the_pack_with_every_number_sourced(place: store.Store) -> None:
    yard = place.read()
    made = draw_up(yard, yard.trouble(6), NOW.at.date())
    assert [sheet.name for sheet in made.sheets] == ["first-look", "trouble", "bolts"]
    assert all(entry.source and entry.basis for entry in made.basis.values())


def test_what_will_be_drawn_is_what_is_drawn(place: store.Store) -> None:
    yard = place.read()
    for trouble in yard.troubles:
        made = draw_up(yard, trouble, NOW.at.date())
        assert [(s.name, s.block.title) for s in made.sheets] == list(will_be_drawn(yard, trouble, NOW.at.date()))
