"""Bindings of A3, A4 and A5: the crib, the ground, the wheel."""

from __future__ import annotations

from typing import Any

import numpy as np
from checks.bindings import binds

from axlewright.engines.gravity import weight_of
from axlewright.engines.holding import crib, ground, timber, wheel
from axlewright.quantities.units import parse
from axlewright.trade import tyres

LB, INCH, PSI, GALLON = 0.45359237, 0.0254, 6894.757293168361, 231 * 0.0254**3
LBF = weight_of(LB)


@binds("box-crib-4x4-published", "box-crib-6x6-published")
def _published(i: dict[str, Any]) -> dict[str, Any]:
    def held(crossings: int) -> float:
        return float(crib.crossings_hold(crossings, (i["actual_in"] * INCH) ** 2, i["stress_psi"] * PSI) / LBF)

    return {"per_crossing_lb": held(1), "two_by_two_lb": held(4), "three_by_three_lb": held(9)}


@binds("nds-bearing-area-factor")
def _length_factor(i: dict[str, Any]) -> dict[str, Any]:
    got = {
        f"lb_{length:.1f}".replace(".", "p"): timber.bearing_length_factor(length * INCH, 4 * INCH)
        for length in i["lb_in"]
    }
    return {**got, "near_end": timber.bearing_length_factor(i["near_end_lb_in"] * INCH, 1 * INCH)}


@binds("nds-crib-6x6-spruce-wet", "nds-crib-6x6-douglas-fir-dry")
def _crib_us(i: dict[str, Any]) -> dict[str, Any]:
    width, overhang = i["actual_in"] * INCH, i["overhang_in"] * INCH
    factor = timber.bearing_length_factor(width, overhang) if i["use_cb"] else 1.0
    allowed = timber.bearing_allowed_us(i["fcperp_psi"] * PSI, i["wet_factor"], factor)
    held = crib.crossings_hold(i["contacts"], width**2, allowed)
    return {"stress_psi": allowed / PSI, "capacity_lb": held / LBF, "capacity_kN": held / 1e3}


@binds("ec5-crib-c24-wet")
def _crib_en(i: dict[str, Any]) -> dict[str, Any]:
    length = timber.bearing_length_en(
        i["contact_length_mm"] / 1e3, i["end_overhang_mm"] / 1e3, i["clear_to_next_mm"] / 1e3
    )
    stress = timber.bearing_allowed_en(i["fc90k_MPa"] * 1e6, i["kmod"], i["gamma_m"], bearing_factor=i["kc90"])
    area = length * i["width_mm"] / 1e3
    return {
        "effective_length_mm": length * 1e3,
        "design_stress_MPa": stress / 1e6,
        "per_contact_kN": crib.crossings_hold(1, area, stress) / 1e3,
        "four_contacts_kN": crib.crossings_hold(4, area, stress) / 1e3,
    }


@binds("narrow-axle-seat-with-plate")
def _seat(i: dict[str, Any]) -> dict[str, Any]:
    along = i["seat_along_grain_mm"] / 1e3
    factor = timber.bearing_length_factor(along, i["end_distance_in"] * INCH)
    allowed = timber.bearing_allowed_us(i["fcperp_psi"] * PSI, i["wet_factor"], factor)
    held = crib.seat_hold(along, i["timber_width_mm"] / 1e3, i["timbers_touched"], allowed)
    return {"allowed_MPa": allowed / 1e6, "capacity_kN": held / 1e3, "use": i["load_kN"] * 1e3 / held}


@binds("crib-build-from-timber")
def _build(i: dict[str, Any]) -> dict[str, Any]:
    got = crib.crib_build(
        i["target_height_mm"] / 1e3,
        i["section_mm"] / 1e3,
        i["per_layer"],
        i["length_mm"] / 1e3,
        i["overhang_mm"] / 1e3,
        i["owned"],
        i["min_packer_mm"] / 1e3,
    )
    return {
        "tiers": got.tiers,
        "packers_mm": got.packers * 1e3,
        "timbers_needed": got.timbers_needed,
        "timbers_short": got.timbers_short,
        "base_width_mm": got.base_width * 1e3,
        "height_over_base": got.height_over_base,
        "height_over_length": got.height_over_length,
    }


