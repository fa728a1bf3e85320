"""The drive on the hook as it will hang, from the side and from the wheel end, and on forks in a saddle: to scale.

Places in metres: along the axis from the mounting face outwards, sideways to the right as seen from the wheel end, up.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from axlewright.sheets.drawing import Arrow, Dimension, Drawing, Ground, Label, Leader, Mark, Path, Point, Shape
from axlewright.sheets.figures import drive_side
from axlewright.sheets.figures.drive_side import Drive, Space
from axlewright.sheets.figures.shapes import (
    FIELD,
    Anchor,
    Ring,
    box,
    circle,
    drawn,
    line,
    number,
    plain,
    polygon,
    voiced,
    words,
)
from axlewright.sheets.text import Run, Text, text

Kind: TypeAlias = Literal["chain", "hoist"]
SCALES = (10.0, 12.5, 15.0, 20.0, 25.0)
_HOOK: Point = (44.0, 12.7)  # where the legs come together
_ARC = 20.0  # mm, radius of the arc that shows a leg's angle


@dataclass(frozen=True, slots=True)
class Leg:
    """A leg from the hook to a place on the drive; a hoist ends at a strap round the body."""

    name: str
    at: Space
    told: Text  # `A 85 kg`
    kind: Kind = "chain"
    angle: Text = ()  # from plumb, on an arc


@dataclass(frozen=True, slots=True)
class Hang:
    """How the drive hangs: the hook straight above its centre of gravity."""

    centre: Space
    hook: float  # m, above the centre of gravity
    legs: tuple[Leg, ...]
    tilt: float = 0.0  # degrees, wheel end up
    roll: float = 0.0  # degrees, clockwise as seen from the wheel end
    drive: Drive = field(default_factory=Drive)

    def scale(self) -> float:
        """The largest of the usual scales at which it fits its field."""
        high = self.hook + self.drive.flange / 2 + 0.06
        wide = 2 * max(self.centre[0] + 0.14, self.drive.length - self.centre[0] + 0.06) + 0.2
        return next((s for s in SCALES if high * 1e3 / s <= 86 and wide * 1e3 / s <= FIELD), 30.0)


def hook(hang: Hang, told: Mapping[str, Text] = {}, scale: float | None = None) -> Drawing:
    """The drive on the hook from the side, mounting face left.

    Args:
        hang: how it hangs
        told: words: `face` and `wheel` name its ends; `tilt` how the axis hangs; on the dimensions `along` (mounting face
            to the strap) and `height` (strap to hook)
        scale: 12.5 for 1:12.5; the largest that fits where none is given

    Returns:
        the drawing; `hang_words` is its twin
    """
    k = 1000.0 / (scale or hang.scale())
    heart = (_HOOK[0], _HOOK[1] + hang.hook * k)
    c, s = math.cos(math.radians(hang.tilt)), math.sin(math.radians(hang.tilt))

    def onto(place: Space) -> Point:
        dx, dz = place[0] - hang.centre[0], place[2] - hang.centre[2]
        return (heart[0] + (dx * c - dz * s) * k, heart[1] - (dz * c + dx * s) * k)

    foot = heart[1] + (hang.drive.flange / 2 + abs(hang.centre[2])) * k
    shapes: list[Shape] = [*drive_side.from_side(hang.drive, onto), *_straps(hang, onto, k)]
    shapes += [*_legs(hang, onto), *_hook(), drive_side.axis(hang.drive, onto)]
    shapes += [*_plumb(heart, foot + 4.0), *_side_dimensions(hang, onto, told, foot)]
    shapes += _leg_words(hang, onto)
    if "face" in told:
        at = onto(hang.drive.space(0.0, -19.2))
        rows = tuple(
            voiced(text(one), "soft") for one in plain(told["face"]).split()
        )  # narrow: words of legs stand above
        shapes.append(Leader(at=at, to=((0.0, foot + 1.6),), lines=rows, anchor="start", below=True))
    if "wheel" in told:
        shapes += words(
            (80.0, onto(hang.drive.space(44.4, 12.96))[1] - 4.6), told["wheel"], anchor="end", voice="construction"
        )
    if "tilt" in told:
        end = onto((hang.drive.length + 0.2, 0.0, 0.0))
        shapes.append(Leader(at=end, to=((FIELD, foot + 1.6),), lines=_short(told["tilt"]), anchor="end", below=True))
    says = f"The drive on the hook from the side, 1:{1000 / k:g}, as it will hang: hook straight above the centre of gravity. "
    return drawn(round(foot + 12.0, 1), says + f"Legs: {_named(hang)}.", *shapes)


def wheel_end(hang: Hang, told: Mapping[str, Text] = {}, scale: float | None = None) -> Drawing:
    """The drive on the hook from its wheel end.

    Args:
        hang: how it hangs
        told: words: `left` and `right` name the sides; `roll` how it is turned; on the dimension `apart` (from eye to eye)
        scale: as in `hook`

    Returns:
        the drawing
    """
    k = 1000.0 / (scale or hang.scale())
    heart = (_HOOK[0], _HOOK[1] + hang.hook * k)
    c, s = math.cos(math.radians(hang.roll)), math.sin(math.radians(hang.roll))

    def onto(place: Space) -> Point:
        dy, dz = place[1] - hang.centre[1], place[2] - hang.centre[2]
        return (heart[0] + (dy * c + dz * s) * k, heart[1] - (dz * c - dy * s) * k)

    foot = heart[1] + (hang.drive.flange / 2 + abs(hang.centre[2])) * k
    chains = [leg for leg in hang.legs if leg.kind == "chain"]
    shapes: list[Shape] = [line("outline", _HOOK, onto(leg.at)) for leg in chains]
    shapes += drive_side.from_wheel_end(hang.drive, onto, lambda metres: metres * k)
    shapes += [circle("paper", *onto(leg.at), 1.9) for leg in chains]
    shapes += [shape for leg in hang.legs if leg.kind == "hoist" for shape in _hoist(_HOOK, onto(leg.at))]
    half = hang.drive.flange * 0.625
    cross = [(onto((0, -half, 0)), onto((0, half, 0))), (onto((0, 0, half)), onto((0, 0, -half)))]
    shapes += [*_hook(), *(line("centre", *one) for one in cross), *_plumb(heart, foot + 4.0)]
    shapes += _leg_words(Hang(hang.centre, hang.hook, tuple(chains), drive=hang.drive), onto)
    eyes = sorted((onto(leg.at) for leg in chains), key=lambda one: one[0])
    if "apart" in told and len(eyes) > 1:
        shapes.append(_across(eyes[0], eyes[-1], foot, told["apart"]))
    side = heart[1] - hang.drive.flange / 2 * k - 3.0
    shapes += words((0.0, side), told["left"], voice="construction") if "left" in told else ()
    shapes += words((FIELD, side), told["right"], anchor="end", voice="construction") if "right" in told else ()
    if "roll" in told:
        rows = _short(told["roll"])
        shapes += [Label(at=(FIELD, foot + 2.0 + 4.0 * n), words=row, anchor="end") for n, row in enumerate(rows)]
    says = f"The drive on the hook from its wheel end, 1:{1000 / k:g}, as it will hang. Legs: {_named(hang)}."
    return drawn(round(foot + 12.0, 1), says, *shapes)


def _short(told: Text) -> tuple[Text, ...]:
    """What hangs how, below what hangs: narrow, clear of the dimension beside it."""
    first, *rest = told
    if not rest or not isinstance(first, str):
        return (voiced(told, "strong"),)
    return (voiced((first.rstrip(),), "strong"), voiced(tuple(rest), "strong"))


@dataclass(frozen=True, slots=True)
class Saddle:
    """The drive on pallet forks: centre of gravity before the fork's heel, and height over the ground [m]."""

    reach: float  # from the heel of the forks to the centre of gravity
    height: float = 0.3  # of the forks' upper face over the ground
    fork: float = 1.2  # length of the forks
    centre: Space = (0.3, 0.0, 0.0)
    drive: Drive = field(default_factory=Drive)

    def scale(self) -> float:
        """The largest of the usual scales at which it fits its field."""
        wide = max(self.fork, self.reach + self.drive.length - self.centre[0] + 0.06) + 0.12
        return next((s for s in SCALES if wide * 1e3 / s <= FIELD - 4.0), 30.0)


