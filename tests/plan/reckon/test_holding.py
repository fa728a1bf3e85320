"""Holding a corner through plan/reckon: stages by hand, held corners, margins, a crib and the gauge."""

from __future__ import annotations

import math
from dataclasses import fields, replace
from itertools import product

import numpy as np
import pytest

from axlewright.engines.holding.supports import on_wheels
from axlewright.kinds import KINDS
from axlewright.plan.judge.margins import by_margin, judge_line
from axlewright.plan.reckon.corner_task import CAREFUL_END, corner_task, held, quantity
from axlewright.plan.reckon.cribs import CribGear, Owned, crib_load, cribs, gauge_marks
from axlewright.plan.reckon.holding import EDGES, STAGES, Holding, hold, worked_stages, workings
from axlewright.plan.steps.bands import NoBand
from axlewright.plan.workings import Refused
from axlewright.quantities import Exact, Normal, Quantity, Tenths
from axlewright.trade.verdicts import held_rules

AT = "linnet.front-left/hold"
G = 9.80665


def exact(field: str, value: float, basis: str = "measured") -> Quantity:
    return quantity(field, Exact(value), basis, "test")


def known() -> dict[str, Quantity]:
    """A walker combine of which everything that is held was weighed and taped."""
    values = {"mass": 9300, "front_share": 0.63, "side_offset": 0.02, "centre_height": 1.7, "track": 2.65, "wheelbase": 3.5, "pivot_height": 0.7,
              "rear_axle": 700, "rear_radius": 0.6, "header": 1700, "grain": 0.0, "wheel": 480, "axle_height": 0.8, "drive": 330, "drive_inboard": 0.25,
              "jack_inboard": 0.4, "jack_ahead": 0.0, "crib_inboard": 0.4, "crib_ahead": 0.0, "lift_height": 0.55, "slope_nose": 0.0,
              "slope_towards": 0.0, "jack_rating": 15e4}  # fmt: skip
    return {name: exact(name, value) for name, value in values.items()}


def reckoned(given: dict[str, Quantity] | None = None, kind: str = "walker-combine", count: int = 512) -> Holding:
    return hold(workings(corner_task(kind, known() if given is None else given), AT, 5, count), AT)


def test_stages_are_those_of_a_hand_reckoning() -> None:
    h = reckoned()
    body = (9300 - 700) * G
    x = (-0.37 * 3.5 * 9300 + 3.5 * 700) / 8600
    y = 0.02 * 9300 / 8600
    z = (1.7 * 9300 - 0.6 * 700) / 8600
    stands = on_wheels(body, x, y, z, 2.65, 3.5, 0.7)
    assert h.load("header-off")[0] == pytest.approx(float(stands.front_left))
    assert h.load("header-off", "rear_pivot")[0] == pytest.approx(float(stands.rear_pivot))
    assert h.load("jack-takes-it")[0] == pytest.approx(float(stands.front_left) * 2.65 / 2.25)
    relief = (480 * 2.65 + 330 * 2.40) / 2.25 * G  # level; raised, the levers turn a little
    assert h.load("on-the-crib")[0] - h.load("drive-off")[0] == pytest.approx(relief, rel=0.05)
    with_header = h.load("as-it-stands")[0] * 2 / G
    assert with_header == pytest.approx(0.63 * 9300 + 1700 * (1 + 2.2 / 3.5), rel=0.02)


def test_what_is_weighed_and_taped_is_not_held() -> None:
    h = reckoned()
    for case in h.held.values():
        for field in ("mass", "front-share", "centre-height", "track"):
            assert case[f"{AT}/{field}"].middle() == h.likely[f"{AT}/{field}"].middle()
            assert case[f"{AT}/{field}"].basis == "measured"
    assert h.load("jack-takes-it")[1] == pytest.approx(h.load("jack-takes-it")[0])


