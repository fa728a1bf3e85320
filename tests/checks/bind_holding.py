"""Bindings of A1 and A2: the machine on its supports, the jack."""

from __future__ import annotations

from typing import Any

import numpy as np
from checks.bindings import binds

from axlewright.engines.gravity import mass_that_weighs, weight_of
from axlewright.engines.holding import contacts, corner, crib, jack, stand, supports, upsets, weighing

LB, INCH, PSI = 0.45359237, 0.0254, 6894.757293168361


@binds("grain-density-from-test-weight")
def _grain(i: dict[str, Any]) -> dict[str, Any]:
    return {f"{k.removesuffix('_lb_per_bu')}_kg_m3": weighing.grain_density(v * LB) for k, v in i.items()}


@binds("tank-load-250-bu-corn")
def _tank(i: dict[str, Any]) -> dict[str, Any]:
    volume = i["bushels"] * weighing.BUSHEL
    mass = weighing.grain_mass(volume, weighing.grain_density(i["test_weight_lb_per_bu"] * LB))
    return {"mass_kg": mass, "volume_m3": volume, "weight_kN": weight_of(mass) / 1e3}


@binds("corn-density-with-moisture")
def _maize(i: dict[str, Any]) -> dict[str, Any]:
    return {f"density_{k}_kg_m3": weighing.maize_density(i[f"moisture_{k}"]) for k in "ab"}


@binds("cg-from-weighed-corners")
def _scales(i: dict[str, Any]) -> dict[str, Any]:
    got = weighing.centre_from_scales(
        i["front_left_kg"], i["front_right_kg"], i["rear_axle_kg"], i["wheelbase_m"], i["track_front_m"]
    )
    return {"x_m": got.x, "y_m": got.y, "mass_kg": got.mass}


@binds("axle-loads-header-and-tank")
def _axles(i: dict[str, Any]) -> dict[str, Any]:
    body = corner.Body(weight_of(i["base_kg"]), i["base_x_m"], 0.0, 0.0)
    header = (weight_of(i["header_kg"]), i["header_x_m"], 0.0, 0.0)
    grain = (weight_of(weighing.grain_mass(i["tank_m3"], i["grain_kg_m3"])), i["grain_x_m"], 0.0, 0.0)
    with_header = corner.put_on(body.weight, body.x, body.y, body.z, *header)
    full = corner.put_on(with_header.weight, with_header.x, with_header.y, with_header.z, *grain)
    got: dict[str, Any] = {}
    for state, of in (("off_empty", body), ("on_empty", with_header), ("on_full", full)):
        loads = weighing.axle_loads(of.weight, of.x, i["wheelbase_m"])
        got[f"{state}_front_kg"] = mass_that_weighs(loads.front)
        got[f"{state}_rear_kg"] = mass_that_weighs(loads.rear)
        got[f"{state}_front_share"] = loads.front_share
    return got


def _standing(i: dict[str, Any], side: float = 1.0) -> supports.OnWheels:
    return supports.on_wheels(
        weight_of(i["mass_kg"]),
        i["cg_x_m"],
        side * i["cg_y_m"],
        i["cg_z_m"],
        i["track_m"],
        i["wheelbase_m"],
        left_down=side * np.radians(i.get("left_down_deg", 0.0)),
    )


@binds("three-supports-level", "three-supports-side-slope", "cg-outside-triangle")
def _three(i: dict[str, Any]) -> dict[str, Any]:
    got = _standing(i)
    square = got.square_share / 1e3
    return {
        "front_left_kN": got.front_left * square,
        "front_right_kN": got.front_right * square,
        "rear_pivot_kN": got.rear_pivot * square,
        "standing": float(got.stands),
    }


@binds("three-supports-mirror")
def _mirror(i: dict[str, Any]) -> dict[str, Any]:
    one, other = _standing(i), _standing(i, -1.0)
    return {
        "front_left_kN": one.front_left * one.square_share / 1e3,
        "front_right_kN": one.front_right * one.square_share / 1e3,
        "mirrored_front_left_kN": other.front_left * other.square_share / 1e3,
        "mirrored_front_right_kN": other.front_right * other.square_share / 1e3,
    }


@binds("tip-angle-each-edge")
def _tips(i: dict[str, Any]) -> dict[str, Any]:
    got = _standing(i)
    return {
        "over_front_deg": np.degrees(got.tip_front),
        "over_left_edge_deg": np.degrees(got.tip_left),
        "over_right_edge_deg": np.degrees(got.tip_right),
    }


