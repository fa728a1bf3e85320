"""The one reading of an engine function: from its signature and docstring come command, page, operation and docs."""

from __future__ import annotations

import ast
import inspect
import operator
import shlex
import typing
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any

from axlewright.formulary.slots import REQUIRED, NotAFormula, Slot, fields_of, said_by, slot_of

EMPIRICAL = "empirical"  # this word in `Valid` says that constants carry hidden units


@dataclass(frozen=True, slots=True, eq=False)
class Formula:
    """A function of the formulary."""

    name: str
    title: str
    takes: tuple[Slot, ...]
    gives: tuple[Slot, ...]  # one of name "" where the result is one number
    source: str
    valid: str
    words: str
    empirical: bool
    example: dict[str, Any]  # SI values by argument, from the docstring's example; empty where it is no plain call
    tried: dict[str, str]  # texts to type, from the docstring's `Try:`
    family: str
    function: Callable[..., Any]
    structure: type | None = None  # of a result with several fields
    many: bool = False  # the result is a tuple of what it gives

    def slot(self, name: str) -> Slot:
        return next(s for s in self.takes if s.name == name)


@cache
def read(function: Callable[..., Any]) -> Formula:
    """What a function finds, takes and gives, with its source and its limits.

    Raises:
        NotAFormula: its signature or docstring is not in the house's form; says all that is missing
    """
    said = said_by(inspect.getdoc(function) or "")
    hints = typing.get_type_hints(function, include_extras=True)
    faults: list[str] = []
    takes = []
    for name, parameter in inspect.signature(function).parameters.items():
        if name not in said.takes:
            faults.append(f"{name} is not described under Args")
        words, unit = said.takes.get(name, ("", ""))
        default = REQUIRED if parameter.default is inspect.Parameter.empty else parameter.default
        if name not in hints:
            faults.append(f"{name} has no kind")
            continue
        slot = slot_of(name, hints[name], words, unit, default, faults)
        if slot:
            takes.append(slot)
    faults += [f"{name} is described and not taken" for name in said.takes if name not in hints]
    gives, structure, many = _gives(hints.get("return"), said.gives, faults)
    faults += [f"{part}: is missing" for part in ("Source", "Valid") if not said.parts.get(part)]
    if not said.title:
        faults.append("the first line of its docstring says what it finds")
    if faults:
        message = f"{function.__module__}.{function.__qualname__}: " + "; ".join(faults)
        raise NotAFormula(message)
    valid = said.parts["Valid"].strip()
    path = function.__module__.split(".")
    return Formula(
        name=name_of(function),
        title=said.title.rstrip("."),
        takes=tuple(takes),
        gives=gives,
        source=said.parts["Source"].strip(),
        valid=valid,
        words=said.words,
        empirical=EMPIRICAL in valid.casefold(),
        example=_example(said.example, function.__name__, [slot.name for slot in takes]),
        tried=dict(pair.split("=", 1) for pair in shlex.split(said.parts.get("Try", ""))),
        family=path[2] if path[:2] == ["axlewright", "engines"] and len(path) > 3 else path[-1],
        function=function,
        structure=structure,
        many=many,
    )


def name_of(function: Callable[..., Any]) -> str:
    """A function's name as it is typed: `bolt-window`."""
    return function.__name__.replace("_", "-")


def _gives(
    hint: Any, said: dict[str, tuple[str, str]], faults: list[str]
) -> tuple[tuple[Slot, ...], type | None, bool]:
    """The parts of a result, its structure, and whether there are many."""
    if hint is None or hint is type(None):
        faults.append("it gives nothing")
        return (), None, False
    words, unit = said.get("", ("", ""))
    if not said:
        faults.append("Returns is missing")
    mine: list[str] = []
    slot = slot_of("", hint, words, unit, REQUIRED, mine)
    if slot is None or slot.form != "structure" or slot.many:
        faults += mine
        return (slot,) if slot else (), None, bool(slot and slot.many)
    return fields_of(slot.type, said, faults), slot.type, False


_SUMS: dict[type, Callable[[Any, Any], Any]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}


def _plain(node: ast.expr) -> Any:
    """The value of a number, a word, or a sum of numbers; anything else is a `ValueError`."""
    if isinstance(node, ast.BinOp) and type(node.op) in _SUMS:
        return _SUMS[type(node.op)](_plain(node.left), _plain(node.right))
    return ast.literal_eval(node)


def _example(text: str, function: str, names: list[str]) -> dict[str, Any]:
    """Arguments of the first call of the function in a doctest, where all of them are plain."""
    for line in text.splitlines():
        if not line.strip().startswith(">>>"):
            continue
        for node in ast.walk(
            ast.parse(line.strip()[3:].strip().rstrip("\\") or "0") if _whole(line) else ast.Module([], [])
        ):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == function:
                try:
                    given = dict(zip(names, map(_plain, node.args), strict=False))
                    return given | {k.arg: _plain(k.value) for k in node.keywords if k.arg}
                except ValueError:
                    return {}
    return {}


def _whole(line: str) -> bool:
    """Whether a doctest line is Python by itself."""
    try:
        ast.parse(line.strip()[3:].strip())
    except SyntaxError:
        return False
    return True
