"""A drive that is kept: in its saddle on a pallet, with its tag and what is written on it."""

from __future__ import annotations

from axlewright.sheets.drawing import Drawing, Ground, Label, Leader, Point, Shape
from axlewright.sheets.figures import drive_side
from axlewright.sheets.figures.drive_side import Drive, Space
from axlewright.sheets.figures.shapes import box, drawn, line, polygon
from axlewright.sheets.text import Text

SCALES = (10.0, 12.5, 15.0, 20.0, 25.0)
_MOST = (46.0, 36.0)  # mm: length and flange of a drive that still leaves room for words
_GROUND, _PALLET, _MIDDLE = 62.0, 6.0, 30.0  # mm


def scale_of(one: Drive) -> float:
    """The largest of the usual scales at which it fits its field."""
    fits = (s for s in SCALES if one.length * 1e3 / s <= _MOST[0] and one.flange * 1e3 / s <= _MOST[1])
    return next(fits, SCALES[-1])


def on_pallet(one: Drive, scale: float, says: str, tag: Text = (), marks: tuple[Text, ...] = ()) -> Drawing:
    """A spare as it lies: on timber, low, strapped.

    Args:
        one: its size
        scale: of the drawing
        says: the sentence that says what is seen
        tag: what hangs on its input
        marks: numbers and words written on it, at most two lines
    """
    k = 1e3 / scale
    start = 44.0 - one.length * k / 2
    axis = _GROUND - _PALLET - 5.0 - one.flange * k / 2

    def onto(at: Space) -> Point:
        return (start + at[0] * k, axis - at[2] * k)

    foot = _GROUND - _PALLET
    shapes: list[Shape] = [
        Ground(y=_GROUND, from_x=0.0, to_x=88.0),
        box("paper", 10, _GROUND - 6.0, 68, 2.2),
        box("paper", 10, _GROUND - 2.2, 68, 2.2),
        *(box("paper", x, _GROUND - 3.8, 6, 1.6) for x in (10, 41, 72)),
    ]
    for share in (0.24, 0.8):
        x, under = start + share * one.length * k, axis + one.half_at(share * one.length) * k
        shapes.append(polygon("paper", ((x - 4, foot), (x + 4, foot), (x + 2.6, under), (x - 2.6, under))))
    shapes += [*drive_side.from_side(one, onto), drive_side.axis(one, onto, 0.05)]
    if tag:
        hung = (start - 0.12 * one.length * k, axis + 3.0)
        shapes += [
            line("thin", (hung[0], axis), (hung[0], hung[1])),
            box("paper", hung[0] - 3.4, hung[1], 6.8, 9.0, 0.6),
            Label(at=(hung[0] - 4.4, hung[1] + 5.6), words=tag, voice="must", anchor="end"),  # clear of its saddle
        ]
    if marks:
        at = onto((one.length * 0.42, 0.0, one.half_at(one.length * 0.42) * 0.6))
        shapes.append(Leader(at=at, to=((46.0, 4.4 + 4.4 * len(marks[1:2])),), lines=marks[:2], anchor="start"))
    return drawn(_GROUND + 4.0, says, *shapes)
