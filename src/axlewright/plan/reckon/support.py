"""All that the Support sheet is reckoned from: machine, timber, ground, jack; reckoned through, each section by itself."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TypeAlias

from axlewright.engines.holding.jack import bites
from axlewright.engines.holding.layouts import pieces_in
from axlewright.plan.once import once
from axlewright.plan.reckon.corner_task import Case, CornerTask, corner_task
from axlewright.plan.reckon.cribs import (
    Cribbed,
    CribGear,
    Mat,
    Owned,
    TwoEnds,
    crib_load,
    cribs,
    gauge_marks,
    stand_side,
)
from axlewright.plan.reckon.holding import EDGES, STAGES, HeldMargin, Holding, Stage, hold, workings
from axlewright.plan.reckon.unknowns import Asked, Unknown, load_ratio, tip_ratio, unknowns
from axlewright.plan.steps.bands import NoBand
from axlewright.quantities import Basis, Quantity
from axlewright.trade.supports import held_figures, held_lengths

Margin: TypeAlias = HeldMargin | TwoEnds
BY_STAGE = {stage.name: stage for stage in STAGES}
ON_THE_CRIB = tuple(stage for stage in STAGES if stage.holds == "crib")
LOADED = ("crossing", "seat", "ground")  # what the crib's load is asked of
TIP_LIMIT = 0.2
PASCAL = {"bar": 1e5, "psi": 6894.757293168}


@dataclass(frozen=True, slots=True)
class Gauge:
    """The jack's ram and its gauge.

    Attributes:
        bore: diameter of the piston [m]
        mark: step of the gauge, in its unit; none while nobody read it
        unit: printed on it: bar or psi
        both_ways: it is read while raising and while lowering, and the mean taken
    """

    bore: Quantity
    mark: float | None = 1.0
    unit: str = "bar"
    both_ways: bool = False

    @property
    def step(self) -> float:
        """Step of the gauge [Pa]."""
        return (self.mark or 1.0) * PASCAL[self.unit]


@dataclass(frozen=True, slots=True)
class Plate:
    """The steel plate between beam and crib [m]."""

    along: float = 0.30
    across: float = 0.56
    thick: float = 0.025


@dataclass(frozen=True, slots=True)
class SupportInputs:
    """What a Support sheet is drawn up from. What nobody gave is the trade's guess, and says so, or stays not known.

    Attributes:
        kind: of the machine, as trade/machines.toml names it
        corner: that is raised: front-left or front-right
        given: inputs of `CornerTask` by field name
        timber: at hand; none while nobody counted it
        plate: between beam and crib
        ground: pressure allowed on it; none while nobody tested it [Pa]
        mat: under the crib
        friction: row of trade/supports.toml for the crib's most slippery face
        stands: how long it stands, row of trade/timber.toml
        gauge: of the jack
        answers: of the line HOLDING, by question
        at: what its numbers' names begin with: `bramble.front-right/hold`
        seed: of the draws
        count: of the draws
    """

    kind: str
    corner: str
    given: Mapping[str, Quantity] = field(default_factory=dict)
    timber: tuple[Owned, ...] = ()
    timber_basis: Basis = "assumed"
    plate: Plate = field(default_factory=Plate)
    ground: Quantity | None = None
    mat: Mat | None = None
    friction: str = "steel-on-planed-wood"
    stands: str = "medium"
    gauge: Gauge | None = None
    answers: Mapping[str, str] = field(default_factory=dict)
    at: str = "corner/hold"
    seed: int = 1
    count: int = 2048

    @property
    def rests_on(self) -> str:
        """What the corner comes to rest on."""
        return self.answers.get("rests-on") or ("stand" if "stand_rating" in self.given else "crib")

    def height_of_crib(self, holding: Holding) -> float:
        """Ground, mat or slab to the underside of the plate: the lift point's height, raised and loaded, less what lies between [m]."""
        high = sum(holding.likely[f"{holding.at}/{name}"].middle() for name in ("lift-height", "held-rise"))
        return high - self.plate.thick - (self.mat.depth if self.mat else 0.0)


@dataclass(frozen=True, slots=True)
class Supported:
    """A corner reckoned through for its sheet.

    Attributes:
        inputs: what it was drawn up from
        task: the same with all guesses
        holding: every stage
        cribbed: cribs of the timber at hand
        margins: all of the line HOLDING
        unknowns: by margin, the one input that could break it
        marks: of the gauge, in whole ones: from, to, above; none without a band
        no_band: why there is none
        bites: in which it is raised
    """

    inputs: SupportInputs
    task: CornerTask
    holding: Holding
    cribbed: Cribbed
    margins: tuple[Margin, ...]
    unknowns: Mapping[str, Unknown | None]
    marks: tuple[int, int, int] | None
    no_band: str
    bites: int

    @property
    def pieces(self) -> int:
        """Timbers in the best crib; none where none can be built."""
        return int(pieces_in(self.cribbed.layouts[0])) if self.cribbed.layouts else 0

    @property
    def governing(self) -> Stage:
        """The stage at which the crib carries most."""
        return max(ON_THE_CRIB, key=lambda stage: self.holding.load(stage.name)[1])

    def on_crib(self) -> tuple[float, float]:
        """Likely and heaviest load of the crib [N]."""
        return crib_load(self.holding)


