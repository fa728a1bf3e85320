"""What taking off wheel and drive is reckoned from: masses, loader, hoist, legs. What nobody read stays empty.

Places in the drive count along its axis from the mounting face outwards, sideways to the right as seen from the wheel
end, and up.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from axlewright.kinds import KINDS
from axlewright.quantities import Basis, Exact, Quantity, Spread, Tenths

How: TypeAlias = Literal["forks", "hook"]
Space: TypeAlias = tuple[float, float, float]  # along, sideways, up [m]
Stretch: TypeAlias = Literal["chain", "polyester-web", "nylon-web", "roundsling"]
CHAIN_STRETCH = (
    0.004  # of its length at its working load limit: grade 8, 80 GPa on two wires of it, within a factor of 2
)
OURS = "assumed; measure it"
WEIGH = "from memory; weigh it"


def lift_quantity(name: str, kind: str, spread: Spread, basis: Basis = "assumed", source: str = OURS) -> Quantity:
    """One input."""
    return Quantity(name, KINDS[kind], spread, basis, source)


def _tenths(name: str, kind: str, low: float, middle: float, high: float, source: str = OURS) -> Quantity:
    return lift_quantity(name, kind, Tenths(low, middle, high), "assumed", source)


@dataclass(frozen=True, slots=True)
class Part:
    """A part between the drive and the hook.

    Attributes:
        name: as it is called in the shed
        limit: on its tag, pulled straight; none while nobody read it [kg]
        factor: of how it is used: choke, basket, edge, angle off its axis [-]
        said: the factor in words: `choked`
    """

    name: str
    limit: Quantity | None
    factor: float = 1.0
    said: str = ""


@dataclass(frozen=True, slots=True)
class Leg:
    """A leg from the hook to a place on the drive.

    Attributes:
        name: A, B, C
        told: `chain, to ring`
        eye: where it bears on the drive [m]
        length: bearing point to bearing point; shackle, hook and link belong to it [m]
        parts: what it is made of
        stretch: what it stretches like
        hoist: it ends in a strap round the body, and a hand chain hoist sets its length
    """

    name: str
    told: str
    eye: Space
    length: Quantity
    parts: tuple[Part, ...]
    stretch: Stretch = "chain"
    hoist: bool = False


@dataclass(frozen=True, slots=True)
class Hoist:
    """What the hook hangs on.

    Attributes:
        parts: hoist at its hole, hook, ring: each carries everything
        handling: row of trade/slings.toml: how it lifts
        rolls: a shop hoist on castors, that could tip; not one on a beam or a loader
        mass: of the shop hoist; none while nobody knows [kg]
        centre: its centre of gravity ahead of the rear castors [m]
        wheelbase: rear to front castors [m]
        hook: ahead of the rear castors [m]
    """

    parts: tuple[Part, ...]
    handling: str = "hand"
    rolls: bool = True
    mass: Quantity | None = None
    centre: Quantity | None = None
    wheelbase: Quantity | None = None
    hook: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Loader:
    """A loader with pallet forks.

    Attributes:
        rated: on forks, its share of the tipping load in it; none while nobody read it [kg]
        rated_centre: its load centre, from the fork face [m]
        tipping_line: its front axle to the fork face; nothing where it is not known [m]
        fork: length of the forks [m]
    """

    rated: Quantity | None
    rated_centre: Quantity
    tipping_line: Quantity
    fork: float = 1.2


@dataclass(frozen=True, slots=True)
class Wheel:
    """The wheel that comes off.

    Attributes:
        mass: tyre, rim, what is bolted on, liquid [kg]
        width: of the tyre [m]
        diameter: of the tyre [m]
        standoff: fork face to the wheel [m]
        crosswise: its axle lies across the forks, not along them
    """

    mass: Quantity
    width: Quantity
    diameter: Quantity
    standoff: Quantity
    crosswise: bool = False


@dataclass(frozen=True, slots=True)
class DriveLifted:
    """The drive that comes off.

    Attributes:
        mass: drained [kg]
        besides: oil left in, slings, hook block, or the timber of the saddle [kg]
        oil: a full fill, for what it would add undrained; none where it is not known [kg]
        along: centre of gravity from the mounting face [m]
        sideways: centre of gravity to the right as seen from the wheel end [m]
        up: centre of gravity above the axis [m]
        flange: diameter of its flange [m]
        length: mounting face to hub flange [m]
    """

    mass: Quantity
    besides: Quantity
    oil: Quantity | None
    along: Quantity
    sideways: Quantity
    up: Quantity
    flange: float = 0.48
    length: float = 0.555


@dataclass(frozen=True, slots=True)
class LiftTask:
    """Wheel and drive, and what takes them off.

    Attributes:
        drive: the drive
        how: on forks in a saddle, or on the hook
        wheel: none where it is off already
        loader: for the wheel, and for the drive on forks
        reach: fork face to the drive's centre of gravity [m]
        fork_height: forks above the ground while it is carried [m]
        hoist: for the hook
        legs: one to four
        scale: unit and step of the scale on the hook
    """

    drive: DriveLifted
    how: How
    wheel: Wheel | None = None
    loader: Loader | None = None
    reach: Quantity | None = None
    fork_height: float = 0.25
    hoist: Hoist | None = None
    legs: tuple[Leg, ...] = ()
    scale: tuple[Literal["kg", "lb"], float] = ("kg", 1.0)

    def quantities(self, at: str) -> dict[str, Quantity]:
        """Every input under its own name: `at/drive-mass`."""
        drive, wheel, loader, hoist = self.drive, self.wheel, self.loader, self.hoist
        given: dict[str, Quantity | None] = {
            "drive-mass": drive.mass, "besides": drive.besides, "oil": drive.oil,
            "centre.x": drive.along, "centre.y": drive.sideways, "centre.z": drive.up, "reach": self.reach,
        }  # fmt: skip
        if wheel:
            given |= {
                "wheel-mass": wheel.mass, "wheel-width": wheel.width, "wheel-diameter": wheel.diameter,
                "standoff": wheel.standoff,
            }  # fmt: skip
        if loader:
            given |= {"rated": loader.rated, "rated-centre": loader.rated_centre, "tipping-line": loader.tipping_line}
        if hoist:
            given |= {"hoist-mass": hoist.mass, "hoist-centre": hoist.centre, "castors": hoist.wheelbase, "hook": hoist.hook}  # fmt: skip
            given |= {f"part-{n}": part.limit for n, part in enumerate(hoist.parts, 1)}
        for n, leg in enumerate(self.legs, 1):
            given |= {f"legs.{n}.length": leg.length}
            given |= {f"leg-{n}-part-{m}": part.limit for m, part in enumerate(leg.parts, 1)}
            for axis, place in zip("xyz", leg.eye, strict=True):
                given[f"legs.{n}.eyes.1.{axis}"] = lift_quantity("eye", "length", Exact(place), leg.length.basis, "where the leg bears")  # fmt: skip
        named = (replace(one, name=f"{at}/{name}") for name, one in given.items() if one is not None)
        return {one.name: one for one in named}


def drive_lifted(
    mass: Quantity | None = None,
    flange: float = 0.48,
    length: float = 0.555,
    oil: Quantity | None = None,
    centre: tuple[Quantity, Quantity, Quantity] | None = None,
) -> DriveLifted:
    """A drive of which only this is known; the rest is the trade's guess and says so.

    Args:
        mass: drained; from memory where nobody weighed it [kg]
        flange: diameter of its flange [m]
        length: mounting face to hub flange [m]
        oil: a full fill [kg]
        centre: centre of gravity, along, sideways, up [m]
    """
    share = "0.45 of the length, from memory; a trial lift shows it"
    along, sideways, up = centre or (
        _tenths("along", "length", 0.35 * length, 0.45 * length, 0.55 * length, share),
        _tenths("sideways", "length", -0.015, 0.0, 0.015, "0 to 25 mm to the brake or motor, from memory"),
        _tenths("up", "length", -0.015, 0.0, 0.015, "from memory; a trial lift shows it"),
    )
    return DriveLifted(
        mass=mass or _tenths("mass", "mass", 250.0, 320.0, 420.0, WEIGH),
        besides=_tenths("besides", "mass", 6.0, 10.0, 15.0, "0.5 to 1.5 L of oil left in, slings, hook block; from memory"),
        oil=oil,
        along=along,
        sideways=sideways,
        up=up,
        flange=flange,
        length=length,
    )  # fmt: skip
