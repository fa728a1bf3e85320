"""The picture of a yard: folds over its records, and changes to it."""

from __future__ import annotations

import random
from datetime import UTC, date, datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from yard.made import whole, yards

from axlewright.yard import (
    Change,
    Corner,
    Drive,
    Faults,
    Finding,
    Hours,
    Machine,
    Stage,
    Title,
    Trouble,
    Yard,
)

LEFT = Corner("lark", "front-left")
LARK = Machine(id="lark", name="Lark", clocks=("engine", "threshing"))


def found(name: str, grade: str = "paste", on: int = 1, **more: Any) -> Finding:
    return Finding.model_validate(
        {"id": name, "finding": "plug", "grade": grade, "corner": LEFT, "on": date(2026, 8, on), **more}
    )


def yard(*records: Any) -> Yard:
    return Yard.of([Title(name="T"), LARK, *records])


def test_a_correction_takes_the_place_of_what_it_corrects_and_both_are_kept() -> None:
    made = yard(found("a", "flakes"), found("b", "thick", corrects="a"))
    assert [f.id for f in made.standing] == ["b"]
    assert len(made.findings) == 2
    assert made.newest(LEFT)["plug"][0].grade == "thick"


def test_a_correction_of_a_correction() -> None:
    made = yard(found("a", "flakes"), found("b", "thick", corrects="a"), found("c", "paste", corrects="b"))
    assert [f.id for f in made.standing] == ["c"]


def test_the_newest_look_counts_and_two_of_one_look_both() -> None:
    made = yard(found("a", "flakes", 1), found("b", "paste", 2), found("c", "thick", 2))
    assert {f.id for f in made.newest(LEFT)["plug"]} == {"b", "c"}


def test_a_look_later_the_same_day_is_a_newer_one() -> None:
    made = yard(found("a", "thick", 2, hours=100, clock="engine"), found("b", "paste", 2, hours=108, clock="engine"))
    assert [f.id for f in made.newest(LEFT)["plug"]] == ["b"]
    doubtful = yard(
        found("a", "thick", 2, hours=100, clock="engine", about=5), found("b", "paste", 2, hours=104, clock="engine")
    )
    assert len(doubtful.newest(LEFT)["plug"]) == 2


def test_findings_go_with_the_drive_that_was_there() -> None:
    """Chips of a drive that lies on the bench say nothing of the one that was fitted."""
    old = Drive(id="old", name="old", sits="bench")
    new = Drive(id="new", name="new", sits=LEFT, since=date(2026, 8, 10))
    made = yard(
        old,
        new,
        found("a", "chips", 1, drive="old"),
        found("b", "flakes", 5),
        found("c", "paste", 12, drive="new"),
        found("d", "paste", 11),
    )
    assert [f.id for f in made.findings_at(LEFT)] == ["d", "c"]


def test_with_no_drive_written_down_all_findings_of_the_corner_stand() -> None:
    assert len(yard(found("a"), found("b", on=3)).findings_at(LEFT)) == 2


def stage(number: int, name: Any, day: int, **more: Any) -> Stage:
    return Stage.model_validate(
        {
            "id": f"{number}-{name}-{day}".replace(" ", "-"),
            "trouble": number,
            "stage": name,
            "on": date(2026, 8, day),
            **more,
        }
    )


def test_the_stage_of_a_trouble_is_its_last() -> None:
    one = Trouble(id="1", number=1, corner=LEFT, opened=date(2026, 8, 1))
    made = yard(one, stage(1, "judged", 2), stage(1, "seen", 2), stage(1, "settled", 4))
    assert [s.stage for s in made.stages_of(1)] == ["seen", "judged", "settled"]
    assert made.stage(1) == "settled"
    assert made.running_at(LEFT) == one
    over = made.with_(Change((stage(1, "put by", 5),)))
    assert over.running_at(LEFT) is None
    assert over.next_number == 2


def test_stages_of_one_day_stand_in_the_order_in_which_they_were_kept() -> None:
    noon, later = datetime(2026, 8, 2, 12, tzinfo=UTC), datetime(2026, 8, 2, 18, tzinfo=UTC)
    made = yard(stage(1, "judged", 2, at=later), stage(1, "settled", 2, at=noon))
    assert made.stage(1) == "judged"  # judged again after it was settled


