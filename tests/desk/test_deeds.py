"""What a person does: the change each deed makes, that it is made once, and what is refused and how."""

from __future__ import annotations

import itertools
from datetime import UTC, date, datetime
from inspect import isfunction, signature
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from yard.made import hostile, yards

from axlewright import desk
from axlewright.desk import (
    ROLES,
    Correction,
    Mark,
    Now,
    Reached,
    ReadClock,
    Seen,
    add_findings,
    add_machine,
    allowed,
    carry_out,
    correct_finding,
    open_trouble,
    put_by,
    read_clock,
    settle,
    typed,
)
from axlewright.store import DEMO, Folder, at, lay_out
from axlewright.yard import Change, Corner, Drive, Faults, Finding, Machine, Moved, Stage, Title, Trouble, Yard

LEFT = "lark/front-left"
EVENING = datetime(2026, 8, 28, 20, 15, tzinfo=UTC)
LARK = Machine(id="lark", name="Lark", clocks=("engine", "threshing"))
DRIVE = Drive(id="d", name="d", sits=Corner("lark", "front-left"))


def now(at: datetime = EVENING, who: str = "owner") -> Now:
    numbers = itertools.count(1)
    return Now(at, who, lambda: f"new{next(numbers)}")


def yard(*records: Any) -> Yard:
    return Yard.of([Title(name="T"), LARK, DRIVE, *records])


def seen(given: Yard | None = None, **fields: Any) -> Seen:
    marks = fields.pop("marks", "plug=thick level=low").split()
    ticked = [dict(zip(("finding", "grade"), mark.split("="), strict=True)) for mark in marks]
    return typed(Seen, given or yard(), {"corner": LEFT, "marks": ticked, **fields})


def refused(deed: Any, *given: Any) -> dict[str, str]:
    """What was refused, by field."""
    with pytest.raises(Faults) as faults:
        deed(*given)
    return {fault.where: f"{fault.what} {fault.right}".strip() for fault in faults.value.faults}


# seen
def test_seen_at_a_corner_opens_a_trouble_with_its_findings() -> None:
    change = add_findings(yard(), seen(id="form", hours="1 234", clock="engine", about="5", note="at dusk"), now())
    (trouble,), (stage,) = change.of(Trouble), change.of(Stage)
    assert (trouble.number, str(trouble.corner), trouble.drive, trouble.opened) == (1, LEFT, "d", date(2026, 8, 28))
    assert (stage.trouble, stage.stage) == (1, "seen")
    assert [(f.id, f.finding, f.grade, f.trouble, f.drive) for f in change.of(Finding)] == [
        ("form-plug", "plug", "thick", 1, "d"),
        ("form-level", "level", "low", 1, "d"),
    ]
    assert {(f.hours, f.clock, f.about) for f in change.of(Finding)} == {(1234, "engine", 5)}
    assert all((r.who, r.at) == ("owner", EVENING) for r in change.records)


def test_seen_where_a_trouble_runs_adds_to_it_and_after_it_was_put_by_opens_another() -> None:
    made = yard().with_(add_findings(yard(), seen(id="one"), now()))
    more = add_findings(made, seen(id="two", marks="nuts=still"), now())
    assert [(type(r), getattr(r, "trouble", None)) for r in more.records] == [(Finding, 1)]
    over = made.with_(Change((Stage(id="p", trouble=1, stage="put by", on=date(2026, 8, 28), at=EVENING),)))
    assert add_findings(over, seen(id="two"), now()).of(Trouble)[0].number == 2


def test_seen_without_a_corner_can_be_judged_but_not_stored(tmp_path: Path) -> None:
    lay_out(tmp_path / "y")
    store = at(tmp_path / "y")
    change = add_findings(store.read(), Seen(marks=(Mark(finding="plug", grade="chips"),)), now())
    assert [f.grade for f in change.of(Finding)] == ["chips"]
    assert not change.of(Trouble)
    with pytest.raises(Faults, match="does not say where it was seen"):
        store.write(change, store.read().seen)