@binds("crib-height-limit")
def _height_limit(i: dict[str, Any]) -> dict[str, Any]:
    ratio = crib.crib_build(i["height_mm"] / 1e3, 0.1, 2, i["length_mm"] / 1e3, 0.1, 99).height_over_length
    return {"ratio": ratio, **{f"{k}_ok": float(ratio <= i[f"limit_{k}"]) for k in ("usr", "loose", "own")}}


@binds("crib-shortening")
def _shortening(i: dict[str, Any]) -> dict[str, Any]:
    got = crib.crib_shortening(
        i["tiers"] * i["section_mm"] / 1e3,
        i["tiers"],
        i["stress_ratio"],
        i["stress_MPa"] * 1e6,
        i["e90_MPa"] * 1e6,
        i["seating_mm_per_tier"] / 1e3,
    )
    return {"upper_mm": got.upper * 1e3, "lower_mm": got.lower * 1e3}


@binds("ibc-presumptive-values")
def _presumptive(i: dict[str, Any]) -> dict[str, Any]:
    return {k.replace("psf", "kPa"): parse(f"{v} psf", "pressure").si / 1e3 for k, v in i.items()}


@binds("area-needed-under-crib")
def _area(i: dict[str, Any]) -> dict[str, Any]:
    def area(allowed: float) -> ground.GroundArea:
        return ground.ground_area(i["load_kN"] * 1e3, weight_of(i["crib_and_mat_kg"]), allowed * 1e3)

    clay, soft = area(i["clay_kPa"]), area(i["soft_clay_kPa"])
    return {
        "area_clay_m2": clay.area,
        "side_clay_m": clay.side,
        "area_soft_m2": soft.area,
        "side_soft_m": soft.side,
    }


@binds("mat-of-five-timbers", "mat-too-long-limit")
def _mat(i: dict[str, Any]) -> dict[str, Any]:
    got = ground.mat_of_timbers(
        i["load_kN"] * 1e3, i["mat_kN"] * 1e3, i["allow_kPa"] * 1e3, i["width_m"], i["bearing_m"], i["depth_m"]
    )
    return {
        "area_m2": got.area,
        "length_m": got.length,
        "cantilever_m": got.cantilever,
        "pressure_kPa": got.pressure / 1e3,
        "moment_kNm": got.moment / 1e3,
        "bending_MPa": got.bending / 1e6,
        "shear_kN": got.shear / 1e3,
        "shear_stress_MPa": got.shear_stress / 1e6,
    }


@binds("steel-plate-spreading")
def _plate(i: dict[str, Any]) -> dict[str, Any]:
    got = ground.steel_plate(i["load_kN"] * 1e3, i["side_m"], i["foot_m"], i["thickness_mm"] / 1e3)
    return {
        "pressure_kPa": got.pressure / 1e3,
        "moment_kNm_per_m": got.moment / 1e3,
        "bending_MPa": got.bending / 1e6,
        "edge_deflection_mm": got.edge_deflection * 1e3,
    }


@binds("clay-bearing-from-strength")
def _clay(i: dict[str, Any]) -> dict[str, Any]:
    got = ground.clay_bearing(i["cu_kPa"] * 1e3, i["nc"], i["shape"], i["factor"])
    return {
        "ultimate_kPa": got.ultimate / 1e3,
        "allowed_kPa": got.allowed / 1e3,
        "qu_kPa": got.unconfined / 1e3,
    }


@binds("settlement-rigid-pad")
def _sink(i: dict[str, Any]) -> dict[str, Any]:
    return {"value": ground.sink_of_pad(i["pressure_kPa"] * 1e3, i["diameter_m"], i["e_MPa"] * 1e6, i["poisson"]) * 1e3}


@binds("gravel-pad-over-clay")
def _two_layers(i: dict[str, Any]) -> dict[str, Any]:
    top, below = (
        ground.pressure_below(i["load_kN"] * 1e3, i["side_m"], i["side_m"], depth)
        for depth in (0.0, i["pad_thickness_m"])
    )
    return {"at_surface_kPa": top / 1e3, "at_clay_kPa": below / 1e3, "use": below / 1e3 / i["clay_kPa"]}