@given(yards(), st.randoms())
def test_order_of_records_makes_no_difference(made: Yard, chance: random.Random) -> None:
    records = list(made.records)
    chance.shuffle(records)
    assert Yard.of(records) == made


@given(yards())
def test_what_is_kept_is_not_kept_again(made: Yard) -> None:
    assert made.fresh(whole(made)) == Change()
    assert made.with_(whole(made)) == made


@given(yards(), st.data())
def test_a_change_in_parts_is_the_change_at_once(made: Yard, data: st.DataObject) -> None:
    cut = data.draw(st.integers(0, len(made.records)))
    start = Yard.of([Title(name="empty")])
    parts = start.with_(Change(made.records[:cut])).with_(Change(made.records[cut:]))
    assert parts == start.with_(whole(made)) == made


def test_same_id_and_body_once_other_body_a_second_reading() -> None:
    made = yard(found("a"))
    later = datetime(2026, 8, 3, tzinfo=UTC)
    assert not made.fresh(Change((found("a", at=later),)))  # sent twice: only the time of keeping differs
    twice = made.with_(Change((found("a", "thick"),)))
    assert sorted(f.grade for f in twice.findings) == ["paste", "thick"]
    assert not twice.fresh(Change((found("a"), found("a", "thick"))))


def test_a_thing_is_replaced_by_its_newer_record() -> None:
    made = yard().with_(Change((LARK.model_copy(update={"name": "Lark II"}),)))
    assert [m.name for m in made.machines] == ["Lark II"]


def test_nothing_found_is_said_with_the_nearest() -> None:
    made = yard(Drive(id="left", name="left drive", numbers=("cast 9-1",), sits=LEFT))
    assert made.machine("LARK") == LARK
    assert made.drive("cast 9-1").id == "left" == made.drive("Left drive").id
    assert made.corner("Lark/front right") == Corner("lark", "front-right")
    for ask, words in [
        (lambda: made.machine("lrk"), "No machine lrk in this yard. Did you mean lark?"),
        (lambda: made.corner("lark/rear-left"), "Lark has no drive at rear-left. It has front-left and front-right."),
        (lambda: made.corner("lark"), "A corner is spelled machine/place"),
        (lambda: made.trouble(4), "There is no trouble 4 in this yard. None is written down yet."),
        (lambda: made.design("x"), "No design x in this yard."),
    ]:
        with pytest.raises(Faults, match=words.replace("?", r"\?")):
            ask()


def test_two_of_one_name_are_asked() -> None:
    twins = Yard.of([Title(name="T"), Machine(id="a", name="Lark"), Machine(id="b", name="LARK")])
    with pytest.raises(Faults, match=r"2 are named lark\. Write a or b\."):
        twins.machine("lark")


def test_hours_of_a_drive_are_its_own_and_those_of_its_machine_since() -> None:
    on, later = date(2026, 8, 1), date(2026, 8, 11)
    drive = Drive(id="d", name="d", sits=LEFT, since=on, hours=900, about=50)
    reads = (found("a", on=1, hours=2000, clock="engine"), found("b", on=11, hours=2030, clock="engine", about=1))
    assert yard(drive, *reads).drive_hours(drive, later) == Hours(930, "engine", 51)
    shelf = drive.model_copy(update={"sits": "shelf"})
    assert yard(shelf, *reads).drive_hours(shelf, later) == Hours(900, "engine", 50)
    unknown = drive.model_copy(update={"hours": None})
    assert yard(unknown, *reads).drive_hours(unknown, later) is None


def test_the_yards_own_today_wins() -> None:
    assert yard().today(date(2030, 1, 1)) == date(2030, 1, 1)
    assert Yard.of([Title(name="T", today=date(2026, 8, 28))]).today(date(2030, 1, 1)) == date(2026, 8, 28)


def test_a_yard_has_a_name() -> None:
    with pytest.raises(Faults, match="It has no name"):
        Yard.of([LARK])
