"""Which crib to build of the timber at hand: every layout tried, the best by its weakest link first (A3)."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from math import ceil, floor, inf

from axlewright.engines.gravity import STANDARD_GRAVITY
from axlewright.engines.holding.timber import bearing_length_en, bearing_length_factor
from axlewright.engines.limits import above, within
from axlewright.kinds import Count, Density, Force, Length, Pressure, Share, YesNo

MOST_IN_A_LAYER = 4  # more cannot be watched, and the seat does not reach them
MOST_TIERS = 12
HIGHEST = 1.5  # timber lengths, a choice: more is a stop
SIDE_WANTED = 1.5  # side hold over side force, a choice: under it is a stop
HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class Timbers:
    """Pieces of one size and wood that are at hand, measured.

    Attributes:
        width: of each [m]
        depth: of each [m]
        length: of each [m]
        pieces: sound ones [1]
        allowed_us: allowed stress across the grain by the NDS, without its bonus for short bearings [Pa]
        allowed_en: allowed stress across the grain by EN 1995, the load factor in it [Pa]
    """

    width: Length
    depth: Length
    length: Length
    pieces: int
    allowed_us: Pressure
    allowed_en: Pressure


@dataclass(frozen=True, slots=True)
class CribTask:
    """What a crib is to do.

    Attributes:
        load: at its careful end [N]
        height: ground, mat or slab to the underside of the seat's plate [m]
        seat_along: plate's length along the grain of the top layer, fore and aft [m]
        seat_across: plate's length along the axle tube [m]
        pull: side force besides the notional one, such as a bar's [N]
        friction: least of seat, timber on timber, timber on ground [-]
        ground_allowed: pressure allowed on the ground; infinite where a mat or slab is looked at apart [Pa]
        min_packer: least height for packers and wedges [m]
        off_centre: load off the middle of the crib [m]
        notional_share: side force to be reckoned with as a share of the load [-]
        density: of the timber, whose own weight the ground carries too; nothing where that is looked at apart [kg/m^3]
    """

    load: Force
    height: Length
    seat_along: Length
    seat_across: Length
    pull: Force
    friction: Share
    ground_allowed: Pressure
    min_packer: Length = 0.0
    off_centre: Length = 0.0
    notional_share: Share = 0.05
    density: Density = 0.0


@dataclass(frozen=True, slots=True)
class Layout:
    """A crib that can be built, and what it holds over what is asked.

    Attributes:
        crossing_timber: which timbers lie across the axle tube, counted from 0 [1]
        along_timber: which timbers lie along the axle tube, counted from 0 [1]
        crossing_pieces: in each layer across the tube [1]
        along_pieces: in each layer along the tube [1]
        tiers: layers [1]
        first_crosses: the lowest layer lies across the tube, as the top one always does [-]
        built: height of the timber [m]
        packers: height of packers and wedges [m]
        touched: timbers of the top layer under the plate [1]
        overhang: beyond the outermost crossing, at each end [m]
        crossings: hold of the weakest crossings over the load [-]
        seat: hold of the seat over the load [-]
        ground: hold of the ground over the load [-]
        side: hold against sliding and toppling over the side force [-]
        height_share: height over the shorter timber's length [-]
        least: weakest of all, each over what is wanted of it [-]
    """

    crossing_timber: int
    along_timber: int
    crossing_pieces: int
    along_pieces: int
    tiers: int
    first_crosses: YesNo
    built: Length
    packers: Length
    touched: int
    overhang: Length
    crossings: Share
    seat: Share
    ground: Share
    side: Share
    height_share: Share
    least: Share


@dataclass(frozen=True, slots=True)
class _Layers:
    """The two kinds of layer of one layout: timbers across the axle tube and along it."""

    crossing: Timbers
    along: Timbers
    crossing_pieces: int
    along_pieces: int

    @property
    def overhang(self) -> float:
        """One timber's width at each end, the wider one's."""
        return float(max(self.crossing.width, self.along.width))

    def span(self, of: Timbers) -> float:
        """Outer width of the crossings that lie along a timber."""
        return float(of.length - 2 * self.overhang)

    def clear(self, pieces: int, timbers: Timbers, on: Timbers) -> float:
        """Gap between neighbours of a layer that lies on timbers `on`; less than nothing where they do not fit."""
        gap = float((self.span(on) - pieces * timbers.width) / (pieces - 1))
        return gap if abs(gap) > HAIR else 0.0

    def mass(self, tiers: int, density: float) -> float:
        """Mass of so many layers."""
        across, along = ceil(tiers / 2) * self.crossing_pieces, floor(tiers / 2) * self.along_pieces
        each = ((across, self.crossing), (along, self.along))
        return float(density * sum(n * of.width * of.depth * of.length for n, of in each))

    def can_be_laid(self) -> bool:
        both = (self.crossing_pieces, self.crossing, self.along), (self.along_pieces, self.along, self.crossing)
        return all(self.span(on) > 0 and self.clear(pieces, of, on) >= 0 for pieces, of, on in both)

    def touched(self, plate: float) -> int:
        """Timbers of the top layer that lie wholly under a plate in the middle."""
        pitch = self.clear(self.crossing_pieces, self.crossing, self.along) + self.crossing.width
        outer_edges = (
            abs(k - (self.crossing_pieces - 1) / 2) * pitch + self.crossing.width / 2
            for k in range(self.crossing_pieces)
        )
        return sum(1 for edge in outer_edges if edge <= plate / 2 + HAIR)

    def crossing_holds(self) -> float:
        """Load that one crossing bears: the lower of both pieces and both codes."""
        holds = []
        for of, on, pieces in (
            (self.crossing, self.along, self.along_pieces),
            (self.along, self.crossing, self.crossing_pieces),
        ):
            clear = self.clear(pieces, on, of)
            us = of.width * on.width * bearing_length_factor(on.width, self.overhang) * of.allowed_us
            en = of.width * bearing_length_en(on.width, self.overhang, clear) * of.allowed_en
            holds += [float(us), float(en)]
        return min(holds)


def _height(layers: _Layers, tiers: int) -> float:
    """Height of so many layers, the top one across the axle tube."""
    return float(ceil(tiers / 2) * layers.crossing.depth + floor(tiers / 2) * layers.along.depth)


def _has_pieces(layers: _Layers, tiers: int, same: bool) -> bool:
    across, along = ceil(tiers / 2) * layers.crossing_pieces, floor(tiers / 2) * layers.along_pieces
    if same:
        return across + along <= layers.crossing.pieces
    return across <= layers.crossing.pieces and along <= layers.along.pieces


def _worst_share(layers: _Layers, off: float) -> float:
    """How many times its even share the worst crossing bears, the load off the middle both ways at once.

    Infinite where a crossing would lift: that is no crib to build.
    """
    worst = 1.0
    for pieces, of, on in (
        (layers.crossing_pieces, layers.crossing, layers.along),
        (layers.along_pieces, layers.along, layers.crossing),
    ):
        pitch = layers.clear(pieces, of, on) + float(of.width)
        reach = pitch * (pieces + 1) / 6
        worst *= 1 + off / reach if off <= reach else inf
    return worst


def _holds(task: CribTask, layers: _Layers, tiers: int, touched: int) -> tuple[float, float, float, float]:
    """Hold over demand of crossings, seat, ground and side."""
    top, load = layers.crossing, float(task.load)
    # the interface under the touched timbers has the fewest loaded crossings; all lower ones have no fewer
    crossings = touched * layers.along_pieces * layers.crossing_holds() / _worst_share(layers, float(task.off_centre))
    seat = touched * top.width * min(task.seat_along, top.length) * min(top.allowed_us, top.allowed_en)
    bottom, pieces = (top, layers.crossing_pieces) if tiers % 2 else (layers.along, layers.along_pieces)
    # the ends beyond the crossings press as far as the timber is deep
    pressing = min(bottom.length, layers.span(bottom) + 2 * bottom.depth)
    ground = pieces * bottom.width * pressing * task.ground_allowed
    stands = load + layers.mass(tiers, float(task.density)) * STANDARD_GRAVITY
    lever = min(layers.span(top), layers.span(layers.along)) / 2 - task.off_centre
    side = load * min(float(task.friction), lever / float(task.height))
    asked = task.notional_share * load + task.pull
    return crossings / load, float(seat / load), float(ground / stands), float(side / asked)


def crib_layouts(task: CribTask, timbers: tuple[Timbers, ...]) -> tuple[Layout, ...]:
    """Every crib that the timber at hand can make for a task, the one with the strongest weakest link first.

    Layers lie crosswise, the top one across the axle tube, layers of one direction all alike; a timber's width hangs
    over at each end. Crossings, seat and ground are wanted once over the load, the side one and a half times over
    the side force. Among equals fewer timbers go first.

    Args:
        task: load, height, plate, pull, friction, ground
        timbers: what is at hand, by size and wood

    Returns:
        layouts, none where the height, the pieces or the proportions do not allow any

    Source: counting of loaded crossings (US&R shoring guidance); NDS 3.10; EN 1995-1-1 6.1.5; statics.
    Valid: at least two layers, two to four timbers in each, height no more than 1.5 timber lengths, a plate that
        bears on two timbers or more.
    """
    _in_reason(task, timbers)
    numbers = range(len(timbers))
    counts = range(2, MOST_IN_A_LAYER + 1)
    found = []
    for a, b, n, m in product(numbers, numbers, counts, counts):
        layers = _Layers(timbers[a], timbers[b], n, m)
        if not layers.can_be_laid():
            continue
        touched = layers.touched(float(task.seat_across))
        if touched < 2:
            continue
        found += [
            _layout(task, layers, (a, b), tiers, touched)
            for tiers in range(2, MOST_TIERS + 1)
            if _fits(task, layers, tiers) and _has_pieces(layers, tiers, a == b)
        ]
    return tuple(sorted(found, key=_rank))


def _in_reason(task: CribTask, timbers: tuple[Timbers, ...]) -> None:
    """Refuse what no crib can be built for or of, by the name of the part that is wrong."""
    for part in ("load", "height", "seat_along", "seat_across"):
        above(f"task.{part}", getattr(task, part))
    for part in ("pull", "friction", "min_packer", "off_centre", "notional_share", "density"):
        within(f"task.{part}", getattr(task, part), 0.0)
    if task.ground_allowed != inf:
        above("task.ground_allowed", task.ground_allowed)
    above("task.pull", task.notional_share * task.load + task.pull, 0, "a side force, its own or a share of the load")
    within("timbers", len(timbers), 1, 12, "one to twelve sizes at hand")
    for number, of in enumerate(timbers, 1):
        for part in ("width", "depth", "length", "allowed_us", "allowed_en"):
            above(f"timbers.{number}.{part}", getattr(of, part))
        within(f"timbers.{number}.pieces", of.pieces, 0)


def _fits(task: CribTask, layers: _Layers, tiers: int) -> bool:
    """Whether packing makes up the rest, no more than one timber, and it is not too high."""
    rest = float(task.height) - _height(layers, tiers)
    shorter = min(layers.crossing.length, layers.along.length)
    packed = task.min_packer - HAIR <= rest <= min(layers.crossing.depth, layers.along.depth) + HAIR
    return bool(packed and task.height <= HIGHEST * shorter + HAIR)


def _layout(task: CribTask, layers: _Layers, which: tuple[int, int], tiers: int, touched: int) -> Layout:
    crossings, seat, ground, side = _holds(task, layers, tiers, touched)
    built = _height(layers, tiers)
    shorter = float(min(layers.crossing.length, layers.along.length))
    return Layout(
        *which,
        layers.crossing_pieces,
        layers.along_pieces,
        tiers,
        tiers % 2 == 1,
        built,
        float(task.height) - built,
        touched,
        layers.overhang,
        crossings,
        seat,
        ground,
        side,
        float(task.height) / shorter,
        min(crossings, seat, ground, side / SIDE_WANTED),
    )


def pieces_in(layout: Layout) -> Count:
    """Timbers in a layout.

    Args:
        layout: of the crib

    Returns:
        pieces [1]

    Source: counting.
    Valid: any layout.
    """
    return float(ceil(layout.tiers / 2) * layout.crossing_pieces + floor(layout.tiers / 2) * layout.along_pieces)


def _rank(layout: Layout) -> tuple[float, float, float, int, int]:
    return (
        -float(layout.least),
        float(pieces_in(layout)),
        float(layout.packers),
        layout.crossing_timber,
        layout.along_timber,
    )
