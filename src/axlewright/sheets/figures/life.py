"""A life on a rule of hours: where a drive sat, or which drives a machine's corners had, and what was seen when."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from axlewright.sheets.drawing import Drawing, Hatch, Label, Shape
from axlewright.sheets.figures.shapes import FIELD, circle, drawn, line, plain, polygon, rectangle, voiced, words
from axlewright.sheets.text import Text

LEFT, RIGHT = 4.0, 16.0  # mm, from the ends of the figure to the first hour, and at least to the last
MOST = 0.66  # of the width that words right of the last hour may take
BAR, LANE, ROW = 5.0, 11.0, 6.0  # mm: height of a bar, one lane with its words, one row of leaders
LETTER = 1.95  # mm, the width that a letter of a label is given
TICKS = 8


@dataclass(frozen=True, slots=True)
class Stay:
    """A stretch of hours at one place. One whose hours nobody counted is drawn dashed."""

    start: float
    end: float
    words: Text
    known: bool = True


@dataclass(frozen=True, slots=True)
class Lane:
    """The stays of one corner, or of the drive itself (then without a name)."""

    stays: tuple[Stay, ...]
    name: str = ""


@dataclass(frozen=True, slots=True)
class Mark:
    """What was seen at which hours; `must` where it spoke against it."""

    at: float
    words: Text
    must: bool = False


def rule(lanes: Sequence[Lane], marks: Sequence[Mark], now: float, told: Text) -> Drawing:
    """Stays as bars over a rule of hours, what was seen as leaders under it, the latest on top.

    Args:
        lanes: at least one
        marks: what was seen, at hours of the same rule
        now: where it stands today [h]
        told: the same in words
    """
    width = FIELD
    every = [s for lane in lanes for s in lane.stays]
    first = min([now, *(s.start for s in every), *(m.at for m in marks)])
    reach = max([now - first, *(m.at - first for m in marks), 1.0])
    longest = max((_room(m.words) for m in marks), default=0.0) + 3.0
    last = width - min(max(RIGHT, longest), MOST * width)  # words stand right of their leaders: none crosses one

    def x(at: float) -> float:
        return LEFT + (last - LEFT) * (at - first) / reach

    shapes: list[Shape] = []
    top = 6.0
    for lane in lanes:
        if lane.name:
            shapes.append(Label(at=(0.0, top - 1.4), words=voiced(lane.name, "soft")))
            top += 3.4
        if any(not _holds(s, x(s.start), x(s.end)) for s in lane.stays[:-1]):
            top += 3.6
        for n, stay in enumerate(lane.stays, 1):
            end = max(x(stay.end), x(stay.start) + 0.8)
            shapes += _bar(stay, x(stay.start), end, top, last=n == len(lane.stays))
        top += LANE
    foot = top + 1.0
    shapes.append(line("outline", (0.0, foot), (width, foot)))
    shapes += [
        line("dimension", (at, foot), (at, foot + 1.4))
        for at in (LEFT + (last - LEFT) * n / TICKS for n in range(TICKS + 1))
    ]
    shapes += [polygon("solid", rectangle(x(now) - 0.5, foot - 2.6, 1.0, 5.2))]
    shapes.append(Label(at=(x(now) + 1.4, foot - 1.4), words=voiced(told, "strong")))
    for row, mark in enumerate(sorted(marks, key=lambda one: -one.at)):
        shapes += _leader(mark, x(mark.at), foot, foot + ROW * (row + 1) + 1.0)
    said = "; ".join([*(plain(s.words) for s in every), *(plain(m.words) for m in sorted(marks, key=lambda m: m.at))])
    return drawn(foot + ROW * (len(marks) + 1), f"By hours, the oldest first: {said}.", *shapes)


def _room(told: Text) -> float:
    return LETTER * len(plain(told))


def _holds(stay: Stay, start: float, end: float) -> bool:
    """Whether a bar holds its words."""
    return _room(stay.words) <= end - start - 2.0


def _bar(stay: Stay, start: float, end: float, top: float, *, last: bool) -> tuple[Shape, ...]:
    """A stretch with its words in it; a short one has them behind it, or over it where another follows."""
    ring = rectangle(start, top, end - start, BAR)
    body: tuple[Shape, ...] = (
        (polygon("paper", ring),)
        if stay.known
        else (polygon("blank", ring), Hatch(rings=(ring,), fill="spread"), polygon("hidden", ring))
    )
    if _holds(stay, start, end):
        return (*body, Label(at=(start + 1.2, top + 3.7), words=stay.words, haloed=not stay.known))
    at = (end + 1.4, top + 3.7) if last else (start, top - 1.2)
    return (*body, Label(at=at, words=stay.words))


def _leader(mark: Mark, at: float, rule_at: float, foot: float) -> tuple[Shape, ...]:
    return (
        line("limit" if mark.must else "thin", (at, rule_at), (at, foot)),
        circle("solid-must" if mark.must else "solid", at, foot, 0.7),
        *words((at + 2.2, foot + 1.2), mark.words, voice="must" if mark.must else "plain"),
    )
