"""A function called with typed texts: every text read by its kind, every mistake said at once, the result with its units.

A text may be a spread (`18 t ± 2 t`): then the function runs over draws and the result has ends.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from axlewright.formulary.read import Formula
from axlewright.formulary.registry import formula
from axlewright.formulary.slots import Slot
from axlewright.kinds import Kind
from axlewright.quantities import Exact, Measures, NotRead, Unit, careful, parse, read_spread, stream, unit_for

DRAWS, SEED = 2048, 0
Decimal = Literal[".", ","]


@dataclass(frozen=True, slots=True)
class Value:
    """A number or a word of an answer. `si` and the ends are SI; `unit` is the one to show it in."""

    name: str
    words: str
    kind: Kind
    si: Any  # float; a word; a tuple where there are many
    unit: Unit | None
    low: float | None = None
    high: float | None = None

    @property
    def number(self) -> Any:
        """The value in its unit."""
        return self.si if self.unit is None or isinstance(self.si, str | bool) else _each(self.si, self.unit.from_si)


@dataclass(frozen=True, slots=True)
class Answer:
    """What a function gave: its inputs as read, its values, its source and limits."""

    formula: Formula
    texts: dict[str, str]
    inputs: tuple[Value, ...]
    values: tuple[Value, ...]

    def __getitem__(self, name: str) -> Value:
        return next(v for v in self.values if v.name == name)


def call(name: str, texts: Mapping[str, str], measures: Measures = "metric", decimal: Decimal = ".") -> Answer:
    """Call a function of the formulary with typed texts.

    Args:
        name: of the function, such as `bolt-window`
        texts: argument -> what was typed; parts of a structure as `centre.x`, of the second of many as `legs.2.length`
        measures: of the units the answer is shown in
        decimal: the decimal mark that the typist writes

    Raises:
        Faults: all that is wrong, each with the argument's name and what to type
    """
    found = formula(name)
    given, reading = _given(found, texts, decimal)
    drawn = {key: draw(value, key) for key, value in given.items()}
    result = _run(found, drawn, reading)
    inputs = tuple(
        v for slot in found.takes if slot.name in drawn for v in values(slot, drawn[slot.name], measures, slot.name)
    )
    if found.structure is not None:
        parts = [(slot, getattr(result, slot.name), slot.name) for slot in found.gives]
    else:
        parts = [(found.gives[0], result, "")]
    return Answer(
        found, dict(texts), inputs, tuple(v for slot, got, at in parts for v in values(slot, got, measures, at))
    )


def given_by(found: Formula, texts: Mapping[str, str]) -> dict[str, Any]:
    """The arguments that texts stand for, as the function takes them.

    Raises:
        Faults: all that cannot be read
    """
    return _given(found, texts, ".")[0]


def _given(found: Formula, texts: Mapping[str, str], decimal: Decimal) -> tuple[dict[str, Any], _Reading]:
    reading = _Reading({key.strip().replace("_", "-").lower(): text for key, text in texts.items()}, decimal)
    given = {slot.name: value for slot in found.takes if (value := reading.slot(slot, slot.key)) is not _LEFT_OUT}
    reading.refuse_strangers(found)
    reading.stop_if_faulty()
    return given, reading


_LEFT_OUT: Any = object()


class _Reading:
    """Texts read one by one; mistakes are kept until all are read."""

    def __init__(self, texts: Mapping[str, str], decimal: Decimal) -> None:
        self.texts, self.decimal = texts, decimal
        self.read: set[str] = set()
        self.units: dict[str, Unit] = {}
        self.faults: list[tuple[str, str, str]] = []

    def slot(self, slot: Slot, key: str) -> Any:
        """The value of a slot, or `_LEFT_OUT`."""
        if slot.form == "structure":
            return self._many(slot, key) if slot.many else self._structure(slot, key)
        text = self.texts.get(key, "").strip()
        self.read.add(key)
        if not text:
            if slot.needed:
                right = (
                    f"Choose {_choice(slot.choices)}." if slot.choices else f"Type {key}={_quoted(example_of(slot))}."
                )
                self.faults.append((key, f"This is missing: {slot.words or key}.", right))
            return _LEFT_OUT
        if slot.many:
            parts = [part for part in text.split(";" if ";" in text else ",") if part.strip()]
            several = tuple(self._one(slot, key, part.strip()) for part in parts)
            return np.stack(several, axis=-1) if slot.axis and _LEFT_OUT not in several else several
        return self._one(slot, key, text)

    def _one(self, slot: Slot, key: str, text: str) -> Any:
        try:
            if slot.form == "word":
                return _word(slot, text)
            if slot.form == "named":
                return slot.type.read(text)
            if slot.form == "whole":
                return int(parse(text, "count", self.decimal).si)
            if slot.kind.name == "yes-no":
                return bool(parse(text, slot.kind, self.decimal).si)
            try:
                typed = parse(text, slot.kind, self.decimal)
            except NotRead as plain:
                if slot.one or slot.many:
                    raise
                try:
                    spread = read_spread(text, slot.kind, self.decimal)
                except NotRead as bad:
                    raise (bad if any(c in text for c in "±") else plain) from None
                return spread.value if isinstance(spread, Exact) else spread
            self.units[key] = typed.unit
            return typed.si
        except NotRead as bad:
            self.faults.append((key, str(bad), ""))
            return _LEFT_OUT

    def _structure(self, slot: Slot, key: str) -> Any:
        got = {part.name: self.slot(part, f"{key}.{part.key}") for part in slot.fields}
        left = {name: value for name, value in got.items() if value is not _LEFT_OUT}
        if any(part.needed and part.name not in left for part in slot.fields):
            if not left and not slot.needed:
                self.faults = [f for f in self.faults if not f[0].startswith(f"{key}.")]
            return _LEFT_OUT
        return slot.type(**{name: draw(value, f"{key}.{name}") for name, value in left.items()})

    def _many(self, slot: Slot, key: str) -> Any:
        numbers = {
            int(k.split(".")[slot_depth(key)])
            for k in self.texts
            if k.startswith(f"{key}.") and k.split(".")[slot_depth(key)].isdigit()
        }
        if not numbers:
            self.faults += [
                (f"{key}.1.{part.key}", f"This is missing: {part.words or part.key}.", "")
                for part in slot.fields
                if part.needed and slot.needed
            ]
            return _LEFT_OUT
        return tuple(self._structure(slot, f"{key}.{number}") for number in sorted(numbers))

    def refuse_strangers(self, found: Formula) -> None:
        for key in self.texts:
            if key not in self.read:
                near = difflib.get_close_matches(key, self.read, 1, 0.5)
                right = f"Did you mean {near[0]}?" if near else f"It takes {', '.join(s.key for s in found.takes)}."
                self.faults.append((key, f"{found.name} takes no {key}.", right))

    def stop_if_faulty(self) -> None:
        if self.faults:
            from axlewright.yard.faults import Fault, Faults

            raise Faults(*(Fault(*fault) for fault in self.faults))


def slot_depth(key: str) -> int:
    """Where in a dotted name the number of one of many stands."""
    return key.count(".") + 1


def _word(slot: Slot, text: str) -> str:
    for choice in slot.choices:
        if text.casefold().replace("-", " ") == choice.casefold().replace("-", " "):
            return choice
    if not slot.choices:
        return text
    raise NotRead(
        text, f"one of {', '.join(slot.choices)}", tuple(difflib.get_close_matches(text, slot.choices, 2, 0.5))
    )


def _choice(choices: tuple[str, ...]) -> str:
    *first, last = choices
    mark = "; " if any("," in choice for choice in choices) else ", "
    return f"{mark.join(first)} or {last}" if first else last


def _quoted(text: str) -> str:
    return f'"{text}"' if " " in text else text


def example_of(slot: Slot) -> str:
    """A text that may be typed for a slot."""
    from axlewright.quantities.choices import EXAMPLES

    if slot.form == "named":
        return str(slot.type.example)
    if slot.choices:
        return slot.choices[0]
    text = EXAMPLES.get(slot.kind.name, (f"1 {slot.kind.unit}", ""))[0]
    return f"{text}; {text}" if slot.many else text


def draw(value: Any, name: str) -> Any:
    """A spread as draws of its own stream, evenly spread (one in each of as many parts); anything else as it is."""
    if isinstance(value, tuple):
        return tuple(draw(part, f"{name}.{number}") for number, part in enumerate(value, 1))
    if hasattr(value, "at") and hasattr(value, "ends"):
        return value.at((stream(SEED, name).permutation(DRAWS) + 0.5) / DRAWS)
    return value


def _run(found: Formula, given: dict[str, Any], reading: _Reading) -> Any:
    """The function's result; an argument out of range becomes a fault, with its limits in the unit that was typed."""
    from axlewright.engines.limits import OutOfRange
    from axlewright.yard.faults import Fault, Faults

    try:
        return found.function(**given)
    except OutOfRange as bad:
        slot, key = slot_at(found, bad.what)
        raise Faults(Fault(key or found.name, out_of_range(bad, slot, key, reading.units.get(key)))) from bad
    except NotRead as bad:
        typed = (key for key, text in reading.texts.items() if text.strip() == bad.text)
        raise Faults(Fault(next(typed, found.name), str(bad))) from bad


