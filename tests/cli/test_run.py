"""The one way in: an old Python gets a sentence, a folder that was moved sets itself up anew."""

from __future__ import annotations

import ast
import runpy
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

import start  # ruff: ignore[module-import-not-at-top-of-file]


def test_an_old_python_can_read_it_and_is_told_what_to_do(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    tree = ast.parse((ROOT / "run.py").read_text(encoding="ascii"), feature_version=(3, 4))
    news = (ast.JoinedStr, ast.AnnAssign, ast.NamedExpr, ast.AsyncFunctionDef)
    for node in ast.walk(tree):
        assert not isinstance(node, news), ast.unparse(node)
        assert not (isinstance(node, ast.arg | ast.FunctionDef) and getattr(node, "annotation", None))
        assert not (isinstance(node, ast.FunctionDef) and node.returns)
        assert not (isinstance(node, ast.Name) and node.id == "print"), "a statement once, a function now"
    monkeypatch.setattr(sys, "version_info", (3, 10, 13))
    monkeypatch.setattr(sys, "version", "3.10.13 (main)")
    with pytest.raises(SystemExit) as end:
        runpy.run_path(str(ROOT / "run.py"), run_name="__main__")
    assert end.value.code == 2
    said = capsys.readouterr().err
    assert "needs Python 3.11 or newer; this one is 3.10.13." in said
    assert len(said.splitlines()) == 2


@pytest.fixture
def calls(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> list[str]:
    """Set-up steps, written down in place of being done."""
    done: list[str] = []
    monkeypatch.setattr(start, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(start, "PYTHON", tmp_path / ".venv" / "python")
    monkeypatch.setattr(start.shutil, "which", lambda _: None)

    def quiet(*command: object) -> None:
        words = [str(part) for part in command]
        done.append("venv" if "venv" in words else "install" if "--require-hashes" in words else "own")
        if "venv" in words:
            start.VENV.mkdir(exist_ok=True)
            start.PYTHON.touch()

    monkeypatch.setattr(start, "quiet", quiet)
    return done


def test_it_sets_up_once_and_anew_where_it_was_moved(calls: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    lock = ROOT / "requirements.lock"
    for _ in range(2):
        start.set_up(lock, "Axlewright")
    assert calls == ["venv", "install", "own"]
    monkeypatch.setattr(start, "MADE_FOR", "another folder")
    (start.VENV / "left-over").touch()
    start.set_up(lock, "Axlewright")
    assert calls[3:] == ["venv", "install", "own"]
    assert not (start.VENV / "left-over").exists()


def test_a_folder_that_cannot_be_written_is_said(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied", "/there/.venv")

    monkeypatch.setattr(start, "set_up", refuse)
    assert start.main(["demo"]) == 2
    assert "run.py: cannot write /there/.venv: Permission denied." in capsys.readouterr().err
