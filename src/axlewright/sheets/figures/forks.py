"""The wheel on pallet forks, to scale, and what the forks carry the farther out it lies. Places in metres."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from axlewright.sheets.drawing import Circle, Dimension, Drawing, Ground, Label, Leader, Mark, Path, Point, Shape
from axlewright.sheets.figures.shapes import FIELD, box, circle, drawn, head, line, lines, plain, polygon, voiced, words
from axlewright.sheets.text import Text

SCALES = (20.0, 25.0, 30.0, 40.0, 50.0)
_TALLEST = 62.0  # mm, of wheel and forks over the ground
_HEEL = 8.0  # mm, fork face from the left edge
LETTER = 2.2  # mm, of a letter in the widest face
CHAINED = 0.64  # of the wheel's height over the forks: where it is chained, above its middle
CHART = 46.0  # mm, height of the chart


@dataclass(frozen=True, slots=True)
class WheelOnForks:
    """A wheel on forks: its size, and how it stands.

    Attributes:
        standoff: fork face to wheel [m]
        width: of the tyre [m]
        diameter: of the tyre [m]
        sunk: how far it lies below the forks' upper face, between them [m]
        crosswise: its axle lies across the forks
        fork: length of the forks [m]
        height: of the forks' upper face over the ground [m]
    """

    standoff: float
    width: float
    diameter: float
    sunk: float = 0.0
    crosswise: bool = False
    fork: float = 1.2
    height: float = 0.25

    @property
    def deep(self) -> float:
        """How far out it reaches along the forks."""
        return self.diameter if self.crosswise else self.width

    @property
    def centre(self) -> float:
        """Fork face to the wheel's middle."""
        return self.standoff + self.deep / 2

    def scale(self) -> float:
        """The largest of the usual scales at which it fits its field."""
        tall, wide = self.diameter + self.height, max(self.fork, self.standoff + self.deep)
        fits = (s for s in SCALES if tall * 1e3 / s <= _TALLEST and wide * 1e3 / s <= FIELD - _HEEL - 16.0)
        return next(fits, 60.0)


def wheel_on(one: WheelOnForks, told: Mapping[str, Text] = {}, scale: float | None = None) -> Drawing:
    """The wheel on forks from the side, chained above its middle.

    Args:
        one: how it stands
        told: words: `load` at the centre; on the dimensions `centre` (fork face to middle) and `diameter`
        scale: 25 for 1:25; the largest that fits where none is given

    Returns:
        the drawing
    """
    k = 1000.0 / (scale or one.scale())
    top = 7.0  # of the wheel
    low = top + one.diameter * k
    fork_y = low - one.sunk * k
    ground = fork_y + one.height * k
    middle: Point = (_HEEL + one.centre * k, (top + low) / 2)
    near = _HEEL + one.standoff * k
    chain_y = fork_y - CHAINED * (fork_y - top)
    blade = ((_HEEL, fork_y), (_HEEL + one.fork * k, fork_y + 1.0), (_HEEL + one.fork * k, fork_y + 1.5), (_HEEL, fork_y + 2.2))  # fmt: skip
    shapes: list[Shape] = [
        Ground(y=round(ground, 2), from_x=0.0, to_x=FIELD),
        box("paper", _HEEL - 2.2, top + 6.0, 2.2, fork_y + 2.2 - top - 6.0),
        *(box("paper-thin", _HEEL - 5.2, y, 3.0, 3.0) for y in (top + 10.0, fork_y - 8.0)),
    ]
    tyre = _round(one, middle, k) if one.crosswise else _edge_on(one, near, top, k)
    shapes += [*tyre, polygon("paper", blade)] if not one.crosswise else [polygon("paper", blade), *tyre]
    far = near + one.deep * k
    shapes.append(box("solid", _HEEL, chain_y, far + 0.6 - _HEEL, 0.9))
    shapes.append(Mark(sign="centre of gravity", at=middle, size=4.4))
    if "load" in told:
        shapes.append(Leader(at=middle, to=((far + 5.0, middle[1] + 9.0),), lines=(voiced(told["load"], "strong"),), anchor="start"))  # fmt: skip
    shapes += words((far + 2.4, chain_y + 1.2), "chain", voice="construction")
    if "centre" in told:
        under = ground + 3.0
        shapes.append(Dimension(a=(_HEEL, under), b=(middle[0], under), away=-5.0, words=told["centre"], direction="across"))  # fmt: skip
    if "diameter" in told:
        shapes.append(Dimension(a=(far, low), b=(far, top), away=max(-32.0, far - FIELD + 2.0), words=told["diameter"], direction="up"))  # fmt: skip
    says = f"The wheel on pallet forks from the side, 1:{1000 / k:g}, its axle {'across' if one.crosswise else 'along'} the forks, low, chained to the carriage above its middle."
    return drawn(round(ground + (11.0 if "centre" in told else 3.4), 1), says, *shapes)


