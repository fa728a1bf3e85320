"""What is known of a trouble's corner and of what it may stand on, as the inputs of the Support sheet.

A weigh ticket of both axles gives the mass and its share; a plate gives a force. Answers count; what nobody answered
is left to the guesses of `reckon`, which say so.
"""

from __future__ import annotations

import math
from collections.abc import Container, Mapping
from dataclasses import replace

from axlewright.engines.gravity import weight_of
from axlewright.engines.holding.stand import stand_rating
from axlewright.kinds import KINDS
from axlewright.plan.quantities_of import judged_words, quantities_of, words_of
from axlewright.plan.reckon.cribs import WET_WOOD, Mat, Owned
from axlewright.plan.reckon.support import PASCAL, Gauge, Plate, SupportInputs
from axlewright.quantities import BASES, Basis, Exact, Normal, Quantity, Spread, Tenths
from axlewright.quantities.spread import NINE_IN_TEN
from axlewright.trade.machines import MachineKind, machine_kinds
from axlewright.trade.soils import soils
from axlewright.trade.supports import frictions
from axlewright.trade.verdicts import questions
from axlewright.yard import Trouble, Yard
from axlewright.yard.asked import answers_of, ticks

Quantities = Mapping[str, Quantity]
Words = Mapping[str, str]

# fields of CornerTask under the names of their questions
NAMES = {
    "centre_height": "machine/cg-height", "track": "machine/track", "wheelbase": "machine/wheelbase",
    "pivot_height": "machine/pivot-height", "rear_axle": "machine/rear-axle-itself", "rear_radius": "machine/rear-radius",
    "header": "machine/header-mass", "axle_height": "wheel/loaded-radius", "drive": "drive/mass",
    "drive_inboard": "drive/inboard", "jack_inboard": "machine/jack-inboard", "jack_ahead": "machine/jack-ahead",
    "crib_inboard": "machine/crib-inboard", "crib_ahead": "machine/crib-ahead", "lift_height": "machine/lift-height",
    "slope_nose": "walk-round/slope-along", "slope_towards": "walk-round/slope-across",
    "chock_height": "walk-round/chock-height", "wind": "walk-round/wind", "wheel": "wheel/mass",
}  # fmt: skip


def support_inputs(yard: Yard, trouble: Trouble, seed: int, count: int) -> SupportInputs | None:
    """The inputs of a trouble's Support sheet; None where no kind of machine is named, or at a rear corner."""
    kind = yard.machine(trouble.corner.machine).kind
    row = machine_kinds().get(kind or "")
    if row is None or not trouble.corner.place.startswith("front"):
        return None
    numbers, words = quantities_of(yard, trouble), words_of(yard, trouble)
    seen = {name for name, one in answers_of(yard, trouble).items() if ticks(one)}
    timber, basis = _timber(numbers, words)
    at = f"{trouble.corner.machine}.{trouble.corner.place}/hold"
    return SupportInputs(
        kind=row.id,
        corner=trouble.corner.place,
        given=_given(numbers, words, row, seen, trouble.corner.place.partition("-")[2]),
        timber=timber,
        timber_basis=basis,
        plate=_plate(numbers),
        ground=_ground(words, seen),
        mat=_mat(numbers),
        friction=words["walk-round/seat"],
        gauge=_gauge(numbers, words),
        answers={**judged_words(words, "HOLDING"), **_found(yard, trouble)},
        at=at,
        seed=seed,
        count=count,
    )


def _found(yard: Yard, trouble: Trouble) -> dict[str, str]:
    """Answers that findings at the corner give: a crack is one, until a newer look shows none."""
    newest = yard.newest(trouble.corner)
    seen = {(name, one.grade) for name, ones in newest.items() for one in ones}
    return {
        row.id: answer
        for row in questions().values()
        for answer, pairs in row.found.items()
        if row.line == "HOLDING" and any((name, grade) in seen for name, grades in pairs.items() for grade in grades)
    }


