"""Trends of looks, and dates to decide by: what is drawn is what was seen, and its lines are those that the judge draws."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from axlewright import store
from axlewright.plan.due_dates import asked, known, made_out
from axlewright.plan.facts import Seen
from axlewright.plan.in_hand.due import DecideBy, due_of
from axlewright.plan.in_hand.trends import MOST_LOOKS, Trend, trends
from axlewright.plan.judge import judge_corner
from axlewright.plan.pack import pack
from axlewright.plan.sheet.due import due_sheet, waits
from axlewright.render import render
from axlewright.render.show import Show
from axlewright.sheets.figures.due import Fall, rule
from axlewright.sheets.figures.trend import Rung, trend
from axlewright.sheets.text import text
from axlewright.trade.findings import findings
from axlewright.yard import (
    AfterCheck,
    Change,
    ClockReading,
    Corner,
    Finding,
    Machine,
    Reading,
    Stage,
    Title,
    Trouble,
    Yard,
)

DAY = date(2026, 8, 28)
DEMO = store.at(store.DEMO).read()
LEFT = Corner("lark", "front-left")


def look(n: int, finding: str, grade: str, hours: float | None, **more: Any) -> Finding:
    said = {"on": DAY - timedelta(days=40 - n), "clock": "engine" if hours else None, **more}
    return Finding(id=f"f{n}-{finding}", finding=finding, grade=grade, corner=LEFT, hours=hours, **said)


def yard(*records: Any) -> Yard:
    clocks = [ClockReading(id=f"c{n}", machine="lark", on=on, hours=h, clock="engine") for n, (on, h) in enumerate([(date(2026, 7, 1), 900.0), (DAY, 1100.0)])]  # fmt: skip
    return Yard.of([Title(name="T"), Machine(id="lark", name="Lark"), Trouble(id="1", number=1, corner=LEFT, opened=date(2026, 7, 1)), *clocks, *records])  # fmt: skip


def only(one: Yard) -> Trend:
    (found,) = trends(one, DAY, 5)
    return found


def test_looks_stand_in_order_of_the_clock_each_by_its_worst() -> None:
    one = yard(
        look(3, "plug", "thick", 1050), look(1, "plug", "clean", 1000), look(2, "plug", "paste", 1020),
        look(4, "plug", "clean", 1050, corrects=None),
    )  # fmt: skip
    found = only(one)
    assert [(at.hours, at.grade.id) for at in found.looks] == [(1000, "clean"), (1020, "paste"), (1050, "thick")]
    assert found.rises


def test_what_was_corrected_or_is_put_by_is_drawn_no_more() -> None:
    looks = [look(1, "plug", "clean", 1000), look(2, "plug", "flakes", 1020), look(3, "plug", "paste", 1020, corrects="f2-plug")]  # fmt: skip
    assert [at.grade.id for at in only(yard(*looks)).looks] == ["clean", "paste"]
    over = Stage(id="s", trouble=1, stage="put by", on=DAY)
    assert not trends(yard(*looks, over), DAY, 5)


def test_one_look_is_no_trend_nor_are_looks_that_all_were_as_good_as_can_be() -> None:
    assert not trends(yard(look(1, "plug", "thick", 1000)), DAY, 5)
    assert not trends(yard(look(1, "plug", "clean", 1000), look(2, "plug", "clean", 1020)), DAY, 5)


def test_dial_and_eye_are_two_ladders() -> None:
    one = yard(look(1, "rock", "none", 1000), look(2, "rock", "still", 1010), look(3, "rock", "some", 1020))
    found = only(one)
    assert [grade.id for grade in found.grades] == ["none", "some", "beyond", "far"]
    assert [at.grade.id for at in found.looks] == ["none", "some"]


def test_an_after_check_in_words_is_a_look_and_one_without_a_clock_stands_by_its_day() -> None:
    read = Reading(id="r", trouble=1, step="hub-heat", value="warmer", on=DAY, hours=1090, clock="engine")
    first = look(1, "heat", "same", None, on=date(2026, 7, 1))
    assert [(at.hours, at.grade.id) for at in only(yard(first, read)).looks] == [(900, "same"), (1090, "warmer")]


def test_looks_before_a_new_clock_stand_as_it_would_read_now() -> None:
    """On paper: the old clock stood at 1100, the new one begins with 5; a look at 1020 lies 80 h before that."""
    fitted = ClockReading(id="n", machine="lark", on=DAY, hours=5, clock="engine", new_clock=True)
    found = only(yard(look(1, "plug", "clean", 1000), look(2, "plug", "thick", 1020), fitted))
    assert [at.hours for at in found.looks] == [-95, -75]


def test_only_the_last_looks_are_kept_and_the_worst_trend_stands_first() -> None:
    many = [look(n, "plug", "paste" if n % 2 else "clean", 1000.0 + n) for n in range(20)]
    worse = [look(30, "nuts", "still", 1030), look(31, "nuts", "moved", 1031)]
    found = trends(yard(*many, *worse), DAY, 5)
    assert [one.kind.id for one in found] == ["nuts", "plug"]
    assert len(found[1].looks) == MOST_LOOKS
    assert len(trends(yard(*many, *worse), DAY, 1)) == 1


@pytest.mark.parametrize("name", [kind.id for kind in findings().values() if kind.ordered])
def test_the_heavy_line_is_where_the_judge_says_no(name: str) -> None:
    for by in {grade.by for grade in findings()[name].grades}:
        grades = [grade for grade in findings()[name].grades if grade.by == by]
        stops = next((n for n, grade in enumerate(grades) if grade.stop), None)
        if stops is None:
            continue
        verdicts = judge_corner((Seen(name, grades[stops].id, photo=True),))
        assert (verdicts.field.word, verdicts.road.word) == ("no", "no")
        assert all(judge_corner((Seen(name, grade.id, photo=True),)).field.word != "no" for grade in grades[:stops])


def test_the_sheet_says_what_got_worse_and_draws_it() -> None:
    told = " ".join(render(pack(due_sheet(DEMO, DAY)), Show(), "text").decode().split())
    assert "leak at the wheel side went from none to damp" in told
    assert "Magnet plug at Bramble, front right, on a rule of engine hours" in told
    assert "From chips on FIELD is no." in told


def test_a_curve_needs_no_room_and_an_hour_is_a_reach() -> None:
    rungs = (Rung(text("still")), Rung(text("moved"), "stops"))
    for looks, now in ([((5.0, 0), (5.0, 1)), 5.0], [((-90.0, 1), (12_345.6, 0)), 20_000.0]):  # type: ignore[misc]
        assert trend(looks, rungs, now, text("x"), "says").height > 20
    assert rule(10.0, text("10"), [Fall(10.0, text("a look"))]).height > 10
    assert rule(0.0, text("0"), [Fall(9_000.0, text("a long name of a look that goes on and on")), Fall(1.0, text("b"))]).height > 10  # fmt: skip


# dates to decide by
def test_nothing_is_reckoned_until_it_is_asked_for_and_then_it_is_known() -> None:
    fresh = store.at(store.DEMO).read().with_(store_nothing())
    dates, missing = known(fresh, DAY)
    assert not dates
    assert {one.number for one in missing} == {6, 7}  # 8 is not looked at: a First look comes before a course
    first = made_out(fresh, DAY, 1)
    assert [one.number for one in known(fresh, DAY)[1]] == [6]
    made = made_out(fresh, DAY)
    assert known(fresh, DAY) == (made, ())
    assert set(first) < set(made) == {6}


def store_nothing() -> Any:

    return Change((ClockReading(id="new", machine="wren", on=DAY, hours=400, clock="engine"),))


def test_a_settled_course_has_its_day_to_begin() -> None:
    """By hand: fitting the spare takes from one to three days; the maize is ripe on 11 September."""
    by = made_out(DEMO, DAY)[6]
    ripe = date(2026, 9, 11)
    assert ripe - timedelta(days=4) <= by.on < ripe
    assert by.words == "fit a spare: begin it, to be ready by 11 September"
    (due,) = (one for one in due_of(DEMO, DAY, {6: by}) if one.what == "decide")
    assert (due.on, due.words, due.trouble) == (by.on, by.words, 6)
    assert by.words in render(pack(due_sheet(DEMO, DAY, {6: by})), Show(), "json").decode()


def test_the_work_that_is_ripe_first_is_asked_first_and_what_is_over_not_at_all() -> None:
    assert [one.number for one in asked(DEMO, DAY)] == [7, 6]
    assert not asked(DEMO, date(2027, 1, 1))


def test_a_bare_date_is_a_course_to_be_taken() -> None:
    bare, said = due_of(DEMO, DAY, {8: DAY}), due_of(DEMO, DAY, {8: DecideBy(DAY)})
    assert bare == said
    assert any(one.words == "take a course" for one in bare)


def test_dates_that_are_still_made_out_are_told() -> None:
    told = " ".join(render(pack(due_sheet(DEMO, DAY, {}, 2)), Show(), "text").decode().split())
    assert waits(2) in told
    assert "One date" in waits(1)


def test_an_after_check_that_says_nothing_is_called_by_its_look() -> None:
    check = AfterCheck(id="a", trouble=1, look="hub-heat", set_down=1000, due=(1110,), on=DAY)
    (due,) = (one for one in due_of(yard(check), DAY) if one.what == "after-check")
    assert due.words == "both hubs by heat gun"


def test_a_course_that_there_is_no_longer_has_no_day_to_begin() -> None:
    """Nothing leaks at Wren: a reseal that somebody settled is none of its courses, and breaks no calendar."""
    settled = Stage(id="z", trouble=7, stage="settled", on=DAY, course="reseal")
    one = DEMO.with_(Change((settled,)))
    assert 7 in {trouble.number for trouble in asked(one, DAY)}
    assert 7 not in made_out(one, DAY)
    assert not known(one, DAY)[1]
