"""Every function by name. Names are found by a glance at the files; only the module of a name that is called is imported."""

from __future__ import annotations

import contextlib
import importlib
import re
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

from axlewright.formulary.read import Formula, read
from axlewright.formulary.slots import NotAFormula

PACKAGE = Path(__file__).parent.parent
HOMES = ("engines", "formulary/worked")
_DEF = re.compile(r"def ([a-z]\w*)\(")
_SOURCE = re.compile(r"^    Source:", re.MULTILINE)


@cache
def places() -> dict[str, str]:
    """Name -> module, of every public function whose docstring names a source."""
    found: dict[str, str] = {}
    for home in reversed(HOMES):  # worked ones first
        for file in sorted((PACKAGE / home).rglob("*.py")):
            if file.stem.startswith("_"):
                continue
            text = file.read_text(encoding="utf-8")
            module = ".".join(("axlewright", *file.relative_to(PACKAGE).with_suffix("").parts))
            for block in re.split(r"^(?=def |class |@)", text, flags=re.MULTILINE):
                start = _DEF.match(block)
                if start is None or not _SOURCE.search(block):
                    continue
                name = start[1].replace("_", "-")
                if name in found:
                    message = f"{name} stands in {found[name]} and in {module}: a name of the formulary is single"
                    raise NameError(message)
                found[name] = module
    return found


def names() -> tuple[str, ...]:
    """All names, in order."""
    return tuple(sorted(places()))


def formula(name: str) -> Formula:
    """The function of this name.

    Raises:
        Faults: there is none; names the nearest
    """
    typed = name.strip().replace("_", "-").replace(" ", "-").lower()
    module = places().get(typed)
    if module is None:
        from axlewright.yard.faults import Fault, Faults, closest

        raise Faults(
            Fault("formula", f"There is no {name.strip()[:60] or 'name'} in the formulary.", closest(typed, places()))
        )
    function: Callable[..., Any] = getattr(importlib.import_module(module), typed.replace("-", "_"))
    return read(function)


@cache
def functions() -> dict[str, Formula]:
    """All functions by name; imports every engine. One that is not in the house's form is left out (tests name it)."""
    found = {}
    for name in names():
        with contextlib.suppress(NotAFormula):
            found[name] = formula(name)
    return found
