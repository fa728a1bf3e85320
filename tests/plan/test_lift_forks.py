"""Forks: the one unknown against a search of its own, the line of what they carry against the moment, figures to scale."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from plan.held_cases import FORKED, FRAME, LIFTED_WELL, LOADER, WALKED, WHEEL, known, read, tag
from pypdf import PdfReader

from axlewright.plan.pack import pack
from axlewright.plan.reckon.lift_task import LiftTask, lift_quantity
from axlewright.plan.reckon.lift_trials import carried, forks_break
from axlewright.plan.reckon.lifting import lift
from axlewright.plan.sheet.walk_round import Walked
from axlewright.plan.sheet.wheel_and_lift import LiftInputs, wheel_and_lift_sheet
from axlewright.quantities import Exact, Normal, Tenths
from axlewright.render import render
from axlewright.render.show import Show
from axlewright.sheets import Figure
from axlewright.sheets.drawing import Dimension
from axlewright.sheets.figures.forks import WheelOnForks, gap_for, sunk_in, wheel_on

AT = "linnet/lift"
GUESSED = lift_quantity("mass", "mass", Tenths(300.0, 480.0, 700.0), "assumed", "from memory")
TAPED = lift_quantity("reach", "length", Normal(0.9, 0.05), "measured", "tape")


def task(rated: float = 1700.0) -> LiftTask:
    wheel = replace(WHEEL, mass=GUESSED)
    return replace(FORKED, wheel=wheel, loader=replace(LOADER, rated=tag(rated)), reach=TAPED)


def drawn(one: LiftTask) -> str:
    return " ".join(read(wheel_and_lift_sheet(LiftInputs(one, LIFTED_WELL, AT, count=512), FRAME, WALKED)).split())


def test_the_wheels_mass_at_which_the_forks_meet_their_limit_by_hand() -> None:
    made = lift(task(1300.0), AT, 1, 512)
    found = forks_break(made, "wheel")
    assert found is not None
    assert (found.name, found.more) == ("wheel-mass", True)
    assert not found.settles  # 700 kg and 1.3 are less than the plate's 1 300
    assert found.at == pytest.approx(
        1300 / 1.3, rel=1e-3
    )  # the wheel's middle lies nearer than the plate's load centre
    assert re.search(r"Weigh the wheel: over 1\s000 kg the loader is too small\.", drawn(task(1300.0)))
    assert forks_break(lift(task(9000.0), AT, 1, 512), "wheel") is None  # nothing that a wheel could weigh


def test_a_loader_too_small_says_what_mass_would_pass() -> None:
    made = lift(task(850.0), AT, 1, 512)
    found = forks_break(made, "wheel")
    assert found is not None
    assert found.settles
    assert found.at == pytest.approx(850 / 1.3, rel=1e-3)
    assert made.wheel is not None
    assert made.wheel.at(0.05) < 1 <= made.wheel.at(0.5)
    assert "Weigh the wheel: it passes with at most 653 kg" in drawn(task(850.0))


def test_the_unknown_is_the_one_that_lowers_the_hold_most() -> None:
    """Each input by itself at its careful end, with the formula written out here."""
    one = task()
    made = lift(one, AT, 1, 4096)
    drive, besides, reach = one.drive.mass.spread, one.drive.besides.spread, TAPED.spread

    def hold(mass: float, gear: float, out: float) -> float:
        return 1700 * min(1.0, (0.8 + 0.5) / (0.8 + out)) / (1.3 * (mass + gear))

    middles = drive.middle(), besides.middle(), reach.middle()
    ends = (float(drive.at(0.95)), float(besides.at(0.9)), float(reach.at(0.95)))
    alone = [hold(*(ends[k] if k == n else middles[k] for k in range(3))) for n in range(3)]
    found = forks_break(made, "drive")
    name = ("drive-mass", "besides", "reach")[int(np.argmin(alone))]
    if found is not None:  # it may break nowhere one could meet
        assert found.name == name
    assert name == "reach"  # 5 cm of 90 cost more than 2 % of the mass


def test_what_the_forks_carry_farther_out_keeps_the_moment_about_the_front_axle() -> None:
    line = carried(lift(task(), AT, 1, 512))
    assert line[0] == (0.0, 1700.0)
    for at, kilos in line[1:]:
        assert kilos * (0.8 + at) == pytest.approx(1700 * (0.8 + 0.5))
    assert line[-1][0] >= 2 * 0.5


def test_the_wheel_is_drawn_to_scale_and_lies_in_the_gap() -> None:
    one = WheelOnForks(0.06, 0.66, 1.66, sunk_in(1.66, gap_for(1.66, 0.8)))
    assert one.centre == pytest.approx(0.06 + 0.33)
    assert one.sunk == pytest.approx(0.83 * (1 - np.cos(np.arcsin(0.4))))  # a circle between two edges 0.8 r apart
    drawing = wheel_on(one, {"centre": ("",), "diameter": ("",)})
    lengths = {shape.direction: abs(shape.b[0] - shape.a[0]) + abs(shape.b[1] - shape.a[1]) for shape in drawing.shapes if isinstance(shape, Dimension)}  # fmt: skip
    k = 1000 / one.scale()
    assert lengths["across"] == pytest.approx(one.centre * k, abs=0.02)
    assert lengths["up"] == pytest.approx(1.66 * k, abs=0.02)
    assert f"1:{one.scale():g}" in drawing.says


def test_a_wheel_across_the_forks_lies_on_them() -> None:
    across = replace(task(), wheel=replace(WHEEL, crosswise=True))
    sheet = wheel_and_lift_sheet(LiftInputs(across, LIFTED_WELL, AT, count=512), FRAME, WALKED).sheets[0]
    section = next(one for one in sheet.sections if one.heading == "The wheel on the forks")
    (figure,) = [one for one in section.blocks if isinstance(one, Figure)]
    assert "axle across the forks" in figure.drawing.says
    assert "chocked" in drawn(across)


def test_without_a_plate_there_is_no_line_and_no_unknown() -> None:
    bare = replace(task(), loader=replace(LOADER, rated=None))
    made = lift(bare, AT, 1, 128)
    assert carried(made) == ()
    assert forks_break(made, "wheel") is None
    assert "its plate is not read" in drawn(bare)
    assert "Still to be read" in drawn(bare)
    assert "Still to be read" not in drawn(task())


def test_what_is_known_exactly_breaks_nothing() -> None:
    sure = replace(task(), wheel=replace(WHEEL, mass=known("mass", 470), standoff=replace(WHEEL.standoff, spread=Exact(0.06))))  # fmt: skip
    assert forks_break(lift(sure, AT, 1, 64), "wheel") is None
    assert "None of the guesses alone breaks it." in drawn(sure)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("measures", ["metric", "us"])
@pytest.mark.parametrize("walked", [None, WALKED])
def test_a_large_wheel_across_the_forks_still_fits_one_page(paper: Any, measures: Any, walked: Walked | None) -> None:
    large = replace(task(850.0), wheel=replace(WHEEL, mass=GUESSED, diameter=known("length", 2.05), crosswise=True))
    for one in (large, replace(large, loader=None, reach=None)):
        sheet = wheel_and_lift_sheet(LiftInputs(one, LIFTED_WELL, AT, count=128), FRAME, walked)
        pdf = render(pack(sheet), Show(paper=paper, measures=measures), "pdf")
        assert len(PdfReader(io.BytesIO(pdf)).pages) == 1
