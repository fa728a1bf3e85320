"""Pictures of the step card: where in the steps one is, the jack, the gauge with its bands, who stands where."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from axlewright.sheets.drawing import Arrow, Drawing, Ground, Group, Hatch, Label, Leader, Path, Point, Shape
from axlewright.sheets.figures import outlines
from axlewright.sheets.figures.machine import CORNERS
from axlewright.sheets.figures.outlines import Set
from axlewright.sheets.figures.shapes import (
    FIELD,
    Anchor,
    box,
    circle,
    drawn,
    line,
    lines,
    number,
    plain,
    polygon,
    rectangle,
    voiced,
    words,
)
from axlewright.sheets.figures.support import chocks
from axlewright.sheets.text import Text, text


def strip(count: int, at: int, holds: Collection[int] = ()) -> Drawing:
    """All steps in a row: strokes, squares for hold points, full when done; a triangle under the one at hand.

    Args:
        count: steps
        at: the step at hand, from 1
        holds: steps that are hold points

    Returns:
        the drawing, 8 mm high
    """
    pitch = (FIELD - 2.0) / max(count - 1, 1)
    half = min(1.1, 0.42 * pitch)
    shapes: list[Shape] = []
    for step in range(1, count + 1):
        x = 1.0 + pitch * (step - 1) if count > 1 else FIELD / 2
        done = step < at
        if step in holds:
            shapes.append(box("solid" if done else "paper-thin", x - half, 1.2, 2 * half, 3.4))
        elif done:
            shapes.append(box("solid", x - min(0.45, half), 1.4, 2 * min(0.45, half), 3.0))
        else:
            shapes.append(line("construction", (x, 1.4), (x, 4.4)))
        if step == at:
            shapes.append(polygon("solid-must", ((x, 5.2), (x - 1.3, 7.6), (x + 1.3, 7.6))))
    rest = ", ".join(str(step) for step in sorted(holds))
    return drawn(8.0, f"Step {at} of {count}." + (f" Hold points: {rest}." if rest else ""), *shapes)


def jack(gap: Text = ("gap",), gauge: Text = ("gauge",)) -> Drawing:
    """A jack under the axle beam with its gauge, the tyre just clear of the floor."""
    ground = 34.0
    treads = [((64.3, y), (72.5, y - 1.4), (80.7, y)) for y in (2.4, 5.8, 9.2, 12.6, 16.0, 19.4, 22.8, 26.2, 29.6)]
    dial: Point = (21.0, 22.6)
    ticks = [((-2.77, 1.6), (-3.55, 2.05)), ((-3.15, -0.56), (-4.04, -0.71)), ((-2.06, -2.45), (-2.64, -3.14))]
    ticks += [((0.0, -3.2), (0.0, -4.1))] + [((-a, b), (-c, d)) for (a, b), (c, d) in ticks]
    return drawn(
        37.2,
        "Jack under the axle beam with its gauge. The tyre just clears the floor.",
        Ground(y=ground, from_x=0.0, to_x=FIELD),
        box("paper", 8, 8, 56, 8.5),
        line("centre", (4, 12.2), (63, 12.2)),
        Path(d="M64 .6v28.6a3 3 0 0 0 3 3h11a3 3 0 0 0 3 -3v-28.6", role="paper"),
        lines("thin", treads),
        line("limit", (81.8, 32.3), (87.6, 32.3)),
        Arrow(points=((85.0, 24.6), (85.0, 32.0)), role="solid-must"),
        Label(at=(FIELD, 22.6), words=voiced(gap, "strong"), anchor="end", voice="must"),
        box("paper", 32, 31.8, 24, 2.2),
        box("paper", 35, 29.6, 18, 2.2),
        box("paper", 39, 21.5, 10, 8.1),
        box("paper", 41.3, 17.6, 5.4, 3.9),
        box("paper", 40, 16.5, 8, 1.3),
        line("subject", (39, 27), (24, 27), (18, 30.5)),
        circle("paper", *dial, 4.4),
        line("outline", dial, (24, 20.6)),
        lines("thin", [tuple((dial[0] + x, dial[1] + y) for x, y in tick) for tick in ticks]),
        Leader(at=(16.9, 21.4), to=((1.0, 20.6),), lines=(gauge,), anchor="start"),
        Arrow(points=((36.0, 7.0), (36.0, 1.2)), role="solid-must"),
    )


def gauge(
    go_on: float,
    lower_now: float,
    top: float,
    told: tuple[Text, Text],
    ticks: Sequence[tuple[float, Text]],
    unit: Text,
    reading: float | None = None,
) -> Drawing:
    """The gauge's scale with its three bands: go on, lower and ask, lower now; a stroke at the reading.

    Args:
        go_on: greatest reading at which one goes on, in the gauge's own unit
        lower_now: from here on one lowers now
        top: end of the scale
        told: words over the first and the last band
        ticks: readings with words below them
        unit: the gauge's unit
        reading: what it reads

    Returns:
        the drawing, 17 mm high
    """

    def x(value: float) -> float:
        return round(FIELD * min(max(value / top, 0.0), 1.0), 3)

    step = (ticks[1][0] - ticks[0][0]) / 4 if len(ticks) > 1 else top / 10
    small = [((x(step * k), 10.0), (x(step * k), 11.0)) for k in range(int(top / step) + 1)]
    middle = rectangle(x(go_on), 6.2, x(lower_now) - x(go_on), 3.8)
    shapes: list[Shape] = [
        line("outline", (0.0, 10.0), (FIELD, 10.0)),
        lines("dimension", [*small, *(((x(at), 10.0), (x(at), 11.8)) for at, _ in ticks)]),
        box("paper-thin", 0.0, 6.2, x(go_on), 3.8),
        *((Hatch(rings=(middle,), fill="wearing"), polygon("thin", middle)) if lower_now > go_on else ()),
        box("solid-must", x(lower_now), 6.2, FIELD - x(lower_now), 3.8),
        *words((0.0, 4.2), told[0], strong=True),
        *words((FIELD, 4.2), told[1], anchor="end", voice="must", strong=True),
        *words((FIELD, 16.0), unit, anchor="end", voice="soft"),
    ]
    for at, label in ticks:
        anchor: Anchor = "start" if x(at) < 4 else "middle"
        shapes += words((x(at), 16.0), label, anchor=anchor, voice="soft")
    if reading is not None:
        shapes.append(box("solid", min(max(x(reading) - 0.55, 0.0), FIELD - 1.1), 4.8, 1.1, 6.4))
    return drawn(17.0, f"Scale of the gauge: {plain(told[0])}; between, lower and ask; {plain(told[1])}.", *shapes)


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody with a place: x forward of the front axle, y left of the middle [m]."""

    name: str
    does: str
    at: Point


