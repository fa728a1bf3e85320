from __future__ import annotations

from pathlib import Path

import pytest
from starlette.testclient import TestClient

from axlewright import store
from axlewright.web.app import make


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    where = tmp_path / "low meadow"
    store.lay_out(where, store.DEMO)
    return where


@pytest.fixture
def client(folder: Path) -> TestClient:
    return TestClient(make(folder), follow_redirects=False)


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> TestClient:
    """The app over a demo yard that nobody writes to."""
    where = tmp_path_factory.mktemp("yard") / "low meadow"
    store.lay_out(where, store.DEMO)
    return TestClient(make(where), follow_redirects=False)
