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
