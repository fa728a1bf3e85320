"""From answers to quantities: which one holds, how far off it may be, where it comes from; and what is missing."""

from __future__ import annotations

from datetime import date
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from yard.made import yards

from axlewright.engines.gravity import weight_of
from axlewright.engines.holding.weighing import centre_from_scales
from axlewright.plan.lift_of import lift_task
from axlewright.plan.quantities_of import assumed, judged_words, missing, quantities_of, walked_round, words_of
from axlewright.plan.reckon.corner_task import KIND_OF, CornerTask, corner_task
from axlewright.plan.reckon.lifting import lift
from axlewright.plan.reckon.support import support
from axlewright.plan.sheet.support_words import FIND
from axlewright.plan.support_of import NAMES, support_inputs
from axlewright.quantities import BASES, Exact
from axlewright.store import DEMO, at
from axlewright.trade.machines import machine_kinds
from axlewright.trade.questions import in_group, questions
from axlewright.trade.tyres import weighed
from axlewright.yard import Answer, Change, Corner, Design, Drive, Machine, Stated, Title, Trouble, Yard

LEFT = Corner("lark", "front-left")
GRAVITY = 9.80665


def lark(*answers: Answer, **machine: Any) -> tuple[Yard, Trouble]:
    """A walker combine and a trouble at it, with these answers."""
    things = (
        Title(name="T"),
        Machine(id="lark", name="Lark", kind="walker-combine", **machine),
        Design(id="hub", name="Hub", bolt_torque=Stated(value="362 N·m", basis="book")),
        Drive(id="d", name="d", design="hub", sits=LEFT),
        Trouble(id="1", number=1, corner=LEFT, drive="d", opened=date(2026, 8, 1)),
    )
    yard = Yard.of([*things, *answers])
    return yard, yard.trouble(1)


def answer(name: str, value: str, basis: str = "measured", **more: Any) -> Answer:
    about = more or {"trouble": 1}
    return Answer.model_validate(
        {"id": name.replace("/", "."), "name": name, "value": value, "on": "2026-08-20", "basis": basis, **about}
    )


def test_an_answer_holds_over_the_file_and_that_over_the_trade_s_guess() -> None:
    yard, trouble = lark()
    taken = quantities_of(yard, trouble)["machine/track"]
    assert (taken.basis, taken.spread.middle()) == ("assumed", machine_kinds()["walker-combine"].track[1])
    yard, trouble = lark(track=Stated(value="2.71 m", basis="book"))
    filed = quantities_of(yard, trouble)["machine/track"]
    assert (filed.basis, filed.spread) == ("book", Exact(2.71))
    assert "book" in filed.source
    yard, trouble = lark(answer("machine/track", "2.68 m", machine="lark"), track=Stated(value="2.71 m", basis="book"))
    told = quantities_of(yard, trouble)["machine/track"]
    assert (told.basis, told.spread.middle(), told.typed) == ("measured", 2.68, "2.68 m")
    assert told.source == "measured, 20 Aug 2026"


def test_a_measured_value_is_as_far_off_as_its_tool_and_a_plate_is_not() -> None:
    yard, trouble = lark(
        answer("machine/track", "2.68 m"),
        answer("machine/wheelbase", "3.55 m ± 0.1 m"),
        answer("walk-round/jack-plate", "16 t", "book"),
        answer("walk-round/slope-along", "-0.6 %"),
        answer("bolts/count", "11"),
    )
    found = quantities_of(yard, trouble)
    assert found["machine/track"].spread.ends() == pytest.approx((2.66, 2.70))
    assert found["machine/wheelbase"].spread.ends() == pytest.approx((3.45, 3.65))
    assert found["walk-round/jack-plate"].spread == Exact(16_000.0)
    assert found["bolts/count"].spread == Exact(11.0)
    low, high = found["walk-round/slope-along"].spread.ends()
    assert np.degrees((high - low) / 2) == pytest.approx(0.3)
    assert np.tan((high + low) / 2) == pytest.approx(-0.006, rel=1e-3)


