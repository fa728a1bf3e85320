"""A drive is moved by a deed: swapped in one breath, with the clock as it was read, and by the job itself at set-down."""

from __future__ import annotations

from datetime import date

import pytest
from desk.in_hand import now

from axlewright import desk, store
from axlewright.yard import Change, Corner, Faults, Move, Yard

YARD = store.at(store.DEMO).read()
TODAY = date(2026, 8, 28)
LEFT = Corner("bramble", "front-left")


def moved(yard: Yard, **fields: object) -> Change:
    return desk.move_drive(yard, desk.typed(desk.MoveDrive, yard, fields), now())


def test_a_spare_goes_on_and_the_old_one_makes_room_in_one_breath() -> None:
    change = moved(
        YARD, id="form", drive="broad-spare", to="bramble/front-left", out_to="bench", read="3371", clock="engine"
    )
    assert [(m.drive, str(m.to)) for m in change.of(Move)] == [("bramble-left", "bench"), ("broad-spare", str(LEFT))]
    after = YARD.with_(change)
    there = after.drive_at(LEFT)
    assert there
    assert there.id == "broad-spare"
    assert after.drive("bramble-left").sits == "bench"
    assert after.hours("bramble", TODAY, "engine").hours == 3371  # type: ignore[union-attr]
    assert not desk.move_drive(
        after, desk.typed(desk.MoveDrive, after, {"id": "form", "drive": "broad-spare", "to": "shelf"}), now()
    )


@pytest.mark.parametrize(
    ("fields", "where", "says"),
    [
        ({"drive": "broad-spare", "to": "bramble/front-left"}, "out_to", "Bramble, left drive"),
        ({"drive": "broad-spare", "to": "linnet/front-left", "out_to": "shelf"}, "to", "does not fit"),
        ({"drive": "broad-spare", "to": "bramble/front-middle"}, "to", "front-left"),
        ({"drive": "broad-spare", "to": "shelv"}, "to", "shelf"),
        ({"drive": "broad-spare", "to": "shelf"}, "to", "already"),
        ({"drive": "broad-spare", "to": "bench", "read": "100"}, "read", "sits at no machine"),
        ({"drive": "bramble-left", "to": "bench", "read": "3391"}, "clock", "Which clock"),
        ({"drive": "bramble-left", "to": "bench", "read": "33910", "clock": "engine"}, "hours", "3"),
        ({"drive": "bramble-left", "to": "bench", "hours": "12"}, "hours", "run back"),
        ({"drive": "no such", "to": "bench"}, "drive", "No drive"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field_and_nothing_moves(
    fields: dict[str, object], where: str, says: str
) -> None:
    with pytest.raises(Faults) as bad:
        moved(YARD, **fields)
    assert bad.value.faults[0].where == where
    assert says in f"{bad.value.faults[0].what} {bad.value.faults[0].right}"