@binds("tip-angle-pure-side-slope")
def _tips_left(i: dict[str, Any]) -> dict[str, Any]:
    half, back = i["track_m"] / 2, -i["wheelbase_m"]
    left, right, pivot = (supports.Point(*p) for p in ((0, half, 0), (0, -half, 0), (back, 0, 0)))
    centre = supports.Point(i["cg_x_m"], i["cg_y_m"], i["cg_z_m"])
    return {"value": np.degrees(supports.tip_slope_towards(centre, left, pivot, right, np.pi / 2))}


@binds("jack-inboard-of-wheel")
def _inboard(i: dict[str, Any]) -> dict[str, Any]:
    got = corner.jack_inboard(i["wheel_load_kN"] * 1e3, i["track_m"], i["jack_inboard_m"])
    return {
        "jack_kN": got.jack / 1e3,
        "other_front_wheel_change_kN": got.other_wheel_change / 1e3,
        "rear_change_kN": got.rear_change / 1e3,
    }


@binds("crib-load-after-wheel-and-unit-off")
def _after(i: dict[str, Any]) -> dict[str, Any]:
    where = (i["track_m"], i["crib_inboard_m"])
    drop = corner.load_relieved(weight_of(i["wheel_kg"]), 0.0, *where) + corner.load_relieved(
        weight_of(i["unit_kg"]), i["unit_inboard_m"], *where
    )
    return {"crib_drop_kN": drop / 1e3, "crib_after_kN": i["crib_before_kN"] - drop / 1e3}


@binds("corner-raised-load-and-drift", "corner-raised-zero-limit")
def _raised(i: dict[str, Any]) -> dict[str, Any]:
    got = corner.corner_held(
        weight_of(i["mass_kg"]),
        i["cg_x_m"],
        i["cg_y_m"],
        i["cg_z_m"],
        i["track_m"],
        i["wheelbase_m"],
        i["pivot_height_m"],
        0.0,
        i["jack_y_m"],
        i["jack_z_m"],
        i["jack_rise_m"],
    )
    return {
        "roll_deg": np.degrees(got.roll),
        "jack_kN": got.corner / 1e3,
        "standing_wheel_kN": got.other_wheel / 1e3,
        "rear_pivot_kN": got.rear_pivot / 1e3,
        "jack_head_drift_mm": got.drift * 1e3,
    }


@binds("rear-block-gap-per-bite")
def _blocks(i: dict[str, Any]) -> dict[str, Any]:
    lift_y = i["track_m"] / 2 - i["jack_inboard_m"]
    shape = (i["track_m"], i["wheelbase_m"], i["pivot_height_m"], 0.0, lift_y, i["jack_height_m"])
    rise = np.array(i["rise_m"])
    held = corner.corner_held(1.0, -1.0, 0.0, 1.5, *shape, rise)
    closes = corner.block_gap_closed(*shape, rise, i["block_arm_m"])
    return {"closes_mm": list(closes * 1e3), "roll_deg": list(np.degrees(held.roll))}


@binds("cg-height-by-raising-rear-axle")
def _height(i: dict[str, Any]) -> dict[str, Any]:
    return {
        "value": weighing.height_by_raising_rear(
            i["mass_kg"], i["wheelbase_m"], i["rear_lift_m"], i["front_axle_gain_kg"], i["wheel_centre_height_m"]
        )
    }


@binds("push-to-tip-and-slide-level")
def _push(i: dict[str, Any]) -> dict[str, Any]:
    distance = _standing(i).left_distance
    got = upsets.push_to_upset(weight_of(i["mass_kg"]), distance, i["cg_z_m"], i["push_height_m"], i["friction"])
    return {"distance_to_edge_m": distance, "tip_push_kN": got.tips / 1e3, "slide_push_kN": got.slides / 1e3}


@binds("crib-sideways-capacity")
def _side(i: dict[str, Any]) -> dict[str, Any]:
    got = crib.crib_side_hold(
        i["crib_load_kN"] * 1e3,
        i["friction_wood_steel"],
        i["height_m"],
        i["base_width_m"],
        i["load_eccentricity_m"],
    )
    return {"slide_kN": got.slides / 1e3, "topple_kN": got.topples / 1e3, "notional_kN": got.notional / 1e3}


@binds("chock-demand-and-climb")
def _chocks(i: dict[str, Any]) -> dict[str, Any]:
    demand = upsets.roll_demand(i["weight_kN"] * 1e3, np.radians(i["slope_deg"]), i["extra_pull_kN"] * 1e3)
    climb = upsets.climb_force(i["wheel_load_kN"] * 1e3, i["wheel_radius_m"], i["block_height_m"])
    return {"demand_kN": demand / 1e3, "climb_kN": climb / 1e3}


