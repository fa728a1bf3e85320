"""Bindings of C1 and C2: loads of a pair of taper roller bearings, rating life, oil film, what a spall sheds."""

from __future__ import annotations

from typing import Any

import numpy as np
from checks.bindings import binds

from axlewright.engines.limits import OutOfRange
from axlewright.engines.running import elastic, film, life, loads, rating, spall
from axlewright.trade.cleanliness import classes, seen_in_oil

FACING: dict[str, Any] = {"O": "back to back", "X": "face to face"}
KN, MM, MM2, HOUR, KM_H, RPM, MREV = 1e3, 1e-3, 1e-6, 3600.0, 1 / 3.6, 1 / 60, 1e6


@binds("trb-pair-radial-split")
def split(i: dict[str, Any]) -> dict[str, Any]:
    got = loads.radial_loads(i["Fr_N"], 0.0, 0.0, i["spread_mm"] * MM, -i["load_from_centre_1_mm"] * MM, 0.5)
    return {"Fr1_N": got.outboard, "Fr2_N": got.inboard}


@binds("trb-effective-spread-o-and-x")
def spread(i: dict[str, Any]) -> dict[str, Any]:
    sizes = (i["cup_back_faces_mm"] * MM, i["a1_mm"] * MM, i["a2_mm"] * MM)
    return {
        "O_mm": loads.effective_spread(*sizes, FACING["O"]) / MM,
        "X_mm": loads.effective_spread(*sizes, FACING["X"]) / MM,
    }


@binds("trb-pair-catalogue-loads-and-life")
def catalogue_pair(i: dict[str, Any]) -> dict[str, Any]:
    thrust = loads.axial_loads(
        i["FrA_N"], i["FrB_N"], i["YA"], i["YB"], i["Ka_N"], FACING[i["arrangement"]], i["induced_coefficient"]
    )
    of_a = loads.equivalent_load(i["FrA_N"], thrust.outboard, i["YA"], i["eA"])
    of_b = loads.equivalent_load(i["FrB_N"], thrust.inboard, i["YB"], i["eB"])

    def in_hours(capacity: float, load: Any) -> float:
        return float(life.running_time(life.basic_rating_life(capacity, load), i["n_rpm"] * RPM)) / HOUR

    return {
        "FaA_N": thrust.outboard, "PA_N": of_a, "PB_N": of_b,
        "LA_h": in_hours(i["CA_N"], of_a), "LB_h": in_hours(i["CB_N"], of_b),
    }  # fmt: skip


@binds("hub-overhung-straight", "hub-side-load-outward", "hub-wheel-plane-on-centre", "hub-wheel-spacer-100-mm")
def hub(i: dict[str, Any]) -> dict[str, Any]:
    radius = i["R_mm"] * MM
    pulls = (i["N_kN"] * KN, i.get("T_kN", 0.0) * KN, i.get("Fs_out_kN", 0.0) * KN)
    radial = loads.radial_loads(*pulls, i["spread_mm"] * MM, i["offset_mm"] * MM, radius)
    thrust = loads.axial_loads(radial.outboard, radial.inboard, i["YA"], i["YB"], pulls[2], FACING[i["arrangement"]])
    of_a = loads.equivalent_load(radial.outboard, thrust.outboard, i["YA"], i["eA"])
    of_b = loads.equivalent_load(radial.inboard, thrust.inboard, i["YB"], i["eB"])
    turns_a = life.basic_rating_life(i["CA_kN"] * KN, of_a)
    turns_b = life.basic_rating_life(i["CB_kN"] * KN, of_b)
    pair = life.pair_life(turns_a, turns_b)
    rate = life.wheel_rate(i.get("v_km_h", 1.0) * KM_H, radius)
    return {
        "FrA_kN": radial.outboard / KN, "FrB_kN": radial.inboard / KN,
        "FaA_kN": thrust.outboard / KN, "FaB_kN": thrust.inboard / KN,
        "PA_kN": of_a / KN, "PB_kN": of_b / KN,
        "LA_Mrev": turns_a / MREV, "LB_Mrev": turns_b / MREV, "pair_Mrev": pair / MREV,
        "n_rpm": rate / RPM, "pair_h": life.running_time(pair, rate) / HOUR,
        "pair_km": life.running_distance(pair, radius) / 1e3,
    }  # fmt: skip


