"""Every page of the app on a yard of 50 machines, 400 drives and 20,000 findings: time from the server, bytes on the wire.

The yard is kept in a database, as one of that size is; a few pages are measured from a folder of text too, whose files are
read anew for each page. The pages are found by walking the app's own routes, so that a new one is measured too. Times are
read beside that of a bare answer of the same server in the same run.
"""

from __future__ import annotations

import re
import socket
import tempfile
import threading
import time
from functools import cache
from http.client import HTTPConnection
from pathlib import Path

from benchmarks.clock import Bench, median_ms

BOUND_MS, BOUND_KB = 50.0, 60.0
RUNS = 9
BARE = "/bare"
FILES = (".pdf", ".txt", ".json", ".html", ".ics")
SLOW = re.compile(r"\.(pdf|json|txt|html|ics)$|^/(api|openapi|style)")


DATABASE, FOLDER = "yard.db", "yard"
FROM_FOLDER = ("/", "/yard", "/shelf")


@cache
def served(kept: str = DATABASE) -> int:
    """The big yard, kept so, served from this process; its port."""
    import uvicorn
    from starlette.responses import PlainTextResponse

    from axlewright import store
    from axlewright.web.app import make
    from benchmarks.big_yard import big_yard

    where = Path(tempfile.mkdtemp()) / kept
    store.lay_out(where, big_yard())
    app = make(where)
    app.add_route(BARE, lambda request: PlainTextResponse("here"))
    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    server = uvicorn.Server(uvicorn.Config(app, log_level="error", lifespan="off"))
    threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True).start()
    while not server.started:
        time.sleep(0.01)
    port: int = listening.getsockname()[1]
    return port


def fetched(path: str, kept: str = DATABASE) -> tuple[int, int]:
    """Status, and bytes on the wire: head and body, as a browser asks for them."""
    talk = HTTPConnection("127.0.0.1", served(kept), timeout=120)
    talk.request("GET", path, headers={"Accept-Encoding": "gzip"})
    got = talk.getresponse()
    body = got.read()
    head = sum(len(name) + len(value) + 4 for name, value in got.getheaders())
    talk.close()
    return got.status, head + len(body)


@cache
def pages() -> tuple[str, ...]:
    """The address of each page of the app, filled with things of the big yard."""
    from axlewright.web.app import make
    from benchmarks.big_yard import big_yard

    yard = big_yard()
    running = next(one for one in reversed(yard.troubles) if yard.stage(one.number) != "put by")
    fill = {
        "number": str(running.number),
        "number:int": str(running.number),
        "drive": yard.drives[0].id,
        "machine": yard.machines[0].id,
        "look": "plug",
        "group": "bolts",
        "name": "ready-card",
    }
    found = []
    for route in routes(make(Path(tempfile.mkdtemp()))):
        path = re.sub(r"\{([^}]+)\}", lambda at: fill.get(at[1], "{}"), route)
        if "{}" not in path and not SLOW.search(path):
            found.append(path)
    more = ("/search?q=4007", "/?corner=" + str(running.corner), "/yard?from=7")
    there = [path for path in dict.fromkeys((*found, *more)) if fetched(path)[0] == 200]
    return tuple(
        sorted(there, key=lambda path: path == "/due")
    )  # each opening of it reckons a few more dates behind it


def routes(app: object) -> list[str]:
    """The paths of all pages that are asked for by GET."""
    found: list[str] = []
    for route in getattr(app, "routes", ()):
        inner = getattr(route, "original_router", None)
        if inner is not None:
            found += routes(inner)
        elif "GET" in (getattr(route, "methods", None) or ()) and not getattr(route, "path", "").startswith("/api"):
            found.append(route.path)
    return found


def at_rest() -> None:
    """Waits until nothing is reckoned behind a page that was sent."""
    while True:
        before = time.process_time()
        time.sleep(0.5)
        if time.process_time() - before < 0.05:
            return


def took(path: str, kept: str = DATABASE) -> float:
    fetched(path, kept)
    at_rest()
    return median_ms(lambda: fetched(path, kept), runs=RUNS, warm=2)


def benches() -> list[Bench]:
    rows = [Bench("a bare answer of the same server: the reference of the pages", lambda: took(BARE))]
    for path in pages():
        rows.append(Bench(f"big yard, {path}", lambda path=path: took(path), bound=BOUND_MS))  # type: ignore[misc]
        rows.append(Bench(f"big yard, {path}, on the wire", lambda path=path: fetched(path)[1] / 1000, "kB", BOUND_KB))  # type: ignore[misc]
    for path in FROM_FOLDER:
        rows.append(Bench(f"big yard from a folder, {path}", lambda path=path: took(path, FOLDER), bound=BOUND_MS))  # type: ignore[misc]
    return rows
