"""Laws over every engine of bolts and joints: units rescale, more friction is never more preload, out of range is said."""

from __future__ import annotations

import importlib
import inspect
import math
import pkgutil
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from typing import Any, get_type_hints

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright import kinds
from axlewright.engines import joints
from axlewright.engines.joints import nut_factor, stress, tightening, window
from axlewright.engines.limits import OutOfRange

# one bolt, M20 x 2.5 of class 10.9 in iron; a value for every name that an engine asks for
SAMPLE: dict[str, Any] = {
    "diameter": 0.020, "pitch": 0.0025, "pitch_diameter": 0.018376, "bearing_diameter": 0.0251, "drill": 0.0175,
    "stress_area": 244.8e-6, "stress_diameter": 0.017655, "area": 244.8e-6, "engagement": 0.025, "length": 0.03,
    "bolt_major_least": 0.0196, "nut_pitch_greatest": 0.0186, "nut_minor_greatest": 0.0177, "bolt_pitch_least": 0.0182,
    "proof_stress": 830e6, "yield_stress": 940e6, "tensile_strength": 1040e6, "least": 940e6, "tensile": 254e3,
    "median_factor": 1.08, "log_sd": 0.04, "share": 0.05, "preload": 139e3, "torque": 390.0, "thread_torque": 200.0,
    "friction_thread": 0.10, "friction_head": 0.12, "friction": 0.10, "friction_log_sd": 0.15, "nut_factor": 0.14,
    "nut_factor_log_sd": 0.15, "wrench_log_sd": 0.04, "torque_log_sd": 0.04, "load_log_sd": 0.03, "load": 198e3,
    "clamp_needed": 92e3, "wrench_error": 0.04, "nut_factor_least": 0.11, "nut_factor_greatest": 0.18,
    "tightening_factor": 1.6, "greatest": 180e3, "median": 0.14, "job_log_sd": 0.12, "bolt_log_sd": 0.09, "tested": 0.16,
    "tests": 3.0, "reading_log_sd": 0.05, "bolts": 12.0, "job_share": 0.3, "bolt_share": 0.8, "use": 0.9,
    "washer_diameter": 0.02819, "hole_diameter": 0.022, "part_diameter": 0.060, "grip": 0.030, "tangent": 0.5,
    "modulus": 170e9, "bolt_modulus": 205e9, "housing_modulus": 110e9, "nut_modulus": 205e9, "thickness": 0.02,
    "face_diameter": 0.030, "shank_length": 0.012, "thread_length": 0.018, "bolt_gives": 1.2e-9, "parts_give": 2.1e-10,
    "snug_preload": 30e3, "angle": 0.35, "stretch": 1.4e-4, "embedding": 8e-6, "turns": 11.0, "bolt_length": 0.060,
    "thread_depth": 0.035, "strip_area": 1.1e-3, "shear_strength": 270e6, "external_per_length": 0.03,
    "internal_per_length": 0.045, "bolt_tensile": 1040e6, "housing_tensile": 250e6, "ratio": 3.0, "run_out": 0.002,
    "width_over_diameter": 1.6, "strength_ratio": 0.8, "bolt_breaks": 254e3, "bolt_strips": 400e3,
    "housing_strips": 260e3, "extra_pitch_diameter": 2e-4, "insert_length": 0.020, "wrench_length": 0.5,
    "adapter_length": 0.05, "adapter_angle": 0.4, "efficiency": 0.9, "reaction_arm": 0.25, "bar_length": 1.2,
    "pull": 225.0, "scale_least": 80.0, "scale_greatest": 400.0, "running_torque": 30.0, "times": 2.0,
    "engaged": 0.027, "shear_ratio": 0.9, "setting": 390.0, "wrench_factor": 1.04, "break_out": 240.0, "left": 80e3, "given": 120e3, "bolts_loose": 3.0, "tolerance_length": 0.020,
}  # fmt: skip
OF_ORDERS = {"order"}  # whole numbers and settings of a wrench: no kinds


def engines() -> Iterator[Callable[..., Any]]:
    for found in pkgutil.iter_modules(joints.__path__):
        if found.name.startswith("_") or found.name in OF_ORDERS:
            continue
        module = importlib.import_module(f"{joints.__name__}.{found.name}")
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_") and name != "check_thread":
                yield function


def of_kind(hint: Any) -> kinds.Kind | None:
    return next((m for m in getattr(hint, "__metadata__", ()) if isinstance(m, kinds.Kind)), None)


def rescaled(value: Any, kind: kinds.Kind, by: tuple[float, float, float]) -> Any:
    return value * math.prod(unit**power for unit, power in zip(by, kind.powers, strict=True))


ENGINES = list(engines())


@pytest.mark.parametrize("function", ENGINES, ids=lambda f: f.__name__)
def test_an_engine_says_all_that_is_to_be_said_of_it(function: Callable[..., Any]) -> None:
    doc = inspect.getdoc(function) or ""
    assert "Source:" in doc
    assert "Valid:" in doc
    assert "Returns:" in doc
    assert ">>>" in doc
    hints = get_type_hints(function, include_extras=True)
    for name in inspect.signature(function).parameters:
        kind = of_kind(hints[name])
        line = next(line for line in doc.splitlines() if line.strip().startswith(f"{name}:"))
        if kind:  # readings of any kind carry none
            assert line.rstrip().endswith(f"[{kind.unit}]"), line


