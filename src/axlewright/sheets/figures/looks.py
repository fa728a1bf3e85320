"""The looks of the First look, and what the wheel shows: small pictures of 26 by 20 mm, none to scale."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from axlewright.sheets.drawing import Arrow, Drawing, Ground, Path, Point, Shape
from axlewright.sheets.figures import level, plug
from axlewright.sheets.figures.shapes import box, circle, drawn, head, line, lines, moved, polygon

WIDTH, HEIGHT = 26.0, 20.0


def picture(name: str) -> Drawing:
    """The picture of a look or of what the wheel shows: wipe, chalk, breather, level, plug, lean, streak, rock."""
    says, draw = _LOOKS[name]
    return drawn(HEIGHT, says, *draw(), width=WIDTH)


def wipe() -> tuple[Shape, ...]:
    return (
        polygon("paper", ((3, 16.6), (6, 4), (22, 2.6), (24, 15.4), (13, 18.4))),
        Path(d="M10 10c.6 -3.4 6 -4.4 7.6 -1.6s.6 5.2 -2.6 5.6s-5.4 -1 -5 -4z", role="paste"),
        Path(d="M8 10c.4 -5.4 9 -6.8 11.4 -2s.6 7.6 -4.2 8s-7.6 -2 -7.2 -6z", role="construction"),
    )


def chalk() -> tuple[Shape, ...]:
    return (
        circle("paper", 11, 10, 8.4),
        circle("thin", 11, 10, 3.6),
        lines("construction", speckle(11, 10, 8.1, 74)),
        Path(d="M12.6 13.2q1.4 2.6 1.2 5.6l1.6 -.4q-.4 -3.4 -2 -5.6z", role="solid-construction"),
        line("thin", (24.5, 17), (17, 14.5)),
        head((15.8, 14.1), (-8.7, -2.9), 2.2, 0.9),
    )


def speckle(x: float, y: float, r: float, count: int) -> tuple[tuple[Point, Point], ...]:
    """Grains spread evenly over a disc: each a golden angle on from the last."""
    golden = math.pi * (3 - math.sqrt(5))
    grains = []
    for i in range(count):
        reach, turn = r * math.sqrt((i + 0.5) / count), i * golden
        at = (x + reach * math.cos(turn), y + reach * math.sin(turn))
        grains.append((at, (at[0] + 0.34, at[1])))
    return tuple(grains)


def breather() -> tuple[Shape, ...]:
    return (
        Ground(y=17.0, from_x=2.0, to_x=24.0),
        box("paper", 11, 11.4, 4, 5.6),
        box("paper", 9, 6.6, 8, 4.8, 1.2),
        Arrow(points=((8, 10), (4.2, 7.3)), role="thin"),
        Arrow(points=((18, 10), (21.8, 7.3)), role="thin"),
        Arrow(points=((13, 5), (13, 1)), role="thin"),
    )


def finger() -> tuple[Shape, ...]:
    return (moved(0.8, 0.0, *level.hole("low", behind=15.4), line("hidden", (9, level.LIP), (24.4, level.LIP))),)


def magnet() -> tuple[Shape, ...]:
    return (moved(13.0, 10.0, circle("paper", 0, 0, 9.2), circle("thin", 0, 0, plug.MAGNET), *plug.metal("flakes")),)


def lean() -> tuple[Shape, ...]:
    return (
        line("outline", (0, 19), (26, 19)),
        box("paper", 3, 4, 5, 15, 1.2),
        moved(20.0, 19.0, box("paper", -2.5, -15, 5, 15, 1.2), turn=9.0),
        line("construction", (8, 11.5), (18.4, 11.5)),
        line("centre", (20, 19), (20, 1.4)),
        Path(d="M20 2.6a16.4 16.4 0 0 1 2.6 .2", role="limit"),
    )


def streak() -> tuple[Shape, ...]:
    return (
        circle("thin", 12, 9.6, 7.6),
        polygon(
            "paper",
            tuple((12 + 6.4 * math.sin(math.tau * i / 6), 9.6 - 6.4 * math.cos(math.tau * i / 6)) for i in range(6)),
        ),
        circle("thin", 12, 9.6, 3.2),
        Path(d="M15.4 15.2q3 .8 4.6 4.2h-2.6q-1.6 -2.6 -3.6 -3.2z", role="solid-must"),
        lines("limit", (((8.2, 4.4), (6.4, 2.0)), ((3.0, 3.6), (5.8, 6.2)))),
    )


def rock() -> tuple[Shape, ...]:
    return (
        line("outline", (0, 19), (26, 19)),
        box("paper", 8, 3, 5, 16, 1.2),
        line("thin", (16, 5), (16, 17)),
        line("thin", (18.4, 11), (22, 11)),
        head((16.4, 11), (-1, 0), 2.2, 1.0),
        head((24, 11), (1, 0), 2.2, 1.0),
    )


_LOOKS: Mapping[str, tuple[str, Callable[[], tuple[Shape, ...]]]] = {
    "wipe": ("White paper with a wet blot from the wet place.", wipe),
    "chalk": ("A hub dusted with chalk; an arrow shows where the first wet line starts.", chalk),
    "breather": ("The breather, to be blown through all ways.", breather),
    "level": ("A crooked finger in the level hole touches oil below the mark.", finger),
    "plug": ("A magnet plug with flakes on it.", magnet),
    "lean": ("Two wheels from behind: one leans.", lean),
    "streak": ("A wheel nut with a rust streak below it and a paint mark that has moved.", streak),
    "rock": ("A wheel from behind that moves to and fro.", rock),
}
NAMES = tuple(_LOOKS)
