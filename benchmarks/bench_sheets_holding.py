"""The Support and the Wheel and lift sheet over 2,048 draws: from what was answered to the sheet, verdict and all."""

from __future__ import annotations

from dataclasses import replace
from itertools import count

from axlewright.kinds import KINDS
from axlewright.plan.reckon.cribs import Owned
from axlewright.plan.reckon.lift_task import Hoist, Leg, LiftTask, Loader, Part, Wheel, drive_lifted
from axlewright.plan.reckon.support import Gauge, SupportInputs
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.raised_corner import blank_raised_corner
from axlewright.plan.sheet.support import support_sheet
from axlewright.plan.sheet.wheel_and_lift import LiftInputs, wheel_and_lift_sheet
from axlewright.quantities import Exact, Quantity, Tenths
from benchmarks.clock import Bench, median_ms

FRAME = Frame("bench", "1", "A")


def _known(kind: str, value: float) -> Quantity:
    return Quantity("bench", KINDS[kind], Exact(value), "measured", "bench")


SUPPORT = SupportInputs(
    "walker-combine",
    "front-left",
    {"jack_rating": _known("force", 12e4)},
    (Owned(0.13, 0.13, 0.85, 18, "unknown", "C24"),),
    ground=Quantity("ground", KINDS["pressure"], Tenths(150e3, 200e3, 300e3), "assumed", "stone"),
    gauge=Gauge(_known("length", 0.05)),
)
LEGS = tuple(
    Leg(name, "chain", eye, _known("length", 0.7), (Part("chain", _known("mass", 1900)),))
    for name, eye in (("A", (-0.02, 0.16, 0.16)), ("B", (-0.02, -0.16, 0.16)), ("C", (0.48, 0.0, 0.13)))
)
LIFT = LiftTask(
    drive_lifted(),
    "hook",
    Wheel(_known("mass", 470), _known("length", 0.66), _known("length", 1.66), _known("length", 0.06)),
    Loader(_known("mass", 1700), _known("length", 0.5), _known("length", 0.8)),
    hoist=Hoist((Part("hoist", _known("mass", 550)),), rolls=False),
    legs=LEGS,
)


SEEDS = count()


def support_drawn() -> Drawn:
    return support_sheet(replace(SUPPORT, seed=next(SEEDS)), FRAME)


def lift_drawn() -> Drawn:
    return wheel_and_lift_sheet(LiftInputs(LIFT, seed=next(SEEDS)), FRAME)


def support() -> float:
    return median_ms(support_drawn, runs=9)


def lift() -> float:
    return median_ms(lift_drawn, runs=9)


def both() -> float:
    return median_ms(lambda: (support_drawn(), lift_drawn()), runs=9)


def benches() -> list[Bench]:
    return [
        Bench("Support sheet, 2,048 draws, new each time", support, bound=200),
        Bench("Wheel and lift sheet, three legs, new draws each time", lift, bound=200),
        Bench("both sheets, new draws each time", both, bound=200),
        Bench("blank Raised corner", lambda: median_ms(blank_raised_corner, runs=5)),
    ]
