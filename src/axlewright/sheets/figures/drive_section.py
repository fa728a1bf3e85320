"""The drive in section between machine (left) and wheel (right): where oil sits, and what was seen there."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, TypeAlias

from axlewright.sheets.drawing import Area, Drawing, Leader, Path, Point, Shape
from axlewright.sheets.figures.shapes import Ring, box, drawn, drop, filled, line, lines, moved, plain, polygon, voiced
from axlewright.sheets.text import Text, text

OilLevel: TypeAlias = Literal["at-mark", "low", "over", "not-reached"]
Drips: TypeAlias = Literal["", "wheel-side", "input", "plug"]

# In the section's own coordinates: the housing reaches from 5 to 55, the ground lies at 61.5, the axis at 30.
PLACES: Mapping[str, Point] = {
    "from-above": (12.0, 3.2),
    "breather": (35.0, 7.0),
    "valve": (77.2, 2.6),
    "input": (20.0, 35.5),
    "plug": (38.7, 51.6),
    "wheel-side": (58.4, 36.5),
    # not places where oil sits, but where a look is told of
    "level": (28.0, 40.6),
    "heat": (44.0, 11.0),
    "rock": (77.4, 3.0),
}
_AXIS, _GROUND = 30.0, 61.5
_ABOVE, _BELOW = -7.6, 65.8  # where words of a leader stand
_ASKED_ABOVE, _ASKED_BELOW = -9.0, 66.5  # where the middle of a box stands
_NAMES: Mapping[str, tuple[str, ...]] = {
    "from-above": ("from", "above"),
    "breather": ("breather",),
    "valve": ("tyre valve", "or bead"),
    "input": ("machine", "side"),
    "plug": ("plug or", "cover joint"),
    "wheel-side": ("wheel side,", "behind the disc"),
}
_BOXES: Mapping[str, float] = {
    "from-above": 8.0,
    "breather": 35.0,
    "valve": 73.0,
    "input": 14.0,
    "plug": 43.5,
    "wheel-side": 73.0,
}
_STANDS: Mapping[str, tuple[float, Literal["start", "middle", "end"]]] = {  # words of a look: left, middle, right
    "from-above": (0.0, "start"),
    "heat": (0.0, "start"),
    "breather": (43.0, "middle"),
    "valve": (88.0, "end"),
    "rock": (88.0, "end"),
    "input": (0.0, "start"),
    "level": (0.0, "start"),
    "plug": (44.0, "middle"),
    "wheel-side": (88.0, "end"),
}
WORDS = 29.0  # mm that the words of a leader may take
DOT = 4.6  # mm to each side of a dot that a thumb may hit

_HOUSING: Ring = (
    (22, 5),
    (25.5, 5),
    (25.5, 11),
    (45, 11),
    (57, 17.5),
    (57, 22),
    (46, 22),
    (46, 16.5),
    (26, 16.5),
    (26, 20.5),
    (22, 20.5),
)
_CAP: Ring = ((19, 20.5), (26, 20.5), (26, 23), (22.6, 23), (22.6, 27), (19, 27))
_SHAFT: Ring = ((8, 27.4), (36, 27.4), (36, 32.6), (8, 32.6))
_HUB: Ring = ((31, 25), (66, 25), (66, 10), (69.5, 10), (69.5, 50), (66, 50), (66, 35), (31, 35))
_GEAR: Ring = ((40, 18.5), (44.5, 18.5), (44.5, 25), (40, 25))
_CUP: Ring = ((32, 16.5), (37.5, 16.5), (37.5, 25), (32, 25))
_ROLLER: Ring = ((32.6, 22.2), (37, 20.4), (36.4, 18.2), (32.2, 20))
_BEARING: Ring = ((49.5, 22), (54.5, 22), (54.5, 25), (49.5, 25))
_WHEEL_SEAL: Ring = ((55.2, 22), (57, 22), (57, 25), (55.2, 25))
_INPUT_SEAL: Ring = ((20, 24), (22.2, 24), (22.2, 27.2), (20, 27.2))
_OIL = {"over": 21.5, "at-mark": 37.0, "low": 39.8, "not-reached": 42.6}  # y of the surface


def drawing(
    leaders: tuple[Leader, ...] = (),
    *,
    oil: OilLevel | None = "at-mark",
    drips: Drips = "",
    puddle: bool = False,
    says: str = "",
) -> Drawing:
    """The section with these leaders, as high as their words need.

    Args:
        leaders: in the section's own coordinates, as `leader`, `questions` and `named` make them
        oil: where its surface stands; None leaves it out
        drips: the place where drops fall
        puddle: a puddle under that place
        says: the sentence that says what is seen; made from the leaders where none is given

    Returns:
        the drawing, one field wide
    """
    above = max((_room(one) - one.to[-1][1] for one in leaders if one.to[-1][1] < 0), default=0.0)
    below = max((one.to[-1][1] + _room(one) for one in leaders if one.to[-1][1] > _GROUND), default=_GROUND + 1.0)
    body = moved(0.0, above, *_section(oil), *_wet(drips, puddle), line("outline", (2, _GROUND), (86, _GROUND)))
    shifted = tuple(
        one.model_copy(
            update={"at": _down(one.at, above), "to": tuple(_down(end, above) for end in one.to), "goes_to": ""}
        )
        for one in leaders
    )
    taps = tuple(_tapped(new, one.goes_to) for one, new in zip(leaders, shifted, strict=True) if one.goes_to)
    return drawn(round(above + below, 1), says or _says(leaders), body, *shifted, *taps)


def _tapped(one: Leader, to: str) -> Area:
    """What a thumb may hit: the words and the dot, in one outline."""
    x, y = one.to[-1]
    left = {"start": x, "middle": x - WORDS / 2, "end": x - WORDS}[one.anchor]
    right, sign = left + WORDS, 1.0 if one.below else -1.0
    near, far = y - sign * 3.4, y + sign * 9.6
    a, b = one.at
    dot = ((a - DOT, b - DOT), (a + DOT, b - DOT), (a + DOT, b + DOT), (a - DOT, b + DOT), (a - DOT, b - DOT))
    words = ((left, near), (left, far), (right, far), (right, near), (left, near))
    says = " ".join(plain(line) for line in one.lines)
    return Area(outline=(*words, *dot), says=f"{says}: look there", goes_to=to)


def leader(place: str, *told: str | Text, unseen: bool = False, goes_to: str = "") -> Leader:
    """What was seen at a place, its words at the edge of the field: `leader("plug", "plug thick,", "still smooth")`."""
    x, anchor = _STANDS[place]
    above = PLACES[place][1] < _AXIS
    return Leader(
        at=PLACES[place],
        to=((x, _ABOVE if above else _BELOW),),
        lines=tuple(voiced(one, "soft" if row else "strong") for row, one in enumerate(told)),
        anchor=anchor,
        below=not above,
        unseen=unseen,
        goes_to=goes_to,
    )


def questions() -> tuple[Leader, ...]:
    """The six places where oil sits, each with a box to tick."""
    return tuple(
        Leader(
            at=PLACES[place],
            to=((x, _ASKED_ABOVE if PLACES[place][1] < _AXIS else _ASKED_BELOW),),
            lines=tuple(text(one) for one in _NAMES[place]),
            below=PLACES[place][1] > _AXIS,
            asks=f"where={place}",
        )
        for place, x in _BOXES.items()
    )


def named() -> tuple[Leader, ...]:
    """The six places by name in one line each, to be circled on paper."""
    ends: tuple[tuple[str, str, Point, Literal["start", "middle", "end"]], ...] = (
        ("from-above", "from above", (1.0, -1.4), "start"),
        ("breather", "breather", (35.0, -1.4), "middle"),
        ("valve", "tyre valve", (87.0, -1.4), "end"),
        ("input", "machine side", (1.0, 63.6), "start"),
        ("plug", "level, plug", (44.0, 63.6), "middle"),
        ("wheel-side", "wheel side", (87.0, 63.6), "end"),
    )
    return tuple(
        Leader(at=PLACES[place], to=(end,), lines=(text(name),), anchor=anchor, below=end[1] > 0)
        for place, name, end, anchor in ends
    )


def _room(one: Leader) -> float:
    """Height of the words at the end of a leader, and of its box."""
    return 1.4 + 4.2 * len(one.lines) + (3.6 if one.asks else 0.0)


def _down(point: Point, by: float) -> Point:
    return (point[0], round(point[1] + by, 2))


def _says(leaders: tuple[Leader, ...]) -> str:
    told = [" ".join(plain(one) for one in which.lines) for which in leaders if not which.unseen]
    unseen = [" ".join(plain(one) for one in which.lines) for which in leaders if which.unseen]
    sentence = "Section through the drive, machine left, wheel right"
    sentence += f": {'; '.join(told)}." if told else "."
    return sentence + (f" Nobody looked: {'; '.join(unseen)}." if unseen else "")


def _both(points: Ring) -> tuple[Ring, Ring]:
    """Above the axis, and mirrored below it."""
    return points, tuple((x, 2 * _AXIS - y) for x, y in points)


def _section(oil: OilLevel | None) -> tuple[Shape, ...]:
    shapes: list[Shape] = []
    for part in (_HOUSING, _CAP):
        for half in _both(part):
            shapes += filled(half, "cut")
    if oil:
        top = _OIL[oil]
        shapes += [
            polygon("oil", ((26, top), (46, top), (46, 43.5), (26, 43.5))),
            line("construction", (26, top), (46, top)),
        ]
    shapes += [polygon("paper", _SHAFT), polygon("paper", _HUB)]
    for part in (_GEAR, _CUP):
        shapes += [polygon("paper-thin", half) for half in _both(part)]
    shapes += [polygon("paper", half) for half in _both(_ROLLER)]
    for half in _both(_BEARING):
        shapes += [polygon("paper-thin", half), lines("thin", (half[0::2], half[1::2]))]
    shapes += [polygon("solid", half) for seal in (_WHEEL_SEAL, _INPUT_SEAL) for half in _both(seal)]
    shapes += [*_fastened(), *_beside(), line("centre", (4, _AXIS), (84, _AXIS))]
    return tuple(shapes)


def _fastened() -> tuple[Shape, ...]:
    """Flange bolts, wheel studs, breather, plug."""
    return (
        box("paper-thin", 18.5, 6.4, 3.5, 2.4),
        box("paper-thin", 18.5, 51.2, 3.5, 2.4),
        box("paper-thin", 69.5, 12.4, 3.4, 2.2),
        box("paper-thin", 69.5, 45.4, 3.4, 2.2),
        box("paper-thin", 33.5, 7.2, 3.0, 3.8),
        line("thin", (32.6, 7.2), (37.4, 7.2)),
        box("paper-thin", 36.5, 49.0, 4.4, 3.4),
        box("solid", 37.7, 45.6, 2.0, 3.4),
    )


def _beside() -> tuple[Shape, ...]:
    """The axle tube to the left in construction ink, the wheel disc to the right dashed."""
    tube: Ring = ((8, 3), (18.5, 3), (18.5, 20.5))
    disc: Ring = ((69.5, 12), (72.5, 12), (74, 4), (78, 1.5))
    return (lines("construction", _both(tube)), lines("hidden", _both(disc)))


def _wet(drips: Drips, puddle: bool) -> tuple[Shape, ...]:
    shapes: list[Shape] = []
    x, top = {"wheel-side": (59.5, 38.7), "input": (15.6, 38.7), "plug": (38.7, 53.6), "": (44.0, 0.0)}[drips]
    if drips:
        falls = ((0.0, 0.9), (4.6, 1.1), (10.2, 1.3)) if drips != "plug" else ((0.0, 0.9), (3.8, 1.0))
        shapes += [drop(x, top + down, r) for down, r in falls]
    if puddle:
        left = min(max(x - 12.0, 3.0), 62.0)
        shapes.append(Path(d=f"M{left:g} 61.3q12 -2.4 24 0z", role="solid-construction"))
    return tuple(shapes)
