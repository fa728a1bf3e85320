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
from benchmarks.clock import Bench

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


def warm() -> Workings:
    """Workings with all draws and the engine's answer at hand."""
    made = _workings()
    made.work_out("preload", preload_from_torque, **TAKES)
    return made


def warm_call() -> float:
    made = warm()
    return _best(lambda: made.work_out("preload", preload_from_torque, **TAKES), 2000)


def engine_alone() -> float:
    made = warm()
    arrays = {slot: made[name].draws for slot, name in TAKES.items()}
    return _best(lambda: preload_from_torque(**arrays), 500)


def what_if_known() -> float:
    made = warm()

    def changed() -> None:
        other = made.what_if(Quantity("torque", KINDS["torque"], Normal(360, 9), "assumed", "benchmark"))
        other.work_out("preload", preload_from_torque, **TAKES)

    changed()
    return _best(changed, 500)


def cold() -> float:
    return _best(lambda: _workings().work_out("preload", preload_from_torque, **TAKES), 50)


def typed_call() -> float:
    texts = {"torque": "370 N·m", "diameter": "16 mm", "nut-factor": "0.15"}
    call("preload-from-nut-factor", texts)
    return _best(lambda: call("preload-from-nut-factor", texts), 500)


def by_name() -> float:
    """Milliseconds from a started Python to a formula in hand."""
    clocked = "import time; t = time.perf_counter(); from axlewright.formulary import formula; formula('preload-from-nut-factor'); print(time.perf_counter() - t)"
    took = [
        subprocess.run([sys.executable, "-c", clocked], capture_output=True, text=True, check=True) for _ in range(5)
    ]
    return min(float(done.stdout) for done in took) * 1000


def benches() -> list[Bench]:
    return [
        Bench("work_out, six inputs, warm", warm_call, "µs", 10.0),
        Bench("the same engine over 2,048 draws, without workings", engine_alone, "µs"),
        Bench("what if, one input to a value met before", what_if_known, "µs"),
        Bench("all of it cold: six draws and the engine", cold, "µs"),
        Bench("a formula called with three typed texts", typed_call, "µs"),
        Bench("a typed torque read", lambda: _best(lambda: parse("340 lbf·ft", "torque"), 2000), "µs"),
        Bench("a formula found by name, from a fresh start", by_name),
    ]
