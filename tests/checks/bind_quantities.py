"""JCGM 101: the worked examples, by the house's spreads and draws."""

from __future__ import annotations

import math
import re
from typing import Any

import numpy as np
from checks.bindings import binds

from axlewright.kinds import Array
from axlewright.quantities import Normal, Spread, Uniform, own_shares

COUNT = 1_000_000


def spread_of(text: str) -> Spread:
    name, first, second = re.fullmatch(r"(\w+)\((.+), ([^,]+)\)", text).groups()  # type: ignore[union-attr]
    ends = [math.copysign(math.sqrt(3), -1 if "-" in t else 1) if "sqrt" in t else float(t) for t in (first, second)]
    return {"normal": Normal, "uniform": Uniform}[name](*ends)


def draws(name: str, spread: Spread) -> Array:
    return np.asarray(spread.at(own_shares(101, name, COUNT)))


def summary(values: Array) -> dict[str, Any]:
    low, high = np.quantile(values, [0.025, 0.975])
    return {"mean": values.mean(), "std": values.std(ddof=1), "low_95": low, "high_95": high}


@binds("jcgm101-additive-normal", "jcgm101-additive-rectangular")
def additive(inputs: dict[str, Any]) -> dict[str, Any]:
    each = spread_of(inputs["each"])
    return summary(sum((draws(f"x{i}", each) for i in range(inputs["terms"])), np.zeros(COUNT)))


@binds("jcgm101-additive-one-dominant")
def one_dominant(inputs: dict[str, Any]) -> dict[str, Any]:
    total = np.zeros(COUNT)
    for times, sd in re.findall(r"(\d+) x uniform sd (\d+)", inputs["terms"]):
        half = float(sd) * math.sqrt(3)
        for i in range(int(times)):
            total += draws(f"sd {sd}, {i}", Uniform(-half, half))
    return summary(total)


@binds("jcgm101-mass-calibration")
def mass_calibration(inputs: dict[str, Any]) -> dict[str, Any]:
    mRc, dmRc, ra, rW, rR = (draws(n, spread_of(inputs[n])) for n in ("mRc", "dmRc", "ra", "rW", "rR"))
    return summary((mRc + dmRc) * (1 + (ra - 1.2) * (1 / rW - 1 / rR)) - 100_000)


@binds("jcgm101-comparison-loss")
def comparison_loss(inputs: dict[str, Any]) -> dict[str, Any]:
    values = draws("x1", spread_of(inputs["x1"])) ** 2 + draws("x2", spread_of(inputs["x2"])) ** 2
    return {"mean": values.mean(), "std": values.std(ddof=1), "high_95_one_sided": np.quantile(values, 0.95)}
