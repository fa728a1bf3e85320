"""One physical model: axle weights and header to the corner, to the bearings, to their life, to the forecast."""

from __future__ import annotations

import numpy as np
import pytest
from plan.bearing_cases import CLEAN, PLAIN, TYPED, task_with, worked
from plan.choice_cases import task as by_hand

from axlewright.engines.forecast import forecast, lean_of, stretched
from axlewright.engines.running.hub import Bearing, hub_life
from axlewright.plan.reckon.bearing_calls import Medians, class_leaned, overhang
from axlewright.plan.reckon.choice import Made, made_out
from axlewright.plan.reckon.choice_bearings import LIFE, WHY_NOT
from axlewright.plan.reckon.choice_class import between_designs, class_lives, class_medians
from axlewright.plan.reckon.choice_forecast import workings_of
from axlewright.plan.sheet.choice_trace import ChoiceTrace
from axlewright.trade.bearings import opinion

HOUR = 3600.0
G = 9.80665


def out(values: dict[str, str]) -> Made:
    return made_out(task_with({**TYPED, **values}, count=256), {})


def middle(values: dict[str, str], name: str = f"{LIFE}.median") -> float:
    return worked(values)[name].middle()


# --- the chain
def test_a_heavier_header_shortens_the_life_of_the_bearings_and_lets_go_sooner() -> None:
    """Before the last time of the curve; the hours to the harvest's end lie inside."""
    made = [out({"machine/header-mass": mass}) for mass in ("1.1 t", "2.4 t", "3.6 t")]
    corner, life, carries = (
        [one.w["bearings/stands"].middle() for one in made],
        [one.w[f"{LIFE}.median"].middle() for one in made],
        [float(one.w["condition"].draws.carries[-1]) for one in made],
    )
    assert corner == sorted(corner)
    assert life == sorted(life, reverse=True)
    assert life[0] > 1.5 * life[2]
    assert carries == sorted(carries, reverse=True)
    assert carries[0] > carries[2] + 1e-4


def test_what_the_wheel_carries_is_statics() -> None:
    """Moments about the rear pivot by hand, of a machine of which everything is known; both front wheels carry alike."""
    given = {"machine/front-axle-mass": "7600 kg", "machine/rear-axle-mass": "3700 kg", "machine/header-mass": "2300 kg", "machine/wheelbase": "2.9 m", "machine/cg-left": "0 mm"}  # fmt: skip
    w = workings_of(task_with({**TYPED, **given}, basis="book"))
    ahead = np.asarray(w["at-work/header-x"].draws)
    wanted = (7600 + 2300 * (1 + ahead / 2.9)) * G / 2
    np.testing.assert_allclose(w["bearings/stands"].draws, wanted, rtol=2e-3)


def test_the_life_is_the_engines_draw_by_draw() -> None:
    """Everything put together again by hand from what the draws are, one draw at a time."""
    w = worked({})
    at = {name: np.asarray(w[f"bearings/{name}"].draws) for name in ("spread", "overhang", "radius", "speed", "viscosity", "dirt", "slope")}  # fmt: skip
    for n in (0, 17, 300):
        both = [Bearing(*(float(np.asarray(getattr(w[f"bearings/{which}"].draws, part))[n]) for part in ("capacity", "static_capacity", "thrust_factor", "thrust_limit", "mean_diameter"))) for which in ("outboard", "inboard")]  # fmt: skip
        forces = [float(np.asarray(w[f"bearings/wheel.{part}"].draws)[n]) for part in ("load", "traction", "side")]
        one = {name: float(draws[n]) for name, draws in at.items()}
        alone = hub_life(*forces, one["spread"], one["overhang"], one["radius"], one["speed"], one["viscosity"], one["dirt"], *both, slope=one["slope"])  # fmt: skip
        assert float(np.asarray(w[f"{LIFE}.median"].draws)[n]) == pytest.approx(float(alone.median), rel=1e-12)
        assert float(np.asarray(w["bearings/basic-time"].draws)[n]) == pytest.approx(
            float(alone.basic_turns) / float(alone.turns) * float(alone.time), rel=1e-9
        )


@pytest.mark.parametrize("rising", [("bearings/wheel-carries", ["3.9 t", "4.6 t", "5.5 t"]), ("bearings/footprint", ["40 mm", "75 mm", "110 mm"])])  # fmt: skip
def test_more_load_and_more_overhang_shorten_it(rising: tuple[str, list[str]]) -> None:
    name, values = rising
    lives = [middle({name: value}) for value in values]
    assert lives == sorted(lives, reverse=True)
    assert lives[0] > 1.2 * lives[-1]


