"""Support reckoned: refusals, stand, mat, wind, side hold, the gauge, and the one unknown that could break a margin."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given as drawn_by
from hypothesis import settings
from hypothesis import strategies as st
from plan.held_cases import SHOP, SLAB, TABLE, TIMBER, G, given

from axlewright.engines.holding.layouts import pieces_in
from axlewright.plan.judge import breaking_unknown
from axlewright.plan.reckon.corner_task import CAREFUL_END, corner_task, quantity
from axlewright.plan.reckon.cribs import Mat, Owned, stand_side
from axlewright.plan.reckon.holding import hold, pressing, worked_stages, workings
from axlewright.plan.reckon.raised_table import crib_table, heaviest_corners
from axlewright.plan.reckon.support import BY_STAGE, Supported, least_of, support, three_points
from axlewright.plan.reckon.unknowns import Asked, front_axle, load_ratio, unknowns
from axlewright.plan.workings import Refused
from axlewright.quantities import Exact, Tenths, careful


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("mass", -9000.0),
        ("mass", 0.0),
        ("wheel", -1.0),
        ("track", -2.7),
        ("front_share", 1.2),
        ("wind", -3.0),
        ("slope_nose", 0.2),
    ],
)
def test_what_cannot_be_is_refused_by_name(field: str, value: float) -> None:
    with pytest.raises(Refused) as no:
        corner_task("walker-combine", given(**{field: value}))
    assert no.value.at == field.replace("_", "-")
    assert no.value.because.endswith(".")


def test_a_steep_slope_asks_for_its_unit() -> None:
    with pytest.raises(Refused, match=r"degrees\? 3 % is 1\.7°, and 3° is 5\.2 %"):
        corner_task("walker-combine", given(slope_towards=0.3))


def test_three_supports_are_true_of_a_swinging_rear_axle_alone() -> None:
    assert three_points("forage-harvester")
    assert not three_points("sprayer")
    assert not three_points("hovercraft")


def test_a_wheel_in_the_air_holds_nothing_against_rolling() -> None:
    assert pressing(np.array([-400.0, 0.0, 900.0])).tolist() == [0.0, 0.0, 900.0]


def test_wind_is_its_limit_over_the_wind() -> None:
    made = support(replace(SHOP, given=given(wind=6.0)))
    wind = least_of(made.margins, "wind")
    assert wind is not None
    assert wind.at(0.05) == pytest.approx(15.0 / 6.0)
    still = least_of(support(SHOP).margins, "wind")
    assert still is not None
    assert still.at(0.05) == np.inf


def test_a_stand_by_hand() -> None:
    asked = replace(SHOP, timber=(), given=given(stand_rating=9e4, stand_half_base=0.17), answers={**SHOP.answers, "rests-on": "stand"})  # fmt: skip
    made = support(asked)
    assert least_of(made.margins, "crossing") is None
    stand = least_of(made.margins, "stand")
    assert stand is not None
    assert stand.at(0.05) == pytest.approx(9e4 / made.on_crib()[1], rel=1e-6)
    high = 0.57 + made.holding.likely[f"{made.holding.at}/held-rise"].middle()
    light = min(made.holding.lightest(name) for name in ("first-bite", "on-the-crib", "wheel-off", "drive-off"))
    (side,) = stand_side(made.holding)
    assert side.at(0.05) == pytest.approx(light * 0.17 / high / (0.05 * light + 600.0))
    assert made.marks is not None
    area = np.pi / 4 * 0.05**2
    assert made.marks[2] * 5e5 * area <= 9e4


def test_a_light_corner_is_walked_sooner() -> None:
    for inputs in (SHOP, TABLE):
        side = least_of(support(inputs).margins, "side-hold")
        assert side is not None
        assert side.at(0.05) <= side.at(0.5)


def test_a_mat_by_hand() -> None:
    mat = Mat(1.2, 1.6, 0.12, 150.0)
    soft = replace(SLAB, spread=Exact(90e3))
    made = support(replace(SHOP, ground=soft, mat=mat))
    bare = support(replace(SHOP, ground=soft))
    on_mat, on_soil = least_of(made.margins, "ground"), least_of(bare.margins, "ground")
    assert on_mat is not None
    assert on_soil is not None
    load = made.cribbed.load
    crib = made.pieces * 0.13 * 0.13 * 0.85 * 800 * G  # of wet wood, which lies on the mat too
    needed = (load + crib + 150.0 * G) / 90e3 / 1.2
    over = (needed - (0.85 - 2 * 0.13)) / 2
    bending = 6 * ((load + crib) / (1.2 * needed)) * 1.2 * over**2 / 2 / (1.2 * 0.12**2)
    assert on_mat.at(0.05) <= 1.6 / needed + 1e-9
    assert on_mat.at(0.05) == pytest.approx(min(1.6 / needed, 2.8e6 / bending), rel=0.02)
    assert on_mat.at(0.05) > on_soil.at(0.05)


def test_cribs_are_of_one_size() -> None:
    made = support(replace(SHOP, timber=(*TIMBER, Owned(0.1, 0.1, 0.8, 30))))
    assert made.cribbed.layouts
    assert all(one.crossing_timber == one.along_timber for one in made.cribbed.layouts)
    best = made.cribbed.layouts[0]
    assert made.pieces == pieces_in(best)
    assert made.pieces <= made.inputs.timber[best.crossing_timber].pieces


def test_a_crib_farther_in_lowers_the_gauges_band() -> None:
    near, far = (support(replace(SHOP, given=given(crib_inboard=at))) for at in (0.36, 0.8))
    assert near.marks is not None
    assert far.marks is not None
    assert far.marks[2] < near.marks[2]


def test_ground_that_nobody_tested_holds_nothing() -> None:
    made = support(replace(SHOP, ground=None))
    assert least_of(made.margins, "ground") is None
    assert least_of(made.margins, "crossing") is not None
    assert made.marks is None
    assert "ground" in made.no_band


# the one unknown
def _scalar(made: Supported, what: str, stage: str, capacity: float | str):
    """The margin as a function of the inputs, one reckoning a call: the rules' own search is asked with it."""
    at = made.holding.at
    ratio = load_ratio(at, stage, capacity)

    def margin(values):
        task = corner_task("walker-combine", {})
        fields = {name: quantity(name, Exact(value), "measured", "test") for name, value in values.items()}
        w = workings(replace(task, **fields), at, 1, 1)
        worked_stages(w, at, (BY_STAGE[stage],))
        return float(ratio(w)[0])

    return margin


