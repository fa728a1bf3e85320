"""Text renders kept as they are: a change in what a sheet says shows as a readable difference.

Write them anew with AXLEWRIGHT_GOLDENS=write, then read what changed.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from axlewright.render import Show, render
from render.packs import pack, whole_sheet

GOLDENS = Path(__file__).parents[1] / "goldens"
SHOWS = {"metric": Show(), "us": Show(measures="us", paper="Letter")}


@pytest.mark.parametrize("name", SHOWS)
def test_a_whole_sheet(name: str) -> None:
    file = GOLDENS / f"whole-{name}.txt"
    said = render(pack(whole_sheet()), SHOWS[name], "text")
    if os.environ.get("AXLEWRIGHT_GOLDENS") == "write":
        file.write_bytes(said)
    assert said.decode() == file.read_text(encoding="utf-8")
