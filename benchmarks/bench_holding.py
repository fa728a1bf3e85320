"""Holding and lifting: all stages of a corner over 2,048 draws, a hang, a crib of the timber at hand."""

from __future__ import annotations

import numpy as np

from axlewright.engines.holding.layouts import CribTask, Timbers, crib_layouts
from axlewright.engines.holding.supports import Point
from axlewright.engines.lifting.hang import Line, hang
from axlewright.engines.lifting.legs import two_legs
from axlewright.plan.reckon.corner_task import corner_task
from axlewright.plan.reckon.holding import hold, workings
from benchmarks.clock import Bench, median_ms

COUNT = 2048
AT = "bench.front-left/hold"
TASK = corner_task("walker-combine", {})


def stages() -> float:
    """Cold: draws, likely and four held workings, every stage, every margin's numbers."""
    return median_ms(lambda: hold(workings(TASK, AT, 3, COUNT), AT))


def _near(rng: np.random.Generator, value: float, spread: float) -> np.ndarray:
    return value + spread * rng.standard_normal(COUNT)


def four_legs() -> float:
    rng = np.random.default_rng(1)
    eyes = ((-0.31, -0.21), (0.29, -0.22), (0.30, 0.20), (-0.28, 0.23))
    lines = tuple(
        Line((Point(_near(rng, x, 0.004), _near(rng, y, 0.004), _near(rng, 0.0, 0.004)),), _near(rng, 0.9, 0.004), 4e5)
        for x, y in eyes
    )
    centre = Point(_near(rng, 0.02, 0.01), _near(rng, 0.01, 0.01), _near(rng, -0.15, 0.01))
    weight = _near(rng, 3300.0, 150.0)
    return median_ms(lambda: hang(weight, centre, lines), runs=7)


def closed_form() -> float:
    rng = np.random.default_rng(1)
    given = [_near(rng, value, value / 100) for value in (3300.0, 0.6, 0.7, 0.65, 0.29, 0.13)]
    return median_ms(lambda: two_legs(*given))


def layouts() -> float:
    timbers = tuple(
        Timbers(side, side, length, 14, 1.4e6, 0.9e6) for side in (0.1, 0.12, 0.15) for length in (0.7, 0.9)
    )
    task = CribTask(60e3, 0.66, 0.3, 0.6, 600.0, 0.2, 120e3)
    return median_ms(lambda: crib_layouts(task, timbers))


def benches() -> list[Bench]:
    return [
        Bench("holding: all stages and margins, 2,048 draws, cold", stages, bound=60),
        Bench("two-leg hang in closed form, 2,048 draws", closed_form),
        Bench("four-leg hang by energy, 2,048 draws", four_legs),
        Bench("every crib of six sizes of timber", layouts),
    ]
