"""Functions called with typed texts, as command, page and operation do it."""

from __future__ import annotations

import subprocess
import sys

import numpy as np
import pytest
from laws.sampling import inputs_of, numbers

from axlewright.engines.holding.supports import three_supports
from axlewright.engines.joints.tightening import preload_from_nut_factor
from axlewright.formulary import Formula, formula, functions, names, read
from axlewright.formulary.call import call, starting_texts, texts_of, values
from axlewright.yard.faults import Faults

ALL = functions()


def test_names_are_those_of_the_functions() -> None:
    assert len(names()) >= 60
    for name, found in ALL.items():
        assert found.name == name == found.function.__name__.replace("_", "-")
        assert formula(name.upper().replace("-", " ")) is found
    assert formula("preload_from_nut_factor") is read(preload_from_nut_factor)


def test_finding_a_name_imports_no_scipy_and_no_other_engine() -> None:
    code = "import sys; from axlewright.formulary import formula; formula('preload-from-nut-factor'); print(*sorted(m for m in sys.modules if m.startswith(('scipy', 'pydantic', 'axlewright.engines.holding'))))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == ""


def test_an_unknown_name_names_the_nearest() -> None:
    with pytest.raises(Faults, match="Did you mean preload-from-torque"):
        formula("preload-from-torqe")
    with pytest.raises(Faults, match="There is no name"):
        formula("  ")


def test_what_a_function_takes_and_gives() -> None:
    found = read(preload_from_nut_factor)
    assert found.title == "Preload that a torque gives, by nut factor"
    assert [(s.key, s.kind.name, s.needed) for s in found.takes] == [
        ("torque", "torque", True),
        ("diameter", "length", True),
        ("nut-factor", "share", True),
    ]
    assert found.slot("nut_factor").words == "nut factor K of this thread and grease"
    assert [(s.name, s.kind.name, s.words) for s in found.gives] == [("", "force", "preload")]
    assert found.source.startswith("T = K F d; Shigley")
    assert found.family == "joints"
    assert found.example == {"torque": 390.0, "diameter": 0.020, "nut_factor": 0.14}
    assert not found.empirical
    several = read(three_supports)
    assert [s.name for s in several.gives] == ["first", "second", "third", "square_share", "stands"]
    assert [s.key for s in several.slot("centre").fields] == ["x", "y", "z"]


def test_texts_in_any_measures_give_the_same_answer() -> None:
    metric = call("preload-from-nut-factor", {"torque": "250 lbf·ft", "diameter": "3/4 in", "nut-factor": "20 %"})
    us = call("preload-from-nut-factor", {"TORQUE": "338,95 N·m", "diameter": "1.905 cm", "nut_factor": "0,2"}, "us")
    assert metric[""].si == pytest.approx(250 * 1.3558179483314 / (0.2 * 0.01905))
    assert us[""].si == pytest.approx(metric[""].si, rel=2e-5)
    assert (metric[""].unit.symbol, us[""].unit.symbol) == ("kN", "lbf")  # type: ignore[union-attr]
    assert us[""].number == pytest.approx(us[""].si / 4.4482216152605)
    assert [v.name for v in metric.inputs] == ["torque", "diameter", "nut_factor"]


def test_a_spread_may_be_typed() -> None:
    answer = call("preload-from-nut-factor", {"torque": "390 N·m", "diameter": "20 mm", "nut-factor": "0.14 ×/÷ 1.28"})
    preload = answer[""]
    middle = 390 / (0.14 * 0.02)
    assert preload.si == pytest.approx(middle, rel=2e-3)
    assert preload.low == pytest.approx(middle / 1.28, rel=5e-3)
    assert preload.high == pytest.approx(middle * 1.28, rel=5e-3)
    assert answer.inputs[2].si == pytest.approx(0.14, rel=1e-3)


def test_structures_are_typed_part_by_part() -> None:
    places = {"centre": (0, 0, 1), "first": (1, 1, 0), "second": (1, -1, 0), "third": (-2, 0, 0)}
    texts = {f"{p}.{axis}": f"{v} m" for p, at in places.items() for axis, v in zip("xyz", at, strict=True)}
    answer = call("three-supports", {"weight": "90 kN", **texts})
    assert [answer[n].si for n in ("first", "second", "third")] == pytest.approx([30e3, 30e3, 30e3])
    assert answer["stands"].si is True
    loads = call("three-supports", {"weight": "90 kN", **texts, "centre.x": "-0.3 to 0.3 m"})
    assert loads["third"].low is not None
    assert loads["third"].low < 30e3 < (loads["third"].high or 0)


def test_many_are_typed_by_number_or_in_a_row() -> None:
    order = call("fitted-first", {"order": "1; 2; 3; 4", "fitted": "3"})
    assert order[""].si == (3, 1, 2, 4)
    passes = call("passes", {"torque": "393 N·m", "shares": "0.3; 0.6; 1; 1", "mark": "10 N·m"})
    assert [passes[f"{n}.torque"].number for n in (1, 2, 3, 4)] == [110, 230, 390, 390]
    assert passes["4.pattern"].si == "circle"
    with pytest.raises(Faults, match="shares"):
        call("passes", {"torque": "393 N·m", "shares": "0.3 to 0.6", "mark": "10 N·m"})


