"""Bindings of the check values of bolts and joints: threads, strength, tightening, stripping, order."""

from __future__ import annotations

import math
import re
from typing import Any

import numpy as np
from checks.bindings import binds

from axlewright.engines.joints import (
    chances,
    limits_of_size,
    nut_factor,
    order,
    plates,
    repair,
    resilience,
    strength,
    stress,
    stripping,
    threads,
    tightening,
    tools,
)
from axlewright.engines.limits import OutOfRange
from axlewright.quantities.units import NotRead, parse
from axlewright.trade import steels, surfaces
from axlewright.trade.threads import Thread, parse_designation

Inputs = dict[str, Any]
INCH, MM = 0.0254, 1e-3
LBF = 0.45359237 * 9.80665
KSI = 1000 * LBF / INCH**2
LBF_FT = LBF * 12 * INCH


def si(text: str, kind: str) -> float:
    """A value with its unit, as the check file writes it."""
    return parse(text.replace(" um", " µm"), kind).si


def first_number(text: str) -> float:
    found = re.search(r"-?\d+(?:\.\d+)?", text)
    assert found
    return float(found.group())


def area(thread: Thread) -> float:
    return float(threads.circle_area(thread.stress_diameter))


def d2(thread: Thread) -> float:
    return float(threads.pitch_diameter(thread.diameter, thread.pitch))


# B1 threads


@binds("tensile-stress-area-un-coarse")
def _(given: Inputs) -> dict[str, Any]:
    sizes = [parse_designation(text) for text in given["designations"]]
    return {"values": [threads.stress_area_inch(t.diameter, t.pitch) / INCH**2 for t in sizes]}


@binds("tensile-stress-area-iso-coarse")
def _(given: Inputs) -> dict[str, Any]:
    sizes = [parse_designation(text) for text in given["designations"]]
    return {"values": [threads.stress_area_metric(t.diameter, t.pitch) / MM**2 for t in sizes]}


@binds("iso-724-m20-diameters")
def _(given: Inputs) -> dict[str, Any]:
    t = parse_designation(given["designation"])
    return {
        "P": t.pitch / MM,
        "d2": threads.pitch_diameter(t.diameter, t.pitch) / MM,
        "D1": threads.nut_minor_diameter(t.diameter, t.pitch) / MM,
        "d3": threads.bolt_minor_diameter(t.diameter, t.pitch) / MM,
    }


@binds("un-2a-2b-limits-3-4-10")
def _(given: Inputs) -> dict[str, Any]:
    t = parse_designation(given["designation"])
    assert t.tolerance_length == parse(given["length_of_engagement"], "length").si
    limits = t.limits()
    return {
        "ext_major_max": limits.bolt_major_greatest / INCH,
        "ext_major_min": limits.bolt_major_least / INCH,
        "ext_pitch_max": limits.bolt_pitch_greatest / INCH,
        "ext_pitch_min": limits.bolt_pitch_least / INCH,
        "int_pitch_min": limits.nut_pitch_least / INCH,
        "int_pitch_max": limits.nut_pitch_greatest / INCH,
        "int_minor_min": limits.nut_minor_least / INCH,
        "int_minor_max": limits.nut_minor_greatest / INCH,
    }


@binds("stripping-area-per-inch-3-4-10")
def _(given: Inputs) -> dict[str, Any]:
    pitch, length = INCH / given["n_per_in"], si(given["Le"], "length")
    sizes = {name: si(given[name], "length") for name in ("Ds_min", "En_max", "Kn_max", "Es_min")}
    return {
        "internal": threads.strip_area_internal(length, pitch, sizes["Ds_min"], sizes["En_max"]) / INCH**2,
        "external": threads.strip_area_external(length, pitch, sizes["Kn_max"], sizes["Es_min"]) / INCH**2,
    }


