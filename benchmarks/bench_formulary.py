"""The formulary's faces: its pages and operations from the server, its command."""

from __future__ import annotations

from benchmarks.bench_first_look import command, page_size, page_time
from benchmarks.clock import Bench

TYPED = "thread=M20&head=10.9&grease=anti-seize&engaged=27+mm&clamp=92+kN"


def benches() -> list[Bench]:
    return [
        Bench("every formula, from the server", lambda: page_time("/formulary"), bound=50),
        Bench("every formula, size", lambda: page_size("/formulary"), "kB", 60),
        Bench("greased-bolt window, from the server", lambda: page_time(f"/formulary/bolt-window?{TYPED}"), bound=50),
        Bench("greased-bolt window, size", lambda: page_size(f"/formulary/bolt-window?{TYPED}"), "kB", 60),
        Bench("crib layouts, from the server", lambda: page_time("/formulary/crib-layouts"), bound=50),
        Bench("greased-bolt window, as data", lambda: page_time(f"/api/formula/bolt-window?{TYPED}"), bound=50),
        Bench("axlewright formula bolt-window, as a process", lambda: command("formula", "bolt-window"), bound=None),
    ]