def test_a_tenth_more_on_the_wheel_costs_a_quarter_of_the_basic_life() -> None:
    """P goes with the load, life with its power of 10/3 (ISO 281)."""
    one, more = (middle({"bearings/wheel-carries": kg}, f"{LIFE}.basic_turns") for kg in ("4.5 t", "4.95 t"))
    assert more / one == pytest.approx(1.1 ** (-10 / 3), rel=0.02)


def test_a_weighed_wheel_goes_before_axle_weights() -> None:
    w = worked({"bearings/wheel-carries": "4.7 t"})
    assert w["bearings/stands"].middle() == pytest.approx(4700 * G, rel=2e-3)
    assert "at-work/mass" not in w


def test_a_printed_capacity_wins_over_the_caliper() -> None:
    printed = {f"bearings/{which}-{name}": value for which in ("outboard", "inboard") for name, value in (("capacity", "333 kN"), ("static-capacity", "481 kN"))}  # fmt: skip
    w = worked(printed)
    for which in ("outboard", "inboard"):
        assert w[f"bearings/{which}.capacity"].ends() == (333e3, 333e3)
        assert w[f"bearings/{which}-rated.likely_capacity"].middle() != pytest.approx(333e3, rel=0.02)
    half = {name: value.replace("333", "266.4") for name, value in printed.items()}
    shrunk = middle(half, f"{LIFE}.basic_turns") / w[f"{LIFE}.basic_turns"].middle()
    assert shrunk == pytest.approx(0.8 ** (10 / 3), rel=1e-6)


def test_a_printed_thrust_factor_gives_its_limit() -> None:
    w = worked({"bearings/outboard-thrust-factor": "1.6"})
    assert w["bearings/outboard.thrust_factor"].ends() == (1.6, 1.6)
    assert w["bearings/outboard.thrust_limit"].middle() == pytest.approx(0.375)


def test_back_to_back_is_the_wide_spread_and_lasts_longer() -> None:
    wide, narrow = (worked({"bearings/cones-face": face, "bearings/cup-distance": "240 mm", "bearings/wheel-carries": "3 t"}) for face in ("back-to-back", "face-to-face"))  # fmt: skip
    assert wide["bearings/spread"].middle() > 240e-3 > narrow["bearings/spread"].middle()
    assert wide["bearings/overhang"].middle() < 71e-3 < narrow["bearings/overhang"].middle()
    assert wide[f"{LIFE}.median"].middle() > narrow[f"{LIFE}.median"].middle()
    assert float(overhang(0.05, 0.03, "face to face")) == pytest.approx(0.08)


def test_metal_in_the_oil_leaves_a_tenth_of_the_basic_life() -> None:
    """e_C 0 makes a_ISO 0.1 at any film; where none was seen it is a little more, never the dirt of more than a tenth."""
    seen, clean = worked({}, PLAIN), worked({}, CLEAN)
    share = [np.asarray(w[f"{LIFE}.turns"].draws) / np.asarray(w[f"{LIFE}.basic_turns"].draws) for w in (seen, clean)]
    np.testing.assert_allclose(share[0], 0.1, rtol=1e-6)
    assert share[1].min() >= 0.1 - 1e-9  # under kappa 0.1 it is the standard’s edge
    assert np.median(share[1]) > 0.105
    assert np.asarray(clean["bearings/dirt"].draws).max() <= 0.1


# --- the lean
def test_how_far_designs_lie_apart_is_what_many_drawn_ones_show() -> None:
    logs = np.log(class_medians(5, 4096))
    median, spread = between_designs()
    assert np.log(median) == pytest.approx(float(logs.mean()), abs=0.01)
    assert spread == pytest.approx(float(logs.std()), rel=0.02)


def test_all_of_the_design_lean_alike() -> None:
    """The drive in trouble, the spare, a used and a rebuilt one: by the same opinion; the middle one by its factor."""
    w = worked({})
    lean = w["bearings/lean"].draws
    middle_one = w["condition/middle-class"].draws
    alone = class_lives(7, 1)
    assert float(middle_one.sound.median / alone.sound.median) == pytest.approx(float(lean.factor), rel=0.01)
    assert middle_one.failing == alone.failing
    designs, before = w["condition/class"].draws, class_lives(7)
    assert np.std(np.log(designs.sound.median)) < np.std(np.log(before.sound.median))
    np.testing.assert_array_equal(designs.failing.median, before.failing.median)