def saddle(one: Saddle, told: Mapping[str, Text] = {}, scale: float | None = None) -> Drawing:
    """The drive on pallet forks in a timber saddle, strapped, from the side; mounting face to the machine.

    Args:
        one: where it lies
        told: words: `load` at the centre of gravity; on the dimensions `reach` (heel to centre of gravity) and `height`
            (ground to forks)
        scale: 15 for 1:15; the largest that fits where none is given

    Returns:
        the drawing
    """
    k = 1000.0 / (scale or one.scale())
    heel = 6.0
    block = 0.04 * k + 4.4  # height of the saddle under the flange
    axis_y = 8.0 + one.drive.flange / 2 * k
    fork_y = axis_y + one.drive.flange / 2 * k + block
    ground = fork_y + one.height * k
    start = heel + (one.reach - one.centre[0]) * k

    def onto(place: Space) -> Point:
        return (start + place[0] * k, axis_y - place[2] * k)

    heart = onto(one.centre)
    shapes: list[Shape] = [Ground(y=round(ground, 2), from_x=0.0, to_x=FIELD), *_forks(heel, fork_y, one.fork * k)]
    seats = [(along * one.drive.length, one.drive.half_at(along * one.drive.length)) for along in (0.38, 0.86)]
    places = [onto((at, 0.0, -half)) for at, half in seats]
    base = fork_y - 2.4
    shapes.append(box("paper", places[0][0] - 5.4, base, places[1][0] - places[0][0] + 10.8, 2.4))
    for (x, seat), (_, half) in zip(places, seats, strict=True):
        foot: Ring = ((x - 3.4, base), (x + 3.4, base), (x + 2.4, seat + 0.4), (x - 2.4, seat + 0.4))
        shapes.append(polygon("paper", foot))
        shapes.append(box("solid", x - 0.6, axis_y - half * k, 1.2, fork_y + 2.4 - axis_y + half * k))
    shapes += drive_side.from_side(one.drive, onto)
    shapes += [
        box("solid", x - 0.6, axis_y - half * k - 0.6, 1.2, 2 * half * k + 1.2)
        for (x, _), (_, half) in zip(places, seats, strict=True)
    ]
    shapes += [drive_side.axis(one.drive, onto, 0.08), Mark(sign="centre of gravity", at=heart, size=4.4)]
    if "load" in told:
        shapes.append(
            Leader(at=heart, to=((heart[0] + 4.0, 5.0),), lines=(voiced(told["load"], "strong"),), anchor="start")
        )
    if "reach" in told:
        low = ground + 3.0
        shapes.append(Dimension(a=(heel, low), b=(heart[0], low), away=-5.0, words=told["reach"], direction="across"))
    if "height" in told:
        x = heel + one.fork * k
        shapes.append(
            Dimension(
                a=(x, ground), b=(x, fork_y), away=min(-3.0, x - FIELD + 2.0), words=told["height"], direction="up"
            )
        )
    says = f"The drive on pallet forks in a timber saddle, strapped, from the side, 1:{1000 / k:g}. Low, and nobody beside it."
    return drawn(round(ground + (11.0 if "reach" in told else 3.4), 1), says, *shapes)


