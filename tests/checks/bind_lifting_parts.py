"""Bindings of A6, the parts of a rig and the hoist: limits, factors, tipping, drops and swings."""

from __future__ import annotations

from typing import Any

import numpy as np
from checks.bindings import binds

from axlewright.engines.gravity import weight_of
from axlewright.engines.holding.wheel import slung_on_forks
from axlewright.engines.lifting import hoist, slings
from axlewright.engines.limits import OutOfRange
from axlewright.quantities.units import parse
from axlewright.trade import slings as trade
from axlewright.trade.threads import parse_designation

LB = 0.45359237


@binds("leg-angle-limits")
def _bands(i: dict[str, Any]) -> dict[str, Any]:
    angles = i["angle_from_vertical_deg"]
    return {
        "verdict": [trade.step("leg", angle).says for angle in angles],
        "factor": list(slings.angle_factor(np.radians(angles))),
    }


@binds("sling-angle-factor-table")
def _angles(i: dict[str, Any]) -> dict[str, Any]:
    return {"factor": list(slings.angle_factor(np.radians(90 - np.array(i["angle_to_horizontal_deg"]))))}


@binds("en818-4-grade8-10mm-and-13mm")
def _grade_8(i: dict[str, Any]) -> dict[str, Any]:
    return {"wll_t": [[limit / 1e3 for limit in trade.chain("8", size / 1e3).limits] for size in i["chain_mm"]]}


def _inches(text: str) -> float:
    return parse(text.split("(")[0].strip(), "length").si


@binds("grade80-3-8-chain-sling")
def _grade_80(i: dict[str, Any]) -> dict[str, Any]:
    return {"wll_lb": [limit / LB for limit in trade.chain(str(i["grade"]), _inches(i["chain"])).limits]}


@binds("grade100-9-32-chain-sling")
def _grade_100(i: dict[str, Any]) -> dict[str, Any]:
    return {"wll_lb": [limit / LB for limit in trade.chain(str(i["grade"]), _inches(i["chain"])).limits]}


@binds("old-code-chain-table-is-lower")
def _code(i: dict[str, Any]) -> dict[str, Any]:
    code = trade.code_limit(_inches(i["chain"]))
    assert code is not None
    return {"used_lb": round(float(slings.lower_limit(i["tag_lb"] * LB, code)) / LB, 6)}


@binds("en1492-mode-factors")
def _modes(i: dict[str, Any]) -> dict[str, Any]:
    names = ("straight", "choked", "basket", "basket-steep", "basket-flat", "two-legs-steep", "two-legs-flat", "more-legs-steep", "more-legs-flat")  # fmt: skip
    factors = [trade.modes()[name].factor for name in names]
    return {
        "factor": factors,
        "wll_t": [float(slings.part_holds(i["wll_t"] * 1e3, factor)) / 1e3 for factor in factors],
    }


@binds("choker-angle-table-wire-and-web")
def _choke(i: dict[str, Any]) -> dict[str, Any]:
    return {"factor": [trade.choke_factor("rope-or-web", angle) for angle in i["choke_angle_deg"]]}


@binds("choker-whole-chain")
def _choked(i: dict[str, Any]) -> dict[str, Any]:
    kind = {"wire and web": "rope-or-web"}[i["choke_table"]]
    factor = trade.choke_factor(kind, i["choke_angle_deg"])  # type: ignore[arg-type]
    holds = slings.part_holds(i["wll_t"] * 1e3, i["choker_factor"], factor)
    load = slings.lift_load(i["mass_kg"], i["handling_factor"])
    return {"capacity_t": holds / 1e3, "load_t": load / 1e3, "utilisation": load / holds}


@binds("shackle-side-load")
def _shackle(i: dict[str, Any]) -> dict[str, Any]:
    return {"factor": [trade.step("shackle", angle).factor for angle in i["angle_deg"]]}


@binds("chain-over-an-edge")
def _edge(i: dict[str, Any]) -> dict[str, Any]:
    return {"factor": [trade.step("chain-edge", ratio).factor for ratio in i["R_over_d"]]}


