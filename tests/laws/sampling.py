"""Inputs that a function accepts: those of its own doctest, else found by trying plain values of each kind."""

from __future__ import annotations

import dataclasses
import doctest
import importlib
import inspect
from functools import cache
from typing import Any

import numpy as np

from axlewright.engines.limits import OutOfRange
from axlewright.formulary import Formula, Slot

# plain values of each kind, SI: the middle of what a farm shed holds
PLAIN: dict[str, tuple[float, ...]] = {
    "share": (0.2, 0.5, 0.05, 0.9, 1.5), "count": (8.0, 2.0), "angle": (0.05, 0.3), "temperature": (313.15, 353.15),
    "temperature-step": (25.0,), "money": (900.0,), "money-rate": (0.02,), "length": (0.02, 0.5, 2.0, 0.2, 0.005),
    "area": (2.4e-4, 0.5), "volume": (0.01, 0.5), "section-modulus": (1e-4,), "second-moment": (1e-6,),
    "curvature": (0.01,), "duration": (3600.0, 1.8e6), "rate": (1e-3, 5.0), "speed": (5.0, 0.1), "acceleration": (9.81,),
    "field-rate": (7.0,), "kinematic-viscosity": (1.5e-4,), "flow": (1e-6,), "mass": (500.0, 12_000.0, 30.0),
    "density": (800.0, 1.2), "inertia": (50.0,), "force": (9e4, 1.5e5, 2e3), "torque": (400.0, 60.0), "energy": (500.0,),
    "power": (1e5,), "pressure": (9e8, 1.5e7, 2.1e11, 1e5), "stiffness": (1e6, 1e8), "resilience": (2e-9, 5e-10),
    "rotational-stiffness": (1e5,), "line-load": (1e4,), "subgrade-modulus": (3e7,), "dynamic-viscosity": (0.1,),
}  # fmt: skip


class Recorded(Exception):
    """The arguments of a call."""


@cache
def inputs_of(formula: Formula) -> dict[str, Any] | None:
    """Arguments by name that the function accepts, defaults of quantities written out; none where none was found."""
    found = _from_doctest(formula) or _by_trying(formula)
    if found is None:
        return None
    written = {
        s.name: s.default for s in formula.takes if not s.needed and s.form == "quantity" and s.default is not None
    }
    return written | found


def _from_doctest(formula: Formula) -> dict[str, Any] | None:
    function = formula.function
    module = importlib.import_module(function.__module__)

    def record(*args: Any, **kwargs: Any) -> None:
        raise Recorded(inspect.signature(function).bind(*args, **kwargs).arguments)

    space = {**vars(module), function.__name__: record}
    for example in doctest.DocTestParser().get_examples(function.__doc__ or ""):
        try:
            exec(compile(example.source, function.__name__, "exec"), space)
        except Recorded as call:
            return dict(call.args[0])
        except Exception:
            return None
    return None


def _by_trying(formula: Formula) -> dict[str, Any] | None:
    for seed in range(400):
        rng = np.random.default_rng(seed)
        given = {s.name: _value(s, rng, 4 - seed % 4) for s in formula.takes if s.needed}
        try:
            result = formula.function(**given)
        except (OutOfRange, ValueError):
            continue
        found = numbers(formula, result)
        if found and all(np.isfinite(number).all() for number in found):
            return given
    return None


def _value(slot: Slot, rng: np.random.Generator, several_of: int) -> Any:
    if slot.many:
        several = tuple(_value(dataclasses.replace(slot, many=False), rng, several_of) for _ in range(several_of))
        return np.stack(several, axis=-1) if slot.axis else several
    if slot.form == "structure":
        return slot.type(**{s.name: _value(s, rng, several_of) for s in slot.fields if s.needed})
    if slot.form == "named":
        return slot.type.read(slot.type.example)
    if slot.form == "word":
        return rng.choice(slot.choices) if slot.choices else "word"
    if slot.form == "whole":
        return int(rng.choice([1, 2, 3, 8]))
    if slot.kind.name == "yes-no":
        return bool(rng.integers(2))
    return float(rng.choice(PLAIN[slot.kind.name]) * rng.uniform(0.8, 1.25))


def numbers(formula: Formula, result: Any) -> list[Any]:
    """All numbers of a result as arrays, in order."""
    return [number for _, number in with_kinds(formula, result)]


def with_kinds(formula: Formula, result: Any) -> list[tuple[str, Any]]:
    """All numbers of a result as arrays, in order, each with the name of its kind."""
    if formula.structure is None:
        return _numbers(formula.gives[0], result)
    return [number for slot in formula.gives for number in _numbers(slot, getattr(result, slot.name))]


def inputs_with_kinds(formula: Formula, inputs: dict[str, Any]) -> list[tuple[str, Any]]:
    """All numbers given, each with the name of its kind."""
    given = [(s, inputs[s.name]) for s in formula.takes if inputs.get(s.name) is not None]
    return [number for slot, value in given for number in _numbers(slot, value)]


def _numbers(slot: Slot, value: Any) -> list[tuple[str, Any]]:
    if slot.many:
        return [n for one in value for n in _numbers(dataclasses.replace(slot, many=False), one)]
    if slot.form == "structure":
        return [n for part in slot.fields for n in _numbers(part, getattr(value, part.name))]
    return [] if slot.form in ("word", "named") else [(slot.kind.name, np.asarray(value, float))]


def rescaled(slot: Slot, value: Any, factors: tuple[float, float, float]) -> Any:
    """A value in other units: metre, kilogram and second each so many times smaller."""
    if value is None:
        return None
    if slot.many:
        several = tuple(rescaled(dataclasses.replace(slot, many=False), one, factors) for one in value)
        return np.stack(several, axis=-1) if slot.axis else several
    if slot.form == "structure":
        return dataclasses.replace(value, **{s.name: rescaled(s, getattr(value, s.name), factors) for s in slot.fields})
    if slot.form != "quantity" or slot.kind.name == "yes-no":
        return value
    factor = float(np.prod([f**p for f, p in zip(factors, slot.kind.powers, strict=True)]))
    return np.asarray(value, float) * factor if isinstance(value, np.ndarray) else value * factor