def test_the_unknown_is_that_of_the_rules_own_search() -> None:
    made = support(TABLE)
    task, stage = made.task, made.governing.name
    capacity = 1.2 * made.on_crib()[0]
    fields = [name for name in task.__slots__ if getattr(task, name) is not None]
    middle = {name: getattr(task, name).spread.middle() for name in fields}
    worst = {}
    margin = _scalar(made, "seat", stage, capacity)
    for name in fields:
        low, high = (float(getattr(task, name).spread.at(share)) for share in (0.1, 0.9))
        if low < high:
            worst[name] = min(low, high, key=lambda end, name=name: margin({**middle, name: end}))
    by_search = breaking_unknown(margin, middle, worst)
    asked = Asked("seat", made.governing, "corner", load_ratio(made.holding.at, stage, capacity))
    found = unknowns(made.holding, [asked])["seat"]
    assert by_search is not None
    assert found is not None
    assert found.name == by_search.name.replace("_", "-")
    assert found.alone == pytest.approx(by_search.margin_alone, rel=1e-6)


@pytest.mark.parametrize("share", [0.85, 1.0, 1.15])
def test_the_value_it_breaks_at_breaks_it(share: float) -> None:
    made = support(TABLE)
    at, stage = made.holding.at, made.governing
    capacity = share * made.on_crib()[1]
    ratio = load_ratio(at, stage.name, capacity)
    found = unknowns(made.holding, [Asked("seat", stage, "corner", ratio)])["seat"]
    assert found is not None
    assert found.at is not None
    assert found.settles == (share < 1.0)

    def at_the_end(value: float) -> float:
        held = made.holding.held["corner"]
        one = held.quantities[f"{at}/{found.name}"]
        w = held.what_if(replace(one, spread=Exact(value)))
        worked_stages(w, at, (stage,))
        return careful(ratio(w), "low")

    step = 0.01 * abs(found.at)
    assert at_the_end(found.at) == pytest.approx(1.0, abs=2e-3)
    assert at_the_end(found.at + found.worse * step) < 1.0 < at_the_end(found.at - found.worse * step)
    axle = front_axle(made.holding, found)
    held = made.holding.held["corner"]
    if found.name == "mass":
        assert axle == pytest.approx(found.at * held[f"{at}/front-share"].middle())


def test_nothing_is_unknown_where_all_is_known() -> None:
    assert all(one is None for one in support(SHOP).unknowns.values())


@settings(max_examples=12, deadline=None)
@drawn_by(st.sampled_from(["small-combine", "walker-combine", "large-combine", "forage-harvester"]), st.integers(1, 50))
def test_heaviest_is_never_under_likely(kind: str, seed: int) -> None:
    holding = hold(workings(corner_task(kind, {}), "x/hold", seed, 128), "x/hold")
    for stage in BY_STAGE:
        for part in ("corner", "other_wheel", "rear_pivot"):
            assert holding.heaviest(stage, part) >= holding.likely[f"x/hold/{stage}.{part}"].middle()
            assert holding.lightest(stage, part) <= holding.heaviest(stage, part)


def test_every_case_holds_what_is_unweighed() -> None:
    holding = hold(workings(corner_task("walker-combine", {}), "x/hold", 3, 64), "x/hold")
    for case, ends in CAREFUL_END.items():
        for field in ends:
            assert np.ptp(holding.held[case][f"x/hold/{field.replace('_', '-')}"].draws) == 0


def test_the_blanks_tables_by_hand() -> None:
    # no grade stamp, any wood: 2.0 MPa (C14, from memory); kmod 0.65, gamma 1.3 (EN 1995-1-1, read); 1.5 on the load
    allowed = 2.0e6 * 0.65 / 1.3 / 1.5
    for row in crib_table():  # a 300 mm plate over all timbers is weaker than their crossings
        assert row.two == pytest.approx(2 * row.section * 0.30 * allowed)
        assert row.three == pytest.approx(3 * row.section * 0.30 * allowed)
    kinds = {one.kind: one for one in heaviest_corners()}
    assert "sprayer" not in kinds
    assert kinds["small-combine"].jack < kinds["walker-combine"].jack < kinds["large-combine"].jack
    for one in kinds.values():
        assert one.crib > one.jack  # farther in


def test_a_spread_that_reaches_under_nothing_is_refused() -> None:
    shaky = quantity("wheel", Tenths(-5.0, 300.0, 500.0), "assumed", "test")
    with pytest.raises(Refused):
        corner_task("walker-combine", {**given(), "wheel": shaky})
