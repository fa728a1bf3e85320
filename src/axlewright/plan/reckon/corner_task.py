"""What holding a corner is reckoned from: the inputs, their defaults by machine kind, and their careful corners.

Distances across and slopes count **towards the corner that is worked on**, so that left and right are one reckoning.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from typing import Any, Literal

from axlewright.kinds import KINDS
from axlewright.plan.workings import Refused, Workings, held_at
from axlewright.quantities import Exact, Quantity, Spread, Tenths
from axlewright.trade.machines import MachineKind, machine_kinds, parts
from axlewright.trade.supports import frictions, held_figures, held_forces, held_lengths

End = Literal["low", "high"]
Case = Literal["corner", "low", "wide", "near", "far", "front"]
HELD_SHARE = 0.10  # an unweighed guess stands at the value with a tenth beyond it


@dataclass(frozen=True, slots=True)
class CornerTask:
    """All numbers that holding one front corner is reckoned from.

    Attributes:
        mass: machine without header, tank empty [kg]
        front_share: front axle's share of that [-]
        side_offset: centre of gravity off the middle, towards the corner [m]
        centre_height: centre of gravity above the ground [m]
        track: front wheels' contacts [m]
        wheelbase: front axle to rear pivot [m]
        pivot_height: rear pivot above the ground [m]
        rear_axle: rear axle with its wheels [kg]
        rear_radius: loaded radius of the rear wheels [m]
        header: header, when it hangs on [kg]
        header_x: its centre of gravity ahead of the front axle [m]
        header_z: its centre of gravity above the ground [m]
        grain: grain in the tank [kg]
        grain_x: its centre of gravity ahead of the front axle, so negative [m]
        grain_z: its centre of gravity above the ground [m]
        wheel: front wheel, taken off [kg]
        axle_height: loaded radius of the front wheel [m]
        drive: drive, taken off [kg]
        drive_inboard: wheel's contact to the drive's centre of gravity [m]
        jack_inboard: wheel's contact to the jack [m]
        jack_ahead: jack ahead of the front axle [m]
        crib_inboard: wheel's contact to the crib [m]
        crib_ahead: crib ahead of the front axle [m]
        lift_height: lift point above the ground, wheel down [m]
        rise: greatest rise at the jack [m]
        held_rise: rise at the crib, loaded [m]
        slope_nose: slope of the ground forward [rad]
        slope_towards: slope of the ground towards the corner [rad]
        chock_height: height of the chocks where the tyres bear [m]
        chock_friction: of tyre and chock on this ground [-]
        pull: of a bar, along the ground [N]
        side_share: side force to be reckoned with, of the crib's load [-]
        jack_rating: on the jack's plate; none while nobody read it, and then no margin of the jack [N]
        stand_rating: on a rated stand's plate, of one stand; none without one [N]
        stand_half_base: its middle to the nearest edge of its base; none without one [m]
        wind: gusts at the machine, nothing indoors; none while nobody looked, and then no margin of the wind [m/s]
    """

    mass: Quantity
    front_share: Quantity
    side_offset: Quantity
    centre_height: Quantity
    track: Quantity
    wheelbase: Quantity
    pivot_height: Quantity
    rear_axle: Quantity
    rear_radius: Quantity
    header: Quantity
    header_x: Quantity
    header_z: Quantity
    grain: Quantity
    grain_x: Quantity
    grain_z: Quantity
    wheel: Quantity
    axle_height: Quantity
    drive: Quantity
    drive_inboard: Quantity
    jack_inboard: Quantity
    jack_ahead: Quantity
    crib_inboard: Quantity
    crib_ahead: Quantity
    lift_height: Quantity
    rise: Quantity
    held_rise: Quantity
    slope_nose: Quantity
    slope_towards: Quantity
    chock_height: Quantity
    chock_friction: Quantity
    pull: Quantity
    side_share: Quantity
    jack_rating: Quantity | None
    stand_rating: Quantity | None
    stand_half_base: Quantity | None
    wind: Quantity | None

    def quantities(self, at: str) -> dict[str, Quantity]:
        """Every input under its own name: `at/front-share`."""
        given = {f.name: getattr(self, f.name) for f in fields(self)}
        named = (replace(one, name=f"{at}/{_dashed(name)}") for name, one in given.items() if one is not None)
        return {quantity.name: quantity for quantity in named}


def _dashed(name: str) -> str:
    return name.replace("_", "-")


KIND_OF: dict[str, str] = {
    **dict.fromkeys(("mass", "rear_axle", "header", "grain", "wheel", "drive"), "mass"),
    **dict.fromkeys(("front_share", "chock_friction", "side_share"), "share"),
    **dict.fromkeys(("slope_nose", "slope_towards"), "angle"),
    **dict.fromkeys(("pull", "jack_rating", "stand_rating"), "force"),
    "wind": "speed",
}  # all others are lengths


def quantity(field: str, spread: Spread, basis: Any, source: str) -> Quantity:
    """One input of a task."""
    return Quantity(_dashed(field), KINDS[KIND_OF.get(field, "length")], spread, basis, source)


def corner_task(kind: str, given: Mapping[str, Quantity]) -> CornerTask:
    """A task for a kind of machine: what was given stands as given, the rest is the trade's guess and says so.

    Args:
        kind: of the machine, as trade/machines.toml names it
        given: inputs by field name, booked or measured

    Raises:
        ValueError: no such kind, a kind that three supports are not true of, or an input that is none
        Refused: a value that cannot be; says which
    """
    row = machine_kinds().get(kind)
    if row is None:
        raise ValueError(f"{kind} is no kind of machine; known are {', '.join(machine_kinds())}")
    if not row.rear_axle_swings:
        raise ValueError(f"{row.label}: no swinging rear axle, so three supports are not true of it")
    strangers = set(given) - {f.name for f in fields(CornerTask)}
    if strangers:
        raise ValueError(f"no input of holding a corner: {', '.join(sorted(strangers))}")
    for name, one in given.items():
        wanted = KIND_OF.get(name, "length")
        if one.kind.name != wanted:
            raise ValueError(f"{name} is a {wanted}, not a {one.kind.name}")
        _can_be(name, one)
    return CornerTask(**{**_guesses(row), **given})  # type: ignore[arg-type]


EITHER_WAY = ("side_offset", "header_x", "grain_x", "drive_inboard", "jack_ahead", "crib_ahead", "slope_nose", "slope_towards")  # fmt: skip
MAY_BE_NOTHING = ("header", "grain", "wheel", "drive", "rear_axle", "pivot_height", "pull", "side_share", "wind", "rise", "held_rise", "jack_inboard", "crib_inboard", "chock_friction")  # fmt: skip
STEEPEST = 0.15  # rise over run: beyond it nobody meant the ground under a machine


def _can_be(name: str, one: Quantity) -> None:
    """Refuse what no machine is: less than nothing of it, a share over one, a slope that was read in another unit."""
    low, high = one.spread.ends()
    if name.startswith("slope"):
        if max(abs(low), abs(high)) > math.atan(STEEPEST):
            raise Refused(name, SLOPE, _dashed(name))
    elif name not in EITHER_WAY and (low < 0 or (low == 0 and name not in MAY_BE_NOTHING)):
        raise Refused(
            name, "There is no less than nothing of it." if low < 0 else "It cannot be nothing.", _dashed(name)
        )
    if KIND_OF.get(name) == "share" and high > 1:
        raise Refused(name, "A share is no more than one.", _dashed(name))


SLOPE = "More than 15 %: read in degrees? 3 % is 1.7°, and 3° is 5.2 %."


def _guesses(row: MachineKind) -> dict[str, Quantity | None]:
    """The trade's guess at every input, with its spread; none where only a plate can say."""

    def tenths(field: str, values: tuple[float, float, float], source: str) -> Quantity:
        low, middle, high = values
        spread: Spread = Tenths(low, middle, high) if low < high else Exact(middle)
        return quantity(field, spread, "assumed", source)

    def exactly(field: str, value: float, source: str) -> Quantity:
        return quantity(field, Exact(value), "assumed", source)

    header, grain, body = (parts()[name] for name in ("header", "grain", "body"))
    tank = tuple(772.0 * v for v in row.tank) if row.tank else (0.0, 0.0, 0.0)  # kg: wheat, and the upper for maize
    ours = "assumed; measure it"
    slope = Tenths(-0.02, 0.0, 0.02)  # rad: nobody took a level to it yet, so it may fall either way
    clearance, bite = held_lengths()["clearance"], held_lengths()["bite"]
    return {
        "mass": tenths("mass", row.mass, row.source),
        "front_share": tenths("front_share", row.share_off_empty, row.source),
        "side_offset": tenths("side_offset", body.y, body.source),
        "centre_height": tenths("centre_height", row.height, row.source),
        "track": tenths("track", row.track, row.source),
        "wheelbase": tenths("wheelbase", row.wheelbase, row.source),
        "pivot_height": tenths("pivot_height", row.pivot_height or (0.0, 0.0, 0.0), row.source),
        "rear_axle": tenths("rear_axle", row.rear_axle or (0.0, 0.0, 0.0), row.source),
        "rear_radius": tenths("rear_radius", (0.50, 0.60, 0.70), ours),
        "header": tenths("header", row.header or (0.0, 0.0, 0.0), row.source),
        "header_x": tenths("header_x", header.x, header.source),
        "header_z": tenths("header_z", header.z, header.source),
        "grain": tenths("grain", (tank[0], tank[1], tank[2]), "tank size, full of wheat or maize"),
        "grain_x": tenths("grain_x", grain.x, grain.source),
        "grain_z": tenths("grain_z", grain.z, grain.source),
        "wheel": tenths("wheel", (350.0, 500.0, 700.0), "tyre with rim, from memory; weigh it"),
        "axle_height": tenths("axle_height", (0.70, 0.80, 0.90), ours),
        "drive": tenths("drive", (250.0, 320.0, 420.0), "from memory; weigh it"),
        "drive_inboard": tenths("drive_inboard", (0.15, 0.25, 0.35), ours),
        "jack_inboard": tenths("jack_inboard", (0.30, 0.40, 0.50), "usual 0.3 to 0.5 m, common practice, no source"),
        "jack_ahead": tenths("jack_ahead", (-0.05, 0.0, 0.05), ours),
        "crib_inboard": tenths("crib_inboard", (0.45, 0.60, 0.75), "beside the jack, so farther in: assumed; tape it"),
        "crib_ahead": tenths("crib_ahead", (-0.05, 0.0, 0.05), ours),
        "lift_height": tenths("lift_height", (0.45, 0.55, 0.65), ours),
        "rise": exactly("rise", 3 * bite.value, bite.source),
        "held_rise": exactly("held_rise", 2 * bite.value + clearance.value, clearance.source),
        "slope_nose": quantity("slope_nose", slope, "assumed", ours),
        "slope_towards": quantity("slope_towards", slope, "assumed", ours),
        "chock_height": exactly("chock_height", 0.15, ours),
        "chock_friction": exactly("chock_friction", frictions()["rubber-on-gravel"].value, frictions()["rubber-on-gravel"].source),
        "pull": exactly("pull", held_forces()["bar-pull"].value, held_forces()["bar-pull"].source),
        "side_share": exactly("side_share", held_figures()["notional-side"].value, held_figures()["notional-side"].source),
        "jack_rating": None,
        "stand_rating": None,
        "stand_half_base": None,
        "wind": None,
    }  # fmt: skip


