"""What the blank Raised corner tells by machine kind and by timber: the heaviest corner, and what a crib holds of it."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.engines.holding.crib import crib_hold
from axlewright.plan.reckon.corner_task import corner_task
from axlewright.plan.reckon.cribs import Owned, bears, crib_load
from axlewright.plan.reckon.holding import hold, workings
from axlewright.trade.machines import machine_kinds

AT = "blank/hold"
SEED, COUNT = 1, 512
SECTIONS = (0.10, 0.12, 0.15, 0.20)  # m, square
LENGTH = 6.0  # sides, of a timber; crossings lie a side from its ends
SEAT = 0.30  # m, the plate fore and aft


@dataclass(frozen=True, slots=True)
class Heaviest:
    """A kind of machine, header off, tank empty: the heaviest corner we think possible [N]."""

    kind: str
    label: str
    jack: float
    crib: float


@dataclass(frozen=True, slots=True)
class CribHolds:
    """What a crib of square timber holds, outdoors and wet, kind of wood unknown [N]."""

    section: float
    two: float
    three: float


def heaviest_corners() -> tuple[Heaviest, ...]:
    """Every kind that three supports are true of, the jack 0.3 to 0.5 m inboard of the wheel, the crib beside it."""
    rows = []
    for row in machine_kinds().values():
        if not row.rear_axle_swings:
            continue
        holding = hold(workings(corner_task(row.id, {}), AT, SEED, COUNT), AT)
        jack = max(holding.load(stage)[1] for stage in ("jack-takes-it", "raised"))
        rows.append(Heaviest(row.id, row.label, jack, crib_load(holding)[1]))
    return tuple(rows)


def crib_table() -> tuple[CribHolds, ...]:
    """Two by two and three by three, by section; the weaker of crossings and seat, of both codes."""
    return tuple(CribHolds(section, _holds(section, 2), _holds(section, 3)) for section in SECTIONS)


def _holds(section: float, per_layer: int) -> float:
    timber = bears(Owned(section, section, LENGTH * section, 20), "medium")
    held = crib_hold(
        per_layer,
        per_layer,
        section,
        LENGTH * section,
        section,
        SEAT,
        float(timber.allowed_us),
        float(timber.allowed_en),
    )
    return float(held.least)