def _forks(heel: float, top: float, long: float) -> tuple[Shape, ...]:
    """Fork, heel and a piece of the carriage."""
    blade: Ring = ((heel, top), (heel + long, top + 1.2), (heel + long, top + 1.8), (heel, top + 2.4))
    return (
        box("paper", heel - 2.4, 4.0, 2.4, top + 2.4 - 4.0),
        polygon("paper", blade),
        *(box("paper-thin", heel - 5.4, y, 3.0, 3.2) for y in (8.0, max(top - 9.0, 14.0))),
    )


def hang_words(hang: Hang, told: Mapping[str, Text] = {}) -> tuple[Text, ...]:
    """The same in words: each leg, then how it hangs."""
    legs = tuple((Run(voice="strong", words=(f"Leg {leg.name}",)), ": ", *leg.told) for leg in hang.legs)
    return (*legs, *(told[name] for name in ("tilt", "roll") if name in told))


def _named(hang: Hang) -> str:
    return ", ".join(plain(leg.told) or leg.name for leg in hang.legs)


def _hook() -> tuple[Shape, ...]:
    x, y = _HOOK
    return (
        Path(d=f"M{x} {y - 6.5}v2.4a2.6 2.6 0 1 0 2.4 3.6", role="subject"),
        box("paper-thin", x - 1.5, y - 9.0, 3.0, 2.6, 0.4),
        circle("paper", x, y - 0.6, 1.5),
    )


def _plumb(heart: Point, end: float) -> tuple[Shape, ...]:
    """The line straight down from the hook, through the centre of gravity."""
    return (
        Arrow(points=(_HOOK, (heart[0], end)), role="solid-must"),
        Mark(sign="centre of gravity", at=heart, size=4.4),
    )