@binds("tap-drill-3-4-10")
def _(given: Inputs) -> dict[str, Any]:
    values = []
    for case in given["cases"]:
        name, drill = case.split(" with ")
        t = parse_designation(name)
        values.append(100 * threads.percent_of_full_thread(t.diameter, t.pitch, si(drill, "length")))
    return {"values": values}


@binds("designation-parser-good")
def _(given: Inputs) -> dict[str, Any]:
    read = [parse_designation(text) for text in given["strings"]]
    return {"d": [t.diameter / MM for t in read], "P": [t.pitch / MM for t in read]}


@binds("designation-parser-bad")
def _(given: Inputs) -> dict[str, Any]:
    refused = 0
    for text in given["strings"]:
        try:
            parse_designation(text)
        except NotRead:
            refused += 1
    odd = parse_designation("3/4-11")
    return {"raises": refused == len(given["strings"]) and bool(odd.doubt), "count": refused}


@binds("zero-pitch-limit")
def _(given: Inputs) -> dict[str, Any]:
    return {"value": threads.stress_area_metric(si(given["d"], "length"), si(given["P"], "length")) / MM**2}


@binds("un-2a-length-of-engagement-rule")
def _(given: Inputs) -> dict[str, Any]:
    read = [parse_designation(text) for text in given["designations"]]
    tolerances = [limits_of_size.pitch_tolerance_unified(t.diameter, t.pitch, t.tolerance_length) / INCH for t in read]
    limits = read[0].limits()
    return {
        "LE": [t.tolerance_length / INCH for t in read],
        "Td2": tolerances,
        "pitch_max_1_20": limits.bolt_pitch_greatest / INCH,
        "pitch_min_1_20": limits.bolt_pitch_least / INCH,
    }


# B2 strength


def loads(designation: str, grade: str) -> strength.BoltLoads:
    t = parse_designation(designation)
    row = steels.grade_at(grade.removesuffix("M"), t.diameter)
    return strength.bolt_loads(area(t), row.proof, row.yields, row.tensile)


@binds("sae-j429-loads-3-4-10")
def _(given: Inputs) -> dict[str, Any]:
    found = [loads(given["designation"], grade) for grade in given["grades"]]
    return {
        "proof": [x.proof / LBF for x in found],
        "yield_load": [x.yielding / LBF for x in found],
        "tensile": [x.tensile / LBF for x in found],
    }


@binds("iso-898-1-proof-loads")
def _(given: Inputs) -> dict[str, Any]:
    return {"values": [loads(*case.split()).proof for case in given["cases"]]}


@binds("structural-minimum-pretension")
def _(given: Inputs) -> dict[str, Any]:
    values = []
    for case, unit in zip(given["cases"], (1000 * LBF, 1000 * LBF, 1000 * LBF, 1000.0), strict=True):
        designation, grade = case.split()
        if grade == "A325M":  # property class 8.8S of ISO 7411: the strengths of 8.8
            grade = "8.8"
        values.append(strength.structural_pretension(loads(designation, grade).tensile) / unit)
    return {"values": values}


# B3 torque, preload, stress


def vdi_plastic(t: Thread, yields: float, mu: tuple[float, float], dm: float, use: float) -> tuple[float, float]:
    preload = stress.assembly_preload_plastic(yields, use, t.pitch, d2(t), mu[0], area(t), t.stress_diameter)
    return float(preload), float(tightening.table_torque(preload, t.pitch, d2(t), mu[0], mu[1], dm))


@binds("vdi-table-m20x1-5-8-8")
def _(given: Inputs) -> dict[str, Any]:
    dm = (si(given["dw"], "length") + si(given["dh"], "length")) / 2
    mu = (given["mu_thread"], given["mu_head"])
    t = parse_designation(given["designation"])
    preload, torque = vdi_plastic(t, si(given["Rp02"], "pressure"), mu, dm, given["nu"])
    return {"FM_kN": preload / 1e3, "MA_Nm": torque}


