"""A function asked by a person: what every face does the same before it shows an answer."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping
from typing import Literal

import numpy as np

from axlewright.formulary.call import Answer, Decimal, Value, call
from axlewright.formulary.examples import texts_to_try
from axlewright.formulary.read import Formula
from axlewright.formulary.registry import formula
from axlewright.formulary.said import as_typed, figure, leaves, spelled, typed, with_unit
from axlewright.quantities import Measures, NotRead, parse, unit_for
from axlewright.trade.lubricants import condition
from axlewright.yard.faults import Fault, Faults

WINDOW, BOOK = "bolt-window", "book-torque"
HANGING = ("set_to", "preload", "preload_low", "preload_high")  # of the window: what hangs on a torque that is set
NOTHING = "nothing is safe to set"
MARK = "mark"  # the step of a wrench's scale
US_MARK = "5 lbf·ft"  # taken where a wrench in pound-feet has no mark typed: common practice, no source
NO_NUMBER = ("No number comes out of that.", "Some of the values are far from what it holds for.")
ONE_NUMBER = ("It takes one number here, no range.", "Type the careful end.")
NEAR = 1e-6  # of a unit: an edge as near as this to a whole number is on it


def ask(name: str, texts: Mapping[str, str], measures: Measures = "metric", decimal: Decimal = ".") -> Answer:
    """The answer of a function to typed texts, without a number that nobody may use.

    Raises:
        Faults: all that is wrong, each with the argument's name and what to type
    """
    found = formula(name)
    given = {key: text for key, text in texts.items() if text.strip()}
    if measures == "us" and any(slot.name == MARK and not slot.needed for slot in found.takes):
        given = {MARK: US_MARK, **given}
    answer = worked_out(found, given, measures, decimal)
    if found.name == WINDOW and not safe(answer):
        kept = tuple(withheld(value) if value.name in HANGING else value for value in answer.values)
        answer = dataclasses.replace(answer, values=kept)
    return dataclasses.replace(answer, texts=dict(texts))


def worked_out(found: Formula, given: dict[str, str], measures: Measures, decimal: Decimal) -> Answer:
    """The function's answer; what it cannot do with these values is a fault too.

    Raises:
        Faults: all that is wrong
    """
    try:
        with np.errstate(all="ignore"):  # a limit is said in words, not as a warning
            answer = call(found.name, given, measures, decimal)
    except Faults as bad:
        tried = as_typed(found, texts_to_try(found), measures, decimal)
        raise Faults(*(with_example(fault, tried) for fault in bad.faults)) from bad.__cause__
    except (ArithmeticError, np.linalg.LinAlgError) as bad:
        raise far_off(found, given, measures, decimal) from bad
    except (TypeError, ValueError) as bad:
        wide = ranged(found, given, decimal)
        if not wide:
            raise
        raise Faults(*(Fault(key, *ONE_NUMBER) for key in wide)) from bad
    if any(isinstance(value.si, float) and math.isnan(value.si) for value in answer.values):
        raise far_off(found, given, measures, decimal)
    return answer


def far_off(found: Formula, given: Mapping[str, str], measures: Measures, decimal: Decimal) -> Faults:
    """Which value no number comes out of: the one that, put back to the example's, gives one again."""
    tried = as_typed(found, texts_to_try(found), measures, decimal)
    for key in given:
        if key in tried and gives_a_number(found, {**given, key: tried[key]}, measures, decimal):
            return Faults(
                Fault(
                    key,
                    f"No number comes out with {key} {given[key].strip()[:40]}: it is far from what this holds for.",
                    f"Type {typed(key, tried[key])}, say.",
                )
            )
    return Faults(Fault(found.name, *NO_NUMBER))


def gives_a_number(found: Formula, given: Mapping[str, str], measures: Measures, decimal: Decimal) -> bool:
    try:
        with np.errstate(all="ignore"):
            values = call(found.name, given, measures, decimal).values
    except (Faults, ArithmeticError, TypeError, ValueError):
        return False
    return not any(isinstance(value.si, float) and math.isnan(value.si) for value in values)


