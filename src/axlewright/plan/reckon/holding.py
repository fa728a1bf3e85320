"""Holding a corner, stage by stage: loads, tipping, jack, chocks, as margins that likely and held workings share."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np

from axlewright.engines.gravity import weight_of
from axlewright.engines.holding.corner import beside_middle, corner_footing, put_on, stands_on, taken_off
from axlewright.engines.holding.supports import slope_share, steepest_slope
from axlewright.engines.holding.upsets import rear_wheel_load, roll_demand, three_chocked_wheels
from axlewright.engines.holding.weighing import body_on_pivot
from axlewright.kinds import KINDS, Force
from axlewright.plan.margins import Margin
from axlewright.plan.reckon.corner_task import Case, CornerTask, held
from axlewright.plan.workings import Workings
from axlewright.quantities import Exact, Quantity

Holds = Literal["wheel", "jack", "crib"]
STEEPEST_GROUND = 0.03  # rise over run; a choice, and what a jack manual after ASME B30.1 bars
STRONGEST_WIND = 15.0  # m/s; a choice
CASES: tuple[Case, ...] = ("corner", "low", "wide", "near", "far", "front")
LOADED: tuple[Case, ...] = ("low", "wide")  # for loads alone, and only from the jack on


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage of the work: what is on the machine, what holds the corner, how far it is raised."""

    name: str
    holds: Holds
    body: str  # which of the bodies below
    rise: Literal["nothing", "rise", "held-rise"] = "nothing"


STAGES = (
    Stage("as-it-stands", "wheel", "full"),
    Stage("header-off", "wheel", "bare"),
    Stage("jack-takes-it", "jack", "bare"),
    Stage("first-bite", "crib", "bare"),  # the crib follows the jack up, and carries most while it is low
    Stage("raised", "jack", "bare", "rise"),
    Stage("on-the-crib", "crib", "bare", "held-rise"),
    Stage("wheel-off", "crib", "no-wheel", "held-rise"),
    Stage("drive-off", "crib", "no-drive", "held-rise"),
)  # refitting goes the same way back; the first is shown, never worked in, so no margin is asked of it
EDGES: dict[str, Case] = {"tip_near": "near", "tip_far": "far", "tip_front": "front"}


@dataclass(frozen=True, slots=True)
class HeldMargin:
    """A margin in likely workings, whose careful end is that of the held ones: what is not weighed is never drawn there."""

    likely: Margin
    held: Margin

    @property
    def what(self) -> str:
        return self.likely.what

    @property
    def stage(self) -> str:
        return self.likely.stage

    def at(self, share: float) -> float:
        """Quantile of capacity over demand: of the likely workings from the middle up, under it of the held ones."""
        return self.likely.at(share) if share >= 0.5 else self.held.at(share)

    def holds(self) -> float:
        """What it can bear at the careful end [SI]."""
        return self.held.capacity.ends()[0]

    def asked(self) -> float:
        """What is asked of it at the careful end [SI]."""
        return self.held.demand.ends()[1]


@dataclass(frozen=True, slots=True)
class Holding:
    """A corner reckoned through: workings by case, each with every stage worked out, and margins."""

    at: str
    likely: Workings
    held: Mapping[Case, Workings]
    margins: tuple[HeldMargin, ...]
    kept: dict[tuple[str, str], tuple[Case, float]] = field(default_factory=dict, compare=False)  # heaviest, once found

    def load(self, stage: str, part: str = "corner") -> tuple[float, float]:
        """Likely and heaviest load of a support at a stage [N]."""
        return self.likely[f"{self.at}/{stage}.{part}"].middle(), self.heaviest(stage, part)

    def loads_most(self, stage: str) -> Workings:
        """The held workings in which the corner carries most at a stage."""
        return self.held[self.heaviest_case(stage, "corner")[0]]

    def heaviest(self, stage: str, part: str) -> float:
        """The heaviest load of a support at a stage, wherever the guesses stand [N]."""
        return self.heaviest_case(stage, part)[1]

    def heaviest_case(self, stage: str, part: str) -> tuple[Case, float]:
        """In which of the held workings a support carries most at a stage, and how much [N]."""
        key = (stage, part)
        if key not in self.kept:
            name = f"{self.at}/{stage}.{part}"
            ends = {case: w[name].ends()[1] for case, w in self.held.items() if name in w}
            most = max(ends, key=lambda case: ends[case])
            self.kept[key] = (most, ends[most])
        return self.kept[key]

    def lightest(self, stage: str, part: str = "corner") -> float:
        """The lightest load of a support at a stage, wherever the guesses stand [N]."""
        name = f"{self.at}/{stage}.{part}"
        return min(w[name].ends()[0] for w in self.held.values() if name in w)

    def tips_at(self, stage: str) -> tuple[float, float]:
        """Likely and least slope left at a stage [rad]."""
        likely = min(self.likely[f"{self.at}/{stage}.{edge}"].middle() for edge in EDGES)
        least = min(self.held[case][f"{self.at}/{stage}.{edge}"].ends()[0] for edge, case in EDGES.items())
        return likely, least


