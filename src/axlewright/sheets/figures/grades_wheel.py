"""What a wheel does when it is levered, turned, felt and seen from behind."""

from __future__ import annotations

import math

from axlewright.sheets.drawing import Arrow, Drawing, Path, Point, Role, Shape
from axlewright.sheets.figures.shapes import (
    Ring,
    box,
    circle,
    drawn,
    filled,
    head,
    line,
    lines,
    moved,
    number,
    polygon,
    rectangle,
    words,
)

BARS = (0.25, 0.5, 1.0)  # mm, thickness of the gap bars, true size
WOBBLE = {"none": 0.5, "slight": 2.0, "plain": 4.0}  # mm, gap at the pointer, true size
LEAN = {"same": 0.0, "slight": 1.5, "leans": 3.0}  # degrees, true
_WIDTH, _HEIGHT = 26.0, 20.0


def rock(grade: str) -> Drawing:
    """Three bars as thick as the gap: those that it reaches are full."""
    reached, says = {
        "none": (0, "The gap is thinner than the first bar, 0.25 mm."),
        "some": (1, "The gap is as wide as the first bar, not as the second, 0.5 mm."),
        "beyond": (2, "The gap is as wide as the second bar, 0.5 mm, not as the third, 1.0 mm."),
        "far": (3, "The gap is as wide as the third bar, 1.0 mm, or wider."),
        "still": (0, "By eye: nothing seen or felt. You would see the third bar, not the first."),
        "clunk": (3, "By eye: a clunk seen or felt. You see the third bar, not the first."),
    }[grade]
    shapes: list[Shape] = []
    for row, thick in enumerate(BARS):
        y = 4.4 + 6.0 * row
        shapes.append(box("solid" if row < reached else "paste", 2.0, y - thick / 2, 16.0, thick))
        shapes += words((20.0, y + 1.2), f"{thick:g} mm" if row < 2 else "1.0 mm")
    if grade in {"still", "clunk"}:
        shapes.append(moved(34.0, 0.0, *_to_and_fro(grade == "clunk")))
    return drawn(_HEIGHT, says, *shapes, width=56.0 if grade in {"still", "clunk"} else 34.0)


def _to_and_fro(moves: bool) -> tuple[Shape, ...]:
    shapes: list[Shape] = [line("outline", (0, 19), (20, 19)), box("paper", 5, 3, 5, 16, 1.2)]
    if moves:
        shapes += [box("hidden", 6.6, 3, 5, 16, 1.2), Arrow(points=((13.0, 6), (18.8, 6)), role="solid-must")]
    return tuple(shapes)


def seats(grade: str) -> Drawing:
    """Half a bearing on its shaft: the gap under the cone is 1 mm, true size."""
    gap, says = {
        "none": (0.0, "The cone sits tight on the shaft."),
        "slack": (1.0, "1 mm of air between shaft and cone."),
    }[grade]
    shapes: list[Shape] = [
        *filled(((6, 2), (20, 2), (20, 5), (6, 7)), "cut"),
        polygon("paper", ((8, 7.2), (18.4, 5.8), (18.8, 9.0), (8.2, 10.0))),
        *filled(((6, 10.4), (20, 9.4), (20, 13), (6, 13)), "cut"),
        box("paper", 2, 13 + gap, 22, 6.6 - gap),
        line("centre", (0.5, 18.6), (25.5, 18.6)),
    ]
    if gap:
        shapes += [box("solid-must", 6, 13, 14, gap), *words((27, 14.6), "1 mm", voice="must", strong=True)]
    return drawn(_HEIGHT, says, *shapes, width=36.0 if gap else _WIDTH)


def turn(grade: str) -> Drawing:
    """A hand on the housing while the wheel is turned three turns each way."""
    says = {
        "smooth": "A hand on the housing: the wheel turns smooth.",
        "rough": "A hand on the housing: the wheel turns rough.",
        "grinds": "A hand on the housing: the wheel grinds, has a tight spot or locks.",
    }[grade]
    teeth = {"smooth": (0, 0.0), "rough": (14, 0.35), "grinds": (9, 0.9)}[grade]
    path = _arc((11, 10.4), 8.4, 215.0, 395.0, *teeth)
    shapes: list[Shape] = [
        circle("paper", 11, 10.4, 6.2),
        circle("thin", 11, 10.4, 2.2),
        line("limit" if grade == "grinds" else "outline", *path),
        head(path[-1], (0.35, 1.0), 2.4, 1.6, "solid-must" if grade == "grinds" else "solid"),
        Path(  # a palm flat on the housing from the right
            d="M25.6 11.4h-5.4q-1.6 0 -2.8 -1.1l-2.6 -1.4q-1.2 -.5 -1.7 .3t.6 1.4l2.5 1.6h-3.4q-1.1 .1 -1.1 1t1 1h.6q-1 .2 -.9 1"
            "t1.1 .9h.8q-.7 .3 -.5 1t1 .8h1.3q-.4 .5 0 1t1 .5h3.6q1.6 0 2.6 -1h2.3",
            role="paper",
        ),
    ]
    if grade == "grinds":
        shapes.append(line("limit", (18.2, 3.4), (21.2, 1.2)))
    return drawn(_HEIGHT, says, *shapes, width=_WIDTH)