def test_the_forecast_of_the_leaned_class_is_that_of_designs_weighed_by_bayes() -> None:
    """Second method: a few hundred designs that stay as they are, each weighed by the chance of such a rating."""
    lives, medians = class_lives(3, 256), class_medians(3, 256)
    median, spread = between_designs()
    lean = lean_of(median, spread, 0.4 * median, 0.8, 1.2)
    ahead = np.array([1500.0, 3000.0, 6000.0, 9000.0]) * HOUR
    rows = np.empty((0, 4))
    kept = forecast(lives, np.zeros(256), [], rows, ahead, carries=False).chance[:, :, 3]
    moved = forecast(class_leaned(lives, Medians(medians), lean), np.zeros(256), [], rows, ahead, carries=False).chance
    weight = np.exp(-((np.log(medians / float(lean.opinion)) / 0.8) ** 2) / 2)
    np.testing.assert_allclose(moved[:, :, 3].mean(axis=0), weight @ kept / weight.sum(), atol=0.012)
    assert abs(kept.mean(axis=0) - moved[:, :, 3].mean(axis=0)).max() > 0.04  # and it is another one than before


def test_bearings_without_end_make_no_drive_safer_than_all_other_causes_allow() -> None:
    """Printed capacities far beyond any: sound and wearing grow by no more than the trade's row says, and less."""
    endless = {f"bearings/{which}-{name}": "1900 kN" for which in ("outboard", "inboard") for name in ("capacity", "static-capacity")}  # fmt: skip
    w = worked(endless)
    assert w["bearings/lean.bearing_median"].middle() > 50 * w["bearings/lean.class_median"].middle()
    grown = np.asarray(w["condition/class"].draws.sound.median) / np.asarray(class_lives(7).sound.median)
    assert grown.max() <= opinion().most
    assert float(w["bearings/lean"].draws.factor) < opinion().most ** 0.5
    safest = stretched(class_lives(7), opinion().most)
    ahead = np.array([4000.0]) * HOUR
    chances = [float(forecast(one, np.zeros(16), [], np.empty((0, 4)), ahead, carries=False).chance[:, 0, 3].mean()) for one in (safest, w["condition/class"].draws)]  # fmt: skip
    assert chances[0] < chances[1]


# --- where nothing is known, or no life can be given
def numbers(made: Made) -> list[float]:
    return [value for one in made.courses for name in ("mean", "fails", "days_lost", "cash") for value in np.ravel(made.w[f"{one.at}.{name}"].draws)]  # fmt: skip


def test_bearings_unknown_change_nothing_bit_for_bit() -> None:
    """Not typed, typed in part, and typed but past what they can carry: the very same numbers."""
    none = task_with({}, PLAIN, 256)
    part = task_with({name: value for name, value in TYPED.items() if name != "bearings/footprint"}, PLAIN, 256)
    past = task_with({**TYPED, "bearings/wheel-carries": "19 t"}, PLAIN, 256)
    assert none.bearings is None
    assert part.bearings is None
    assert part.no_bearings == ("bearings/footprint",)
    plain = made_out(none, {})
    assert not [name for name in plain.w.got if name.startswith(("bearings/", "at-work/"))]
    for other in (part, past):
        assert numbers(made_out(other, {})) == numbers(plain)


def test_a_load_past_half_the_capacity_gives_no_life_and_says_why() -> None:
    w = worked({"bearings/wheel-carries": "16 t"})
    assert LIFE not in w
    assert "more than half of what they are rated for" in w.things[WHY_NOT].value
    assert w["condition/class"].draws is not None
    np.testing.assert_array_equal(w["condition/class"].draws.sound.median, class_lives(7).sound.median)


def test_centres_that_cross_say_so() -> None:
    w = worked({"bearings/cones-face": "face-to-face", "bearings/cup-distance": "40 mm"})
    assert LIFE not in w
    assert "centres meet" in w.things[WHY_NOT].value


def test_a_few_draws_past_it_promise_nothing_and_the_others_stand() -> None:
    """Between all and none: those draws have no life, so they drag the middle down and never up."""
    loads = [f"{kg} kg" for kg in range(5200, 9000, 200)]
    seen = 0
    for typed in loads:
        w = worked({"bearings/wheel-carries": typed})
        if LIFE not in w:
            continue
        lost = (np.asarray(w[f"{LIFE}.turns"].draws) == 0).mean()
        assert lost <= opinion().beyond
        seen += lost > 0
    assert seen


# --- the trace
def test_the_chance_to_let_go_is_traced_to_header_and_caliper() -> None:
    made = out({})
    trace = ChoiceTrace(made.w)
    entry = trace.keep("course/run-with-checks.fails")
    assert {"at-work/header", "at-work/mass", "bearings/outboard-bore", "bearings/footprint", "bearings/own-spread", "share/road"} <= set(entry.made_of)  # fmt: skip
    assert trace.entries["at-work/header"].basis == "assumed"
    assert trace.entries["bearings/outboard-bore"].basis == "measured"


def test_a_task_by_hand_has_none() -> None:
    w = workings_of(by_hand())
    assert "condition/class" in w
    assert "condition/class" not in w.got
