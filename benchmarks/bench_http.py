"""The HTTP interface, from a request to its answer in process: what stands in the yard, a deed, a table, the description."""

from __future__ import annotations

import tempfile
from functools import cache
from itertools import count
from pathlib import Path
from typing import Any

from benchmarks.big_yard import big_yard
from benchmarks.clock import Bench, median_ms

MOST = 50.0  # ms, warm
NUMBERS = count(1)


@cache
def client(big: bool = False) -> Any:
    from starlette.testclient import TestClient

    from axlewright import store
    from axlewright.web.app import make

    where = Path(tempfile.mkdtemp()) / "yard"
    store.lay_out(where, big_yard() if big else store.DEMO)
    return TestClient(make(where))


def read(path: str, big: bool = False) -> float:
    return median_ms(lambda: client(big).get(path).raise_for_status(), runs=9)


def deed(name: str, big: bool = False, **says: Any) -> float:
    """A deed tried; nothing is written, so that each run does the same."""

    def do() -> None:
        sent = {"id": f"bench-{next(NUMBERS)}", **says}
        client(big).post(f"/api/deed/{name}?preview=yes", json=sent).raise_for_status()

    return median_ms(do, runs=9)


def benches() -> list[Bench]:
    seen = {"corner": "linnet/front-left", "marks": [{"finding": "plug", "grade": "paste"}]}
    rows = [
        Bench("HTTP: the corners of the demo yard", lambda: read("/api/corners"), bound=MOST),
        Bench("HTTP: a trouble with its verdicts", lambda: read("/api/trouble/6"), bound=MOST),
        Bench("HTTP: every question of a trouble", lambda: read("/api/trouble/6/asked"), bound=MOST),
        Bench("HTTP: a choice made out before", lambda: read("/api/trouble/8/choice"), bound=MOST),
        Bench("HTTP: where a step card stands", lambda: read("/api/trouble/9/card"), bound=MOST),
        Bench("HTTP: what is due, as a table", lambda: read("/api/due.csv"), bound=MOST),
        Bench("HTTP: what is due, as a calendar", lambda: read("/api/due.ics"), bound=MOST),
        Bench("HTTP: a finding tried", lambda: deed("add-findings", **seen), bound=MOST),
        Bench("HTTP: the description, once made", lambda: read("/openapi.json")),
        Bench("HTTP: the drives of a yard of 400, as a table", lambda: read("/api/drives.csv", big=True), bound=MOST),
        Bench("HTTP: the corners of a yard of 50 machines", lambda: read("/api/corners", big=True), bound=MOST),
    ]
    return rows
