"""The cab card and the key tags as drawings, true size, to cut out: cut lines dashed, folds dotted, a ring for the wire."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from axlewright.plan.sheet.measure import broken
from axlewright.sheets import Drawing, Text
from axlewright.sheets.drawing import Group, Label, Role, Shape
from axlewright.sheets.figures.key_tag import hole
from axlewright.sheets.figures.machine import CornerLook
from axlewright.sheets.figures.machine import plan as machine_plan
from axlewright.sheets.figures.shapes import FIELD, box, drawn, line, moved, plain

Voice: TypeAlias = Literal["plain", "strong", "soft", "must"]

SIZE = 10.6  # points that words are broken by: 9.1 on paper, but a screen's own face may be a sixth wider
STEP = 4.2  # mm from line to line
EDGE = 4.0  # mm between cut line and words
TAG = 24.5  # mm of one side of a tag
NAMED = 29.0  # mm of a grid that its rows' names take
HOLE = 12.0  # mm kept for the ring


@dataclass(slots=True)
class Stack:
    """Words and lines from the top down, in a strip of paper."""

    left: float = EDGE
    right: float = FIELD - EDGE
    y: float = 0.0
    shapes: list[Shape] = field(default_factory=list)
    told: list[str] = field(default_factory=list)

    def key(self, words: Text, must: bool = False) -> None:
        self.y += 6.2
        self.shapes.append(Label(at=(self.left, self.y), words=words, size="key", voice="must" if must else "strong"))
        self.told.append(plain(words))

    def line(self, words: Text, voice: Voice = "plain") -> None:
        """Words on one line, as they are."""
        self.y += STEP
        self.shapes.append(Label(at=(self.left, self.y), words=words, voice=voice))
        self.told.append(plain(words))

    def words(self, words: str, voice: Voice = "plain") -> None:
        """Words broken into as many lines as they take."""
        for row in broken(words, self.right - self.left, SIZE, voice in {"strong", "must"}):
            self.y += STEP
            self.shapes.append(Label(at=(self.left, self.y), words=(row,), voice=voice))
        self.told.append(words)

    def rule(self, role: Role = "thin") -> None:
        self.y += 2.0
        self.shapes.append(line(role, (self.left, self.y), (self.right, self.y)))

    def gap(self, by: float) -> None:
        self.y += by


def grid(stack: Stack, heads: Sequence[Text], rows: Sequence[str]) -> None:
    """Columns of clock readings with a row to tick, and rows to write on."""
    first, room = stack.left + NAMED, (stack.right - stack.left - NAMED) / max(len(heads), 1)
    stack.y += STEP
    for n, head in enumerate(heads):
        x = first + (n + 0.5) * room
        if any(not isinstance(piece, str) or piece.strip("_") for piece in head):
            stack.shapes.append(Label(at=(x, stack.y), words=head, anchor="middle", voice="strong"))
        else:  # to be written in
            stack.shapes.append(line("thin", (x - 0.4 * room, stack.y + 0.6), (x + 0.4 * room, stack.y + 0.6)))
        stack.told.append(plain(head))
    for row in rows:
        stack.rule("hair")
        stack.y += STEP
        stack.shapes.append(Label(at=(stack.left, stack.y), words=(row,)))
        for n in range(len(heads)):
            x = first + (n + 0.5) * room
            if row == rows[0]:
                stack.shapes.append(box("paper-thin", x - 1.6, stack.y - 2.9, 3.2, 3.2))
            else:
                stack.shapes.append(line("thin", (x - 0.38 * room, stack.y + 0.6), (x + 0.38 * room, stack.y + 0.6)))


def beside(stack: Stack, machine: str, corner: str, top: float) -> float:
    """The machine from above with its corner ringed, at the right; how far down it reaches."""
    small = machine_plan(machine, {corner: CornerLook(state="sound", circled=True)}, scale=200.0, labels=False)
    stack.shapes.append(Group(shapes=small.shapes, move=(stack.right - small.width, top)))
    return top + small.height


def cut_out(stack: Stack, says: str, height: float) -> Drawing:
    """The strip with its cut line."""
    return drawn(height, says, box("hidden", 0.1, 0.1, FIELD - 0.2, height - 0.2), *stack.shapes)


def tag(front: Stack, back: Stack, says: str) -> Drawing:
    """A tag: front above, back below, folded on the dotted line."""
    ring = hole()
    shapes: list[Shape] = [
        box("hidden", 0.1, 0.1, FIELD - 0.2, 2 * TAG - 0.2),
        line("centre", (0.0, TAG), (FIELD, TAG)),
        Group(shapes=ring.shapes, move=(2.0, TAG / 2 - 4.0)),
        Group(shapes=ring.shapes, move=(2.0, 1.5 * TAG - 4.0)),
        *_centred(front, 0.0),
        *_centred(back, TAG),
    ]
    return drawn(2 * TAG, f"{says} Front: {' '.join(front.told)} Back: {' '.join(back.told)}", *shapes)


def side() -> Stack:
    """The words of one side of a tag."""
    return Stack(left=HOLE, right=FIELD - 9.0)  # a screen's own face may be wider still


def _centred(stack: Stack, top: float) -> tuple[Shape, ...]:
    return (moved(0.0, top + (TAG - stack.y) / 2 - 0.8, *stack.shapes),)
