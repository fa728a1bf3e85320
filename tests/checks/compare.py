"""How a result is held against a check value: the larger of `abs` and `rel`, words equal, refusals raised."""

from __future__ import annotations

import math
import numbers
from typing import Any

import numpy as np

NOT_COMPARED = ("bar_", "goal_")
BEHAVIOUR = ("raises", "exact_meaning")
BOUNDS = ("pit_ks_p_min", "ece_let_go_200h_max", "z_total_max")  # limits of one check; elsewhere such names are values


class Outside(Exception):
    """What a binding raises for a scalar that its engine marked as outside its method."""


def limits(name: str, tolerance: dict[str, Any]) -> tuple[float, float]:
    """The (abs, rel) that hold for a name: a tolerance `x_abs` holds for the names that contain x, longest x first."""
    if "deg" in name.split("_") and "abs_deg" in tolerance:
        return float(tolerance["abs_deg"]), 0.0
    special: list[tuple[int, str, float]] = []
    for key, value in tolerance.items():
        for kind in ("abs", "rel"):
            stem = key.removesuffix(f"_{kind}")
            if stem != key and stem in name and not isinstance(value, bool | str):
                special.append((len(stem), kind, float(value)))
    if special:
        longest = max(length for length, _, _ in special)
        mine = {kind: value for length, kind, value in special if length == longest}
        return mine.get("abs", 0.0), mine.get("rel", 0.0)
    return float(tolerance.get("abs", 0.0)), float(tolerance.get("rel", 0.0))


def differences(expected: Any, got: Any, tolerance: dict[str, Any], name: str = "") -> list[str]:
    """Sentences on what differs; empty when the result agrees."""
    if isinstance(expected, dict):
        if not isinstance(got, dict):
            return [f"{name}: expected the names {sorted(expected)}, got {got!r}"]
        out = []
        for key, value in expected.items():
            if key in ("unit", "measured") or key.startswith(NOT_COMPARED):
                continue
            where = f"{name}.{key}" if name else key
            if key not in got:
                out.append(f"{where}: missing")
            else:
                out += differences(value, got[key], tolerance, where)
        return out
    if isinstance(expected, list):
        got_list = list(got) if isinstance(got, list | tuple | np.ndarray) else got
        if not isinstance(got_list, list) or len(got_list) != len(expected):
            return [f"{name}: expected {expected!r}, got {got!r}"]
        return [
            d
            for i, (e, g) in enumerate(zip(expected, got_list, strict=True))
            for d in differences(e, g, tolerance, f"{name}[{i}]")
        ]
    if expected == "unlimited":
        return (
            []
            if isinstance(got, numbers.Real | np.ndarray) and math.isinf(float(got))
            else [f"{name}: expected unlimited, got {got!r}"]
        )
    if isinstance(expected, bool) or isinstance(got, bool | np.bool_):
        return (
            []
            if bool(expected) == bool(got) and not isinstance(got, str)
            else [f"{name}: expected {expected!r}, got {got!r}"]
        )
    if isinstance(expected, str) or isinstance(got, str):
        return [] if expected == got else [f"{name}: expected {expected!r}, got {got!r}"]
    value = float(got)
    if name in BOUNDS:
        kept = value >= float(expected) if name.endswith("_min") else value <= float(expected)
        return [] if kept else [f"{name}: {value!r} is beyond {expected!r}"]
    absolute, relative = limits(name, tolerance)
    if "abs_slack_N" in tolerance and expected == 0:
        absolute = float(tolerance["abs_slack_N"])
    allowed = max(absolute, relative * abs(float(expected)))
    # half a last digit of binary noise is not a difference
    return (
        []
        if abs(value - float(expected)) <= allowed * (1 + 1e-9) + 1e-12 * abs(float(expected))
        else [f"{name}: expected {expected!r} within {allowed:g}, got {value!r}"]
    )
