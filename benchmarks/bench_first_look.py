"""The first answer: in process, as a page, as a command, on paper."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import threading
import time
from datetime import date
from functools import cache
from pathlib import Path
from urllib.request import urlopen

from benchmarks.clock import Bench, median_ms

TODAY = date(2026, 8, 28)
TICKS = ("place=wheel-side", "plug=flakes", "level=low")


def in_process() -> float:
    from axlewright.plan.first_look import first_look
    from axlewright.yard import Hours

    return median_ms(lambda: first_look(TICKS, clock=Hours(4730.0), today=TODAY))


@cache
def served() -> str:
    """The demo yard, served from this process on a free port."""
    import socket

    import uvicorn

    from axlewright import store
    from axlewright.web.app import make

    folder = Path(tempfile.mkdtemp()) / "yard"
    store.lay_out(folder, store.DEMO)
    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    server = uvicorn.Server(uvicorn.Config(make(folder), log_level="error", lifespan="off"))
    threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True).start()
    while not server.started:
        time.sleep(0.01)
    return f"http://127.0.0.1:{listening.getsockname()[1]}"


def fetched(path: str) -> bytes:
    with urlopen(served() + path) as got:
        body: bytes = got.read()
    return body


def page_time(path: str) -> float:
    return median_ms(lambda: fetched(path), runs=30, warm=5)


def page_size(path: str) -> float:
    return len(fetched(path)) / 1000


def command(*words: str) -> float:
    return median_ms(
        lambda: subprocess.run([sys.executable, "-m", "axlewright", *words], capture_output=True, check=False), runs=9
    )


def sheet(ending: str, name: str) -> float:
    from axlewright import store
    from axlewright.plan.drawn_up import blank, draw_up
    from axlewright.render import render
    from axlewright.render.show import Show

    yard = store.Folder(store.DEMO).read()
    pack = blank() if name == "blank" else draw_up(yard, yard.trouble(7), TODAY)
    return median_ms(lambda: render(pack, Show(), ending))


def first_page_after_start() -> float:
    """From `run.py serve` to a page that answers, everything set up before."""
    import socket

    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    root, folder = Path(__file__).parent.parent, Path(tempfile.mkdtemp()) / "yard"
    from axlewright import store

    store.lay_out(folder, store.DEMO)
    start = time.perf_counter()
    serving = subprocess.Popen(
        [sys.executable, root / "run.py", "serve", "--port", str(port), "--yard", folder], stdout=subprocess.DEVNULL
    )
    try:
        while time.perf_counter() - start < 30:
            try:
                with urlopen(f"http://127.0.0.1:{port}/") as got:
                    got.read()
                break
            except OSError:
                time.sleep(0.02)
        return (time.perf_counter() - start) * 1e3
    finally:
        serving.terminate()
        serving.wait()


def benches() -> list[Bench]:
    return [
        Bench("First look, in process", in_process, bound=20),
        Bench("first screen, from the server", lambda: page_time("/"), bound=50),
        Bench("Yard, from the server", lambda: page_time("/yard"), bound=50),
        Bench("trouble, from the server", lambda: page_time("/trouble/6"), bound=50),
        Bench("Make safe, from the server", lambda: page_time("/trouble/7/make-safe"), bound=50),
        Bench("first screen, size", lambda: page_size("/"), "kB", 60),
        Bench("Yard, size", lambda: page_size("/yard"), "kB", 60),
        Bench("trouble, size", lambda: page_size("/trouble/6"), "kB", 60),
        Bench("axlewright --help, as a process", lambda: command("--help"), bound=150),
        Bench("axlewright seen plug=paste, as a process", lambda: command("seen", "plug=paste"), bound=None),
        Bench("PDF of the blank First look, warm", lambda: sheet("pdf", "blank"), bound=50),
        Bench("PDF of Make safe, warm", lambda: sheet("pdf", "make-safe"), bound=50),
        Bench("HTML of Make safe, warm", lambda: sheet("html", "make-safe"), bound=None),
        Bench("second start to a page that answers", first_page_after_start, bound=2000),
    ]