def ranged(found: Formula, given: Mapping[str, str], decimal: Decimal) -> list[str]:
    """Where a range is typed: some searches take numbers alone."""
    wide = []
    for key, slot in leaves(found.takes, given):
        if slot.form == "quantity" and not slot.many and key in given:
            try:
                parse(given[key], slot.kind, decimal)
            except NotRead:
                wide.append(key)
    return wide


def with_example(fault: Fault, tried: Mapping[str, str]) -> Fault:
    """A value that is missing, with one that would do here in place of one of its kind."""
    if fault.what.startswith("This is missing") and not fault.right.startswith("Choose") and fault.where in tried:
        return dataclasses.replace(fault, right=f"Type {typed(fault.where, tried[fault.where])}, say.")
    return fault


def safe(window: Answer) -> bool:
    """Whether a torque may be set: it lies in the window whatever was drawn, on a bolt that is clean."""
    return window["holds"].si is True and not dirty(window)


def dirty(window: Answer) -> bool:
    return condition(grease_of(window)).clean_first


def grease_of(window: Answer) -> str:
    return next(str(value.si) for value in window.inputs if value.name == "grease")


def withheld(value: Value) -> Value:
    return dataclasses.replace(value, si=NOTHING, unit=None, low=None, high=None)


def headline(answer: Answer, decimal: Decimal = ".") -> str:
    """The answer in one sentence."""
    if answer.formula.name == WINDOW:
        return bolt_window(answer, decimal)
    if answer.formula.name == BOOK:
        return book_torque(answer, decimal)
    first, said = answer.formula.gives[0], result_of(answer, decimal)
    words = f"{first.words.split(';')[0]} " if answer.formula.structure is not None and first.words else ""
    return f"{answer.formula.title}: {words}{said}."


def result_of(answer: Answer, decimal: Decimal = ".") -> str:
    """The first value; of many structures how many there are."""
    if answer.formula.many and answer.formula.gives[0].form == "structure":
        return f"{len({value.name.split('.')[0] for value in answer.values})} in all"
    return spelled(answer.values[0], decimal) if answer.values else "none"


def bolt_window(answer: Answer, decimal: Decimal = ".") -> str:
    """What to set, or that nothing is safe to set. The lower edge is rounded up, the upper one down."""
    low, high = edge(answer["low"], "up"), edge(answer["high"], "down")
    least, most = (figure(number, 6, decimal) for number in (low, high))
    unit = answer["low"].unit
    with_grease = f"With {grease_of(answer)}"
    if safe(answer):
        return f"{with_grease} set {spelled(answer['set_to'], decimal)}: {least} to {most} holds."
    if dirty(answer):
        return f"{with_grease} {NOTHING}: clean it first."
    if low > high:
        return f"{with_grease} {NOTHING}: it wants {with_unit(least, unit)} to hold, and bears {with_unit(most, unit)}."
    if answer["holds"].si is False:
        return f"{with_grease} {NOTHING}: no mark of the wrench lies from {least} to {with_unit(most, unit)}."
    return f"{with_grease} {NOTHING}: it does not hold with all that was typed as a range."


def book_torque(answer: Answer, decimal: Decimal = ".") -> str:
    """What to think of the book's number, and by how much."""
    torque = next(value for value in answer.inputs if value.name == "torque")
    pull, breaks = (spelled(answer[name], decimal) for name in ("pull", "breaks"))
    return (
        f"{spelled(torque, decimal)} with {grease_of(answer)}: {answer['says'].si}. "
        f"It likely pulls {pull}; the bolt breaks at {breaks}."
    )


def edge(value: Value, toward: Literal["up", "down"]) -> float:
    """An edge in whole units, rounded to the safe side."""
    unit = value.unit or unit_for(value.kind.name)
    careful = value.high if toward == "up" else value.low
    number = unit.from_si(value.si if careful is None else careful)
    return math.ceil(number - NEAR) if toward == "up" else math.floor(number + NEAR)
