"""A drive comes in; a spare has its turns."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from axlewright import desk, store
from axlewright.yard import Change, Faults, Yard

NOW = desk.Now(datetime(2026, 8, 28, 19, 5, tzinfo=UTC), "owner", lambda: "abc123")
YARD = store.at(store.DEMO).read()


def after(yard: Yard, change: Change) -> Yard:
    return yard.with_(change)


def test_a_drive_comes_in_once_however_often_the_form_is_sent() -> None:
    deed = desk.typed(
        desk.DriveIn, YARD, {"name": "Old Müller's hub", "numbers": "cast 9-1, blue dot", "hours": "1 200"}
    )
    yard = after(YARD, desk.drive_in(YARD, deed, NOW))
    came = yard.drive("Old Müller's hub")
    assert (came.id, came.numbers, came.hours) == ("old-mullers-hub", ("cast 9-1", "blue dot"), 1200)
    assert came in yard.spares
    assert came.since == date(2026, 8, 28)
    assert not desk.drive_in(yard, deed, NOW)


@pytest.mark.parametrize(
    ("fields", "where", "says"),
    [
        ({"name": "broad spare"}, "name", "here already"),
        ({"name": "another", "numbers": "tag 0617"}, "numbers", "Linnet, right drive"),
        ({"name": "another", "design": "broad-hob"}, "design", "broad-hub"),
        ({"name": "another", "hours": "-5"}, "hours", ""),
        ({"name": ""}, "name", ""),
        ({"name": "\u202ename"}, "name", "U+202E"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(fields: dict[str, str], where: str, says: str) -> None:
    with pytest.raises(Faults) as bad:
        desk.drive_in(YARD, desk.typed(desk.DriveIn, YARD, fields), NOW)
    (fault,) = bad.value.faults
    assert fault.where == where
    assert says in f"{fault.what} {fault.right}"


def test_every_name_gives_an_id_of_its_own() -> None:
    yard = YARD
    for number, name in enumerate(("箱", "Ä!", "a", "A.", "a-2")):
        now = desk.Now(NOW.at, "owner", lambda number=number: f"x{number}yz")  # type: ignore[misc]
        yard = after(yard, desk.drive_in(yard, desk.DriveIn(name=name), now))
    assert len({one.id for one in yard.drives}) == len(YARD.drives) + 5


def test_turns_are_a_look_at_the_drive_and_not_at_a_corner() -> None:
    deed = desk.Turned(id="form", drive="broad-spare", grade="rough")
    yard = after(YARD, desk.turn_drive(YARD, deed, NOW))
    (found,) = (one for one in yard.findings if one.drive == "broad-spare")
    assert (found.finding, found.grade, found.corner) == ("turn", "rough", None)
    assert not desk.turn_drive(yard, deed, NOW)
    with pytest.raises(Faults, match="turns with its wheel"):
        desk.turn_drive(YARD, desk.Turned(drive="linnet-left"), NOW)
    with pytest.raises(Faults, match="smooth"):
        desk.turn_drive(YARD, desk.Turned(drive="broad-spare", grade="smoth"), NOW)
