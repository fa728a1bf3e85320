"""The stores that keep the contract. A new kind of store joins here, and all of test_contract.py runs over it."""

from __future__ import annotations

import itertools
import shutil
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from store.server import NotHere, served

from axlewright.store import Store, at, lay_out

TODAY = date(2026, 8, 28)
New = Callable[[], tuple[Store, Callable[[], Store]]]


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    """The URL of a PostgreSQL server, up to the name of the database."""
    try:
        with served() as url:
            yield url
    except NotHere as why:
        pytest.skip(str(why))


@pytest.fixture
def database(server: str) -> str:
    """The URL of an empty database on it."""
    import psycopg

    with psycopg.connect(f"{server}postgres", autocommit=True) as connection:
        connection.execute("drop database if exists yard with (force)")
        connection.execute("create database yard")
    return f"{server}yard"


@pytest.fixture(scope="session")
def blank_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A blank yard as an SQLite file, to be copied: making one takes longer than most tests."""
    place = tmp_path_factory.mktemp("blank") / "blank.db"
    lay_out(place)
    return place


def folders(tmp_path: Path, request: pytest.FixtureRequest) -> New:
    """New yards as folders, each with a way to open it again as another program would."""
    numbers = itertools.count()

    def new() -> tuple[Store, Callable[[], Store]]:
        place = tmp_path / f"yard {next(numbers)}"
        lay_out(place)
        return at(place, TODAY), lambda: at(str(place), TODAY)

    return new


def files(tmp_path: Path, request: pytest.FixtureRequest) -> New:
    """New yards as SQLite files."""
    numbers = itertools.count()
    blank = request.getfixturevalue("blank_file")
    opened = _closed_at_the_end(request)

    def new() -> tuple[Store, Callable[[], Store]]:
        place = tmp_path / f"yard {next(numbers)}.db"
        shutil.copy(blank, place)
        return opened(place), lambda: opened(f"sqlite:///{place}")

    return new


def servers(tmp_path: Path, request: pytest.FixtureRequest) -> New:
    """A yard on a PostgreSQL server, emptied for each new one."""
    url = request.getfixturevalue("database")
    lay_out(url)
    opened = _closed_at_the_end(request)

    def new() -> tuple[Store, Callable[[], Store]]:
        import psycopg

        with psycopg.connect(url, autocommit=True) as connection:
            connection.execute("truncate record, beside, change cascade")
            connection.execute("insert into change values (1, '', null, 'arrived')")
            connection.execute("insert into record values (1, 0, 'title', 'yard', '{\"name\":\"My yard\"}')")
        return opened(url), lambda: opened(url)

    return new


def _closed_at_the_end(request: pytest.FixtureRequest) -> Callable[[Any], Store]:
    """Opens databases; lets go of all of them after the test."""

    def opened(where: Any) -> Store:
        store: Any = at(where, TODAY)
        request.addfinalizer(store.close)
        return store  # type: ignore[no-any-return]

    return opened


STORES = {"folder": folders, "sqlite": files, "postgresql": servers}


@pytest.fixture(params=sorted(STORES))
def new(request: pytest.FixtureRequest, tmp_path: Path) -> New:
    """Makes an empty yard: its store, and a way to open it again."""
    made: New = STORES[request.param](tmp_path, request)
    return made