@pytest.mark.parametrize(
    "function", [f for f in ENGINES if "empirical" not in (f.__doc__ or "")], ids=lambda f: f.__name__
)
def test_other_units_give_the_same_answer(function: Callable[..., Any]) -> None:
    hints = get_type_hints(function, include_extras=True)
    names = list(inspect.signature(function).parameters)
    slots = {name: of_kind(hints[name]) for name in names}
    if None in slots.values() or "readings" in names:
        pytest.skip("readings of any kind")
    by = (3.7, 0.21, 5.3)  # metre, kilogram, second
    before = function(**{name: SAMPLE[name] for name in names})
    after = function(**{name: rescaled(SAMPLE[name], kind, by) for name, kind in slots.items() if kind})
    result = hints["return"]
    parts = (
        [(getattr(before, f.name), getattr(after, f.name), get_type_hints(result, include_extras=True)[f.name]) for f in fields(result)]
        if is_dataclass(result)
        else [(before, after, result)]
    )  # fmt: skip
    for was, now, hint in parts:
        kind = of_kind(hint)
        assert kind is not None
        if kind.name == "yes-no":
            assert bool(was) == bool(now)
        else:
            np.testing.assert_allclose(now, rescaled(was, kind, by), rtol=1e-9)


@pytest.mark.parametrize("function", ENGINES, ids=lambda f: f.__name__)
def test_draws_go_through_as_one_by_one(function: Callable[..., Any]) -> None:
    names = list(inspect.signature(function).parameters)
    if "readings" in names:
        pytest.skip("one a bolt, not one a draw")
    scale = 1 + 0.01 * np.arange(3)
    many = function(**{name: SAMPLE[name] * scale for name in names})
    for i in range(3):
        one = function(**{name: SAMPLE[name] * scale[i] for name in names})
        pairs = (
            [(getattr(one, f.name), getattr(many, f.name)) for f in fields(one)]
            if is_dataclass(one) and not isinstance(one, type)
            else [(one, many)]
        )
        for single, array in pairs:
            np.testing.assert_allclose(np.broadcast_to(array, 3)[i], single, rtol=1e-10)


@pytest.mark.parametrize("function", ENGINES, ids=lambda f: f.__name__)
def test_not_a_number_is_refused(function: Callable[..., Any]) -> None:
    names = list(inspect.signature(function).parameters)
    for name in names:
        if name in {"readings", "resolution"}:
            continue
        given_values = {n: SAMPLE[n] for n in names} | {name: math.nan}
        with pytest.raises(OutOfRange):
            function(**given_values)


frictions = st.floats(0.03, 0.35)
M20 = (0.0025, 0.018376)


@given(frictions, frictions, frictions)
def test_more_friction_is_never_more_preload(one: float, other: float, head: float) -> None:
    low, high = sorted((one, other))
    slippery = tightening.preload_from_torque(390.0, *M20, low, head, 0.0251)
    rough = tightening.preload_from_torque(390.0, *M20, high, head, 0.0251)
    assert rough <= slippery
    assert tightening.preload_from_torque(390.0, *M20, head, high, 0.0251) <= tightening.preload_from_torque(
        390.0, *M20, head, low, 0.0251
    )


@given(frictions, st.floats(0.0, 500e3))
def test_torque_and_preload_are_each_others_way_back(friction: float, preload: float) -> None:
    torque = tightening.torque_from_preload(preload, *M20, friction, friction, 0.0251)
    assert tightening.preload_from_torque(torque, *M20, friction, friction, 0.0251) == pytest.approx(preload)


@given(st.floats(0.03, 0.5))
def test_nut_factor_and_friction_are_each_others_way_back(factor: float) -> None:
    friction = nut_factor.friction_from_nut_factor(factor, 0.020, *M20, 0.0251)
    assert friction > 0
    assert nut_factor.nut_factor_from_friction(0.020, *M20, friction, friction, 0.0251) == pytest.approx(factor)


@given(frictions)
def test_a_rougher_thread_yields_at_less_preload_and_more_torque(friction: float) -> None:
    rougher = friction * 1.1
    at = [stress.preload_at_yield(940e6, *M20, mu, 244.8e-6, 0.017655) for mu in (friction, rougher)]
    torque = [window.torque_at_yield(940e6, *M20, mu, mu, 244.8e-6, 0.017655, 0.0251) for mu in (friction, rougher)]
    assert at[1] < at[0]
    assert torque[1] > torque[0]
    assert at[0] < 244.8e-6 * 940e6  # twist only ever takes away


def test_elastic_torsion_is_the_careful_one() -> None:
    elastic = stress.assembly_preload_elastic(660e6, 0.9, *M20, 0.14, 244.8e-6, 0.017655)
    plastic = stress.assembly_preload_plastic(660e6, 0.9, *M20, 0.14, 244.8e-6, 0.017655)
    assert 0.07 < plastic / elastic - 1 < 0.10  # 8 to 9 in 100 between the two editions of VDI 2230
