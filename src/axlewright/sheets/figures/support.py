"""Standing on three points: the machine from above with its support triangle, and the crib from the front, to scale.

Places are given as holding gives them: x forward of the front axle, y left of the middle, in metres.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from axlewright.sheets.drawing import Arrow, Dimension, Drawing, Group, Leader, Mark, Point, Shape
from axlewright.sheets.figures import outlines
from axlewright.sheets.figures.machine import CORNERS
from axlewright.sheets.figures.outlines import Set
from axlewright.sheets.figures.shapes import FIELD, Ring, box, circle, drawn, line, lines, plain, polygon, voiced, words
from axlewright.sheets.text import Run, Text, text

Kind: TypeAlias = Literal["wheel", "crib", "stand", "jack", "pivot"]
SCALES = (40.0, 50.0, 60.0, 75.0, 100.0)
_AXLE = 42.0  # y of the front axle on paper
_TOP = 18.6  # y at which the machine is cut, to leave room for the dimensions
_CHOCK = (6.8, 2.0)  # mm, a chock from above


@dataclass(frozen=True, slots=True)
class Stands:
    """One of the points it stands on, or the jack: x forward, y left [m]; `load` is what it carries, as words."""

    kind: Kind
    at: Point
    load: Text
    name: str = ""

    @property
    def told(self) -> str:
        return self.name or self.kind


@dataclass(frozen=True, slots=True)
class Stance:
    """A machine with one corner raised: lengths in metres, x forward and y left."""

    machine: str  # kind of machine
    corner: str  # the one that is raised
    track: float
    wheelbase: float
    supports: tuple[Stands, Stands, Stands]
    centre: Point  # of gravity
    jack: Stands | None = None
    crib: tuple[float, float] = (0.8, 0.12)  # length and width of its timbers
    pieces: tuple[int, int] = (2, 2)  # timbers in a layer that lies fore and aft, and side to side
    plate: tuple[float, float] = (0.56, 0.25)  # along the axle, and across
    wheel_on: bool = False  # the raised wheel still stands on its hub


def scale_for(stance: Stance) -> float:
    """The largest of the usual scales at which the machine is not wider than its field."""
    _, _, width = outlines.outline(stance.machine).wheel("front-left")
    wide = (stance.track + width) * 1000.0
    return next((scale for scale in SCALES if wide / scale <= FIELD - 20.0), 100.0)


def plan(
    stance: Stance, told: Mapping[str, Text] = {}, scale: float | None = None, nose: str = "nose this way"
) -> Drawing:
    """The machine from above on its three points, with its centre of gravity.

    Args:
        stance: what stands where
        told: words on the dimensions: `track`, `wheelbase`, `to-support` (standing wheel to crib), `to-wheel` (crib to
            the raised wheel), `centre` (axle to centre of gravity), `least` (centre to the nearest edge); those without
            words are left out
        scale: 50 for 1:50; the largest that fits where none is given
        nose: words over the drawing

    Returns:
        the drawing; `plan_words` is its twin
    """
    scale = scale or scale_for(stance)
    raised_left = stance.corner.endswith("left")
    one = outlines.outline(stance.machine)
    half = (stance.track + one.tyre[0][1]) * 500.0 / scale
    middle = FIELD - 5.0 - half if not raised_left else 5.0 + half
    on = Set((round(middle, 2), _AXLE), scale, (stance.track / one.track[0], stance.wheelbase / one.wheelbase))
    bottom = _AXLE + on.mm(stance.wheelbase + one.tyre[1][0] / 2) + 3.4
    shapes: list[Shape] = [*_context(stance, on, bottom), *_wheels(stance, on)]
    shapes += [*_triangle(stance, on), *_crib(stance, on), *_axes(on, bottom)]
    shapes += [circle("solid", *_at(on, support.at), 1.0) for support in stance.supports]
    shapes += [*_centre(stance, on, told), *_across(stance, on, told), *_along(stance, on, told)]
    shapes += [*_loads(stance, on), *words((middle, 3.4), nose, anchor="middle", voice="construction")]
    return drawn(round(bottom + 2.4, 1), _says(stance, scale), *shapes)


def plan_words(stance: Stance) -> tuple[Text, ...]:
    """The same in words: what each point carries."""
    every = (*stance.supports, *((stance.jack,) if stance.jack else ()))
    return tuple((Run(voice="strong", words=(one.told,)), ": ", *one.load) for one in every)


def nearest_edge(stance: Stance) -> Point:
    """The point of the triangle's edges that lies nearest to the centre of gravity (x forward, y left) [m]."""
    corners = [one.at for one in stance.supports]
    feet = [_foot(stance.centre, a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]
    return min(feet, key=lambda foot: math.dist(foot, stance.centre))


def _foot(p: Point, a: Point, b: Point) -> Point:
    dx, dy = b[0] - a[0], b[1] - a[1]
    share = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)
    share = min(max(share, 0.0), 1.0)
    return (a[0] + share * dx, a[1] + share * dy)