# Where each unweighed mass, share, height and track stands so that it counts against us: for the load at the corner, and for tipping over each edge.
# A machine taken heavier, or its weight farther forward, loads the corner; a part taken off is taken light, for it relieves less. Raised, or with its corner
# uphill, a high centre of gravity leans away from the corner and a low one loads it: so the load is reckoned with either, and the heavier counts. On a wide track
# the other wheel carries more of a corner held farther in.
# Taken higher, on a narrower track, with its weight farther back and a heavy rear axle that does not tip with it, it tips sooner to a side, and to the far one
# when heavy parts come off a light machine; farther forward, over the front. Places and slopes are drawn: they lie on either side alike.
CAREFUL_END: dict[Case, dict[str, End]] = {
    "corner": {
        "mass": "high", "front_share": "high", "centre_height": "high", "track": "low", "header": "high", "grain": "high",
        "wheel": "low", "drive": "low", "rear_axle": "high",
    },
    "low": {
        "mass": "high", "front_share": "high", "centre_height": "low", "track": "low", "header": "high", "grain": "high",
        "wheel": "low", "drive": "low", "rear_axle": "low",
    },
    "wide": {
        "mass": "high", "front_share": "high", "centre_height": "high", "track": "high", "header": "high", "grain": "high",
        "wheel": "high", "drive": "high", "rear_axle": "high",
    },
    "near": {
        "mass": "high", "front_share": "low", "centre_height": "high", "track": "low", "header": "low", "grain": "high",
        "wheel": "low", "drive": "low", "rear_axle": "high",
    },
    "far": {
        "mass": "low", "front_share": "low", "centre_height": "high", "track": "low", "header": "low", "grain": "high",
        "wheel": "high", "drive": "high", "rear_axle": "high",
    },
    "front": {
        "mass": "low", "front_share": "high", "centre_height": "high", "track": "low", "header": "high", "grain": "high",
        "wheel": "low", "drive": "low", "rear_axle": "high",
    },
}  # fmt: skip


def held(w: Workings, at: str, case: Case) -> Workings:
    """The same workings with every unweighed guess at its careful corner; what was read or weighed keeps its spread."""
    named = {f"{at}/{_dashed(field)}": end for field, end in CAREFUL_END[case].items()}
    guesses = [(w.quantities[name], end) for name, end in named.items() if w.quantities[name].basis == "assumed"]
    return w.what_if(*(held_at(one, end, HELD_SHARE) for one, end in guesses))
