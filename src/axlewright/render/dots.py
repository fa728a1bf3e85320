"""A dot strip as a drawing: one dot, one season in a hundred, at its cost; all strips on one axis."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from itertools import count
from math import ceil, floor, log10

from axlewright.quantities.units import unit_for
from axlewright.render.show import Words, glued
from axlewright.sheets import DotStrip, Drawing, Strip, Text
from axlewright.sheets.drawing import Arrow, Circle, Label, Path, Shape

PITCH, FULL, OPEN, HIGHEST = 1.42, 0.6, 0.5, 12
LEFT, RIGHT, HEAD, ROOM = 2.0, 86.0, 6.0, 27.0  # mm: ends of the axis, room above the first strip, height of a strip


def strips(block: DotStrip, words: Words) -> tuple[Drawing, tuple[Text, ...]]:
    """The drawing, and the same in words."""
    span = block.high - block.low or 1.0

    def at(si: float) -> float:
        return LEFT + (RIGHT - LEFT) * (si - block.low) / span

    shapes: list[Shape] = []
    height = HEAD + ROOM * len(block.strips)
    for value, said in ticks(block, words):
        x = at(value)
        shapes.append(Path(d=f"M{x:.2f} {HEAD - 1}V{height - 4}", role="hair"))
        shapes.append(Label(at=(x, HEAD - 2), words=(said,), anchor="middle", voice="soft"))
    twin: list[Text] = []
    for n, strip in enumerate(block.strips):
        base = HEAD + ROOM * (n + 1) - 6
        shapes += [Label(at=(0, base - ROOM + 10), words=strip.label, voice="strong"), *one(strip, at, base)]
        beyond = f", {strip.beyond} beyond" if strip.beyond else ""
        let_go = sum(dot.full for dot in strip.dots)
        twin.append(
            (
                *strip.label,
                ": mean ",
                *strip.middle,
                f"; let go in {let_go} of {len(strip.dots) + strip.beyond}{beyond}",
            )
        )
    says = "One dot, one season in a hundred, at its cost; full: it let go in the field. Triangle: the mean."
    return Drawing(height=height, says=says, shapes=tuple(shapes)), tuple(twin)


def one(strip: Strip, at: Callable[[float], float], base: float) -> list[Shape]:
    """One strip on its base line: full dots at the foot of a column, at most twelve high, then dots lean aside."""
    shapes: list[Shape] = [Path(d=f"M{LEFT} {base}H{RIGHT}", role="thin")]
    columns: Counter[int] = Counter()
    for dot in sorted(strip.dots, key=lambda d: (not d.full, d.at)):
        wanted = round((at(dot.at) - LEFT) / PITCH)
        column = next(c for c in aside(wanted) if columns[c] < HIGHEST)
        place = (LEFT + column * PITCH, base - 0.9 - columns[column] * PITCH)
        columns[column] += 1
        shapes.append(Circle(at=place, r=FULL if dot.full else OPEN, role="solid" if dot.full else "paper-thin"))
    x = at(strip.middle_at)
    shapes.append(Path(d=f"M{x:.2f} {base + 0.4}l1.3 2.2h-2.6z", role="solid"))
    shapes.append(Label(at=(x + 2, base + 3.6), words=strip.middle, voice="strong"))
    if strip.beyond:
        shapes.append(Label(at=(RIGHT, base - 2.4), words=(f"{strip.beyond} beyond",), anchor="end", voice="soft"))
        shapes.append(Arrow(points=((RIGHT - 3, base - 1), (RIGHT, base - 1))))
    return shapes


def aside(column: int) -> Iterator[int]:
    """A column, then those beside it, nearest first."""
    yield column
    for step in count(1):
        yield column + step
        if column - step >= 0:
            yield column - step


def ticks(block: DotStrip, words: Words) -> list[tuple[float, str]]:
    """Round numbers along the axis, in the unit shown; the last one with its unit."""
    unit = unit_for(block.quantity, words.show.measures, max(abs(block.low), abs(block.high)))
    low, high = unit.from_si(block.low), unit.from_si(block.high)
    rough = (high - low) / 4 or 1.0
    ten = 10.0 ** floor(log10(rough))
    step = next(k * ten for k in (1, 2, 5, 10) if k * ten >= rough)
    places = max(-floor(log10(step)), 0)
    numbers = [k * step for k in range(ceil(low / step), floor(high / step) + 1)]
    said = [(unit.to_si(number), words.figure(number, places)) for number in numbers]
    if said:
        said[-1] = (said[-1][0], said[-1][1] + glued(words.show.currency if block.quantity == "money" else unit.symbol))
    return said