@binds("vdi-table-fine-set")
def _(given: Inputs) -> dict[str, Any]:
    preloads, torques = [], []
    for case, dw, dh in zip(given["cases"], given["dw_mm"], given["dh_mm"], strict=True):
        designation, grade, _, mu = case.split()
        t = parse_designation(designation)
        row = steels.grade_at(grade, t.diameter)
        preload, torque = vdi_plastic(t, row.yields, (float(mu), float(mu)), (dw + dh) / 2 * MM, 0.9)
        preloads.append(preload / 1e3)
        torques.append(torque)
    return {"FM_kN": preloads, "MA_Nm": torques}


@binds("bossard-m12-8-8-alpha")
def _(given: Inputs) -> dict[str, Any]:
    t = parse_designation(given["designation"])
    most, _ = vdi_plastic(t, si(given["Rp02"], "pressure"), (given["mu"], given["mu"]), 1.25 * t.diameter, 0.9)
    return {"FM_max_kN": most / 1e3, "FM_min_kN": float(nut_factor.least_preload(most, given["alpha_A"])) / 1e3}


@binds("shigley-8-3-long-form")
def _(given: Inputs) -> dict[str, Any]:
    d, pitch, preload = si(given["D"], "length"), INCH / given["n_per_in"], si(given["Fi"], "force")
    stress_area, root = si(given["At"], "area"), math.sqrt(4 * si(given["root_area"], "area") / math.pi)
    collar = first_number(given["collar_mean_dia"]) * d
    by_factor = tightening.torque_from_nut_factor(preload, d, given["K"])
    by_form = tightening.torque_from_preload(
        preload, pitch, (d + root) / 2, given["f_thread"], given["f_collar"], collar
    )
    share = resilience.load_share(1 / 6.50, 1 / 13.8)  # stiffnesses stand in the check's title
    return {
        "T_nutfactor": by_factor / (LBF * INCH),
        "T_long": by_form / (LBF * INCH),
        "sigma_i": preload / stress_area / KSI,
        "C": share,
        "sigma_b": (preload + share * si(given["P_ext"], "force")) / stress_area / KSI,
    }


@binds("nut-factor-from-friction-m20")
def _(given: Inputs) -> dict[str, Any]:
    t, dm, mu = parse_designation(given["designation"]), si(given["bearing_mean_dia"], "length"), np.array(given["mu"])
    return {"values": nut_factor.nut_factor_from_friction(t.diameter, t.pitch, d2(t), mu, mu, dm)}


@binds("zero-friction-limit")
def _(given: Inputs) -> dict[str, Any]:
    t = parse_designation(given["designation"])
    return {"K": nut_factor.nut_factor_from_friction(t.diameter, t.pitch, d2(t), given["mu"], given["mu"], 0.025)}


@binds("zero-torque-limit")
def _(given: Inputs) -> dict[str, Any]:
    d = si(given["d"], "length")
    for torque, size, factor in ((-1.0, d, given["K"]), (100.0, 0.0, given["K"]), (100.0, d, 0.0)):
        try:
            tightening.preload_from_nut_factor(torque, size, factor)
        except OutOfRange:
            continue
        return {"value": math.nan}
    return {"value": tightening.preload_from_nut_factor(given["T"], d, given["K"])}


@binds("tension-test-7-8-9")
def _(given: Inputs) -> dict[str, Any]:
    t, torque = parse_designation(given["designation"]), si(given["T"], "torque")
    measured = np.array(given["measured_lbf"]) * LBF
    return {
        "F_K020": tightening.preload_from_nut_factor(torque, t.diameter, 0.20) / LBF,
        "F_K015": tightening.preload_from_nut_factor(torque, t.diameter, 0.15) / LBF,
        "K_implied": nut_factor.nut_factor_from_test(torque, measured, t.diameter),
    }