def _at(on: Set, place: Point) -> Point:
    """A place of holding on paper: forward is up, left is left."""
    return (on.at[0] - on.mm(place[1]), on.at[1] - on.mm(place[0]))


def _says(stance: Stance, scale: float) -> str:
    points = ", ".join(" ".join(filter(None, (one.told, plain(one.load)))) for one in stance.supports)
    return (
        f"{outlines.outline(stance.machine).says.capitalize()} from above, 1:{scale:g}, {CORNERS[stance.corner]} raised, "
        f"standing on three points: {points}. The centre of gravity and its distance to the nearest edge are marked."
    )


def _context(stance: Stance, on: Set, bottom: float) -> tuple[Shape, ...]:
    """The machine in construction ink, cut by break lines above and below."""
    body = outlines.body(stance.machine, on, band=(_TOP, bottom))
    rear = [corner for corner in CORNERS if corner.startswith("rear") and corner != stance.corner]
    wheels = [shape for corner in rear for shape in _tyre(stance, corner, on)]
    breaks = [_break(stance.machine, on, height) for height in (_TOP, bottom)]
    return (Group(shapes=(*body, *wheels), context=True), *(one for one in breaks if one))


def _break(kind: str, on: Set, height: float) -> Shape | None:
    half = outlines.half_width(kind, on, height)
    if half < 4.0:
        return None
    x, out = on.at[0], half + 1.6
    zigzag = ((x - 2, height), (x - 1, height - 2), (x + 1, height + 2), (x + 2, height))
    return line("construction", (x - out, height), *zigzag, (x + out, height))


def _wheel(stance: Stance, corner: str, on: Set) -> tuple[Point, float, float]:
    """Middle, diameter and width of a wheel on paper, at the measured axles."""
    (x, y), diameter, width = outlines.outline(stance.machine).wheel(corner)
    return on(x, y), on.mm(diameter), on.mm(width)


def _tyre(stance: Stance, corner: str, on: Set, lugs: bool = True) -> tuple[Shape, ...]:
    at, diameter, width = _wheel(stance, corner, on)
    return outlines.tyre(*at, diameter, width, lugs)


def _wheels(stance: Stance, on: Set) -> tuple[Shape, ...]:
    """Front wheels bare, so that words stand in them; the raised one dashed when it is off; chocks at those that stand."""
    shapes: list[Shape] = []
    for corner in CORNERS:
        at, diameter, width = _wheel(stance, corner, on)
        if corner == stance.corner and not stance.wheel_on:
            shapes += [box("hidden", at[0] - width / 2, at[1] - diameter / 2, width, diameter, 1.0)]
            continue
        if corner.startswith("front") or corner == stance.corner:
            shapes += _tyre(stance, corner, on, lugs=False)
        if corner != stance.corner:
            shapes += chocks(*at, diameter)
    return tuple(shapes)


