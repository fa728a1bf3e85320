"""What the size on a tyre says of its wheel, while nobody has weighed or taped it."""

from __future__ import annotations

from collections.abc import Container, Mapping

from axlewright.engines.holding.wheel import ballast_mass, liquid_fill, outside_diameter, tyre_mass, wheel_mass
from axlewright.kinds import KINDS
from axlewright.quantities import Normal, Quantity, Tenths
from axlewright.quantities.spread import NINE_IN_TEN
from axlewright.trade.questions import NONE
from axlewright.trade.tyres import Tyre, ballasts, mass_factors, read_tyre, tyre_shares

UNSEEN = "water"  # what may be in a tyre that nobody rapped
SIZES_DIFFER = 0.03  # of a diameter, between makers; Tire and Rim Association tolerance, read


def of_tyre(numbers: Mapping[str, Quantity], words: Mapping[str, str], answered: Container[str]) -> dict[str, Quantity]:
    """Mass, width and height of the wheel by its tyre's size, but what was weighed or taped; nothing without a size.

    Args:
        numbers: what is known of the trouble so far
        words: the same, of words
        answered: names that somebody answered: those stand
    """
    if "wheel/tyre" not in words:
        return {}
    tyre = read_tyre(words["wheel/tyre"])
    diameter = float(outside_diameter(tyre.width, tyre.aspect, tyre.rim))
    made = (
        _mass(tyre, diameter, numbers, words),
        _length("wheel/width", tyre.width, tyre),
        _length("wheel/diameter", diameter, tyre),
    )
    return {one.name: one for one in made if one.name not in answered}


def _length(name: str, value: float, tyre: Tyre) -> Quantity:
    spread = Normal(value, SIZES_DIFFER * value / NINE_IN_TEN)
    return Quantity(name, KINDS["length"], spread, "book", f"size {tyre.designation}; makers differ by 3 %")


def _mass(tyre: Tyre, diameter: float, numbers: Mapping[str, Quantity], words: Mapping[str, str]) -> Quantity:
    """From the tyre's size. Its high end is the one to lift by, with water in it where nobody has looked."""
    factors, rim = mass_factors(), tyre_shares()["rim-of-tyre"].value
    by_build, to_lift = factors[tyre.build].factor, factors["to-lift-by"].factor
    more = numbers["wheel/bolted-on"].spread.middle() if "wheel/bolted-on" in numbers else 0.0
    looked = words.get("wheel/ballast")
    liquid = _liquid(tyre, diameter, looked or NONE)
    perhaps = liquid if looked else _liquid(tyre, diameter, UNSEEN)
    low, middle, high = (
        float(wheel_mass(tyre_mass(tyre.width, diameter, tyre.rim, factor), share, inside, more))
        for factor, share, inside in (
            (by_build[0], rim[0], liquid), (by_build[1], rim[1], liquid), (to_lift[2], rim[2], perhaps),
        )
    )  # fmt: skip
    source = f"size {tyre.designation}: {factors[tyre.build].source}; rim by {tyre_shares()['rim-of-tyre'].source}"
    if not looked:
        source += "; nobody rapped it, so water in it at the heavy end"
    return Quantity("wheel/mass", KINDS["mass"], Tenths(low, middle, high), "assumed", source)


def _liquid(tyre: Tyre, diameter: float, ballast: str) -> float:
    """Mass of the liquid at a usual fill [kg]."""
    if ballast == NONE:
        return 0.0
    fill = liquid_fill(tyre.width, diameter, tyre.rim, tyre_shares()["ring-filled"].value[1])
    return float(ballast_mass(fill, ballasts()[ballast].density))
