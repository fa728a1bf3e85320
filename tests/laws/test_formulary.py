"""Laws over every function of the formulary: units may be rescaled, draws are apart, nothing given is changed."""

from __future__ import annotations

import dataclasses
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from laws.sampling import inputs_of, inputs_with_kinds, numbers, rescaled, with_kinds

from axlewright.engines.limits import OutOfRange, within
from axlewright.formulary import Formula, functions, read
from axlewright.formulary.slots import Slot
from axlewright.kinds import Force, Length, Torque

ALL = functions()
EXACT = [f for f in ALL.values() if not f.empirical]
NEAR = st.floats(0.94, 1.06)


def scaled_result(formula: Formula, result: Any, factors: tuple[float, float, float]) -> Any:
    if formula.structure is None:
        return rescaled(formula.gives[0], result, factors)
    return type(result)(**{s.name: rescaled(s, getattr(result, s.name), factors) for s in formula.gives})


def differs(formula: Formula, inputs: dict[str, Any], factors: tuple[float, float, float]) -> str:
    """What the law finds: empty where the answer rescales by its own powers."""
    before = formula.function(**inputs)
    after = formula.function(
        **{s.name: rescaled(s, inputs[s.name], factors) for s in formula.takes if s.name in inputs}
    )
    wanted, found = with_kinds(formula, scaled_result(formula, before, factors)), numbers(formula, after)
    greatest: dict[str, float] = {"angle": 1.0}
    for kind, one in (*wanted, *inputs_with_kinds(formula, inputs)):
        greatest[kind] = max(greatest.get(kind, 0.0), float(np.abs(one[np.isfinite(one)]).max(initial=0.0)))
    for number, ((kind, one), other) in enumerate(zip(wanted, found, strict=True)):
        # beside its greatest neighbour of the same kind a number may be rounding: an arc cosine of 1 is 2e-8
        if not np.allclose(one, other, rtol=1e-6, atol=1e-7 * greatest[kind]):
            return f"number {number} of the result should be {one}, is {other}"
    return ""


@pytest.mark.parametrize("formula", ALL.values(), ids=ALL)
def test_every_function_can_be_tried(formula: Formula) -> None:
    assert inputs_of(formula) is not None, (
        "nothing it accepts was found: give its docstring an example with plain numbers"
    )


@pytest.mark.parametrize("formula", EXACT, ids=lambda f: f.name)
@settings(max_examples=6)
@given(factors=st.tuples(NEAR, NEAR, NEAR))
def test_units_may_be_rescaled(formula: Formula, factors: tuple[float, float, float]) -> None:
    """Finds swapped arguments, a millimetre hidden in a constant, a kind that does not hold."""
    inputs = inputs_of(formula)
    assert inputs is not None
    try:
        wrong = differs(formula, inputs, factors)
    except OutOfRange:  # a limit that has a unit: try nearer by
        wrong = differs(formula, inputs, tuple(1 + (f - 1) / 100 for f in factors))  # type: ignore[arg-type]
    assert not wrong, wrong


def plain(slot: Slot) -> bool:
    return slot.form == "quantity" and not slot.many and not slot.one and slot.kind.name != "yes-no"


@pytest.mark.parametrize(
    "formula", [f for f in ALL.values() if f.takes and all(map(plain, f.takes))], ids=lambda f: f.name
)
def test_each_draw_stands_alone_and_inputs_are_left_as_they_were(formula: Formula) -> None:
    """Over draws the answer is the answer of each draw alone."""
    inputs = inputs_of(formula)
    assert inputs is not None
    steps = np.random.default_rng(3).uniform(0.995, 1.005, (len(inputs), 3))
    steps[:, 0] = 1.0
    drawn = {
        name: np.asarray(value * step)
        for (name, value), step in zip(inputs.items(), steps, strict=True)
        if value is not None
    }
    kept = {name: draws.copy() for name, draws in drawn.items()}
    try:
        alone = [formula.function(**{name: float(draws[i]) for name, draws in drawn.items()}) for i in range(3)]
    except OutOfRange:  # the example stands on the edge of what is allowed
        drawn = {name: np.full(3, draws[0]) for name, draws in drawn.items()}
        kept = {name: draws.copy() for name, draws in drawn.items()}
        alone = [formula.function(**{name: float(draws[0]) for name, draws in drawn.items()})] * 3
    together = formula.function(**drawn)
    for part, whole in enumerate(numbers(formula, together)):
        for i in range(3):
            one = numbers(formula, alone[i])[part]
            np.testing.assert_allclose(
                np.broadcast_to(whole, (3, *one.shape) if one.ndim else (3,))[i], one, rtol=1e-9, atol=1e-12
            )
    for name, draws in drawn.items():
        np.testing.assert_array_equal(draws, kept[name])


@pytest.mark.parametrize("formula", [f for f in ALL.values() if any(map(plain, f.takes))], ids=lambda f: f.name)
def test_what_is_no_number_is_refused(formula: Formula) -> None:
    """Never passed on, never lost in a comparison."""
    inputs = inputs_of(formula)
    assert inputs is not None
    for slot in filter(plain, formula.takes):
        if inputs.get(slot.name) is not None:
            with pytest.raises(OutOfRange):
                formula.function(**{**inputs, slot.name: float("nan")})


# --- the law itself: it finds what it is there to find ---


def swapped(force: Force, length: Length) -> Torque:
    """A torque, wrongly.

    Args:
        force: force [N]
        length: arm [m]

    Returns:
        torque [N m]

    Source: none.
    Valid: never.
    """
    return force * force / length


def hidden_millimetre(force: Force, length: Length) -> Torque:
    """A torque, wrongly.

    Args:
        force: force [N]
        length: arm [m]

    Returns:
        torque [N m]

    Source: none.
    Valid: never.
    """
    within("length", length, 0)
    return force * (length + 0.001)


@pytest.mark.parametrize("function", [swapped, hidden_millimetre])
def test_the_law_finds_what_is_wrong(function: Any) -> None:
    formula = read(function)
    assert differs(formula, {"force": 200.0, "length": 0.6}, (1.02, 0.97, 1.03))
    assert not dataclasses.is_dataclass(formula.structure)
