"""Shelf and Bench: what is known of a drive that sits at no machine, and when it wants its turns."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from axlewright.plan.kept import OLD, kept
from axlewright.plan.pack import pack
from axlewright.plan.sheet.bench import DEPTHS, bench_sheet, minutes
from axlewright.plan.sheet.shelf import DRAWN, shelf_sheet
from axlewright.render import Show, render
from axlewright.store import DEMO, at
from axlewright.trade.steps_read import steps
from axlewright.yard import Change, Corner, Design, Drive, Finding, Machine, Title, Yard

TODAY = date(2026, 8, 28)
YARD = at(DEMO).read()
QUARTER = timedelta(days=91)  # steps.md: ten turns each quarter


def shelf(*drives: Drive, more: tuple[Finding, ...] = ()) -> Yard:
    kind = Design(id="hub", name="Hub", fits=(Corner("oak", "front-left"), Corner("oak", "front-right")))
    return Yard.of([Title(name="Test yard"), Machine(id="oak", name="Oak"), kind, *drives, *more])


def said(yard: Yard, sheet: str) -> str:
    drawn = {"shelf": shelf_sheet, "bench": bench_sheet}[sheet](yard, TODAY)
    return " ".join(render(pack(drawn), Show(), "text").decode().replace("\u202f", " ").split())


def test_ten_turns_count_from_the_day_it_came_and_then_from_each_turning() -> None:
    came = date(2026, 5, 1)
    one = Drive(id="spare", name="spare", sits="shelf", since=came, design="hub")
    turn = Finding(id="t", finding="turn", grade="smooth", drive="spare", on=date(2026, 7, 20))
    assert kept(shelf(one), "shelf", TODAY)[0].turn_by == came + QUARTER
    assert kept(shelf(one, more=(turn,)), "shelf", TODAY)[0].turn_by == turn.on + QUARTER
    assert kept(shelf(one.model_copy(update={"since": None})), "shelf", TODAY)[0].turn_by is None


def test_what_lies_on_the_bench_or_away_wants_no_turns_and_stands_on_its_own_sheet() -> None:
    one = Drive(id="spare", name="spare", sits="bench", since=date(2020, 1, 1))
    assert kept(shelf(one), "shelf", TODAY) == ()
    assert kept(shelf(one), "bench", TODAY)[0].turn_by is None
    assert "Nothing on the shelf" in said(shelf(one), "shelf")
    assert "Nothing on the bench" in said(shelf(one.model_copy(update={"sits": "away"})), "bench")


@pytest.mark.parametrize(("days", "long"), [(OLD, False), (OLD + 1, True)])
def test_over_two_years_it_is_looked_at_before_it_is_fitted(days: int, long: bool) -> None:
    """judge.md, row B6."""
    one = Drive(id="spare", name="spare", sits="shelf", since=TODAY - timedelta(days=days))
    assert ("It lay long" in said(shelf(one), "shelf")) is long


def test_the_one_that_wants_care_first_stands_first_and_many_stand_in_a_table() -> None:
    many = [
        Drive(id=f"s{n}", name=f"spare {n}", sits="shelf", since=TODAY - timedelta(days=10 * n), numbers=(f"no {n}",))
        for n in range(DRAWN + 3)
    ]
    found = kept(shelf(*many), "shelf", TODAY)
    assert [one.turn_by for one in found] == sorted(one.turn_by for one in found if one.turn_by)
    sheet = shelf_sheet(shelf(*many), TODAY).sheets[0]
    assert len([s for s in sheet.sections if s.heading.startswith("Spare")]) == DRAWN
    assert "The others" in [s.heading for s in sheet.sections]


def test_what_was_seen_of_it_and_what_nobody_knows_is_said() -> None:
    text = said(YARD, "shelf")
    for words in ("1 930 h", "cast 77-34", "± 400", "Wren, front left and front right", "not known", "NO OIL"):
        assert words in text
    seen = YARD.with_(
        Change((Finding(id="x", finding="turn", grade="grinds", drive="broad-spare", on=TODAY - timedelta(days=2)),))
    )
    assert "2 days ago" in said(seen, "shelf")


def test_the_bench_says_why_each_came_and_what_is_measured_before_it_is_opened() -> None:
    text = said(YARD, "bench")
    for words in ("flakes on the plug", "trouble 5", "end play as found", "rolling torque"):
        assert words in text
    measured = [r.quantity for task in steps().network["bench"].tasks for r in task.readings]
    assert all(one in text for one in measured)


@pytest.mark.parametrize(
    ("seen", "word"),
    [
        ([("plug", "flakes")], "wearing"),
        ([("plug", "chips")], "failing"),
        ([("level", "low")], "not looked at"),
        ([], "not looked at"),
    ],
)
def test_the_bench_draws_the_word_that_the_findings_allow_and_calls_nothing_sound(
    seen: list[tuple[str, str]], word: str
) -> None:
    """judge.md, section 3: the least that a grade allows."""
    one = Drive(id="d", name="d", sits="bench", since=date(2026, 1, 1))
    found = tuple(
        Finding(id=f"f{n}", finding=f, grade=g, drive="d", on=date(2026, 1, 2)) for n, (f, g) in enumerate(seen)
    )
    assert f"A drive, {word}." in said(shelf(one, more=found), "bench")


def test_a_deeper_rebuild_takes_longer() -> None:
    """Each depth holds the steps of the one before."""
    hours = [minutes(depth) for depth in DEPTHS]
    assert hours == sorted(hours)
    assert all(low < likely < high for low, likely, high in hours)
