"""A stop of FIELD and the pack: Make safe alone until a course is taken that takes the drive off, then before its sheets."""

from __future__ import annotations

from datetime import date

import pytest
from desk.in_hand import EVENING, walked_round

from axlewright import desk
from axlewright.desk import BeginCard, Now, Settle
from axlewright.plan.drawn_up import draw_up, stopped, will_be_drawn
from axlewright.plan.sheet.trouble import look_of
from axlewright.plan.support_of import support_inputs
from axlewright.sheets import Go, Pack
from axlewright.store import DEMO, at
from axlewright.yard import Change, Faults, Finding, Stage, Yard

TODAY = date(2026, 8, 28)
YARD = at(DEMO).read()
READY, CHIPS = 6, 7  # settled, all answered; and chips in the plug, no course taken
NOW = Now(EVENING, "owner", lambda: "t-stops")


def seen(yard: Yard, number: int, finding: str, grade: str, on: date = TODAY, name: str = "t-seen") -> Yard:
    corner = yard.trouble(number).corner
    found = Finding(
        id=name, finding=finding, grade=grade, corner=corner, trouble=number, on=on, drive=yard.trouble(number).drive
    )
    return yard.with_(Change((found,)))


def settled(yard: Yard, number: int, course: str) -> Yard:
    return yard.with_(desk.settle(yard, Settle(trouble=number, course=course), NOW))


def names(pack: Pack) -> list[str]:
    return [sheet.name for sheet in pack.sheets]


def drawn(yard: Yard, number: int) -> Pack:
    return draw_up(yard, yard.trouble(number), TODAY)


def test_a_trouble_that_was_put_by_names_the_one_that_stops_its_corner_now() -> None:
    assert "Trouble 3 was put by. What stops this corner now is trouble 7." in "".join(
        str(getattr(part, "words", (part,))[0]) for part in drawn(YARD, 3).sheets[0].lead
    )
    assert not drawn(YARD, CHIPS).sheets[0].lead


def test_what_lets_go_is_made_safe_and_then_taken_off() -> None:
    before = names(drawn(YARD, READY))
    after = drawn(seen(YARD, READY, "plug", "chips"), READY)
    assert names(after)[0] == "make-safe"
    assert "Settled: fit a spare." in str(after.sheets[0].lead)
    assert {one for one in before if one.startswith(("support", "wheel", "bolts", "fill", "kit", "steps"))} <= set(
        names(after)
    )
    assert "first-look" not in names(after)


@pytest.mark.parametrize("course", [None, "run", "run with checks", "reseal", "hire out", "park"])
def test_no_other_course_gets_more_than_make_safe(course: str | None) -> None:
    """Neither one that leaves the drive on nor one that the stop strikes out: a new lip saves no drive that sheds chips."""
    yard = settled(YARD, CHIPS, course) if course else YARD
    assert names(drawn(yard, CHIPS)) == ["make-safe"]
    assert will_be_drawn(yard, yard.trouble(CHIPS), TODAY) == (("make-safe", "Make safe"),)


@pytest.mark.parametrize("course", ["fit a spare", "fit a used drive", "fit a rebuilt exchange", "rebuild now"])
def test_what_will_be_drawn_is_what_is_drawn(course: str) -> None:
    yard = settled(YARD, CHIPS, course)
    made = names(drawn(yard, CHIPS))
    named = [name for name, _ in will_be_drawn(yard, yard.trouble(CHIPS), TODAY)]
    assert made[:2] == named[:2] == ["make-safe", "trouble"]
    assert set(made) >= set(named)


def test_put_by_it_is_made_safe_alone_again() -> None:
    yard = settled(YARD, CHIPS, "fit a spare")
    yard = yard.with_(desk.put_by(yard, desk.Reached(trouble=CHIPS), NOW))
    assert names(drawn(yard, CHIPS)) == ["make-safe"]


@pytest.mark.parametrize("grade", ["suspect", "crack"])
def test_a_crack_stops_the_holding_too_and_so_the_steps(grade: str) -> None:
    cracked = seen(YARD, READY, "cracks", grade, on=date(2026, 8, 27))
    inputs = support_inputs(cracked, cracked.trouble(READY), 1, 64)
    assert inputs
    assert inputs.answers["lift-point"] == "cracked"
    made = drawn(cracked, READY)
    steps = next(sheet for sheet in made.sheets if sheet.name == "steps")
    assert steps.block.title == "Make safe"
    assert not [one for one in names(made) if one.startswith("steps-")]
    cleared = seen(cracked, READY, "cracks", "none", name="t-penetrant")
    assert "make-safe" not in names(drawn(cleared, READY))


def test_a_job_in_hand_stops_field_and_road_but_makes_nothing_unsafe_by_itself() -> None:
    """Make safe is for what was seen: who is half way through goes on by the step card."""
    yard = YARD.with_(Change((Stage(id="t-hand", trouble=READY, stage="in hand", on=TODAY),)))
    look = look_of(yard, yard.trouble(READY), TODAY)
    assert look.field.word == look.road.word == "no"
    assert not look.make_safe
    assert "step card" in "".join(map(str, look.answer))
    sheets = {sheet.name: sheet for sheet in drawn(yard, READY).sheets}
    assert "make-safe" not in sheets
    assert [piece.to for piece in sheets["trouble"].lead if isinstance(piece, Go)] == [f"/trouble/{READY}/step"]
    assert names(drawn(seen(yard, READY, "cracks", "crack"), READY))[0] == "make-safe"


def test_a_card_is_begun_on_a_drive_that_sheds_chips_but_not_on_a_course_that_is_struck_out() -> None:
    """The stop is what the work is for; HOLD alone may still withhold it."""
    chips = seen(walked_round(READY), READY, "plug", "chips")
    assert desk.begin_card(chips, BeginCard(trouble=READY), NOW)
    cracked = seen(chips, READY, "cracks", "crack", name="t-crack")
    with pytest.raises(Faults, match="HOLD is a stop"):
        desk.begin_card(cracked, BeginCard(trouble=READY), NOW)
    resealed = settled(chips, READY, "reseal")
    assert stopped(resealed, resealed.trouble(READY), look_of(resealed, resealed.trouble(READY), TODAY))
    with pytest.raises(Faults, match="its steps are withheld"):
        desk.begin_card(resealed, BeginCard(trouble=READY), NOW)
