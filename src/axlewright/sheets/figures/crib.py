"""The crib from the front, to scale: what is laid on what, and how high it comes."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from axlewright.sheets.drawing import Arrow, Balloon, Dimension, Drawing, Ground, Leader, Shape
from axlewright.sheets.figures import timber
from axlewright.sheets.figures.shapes import FIELD, box, drawn, filled, line, plain, rectangle, words
from axlewright.sheets.text import Text, text

Measure: TypeAlias = Callable[[float], float]
SCALES = (10.0, 12.5, 15.0, 20.0, 25.0, 30.0)
_MIDDLE = 37.0
_THIN = 2.4  # mm on paper, a packer drawn as one black line
_NUMBERS = ("no", "one", "two", "three", "four")
_ROOM_UP = 34.0  # mm, a stack lower than this leaves no room for the words of both its heights: the built one's stand
LETTER = 2.2  # mm, of a letter in the widest face
_BEAM = (13.0, 58.0)  # mm, height and length of the piece of axle beam that is drawn


@dataclass(frozen=True, slots=True)
class Crib:
    """A crib of timbers of one size, in metres."""

    layers: int
    length: float = 0.8
    width: float = 0.12
    height: float = 0.12
    inner: float = 0.56  # outer edge to outer edge of the timbers that lie fore and aft
    plate: tuple[float, float] = (0.56, 0.025)  # length and thickness of the steel plate on top; 0 for none
    packer: float = 0.012  # under the plate; 0 for none
    on_end: int = 2  # timbers in a layer that lies fore and aft
    across: int = 2  # timbers in a layer that lies side to side
    first_on_end: bool = False  # the lowest layer lies fore and aft

    @property
    def stack(self) -> float:
        """Height of the timber alone [m]."""
        return self.layers * self.height

    @property
    def built(self) -> float:
        """Height with packer and plate [m]."""
        return self.stack + self.packer + self.plate[1]


def scale_for(crib: Crib) -> float:
    """The largest of the usual scales at which the crib fits its field."""
    fits = [scale for scale in SCALES if crib.length * 1e3 / scale <= 58 and crib.built * 1e3 / scale <= 62]
    return fits[0] if fits else 40.0


def elevation(crib: Crib, told: Mapping[str, Text] = {}, *, scale: float | None = None, laid: int = 0) -> Drawing:
    """The crib from the front: layers numbered from below, the top one crosses the axle beam.

    Args:
        crib: its measures
        told: words: `load` at the arrow; `plate` and `packer`; on the dimensions `length`, `inner`, `width`, `stack`, `built`; those
            without words are left out
        scale: 15 for 1:15; the largest that fits where none is given
        laid: layers that lie already: their balloons are full

    Returns:
        the drawing; `elevation_words` is its twin
    """
    scale = scale or scale_for(crib)

    def mm(metres: float) -> float:
        return metres * 1000.0 / scale

    beam = 13.5 if "load" in told else 2.0
    seat = beam + _BEAM[0]
    top = seat + mm(crib.plate[1] + crib.packer)
    ground = top + mm(crib.stack)
    shapes: list[Shape] = [
        Ground(y=round(ground, 2), from_x=4.0, to_x=70.0),
        *timber.layers(
            _MIDDLE,
            ground,
            crib.layers,
            mm(crib.length),
            mm(crib.width),
            mm(crib.height),
            mm(crib.inner),
            crib.on_end,
            crib.first_on_end,
        ),
        *_on_top(crib, mm, seat, top),
        *timber.beam(_MIDDLE - _BEAM[1] / 2, beam, _BEAM[1], _BEAM[0]),
        *_numbers(crib, mm, ground, laid),
        *_dimensions(crib, mm, told, ground, top, seat),
    ]
    if "load" in told:
        shapes.append(Arrow(points=((_MIDDLE, beam - 10.6), (_MIDDLE, beam - 1.2)), role="solid-must"))
        shapes += words((_MIDDLE - 2.5, beam - 5.0), told["load"], anchor="end", strong=True)
    if "plate" in told and crib.plate[1]:
        place = (_MIDDLE + mm(crib.plate[0]) / 2 - 1.2, seat + mm(crib.plate[1]) / 2)
        lines = tuple(told[name] for name in ("plate", "packer") if name in told)
        shapes.append(Leader(at=place, to=((FIELD - 2.4, beam - 1.2),), lines=lines, anchor="end"))
    return drawn(
        round(ground + (15.8 if {"length", "inner", "width"} & set(told) else 3.4), 1), _says(crib, scale), *shapes
    )


def elevation_words(crib: Crib, told: Mapping[str, Text]) -> tuple[Text, ...]:
    """The same in words: layers, and what the dimensions say."""
    odd = ", ".join(str(n) for n in range(1, crib.layers + 1, 2))
    even = ", ".join(str(n) for n in range(2, crib.layers + 1, 2))
    side, aft = (even, odd) if crib.first_on_end else (odd, even)
    many = f"of {_NUMBERS[crib.across]} timbers" if crib.across == crib.on_end else "of timbers"
    if crib.across == crib.on_end:
        told_ = [f"{side} side to side" if side else "", f"{aft} fore and aft" if aft else ""]
    else:
        told_ = [
            f"{side} side to side, {_NUMBERS[crib.across]} each" if side else "",
            f"{aft} fore and aft, {_NUMBERS[crib.on_end]} each" if aft else "",
        ]
    lie = text(f"{crib.layers} layers {many}: " + ", ".join(filter(None, told_)))
    return (lie, *((f"{name}: ", *words_) for name, words_ in told.items()))


def _says(crib: Crib, scale: float) -> str:
    on_top = " and ".join(filter(None, ("a packer" if crib.packer else "", "a steel plate" if crib.plate[1] else "")))
    return f"Crib from the front, 1:{scale:g}: {plain(elevation_words(crib, {})[0])}. " + (
        f"On top {on_top} under the axle beam." if on_top else "The axle beam rests on the top layer."
    )


def _on_top(crib: Crib, mm: Measure, seat: float, top: float) -> tuple[Shape, ...]:
    """Plate, hatched as cut steel, and the packer below it."""
    left, long = _MIDDLE - mm(crib.plate[0]) / 2, mm(crib.plate[0])
    shapes: list[Shape] = []
    if crib.packer:
        thin = mm(crib.packer) <= _THIN
        shapes.append(box("solid" if thin else "paper", left, top - mm(crib.packer), long, mm(crib.packer)))
        pieces = 0 if thin else math.ceil(mm(crib.packer) / _THIN)
        shapes += [
            line("thin", (left, y), (left + long, y))
            for n in range(1, pieces)
            for y in [top - n * mm(crib.packer) / pieces]
        ]
    if crib.plate[1]:
        shapes += filled(rectangle(left, seat, long, mm(crib.plate[1])), "cut")
    return tuple(shapes)


def _numbers(crib: Crib, mm: Measure, ground: float, laid: int) -> tuple[Shape, ...]:
    """A balloon for each layer, in the order in which they are laid."""
    shapes: list[Shape] = []
    for layer in range(crib.layers):
        y = round(ground - (layer + 0.5) * mm(crib.height), 2)
        edge = _MIDDLE - (mm(crib.inner) if (layer % 2 == 1) != crib.first_on_end else mm(crib.length)) / 2
        if edge - 0.6 > 7.4:
            shapes.append(line("thin", (6.8, y), (edge - 0.6, y)))
        r = min(2.9, mm(crib.height) / 2 - 0.2)
        shapes.append(Balloon(at=(3.8, y), number=str(layer + 1), r=round(r, 2), full=layer < laid))
    return tuple(shapes)


def _dimensions(
    crib: Crib, mm: Measure, told: Mapping[str, Text], ground: float, top: float, seat: float
) -> tuple[Shape, ...]:
    half, inner = mm(crib.length) / 2, mm(crib.inner) / 2
    low, right = ground + 3.2, _MIDDLE + half
    made = {
        "inner": Dimension(a=(_MIDDLE - inner, low), b=(_MIDDLE + inner, low), away=-4.6, words=(), direction="across"),
        "width": Dimension(
            a=(_MIDDLE + inner - mm(crib.width), low), b=(_MIDDLE + inner, low), away=-4.6, words=(), direction="across"
        ),
        "length": Dimension(a=(_MIDDLE - half, low), b=(right, low), away=-10.6, words=(), direction="across"),
        "stack": Dimension(a=(right, ground), b=(right, top), away=-5.0, words=(), direction="up"),
        "built": Dimension(a=(right, ground), b=(right, seat), away=-12.5, words=(), direction="up"),
    }
    if "inner" in told and "width" in told:  # the width beside the inner distance, not in it
        outer = _MIDDLE + half
        made["width"] = Dimension(
            a=(outer - mm(crib.width), low), b=(outer, low), away=-4.6, words=(), direction="across"
        )
    if mm(crib.stack) >= _ROOM_UP:
        return tuple(one.model_copy(update={"words": told[name]}) for name, one in made.items() if name in told)
    flat = tuple(
        one.model_copy(update={"words": told[name]})
        for name, one in made.items()
        if name in told and one.direction == "across"
    )
    if "built" not in told:
        return flat
    if ground - seat >= LETTER * len(plain(told["built"])):
        return (*flat, made["built"].model_copy(update={"words": told["built"]}))
    middle = (ground + seat) / 2
    to = ((FIELD - 0.6, middle - 4.0), (FIELD - 0.6, 4.8))
    words_ = Leader(at=(right + 12.5, middle), to=to, lines=(told["built"],), anchor="end")
    return (*flat, made["built"], words_)