@binds("induced-thrust-continuous-at-switch")
def switch(i: dict[str, Any]) -> dict[str, Any]:
    at, before, after = (
        loads.axial_loads(i["FrA"], i["FrB"], i["Y"], i["Y"], i["K_sw"] + step, FACING["O"])
        for step in (0.0, -1e-9, 1e-9)
    )
    jump = max(abs(before.outboard - after.outboard), abs(before.inboard - after.inboard))
    return {"FaA": at.outboard, "FaB": at.inboard, "jump": float(jump)}


@binds("bull-gear-mesh-forces")
def mesh(i: dict[str, Any]) -> dict[str, Any]:
    angles = np.radians([i["pressure_deg"], i["helix_deg"]])
    got = loads.mesh_forces(i["torque_Nm"], i["pitch_radius_mm"] * MM, *angles)
    return {"Wt_N": got.tangential, "Wr_N": got.radial, "Wa_N": got.axial}


@binds("static-safety-bump")
def bump(i: dict[str, Any]) -> dict[str, Any]:
    load = loads.static_equivalent_load(i["Fr_kN"] * KN, i["Fa_kN"] * KN, i["Y0"], i["shock"])
    return {"P0_kN": load / KN, "s0": i["C0_kN"] * KN / load}


@binds("fc-roller-table")
def fc(i: dict[str, Any]) -> dict[str, Any]:
    return {f"fc_{gamma}": rating.capacity_factor(gamma) for gamma in i["gamma"]}


@binds("capacity-from-boundary-32218", "capacity-from-boundary-32220-exact")
def boundary(i: dict[str, Any]) -> dict[str, Any]:
    got = rating.rating_by_caliper(i["d_mm"] * MM, i["D_mm"] * MM, i["T_mm"] * MM, i["e"])
    return {
        "C_kN": got.capacity / KN,
        "C0_kN": got.static_capacity / KN,
        "a_mm": got.centre / MM,
        "Z": got.rollers,
    }


@binds("fatigue-load-limit-simplified")
def fatigue(i: dict[str, Any]) -> dict[str, Any]:
    return {"Cu_kN": film.fatigue_limit_load(i["C0_kN"] * KN, i["Dpw_mm"] * MM) / KN}


@binds("a1-reliability")
def reliability(i: dict[str, Any]) -> dict[str, Any]:
    return {f"a1_{percent}": life.reliability_factor(percent / 100) for percent in i["reliability_percent"]}


@binds("reference-viscosity-catalogue-chart", "reference-viscosity-wheel-speed")
def viscosity(i: dict[str, Any]) -> dict[str, Any]:
    return {"nu1": film.reference_viscosity(i["n_rpm"] * RPM, i["Dpw_mm"] * MM) / MM2}


def modified(ratio: float, part: float) -> float:
    """a_ISO at e_C Cu/P, whatever the three are."""
    return float(film.life_modification(ratio, 1.0, part, 1.0))


@binds("a-iso-roller-values-and-limits")
def a_iso(i: dict[str, Any]) -> dict[str, Any]:
    return {f"a{number}": modified(*pair) for number, pair in enumerate(i["kappa_and_x"], 1)}


@binds("a-iso-outside-kappa")
def a_iso_outside(i: dict[str, Any]) -> dict[str, Any]:
    try:
        return {"a1": modified(*i["kappa_and_x"][0])}
    except OutOfRange:
        return {"a1": "outside"}


