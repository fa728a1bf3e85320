"""Empty rooms: what would stand there, dashed."""

from __future__ import annotations

from axlewright.sheets.drawing import Drawing, Ground, Group, Label, Shape
from axlewright.sheets.figures import condition, outlines
from axlewright.sheets.figures.outlines import Set
from axlewright.sheets.figures.shapes import Ring, box, drawn, line, polygon, rectangle
from axlewright.sheets.text import text

_DRIVE: Ring = (
    (20, 7),
    (23, 7),
    (23, 13),
    (46, 13),
    (58, 18),
    (64, 18),
    (64, 9),
    (67, 9),
    (67, 39),
    (64, 39),
    (64, 30),
    (58, 30),
    (46, 35),
    (23, 35),
    (23, 41),
    (20, 41),
)


def shelf() -> Drawing:
    """An empty saddle on a pallet, and above it the drive that would sit there."""
    ground = 52.0
    pallet = [
        box("paper", 14, ground - 6.0, 60, 2.2),
        box("paper", 14, ground - 2.2, 60, 2.2),
        *(box("paper", x, ground - 3.8, 6, 1.6) for x in (14, 41, 68)),
    ]
    saddle = [
        polygon("paper", ((x, ground - 6), (x + 8, ground - 6), (x + 6.4, ground - 12.4), (x + 1.6, ground - 12.4)))
        for x in (22, 58)
    ]
    return drawn(
        55.4,
        "An empty saddle on a pallet, where a spare drive would sit.",
        Ground(y=ground, from_x=0.0, to_x=88.0),
        *pallet,
        *saddle,
        polygon("hidden", _DRIVE),
        line("centre", (10, 24), (78, 24)),
        Label(at=(44.0, 25.6), words=text("no spare yet"), anchor="middle", size="key"),
    )


def trouble() -> Drawing:
    """A machine with every drive dashed and a shut eye in it: no trouble is written down, nobody has looked."""
    return _unseen("forage-harvester", "No trouble is written down. That is not the same as sound: nobody has looked.")


def yard() -> Drawing:
    """A machine that is not there yet, dashed."""
    kind, on = "walker-combine", Set((44.0, 27.6), 100.0)
    one = outlines.outline(kind)
    hull = [polygon("hidden", [on(x, y) for x, y in shape["ring"]]) for shape in one.body if "ring" in shape]
    hull += [
        polygon("hidden", [on(x, y) for x, y in rectangle(*shape["box"][:4])])
        for shape in one.body
        if "box" in shape and shape["role"] == "paper"
    ]
    wheels = [
        box("hidden", at[0] - width / 2, at[1] - diameter / 2, width, diameter, 1.0)
        for corner in ("front-left", "front-right", "rear-left", "rear-right")
        for at, diameter, width in [outlines.wheel_at(kind, corner, on)]
    ]
    return drawn(
        82.0,
        "The outline of a machine, dashed, where the first machine of this yard would stand.",
        *hull,
        *wheels,
        Label(at=(44.0, 40.6), words=text("no machine yet"), anchor="middle", size="key"),
    )


def bench() -> Drawing:
    """A drive in parts that is not there: the bench is free."""
    ground = 52.0
    parts: list[Shape] = [
        box("hidden", 12, ground - 22, 3, 16),
        box("hidden", 17, ground - 19, 9, 10),
        box("hidden", 30, ground - 18, 8, 8, 1.0),
        polygon(
            "hidden",
            (
                (42, ground - 20),
                (58, ground - 20),
                (64, ground - 17),
                (64, ground - 11),
                (58, ground - 8),
                (42, ground - 8),
            ),
        ),
        box("hidden", 68, ground - 22, 3, 16),
    ]
    return drawn(
        55.4,
        "A free bench, where a drive would lie in parts.",
        Ground(y=ground, from_x=0.0, to_x=88.0),
        box("paper", 6, ground - 4, 76, 2.4),
        *(box("paper", x, ground - 1.6, 4, 1.6) for x in (12, 72)),
        *parts,
        line("centre", (8, ground - 14), (78, ground - 14)),
        Label(at=(44.0, ground - 26.0), words=text("nothing on the bench"), anchor="middle", size="key"),
    )


def _unseen(kind: str, says: str) -> Drawing:
    on = Set((44.0, 26.0), 100.0)
    shapes: list[Shape] = []
    for corner in ("front-left", "front-right"):
        at, diameter, width = outlines.wheel_at(kind, corner, on)
        outline = outlines.drive_at(kind, corner, on)
        shapes += [*outlines.tyre(*at, diameter, width), *condition.filled(outline, "not looked at", 3.4)]
    rear = [outlines.wheel_at(kind, corner, on) for corner in ("rear-left", "rear-right")]
    wheels = [part for at, diameter, width in rear for part in outlines.tyre(*at, diameter, width)]
    body = (*outlines.body(kind, on), *wheels)
    return drawn(72.0, says, Group(shapes=body, context=True), *shapes)
