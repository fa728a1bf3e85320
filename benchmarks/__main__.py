"""Every speed that is claimed, as a table: python run.py bench [PART].

Times drift with the machine and its load, so each row also stands as a ratio to one reference measured in the same run:
sorting an array of 100,000 numbers in NumPy.
"""

from __future__ import annotations

import importlib
import sys
from pathlib import Path

import numpy as np

from benchmarks.clock import Bench, median_ms

HERE = Path(__file__).parent


def reference() -> float:
    numbers = np.random.default_rng(1).random(100_000)
    return median_ms(lambda: np.sort(numbers), runs=30)


def main(parts: list[str]) -> int:
    names = [file.stem for file in sorted(HERE.glob("bench_*.py")) if not parts or any(p in file.stem for p in parts)]
    ref = reference()
    print(f"reference: sorting 100,000 numbers takes {ref:.2f} ms here\n")
    print(f"{'what':58} {'median':>12} {'bound':>10} {'x reference':>12}")
    missed = 0
    for name in names:
        benches: list[Bench] = importlib.import_module(f"benchmarks.{name}").benches()
        for bench in benches:
            value = bench.measure()
            over = bench.bound is not None and value > bench.bound
            missed += over
            bound = "" if bench.bound is None else f"{bench.bound:g}"
            ratio = f"{value / ref:.2f}" if bench.unit == "ms" else ""
            print(
                f"{bench.what:58} {value:9.3f} {bench.unit:>2} {bound:>10} {ratio:>12}{'  over its bound' if over else ''}",
                flush=True,
            )
    print(f"\n{missed} over their bound" if missed else "\nall within their bounds")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