def test_a_guess_is_never_exact() -> None:
    """Somebody's guess is as doubtful as the trade's own of such a machine, or a tenth: so it has a careful corner."""
    yard, trouble = lark(answer("machine/mass", "10 t", "assumed"), answer("wheel/mass", "400 kg", "assumed"))
    found = quantities_of(yard, trouble)
    low, middle, high = machine_kinds()["walker-combine"].mass
    spread = found["machine/mass"].spread
    assert [float(spread.at(u)) for u in (0.1, 0.5, 0.9)] == pytest.approx(
        [1e4 * low / middle, 1e4, 1e4 * high / middle]
    )
    assert found["wheel/mass"].spread.ends() == pytest.approx((360.0, 440.0))
    for name, asked in questions().items():
        if asked.number and asked.give:
            made, at_it = lark(answer(name, asked.example, "assumed"))
            ends = quantities_of(made, at_it)[name].spread.ends()
            assert ends[0] < ends[1], name


def test_no_value_is_off_past_the_least_that_there_can_be() -> None:
    for typed in ("0 m/s", "1 m/s", "3 m/s"):
        for basis in ("measured", "assumed"):
            yard, trouble = lark(answer("walk-round/wind", typed, basis))
            assert float(quantities_of(yard, trouble)["walk-round/wind"].spread.at(0.0)) >= 0.0


@given(yards())
def test_whatever_a_yard_holds_every_number_has_unit_basis_and_source(made: Yard) -> None:
    for trouble in made.troubles:
        found, words = quantities_of(made, trouble), words_of(made, trouble)
        for name, one in found.items():
            asked = questions()[name]
            assert one.name == name
            assert one.kind.name == asked.kind
            assert one.basis in BASES
            assert one.source
        assert not set(found) & set(words)
        for name, word in words.items():
            asked = questions()[name]
            assert asked.reads or word in asked.words()
        for group in ("bolts", "support", "lift", "walk-round"):
            assert not {asked.id for asked in missing(made, trouble, group)} & {
                asked.id for asked in assumed(made, trouble, group)
            }
        walked_round(made, trouble)


def test_what_is_missing_and_what_is_only_taken() -> None:
    yard, trouble = lark()
    assert "bolts/thread" in {asked.id for asked in missing(yard, trouble, "bolts")}
    assert "bolts/book-torque" not in {
        asked.id for asked in missing(yard, trouble, "bolts")
    }  # its design's file has it
    assert "bolts/iron" in {asked.id for asked in assumed(yard, trouble, "bolts")}
    assert "machine/track" in {asked.id for asked in assumed(yard, trouble, "support")}
    for group in ("bolts", "support", "lift"):
        wanted = [asked for asked in in_group(group) if not asked.optional and asked.id != "walk-round"]
        answers = [answer(asked.id, asked.example) for asked in wanted]
        full, at_it = lark(*answers)
        assert missing(full, at_it, group) == ()
        left = {asked.id for asked in assumed(full, at_it, group)}
        assert left <= {asked.id for asked in in_group(group) if asked.optional}


def test_words_that_are_only_taken_never_judge() -> None:
    yard, trouble = lark()
    assert words_of(yard, trouble)["bolts/iron"] == "grey-unknown"
    for line in ("HOLDING", "LIFTING", "JOINT"):
        assert judged_words(words_of(yard, trouble), line) == {}
    yard, trouble = lark(answer("header", "off"), answer("lift-by", "hook"))
    assert judged_words(words_of(yard, trouble), "HOLDING") == {"header": "off"}
    assert judged_words(words_of(yard, trouble), "LIFTING") == {"lift-by": "hook"}


# a corner
def test_every_input_of_a_corner_is_asked_in_its_own_kind() -> None:
    asked_otherwise = {
        "mass", "front_share", "grain", "jack_rating", "stand_rating", "stand_half_base", "chock_friction",
    }  # fmt: skip
    nobody_asks = {
        "side_offset",
        "header_x",
        "header_z",
        "grain_x",
        "grain_z",
        "rise",
        "held_rise",
        "pull",
        "side_share",
    }
    assert set(CornerTask.__dataclass_fields__) == set(NAMES) | asked_otherwise | nobody_asks
    for field, name in NAMES.items():
        assert questions()[name].kind == KIND_OF.get(field, "length")


