"""The rules between records: every message, and that a yard which keeps them has none."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from yard.made import yards

from axlewright.yard import (
    ClockReading,
    Corner,
    Design,
    Drive,
    Finding,
    Machine,
    Stage,
    Stated,
    Title,
    Trouble,
    Yard,
    known_grades,
    mistakes,
)

TODAY = date(2026, 8, 28)
LEFT = Corner("lark", "front-left")
LARK = Machine(id="lark", name="Lark", clocks=("engine", "threshing"))


def found(**more: Any) -> Finding:
    fields = {"id": "a", "finding": "plug", "grade": "paste", "corner": LEFT, "on": date(2026, 8, 1)}
    return Finding.model_validate({**fields, **more})


def read(day: str, hours: float, clock: str = "engine", **more: Any) -> ClockReading:
    fields = {"id": f"{day}-{clock}", "machine": "lark", "on": day, "hours": hours, "clock": clock}
    return ClockReading.model_validate({**fields, **more})


def trouble(number: int = 1, **more: Any) -> Trouble:
    return Trouble.model_validate(
        {"id": f"t{number}", "number": number, "corner": LEFT, "opened": "2026-08-01", **more}
    )


def said(*records: Any, machine: Machine = LARK, **more: Any) -> list[str]:
    title = Title(name="T", decimal=more.pop("decimal", "."))
    return [str(fault) for fault in mistakes(Yard.of([title, machine, *records]), TODAY, **more)]


@given(yards())
def test_a_yard_that_keeps_the_rules_has_no_mistakes(yard: Yard) -> None:
    assert mistakes(yard, TODAY) == ()


@pytest.mark.parametrize(
    ("records", "words"),
    [
        ([found(finding="plg")], "finding a, finding: There is no finding plg. Did you mean plug?"),
        ([found(grade="flake")], "plug has no grade flake. Did you mean flakes? The grades of plug: clean, paste, thick,"),
        ([found(grade="zzz")], "plug has no grade zzz. The grades of plug: clean,"),
        ([found(corner=Corner("lrk", "front-left"))], "There is no machine lrk. Did you mean lark?"),
        ([found(corner=Corner("lark", "rear-left"))], "Lark has no drive at rear-left. It has front-left and front-right."),
        ([found(corner=None)], "It does not say where it was seen."),
        ([found(corner=None, drive="x", trouble=1), trouble(), Drive(id="x", name="x", sits="shelf")], "It does not say where"),
        ([found(drive="lef"), Drive(id="left", name="x", sits="shelf")], "There is no drive lef. Did you mean left?"),
        ([found(trouble=4), trouble(3)], "There is no trouble 4. There is 3."),
        ([Stage(id="s", trouble=4, stage="seen", on=TODAY)], "stage s, trouble: There is no trouble 4."),
        ([found(corrects="b")], "There is no finding b to correct."),
        ([found(corrects="a")], "It corrects itself."),
        ([found(on="2026-08-29")], "2026-08-29 has not come yet: today is 2026-08-28. Write on = 2026-08-28"),
        ([trouble(opened="2027-01-01")], "trouble t1, opened: 2027-01-01 has not come yet"),
        ([Drive(id="x", name="x", sits="shelf", since=date(2027, 1, 1))], "drive x, since: 2027-01-01 has not come yet"),
        ([found(hours=5)], 'Hours of which clock? Write clock = "engine" or clock = "threshing".'),
        ([read("2026-08-01", 5, machine="lrk")], "There is no machine lrk. Did you mean lark?"),
        ([trouble(), trouble(id="t9")], "Two troubles have the number 1"),
        ([Drive(id="x", name="x", sits=LEFT), Drive(id="y", name="y", sits=LEFT)], "x sits at lark/front-left too."),
        ([Drive(id="x", name="x", sits="shelf", design="hub"), Design(id="hubs", name="h")], "There is no design hub. Did you mean hubs?"),
        ([Design(id="d", name="d", fits=(Corner("lark", "rear-left"),))], "design d, fits: Lark has no drive at rear-left."),
        ([trouble(), Stage(id="s", trouble=1, stage="seen", on=date(2026, 7, 1))], "before the trouble was opened on 2026-08-01"),
        ([trouble(), Stage(id="s", trouble=1, stage="put by", on=date(2026, 8, 2)), Stage(id="u", trouble=1, stage="judged", on=date(2026, 8, 3))], "judged after the trouble was put by on 2026-08-02."),
        ([Design(id="d", name="d", bolt_torque=Stated(value="300 kg"))], "design d, bolt_torque: “300 kg” cannot be read as a torque"),
        ([Design(id="d", name="d", mass=Stated(value="0.3 ton"))], "Type 0.3 t, 0.3 short ton or 0.3 long ton."),
        ([Machine(id="lark", name="Other")], "Two machines have the id lark; the other is machine lark, id. Give one another id."),
    ],
)  # fmt: skip
def test_every_message(records: list[Any], words: str) -> None:
    assert any(words in one for one in said(*records)), said(*records)
    assert len(said(*records)) == 1


def test_all_at_once() -> None:
    assert len(said(found(finding="plg", corner=Corner("x", "front-left"), on="2027-01-01", hours=3))) == 4


def test_hours_that_jump_and_what_was_meant() -> None:
    (only,) = said(read("2026-08-14", 4713), read("2026-08-28", 47300))
    assert "Lark, engine clock 47\u00a0300 h on 2026-08-28; it read 4\u00a0713 on 2026-08-14." in only
    assert "At most 24 h a day: not over 5\u00a0049 by then. Did you mean 4\u00a0730?" in only
    assert "If a new clock was fitted, write new_clock = true." in only


def test_hours_that_run_back() -> None:
    (only,) = said(read("2026-08-14", 1000), found(on="2026-08-20", hours=980, clock="engine"))
    assert only.startswith(
        "finding a, hours: Lark, engine clock 980 h on 2026-08-20; it read 1\u00a0000 on 2026-08-14."
    )
    assert "new_clock" not in only  # a finding changes no clock


def test_about_forgives_as_much_as_it_says() -> None:
    assert not said(read("2026-08-14", 1000, about=15), read("2026-08-20", 990, about=5))
    assert said(read("2026-08-14", 1000, about=4), read("2026-08-20", 990, about=5))


def test_the_wrong_clock_is_named() -> None:
    clocks = [read("2026-07-01", 1000), read("2026-07-01", 700, "threshing"), read("2026-08-20", 750)]
    (only,) = said(*clocks)
    assert "It fits the threshing clock: which one was read?" in only
    one_clock = LARK.model_copy(update={"clocks": ("engine",)})
    (only,) = said(read("2026-08-01", 5, "threshing"), machine=one_clock)
    assert only.endswith("Lark has no threshing clock. It has engine: say which was read.")


def test_a_new_clock_begins_again_even_on_the_day_the_old_one_was_read_last() -> None:
    assert not said(
        read("2026-08-01", 4000),
        read("2026-08-10", 4010),
        read("2026-08-10", 0, id="n", new_clock=True),
        read("2026-08-20", 30),
    )
    assert said(read("2026-08-01", 4000), read("2026-08-10", 0, new_clock=True), read("2026-08-20", 4030))


def test_of_two_that_do_not_fit_the_odd_one_is_named() -> None:
    (only,) = said(read("2026-07-01", 47000), read("2026-07-10", 4710), read("2026-07-20", 4730))
    assert "2026-07-01-engine" in only
    (only,) = said(read("2026-07-01", 4700), read("2026-07-10", 47100), read("2026-07-20", 4730))
    assert "2026-07-10-engine" in only


def test_the_one_just_typed_is_doubted_not_the_old_one() -> None:
    new = read("2026-07-10", 4900)
    yard = Yard.of([Title(name="T"), LARK, read("2026-07-01", 4700), new, read("2026-07-20", 4730)])
    (only,) = mistakes(yard, TODAY, only=[new])
    assert "4\u00a0900" in only.what


def test_a_corrected_reading_is_no_mistake_any_more() -> None:
    assert not said(
        read("2026-07-01", 47000),
        read("2026-07-01", 4700, id="b", corrects="2026-07-01-engine"),
        read("2026-07-20", 4730),
    )
    wrong = found(hours=9000, clock="engine")
    assert not said(read("2026-07-01", 100), wrong, found(id="b", corrects="a", hours=200, clock="engine"))


def test_proof_is_corrected_by_a_photo_only() -> None:
    chips = found(grade="chips")
    (only,) = said(chips, found(id="b", corrects="a"))
    assert only.startswith("finding b, photo: chips on 2026-08-01 is proof.")
    assert not said(chips, found(id="b", corrects="a", photo="plug.jpg"))
    assert not said(found(grade="thick"), found(id="b", corrects="a"))


def test_values_are_read_with_the_yards_own_decimal_mark() -> None:
    heavy = LARK.model_copy(update={"mass": Stated(value="9,250 kg")})
    assert "may part thousands or decimals" in said(machine=heavy)[0]
    assert not said(machine=heavy, decimal=",")


def test_without_a_today_no_day_is_refused_and_the_yards_own_wins() -> None:
    ahead = found(on="2027-01-01")
    assert mistakes(Yard.of([Title(name="T"), LARK, ahead]), None) == ()
    assert mistakes(Yard.of([Title(name="T", today=TODAY), LARK, ahead]), date(2030, 1, 1)) != ()


def test_the_kinds_of_finding_are_the_trades_own() -> None:
    assert known_grades()["plug"][0] == "clean"
    assert not said(found(finding="hum", grade="loud"), grades={"hum": ("loud",)})


def test_the_threshing_clock_never_outruns_the_engine() -> None:
    """Common practice, no source: one clock counts while the other does, so it cannot count more."""
    yard = Yard.of(
        [
            Title(name="Yard"),
            Machine(id="bramble", name="Bramble", clocks=("engine", "threshing")),
            *(
                ClockReading(id=f"r{n}", machine="bramble", on=on, hours=hours, clock=clock)
                for n, (on, hours, clock) in enumerate(
                    (
                        (date(2026, 7, 1), 3000, "engine"),
                        (date(2026, 7, 1), 2200, "threshing"),
                        (date(2026, 8, 20), 3090, "engine"),
                        (date(2026, 8, 20), 3088, "threshing"),
                    )
                )
            ),
        ]
    )
    faults = mistakes(yard, date(2026, 8, 20))
    assert ["threshing clock 3\u00a0088 h" in f.what for f in faults] == [True]
    assert "engine clock" in faults[0].right