def test_a_look_at_a_corner_that_was_well_opens_nothing() -> None:
    change = add_findings(yard(), seen(marks="plug=paste", opens=False), now())
    assert [f.trouble for f in change.of(Finding)] == [None]
    assert len(change.records) == 1


def test_several_grades_of_one_finding_are_all_kept() -> None:
    change = add_findings(yard(), seen(id="f", marks="fluid=gear fluid=ballast"), now())
    assert [f.id for f in change.of(Finding)] == ["f-fluid", "f-fluid.2"]


def test_a_machine_with_one_clock_need_not_say_which() -> None:
    one = Yard.of([Title(name="T"), LARK.model_copy(update={"clocks": ("threshing",)})])
    assert {f.clock for f in add_findings(one, seen(one, hours="20"), now()).of(Finding)} == {"threshing"}
    assert "Hours of which clock?" in refused(add_findings, yard(), seen(hours="20"), now())["hours"]


@pytest.mark.parametrize("opens", [True, False])
@pytest.mark.parametrize("stood", ["nothing", "running", "put by since"])
def test_a_form_sent_twice_is_kept_once(opens: bool, stood: str) -> None:
    before = yard()
    if stood != "nothing":
        before = before.with_(add_findings(before, seen(id="first"), now()))
    form = seen(id="form", marks="plug=flakes nuts=still", opens=opens)
    after = before.with_(add_findings(before, form, now()))
    if stood == "put by since":
        after = after.with_(Change((Stage(id="p", trouble=1, stage="put by", on=date(2026, 8, 28), at=EVENING),)))
    again = add_findings(after, form, now(EVENING.replace(minute=20)))
    assert again == Change()


def test_the_same_form_with_another_grade_is_a_second_reading_beside_the_first() -> None:
    made = yard().with_(add_findings(yard(), seen(id="form", marks="plug=flakes"), now()))
    again = add_findings(made, seen(id="form", marks="plug=chips"), now(who="helper"))
    both = made.with_(again)
    assert [f.id for f in both.findings] == ["form-plug", "form-plug"]
    assert {f.grade for f in both.newest(Corner("lark", "front-left"))["plug"]} == {"flakes", "chips"}
    assert len(both.troubles) == 1


def test_everything_wrong_with_a_form_is_said_at_once_and_by_field() -> None:
    bad = refused(add_findings, yard(), seen(marks="plg=thick level=lo", hours="5", on="2026-08-30"), now())
    assert bad["plg"] == "There is no finding plg. Did you mean plug?"
    assert bad["level"].startswith("level has no grade lo. Did you mean low?")
    assert bad["hours"].startswith("Hours of which clock?")
    assert bad["on"].startswith("2026-08-30 has not come yet")
    assert bad["opened"].startswith("2026-08-30 has not come yet")


def test_unknown_places_are_said_with_the_nearest() -> None:
    assert refused(add_findings, yard(), seen(corner="lrk/front-left"), now())["machine"].endswith("Did you mean lark?")
    assert "front-left and front-right" in refused(add_findings, yard(), seen(corner="lark/rear-left"), now())["corner"]
    assert "Write lark/front-left." in refused(add_findings, yard(), seen(corner="the left one"), now())["corner"]
    assert "no trouble 9" in refused(add_findings, yard(), seen(trouble=9), now())["trouble"]
    assert "Nothing was ticked" in refused(add_findings, yard(), Seen(), now())["marks"]


def test_hours_are_held_to_the_clock() -> None:
    read = yard().with_(
        read_clock(yard(), ReadClock(machine="lark", hours=2650, clock="engine", on=date(2026, 8, 14)), now())
    )
    bad = refused(add_findings, read, seen(hours="26500", clock="engine"), now())
    assert "Did you mean 2\u00a0650?" in bad["hours"]
    assert (
        "it read 2\u00a0650 on 2026-08-14"
        in refused(add_findings, read, seen(hours="2600", clock="engine"), now())["hours"]
    )


