"""A machine, a drive at its corner and a kind come into the yard; how the yard likes its sheets."""

from __future__ import annotations

import itertools
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from axlewright import store
from axlewright.desk import (
    DesignIn,
    DriveHere,
    Likes,
    MachineIn,
    Now,
    carry_out,
    design_in,
    drive_here,
    like_so,
    machine_in,
    typed,
)
from axlewright.yard import Change, Corner, Faults, Yard

IDS = itertools.count(1)
NOW = Now(datetime(2026, 8, 28, 19, 30, tzinfo=UTC), "owner", lambda: f"id{next(IDS)}")
NEWCOMER = {"id": "f0", "name": "Old Näp", "kind": "small-combine", "corners": "front-left", "clocks": "engine"}


@pytest.fixture
def kept(tmp_path: Path) -> store.Store:
    store.lay_out(tmp_path / "own")
    return store.at(tmp_path / "own", date(2026, 8, 28))


@pytest.fixture
def demo() -> Yard:
    return store.at(store.DEMO, date(2026, 8, 28)).read()


def wheres(deed: object, yard: Yard, do: object) -> dict[str, str]:
    with pytest.raises(Faults) as bad:
        do(yard, deed, NOW)  # type: ignore[operator]
    return {one.where: f"{one.what} {one.right}" for one in bad.value.faults}


def test_from_nothing_to_a_drive_at_its_corner_kept_as_text(kept: store.Store) -> None:
    yard = kept.read()
    came = typed(MachineIn, yard, {**NEWCOMER, "engine": "2 261"})
    carry_out(kept, lambda standing: machine_in(standing, came, NOW))
    kind = typed(DesignIn, yard, {"id": "f1", "name": "Two-stage hub", "fits": "old-nap/front-left", "mass": "310 kg", "known": "book"})  # fmt: skip
    carry_out(kept, lambda standing: design_in(standing, kind, NOW))
    sits = typed(DriveHere, yard, {"id": "f2", "corner": "old-nap/front-left", "numbers": "tag 77, cast 3", "design": "two-stage-hub"})  # fmt: skip
    carry_out(kept, lambda standing: drive_here(standing, sits, NOW))
    stands = store.at(kept.name, date(2026, 8, 28)).read()
    assert [one.hours for one in stands.clock_readings] == [2261.0]
    drive = stands.drive_at(Corner("old-nap", "front-left"))
    assert drive is not None
    assert (drive.name, drive.numbers, drive.design) == ("Old Näp front left", ("tag 77", "cast 3"), "two-stage-hub")
    assert str(stands.design("two-stage-hub").mass) and stands.design("two-stage-hub").fits == (drive.sits,)  # ruff: ignore[pytest-composite-assertion]


def test_a_machine_sent_twice_comes_once(kept: store.Store) -> None:
    came = typed(MachineIn, kept.read(), {**NEWCOMER, "engine": "2261"})
    carry_out(kept, lambda standing: machine_in(standing, came, NOW))
    again, change = carry_out(kept, lambda standing: machine_in(standing, came, NOW))
    assert change == Change()
    assert (len(again.machines), len(again.clock_readings)) == (1, 1)


@pytest.mark.parametrize(
    ("changed", "where", "says"),
    [
        ({"name": "Linnet"}, "name", "here already"),
        ({"kind": "walker-combin"}, "kind", "walker-combine"),
        ({"corners": ()}, "corners", "Tick each wheel"),
        ({"clocks": ()}, "clocks", "Tick the clock"),
        ({"threshing": "40"}, "threshing", "not said to have"),
        ({"engine": "200 000"}, "engine", "100000"),
    ],
)
def test_what_cannot_be_says_which_field(demo: Yard, changed: dict[str, object], where: str, says: str) -> None:
    with pytest.raises(Faults) as bad:
        machine_in(demo, typed(MachineIn, demo, {**NEWCOMER, **changed}), NOW)
    assert [one.where for one in bad.value.faults] == [where]
    assert says in f"{bad.value.faults[0].what} {bad.value.faults[0].right}"


def test_a_name_without_a_letter_that_can_be_typed_gets_an_id(demo: Yard) -> None:
    change = machine_in(demo, typed(MachineIn, demo, {**NEWCOMER, "name": "مزرعة"}), NOW)
    assert change.records[0].id == "machine-f0"


def test_a_corner_holds_one_drive(demo: Yard) -> None:
    taken = next(corner for corner in demo.corners if demo.drive_at(corner))
    deed = typed(DriveHere, demo, {"corner": str(taken), "name": "another"})
    assert "sits there already" in wheres(deed, demo, drive_here)["corner"]


def test_a_number_stands_on_one_drive(demo: Yard, kept: store.Store) -> None:
    other = next(one for one in demo.drives if one.numbers)
    yard, _ = carry_out(kept, lambda at: machine_in(at, typed(MachineIn, at, NEWCOMER), NOW))
    both = Yard.of([*demo.records, *yard.machines])
    deed = typed(DriveHere, both, {"corner": "old-nap/front-left", "numbers": other.numbers[0]})
    assert other.name in wheres(deed, both, drive_here)["numbers"]


def test_a_value_of_a_kind_must_be_readable(demo: Yard) -> None:
    assert "18 ton" in wheres(typed(DesignIn, demo, {"name": "Odd", "mass": "18 ton"}), demo, design_in)["mass"]


LIKES = {"name": "Low Meadow", "measures": "us", "dates": "", "decimal": ".", "currency": "cad", "paper": "Letter"}


def test_likes_are_kept_and_nothing_else_changes(demo: Yard) -> None:
    change = like_so(demo, typed(Likes, demo, LIKES), NOW)
    after = demo.with_(change)
    assert (after.title.currency, after.title.paper, after.title.dates) == ("CAD", "Letter", None)
    assert after.title.today == demo.title.today
    assert after.records[1:] == demo.records[1:]
    assert like_so(after, typed(Likes, after, LIKES), NOW) == Change()  # the same again is nothing


def test_the_folder_keeps_its_notes_when_likes_change(kept: store.Store) -> None:
    deed = typed(Likes, kept.read(), {**LIKES, "dates": "ISO"})
    yard, _ = carry_out(kept, lambda standing: like_so(standing, deed, NOW))
    assert (yard.title.dates, yard.title.measures) == ("ISO", "us")
    assert "# Your yard." in Path(kept.name, "yard.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize("said", ["€", "kr", "R$", "zł", "eur", "XAF"])
def test_any_currency_will_do(demo: Yard, said: str) -> None:
    assert typed(Likes, demo, {**LIKES, "currency": said}).currency in {said, said.upper()}


@pytest.mark.parametrize("said", ["", "12", "<b>", "dollars", "E1"])
def test_what_is_no_currency_says_what_one_is(demo: Yard, said: str) -> None:
    with pytest.raises(Faults, match=r"three letters"):
        typed(Likes, demo, {**LIKES, "currency": said})


def test_the_other_decimal_mark_never_changes_what_a_kept_value_means(kept: store.Store) -> None:
    """2.500 t is two and a half tonnes to one reader, two and a half thousand to the other: it is asked, not guessed."""
    kind = typed(DesignIn, kept.read(), {"name": "Heavy", "mass": "1.250 t"})
    yard, _ = carry_out(kept, lambda standing: design_in(standing, kind, NOW))
    other = typed(Likes, yard, {**LIKES, "decimal": ","})
    told = wheres(other, yard, like_so)["decimal"]
    assert "read in two ways" in told
    assert "heavy" in told
    plain = Yard.of([yard.title])
    assert plain.with_(like_so(plain, other, NOW)).title.decimal == ","