def chocks(x: float, y: float, diameter: float, wide: float = _CHOCK[0], deep: float = _CHOCK[1]) -> tuple[Shape, ...]:
    """A chock before and behind a wheel, from above [mm]."""
    return tuple(
        box("solid", x - wide / 2, edge, wide, deep) for edge in (y - diameter / 2 - deep - 0.6, y + diameter / 2 + 0.6)
    )


def _triangle(stance: Stance, on: Set) -> tuple[Shape, ...]:
    corners: Ring = tuple(_at(on, one.at) for one in stance.supports)
    return (polygon("oil", corners), polygon("outline", corners))


def _crib(stance: Stance, on: Set) -> tuple[Shape, ...]:
    """The crib or stand from above, and the jack."""
    shapes: list[Shape] = []
    for one in stance.supports:
        x, y = _at(on, one.at)
        if one.kind == "crib":
            shapes += crib_from_above(x, y, on.mm(stance.crib[0]), on.mm(stance.crib[1]), *stance.pieces)
            wide, deep = (on.mm(side) for side in stance.plate)
            shapes.append(box("paper", x - wide / 2, y - deep / 2, wide, deep))
        if one.kind == "stand":
            shapes += [
                polygon("paper", ((x, y - 4), (x + 3.6, y + 2.4), (x - 3.6, y + 2.4))),
                circle("paper", x, y, 1.8),
            ]
    if stance.jack:
        x, y = _at(on, stance.jack.at)
        shapes += [
            circle("paper", x, y, 1.8),
            lines("thin", (((x - 2.8, y), (x + 2.8, y)), ((x, y - 2.8), (x, y + 2.8)))),
        ]
    return tuple(shapes)


def crib_from_above(
    x: float, y: float, length: float, width: float, fore_and_aft: int = 2, side_to_side: int = 2
) -> tuple[Shape, ...]:
    """The two upper layers of a crib, their outer edges a timber's width from its timbers' ends [mm]."""
    left, top = x - length / 2, y - length / 2

    def places(start: float, many: int) -> list[float]:
        first, last = start + width, start + length - 2 * width
        return [first + (last - first) * place / (many - 1) for place in range(many)]

    return (
        box("paper-thin", left, top, length, length),
        *(box("paper-thin", left, row, length, width) for row in places(top, side_to_side)),
        *(box("paper-thin", post, top, width, length) for post in places(left, fore_and_aft)),
    )


def _axes(on: Set, bottom: float) -> tuple[Shape, ...]:
    return (
        line("centre", (3.0, _AXLE), (FIELD - 1.0, _AXLE)),
        line("centre", (on.at[0], _TOP + 4.4), (on.at[0], bottom - 2.0)),
    )


def _centre(stance: Stance, on: Set, told: Mapping[str, Text]) -> tuple[Shape, ...]:
    """Centre of gravity, and its least distance to an edge, in primer."""
    at, foot = _at(on, stance.centre), _at(on, nearest_edge(stance))
    shapes: list[Shape] = []
    if "least" in told and math.dist(at, foot) > 3.0:
        shapes.append(Arrow(points=(at, foot), role="limit"))
    shapes.append(Mark(sign="centre of gravity", at=at, size=4.4))
    if "least" in told:
        right = foot[0] >= at[0]
        place = (foot[0] + (1.6 if right else -1.6), foot[1] + 3.8)
        shapes += words(place, told["least"], anchor="start" if right else "end", voice="must", strong=True)
    return tuple(shapes)