@binds("wire-rope-bend-efficiency")
def _rope(i: dict[str, Any]) -> dict[str, Any]:
    return {"efficiency": list(slings.rope_bend(np.array(i["D_over_d"], float)))}


@binds("eyebolt-angle-derating")
def _eyebolt(i: dict[str, Any]) -> dict[str, Any]:
    table = "eyebolt-printed" if i["maker_prints_steps"] else "eyebolt"
    return {"factor": [trade.step(table, angle).factor for angle in i["angle_deg"]]}  # type: ignore[arg-type]


@binds("eyebolt-thread-engagement")
def _engagement(i: dict[str, Any]) -> dict[str, Any]:
    return {"engagement_mm": slings.eyebolt_engagement(i["thread_d_mm"] / 1e3) * 1e3}


@binds("bolt-as-pin-m20-loose")
def _pin(i: dict[str, Any]) -> dict[str, Any]:
    thread = parse_designation(i["bolt"].split()[0])
    got = slings.bolt_as_pin(
        thread.diameter,
        thread.pitch,
        i["force_N"],
        i["stand_off_mm"] / 1e3,
        i["yield_MPa"] * 1e6,
        wanted=i["design_factor"],
    )
    return {
        "root_mm": got.root * 1e3,
        "bending_MPa": got.bending / 1e6,
        "shear_MPa": got.shear / 1e6,
        "von_mises_MPa": got.equivalent / 1e6,
        "factor_on_yield": got.on_yield,
        "ok": bool(got.enough),
    }


@binds("drop-through-slack")
def _drop(i: dict[str, Any]) -> dict[str, Any]:
    got = hoist.drop_through_slack(
        weight_of(i["mass_kg"]), i["stiffness_N_per_m"], np.array(i["slack_mm"], float) / 1e3
    )
    return {"factor": list(np.asarray(got.factor)), "peak_N": list(np.asarray(got.peak))}


@binds("swing-when-it-comes-free")
def _swing(i: dict[str, Any]) -> dict[str, Any]:
    got = hoist.swing_free(weight_of(i["mass_kg"]), i["offset_m"], i["hook_to_cg_m"])
    return {
        "angle_deg": np.degrees(got.angle),
        "side_force_N": got.side_force,
        "peak_tension_over_weight": got.peak_share,
        "speed_m_s": got.speed,
        "swings_to_other_side_mm": got.reach * 1e3,
        "period_s": got.period,
    }


@binds("boom-arc-drift")
def _boom(i: dict[str, Any]) -> dict[str, Any]:
    got = hoist.boom_arc(i["boom_m"], np.radians(i["from_deg"]), np.radians(i["to_deg"]))
    return {"horizontal_drift_m": got.drift, "lift_m": got.lift}


@binds("crane-reactions-and-tip")
def _crane(i: dict[str, Any]) -> dict[str, Any]:
    got = hoist.hoist_loads(i["crane_kg"], i["crane_cg_m"], i["wheelbase_m"], i["load_kg"], i["hook_m"])
    return {"front_kg": got.front, "rear_kg": got.rear, "tips_at_m": got.tips_at}


@binds("castor-over-a-step")
def _castor(i: dict[str, Any]) -> dict[str, Any]:
    def push(step: float) -> float | str:
        try:
            return float(hoist.castor_push(i["radius_mm"] / 1e3, step / 1e3))
        except OutOfRange:
            return "cannot"

    return {"push_over_load": [push(step) for step in i["step_mm"]]}


@binds("forks-with-sling-hook")
def _forks(i: dict[str, Any]) -> dict[str, Any]:
    got = slung_on_forks(i["rated_kg"], i["load_centre_m"], i["face_ahead_of_axle_m"], i["sling_m"], i["hanging_share"])
    return {
        "capacity_at_sling_kg": got.standing,
        "with_hanging_share_kg": got.hanging,
        "ok": bool(got.hanging >= i["mass_kg"]),
    }
