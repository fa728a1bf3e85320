"""The greased bolt of the formulary: a drawing that is its own input, the torque one more dimension."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.sheets.drawing import Area, Arrow, Dimension, Drawing, Label, Path, Point, Shape
from axlewright.sheets.figures.shapes import (
    Anchor,
    Ring,
    box,
    circle,
    drawn,
    filled,
    head,
    line,
    lines,
    plain,
    polygon,
    rectangle,
    voiced,
    words,
)
from axlewright.sheets.text import Text

_SHANK = 16.0  # mm on paper, of the bolt's diameter
_LEFT, _RIGHT = 36.0, 52.0
_JOINT = 58.0  # y of the joint


@dataclass(frozen=True, slots=True)
class Bolt:
    """What is typed on the drawing, as words, and what is worked out of it."""

    head: Text  # head mark, 10.9
    thread: Text  # M20 × 2.5
    engaged: Text  # 27 mm
    grease: tuple[Text, ...]  # anti-seize, and where
    housing: Text  # iron 250
    clamp: Text  # 92 kN
    torque: Text = ()  # the result: 390 N·m
    window: Text = ()  # 333 to 451
    depth: float = 1.35  # engaged length in diameters


ASKS = ("head", "thread", "engaged", "grease", "housing", "clamp")


def bolt(typed: Bolt) -> Drawing:
    """A bolt through a flange into a housing: the depth of thread to scale with its diameter.

    Args:
        typed: words as they were typed, and the result

    Returns:
        the drawing, with a place that asks for each of `ASKS`
    """
    deep = _SHANK * min(max(typed.depth, 0.5), 2.2)
    end = _JOINT + deep
    bottom = end + 12.6
    shapes: list[Shape] = [
        *_housing(end, bottom),
        *_shank(end),
        line("centre", (44.0, 18.6), (44.0, bottom + 3.0)),
        *_greased(end),
        Arrow(points=((28.5, 43.6), (28.5, 56.4)), role="solid"),
        Arrow(points=((59.5, 43.6), (59.5, 56.4)), role="solid"),
        Dimension(a=(55.4, end), b=(55.4, _JOINT), away=-29.0, words=typed.engaged, direction="up", asks="engaged"),
        Dimension(
            a=(_LEFT, end + 3.0),
            b=(_RIGHT, end + 3.0),
            away=-(bottom + 3.6 - end),
            words=typed.thread,
            direction="across",
            asks="thread",
        ),
    ]
    shapes += _told((44.0, 35.2), "head", typed.head, "middle", (37.0, 28.0, 14.0, 11.0))
    shapes += [line("thin", (17.0, 31.8), (34.4, 59.0)), line("thin", (17.0, 31.8), (29.2, 39.8))]
    shapes += _told((0.5, 25.8), "grease", typed.grease[0], "start", (0.0, 20.8, 27.0, 11.0))
    shapes += words((0.5, 30.0), *typed.grease[1:], voice="soft")
    shapes += [circle("solid", 26.0, _JOINT + 18.0, 0.6), line("thin", (14.0, _JOINT + 15.4), (26.0, _JOINT + 18.0))]
    shapes += _told((0.5, _JOINT + 14.0), "housing", typed.housing, "start", (0.0, _JOINT + 8.6, 22.0, 7.4))
    shapes += [line("thin", (60.2, 49.0), (68.4, 49.0))]
    shapes += _told((69.4, 50.2), "clamp", typed.clamp, "start", (68.8, 45.2, 19.2, 7.4))
    shapes += _result(typed)
    return drawn(round(bottom + 9.4, 1), _says(typed), *shapes)


def _says(typed: Bolt) -> str:
    told = (typed.head, typed.thread, typed.engaged, *typed.grease, typed.housing, typed.clamp)
    result = f" Set {plain(typed.torque)}, window {plain(typed.window)}." if typed.torque else ""
    return f"A bolt through a flange into a housing. Typed: {'; '.join(plain(one) for one in told)}.{result}"


def _told(
    at: Point, name: str, told: Text, anchor: Anchor, field: tuple[float, float, float, float]
) -> tuple[Shape, ...]:
    return (
        Label(at=at, words=voiced(told, "strong"), anchor=anchor),
        Area(outline=rectangle(*field), says=f"{name}: {plain(told)}", asks=name),
    )


def _housing(end: float, bottom: float) -> tuple[Shape, ...]:
    """Housing with its drilled hole, flange with its clearance hole."""
    hole: Ring = ((35, _JOINT), (53, _JOINT), (53, end + 4.6), (44, end + 8.6), (35, end + 4.6))
    return (
        *filled(rectangle(23, _JOINT, 42, bottom - _JOINT), "cut"),
        polygon("paper-thin", hole),
        *filled(rectangle(23, 40, 42, _JOINT - 40), "cut"),
        box("blank", 34, 40, 20, _JOINT - 40),
        lines("thin", (((34, 40), (34, _JOINT)), ((54, 40), (54, _JOINT)))),
        line("outline", (23, 40), (65, 40)),
        line("outline", (23, _JOINT), (65, _JOINT)),
    )


def _shank(end: float) -> tuple[Shape, ...]:
    tip: Ring = ((_LEFT, 40), (_RIGHT, 40), (_RIGHT, end - 1.4), (50, end), (38, end), (_LEFT, end - 1.4))
    turns = [_JOINT + 1.5 + 2.3 * turn for turn in range(int((end - _JOINT - 2.4) / 2.3) + 1)]
    return (
        box("blank", 29, 27, 30, 13, 1.0),
        box("subject", 29, 27, 30, 13, 1.0),
        lines("thin", (((36.5, 27), (36.5, 40)), ((51.5, 27), (51.5, 40)))),
        polygon("blank", tip),
        polygon("subject", tip),
        lines("thin", [((_LEFT, y), (_RIGHT, y - 0.9)) for y in turns]),
    )


def _greased(end: float) -> tuple[Shape, ...]:
    """Grease in the thread and under the head."""
    deep = end - 1.0 - _JOINT
    return (box("oil", 34.6, _JOINT, 2, deep), box("oil", 51.4, _JOINT, 2, deep), box("oil", 29, 39.2, 30, 1.6))


def _result(typed: Bolt) -> tuple[Shape, ...]:
    """The torque as one more dimension, over the head."""
    if not typed.torque:
        return ()
    return (
        *words((44.0, 6.2), typed.torque, anchor="middle", voice="must", size="key"),
        *words((44.0, 12.0), typed.window, anchor="middle"),
        Path(d="M27 20.5A18 6 0 0 1 60.4 19.2", role="limit"),
        head((62.0, 22.6), (1.5, 2.9), 3.0, 1.8, "solid-must"),
    )