def contamination(i: dict[str, Any], seen: str = "nothing") -> float:
    row = classes()[i["iso4406"]]
    most = seen_in_oil()[seen].most
    return float(film.contamination_factor(i["kappa"], i["Dpw_mm"] * MM, row.factor, row.offset, most))


@binds("contamination-oil-bath", "contamination-floor")
def oil_bath(i: dict[str, Any]) -> dict[str, Any]:
    return {"eC": contamination(i)}


@binds("contamination-cap-by-what-was-seen")
def capped(i: dict[str, Any]) -> dict[str, Any]:
    return {"eC_formula": contamination(i), "eC": [contamination(i, seen) for seen in i["seen"]]}


@binds("modified-life-hub-in-field")
def whole_chain(i: dict[str, Any]) -> dict[str, Any]:
    size, load = i["Dpw_mm"] * MM, i["P_kN"] * KN
    rate = life.wheel_rate(i["v_km_h"] * KM_H, i["R_mm"] * MM)
    ratio = film.viscosity_ratio(i["nu_mm2_s"] * MM2, rate, size)
    clean = contamination({**i, "kappa": ratio})
    limit = film.fatigue_limit_load(i["C0_kN"] * KN, size)
    factor = film.life_modification(ratio, clean, limit, load)
    basic = life.basic_rating_life(i["C_kN"] * KN, load, i["C0_kN"] * KN)
    return {
        "n_rpm": rate / RPM, "nu1": film.reference_viscosity(rate, size) / MM2, "kappa": ratio, "eC": clean,
        "Cu_kN": limit / KN, "a_ISO": factor, "L10_Mrev": basic / MREV, "Lmod_Mrev": basic * factor / MREV,
        "Lmod_h": life.running_time(basic * factor, rate) / HOUR,
    }  # fmt: skip


@binds("duty-three-states")
def duty(i: dict[str, Any]) -> dict[str, Any]:
    shares, rates, pulls = np.array(i["share_rpm_PkN"]).T
    got = life.duty_life(i["C_kN"] * KN, shares, rates * RPM, pulls * KN)
    return {"life_h": got.time / HOUR, "mean_rpm": got.rate / RPM, "P_mean_kN": got.load / KN}


@binds("weighted-load-rising-ramp")
def ramp(i: dict[str, Any]) -> dict[str, Any]:
    return {"F_wt": life.ramp_mean_load(i["Fmin"], i["Fmax"])}


@binds("pair-life-system")
def system(i: dict[str, Any]) -> dict[str, Any]:
    return {"slope_9_8": life.pair_life(*i["L"]), "slope_3_2": life.pair_life(*i["L"], 1.5)}


@binds("life-against-load")
def against_load(i: dict[str, Any]) -> dict[str, Any]:
    capacity, load = 10.0 * KN, 1.0 * KN
    at_one = life.basic_rating_life(capacity, load)
    return {f"f{r:g}": life.basic_rating_life(capacity, r * load) / at_one for r in i["load_ratio"]}


@binds("life-in-kilometres")
def kilometres(i: dict[str, Any]) -> dict[str, Any]:
    turns, radius = i["L10_Mrev"] * MREV, i["tyre_dia_m"] / 2
    rate = life.wheel_rate(i["v_km_h"] * KM_H, radius)
    return {"km": life.running_distance(turns, radius) / 1e3, "h": life.running_time(turns, rate) / HOUR}


@binds("life-at-zero-load")
def no_load(i: dict[str, Any]) -> dict[str, Any]:
    return {"L10": life.basic_rating_life(i["C_kN"] * KN, i["P_kN"] * KN)}


@binds("spread-of-spall-progress")
def slope(i: dict[str, Any]) -> dict[str, Any]:
    got = spall.spread_of_slope(i["slope"])
    return {"ln_sd": got.log_sd, "B10_over_median": got.tenth, "B90_over_median": got.nine_tenths}