def _given(
    numbers: Quantities, words: Words, kind: MachineKind, seen: Container[str], side: str
) -> dict[str, Quantity]:
    """Inputs of the corner's task."""
    found = {field: numbers[name] for field, name in NAMES.items() if name in numbers}
    found |= mass_and_share(numbers, kind)
    found |= side_offset(numbers, side)
    if words.get("header") == "off":
        found["header"] = _nothing("header", "header off")
    if words.get("tank") == "empty":
        found["grain"] = _nothing("grain", "tank empty")
    if "walk-round/jack-plate" in numbers:
        found["jack_rating"] = _rated(numbers["walk-round/jack-plate"])
    if words.get("rests-on") == "stand":
        found |= _stand(numbers, words)
    return {**found, **_chocks(words, seen)}


def side_offset(numbers: Quantities, side: str) -> dict[str, Quantity]:
    """How far off its middle the centre of gravity lies, where somebody knows: distances across count towards the corner."""
    if "machine/cg-left" not in numbers:
        return {}
    left = numbers["machine/cg-left"]
    return {"side_offset": left if side == "left" else replace(left, spread=_mirrored(left.spread))}


def _chocks(words: Words, seen: Container[str]) -> dict[str, Quantity]:
    """Friction of chocks and tyres on the floor as it is; none at all where they do not stand at all three wheels."""
    if words.get("walk-round/chocks") in ("fewer", "none"):
        return {
            "chock_friction": _number("chock-friction", "share", Exact(0.0), "measured", "not chocked at three wheels")
        }
    floor = words.get("walk-round/floor")
    if floor is None:
        return {}
    row = frictions()[f"rubber-on-{floor}"]
    how = "seen" if "walk-round/floor" in seen else "said at the table"
    source = f"{floor.replace('-', ' ')}, {how}; {row.source}"
    return {"chock_friction": _number("chock-friction", "share", Exact(row.value), "assumed", source)}


def mass_and_share(numbers: Quantities, kind: MachineKind) -> dict[str, Quantity]:
    """Mass and front share: of both axles where both are known, else of the front axle and the whole."""
    front, rear, mass = (numbers.get(f"machine/{name}") for name in ("front-axle-mass", "rear-axle-mass", "mass"))
    if front and rear:
        (f, sf), (r, sr) = _normal(front), _normal(rear)
        basis, source = _worst(front, rear), f"front {front.source}; rear {rear.source}"
        whole, share = f + r, f / (f + r)
        off = math.hypot(r * sf, f * sr) / whole**2
        return {
            "mass": _number("mass", "mass", _about(whole, math.hypot(sf, sr)), basis, source),
            "front_share": _number("front-share", "share", _share(share, off, basis, kind), basis, source),
        }
    found = {"mass": mass} if mass else {}
    if front and mass and front.spread.middle() < mass.spread.middle():
        (f, sf), (m, sm) = _normal(front), _normal(mass)
        basis, source = _worst(front, mass), f"front {front.source}; whole {mass.source}"
        off = math.hypot(sf / m, f * sm / m**2)
        found["front_share"] = _number("front-share", "share", _share(f / m, off, basis, kind), basis, source)
    return found


def _share(value: float, off: float, basis: Basis, kind: MachineKind) -> Spread:
    """A share as it was weighed. One that was guessed is as doubtful as the trade's own, about the value typed."""
    if basis != "assumed":
        return _about(value, off)
    low, middle, high = kind.share_off_empty
    return Tenths(value + low - middle, value, value + high - middle)


def _normal(one: Quantity) -> tuple[float, float]:
    """Middle and standard deviation."""
    low, high = one.spread.ends()
    return one.spread.middle(), (high - low) / (2 * NINE_IN_TEN)


def _about(middle: float, sd: float) -> Spread:
    return Normal(middle, sd) if sd > 0 else Exact(middle)


def _worst(*of: Quantity) -> Basis:
    """The basis of what was made of several: assumed, where one of them is."""
    return max((one.basis for one in of), key=BASES.index)