def three_points(kind: str) -> bool:
    """Whether three supports are true of a kind of machine."""
    try:
        corner_task(kind, {})
    except ValueError:
        return False
    return True


@once
def support(inputs: SupportInputs) -> Supported:
    """A corner reckoned through for its sheet.

    Raises:
        Refused: a number of it is out of range; says which
        ValueError: a kind that three supports are not true of, or an input that cannot be
    """
    task = corner_task(inputs.kind, inputs.given)
    holding = hold(workings(task, inputs.at, inputs.seed, inputs.count), inputs.at)
    cribbed = _cribbed(inputs, holding)
    others = stand_side(holding) if inputs.rests_on == "stand" else cribbed.margins
    margins: tuple[Margin, ...] = (*holding.margins, *others)
    made = Supported(inputs, task, holding, cribbed, margins, {}, None, "", _bites(holding))
    marks, why = _marks(inputs, holding, cribbed)
    found = unknowns(holding, _asked(made))
    return replace(made, unknowns=found, marks=marks, no_band=why)


def _bites(holding: Holding) -> int:
    rise = holding.likely[f"{holding.at}/rise"].ends()[1]
    return int(bites(rise, held_lengths()["bite"].value))


def _cribbed(inputs: SupportInputs, holding: Holding) -> Cribbed:
    """Cribs of the timber at hand; the height to the plate is that of the lift point, raised and loaded."""
    if inputs.rests_on != "crib" or not inputs.timber:
        return Cribbed((), crib_load(holding)[1], ())
    gear = CribGear(
        timber=inputs.timber,
        height=inputs.height_of_crib(holding),
        plate_along=inputs.plate.along,
        plate_across=inputs.plate.across,
        ground_allowed=inputs.ground.spread.ends()[0] if inputs.ground else math.inf,
        friction=inputs.friction,
        stands=inputs.stands,
        mat=inputs.mat if inputs.ground else None,
    )
    made = cribs(holding, gear)
    if inputs.ground is None:  # ground that nobody tested holds nothing
        return Cribbed(made.layouts, made.load, tuple(one for one in made.margins if one.what != "ground"))
    return made


def _marks(inputs: SupportInputs, holding: Holding, cribbed: Cribbed) -> tuple[tuple[int, int, int] | None, str]:
    if inputs.gauge is None:
        return None, "The jack’s piston is not known: its bore stands on the plate or in its book."
    if inputs.gauge.mark is None:
        return None, "How far apart are its gauge’s marks? A band is cut to whole ones."
    if inputs.rests_on == "crib" and not any(one.what == "ground" for one in cribbed.margins):
        return None, "Timber and ground must be known before a band is printed."
    friction = 1.0 if inputs.gauge.both_ways else held_figures()["raising-friction"].value
    try:
        return gauge_marks(holding, cribbed, inputs.gauge.bore.spread.middle(), inputs.gauge.step, friction), ""
    except NoBand as no:
        return None, str(no)


def _asked(made: Supported) -> tuple[Asked, ...]:
    """The margins that a guess could break, each at the stage where it is least."""
    at, stage = made.holding.at, made.governing
    asked = [
        Asked(one.what, stage, _heaviest(made, stage), load_ratio(at, stage.name, one.careful * made.cribbed.load))
        for one in made.cribbed.margins
        if one.what in LOADED and math.isfinite(one.careful)
    ]
    for what, name in (("jack", "jack-rating"), ("stand", "stand-rating")):
        mine = [one for one in made.holding.margins if one.what == what]
        if mine:
            least = BY_STAGE[min(mine, key=lambda one: one.at(0.05)).stage]
            asked.append(Asked(what, least, _heaviest(made, least), load_ratio(at, least.name, name)))
    edge, tips = min(
        ((edge, made.holding.held[case][f"{at}/{one.name}.{edge}"].ends()[0], one) for edge, case in EDGES.items() for one in STAGES[1:]),
        key=lambda one: one[1],
    )[::2]  # fmt: skip
    asked.append(Asked("tip-slope", tips, EDGES[edge], tip_ratio(at, tips.name, edge), TIP_LIMIT))
    return tuple(asked)


def _heaviest(made: Supported, stage: Stage) -> Case:
    return made.holding.heaviest_case(stage.name, "corner")[0]


def least_of(margins: tuple[Margin, ...], what: str) -> Margin | None:
    """The weakest margin of a name."""
    return min((one for one in margins if one.what == what), key=lambda one: one.at(0.05), default=None)