@binds("book-torque-3-4-10-implied")
def _(given: Inputs) -> dict[str, Any]:
    from axlewright.trade import lubricants

    t, torques = parse_designation(given["designation"]), np.array(given["T_lbf_ft"]) * LBF_FT
    preload = tightening.preload_from_nut_factor(torques, t.diameter, given["K"])
    shares = {grade: preload / loads(given["designation"], grade).proof for grade in ("2", "5", "8")}
    plausible = [grade for grade, share in shares.items() if np.all((share >= 0.55) & (share <= 0.90))]
    condition = next(c for c in lubricants.conditions().values() if c.nut_factor == given["K"] and not c.greased)
    torque = tightening.torque_from_nut_factor(0.75 * loads(given["designation"], "8").proof, t.diameter, given["K"])
    return {
        "F_lbf": preload / LBF,
        "share_of_proof_grade_5": shares["5"],
        "share_of_proof_grade_8": shares["8"],
        "T_at_75pct_proof_grade_8": torque / LBF_FT,
        "grade": ", ".join(plausible),
        "condition": f"{condition.label.split(',')[0]}, K 0.19-0.21",
    }


@binds("book-torque-3-4-10-anti-seize")
def _(given: Inputs) -> dict[str, Any]:
    t, torques = parse_designation(given["designation"]), np.array(given["T_lbf_ft"]) * LBF_FT
    greased = tightening.preload_from_nut_factor(torques, t.diameter, given["K_used"])
    dry = tightening.preload_from_nut_factor(torques, t.diameter, given["K_book"])
    equal = tightening.torque_from_nut_factor(dry, t.diameter, given["K_used"])
    bolt = loads(given["designation"], given["grade"])
    return {
        "F_lbf": greased / LBF,
        "share_of_yield": greased / bolt.yielding,
        "share_of_tensile": greased / bolt.tensile,
        "T_equal_preload_lbf_ft": equal / LBF_FT,
        "ratio": equal[0] / torques[0],
    }


@binds("torque-units")
def _(given: Inputs) -> dict[str, Any]:
    return {"values": [si(case, "torque") for case in given["cases"]]}


@binds("alpha-a-to-plus-minus")
def _(given: Inputs) -> dict[str, Any]:
    return {"values": 100 * nut_factor.scatter_of_tightening_factor(np.array(given["alpha_A"]))}


@binds("combined-stress-3-4-10")
def _(given: Inputs) -> dict[str, Any]:
    t, torque, mu = parse_designation(given["designation"]), 4800 * LBF * INCH, given["mu"]
    assert given["T"] == "4800 lbf in"
    preload = tightening.preload_from_torque(torque, t.pitch, d2(t), mu, mu, si(given["bearing_mean_dia"], "length"))
    in_thread = preload * tightening.thread_lever(t.pitch, d2(t), mu)
    elastic = stress.combined_stress_elastic(preload, in_thread, area(t), t.stress_diameter)
    plastic = stress.combined_stress_plastic(preload, in_thread, area(t), t.stress_diameter)
    return {
        "F_lbf": preload / LBF,
        "sigma_ksi": elastic.tension / KSI,
        "tau_elastic_ksi": elastic.torsion / KSI,
        "von_mises_elastic_ksi": elastic.combined / KSI,
        "tau_plastic_ksi": plastic.torsion / KSI,
        "von_mises_plastic_ksi": plastic.combined / KSI,
    }


@binds("vdi-1986-torque-m20")
def _(given: Inputs) -> dict[str, Any]:
    t, mu = parse_designation(given["designation"]), given["mu"]
    dm = (si(given["dw"], "length") + si(given["dh"], "length")) / 2
    yields = np.array(given["Rp02_MPa"]) * 1e6
    out = {}
    for name, rule in (
        ("MA_elastic_Nm", stress.assembly_preload_elastic),
        ("MA_plastic_Nm", stress.assembly_preload_plastic),
    ):
        preload = rule(yields, given["nu"], t.pitch, d2(t), mu, area(t), t.stress_diameter)
        out[name] = tightening.table_torque(preload, t.pitch, d2(t), mu, mu, dm)
    return out


