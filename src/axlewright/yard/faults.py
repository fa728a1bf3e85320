"""What is wrong with something typed: where, what, and what would be right; all of it at once."""

from __future__ import annotations

import difflib
import json
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ValidationError


@dataclass(frozen=True, slots=True)
class Fault:
    """One mistake. `what` and `right` are whole sentences; `where` is a file with its line, a field or a record."""

    where: str
    what: str
    right: str = ""

    def __str__(self) -> str:
        return f"{self.where}: {self.what} {self.right}".rstrip()


class Faults(ValueError):
    """All mistakes of a folder, a form or a file. Nothing was kept of it, nothing was changed."""

    def __init__(self, *faults: Fault) -> None:
        self.faults = faults
        super().__init__("\n".join(map(str, faults)))


class Moved(Exception):
    """What a change was made against is no longer what is kept: somebody wrote in between. Nothing was written."""

    def __init__(self, seen: int, now: int) -> None:
        self.seen, self.now = seen, now
        super().__init__("The yard was changed by somebody else in the meantime. Nothing was written: read it again.")


def closest(word: object, known: Iterable[str]) -> str:
    """A sentence that names the known word nearest to this one, or a few of those there are; empty if there are none."""
    known = sorted(set(known))
    found = difflib.get_close_matches(str(word).lower(), known, 1, 0.6)
    if found:
        return f"Did you mean {found[0]}?"
    if not known:
        return ""
    return f"There is {', '.join(known[:8])}{' ...' if len(known) > 8 else ''}."


def shown(value: object) -> str:
    """A wrong value as it stands in a message: short, on one line, in quotes if it is text."""
    text = json.dumps(value, ensure_ascii=False, default=str)
    return text if len(text) <= 60 else text[:57] + "..."


def example(model: type[BaseModel], key: str) -> str:
    """The example that a field carries, written as it would stand in a file."""
    examples = model.model_fields[key].examples if key in model.model_fields else None
    if not examples:
        return ""
    value = examples[0]
    if not (isinstance(value, str) and len(value) == 10 and value[4] == "-"):  # dates stand without quotes
        value = json.dumps(value, ensure_ascii=False)
    return f"Write {key} = {value}"


SAID = {
    "string_type": "This is text and stands in quotes.",
    "date_type": "This is a date: year-month-day, without quotes.",
    "date_parsing": "There is no such date.",
    "date_from_datetime_parsing": "There is no such date.",
    "date_from_datetime_inexact": "This is a date: year-month-day, without a time.",
    "datetime_type": "This is a time with its date.",
    "datetime_parsing": "There is no such time.",
    "float_type": "This is a number, without quotes and unit.",
    "float_parsing": "This is a number, without quotes and unit, with a point for decimals.",
    "finite_number": "This must be a plain number.",
    "int_type": "This is a whole number.",
    "int_parsing": "This is a whole number.",
    "int_from_float": "This is a whole number.",
    "bool_type": "This is true or false.",
    "bool_parsing": "This is true or false.",
    "tuple_type": "This is a list, in square brackets.",
    "model_type": "A value with its unit stands in quotes.",
    "string_too_short": "Nothing stands here.",
    "too_short": "Nothing stands here.",
}
"""Sentences for the kinds of mistake that pydantic finds; those that need a number or a name are in `_said`."""


def _said(error: Any) -> str:
    kind, context = error["type"], error.get("ctx", {})
    if kind in SAID:
        return SAID[kind]
    if kind == "value_error":
        return str(context["error"])
    if kind == "literal_error":
        return f"It must be {context['expected']}."
    if kind in {"greater_than_equal", "greater_than"}:
        return f"It must be {context.get('ge', context.get('gt'))} or more."
    if kind in {"less_than_equal", "less_than"}:
        return f"It must be {context.get('le', context.get('lt'))} or less."
    if kind in {"string_too_long", "too_long"}:
        return f"It is longer than {context['max_length']} characters."
    return f"{error['msg']}."


def faults_of(
    bad: ValidationError, model: type[BaseModel], where: Callable[[str], str], also: Iterable[str] = ()
) -> tuple[Fault, ...]:
    """The mistakes of one record in plain words.

    Args:
        bad: what pydantic found
        model: the record's type, whose fields carry examples
        where: names the place of a key (empty: the record as a whole)
        also: names that may stand beside the record's own keys
    """
    found = []
    errors = bad.errors()
    inner = {error["loc"][0] for error in errors if len(error["loc"]) > 1}
    for error in errors:
        path = [str(part) for part in error["loc"]]
        if error["type"] == "too_short" and error["loc"][0] in inner:
            continue  # short only because of the part that was refused
        key = path[0] if path else ""
        right = example(model, key)
        if error["type"] == "missing" and len(path) == 1:
            found.append(Fault(where(key), f"{key} is missing.", right and f"{right}."))
        elif error["type"] == "extra_forbidden" and len(path) == 1:
            found.append(Fault(where(key), f"There is no {key} here.", closest(key, [*model.model_fields, *also])))
        else:
            said = _said(error)
            if " Type " in said or "Write " in said:  # it says itself what would be right
                right = ""
            place = where(key)
            if place != key and not isinstance(error["input"], dict):  # a form shows what was typed
                said = f"{'.'.join(path)} = {shown(error['input'])}: {said}"
            found.append(Fault(place, said, right and f"{right}."))
    return tuple(found)
