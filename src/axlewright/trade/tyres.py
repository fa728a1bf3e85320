"""Tyres: a designation read into its size, what tyres weigh and hold, and what loaders may carry."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Literal

from axlewright.quantities.units import NotRead
from axlewright.trade.rows import Row, rows
from axlewright.trade.si import Density, Mass
from axlewright.trade.threads import Known

INCH = 0.0254  # m
EXAMPLE = "what stands on the side wall: 800/65R32, 20.8R42, 18.4-38, 28L-26"
WIDTHS = {"mm": (180.0, 1300.0), "in": (7.0, 50.0)}  # what a drive tyre can be
RIMS = (12.0, 60.0)  # in
ASPECTS = (30.0, 110.0)  # %

_TYRE = re.compile(
    r"^(?:IF|VF|CFO|LSW)?\s*(?P<width>\d+(?:[.,]\d+)?)\s*(?:/\s*(?P<aspect>\d+(?:[.,]\d+)?))?\s*(?P<low>L)?"
    r"\s*(?P<build>R|-|–|x|X)\s*(?P<rim>\d+(?:[.,]\d+)?)(?:\s+\S.*)?$",
    re.IGNORECASE,
)


class Aspect(Row):
    """Section height over width of inch sizes that begin so."""

    begins: str
    value: float
    known: Known


class MassFactor(Row):
    """Mass of a tyre over width and ring [kg/m^3]: low end, middle, high end."""

    id: str
    factor: tuple[Density, Density, Density]
    known: Known


class Weighed(Row):
    """A tyre that was weighed or listed: least and greatest mass [kg]."""

    size: str
    mass: tuple[Mass, Mass]
    known: Known


class Ballast(Row):
    """Liquid ballast [kg/m^3]."""

    id: str
    density: Density
    known: Known


class TyreShare(Row):
    """A share of a tyre or wheel: low end, middle, high end."""

    id: str
    value: tuple[float, float, float]
    known: Known


class LoaderShare(Row):
    """What a loader may carry of its full-turn tipping load."""

    id: str
    label: str
    share: float
    known: Known


@dataclass(frozen=True, slots=True)
class Tyre:
    """A tyre's size as its designation says it [SI]."""

    designation: str
    width: float
    aspect: float
    rim: float
    build: Literal["radial", "bias"]


@cache
def aspects() -> tuple[Aspect, ...]:
    return rows("tyres.toml", "aspect", Aspect)


@cache
def mass_factors() -> dict[str, MassFactor]:
    return {row.id: row for row in rows("tyres.toml", "mass_factor", MassFactor)}


@cache
def weighed() -> dict[str, Weighed]:
    return {row.size: row for row in rows("tyres.toml", "weighed", Weighed)}


@cache
def ballasts() -> dict[str, Ballast]:
    return {row.id: row for row in rows("tyres.toml", "ballast", Ballast)}


@cache
def tyre_shares() -> dict[str, TyreShare]:
    return {row.id: row for row in rows("tyres.toml", "share", TyreShare)}


@cache
def loader_shares() -> dict[str, LoaderShare]:
    return {row.id: row for row in rows("tyres.toml", "loader", LoaderShare)}


def read_tyre(designation: str) -> Tyre:
    """The size that a designation says.

    Raises:
        NotRead: it is no tyre's designation, or no drive tyre's size
    """
    said = designation.strip()
    found = _TYRE.match(said)
    if not found:
        raise NotRead(designation, EXAMPLE)
    number = {key: float(found[key].replace(",", ".")) if found[key] else None for key in ("width", "aspect", "rim")}
    width, aspect, rim = number["width"] or 0.0, number["aspect"], number["rim"] or 0.0
    unit = "in" if width <= WIDTHS["in"][1] else "mm"
    low, high = WIDTHS[unit]
    if not low <= width <= high:
        raise NotRead(designation, EXAMPLE, hint=f"a width of {width:g} {unit} is no drive tyre's")
    if not RIMS[0] <= rim <= RIMS[1]:
        raise NotRead(designation, EXAMPLE, hint=f"a rim of {rim:g} in is no drive wheel's")
    if unit == "mm" and aspect is None:
        raise NotRead(
            designation, EXAMPLE, hint=f"{width:g} mm wide: the height stands after a stroke, as in 650/75R32"
        )
    if aspect is not None and not ASPECTS[0] <= aspect <= ASPECTS[1]:
        raise NotRead(designation, EXAMPLE, hint=f"a height of {aspect:g} % of the width is no drive tyre's")
    share = aspect / 100 if aspect is not None else _inch_aspect(f"{width:g}", bool(found["low"]))
    build: Literal["radial", "bias"] = "radial" if found["build"].upper() == "R" else "bias"
    return Tyre(said, width * (INCH if unit == "in" else 0.001), share, rim * INCH, build)


def _inch_aspect(width: str, low: bool) -> float:
    """Section height over width of an inch size: its own row, else that of all L sizes, else the common one."""
    by_start = {row.begins: row.value for row in aspects()}
    if low:
        return by_start.get(f"{width}L", by_start["L"])
    return by_start.get(width, by_start[""])