@binds("chance-of-yield-lognormal-k")
def _(given: Inputs) -> dict[str, Any]:
    return {
        "P": chances.chance_past_load(
            given["T_median_lbf_in"] * LBF * INCH,
            given["T_log_sd"],
            given["K_median"],
            given["K_log_sd"],
            si(given["d"], "length"),
            given["F_yield_lbf"] * LBF,
        )
    }


@binds("chance-of-too-little-clamp")
def _(given: Inputs) -> dict[str, Any]:
    return {
        "P": chances.chance_below_clamp(
            given["T_median_lbf_in"] * LBF * INCH,
            given["T_log_sd"],
            given["K_median"],
            given["K_log_sd"],
            si(given["d"], "length"),
            given["F_need_lbf"] * LBF,
        )
    }


@binds("joint-resilience-tapped-3-4-10")
def _(given: Inputs) -> dict[str, Any]:
    names = ("d", "P", "shank_in_grip", "thread_in_grip", "dw", "dh", "D_A_effective")
    size = {name: si(given[name], "length") for name in names}
    module = {name: si(given[name], "pressure") for name in ("E_bolt", "E_flange", "E_housing")}
    assert given["joint"] == "tapped"
    grip = size["shank_in_grip"] + size["thread_in_grip"]
    bolt = resilience.bolt_resilience(
        size["d"], size["P"], size["shank_in_grip"], size["thread_in_grip"], module["E_bolt"]
    ) + resilience.housing_resilience(size["d"], module["E_housing"])
    tangent = plates.cone_tangent_tapped(grip, size["dw"], size["D_A_effective"])
    parts = plates.plate_resilience_tapped(
        grip, size["dw"], size["dh"], size["D_A_effective"], tangent, module["E_flange"]
    )
    preload = si(given["F"], "force")
    snug = first_number(given["snug"]) / 100 * preload
    return {
        "delta_S_mm_per_N": bolt / MM,
        "tan_phi": tangent,
        "delta_P_mm_per_N": parts / MM,
        "Phi_at_n_1": resilience.load_share(bolt, parts),
        "angle_from_zero_deg": math.degrees(resilience.angle_for_preload(preload, 0.0, bolt, parts, size["P"])),
        "angle_from_snug_deg": math.degrees(resilience.angle_for_preload(preload, snug, bolt, parts, size["P"])),
    }


@binds("cone-closed-form-equals-quadrature")
def _(given: Inputs) -> dict[str, Any]:
    assert given["joint"] == "tapped"
    dw, dh, grip = (si(given[name], "length") for name in ("dw", "dh", "lK"))
    found = plates.plate_resilience_tapped(grip, dw, dh, 1.0, given["tan_phi"], si(given["E"], "pressure"))
    return {"value": found / MM}


@binds("frusta-steel-on-cast-iron-inch")
def _(given: Inputs) -> dict[str, Any]:
    d, mpsi = si(given["d"], "length"), 1000 * KSI
    frusta = []
    for case in given["frusta"]:
        _, modulus, _, _, thickness, _, face = case.split()
        frusta.append(plates.frustum_stiffness(float(modulus) * mpsi, float(thickness) * INCH, float(face) * INCH, d))
    members = 1 / sum(1 / k for k in frusta)
    bolt = resilience.rod_stiffness(si(given["At"], "area"), 30 * mpsi, si(given["l"], "length"))
    unit = mpsi * INCH
    return {
        "k": [k / unit for k in frusta],
        "km": members / unit,
        "kb": bolt / unit,
        "C": resilience.load_share(1 / bolt, 1 / members),
    }


@binds("embedding-loss")
def _(given: Inputs) -> dict[str, Any]:
    both = given["resilience_sum_mm_per_N"] * MM
    return {"FZ_kN": resilience.embedding_loss(si(given["fZ"], "length"), 0.86 * both, 0.14 * both) / 1e3}


