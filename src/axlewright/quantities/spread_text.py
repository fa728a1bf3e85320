"""A spread as text: how a yard's file says it, read and written."""

from __future__ import annotations

import math
import re
from functools import lru_cache
from typing import Literal

from axlewright.kinds import Kind
from axlewright.quantities.spread import (
    NINE_IN_TEN,
    Discrete,
    Exact,
    LogNormal,
    Normal,
    Pert,
    Spread,
    Triangular,
    Uniform,
    ask,
)
from axlewright.quantities.table import Unit
from axlewright.quantities.units import NotRead, expected, parse, spell, unit_for

ABOUT = 0.10  # `about x` is x, give or take this share of it nine times in ten: common practice, no source

_PLUS_MINUS = re.compile(
    r"^(.*?)\s*(?:±|\+\s*/\s*-|\+-|,?\s*plus or minus\b|,?\s*give or take\b)\s*(.+)$", re.IGNORECASE
)
_TIMES = re.compile(r"^(.*?)\s*(?:×/÷|x/÷|×/|x/|\*/)\s*([0-9.,]+)$", re.IGNORECASE)
_FROM_TO = re.compile(r"^(?:from\s+|between\s+)?(.+?)\s*(?:\bto\b|\band\b|–|\.\.\.?|…)\s*(.+?)$", re.IGNORECASE)
_PEAK = re.compile(r"^(.+?)\s*,\s*(likely|most often)\s+(.+)$", re.IGNORECASE)
_PART = re.compile(r"^(.+?)\s*\(\s*([0-9.,]+)\s*%\s*\)$")
HOW_TO = (
    "18 t, 18 t ± 2 t, about 18 t, 16 to 20 t, 16 to 20 t, likely 18 t, 0.14 ×/÷ 1.3 or 10 mm (70 %) or 12 mm (30 %)"
)


def read_spread(text: str, kind: Kind | str, decimal: Literal[".", ","] = ".") -> Spread:
    """Read a spread as a yard's file says it.

    `18 t ± 2 t` lies within 2 t nine times in ten, `about 18 t` within a tenth of it; `16 to 20 t` is any value between,
    with `, likely 18 t` (PERT) or `, most often 18 t` (triangle) more often near that one; `0.14 ×/÷ 1.3` is at most
    1.3 times more or less, nine times in ten; `10 mm (70 %) or 12 mm (30 %)` is one or the other.

    Raises:
        NotRead: says what is wrong and what may be written
    """
    name = kind if isinstance(kind, str) else kind.name
    said = text.strip()
    try:
        return _read(said, name, decimal)
    except NotRead:
        raise
    except ValueError as bad:
        raise NotRead(said, expected(name), hint=f"{bad}; a spread is written as {HOW_TO}") from None


@lru_cache(maxsize=4096)
def _read(said: str, kind: str, decimal: Literal[".", ","]) -> Spread:
    if re.search(r"\bor\b", said) and "(" in said:
        return _read_discrete(said, kind, decimal)
    if found := re.match(r"^(?:about|ca\.?|roughly|~|≈)\s*(.+)$", said, re.IGNORECASE):
        if _PLUS_MINUS.match(found[1]):
            return _read(found[1], kind, decimal)
        value = parse(found[1], kind, decimal).si
        ask(value != 0, "about 0 says nothing of how far off")
        ask(kind != "temperature", "about how many degrees? write ± after it")
        return Normal(value, abs(value) * ABOUT / NINE_IN_TEN)
    if found := _PLUS_MINUS.match(said):
        return _read_plus_minus(found[1], found[2], kind, decimal)
    if found := _TIMES.match(said):
        factor = parse(found[2], "share", decimal).si
        ask(factor > 1, "the factor after ×/÷ is more than 1")
        return LogNormal(parse(found[1], kind, decimal).si, math.log(factor) / NINE_IN_TEN)
    if found := _PEAK.match(said):
        ends, word, peak = found.groups()
        bounds = _FROM_TO.match(ends)
        ask(bounds is not None, f"before “{word}” stand two ends")
        assert bounds is not None
        low, high = _two(bounds[1], bounds[2], kind, decimal)
        middle = parse(peak, kind, decimal).si
        return Pert(low, middle, high) if word.casefold() == "likely" else Triangular(low, middle, high)
    if found := _FROM_TO.match(said):
        return Uniform(*_two(found[1], found[2], kind, decimal))
    return Exact(parse(said, kind, decimal).si)


