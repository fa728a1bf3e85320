"""Run as a program: writes to a yard in a child that is killed in the middle, again and again; prints what was acknowledged.

    python killing.py YARD SEED TIMES

One process for all, which forks: starting Python fifty times would take longer than all the rest.
"""

from __future__ import annotations

import json
import os
import random
import signal
import sys
import time
from datetime import date

from axlewright.store import at
from axlewright.yard import Change, ClockReading, Corner, Finding


def write(where: str, run: int, tell: int) -> None:
    """Write pairs of records, each pair one change, and say each id when it is kept."""
    store = at(where)
    for number in range(10_000):
        yard = store.read()
        name = f"{run}-{number}"
        hours = min(float(len(yard.clock_readings)) / 1000, 20)
        where_seen, on = Corner("lark", "front-left"), date(2026, 8, 2)
        pair = (
            Finding(id=name, finding="plug", grade="paste", corner=where_seen, on=on, trouble=1, note="x" * 300),
            ClockReading(id=name, machine="lark", on=on, hours=hours, clock="engine"),
        )
        store.write(Change(pair), yard.seen)
        os.write(tell, f"{name}\n".encode())


def main(where: str, seed: int, times: int) -> None:
    chance = random.Random(seed)
    acknowledged: list[str] = []
    for run in range(times):
        heard, tell = os.pipe()
        child = os.fork()
        if child == 0:
            try:
                os.close(heard)
                write(where, run, tell)
            finally:
                os._exit(1)
        os.close(tell)
        said = os.read(heard, 65536)  # it has begun
        time.sleep(chance.uniform(0.0, 0.03))
        os.kill(child, signal.SIGKILL)
        while more := os.read(heard, 65536):
            said += more
        os.close(heard)
        _, status = os.waitpid(child, 0)
        assert os.WIFSIGNALED(status), "it ended by itself"
        acknowledged += said.decode().split("\n")[:-1]
        store = at(where)
        yard = store.read()
        store.close()
        found = {one.id for one in yard.findings}
        assert set(acknowledged) <= found, "what was acknowledged is lost"
        assert found == {one.id for one in yard.clock_readings}, "half a change is there"
        assert len(found - set(acknowledged)) <= run + 1, "more is there than was under way"
    print(json.dumps(acknowledged))


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
