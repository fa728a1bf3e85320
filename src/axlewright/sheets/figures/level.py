"""The crooked finger in the level hole, from the side: how far down is the oil?"""

from __future__ import annotations

from collections.abc import Mapping

from axlewright.sheets.drawing import Drawing, Path, Shape
from axlewright.sheets.figures.shapes import box, drawn, filled, line, moved, rectangle, words

GRADES: Mapping[str, str] = {"at-mark": "at mark", "low": "finger touches", "not-reached": "none", "over": "over"}
SAYS: Mapping[str, str] = {
    "at-mark": "at mark: oil stands at the lower edge of the hole",
    "low": "low: the crooked finger still touches oil",
    "not-reached": "none: the finger feels no oil",
    "over": "over: oil runs out when the plug is drawn",
}
STOPS = ("not-reached", "over")
LIP = 12.2  # mm, lower edge of the hole in the picture, from its top
_FLOOR = 19.0
_FINGER = "M-.5 8.2h10.6q3.6 .2 4 4.2l.2 2.6a1 1 0 0 1 -2 .1l-.3 -2.2q-.5 -1.6 -2 -1.6h-10.5"  # its tip reaches to 15.9
SURFACE = {"at-mark": LIP, "low": 14.4, "over": 4.0}  # mm, of the oil; none is out of reach


def card() -> Drawing:
    """Four fingers side by side."""
    shapes: list[Shape] = []
    for place, (grade, name) in enumerate(GRADES.items()):
        x, stops = 1.0 + 22.0 * place, grade in STOPS
        shapes.append(moved(x, 0.0, *hole(grade)))
        shapes += words((x + 9.0, 23.4), name, anchor="middle", voice="must" if stops else "plain", strong=stops)
    return drawn(24.6, f"Finger in the level hole. {'; '.join(SAYS.values())}.", *shapes)


def picture(grade: str) -> Drawing:
    """One finger alone."""
    return drawn(20.0, f"Finger in the level hole, {SAYS[grade]}.", moved(3.0, 0.0, *hole(grade)), width=26.0)


def hole(grade: str, behind: float = 10.0) -> tuple[Shape, ...]:
    """The wall with its hole, the oil behind it, and the finger where one is needed to tell."""
    shapes: list[Shape] = [
        *filled(rectangle(4, 1.5, 5, 5.7), "cut"),
        *filled(rectangle(4, LIP, 5, _FLOOR - LIP), "cut"),
    ]
    if grade in {"low", "not-reached"}:
        shapes.append(Path(d=_FINGER, role="paper"))
    if grade in SURFACE:
        top = SURFACE[grade]
        shapes += [box("oil", 9, top, behind, _FLOOR - top), line("construction", (9, top), (9 + behind, top))]
    if grade == "over":
        shapes.append(Path(d="M9.2 7.8h-3.2q-5 .6 -5.6 11h2.4q.2 -6.2 4 -6.8h2.4z", role="solid-construction"))
    return tuple(shapes)
