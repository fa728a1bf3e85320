"""What run.py does once the Python is new enough: set up .venv beside it, then run a command in it. Standard library alone."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
VENV = HERE / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")
MADE_FOR = f"{sys.version_info[:2]}{HERE}"

CHECKS = (
    ["ruff", "format", "--check", "."],
    ["ruff", "check", "."],
    ["mypy"],
    ["lint-imports"],
)
WHOLE_SUITE = ("-n", "auto", "--maxprocesses", "8")  # on all cores
WITH_COVERAGE = ("--cov", "--cov-report", "term")  # the share of lines and branches; half as long again


def stop(message: str) -> int:
    print(f"run.py: {message}", file=sys.stderr)
    return 2


def fingerprint(lock: Path) -> str:
    """What the environment was made from: a change in any of these sets it up again."""
    made_from = hashlib.sha256(MADE_FOR.encode())
    for file in (lock, HERE / "pyproject.toml"):
        made_from.update(file.read_bytes())
    return made_from.hexdigest()


def quiet(*command: str | Path) -> None:
    """Run a set-up step; on failure show what it said, once."""
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    done = subprocess.run([str(part) for part in command], cwd=HERE, env=env, capture_output=True, text=True)
    if done.returncode:
        said = (done.stderr or done.stdout).strip().splitlines()[-12:]
        raise SystemExit(stop("setting up did not work. The last it said:\n  " + "\n  ".join(said)))


def set_up(lock: Path, what: str) -> None:
    """Make .venv from the lock file, unless it stands already."""
    ready = VENV / f"ready-{lock.stem}"
    want = fingerprint(lock)
    if PYTHON.exists() and ready.exists() and ready.read_text() == want:
        return
    print(f"setting up {what} in {VENV.name} (once, about a minute) ...", file=sys.stderr, flush=True)
    uv = shutil.which("uv")
    mark = VENV / "made-for"
    moved = (
        mark.exists() and mark.read_text(encoding="utf-8") != MADE_FOR
    )  # its scripts name the folder they were made in
    if moved or not PYTHON.exists():
        shutil.rmtree(VENV, ignore_errors=True)
        try:
            import ensurepip  # ruff: ignore[unused-import]  some distributions take it out
            import venv  # ruff: ignore[unused-import]
        except ImportError:
            raise SystemExit(
                stop(
                    "this Python came without its venv package. Install it (on Debian and Ubuntu: "
                    f"apt install python3.{sys.version_info[1]}-venv) or take Python from python.org."
                )
            ) from None
        quiet(sys.executable, "-m", "venv", VENV)
        mark.write_text(MADE_FOR, encoding="utf-8")
    pip: list[str | Path]
    if uv:
        pip = [uv, "pip", "install", "--quiet", "--compile-bytecode", "--python", PYTHON]
    else:
        pip = [PYTHON, "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    quiet(*pip, "--require-hashes", "-r", lock)
    quiet(*pip, "--no-deps", "-e", HERE)
    ready.write_text(want)


def main(words: list[str]) -> int:
    for_tests = words[:1] in (["test"], ["check"], ["bench"])
    try:
        set_up(HERE / "requirements.lock", "Axlewright")
        if for_tests:
            set_up(HERE / "requirements-test.lock", "the test tools")
    except OSError as bad:
        return stop(
            f"cannot write {bad.filename}: {bad.strerror}.\n  Copy the folder to where you may write, and run it there."
        )
    env = {**os.environ, "VIRTUAL_ENV": str(VENV), "PATH": f"{BIN}{os.pathsep}{os.environ.get('PATH', '')}"}
    env.setdefault("OPENBLAS_NUM_THREADS", "1")  # else tests side by side wait for each other's threads
    if words[:1] == ["check"]:
        failed = [step for step in CHECKS if subprocess.run([BIN / step[0], *step[1:]], cwd=HERE, env=env).returncode]
        for step in failed:
            print(f"check: {' '.join(step)} found something", file=sys.stderr)
        return 1 if failed else 0
    if words[:1] == ["test"]:
        whole = words[1:] in ([], ["--cov"])
        chosen = (*WHOLE_SUITE, *(WITH_COVERAGE if words[1:] else ())) if whole else words[1:]
        command: list[str] = ["-m", "pytest", *chosen]
        return subprocess.run([str(PYTHON), *command], cwd=HERE, env=env).returncode
    if words[:1] == ["bench"]:
        return subprocess.run([str(PYTHON), "-m", "benchmarks", *words[1:]], cwd=HERE, env=env).returncode
    command = [str(PYTHON), "-m", "axlewright", *(words or ["--help"])]
    if os.name == "posix":
        os.execve(command[0], command, env)  # one process: ending it ends the server
    return subprocess.run(command, env=env).returncode