def test_a_trouble_is_opened_once() -> None:
    made = yard().with_(open_trouble(yard(), seen(id="form", marks=""), now()))
    assert (len(made.troubles), len(made.findings)) == (1, 0)
    assert open_trouble(made, seen(id="form", marks=""), now()) == Change()
    assert len(open_trouble(made, seen(id="form", marks="plug=thick"), now()).of(Finding)) == 1
    assert refused(open_trouble, made, seen(id="other"), now())["corner"].startswith(
        "Trouble 1 runs at lark/front-left."
    )
    assert "At which corner?" in refused(open_trouble, made, seen(corner=""), now())["corner"]


# corrections
def test_a_correction_points_at_the_old_and_keeps_what_it_does_not_name() -> None:
    made = yard().with_(add_findings(yard(), seen(id="f", hours="20", clock="engine"), now()))
    change = correct_finding(
        made, Correction(id="c", corrects="f-plug", grade="paste", note="wrong wheel"), now(who="helper")
    )
    (new,), old = change.of(Finding), made.findings[1]
    assert (new.corrects, new.grade, new.finding, new.hours, new.trouble, new.who) == (
        "f-plug",
        "paste",
        "plug",
        20,
        1,
        "helper",
    )
    after = made.with_(change)
    assert {f.grade for f in after.newest(Corner("lark", "front-left"))["plug"]} == {"paste"}
    assert old in after.findings
    assert correct_finding(after, Correction(id="c", corrects="f-plug", grade="paste", note="wrong wheel"), now()).of(
        Finding
    )  # by another person
    assert not correct_finding(
        after, Correction(id="c", corrects="f-plug", grade="paste", note="wrong wheel"), now(who="helper")
    )


def test_a_finding_moved_to_another_machine_leaves_that_clock_behind() -> None:
    wren = Machine(id="wren", name="Wren")
    made = yard(wren).with_(add_findings(yard(wren), seen(id="f", hours="20", clock="engine"), now()))
    (new,) = correct_finding(made, Correction(corrects="f-plug", corner="wren/front-left"), now()).of(Finding)
    assert (str(new.corner), new.hours, new.clock, new.trouble, new.drive) == (
        "wren/front-left",
        None,
        None,
        None,
        None,
    )


def test_chips_are_corrected_by_a_photo_or_not_at_all() -> None:
    made = yard().with_(add_findings(yard(), seen(id="f", marks="plug=chips"), now()))
    assert "proof" in refused(correct_finding, made, Correction(corrects="f-plug", grade="paste"), now())["photo"]
    assert correct_finding(made, Correction(corrects="f-plug", grade="paste", photo="plug.jpg"), now())
    assert "no finding g" in refused(correct_finding, made, Correction(corrects="g"), now())["corrects"]


# clocks and machines
def test_a_clock_reading_is_kept_with_who_and_when() -> None:
    deed = typed(ReadClock, yard(), {"machine": "Lark", "hours": "2 650,5", "clock": "engine", "id": "r"})
    change = read_clock(yard(), deed, now())
    (read,) = change.records
    assert (read.hours, read.on, read.who, read.at) == (2650.5, date(2026, 8, 28), "owner", EVENING)  # type: ignore[attr-defined]
    assert read_clock(yard().with_(change), deed, now()) == Change()


def test_clock_mistakes() -> None:
    bad = refused(typed, ReadClock, yard(), {"machine": "lark", "hours": "4,713", "clock": "drum", "about": "few"})
    assert "Type 4713 h or 4.713 h." in bad["hours"]
    assert "It must be 'engine' or 'threshing'." in bad["clock"]
    assert "few" in bad["about"]
    assert "clock is missing" in refused(read_clock, yard(), ReadClock(machine="lark", hours=5), now())["clock"]
    assert (
        "hours is missing"
        in refused(read_clock, yard(), ReadClock(machine="lark", hours=None, clock="engine"), now())["hours"]
    )


def test_a_new_clock_is_taken_when_it_is_said() -> None:
    made = yard().with_(
        read_clock(yard(), ReadClock(machine="lark", hours=2650, clock="engine", on=date(2026, 8, 14)), now())
    )
    assert refused(read_clock, made, ReadClock(machine="lark", hours=3, clock="engine"), now())["hours"].endswith(
        "write new_clock = true."
    )
    assert read_clock(made, ReadClock(machine="lark", hours=3, clock="engine", new_clock=True), now())


