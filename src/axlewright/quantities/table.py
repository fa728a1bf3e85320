"""The units: exact factors to SI, spellings, and which of them a sheet shows.

Lengths, masses, forces and volumes by the international yard and pound (1959), the US gallon of 231 cubic inches, the
imperial gallon of 4.54609 L, standard gravity 9.80665 m/s^2: all exact by definition. Checked against a general
units library in tests/quantities.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

INCH, FOOT, YARD, MILE = 0.0254, 0.3048, 0.9144, 1609.344  # m
POUND, OUNCE, GRAVITY = 0.45359237, 0.45359237 / 16, 9.80665  # kg, kg, m/s^2
LBF = POUND * GRAVITY  # N
PSI = LBF / INCH**2  # Pa
US_GALLON, IMP_GALLON = 231 * INCH**3, 4.54609e-3  # m^3
ACRE = 43560 * FOOT**2  # m^2, of the international foot
HORSEPOWER, METRIC_HORSEPOWER = 550 * FOOT * LBF, 75 * GRAVITY  # W
HOUR, DAY = 3600.0, 86400.0  # s


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of one kind. SI value = number x factor + offset; a `sloped` one is the per cent of a rise, an angle."""

    kind: str
    symbol: str
    factor: float
    spellings: tuple[str, ...] = ()
    offset: float = 0.0
    sloped: bool = False
    mark: float | None = None  # the step that a common gauge, wrench or tape has, in this unit

    def to_si(self, number: float) -> float:
        """The SI value of a number of this unit."""
        value = number * self.factor + self.offset
        return math.atan(value) if self.sloped else value

    def from_si(self, si: float) -> float:
        """The number of this unit that an SI value is."""
        return ((math.tan(si) if self.sloped else si) - self.offset) / self.factor


def _units(kind: str, *rows: tuple[str, float] | tuple[str, float, str] | tuple[str, float, str, float]) -> list[Unit]:
    """Rows of symbol, factor, spellings parted by commas, mark."""
    made = []
    for row in rows:
        said = tuple(s.strip() for s in row[2].split(",")) if len(row) > 2 else ()
        made.append(Unit(kind, row[0], row[1], said, mark=row[3] if len(row) > 3 else None))
    return made