def slot_at(found: Formula, what: str) -> tuple[Slot | None, str]:
    """The slot that an engine names, and how it is typed: `task.load`, `timbers.2.width`."""
    slots, slot, keys = found.takes, None, []
    for part in what.split("."):
        if slot is not None and slot.many and part.isdigit():
            keys.append(part)
            continue
        slot = next((s for s in slots if s.name == part), None)
        if slot is None:
            return None, ""
        keys.append(slot.key)
        slots = slot.fields
    return slot, ".".join(keys)


def out_of_range(bad: Any, slot: Slot | None, key: str, unit: Unit | None) -> str:
    """What is out of range, as a sentence with its limits in the unit that was typed."""
    if slot is None or slot.form != "quantity":
        return f"{bad}."
    unit = unit or unit_for(slot.kind.name, "metric", bad.value)

    def said(si: float) -> str:
        return f"{unit.from_si(si):.4g}{'' if unit.symbol in ('', '°') else ' '}{unit.symbol}"

    if np.isinf(bad.low) and np.isinf(bad.high):
        span = "a number"
    elif np.isinf(bad.high):
        least = (
            "more than 0" if bad.low == 0 and bad.value <= 0 and "more than" in bad.why else f"at least {said(bad.low)}"
        )
        span = least
    elif np.isinf(bad.low):
        span = f"at most {said(bad.high)}"
    else:
        span = f"{said(bad.low)} to {said(bad.high)}"
    some = "" if bad.part >= 1 else f" in {bad.part:.1%} of the draws"
    why = "" if not bad.why or "more than" in bad.why else f" ({bad.why})"
    return f"{key} is {said(bad.value)}{some}; it must be {span}{why}."


