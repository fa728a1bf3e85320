"""The Wheel and lift sheet: grades, the worse of wheel and drive, weakest first, stops, sections apart, one page."""

from __future__ import annotations

import io
import math
import re
from dataclasses import replace

import pytest
from plan.held_cases import (
    DRIVE,
    FORKED,
    FRAME,
    HOIST,
    HOOKED,
    LEGS,
    LIFTED_WELL,
    LOADER,
    WALKED,
    WHEEL,
    every_number_has_its_basis,
    known,
    no_chance_is_printed,
    read,
    shown_in,
    tag,
)
from pypdf import PdfReader

from axlewright.plan.pack import pack
from axlewright.plan.reckon.lift_task import Part, drive_lifted
from axlewright.plan.reckon.lifting import lift
from axlewright.plan.sheet.wheel_and_lift import LiftInputs, wheel_and_lift_sheet
from axlewright.render import render
from axlewright.render.show import Show
from axlewright.sheets import Figure, Table
from axlewright.sheets.drawing import Arrow, Mark
from axlewright.trade.verdicts import held_rules, questions


def inputs(task=HOOKED, answers=LIFTED_WELL) -> LiftInputs:
    return LiftInputs(task, answers, "linnet/lift", 4, 256)


def sheet_of(task=HOOKED, answers=LIFTED_WELL, walked=WALKED):
    return wheel_and_lift_sheet(inputs(task, answers), FRAME, walked)


def word(drawn) -> str:
    (line,) = drawn.sheets[0].verdicts
    return line.word


def test_a_table_sheet_is_not_for_lifting() -> None:
    drawn = sheet_of(answers={}, walked=None)
    assert "NOT FOR LIFTING" in read(drawn)
    assert word(drawn) == "not known"
    assert "Walk-round" in [one.heading for one in drawn.sheets[0].sections]


def test_a_shop_sheet_goes_or_goes_if_the_trial_lift_agrees() -> None:
    drawn = sheet_of()
    assert word(drawn) in ("go", "go if")
    assert "Shop sheet B" in read(drawn)
    assert "Trial lift." in read(drawn)
    assert word(sheet_of(FORKED)) == "go"


@pytest.mark.parametrize(
    ("asked", "said"),
    [("slings", "farm-chain"), ("slings", "tow-strap"), ("slings", "single-choke-without-stop"), ("textile", "yes"), ("hoist", "yes"),
     ("under-it", "somebody"), ("landing", "none"), ("taken-off-wheel", "standing")],
)  # fmt: skip
def test_a_stop_draws_nothing_to_lift_by(asked: str, said: str) -> None:
    drawn = sheet_of(answers={**LIFTED_WELL, asked: said})
    assert word(drawn) == "stop"
    assert not {"From the side", "Legs", "Scale on the hook"} & {one.heading for one in drawn.sheets[0].sections}
    assert "kg" not in re.sub(r"[a-z]kg", "", read(drawn))
    row = questions()[asked]
    (table,) = next(one.blocks for one in drawn.sheets[0].sections if one.heading == "What would lift it")
    assert isinstance(table, Table)
    because, lifted = ("; ".join("".join(map(str, line.cells[n])) for line in table.rows) for n in (0, 1))
    assert row.stops[said] in because.lower()
    assert row.lifts.get(said, next(r for r in held_rules() if said in r.any.get(asked, ())).lifted_by) in lifted


def test_a_hang_that_turns_over_is_a_stop() -> None:
    low = tuple(replace(one, eye=(one.eye[0], 0.0, -0.2)) for one in LEGS[1:])
    drawn = sheet_of(replace(HOOKED, legs=low))
    assert word(drawn) == "stop"
    assert "other eyes, longer legs" in " ".join(read(drawn).split())


def test_flat_legs_are_a_stop() -> None:
    short = tuple(replace(one, length=known("length", 0.30)) for one in LEGS)
    assert word(sheet_of(replace(HOOKED, legs=short))) == "stop"


@pytest.mark.parametrize(("limit", "said"), [(300.0, "stop"), (420.0, "go if"), (900.0, "go")])
def test_the_weakest_part_says_the_word(limit: float, said: str) -> None:
    steady = replace(DRIVE, along=known("length", 0.24), sideways=known("length", 0.0), up=known("length", -0.15))
    wide = (
        *(replace(one, eye=(-0.02, 2.2 * one.eye[1], 0.16), length=known("length", 0.9)) for one in LEGS[:2]),
        replace(LEGS[2], eye=(0.52, 0.0, 0.13), length=known("length", 0.88)),
    )
    hoist = replace(HOIST, parts=(Part("shop hoist", tag(limit)), HOIST.parts[1]))
    assert word(sheet_of(replace(HOOKED, drive=steady, hoist=hoist, wheel=None, legs=wide))) == said


