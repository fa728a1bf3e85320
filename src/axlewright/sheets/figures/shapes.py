"""What every figure is built with: lines, boxes, rings of points, and the scale that turns metres into paper."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Literal, TypeAlias

from axlewright.sheets.drawing import Circle, Drawing, Group, Hatch, Hatching, Label, Path, Point, Role, Shape
from axlewright.sheets.text import Day, Go, Run, Shown, Text

Anchor: TypeAlias = Literal["start", "middle", "end"]
Voice: TypeAlias = Literal["plain", "strong", "soft", "must", "construction"]

Ring: TypeAlias = tuple[Point, ...]

FIELD = 88.0  # mm, one field of a sheet
LINE_STEP = 4.2  # mm, from one line of words to the next


def number(value: float) -> str:
    """A coordinate as written in a path: to a hundredth of a millimetre, no more digits than it needs."""
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def trace(points: Iterable[Point], closed: bool = True) -> str:
    """The path through these points."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + ("z" if closed else "")


def polygon(role: Role, points: Iterable[Point]) -> Path:
    return Path(d=trace(points), role=role)


def line(role: Role, *points: Point) -> Path:
    """An open line through these points."""
    return Path(d=trace(points, closed=False), role=role)


def lines(role: Role, pieces: Iterable[Sequence[Point]]) -> Path:
    """Several open lines as one path."""
    return Path(d="".join(trace(piece, closed=False) for piece in pieces), role=role)


def box(role: Role, x: float, y: float, width: float, height: float, corner: float = 0.0) -> Path:
    """A rectangle by its upper left corner, its corners rounded when asked."""
    if corner <= 0.0:
        return polygon(role, rectangle(x, y, width, height))
    r = number(corner)
    across, down = number(width - 2 * corner), number(height - 2 * corner)
    d = f"M{number(x + corner)} {number(y)}h{across}a{r} {r} 0 0 1 {r} {r}v{down}a{r} {r} 0 0 1 -{r} {r}"
    return Path(d=f"{d}h-{across}a{r} {r} 0 0 1 -{r} -{r}v-{down}a{r} {r} 0 0 1 {r} -{r}z", role=role)


def rectangle(x: float, y: float, width: float, height: float) -> tuple[Point, ...]:
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def circle(role: Role, x: float, y: float, r: float) -> Circle:
    return Circle(at=(x, y), r=r, role=role)


def ring(x: float, y: float, r: float, count: int = 72) -> tuple[Point, ...]:
    """Points round a circle, for areas to be hatched or tapped."""
    return tuple((x + r * math.cos(math.tau * i / count), y + r * math.sin(math.tau * i / count)) for i in range(count))


def filled(points: Sequence[Point], fill: Hatching, role: Role = "paper") -> tuple[Shape, ...]:
    """A body cut through, or a drive in its condition: covered with paper, hatched, outlined."""
    return (polygon("blank", points), Hatch(rings=(tuple(points),), fill=fill), polygon(_BARE.get(role, role), points))


_BARE: dict[Role, Role] = {"paper": "outline", "paper-thin": "thin"}  # what is drawn round it once it is hatched


def words(
    at: Point,
    *told: str | Text,
    anchor: Anchor = "start",
    voice: Voice = "plain",
    size: Literal["text", "key"] = "text",
    step: float = LINE_STEP,
    strong: bool = False,
) -> tuple[Label, ...]:
    """Lines of words, one below the other; `strong` makes those of another voice bold too."""
    made = []
    for row, piece in enumerate(told):
        text = voiced(piece, "strong") if strong else (piece,) if isinstance(piece, str) else piece
        made.append(Label(at=(at[0], at[1] + row * step), words=text, anchor=anchor, voice=voice, size=size))
    return tuple(made)


def voiced(told: str | Text, voice: Literal["strong", "must", "soft", "struck"]) -> Text:
    """The same words in another voice."""
    return (Run(voice=voice, words=_flat((told,) if isinstance(told, str) else told)),)


def _flat(text: Text) -> tuple[str | Shown | Day, ...]:
    return tuple(
        piece.words if isinstance(piece, Go) else piece
        for outer in text
        for piece in (outer.words if isinstance(outer, Run) else (outer,))
    )


def bar(x: float, y: float, length: float, told: str) -> tuple[Shape, ...]:
    """A bar to lay a rule against, with its length over it: it proves that the paper is true to size."""
    return (
        line("dimension", (x, y), (x + length, y)),
        line("thin", (x, y - 1.2), (x, y + 1.2)),
        line("thin", (x + length, y - 1.2), (x + length, y + 1.2)),
        head((x, y), (-1.0, 0.0)),
        head((x + length, y), (1.0, 0.0)),
        *words((x + length / 2, y - 1.6), told, anchor="middle"),
    )


def head(tip: Point, toward: Point, length: float = 2.4, width: float = 0.84, role: Role = "solid") -> Path:
    """A filled arrowhead with its tip here, pointing that way."""
    size = math.hypot(*toward)
    ax, ay = toward[0] / size, toward[1] / size
    back = (tip[0] - ax * length, tip[1] - ay * length)
    half = width / 2
    return polygon(role, (tip, (back[0] - ay * half, back[1] + ax * half), (back[0] + ay * half, back[1] - ax * half)))


def drop(x: float, y: float, r: float) -> Path:
    """A drop of oil, its tip here."""
    n = number
    d = f"M{n(x)} {n(y)}q{n(r)} {n(1.3 * r)} {n(r)} {n(2 * r)}a{n(r)} {n(r)} 0 0 1 -{n(2 * r)} 0q0 -{n(0.7 * r)} {n(r)} -{n(2 * r)}z"
    return Path(d=d, role="solid-construction")


def moved(x: float, y: float, *shapes: Shape, turn: float = 0.0, mirrored: bool = False) -> Group:
    return Group(shapes=shapes, move=(x, y), turn=turn, mirrored=mirrored)


def plain(text: Text) -> str:
    """The words of a text without its numbers, for the sentence that says what is seen."""
    return " ".join("".join(piece for piece in _flat(text) if isinstance(piece, str)).split())


def drawn(height: float, says: str, *shapes: Shape, width: float = FIELD) -> Drawing:
    return Drawing(width=width, height=height, says=says, shapes=shapes)
