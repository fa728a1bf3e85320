"""Killed in the middle of writing: what was acknowledged is there, nothing is half there, and writing goes on."""

from __future__ import annotations

import json
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from axlewright.store import Folder, _safe, at, lay_out
from axlewright.yard import Change, Corner, Machine, Trouble

WRITER = """
import sys
from datetime import date
from pathlib import Path
from axlewright.store import Folder
from axlewright.yard import Change, ClockReading, Corner, Finding

store = Folder(Path(sys.argv[1]))
run = sys.argv[2]
for number in range(10_000):
    yard = store.read()
    hours = float(len(yard.clock_readings))
    pair = (
        Finding(id=f"{run}-{number}", finding="plug", grade="paste", corner=Corner("lark", "front-left"),
                on=date(2026, 8, 2), trouble=1, note="x" * 300),
        ClockReading(id=f"{run}-{number}", machine="lark", on=date(2026, 8, 2), hours=min(hours / 1000, 20), clock="engine"),
    )
    store.write(Change(pair), yard.seen)
    print(f"{run}-{number}", flush=True)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="forks")
@pytest.mark.parametrize("kind", ["yard", "yard.db"])
def test_killed_twenty_five_times(tmp_path: Path, kind: str) -> None:
    """Each store; together fifty times."""
    place = tmp_path / kind
    lay_out(place)
    store = at(place)
    trouble = Trouble(id="1", number=1, corner=Corner("lark", "front-left"), opened=date(2026, 8, 1))
    store.write(Change((Machine(id="lark", name="Lark"), trouble)), store.read().seen)
    store.close()
    killing = Path(__file__).parent / "killing.py"
    ran = subprocess.run(
        [sys.executable, str(killing), str(place), "7", "25"], capture_output=True, text=True, check=False
    )
    assert ran.returncode == 0, ran.stderr
    acknowledged = json.loads(ran.stdout)
    assert len(acknowledged) >= 25
    yard = at(place).read()
    assert set(acknowledged) <= {one.id for one in yard.findings}
    at(place).write(Change((Machine(id="wren", name="Wren"),)), yard.seen)  # and writing goes on
    made = at(place).last()
    assert made is not None
    assert (made.edited, [one.id for one in made.added]) == (False, ["wren"])
    if kind == "yard":
        assert not (place / _safe.OWN / "writing").exists()
        assert not _safe.unfinished(place)


@pytest.mark.parametrize("step", range(14))
def test_killed_at_every_step_of_one_write(tmp_path: Path, step: int) -> None:
    """A program that ends itself, without a word, at the nth call that touches the disk."""
    place = tmp_path / "y"
    lay_out(place)
    store = Folder(place)
    trouble = Trouble(id="1", number=1, corner=Corner("lark", "front-left"), opened=date(2026, 8, 1))
    store.write(Change((Machine(id="lark", name="Lark"), trouble)), store.read().seen)
    killer = """
import os, shutil, sys
calls = 0
def counted(real):
    def call(*args, **more):
        global calls
        calls += 1
        if calls > int(sys.argv[3]):
            os._exit(9)
        return real(*args, **more)
    return call
for name in ("fsync", "replace", "rename"):
    setattr(os, name, counted(getattr(os, name)))
"""
    ended = subprocess.run(
        [sys.executable, "-c", killer + WRITER.replace("10_000", "1"), str(place), "0", str(step)],
        capture_output=True,
        text=True,
        check=False,
    )
    yard = store.read()
    assert len(yard.findings) == len(yard.clock_readings)
    if ended.returncode == 0:
        assert ended.stdout.strip() == "0-0"
        assert len(yard.findings) == 1
    else:
        assert ended.returncode == 9, ended.stderr
    if step == 0:
        assert len(yard.findings) == 0
    store.write(Change((Machine(id="wren", name="Wren"),)), yard.seen)
    assert len(store.read().machines) == 2
