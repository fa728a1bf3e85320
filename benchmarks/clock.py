"""How a speed is measured: the median of several runs after a warm-up."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Bench:
    """One row of the table: what is measured, how, and the figure it should not pass."""

    what: str
    measure: Callable[[], float]
    unit: str = "ms"
    bound: float | None = None


def median_ms(do: Callable[[], Any], runs: int = 15, warm: int = 2) -> float:
    for _ in range(warm):
        do()
    took = []
    for _ in range(runs):
        start = time.perf_counter()
        do()
        took.append((time.perf_counter() - start) * 1e3)
    return statistics.median(took)