def _each(value: Any, function: Any) -> Any:
    return tuple(_each(v, function) for v in value) if isinstance(value, tuple) else function(value)


def values(slot: Slot, got: Any, measures: Measures, at: str) -> Iterator[Value]:
    """The numbers of a slot, one by one: parts of structures as `name.part`, of many by number."""
    if slot.form == "structure":
        for number, one in enumerate(got, 1) if slot.many else [(0, got)]:
            here = ".".join(str(part) for part in (at, number) if part)
            for part in slot.fields:
                yield from values(part, getattr(one, part.name), measures, f"{here}.{part.name}" if here else part.name)
    elif slot.many:
        kept = tuple(_single(one) for one in got)
        unit = (
            None
            if isinstance(next(iter(kept), None), str)
            else unit_for(slot.kind.name, measures, max(map(abs, kept), default=0))
        )
        yield Value(at, slot.words, slot.kind, kept, unit)
    elif slot.form == "named":
        yield Value(at, slot.words, slot.kind, str(getattr(got, "designation", getattr(got, "label", got))), None)
    elif slot.form == "word":
        yield Value(at, slot.words, slot.kind, str(got), None)
    elif slot.kind.name == "yes-no":
        yield _yes_or_no(slot, got, at)
    else:
        yield _number(slot, got, measures, at)


def _single(value: Any) -> Any:
    return value if isinstance(value, str | int) else float(np.mean(value))


def _yes_or_no(slot: Slot, got: Any, at: str) -> Value:
    """An answer; over draws the share of yes, unless all agree."""
    share = float(np.mean(got))
    return Value(at, slot.words, slot.kind, bool(share) if share in (0.0, 1.0) else share, None)


def _number(slot: Slot, got: Any, measures: Measures, at: str) -> Value:
    draws = np.asarray(got, float)
    middle = float(draws.flat[0] if draws.size == 1 else np.median(draws))
    unit = unit_for(slot.kind.name, measures, middle)
    if draws.size == 1:
        return Value(at, slot.words, slot.kind, middle, unit)
    return Value(at, slot.words, slot.kind, middle, unit, careful(draws, "low"), careful(draws, "high"))


def texts_of(found: Formula, given: Mapping[str, Any], digits: int = 9) -> dict[str, str]:
    """SI values as texts that `call` reads back: what a page shows in its fields at first."""
    from axlewright.quantities import spell

    texts: dict[str, str] = {}
    for slot in found.takes:
        value = given.get(slot.name)
        if value is None or slot.form in ("structure", "named"):
            continue
        if slot.form == "word":
            texts[slot.key] = str(value)
        elif slot.kind.name == "yes-no":
            texts[slot.key] = "yes" if value else "no"
        elif slot.many:
            texts[slot.key] = "; ".join(
                spell(float(v), unit_for(slot.kind.name, "metric", float(v)), digits) for v in value
            )
        else:
            texts[slot.key] = spell(float(value), unit_for(slot.kind.name, "metric", float(value)), digits)
    return texts


def starting_texts(found: Formula) -> dict[str, str]:
    """Texts that work: from the docstring's `Try:`, else from its example."""
    return dict(found.tried) or texts_of(found, found.example, 6)
