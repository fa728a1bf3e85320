"""Answers and functions in words and as data, the same on every face."""

from __future__ import annotations

import math
import shlex
from collections.abc import Mapping
from typing import Any

from axlewright.formulary.call import Answer, Decimal, Value, example_of
from axlewright.formulary.examples import texts_to_try
from axlewright.formulary.ranges import Range, ranges
from axlewright.formulary.read import Formula
from axlewright.formulary.slots import Slot
from axlewright.quantities import Measures, NotRead, Unit, parse, spell, unit_for

DIGITS = 4
EXACT = 12  # digits of a number that goes to a program: the last ones of a double are noise of the units
THIN, STAY, MINUS = "\u202f", "\u00a0", "\u2212"
RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
LEAST, MOST = -5, 7  # powers of ten that are written out
NOISE = 1e-10  # of any unit shown: less is what is left of a difference


def figure(number: float, digits: int = DIGITS, decimal: Decimal = ".") -> str:
    """A number to so many digits, without zeros at its end: 0.1029, 12 350, 1.2 × 10⁻⁹."""
    if not math.isfinite(number):
        return "no number" if math.isnan(number) else "no limit" if number > 0 else "no lower limit"
    if abs(number) < NOISE:
        return "0"
    mantissa, power = f"{abs(number):.{digits - 1}e}".split("e")
    sign = MINUS if number < 0 else ""
    if not LEAST <= int(power) < MOST:
        return sign + _bare(mantissa, decimal) + f" × 10{str(int(power)).translate(RAISED)}"
    return sign + _bare(f"{float(f'{mantissa}e{power}'):.{max(digits - 1 - int(power), 0)}f}", decimal)


def _bare(text: str, decimal: str) -> str:
    whole, _, part = text.partition(".")
    groups = [whole[max(end - 3, 0) : end] for end in range(len(whole), 0, -3)]
    part = part.rstrip("0")
    return THIN.join(reversed(groups)) + (decimal + part if part else "")


def with_unit(said: str, unit: Unit | None) -> str:
    symbol = unit.symbol if unit else ""
    return said + ("" if symbol in ("", "°") else STAY) + symbol


def spelled(value: Value, decimal: Decimal = ".", digits: int = DIGITS) -> str:
    """A value as people read it: `155 N·m`, `198 kN (180 to 220)`, `yes`, `1; 5; 3`."""
    if isinstance(value.si, str):
        return value.si or "nothing"
    if isinstance(value.si, tuple):
        return with_unit("; ".join(_one(n, value, decimal, digits) for n in value.number), value.unit) or "none"
    said = _one(value.number, value, decimal, digits)
    if value.low is not None and value.high is not None and value.unit and value.low < value.high:
        low, high = (figure(value.unit.from_si(end), digits, decimal) for end in (value.low, value.high))
        return f"{with_unit(said, value.unit)} ({low} to{STAY}{high})"
    return with_unit(said, value.unit) if value.si != math.inf else said


def _one(number: Any, value: Value, decimal: Decimal, digits: int) -> str:
    if isinstance(number, str):
        return number
    if isinstance(number, bool):
        return "yes" if number else "no"
    if value.kind.name == "yes-no":  # over draws that do not agree, the share of yes
        if number in (0.0, 1.0):
            return "yes" if number else "no"
        return f"yes in {figure(100 * number, 3, decimal)} of 100"
    return figure(number, digits, decimal)


def name_of(name: str) -> str:
    """A value's name as it is typed: `set-to`."""
    return name.replace("_", "-") or "result"


def said_name(name: str) -> str:
    """A function's or a value's name as it is said: bolt window."""
    return name.replace("-", " ").replace("_", " ").replace(".", " ")


def command(name: str, texts: Mapping[str, str]) -> str:
    """The command that does the same."""
    return " ".join(("formula", name, *(typed(key, text) for key, text in texts.items() if text.strip())))


def typed(key: str, text: str) -> str:
    """One value as it is typed on a command line."""
    if shlex.quote(text) == text:
        return f"{key}={text}"
    if any(c in text for c in '"$`\\!'):
        return shlex.quote(f"{key}={text}")
    return f'{key}="{text}"'


def as_typed(
    found: Formula, texts: Mapping[str, str], measures: Measures = "metric", decimal: Decimal = "."
) -> dict[str, str]:
    """Texts to try as this reader would type them: own units, own decimal mark; a name of the trade stays as it is."""
    kinds = {key: slot.kind.name for key, slot in leaves(found.takes, texts) if slot.form == "quantity"}
    out = {}
    for key, text in texts.items():
        if key in kinds:
            text = "; ".join(_converted(one.strip(), kinds[key], measures) for one in text.split(";"))
            text = text.replace(".", decimal)
        out[key] = text
    return out


def _converted(text: str, kind: str, measures: Measures) -> str:
    try:
        read = parse(text, kind)
    except NotRead:  # a range stays as it is typed
        return text
    unit = unit_for(kind, measures, read.si)
    return text if measures == "metric" or unit == read.unit else spell(read.si, unit, 3)


