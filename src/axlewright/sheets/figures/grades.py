"""A picture for each grade of each finding that the eye can tell: true size where the words say so.

`picture("leak-wheel", "drips")` is a blot of 30 mm. Findings that are heard, smelt or counted have none.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from axlewright.sheets.drawing import Drawing
from axlewright.sheets.figures import grades_bolts, grades_oil, grades_wheel, level, plug

Draw = Callable[[str], Drawing | None]

_PICTURES: Mapping[str, Draw] = {
    "plug": plug.disc,
    "level": level.picture,
    "oil-metal": grades_oil.oil_metal,
    "leak-wheel": grades_oil.leak_wheel,
    "leak-input": grades_oil.leak_input,
    "puddle": grades_oil.puddle,
    "fluid": grades_oil.fluid,
    "where": grades_oil.where,
    "breather": grades_oil.breather,
    "water": grades_oil.water,
    "rock": grades_wheel.rock,
    "seats": grades_wheel.seats,
    "turn": grades_wheel.turn,
    "wobble": grades_wheel.wobble,
    "lean": grades_wheel.lean,
    "backlash": grades_wheel.backlash,
    "heat": grades_wheel.heat,
    "bolts": grades_bolts.bolts,
    "nuts": grades_bolts.nuts,
    "cracks": grades_bolts.cracks,
}
FINDINGS = tuple(_PICTURES)


def picture(finding: str, grade: str) -> Drawing | None:
    """The picture of a grade; none where a finding has no picture. An unknown grade of a pictured finding is an error."""
    draw = _PICTURES.get(finding)
    return draw(grade) if draw else None
