"""Paths moved, turned and mirrored; areas hatched with lines clipped to them.

A scaled group scales its shape but not its line widths, so paths are rewritten instead of being given a transform.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

Point: TypeAlias = tuple[float, float]
Ring: TypeAlias = Sequence[Point]
Segment: TypeAlias = tuple[str, tuple[float, ...]]  # an absolute M L C Q A Z with its numbers


def short(number: float) -> str:
    """A number to two decimals, without what is not needed."""
    said = f"{number:.2f}".rstrip("0").rstrip(".")
    return "0" if said in {"-0", ""} else said


@dataclass(frozen=True, slots=True)
class Move:
    """A similarity: mirror (left and right), scale, turn (degrees, clockwise on paper), then shift."""

    by: Point = (0.0, 0.0)
    turn: float = 0.0
    scale: float = 1.0
    mirrored: bool = False

    def point(self, p: Point) -> Point:
        x, y = (-p[0] if self.mirrored else p[0]) * self.scale, p[1] * self.scale
        c, s = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        return (c * x - s * y + self.by[0], s * x + c * y + self.by[1])

    def then(self, outer: Move) -> Move:
        """This move inside another group's."""
        turn = outer.turn + (-self.turn if outer.mirrored else self.turn)
        return Move(outer.point(self.by), turn, self.scale * outer.scale, self.mirrored != outer.mirrored)

    def path(self, d: str) -> str:
        """Path notation, absolute and moved, to two decimals."""
        return moved(self, d)

    def segment(self, letter: str, numbers: tuple[float, ...]) -> str:
        if letter == "Z":
            return "Z"
        if letter == "A":
            rx, ry, axis, large, sweep, x, y = numbers
            axis = (-axis if self.mirrored else axis) + self.turn
            sweep = 1 - sweep if self.mirrored else sweep
            numbers = (rx * self.scale, ry * self.scale, axis, large, sweep, *self.point((x, y)))
        else:
            moved = [self.point((numbers[n], numbers[n + 1])) for n in range(0, len(numbers), 2)]
            numbers = tuple(part for p in moved for part in p)
        return letter + " ".join(short(number) for number in numbers)


@lru_cache(maxsize=4096)
def moved(move: Move, d: str) -> str:
    """A path after a move. Machines, plug cards and looks are drawn from the same paths on every sheet: kept."""
    return "".join(move.segment(letter, numbers) for letter, numbers in absolute(d))


TOKENS = re.compile(r"[MmLlHhVvCcSsQqTtAaZz]|[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}


def _commands(d: str) -> Iterator[tuple[str, list[float]]]:
    letter, numbers = "", list[float]()
    for token in TOKENS.findall(d):
        if token.isalpha():
            letter, numbers = token, []
            if token in "Zz":
                yield token, []
            continue
        numbers.append(float(token))
        if letter and len(numbers) == TAKES[letter.upper()]:
            yield letter, numbers
            numbers = []
            letter = {"M": "L", "m": "l"}.get(letter, letter)


def absolute(d: str) -> Iterator[Segment]:
    """The segments of a path: absolute, only M L C Q A Z."""
    x = y = start_x = start_y = 0.0
    last: Segment = ("", ())
    for letter, n in _commands(d):
        upper = letter.upper()
        dx, dy = (0.0, 0.0) if letter == upper else (x, y)
        match upper:
            case "Z":
                segment: Segment = ("Z", ())
            case "H":
                segment = ("L", (n[0] + dx, y))
            case "V":
                segment = ("L", (x, n[0] + dy))
            case "A":
                segment = ("A", (*n[:5], n[5] + dx, n[6] + dy))
            case "S" | "T":
                bent = last[0] == {"S": "C", "T": "Q"}[upper]
                first = (2 * x - last[1][-4], 2 * y - last[1][-3]) if bent else (x, y)
                rest = [value + (dy if k % 2 else dx) for k, value in enumerate(n)]
                segment = ("C" if upper == "S" else "Q", (*first, *rest))
            case _:
                segment = (upper, tuple(value + (dy if k % 2 else dx) for k, value in enumerate(n)))
        x, y = (start_x, start_y) if upper == "Z" else segment[1][-2:]
        if upper == "M":
            start_x, start_y = x, y
        last = segment
        yield segment


def hatched(rings: Sequence[Ring], spacing: float, angle: float) -> str:
    """Lines across an area at this angle (degrees, 45 rises to the right), clipped to it: scan lines, even-odd."""
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    turned = [[(c * x - s * y, s * x + c * y) for x, y in ring] for ring in rings]
    heights = [v for ring in turned for _, v in ring]
    if not heights:
        return ""
    lines = []
    for k in range(math.floor(min(heights) / spacing), math.ceil(max(heights) / spacing) + 1):
        level = (k + 0.5) * spacing
        crossings = sorted(_crossings(turned, level))
        for start, end in zip(crossings[::2], crossings[1::2], strict=False):
            if end - start > 0.05:
                ends = [(c * u + s * level, c * level - s * u) for u in (start, end)]
                lines.append("M" + "L".join(f"{short(x)} {short(y)}" for x, y in ends))
    return "".join(lines)


def _crossings(rings: Sequence[Ring], level: float) -> Iterator[float]:
    for ring in rings:
        for (u1, v1), (u2, v2) in zip(ring, [*ring[1:], ring[0]], strict=True):
            if (v1 > level) != (v2 > level):
                yield u1 + (level - v1) * (u2 - u1) / (v2 - v1)