@binds("failing-sojourn-in-turns")
def in_turns(i: dict[str, Any]) -> dict[str, Any]:
    rate = life.wheel_rate(i["v_km_h"] * KM_H, i["R_mm"] * MM)
    return {
        "turns_per_h": rate * HOUR,
        "hours": life.running_time(i["turns"], rate) / HOUR,
        "km": life.running_distance(i["turns"], i["R_mm"] * MM) / 1e3,
    }


@binds("spall-debris-mass")
def debris(i: dict[str, Any]) -> dict[str, Any]:
    return {"mass_mg": spall.spall_mass(i["area_mm2"] * MM2, i["depth_mm"] * MM) * 1e6}


@binds("basic-rating-life-to-median")
def to_median(i: dict[str, Any]) -> dict[str, Any]:
    first = i["slopes"][0]
    return {
        "l50_over_l10": [life.survival_life(1.0, 1 - i["p"][0], slope) for slope in i["slopes"]],
        "l1_over_l10_slope_1_5": life.survival_life(1.0, 1 - i["p"][1], first),
        "l5_over_l10_slope_1_5": life.survival_life(1.0, 0.95, first),
        "two_equal_bearings_over_one": [life.pair_life(1.0, 1.0, slope) for slope in i["slopes"]],
    }


@binds("sjovall-integrals-line-contact")
def zones(i: dict[str, Any]) -> dict[str, Any]:
    found = {}
    for zone in i["epsilon"]:
        got = elastic.zone_means(zone)
        found |= {f"Jr_{zone:g}": got.radial, f"FrtanFa_{zone:g}": got.radial / got.axial}
    return found


@binds("elastic-reference-limits")
def half_zone(i: dict[str, Any]) -> dict[str, Any]:
    got = elastic.zone_means(i["epsilon"])
    return {
        "J1_inner": got.turning, "J2_outer": got.standing,
        "Y_over_cot_inner": got.radial / got.turning, "Y_over_cot_outer": got.radial / got.standing,
    }  # fmt: skip


def insides(row: dict[str, Any]) -> elastic.ElasticBearing:
    return elastic.ElasticBearing(
        row["Z"], row["Dwe_mm"] * MM, row["Lwe_mm"] * MM, row["e"], row["Dpw_mm"] * MM, row["C_kN"] * KN
    )


@binds("elastic-pair-life-against-end-play")
def end_play(i: dict[str, Any]) -> dict[str, Any]:
    plays = np.array(i["end_play_mm"]) * MM
    pulls = (i["FrA_kN"] * KN, i["FrB_kN"] * KN, i["Ka_out_kN"] * KN)
    got = elastic.elastic_pair(insides(i["A"]), insides(i["B"]), *pulls, plays, FACING[i["arrangement"]])
    named = {
        "PrefA_kN": got.outboard_reference, "PrefB_kN": got.inboard_reference, "FaA_kN": got.outboard_thrust,
        "FaB_kN": got.inboard_thrust, "pair_Mrev": got.turns, "rollersA": got.outboard_loaded,
    }  # fmt: skip
    scale = {"kN": KN, "Mrev": MREV, "rollersA": 1.0}
    words = [f"{play:g}".replace("-", "m").replace(".", "p") for play in i["end_play_mm"]]
    return {
        f"{name}_{word}": np.asarray(values)[n] / scale[name.rsplit("_", 1)[-1]]
        for name, values in named.items()
        for n, word in enumerate(words)
    }


@binds("elastic-symmetric-pair-half-load-zone")
def symmetric(i: dict[str, Any]) -> dict[str, Any]:
    row, pull = insides(i["row"]), i["Fr_kN"] * KN
    got = elastic.elastic_pair(row, row, pull, pull, 0.0, 0.0)
    return {
        "Fa_over_Fr_tan": got.outboard_thrust / pull / (i["row"]["e"] / 1.5),
        "share_rollers": got.outboard_loaded / i["row"]["Z"],
        "Pref_over_Fr": got.outboard_reference / pull,
    }