def _two(low: str, high: str, kind: str, decimal: Literal[".", ","]) -> tuple[float, float]:
    """Two values, the first of which may leave its unit to the second."""
    second = parse(high, kind, decimal)
    try:
        first = parse(low, kind, decimal).si
        if kind in ("share", "money") and second.unit.symbol and not re.search(r"[^\d.,\s]", low):
            first = second.unit.to_si(first)  # `2 to 3 %`
    except NotRead as bad:
        if not bad.no_unit:
            raise
        first = parse(f"{low} {second.unit.symbol}", kind, decimal).si
    return first, second.si


def _read_plus_minus(middle: str, give: str, kind: str, decimal: Literal[".", ","]) -> Spread:
    step = "temperature-step" if kind == "temperature" else kind
    percent = re.match(r"^([0-9.,]+)\s*%$", give)
    if percent and kind not in ("share", "angle"):
        about = parse(middle, kind, decimal).si
        return Normal(about, abs(about) * parse(give, "share", decimal).si / NINE_IN_TEN)
    if kind == "share" and percent and "%" not in middle:
        choices = (
            f"{middle} % ± {give}",
            f"{middle} ± {parse(middle, kind, decimal).si * float(parse(give, kind, decimal).si):g}",
        )
        raise NotRead(f"{middle} ± {give}", expected(kind), choices, "the per cent may be of the number or beside it")
    try:
        value = parse(middle, kind, decimal)
    except NotRead as bad:  # `18 ± 2 t`
        if not bad.no_unit:
            raise
        value = parse(f"{middle} {parse(give, step, decimal).unit.symbol}", kind, decimal)
    try:
        off = parse(give, step, decimal)
    except NotRead as bad:  # `18 t ± 2`
        if not bad.no_unit:
            raise
        off = parse(f"{give} {value.unit.symbol}", step, decimal)
    return Normal(value.si, off.si / NINE_IN_TEN)


def _read_discrete(said: str, kind: str, decimal: Literal[".", ","]) -> Spread:
    pairs = []
    for part in re.split(r"\s+or\s+", said):
        found = _PART.match(part.strip())
        ask(found is not None, f"behind “{part.strip()}” its share is missing, such as (30 %)")
        assert found is not None
        pairs.append((parse(found[1], kind, decimal).si, parse(found[2], "share", decimal).si / 100))
    pairs.sort()
    ask(abs(sum(w for _, w in pairs) - 1) < 0.005, "the shares do not add up to 100 %")
    return Discrete(tuple(v for v, _ in pairs), tuple(w for _, w in pairs))


def write_spread(spread: Spread, kind: Kind | str, unit: Unit | None = None, digits: int = 6) -> str:
    """A spread as text that `read_spread` reads back, in this unit or one that suits.

    Raises:
        ValueError: samples have no text; they are kept as numbers
    """
    name = kind if isinstance(kind, str) else kind.name
    shown = unit or unit_for(name, "metric", spread.middle())

    def say(si: float) -> str:
        return spell(si, shown, digits)

    def ends(low: float, high: float) -> str:  # `16 to 20 t`
        return f"{say(low).removesuffix(shown.symbol).strip()} to {say(high)}"

    match spread:
        case Exact(value):
            return say(value)
        case Normal(mean, sd):
            ask(not shown.sloped, "a spread about a slope is written in degrees")
            give = f"{sd * NINE_IN_TEN / shown.factor:.{digits}g}"
            return f"{say(mean)} ± {give}" + ("" if shown.symbol in ("", "°") else " ") + shown.symbol
        case LogNormal(median, log_sd):
            return f"{say(median)} ×/÷ {math.exp(log_sd * NINE_IN_TEN):.{digits}g}"
        case Uniform(low, high):
            return ends(low, high)
        case Triangular(low, peak, high):
            return f"{ends(low, high)}, most often {say(peak)}"
        case Pert(low, likely, high):
            return f"{ends(low, high)}, likely {say(likely)}"
        case Discrete(values, weights):
            total = sum(weights)
            return " or ".join(
                f"{say(v)} ({100 * w / total:.{digits}g} %)" for v, w in zip(values, weights, strict=True)
            )
        case _:
            message = f"a {type(spread).__name__.lower()} spread has no text"
            raise ValueError(message)