@binds("loosening-ratio-and-self-locking")
def _(given: Inputs) -> dict[str, Any]:
    t, mu, dm = parse_designation(given["designation"]), given["mu"], si(given["bearing_mean_dia"], "length")
    loosen = tightening.loosening_torque(1e5, t.pitch, d2(t), mu, mu, dm)
    return {
        "ratio": loosen / tightening.three_term_torque(1e5, t.pitch, d2(t), mu, mu, dm),
        "mu_self_locking": tightening.self_locking_friction(t.pitch, d2(t)),
    }


@binds("torque-split-m20")
def _(given: Inputs) -> dict[str, Any]:
    t, mu, dm = parse_designation(given["designation"]), given["mu"], si(given["bearing_mean_dia"], "length")
    split = tightening.torque_split(t.pitch, d2(t), mu, mu, dm)
    return {"pitch_share": split.pitch_share, "head_share": split.head_share, "thread_share": split.thread_share}


@binds("preload-interval-class-b")
def _(given: Inputs) -> dict[str, Any]:
    t, dm, mu = parse_designation(given["designation"]), si(given["bearing_mean_dia"], "length"), np.array(given["mu"])
    low, high = nut_factor.nut_factor_from_friction(t.diameter, t.pitch, d2(t), mu, mu, dm)
    found = nut_factor.preload_interval(si(given["T"], "torque"), given["wrench"], low, high, t.diameter)
    return {"F_kN": [found.least / 1e3, found.greatest / 1e3], "ratio": found.greatest / found.least}


@binds("impossible-nut-factor")
def _(given: Inputs) -> dict[str, Any]:
    refused, warned = [], []
    for case in given["cases"]:
        designation, _, factor = case.split()
        t = parse_designation(designation)
        warned.append(bool(tightening.nut_factor_is_unusual(float(factor))))
        try:
            nut_factor.friction_from_nut_factor(float(factor), t.diameter, t.pitch, d2(t), 1.25 * t.diameter)
            refused.append(False)
        except OutOfRange:
            refused.append(True)
    return {"refused": refused, "warned": warned}


@binds("pressure-under-head")
def _(given: Inputs) -> dict[str, Any]:
    face, hole = si(given["dw"], "length"), si(given["dh"], "length")
    pressure = stress.pressure_under_head(si(given["F"], "force"), face, hole) / 1e6
    return {"p_MPa": pressure, "ok": [bool(pressure <= limit) for limit in given["limit_MPa"]]}


@binds("embedding-table-axial-shear")
def _(given: Inputs) -> dict[str, Any]:
    rows = surfaces.embeddings()
    out: dict[str, Any] = {}
    for load in given["load"]:
        found = [getattr(rows[rough], load) for rough in given["Rz_um"]]
        out[load] = [[round(depth * 1e6, 6) for depth in (x.thread, x.head, x.joint)] for x in found]
    out["sum_shear_10_40"] = rows["10 to 40"].total("shear") * 1e6
    return out


@binds("sleeve-resilience-narrow-part")
def _(given: Inputs) -> dict[str, Any]:
    dw, dh, part, grip = (si(given[name], "length") for name in ("dw", "dh", "D_A", "lK"))
    modulus = si(given["E"], "pressure")
    rules = {
        "through": (plates.cone_tangent_through, plates.plate_resilience_through, 1),
        "tapped": (plates.cone_tangent_tapped, plates.plate_resilience_tapped, 2),
    }
    tangents, limits, found = [], [], []
    for joint in given["joints"]:
        tangent_of, resilience_of, cones = rules[joint]
        tangent = float(tangent_of(grip, dw, part))
        tangents.append(tangent)
        limits.append((dw + cones * grip * tangent) / MM)
        found.append(float(resilience_of(grip, dw, dh, part, tangent, modulus)) / MM)
    return {"tan_phi": tangents, "D_A_limit_mm": limits, "delta_P_mm_per_N": found}


# B4 stripping


def widths(t: Thread) -> tuple[float, float]:
    """Strip areas for each length of engagement, bolt thread and housing thread."""
    limits = t.limits()
    external = threads.strip_area_external(1.0, t.pitch, limits.nut_minor_greatest, limits.bolt_pitch_least)
    internal = threads.strip_area_internal(1.0, t.pitch, limits.bolt_major_least, limits.nut_pitch_greatest)
    return float(external), float(internal)


