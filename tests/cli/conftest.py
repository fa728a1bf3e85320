from __future__ import annotations

import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from axlewright import cli, store


@dataclass(frozen=True)
class Ran:
    code: int
    out: str
    err: str


Run = Callable[..., Ran]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Run:
    """The command line as a person calls it, in an empty folder."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("AXLEWRIGHT_YARD", raising=False)

    def call(*words: str) -> Ran:
        try:
            code = cli.main(words)
        except SystemExit as end:
            code = int(end.code or 0)
        said = capsys.readouterr()
        return Ran(code, said.out, said.err)

    return call


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What the demo leaves behind, made once."""
    folder = tmp_path_factory.mktemp("demo") / "out"
    assert cli.main(["demo", "--to", str(folder), "-q"]) == 0
    return folder


@pytest.fixture
def demo_there(demo_folder: Path, run: Run, tmp_path: Path) -> None:
    """The demo was run in this folder."""
    shutil.copytree(demo_folder, tmp_path / "out")
    for table in (Path(__file__).parents[2] / "docs" / "how-to" / "tables").glob("*.csv"):
        shutil.copy(table, tmp_path)


@pytest.fixture
def yard(tmp_path: Path) -> Path:
    """A copy of the demo yard."""
    folder = tmp_path / "low meadow"
    store.lay_out(folder, store.DEMO)
    return folder