def _legs(hang: Hang, onto: drive_side.Onto) -> tuple[Shape, ...]:
    shapes: list[Shape] = []
    for leg in hang.legs:
        at = onto(leg.at)
        if leg.kind == "hoist":
            shapes += _hoist(_HOOK, at)
        else:
            shapes += [line("outline", _HOOK, at), circle("paper", *at, 1.6)]
        if leg.angle:
            shapes += _angle(at, leg.angle)
    return tuple(shapes)


def _hoist(start: Point, end: Point) -> tuple[Shape, ...]:
    """A chain hoist half way down, its load chain and the strap drawn stouter."""
    long = math.dist(start, end)
    ux, uy = (end[0] - start[0]) / long, (end[1] - start[1]) / long

    def down(share: float, aside: float = 0.0) -> Point:
        return (start[0] + ux * share * long - uy * aside, start[1] + uy * share * long + ux * aside)

    body = (down(0.47, -1.9), down(0.47, 1.9), down(0.61, 1.9), down(0.61, -1.9))
    strap = (down(0.61, -0.5), down(0.61, 0.5), down(1.0, 0.5), down(1.0, -0.5))
    return (line("outline", start, down(0.47)), polygon("solid", strap), polygon("paper", body))


def _straps(hang: Hang, onto: drive_side.Onto, k: float) -> tuple[Shape, ...]:
    """The strap round the body at the end of a hoist."""
    shapes: list[Shape] = []
    for leg in hang.legs:
        if leg.kind == "hoist":
            half, thick = hang.drive.half_at(leg.at[0]) + 0.7 / k, 1.2 / k
            ends = ((-thick, half), (thick, half), (thick, -half), (-thick, -half))
            shapes.append(polygon("solid", [onto((leg.at[0] + along, 0.0, up)) for along, up in ends]))
    return tuple(shapes)


def _angle(at: Point, told: Text) -> tuple[Shape, ...]:
    turn = math.atan2(at[0] - _HOOK[0], at[1] - _HOOK[1])
    end = (_HOOK[0] + _ARC * math.sin(turn), _HOOK[1] + _ARC * math.cos(turn))
    sweep = 0 if turn > 0 else 1
    d = f"M{_HOOK[0]} {number(_HOOK[1] + _ARC)}A{_ARC} {_ARC} 0 0 {sweep} {number(end[0])} {number(end[1])}"
    middle = (_HOOK[0] + (_ARC + 4.4) * math.sin(turn / 2), _HOOK[1] + (_ARC + 4.4) * math.cos(turn / 2))
    return (Path(d=d, role="dimension"), Label(at=middle, words=told, anchor="middle"))


def _leg_words(hang: Hang, onto: drive_side.Onto) -> tuple[Shape, ...]:
    """Words of the legs outside of them, those of one side below each other."""
    shapes: list[Shape] = []
    rows = {"end": 0, "start": 0}
    for leg in hang.legs:
        at = onto(leg.at)
        anchor: Anchor = "end" if at[0] < _HOOK[0] else "start"
        share = 0.42
        x = _HOOK[0] + (at[0] - _HOOK[0]) * share + (-2.4 if anchor == "end" else 3.4)
        y = _HOOK[1] + (at[1] - _HOOK[1]) * share + 4.4 * rows[anchor]
        rows[anchor] += 1
        shapes += words(
            (x - (2.0 if anchor == "end" else -2.0) * (rows[anchor] - 1), y), leg.told, anchor=anchor, strong=True
        )
    return tuple(shapes)


def _side_dimensions(hang: Hang, onto: drive_side.Onto, told: Mapping[str, Text], foot: float) -> tuple[Shape, ...]:
    strap = next((leg for leg in hang.legs if leg.kind == "hoist"), hang.legs[-1])
    end = onto(strap.at)
    shapes: list[Shape] = []
    if "along" in told:
        face = onto((0.0, 0.0, -hang.drive.flange / 4))
        shapes.append(_across(face, end, foot, told["along"]))
    if "height" in told:
        x = FIELD - 4.0
        shapes += [
            line("dimension", (end[0] + 1.6, end[1]), (x + 1.2, end[1])),
            line("dimension", (_HOOK[0] + 3, _HOOK[1]), (x + 1.2, _HOOK[1])),
        ]
        shapes.append(Dimension(a=(x, end[1]), b=(x, _HOOK[1]), away=0.0, words=told["height"], direction="up"))
    return tuple(shapes)


def _across(a: Point, b: Point, foot: float, told: Text) -> Dimension:
    """A distance across, under the drawing."""
    low = max(a[1], b[1])
    return Dimension(a=(a[0], low), b=(b[0], low), away=-(foot + 7.2 - low), words=told, direction="across")
