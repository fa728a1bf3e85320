"""Wheel and drive reckoned: against closed forms, by hand, by statics' own bounds, and what nobody read."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from plan.held_cases import DRIVE, FORKED, HOIST, HOOKED, LEGS, LOADER, WHEEL, G, known, tag

from axlewright.engines.lifting.legs import one_leg, two_legs
from axlewright.plan.reckon.lift_task import Leg, LiftTask, Part, drive_lifted
from axlewright.plan.reckon.lift_trials import SHORTER, scale_marks, shortened
from axlewright.plan.reckon.lifting import as_it_lies, leg_load, lift, most_mass, weakest
from axlewright.plan.steps.bands import NoBand

AT = "linnet/lift"


def reckoned(task: LiftTask, count: int = 256):
    return lift(task, AT, 4, count)


def leg(name: str, along: float, up: float, long: float, right: float = 0.0, limit: float = 1900) -> Leg:
    return Leg(name, "chain", (along, right, up), known("length", long), (Part("chain", tag(limit)),))


SURE = replace(DRIVE, mass=known("mass", 330), along=known("length", 0.24), sideways=known("length", 0.0), up=known("length", -0.02))  # fmt: skip


def test_two_legs_as_in_closed_form() -> None:
    made = reckoned(replace(HOOKED, drive=SURE, legs=(leg("A", -0.05, 0.2, 0.62), leg("B", 0.52, 0.2, 0.7))), 1)
    closed = two_legs(330 * G, 0.57, 0.62, 0.7, 0.29, 0.22)
    assert made["lies.end_up"].middle() == pytest.approx(float(closed.tilt), abs=2e-3)  # chains stretch a little
    assert made["leg-1-pull"].middle() == pytest.approx(float(closed.tension_1), rel=5e-3)
    assert made["leg-2-pull"].middle() == pytest.approx(float(closed.tension_2), rel=5e-3)
    assert made["leg-1-angle"].middle() == pytest.approx(abs(float(closed.angle_1)), abs=5e-3)
    assert not made.turns_over


def test_one_leg_as_in_closed_form() -> None:
    made = reckoned(replace(HOOKED, drive=SURE, legs=(leg("A", 0.26, 0.21, 0.5),)), 1)
    closed = one_leg(330 * G, 0.02, 0.23)
    assert abs(made["lies.end_up"].middle()) == pytest.approx(float(closed.tilt), abs=1e-4)
    assert made["leg-1-pull"].middle() == pytest.approx(330 * G, rel=1e-6)


def test_eyes_under_the_centre_of_gravity_turn_over() -> None:
    low = reckoned(replace(HOOKED, drive=SURE, legs=(leg("A", -0.05, -0.15, 0.62), leg("B", 0.52, -0.15, 0.7))), 16)
    assert low.turns_over
    near = next(one for one in low.margins if one.what == "hang-angle")
    assert near.at(0.5) < 0


def test_up_is_up() -> None:
    lies = as_it_lies(np.sin(0.1), -np.sin(0.2))
    assert (float(lies.end_up), float(lies.side_up)) == pytest.approx((0.1, -0.2))


def test_a_legs_load_goes_with_the_mass() -> None:
    assert float(leg_load(1000.0, 3000.0, 300.0, 1.1)) == pytest.approx(110.0)


def test_held_mass_loads_every_part_and_the_likely_one_hangs() -> None:
    guessed = replace(DRIVE, mass=drive_lifted().mass)
    made = reckoned(replace(HOOKED, drive=guessed), 2048)
    high = float(guessed.mass.spread.at(0.9))
    assert made.heaviest() == pytest.approx(high)
    assert made["drive-mass"].middle() == pytest.approx(320.0, rel=0.05)
    by_part = {one.part.name: one for one in made.parts}
    slack = 1 + made.heaviest("besides") / high
    hoist = by_part["shop hoist"].margin
    assert hoist is not None
    assert hoist.at(0.05) == pytest.approx(550 / (high * slack * 1.1), rel=1e-6)


def test_every_part_by_hand() -> None:
    made = reckoned(replace(HOOKED, drive=SURE), 1)
    whole = made.held[f"{AT}/lifted"].middle() * 1.1
    share = {n: made[f"leg-{n}-pull"].middle() / (330 * G) for n in (1, 2, 3)}
    margins = {one.part.name: one for one in made.parts}
    assert margins["shop hoist"].margin.at(0.05) == pytest.approx(550 / whole)
    assert margins["hook"].margin.at(0.05) == pytest.approx(1100 / whole)
    assert margins["chain hoist"].margin.at(0.05) == pytest.approx(600 / (whole * share[3]))
    assert margins["web strap"].margin.at(0.05) == pytest.approx(900 * 0.8 / (whole * share[3]))
    chain = margins["chain 8 mm"]
    assert chain.where == "A, B"
    assert chain.margin.at(0.05) == pytest.approx(1900 / (whole * max(share[1], share[2])))
    assert weakest(made.parts).part.name == "shop hoist"


def test_two_tags_of_one_name_are_two_parts() -> None:
    other = replace(LEGS[1], parts=(Part("chain 8 mm", tag(900)),))
    made = reckoned(replace(HOOKED, legs=(LEGS[0], other, LEGS[2])), 16)
    assert [one.where for one in made.parts if one.part.name == "chain 8 mm"] == ["A", "B"]


def test_four_legs_are_rated_on_what_two_may_carry() -> None:
    eyes = ((-0.02, 0.2), (-0.02, -0.2), (0.5, 0.2), (0.5, -0.2))
    legs = tuple(leg(name, x, 0.15, 0.7, y) for name, (x, y) in zip("ABCD", eyes, strict=True))
    made = reckoned(replace(HOOKED, drive=SURE, legs=legs), 1)
    for n in range(1, 5):
        assert made[f"leg-{n}-most"].middle() > made[f"leg-{n}-pull"].middle() * 1.5
    slant = math.cos(made["leg-1-angle"].middle())
    assert made["leg-1-most"].middle() == pytest.approx(330 * G / 2 / slant, rel=0.2)


def test_the_heaviest_that_the_weakest_holds() -> None:
    made = reckoned(replace(HOOKED, drive=SURE), 1)
    most = most_mass(made)
    assert most is not None
    at_it = reckoned(replace(HOOKED, drive=replace(SURE, mass=known("mass", most))), 1)
    assert weakest(at_it.parts).margin.at(0.05) == pytest.approx(1.0, rel=1e-6)


def test_forks_by_hand() -> None:
    made = reckoned(replace(FORKED, drive=SURE), 1)
    besides = made.held[f"{AT}/besides"].middle()
    assert made.forks is not None
    allowed = 1700 * (0.8 + 0.5) / (0.8 + 0.75)
    assert made.forks.at(0.05) == pytest.approx(allowed / ((330 + besides) * 1.3))
    assert made.wheel is not None
    likely = reckoned(replace(FORKED, wheel=replace(WHEEL, mass=known("mass", 500))), 1)
    assert likely.wheel is not None
    centre = 0.06 + 0.66 / 2  # nearer than the plate's own: no more than rated
    assert likely["wheel-centre"].middle() == pytest.approx(centre)
    assert likely.wheel.at(0.05) == pytest.approx(1700 / (500 * 1.3))
    across = reckoned(replace(FORKED, wheel=replace(WHEEL, mass=known("mass", 500), crosswise=True)), 1)
    assert across.wheel is not None
    assert across.wheel.at(0.05) == pytest.approx(1700 * 1.3 / (0.8 + 0.06 + 1.66 / 2) / 650)


def test_a_hoist_tips_by_moments_and_one_on_a_beam_does_not() -> None:
    made = reckoned(replace(HOOKED, drive=SURE, hoist=replace(HOIST, hook=known("length", 1.9))), 1)
    tips = next(one for one in made.margins if one.what == "hoist-tip")
    load = made.held[f"{AT}/asked"].middle()
    assert tips.at(0.05) == pytest.approx(115 * (1.6 - 0.55) / (load * (1.9 - 1.6)))
    beam = reckoned(replace(HOOKED, hoist=replace(HOIST, rolls=False, mass=None)), 16)
    assert next(one for one in beam.margins if one.what == "hoist-tip").at(0.05) == math.inf
    unknown = reckoned(replace(HOOKED, hoist=replace(HOIST, mass=None)), 16)
    assert not [one for one in unknown.margins if one.what == "hoist-tip"]


def test_what_cannot_be_is_refused_in_its_own_section() -> None:
    made = reckoned(replace(HOOKED, wheel=replace(WHEEL, mass=known("mass", -500))), 16)
    assert set(made.refused) == {"wheel"}
    assert made.hangs
    legs = reckoned(replace(HOOKED, legs=(replace(LEGS[0], length=known("length", -0.7)), *LEGS[1:])), 16)
    assert set(legs.refused) == {"hook"}
    assert legs.wheel is not None
    assert legs.forks is not None
    plate = reckoned(replace(FORKED, loader=replace(LOADER, rated=tag(-5.0))), 16)
    assert set(plate.refused) == {"wheel", "forks"}


def test_a_tag_nobody_read_has_no_margin() -> None:
    parts = (Part("chain hoist", None), LEGS[2].parts[1])
    made = reckoned(replace(HOOKED, legs=(*LEGS[:2], replace(LEGS[2], parts=parts))), 16)
    (unread,) = [one for one in made.parts if one.margin is None]
    assert unread.part.name == "chain hoist"
    assert reckoned(replace(FORKED, loader=replace(LOADER, rated=None)), 16).forks is None


def test_a_shorter_leg_as_reckoned_again() -> None:
    made = reckoned(HOOKED, 64)
    change = shortened(made)
    assert change is not None
    assert change.leg == "C"
    assert change.end_up > 0  # its strap is at the wheel end
    sure = replace(HOOKED, drive=SURE)
    legs = (*LEGS[:2], replace(LEGS[2], length=known("length", 0.66 - SHORTER)))
    before, after = reckoned(sure, 1), reckoned(replace(sure, legs=legs), 1)
    by = after["lies.end_up"].middle() - before["lies.end_up"].middle()
    assert shortened(before).end_up == pytest.approx(by, rel=1e-6)  # type: ignore[union-attr]
    assert shortened(reckoned(replace(HOOKED, legs=(leg("A", 0.26, 0.21, 0.5),)), 1)) is None


def test_the_scales_band_lies_under_the_weakest() -> None:
    made = reckoned(HOOKED)
    from_, to, above = scale_marks(made)
    most = most_mass(made)
    assert most is not None
    assert from_ <= 335 <= to < above <= most
    assert to <= 0.9 * most
    pounds = scale_marks(reckoned(replace(HOOKED, scale=("lb", 2.0))))
    assert pounds[2] * 2 * 0.45359237 <= most
    weak = replace(HOIST, parts=(Part("shop hoist", tag(300)),))
    with pytest.raises(NoBand):
        scale_marks(reckoned(replace(HOOKED, hoist=weak)))
    with pytest.raises(NoBand):
        scale_marks(reckoned(replace(HOOKED, hoist=None, legs=tuple(replace(one, parts=()) for one in LEGS))))
