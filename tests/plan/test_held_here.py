"""What cannot be held, lifted or set right here strikes the courses that raise the corner, as their own sheets stop."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from plan.choice_cases import task

from axlewright.plan.choice_made import Choice, choice_of, made
from axlewright.plan.facts import Seen
from axlewright.plan.held_here import HeldHere, held_here
from axlewright.plan.judge import Stop
from axlewright.plan.raised import raised_sheets
from axlewright.plan.reckon.choice_task import RAISES
from axlewright.plan.sheet.choice import choice_sheet
from axlewright.plan.sheet.frame import Frame
from axlewright.store import DEMO, Folder
from axlewright.yard import Answer, Trouble, Yard

TODAY = date(2026, 8, 28)
DRAWS = 128
YARD = Folder(DEMO).read()
SOUND = tuple(Seen(finding, grade, photo=True) for finding, grade in (("level", "at-mark"), ("plug", "paste"), ("bolts", "still"), ("nuts", "still"), ("rock", "none")))  # fmt: skip


def answered(number: int, **said: str) -> tuple[Yard, Trouble]:
    """The demo yard with more answers to one trouble."""
    more = tuple(
        Answer(id=f"h{n}", name=name.replace("__", "/").replace("_", "-"), value=value, trouble=number, on=TODAY, basis="measured", who="owner")
        for n, (name, value) in enumerate(said.items())
    )  # fmt: skip
    yard = replace(YARD, answers=(*YARD.answers, *more))
    return yard, yard.trouble(number)


def of(yard: Yard, trouble: Trouble) -> HeldHere:
    return held_here(yard, trouble, 3, DRAWS)


def test_where_all_holds_nothing_is_struck() -> None:
    assert of(YARD, YARD.trouble(6)) == HeldHere()


@pytest.mark.parametrize(
    ("said", "line", "lifts"),
    [
        ({"loader__plate": "300 kg"}, "LIFT", "loader"),
        ({"walk_round__jack_plate": "1 t"}, "HOLD", "jack"),
        ({"walk_round__slope_along": "9 %"}, "HOLD", "another place"),
    ],
)
def test_a_margin_under_its_limit_strikes_every_course_that_raises_the_corner(
    said: dict[str, str], line: str, lifts: str
) -> None:
    yard, trouble = answered(6, **said)
    stop = of(yard, trouble).stop
    assert stop is not None
    assert stop.why.startswith(f"{line} is stop: ")
    assert lifts in stop.lifted_by
    choice = choice_of(yard, trouble, TODAY, 3, DRAWS)
    assert choice is not None
    struck = {one.name for one in choice.made.courses if one.stopped}
    raising = set(RAISES) & set(choice.task.courses)
    assert raising <= struck
    own = {"reseal"}  # wants rock looked at besides, and says that
    assert {name for name, why in choice.stops.items() if why == stop} == raising - own
    assert choice.made.best is not None
    assert choice.made.best.name not in RAISES


def test_it_stops_just_where_the_sheets_of_that_work_stop() -> None:
    yard, trouble = answered(6, loader__plate="300 kg")
    sheets = [page for one in raised_sheets(yard, trouble, Frame(), 3, DRAWS) for page in one.sheets]
    words = {sheet.name: sheet.verdicts[0].word for sheet in sheets}
    assert words["wheel-and-lift"] == "stop" != words["support"]


def test_what_fails_on_guesses_alone_is_said_and_strikes_nothing() -> None:
    here = of(YARD, YARD.trouble(7))
    assert here.stop is None
    assert dict(here.unknown)["HOLD"]
    choice = choice_of(YARD, YARD.trouble(7), TODAY, 3, DRAWS)
    assert choice is not None
    assert not {one.name for one in choice.made.courses if one.stopped} & set(RAISES)
    assert "Not known yet, as guesses stand: HOLD, by tipping" in said(choice)


def said(choice: Choice) -> str:
    return choice_sheet(choice, (), Frame(), {}).sheets[0].model_dump_json()


def test_a_struck_course_says_why_and_what_would_lift_it() -> None:
    stop = Stop("HOLD is stop: it would tip.", "a wider stance.")
    choice = made(task(), SOUND, held=HeldHere(stop, (("LIFT", ("forks",)),)))
    told = said(choice)
    assert stop.why in told
    assert stop.lifted_by in told
    assert "Not known yet" not in told, "no course that raises the corner is open"


def test_a_stop_of_the_field_stands_before_one_of_the_work() -> None:
    """Reseal wants rock looked at by dial: that is said, and not the crib."""
    held = HeldHere(Stop("HOLD is stop: it would tip.", "a wider stance."))
    plain = made(task(courses=("run", "reseal", "hire out")), ())
    both = made(task(courses=("run", "reseal", "hire out")), (), held=held)
    assert both.stops["reseal"] == plain.stops["reseal"] != held.stop


def test_no_look_opens_what_cannot_be_held() -> None:
    held = HeldHere(Stop("HOLD is stop: it would tip.", "a wider stance."))
    for found in made(task(), SOUND, held=held).found:
        assert not {course for _, _, course in found.then} & set(RAISES)


def test_nothing_is_said_where_no_kind_of_machine_is_named() -> None:
    machines = tuple(one.model_copy(update={"kind": None}) for one in YARD.machines)
    yard = replace(YARD, machines=machines)
    assert of(yard, yard.trouble(7)) == HeldHere()