@binds("engagement-equal-strength-3-4-10")
def _(given: Inputs) -> dict[str, Any]:
    t = parse_designation(given["designation"])
    length = stripping.engagement_by_area(area(t), widths(t)[0])
    return {"Le": length / INCH, "Le_over_d": length / t.diameter}


@binds("engagement-j-factor-class-30-iron")
def _(given: Inputs) -> dict[str, Any]:
    t = parse_designation(given["designation"])
    external, internal = widths(t)
    ratio = stripping.strength_ratio(
        external, np.array(given["bolt_tensile_ksi"]) * KSI, internal, given["housing_tensile_ksi"] * KSI
    )
    return {"J": ratio, "Le_over_d": stripping.engagement_by_area_weaker(area(t), external, ratio) / t.diameter}


@binds("engagement-catalogue-rule-gjl-250")
def _(given: Inputs) -> dict[str, Any]:
    t = parse_designation(given["designation"])
    internal = threads.strip_area_internal(1.0, t.pitch, si(given["d_min"], "length"), si(given["D2_max"], "length"))
    run_out = first_number(given["allowance_runout"]) * t.pitch
    return {
        "Le_over_d": [
            stripping.engagement_by_shear(
                area(t), steels.grade_at(grade, t.diameter).tensile, internal, si(given["tau"], "pressure"), run_out
            )
            / t.diameter
            for grade in given["classes"]
        ]
    }


@binds("chased-thread")
def _(given: Inputs) -> dict[str, Any]:
    t = parse_designation(given["designation"])
    limits = t.limits()
    extra = np.array(given["extra_pitch_dia_in"]) * INCH
    return {"values": repair.chased_thread_share(extra, t.pitch, limits.bolt_major_least, limits.nut_pitch_greatest)}


@binds("alexander-factors-continuity")
def _(given: Inputs) -> dict[str, Any]:
    return {
        "C1": stripping.nut_dilation_factor(np.array(given["s_over_d"])),
        "C2": stripping.bolt_bending_factor(np.array(given["Rs_C2"])),
        "C3": stripping.nut_bending_factor(np.array(given["Rs_C3"])),
    }


@binds("wire-insert-3-4-10")
def _(given: Inputs) -> dict[str, Any]:
    t = parse_designation(given["designation"])
    insert = repair.wire_insert(t.diameter, t.pitch, t.diameter)
    wide = threads.strip_area_internal(1.0, t.pitch, insert.major, insert.pitch_diameter)
    plain = threads.strip_area_internal(1.0, t.pitch, t.diameter, d2(t))
    return {"major": insert.major / INCH, "pitch": insert.pitch_diameter / INCH, "area_ratio": wide / plain}


@binds("wire-insert-depth-3-4-10")
def _(given: Inputs) -> dict[str, Any]:
    t = parse_designation(given["designation"])
    insert = repair.wire_insert(t.diameter, t.pitch, given["insert_length_over_d"] * t.diameter)
    return {
        "full_thread": insert.thread_depth / INCH,
        "drill_bottoming": insert.drill_bottoming / INCH,
        "drill_plug": insert.drill_plug / INCH,
    }


GOES = ("bolt", "bolt thread", "housing thread")


