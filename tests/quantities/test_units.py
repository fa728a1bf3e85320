"""Units against a general units library, and typed text as people write it."""

from __future__ import annotations

import math
import re

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.kinds import KINDS
from axlewright.quantities import UNITS, NotRead, Unit, expected, find, parse, spell, unit_for
from axlewright.quantities.choices import CHOICES, EXAMPLES
from axlewright.quantities.table import ASKED

PINT = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
# names that the library spells otherwise
ELSEWHERE = {
    "": "dimensionless", "%": "percent", "‰": "permille", "°": "degree", "rad": "radian", "mrad": "milliradian",
    "°C": "degree_Celsius", "°F": "degree_Fahrenheit", "in": "inch", "ft": "foot", "yd": "yard", "mi": "mile",
    "ac": "43560 * foot**2", "US qt": "US_liquid_quart", "US gal": "US_liquid_gallon", "US pt": "US_pint",
    "US fl oz": "US_fluid_ounce", "imp gal": "imperial_gallon", "imp qt": "imperial_quart", "imp pt": "imperial_pint",
    "imp fl oz": "imperial_fluid_ounce", "d": "day", "g": "gram", "kip": "kip", "PS": "metric_horsepower",
    "hp": "horsepower", "lb": "pound", "oz": "ounce", "short ton": "short_ton", "long ton": "long_ton",
    "short cwt": "short_hundredweight", "long cwt": "long_hundredweight", "tf": "1000 * kilogram_force",
    "short tonf": "US_ton_force", "long tonf": "UK_ton_force", "lbf": "pound_force", "kgf": "kilogram_force",
    "US gal/min": "US_liquid_gallon / minute", "US gal/h": "US_liquid_gallon / hour",
    "US fl oz/h": "US_fluid_ounce / hour", "imp gal/min": "imperial_gallon / minute", "St": "stokes", "P": "poise",
    "psf": "pound_force / foot**2", "lb/US gal": "pound / US_liquid_gallon", "week": "week", "mph": "mile / hour",
    "thou": "thou", "ha": "hectare", "t": "metric_ton", "L": "liter", "turn": "turn",
}  # fmt: skip


def elsewhere(unit: Unit) -> str:
    """The unit as the general library reads it."""
    if unit.kind == "acceleration" and unit.symbol == "g":
        return "standard_gravity"
    if unit.kind.startswith("money") or unit.symbol in ("", "mm/m"):
        return {"/h": "1 / hour", "/day": "1 / day", "/s": "1 / second"}.get(
            unit.symbol, "dimensionless" if not unit.sloped else "mm/m"
        )
    if unit.symbol in ELSEWHERE:
        return ELSEWHERE[unit.symbol]
    text = unit.symbol.translate(str.maketrans({"²": "**2", "³": "**3", "⁴": "**4", "·": "*", "°": "degree"}))
    text = "1" + text if text.startswith("/") else text
    for short, name in (("lbf", "pound_force"), ("lb", "pound"), ("ft", "foot"), ("in", "inch"), ("kgf", "kilogram_force"), ("ac", "(43560 * foot**2)"), ("ha", "hectare"), ("L", "liter"), ("mL", "milliliter")):  # fmt: skip
        text = re.sub(rf"(?<![A-Za-z_]){short}(?![A-Za-z_])", name, text)
    return text


@pytest.mark.parametrize("unit", UNITS, ids=lambda u: f"{u.kind} {u.symbol or 'plain'}")
def test_factor_against_a_general_library(unit: Unit) -> None:
    if unit.offset:
        ours = [unit.to_si(x) for x in (0.0, 37.5, -40.0)]
        theirs = [PINT.Quantity(x, elsewhere(unit)).to("kelvin").magnitude for x in (0.0, 37.5, -40.0)]
        assert ours == pytest.approx(theirs, rel=1e-14)
        return
    name = (
        "delta_" + ELSEWHERE[unit.symbol]
        if unit.kind == "temperature-step" and unit.symbol == "°F"
        else elsewhere(unit)
    )
    value = PINT.Quantity(1.0, PINT.parse_expression(name).units) * PINT.parse_expression(name).magnitude
    assert unit.factor == pytest.approx(value.to_base_units().magnitude, rel=1e-12)
    kind = KINDS[unit.kind]
    metre, kilogram, second = kind.powers
    dimensions = {"[length]": metre, "[mass]": kilogram, "[time]": second}
    assert {k: v for k, v in value.dimensionality.items() if k != "[temperature]"} == {
        k: v for k, v in dimensions.items() if v
    }