def given_of(*answers: Answer, **machine: Any) -> dict[str, Any]:
    yard, trouble = lark(*answers, **machine)
    inputs = support_inputs(yard, trouble, 1, 64)
    assert inputs is not None
    corner_task(inputs.kind, inputs.given)  # it is a task
    return dict(inputs.given)


def test_two_axles_weighed_give_mass_and_share_as_brute_force_does() -> None:
    found = given_of(
        answer("machine/front-axle-mass", "6.2 t ± 0.2 t"), answer("machine/rear-axle-mass", "3.1 t ± 0.15 t")
    )
    rng = np.random.default_rng(3)
    front, rear = rng.normal(6200, 200 / 1.645, 200_000), rng.normal(3100, 150 / 1.645, 200_000)
    for field, drawn in (("mass", front + rear), ("front_share", front / (front + rear))):
        assert found[field].basis == "measured"
        assert found[field].spread.middle() == pytest.approx(drawn.mean(), rel=1e-3)
        assert found[field].spread.ends() == pytest.approx(tuple(np.quantile(drawn, (0.05, 0.95))), rel=3e-3)


def test_one_axle_and_the_whole_give_the_share_and_a_guess_among_them_makes_it_one() -> None:
    both = given_of(answer("machine/front-axle-mass", "6.2 t"), answer("machine/mass", "9.3 t"))
    assert both["front_share"].basis == "measured"
    assert both["front_share"].spread.middle() == pytest.approx(6.2 / 9.3)
    guessed = given_of(answer("machine/front-axle-mass", "6.2 t"), answer("machine/mass", "9.3 t", "assumed"))
    low, middle, high = machine_kinds()["walker-combine"].share_off_empty
    share = guessed["front_share"]
    assert share.basis == "assumed"
    assert float(share.spread.at(0.9)) - share.spread.middle() == pytest.approx(high - middle)
    assert share.spread.middle() - float(share.spread.at(0.1)) == pytest.approx(middle - low)
    assert "front_share" not in given_of(answer("machine/front-axle-mass", "12 t"), answer("machine/mass", "9.3 t"))


def test_plates_are_forces_and_a_plate_for_a_pair_is_halved() -> None:
    plain = given_of(answer("walk-round/jack-plate", "16 t", "book"))
    assert plain["jack_rating"].spread.ends() == pytest.approx((16_000 * GRAVITY,) * 2)
    stand = [answer("walk-round/stand-plate", "11 t", "book"), answer("rests-on", "stand")]
    assert given_of(*stand)["stand_rating"].spread.middle() == pytest.approx(5_500 * GRAVITY)  # nobody said: a pair
    one = given_of(*stand, answer("walk-round/stand-rates", "one"))
    assert one["stand_rating"].spread.middle() == pytest.approx(11_000 * GRAVITY)
    assert "stand_rating" not in given_of(stand[0])  # a stand in the shed is not what the corner rests on
    assert weight_of(1.0) == pytest.approx(GRAVITY)


def test_what_is_off_or_empty_weighs_nothing_and_missing_chocks_hold_nothing() -> None:
    bare = given_of(answer("header", "off"), answer("tank", "empty"))
    assert bare["header"].spread == bare["grain"].spread == Exact(0.0)
    assert "grain" not in given_of(answer("header", "on-blocks"))
    for floor, friction in (("dry-concrete", 0.60), ("wet-earth", 0.15)):  # supports.toml, from the text it names
        assert given_of(answer("walk-round/floor", floor))["chock_friction"].spread == Exact(friction)
    for chocks in ("fewer", "none"):
        found = given_of(answer("walk-round/floor", "dry-concrete"), answer("walk-round/chocks", chocks))
        assert found["chock_friction"].spread == Exact(0.0)


