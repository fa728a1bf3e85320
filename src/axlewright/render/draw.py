"""A drawing as SVG: shapes by role, hatches clipped, dimensions after ISO 129, words placed where they can be read."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import atan2, degrees, hypot
from typing import TypeAlias, assert_never

from axlewright.render.geometry import Move, Point, hatched, short
from axlewright.render.place import EYE, PITCH, Box, Saying, settle
from axlewright.render.show import Words
from axlewright.render.signs import HEAD, arrowhead, drop, eye, polygon, quarters
from axlewright.render.svg import LINES, Ask, El, Picture, joined, spanned
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
    Shape,
)

CLASSES = {
    "outline": "o",
    "subject": "o1",
    "thin": "t",
    "hidden": "h",
    "centre": "x",
    "dimension": "d",
    "hair": "g",
    "construction": "z",
    "limit": "u",
    "must-dashed": "uh",
    "paper": "f",
    "paper-thin": "ft",
    "blank": "pp",
    "wash": "w",
    "solid": "i",
    "solid-must": "iu",
    "solid-construction": "ik",
    "oil": "oil",
    "paste": "ps",
}
HEADS = {
    "limit": "iu",
    "must-dashed": "iu",
    "solid-must": "iu",
    "construction": "ik",
    "solid-construction": "ik",
    "centre": "ik",
}
SHAFTS = {"solid": "o", "solid-must": "v", "solid-construction": "z"}
# hatching: class, spacing, angles
HATCHES: dict[str, tuple[str, float, tuple[float, ...]]] = {
    "sound": ("ly", 1.5, ()),
    "wearing": ("ly", 1.5, (45,)),
    "failing": ("lf", 1.3, (45, -45)),
    "cut": ("lc", 1.05, (-45,)),
    "ground": ("lg", 2.4, (45,)),
    "spread": ("lg", 2.4, (45,)),
    "keep out": ("lk", 1.9, (45, -45)),
}
VOICES = {"strong": "b", "must": "b mu", "soft": "qt", "construction": "k"}
ASKING = 7.0  # mm, a box to tick


def draw(drawing: Drawing, words: Words, *, page: bool, size: float = 1.0) -> Picture:
    """Draw for a page, where words may be links and boxes are inputs, or for paper, where lines may be drawn smaller."""
    pen = Pen(words, page)
    pen.shapes(drawing.shapes, Move(scale=size), context=False)
    wide, high = drawing.width * size, drawing.height * size
    return Picture(wide, high, words.said(drawing.says), pen.finish((wide, high)), tuple(pen.asks))


@dataclass(slots=True)
class Pen:
    words: Words
    page: bool
    marks: list[tuple[bool, str, str]] = field(
        default_factory=list
    )  # context, class of a line to join or "", SVG or path
    sayings: list[Saying] = field(default_factory=list)
    leaders: list[tuple[Leader, tuple[Point, ...], Saying]] = field(default_factory=list)
    taken: list[Box] = field(default_factory=list)
    asks: list[Ask] = field(default_factory=list)
    context: bool = False

    @property
    def size(self) -> float:
        return 3.5 if self.page else 3.2

    @property
    def key(self) -> float:
        return 5.0 if self.page else 4.6

    def put(self, element: El) -> None:
        self.marks.append((self.context, "", str(element)))

    def path(self, d: str, name: str) -> None:
        """A path of one class; lines of one class that follow each other become one element."""
        if d and name in LINES:
            self.marks.append((self.context, name, d))
        elif d:
            self.put(El("path", class_=name, d=d))

    def shapes(self, shapes: tuple[Shape, ...], move: Move, *, context: bool) -> None:
        for shape in shapes:
            self.context = context
            if isinstance(shape, Group):
                within = Move(shape.move, shape.turn, shape.scale, shape.mirrored).then(move)
                self.shapes(shape.shapes, within, context=context or shape.context)
            else:
                self.shape(shape, move)

    def shape(self, shape: Shape, move: Move) -> None:
        match shape:
            case Path():
                self.path(move.path(shape.d), CLASSES[shape.role])
            case Circle():
                x, y = move.point(shape.at)
                self.put(El("circle", class_=CLASSES[shape.role], cx=x, cy=y, r=shape.r * move.scale))
            case Hatch():
                self.hatch(shape, move)
            case Label():
                self.label(shape, move)
            case Leader():
                self.leader(shape, move)
            case Dimension():
                self.dimension(shape, move)
            case Balloon():
                self.balloon(shape, move)
            case Arrow():
                self.arrow([move.point(p) for p in shape.points], shape.role)
            case Mark():
                self.mark(shape.sign, move.point(shape.at), shape.size)
            case Ground():
                self.ground(shape, move)
            case Area():
                self.area(shape, move)
            case Group():
                self.shapes((shape,), move, context=self.context)
            case _:
                assert_never(shape)

    def hatch(self, shape: Hatch, move: Move) -> None:
        rings = [[move.point(p) for p in ring] for ring in shape.rings]
        outline = "".join(polygon(ring) for ring in rings if ring)
        if shape.fill == "let go":
            self.put(El("path", class_="i", fill_rule="evenodd", d=outline))
        else:
            name, spacing, angles = HATCHES[shape.fill]
            self.path("".join(hatched(rings, spacing, angle) for angle in angles), name)
        if shape.outlined:
            self.path(outline, "o")

    def ground(self, shape: Ground, move: Move) -> None:
        (left, y), (right, _) = sorted((move.point((shape.from_x, shape.y)), move.point((shape.to_x, shape.y))))
        self.path(hatched([[(left, y), (right, y), (right, y + 3), (left, y + 3)]], 2.4, 45), "lg")
        self.path(f"M{short(left)} {short(y)}H{short(right)}", "o")

    def balloon(self, shape: Balloon, move: Move) -> None:
        x, y = move.point(shape.at)
        size = self.key if shape.r >= 4 else self.size
        name = "i" if shape.full else "fr" if shape.ringed else "f" if shape.r >= 4 else "fb"
        self.put(El("circle", class_=name, cx=x, cy=y, r=shape.r))
        said = "m b" + (" l" if shape.r >= 4 else "") + (" n" if shape.full else "")
        self.put(El("text", shape.number, class_=said, x=x, y=y + 0.36 * size))
        self.taken.append((x - shape.r, y - shape.r, x + shape.r, y + shape.r))

    def arrow(self, points: list[Point], role: str) -> None:
        (x0, y0), (x1, y1) = points[-2], points[-1]
        long = hypot(x1 - x0, y1 - y0) or 1.0
        ux, uy = (x1 - x0) / long, (y1 - y0) / long
        shaft = [*points[:-1], (x1 - ux * HEAD * 0.8, y1 - uy * HEAD * 0.8)]
        self.path(polygon(shaft, closed=False), SHAFTS.get(role, CLASSES[role]))
        if role == "limit":  # words keep off it
            middles = [(x0 + ux * (n + 0.5), y0 + uy * (n + 0.5)) for n in range(round(long))]
            self.taken += [(x - 0.5, y - 0.5, x + 0.5, y + 0.5) for x, y in middles]
        self.head((x1, y1), (ux, uy), HEADS.get(role, "i"))

    def head(self, tip: Point, way: Point, name: str) -> None:
        """A filled arrowhead that points this way."""
        self.put(El("path", class_=name, d=arrowhead(tip, way)))

    def mark(self, sign: str, at: Point, size: float) -> None:
        x, y = at
        r = size / 2
        match sign:
            case "centre of gravity":
                self.put(El("circle", class_="ft", cx=x, cy=y, r=r))
                self.put(El("path", class_="i", d=quarters(x, y, r)))
            case "eye":
                self.put(El("path", class_="es", d=eye(x, y, size)))
            case _:
                self.put(El("path", class_="ik", d=drop(x, y, size)))

    def area(self, shape: Area, move: Move) -> None:
        ring = [move.point(p) for p in shape.outline]
        xs, ys = [p[0] for p in ring], [p[1] for p in ring]
        box = (min(xs), min(ys), max(xs), max(ys))
        if shape.asks:
            self.asks.append(Ask(*parted(shape.asks), "pick", box, shape.says))
        if shape.goes_to and self.page:
            self.put(El("a", El("path", class_="tap", d=polygon(ring)), href=shape.goes_to, aria_label=shape.says))

    # words

    def label(self, shape: Label, move: Move) -> None:
        size = self.key if shape.size == "key" else self.size
        classes = [VOICES.get(shape.voice, ""), "l" if shape.size == "key" else "", "halo" if shape.haloed else ""]
        step = 0.55 * size
        shifts = [(dx * step, dy * step) for dy in range(-4, 5) for dx in range(-4, 5)]
        self.sayings.append(
            Saying(
                move.point(shape.at),
                (self.words.spans(shape.words),),
                size,
                shape.anchor,
                " ".join(filter(None, classes)),
                bold=shape.size == "key" or shape.voice in {"strong", "must"},
                turn=-90.0 if shape.upright else 0.0,
                shifts=sorted(shifts, key=lambda s: abs(s[0]) + abs(s[1])),
            )
        )

    def leader(self, shape: Leader, move: Move) -> None:
        points = (move.point(shape.at), *(move.point(p) for p in shape.to))
        x, y = points[-1]
        lines = tuple(self.words.spans(line) for line in shape.lines)
        away = ASKING / 2 if shape.asks else 0.0
        rows = (len(lines) - 1) * PITCH * self.size
        base = y + away + 0.9 * self.size + 0.4 if shape.below else y - away - rows - 1.0
        slides = [k * 1.5 for k in (0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6)]
        farther = self.size * (1 if shape.below else -1)
        shifts = (
            [(dx, dy * farther) for dy in (0, 1, 2) for dx in slides]
            if not shape.asks
            else [(dx, 0.0) for dx in slides]
        )
        saying = Saying(
            (x, base),
            lines,
            self.size,
            shape.anchor,
            "halo",
            eye=shape.unseen,
            shifts=shifts,
            goes_to=shape.goes_to if self.page else "",
        )
        self.sayings.append(saying)
        self.leaders.append((shape, points, saying))
        if shape.asks:
            box = (x - ASKING / 2, y - ASKING / 2, x + ASKING / 2, y + ASKING / 2)
            says = " ".join("".join(s.words for s in line) for line in lines)
            self.asks.append(Ask(*parted(shape.asks), "tick", box, says))
            self.taken.append(box)

    def dimension(self, shape: Dimension, move: Move) -> None:
        a, b = move.point(shape.a), move.point(shape.b)
        way, normal = along(a, b, shape.direction)
        away = -shape.away if move.mirrored else shape.away
        heights = [p[0] * normal[0] + p[1] * normal[1] for p in (a, b)]
        level = (max(heights) if away >= 0 else min(heights)) + away
        ends = []
        line, head = ("v", "iu") if shape.voice == "must" else ("d", "i")
        for p, height in zip((a, b), heights, strict=True):
            reach = level - height
            out = 1 if reach >= 0 else -1
            end = (p[0] + normal[0] * reach, p[1] + normal[1] * reach)
            ends.append(end)
            if abs(reach) > 0.8:
                start, stop = [(p[0] + normal[0] * k, p[1] + normal[1] * k) for k in (0.8 * out, reach + 1.2 * out)]
                self.path(polygon((start, stop), closed=False), "d")
        self._dimension_line(shape, ends[0], ends[1], way, line, head)

    def _dimension_line(self, shape: Dimension, start: Point, end: Point, way: Point, line: str, head: str) -> None:
        """The line with its arrows and words: arrows outside under 7 mm, words beyond the end where they don't fit."""
        long = hypot(end[0] - start[0], end[1] - start[1])
        slant = degrees(atan2(way[1], way[0]))
        turn = (
            slant if -90 <= slant < 90 else slant - 180 if slant >= 90 else slant + 180
        )  # read from below or from the right
        c, s = (way[0], way[1]) if turn == slant else (-way[0], -way[1])
        up = (s, -c)  # to the top of the words
        saying = Saying(
            ((start[0] + end[0]) / 2 + up[0], (start[1] + end[1]) / 2 + up[1]),
            (self.words.spans(shape.words),),
            self.size,
            "middle",
            "b mu halo" if shape.voice == "must" else "halo",
            bold=shape.voice == "must",
            turn=turn,
        )
        wide = saying.width(1.0)  # in a wider face it may reach over the arrows
        outside = long < 7
        fits = wide <= long - 0.4
        out = 4.0 if outside else 0.0
        first, last = [
            (p[0] + k * way[0], p[1] + k * way[1]) for p, k in ((start, -out), (end, out + (0 if fits else wide + 0.6)))
        ]
        if not fits:
            far = long / 2 + out + 0.3 + wide / 2
            saying.at = (saying.at[0] + way[0] * far, saying.at[1] + way[1] * far)
        self.path(polygon((first, last), closed=False), line)
        for tip, sign in ((start, -1), (end, 1)):
            sign = -sign if outside else sign
            self.head(tip, (way[0] * sign, way[1] * sign), head)
        slack = max((long - wide) / 2, 0.0) if fits else 2.0
        saying.shifts = [(way[0] * k * slack, way[1] * k * slack) for k in (0, 0.3, -0.3, 0.6, -0.6, 0.9, -0.9)]
        self.sayings.append(saying)
        if shape.asks:
            self.asks.append(Ask(*parted(shape.asks), "value", saying.box(), self.words.plain(shape.words)))

    @property
    def wider(self) -> float:
        """On a page the reader's own face may be a little wider than ours."""
        return 1.15 if self.page else 1.0

    def finish(self, size: Point) -> str:
        """Place the words and put all of it together."""
        settle(self.sayings, self.taken, size, self.wider)
        self.context = False
        for leader, points, saying in self.leaders:
            self.lead(leader, points, saying)
        if not self.page:
            for saying in self.sayings:
                self.mask(saying)
        for saying in self.sayings:
            self.say(saying)
        return joined(self.marks)

    def lead(self, leader: Leader, points: tuple[Point, ...], saying: Saying) -> None:
        """A leader's dot and line; its end goes with the words."""
        left, _, right, _ = saying.box(saying.taken, self.wider)
        x, y = points[-1]
        if leader.asks:
            end = (x, y)
            if not self.page:
                half = ASKING / 2
                self.put(El("rect", class_="ft", x=x - half, y=y - half, width=ASKING, height=ASKING))
        else:
            end = (min(max(x, left + 0.3), right - 0.3), y + saying.taken[1])
        line = [*points[:-1], end]
        self.path(polygon(line, closed=False), "h" if leader.unseen else "t")
        self.put(El("circle", class_="i", cx=points[0][0], cy=points[0][1], r=0.6))

    def mask(self, saying: Saying) -> None:
        """Paper under words: in a PDF a halo would be drawn letter by letter, each over the last."""
        if "halo" in saying.classes:
            self.put(El("path", class_="pp", d=polygon(saying.corners(saying.taken))))

    def say(self, saying: Saying) -> None:
        x, y = saying.at[0] + saying.taken[0], saying.at[1] + saying.taken[1]
        said = saying.classes if self.page else saying.classes.replace("halo", "").strip()
        classes = " ".join(filter(None, (said, {"middle": "m", "end": "e"}.get(saying.anchor, ""))))
        turn = f"rotate({short(saying.turn)} {short(x)} {short(y)})" if saying.turn else None
        rows = []
        for n, line in enumerate(saying.lines):
            beside = EYE + 1 if saying.eye and n == 0 else 0.0
            at = x + {"start": beside, "middle": beside / 2, "end": -beside}[saying.anchor]
            y_line = y + n * PITCH * saying.size
            rows.append(El("text", *spanned(line), class_=classes or None, x=at, y=y_line, transform=turn))
            if beside:  # at the side of its anchor, where no wider face can reach it
                half = Saying((0, 0), (line,), saying.size, bold=saying.bold).width(self.wider) / 2
                middle = x + {"start": EYE / 2, "middle": -half - 0.5, "end": -EYE / 2}[saying.anchor]
                rows.append(El("path", class_="es", d=eye(middle, y - 0.3 * saying.size, EYE)))
        if saying.goes_to:
            rows = [El("a", *rows, href=saying.goes_to)]
        for row in rows:
            self.put(row)


def parted(asks: str) -> tuple[str, str]:
    """The field and the value that are asked for."""
    name, _, value = asks.partition("=")
    return name, value


Way: TypeAlias = tuple[Point, Point]


def along(a: Point, b: Point, direction: str) -> Way:
    """The way a dimension runs from a to b, and the way to its left on paper."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    if direction == "across":
        dx, dy = (1.0 if dx >= 0 else -1.0), 0.0
    elif direction == "up":
        dx, dy = 0.0, (1.0 if dy >= 0 else -1.0)
    long = hypot(dx, dy) or 1.0
    return (dx / long, dy / long), (dy / long, -dx / long)
