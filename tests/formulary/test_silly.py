"""Values that no one can mean: every function refuses them by name, in a line or two, and none of them falls over."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest

from axlewright import cli
from axlewright.engines.limits import OutOfRange
from axlewright.formulary import formula, names
from axlewright.formulary.call import given_by
from axlewright.formulary.examples import texts_to_try
from axlewright.formulary.said import leaves
from axlewright.quantities import unit_for

TYPED = ("0 {}", "-1 {}", "1e30 {}", "1e300 {}", "nan", "inf", "5 furlong", "5 kg", "1; 2", "3 {} ± 900 %", "0,5,5", "")
JOINTS = [n for n in names() if formula(n).function.__module__.startswith("axlewright.engines.joints")]


@pytest.mark.parametrize("name", [n for n in names() if texts_to_try(formula(n))])
def test_a_silly_value_is_refused_by_name_and_never_a_traceback(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    texts = texts_to_try(formula(name))
    for number, (key, slot) in enumerate(leaves(formula(name).takes, texts)):
        unit = unit_for(slot.kind.name, "metric", 1.0).symbol if slot.form == "quantity" else ""
        for silly in TYPED[number % 3 :: 3]:  # each value meets a third of the texts: all of them over the functions
            typed = {**texts, key: silly.format(unit)}
            code = cli.main(["formula", name, *(f"{k}={text}" for k, text in typed.items())])
            out, err = capsys.readouterr()
            assert code in (0, 2), (key, silly)
            assert "Traceback" not in err
            assert "nan" not in out.split(), (key, silly)
            if code == 2:
                assert err.strip(), (key, silly)
                assert not out.strip(), (key, silly)


def silly_floats(value: Any) -> Iterator[Any]:
    if isinstance(value, np.ndarray):
        for silly in (math.nan, math.inf):
            drawn = np.array(value, float)
            drawn.flat[0] = silly
            yield drawn
    elif isinstance(value, float | int) and not isinstance(value, bool):
        yield from (0.0, -1.0, math.nan, math.inf, -math.inf)


@pytest.mark.parametrize("name", JOINTS)
def test_a_joint_function_gives_a_number_or_names_what_is_out_of_range(name: str) -> None:
    """From Python too: never nan, never an error of the arithmetic; warnings are errors here."""
    found = formula(name)
    given = given_by(found, texts_to_try(found))
    for key, value in given.items():
        for silly in silly_floats(value):
            try:
                got = found.function(**{**given, key: silly})
            except OutOfRange:
                continue
            parts = dataclasses.asdict(got).values() if dataclasses.is_dataclass(got) else (got,)
            for part in parts:
                if not isinstance(part, str | tuple):
                    assert not np.isnan(np.asarray(part, float)).any(), (key, silly)


@pytest.mark.parametrize(
    ("name", "changed", "says"),
    [
        ("crib-layouts", {"task.load": "-45 kN"}, "task.load: task.load is -45 kN; it must be more than 0."),
        (
            "crib-layouts",
            {"timbers.2.width": "0 mm"},
            "timbers.2.width: timbers.2.width is 0 mm; it must be more than 0.",
        ),
        ("stress-area-metric", {"diameter": "1e300 m"}, "diameter: No number comes out with diameter 1e300 m"),
        ("whole-links", {"centre.x": "1e300 m"}, "centre.x: No number comes out with centre.x 1e300 m"),
        ("chance-past-yield", {"diameter": "0 mm"}, "diameter: diameter is 0 mm; it must be more than 0."),
    ],
)
def test_what_is_wrong_is_named_with_its_value_and_limit(
    name: str, changed: dict[str, str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    typed = {**texts_to_try(formula(name)), **changed}
    assert cli.main(["formula", name, *(f"{k}={text}" for k, text in typed.items())]) == 2
    assert says in capsys.readouterr().err