def usual(corner: str) -> tuple[Person, Person]:
    """Pump behind and clear of the raised corner, helper on the other side, where both see the gauge and each other."""
    side = 1.0 if corner.endswith("left") else -1.0
    return (Person("pump", "from here", (-2.9, 3.6 * side)), Person("helper", "watches", (-1.2, -3.6 * side)))


def people(
    machine: str,
    corner: str,
    jack_at: Point,
    persons: Sequence[Person] = (),
    *,
    keep_off: float = 1.6,
    scale: float = 100.0,
) -> Drawing:
    """Who stands where while a corner is raised: nobody beside or in line with it; chocks at the wheels that stand.

    Args:
        machine: kind of machine
        corner: the raised one
        jack_at: where the jack stands, x forward and y left [m]
        persons: who stands where, `usual` when left out; the first one's hose runs to the jack
        keep_off: how far the zone where nobody stands reaches beyond the wheel [m]
        scale: 100 for 1:100

    Returns:
        the drawing

    Raises:
        ValueError: somebody would stand where nobody may
    """
    persons = persons or usual(corner)
    one = outlines.outline(machine)
    ahead, behind, _ = one.reach(header=False)
    on = Set((44.0, round(ahead * 1000.0 / scale + 3.0, 1)), scale)
    (x, y), diameter, width = outlines.wheel_at(machine, corner, on)
    out = 1.0 if x > on.at[0] else -1.0
    inner, outer = x - out * width / 2, x + out * (width / 2 + on.mm(keep_off))
    left, reach = min(inner, outer), abs(outer - inner)
    tall = diameter + 2 * on.mm(0.6)
    zone = rectangle(round(left, 2), round(y - tall / 2, 2), round(reach, 2), round(tall, 2))
    for who in persons:
        at = on_plan(who.at, on)
        if zone[0][0] <= at[0] <= zone[2][0] and zone[0][1] <= at[1] <= zone[2][1]:
            raise ValueError(f"{who.name} would stand beside the raised corner: nobody may")
    rear = [name for name in CORNERS if name.startswith("rear") and name != corner]
    wheels = [shape for name in rear for shape in outlines.tyre(*_flat(outlines.wheel_at(machine, name, on)))]
    shapes: list[Shape] = [
        Hatch(rings=(zone,), fill="keep out"),
        Group(shapes=(*outlines.body(machine, on), *wheels), context=True),
    ]
    for name in CORNERS:
        at, round_, wide = outlines.wheel_at(machine, name, on)
        shapes += outlines.tyre(*at, round_, wide) if name.startswith("front") or name == corner else ()
        shapes += chocks(*at, round_, wide + 0.6, 1.4) if name != corner else ()
    spot = on_plan(jack_at, on)
    shapes += [circle("paper", *spot, 1.3), circle("solid", *spot, 0.5)]
    shapes += _persons(persons, on, spot)
    anchor: Anchor = "start" if out > 0 else "end"
    shapes += words((outer + out * 0.8, zone[0][1] + 3.4), "never", "here", anchor=anchor, voice="must", strong=True)
    names = "; ".join(f"{who.name} {who.does}" for who in persons)
    says = (
        f"Who stands where, 1:{scale:g}: {names}; nobody beside or in line with the raised corner, {CORNERS[corner]}."
    )
    return drawn(round(on.at[1] + on.mm(behind) + 3.0, 1), says, *shapes)


def on_plan(place: Point, on: Set) -> Point:
    """A place of holding, x forward and y left, on paper."""
    return (on.at[0] - on.mm(place[1]), on.at[1] - on.mm(place[0]))


def _flat(wheel: tuple[Point, float, float]) -> tuple[float, float, float, float]:
    (x, y), diameter, width = wheel
    return x, y, diameter, width


def _persons(persons: Sequence[Person], on: Set, jack_at: Point) -> tuple[Shape, ...]:
    shapes: list[Shape] = []
    for turn, who in enumerate(persons):
        x, y = on_plan(who.at, on)
        if turn == 0:
            n = number
            bend = ((x + jack_at[0]) / 2, y + 0.2 * (jack_at[1] - y) - 4.0)
            d = f"M{n(x)} {n(y)}Q{n(bend[0])} {n(bend[1])} {n(jack_at[0])} {n(jack_at[1])}"
            shapes.insert(0, Path(d=d, role="thin"))
        shapes += [circle("solid", x, y, 1.2)]
        shapes += words((x, y + 5.2), who.name, anchor="middle", strong=True)
        shapes += words((x, y + 9.4), text(who.does), anchor="middle")
    return tuple(shapes)
