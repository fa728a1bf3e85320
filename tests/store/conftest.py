"""The stores that keep the contract. A new kind of store joins here, and all of test_contract.py runs over it."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from axlewright.store import Store, at, lay_out

TODAY = date(2026, 8, 28)
New = Callable[[], tuple[Store, Callable[[], Store]]]


def folders(tmp_path: Path) -> New:
    """New yards as folders, each with a way to open it again as another program would."""
    numbers = itertools.count()

    def new() -> tuple[Store, Callable[[], Store]]:
        place = tmp_path / f"yard {next(numbers)}"
        lay_out(place)
        return at(place, TODAY), lambda: at(str(place), TODAY)

    return new


def files(tmp_path: Path) -> New:
    """New yards as SQLite files."""
    numbers = itertools.count()

    def new() -> tuple[Store, Callable[[], Store]]:
        place = tmp_path / f"yard {next(numbers)}.db"
        lay_out(place)
        return at(place, TODAY), lambda: at(f"sqlite:///{place}", TODAY)

    return new


STORES = {"folder": folders, "sqlite": files}


@pytest.fixture(params=sorted(STORES))
def new(request: pytest.FixtureRequest, tmp_path: Path) -> New:
    """Makes an empty yard: its store, and a way to open it again."""
    made: New = STORES[request.param](tmp_path)
    return made