def test_timber_ground_mat_and_gauge() -> None:
    counted = [
        answer(f"walk-round/timber-{n}", v) for n, v in (("count", "18"), ("side", "146 mm"), ("length", "0.9 m"))
    ]
    yard, trouble = lark(
        *counted, answer("walk-round/timber-depth", "98 mm"), answer("walk-round/ground", "firm-clay"),
        *(answer(f"walk-round/mat-{n}", v) for n, v in (("width", "1.1 m"), ("length", "1.7 m"), ("depth", "0.1 m"))),
        answer("jack/piston", "57 mm"), answer("jack/gauge", "psi"), answer("jack/gauge-mark", "100 psi"),
    )  # fmt: skip
    inputs = support_inputs(yard, trouble, 1, 64)
    assert inputs is not None
    (timber,) = inputs.timber
    assert (timber.pieces, timber.width, timber.depth, timber.length) == (18, 0.146, 0.098, 0.9)
    assert (timber.wood, timber.stamp, inputs.timber_basis) == ("unknown", "unstamped", "measured")
    assert inputs.ground is not None
    assert float(inputs.ground.spread.at(0.1)) == pytest.approx(48e3)
    assert inputs.ground.basis == "assumed"
    assert inputs.mat is not None
    assert inputs.mat.mass == pytest.approx(1.1 * 1.7 * 0.1 * 800)
    assert inputs.gauge is not None
    assert (inputs.gauge.unit, inputs.gauge.mark) == ("psi", pytest.approx(100.0))
    yard, trouble = lark(*counted[:2])
    few = support_inputs(yard, trouble, 1, 64)
    assert few is not None
    assert few.timber == ()
    assert few.ground is few.gauge is few.mat is None


def test_no_kind_or_a_rear_corner_is_no_corner_to_reckon() -> None:
    yard, trouble = lark()
    nameless = yard.with_(Change((Machine(id="lark", name="Lark"),)))
    assert support_inputs(nameless, trouble, 1, 64) is None
    rear = trouble.model_copy(update={"corner": Corner("lark", "rear-left")})
    assert support_inputs(yard, rear, 1, 64) is None


# a wheel and a drive
@pytest.mark.parametrize("size", sorted(weighed()))
def test_a_tyre_that_was_weighed_lies_within_what_its_size_says(size: str) -> None:
    """Masses as two open tables list them; the rim is half to three quarters of the tyre."""
    yard, trouble = lark(answer("wheel/tyre", size), answer("wheel/ballast", "none"))
    low, high = quantities_of(yard, trouble)["wheel/mass"].spread.ends()
    least, most = weighed()[size].mass
    assert low <= most * 1.5
    assert high >= least * 1.75


def test_a_wheel_nobody_rapped_may_hold_water_and_a_scale_ends_the_guessing() -> None:
    def heaviest(*answers: Answer) -> float:
        yard, trouble = lark(answer("wheel/tyre", "620/75R30"), *answers)
        return quantities_of(yard, trouble)["wheel/mass"].spread.ends()[1]

    dry, unseen, water = (
        heaviest(answer("wheel/ballast", "none")),
        heaviest(),
        heaviest(answer("wheel/ballast", "water")),
    )
    assert dry < water <= unseen
    yard, trouble = lark(answer("wheel/tyre", "620/75R30"), answer("wheel/mass", "391 kg"))
    assert quantities_of(yard, trouble)["wheel/mass"].spread.middle() == pytest.approx(391.0)
    assert quantities_of(yard, trouble)["wheel/width"].spread.middle() == pytest.approx(0.62)
    assert quantities_of(yard, trouble)["wheel/diameter"].spread.middle() == pytest.approx(
        0.75 + 2 * 0.75 * 0.62 + 0.012, abs=2e-3
    )
    yard, trouble = lark()
    assert quantities_of(yard, trouble)["wheel/mass"].basis == "assumed"


