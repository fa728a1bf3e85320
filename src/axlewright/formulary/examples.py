"""Texts to try a function with, and nested values as the flat texts that `call` takes."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from axlewright.formulary.call import starting_texts
from axlewright.formulary.read import Formula

TRIED = Path(__file__).with_name("tried.toml")


@cache
def _rows() -> dict[str, dict[str, Any]]:
    return tomllib.loads(TRIED.read_text(encoding="utf-8"))


def texts_to_try(found: Formula) -> dict[str, str]:
    """Texts that work: of the docstring's `Try:`, else of the row in tried.toml, else of the docstring's example.

    Empty where there are none.
    """
    if not found.tried and found.name in _rows():
        return {key: str(value) for key, value in flat(_rows()[found.name])}
    return starting_texts(found)


def flat(nested: Any, at: str = "") -> Iterator[tuple[str, Any]]:
    """Parts of structures as `centre.x`, of the second of many as `legs.2.length`; a list of plain values as it is."""
    if isinstance(nested, dict):
        for key, value in nested.items():
            yield from flat(value, f"{at}.{key}" if at else str(key))
    elif isinstance(nested, list) and any(isinstance(one, dict) for one in nested):
        for number, one in enumerate(nested, 1):
            yield from flat(one, f"{at}.{number}")
    else:
        yield at, nested
