from __future__ import annotations

from pathlib import Path

import pytest
from fastapi import FastAPI
from starlette.testclient import TestClient

from axlewright import store
from axlewright.web.app import make


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    where = tmp_path / "low meadow"
    store.lay_out(where, store.DEMO)
    return where


PATIENT = 60.0  # s that a page waits here for what is being made out


@pytest.fixture
def client(folder: Path) -> TestClient:
    return TestClient(patient(folder), follow_redirects=False)


def patient(folder: Path) -> FastAPI:
    """An app whose pages wait until all is made out."""
    app = make(folder)
    app.state.patience = PATIENT
    return app


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> TestClient:
    """The app over a demo yard that nobody writes to."""
    where = tmp_path_factory.mktemp("yard") / "low meadow"
    store.lay_out(where, store.DEMO)
    return TestClient(patient(where), follow_redirects=False)
