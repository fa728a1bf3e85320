"""Measuring a drawing by its own shapes: where its points lie, after every move, turn and scale."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from axlewright.render import face
from axlewright.sheets.drawing import (
    Area,
    Arrow,
    Balloon,
    Circle,
    Dimension,
    Drawing,
    Ground,
    Group,
    Hatch,
    Label,
    Leader,
    Mark,
    Path,
    Point,
    Shape,
)
from axlewright.sheets.figures.shapes import plain

_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "Q": 4, "C": 6, "S": 4, "T": 2, "A": 7, "Z": 0}


def path_points(d: str) -> list[Point]:
    """End points and control points of a path: its hull lies within theirs (arcs: their ends and their middle)."""
    points: list[Point] = []
    x = y = start_x = start_y = 0.0
    for letter, tail in re.findall(r"([MLHVQTCSAZmlhvqtcsaz])([^MLHVQTCSAZmlhvqtcsaz]*)", d):
        numbers = [float(n) for n in re.findall(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?", tail)]
        takes, relative = _TAKES[letter.upper()], letter.islower()
        if not takes:
            x, y = start_x, start_y
            continue
        for i in range(0, len(numbers), takes):
            step = numbers[i : i + takes]
            assert len(step) == takes, f"a cut {letter} in {d!r}"
            from_x, from_y = (x, y) if relative else (0.0, 0.0)
            if letter.upper() == "H":
                x = from_x + step[0]
            elif letter.upper() == "V":
                y = from_y + step[0]
            elif letter.upper() == "A":
                x, y = from_x + step[5], from_y + step[6]
            else:
                pairs = [(from_x + a, from_y + b) for a, b in zip(step[::2], step[1::2], strict=True)]
                points += pairs[:-1]
                x, y = pairs[-1]
            points.append((x, y))
            if letter.upper() == "M" and i == 0:
                start_x, start_y = x, y
    return points


def own_points(shape: Shape) -> list[Point]:
    """The points of one shape; of words their anchor only, since their width is the renderer's."""
    match shape:
        case Path():
            return path_points(shape.d)
        case Circle() | Balloon():
            (x, y), r = shape.at, shape.r
            return [(x - r, y - r), (x + r, y + r)]
        case Mark():
            (x, y), r = shape.at, shape.size / 2
            return [(x - r, y - r), (x + r, y + r)]
        case Hatch():
            return [point for ring in shape.rings for point in ring]
        case Label():
            return [shape.at]
        case Leader():
            return [shape.at, *shape.to]
        case Dimension():
            return [shape.a, shape.b, *dimension_line(shape)]
        case Arrow():
            return list(shape.points)
        case Ground():
            return [(shape.from_x, shape.y), (shape.to_x, shape.y + 2.0)]
        case Area():
            return list(shape.outline)
        case Group():
            return [point for inner in shape.shapes for point in placed(inner, shape)]


def dimension_line(shape: Dimension) -> tuple[Point, Point]:
    """The two ends of a dimension line: `away` to the left of a to b, y down."""
    (ax, ay), (bx, by) = shape.a, shape.b
    if shape.direction == "across":
        y = ay - math.copysign(1.0, bx - ax) * shape.away
        return (ax, y), (bx, y)
    if shape.direction == "up":
        x = ax + math.copysign(1.0, by - ay) * shape.away
        return (x, ay), (x, by)
    length = math.hypot(bx - ax, by - ay)
    nx, ny = (by - ay) / length * shape.away, -(bx - ax) / length * shape.away
    return (ax + nx, ay + ny), (bx + nx, by + ny)


def placed(shape: Shape, group: Group) -> list[Point]:
    a = math.radians(group.turn)
    flip = -1.0 if group.mirrored else 1.0
    made = []
    for x, y in own_points(shape):
        u, v = flip * group.scale * x, group.scale * y
        made.append(
            (group.move[0] + u * math.cos(a) - v * math.sin(a), group.move[1] + u * math.sin(a) + v * math.cos(a))
        )
    return made


def points(drawing: Drawing) -> list[Point]:
    return [point for shape in drawing.shapes for point in own_points(shape)]


def walk(drawing: Drawing) -> Iterator[tuple[Shape, Point]]:
    """Every shape, also inside groups, with how far its groups move it (groups that only move)."""

    def within(shapes: tuple[Shape, ...], at: Point) -> Iterator[tuple[Shape, Point]]:
        for shape in shapes:
            yield shape, at
            if isinstance(shape, Group):
                yield from within(shape.shapes, (at[0] + shape.move[0], at[1] + shape.move[1]))

    return within(drawing.shapes, (0.0, 0.0))


def of(drawing: Drawing, kind: type[Shape], **fits: object) -> list:
    """Every shape of a kind whose fields have these values."""
    return [s for s, _ in walk(drawing) if isinstance(s, kind) and all(getattr(s, k) == v for k, v in fits.items())]


def said(drawing: Drawing) -> str:
    """All words on the drawing."""
    told = [plain(s.words) for s in of(drawing, Label)]
    told += [plain(s.words) for s in of(drawing, Dimension)]
    return " | ".join(told + [plain(one) for s in of(drawing, Leader) for one in s.lines])


def span(drawn: list[Point]) -> tuple[float, float]:
    xs, ys = [x for x, _ in drawn], [y for _, y in drawn]
    return max(xs) - min(xs), max(ys) - min(ys)


def edges(outline: tuple[Point, ...]) -> tuple[Point, Point]:
    """Upper left and lower right corner of what points span."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return (min(xs), min(ys)), (max(xs), max(ys))


def word_box(label: Label) -> tuple[Point, Point]:
    """The room that a label takes on paper."""
    size = 4.6 if label.size == "key" else 3.2
    wide = face.width(plain(label.words), size, bold=label.size == "key")
    left = label.at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    return (left, label.at[1] - 0.74 * size), (left + wide, label.at[1] + 0.22 * size)


def cross(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    """Whether two boxes share any room."""
    (ax, ay), (bx, by) = one
    (cx, cy), (dx, dy) = other
    return ax < dx - 1e-9 and cx < bx - 1e-9 and ay < dy - 1e-9 and cy < by - 1e-9


def words_off(drawing: Drawing, slack: float = 0.5) -> list[str]:
    """Words that run past the left or right edge, in the face and size of paper."""
    wrong = []
    for shape, (x, _) in walk(drawing):
        if isinstance(shape, Label) and not shape.upright:
            rows, at, bold = (shape.words,), shape.at[0] + x, shape.size == "key"
        elif isinstance(shape, Leader):
            rows, at, bold = shape.lines, shape.to[-1][0] + x, True
        else:
            continue
        for row in rows:
            wide = face.width(plain(row), 4.6 if bold and isinstance(shape, Label) else 3.2, bold=bold)
            left = at - {"start": 0.0, "middle": wide / 2, "end": wide}[shape.anchor]
            if left < -slack or left + wide > drawing.width + slack:
                wrong.append(plain(row))
    return wrong


def off(drawing: Drawing, slack: float = 0.3) -> list[Point]:
    """Points that lie off the field."""
    return [
        (x, y)
        for x, y in points(drawing)
        if not (-slack <= x <= drawing.width + slack and -slack <= y <= drawing.height + slack)
    ]