def test_guesses_stand_at_their_tenth_and_say_so() -> None:
    w = workings(corner_task("walker-combine", {}), AT, 5, 4096)
    for case, ends in CAREFUL_END.items():
        other = held(w, AT, case)
        for field, end in ends.items():
            name = f"{AT}/{field.replace('_', '-')}"
            draws = other[name].draws
            assert np.ptp(draws) == 0
            share = float(np.mean(w[name].draws < draws[0]))
            assert share == pytest.approx(0.9 if end == "high" else 0.1, abs=0.03)
            assert "held" in other[name].source


def test_a_careful_corner_never_looks_better_than_the_middle() -> None:
    for kind in ("small-combine", "walker-combine", "large-combine", "forage-harvester"):
        h = reckoned({}, kind)
        for margin in h.margins:
            assert margin.at(0.05) <= margin.at(0.5) + 1e-9, (kind, margin.what, margin.stage)
        for stage in STAGES:
            assert h.load(stage.name)[1] >= h.load(stage.name)[0]


GUESSED = ("mass", "front_share", "centre_height", "track", "wheel", "drive", "rear_axle")


@pytest.mark.parametrize("kind", ["small-combine", "walker-combine", "very-large-combine", "forage-harvester"])
@pytest.mark.parametrize("slopes", [(0.0, 0.0), (0.03, -0.03), (-0.03, -0.03), (0.03, 0.03), (-0.03, 0.03)])
def test_no_corner_of_the_guesses_is_worse_than_those_that_are_held(kind: str, slopes: tuple[float, float]) -> None:
    """All 128 ways in which the unweighed guesses may stand at their ends, each by itself, at every stage."""
    level = {f"slope_{way}": quantity(f"slope_{way}", Exact(math.atan(s)), "measured", "phone level") for way, s in zip(("nose", "towards"), slopes, strict=True)}  # fmt: skip
    task = corner_task(kind, level)
    middles = {f.name: getattr(task, f.name) for f in fields(task) if getattr(task, f.name) is not None}
    middles = {name: one if name in GUESSED else replace(one, spread=Exact(one.spread.middle())) for name, one in middles.items()}  # fmt: skip
    ways = np.array(list(product((0.1, 0.9), repeat=len(GUESSED))))
    every = workings(replace(task, **middles), AT, 5, len(ways))
    for column, name in enumerate(GUESSED):
        whole = every[f"{AT}/{name.replace('_', '-')}"]
        every.got[whole.name] = replace(whole, draws=np.asarray(middles[name].spread.at(ways[:, column])), key=name)
    worked_stages(every, AT)
    h = hold(workings(replace(task, **middles), AT, 5, 64), AT)
    for stage in STAGES[1:]:
        loads = every[f"{AT}/{stage.name}.corner"].draws
        judged = stage.name in ("jack-takes-it", "first-bite")  # where it is heaviest of all; the others are only told
        assert h.heaviest(stage.name, "corner") >= (0.998 if judged else 0.97) * loads.max()
        if stage.holds == "crib":
            assert h.lightest("drive-off") <= 1.002 * loads.min()
        assert h.heaviest(stage.name, "other_wheel") >= 0.94 * every[f"{AT}/{stage.name}.other_wheel"].draws.max()
        rear = h.heaviest(stage.name, "rear_pivot") + h.likely[f"{AT}/rear-axle"].ends()[1] * G
        assert rear >= 0.99 * (every[f"{AT}/{stage.name}.rear_pivot"].draws + every[f"{AT}/rear-axle"].draws * G).max()
    least = min(every[f"{AT}/{stage.name}.{edge}"].draws.min() for stage in STAGES[1:] for edge in EDGES)
    assert min(h.tips_at(stage.name)[1] for stage in STAGES[1:]) <= least + math.radians(0.05)
    got = [one.at(0.05) for one in h.margins if one.what == "chocks"]
    weight, friction, pull = (every[f"{AT}/{name}"].draws for name in ("mass", "chock-friction", "pull"))
    rolls = weight * G * math.sin(math.atan(abs(slopes[0]))) + pull  # chocks slide before they are climbed over
    stands = [sum(every[f"{AT}/{s.name}.{part}"].draws for part in ("other_wheel", "rear_pivot")) for s in STAGES if s.holds != "wheel"]  # fmt: skip
    assert min(got) <= 1.02 * min(float(np.min(friction * (one + every[f"{AT}/rear-axle"].draws * G) / rolls)) for one in stands)  # fmt: skip


