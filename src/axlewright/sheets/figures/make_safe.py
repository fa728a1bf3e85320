"""Make it safe: a wheel on the ground chocked and taped off, and a raised corner rested on wood."""

from __future__ import annotations

import math

from axlewright.sheets.drawing import Dimension, Drawing, Ground, Leader, Path, Shape
from axlewright.sheets.figures import timber
from axlewright.sheets.figures.shapes import box, circle, drawn, line, lines, polygon, ring, words
from axlewright.sheets.text import Text, text

SCALE = 15.0  # 1:15, of the raised corner
KEEP_OFF: Text = text("3 m and more all round")


def on_its_wheel(keep_off: Text = KEEP_OFF) -> Drawing:
    """A wheel on the ground, from the side: chocks both sides, tape all round. Not to scale.

    Args:
        keep_off: words on the dimension from tape to tape

    Returns:
        the drawn
    """
    ground = 56.4
    return drawn(
        68.0,
        "A wheel on the ground, chocked on both sides and taped off. Nobody beside it or in line with it.",
        Ground(y=ground, from_x=0.0, to_x=88.0),
        *wheel(44.0, ground - 22.5, 22.5),
        polygon("solid", ((34.5, ground), (23, ground), (23, ground - 8.5), (24.4, ground - 8.5))),
        polygon("solid", ((53.5, ground), (65, ground), (65, ground - 8.5), (63.6, ground - 8.5))),
        *words((21.0, ground - 10.4), "chock", anchor="end", voice="strong"),
        *words((67.0, ground - 10.4), "chock", voice="strong"),
        box("solid", 2.55, ground - 22, 0.9, 22),
        box("solid", 84.55, ground - 22, 0.9, 22),
        Path(d=f"M3 {ground - 18.5}q41 5 82 0", role="must-dashed"),
        *words((44.0, 4.8), "nobody beside it or in line with it", anchor="middle", voice="must", strong=True),
        line("thin", (44.0, 6.0), (44.0, ground - 46.2)),
        Dimension(a=(3.0, ground + 3.0), b=(85.0, ground + 3.0), away=-5.4, words=keep_off),
    )


def wheel(x: float, y: float, r: float) -> tuple[Shape, ...]:
    """A wheel from the side, its middle here: tyre with lugs, rim, nuts."""

    def at(reach: float, turn: float) -> tuple[float, float]:
        return (x + r * reach * math.cos(turn), y + r * reach * math.sin(turn))

    turns = [math.tau * i / 28 for i in range(28)]
    lugs = [(at(0.81, turn), at(0.985, turn + 0.09)) for turn in turns]
    return (
        polygon("blank", ring(x, y, r)),
        circle("outline", x, y, r),
        circle("thin", x, y, 0.8 * r),
        lines("thin", lugs),
        circle("paper", x, y, 0.49 * r),
        circle("thin", x, y, 0.18 * r),
        *(circle("paper-thin", *at(0.355, math.tau * i / 10), 0.9) for i in range(10)),
    )


def already_raised() -> Drawing:
    """A corner that hangs already: rest it on wood, jack down and out. From the front, 1:15."""
    ground = 57.0
    length, side = 800 / SCALE, 120 / SCALE
    middle = 38.0
    left = middle - 560 / SCALE / 2
    top = ground - 4 * side
    return drawn(
        61.0,
        "If the corner hangs already: rest it on wood. A crib under the axle beam with packer and plate; the jack is let down and taken out.",
        Ground(y=ground, from_x=4.0, to_x=84.0),
        *timber.layers(middle, ground, 4, length, side, side, 560 / SCALE),
        box("solid", left, top - 0.9, 560 / SCALE, 0.9),
        box("paper", left, top - 2.6, 560 / SCALE, 1.7),
        *timber.beam(middle - 28.66, top - 14.0, 57.33, 11.4),
        box("paper-thin", 74, ground - 13, 5, 11.6),
        box("paper-thin", 72, ground - 1.4, 9, 1.4),
        Leader(at=(76.5, ground - 13), to=((76.5, ground - 17.0),), lines=(text("jack down,"), text("and out"))),
    )
