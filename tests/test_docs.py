"""Every public engine function says what it finds, takes and gives, with units, its source and where it is valid."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable
from dataclasses import dataclass
from types import ModuleType
from typing import Any

import pytest

import axlewright.engines
import axlewright.formulary.worked
from axlewright.formulary import NotAFormula, functions, names, read
from axlewright.kinds import Force, Length, Torque

# what engines share and nobody calls by name: it works nothing out by itself
HELPERS = {"axlewright.engines.limits", "axlewright.engines.joints.threads.check_thread"}


def modules() -> list[ModuleType]:
    found = []
    for package in (axlewright.engines, axlewright.formulary.worked):
        for part in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            if not part.name.rsplit(".", 1)[1].startswith("_") and part.name not in HELPERS:
                found.append(importlib.import_module(part.name))
    return found


PUBLIC = {
    f"{module.__name__}.{name}": function
    for module in modules()
    for name, function in vars(module).items()
    if inspect.isfunction(function) and function.__module__ == module.__name__ and not name.startswith("_")
}


@pytest.mark.parametrize("name", sorted(PUBLIC.keys() - HELPERS))
def test_a_public_engine_function_is_in_the_houses_form(name: str) -> None:
    read(PUBLIC[name])


def test_every_one_of_them_is_in_the_formulary() -> None:
    assert {f"{f.function.__module__}.{f.function.__name__}" for f in functions().values()} == PUBLIC.keys() - HELPERS
    assert list(names()) == sorted(functions())


def test_helpers_are_no_more_than_there_are() -> None:
    there = PUBLIC.keys() | {"axlewright.engines.limits"}
    assert there >= HELPERS


def test_the_first_line_says_what_is_found() -> None:
    for name, formula in functions().items():
        assert formula.title[0].isupper(), name
        assert not re.match(r"(Compute|Calculate|Return|Get|Find)s?\b", formula.title), name
        assert len(formula.title) <= 120, name


def moment(force: Force, arm: Length) -> Torque:
    """Moment of a force.

    Args:
        force: force [N]
        arm: arm [m]

    Returns:
        moment [N m]

    Source: statics.
    Valid: always.
    """
    return force * arm


@dataclass
class Loose:
    """Not frozen.

    Attributes:
        force: force [N]
    """

    force: Force


def with_doc(old: str, new: str) -> Callable[..., Any]:
    def changed(force: Force, arm: Length) -> Torque:
        return force * arm

    changed.__doc__ = (moment.__doc__ or "").replace(old, new)
    return changed


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("force [N]", "force [kN]", r"force is a force in \[N\], its docstring says \[kN\]"),
        ("force [N]", "force", "force has no unit"),
        ("moment [N m]", "moment", "the result has no unit"),
        ("        arm: arm [m]\n", "", "arm is not described"),
        ("arm: arm", "arms: arm", "arms is described and not taken"),
        ("Source: statics.", "", "Source: is missing"),
        ("Valid: always.", "", "Valid: is missing"),
        ("Returns:", "Gives:", "Returns is missing"),
        ("Moment of a force.\n", "", "first line"),
    ],
)
def test_what_is_not_in_the_form_is_refused(old: str, new: str, says: str) -> None:
    assert read(with_doc("nothing of this", "")).name == "changed"
    if "first line" in says:
        function = with_doc("", "")
        function.__doc__ = ""
    else:
        function = with_doc(old, new)
    with pytest.raises(NotAFormula, match=says):
        read(function)


def test_bare_floats_and_loose_structures_are_refused() -> None:
    def bare(force: float) -> Loose:
        return Loose(force)

    bare.__doc__ = moment.__doc__
    with pytest.raises(NotAFormula) as refused:
        read(bare)
    assert "force is no quantity kind" in str(refused.value)
    assert "Loose is not frozen" in str(refused.value)