@pytest.mark.parametrize("field", ["mass", "front_share", "track", "centre_height"])
def test_each_held_end_is_the_worse_one(field: str) -> None:
    """Moved to its other end, a held guess never loads the corner more, nor tips it sooner over that edge."""
    w = workings(corner_task("walker-combine", {}), AT, 5, 256)
    middle = hold(w, AT)
    for case, edge in (("corner", ""), *((case, edge) for edge, case in EDGES.items())):
        ends = {}
        name = f"{AT}/{field.replace('_', '-')}"
        for share in (0.1, 0.9):
            moved = w.what_if(
                replace(w.quantities[name], spread=Exact(float(w.quantities[name].spread.at(share))), basis="measured")
            )
            got = hold(moved, AT).likely
            ends[share] = (
                -got[f"{AT}/jack-takes-it.corner"].ends()[1] if not edge else got[f"{AT}/drive-off.{edge}"].middle()
            )
        worse = "low" if ends[0.1] <= ends[0.9] else "high"
        stands = CAREFUL_END[case].get(field)  # type: ignore[call-overload]
        if abs(ends[0.1] - ends[0.9]) > 1e-6 * abs(ends[0.9]):
            assert stands == worse, (field, case)
    assert middle.at == AT


PLATE = {"jack_rating": exact("jack_rating", 98_066.5)}


def test_margins_answer_the_rules_that_ask_for_them() -> None:
    h = reckoned(PLATE)
    asked = {rule.margin for rule in held_rules() if rule.line == "HOLDING" and rule.margin}
    gear = CribGear((Owned(0.15, 0.15, 0.9, 16, "softwood", "C24"),), 0.68, 0.35, 0.6, 150e3)
    given = {m.what for m in h.margins} | {m.what for m in cribs(h, gear).margins}
    assert given <= asked
    assert asked - given == {"stand", "wind"}  # asked of the stand's plate and of the day, not of the machine
    verdict = judge_line("HOLDING", {}, (*h.margins, *cribs(h, gear).margins))
    assert verdict.word in ("not known", "no")  # nobody walked round it


def test_slope_and_jack_margins_by_hand() -> None:
    given = known() | {"slope_nose": quantity("slope_nose", Exact(np.arctan(0.012)), "measured", "phone level"),
                       "slope_towards": quantity("slope_towards", Exact(np.arctan(-0.016)), "measured", "phone level")}  # fmt: skip
    h = reckoned(given)
    margins = {(m.what, m.stage): m for m in h.margins}
    assert margins["ground-slope", ""].at(0.05) == pytest.approx(0.03 / 0.02)
    jack = margins["jack", "jack-takes-it"]
    assert jack.at(0.05) == pytest.approx(15e4 / h.load("jack-takes-it")[1])
    slope_rule = next(r for r in held_rules() if r.margin == "ground-slope")
    assert by_margin(slope_rule, h.margins) == "yes"


def test_a_plate_that_nobody_read_holds_nothing() -> None:
    h = reckoned({})
    assert "jack" not in {m.what for m in h.margins}
    got = cribs(h, CribGear((Owned(0.15, 0.15, 0.9, 16, "softwood", "C24"),), 0.68, 0.35, 0.6, 150e3))
    with pytest.raises(NoBand, match="plate"):
        gauge_marks(h, got, 0.065, 10e5)


def test_chocks_hold_the_whole_machine_not_the_body_alone() -> None:
    given = known() | {"slope_nose": quantity("slope_nose", Exact(0.02), "measured", "phone level")}
    h = reckoned(given)
    roll = h.likely[f"{AT}/raised/roll"].middle()
    assert roll == pytest.approx(9300 * G * np.sin(0.02) + 600)