def test_the_wheel_may_be_the_worse_of_both() -> None:
    light = replace(LOADER, rated=tag(500))
    drawn = sheet_of(replace(HOOKED, loader=light))
    assert word(drawn) == "stop"
    assert "the wheel" in read(drawn)
    unread = sheet_of(replace(HOOKED, loader=replace(LOADER, rated=None)))
    assert word(unread) == "not known"


def test_an_unread_tag_is_not_known() -> None:
    legs = (*LEGS[:2], replace(LEGS[2], parts=(Part("chain hoist", None),)))
    drawn = sheet_of(replace(HOOKED, legs=legs))
    assert word(drawn) == "not known"
    assert "not read" in read(drawn)


def test_a_refused_section_leaves_the_others_standing() -> None:
    drawn = sheet_of(replace(HOOKED, wheel=replace(WHEEL, mass=known("mass", -3.0))))
    said = " ".join(read(drawn).split())
    assert "The wheel’s mass cannot be as it was given" in said
    assert "From the side" in said
    legs = (replace(LEGS[0], length=known("length", -0.7)), *LEGS[1:])
    other = " ".join(read(sheet_of(replace(HOOKED, legs=legs))).split())
    assert "Not worked out." in other
    assert word(sheet_of(replace(HOOKED, legs=legs))) == "not known"


@pytest.mark.parametrize("task", [HOOKED, FORKED, replace(HOOKED, drive=drive_lifted()), replace(FORKED, reach=None)])
@pytest.mark.parametrize("walked", [None, WALKED])
def test_every_number_stands_in_the_basis_and_none_is_a_chance(task, walked) -> None:
    drawn = sheet_of(task, walked=walked)
    every_number_has_its_basis(drawn)
    no_chance_is_printed(drawn)


def test_weakest_first_and_rounded_to_the_safe_side() -> None:
    drawn = sheet_of(replace(HOOKED, drive=drive_lifted()))
    holds = next(one for one in drawn.sheets[0].sections if one.heading.startswith("What holds"))
    (table,) = [one for one in holds.blocks if isinstance(one, Table)]
    rows = [row for row in table.rows if "forks" not in str(row.cells[0])]
    numbers = [float(re.search(r"[\d.]+", str(row.cells[2])).group()) for row in rows]  # type: ignore[union-attr]
    assert numbers == sorted(numbers)
    for one in shown_in(drawn.sheets):
        if one.name.startswith("held/") and one.name.endswith("/end"):
            assert one.toward == "up"
        if one.name.endswith(("/most", "-allowed")):
            assert one.toward == "down"


def test_the_hook_hangs_over_the_centre_of_gravity_and_tilts_as_told() -> None:
    drawn = sheet_of(replace(HOOKED, drive=replace(DRIVE, along=known("length", 0.32))))
    made = lift(replace(HOOKED, drive=replace(DRIVE, along=known("length", 0.32))), "linnet/lift", 4, 256)
    (figure,) = [block for one in drawn.sheets[0].sections if one.heading == "From the side" for block in one.blocks if isinstance(block, Figure)]  # fmt: skip
    (mark,) = [one for one in figure.drawing.shapes if isinstance(one, Mark)]
    (plumb,) = [one for one in figure.drawing.shapes if isinstance(one, Arrow)]
    assert mark.at[0] == plumb.points[0][0]
    end = math.degrees(made["lies.end_up"].middle())
    assert end < 0  # farther out, so the wheel end goes down
    assert " down" in read(drawn)
    assert f"{abs(end):.1f}" in read(drawn)


def test_right_side_low_turns_clockwise_from_the_wheel_end() -> None:
    right = replace(DRIVE, sideways=known("length", 0.04))
    made = lift(replace(HOOKED, drive=right), "linnet/lift", 4, 16)
    assert made["lies.side_up"].middle() < 0
    assert "right side low" in read(sheet_of(replace(HOOKED, drive=right)))


@pytest.mark.parametrize("task", [HOOKED, FORKED, replace(HOOKED, drive=drive_lifted()), replace(HOOKED, wheel=None), replace(HOOKED, legs=()),
                                  replace(HOOKED, legs=(*LEGS[:2], replace(LEGS[2], name="D"), LEGS[2]))])  # fmt: skip
@pytest.mark.parametrize("measures", ["metric", "us"])
def test_one_page_on_either_paper(task, measures: str) -> None:
    for walked, answers in ((None, {}), (WALKED, LIFTED_WELL)):
        drawn = sheet_of(task, answers, walked)
        for paper in ("A4", "Letter"):
            pdf = render(pack(drawn), Show(paper=paper, measures=measures), "pdf")  # type: ignore[arg-type]
            assert len(PdfReader(io.BytesIO(pdf)).pages) == 1


def test_weighed_wins_in_the_deciding_number() -> None:
    assert "drive, weighed" in read(sheet_of())
    assert "drive at its heaviest" in read(sheet_of(replace(HOOKED, drive=drive_lifted())))
    booked = replace(DRIVE, mass=known("mass", 335, "book"))
    assert "drive, by its book" in read(sheet_of(replace(HOOKED, drive=booked)))
