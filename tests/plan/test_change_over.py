"""What is changed over when a drive goes to a corner: by the side that it comes from, and by what its kind is known to have."""

from __future__ import annotations

from datetime import date

import pytest

from axlewright import store
from axlewright.plan.change_over import came_from, side, to_see
from axlewright.trade.change_over import change_over
from axlewright.trade.questions import question
from axlewright.yard import PLACES, Answer, Change, Corner, Drive, Yard

DEMO = store.at(store.DEMO).read()
LEFT, RIGHT = Corner("linnet", "front-left"), Corner("linnet", "front-right")


def words(yard: Yard, drive: str, to: Corner) -> str:
    return "; ".join(one.words for one in to_see(yard, yard.drive(drive), to))


def test_where_it_came_from_is_told_by_its_stays() -> None:
    assert came_from(DEMO, DEMO.drive("linnet-old")) == RIGHT  # it lies on the bench now
    assert came_from(DEMO, DEMO.drive("broad-spare")) is None
    assert [side(Corner("m", place)) for place in PLACES] == ["left", "right", "left", "right"]


def test_back_to_its_own_side_nothing_is_changed_over_but_it_is_looked_at() -> None:
    assert [one.words for one in to_see(DEMO, DEMO.drive("linnet-old"), RIGHT)] == [
        one.words for one in change_over() if one.when == ("always",)
    ]


def test_the_other_side_wants_its_plugs_and_a_kind_without_a_brake_no_brake() -> None:
    said = words(DEMO, "linnet-old", LEFT)
    assert "in the holes for this side" in said
    assert "drop" in said
    assert "brake" not in said
    assert "five turns" not in said  # its own ratio is this machine's


def test_one_from_outside_is_held_against_the_twin_and_its_turns_counted() -> None:
    said = words(DEMO, "broad-spare", Corner("bramble", "front-left"))
    for wanted in ("1 in 100", "by calliper", "brake", "cast mark"):
        assert wanted in said
    assert "holes for this side" not in said  # its level plug turns with the wheel


def test_what_hangs_on_a_question_that_nobody_answered_names_it() -> None:
    open_ = {one.asks for one in to_see(DEMO, DEMO.drive("box-spare"), Corner("wren", "front-left"))}
    assert open_ == {"", "drive/level-plug", "drive/brake"}
    told = Answer(id="a", name="drive/brake", value="elsewhere", design="drop-box", on=date(2026, 8, 27))
    yard = DEMO.with_(Change((told,)))
    assert "brake" not in words(yard, "box-spare", Corner("wren", "front-left"))
    nameless = DEMO.with_(Change((Drive(id="odd", name="odd", sits="shelf"),)))
    assert "brake" in words(nameless, "odd", LEFT)  # of a kind that nobody named, everything is open


@pytest.mark.parametrize("row", change_over(), ids=lambda row: row.id)
def test_every_row_asks_what_there_is_to_ask(row: object) -> None:
    for name, wanted in row.given.items():  # type: ignore[attr-defined]
        assert set(wanted) <= set(question(name).words())
    assert row.source  # type: ignore[attr-defined]