UNITS: tuple[Unit, ...] = (
    *_units("share", ("", 1.0), ("%", 0.01, "percent, per cent, pct"), ("‰", 0.001, "per mille")),
    *_units("yes-no", ("", 1.0)),
    *_units("count", ("", 1.0, "pieces, pcs")),
    *_units(
        "angle",
        ("°", math.pi / 180, "deg, degs, degree, degrees", 1.0),
        ("rad", 1.0, "radian, radians"),
        ("mrad", 1e-3),
        ("turn", 2 * math.pi, "turns, rev, revolution, revolutions"),
    ),
    Unit("angle", "%", 0.01, ("percent", "per cent", "pct"), sloped=True, mark=0.5),
    Unit("angle", "mm/m", 0.001, sloped=True),
    Unit("temperature", "°C", 1.0, ("C", "degC", "deg C", "celsius"), offset=273.15),
    Unit("temperature", "°F", 5 / 9, ("F", "degF", "deg F", "fahrenheit"), offset=273.15 - 32 * 5 / 9),
    Unit("temperature", "K", 1.0, ("kelvin",)),
    *_units(
        "temperature-step",
        ("K", 1.0, "kelvin, °C, C, degC, deg C, celsius"),
        ("°F", 5 / 9, "F, degF, deg F, fahrenheit"),
    ),
    *_units("money", ("", 1.0, "money")),
    *_units(
        "money-rate",
        ("/h", 1 / HOUR, "per h, per hour, an hour, money/h"),
        ("/day", 1 / DAY, "per day, a day, money/day, /d"),
        ("/s", 1.0, "per s, per second, money/s"),
    ),
    *_units(
        "area-price",
        ("/ha", 1e-4, "per ha, per hectare, a hectare, money/ha"),
        ("/ac", 1 / ACRE, "per ac, per acre, an acre, money/ac"),
        ("/m²", 1.0, "per m², money/m²"),
    ),
    *_units("mass-rate", ("t/h", 1e3 / HOUR, "t/hr"), ("kg/s", 1.0), ("lb/h", POUND / HOUR, "lb/hr")),
    *_units("yield", ("t/ha", 0.1), ("kg/m²", 1.0), ("lb/ac", POUND / ACRE, "lb/acre")),
    *_units(
        "length",
        ("mm", 1e-3, "millimetre, millimetres, millimeter, millimeters", 1.0),
        ("cm", 1e-2, "centimetre, centimetres, centimeter, centimeters"),
        ("dm", 0.1),
        ("m", 1.0, "metre, metres, meter, meters", 0.01),
        ("km", 1e3, "kilometre, kilometres, kilometer, kilometers"),
        ("µm", 1e-6, "um, μm, micron, microns"),
        ("in", INCH, 'inch, inches, ", ″, ”', 1 / 16),
        ("ft", FOOT, "foot, feet, ', ′, ’", 0.5),
        ("yd", YARD, "yard, yards"),
        ("mi", MILE, "mile, miles"),
        ("thou", INCH / 1000, "mil, mils"),
    ),
    *_units(
        "area",
        ("mm²", 1e-6, "sq mm"),
        ("cm²", 1e-4, "sq cm"),
        ("m²", 1.0, "sq m"),
        ("ha", 1e4, "hectare, hectares"),
        ("km²", 1e6, "sq km"),
        ("in²", INCH**2, "sq in, square inches"),
        ("ft²", FOOT**2, "sq ft, square feet"),
        ("ac", ACRE, "acre, acres"),
    ),
    *_units(
        "volume",
        ("L", 1e-3, "litre, litres, liter, liters, dm³", 0.1),
        ("mL", 1e-6, "cc, cm³, millilitre, millilitres, milliliter, milliliters"),
        ("cL", 1e-5),
        ("dL", 1e-4),
        ("m³", 1.0, "cu m"),
        ("US qt", US_GALLON / 4, "US quart, US quarts, qt US", 0.25),
        ("US gal", US_GALLON, "US gallon, US gallons, gal US, USG"),
        ("US pt", US_GALLON / 8, "US pint, US pints, pt US"),
        ("US fl oz", US_GALLON / 128, "US floz"),
        ("imp gal", IMP_GALLON, "UK gal, imperial gallon, imperial gallons, gal imp, gal UK"),
        ("imp qt", IMP_GALLON / 4, "UK qt, imperial quart, imperial quarts"),
        ("imp pt", IMP_GALLON / 8, "UK pt, imperial pint, imperial pints"),
        ("imp fl oz", IMP_GALLON / 160, "UK fl oz"),
        ("in³", INCH**3, "cu in, cubic inches"),
        ("ft³", FOOT**3, "cu ft, cubic feet"),
    ),
    *_units("section-modulus", ("cm³", 1e-6), ("mm³", 1e-9), ("m³", 1.0), ("in³", INCH**3, "cu in")),
    *_units("second-moment", ("cm⁴", 1e-8), ("mm⁴", 1e-12), ("m⁴", 1.0), ("in⁴", INCH**4)),
    *_units("curvature", ("/m", 1.0, "1/m"), ("/mm", 1e3, "1/mm"), ("/ft", 1 / FOOT, "1/ft"), ("/in", 1 / INCH, "1/in")),
    *_units(
        "duration",
        ("h", HOUR, "hr, hrs, hour, hours", 0.1),
        ("min", 60.0, "mins, minute, minutes"),
        ("s", 1.0, "sec, secs, second, seconds"),
        ("d", DAY, "day, days"),
        ("week", 7 * DAY, "weeks, wk"),
        ("year", 365.25 * DAY, "years, yr, yrs"),  # Julian year
    ),
    *_units(
        "rate",
        ("/s", 1.0, "1/s, per s, per second, Hz"),
        ("/min", 1 / 60, "1/min, per min, per minute, rpm, rev/min"),
        ("/h", 1 / HOUR, "1/h, per h, per hour, an hour"),
        ("/day", 1 / DAY, "1/day, per day, a day, /d"),
        ("/year", 1 / (365.25 * DAY), "1/year, per year, a year"),
    ),
    *_units(
        "speed",
        ("km/h", 1 / 3.6, "kmh, kph, kmph, km/hr"),
        ("m/s", 1.0),
        ("m/min", 1 / 60),
        ("mm/s", 1e-3),
        ("mph", MILE / HOUR, "mi/h"),
        ("ft/s", FOOT, "fps"),
        ("ft/min", FOOT / 60, "fpm"),
        ("in/s", INCH),
    ),
    *_units("acceleration", ("m/s²", 1.0), ("ft/s²", FOOT), ("g", GRAVITY)),
    *_units("field-rate", ("ha/h", 1e4 / HOUR, "ha/hr"), ("ac/h", ACRE / HOUR, "ac/hr, acres/h"), ("m²/s", 1.0)),
    *_units("kinematic-viscosity", ("mm²/s", 1e-6, "cSt"), ("m²/s", 1.0), ("St", 1e-4)),
    *_units("dynamic-viscosity", ("mPa·s", 1e-3, "cP"), ("Pa·s", 1.0), ("P", 0.1)),
    *_units(
        "flow",
        ("L/min", 1e-3 / 60, "lpm"),
        ("L/h", 1e-3 / HOUR),
        ("L/day", 1e-3 / DAY, "L/d"),
        ("mL/h", 1e-6 / HOUR, "cc/h"),
        ("mL/min", 1e-6 / 60, "cc/min"),
        ("mL/day", 1e-6 / DAY, "mL/d, cc/day"),
        ("m³/s", 1.0),
        ("US gal/min", US_GALLON / 60, "US gpm"),
        ("US gal/h", US_GALLON / HOUR),
        ("US fl oz/h", US_GALLON / 128 / HOUR),
        ("imp gal/min", IMP_GALLON / 60, "UK gal/min"),
    ),
    *_units(
        "mass",
        ("kg", 1.0, "kilo, kilos, kilogram, kilograms, kgs", 10.0),
        ("t", 1e3, "tonne, tonnes, metric ton, metric tons, metric tonne", 0.1),
        ("g", 1e-3, "gram, grams"),
        ("lb", POUND, "lbs, pound, pounds, lbm", 20.0),
        ("oz", OUNCE, "ounce, ounces"),
        ("short ton", 2000 * POUND, "short tons, US ton, US tons, sh tn, ton US"),
        ("long ton", 2240 * POUND, "long tons, UK ton, UK tons, imp ton, imperial ton, imperial tons, ton UK"),
        ("short cwt", 100 * POUND, "US cwt"),
        ("long cwt", 112 * POUND, "UK cwt"),
    ),
    *_units(
        "density",
        ("kg/m³", 1.0),
        ("kg/L", 1e3, "g/cm³, g/mL, t/m³, kg/dm³"),
        ("lb/ft³", POUND / FOOT**3, "pcf"),
        ("lb/US gal", POUND / US_GALLON),
    ),
    *_units("inertia", ("kg·m²", 1.0), ("lb·ft²", POUND * FOOT**2)),
    *_units(
        "force",
        ("N", 1.0, "newton, newtons"),
        ("kN", 1e3),
        ("daN", 10.0),
        ("MN", 1e6),
        ("kgf", GRAVITY, "kp"),
        ("tf", 1e3 * GRAVITY, "tonne-force"),
        ("short tonf", 2e3 * LBF, "US tonf"),
        ("long tonf", 2240 * LBF, "UK tonf"),
        ("lbf", LBF, "lbsf, pound-force, pounds-force"),
        ("kip", 1e3 * LBF, "kips, klbf"),
    ),
    *_units(
        "torque",
        ("N·m", 1.0, "newton metre, newton metres, newton meters", 5.0),
        ("kN·m", 1e3),
        ("daN·m", 10.0),
        ("N·cm", 1e-2),
        ("N·mm", 1e-3),
        ("kgf·m", GRAVITY, "kg·m, kp·m, m·kgf, m·kg, mkp"),
        ("kgf·cm", GRAVITY / 100, "kg·cm"),
        ("lbf·ft", FOOT * LBF, "lb·ft, lbs·ft, ft·lbf, ft·lb, ft·lbs, foot·pounds, foot·pound, pound·feet", 5.0),
        ("lbf·in", INCH * LBF, "lb·in, lbs·in, in·lbf, in·lb, in·lbs, inch·pounds, inch·pound"),
    ),
    *_units(
        "energy",
        ("J", 1.0, "N·m, joule, joules"),
        ("kJ", 1e3),
        ("MJ", 1e6),
        ("Wh", HOUR),
        ("kWh", 1e3 * HOUR),
        ("ft·lbf", FOOT * LBF, "ft·lb, lbf·ft"),
    ),
    *_units(
        "power",
        ("kW", 1e3),
        ("W", 1.0, "watt, watts"),
        ("hp", HORSEPOWER, "bhp"),
        ("PS", METRIC_HORSEPOWER, "CV, metric hp"),
    ),
    *_units(
        "pressure",
        ("bar", 1e5, "bars", 10.0),
        ("mbar", 100.0, "hPa"),
        ("Pa", 1.0, "N/m²"),
        ("kPa", 1e3, "kN/m²"),
        ("MPa", 1e6, "N/mm², MN/m²"),
        ("GPa", 1e9, "kN/mm²"),
        ("kgf/cm²", GRAVITY * 1e4, "kg/cm², kp/cm²"),
        ("psi", PSI, "lbf/in², lb/in², lbs/in², psig", 100.0),
        ("ksi", 1e3 * PSI),
        ("psf", LBF / FOOT**2, "lbf/ft², lb/ft²"),
    ),
    *_units("stiffness", ("N/mm", 1e3), ("kN/mm", 1e6, "MN/m"), ("N/m", 1.0), ("kN/m", 1e3), ("lbf/in", LBF / INCH, "lb/in")),
    *_units("resilience", ("mm/kN", 1e-6), ("mm/N", 1e-3), ("nm/N", 1e-9), ("m/N", 1.0), ("in/lbf", INCH / LBF, "in/lb")),
    *_units(
        "rotational-stiffness",
        ("kN·m/rad", 1e3),
        ("N·m/rad", 1.0),
        ("N·m/°", 180 / math.pi, "N·m/deg"),
        ("lbf·ft/rad", FOOT * LBF),
        ("lbf·ft/°", FOOT * LBF * 180 / math.pi, "lbf·ft/deg"),
    ),
    *_units("line-load", ("kN/m", 1e3, "N/mm"), ("N/m", 1.0), ("kgf/m", GRAVITY, "kg/m"), ("lbf/ft", LBF / FOOT, "lb/ft"), ("lbf/in", LBF / INCH, "lb/in")),
    *_units("subgrade-modulus", ("MN/m³", 1e6, "kPa/mm, MPa/m"), ("kN/m³", 1e3), ("Pa/m", 1.0, "N/m³"), ("lbf/in³", PSI / INCH, "pci, psi/in")),
)  # fmt: skip

# asked, never guessed: kind -> spelling -> what it may be
ASKED: dict[str, dict[str, tuple[str, ...]]] = {
    "mass": {
        **dict.fromkeys(("ton", "tons", "T"), ("t", "short ton", "long ton")),
        "cwt": ("short cwt", "long cwt"),
    },
    "volume": {
        **dict.fromkeys(("gal", "gals", "gallon", "gallons"), ("US gal", "imp gal")),
        **dict.fromkeys(("qt", "qts", "quart", "quarts"), ("US qt", "imp qt")),
        **dict.fromkeys(("pt", "pts", "pint", "pints"), ("US pt", "imp pt")),
        **dict.fromkeys(("fl oz", "floz", "fluid ounces"), ("US fl oz", "imp fl oz")),
    },
    "flow": dict.fromkeys(("gpm", "gal/min"), ("US gal/min", "imp gal/min")),
    "force": dict.fromkeys(("ton", "tons", "tonf", "T"), ("tf", "short tonf", "long tonf")),
    "pressure": {"lb": ("psi", "psf"), "lbs": ("psi", "psf"), "pounds": ("psi", "psf")},
}