@binds("park-brake-before-open-differential")
def _brake(i: dict[str, Any]) -> dict[str, Any]:
    def held(down: bool, whole: bool) -> float:
        return float(
            upsets.brake_before_differential(i["brake_torque_total_kNm"] * 1e3, i["rolling_radius_m"], down, whole)
        )

    return {
        "both_wheels_down_kN": held(True, True) / 1e3,
        "one_wheel_clear_kN": held(False, True) / 1e3,
        "one_unit_off_kN": held(True, False) / 1e3,
    }


@binds("blocked-axle-four-contacts")
def _four(i: dict[str, Any]) -> dict[str, Any]:
    half, rear, back = i["track_m"] / 2, i["rear_track_m"] / 2, -i["wheelbase_m"]
    places = {
        "fl": (0, half, i["raise_fl_m"]),
        "fr": (0, -half, 0.0),
        "rl": (back, rear, 0.0),
        "rr": (back, -rear, 0.0),
    }
    four = tuple(
        contacts.Contact(x, y, 0.0, i[f"k_{name}_kN_m"] * 1e3, raised) for name, (x, y, raised) in places.items()
    )
    got = contacts.sprung_contacts(weight_of(i["mass_kg"]), i["cg_x_m"], i["cg_y_m"], 0.0, four)
    names = ("front_left_kN", "front_right_kN", "rear_left_kN", "rear_right_kN")
    return {name: load / 1e3 for name, load in zip(names, got.loads, strict=True)}


@binds("wind-on-side")
def _wind(i: dict[str, Any]) -> dict[str, Any]:
    got = upsets.wind_push(i["wind_m_s"], i["area_m2"], i["centre_height_m"], i["drag_factor"], i["air_kg_m3"])
    return {"force_kN": got.force / 1e3, "moment_kNm": got.moment / 1e3}


@binds("insurance-stand-gap-impact")
def _second(i: dict[str, Any]) -> dict[str, Any]:
    def caught(gap: str) -> stand.Caught:
        settlement = i["static_settlement_mm"] / 1e3
        return stand.caught_by_second(i["static_load_kN"] * 1e3, i[f"gap_{gap}_mm"] / 1e3, settlement)

    return {
        "load_before_kN": caught("a").before / 1e3,
        **{f"factor_{gap}": caught(gap).factor for gap in "abc"},
        "load_c_kN": caught("c").load / 1e3,
    }


@binds("stroke-from-loaded-radius")
def _stroke(i: dict[str, Any]) -> dict[str, Any]:
    give = jack.tyre_give(i["outside_diameter_mm"] / 1e3, i["rim_in"] * INCH, i["deflection_share"])
    stroke = jack.stroke_needed(
        give.deflection, i["clearance_mm"] / 1e3, i["track_m"], i["jack_inboard_m"], i["base_sink_mm"] / 1e3
    )
    return {
        "section_height_mm": give.section_height * 1e3,
        "deflection_mm": give.deflection * 1e3,
        "loaded_radius_mm": give.loaded_radius * 1e3,
        "jack_stroke_mm": stroke * 1e3,
    }


@binds("stroke-refuse-when-short")
def _fit(i: dict[str, Any]) -> dict[str, Any]:
    names = ("lift_point_height", "closed_height", "base_stack", "stroke_available", "stroke_needed")
    got = jack.jack_fit(*(i[f"{name}_mm"] / 1e3 for name in names))
    return {"packing_mm": got.packing * 1e3, "stroke_short_mm": got.stroke_short * 1e3, "enough": float(got.enough)}


@binds("jack-gauge-pressure")
def _gauge(i: dict[str, Any]) -> dict[str, Any]:
    pressure = jack.gauge_pressure(i["load_kN"] * 1e3, jack.ram_area(i["bore_mm"] / 1e3))
    return {"pressure_MPa": pressure / 1e6, "pressure_psi": pressure / PSI}


@binds("jack-rating-limit")
def _rating(i: dict[str, Any]) -> dict[str, Any]:
    use = {
        k: jack.jack_use(weight_of(i[f"load_{k}_t"] * 1e3), weight_of(i["rated_t"] * 1e3), i["planning_limit"])
        for k in "abc"
    }
    return {
        "use_a": use["a"].use,
        "use_c": use["c"].use,
        "a_within_planning": float(use["a"].within_planning),
        "b_within_planning": float(use["b"].within_planning),
        "c_accepted": float(use["c"].accepted),
    }
