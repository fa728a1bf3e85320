from __future__ import annotations

import shutil
import socket
import threading
import time
from collections.abc import Generator, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
import uvicorn
from axe_playwright_python.sync_playwright import Axe

from axlewright import store
from axlewright.web.app import make

SHOTS = Path(__file__).parents[2] / "out" / "shots"
CHROME = next((w for n in ("chromium", "google-chrome", "chrome") if (w := shutil.which(n))), None)
FLAGS = ["--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-first-run"]


@contextmanager
def served(folder: Path) -> Generator[str]:
    """A yard served on a free port of this machine."""
    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    app = make(folder)
    app.state.patience = 60.0  # s: no page asks again under a test
    server = uvicorn.Server(uvicorn.Config(app, log_level="error", lifespan="off"))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    until = time.monotonic() + 10
    while not server.started and time.monotonic() < until:
        time.sleep(0.02)
    try:
        yield f"http://127.0.0.1:{listening.getsockname()[1]}"
    finally:
        server.should_exit = True
        thread.join(5)


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The demo yard."""
    folder = tmp_path_factory.mktemp("yard") / "low meadow"
    store.lay_out(folder, store.DEMO)
    with served(folder) as where:
        yield where


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        opened = play.chromium.launch(executable_path=CHROME, args=FLAGS)
        yield opened
        opened.close()


def has_no_barrier(browser: Any, url: str, width: int, height: int) -> None:
    """No barrier that axe finds and nothing cut off, in light and dark."""
    for scheme in ("light", "dark"):
        context = browser.new_context(viewport={"width": width, "height": height}, color_scheme=scheme)
        page = context.new_page()
        page.goto(url)
        found = Axe().run(page).response["violations"]
        told = [f"{v['id']}: {v['help']} {[n['html'][:120] for n in v['nodes'][:3]]}" for v in found]
        assert not told, f"{url} {width} {scheme}\n" + "\n".join(told)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        context.close()


SMALL = """() => [...document.querySelectorAll('body *')].filter(e => [...e.childNodes].some(n => n.nodeType === 3
   && n.textContent.trim()) && e.getClientRects().length && !e.closest('.vh') && !e.closest('title'))
   .map(e => { const own = parseFloat(getComputedStyle(e).fontSize); const svg = e.ownerSVGElement;
     const scale = svg ? svg.getScreenCTM().a : 1; return [own * scale, e.textContent.trim().slice(0, 40)] })
   .filter(([size]) => size < 12.79)"""


def is_large_enough(browser: Any, urls: Iterable[str]) -> None:
    """Every text of these pages can be read on a telephone."""
    context = browser.new_context(viewport={"width": 360, "height": 780})
    page = context.new_page()
    for url in urls:
        page.goto(url)
        small = page.evaluate(SMALL)
        assert not small, f"{url}: {small[:5]}"
    context.close()
