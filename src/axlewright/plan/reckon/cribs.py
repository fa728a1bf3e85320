"""Which crib stands under the corner, of the timber at hand; and what the jack's gauge may show."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf

from axlewright.engines.gravity import weight_of
from axlewright.engines.holding.ground import mat_of_timbers
from axlewright.engines.holding.jack import ram_area
from axlewright.engines.holding.layouts import CribTask, Layout, Timbers, crib_layouts, pieces_in
from axlewright.engines.holding.stand import stand_topple
from axlewright.engines.holding.timber import bearing_allowed_en, bearing_allowed_us
from axlewright.plan.reckon.holding import STAGES, Holding
from axlewright.plan.steps.bands import NoBand, gauge_band
from axlewright.trade.supports import frictions, held_figures, held_forces
from axlewright.trade.timber import figures, species, standings, strength_classes, stresses

HIGHEST = 1.5  # timber lengths, a choice: more is a stop
WET_WOOD = 800.0  # kg/m^3, of crib and mat: wet hardwood; common practice, no source


@dataclass(frozen=True, slots=True)
class Owned:
    """Timber that is at hand, counted and taped.

    Attributes:
        width: real, not nominal [m]
        depth: real, not nominal [m]
        length: of each piece [m]
        pieces: sound ones
        wood: species of trade/timber.toml
        stamp: strength class of trade/timber.toml
    """

    width: float
    depth: float
    length: float
    pieces: int
    wood: str = "unknown"
    stamp: str = "unstamped"


@dataclass(frozen=True, slots=True)
class Mat:
    """Timbers side by side under the crib, across its lowest layer [m].

    Attributes:
        width: of all of them together
        length: along their grain
        depth: of each
        mass: of the mat [kg]
    """

    width: float
    length: float
    depth: float
    mass: float = 0.0


@dataclass(frozen=True, slots=True)
class CribGear:
    """What a crib is built with and on.

    Attributes:
        timber: at hand
        height: ground, mat or slab to the underside of the plate, loaded [m]
        plate_along: plate fore and aft [m]
        plate_across: plate along the axle [m]
        ground_allowed: pressure allowed on the ground, at its low end [Pa]
        friction: row of trade/supports.toml for the most slippery face
        stands: how long it stands, row of trade/timber.toml
        mat: under the crib; none where it stands on the ground itself
    """

    timber: tuple[Owned, ...]
    height: float
    plate_along: float
    plate_across: float
    ground_allowed: float
    friction: str = "steel-on-planed-wood"
    stands: str = "medium"
    mat: Mat | None = None


@dataclass(frozen=True, slots=True)
class TwoEnds:
    """A margin known by its middle and its careful end."""

    what: str
    stage: str
    middle: float
    careful: float

    def at(self, share: float) -> float:
        return self.careful if share < 0.5 else self.middle


@dataclass(frozen=True, slots=True)
class Cribbed:
    """Cribs that the timber at hand can make, the best first, and the margins of that one.

    Attributes:
        layouts: at the careful load
        load: heaviest load on the crib [N]
        margins: of the best layout; none where none can be built
    """

    layouts: tuple[Layout, ...]
    load: float
    margins: tuple[TwoEnds, ...]


def bears(one: Owned, stands: str) -> Timbers:
    """A size of timber with what both codes allow across its grain, outdoors and wet."""
    wood, stamp = species()[one.wood], strength_classes()[one.stamp]
    us = float(bearing_allowed_us(wood.across, wood.wet))
    en = float(
        bearing_allowed_en(
            stamp.across, standings()[stands].factor, figures()["material-factor"].value, figures()["load-factor"].value
        )
    )
    return Timbers(one.width, one.depth, one.length, one.pieces, us, en)


def crib_load(holding: Holding) -> tuple[float, float]:
    """Likely and heaviest load on the crib: it governs before wheel and drive come off [N]."""
    loads = [holding.load(stage.name) for stage in STAGES if stage.holds == "crib"]
    return max(likely for likely, _ in loads), max(heaviest for _, heaviest in loads)


def cribs(holding: Holding, gear: CribGear) -> Cribbed:
    """Layouts for the heaviest load, and how the best one stands in likely and heaviest load.

    A crib is built of timbers of one size: mixed ones rock, and the drawing would not show how.
    """
    likely, heaviest = crib_load(holding)
    lightest = min(holding.lightest(stage.name) for stage in STAGES if stage.holds == "crib")
    timbers = tuple(bears(one, gear.stands) for one in gear.timber)
    task = CribTask(
        load=heaviest,
        height=gear.height,
        seat_along=gear.plate_along,
        seat_across=gear.plate_across,
        pull=held_forces()["bar-pull"].value,
        friction=frictions()[gear.friction].value,
        ground_allowed=inf if gear.mat else gear.ground_allowed,
        notional_share=held_figures()["notional-side"].value,
        density=WET_WOOD,
    )
    layouts = _of_one_size(task, timbers) if timbers else ()
    if not layouts or lightest <= 0:
        return Cribbed((), heaviest, ())
    best = layouts[0]
    same, light = (_again(replace(task, load=load), timbers, best) for load in (likely, lightest))
    ground = (same.ground, best.ground)
    if gear.mat:
        ground = _mat_holds(gear, gear.mat, timbers, best, likely), _mat_holds(gear, gear.mat, timbers, best, heaviest)
    stage = "first-bite"
    ends = {
        "crossing": (same.crossings, best.crossings),
        "seat": (same.seat, best.seat),
        "ground": ground,
        "lower-code": (min(same.crossings, same.seat), min(best.crossings, best.seat)),
        "side-hold": (same.side, min(light.side, best.side)),  # a light corner is walked sooner
        "crib-height": (HIGHEST / best.height_share, HIGHEST / best.height_share),
    }
    return Cribbed(layouts, heaviest, tuple(TwoEnds(what, stage, float(m), float(c)) for what, (m, c) in ends.items()))


def _of_one_size(task: CribTask, timbers: tuple[Timbers, ...]) -> tuple[Layout, ...]:
    """Layouts of timbers of one size each, the strongest first."""
    return tuple(one for one in crib_layouts(task, timbers) if one.crossing_timber == one.along_timber)


def _again(task: CribTask, timbers: tuple[Timbers, ...], best: Layout) -> Layout:
    """The same crib under another load."""
    return next(one for one in crib_layouts(task, timbers) if _built(one) == _built(best))


def _mat_holds(gear: CribGear, mat: Mat, timbers: tuple[Timbers, ...], crib: Layout, load: float) -> float:
    """What ground and mat hold over the load: the mat's length, its bending, its shear, whichever is least.

    The crib's own weight lies on the mat with the load.
    """
    timber = timbers[crib.along_timber]
    each = timber.width * timber.depth * timber.length * WET_WOOD
    load = load + float(weight_of(float(pieces_in(crib)) * each))
    loaded = timber.length - 2 * crib.overhang
    asked = mat_of_timbers(load, weight_of(mat.mass), gear.ground_allowed, mat.width, loaded, mat.depth)
    allowed = stresses()
    bends = allowed["mat-bending"].value / asked.bending if asked.bending > 0 else inf
    shears = allowed["mat-shear"].value / asked.shear_stress if asked.shear_stress > 0 else inf
    return float(min(mat.length / asked.length, bends, shears))


def stand_side(holding: Holding) -> tuple[TwoEnds, ...]:
    """What a rated stand holds sideways over the side force to be reckoned with; nothing where its base was not taped."""
    at, stage = holding.at, "first-bite"
    if f"{at}/stand-half-base" not in holding.likely.quantities:
        return ()
    half = holding.likely[f"{at}/stand-half-base"].ends()[0]
    high = sum(holding.likely[f"{at}/{name}"].ends()[1] for name in ("lift-height", "held-rise"))
    pull, share = held_forces()["bar-pull"].value, held_figures()["notional-side"].value
    lightest = min(holding.lightest(one.name) for one in STAGES if one.holds == "crib")
    middle, careful = (
        float(stand_topple(load, half, high)) / (share * load + pull) for load in (crib_load(holding)[0], lightest)
    )
    return (TwoEnds("side-hold", stage, middle, careful),)


def _built(layout: Layout) -> tuple[int, ...]:
    return (
        layout.crossing_timber,
        layout.along_timber,
        layout.crossing_pieces,
        layout.along_pieces,
        layout.tiers,
    )


def gauge_marks(
    holding: Holding, cribbed: Cribbed, bore: float, mark: float, friction: float = 1.0
) -> tuple[int, int, int]:
    """What the jack's gauge may show with the tyre just clear, in whole marks: go on from, go on to, lower now above.

    Args:
        holding: corner reckoned through
        cribbed: crib it will stand on
        bore: of the jack's ram [m]
        mark: step of the gauge [Pa]
        friction: 1 for the mean of up and down, more while raising

    Raises:
        NoBand: the jack's plate is not read, or the heaviest load is over the weakest of jack, crib and ground
    """
    if f"{holding.at}/jack-rating" not in holding.likely.quantities:
        raise NoBand("The jack's plate must be read before a band is printed.")
    name = f"{holding.at}/jack-takes-it.corner"
    low, careful = holding.likely[name].ends()[0], holding.heaviest("jack-takes-it", "corner")
    rating = holding.likely[f"{holding.at}/jack-rating"].ends()[0]
    holds = [m.careful * cribbed.load for m in cribbed.margins if m.what in ("crossing", "seat", "ground")]
    if f"{holding.at}/stand-rating" in holding.likely.quantities:
        holds.append(holding.likely[f"{holding.at}/stand-rating"].ends()[0])
    share = min(careful / cribbed.load, 1.0)  # a crib farther in carries more than the jack's gauge shows
    least = min([rating, *(one * share for one in holds)]) if holds else 0.0
    return gauge_band(low, careful, least, float(ram_area(bore)), mark, friction)
