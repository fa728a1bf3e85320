"""A dot strip as a drawing: one dot, one season in a hundred, at its cost; all strips on one axis."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from itertools import count
from math import ceil, floor, log10

from axlewright.quantities.units import unit_for
from axlewright.render.face import width
from axlewright.render.show import Words, glued
from axlewright.sheets import DotStrip, Drawing, Strip, Text
from axlewright.sheets.drawing import Arrow, Circle, Label, Path, Shape

PITCH, FULL, OPEN, HIGHEST = 1.42, 0.6, 0.5, 12
LEFT, RIGHT, HEAD, LEAST, FOOT = (
    2.0,
    86.0,
    6.0,
    9.0,
    4.6,
)  # mm: ends of the axis, its ticks, least room over a line, below it
FEW, LOWER = 4, 8  # with more strips than these, columns are no higher than that: the sheet is one page
SAYS = "One dot, one season in a hundred, at its cost; full: it let go in the field. Triangle: the mean."


def axis(block: DotStrip, words: Words) -> Drawing:
    """The ticks that all strips share."""
    at = _placed(block)
    shapes: list[Shape] = []
    last = RIGHT + 2
    for value, said in reversed(ticks(block, words)):
        half = WIDER * width(said, SIZE) / 2
        x = min(at(value), RIGHT + 2 - half)
        if x + half <= last:
            shapes.append(Label(at=(x, HEAD - 1.6), words=(said,), anchor="middle", voice="soft"))
            last = x - half - 1.0
    return Drawing(height=HEAD, says="What it costs above a season without trouble.", shapes=tuple(shapes))


SIZE, WIDER = 3.5, 1.05  # mm, of words on a page; another face than ours


def drawn(block: DotStrip, strip: Strip, words: Words) -> Drawing:
    """One strip: dots over a line, the mean under it."""
    at = _placed(block)
    places = _columns(strip, at, HIGHEST if len(block.strips) <= FEW else LOWER)
    highest = max((row for _, row, _ in places), default=0) + 1
    base = max(highest * PITCH + 1.6, LEAST)
    shapes: list[Shape] = [
        Path(d=f"M{at(value):.2f} 0V{base + 1.2:.2f}", role="hair") for value, _ in ticks(block, words)
    ]
    shapes.append(Path(d=f"M{LEFT - 2:.2f} {base:.2f}H{RIGHT + 2:.2f}", role="thin"))
    for column, row, full in places:
        place = (LEFT + column * PITCH, base - 0.9 - row * PITCH)
        shapes.append(Circle(at=place, r=FULL if full else OPEN, role="solid" if full else "paper-thin"))
    shapes += _mean(strip, at, base)
    if strip.beyond:
        shapes.append(Label(at=(RIGHT + 2, base - 2.8), words=(f"{strip.beyond} beyond",), anchor="end", voice="soft"))
        shapes.append(Arrow(points=((RIGHT - 2, base - 1.1), (RIGHT + 2, base - 1.1))))
    return Drawing(height=base + FOOT, says=SAYS, shapes=tuple(shapes))


def told(strip: Strip) -> Text:
    """The same in words."""
    beyond = f", {strip.beyond} beyond" if strip.beyond else ""
    let_go = sum(dot.full for dot in strip.dots)
    label = (f"{strip.letter}, ", *strip.label) if strip.letter else strip.label
    return (*label, ": mean ", *strip.middle, f"; let go in {let_go} of {len(strip.dots) + strip.beyond}{beyond}")


def _placed(block: DotStrip) -> Callable[[float], float]:
    span = block.high - block.low or 1.0
    return lambda si: LEFT + (RIGHT - LEFT) * (si - block.low) / span


def _mean(strip: Strip, at: Callable[[float], float], base: float) -> list[Shape]:
    x = min(at(strip.middle_at), RIGHT)
    left = x > RIGHT - 16
    label = Label(
        at=(x - 2 if left else x + 2, base + 3.5), words=strip.middle, voice="strong", anchor="end" if left else "start"
    )
    return [Path(d=f"M{x:.2f} {base + 0.5:.2f}l1.3 2.2h-2.6z", role="solid"), label]


def _columns(strip: Strip, at: Callable[[float], float], most: int) -> list[tuple[int, int, bool]]:
    """Column and row of each dot: full ones at the foot of a column, at most so many high, then dots lean aside."""
    columns: Counter[int] = Counter()
    found = []
    for dot in sorted(strip.dots, key=lambda d: (not d.full, d.at)):
        wanted = round((at(dot.at) - LEFT) / PITCH)
        column = next(c for c in aside(max(wanted, 0)) if columns[c] < most)
        found.append((column, columns[column], dot.full))
        columns[column] += 1
    return found


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
    rough = (high - low) / 5 or 1.0
    ten = 10.0 ** floor(log10(rough))
    step = next(k * ten for k in (1, 2, 5, 10) if k * ten >= rough)
    places = max(-floor(log10(step)), 0)
    numbers = [k * step for k in range(ceil(low / step), floor(high / step) + 1)]
    said = [(unit.to_si(number), words.figure(number, places)) for number in numbers]
    if said:
        said[-1] = (said[-1][0], said[-1][1] + glued(words.show.currency if block.quantity == "money" else unit.symbol))
    return said
