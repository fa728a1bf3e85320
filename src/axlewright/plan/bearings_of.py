"""What is known of the bearings of a trouble's drive and of what its wheel carries, as the task that their life is reckoned from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from axlewright.kinds import KINDS
from axlewright.plan.reckon.bearing_calls import THRUST
from axlewright.plan.reckon.choice_bearings import AT, BOTH, PRINTED
from axlewright.plan.reckon.choice_evidence import Witness
from axlewright.plan.reckon.choice_task import BearingTask, assumed, exact
from axlewright.plan.reckon.corner_task import CornerTask, corner_task
from axlewright.plan.reckon.holding import workings
from axlewright.plan.support_of import NAMES, mass_and_share, side_offset
from axlewright.plan.workings import Refused
from axlewright.quantities import Basis, Exact, Quantity, Tenths
from axlewright.trade.bearings import items, opinion
from axlewright.trade.cleanliness import seen_in_oil
from axlewright.trade.machines import machine_kinds
from axlewright.trade.questions import in_group
from axlewright.yard import Trouble, Yard

Quantities = Mapping[str, Quantity]
GROUP = "bearings"
NEEDED = (*(f"bearings/{which}-{size}" for which in BOTH for size in ("bore", "outside", "width")), "bearings/cup-distance", "bearings/footprint")  # fmt: skip
CARRIES = "bearings/wheel-carries"
PRINTED_ONLY = frozenset(f"bearings/{which}-{name}" for which in BOTH for name in (*PRINTED, "thrust-limit"))
RULES = ("rule", "static-rule", "centre-rule", "old-steel")  # drawn for each bearing by itself
METAL = {
    ("plug", "chips"),
    ("plug", "pieces"),
    ("oil-metal", "flakes"),
    ("oil-metal", "chips"),
}  # seen by eye in the oil
STANDING = ("centre_height", "track", "wheelbase", "pivot_height", "rear_axle", "rear_radius", "header", "axle_height")


def bearings_of(
    yard: Yard, trouble: Trouble, numbers: Quantities, words: Mapping[str, str], seen: Sequence[Witness]
) -> tuple[BearingTask | None, tuple[str, ...]]:
    """The bearings of a trouble's drive, or what is missing of them, in names of questions."""
    missing = tuple(name for name in NEEDED if name not in numbers)
    front = trouble.corner.place.startswith("front")
    row = machine_kinds().get(yard.machine(trouble.corner.machine).kind or "")
    weighed = CARRIES in numbers
    stands = bool(row and row.rear_axle_swings and front)
    if missing or not (weighed or stands):
        return None, missing or (CARRIES,)
    taken = {one.id: assumed(one) for one in items().values()}
    found = {one.id: numbers[one.id] for one in in_group(GROUP) if one.number and one.id in numbers}
    for which in BOTH:
        found |= _by_rule(which, taken, numbers)
    plain = {name: one for name, one in taken.items() if name not in ("bearings/thrust-limit", *(f"bearings/{rule}" for rule in RULES))}  # fmt: skip
    if "road/speed" in numbers:  # the book's, all the way: more turns than there will be
        plain["bearings/road-speed"] = replace(numbers["road/speed"], name="bearings/road-speed")
    found |= {**plain, "bearings/dirt-most": _dirt(seen), "bearings/radius": _radius(numbers, front)}
    if not weighed:
        assert row is not None
        try:
            found |= _at_work(_standing(numbers, row.id, trouble.corner.place.partition("-")[2]))
        except Refused:  # a mass that cannot be: its own sheets say so
            return None, (CARRIES,)
    face = "face to face" if words.get("bearings/cones-face") == "face-to-face" else "back to back"
    return BearingTask(found, face, weighed), ()  # type: ignore[arg-type]


def is_printed(name: str) -> bool:
    """Whether a question asks for what only a book or a catalogue prints."""
    return name in PRINTED_ONLY


def _by_rule(which: str, taken: Quantities, numbers: Quantities) -> dict[str, Quantity]:
    """What is taken of one bearing beside what was typed: the doubt of the rule, and e."""
    at = f"bearings/{which}"
    found = {f"{at}-{rule}": replace(taken[f"bearings/{rule}"], name=f"{at}-{rule}") for rule in RULES}
    limit, factor = f"{at}-thrust-limit", f"{at}-thrust-factor"
    if limit in numbers:
        return found
    if factor in numbers:
        printed = numbers[factor]
        e = exact(limit, "share", THRUST / printed.spread.middle(), printed.basis, f"0.6 over Y; {printed.source}")
    else:
        e = replace(taken["bearings/thrust-limit"], name=limit)
    return {**found, limit: e}


def _dirt(seen: Sequence[Witness]) -> Quantity:
    """The most that dirt may leave of the fatigue limit, by what was seen in the oil: never more than grit would."""
    metal = any((one.finding, one.grade) in METAL for one in seen)
    row = seen_in_oil()["visible metal" if metal else "grit or water"]
    said = "metal was seen in the oil" if metal else "no metal was seen in the oil"
    return exact("bearings/dirt-most", "share", row.most, "assumed", f"{said}; {row.source}")


def _radius(numbers: Quantities, front: bool) -> Quantity:
    """Loaded radius of the wheel; the trade's guess at a front wheel where nobody taped it."""
    asked = "wheel/loaded-radius" if front else "machine/rear-radius"
    known = numbers.get(asked)
    if known:
        return replace(known, name="bearings/radius")
    return Quantity("bearings/radius", KINDS["length"], Tenths(0.70, 0.80, 0.90), "assumed", "assumed; measure it")


def _standing(numbers: Quantities, kind: str, side: str) -> CornerTask:
    """The machine as it works: level, header on, tank part full; slopes stand in the side force."""
    row = machine_kinds()[kind]
    given = {name: numbers[NAMES[name]] for name in STANDING if NAMES[name] in numbers}
    given |= mass_and_share(numbers, row) | side_offset(numbers, side)
    for name in ("slope_nose", "slope_towards"):
        given[name] = _number(name.replace("_", "-"), "angle", Exact(0.0), "assumed", "level; slopes stand in the side force")  # fmt: skip
    full = corner_task(kind, given).grain
    low, middle, high = (float(full.spread.at(share)) * part for share, part in zip((0.1, 0.5, 0.9), opinion().tank, strict=True))  # fmt: skip
    if high > 0:
        given["grain"] = _number("grain", "mass", Tenths(low, middle, high), "assumed", f"half of it in the mean; {full.source}")  # fmt: skip
    return corner_task(kind, given)


def _at_work(task: CornerTask) -> dict[str, Quantity]:
    """Every number of the machine at work, under its own name."""
    return dict(workings(task, AT, 0, 1).quantities)


def _number(name: str, kind: str, spread: Exact | Tenths, basis: Basis, source: str) -> Quantity:
    return Quantity(name, KINDS[kind], spread, basis, source)
