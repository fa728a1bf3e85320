"""A yard kept for years: read whole, read again, and one reading written so that it lasts; folder and SQLite."""

from __future__ import annotations

import itertools
import json
import sqlite3
import tempfile
import time
from datetime import UTC, datetime
from functools import cache
from pathlib import Path

from axlewright import store
from axlewright.yard import Change, Finding, Reading
from benchmarks.big_yard import TODAY, big_yard
from benchmarks.clock import Bench, median_ms

AT = datetime(2026, 8, 28, 18, 0, tzinfo=UTC)
numbers = itertools.count()


@cache
def kept(name: str) -> Path:
    """The big yard, in a folder or a database."""
    place = Path(tempfile.mkdtemp()) / name
    store.lay_out(place, big_yard())
    return place


def bodies_alone() -> float:
    """What it is measured against: the same records as JSON, read by the standard library into dictionaries."""
    text = "[" + ",".join(one.model_dump_json(exclude_defaults=True) for one in big_yard().records) + "]"
    return median_ms(lambda: json.loads(text), runs=5)


def read_cold(name: str) -> float:
    """Each time as by a program that was just started, its imports made."""
    from axlewright.store import _read, _text

    def read() -> None:
        _text.kept.cache_clear()
        _read._picture.cache_clear()
        opened = store.at(kept(name), TODAY)
        opened.read()
        opened.close()

    return median_ms(read, runs=5)


def read_again(name: str) -> float:
    opened = store.at(kept(name), TODAY)
    return median_ms(opened.read)


def commit_alone() -> float:
    """What it is measured against: one row put into an SQLite file by the standard library, as durable."""
    with sqlite3.connect(Path(tempfile.mkdtemp()) / "plain.db", isolation_level=None) as plain:
        for said in ("pragma journal_mode=WAL", "pragma synchronous=FULL", "create table record (body text)"):
            plain.execute(said)
        return median_ms(lambda: plain.execute("insert into record values (?)", ("x" * 200,)), runs=40)


def _written(name: str, look: bool = False, runs: int = 40) -> float:
    """Write one record after another; each is read of the yard as it stands, made, and kept."""
    opened = store.at(kept(name), TODAY)
    yard = opened.read()
    trouble = next(one.number for one in yard.troubles if yard.stage(one.number) == "in hand")
    last = yard.hours(yard.corners[0].machine, TODAY)
    assert last is not None
    took = []
    for _ in range(runs):
        told = {"id": f"new-{next(numbers)}", "on": TODAY, "who": "owner", "at": AT}
        if not look:
            said = {"step": "ra-settle", "reading": "crib-settle", "value": "1 mm"}
            one = Change((Reading.model_validate({**told, "trouble": trouble, **said}),))
        else:
            where = {"corner": yard.corners[0], "hours": last.hours, "clock": "engine"}
            one = Change((Finding.model_validate({**told, "finding": "plug", "grade": "paste", **where}),))
        seen = opened.read().seen
        start = time.perf_counter()
        opened.write(one, seen)
        took.append((time.perf_counter() - start) * 1e3)
    opened.close()
    return sorted(took)[len(took) // 2]


def benches() -> list[Bench]:
    return [
        Bench("the same bodies by json.loads alone", bodies_alone),
        Bench("50 machines, 400 drives, 20,000 findings read: SQLite", lambda: read_cold("big.db"), bound=300.0),
        Bench("the same from a folder of text", lambda: read_cold("big")),
        Bench("read again, nothing changed: SQLite", lambda: read_again("big.db"), bound=5.0),
        Bench("read again, nothing changed: folder", lambda: read_again("big")),
        Bench("one row into a plain SQLite file, as durable", commit_alone),
        Bench("one reading durable in the big yard: SQLite", lambda: _written("big.db"), bound=5.0),
        Bench("one look with hours durable in the big yard: SQLite", lambda: _written("big.db", look=True)),
        Bench("one reading durable in the big yard: folder", lambda: _written("big", runs=3)),
    ]