def four_feet() -> dict[str, str]:
    """A body of 40 kN on four equal springs at the corners of a square."""
    feet = {
        f"contacts.{n}.{axis}": f"{v} m"
        for n, (x, y) in enumerate([(1, 1), (1, -1), (-1, 1), (-1, -1)], 1)
        for axis, v in (("x", x), ("y", y), ("z", 0))
    }
    stiff = {f"contacts.{n}.stiffness": "800 N/mm" for n in (1, 2, 3, 4)}
    return {"weight": "40 kN", "centre-x": "0 m", "centre-y": "0 m", "centre-z": "1 m", **feet, **stiff}


def test_many_structures_are_typed_by_number() -> None:
    answer = call("sprung-contacts", four_feet())
    assert answer["loads"].si == pytest.approx((10e3,) * 4)
    assert answer["loads"].number == pytest.approx((10,) * 4)
    assert answer["stands"].si is True
    assert len([v for v in answer.inputs if v.name.startswith("contacts.3.")]) >= 4
    with pytest.raises(Faults) as wrong:
        call("sprung-contacts", {k: v for k, v in four_feet().items() if not k.startswith("contacts.")})
    assert {f"contacts.1.{part}" for part in ("x", "y", "z", "stiffness")} == {f.where for f in wrong.value.faults}
    with pytest.raises(Faults) as wrong:
        call("sprung-contacts", four_feet() | {"contacts.2.x": "", "contacts.3.y": "1 kg"})
    assert {f.where for f in wrong.value.faults} == {"contacts.2.x", "contacts.3.y"}


def test_answers_over_draws_that_do_not_agree_are_shares() -> None:
    texts = {"torque": "300 N·m", "scale-least": "40 N·m", "scale-greatest": "200 to 400 N·m"}
    spans = call("wrench-spans", texts)[""]
    assert 0 < spans.si < 1
    assert call("wrench-spans", texts | {"scale-greatest": "400 N·m"})[""].si is True
    assert call("nut-factor-is-unusual", {"nut-factor": "0.5"})[""].si is True


def test_an_answer_may_be_typed_as_a_word() -> None:
    plate = {"plate": "12 t", "per-pair": "yes"}
    assert call("stand-rating", plate)[""].si == pytest.approx(6000)
    with pytest.raises(Faults, match="such as yes or no"):
        call("stand-rating", plate | {"per-pair": "perhaps"})
    with pytest.raises(Faults, match="Choose yes or no"):
        call("stand-rating", {"plate": "12 t"})


def test_every_mistake_at_once_each_with_its_name() -> None:
    with pytest.raises(Faults) as wrong:
        call("preload-from-nut-factor", {"torqe": "390 N·m", "diameter": "20 bar", "nut-factor": "0.9"})
    said = {fault.where: str(fault) for fault in wrong.value.faults}
    assert set(said) == {"torque", "torqe", "diameter"}
    assert "This is missing: torque at the wrench" in said["torque"]
    assert "Did you mean torque?" in said["torqe"]
    assert "bar is a pressure" in said["diameter"]


def test_out_of_range_is_said_in_the_unit_that_was_typed() -> None:
    with pytest.raises(Faults, match="-3 in; it must be"):
        call(
            "adapter-setting",
            {
                s.key: "-3 in" if s.kind.name == "length" else "300 N·m" if s.kind.name == "torque" else "10°"
                for s in formula("adapter-setting").takes
            },
        )
    with pytest.raises(Faults, match=r"nut-factor is 0\.9; it must be 0\.03 to 0\.6"):
        call("preload-from-nut-factor", {"torque": "1 N·m", "diameter": "30 mm", "nut-factor": "0.9"})
    with pytest.raises(Faults, match=r"in \d+\.\d% of the draws"):
        call("preload-from-nut-factor", {"torque": "1 N·m", "diameter": "20 mm", "nut-factor": "0.5 to 0.7"})


@pytest.mark.parametrize("found", [f for f in ALL.values() if f.example], ids=lambda f: f.name)
def test_the_example_of_its_docstring_can_be_typed(found: Formula) -> None:
    """Texts lose nothing: the answer is that of the plain call."""
    answer = call(found.name, texts_of(found, found.example, 15))
    plain = found.function(**found.example)
    wanted = [float(np.mean(n)) for n in numbers(found, plain)]
    got = [
        float(x)
        for v in answer.values
        if not isinstance(v.si, str)
        for x in (v.si if isinstance(v.si, tuple) else (v.si,))
    ]
    assert got == pytest.approx(wanted, rel=1e-9, abs=1e-12)
    assert call(found.name, starting_texts(found)).values
    for value in answer.values:
        assert value.unit is None or value.unit.kind == value.kind.name
        if value.unit is not None and isinstance(value.si, float):
            assert value.unit.to_si(value.number) == pytest.approx(value.si)


@pytest.mark.parametrize("found", ALL.values(), ids=ALL)
def test_every_answer_can_be_shown(found: Formula) -> None:
    inputs = inputs_of(found)
    assert inputs is not None
    result = found.function(**inputs)
    parts = (
        [(s, getattr(result, s.name), s.name) for s in found.gives]
        if found.structure
        else [(found.gives[0], result, "")]
    )
    shown = [v for slot, got, at in parts for v in values(slot, got, "us", at)]
    assert shown
    assert len({v.name for v in shown}) == len(shown)
    assert all(v.words for v in shown), "each result says what it is"
