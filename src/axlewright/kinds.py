"""The quantity kinds: what sort of thing a number is, its SI unit, and how it scales.

mypy cannot tell a `Length` from a `Force` (both are arrays). Two things can: `Workings.work_out` refuses a wrong
kind, and one law in tests/laws rescales metre, kilogram and second through every engine function by these powers.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeAlias

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float64]
Number: TypeAlias = float | NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: its name, its SI unit, and its powers of metre, kilogram and second."""

    name: str
    unit: str
    powers: tuple[float, float, float] = (0, 0, 0)


# plain numbers
Share: TypeAlias = Annotated[Number, Kind("share", "-")]  # any pure number: a factor, a ratio, a share of one
Count: TypeAlias = Annotated[Number, Kind("count", "1")]
YesNo: TypeAlias = Annotated[bool | NDArray[np.bool_], Kind("yes-no", "-")]  # an answer: stands or not, fits or not
Angle: TypeAlias = Annotated[Number, Kind("angle", "rad")]
Temperature: TypeAlias = Annotated[Number, Kind("temperature", "K")]  # absolute
TemperatureStep: TypeAlias = Annotated[Number, Kind("temperature-step", "K")]  # a difference
Money: TypeAlias = Annotated[Number, Kind("money", "money")]  # the yard's own currency
MoneyRate: TypeAlias = Annotated[Number, Kind("money-rate", "money/s", (0, 0, -1))]
AreaPrice: TypeAlias = Annotated[Number, Kind("area-price", "money/m^2", (-2, 0, 0))]  # what a field is worth, or costs

# space
Length: TypeAlias = Annotated[Number, Kind("length", "m", (1, 0, 0))]
Area: TypeAlias = Annotated[Number, Kind("area", "m^2", (2, 0, 0))]
Volume: TypeAlias = Annotated[Number, Kind("volume", "m^3", (3, 0, 0))]
SectionModulus: TypeAlias = Annotated[Number, Kind("section-modulus", "m^3", (3, 0, 0))]
SecondMoment: TypeAlias = Annotated[Number, Kind("second-moment", "m^4", (4, 0, 0))]
Curvature: TypeAlias = Annotated[Number, Kind("curvature", "1/m", (-1, 0, 0))]

# time and motion
Duration: TypeAlias = Annotated[Number, Kind("duration", "s", (0, 0, 1))]
Rate: TypeAlias = Annotated[Number, Kind("rate", "1/s", (0, 0, -1))]
Speed: TypeAlias = Annotated[Number, Kind("speed", "m/s", (1, 0, -1))]
Acceleration: TypeAlias = Annotated[Number, Kind("acceleration", "m/s^2", (1, 0, -2))]
FieldRate: TypeAlias = Annotated[Number, Kind("field-rate", "m^2/s", (2, 0, -1))]  # area worked in a time
KinematicViscosity: TypeAlias = Annotated[Number, Kind("kinematic-viscosity", "m^2/s", (2, 0, -1))]
Flow: TypeAlias = Annotated[Number, Kind("flow", "m^3/s", (3, 0, -1))]

# mass and force
Mass: TypeAlias = Annotated[Number, Kind("mass", "kg", (0, 1, 0))]
MassRate: TypeAlias = Annotated[Number, Kind("mass-rate", "kg/s", (0, 1, -1))]
Yield: TypeAlias = Annotated[Number, Kind("yield", "kg/m^2", (-2, 1, 0))]  # crop on an area
Density: TypeAlias = Annotated[Number, Kind("density", "kg/m^3", (-3, 1, 0))]
Inertia: TypeAlias = Annotated[Number, Kind("inertia", "kg m^2", (2, 1, 0))]
Force: TypeAlias = Annotated[Number, Kind("force", "N", (1, 1, -2))]
Torque: TypeAlias = Annotated[Number, Kind("torque", "N m", (2, 1, -2))]
Energy: TypeAlias = Annotated[Number, Kind("energy", "J", (2, 1, -2))]
Power: TypeAlias = Annotated[Number, Kind("power", "W", (2, 1, -3))]
Pressure: TypeAlias = Annotated[Number, Kind("pressure", "Pa", (-1, 1, -2))]  # stress too
Stiffness: TypeAlias = Annotated[Number, Kind("stiffness", "N/m", (0, 1, -2))]
Resilience: TypeAlias = Annotated[Number, Kind("resilience", "m/N", (0, -1, 2))]
RotationalStiffness: TypeAlias = Annotated[Number, Kind("rotational-stiffness", "N m/rad", (2, 1, -2))]
LineLoad: TypeAlias = Annotated[Number, Kind("line-load", "N/m", (0, 1, -2))]
SubgradeModulus: TypeAlias = Annotated[Number, Kind("subgrade-modulus", "Pa/m", (-2, 1, -2))]
DynamicViscosity: TypeAlias = Annotated[Number, Kind("dynamic-viscosity", "Pa s", (-1, 1, -1))]


LAST_AXIS = "along the last axis"  # marks a kind of which an array holds one a thing: Annotated[..., Kind, LAST_AXIS]


def kind_of(alias: object) -> Kind:
    """The kind that a type alias such as `Length` carries."""
    for mark in getattr(alias, "__metadata__", ()):
        if isinstance(mark, Kind):
            return mark
    message = f"{alias!r} is no quantity kind: use one of axlewright.kinds"
    raise TypeError(message)


KINDS: dict[str, Kind] = {
    kind.name: kind
    for alias in list(globals().values())
    for kind in getattr(alias, "__metadata__", ())
    if isinstance(kind, Kind)
}
