"""What the magnet plug shows: six discs of 20 mm, true size, and a bar to prove that they are."""

from __future__ import annotations

import math
from collections.abc import Mapping

from axlewright.sheets.drawing import Drawing, Path, Point, Shape
from axlewright.sheets.figures.shapes import bar, circle, drawn, moved, number, polygon, words

DISC = 10.0  # mm, radius of a disc on the card
MAGNET = 5.0  # mm, radius of the magnet's face
GRADES: Mapping[str, str] = {
    "clean": "bare",
    "paste": "paste",
    "thick": "thick",
    "flakes": "flakes",
    "chips": "chips",
    "pieces": "pieces",
}
SAYS: Mapping[str, str] = {
    "clean": "bare: no more than a film",
    "paste": "paste, smooth, not over 5 mm",
    "thick": "thick, over 5 mm, still smooth",
    "flakes": "flakes: flat, bright, to 2 mm, gritty",
    "chips": "chips: slivers or lumps of 2 mm and more",
    "pieces": "pieces: a machined face, a tooth, a part of a roller or cage",
}
PROOF = 20.0  # mm, length of the bar
STOPS = ("chips", "pieces")

# x and y of the middle, longest side [mm], turn [degrees]
FLAKES = (
    (-1.2, 1.3, 2.0, 40.0),
    (-3.6, -0.6, 0.6, 130.0),
    (2.6, 0.6, 0.7, 170.0),
    (-3.5, 2.4, 0.8, 60.0),
    (-3.0, -3.1, 1.4, 120.0),
    (0.9, -0.5, 1.8, 95.0),
    (1.4, 3.3, 1.6, 150.0),
    (-0.9, -2.4, 1.1, 20.0),
    (-2.0, 3.9, 0.5, 75.0),
    (2.3, -3.2, 1.2, 10.0),
)
# the two ends of each sliver [mm]; how far it bends
SLIVERS = (
    ((-6.5, -4.4), (0.515, -0.559), -0.7),  # 8 mm
    ((3.7, 1.0), (1.343, 4.232), -0.9),  # 4 mm
    ((-5.4, 4.2), (-1.717, 2.638), -1.0),  # 4 mm
    ((2.9, -3.8), (3.98, -2.117), -1.1),  # 2 mm
    ((-1.2, -0.2), (0.7, 0.425), -0.6),  # 2 mm
)
LUMP = ((-6.0, 3.4), (-5.2, -2.6), (-1.0, -4.2), (4.0, -3.0), (6.0, 1.4), (6.0, 3.4))  # 12 mm along its straight edge


def card() -> Drawing:
    """The card: draw the plug, lay it on, compare. Only true while the bar measures 20 mm."""
    shapes: list[Shape] = []
    for place, (grade, name) in enumerate(GRADES.items()):
        x, y = 11.6 + 21.6 * (place % 4), 10.6 + 26.4 * (place // 4)
        shapes.append(moved(x, y, *face(grade)))
        stops = grade in STOPS
        shapes += words((x, y + 14.4), name, anchor="middle", voice="must" if stops else "plain", strong=stops)
    shapes += bar(55.0, 36.0, PROOF, f"{PROOF:.0f} mm")
    shapes += words((49.0, 43.4), "Measure it. Not 20?", "Not true size, then.")
    return drawn(53.0, f"Plug card, true size: {'; '.join(SAYS.values())}. A bar of 20 mm to measure.", *shapes)


def disc(grade: str) -> Drawing:
    """One disc alone, true size."""
    return drawn(22.0, f"Magnet plug, {SAYS[grade]}.", moved(11.0, 11.0, *face(grade)), width=22.0)


def face(grade: str) -> tuple[Shape, ...]:
    """Disc and magnet about the origin, with what hangs on it."""
    return (circle("paper", 0.0, 0.0, DISC), circle("thin", 0.0, 0.0, MAGNET), *metal(grade))


def metal(grade: str) -> tuple[Shape, ...]:
    """What hangs on the magnet, about the origin."""
    match grade:
        case "clean":
            return ()
        case "paste":  # a halo that reaches 2 mm, then 5 mm from the middle
            return (circle("paste", 0.0, 0.0, 5.0), circle("oil", 0.0, 0.0, 2.0))
        case "thick":
            return (polygon("paste", beard()), polygon("paste", beard()), circle("thin", 0.0, 0.0, MAGNET))
        case "flakes":
            return (circle("oil", 0.0, 0.0, MAGNET), circle("thin", 0.0, 0.0, MAGNET), *specks(FLAKES))
        case "chips":
            return tuple(sliver(*one) for one in SLIVERS)
        case "pieces":
            return (polygon("solid", LUMP),)
    raise ValueError(f"no such grade of the plug: {grade}; it is one of {', '.join(GRADES)}")


def beard() -> tuple[Point, ...]:
    """Its ragged edge: it reaches 8 mm from the middle and hangs down a little more than it stands up."""
    reach = (7.2, 7.9, 8.0, 7.6, 7.3, 7.7, 7.9, 7.0, 6.8, 7.6, 7.8, 6.9, 6.4, 7.2, 7.5, 6.8, 6.6, 7.4, 7.1, 6.6)
    return tuple(
        (r * math.cos(math.tau * i / len(reach)), r * math.sin(math.tau * i / len(reach))) for i, r in enumerate(reach)
    )


def specks(flakes: tuple[tuple[float, float, float, float], ...]) -> tuple[Shape, ...]:
    """Flat bright flakes, each a slant four-sided one of that length."""
    made: list[Shape] = []
    for x, y, length, turn in flakes:
        a, half, slim = math.radians(turn), length / 2, 0.22 * length
        along, across = (math.cos(a), math.sin(a)), (-math.sin(a), math.cos(a))
        made.append(
            polygon(
                "solid",
                (
                    (x - half * along[0], y - half * along[1]),
                    (x + slim * across[0], y + slim * across[1]),
                    (x + half * along[0], y + half * along[1]),
                    (x - slim * across[0], y - slim * across[1]),
                ),
            )
        )
    return tuple(made)


def sliver(a: Point, b: Point, bend: float) -> Path:
    """A curl of metal from a to b: thin at its ends, thickest in the middle."""
    n = number
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    aside = (-(b[1] - a[1]) * 0.25, (b[0] - a[0]) * 0.25)
    outer = (middle[0] + bend * aside[0], middle[1] + bend * aside[1])
    inner = (middle[0] + 0.3 * bend * aside[0], middle[1] + 0.3 * bend * aside[1])
    d = f"M{n(a[0])} {n(a[1])}Q{n(outer[0])} {n(outer[1])} {n(b[0])} {n(b[1])}"
    return Path(d=f"{d}Q{n(inner[0])} {n(inner[1])} {n(a[0])} {n(a[1])}z", role="solid")