@binds("ground-proved-by-own-tyre")
def _proved(i: dict[str, Any]) -> dict[str, Any]:
    got = ground.tyre_proof((i["inflation_kPa"] + i["carcass_kPa"]) * 1e3, i["tyre_load_kN"] * 1e3, i["divide_by"])
    pad = ground.ground_area(i["pad_load_kN"] * 1e3, 0.0, got.allowed)
    return {
        "tyre_pressure_kPa": got.pressure / 1e3,
        "tyre_print_m2": got.footprint,
        "allowed_kPa": got.allowed / 1e3,
        "pad_area_m2": pad.area,
    }


def _diameter(designation: str) -> float:
    tyre = tyres.read_tyre(designation)
    return float(wheel.outside_diameter(tyre.width, tyre.aspect, tyre.rim))


@binds("metric-tyre-diameters")
def _metric(i: dict[str, Any]) -> dict[str, Any]:
    return {f"d_{d.replace('/', '_')}_mm": _diameter(d) * 1e3 for d in i["designations"]}


@binds("inch-tyre-diameters")
def _inch(i: dict[str, Any]) -> dict[str, Any]:
    return {f"d_{d.replace('.', 'p').replace('-', '_')}_in": _diameter(d) / INCH for d in i["designations"]}


@binds("liquid-fill-from-geometry")
def _liquid(i: dict[str, Any]) -> dict[str, Any]:
    got = {}
    for size, outside in zip(i["sizes"], i["outside_in"], strict=True):
        tyre = tyres.read_tyre(size)
        volume = wheel.liquid_fill(tyre.width, outside * INCH, tyre.rim, i["factor"])
        got[f"gal_{size.replace('.', 'p').replace('-', '_')}"] = volume / GALLON
    return got


@binds("ballast-water-mass")
def _water(i: dict[str, Any]) -> dict[str, Any]:
    mass = wheel.ballast_mass(i["gallons"] * GALLON, i["density_kg_l"] * 1e3)
    return {"mass_kg": mass, "mass_lb": mass / LB}


@binds("ballast-brine-density")
def _brine(i: dict[str, Any]) -> dict[str, Any]:
    volume = i["gallons"] * GALLON
    return {f"density_{k}_kg_l": wheel.ballast_density(i[f"mass_{k}_kg"], volume) / 1e3 for k in "abc"}


@binds("load-centre-simple")
def _centre(i: dict[str, Any]) -> dict[str, Any]:
    return {
        f"load_{k}_lb": wheel.load_at_centre(
            i[f"rating_{k}_lb"] * LB, i[f"rated_{k}_in"] * INCH, i[f"real_{k}_in"] * INCH
        )
        / LB
        for k in "ab"
    }


@binds("load-centre-with-tipping-line")
def _tipping(i: dict[str, Any]) -> dict[str, Any]:
    given = (i["rating_kg"], i["rated_m"], i["real_m"])
    return {
        "load_kg": wheel.load_at_centre(*given, i["tipping_line_m"]),
        "simple_kg": wheel.load_at_centre(*given),
    }


@binds("rated-load-definitions")
def _rated(i: dict[str, Any]) -> dict[str, Any]:
    names = {
        "sae_j1197_50_kg": "sae-j1197",
        "en474_3_rough_60_kg": "en474-3-rough",
        "en474_3_firm_level_80_kg": "en474-3-firm",
        "track_loader_35_kg": "tracked",
    }
    shares = tyres.loader_shares()
    return {
        name: wheel.rating_from_tipping(i["full_turn_tipping_kg"], shares[row].share) for name, row in names.items()
    }


@binds("wheel-cradled-on-two-forks")
def _cradle(i: dict[str, Any]) -> dict[str, Any]:
    got = wheel.cradled_on_forks(i["radius_m"], i["fork_gap_m"], i["weight_kN"] * 1e3)
    return {
        "contact_angle_deg": np.degrees(got.contact_angle),
        "sink_between_forks_m": got.sink,
        "normal_per_fork_kN": got.per_fork / 1e3,
        "spreading_per_fork_kN": got.spreading / 1e3,
    }
