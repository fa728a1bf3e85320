"""How many lines words take on paper, so that sheets of many steps can be cut into pages before they are laid out.

The sheet face is of Arial width; the widths are those published with Helvetica (Adobe font metrics), 1/1000 of the size.
"""

from __future__ import annotations

import re
from functools import lru_cache

from axlewright.sheets import Run, Text

NARROW = {
    **dict.fromkeys("ijl", 222), **dict.fromkeys(" !,./:;IT[]\\ft", 278), **dict.fromkeys("()-r`", 333),
    **dict.fromkeys("ckJsvxyz", 500), **dict.fromkeys("'", 191), **dict.fromkeys("|", 260), "*": 389, '"': 355,
}  # fmt: skip
WIDE = {
    **dict.fromkeys("ABEKPSVXY&", 667), **dict.fromkeys("CDHNRUw", 722), **dict.fromkeys("GOQ", 778),
    **dict.fromkeys("Mm", 833), **dict.fromkeys("FTZ", 611), **dict.fromkeys("+<=>~", 584), "W": 944, "%": 889, "@": 1015,
}  # fmt: skip
WIDTHS = {**NARROW, **WIDE}
USUAL = 556  # digits and most small letters
BOLD = 1.08  # of the regular width
SAFE = 1.015  # for what kerning and the choice of measures add
POINT = 0.352778  # mm


UNIT = re.compile(r"(?<=\d) (?=(?:mm|cm|m|km|km/h|kg|t|L|bar|K|C|N·m|h|min|V|W|%)\b|%|x )")


def stay(words: str) -> str:
    """The words with a space that does not break between each number and its unit."""
    return UNIT.sub("\u00a0", words)


@lru_cache(maxsize=20_000)
def width(word: str, size: float, strong: bool = False) -> float:
    """Width of a word on paper [mm]; `size` in points."""
    units = sum(WIDTHS.get(sign, USUAL) for sign in word)
    return units / 1000 * size * POINT * SAFE * (BOLD if strong else 1.0)


def lines(text: Text, room: float, size: float) -> int:
    """Lines that a text takes in a column so wide [mm]. A number counts as nine signs."""
    space, count, used = width(" ", size), 1, 0.0
    for words, strong in _said(text):
        for word in words.split(" "):
            wide = width(word, size, strong)
            if used and used + space + wide > room:
                count, used = count + 1, wide
            else:
                used += wide + (space if used else 0.0)
    return count


def broken(words: str, room: float, size: float, strong: bool = False) -> tuple[str, ...]:
    """Words broken into lines that fit a room [mm]: for drawings, which break nothing by themselves."""
    space, rows, used = width(" ", size, strong), [""], 0.0
    for word in stay(words).split(" "):
        wide = width(word, size, strong)
        if rows[-1] and used + space + wide > room:
            rows.append(word)
            used = wide
        else:
            used += wide + (space if rows[-1] else 0.0)
            rows[-1] = f"{rows[-1]} {word}".strip()
    return tuple(rows)


def _said(text: Text) -> list[tuple[str, bool]]:
    said: list[tuple[str, bool]] = []
    for piece in text:
        if isinstance(piece, Run):
            said += [(words, piece.voice in {"strong", "must"}) for words, _ in _said(piece.words)]
        else:
            said.append((piece if isinstance(piece, str) else "000,000\u00a0N", False))
    return said
