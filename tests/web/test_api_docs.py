"""docs/how-to/http.md is run as it stands, request by request, and what it shows of the answers is held against them."""

from __future__ import annotations

import json
import re
import shlex
import socket
import threading
import time
from collections.abc import Iterator
from datetime import date
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import uvicorn
from starlette.testclient import TestClient

from axlewright import store
from axlewright.web.app import make

DOC = Path(__file__).parents[2] / "docs" / "how-to" / "http.md"
BLOCK = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
TODAY = date(2026, 8, 28)
BLOCKS = BLOCK.findall(DOC.read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def yard(tmp_path_factory: pytest.TempPathFactory) -> Path:
    where = tmp_path_factory.mktemp("docs") / "low meadow"
    store.lay_out(where, store.DEMO)
    return where


def shown_in(shown: Any, got: Any, at: str = "answer") -> None:
    """Everything that is shown is there; lists are shown from their beginning."""
    if isinstance(shown, dict):
        for key, one in shown.items():
            assert key in got, f"{at} has no {key}: {got}"
            shown_in(one, got[key], f"{at}.{key}")
    elif isinstance(shown, list):
        assert len(got) >= len(shown) or not shown, at
        assert shown or got == [], at
        for number, one in enumerate(shown):
            shown_in(one, got[number], f"{at}.{number}")
    else:
        assert got == shown, at


def test_the_whole_job_as_it_is_written(yard: Path) -> None:
    client, count = TestClient(make(yard, TODAY)), 0
    for (kind, asks), (form, shown) in pairwise(BLOCKS):
        if kind != "http":
            continue
        count += 1
        head, _, body = asks.strip().partition("\n\n")
        (method, path), *lines = [line.split(" ", 1) for line in head.splitlines()]
        headers = {name.rstrip(":"): value for name, value in lines}
        got = client.request(method, path, content=body.encode(), headers=headers)
        if form == "json":
            wanted = json.loads(shown)
            assert got.status_code == wanted.pop("status", 200), f"{path}: {got.text[:600]}"
            shown_in(wanted, got.json(), path)
        else:
            assert got.status_code == 200, f"{path}: {got.text}"
            assert form in ("csv", "txt")
            assert got.content.decode("utf-8-sig").startswith(shown.strip()), path
    assert count > 25


def test_every_kind_of_deed_is_told_of() -> None:
    """The page names each deed of the work itself; the description has the rest."""
    text = DOC.read_text(encoding="utf-8")
    for name in ("take-reading", "type-back", "set-down", "undo-step", "keep-photo", "take-in", "take-back", "put-by"):
        assert name in text


@pytest.fixture(scope="module")
def served(yard: Path) -> Iterator[str]:
    """The same yard on a free port of this machine."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    server = uvicorn.Server(uvicorn.Config(make(yard, TODAY), host="127.0.0.1", port=port, log_level="error"))
    running = threading.Thread(target=server.run, daemon=True)
    running.start()
    until = time.monotonic() + 10
    while not server.started and time.monotonic() < until:
        time.sleep(0.02)
    assert server.started
    yield f"127.0.0.1:{port}"
    server.should_exit = True
    running.join(10)


def test_python_from_its_own_library(served: str) -> None:
    (code,) = [text for kind, text in BLOCKS if kind == "python"]
    exec(compile(code.replace("127.0.0.1:8765", served), str(DOC), "exec"), {})


def test_command_lines_ask_for_what_is_there(yard: Path) -> None:
    """Without the program itself: its address, and the body that it would send."""
    client = TestClient(make(yard, TODAY))
    for kind, text in BLOCKS:
        if kind != "sh":
            continue
        program, *words = shlex.split(text)
        address = next(word for word in words if word.startswith("http://127.0.0.1:8765"))
        assert program == "curl"
        path = address.removeprefix("http://127.0.0.1:8765")
        if "--data-binary" in words:
            got = client.post(path, content=b"no picture")
            assert got.status_code == 422
            assert got.json()["faults"][0]["where"] == "photo"
        else:
            assert client.get(path).status_code == 200
