"""The table of bindings: check id -> the function that turns its inputs into results."""

from __future__ import annotations

import importlib
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
Binding = Callable[[dict[str, Any]], dict[str, Any]]
BINDINGS: dict[str, Binding] = {}


def binds(*ids: str) -> Callable[[Binding], Binding]:
    """Mark a function as the binding of these check ids."""

    def keep(function: Binding) -> Binding:
        for check_id in ids:
            before = BINDINGS.get(check_id, function).__code__
            # the doctest collector loads each file once more, under another name
            same = (before.co_filename, before.co_firstlineno) == (
                function.__code__.co_filename,
                function.__code__.co_firstlineno,
            )
            assert same, f"{check_id} is bound twice"
            BINDINGS[check_id] = function
        return function

    return keep


def bindings() -> dict[str, Binding]:
    for file in sorted(HERE.glob("bind_*.py")):
        importlib.import_module(f"checks.{file.stem}")
    return BINDINGS


def checks() -> list[dict[str, Any]]:
    found = []
    for file in sorted(HERE.glob("*.toml")):
        if file.stem == "unbound":
            continue
        for check in tomllib.loads(file.read_text(encoding="utf-8")).get("check", []):
            found.append({**check, "file": file.name})
    return found


def unbound_reasons() -> dict[str, str]:
    """Reasons by id, and by engine label as `engine B5`."""
    return dict(tomllib.loads((HERE / "unbound.toml").read_text(encoding="utf-8"))["reason"])