def test_a_crib_of_the_timber_at_hand_and_its_gauge() -> None:
    h = reckoned(PLATE)
    gear = CribGear((Owned(0.15, 0.15, 0.9, 16, "softwood", "C24"), Owned(0.1, 0.1, 0.8, 20)), 0.68, 0.35, 0.6, 150e3)
    got = cribs(h, gear)
    likely, heaviest = crib_load(h)
    assert heaviest == pytest.approx(got.load)
    assert heaviest > likely
    best = {m.what: m for m in got.margins}
    assert best["crossing"].careful * heaviest == pytest.approx(best["crossing"].middle * likely)  # one crib, two loads
    assert min(best["crossing"].careful, best["seat"].careful) == best["lower-code"].careful
    go_from, go_to, lower = gauge_marks(h, got, 0.065, 10e5)
    assert go_from <= go_to < lower
    area = np.pi / 4 * 0.065**2
    assert go_from * 10e5 * area >= h.likely[f"{AT}/jack-takes-it.corner"].ends()[0]
    assert lower * 10e5 * area <= min(
        98_066.5,
        best["crossing"].careful * heaviest,
        best["seat"].careful * heaviest,
        best["ground"].careful * heaviest,
    )


def test_no_timber_no_crib_no_band() -> None:
    h = reckoned(PLATE)
    for timber in ((), (Owned(0.1, 0.1, 0.8, 3),)):
        got = cribs(h, CribGear(timber, 0.68, 0.3, 0.6, 150e3))
        assert got.layouts == ()
        with pytest.raises(NoBand):
            gauge_marks(h, got, 0.065, 10e5)


def test_a_number_out_of_range_is_refused_by_its_own_name() -> None:
    with pytest.raises(Refused) as refused:
        reckoned(known() | {"jack_inboard": exact("jack_inboard", 1.9)})
    assert refused.value.at == f"{AT}/jack-inboard"
    with pytest.raises(Refused) as refused:
        reckoned(known() | {"mass": exact("mass", -4.0)})
    assert refused.value.at == "mass"  # before anything is worked out


def test_kinds_that_three_supports_are_not_true_of_are_refused() -> None:
    for kind in ("sprayer", "tractor"):
        with pytest.raises(ValueError, match=r"swinging|no kind"):
            corner_task(kind, {})
    with pytest.raises(ValueError, match="no input"):
        corner_task("walker-combine", {"colour": exact("mass", 1.0)})
    with pytest.raises(ValueError, match="is a mass"):
        corner_task("walker-combine", {"mass": Quantity("mass", KINDS["length"], Exact(2.0), "book", "typed")})


def test_weighing_narrows_what_is_held() -> None:
    guessed = reckoned({})
    weighed = reckoned({"mass": quantity("mass", Normal(9300, 60), "measured", "weighbridge"),
                        "front_share": quantity("front_share", Normal(0.63, 0.004), "measured", "weighbridge")})  # fmt: skip
    assert weighed.load("jack-takes-it")[1] < guessed.load("jack-takes-it")[1]
    width = [h.load("jack-takes-it")[1] / h.load("jack-takes-it")[0] for h in (weighed, guessed)]
    assert width[0] < width[1]


def test_tenths_have_a_tenth_beyond_each() -> None:
    spread = Tenths(2.0, 3.0, 5.0)
    assert [float(spread.at(u)) for u in (0.1, 0.5, 0.9)] == pytest.approx([2, 3, 5])
    u = np.linspace(0, 1, 1001)
    assert (np.diff(spread.at(u)) > 0).all()
    assert spread.ends()[0] == pytest.approx(1.75)
    assert [float(spread.at(u)) for u in (0.0, 1.0)] == pytest.approx([1.5, 6])
    with pytest.raises(ValueError, match="tenths"):
        Tenths(3.0, 2.0, 5.0)
