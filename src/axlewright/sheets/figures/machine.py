"""A machine from above to scale, each driven corner with its drive and how that stands."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from axlewright.sheets.drawing import Area, Circle, Drawing, Group, Point, Shape
from axlewright.sheets.figures import condition, outlines
from axlewright.sheets.figures.condition import State
from axlewright.sheets.figures.outlines import KINDS, Set
from axlewright.sheets.figures.shapes import (
    FIELD,
    box,
    drawn,
    line,
    lines,
    plain,
    rectangle,
    words,
)
from axlewright.sheets.text import Run, Text, text

__all__ = ["CORNERS", "DRIVEN", "KINDS", "CornerLook", "State", "corner_words", "plan", "room"]

CORNERS: Mapping[str, str] = {
    "front-left": "front left",
    "front-right": "front right",
    "rear-left": "rear left",
    "rear-right": "rear right",
}
DRIVEN = ("front-left", "front-right")  # a rear corner is drawn as driven when it is asked for

_WORDS_UP, _STEP = 13.0, 4.4  # mm the first line stands above the axle; mm from line to line
_EDGE = 3.0  # mm kept free round a machine without words


@dataclass(frozen=True, slots=True)
class CornerLook:
    """How a corner stands: its condition while a fresh look stands behind it, and the words beside it.

    The first line of `words` is set strong; without any, the condition stands there. `goes_to` is what a tap opens,
    `asks` the field and value a tap answers; `circled` puts a ring in primer round it; `on_crib` a crib under it.
    """

    state: State = "not looked at"
    words: tuple[Text, ...] = ()
    on_crib: bool = False
    circled: bool = False
    goes_to: str = ""
    asks: str = ""

    @property
    def told(self) -> tuple[Text, ...]:
        return self.words or (text(self.state),)


def plan(
    kind: str,
    corners: Mapping[str, CornerLook] = {},
    scale: float = 100.0,
    labels: bool = True,
    *,
    header: bool = False,
    stands: tuple[float, float] | None = None,
) -> Drawing:
    """The machine from above, nose up.

    Args:
        kind: forage-harvester, walker-combine or small-combine
        corners: how each corner stands, by its name; a driven one that is not given was not looked at
        scale: 100 for 1:100
        labels: with words and a grid of 1 m, one field wide; without, as wide as the machine
        header: with its header on
        stands: mm of paper above and below the front axle (`room`), so that several machines stand on one line

    Returns:
        the drawing; each driven corner is an area of its own
    """
    one = outlines.outline(kind)
    looks = {**{name: CornerLook() for name in DRIVEN}, **corners}
    above, below = stands or room([(kind, header)], scale, labels)
    side = one.reach(header)[2] * 1000.0 / scale + _EDGE
    width = FIELD if labels else round(2 * side, 1)
    on = Set((width / 2, above), scale)
    shapes: list[Shape] = [*_ground(on, width, above + below)] if labels else []
    rear = [name for name in CORNERS if name.startswith("rear") and name not in looks]
    body = outlines.body(kind, on, header)
    shapes.append(Group(shapes=(*body, *(s for name in rear for s in _wheel(kind, name, on))), context=True))
    for name, look in looks.items():
        shapes += _corner(kind, name, look, on)
    if labels:
        for name, look in looks.items():
            shapes += _beside(kind, name, look, on)
    shapes += [_area(kind, name, look, on, labels, width) for name, look in looks.items()]
    return drawn(round(above + below, 1), _says(kind, looks, scale), *shapes, width=width)


def room(machines: Iterable[tuple[str, bool]], scale: float = 100.0, labels: bool = True) -> tuple[float, float]:
    """Room above and below the front axle that machines, each with header on or off, need side by side [mm]."""
    reaches = [outlines.outline(kind).reach(header) for kind, header in machines]
    above = max(ahead for ahead, _, _ in reaches) * 1000.0 / scale + _EDGE
    below = max(behind for _, behind, _ in reaches) * 1000.0 / scale + _EDGE
    return (round(max(above, _WORDS_UP + _STEP if labels else 0.0), 1), round(below, 1))


def corner_words(corners: Mapping[str, CornerLook]) -> tuple[Text, ...]:
    """The same in words: one line for each corner."""
    return tuple(
        (Run(voice="strong", words=(CORNERS[name],)), ": ", *_joined(look.told)) for name, look in corners.items()
    )


def _joined(told: tuple[Text, ...]) -> Text:
    pieces: Text = ()
    for row in told:
        pieces += ((" ",) if pieces else ()) + row
    return pieces


def _says(kind: str, looks: Mapping[str, CornerLook], scale: float) -> str:
    stand = " ".join(f"{CORNERS[name].capitalize()}: {plain(_joined(look.told))}." for name, look in looks.items())
    return f"{outlines.outline(kind).says.capitalize()} from above, nose up, 1:{scale:g}. {stand}"


def _ground(on: Set, width: float, height: float) -> tuple[Shape, ...]:
    """A grid of one metre and the line of the front axle, across the whole field."""
    step, first = on.mm(1.0), on.at[1] % on.mm(1.0)
    rows = [first + step * row for row in range(int((height - first) / step) + 1)]
    return (lines("hair", [((0.0, y), (width, y)) for y in rows]), line("centre", (0.0, on.at[1]), (width, on.at[1])))


def _wheel(kind: str, corner: str, on: Set) -> tuple[Shape, ...]:
    at, diameter, width = outlines.wheel_at(kind, corner, on)
    return outlines.tyre(*at, diameter, width)


def _corner(kind: str, corner: str, look: CornerLook, on: Set) -> tuple[Shape, ...]:
    """Wheel and drive: dashed with a shut eye where nobody looked, hatched by condition where somebody did."""
    at, diameter, width = outlines.wheel_at(kind, corner, on)
    outline = outlines.drive_at(kind, corner, on)
    middle = _middle(outline)
    shapes: list[Shape] = []
    out = look.state == "drive out"
    shapes += outlines.bare_tyre(*at, diameter, width) if out else outlines.tyre(*at, diameter, width)
    shapes += condition.filled(outline, look.state, eye=round(on.mm(0.34), 2))
    if look.on_crib:
        shapes += crib(middle[0] + (0.5 if middle[0] < on.at[0] else -0.5) * on.mm(0.2), middle[1], on.mm(0.6))
    if look.circled:
        shapes.append(Circle(at=((at[0] + middle[0]) / 2, at[1]), r=round(0.46 * diameter, 2), role="limit"))
    return tuple(shapes)


def crib(x: float, y: float, side: float) -> tuple[Shape, ...]:
    """A crib from above, its middle here: two timbers across, two along [mm]."""
    left, top, inset = x - side / 2, y - side / 2, side / 4
    across = [((left, top + inset * row), (left + side, top + inset * row)) for row in (1, 3)]
    along = [((left + inset * row, top), (left + inset * row, top + side)) for row in (1, 3)]
    return (box("paper-thin", left, top, side, side), lines("thin", across + along))


def _beside(kind: str, corner: str, look: CornerLook, on: Set) -> tuple[Shape, ...]:
    at, _, width = outlines.wheel_at(kind, corner, on)
    left = at[0] < on.at[0]
    x = at[0] - width / 2 - 2.1 if left else at[0] + width / 2 + 2.2
    y = at[1] - _WORDS_UP
    anchor: Literal["start", "end"] = "end" if left else "start"
    first, *rest = look.told
    return (
        *words((x, y), first, anchor=anchor, strong=True),
        *words((x, y + _STEP), *rest, anchor=anchor, voice="soft", step=_STEP),
    )


def _area(kind: str, corner: str, look: CornerLook, on: Set, labels: bool, width: float) -> Area:
    """Half of the field beside the machine's middle, as high as wheel and words."""
    at, diameter, _ = outlines.wheel_at(kind, corner, on)
    top = at[1] - max(diameter / 2 + 1.0, _WORDS_UP + 3.4 if labels else 0.0)
    bottom = at[1] + diameter / 2 + 1.0
    x = 0.0 if at[0] < on.at[0] else width / 2 + 0.2
    says = f"{CORNERS[corner]}: {plain(_joined(look.told))}"
    outline = rectangle(x, round(top, 2), width / 2 - 0.2, round(bottom - top, 2))
    return Area(outline=outline, says=says, goes_to=look.goes_to, asks=look.asks)


def _middle(points: tuple[Point, ...]) -> Point:
    """The middle of what the points span."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (round((min(xs) + max(xs)) / 2, 2), round((min(ys) + max(ys)) / 2, 2))
