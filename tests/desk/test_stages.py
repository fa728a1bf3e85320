"""A trouble judged, settled and put by: once, in order, by whom."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from axlewright import desk
from axlewright.store import DEMO, at
from axlewright.yard import COURSES, Change, Faults, Move, Stage, Yard

NOW = desk.Now(datetime(2026, 8, 28, 19, tzinfo=UTC), "owner", lambda: "new")
LATER = desk.Now(datetime(2026, 8, 28, 20, tzinfo=UTC), "owner", lambda: "later")


def demo() -> Yard:
    return at(DEMO).read()


def settled(yard: Yard, course: str, now: desk.Now = NOW) -> Yard:
    return yard.with_(desk.settle(yard, desk.Settle(trouble=6, course=course), now))


@pytest.mark.parametrize(
    ("typed", "course"),
    [
        ("fit-spare", "fit a spare"),
        ("Fit a spare", "fit a spare"),
        ("fit-a-used-drive", "fit a used drive"),
        ("run-with-checks", "run with checks"),
        ("fit rebuilt exchange", "fit a rebuilt exchange"),
        ("park", "park"),
        *((course, course) for course in COURSES),
    ],
)
def test_a_course_is_known_by_its_name_however_it_is_typed(typed: str, course: str) -> None:
    assert desk.course_of(typed) == course


@pytest.mark.parametrize(
    ("typed", "says"), [("hope", "hire out"), ("fit-spar", "Did you mean fit a spare"), ("", "run")]
)
def test_what_is_no_course_says_which_there_are(typed: str, says: str) -> None:
    with pytest.raises(Faults, match=says):
        desk.course_of(typed)


def test_settled_and_settled_otherwise() -> None:
    yard = settled(demo(), "fit-spare")
    assert (yard.stage(6), yard.course(6)) == ("settled", "fit a spare")
    assert desk.settle(yard, desk.Settle(trouble=6, course="fit a spare"), LATER) == Change()
    other = settled(yard, "park", LATER)
    assert other.course(6) == "park"
    assert [s.course for s in other.stages_of(6) if s.course] == ["fit a spare", "park"]


def test_of_two_in_one_second_the_last_one_holds() -> None:
    yard = demo()
    for number, course in enumerate((*COURSES, *reversed(COURSES))):
        now = desk.Now(NOW.at, "owner", lambda number=number: f"{97 * number % 89}-x")  # type: ignore[misc]
        yard = settled(yard, course, now)
        assert yard.course(6) == course


def test_put_by_and_nothing_after_it() -> None:
    yard = demo()
    yard = yard.with_(desk.put_by(yard, desk.Reached(trouble=6, note="Sold."), NOW))
    assert yard.stage(6) == "put by"
    assert yard.running_at(yard.trouble(6).corner) is None
    for deed in (
        lambda: desk.settle(yard, desk.Settle(trouble=6, course="park"), LATER),
        lambda: desk.put_by(yard, desk.Reached(trouble=6), LATER),
        lambda: desk.judged(yard, desk.Reached(trouble=6), LATER),
    ):
        with pytest.raises(Faults, match="put by on 2026-08-28"):
            deed()


def test_a_form_sent_twice_is_one_stage() -> None:
    yard = demo()
    form = desk.Reached(id="form", trouble=8)
    yard = yard.with_(desk.judged(yard, form, NOW))
    assert yard.stage(8) == "judged"
    assert desk.judged(yard, form, LATER) == Change()
    closed = yard.with_(desk.put_by(yard, form, NOW))
    assert desk.put_by(closed, form, LATER) == Change()


def test_no_such_trouble_and_a_day_before_it_was_opened() -> None:
    with pytest.raises(Faults, match="no trouble 41"):
        desk.settle(demo(), desk.Settle(trouble=41, course="park"), NOW)
    with pytest.raises(Faults, match="before the trouble was opened"):
        desk.put_by(demo(), desk.Reached(trouble=6, on=date(2026, 8, 1)), NOW)


def test_a_stage_says_who_and_when() -> None:
    yard = settled(demo(), "reseal")
    stage: Stage = yard.stages_of(6)[-1]
    assert (stage.who, stage.on, stage.at) == ("owner", date(2026, 8, 28), NOW.at)


def test_what_is_left_open_is_said_when_it_is_put_by() -> None:
    said = desk.left_open(demo(), 5, NOW.at.date())
    assert "6 after-checks run still" in said[0]
    assert "on the bench" in said[1]
    assert desk.left_open(demo(), 6, NOW.at.date()) == ()
    bare = Yard.of([one for one in demo().records if not isinstance(one, Move)])
    assert any("No drive was moved" in line for line in desk.left_open(bare, 5, NOW.at.date()))
    assert desk.put_by(demo(), desk.Reached(trouble=5), NOW)  # said, and not refused
