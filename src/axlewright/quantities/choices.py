"""Which unit a sheet shows a kind in, by size, and what to type for it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from axlewright.quantities.table import ACRE, FOOT, LBF, MILE, US_GALLON


@dataclass(frozen=True, slots=True)
class Choice:
    """What a kind is shown in: the usual unit, and by size the first whose limit [SI] is not reached."""

    usual: str
    by_size: tuple[tuple[float, str], ...] = ()


CHOICES: dict[str, dict[str, Choice]] = {
    "length": {
        "metric": Choice("mm", ((1.0, "mm"), (2000.0, "m"), (math.inf, "km"))),
        "us": Choice("in", ((3 * FOOT, "in"), (MILE, "ft"), (math.inf, "mi"))),
    },
    "area": {
        "metric": Choice("m²", ((0.01, "mm²"), (1e4, "m²"), (math.inf, "ha"))),
        "us": Choice("ft²", ((FOOT**2, "in²"), (ACRE, "ft²"), (math.inf, "ac"))),
    },
    "volume": {
        "metric": Choice("L", ((0.1e-3, "mL"), (10.0, "L"), (math.inf, "m³"))),
        "us": Choice("US qt", ((US_GALLON / 32, "US fl oz"), (2 * US_GALLON, "US qt"), (math.inf, "US gal"))),
    },
    "duration": {
        "metric": Choice("h", ((60.0, "s"), (7200.0, "min"), (math.inf, "h"))),
        "us": Choice("h", ((60.0, "s"), (7200.0, "min"), (math.inf, "h"))),
    },
    "rate": {
        "metric": Choice("/h", ((1 / 60, "/h"), (math.inf, "/min"))),
        "us": Choice("/h", ((1 / 60, "/h"), (math.inf, "/min"))),
    },
    "speed": {
        "metric": Choice("km/h", ((0.1, "mm/s"), (math.inf, "km/h"))),
        "us": Choice("mph", ((0.1, "in/s"), (math.inf, "mph"))),
    },
    "flow": {
        "metric": Choice("L/min", ((1e-6 / 60, "mL/h"), (1e-4 / 60, "mL/min"), (math.inf, "L/min"))),
        "us": Choice("US gal/min", ((1e-4 / 60, "US fl oz/h"), (math.inf, "US gal/min"))),
    },
    "mass": {
        "metric": Choice("kg", ((0.1, "g"), (2000.0, "kg"), (math.inf, "t"))),
        "us": Choice("lb", ((0.1, "oz"), (math.inf, "lb"))),
    },
    "force": {
        "metric": Choice("kN", ((1000.0, "N"), (math.inf, "kN"))),
        "us": Choice("lbf", ()),
    },
    "torque": {
        "metric": Choice("N·m", ((1e4, "N·m"), (math.inf, "kN·m"))),
        "us": Choice("lbf·ft", ((5 * FOOT * LBF, "lbf·in"), (math.inf, "lbf·ft"))),
    },
    "energy": {
        "metric": Choice("kJ", ((1e3, "J"), (math.inf, "kJ"))),
        "us": Choice("ft·lbf", ()),
    },
    "power": {"metric": Choice("kW", ((500.0, "W"), (math.inf, "kW"))), "us": Choice("hp", ())},
    "pressure": {  # a gauge reads bar, a steel's strength is MPa
        "metric": Choice("bar", ((1e4, "mbar"), (1e8, "bar"), (1e10, "MPa"), (math.inf, "GPa"))),
        "us": Choice("psi", ((1e9, "psi"), (math.inf, "ksi"))),
    },
    "stiffness": {
        "metric": Choice("N/mm", ((1e6, "N/mm"), (math.inf, "kN/mm"))),
        "us": Choice("lbf/in", ()),
    },
}  # fmt: skip

# kinds shown in one unit whatever the size: metric, US
for _kind, _metric, _us in (
    ("share", "", ""),
    ("count", "", ""),
    ("yes-no", "", ""),
    ("angle", "°", "°"),
    ("temperature", "°C", "°F"),
    ("temperature-step", "K", "°F"),
    ("money", "", ""),
    ("money-rate", "/h", "/h"),
    ("area-price", "/ha", "/ac"),
    ("mass-rate", "t/h", "lb/h"),
    ("yield", "t/ha", "lb/ac"),
    ("section-modulus", "cm³", "in³"),
    ("second-moment", "cm⁴", "in⁴"),
    ("curvature", "/m", "/ft"),
    ("acceleration", "m/s²", "ft/s²"),
    ("field-rate", "ha/h", "ac/h"),
    ("kinematic-viscosity", "mm²/s", "mm²/s"),
    ("dynamic-viscosity", "mPa·s", "mPa·s"),
    ("density", "kg/m³", "lb/ft³"),
    ("inertia", "kg·m²", "lb·ft²"),
    ("resilience", "mm/kN", "in/lbf"),
    ("rotational-stiffness", "kN·m/rad", "lbf·ft/rad"),
    ("line-load", "kN/m", "lbf/ft"),
    ("subgrade-modulus", "MN/m³", "lbf/in³"),
):
    CHOICES[_kind] = {"metric": Choice(_metric), "us": Choice(_us)}

# what to type, in words of the kind: metric, US
EXAMPLES: dict[str, tuple[str, str]] = {
    "share": ("0.14", "14 %"),
    "count": ("8", "8"),
    "yes-no": ("yes", "no"),
    "angle": ("12°", "2 %"),
    "temperature": ("80 °C", "175 °F"),
    "temperature-step": ("25 K", "45 °F"),
    "money": ("1200", "1200"),
    "money-rate": ("90 /h", "90 /h"),
    "area-price": ("110 /ha", "45 /ac"),
    "mass-rate": ("30 t/h", "66000 lb/h"),
    "yield": ("6.5 t/ha", "5800 lb/ac"),
    "length": ("27 mm", "3 1/4 in"),
    "area": ("245 mm²", "0.38 in²"),
    "volume": ("7.5 L", "8 US qt"),
    "section-modulus": ("120 cm³", "7.3 in³"),
    "second-moment": ("450 cm⁴", "10.8 in⁴"),
    "curvature": ("0.01 /m", "0.003 /ft"),
    "duration": ("12 h", "30 min"),
    "rate": ("0.002 /h", "540 rpm"),
    "speed": ("20 km/h", "12 mph"),
    "acceleration": ("9.8 m/s²", "32 ft/s²"),
    "field-rate": ("2.5 ha/h", "6 ac/h"),
    "kinematic-viscosity": ("150 mm²/s", "150 cSt"),
    "dynamic-viscosity": ("130 mPa·s", "130 cP"),
    "flow": ("4 L/min", "1 US gal/min"),
    "mass": ("850 kg", "1900 lb"),
    "density": ("870 kg/m³", "54 lb/ft³"),
    "inertia": ("12 kg·m²", "285 lb·ft²"),
    "force": ("92 kN", "20700 lbf"),
    "torque": ("340 N·m", "250 lbf·ft"),
    "energy": ("2.5 kJ", "1800 ft·lbf"),
    "power": ("150 kW", "200 hp"),
    "pressure": ("12.5 bar", "180 psi"),
    "stiffness": ("800 N/mm", "4500 lbf/in"),
    "resilience": ("2.4 mm/kN", "0.0004 in/lbf"),
    "rotational-stiffness": ("90 kN·m/rad", "66000 lbf·ft/rad"),
    "line-load": ("14 kN/m", "960 lbf/ft"),
    "subgrade-modulus": ("30 MN/m³", "110 lbf/in³"),
}
