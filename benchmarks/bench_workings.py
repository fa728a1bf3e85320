"""Workings and formulary: what a warm call costs, what a first draw costs, what a name costs."""

from __future__ import annotations

import subprocess
import sys
import timeit
from collections.abc import Callable

from axlewright.engines.joints.tightening import preload_from_torque
from axlewright.formulary.call import call
from axlewright.kinds import KINDS
from axlewright.plan.workings import Workings
from axlewright.quantities import Exact, LogNormal, Normal, Quantity, Spread, Uniform, parse

COUNT = 2048


def _best(work: Callable[[], object], times: int) -> float:
    """Microseconds of one call, the best of five series."""
    return min(timeit.repeat(work, number=times, repeat=5)) / times * 1e6


def _workings() -> Workings:
    given: dict[str, tuple[str, Spread]] = {
        "torque": ("torque", Normal(370, 9)),
        "pitch": ("length", Exact(0.002)),
        "pitch-diameter": ("length", Exact(0.0147)),
        "thread": ("share", LogNormal(0.12, 0.15)),
        "head": ("share", Uniform(0.1, 0.14)),
        "face": ("length", Exact(0.021)),
    }
    return Workings({n: Quantity(n, KINDS[k], s, "assumed", "benchmark") for n, (k, s) in given.items()}, 1, COUNT)


TAKES = {"torque": "torque", "pitch": "pitch", "pitch_diameter": "pitch-diameter", "friction_thread": "thread", "friction_head": "head", "bearing_diameter": "face"}  # fmt: skip


def rows() -> list[tuple[str, float, str]]:
    """Name, value, unit of each measurement."""
    warm = _workings()
    warm.work_out("preload", preload_from_torque, **TAKES)
    arrays = {slot: warm[name].draws for slot, name in TAKES.items()}
    texts = {"torque": "370 N·m", "diameter": "16 mm", "nut-factor": "0.15"}
    call("preload-from-nut-factor", texts)

    def changed() -> None:
        other = warm.what_if(Quantity("torque", KINDS["torque"], Normal(360, 9), "assumed", "benchmark"))
        other.work_out("preload", preload_from_torque, **TAKES)

    changed()
    done = subprocess.run(
        [sys.executable, "-c", "import time; t = time.perf_counter(); from axlewright.formulary import formula; formula('preload-from-nut-factor'); print(time.perf_counter() - t)"],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    return [
        (
            "work_out, six inputs, warm",
            _best(lambda: warm.work_out("preload", preload_from_torque, **TAKES), 2000),
            "µs",
        ),
        ("the same engine without workings", _best(lambda: preload_from_torque(**arrays), 500), "µs"),
        ("what if, one input back to a known value", _best(changed, 500), "µs"),
        (
            "all of it cold: six draws and the engine",
            _best(lambda: _workings().work_out("preload", preload_from_torque, **TAKES), 50),
            "µs",
        ),
        ("formula called with three typed texts", _best(lambda: call("preload-from-nut-factor", texts), 500), "µs"),
        ("a typed torque read", _best(lambda: parse("340 lbf·ft", "torque"), 2000), "µs"),
        ("a formula found by name, from a fresh start", float(done.stdout) * 1000, "ms"),
    ]


if __name__ == "__main__":
    for name, value, unit in rows():
        print(f"{name:45} {value:8.1f} {unit}")