def test_legs_that_were_taped_hang_it_and_others_do_not() -> None:
    hook = answer("lift-by", "hook")
    place = [answer(f"leg-a/{axis}", "120 mm") for axis in ("along", "right", "up")]
    yard, trouble = lark(hook, *place)
    assert lift_task(yard, trouble).legs == ()
    yard, trouble = lark(hook, *place, answer("leg-a/length", "0.6 m"), answer("leg-a/tag", "2 t"))
    (leg,) = lift_task(yard, trouble).legs
    assert leg.eye == pytest.approx((0.12, 0.12, 0.12))
    assert leg.parts[0].factor == pytest.approx(0.8)  # nobody said how it is used: choked, 80 % of its tag at best
    yard, trouble = lark(answer("lift-by", "forks"), *place, answer("leg-a/length", "0.6 m"))
    assert lift_task(yard, trouble).how == "forks"
    assert lift_task(yard, trouble).hoist is None


def test_a_hoist_of_which_nobody_spoke_is_rough_and_may_tip() -> None:
    yard, trouble = lark(answer("lift-by", "hook"))
    hoist = lift_task(yard, trouble).hoist
    assert hoist is not None
    assert hoist.handling == "loader"
    assert hoist.rolls
    assert [part.limit for part in hoist.parts] == [None, None]


# the demo yard
def test_the_demo_s_trouble_is_reckoned_through_at_table_grade() -> None:
    """Corner, crib, gauge, wheel, drive on the hook: no section is left out for want of an answer."""
    yard = at(DEMO).read()
    trouble = yard.trouble(6)
    assert walked_round(yard, trouble) is None
    inputs = support_inputs(yard, trouble, 1, 512)
    assert inputs is not None
    held = support(inputs)
    assert held.pieces > 0
    assert held.marks is not None
    assert {"jack", "chocks", "tip-slope", "ground-slope", "crossing", "seat", "ground", "wind"} <= {
        m.what for m in held.margins
    }
    lifted = lift(lift_task(yard, trouble), "x", 1, 512)
    assert lifted.refused == {}
    assert lifted.hangs
    assert not lifted.turns_over
    assert lifted.wheel is not None
    assert {"leg-angle", "hang-angle", "rig", "hoist-tip"} <= {m.what for m in lifted.margins}
    assert all(part.margin is not None for part in lifted.parts)


def test_the_demo_s_walk_round_is_complete_where_the_job_is_done() -> None:
    yard = at(DEMO).read()
    walked = walked_round(yard, yard.trouble(5))
    assert walked is not None
    assert walked.complete
    assert (walked.who, walked.on) == ("owner and helper", date(2026, 8, 12))
    assert walked_round(yard, yard.trouble(8)) is None


@pytest.mark.parametrize(("place", "towards"), [("front-left", 1.0), ("front-right", -1.0)])
@pytest.mark.parametrize("typed", ["35 mm", "20 to 50 mm, likely 35 mm"])
def test_what_lies_left_of_the_middle_counts_towards_the_left_corner(place: str, towards: float, typed: str) -> None:
    """As the two front scales say: 2.6 t left and 2.4 t right of 8 t, on a track of 2.8 m, is 35 mm to the left."""
    left = float(centre_from_scales(2600.0, 2400.0, 3000.0, 3.5, 2.8).y)
    assert left == pytest.approx(0.035)
    yard, trouble = lark(answer("machine/cg-left", typed, machine="lark"))
    inputs = support_inputs(yard, trouble.model_copy(update={"corner": Corner("lark", place)}), 1, 64)
    assert inputs is not None
    spread = inputs.given["side_offset"].spread
    assert spread.middle() == pytest.approx(towards * left, abs=1e-6)
    assert spread.ends()[0] < spread.ends()[1]


def test_every_input_that_a_sheet_asks_to_find_out_can_be_answered() -> None:
    """What could break a margin is named with how to find it out: then it must have a question of its own."""
    weighed = {"mass", "front_share", "side_offset"}  # by the axles' and the wheels' weights
    for name in FIND:
        assert name.replace("-", "_") in NAMES.keys() | weighed, name
    assert "machine/cg-left" in questions()
