"""Timber, plates and beams in elevation: what a crib is drawn with."""

from __future__ import annotations

from axlewright.sheets.drawing import Shape
from axlewright.sheets.figures.shapes import box, line, lines, words


def along(x: float, y: float, width: float, height: float) -> tuple[Shape, ...]:
    """A timber that lies along the picture: its grain, upper left corner here."""
    inside = 0.54
    grain = (
        (
            (x + inside, y + 0.33 * height),
            (x + 0.43 * width, y + 0.36 * height),
            (x + width - inside, y + 0.3 * height),
        ),
        (
            (x + inside, y + 0.68 * height),
            (x + 0.65 * width, y + 0.64 * height),
            (x + width - inside, y + 0.7 * height),
        ),
    )
    return (box("paper", x, y, width, height), lines("construction", grain))


def end(x: float, y: float, width: float, height: float) -> tuple[Shape, ...]:
    """A timber seen on its end: crossed."""
    cross = (((x, y), (x + width, y + height)), ((x + width, y), (x, y + height)))
    return (box("paper", x, y, width, height), lines("construction", cross))


def layers(
    middle: float,
    ground: float,
    count: int,
    length: float,
    width: float,
    height: float,
    inner: float,
    on_end: int = 2,
    first_on_end: bool = False,
) -> tuple[Shape, ...]:
    """Layers of a crib from the front: the lowest along the picture, the next on end, and so on up [mm].

    Args:
        middle: x of the crib's middle
        ground: y of what it stands on
        count: layers
        length: of a timber
        width: of a timber
        height: of a timber
        inner: outer edge to outer edge of the timbers seen on end
        on_end: how many are seen on end in a layer
        first_on_end: the lowest layer is the one seen on end

    Returns:
        the timbers, from below
    """
    shapes: list[Shape] = []
    for layer in range(count):
        top = ground - (layer + 1) * height
        if (layer % 2 == 0) != first_on_end:
            shapes += along(middle - length / 2, top, length, height)
            continue
        pitch = (inner - width) / (on_end - 1)
        for place in range(on_end):
            shapes += end(middle - inner / 2 + place * pitch, top, width, height)
    return tuple(shapes)


def beam(x: float, y: float, width: float, height: float, name: str = "axle beam") -> tuple[Shape, ...]:
    """A beam that goes on to both sides, cut by break lines."""
    shapes: list[Shape] = [
        box("blank", x, y, width, height),
        line("outline", (x, y), (x + width, y)),
        line("outline", (x, y + height), (x + width, y + height)),
    ]
    step = y + 0.5 * height
    for at in (x, x + width):
        zigzag = ((at, y - 1.4), (at, step - 1.4), (at - 1.6, step - 0.7), (at + 1.6, step + 0.7), (at, step + 1.4))
        shapes.append(line("construction", *zigzag, (at, y + height + 1.4)))
    return (*shapes, *words((x + width / 2, step + 1.2), name, anchor="middle"))