def _across(stance: Stance, on: Set, told: Mapping[str, Text]) -> tuple[Shape, ...]:
    """Distances across, over the drawing: from the standing wheel to the support, to the raised wheel; the track."""
    end, side = stance.corner.split("-")
    stands = _wheel(stance, f"{end}-{'left' if side == 'right' else 'right'}", on)[0]
    raised = _wheel(stance, stance.corner, on)[0]
    support = next((_at(on, one.at) for one in stance.supports if one.kind in {"crib", "stand"}), None)

    def row(a: Point, b: Point, y: float, name: str) -> tuple[Shape, ...]:
        if name not in told or abs(b[0] - a[0]) < 1.0:
            return ()
        away = math.copysign(_TOP + 1.6 - y, b[0] - a[0])  # words without room stand beyond b: outward, where none are
        ends = ((a[0], _TOP + 1.6), (b[0], _TOP + 1.6))
        return (Dimension(a=ends[0], b=ends[1], away=away, words=told[name], direction="across"),)

    made = row(stands, raised, 8.2, "track")
    if support:
        made += (*row(stands, support, 13.8, "to-support"), *row(support, raised, 13.8, "to-wheel"))
        made += (
            (line("dimension", (support[0], _TOP + 1.6), (support[0], support[1] - 9.0)),)
            if "to-support" in told
            else ()
        )
    return made


def _along(stance: Stance, on: Set, told: Mapping[str, Text]) -> tuple[Shape, ...]:
    """Distances along, beside the standing wheel: the axle to the centre of gravity, and to the pivot."""
    left = stance.corner.endswith("right")
    rear = _AXLE + on.mm(stance.wheelbase)
    _, centre = _at(on, stance.centre)
    edge = on.at[0] - on.mm(stance.track / 2) if left else on.at[0] + on.mm(stance.track / 2)

    def row(y: float, x: float, name: str, reach: float) -> tuple[Shape, ...]:
        if name not in told or abs(y - _AXLE) < 1.0:
            return ()
        ends = sorted(((edge, _AXLE), (edge, y)), key=lambda one: one[1])
        shape = Dimension(a=ends[1], b=ends[0], away=edge - x, words=told[name], direction="up")
        return (line("dimension", (edge, y), (reach, y)), shape)

    first, second = (11.0, 4.6) if left else (FIELD - 11.0, FIELD - 4.6)
    return (*row(centre, first, "centre", _at(on, stance.centre)[0]), *row(rear, second, "wheelbase", on.at[0]))


def _foot_of_crib(stance: Stance, on: Set) -> float:
    """Rear edge of the crib on paper; the axle where none stands."""
    crib = next((_at(on, one.at) for one in stance.supports if one.kind == "crib"), None)
    return _AXLE if crib is None else crib[1] + on.mm(stance.crib[0]) / 2


def _loads(stance: Stance, on: Set) -> tuple[Shape, ...]:
    """What each point carries, at its place: in the wheel, beside crib, jack and pivot."""
    shapes: list[Shape] = []
    right = stance.corner.endswith("right")
    for one in (*stance.supports, *((stance.jack,) if stance.jack else ())):
        x, y = _at(on, one.at)
        out = 1.0 if right else -1.0
        anchor: Literal["start", "end"] = "start" if right else "end"
        load = voiced(one.load, "strong")
        match one.kind:
            case "wheel":
                shapes += words((x, y - 9.4), one.told, load, anchor="middle", step=5.0)
            case "pivot":
                shapes += words((x + 3.4 * out, y - 8.6), one.told, load, anchor=anchor, step=5.0)
            case "crib" | "stand":
                at, reach = (x + 7.0 * out, y - 7.4), (FIELD - 17.0 if right else 17.0)
                shapes.append(Leader(at=at, to=((reach, y - 14.2),), lines=(text(one.told), load), anchor=anchor))
            case "jack":
                reach = FIELD - 17.0 if right else 17.0
                to = (reach, max(y + 1.6, _foot_of_crib(stance, on) - 0.6))  # clear of the crib's timbers
                shapes.append(
                    Leader(at=(x + 1.8 * out, y), to=(to,), lines=(text(one.told), load), anchor=anchor, below=True)
                )
    return tuple(shapes)
