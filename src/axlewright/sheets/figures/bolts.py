"""Bolts: the flange with its order to scale, the torque window of each grease, and what one bolt then holds."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from axlewright.sheets.drawing import Arrow, Balloon, Circle, Drawing, Hatch, Hatching, Label, Point, Role, Shape
from axlewright.sheets.figures.shapes import (
    FIELD,
    Anchor,
    Voice,
    box,
    circle,
    drawn,
    line,
    lines,
    plain,
    rectangle,
    ring,
    voiced,
    words,
)
from axlewright.sheets.text import Text, text

SCALES = (1.0, 2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 5.5, 6.0, 7.5, 10.0, 12.5, 15.0)
_MIDDLE: Point = (44.0, 46.0)
_ROOM = 80.0  # mm, the widest flange on paper
_BALLOON = 4.05


@dataclass(frozen=True, slots=True)
class Flange:
    """A flange seen from outside, in metres; what is not known of it is left out."""

    bolts: int
    circle: float
    outside: float
    register: tuple[float, float] | None = None  # outer and inner diameter of the face that centres it
    face: float | None = None  # inner diameter of the joint's face
    angles: tuple[float, ...] = ()  # of an uneven circle: degrees clockwise from the top, one a bolt

    def angle(self, bolt: int) -> float:
        """Where a bolt sits: degrees clockwise from the top."""
        return self.angles[bolt - 1] if self.angles else 360.0 * (bolt - 1) / self.bolts


def scale_for(outside: float) -> float:
    """The largest of the usual scales at which a flange of this diameter [m] fits its field."""
    fits = [scale for scale in SCALES if outside * 1000.0 / scale <= _ROOM]
    return fits[0] if fits else math.ceil(outside * 1000.0 / _ROOM)


def order(
    flange: Flange, tightening: Sequence[int], told: Text, *, fitted: Sequence[int] = (), scale: float | None = None
) -> Drawing:
    """The flange with each bolt numbered by its turn in the order of tightening.

    Args:
        flange: what it measures
        tightening: bolt numbers, round the circle clockwise from the top, in the order in which they are tightened
        told: words at the foot, `12 on 380`
        fitted: the bolts in guide bushes, ringed
        scale: 5 for 1:5; the largest that fits where none is given

    Returns:
        the drawing; `scale_for` tells its scale
    """
    scale = scale or scale_for(flange.outside)

    def mm(metres: float) -> float:
        return metres * 1000.0 / scale

    def at(bolt: int, r: float) -> Point:
        a = math.radians(flange.angle(bolt))
        return (round(_MIDDLE[0] + r * math.sin(a), 3), round(_MIDDLE[1] - r * math.cos(a), 3))

    r = mm(flange.circle) / 2
    places = [at(bolt, r) for bolt in tightening]
    apart = min((math.dist(a, b) for i, a in enumerate(places) for b in places[:i]), default=99.0)
    size = min(_BALLOON, round(apart / 2 - 0.3, 2))
    shapes: list[Shape] = [
        *_flange(flange, mm),
        line("centre", (44, 1.5), (44, 90.5)),
        line("centre", (0.5, 46), (87.5, 46)),
    ]
    shapes.append(line("construction", *places))
    shapes += [_step(a, b, size + 0.85) for a, b in list(pairwise(places))[:3] if math.dist(a, b) > 2 * size + 5]
    shapes += [
        Balloon(at=places[turn], number=str(turn + 1), r=size, ringed=bolt in fitted)
        for turn, bolt in enumerate(tightening)
    ]
    shapes += [*words((45.0, 4.0), "top", voice="construction")]
    shapes += _bushes([places[list(tightening).index(bolt)] for bolt in fitted], size, told)
    return drawn(93.4, _order_says(flange, tightening, fitted, scale), *shapes)


def order_words(flange: Flange, tightening: Sequence[int], fitted: Sequence[int] = ()) -> tuple[Text, ...]:
    """The same in words: one line for each turn, places as on a clock face."""
    made = []
    for turn, bolt in enumerate(tightening):
        halves = round(flange.angle(bolt) / 15.0) % 24
        hour, half = halves // 2 or 12, halves % 2
        place = f"at half past {hour}" if half else f"at {hour} o’clock"
        place += ", guide bush" if bolt in fitted else ""
        made.append(text(f"{turn + 1}: {place}"))
    return tuple(made)


def _flange(flange: Flange, mm: Callable[[float], float]) -> tuple[Shape, ...]:
    x, y = _MIDDLE
    shapes: list[Shape] = [circle("paper", x, y, mm(flange.outside) / 2)]
    if flange.face:
        shapes.append(circle("thin", x, y, mm(flange.face) / 2))
    if flange.register:
        outer, inner = (mm(one) / 2 for one in flange.register)
        shapes.append(Hatch(rings=(ring(x, y, outer), ring(x, y, inner)), fill="ground"))
        shapes += [circle("thin", x, y, outer), circle("outline", x, y, inner)]
    return (*shapes, Circle(at=_MIDDLE, r=mm(flange.circle) / 2, role="centre"))


def _step(a: Point, b: Point, clear: float) -> Arrow:
    """An arrow from bolt to bolt that stops short of both."""
    long = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / long, (b[1] - a[1]) / long
    start, end = (a[0] + ux * clear, a[1] + uy * clear), (b[0] - ux * (clear + 0.4), b[1] - uy * (clear + 0.4))
    return Arrow(points=(start, end))


def _bushes(places: Sequence[Point], size: float, told: Text) -> tuple[Shape, ...]:
    """A leader from each guide bush to the nearest free corner; the words at the foot take a corner that is left."""
    corners: dict[Point, Anchor] = {(88.0, 4.0): "end", (0.0, 4.0): "start", (0.0, 92.0): "start", (88.0, 92.0): "end"}
    shapes: list[Shape] = []
    for place in places[:2]:
        corner = min(corners, key=lambda one: math.dist(one, place))
        anchor = corners.pop(corner)
        toward = math.dist(corner, place)
        clear = (size + 0.85) / toward
        edge = (place[0] + (corner[0] - place[0]) * clear, place[1] + (corner[1] - place[1]) * clear)
        foot = corner[1] > _MIDDLE[1]
        x = corner[0] + (12.0 if anchor == "start" else -12.0)
        shapes.append(line("thin", (x, corner[1] - 3.4 if foot else corner[1] + 1.2), edge))
        shapes += words(corner, "guide bush", anchor=anchor)
    left = [one for one in ((88.0, 92.0), (0.0, 92.0), (0.0, 4.0)) if one in corners]
    shapes += words(left[0], told, anchor=corners[left[0]])
    return tuple(shapes)


def _order_says(flange: Flange, tightening: Sequence[int], fitted: Sequence[int], scale: float) -> str:
    turns = [str(list(tightening).index(bolt) + 1) for bolt in fitted]
    bushes = f" Bolts {' and '.join(turns)} sit in the guide bushes." if turns else ""
    return (
        f"Flange seen from outside, 1:{scale:g}: {flange.bolts} bolts, numbered in the order of tightening.{bushes} "
        "Arrows show the first three steps."
    )


LETTER = 2.2  # mm, of a letter in the widest face


@dataclass(frozen=True, slots=True)
class Window:
    """The torques of one grease [N m]: under `low` too slack, to `high` it holds, to `breaks` it may yield."""

    name: Text
    low: float
    high: float
    breaks: float
    told: Text  # `333 to 451`
    chosen: float | None = None  # the torque to set
    chosen_words: Text = ()


NAMED: tuple[tuple[Hatching, str], ...] = (
    ("wearing", "too slack"),
    ("sound", "holds"),
    ("failing", "may yield"),
    ("let go", "may break"),
)


def windows(
    rows: Sequence[Window],
    span: tuple[float, float],
    ticks: Sequence[tuple[float, Text]],
    unit: Text,
    *,
    book: float | None = None,
    book_words: Text = (),
) -> Drawing:
    """The torque window of each grease, one bar a grease, and the book's torque across all of them.

    Args:
        rows: greases, in the order in which they stand
        span: least and greatest torque of the axis [N m]
        ticks: torques with the words below them
        unit: of those words
        book: the book's torque [N m]
        book_words: words over its line

    Returns:
        the drawing; its ranges are named at its foot
    """

    def x(torque: float) -> float:
        return round(FIELD * min(max((torque - span[0]) / (span[1] - span[0]), 0.0), 1.0), 3)

    foot = 8.0 + 15.5 * len(rows)
    shapes: list[Shape] = [lines("hair", [((x(at), 6.0), (x(at), foot)) for at, _ in ticks])]
    for place, row in enumerate(rows):
        shapes += _window(row, 13.8 + 15.5 * place, x)
    if book is not None:
        shapes.append(box("solid-construction", x(book) - 0.35, 4.6, 0.7, foot - 7.6))
        shapes += words((x(book), 3.6), book_words, anchor="middle", voice="construction", strong=True)
    for place, row in enumerate(rows):
        shapes += _setting(row, 13.8 + 15.5 * place, x) if row.chosen is not None else ()
    for at, told in ticks:
        shapes += words((x(at), foot + 4.6), told, anchor="middle", voice="soft")
    shapes += [*words((FIELD, foot + 4.6), unit, anchor="end", voice="soft"), *_named(foot + 8.0)]
    says = "; ".join(f"{plain(row.name)}: {plain(row.told)}" for row in rows)
    return drawn(foot + 13.0, f"Torque window for each grease. {says}.", *shapes)


def _window(row: Window, top: float, x: Callable[[float], float]) -> tuple[Shape, ...]:
    strong = row.chosen is not None
    shapes: list[Shape] = [
        *words((0.0, top - 1.6), row.name, strong=strong),
        *words((FIELD, top - 1.6), row.told, anchor="end", strong=strong),
        box("blank", 0.0, top, FIELD, 6.2),
    ]
    edges = (0.0, x(row.low), x(max(row.high, row.low)), x(max(row.breaks, row.low)), FIELD)
    for (fill, _), (left, right) in zip(NAMED, pairwise(edges), strict=True):
        if right - left > 0.05 and fill != "sound":
            shapes.append(Hatch(rings=(rectangle(left, top, right - left, 6.2),), fill=fill))
    shapes.append(lines("thin", (((0.0, top), (FIELD, top)), ((0.0, top + 6.2), (FIELD, top + 6.2)))))
    if edges[2] - edges[1] > 0.05:
        shapes.append(box("outline", edges[1], top, edges[2] - edges[1], 6.2))
    return tuple(shapes)


def _setting(row: Window, top: float, x: Callable[[float], float]) -> tuple[Shape, ...]:
    """The torque to set, across its bar; its number in the window where there is room for it, else under the bar."""
    assert row.chosen is not None
    at = x(row.chosen)
    right: Anchor = "start" if x(row.high) - at > at - x(row.low) else "end"
    label = (at + 1.6 if right == "start" else at - 1.6, top + 4.4)
    if max(x(row.high) - at, at - x(row.low)) < 2.4 + LETTER * max(len(plain(row.chosen_words)), 3):
        right, label = "middle", (at, top + 10.6)  # no room beside it without standing on a hatch
    return (
        box("solid", at - 0.65, top - 1.2, 1.3, 8.6),
        Label(at=label, words=voiced(row.chosen_words, "strong"), anchor=right),
    )


def _named(top: float) -> tuple[Shape, ...]:
    """The four ranges by name, each with room for its letters in the widest face."""
    shapes: list[Shape] = []
    rooms = [5.8 + 1.9 * len(name) for _, name in NAMED]
    gap = (FIELD - sum(rooms)) / (len(NAMED) - 1)
    for place, (fill, name) in enumerate(NAMED):
        left = sum(rooms[:place]) + gap * place
        shapes += [
            Hatch(rings=(rectangle(left + 0.2, top, 4.6, 3.2),), fill=fill),
            box("thin", left + 0.2, top, 4.6, 3.2),
            *words((left + 5.8, top + 2.8), name, voice="soft"),
        ]
    return tuple(shapes)


@dataclass(frozen=True, slots=True)
class Limit:
    """A force on the rule of one bolt [N]: what it needs, where it yields, breaks, strips."""

    at: float
    told: Text
    must: bool = False


def holds(
    pull: tuple[float, float, float],
    limits: Sequence[Limit],
    top: float,
    told: Text,
    under: Text = (),
    step: float = 20e3,
) -> Drawing:
    """What one bolt then holds: its pull with both ends on a rule of force, against what it needs and what breaks.

    Args:
        pull: low end, middle and high end [N]
        limits: marks on the rule
        top: greatest force of the rule [N]
        told: words over the bar
        under: a second line of them
        step: from tick to tick [N]

    Returns:
        the drawing
    """

    def x(force: float) -> float:
        return round(FIELD * min(max(force / top, 0.0), 1.0), 3)

    rule = 15.0
    low, middle, high = (x(one) for one in pull)
    shapes: list[Shape] = [
        line("outline", (0.0, rule), (FIELD, rule)),
        lines("dimension", [((x(step * k), rule), (x(step * k), rule + 1.2)) for k in range(int(top / step) + 1)]),
        box("solid", low, rule - 5.0, max(middle - 0.4 - low, 0.1), 5.0),
        box("solid", middle + 0.4, rule - 5.0, max(high - middle - 0.4, 0.1), 5.0),
    ]
    centre = min(max((low + high) / 2, 24.0), FIELD - 24.0)
    shapes += words((centre, 4.4), told, anchor="middle", strong=True)
    shapes += words((centre, 8.6), under, anchor="middle", voice="soft") if under else ()
    rows = 0
    taken: list[tuple[int, float, float]] = []  # row, left and right of words that stand
    for limit in sorted(limits, key=lambda one: one.at):
        at, wide = x(limit.at), 1.85 * len(plain(limit.told)) + 8.0
        anchor: Anchor = "middle" if wide / 2 < at < FIELD - wide / 2 else "start" if at < FIELD / 2 else "end"
        left = at - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
        if anchor == "end":
            left = min(left + wide, FIELD) - wide
        row = next(r for r in range(9) if all(t != r or left > b or left + wide < a for t, a, b in taken))
        taken.append((row, left, left + wide))
        rows = max(rows, row)
        role: Role = "limit" if limit.must else "outline"
        shapes.append(line(role, (at, rule - 6.0), (at, rule + 1.4)))
        if row:
            shapes.append(line("dimension", (at, rule + 1.4), (at, rule + 1.4 + 4.6 * row)))
        voice: Voice = "must" if limit.must else "soft"
        place = (FIELD if anchor == "end" else at, rule + 5.6 + 4.6 * row)
        shapes += words(place, limit.told, anchor=anchor, voice=voice)
    marks = "; ".join(plain(one.told) for one in sorted(limits, key=lambda one: one.at))
    return drawn(rule + 6.8 + 4.6 * rows, f"What one bolt holds: {plain(told)}. {marks.capitalize()}.", *shapes)