def test_slopes_are_angles_of_a_rise() -> None:
    assert parse("100 %", "angle").si == pytest.approx(math.pi / 4)
    assert parse("100 mm/m", "angle").si == pytest.approx(math.atan(0.1))
    percent = unit_for("angle", on_tool="%")
    assert percent.from_si(percent.to_si(12.5)) == pytest.approx(12.5)


def test_spellings_lead_to_one_unit_each() -> None:
    for unit in UNITS:
        for spelling in (unit.symbol, *unit.spellings):
            assert find(unit.kind, spelling) == unit, (unit.kind, spelling)


def test_every_kind_has_what_to_type_and_what_to_show() -> None:
    for kind in KINDS:
        for example in EXAMPLES[kind]:
            assert math.isfinite(parse(example, kind).si)
            assert example in expected(kind)
        for measures in ("metric", "us"):
            for si in (None, 0.0, 1e-9, 1e-3, 1.0, 1e4, 1e7, 1e12):
                assert unit_for(kind, measures, si).kind == kind
    assert set(CHOICES) == set(EXAMPLES) == set(KINDS)


@pytest.mark.parametrize(
    ("kind", "measures", "si", "symbol"),
    [
        ("length", "metric", 0.027, "mm"), ("length", "metric", 3.1, "m"), ("length", "us", 0.027, "in"),
        ("length", "us", 3.1, "ft"), ("mass", "metric", 850, "kg"), ("mass", "metric", 18000, "t"),
        ("mass", "us", 18000, "lb"), ("force", "metric", 92e3, "kN"), ("force", "us", 92e3, "lbf"),
        ("torque", "metric", 390, "N·m"), ("torque", "us", 390, "lbf·ft"), ("pressure", "metric", 12.5e5, "bar"),
        ("pressure", "us", 12.5e5, "psi"), ("pressure", "metric", 9.4e8, "MPa"), ("volume", "metric", 0.0075, "L"),
        ("volume", "us", 0.0075, "US qt"), ("duration", "metric", 4730 * 3600, "h"), ("duration", "us", 1800, "min"),
        ("temperature", "metric", 350, "°C"), ("temperature", "us", 350, "°F"), ("share", "us", 0.14, ""),
    ],
)  # fmt: skip
def test_unit_that_a_sheet_shows(kind: str, measures: str, si: float, symbol: str) -> None:
    assert unit_for(kind, measures, si).symbol == symbol  # type: ignore[arg-type]


def test_the_unit_on_the_tool_stands() -> None:
    assert unit_for("torque", "metric", 390, on_tool="ft-lb").symbol == "lbf·ft"
    with pytest.raises(NotRead, match="bar"):
        unit_for("torque", "metric", 390, on_tool="bar")


@pytest.mark.parametrize(
    ("text", "kind", "si"),
    [
        ("340 lbf·ft", "torque", 340 * 1.3558179483314004),
        ("340ft-lb", "torque", 340 * 1.3558179483314004),
        ("550 ft lb", "torque", 550 * 1.3558179483314004),
        ("745 Nm", "torque", 745),
        ("745 N.m", "torque", 745),
        ("55 kgf·m", "torque", 539.36575),
        ("3 1/4 in", "length", 0.08255),
        ("3-1/4 inches", "length", 0.08255),
        ("3¼″", "length", 0.08255),
        ("5 ft 3 in", "length", 63 * 0.0254),
        ("5' 3 1/2\"", "length", 63.5 * 0.0254),
        ("27mm", "length", 0.027),
        ("27 MM", "length", 0.027),
        (".125 in", "length", 0.003175),
        ("1.375 in", "length", 0.034925),
        ("18 t", "mass", 18000),
        ("1,5 t", "mass", 1500),
        ("18 2261 kg".replace(" 2261", "\u202f226"), "mass", 18226),
        ("1 234,5 kg", "mass", 1234.5),
        ("1.234,5 kg", "mass", 1234.5),
        ("1,234.5 kg", "mass", 1234.5),
        ("12,345,678 kg", "mass", 12345678),
        ("2 %", "share", 0.02),
        ("0,14", "share", 0.14),
        ("12,5 bar", "pressure", 1.25e6),
        ("940 N/mm²", "pressure", 9.4e8),
        ("180 PSI", "pressure", 180 * 6894.757293168361),
        ("80 °C", "temperature", 353.15),
        ("-40 °F", "temperature", 233.15),
        ("−5 °C", "temperature", 268.15),
        ("1 h 20 min", "duration", 4800),
        ("4 730 h", "duration", 4730 * 3600),
        ("1.2e5 N", "force", 1.2e5),
        ("yes", "yes-no", 1),
    ],
)
def test_typed_text(text: str, kind: str, si: float) -> None:
    assert parse(text, kind).si == pytest.approx(si, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("12 bar", "torque", "bar is a pressure"),
        ("50 kg", "force", "kg is a mass; a weight as a force is kN"),
        ("340 N", "torque", "a torque has an arm"),
        ("5 mPa", "pressure", "perhaps MPa"),
        ("5 mg", "mass", "no unit known here"),
        ("11-13 t", "mass", "one value goes here"),
        ("12°", "share", "per cent"),
        ("8.5", "count", "not whole"),
        ("-300 °C", "temperature", "cold"),
        ("", "mass", "nothing is typed"),
        ("about", "mass", "does not begin with a number"),
        ("nan kg", "mass", "does not begin"),
        ("inf kg", "mass", "does not begin"),
        ("1e999 kg", "mass", "beyond"),
        ("3 1/0 in", "length", "fraction"),
        ("3 5/4 in", "length", "fraction"),
        ("5 ft 14 in", "length", "more than one ft"),
        ("5 ft 3 kg", "length", "kg is a mass"),
        ("x" * 1_000_000, "mass", "too long"),
        ("5 <script>", "mass", "no unit known"),
        ("1,23.4,5 kg", "mass", "do not agree"),
        ("12 -", "share", "no unit known"),
        ("perhaps", "yes-no", "yes or no"),
    ],
)
def test_refusals_say_what_is_wrong_and_what_is_right(text: str, kind: str, says: str) -> None:
    with pytest.raises(NotRead) as refused:
        parse(text, kind)
    sentence = str(refused.value)
    assert says in sentence
    assert refused.value.expected in sentence
    assert EXAMPLES[kind][0] in sentence
    assert len(sentence) < 400