def test_a_comma_is_read_as_the_yard_writes_it() -> None:
    comma = Yard.of([Title(name="T", decimal=","), LARK])
    assert typed(ReadClock, comma, {"machine": "lark", "hours": "4,713"}).hours == pytest.approx(4.713)
    assert typed(ReadClock, comma, {"machine": "lark", "hours": " "}).hours is None


def test_a_machine_is_added_once_and_never_over_another() -> None:
    wren = Machine(id="wren", name="Wren")
    made = yard().with_(add_machine(yard(), wren, now()))
    assert made.machine("wren").who == "owner"
    assert add_machine(made, wren, now(EVENING.replace(hour=21))) == Change()
    assert "already" in refused(add_machine, made, Machine(id="wren", name="Other"), now())["id"]


# who may
def test_every_deed_says_who_may_and_a_reader_may_nothing() -> None:
    named = [getattr(desk, name) for name in desk.__all__]
    deeds = [
        one
        for one in named
        if isfunction(one) and one.__annotations__.get("return") == "Change" and "now" in signature(one).parameters
    ]
    assert len(deeds) > 20
    assert {deed.__name__ for deed in deeds} <= set(ROLES)
    for deed in deeds:
        assert allowed(deed, "owner")
        assert not allowed(deed, "reader")
    assert not any(allowed(deed, "helper") for deed in (add_machine, settle, put_by))
    assert not allowed(lambda: Change(), "owner")  # what declares nothing is allowed to nobody


# with a store
def test_a_deed_is_carried_out_again_when_somebody_wrote_in_between(tmp_path: Path) -> None:
    lay_out(tmp_path / "y", DEMO)
    store = Folder(tmp_path / "y")
    carry_out(store, lambda y: put_by(y, Reached(trouble=9), now()))  # its corner is wanted
    tried = []

    def deed(made: Yard) -> Change:
        tried.append(made.seen)
        if len(tried) == 1:  # somebody else is quicker
            carry_out(store, lambda y: open_trouble(y, seen(y, id="quick", corner="wren/front-right", marks=""), now()))
        return open_trouble(made, seen(made, id="slow", corner="linnet/front-left", marks=""), now())

    after, change = carry_out(store, deed)
    assert len(tried) == 2
    assert [t.number for t in after.troubles[-2:]] == [10, 11]  # no number twice
    assert change.of(Trouble)[0].number == 11
    assert carry_out(store, deed) == (after, Change())


def test_who_must_have_seen_this_very_yard_is_told_when_it_moved(tmp_path: Path) -> None:
    lay_out(tmp_path / "y", DEMO)
    store = Folder(tmp_path / "y")
    with pytest.raises(Moved):
        carry_out(store, lambda y: Change((y.title.model_copy(update={"currency": "kr"}),)), seen=1)
    assert store.read().currency == "EUR"


def test_a_store_that_never_rests_is_given_up(tmp_path: Path) -> None:
    class Restless:
        def read(self) -> Yard:
            return yard()

        def write(self, change: Change, mark: int) -> int:
            raise Moved(mark, mark + 1)

    with pytest.raises(Moved):
        carry_out(Restless(), lambda y: open_trouble(y, seen(), now()))  # type: ignore[arg-type]


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(yards(), st.data())
def test_any_look_at_any_corner_of_any_yard_is_kept_once(made: Yard, data: st.DataObject) -> None:
    """Sent once or three times, in the same words: the same yard."""
    if not made.corners:
        return
    corner = data.draw(st.sampled_from(made.corners))
    form = typed(
        Seen,
        made,
        {
            "id": "form",
            "corner": str(corner),
            "marks": [{"finding": "plug", "grade": "thick"}],
            "note": data.draw(hostile),
        },
    )
    once = made.with_(add_findings(made, form, now()))
    assert len(once.findings) == len(made.findings) + 1
    assert add_findings(once, form, now(EVENING.replace(hour=22))) == Change()