def workings(task: CornerTask, at: str, seed: int, count: int) -> Workings:
    """Likely workings of a corner, before anything is worked out."""
    given = task.quantities(at)
    given[f"{at}/nothing"] = Quantity(f"{at}/nothing", KINDS["length"], Exact(0.0), "assumed", "nothing, by definition")
    given[f"{at}/once"] = Quantity(f"{at}/once", KINDS["share"], Exact(1.0), "assumed", "one, by definition")
    given[f"{at}/ground-limit"] = Quantity(
        f"{at}/ground-limit", KINDS["share"], Exact(STEEPEST_GROUND), "assumed", "a choice: 3 %"
    )
    given[f"{at}/wind-limit"] = Quantity(
        f"{at}/wind-limit", KINDS["speed"], Exact(STRONGEST_WIND), "assumed", "a choice: 15 m/s"
    )
    return Workings(given, seed, count)


def worked_stages(w: Workings, at: str, stages: Iterable[Stage] = STAGES) -> None:
    """Work out what rests on wheels and pivot, and then these stages.

    Raises:
        Refused: a number of it is out of range; says which
    """
    _bodies(w, at)
    for stage in stages:
        _stage(w, at, stage)


def hold(w: Workings, at: str) -> Holding:
    """Every stage of a corner in likely and held workings, and the margins that come of them.

    Raises:
        Refused: a number of it is out of range; says which
    """
    by_case = {case: held(w, at, case) for case in CASES}
    for case, one in (("", w), *by_case.items()):
        worked_stages(one, at, STAGES[2:] if case in LOADED else STAGES)
    made = Holding(at, w, by_case, ())
    margins = [
        HeldMargin(_tipping(w, at, stage.name, edge), _tipping(by_case[case], at, stage.name, edge))
        for stage in STAGES[1:]
        for edge, case in EDGES.items()
    ]
    for holds, plate in (("jack", "jack"), ("crib", "stand")):
        if f"{at}/{plate}-rating" in w.quantities:  # a plate that nobody read holds nothing
            names = [stage.name for stage in STAGES if stage.holds == holds]
            margins += [HeldMargin(*(_rated(one, at, plate, n) for one in (w, made.loads_most(n)))) for n in names]
    # a light machine whose weight is all at the front presses its chocked wheels least for what a bar pulls
    other, nose_heavy = by_case["corner"], by_case["front"]
    if f"{at}/wind" in w.quantities:
        margins.append(HeldMargin(_wind(w, at), _wind(other, at)))
    margins += [HeldMargin(_chocks(w, at, s.name), _chocks(nose_heavy, at, s.name)) for s in STAGES if s.holds != "wheel"]  # fmt: skip
    margins.append(HeldMargin(_ground_slope(w, at), _ground_slope(other, at)))
    return replace(made, margins=tuple(margins))


def as_it_stands(w: Workings, at: str) -> str:
    """Work out nothing but what rests on each wheel with all that hangs on it, and say under which name.

    Raises:
        Refused: a number of it is out of range; says which
    """
    _whole(w, at)
    w.work_out(f"{at}/wheel-beside", beside_middle, track=f"{at}/track", inboard=f"{at}/nothing")
    _stage(w, at, STAGES[0])
    return f"{at}/{STAGES[0].name}"


def _whole(w: Workings, at: str) -> None:
    """What rests on front wheels and pivot: bare, with its header, and with its tank full too."""
    w.work_out(
        f"{at}/bare",
        body_on_pivot,
        mass=f"{at}/mass",
        front_share=f"{at}/front-share",
        side_offset=f"{at}/side-offset",
        centre_height=f"{at}/centre-height",
        wheelbase=f"{at}/wheelbase",
        rear_axle=f"{at}/rear-axle",
        rear_axle_height=f"{at}/rear-radius",
    )
    for part in ("header", "grain"):
        w.work_out(f"{at}/{part}-weight", weight_of, mass=f"{at}/{part}")
    _with(w, at, "headed", put_on, "bare", "header", "header-x", "nothing", "header-z")
    _with(w, at, "full", put_on, "headed", "grain", "grain-x", "nothing", "grain-z")


def _bodies(w: Workings, at: str) -> None:
    """What rests on front wheels and pivot: full, bare, without wheel, without drive."""
    _whole(w, at)
    for part in ("mass", "wheel", "drive", "rear-axle"):
        w.work_out(f"{at}/{part}-weight", weight_of, mass=f"{at}/{part}")
    for place, inboard in (("wheel", "nothing"), ("jack", "jack-inboard"), ("crib", "crib-inboard"), ("drive", "drive-inboard")):  # fmt: skip
        w.work_out(f"{at}/{place}-beside", beside_middle, track=f"{at}/track", inboard=f"{at}/{inboard}")
    _with(w, at, "no-wheel", taken_off, "bare", "wheel", "nothing", "wheel-beside", "axle-height")
    _with(w, at, "no-drive", taken_off, "no-wheel", "drive", "nothing", "drive-beside", "axle-height")