def _mirrored(spread: Spread) -> Spread:
    """The same the other way round."""
    match spread:
        case Exact(value):
            return Exact(-value)
        case Normal(mean, sd):
            return Normal(-mean, sd)
        case _:
            low, middle, high = (-float(spread.at(u)) for u in (0.9, 0.5, 0.1))
            return Tenths(low, middle, high)


def _number(name: str, kind: str, spread: Spread, basis: Basis, source: str) -> Quantity:
    return Quantity(name, KINDS[kind], spread, basis, source)


def _nothing(name: str, source: str) -> Quantity:
    return _number(name, "mass", Exact(0.0), "measured", source)


def _rated(plate: Quantity, *, per_pair: bool = False) -> Quantity:
    """The force that a plate in kg or t means."""
    low, middle, high = (float(weight_of(stand_rating(plate.spread.at(u), per_pair))) for u in (0.1, 0.5, 0.9))
    spread = Tenths(low, middle, high) if low < high else Exact(middle)
    return replace(plate, kind=KINDS["force"], spread=spread)


def _stand(numbers: Quantities, words: Words) -> dict[str, Quantity]:
    found = {}
    if "walk-round/stand-plate" in numbers:
        of_a_pair = words["walk-round/stand-rates"] != "one"
        found["stand_rating"] = _rated(numbers["walk-round/stand-plate"], per_pair=of_a_pair)
    if "walk-round/stand-half-base" in numbers:
        found["stand_half_base"] = numbers["walk-round/stand-half-base"]
    return found


def _low(one: Quantity) -> float:
    """The least that a size of timber or a number of pieces may be."""
    return float(one.spread.ends()[0])


def _timber(numbers: Quantities, words: Words) -> tuple[tuple[Owned, ...], Basis]:
    """Timber of one section, at its least size; none while nobody counted and taped it."""
    sizes = [numbers.get(f"walk-round/timber-{name}") for name in ("side", "length", "count")]
    side, length, count = sizes
    if side is None or length is None or count is None or count.spread.middle() < 1:
        return (), "assumed"
    depth = numbers.get("walk-round/timber-depth", side)
    wood, stamp = words["walk-round/timber-wood"], words["walk-round/timber-stamp"]
    owned = Owned(_low(side), _low(depth), _low(length), math.floor(_low(count)), wood, stamp)
    return (owned,), _worst(side, length, count, depth)


def _plate(numbers: Quantities) -> Plate:
    usual = Plate()
    names = {"along": usual.along, "across": usual.across, "thick": usual.thick}
    return Plate(**{name: _low(numbers[f"walk-round/plate-{name}"]) if f"walk-round/plate-{name}" in numbers else own for name, own in names.items()})  # fmt: skip


def _mat(numbers: Quantities) -> Mat | None:
    sizes = [numbers.get(f"walk-round/mat-{name}") for name in ("width", "length", "depth")]
    width, length, depth = (None if one is None else _low(one) for one in sizes)
    if width is None or length is None or depth is None:
        return None
    return Mat(width, length, depth, WET_WOOD * width * length * depth)


def _ground(words: Words, seen: Container[str]) -> Quantity | None:
    """The pressure allowed on the ground that was seen; none while nobody tested it."""
    name = "walk-round/ground"
    if name not in words:
        return None
    row = soils()[words[name]]
    low, middle, high = row.allowed
    source = f"{row.label}, {'tested' if name in seen else 'not tested'}; {row.source}"
    spread: Spread = Tenths(low, middle, high) if low < high else Exact(middle)
    return _number("ground", "pressure", spread, "assumed", source)


def _gauge(numbers: Quantities, words: Words) -> Gauge | None:
    """The jack's gauge, where its piston, its unit and its marks are known."""
    unit, piston, mark = words.get("jack/gauge"), numbers.get("jack/piston"), numbers.get("jack/gauge-mark")
    if unit not in PASCAL or piston is None:
        return None
    step = round(mark.spread.middle() / PASCAL[unit], 6) if mark else None
    return Gauge(piston, step, unit)
