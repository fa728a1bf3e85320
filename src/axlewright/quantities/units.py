"""Units: which there are, which one a sheet shows, and how typed text is read.

A comma is a decimal mark as a point is. What could be read in two ways is asked, never guessed: `1,200 kg`, `18 ton`,
`3 gal`. A unit of the wrong kind is refused with what was expected.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal, TypeAlias

from axlewright.kinds import KINDS, Kind
from axlewright.quantities.choices import CHOICES, EXAMPLES, Choice
from axlewright.quantities.numbers import Doubt, read_number
from axlewright.quantities.table import ASKED, UNITS, Unit

Measures: TypeAlias = Literal["metric", "us"]
NO_UNIT = "the unit is missing"
LONGEST = 80  # characters that anyone types for one value

WORDS = {
    "share": "a plain number or per cent",
    "count": "a whole number",
    "money": "an amount of the yard's own money",
    "yes-no": "an answer",
}
NEVER_FOLDED = {"MN", "MJ", "MN/m", "MN/m²", "MN/m³"}  # in small letters they would be a thousandth


class NotRead(ValueError):
    """Typed text that cannot be used as it stands.

    Attributes:
        text: what was typed
        expected: what goes there, with an example
        choices: what to type instead, where there are a few ways to read it
        hint: what is wrong with it
        no_unit: nothing is wrong but that the unit is missing
    """

    def __init__(self, text: str, expected: str, choices: tuple[str, ...] = (), hint: str = "") -> None:
        self.text, self.expected, self.choices, self.hint = text, expected, choices, hint
        self.no_unit = hint == NO_UNIT
        said = text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"
        sentence = f"“{said}” cannot be read as {expected}" + (f": {hint}" if hint else "")
        if choices:
            *first, last = choices
            sentence += f". Type {', '.join(first)} or {last}" if first else f". Type {last}"
        super().__init__(sentence + ".")


@dataclass(frozen=True, slots=True)
class Typed:
    """A value as typed: in SI, with the unit it was typed in and the text itself."""

    si: float
    unit: Unit
    text: str


def _key(spelling: str) -> str:
    """A spelling without what people leave out or write differently: spaces, points between factors, raised digits."""
    text = spelling.translate(_SAME)
    text = text.replace("''", '"')
    return re.sub(r"[\s·⋅∙*.×^\-‐–]", "", text)


_SAME = str.maketrans(
    {"²": "2", "³": "3", "⁴": "4", "µ": "u", "μ": "u", "º": "°", "′": "'", "’": "'", "″": '"', "”": '"'}
)


@cache
def units_of(kind: str) -> tuple[Unit, ...]:
    """The units of a kind; its SI unit alone, where the table has none."""
    return tuple(u for u in UNITS if u.kind == kind) or (Unit(kind, KINDS[kind].unit, 1.0),)


@cache
def _spellings(kind: str) -> dict[str, Unit]:
    return {_key(s): unit for unit in units_of(kind) for s in (unit.symbol, *unit.spellings)}


@cache
def _folded(kind: str) -> dict[str, Unit | None]:
    """Spellings in small letters; none where two units would be the same."""
    found: dict[str, Unit | None] = {}
    for unit in units_of(kind):
        if unit.symbol in NEVER_FOLDED:
            continue
        for key in {_key(s).casefold() for s in (unit.symbol, *unit.spellings)}:
            found[key] = unit if found.get(key, unit) == unit else None
    return found


def find(kind: str, spelling: str) -> Unit | None:
    """The unit of this kind that is spelled so; capitals count only where they must."""
    key = _key(spelling)
    if not key and spelling not in ("", "."):
        return None
    exact = _spellings(kind).get(key)
    if exact or key.islower() or key.isupper() or key == key.capitalize():
        return exact or _folded(kind).get(key.casefold())
    return None


def unit_for(
    kind_name: str, measures: Measures = "metric", si: float | None = None, on_tool: str | None = None
) -> Unit:
    """The unit that a sheet shows this kind in: the tool's own, else one that suits the size.

    Raises:
        NotRead: the unit on the tool is none of this kind
    """
    if on_tool is not None:
        unit = find(kind_name, on_tool)
        if unit is None:
            raise NotRead(on_tool, f"a unit of {kind_name.replace('-', ' ')}")
        return unit
    choices = CHOICES.get(kind_name)
    if choices is None:
        return units_of(kind_name)[0]
    choice: Choice = choices[measures]
    symbol = choice.usual
    if si is not None and math.isfinite(si) and si != 0:
        symbol = next((name for limit, name in choice.by_size if abs(si) < limit), symbol)
    unit = find(kind_name, symbol)
    assert unit is not None, f"{symbol} stands in the choices of {kind_name}, not in its units"
    return unit


def expected(kind: str) -> str:
    """What goes in a place of this kind, with an example."""
    words = WORDS.get(kind) or f"{'an' if kind[0] in 'aeiou' else 'a'} {kind.replace('-', ' ')}"
    metric, us = EXAMPLES.get(kind, (f"1 {KINDS[kind].unit}",) * 2)
    return f"{words}, such as {metric}" + (f" or {us}" if us != metric else "")


def parse(text: str, kind: Kind | str, decimal: Literal[".", ","] = ".") -> Typed:
    """Read a typed value.

    Args:
        text: such as `340 lbf·ft`, `3 1/4 in`, `12,5 bar`, `5 ft 3 in`
        kind: what is wanted, or its name
        decimal: the decimal mark that this yard writes; the other one before three digits is asked

    Returns:
        the value in SI, its unit, the text

    Raises:
        NotRead: says what is wrong, what is expected and, where it is doubtful, what to choose from
    """
    name = kind if isinstance(kind, str) else kind.name
    typed = text.strip() if isinstance(text, str) else ""
    if not typed or len(typed) > LONGEST:
        raise NotRead(typed, expected(name), hint="it is too long" if typed else "nothing is typed")
    return _parsed(typed, name, decimal)


@lru_cache(maxsize=4096)
def _parsed(typed: str, name: str, decimal: Literal[".", ","]) -> Typed:
    """The same text is read again and again while sheets are drawn up."""
    wanted = expected(name)
    if name == "yes-no":
        return _yes_or_no(typed, wanted)
    try:
        value, rest = read_number(typed, decimal)
    except Doubt as doubt:
        tail = typed[doubt.end :].strip()
        raise NotRead(typed, wanted, tuple(f"{c} {tail}".strip() for c in doubt.choices), doubt.why) from None
    if value is None:
        raise NotRead(typed, wanted, hint="it does not begin with a number")
    unit = _unit(typed, name, rest)
    if unit is None:
        value, unit = _compound(typed, name, value, rest, decimal)
    if name == "count" and value != round(value):
        raise NotRead(typed, wanted, hint="it is not whole")
    si = unit.to_si(value)
    if name == "temperature" and si < 0:
        raise NotRead(typed, wanted, hint="nothing is as cold as that")
    return Typed(si, unit, typed)


def _yes_or_no(typed: str, wanted: str) -> Typed:
    for words, value in ((("yes", "y", "true", "1"), 1.0), (("no", "n", "false", "0"), 0.0)):
        if typed.casefold() in words:
            return Typed(value, units_of("yes-no")[0], typed)
    raise NotRead(typed, wanted)


def _unit(typed: str, kind: str, spelling: str) -> Unit | None:
    """The unit, or none when nothing known is spelled so.

    Raises:
        NotRead: it is missing, or may be two things
    """
    number = typed[: len(typed) - len(spelling)].strip() if spelling else typed
    asked = {_key(s): choices for s, choices in ASKED.get(kind, {}).items()}
    choices = asked.get(_key(spelling)) or asked.get(_key(spelling).casefold())
    if choices:
        hint = f"{spelling} is not the same everywhere"
        raise NotRead(typed, expected(kind), tuple(f"{number} {s}" for s in choices), hint)
    unit = find(kind, spelling)
    if unit is None and not spelling:
        symbols = dict.fromkeys(unit_for(kind, m).symbol for m in ("metric", "us"))
        raise NotRead(typed, expected(kind), tuple(f"{number} {s}" for s in symbols), NO_UNIT)
    return unit


def _compound(typed: str, kind: str, value: float, rest: str, decimal: Literal[".", ","]) -> tuple[float, Unit]:
    """`5 ft 3 in`, `1 h 20 min`: the value in the unit of its last part.

    Raises:
        NotRead: it is no such thing
    """
    parts = re.match(r"\s*([^\d\s.,+\-−]+)\s*(\d.*)$", rest)
    great = find(kind, parts[1]) if parts else None
    if parts is None or great is None:
        raise NotRead(typed, expected(kind), hint=_what_it_is(kind, rest))
    try:
        less, tail = read_number(parts[2], decimal)
    except Doubt as doubt:
        raise NotRead(typed, expected(kind), hint=doubt.why) from None
    small = find(kind, tail)
    if less is None or small is None or small.offset or great.offset or not tail:
        raise NotRead(typed, expected(kind), hint=_what_it_is(kind, tail or parts[2]))
    if value != round(value) or value < 0 or less * small.factor >= great.factor:
        raise NotRead(
            typed, expected(kind), hint=f"more than one {great.symbol} after the {great.symbol}, or a part of one"
        )
    return value * (great.factor / small.factor) + less, small


def _what_it_is(kind: str, spelling: str) -> str:
    """What is wrong with a unit that is none of this kind."""
    said = spelling.strip()
    if re.match(r"(-|−|–|to|\.\.+|/|,|±)?\s*\d", said):
        return "one value goes here"
    here = [k for k in dict.fromkeys(u.kind for u in UNITS) if k != kind and said and find(k, said)]
    if not here:
        near = _folded(kind).get(_key(said).casefold())
        return f"“{said[:20]}” is no unit known here" + (f"; perhaps {near.symbol}" if near else "")
    other = here[0]
    more = ""
    if (kind, other) == ("force", "mass"):
        more = "; a weight as a force is kN, lbf or kgf"
    elif (kind, other) == ("mass", "force"):
        more = "; a mass is kg, t or lb"
    elif kind == "share" and other == "angle":
        more = "; a slope goes here as per cent"
    elif kind == "torque" and other == "force":
        more = "; a torque has an arm too"
    return f"{said} is {'an' if other[0] in 'aeiou' else 'a'} {other.replace('-', ' ')}{more}"


def spell(si: float, unit: Unit, digits: int = 6) -> str:
    """A value as text that `parse` reads back, cut to so many digits."""
    number = f"{unit.from_si(si):.{digits}g}"
    return number + ("" if unit.symbol in ("", "°") else " ") + unit.symbol
