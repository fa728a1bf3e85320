"""Answers kept from what was typed: all faults at once, nothing kept of them; the walk-round, box by box."""

from __future__ import annotations

import itertools
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from axlewright import desk, store
from axlewright.plan.bolts_of import bolt_task
from axlewright.plan.drawn_up import draw_up
from axlewright.plan.quantities_of import walked_round
from axlewright.trade.questions import questions
from axlewright.yard import Change, Faults, Yard
from axlewright.yard.asked import open_boxes

EVENING = datetime(2026, 8, 28, 19, 5, 40, 500_000, tzinfo=UTC)
NUMBERS = itertools.count()


def now(at: datetime = EVENING, who: str = "owner") -> desk.Now:
    return desk.Now(at, who, lambda: f"n{next(NUMBERS)}")


@pytest.fixture
def place(tmp_path: Path) -> store.Store:
    store.lay_out(tmp_path / "yard", store.DEMO)
    return store.at(tmp_path / "yard")


def kept(place: store.Store, trouble: int = 6, at: datetime = EVENING, **more: Any) -> Yard:
    values = more.pop("values")
    deed = desk.typed(desk.Answers, place.read(), {"trouble": trouble, "values": values, **more})
    return desk.carry_out(place, lambda yard: desk.answer(yard, deed, now(at)))[0]


def walked(place: store.Store, trouble: int, **values: str) -> Yard:
    named = {name.replace("__", "/").replace("_", "-"): value for name, value in values.items()}
    deed = desk.typed(desk.WalkedRound, place.read(), {"trouble": trouble, "values": named})
    return desk.carry_out(place, lambda yard: desk.walk_round(yard, deed, now(who="owner and helper")))[0]


def test_they_are_kept_and_what_was_there_stays(place: store.Store) -> None:
    before = place.read()
    yard = kept(place, values={"bolts/grease": "moly paste", "wheel/mass": "391 kg"})
    own = yard.answered(trouble=6)
    assert own["bolts/grease"].value == "moly paste"
    assert own["bolts/grease"].who == "owner"
    assert own["wheel/mass"].basis == "measured"
    assert set(before.answers) < set(yard.answers)
    assert place.read() == yard
    task = bolt_task(yard, yard.trouble(6))
    assert task is not None
    assert task.on_threads == "moly-paste"


def test_said_twice_it_changes_nothing_and_the_last_of_two_in_one_second_holds(place: store.Store) -> None:
    first = kept(place, values={"bolts/grease": "moly-paste"})
    assert kept(place, values={"bolts/grease": "moly-paste"}).seen == first.seen
    for grease in ("engine-oil", "anti-seize", "as-received", "moly-paste"):
        yard = kept(place, values={"bolts/grease": grease})
        assert yard.answered(trouble=6)["bolts/grease"].value == grease


def test_a_form_sent_twice_is_kept_once(place: store.Store) -> None:
    once = kept(place, id="form", values={"wheel/mass": "391 kg"})
    assert kept(place, id="form", values={"wheel/mass": "391 kg"}, at=EVENING.replace(hour=21)).seen == once.seen


def test_of_a_machine_a_design_and_the_yard(place: store.Store) -> None:
    kept(place, trouble="", machine="Bramble", values={"machine/lift-height": "522 mm"}, source="tape")  # type: ignore[arg-type]
    kept(place, trouble="", design="broad-hub", values={"drive/mass": "409 kg"})  # type: ignore[arg-type]
    yard = kept(place, trouble="", values={"hoist/plate": "0.9 t"})  # type: ignore[arg-type]
    assert yard.answered(machine="bramble")["machine/lift-height"].source == "tape"
    assert yard.answered(design="broad-hub")["drive/mass"].basis == "measured"
    assert yard.answered()["hoist/plate"].basis == "book"
    assert place.read() == yard


NONSENSE = {
    "bolts/threads": "M18",
    "bolts/count": "many",
    "bolts/book-torque": "423",
    "bolts/fitted": "one",
    "machine/mass": "11 kg",
    "walk-round": "done",
}


def test_all_nonsense_is_said_at_once_by_name_and_nothing_is_kept(place: store.Store) -> None:
    before = place.read()
    values = {name: value for name, value in NONSENSE.items() if name != "walk-round"}
    with pytest.raises(Faults) as bad:
        kept(place, values={**values, "wheel/mass": "391 kg"})
    assert {fault.where for fault in bad.value.faults} == set(values)
    said = str(bad.value)
    for words in ("bolts/thread", "whole number", "N·m", "parted by commas", "11 t"):
        assert words in said
    assert place.read() == before


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"values": {}}, "Nothing was answered"),
        ({"values": {"walk-round": "done"}}, "every box"),
        ({"values": {"wheel/mass": "391 kg"}, "trouble": 61}, "no trouble 61"),
        ({"values": {"wheel/mass": "391 kg"}, "basis": "heard"}, "basis"),
        ({"values": {"wheel/mass": "391 kg"}, "on": "2026-09-30"}, "not come yet"),
        ({"values": {"wheel/mass": "kept"}}, "Nothing is kept"),
        ({"values": {"wheel/mass": ""}}, "wheel/mass"),
        ({"values": {"wheel/mass": "391 kg" * 60}}, "longer"),
        ({"values": {"wheel/mass": "39\u202e1 kg"}}, "U+202E"),
    ],
)
def test_what_cannot_be_kept_is_refused(place: store.Store, fields: dict[str, Any], says: str) -> None:
    before = place.read()
    with pytest.raises(Faults, match=says.replace("+", r"\+")):
        kept(place, **fields)
    assert place.read() == before


