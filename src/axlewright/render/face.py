"""How wide words are in the sheet face, read from the font files that the PDF embeds."""

from __future__ import annotations

import struct
from functools import cache
from pathlib import Path
from typing import Literal

FONTS = Path(__file__).parent / "fonts"
FAMILY = "Axlewright Sheet"
MISSING = "□"  # stands for a character that the sheet face does not have

Weight = Literal["Regular", "Bold"]


@cache
def widths(weight: Weight = "Regular") -> dict[int, float]:
    """Advance width of each character of the face, in em."""
    data = (FONTS / f"AxlewrightSheet-{weight}.ttf").read_bytes()
    count = struct.unpack_from(">H", data, 4)[0]
    tables = {tag: start for tag, _, start, _ in struct.iter_unpack(">4sLLL", data[12 : 12 + 16 * count])}
    em = struct.unpack_from(">H", data, tables[b"head"] + 18)[0]
    metrics = struct.unpack_from(">H", data, tables[b"hhea"] + 34)[0]
    advance = [struct.unpack_from(">H", data, tables[b"hmtx"] + 4 * n)[0] / em for n in range(metrics)]
    glyphs = _characters(data, tables[b"cmap"])
    return {code: advance[min(glyph, metrics - 1)] for code, glyph in glyphs.items()}


def _characters(data: bytes, cmap: int) -> dict[int, int]:
    """The glyph of each character (cmap subtable format 4 of the OpenType specification)."""
    start = cmap + struct.unpack_from(">L", data, cmap + 8)[0]
    segments = struct.unpack_from(">H", data, start + 6)[0] // 2
    at = start + 14

    def row(number: int, kind: str = "H") -> tuple[int, ...]:
        return struct.unpack_from(f">{segments}{kind}", data, at + number)

    ends, starts = row(0), row(2 * segments + 2)
    deltas, offsets = row(4 * segments + 2, "h"), row(6 * segments + 2)
    glyphs: dict[int, int] = {}
    for n in range(segments):
        for code in range(starts[n], ends[n] + 1):
            glyph = code
            if offsets[n]:
                place = at + 6 * segments + 2 + 2 * n + offsets[n] + 2 * (code - starts[n])
                glyph = struct.unpack_from(">H", data, place)[0]
                if not glyph:
                    continue
            glyph = (glyph + deltas[n]) & 0xFFFF
            if glyph:
                glyphs[code] = glyph
    return glyphs


def width(words: str, size: float = 1.0, *, bold: bool = False) -> float:
    """Width of words at this size, in the size's own unit."""
    table = widths("Bold" if bold else "Regular")
    return size * sum(table.get(ord(letter), 0.7) for letter in words)


def drawable(words: str) -> str:
    """The same words with a box for each character that the face does not have."""
    table = widths()
    return "".join(letter if ord(letter) in table or letter == "\n" else MISSING for letter in words)