def _with(w: Workings, at: str, name: str, how: object, body: str, part: str, x: str, y: str, z: str) -> None:
    """A body with a part put on or taken off."""
    w.work_out(
        f"{at}/{name}",
        how,  # type: ignore[arg-type]
        weight=f"{at}/{body}.weight",
        x=f"{at}/{body}.x",
        y=f"{at}/{body}.y",
        z=f"{at}/{body}.z",
        part_weight=f"{at}/{part}-weight",
        part_x=f"{at}/{x}",
        part_y=f"{at}/{y}",
        part_z=f"{at}/{z}",
    )


def _stage(w: Workings, at: str, stage: Stage) -> None:
    """Loads and tipping of one stage; what it stands on is the same for every body."""
    ahead = "nothing" if stage.holds == "wheel" else f"{stage.holds}-ahead"
    height = "nothing" if stage.holds == "wheel" else "lift-height"
    footing = f"{at}/{stage.name}/footing"
    w.work_out(
        footing,
        corner_footing,
        track=f"{at}/track",
        wheelbase=f"{at}/wheelbase",
        pivot_height=f"{at}/pivot-height",
        lift_x=f"{at}/{ahead}",
        lift_y=f"{at}/{stage.holds}-beside",
        lift_z=f"{at}/{height}",
        rise=f"{at}/{stage.rise}",
        nose_down=f"{at}/slope-nose",
        left_down=f"{at}/slope-towards",
    )
    w.work_out(
        f"{at}/{stage.name}",
        stands_on,
        weight=f"{at}/{stage.body}.weight",
        centre_x=f"{at}/{stage.body}.x",
        centre_y=f"{at}/{stage.body}.y",
        centre_z=f"{at}/{stage.body}.z",
        footing=footing,
    )


def _tipping(w: Workings, at: str, stage: str, edge: str) -> Margin:
    """The tangent of the slope left over one edge: a margin over one."""
    name = f"{at}/{stage}/{edge.replace('_', '-')}-share"
    return Margin("tip-slope", stage, w.work_out(name, slope_share, slope=f"{at}/{stage}.{edge}"), w[f"{at}/once"])


def _rated(w: Workings, at: str, plate: str, stage: str) -> Margin:
    return Margin(plate, stage, w[f"{at}/{plate}-rating"], w[f"{at}/{stage}.corner"])


def _wind(w: Workings, at: str) -> Margin:
    """15 m/s over the wind; without end indoors."""
    return Margin("wind", "", w[f"{at}/wind-limit"], w[f"{at}/wind"])


def _chocks(w: Workings, at: str, stage: str) -> Margin:
    """Chocks at the other front wheel and both rear wheels against rolling; brake and gear count nothing."""
    w.work_out(
        f"{at}/{stage}/rear", rear_wheel_load, rear_pivot=f"{at}/{stage}.rear_pivot", axle_weight=f"{at}/rear-axle-weight"
    )  # fmt: skip
    rear = w.work_out(f"{at}/{stage}/rear-wheel", pressing, load=f"{at}/{stage}/rear")
    front = w.work_out(f"{at}/{stage}/front-wheel", pressing, load=f"{at}/{stage}.other_wheel")
    holds = w.work_out(
        f"{at}/{stage}/chocks",
        three_chocked_wheels,
        other_wheel=front.name,
        rear_wheel=rear.name,
        front_radius=f"{at}/axle-height",
        rear_radius=f"{at}/rear-radius",
        block_height=f"{at}/chock-height",
        friction=f"{at}/chock-friction",
    )
    wants = w.work_out(
        f"{at}/{stage}/roll", roll_demand, weight=f"{at}/mass-weight", slope=f"{at}/slope-nose", pull=f"{at}/pull"
    )
    return Margin("chocks", stage, holds, wants)


def pressing(load: Force) -> Force:
    """What a wheel presses on the ground.

    Args:
        load: of a rigid machine on three points; less than nothing where it would have to pull [N]

    Returns:
        load; nothing of a wheel in the air [N]

    Source: a contact cannot pull.
    Valid: any load; that the machine does not stand then is said by its tip slope.
    """
    return np.maximum(load, 0.0)


def _ground_slope(w: Workings, at: str) -> Margin:
    """3 % over the ground's steepest slope."""
    steep = w.work_out(
        f"{at}/ground-slope", steepest_slope, nose_down=f"{at}/slope-nose", left_down=f"{at}/slope-towards"
    )
    return Margin("ground-slope", "", w[f"{at}/ground-limit"], steep)
