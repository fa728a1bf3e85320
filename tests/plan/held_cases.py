"""A corner and a drive, weighed and taped, and what the tests of holding and lifting sheets ask of a pack."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import Any

from axlewright.kinds import KINDS
from axlewright.plan.pack import pack
from axlewright.plan.reckon.corner_task import quantity
from axlewright.plan.reckon.cribs import Owned
from axlewright.plan.reckon.lift_task import Hoist, Leg, LiftTask, Loader, Part, Wheel, drive_lifted
from axlewright.plan.reckon.support import Gauge, SupportInputs
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.walk_round import Walked
from axlewright.quantities import Exact, Normal, Quantity, Tenths
from axlewright.render import render
from axlewright.render.show import Show
from axlewright.sheets import Shown
from axlewright.sheets.text import Frozen

G = 9.80665
FRAME = Frame("Linnet, walker combine, front left", "9", "B", date(2026, 8, 28), "Low Meadow (invented)", "owner")
WALKED = Walked("owner and helper", date(2026, 9, 3), "18:40")
HELD_WELL = {
    "undercarriage": "swinging-rear-axle", "legs": "rigid", "lift-point": "sound", "rests-on": "crib",
    "rear-blocks": "both-sides-10-20-mm", "tank": "empty", "header": "off", "frost": "none", "second-adult": "named",
    "under-18": "nobody", "phone": "works", "on-wood": "yes", "overnight": "no",
}  # fmt: skip
LIFTED_WELL = {
    "tags": "read", "mass-known": "weighed", "hoist": "no", "slings": "rated", "textile": "no", "landing": "there",
}  # fmt: skip


def given(**changed: float) -> dict[str, Quantity]:
    """A walker combine of which everything was weighed, taped and read."""
    values = {
        "mass": 9400, "front_share": 0.62, "side_offset": 0.01, "centre_height": 1.65, "track": 2.7, "wheelbase": 3.55,
        "pivot_height": 0.7, "rear_axle": 720, "rear_radius": 0.6, "header": 0.0, "grain": 0.0, "wheel": 470, "axle_height": 0.8,
        "drive": 335, "drive_inboard": 0.25, "jack_inboard": 0.36, "jack_ahead": -0.4, "crib_inboard": 0.44, "crib_ahead": 0.0,
        "lift_height": 0.57, "slope_nose": 0.004, "slope_towards": 0.003, "wind": 0.0, "jack_rating": 12e4,
    }  # fmt: skip
    return {name: quantity(name, Exact(value), "measured", "test") for name, value in {**values, **changed}.items()}


TIMBER = (Owned(0.13, 0.13, 0.85, 18, "unknown", "C24"),)
SLAB = Quantity("ground", KINDS["pressure"], Exact(1.1e6), "measured", "slab")
GAUGE = Gauge(Quantity("bore", KINDS["length"], Exact(0.05), "book", "its plate"), 5.0)
SHOP = SupportInputs(
    "walker-combine", "front-left", given(), TIMBER, ground=SLAB, gauge=GAUGE, friction="steel-on-wood", answers=HELD_WELL, at="linnet/hold", count=512
)  # fmt: skip
TABLE = SupportInputs(
    "walker-combine", "front-left", {}, TIMBER,
    ground=Quantity("ground", KINDS["pressure"], Tenths(150e3, 200e3, 300e3), "assumed", "stone"), at="linnet/hold", count=512,
)  # fmt: skip


def known(kind: str, value: float, basis: Any = "measured", sd: float = 0.0) -> Quantity:
    return Quantity("x", KINDS[kind], Normal(value, sd) if sd else Exact(value), basis, "test")


def tag(kilos: float) -> Quantity:
    return known("mass", kilos, "book")


LEGS = (
    Leg("A", "chain", (-0.02, 0.16, 0.16), known("length", 0.7), (Part("chain 8 mm", tag(1900)),)),
    Leg("B", "chain", (-0.02, -0.16, 0.16), known("length", 0.7), (Part("chain 8 mm", tag(1900)),)),
    Leg("C", "hoist and strap", (0.48, 0.0, 0.13), known("length", 0.66), (Part("chain hoist", tag(600)), Part("web strap", tag(900), 0.8, "choked")), "polyester-web", hoist=True),
)  # fmt: skip
HOIST = Hoist(
    (Part("shop hoist", tag(550)), Part("hook", tag(1100))), "hand", True,
    known("mass", 115), known("length", 0.55), known("length", 1.6), known("length", 1.4),
)  # fmt: skip
LOADER = Loader(tag(1700), known("length", 0.5), known("length", 0.8))
WHEEL = Wheel(known("mass", 470, sd=5), known("length", 0.66), known("length", 1.66), known("length", 0.06))
DRIVE = replace(
    drive_lifted(known("mass", 335, sd=4), oil=known("mass", 12)),
    along=known("length", 0.26, sd=0.006), sideways=known("length", 0.0, sd=0.004), up=known("length", -0.01, sd=0.004),
)  # fmt: skip
HOOKED = LiftTask(DRIVE, "hook", WHEEL, LOADER, known("length", 0.75), 0.25, HOIST, LEGS)
FORKED = replace(HOOKED, how="forks", hoist=None, legs=())


def read(drawn: Drawn, **show: Any) -> str:
    return render(pack(drawn), Show(**show), "text").decode()


def shown_in(part: object) -> Iterator[Shown]:
    """Every number of a sheet, wherever it stands."""
    if isinstance(part, Shown):
        yield part
    elif isinstance(part, Frozen):
        for name in type(part).model_fields:
            yield from shown_in(getattr(part, name))
    elif isinstance(part, tuple):
        for one in part:
            yield from shown_in(one)


def every_number_has_its_basis(drawn: Drawn) -> None:
    for one in shown_in(drawn.sheets):
        assert one.name in drawn.basis, one.name
    for entry in drawn.basis.values():
        assert entry.source
        assert set(entry.made_of) <= set(drawn.basis), (entry.name, set(entry.made_of) - set(drawn.basis))


def no_chance_is_printed(drawn: Drawn) -> None:
    said = read(drawn).lower()
    for word in ("chance", "probab", "likelihood", "odds", "risk", "percentile"):
        assert word not in said
    assert not [line for line in said.splitlines() if re.search(r"\d\s?%", line) and not re.search(r"slope|over 3|level", line)]  # fmt: skip
