"""A drawing as data: shapes in millimetres of paper with a role, never a colour; words with the place they go to.

A figure is one field wide (88 mm) or two (180 mm); y runs down. Where words stand over lines is the renderer's work,
since their width depends on the measures chosen: a label gives its anchor point only.
"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from axlewright.sheets.text import Frozen, Text

Point: TypeAlias = tuple[float, float]

# outline 0.5, subject 0.65, thin 0.25, hidden dashed, centre chain, dimension 0.2, hair 0.2 in grid ink, construction 0.25,
# limit 0.7 in primer; the rest fill: paper (covers what lies below, outlined), blank (covers, no outline), wash,
# solid, solid-must, solid-construction, oil (construction ink, thinned to a fifth), paste (the same, thinned to a half)
Role: TypeAlias = Literal[
    "outline",
    "subject",
    "thin",
    "hidden",
    "centre",
    "dimension",
    "hair",
    "construction",
    "limit",
    "must-dashed",
    "paper",
    "paper-thin",
    "blank",
    "wash",
    "solid",
    "solid-must",
    "solid-construction",
    "oil",
    "paste",
]
# the four conditions; cut metal, ground (a spread of dates too), keep-out zone
Hatching: TypeAlias = Literal["sound", "wearing", "failing", "let go", "cut", "ground", "spread", "keep out"]


class Path(Frozen):
    """Lines and curves in SVG path notation, absolute or relative, mm."""

    shape: Literal["path"] = "path"
    d: str
    role: Role


class Circle(Frozen):
    shape: Literal["circle"] = "circle"
    at: Point
    r: float
    role: Role


class Hatch(Frozen):
    """An area filled with hatch lines clipped to it (even-odd): rings of points, the first is the outside."""

    shape: Literal["hatch"] = "hatch"
    rings: tuple[tuple[Point, ...], ...]
    fill: Hatching
    outlined: bool = False


class Group(Frozen):
    """Shapes moved together. `context` draws them receding, in construction ink and finer lines."""

    shape: Literal["group"] = "group"
    shapes: tuple[Shape, ...]
    move: Point = (0.0, 0.0)
    turn: float = 0.0  # degrees, clockwise on paper, about the group's own origin
    scale: float = 1.0
    mirrored: bool = False  # left and right exchanged about the group's own origin
    context: bool = False


class Label(Frozen):
    """Words at a place."""

    shape: Literal["label"] = "label"
    at: Point
    words: Text
    anchor: Literal["start", "middle", "end"] = "start"
    size: Literal["text", "key"] = "text"  # key: 5 mm bold, for bolt numbers and key figures
    voice: Literal["plain", "strong", "soft", "must", "construction"] = "plain"
    haloed: bool = True
    upright: bool = False  # read from the right, along a vertical line


class Leader(Frozen):
    """Words with a line to the place they speak of. Dashed, with a shut eye, where nobody looked."""

    shape: Literal["leader"] = "leader"
    at: Point  # the place, with a dot
    to: tuple[Point, ...]  # bends, the last is where the words stand
    lines: tuple[Text, ...]  # one or two short lines of words
    anchor: Literal["start", "middle", "end"] = "middle"
    below: bool = False  # words under the end point, not over it
    unseen: bool = False
    # On the first screen a box of 7 mm stands centred on the end point, the words beyond it (above, or below with `below`):
    # the name of its field and value, `where=input`.
    asks: str = ""
    goes_to: str = ""  # what a tap on the words opens


class Dimension(Frozen):
    """A dimension after ISO 129 between two points, its line `away` mm from them (left-hand side of a to b is positive)."""

    shape: Literal["dimension"] = "dimension"
    a: Point
    b: Point
    away: float
    words: Text
    direction: Literal["aligned", "across", "up"] = "aligned"  # across: horizontal distance; up: vertical distance
    voice: Literal["plain", "must"] = "plain"
    asks: str = ""  # in the formulary: the argument typed on this line


class Balloon(Frozen):
    """A numbered circle for a step, layer or bolt order. Full when done."""

    shape: Literal["balloon"] = "balloon"
    at: Point
    number: str
    r: float = 2.9
    full: bool = False
    ringed: bool = False  # a guide bush, a first bolt


class Arrow(Frozen):
    """A load or a way to go: a line with a filled head at its end."""

    shape: Literal["arrow"] = "arrow"
    points: tuple[Point, ...]
    role: Role = "solid"


class Mark(Frozen):
    """A sign: centre of gravity (quartered disc), shut eye, ground line with hatch below, drop of oil."""

    shape: Literal["mark"] = "mark"
    sign: Literal["centre of gravity", "eye", "drop"]
    at: Point  # its middle
    size: float = 3.0  # width of the eye, diameter of the disc, height of the drop


class Ground(Frozen):
    """The ground: a line from x to x over hatch."""

    shape: Literal["ground"] = "ground"
    y: float
    from_x: float
    to_x: float


class Area(Frozen):
    """A part of the drawing that can be tapped or circled: its name for the page, its outline."""

    shape: Literal["area"] = "area"
    outline: tuple[Point, ...]
    says: str
    goes_to: str = ""
    # `where=input` is picked with a tap; a bare name, `grease`, is typed or chosen here, as on a Dimension.
    asks: str = ""


Shape: TypeAlias = Annotated[
    Path | Circle | Hatch | Group | Label | Leader | Dimension | Balloon | Arrow | Mark | Ground | Area,
    Field(discriminator="shape"),
]
Group.model_rebuild()


class Drawing(Frozen):
    """Shapes on a field of `width` by `height` mm, with the sentence that says what is seen."""

    width: float = 88.0
    height: float
    says: str
    shapes: tuple[Shape, ...]
