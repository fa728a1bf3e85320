"""How a drive stands, by its outline: open, hatched one way, crossed, solid; dashed with a shut eye where nobody looked."""

from __future__ import annotations

from typing import Literal, TypeAlias

from axlewright.sheets.drawing import Drawing, Hatch, Mark, Shape
from axlewright.sheets.figures.shapes import Ring, drawn, polygon, rectangle, words
from axlewright.sheets.text import Text

State: TypeAlias = Literal["not looked at", "sound", "wearing", "failing", "let go", "drive out"]

_DRIVE: Ring = (
    (1.65, 1.53),
    (1.65, 16.48),
    (4.41, 16.48),
    (4.41, 14.29),
    (15.22, 14.29),
    (15.22, 16.48),
    (17.98, 16.48),
    (17.98, 1.53),
    (15.22, 1.53),
    (15.22, 3.71),
    (4.41, 3.71),
    (4.41, 1.53),
)


def drive(state: State, told: tuple[Text, ...] = ()) -> Drawing:
    """The outline of a drive in its condition, its word beside it, and what is told of it below.

    Args:
        state: sound, wearing, failing, let go, not looked at or drive out
        told: one or two short lines under the word

    Returns:
        the drawing
    """
    return drawn(
        18.6,
        f"A drive, {state}.",
        *filled(_DRIVE, state, 5.0),
        *words((23.0, 6.6), state, size="key"),
        *words((23.0, 12.6), *told, voice="soft"),
    )


def sign(state: State) -> Drawing:
    """A small field in the hatch of a condition, to stand beside its word in a line."""
    return drawn(4.0, f"{state}.", *filled(rectangle(0.2, 0.2, 6.1, 3.6), state, 4.0), width=6.5)


def filled(outline: Ring, state: State, eye: float) -> tuple[Shape, ...]:
    """An outline in its condition."""
    if state == "drive out":
        return (polygon("hidden", outline),)
    if state == "not looked at":
        xs, ys = [x for x, _ in outline], [y for _, y in outline]
        middle = (round((min(xs) + max(xs)) / 2, 2), round((min(ys) + max(ys)) / 2, 2))
        return (polygon("blank", outline), polygon("hidden", outline), Mark(sign="eye", at=middle, size=eye))
    return (polygon("blank", outline), Hatch(rings=(outline,), fill=state), polygon("subject", outline))