@pytest.mark.parametrize(
    "values", [{"bolts/thread": "3/4-10 UNC"}, {"bolts/head-mark": "nine"}, {"bolts/fitted": "99"}]
)
def test_what_does_not_go_together_is_said_where_it_is_drawn_up(place: store.Store, values: dict[str, str]) -> None:
    yard = kept(place, values=values)
    with pytest.raises(Faults, match="trouble 6"):
        draw_up(yard, yard.trouble(6), EVENING.date())


def test_the_bolts_sheet_is_in_the_pack_with_every_number_sourced(place: store.Store) -> None:
    yard = place.read()
    made = draw_up(yard, yard.trouble(6), EVENING.date())
    assert "bolts" in [sheet.name for sheet in made.sheets]
    assert all(entry.source and entry.basis for entry in made.basis.values())


# the walk-round
def test_at_the_table_no_box_is_ticked(place: store.Store) -> None:
    yard = kept(place, values={"header": "off", "walk-round/jack-plate": "16 t"})
    assert yard.answered(trouble=6)["header"].basis == "assumed"
    assert {"header", "walk-round/jack-plate"} <= {asked.id for asked in open_boxes(yard, yard.trouble(6))}
    assert walked_round(yard, yard.trouble(6)) is None
    at_the_machine = kept(place, values={"header": "off"}, basis="measured")
    assert "header" not in {asked.id for asked in open_boxes(at_the_machine, at_the_machine.trouble(6))}


def test_the_last_box_makes_it_done_by_whom_and_when(place: store.Store) -> None:
    yard = walked(place, 6, header="off", walk_round__jack_plate="kept")
    half = walked_round(yard, yard.trouble(6))
    assert half is not None
    assert not half.complete
    assert "walk-round" not in yard.answered(trouble=6)
    plate = yard.answered(trouble=6)["walk-round/jack-plate"]
    assert (plate.value, plate.basis, plate.source) == ("16 t", "book", "plate, photographed")
    rest = {asked.id: asked.example for asked in open_boxes(yard, yard.trouble(6))}
    deed = desk.WalkedRound(trouble=6, values=rest)
    yard, change = desk.carry_out(place, lambda standing: desk.walk_round(standing, deed, now(who="owner and helper")))
    whole = walked_round(yard, yard.trouble(6))
    assert whole is not None
    assert whole.complete
    assert (whole.who, whole.on) == ("owner and helper", EVENING.date())
    assert {r.name for r in change.of(type(plate))} == {*rest, "walk-round"}
    assert (
        desk.carry_out(place, lambda standing: desk.walk_round(standing, deed, now(who="owner and helper")))[1]
        == Change()
    )
    assert place.read() == yard


def test_another_answer_may_open_boxes_again(place: store.Store) -> None:
    yard = place.read()
    assert walked_round(yard, yard.trouble(5)).complete  # type: ignore[union-attr]
    stand = desk.WalkedRound(trouble=5, values={"rests-on": "stand"})
    yard = desk.carry_out(place, lambda standing: desk.walk_round(standing, stand, now()))[0]
    again = walked_round(yard, yard.trouble(5))
    assert again is not None
    assert {asked.id for asked in again.missing} >= {"walk-round/stand-plate", "lock-home"}


def test_kept_takes_over_what_was_known_and_no_guess_ticks_a_box_that_way(place: store.Store) -> None:
    yard = walked(place, 6, walk_round__ground="kept")  # said at the table, so assumed
    assert "walk-round/ground" in {asked.id for asked in open_boxes(yard, yard.trouble(6))}


def test_what_is_no_box_is_sent_elsewhere(place: store.Store) -> None:
    before = place.read()
    with pytest.raises(Faults, match="draw-up 6 bolts/count="):
        walked(place, 6, bolts__count="10")
    with pytest.raises(Faults, match="every box"):
        walked(place, 6, walk_round="done")
    with pytest.raises(Faults, match="Did you mean header"):
        walked(place, 6, heeder="off")
    assert place.read() == before


def test_every_question_can_be_answered_of_its_thing_and_is_read_back(place: store.Store) -> None:
    """Every example of every question, kept in the files and read again."""
    about = {
        "trouble": {"trouble": 6},
        "machine": {"machine": "bramble"},
        "design": {"design": "broad-hub"},
        "yard": {},
    }
    for whose, named in about.items():
        values = {
            name: asked.example for name, asked in questions().items() if asked.of == whose and name != "walk-round"
        }
        fields = {"trouble": None, **named, "values": values}
        deed = desk.Answers.model_validate(fields)
        yard, change = desk.carry_out(place, lambda standing, deed=deed: desk.answer(standing, deed, now()))  # type: ignore[misc]
        assert len(change.records) >= len(values) - 12
        assert place.read() == yard