def _edge_on(one: WheelOnForks, near: float, top: float, k: float) -> tuple[Shape, ...]:
    """The tread from the side: lugs, and rim and hub behind it."""
    wide, tall = one.width * k, one.diameter * k
    lug = [
        ((near + 1.0, top + tall * n / 14 + 1.6), (near + wide - 1.0, top + tall * n / 14 - 0.6)) for n in range(1, 14)
    ]
    return (
        box("paper", near, top, wide, tall, min(3.0, wide / 3)),
        lines("construction", lug),
        line("centre", (near - 3.0, top + tall / 2), (near + wide + 3.0, top + tall / 2)),
    )


def _round(one: WheelOnForks, middle: Point, k: float) -> tuple[Shape, ...]:
    """The wheel from its side."""
    r = one.diameter / 2 * k
    rings: tuple[Circle, ...] = (circle("paper", *middle, r), circle("thin", *middle, 0.56 * r), circle("construction", *middle, 0.16 * r))  # fmt: skip
    return rings


@dataclass(frozen=True, slots=True)
class Load:
    """Something on the forks: how far out it lies [m], what is asked of them [kg], and its name with the figure."""

    at: float
    asked: float
    told: Text


@dataclass(frozen=True, slots=True)
class Carries:
    """What forks carry by the distance of the load's middle from their face: corners and points of the line [m, kg]."""

    line: Sequence[tuple[float, float]]
    told: Text  # beside the level part: what the plate says
    centre: Text  # of the load centre that the plate means
    rated_centre: float

    def reach(self) -> float:
        return max(at for at, _ in self.line)


def carries(one: Carries, loads: Sequence[Load]) -> Drawing:
    """What the forks carry, and what is asked of them where it lies: under the line it holds.

    Args:
        one: the line
        loads: what is to be carried

    Returns:
        the drawing
    """
    left, foot, wide = 4.0, CHART - 8.0, FIELD - 8.0
    highest = 1.22 * max([kilos for _, kilos in one.line] + [load.asked for load in loads])

    def onto(at: float, kilos: float) -> Point:
        return (round(left + wide * at / one.reach(), 2), round(foot - (foot - 6.0) * kilos / highest, 2))

    shapes: list[Shape] = [
        line("thin", (left, foot), (left + wide + 2.0, foot)),
        line("thin", (left, foot), (left, 4.0)),
        head((left, 2.6), (0.0, -1.0)),
        head((left + wide + 3.4, foot), (1.0, 0.0)),
        line("limit", *(onto(*point) for point in one.line)),
    ]
    level = onto(0.0, one.line[0][1])
    shapes.append(Label(at=(left + 2.0, level[1] - 1.4), words=voiced(one.told, "must")))
    x = onto(one.rated_centre, 0.0)[0]
    shapes.append(line("hair", (x, foot), (x, onto(one.rated_centre, one.line[0][1])[1])))
    shapes.append(Label(at=(x, foot + 5.2), words=one.centre, anchor="middle", voice="construction"))
    for load in loads:
        shapes += _asked(onto(load.at, load.asked), foot, load)
    says = "What the forks carry, by how far out the load’s middle lies: level to the plate’s load centre, then falling. Under the line it holds."
    return drawn(CHART, says, *shapes)


def _asked(at: Point, foot: float, load: Load) -> tuple[Shape, ...]:
    """A load as a post with a dot on it, its name beside."""
    right = at[0] + 2.2 + LETTER * len(plain(load.told)) <= FIELD  # else it would stand across the other's post
    post: Path = line("outline", (at[0], foot), at)
    return (
        post,
        circle("solid", *at, 1.0),
        Label(at=(at[0] + (2.2 if right else -2.2), at[1] + 1.2), words=voiced(load.told, "strong"), anchor="start" if right else "end"),
    )  # fmt: skip


def gap_for(diameter: float, share: float) -> float:
    """Gap between the forks that is a share of the wheel's radius [m]."""
    return share * diameter / 2


def sunk_in(diameter: float, gap: float) -> float:
    """How far a wheel sinks between forks so far apart [m]."""
    r = diameter / 2
    return r - math.sqrt(max(r * r - gap * gap / 4, 0.0))
