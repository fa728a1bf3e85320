"""The pack itself as JSON, and its reader: numbers in SI, nothing rounded, nothing chosen."""

from __future__ import annotations

from axlewright.render.show import Show
from axlewright.sheets import Pack


def render(pack: Pack, show: Show) -> bytes:
    """The pack; what the reader chose changes nothing in it."""
    del show
    return pack.model_dump_json(indent=1).encode() + b"\n"


def read(data: bytes) -> Pack:
    """The pack that was rendered so."""
    return Pack.model_validate_json(data)
