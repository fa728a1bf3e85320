"""Machines from above as they stand in data: their bodies, wheels and drives, in metres, set on paper at a scale."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from axlewright.sheets.drawing import Path, Point, Role, Shape
from axlewright.sheets.figures.shapes import box, circle, line, lines, polygon, rectangle

KINDS = ("forage-harvester", "walker-combine", "small-combine")
# The drive beside its wheel, in metres inward from the wheel and fore and aft: a flange of 0.62, a body of 0.42.
_DRIVE = ((0, -0.31), (0.12, -0.31), (0.16, -0.21), (0.52, -0.21), (0.52, 0.21), (0.16, 0.21), (0.12, 0.31), (0, 0.31))
_GAP = 0.03  # m between tyre and drive, so that the two outlines stand apart


def drawn_as(kind: str | None) -> str:
    """The outline by which a machine of a kind is drawn: its own, or the nearest there is."""
    if kind in KINDS:
        return str(kind)
    return "walker-combine" if (kind or "").endswith("combine") else KINDS[0]


@dataclass(frozen=True, slots=True)
class Outline:
    """A machine from above: the origin in the middle of the front axle, x to the right, y backwards, in metres."""

    says: str
    track: tuple[float, float]  # front, rear
    wheelbase: float
    tyre: tuple[tuple[float, float], tuple[float, float]]  # diameter and width, front and rear
    drive: float  # its size beside that in `_DRIVE`
    header: tuple[dict[str, Any], ...]
    body: tuple[dict[str, Any], ...]

    def wheel(self, corner: str) -> tuple[Point, float, float]:
        """Middle, diameter and width of the wheel at a corner [m]."""
        end, side = corner.split("-")
        axle = 0 if end == "front" else 1
        diameter, width = self.tyre[axle]
        x = self.track[axle] / 2 * (1 if side == "right" else -1)
        return (x, axle * self.wheelbase), diameter, width

    def drive_at(self, corner: str) -> tuple[Point, ...]:
        """The outline of the drive at a corner [m]."""
        (x, y), _, width = self.wheel(corner)
        outward = 1 if x > 0 else -1
        face = abs(x) - width / 2 - _GAP
        return tuple((outward * (face - across * self.drive), y + along * self.drive) for across, along in _DRIVE)

    def reach(self, header: bool) -> tuple[float, float, float]:
        """How far it reaches ahead of and behind the front axle, and to either side [m]."""
        points = [point for shape in (*self.body, *(self.header if header else ())) for point in _points(shape)]
        sides = [abs(self.wheel(corner)[0][0]) + self.wheel(corner)[2] / 2 for corner in ("front-left", "rear-left")]
        return -min(y for _, y in points), max(y for _, y in points), max([abs(x) for x, _ in points] + sides)


@dataclass(frozen=True, slots=True)
class Set:
    """Where the origin of an outline comes on paper, and at what scale; `stretch` fits a body to measured axles."""

    at: Point
    scale: float  # 100 for 1:100
    stretch: Point = (1.0, 1.0)

    def mm(self, metres: float) -> float:
        return metres * 1000.0 / self.scale

    def __call__(self, x: float, y: float) -> Point:
        return (self.at[0] + self.mm(x * self.stretch[0]), self.at[1] + self.mm(y * self.stretch[1]))


@cache
def outline(kind: str) -> Outline:
    """The outline of a kind of machine: forage-harvester, walker-combine, small-combine."""
    rows = _rows()
    row = rows[kind]
    size = float(row.get("size", 1.0))
    base = rows[row.get("like", kind)]
    return Outline(
        says=row["says"],
        track=(base["track"][0] * size, base["track"][1] * size),
        wheelbase=base["wheelbase"] * size,
        tyre=(
            (base["tyre"][0][0] * size, base["tyre"][0][1] * size),
            (base["tyre"][1][0] * size, base["tyre"][1][1] * size),
        ),
        drive=base["drive"] * size,
        header=tuple(_sized(shape, size) for shape in base["header"]),
        body=tuple(_sized(shape, size) for shape in base["body"]),
    )


def body(kind: str, on: Set, header: bool = False, band: tuple[float, float] | None = None) -> tuple[Shape, ...]:
    """Frame, cab, spout or straw hood, without wheels and drives; cut to what lies between two heights of paper."""
    one = outline(kind)
    every = (*(one.header if header else ()), *one.body)
    if band is None:
        return tuple(_shape(shape, on) for shape in every)
    return tuple(made for shape in every if (made := _cut(shape, on, band)))


def _cut(shape: dict[str, Any], on: Set, band: tuple[float, float]) -> Shape | None:
    """The part of a shape between two heights; a circle stays whole or goes."""
    ys = [on(x, y)[1] for x, y in _points(shape)]
    if max(ys) <= band[0] or min(ys) >= band[1]:
        return None
    if band[0] <= min(ys) and max(ys) <= band[1]:
        return _shape(shape, on)
    role: Role = shape["role"]
    if "circle" in shape:
        return None
    if "line" in shape:
        points = clipped([on(x, y) for x, y in shape["line"]], band, closed=False)
        return line(role, *points) if len(points) > 1 else None
    ring = rectangle(*shape["box"][:4]) if "box" in shape else shape["ring"]
    return polygon(role, clipped([on(x, y) for x, y in ring], band, closed=True))


def clipped(points: Sequence[Point], band: tuple[float, float], closed: bool) -> list[Point]:
    """A line or a ring cut to the heights of a band (one edge after the other)."""
    kept = list(points)
    for edge, below in ((band[0], 1.0), (band[1], -1.0)):
        before, kept = kept, []
        for i, (x, y) in enumerate(before):
            px, py = before[i - 1]
            crosses = (y - edge) * (py - edge) < 0
            if crosses and (closed or i):
                kept.append((px + (x - px) * (edge - py) / (y - py), edge))
            if below * (y - edge) >= 0:
                kept.append((x, y))
    return kept


def half_width(kind: str, on: Set, height: float) -> float:
    """How far the body reaches from its middle at a height of paper [mm]."""
    reach = 0.0
    for shape in outline(kind).body:
        ring = rectangle(*shape["box"][:4]) if "box" in shape else shape.get("ring", ())
        points = [on(x, y) for x, y in ring]
        for (ax, ay), (bx, by) in zip(points, [*points[1:], *points[:1]], strict=True):
            if min(ay, by) <= height <= max(ay, by):
                share = (height - ay) / (by - ay) if by != ay else 0.0
                reach = max(reach, abs(ax + (bx - ax) * share - on.at[0]))
    return reach


def tyre(x: float, y: float, diameter: float, width: float, lugs: bool = True) -> tuple[Shape, ...]:
    """A wheel from above, its middle here [mm]: its lugs point the way it rolls, nose up."""
    left, top = x - width / 2, y - diameter / 2
    shapes: list[Shape] = [box("blank", left, top, width, diameter, 1.0)]
    if lugs:
        count = max(3, round(diameter / 2.35))
        step = diameter / count
        rows = [top + step * (row + 0.7) for row in range(count)]
        vees = (((left + 0.2, v + 0.5), (x, v - 0.5), (left + width - 0.2, v + 0.5)) for v in rows)
        shapes.append(lines("thin", vees))
    return (*shapes, box("outline", left, top, width, diameter, 1.0))


def bare_tyre(x: float, y: float, diameter: float, width: float) -> tuple[Shape, ...]:
    """Where a wheel that is off would stand."""
    left, top = x - width / 2, y - diameter / 2
    right, bottom = left + width, top + diameter
    return (
        box("hidden", left, top, width, diameter, 1.0),
        lines("centre", (((left, top), (right, bottom)), ((right, top), (left, bottom)))),
    )


def wheel_at(kind: str, corner: str, on: Set) -> tuple[Point, float, float]:
    """Middle, diameter and width of a wheel on paper [mm]."""
    (x, y), diameter, width = outline(kind).wheel(corner)
    return on(x, y), on.mm(diameter), on.mm(width)


def drive_at(kind: str, corner: str, on: Set) -> tuple[Point, ...]:
    """The outline of a drive on paper [mm]."""
    return tuple(on(x, y) for x, y in outline(kind).drive_at(corner))


@cache
def _rows() -> dict[str, Any]:
    return tomllib.loads(files(__package__).joinpath("data/machines.toml").read_text("utf-8"))


def _sized(shape: dict[str, Any], size: float) -> dict[str, Any]:
    def by(value: Any) -> Any:
        return [by(one) for one in value] if isinstance(value, list) else value * size

    return {key: value if key == "role" else by(value) for key, value in shape.items()}


def _points(shape: dict[str, Any]) -> list[Point]:
    if "box" in shape:
        x, y, width, height, _ = shape["box"]
        return [(x, y), (x + width, y + height)]
    if "circle" in shape:
        x, y, r = shape["circle"]
        return [(x - r, y - r), (x + r, y + r)]
    return [(x, y) for x, y in shape.get("ring") or shape["line"]]


def _shape(shape: dict[str, Any], on: Set) -> Shape:
    role: Role = shape["role"]
    if "box" in shape:
        x, y, width, height, corner = shape["box"]
        (left, top), (right, bottom) = on(x, y), on(x + width, y + height)
        return box(role, left, top, right - left, bottom - top, on.mm(corner))
    if "circle" in shape:
        x, y, r = shape["circle"]
        at = on(x, y)
        return circle(role, at[0], at[1], on.mm(r))
    if "ring" in shape:
        return polygon(role, [on(x, y) for x, y in shape["ring"]])
    made: Path = line(role, *(on(x, y) for x, y in shape["line"]))
    return made
