"""Bolts: a joint reckoned through and its sheet over 2,048 draws, every draw new, as data and on paper."""

from __future__ import annotations

from itertools import count

from axlewright.kinds import KINDS
from axlewright.plan.pack import pack
from axlewright.plan.reckon.bolt_task import BoltTask, WrenchHeld
from axlewright.plan.reckon.joints import joint
from axlewright.plan.sheet.bolts import bolts_sheet
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.quantities import Exact, LogNormal, Quantity
from axlewright.render import Show, render
from axlewright.trade.threads import parse_designation
from benchmarks.clock import Bench, median_ms

COUNT = 2048
TASK = BoltTask(
    thread=parse_designation("M22"),
    bolts=14,
    head_mark="10.9",
    on_threads="anti-seize",
    on_heads="used-dry",
    turns=Quantity("turns", KINDS["count"], Exact(13.0), "measured", "counted"),
    book_torque=Quantity("book", KINDS["torque"], Exact(700.0), "book", "book"),
    clamp_needed=Quantity("clamp", KINDS["force"], LogNormal(85e3, 0.1), "computed", "told"),
    circle=Quantity("circle", KINDS["length"], Exact(0.36), "measured", "taped"),
    wrench=WrenchHeld(150.0, 750.0),
    fitted=(2, 9),
)
SEEDS = count()


def drawn() -> Drawn:
    return bolts_sheet(joint(TASK, "bench/bolts", next(SEEDS), COUNT), Frame())


def sheet() -> float:
    return median_ms(drawn)


def paper() -> float:
    return median_ms(lambda: render(pack(drawn()), Show(), "pdf"))


def benches() -> list[Bench]:
    return [
        Bench("Bolts sheet over 2,048 draws, new draws each time", sheet, bound=60.0),
        Bench("the same to PDF", paper),
    ]