@binds("what-fails-first")
def _(given: Inputs) -> dict[str, Any]:
    t = parse_designation(given["designation"])
    bolt = loads(given["designation"], given["grade"])
    grade = steels.grade_at(given["grade"], t.diameter)
    external, internal = widths(t)
    turns = np.array(given["engagement_over_d"]) * t.diameter / t.pitch
    assert given["runout"] == "0.8 P"
    length = stripping.engagement_from_turns(turns, t.pitch)
    strips = stripping.strip_load(internal * length, given["tau_housing_ksi"] * KSI)
    bolt_strips = stripping.strip_load(external * length, grade.shear * grade.tensile)
    goes = stripping.fails_first(bolt.tensile, bolt_strips, strips)
    torque = tightening.torque_from_nut_factor(strips[0], t.diameter, given["K"])
    dry = tightening.preload_from_nut_factor(400 * LBF_FT, t.diameter, 0.20)
    return {
        "strip_lbf": strips / LBF,
        "bolt_tensile_lbf": bolt.tensile / LBF,
        "first": [GOES[int(i)] for i in goes.first],
        "T_strip_greased_lbf_ft": torque / LBF_FT,
        "F_dry_over_strip": dry / strips[0],
    }


@binds("run-out-by-how-engagement-is-known")
def _(given: Inputs) -> dict[str, Any]:
    t = parse_designation(given["designation"])
    _, internal = widths(t)
    grip, long = 0.030, given["engagement_in"] * INCH
    by = {
        "2 P": stripping.engagement_from_lengths(grip + long, grip, 1.0, t.pitch),
        "0.8 P": stripping.engagement_from_turns(long / t.pitch, t.pitch),
    }
    strips, torques, first = [], [], set()
    for run_out in given["run_out"]:
        shear = np.array(given["shear_ratio"]) * given["housing_tensile_ksi"] * KSI
        load = stripping.strip_load(internal * by[run_out], shear)
        strips.append(list(load / LBF))
        torques.append(list(tightening.torque_from_nut_factor(load, t.diameter, 0.13) / LBF_FT))
        goes = stripping.fails_first(loads(given["designation"], "8").tensile, np.inf, load)
        first |= {GOES[int(i)] for i in goes.first}
    return {"strip_lbf": strips, "first": ", ".join(first), "T_strip_K013_lbf_ft": torques}


# B6 order, passes, tools


@binds("sequence-cross-12")
def _(given: Inputs) -> dict[str, Any]:
    return {"order": list(order.cross_order(given["n"], given["first"]))}


@binds("sequence-cross-8-16-20-24")
def _(given: Inputs) -> dict[str, Any]:
    return {f"order_{n}": list(order.cross_order(n)) for n in given["n"]}


@binds("sequence-fitted-first")
def _(given: Inputs) -> dict[str, Any]:
    return {"order": list(order.fitted_first(order.cross_order(given["n"]), given["fitted"]))}


@binds("passes-and-setting")
def _(given: Inputs) -> dict[str, Any]:
    made = order.passes(si(given["T"], "torque"), given["shares"], LBF_FT)
    return {"values": [p.torque / LBF_FT for p in made], "pattern": [p.pattern for p in made]}


@binds("crowfoot-in-line")
def _(given: Inputs) -> dict[str, Any]:
    values = []
    for case in given["cases"]:
        want, length, extra = (first_number(part) for part in case.split(","))
        values.append(tools.adapter_setting(want, length, extra, 0.0))
    return {"values": values}


@binds("multiplier")
def _(given: Inputs) -> dict[str, Any]:
    arm = si(given["reaction_arm"], "length")
    found = tools.multiplier(si(given["T"], "torque"), given["ratio"], given["efficiency"], arm)
    return {
        "T_in_Nm": found.torque_in,
        "reaction_torque_Nm": found.reaction_torque,
        "reaction_force_N": found.reaction_force,
    }


@binds("bar-length-and-pull")
def _(given: Inputs) -> dict[str, Any]:
    torque = si(given["T"], "torque")
    return {
        "pull_N": tools.bar_pull(torque, si(given["bar"], "length")),
        "bar_m": tools.bar_for_pull(torque, si(given["pull"], "force")),
    }


@binds("wrench-range")
def _(given: Inputs) -> dict[str, Any]:
    torque = si(given["T"], "torque")
    spans = [[float(end) for end in wrench.split("-")] for wrench in given["wrenches"]]
    return {"usable": [bool(tools.wrench_spans(torque, low, high)) for low, high in spans]}
