"""The last change is taken back, and taken back again: what was written is kept, and counts or counts not."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from axlewright import desk
from axlewright.store import DEMO, Folder, Store, at, lay_out
from axlewright.yard import Beside, Change, Faults, Machine, Record, Yard

COUNT = itertools.count()


def now() -> desk.Now:
    n = next(COUNT)
    return desk.Now(datetime(2026, 8, 28, 19, 5, tzinfo=UTC) + timedelta(seconds=n), "owner", lambda: f"n{n}")


@pytest.fixture(params=["yard", "yard.db"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Store]:
    """The demo yard, in each kind of store."""
    to = tmp_path / request.param
    lay_out(to, DEMO)
    opened = at(to)
    yield opened
    opened.close()


def take_back(place: Store) -> Yard:
    made = place.last()
    desk.carry_out(place, lambda yard: desk.take_back(yard, made, now()))
    return place.read()


def counting(yard: Yard) -> set[tuple[str, str, str]]:
    """All that counts in a yard, by what it says."""
    gone = {id(one) for one in yard.gone}
    kept: list[Record] = [one for one in yard.records if id(one) not in gone and one.what != "taken back"]
    return {(one.what, one.id, str(one.body())) for one in kept}


def written(place: Store, sort: str) -> None:
    """A change of each sort: new rows, a new thing with rows, a thing replaced."""
    deeds = {
        "finding": lambda y: desk.add_findings(
            y,
            desk.Seen(
                corner="linnet/front-left", marks=[desk.Mark(finding="plug", grade="paste")], trouble=None, opens=False
            ),
            now(),
        ),
        "trouble": lambda y: desk.open_trouble(y, desk.Seen(corner="linnet/front-left"), now()),
        "move": lambda y: desk.move_drive(y, desk.MoveDrive(drive="box-spare", to="bench"), now()),
        "drive": lambda y: desk.drive_in(y, desk.DriveIn(name="red hub"), now()),
        "stage": lambda y: desk.put_by(y, desk.Reached(trouble=6), now()),
        "machine": lambda y: Change((y.machine("wren").model_copy(update={"note": "Painted"}),)),
    }
    desk.carry_out(place, deeds[sort])


SORTS = ("finding", "trouble", "move", "drive", "stage", "machine")


@pytest.mark.parametrize("sort", SORTS)
def test_taken_back_nothing_counts_that_did_not_before_and_taken_back_again_all_does(place: Store, sort: str) -> None:
    before = counting(place.read())
    written(place, sort)
    after = counting(place.read())
    assert after != before
    assert counting(take_back(place)) == before
    assert counting(take_back(place)) == after
    assert counting(take_back(place)) == before
    again = place.read()
    assert counting(again) == before
    assert len(again.records) >= len(after)  # nothing was wiped out


def test_what_was_taken_back_never_gives_its_number_or_name_to_another(place: Store) -> None:
    written(place, "trouble")
    number = place.read().troubles[-1].number
    take_back(place)
    written(place, "trouble")
    assert place.read().troubles[-1].number == number + 1
    written(place, "drive")
    take_back(place)
    written(place, "drive")
    assert place.read().drive("red hub").id == "red-hub-2"


def test_nothing_to_take_back_is_said(place: Store) -> None:
    with pytest.raises(Faults, match="no change to take back"):
        desk.take_back(place.read(), place.last(), now())


def test_what_was_edited_by_hand_since_is_left_to_the_hand(tmp_path: Path) -> None:
    lay_out(tmp_path / "yard", DEMO)
    place = Folder(tmp_path / "yard")
    written(place, "machine")
    file = place.path / "machines" / "wren.toml"
    file.write_text(file.read_text(encoding="utf-8").replace("Painted", "Painted red"), encoding="utf-8")
    with pytest.raises(Faults, match="past this program"):
        desk.take_back(place.read(), place.last(), now())


def test_what_something_rests_on_stays(place: Store) -> None:
    """A drive came in, and by hand it was moved on: its coming cannot be taken back."""
    written(place, "drive")
    made = place.last()
    assert made
    rests = place.read().with_(desk.move_drive(place.read(), desk.MoveDrive(drive="red hub", to="bench"), now()))
    with pytest.raises(Faults, match="Something rests on it"):
        desk.take_back(rests, made, now())


def test_a_changed_thing_is_not_set_back_over_a_newer_one(place: Store) -> None:
    written(place, "machine")
    made, yard = place.last(), place.read()
    assert made
    newer = yard.with_(Change((yard.machine("wren").model_copy(update={"note": "Painted twice"}),)))
    with pytest.raises(Faults, match="past this program"):
        desk.take_back(newer, made, now())
    with pytest.raises(Faults, match="past this program"):
        desk.take_back(yard, replace(made, edited=True), now())


def test_a_photo_stays_where_it_is(place: Store) -> None:
    yard = place.read()
    photo = Beside("photos/a.jpg", b"\xff\xd8\xff")
    place.write(Change((Machine(id="oak", name="Oak"),), (photo,)), yard.seen)
    take_back(place)
    assert place.file("photos/a.jpg") == photo.data
    assert "oak" not in {one.id for one in place.read().machines}


def test_it_is_told_in_a_few_words(place: Store) -> None:
    written(place, "trouble")
    made = place.last()
    assert made
    assert desk.told(made) == "a trouble, a stage"
    written(place, "machine")
    made = place.last()
    assert made
    assert desk.told(made) == "machine wren changed"