def _arc(at: Point, r: float, start: float, end: float, teeth: int = 0, depth: float = 0.0) -> Ring:
    """Points along an arc, smooth or toothed; degrees clockwise from the right."""
    count = 2 * teeth or 40
    points = []
    for i in range(count + 1):
        a = math.radians(start + (end - start) * i / count)
        reach = r + (depth if i % 2 else -depth)
        points.append((at[0] + reach * math.cos(a), at[1] + reach * math.sin(a)))
    return tuple(points)


def wobble(grade: str) -> Drawing:
    """A fixed pointer beside the hub flange, and how far the flange comes and goes: true size."""
    gap = WOBBLE[grade]
    says = {
        "none": "At the pointer the hub flange comes and goes by less than 0.5 mm.",
        "slight": "At the pointer the hub flange comes and goes by up to 2 mm.",
        "plain": "At the pointer the hub flange comes and goes by more than 2 mm.",
    }[grade]
    told = {"none": "under 0.5 mm", "slight": "to 2 mm", "plain": "over 2 mm"}[grade]
    flange = rectangle(4, 1.5, 5, 13)
    return drawn(
        _HEIGHT,
        says,
        *filled(flange, "cut"),
        line("hidden", (9 + gap, 1.5), (9 + gap, 14.5)),
        polygon("solid", ((9 + gap, 8), (18 + gap, 6.8), (18 + gap, 9.2))),
        box("paper", 18 + gap, 6, 6 - gap, 4),
        *words((3.0, 18.8), told, voice="must" if grade == "plain" else "plain", strong=grade == "plain"),
        width=_WIDTH,
    )


def lean(grade: str) -> Drawing:
    """Two wheels of one axle from behind; the angle is true."""
    angle = LEAN[grade]
    says = {
        "same": "Two wheels from behind: both upright.",
        "slight": "Two wheels from behind: one leans by 1.5 degrees.",
        "leans": "Two wheels from behind: one leans by 3 degrees or more, or rubs.",
    }[grade]
    return drawn(
        _HEIGHT,
        says,
        line("outline", (0, 19), (34, 19)),
        box("paper", 2.5, 3, 5, 16, 1.2),
        moved(20.0, 19.0, box("paper", -2.5, -16, 5, 16, 1.2), turn=angle),
        line("construction", (7.5, 11.5), (17.6, 11.5)),
        line("centre", (20, 19), (20, 0.6)),
        *words(
            (25.0, 6.0),
            f"{angle:g}°",
            voice="must" if grade == "leans" else "plain",
            strong=grade == "leans",
        ),
        width=34.0,
    )


def backlash(grade: str) -> Drawing:
    """The arc that the tread swings while the input is held."""
    swing, says = {
        "as-twin": (7.0, "The tread swings as far as its twin's."),
        "more": (12.0, "The tread swings more than one and a half times as far as its twin's."),
        "jumps": (20.0, "The tread jumps: teeth skip."),
    }[grade]
    at, r = (17.0, 20.6), 17.0
    marks = [_arc(at, r, 270 + k * swing, 270 + k * swing)[0] for k in (-1, 1)]
    tops = [(x + (x - at[0]) * 0.13, y + (y - at[1]) * 0.13) for x, y in marks]
    arc = _arc(at, r + 1.6, 270 - swing, 270 + swing, 5 if grade == "jumps" else 0, 0.5 if grade == "jumps" else 0.0)
    role: Role = "limit" if grade == "jumps" else "outline"
    return drawn(
        _HEIGHT,
        says,
        line("outline", *_arc(at, r, 203, 337)),
        line("thin", *_arc(at, r - 3.4, 200, 340)),
        lines("thin", [(_arc(at, r - 3.4, a, a)[0], _arc(at, r - 0.3, a + 5, a + 5)[0]) for a in range(206, 332, 9)]),
        line("dimension", at, marks[0]),
        line("dimension", at, marks[1]),
        lines("limit", zip(marks, tops, strict=True)),
        line(role, *arc),
        width=34.0,
    )


def heat(grade: str) -> Drawing:
    """Two hubs of one axle with their black patch: heat drawn as waves, the twin's first."""
    count, says = {
        "same": (1, "Two hubs with the black patch: this one as warm as its twin."),
        "warmer": (2, "Two hubs with the black patch: this one warmer than its twin."),
        "hot": (3, "Two hubs with the black patch: this one hot."),
        "very-hot": (4, "Two hubs with the black patch: this one very hot."),
    }[grade]
    shapes: list[Shape] = []
    for x, waves, name in ((10.0, 1, "twin"), (32.0, count, "this one")):
        hot = waves > 3
        shapes += [circle("paper", x, 13.4, 6.0), circle("thin", x, 13.4, 2.2), box("solid", x - 1.3, 8.2, 2.6, 2.2)]
        for wave in range(waves):
            left = x - 1.6 * (waves - 1) + 3.2 * wave
            n = number(left)
            shapes.append(Path(d=f"M{n} 6.4q-1 -1.2 0 -2.4t0 -2.4", role="limit" if hot else "outline"))
        shapes += words((x, 23.2), name, anchor="middle", voice="soft")
    return drawn(24.4, says, *shapes, width=42.0)
