"""Machines by kind, what hangs on them, and grain: what to take until somebody weighs and tapes."""

from __future__ import annotations

from functools import cache

from pydantic import model_validator

from axlewright.trade.rows import Row, rows
from axlewright.trade.si import Angle, Density, Length, Mass, Volume
from axlewright.trade.threads import Known

Lengths = tuple[Length, Length, Length]  # about 10 % low end, middle, 10 % high end
Masses = tuple[Mass, Mass, Mass]
Volumes = tuple[Volume, Volume, Volume]
Shares = tuple[float, float, float]
Angles = tuple[Angle, Angle, Angle]


class _Spread(Row):
    """A row of spreads: each rises."""

    id: str
    known: Known

    @model_validator(mode="after")
    def _rises(self) -> _Spread:
        for name, value in self:
            if isinstance(value, tuple) and not (value[0] <= value[1] <= value[2]):
                message = f"{name}: low end, middle and high end rise"
                raise ValueError(message)
        return self


class MachineKind(_Spread):
    """A kind of machine [SI]: masses without header and empty, shares of the front axle."""

    label: str
    mass: Masses
    tank: Volumes | None = None
    header: Masses | None = None
    share_off_empty: Shares
    share_on_empty: Shares | None = None
    share_on_full: Shares | None = None
    track: Lengths
    wheelbase: Lengths
    height: Lengths
    rear_axle: Masses | None = None
    pivot_height: Lengths | None = None
    axle_stop: Angles | None = None
    rear_axle_swings: bool


class Part(_Spread):
    """Where what hangs on a machine acts [m]."""

    x: Lengths
    y: Lengths
    z: Lengths


class Grain(Row):
    """A grain and its bulk density, at its upper value [kg/m^3]."""

    id: str
    density: Density
    known: Known


@cache
def machine_kinds() -> dict[str, MachineKind]:
    return {row.id: row for row in rows("machines.toml", "machine", MachineKind)}


@cache
def parts() -> dict[str, Part]:
    return {row.id: row for row in rows("machines.toml", "part", Part)}


@cache
def grains() -> dict[str, Grain]:
    return {row.id: row for row in rows("machines.toml", "grain", Grain)}