def leaves(slots: tuple[Slot, ...], texts: Mapping[str, str], at: str = "") -> list[tuple[str, Slot]]:
    """Every place that is typed in: parts of structures apart; of many as many as are typed, one at least."""
    found = []
    for slot in slots:
        key = at + slot.key
        if slot.form != "structure":
            found.append((key, slot))
        elif slot.many:
            for number in range(1, most(texts, key) + 1):
                found += leaves(slot.fields, texts, f"{key}.{number}.")
        else:
            found += leaves(slot.fields, texts, f"{key}.")
    return found


def most(texts: Mapping[str, str], key: str) -> int:
    """How many of a thing are typed, one at least and twenty at most."""
    numbers = [k.removeprefix(f"{key}.").split(".")[0] for k in texts if k.startswith(f"{key}.")]
    return min(max((int(n) for n in numbers if n.isdecimal()), default=1) or 1, 20)


# --- as data, for programs


def answer_data(answer: Answer, decimal: Decimal = ".") -> dict[str, Any]:
    """An answer for a program: numbers in the unit shown and in SI, and as people read them."""
    return {
        "formula": answer.formula.name,
        "title": answer.formula.title,
        "inputs": {name_of(v.name): value_data(v, decimal) for v in answer.inputs},
        "values": {name_of(v.name): value_data(v, decimal) for v in answer.values},
        "source": answer.formula.source,
        "valid": answer.formula.valid,
        "basis": "computed",
    }


def value_data(value: Value, decimal: Decimal = ".") -> dict[str, Any]:
    out: dict[str, Any] = {"value": _plain(value.number), "says": spelled(value, decimal)}
    if value.unit is not None:
        out |= {"unit": value.unit.symbol, "si": _plain(value.si), "si_unit": value.kind.unit}
    if value.low is not None and value.high is not None and value.unit:
        out["low"], out["high"] = (_plain(value.unit.from_si(end)) for end in (value.low, value.high))
    return out | {"kind": value.kind.name, "words": value.words}


def _plain(value: Any) -> Any:
    """What JSON can hold: no number without limit."""
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    if isinstance(value, bool | str | int):
        return value
    return float(f"{value:.{EXACT}g}") if math.isfinite(value) else None


def formula_data(found: Formula) -> dict[str, Any]:
    """A function for a program: what it takes, in which range, and what it gives."""
    allowed = ranges(found)
    texts = texts_to_try(found)
    return {
        "formula": found.name,
        "title": found.title,
        "words": found.words,
        "takes": [slot_data(slot, allowed.get(slot.name)) for slot in found.takes],
        "gives": [slot_data(slot) for slot in found.gives],
        "many": found.many,
        "source": found.source,
        "valid": found.valid,
        "example": texts,
        "command": command(found.name, texts),
    }


def slot_data(slot: Slot, allowed: Range | None = None) -> dict[str, Any]:
    out: dict[str, Any] = {"name": name_of(slot.name), "kind": slot.kind.name, "unit": slot.kind.unit}
    out |= {"words": slot.words, "needed": slot.needed, "many": slot.many, "choices": list(slot.choices)}
    if slot.form == "structure":
        out["parts"] = [slot_data(part) for part in slot.fields]
    elif slot.form != "word":
        out["example"] = example_of(slot)
    if taken := default_of(slot):
        out["taken"] = taken
    if allowed:
        out |= {"low": allowed.low, "high": allowed.high, "low_itself_allowed": not allowed.above}
    return out


def default_of(slot: Slot, decimal: Decimal = ".") -> str:
    """What is taken where nothing is typed; empty where something must be, or the words say it."""
    if slot.needed or slot.default is None or slot.form in ("structure", "named"):
        return ""
    if slot.form == "word":
        return str(slot.default)
    if isinstance(slot.default, bool):
        return "yes" if slot.default else "no"
    if slot.many or not isinstance(slot.default, int | float):
        return ""
    unit = unit_for(slot.kind.name, "metric", float(slot.default))
    return with_unit(figure(unit.from_si(float(slot.default)), DIGITS, decimal), unit)


def span_of(slot: Slot, allowed: Range, measures: Measures = "metric", decimal: Decimal = ".") -> str:
    """A range in words: `0.03 to 0.6`, `more than 0 mm`, `0 N and more`."""
    ends = [end for end in (allowed.low, allowed.high) if end]
    unit = unit_for(slot.kind.name, measures, max(map(abs, ends), default=None))

    def said(si: float) -> str:
        return with_unit(figure(unit.from_si(si), DIGITS, decimal), unit)

    if allowed.low is None:
        return f"at most {said(allowed.high)}" if allowed.high is not None else ""
    if allowed.high is None:
        return f"more than {said(allowed.low)}" if allowed.above else f"{said(allowed.low)} or more"
    more = "more than " if allowed.above else ""
    return f"{more}{figure(unit.from_si(allowed.low), DIGITS, decimal)} to {said(allowed.high)}"