@pytest.mark.parametrize(
    ("text", "kind", "choices"),
    [
        ("18 ton", "mass", ("18 t", "18 short ton", "18 long ton")),
        ("20 T", "mass", ("20 t", "20 short ton", "20 long ton")),
        ("3 gal", "volume", ("3 US gal", "3 imp gal")),
        ("1,200 kg", "mass", ("1200 kg", "1.2 kg")),
        ("18 2.261 kg", "mass", ("182.261 kg", "18 kg", "2.261 kg")),
        ("340", "torque", ("340 N·m", "340 lbf·ft")),
        ("3 ton", "force", ("3 tf", "3 short tonf", "3 long tonf")),
    ],
)
def test_doubtful_text_is_asked(text: str, kind: str, choices: tuple[str, ...]) -> None:
    with pytest.raises(NotRead) as asked:
        parse(text, kind)
    assert asked.value.choices == choices
    values = {round(parse(choice, kind).si, 9) for choice in choices}
    assert len(values) == len(choices)  # they really differ


def test_a_yard_that_writes_commas() -> None:
    assert parse("1,234 t", "mass", decimal=",").si == pytest.approx(1234)
    with pytest.raises(NotRead) as asked:
        parse("1.234 t", "mass", decimal=",")
    assert asked.value.choices == ("1234 t", "1,234 t")


def test_what_is_asked_has_units_to_choose() -> None:
    for kind, spellings in ASKED.items():
        for spelling, choices in spellings.items():
            assert all(find(kind, choice) for choice in choices), spelling
            assert find(kind, spelling) is None or spelling == "T"  # T is asked before t is found


@given(st.sampled_from(UNITS), st.floats(-1e6, 1e6, allow_nan=False))
def test_what_is_written_reads_back(unit: Unit, number: float) -> None:
    if unit.kind in ("yes-no", "count") or (unit.kind == "temperature" and unit.to_si(number) < 0):
        return
    si = unit.to_si(number)
    text = spell(si, unit, 12)
    read = parse(text, unit.kind)
    assert read.si == pytest.approx(si, rel=1e-9, abs=1e-9 * unit.factor)
    assert parse(text.replace(".", ","), unit.kind, decimal=",").si == pytest.approx(read.si, rel=1e-12)


@given(
    st.text(max_size=30) | st.text("0123456789.,/ -+'\"°%±½eENkgmbarftin\u202f", max_size=16),
    st.sampled_from(sorted(KINDS)),
)
def test_any_text_is_read_or_refused_in_words(text: str, kind: str) -> None:
    sentence = "."
    try:
        assert math.isfinite(parse(text, kind).si)
    except NotRead as refused:
        sentence = str(refused)
    assert sentence.endswith(".")


@given(st.integers(0, 300), st.sampled_from([2, 4, 8, 16, 32, 64]), st.data())
def test_fractions_of_an_inch(whole: int, parts: int, data: st.DataObject) -> None:
    top = data.draw(st.integers(1, parts - 1))
    assert parse(f"{whole} {top}/{parts} in", "length").si == pytest.approx((whole + top / parts) * 0.0254, rel=1e-15)
